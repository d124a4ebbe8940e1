"""Whose income a house is on a day: spouses, third owners, Form 17."""

from __future__ import annotations

from datetime import date

import pytest

from ledger_tools.book.build import build
from ledger_tools.problems import Level
from ledger_tools.taxes.income.owners import in_time, tax_shares


def shares(people: dict[str, str], owned: str, day: date = date(2025, 7, 1)) -> dict[str, str]:
    """The shares of house a on a day; people are names with a line of their block."""
    text = "".join(f'landlord {n} "{n.upper()}"\n' + (f"    {line}\n" if line else "") for n, line in people.items())
    text += 'property a "1 A Street"\n' + "".join(f"    {line}\n" for line in owned.split("; "))
    book = build({"a.book": text})
    assert [p.headline for p in book.problems if p.level is Level.ERROR] == []
    found = tax_shares(book, "a", day).parts
    assert sum(part for _, part in found) == 1
    return {name: f"{float(part * 100):g}" for name, part in found}


HALVES = {"x": "50", "y": "50"}
OWNED = {"x": "90", "y": "10"}
OWNERS = "owners x 90% and y 10%"


def test_people_who_are_not_married_have_what_they_own() -> None:
    assert shares({"x": "", "y": ""}, OWNERS) == OWNED


@pytest.mark.parametrize("people", [{"x": "married to y", "y": ""}, {"x": "", "y": "married to x"},
                                    {"x": "married to y", "y": "married to x"}])  # fmt: skip
def test_a_marriage_told_on_either_side_is_enough(people: dict[str, str]) -> None:
    """ITA 2007 s. 836."""
    assert shares(people, OWNERS) == HALVES


@pytest.mark.parametrize("people", [{"x": "married to y from 1 Jul 2025", "y": ""},
                                    {"x": "", "y": "married to x from 1 Jul 2025"}])  # fmt: skip
def test_a_marriage_counts_from_its_day(people: dict[str, str]) -> None:
    assert shares(people, OWNERS, date(2025, 6, 30)) == OWNED
    assert shares(people, OWNERS, date(2025, 7, 1)) == HALVES


def test_a_spouse_who_owns_nothing_of_the_house_has_no_part() -> None:
    people = {"x": "married to y", "y": "", "z": ""}

    assert shares(people, "owners x") == {"x": "100"}
    assert shares(people, "owners x 60% and z 40%") == {"x": "60", "z": "40"}


def test_a_third_owner_keeps_the_share_owned() -> None:
    people = {"x": "married to y", "y": "", "z": ""}

    assert shares(people, "owners z 20% and x 70% and y 10%") == {"z": "20", "x": "40", "y": "40"}


def test_two_couples_share_each_their_own_part() -> None:
    """ITA 2007 s. 836 speaks of each pair of spouses."""
    people = {"x": "married to y", "y": "", "z": "", "w": "married to z"}

    assert shares(people, "owners x 40% and y 10% and z 35% and w 15%") == {"x": "25", "y": "25", "z": "25", "w": "25"}


# ── Form 17 ──────────────────────────────────────────────────────────────────────────────────────────────────────

COUPLE = {"x": "married to y", "y": ""}


@pytest.mark.parametrize(
    "sent, good", [("30 Jun 2025", True), ("28 Aug 2025", True), ("29 Aug 2025", False), ("29 Jun 2025", False)]
)
def test_a_declaration_counts_where_it_was_sent_within_sixty_days_of_signing(sent: str, good: bool) -> None:
    """ITA 2007 s. 837(4): within 60 days beginning with its date."""
    owned = f"{OWNERS}; form 17 signed 30 Jun 2025, sent {sent}"

    assert shares(COUPLE, owned, date(2025, 6, 30)) == (OWNED if good else HALVES)
    assert shares(COUPLE, owned, date(2025, 6, 29)) == HALVES


def test_days_allowed_begin_with_the_day_of_signing() -> None:
    assert in_time(date(2025, 1, 1), date(2025, 3, 1))  # day 60
    assert not in_time(date(2025, 1, 1), date(2025, 3, 2))
    assert not in_time(date(2025, 1, 2), date(2025, 1, 1))


def test_a_declaration_holds_until_the_shares_change() -> None:
    changed = f"{OWNERS}; owners x 80% and y 20% from 1 Aug 2025; form 17 signed {{}}, sent 2 Aug 2025"

    assert shares(COUPLE, changed.format("1 Jul 2025"), date(2025, 7, 31)) == OWNED
    assert shares(COUPLE, changed.format("1 Jul 2025"), date(2025, 8, 1)) == HALVES
    assert shares(COUPLE, changed.format("31 Jul 2025"), date(2025, 8, 1)) == HALVES
    assert shares(COUPLE, changed.format("1 Aug 2025"), date(2025, 8, 1)) == {"x": "80", "y": "20"}


def test_nobody_is_married_twice_or_to_himself() -> None:
    people = {"x": "married to y", "y": "", "z": "married to y"}

    assert shares(people, "owners x 60% and y 20% and z 20%") == {"x": "40", "y": "40", "z": "20"}
    assert shares({"x": "married to x", "y": ""}, OWNERS) == OWNED


def test_one_owner_of_a_book_of_one_landlord_need_not_be_told() -> None:
    assert shares({"x": ""}, "as bought lettable") == {"x": "100"}
