"""Pennies that do not divide: every line adds up, and over the months no owner has them all. Sums are our own."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from ledger_tools.days import TaxYear
from ledger_tools.money import share
from ledger_tools.statements.accounts import Accounts
from tests.ledger.books import work

YEAR = TaxYear(2025)
HEAD = """
landlord jo "Jo"
landlord kim "Kim"
landlord lee "Lee"
property a "1 A Street"
    as bought lettable
    price normal
    owners {}
tenancy t at a
    tenants "T. Enant"
    periodic from 1 Jun 2015
"""
HALVES, THIRDS = "jo 50% and kim 50%", "jo and kim and lee"
MONTHS = [*(f"{m} 2025" for m in ("May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")),
          *(f"{m} 2026" for m in ("Jan", "Feb", "Mar"))]  # fmt: skip


def rents(sums: list[int], day: int = 1) -> list[str]:
    return [
        f"{day} {month} received rent £{p // 100}.{p % 100:02d} from t\n"
        for month, p in zip(MONTHS, sums, strict=False)
    ]


def worked(lines: list[str], owners: str) -> Accounts:
    return work("at a\n" + "".join(lines), HEAD.format(owners))


def totals(made: Accounts) -> dict[str, int]:
    return {who: sum(pence for _, _, pence in made.of_owner(who, YEAR, "cash")) for who in ("jo", "kim", "lee")}


@pytest.mark.parametrize(
    ("owners", "number", "pence"), [(HALVES, 10, 850_01), (THIRDS, 9, 850_00), (THIRDS, 9, 850_01)]
)
def test_the_odd_penny_of_a_monthly_rent_goes_round(owners: str, number: int, pence: int) -> None:
    each = totals(worked(rents([pence] * number), owners))

    assert {whole for whole in each.values() if whole} == {number * pence // (2 if owners == HALVES else 3)}


@settings(max_examples=30, deadline=None)
@given(st.lists(st.integers(1, 999_99), min_size=1, max_size=11), st.integers(1, 99), st.randoms())
def test_lines_add_up_owners_add_up_and_order_changes_nothing(sums: list[int], part: int, mix) -> None:
    owners = f"jo {part}% and kim {100 - part}%"
    lines = rents(sums)
    made = worked(lines, owners)
    found = totals(made)
    rows = [dict(made.parts(row, day)) for row, day in made.in_year("cash", YEAR)]

    assert [sum(parts.values()) for parts in rows] == sums
    assert sum(found.values()) == sum(sums)
    assert abs(found["jo"] - Fraction(sum(sums) * part, 100)) <= Fraction(len(sums), 2)  # half a penny a line at most
    mix.shuffle(lines)
    assert totals(worked(lines, owners)) == found


def test_whose_turn_it_is_decides_only_between_equals() -> None:
    assert [share(101, [1, 1], turn) for turn in (0, 1, 2)] == [[51, 50], [50, 51], [51, 50]]
    assert [share(100, [1, 1, 1], turn) for turn in (0, 1, 2)] == [[34, 33, 33], [33, 34, 33], [33, 33, 34]]
    assert share(101, [1, 2], 1) == share(101, [1, 2]) == [34, 67]
