"""The lines and lets of one house of a book, as they stand in the whole book."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from ledger_tools.book.build import build

BOOK = """
landlord x "X"
property a "1 A Street"
property b "2 B Street"
tenancy t at b
    tenants "T. Enant"
    periodic from 1 Jun 2015
tenancy u at a
    tenants "U. Sher"
    periodic from 1 Jun 2016
tenancy v at b
    tenants "V. Isitor"
    periodic from 1 Jun 2017
1 Jul 2017 repaired tap £10.00 at a
2 Jul 2017 paid insurance £20.00 across a and b, split equally
3 Jul 2017 noted "a letter to nobody"
4 Jul 2017 repaired tap £40.00 at b
"""


def test_a_house_has_its_own_lines_and_those_of_no_house_in_order() -> None:
    made = build({"a.book": BOOK})

    assert [entry.day.first.day for entry in made.about("a")] == [1, 2, 3]
    assert [entry.day.first.day for entry in made.about("b")] == [2, 3, 4]
    assert [entry.day.first.day for entry in made.about("c")] == [3]


def test_a_house_has_its_own_lets_in_order() -> None:
    made = build({"a.book": BOOK})

    assert [[let.name for let in made.lets_of(house)] for house in "abc"] == [["u"], ["t", "v"], []]


def test_a_book_with_other_lines_has_its_own_order() -> None:
    made = build({"a.book": BOOK})
    assert len(made.about("a")) == 3 and len(made.lets_of("b")) == 2

    early = replace(made, entries=tuple(e for e in made.entries if e.day.first < date(2017, 7, 2)), tenancies={})

    assert len(early.about("a")) == 1
    assert early.lets_of("b") == ()
