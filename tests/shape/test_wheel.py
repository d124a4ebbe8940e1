"""What is installed: the grammar is found, every data file of the package is there, nothing else came along."""

from __future__ import annotations

import subprocess
import sys
from importlib.resources import files
from pathlib import Path

CHECKOUT = Path(__file__).parents[2]
PACKAGE = Path(str(files("ledger_tools")))


def test_the_grammar_is_found_and_whole() -> None:
    from ledger_tools.language.grammar import folder

    assert sorted(p.name for p in folder().glob("*.lark")) == sorted(
        p.name for p in (CHECKOUT / "grammar").glob("*.lark")
    )


def test_every_data_file_is_installed() -> None:
    kinds = (".toml", ".md", ".jinja", ".css")
    wanted = {p.relative_to(CHECKOUT / "ledger_tools") for p in (CHECKOUT / "ledger_tools").rglob("*")
              if p.suffix in kinds}  # fmt: skip

    assert {p for p in wanted if not (PACKAGE / p).is_file()} == set()


def test_nothing_of_the_tests_or_samples_is_installed() -> None:
    if PACKAGE.parent == CHECKOUT:
        return  # an editable install has the checkout itself on the path

    assert not (PACKAGE.parent / "sample_books").exists()
    assert not (PACKAGE.parent / "tests" / "shape").exists()


def test_help_imports_nothing_heavy() -> None:
    code = (
        "import sys; from click.testing import CliRunner; from ledger_tools.commands import cli; "
        "r = CliRunner().invoke(cli, ['--help']); assert r.exit_code == 0; "
        "print([m for m in ('lark', 'pandas', 'numpy', 'jinja2') if m in sys.modules])"
    )
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert out.stdout.strip() == "[]"


def test_proof_of_a_plain_book_loads_nothing_heavy_and_nothing_that_judges(tmp_path: Path) -> None:
    book = tmp_path / "a.book"
    text = 'landlord me "Me"\nproperty mill-3 "3 Mill Lane"\nat mill-3\n9 Jun 2025 replaced boiler £900.00\n'
    book.write_text(text, encoding="utf-8")
    code = (
        "import sys; from click.testing import CliRunner; from ledger_tools.commands import cli; "
        f"r = CliRunner().invoke(cli, ['proof', {str(book)!r}]); assert r.exit_code == 0, r.output; "
        "heavy = ('pandas', 'numpy', 'jinja2', 'lark', 'ledger_tools.verdicts.rules', 'ledger_tools.law'); "
        "print([m for m in sys.modules if m.startswith(heavy)])"
    )
    subprocess.run([sys.executable, "-c", code], check=True, capture_output=True)  # the tables are kept from here on
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert out.stdout.strip() == "[]"
