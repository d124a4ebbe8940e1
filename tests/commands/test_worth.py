"""What `worth` takes and refuses: sums, per cents, weeks, and which house a try is for."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from ledger_tools.commands import cli

TWO = """
landlord x "X"
property a "1 A Street"
    nation england
    exchanged 1 Apr 2025
    bought 1 May 2025 for £100,000, additional dwelling
property b "2 B Street"
    nation england
    exchanged 1 Apr 2025
    bought 2 May 2025 for £50,000, additional dwelling
"""


def run(folder: Path, *words: str) -> Result:
    (folder / "a.book").write_text(TWO, encoding="utf-8")
    result = CliRunner().invoke(cli, ["worth", str(folder), "--on", "2025-06-01", *words])
    if result.exception and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--rent", "lots", "--property", "a"), '"lots" is not a sum'),
        (("--empty", "four", "--property", "a"), '"four" is not a number'),
        (("--rate", "-1", "--property", "a"), '"-1" is not a number'),
        (("--rate", "5.", "--property", "a"), '"5." is not a number'),
        (("--rate", "9" * 5000, "--property", "a"), "is not a number"),
        (("--price", "9" * 5000, "--property", "a"), "is not a sum"),
        (("--empty", "52.5", "--property", "a"), "52 weeks"),
        (("--stress", "5.5"), "needs both numbers"),
        (("--cover", "145"), "needs both numbers"),
        (("--rent", "500"), "Of which house?"),
        (("--value", "£120,000"), "Of which house?"),
        (("--property", "c"), 'no property called "c"'),
    ],
)
def test_what_it_refuses(tmp_path: Path, words: tuple[str, ...], said: str) -> None:
    result = run(tmp_path, *words)

    assert result.exit_code == 2
    assert said in " ".join(result.output.split())


def test_sums_and_numbers_as_people_type_them(tmp_path: Path) -> None:
    plain = run(tmp_path, "--property", "a", "--rent", "900", "--empty", "4")
    signs = run(tmp_path, "--property", "a", "--rent", "£900.00", "--empty", "4.0")

    assert plain.exit_code == 0
    assert plain.output == signs.output


def test_json_has_every_house_and_its_keys(tmp_path: Path) -> None:
    told = json.loads(run(tmp_path, "--format", "json").output)

    assert told["statement"] == "worth"
    assert [house["property"] for house in told["houses"]] == ["a", "b"]
    assert set(told["houses"][0]) == {
        "property", "name", "day", "cost", "total", "finance", "advances", "repaid", "owed", "cash", "value",
        "land_tax", "years", "lending", "empty_week", "earned", "all_earned", "gaps", "rates", "notes",
    }  # fmt: skip


def test_a_book_without_a_house(tmp_path: Path) -> None:
    (tmp_path / "a.book").write_text('landlord x "X"\n', encoding="utf-8")
    result = CliRunner().invoke(cli, ["worth", str(tmp_path)])

    assert (result.exit_code, result.output.strip()) == (1, "There is no property in this book yet.")
