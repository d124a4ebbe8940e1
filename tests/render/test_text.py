"""Paragraphs as they are wrapped: as the standard library would, and a word that is too long stands alone, whole."""

from __future__ import annotations

import random
from textwrap import wrap

from ledger_tools.render.columns import WIDTH
from ledger_tools.render.text import paragraph


def test_paragraphs_are_wrapped_as_the_standard_library_does() -> None:
    chance = random.Random(7)
    for _ in range(300):
        text = " ".join("x" * chance.randint(1, 18) for _ in range(chance.randint(0, 60)))
        first, rest = " " * chance.randint(0, 14), " " * chance.randint(0, 14)

        expected = wrap(text, WIDTH, initial_indent=first, subsequent_indent=rest, break_on_hyphens=False)
        assert paragraph(text, first, rest) == expected


def test_a_word_longer_than_the_page_stands_alone_and_whole() -> None:
    long = "receipts/" + "a" * WIDTH

    assert paragraph(f"see {long} there", "- ", "  ") == ["- see", f"  {long}", "  there"]


def test_blanks_and_line_ends_are_one_blank() -> None:
    assert paragraph("one\n  two\tthree", "", "") == ["one two three"]
    assert paragraph("  ", "- ", "") == []
