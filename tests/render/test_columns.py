"""Rows lined up on a page of a fixed width: what is too long goes on below, and no number is broken."""

from __future__ import annotations

import re

from hypothesis import given
from hypothesis import strategies as st

from ledger_tools.render.columns import WIDTH, columns, lined_up

SUMS = st.integers(-10_000_000, 10_000_000).map(lambda n: f"£{n / 100:,.2f}")
WORDS = st.lists(st.text("abcdefgh", min_size=1, max_size=14), max_size=12).map(" ".join)
PLACES = st.integers(1, 999).map(lambda n: f"sample_books/long_name_of_a_folder/diary.book:{n}")
ROWS = st.lists(st.tuples(PLACES, st.just("23 May 2025"), WORDS, WORDS, SUMS), min_size=1, max_size=8)


def test_what_fits_is_only_lined_up() -> None:
    rows = [("rent", "£925.00", "a month"), ("council tax", "£5.00", "")]

    assert columns(rows, right=(1,)) == ["rent          £925.00   a month", "council tax     £5.00"]
    assert columns(rows, right=(1,), gap="  ", margin="    ")[0] == "    rent         £925.00  a month"


def test_what_is_too_long_goes_on_below_and_the_sums_stand_in_their_column() -> None:
    long = "replaced boiler, Brightwater Plumbing & Heating of Wexcombe and Anytown"
    rows = [("sample_books/saltmarsh/diary.book:37", "9 Jun 2025", long, "£2,310.00"),
            ("sample_books/saltmarsh/diary.book:43", "10 Jun 2025", "sold copper", "£38.00")]  # fmt: skip

    assert lined_up(rows, right=(3,), margin="        ") == [
        [
            "        sample_books/saltmarsh/diary.book:37   9 Jun 2025    replaced boiler,          £2,310.00",
            "                                                             Brightwater Plumbing &",
            "                                                             Heating of Wexcombe and",
            "                                                             Anytown",
        ],
        ["        sample_books/saltmarsh/diary.book:43   10 Jun 2025   sold copper                  £38.00"],
    ]


def test_a_place_is_broken_only_where_words_cannot_give_way() -> None:
    place = "/home/robin/Documents/letting/books of the houses/saltmarsh/the year 2025-26/diary.book:37"
    (row,) = lined_up([(place, "9 Jun 2025", "replaced boiler", "£2,310.00")], right=(3,))

    assert all(len(line) <= WIDTH for line in row)
    assert row[0].endswith("9 Jun 2025   replaced boiler   £2,310.00")


@given(ROWS, st.integers(0, 12))
def test_no_line_is_wider_than_the_page_and_no_word_is_lost(rows: list[tuple[str, ...]], margin: int) -> None:
    drawn = lined_up(rows, right=(4,), margin=" " * margin)

    assert all(len(line) <= WIDTH and line == line.rstrip() for lines in drawn for line in lines)
    for row, lines in zip(rows, drawn, strict=True):
        assert sorted("".join(row).replace(" ", "")) == sorted("".join(lines).replace(" ", ""))
        assert lines[0].endswith(row[4]) and row[1] in lines[0]
    ends = {len(lines[0]) for lines in drawn}
    assert len(ends) == 1


@given(ROWS)
def test_a_day_and_a_sum_are_never_broken(rows: list[tuple[str, ...]]) -> None:
    drawn = "\n".join(columns(rows, right=(4,), margin=" " * 30))

    assert len(re.findall(r"23 May 2025", drawn)) == len(rows)
    assert all(sum_ in drawn for *_, sum_ in rows)
