"""What a change between the two ways of accounting brings with it, so that nothing counts twice or never.

What the new way would have counted in the years before, less what the old way did count, is what the change adds. Into
the cash basis each class is adjusted by itself (PIM1096; BIM72065). Out of it the whole is one sum: a cost at once, or
income spread over years (ITTOIA 2005 s. 329A, 334A; BIM72071); finance costs of dwellings stay apart, as always. The
books of earlier owners and years before the book's first line are not known; rent that fell due then is taken to have
come then, but for arrears told.
"""

from __future__ import annotations

from collections import defaultdict

from .. import law
from ..days import TaxYear
from ..ledger.rows import Row
from ..money import share
from ..taxes.income.basis import basis
from ..verdicts.verdict import Kind
from .accounts import INCOME, Accounts
from .figures import Trace

APART = "finance_residential"


def changed(accounts: Accounts, owner: str, year: TaxYear) -> bool:
    """Whether an owner's way of accounting is another than in the year before, and there was a year before."""
    if basis(accounts.book, owner, year.before) == basis(accounts.book, owner, year):
        return False
    return any(y < year for way in ("cash", "accruals") for y in accounts.by_year(way))


def adjustments(accounts: Accounts, owner: str, year: TaxYear) -> dict[str, list[Trace]]:
    """What changes of accounting add to each class in a tax year: this year's change, and parts of earlier ones."""
    found: dict[str, list[Trace]] = defaultdict(list)
    for start in (TaxYear(year.start - back) for back in range(_spread_over(year))):
        if not changed(accounts, owner, start):
            continue
        if (owner, start) not in accounts.moved:  # asked again for each year that a change is spread over
            accounts.moved[owner, start] = _moved(accounts, owner, start)
        moved = accounts.moved[owner, start]
        if basis(accounts.book, owner, start) == "accruals":
            moved = _as_one_sum(moved, start, year)
        elif start != year:
            continue
        for category, pence in moved.items():
            if pence:
                found[category].append(_trace(accounts, owner, start, year, pence))
    return dict(found)


def _spread_over(year: TaxYear) -> int:
    try:
        return law.figure("property.change_spread_years", year).whole
    except law.NoFigure:
        return 1


def _moved(accounts: Accounts, owner: str, year: TaxYear) -> dict[str, int]:
    """By class, what the new way would have counted before a year, less what the old way did."""
    new, old = basis(accounts.book, owner, year), basis(accounts.book, owner, year.before)
    sums: dict[str, int] = defaultdict(int)
    apart = _paid_ahead(accounts, owner)
    for way, sign in ((new, 1), (old, -1)):
        for earlier in sorted(y for y in accounts.by_year(way) if y < year):
            for row, _, pence in accounts.of_owner(owner, earlier, way):
                if row.kind is not Kind.ARGUABLE and _cost(row) not in apart:
                    category, counts = accounts.counted(row, way)
                    sums[category] += sign * counts * pence
    for row in accounts.opening_rents:
        if row.owed and accounts.year_of(owner, row.owed) < year:
            category, counts = accounts.counted(row, "accruals")
            sign = 1 if new == "accruals" else -1
            sums[category] += sign * counts * accounts.parts(row, row.owed).get(owner, 0)
    return dict(sums)


def _cost(row: Row) -> tuple[object, ...]:
    """What a cost and its parts by days have in common."""
    return row.verdict, row.house, row.category, row.kind, row.counts


def _paid_ahead(accounts: Accounts, owner: str) -> frozenset[tuple[object, ...]]:
    """Costs that the cash basis had deducted whole before the days they are for: no part of any change (BIM72072)."""
    return frozenset(
        _cost(row)
        for found in accounts.by_year("accruals").values()
        for row, day in found
        if accounts.deducted_before(owner, row, day)
    )


def _as_one_sum(moved: dict[str, int], start: TaxYear, year: TaxYear) -> dict[str, int]:
    """Out of the cash basis: a cost all in the first year, or this year's part of an income; finance costs apart."""
    whole = sum(pence if category in INCOME else -pence for category, pence in moved.items() if category != APART)
    number = year.start - start.start
    found = {}
    if whole > 0:
        found["other_income"] = share(whole, [1] * _spread_over(start))[number]
    elif number == 0:
        found["other"] = -whole
    if number == 0:
        found[APART] = moved.get(APART, 0)
    return found


def _trace(accounts: Accounts, owner: str, start: TaxYear, year: TaxYear, pence: int) -> Trace:
    words = f"change of the way of accounting with {start}"
    return Trace(accounts.book.landlords[owner].place.short, year.period.first, words, pence, -1)
