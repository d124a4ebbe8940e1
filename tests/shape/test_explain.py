"""Every word, problem code, verdict and rule has its page, every page its subject, and every example can be read."""

from __future__ import annotations

import ast
import re
import tomllib
from collections import Counter
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path

import pytest

from ledger_tools import explain
from ledger_tools.explain.houses import HOUSES
from ledger_tools.explain.rule_pages import Example, judged
from ledger_tools.language.blocks import cut, plain
from ledger_tools.language.grammar import words
from ledger_tools.language.mistakes.tables import SIGNS
from ledger_tools.language.reading import read
from ledger_tools.language.records import Piece
from ledger_tools.statements.void_letter import CODES
from ledger_tools.verdicts.registry import all_rules
from ledger_tools.verdicts.verdict import Cgt, Confidence, Kind

PACKAGE = Path(str(files("ledger_tools")))
PAGES = PACKAGE / "explain"
VOCABULARY = sorted({word for held in words().says.values() for word in held})
EXAMPLES = [*explain.words().values(), *explain.verdicts().values()]


def pieces(example: str) -> Iterator[Piece]:
    """The tokens of every block of an example; a block that does not read fails."""
    blocks = cut(plain(example))
    assert blocks, "an example without a block"
    for block in blocks:
        reading = read(block.text)
        assert reading.stop is None, f"{block.text!r} stops at {reading.stop.piece.value!r}"
        yield from reading.pieces


# ── words and verdicts ───────────────────────────────────────────────────────────────────────────────────────────


def test_every_word_of_the_language_is_explained_and_no_other() -> None:
    assert sorted(explain.words()) == VOCABULARY


def test_a_word_is_explained_once() -> None:
    groups = [tomllib.loads(path.read_text(encoding="utf-8"))["word"] for path in (PAGES / "words").glob("*.toml")]
    said = Counter(entry["word"] for group in groups for entry in group)

    assert [word for word, times in said.items() if times > 1] == []


def test_every_verdict_is_explained_and_no_other() -> None:
    assert set(explain.verdicts()) == {*Kind, *Cgt, *Confidence}


@pytest.mark.parametrize("page", EXAMPLES, ids=lambda page: f"{page.kind}: {page.subject}")
def test_a_page_says_something_and_its_example_reads(page: explain.Page) -> None:
    assert page.kind
    assert re.search(r"[.!?]$", page.text)
    assert list(pieces(page.example))


@pytest.mark.parametrize("word", VOCABULARY)
def test_the_example_of_a_word_uses_it_as_a_word_of_the_language(word: str) -> None:
    page = explain.words()[word]
    used = {piece.type for piece in pieces(page.example) if piece.value == word}

    assert used & {name for name, held in words().says.items() if word in held}


@pytest.mark.parametrize("subject", explain.verdicts())
def test_the_example_of_a_verdict_gives_it(subject: str) -> None:
    page = explain.verdicts()[subject]
    setting = next(name for name, house in HOUSES.items() if house.words == page.where)
    verdict = judged(Example(page.example, setting))

    if subject == "arguable":
        assert verdict.arguable and verdict.confidence is Confidence.ARGUABLE
    elif subject in set(Cgt):
        assert {part.cgt for part in verdict.parts} == {subject}
    elif subject in set(Confidence):
        assert verdict.confidence == subject
    else:
        assert subject in {part.kind for part in verdict.parts}
    assert page.source


# ── problem codes ────────────────────────────────────────────────────────────────────────────────────────────────

# Functions whose first argument is the code of a problem.
MAKERS = frozenset({"Problem", "placed", "_problem", "tell", "CannotSplit", "_unreadable", "_unknown", "error"})
# In these modules codes also stand in tuples and behind other arguments, and nothing else looks like one.
LOOSELY = [path for path in (PACKAGE / "language" / "mistakes").glob("*.py") if path.stem != "tables"]
LIKE_A_CODE = re.compile(r"[a-z]+(?:-[a-z0-9]+)+")
# Codes put together from a beginning and a word.
ENDINGS = {"join-with-": ("then", "and")}


def codes_in(path: Path) -> Iterator[str]:
    """The problem codes that a module can raise, as they stand in its text."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call) and node.args:
            name = getattr(node.func, "attr", "") or getattr(node.func, "id", "")
            yield from codes_of(node.args[0]) if name in MAKERS else ()
        elif path in LOOSELY and isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield from [node.value] if LIKE_A_CODE.fullmatch(node.value) else ()


def codes_of(code: ast.expr) -> Iterator[str]:
    if isinstance(code, ast.Constant) and isinstance(code.value, str):
        yield code.value
    elif isinstance(code, ast.JoinedStr):
        beginning = code.values[0]
        assert isinstance(beginning, ast.Constant)
        yield from (f"{beginning.value!s}{ending}" for ending in ENDINGS[str(beginning.value)])


RAISED = {code for path in PACKAGE.rglob("*.py") for code in codes_in(path)} | {sign.code for sign in SIGNS}

# What no story can show: files that a page cannot write, and a note that `proof` does not give.
UNPLAYED = frozenset(
    {
        "long-line", "no-permission", "not-opened", "not-text", "too-big", "too-many-books",
        "wrong-encoding",
    }
)  # fmt: skip


def test_the_finder_finds_codes() -> None:
    """Guards the tests below: one code of each way in which the sources write them."""
    assert {"sum-off", "which-house", "shares-mixed", "too-big", "unknown-council", "thing-unknown"} <= RAISED
    assert {"doubled", "missing-comma", "two-digit-year", "unknown-fact", "join-with-then", "semicolon"} <= RAISED


def test_every_code_has_a_page_and_no_other() -> None:
    assert sorted(explain.codes()) == sorted(RAISED)


@pytest.mark.parametrize("code", explain.codes())
def test_the_page_of_a_code_shows_it_and_how_it_is_mended(code: str) -> None:
    page = (PAGES / "codes" / f"{code}.md").read_text(encoding="utf-8")

    assert page.startswith(f"# {code}\n")
    assert "\nHow to mend it: " in page
    if code in UNPLAYED:
        return
    wrong, right = re.findall(r"^```console\n(.*?)^```$", page, re.M | re.S)
    assert set(re.findall(r"^(?:Error|Doubt|Note): (?:.*\n)*?.*  ?\(([a-z0-9-]+)\)$", wrong, re.M)) == {code}
    assert "\nThe book is sound.\n" in right


# ── reasons of bills ─────────────────────────────────────────────────────────────────────────────────────────────


def test_every_reason_of_a_bill_is_explained_and_no_other() -> None:
    assert set(explain.bills()) == {*CODES, "rounding"}
    assert all(page.text and page.source for page in explain.bills().values())


# ── looking up ───────────────────────────────────────────────────────────────────────────────────────────────────


def test_every_rule_is_explained() -> None:
    assert set(explain.rules()) == {rule.slug for rule in all_rules()}
    for slug in explain.rules():
        page = explain.rule_page(slug)
        assert page is not None and page.text
        assert all(f"\n{words}" in page.more for words in ("It rests on: ", "It would change if: ", "Keep: ", "Why: "))
        assert page.more.count("\nWhat comes of it: ") == 2


@pytest.mark.parametrize("subject", explain.subjects())
def test_every_subject_can_be_looked_up(subject: str) -> None:
    page = explain.look_up(subject.upper())

    assert page is not None
    assert page.subject == subject or page.subject == subject.replace("-", " ")


def test_a_name_of_several_subjects_tells_them_all() -> None:
    page = explain.look_up("private")

    assert page is not None
    assert page.kind.startswith("your own ruling;")
    assert explain.words()["private"].text in page.text
    assert explain.verdicts()["private"].text in page.text
    assert explain.rules()["private"].text in page.text
    assert explain.look_up("same-again") == explain.look_up("same again")


def test_what_is_no_subject_has_no_page() -> None:
    assert explain.look_up("wheelbarrow race") is None
