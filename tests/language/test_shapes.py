"""Blocks of one shape are put together without the parser, and come out as the parser would have made them."""

from __future__ import annotations

import re
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ledger_tools.language import reading
from ledger_tools.language.blocks import cut, plain
from ledger_tools.language.reading import Reading, forget, read
from ledger_tools.language.records import Clause, Piece, Statement
from ledger_tools.language.shapes import filling
from ledger_tools.language.tables import tables
from tests.language.generated import blocks
from tests.language.test_events import texts
from tests.language.walk import ways

TELLING = [
    "1 Jan 2020", "29 Feb 2023", "29 feb. 2024", "9th June 2025", "2025-06-09", "1/2/2025", "£1", "£ 1,000", "£1,00",
    "£1.5", "£123456789012345678901234567890", '""', '"17 May 2020"', "17 May 2020", "18", "B", "a.b", "EUR 9.00",
]  # fmt: skip


def laid_down(said: Any) -> Any:
    """A record with all its places, which pieces leave out when they are compared."""
    if isinstance(said, Piece):
        return (said.type, said.value, said.start_pos, said.end_pos)
    if isinstance(said, (Clause, Statement, tuple)):
        return (type(said).__name__, *(laid_down(part) for part in said))
    return said


def long_way(text: str) -> Reading:
    """The block as the parser reads it."""
    forget()
    return read(text)


def filled_with(text: str, values: list[str]) -> str:
    """The block with other values in the places of its own."""
    _, found = filling(text)
    for match, other in reversed(list(zip(found, values, strict=True))):
        start, end = match.span(match.lastindex or 0)
        text = text[:start] + other + text[end:]
    return text


def short_way(text: str, teachers: list[str]) -> Reading:
    """The block after others of its shape were read."""
    forget()
    for other in teachers:
        read(other)
    return read(text)


def taught(text: str) -> list[str]:
    """Three blocks of the shape of this one, filled with something else: the last of them goes the short way too."""
    return [filled_with(text, [other(match, by) for match in filling(text)[1]]) for by in (4, 8, 2)]


def other(match: re.Match[str], by: int) -> str:
    """Another value of the same kind and length: other figures, of a day the year's last, and other letters."""
    typed = match[match.lastindex or 0]
    figures = r"\d(?=\D*$)" if match.lastgroup == "DATE" and "-" not in typed else r"\d(?=-\d\d-)"
    if match.lastgroup != "DATE":
        figures = r"\d"
    said = re.sub(figures, lambda digit: str((int(digit[0]) + by) % 10), typed)
    return re.sub("[a-z]", "x", said) if match.lastgroup == "STRING" else said


@pytest.fixture(scope="module")
def corpus() -> list[str]:
    return sorted({block.text for text in texts() for block in cut(plain(text))})


def test_every_block_that_people_read_comes_out_the_same_either_way(corpus: list[str]) -> None:
    short = 0
    for text in corpus:
        expected = long_way(text)
        found = short_way(text, taught(text))
        short += reading._shapes.get(filling(text)[0]) is not None

        assert laid_down(found.statement) == laid_down(expected.statement), text
        assert found.stop == expected.stop, text
    assert short > len(corpus) // 2  # most lines go the short way, or this shows nothing


@given(blocks(), st.data())
def test_whatever_fills_a_shape_comes_out_the_same_either_way(text: str, data: st.DataObject) -> None:
    text = plain(text)
    values = [data.draw(st.sampled_from(TELLING)) for _ in filling(text)[1]]
    filled_as_drawn = filled_with(text, values)
    expected = long_way(filled_as_drawn)
    found = short_way(filled_as_drawn, [text, *taught(text), *taught(filled_as_drawn)])

    assert laid_down(found.statement) == laid_down(expected.statement)
    assert found.stop == expected.stop


def test_no_day_can_follow_a_run_of_words() -> None:
    """Else "tap 9th Jun 2025" and "tap 9 Jun 2025" would be one shape, and the run would reach into the first."""
    wrong = [path for path, stack in ways() if path[-1:] == ("WORDS",) and "DATE" in tables().accepted(stack)]

    assert wrong == []


@pytest.mark.parametrize("odd", ["30 Feb 2020", "29 Feb 2021", "1 Jan 1850"])
def test_a_value_that_means_nothing_is_told_of_where_it_stands(odd: str) -> None:
    text = f"{odd} paid rates £5"
    found = short_way(text, ["1 May 2020 paid rates £5", "2 May 2021 paid rates £6", "11 May 2020 paid rates £5"])

    assert found == long_way(text)
    assert found.stop is not None


def test_a_sum_and_a_quoted_word_of_one_length_are_two_shapes() -> None:
    note = '1 May 2020 paid rates "ab"'
    text = "1 May 2020 paid rates £123"

    assert laid_down(short_way(text, [note, *taught(note)])) == laid_down(long_way(text))


def test_a_sum_in_a_remark_fills_nothing() -> None:
    text = "1 May 2020 invoiced £5 by kestrel # £7 at first\n    replaced tap £3\n    replaced tap £2"

    assert laid_down(short_way(text, taught(text))) == laid_down(long_way(text))


def test_shapes_do_not_pile_up(monkeypatch: pytest.MonkeyPatch) -> None:
    forget()
    monkeypatch.setattr(reading, "MOST_SHAPES", 10)
    for number in range(100):
        read(f"1 May 2020 paid rates{'s' * number} £5")

    assert len(reading._shapes) <= 10
