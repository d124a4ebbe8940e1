"""Screens of a phone: never wider, never longer, and nothing is left out."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from ledger_tools.render.phone import ACROSS, DOWN, screens, wrap

WORDS = st.lists(st.text("abc", min_size=1, max_size=90), max_size=8)


@given(WORDS)
def test_words_are_wrapped_and_long_ones_cut(words: list[str]) -> None:
    lines = wrap(" ".join(words), "- ", "  ")

    assert all(len(line) <= ACROSS for line in lines)
    assert "".join(lines).replace(" ", "").replace("-", "") == "".join(words)


@given(st.lists(st.lists(st.just("a line"), max_size=45), max_size=6), st.integers(1, 70))
def test_blocks_fill_screens_and_no_line_is_lost(blocks: list[list[str]], heading: int) -> None:
    found = screens("h" * heading, blocks)

    assert all(len(page) <= DOWN and len(line) <= ACROSS for page in found for line in page)
    assert sum(page.count("a line") for page in found) == sum(map(len, blocks))


def test_a_block_is_kept_together_where_it_fits() -> None:
    first, second = screens("kitchen", [["a"] * 12, ["b"] * 10])

    assert (first.count("b"), second.count("b")) == (0, 10)
    assert (first[0], second[0]) == ("kitchen (1 of 2)", "kitchen (2 of 2)")
