"""Who lived in a house when, and bills for days of others: what proof says. Mere House and its people are invented."""

from __future__ import annotations

import pytest

from ledger_tools.book.build import build

HEAD = 'landlord x "X. Mere"\ncouncil mere "Mere Council"\nscheme mere 2025-26\n    charge band B £1,825.00\n'
HOUSE = 'property house "Mere House"\n    council mere, band B\n    bought 1 May 2025 for £1\n'
LET = 'tenancy gale at house\n    tenants "A. Gale"\n    rent £500 a month\n'


def codes(text: str) -> list[str]:
    mine = ("lived-in-twice", "bill-for-others", "rule-twice", "unknown-house")
    return [p.code for p in build({"mere.book": text}).problems if p.code in mine]


@pytest.mark.parametrize(
    ("fields", "let", "found"),
    [
        ("own home from 1 May 2025 to 10 Jun 2025", "periodic from 10 Jun 2025", ["lived-in-twice"]),
        ("own home from 1 May 2025 to 10 Jun 2025", "periodic from 11 Jun 2025", []),
        ("own home from 1 May 2025 to 10 Jun 2025", "room 1\n    periodic from 1 Jun 2025", []),  # a lodger
        ("own home from 1 May 2025", "periodic from 1 Jun 2025", []),  # another
        ("own home from 1 May 2025 to 10 Jun 2025", "periodic from 1 Jun 2025\n    ended 9 Jun 2025", []),
        ("lived in from 1 Aug 2025", "periodic from 1 Jun 2025\n    moved out 1 Aug 2025\n    ended 1 Sep 2025", []),
        ("lived in from 1 Aug 2025", "periodic from 1 Jun 2025\n    moved out 2 Aug 2025", ["lived-in-twice"]),
        ("lived in from 1 May 2025 to 1 Jun 2025\n    own home from 1 Jun 2025", "periodic from 1 May 2024\n    ended "
         "1 May 2024", ["lived-in-twice"]),
    ],
)  # fmt: skip
def test_two_who_lived_there_at_once(fields: str, let: str, found: list[str]) -> None:
    assert codes(f"{HEAD}{HOUSE}    {fields}\n{LET}    {let}\n") == found


@pytest.mark.parametrize(
    ("days", "found"),
    [
        ("1 Apr 2025 to 30 Apr 2025", ["bill-for-others"]),
        ("1 Apr 2025 to 1 May 2025", []),
        ("1 Sep 2025 to 30 Sep 2025", ["bill-for-others"]),
        ("31 Aug 2025 to 30 Sep 2025", []),
    ],
)
def test_a_bill_for_days_of_others(days: str, found: list[str]) -> None:
    line = f"1 Nov 2025 billed council tax £9.00 by mere for {days}\n"

    assert codes(f"{HEAD}{HOUSE}    sold 1 Sep 2025 for £1\nat house\n{line}") == found


@pytest.mark.parametrize(
    ("second", "found"),
    [
        ("empty free for 1 month", ["rule-twice"]),
        ("empty free for 1 month, only at house", []),
        ("empty free for 1 month, only at hut", ["unknown-house"]),
        ("works 50% off for 12 months", []),
    ],
)
def test_one_rule_of_a_kind(second: str, found: list[str]) -> None:
    assert codes(f"{HEAD}    empty full\n    {second}\n{HOUSE}") == found
