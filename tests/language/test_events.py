"""Eighty things that happen to landlords can be said, and every production of the grammar is used by somebody."""

from __future__ import annotations

import re
from pathlib import Path

from ledger_tools.book.build import build
from ledger_tools.language.blocks import cut, plain
from ledger_tools.language.reading import Lexing, read
from ledger_tools.language.tables import tables
from ledger_tools.language.tidy import tidy
from ledger_tools.problems import Level

HERE = Path(__file__).parent
CHECKOUT = HERE.parents[1]
EVENTS = HERE / "eighty_events.book"
FENCE = re.compile(r"^```book \S+\n(.*?)^```$", re.M | re.S)

# What eighty separate scenes say of one house, one scheme or one loan is at odds by nature, and their people, papers
# and files are told nowhere; what could not be read, and what adds up wrongly, is not.
BETWEEN_SCENES = {
    "name-taken", "unknown-name", "unknown-paper", "which-house", "unknown-house", "unknown-landlord", "file-missing",
    "let-without-start", "same-paper-twice", "no-house", "shares-not-whole", "no-owner",
}  # fmt: skip


def test_all_eighty_events_read_as_one_would_say_them() -> None:
    text = EVENTS.read_text(encoding="utf-8")
    blocks = cut(plain(text))

    assert len(re.findall(r"^# [A-Z]\d+$", text, re.M)) == 80
    assert [block.text for block in blocks if read(block.text).stop] == []
    assert len(blocks) >= 95


def test_all_eighty_events_are_built_and_tidied() -> None:
    text = EVENTS.read_text(encoding="utf-8")
    book = build({"events.book": text})
    errors = {p.code for p in book.problems if p.level is Level.ERROR}

    assert errors - BETWEEN_SCENES == set()
    assert len(book.entries) >= 60
    assert tidy(tidy(text)) == tidy(text)


def productions(text: str) -> set[int]:
    """The rules of the grammar that a block completes."""
    made = tables()
    stack = [made.start]
    found: set[int] = set()

    def take(kind: str) -> None:
        while True:
            step = made.steps[stack[-1]][kind]
            if step >= 0:
                stack.append(step)
                return
            found.add(-step - 1)
            origin, size, *_ = made.rules[-step - 1]
            del stack[-size:]
            stack.append(made.gotos[stack[-1]][origin])
            if kind == "$END" and stack[-1] == made.end:
                return

    for piece in Lexing(text, made, stack).tokens():
        take(piece.type)
    take("$END")
    return found


def texts() -> list[str]:
    """All books that people read: the samples, the stories, the pages about messages, the eighty events, the README."""
    found = [p.read_text(encoding="utf-8") for p in (CHECKOUT / "sample_books").rglob("*.book")]
    pages = [
        CHECKOUT / "README.md", *(CHECKOUT / "tests" / "stories").rglob("*.md"),
        *(CHECKOUT / "ledger_tools" / "explain" / "codes").glob("*.md"),
    ]  # fmt: skip
    for page in pages:
        found += FENCE.findall(page.read_text(encoding="utf-8"))
    return [*found, EVENTS.read_text(encoding="utf-8")]


def test_every_production_of_the_grammar_is_used() -> None:
    """A production is a rule with one of its parts: `tenancy` with `rent_free`, `retention` with a percentage.

    (Lark writes `a? b*` out as four rules; which of the four a text completes says nothing of the language.)
    """
    rules = tables().rules
    wanted = {
        (origin, symbol) for origin, _, _, _, _, symbols in rules for symbol in symbols
        if not symbol.startswith("__") or symbol.startswith("__ANON")  # helpers of Lark's own for `*` and `+`
    }  # fmt: skip
    used: set[tuple[str, str]] = set()
    for text in texts():
        for block in cut(plain(text)):
            if read(block.text).stop is None:
                for number in productions(block.text):
                    origin, _, _, _, _, symbols = rules[number]
                    used |= {(origin, symbol) for symbol in symbols}

    assert sorted(wanted - used) == []
    assert len(wanted) > 400, len(wanted)
