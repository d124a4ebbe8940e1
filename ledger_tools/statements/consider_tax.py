"""What rides on a choice in income tax now: an estimate from the income a book tells, and only where it tells it.

Leaves out finance-cost reductions, savings and dividends; recommends nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .. import law
from ..days import TaxYear
from ..money import share
from ..taxes.income.bands import income_tax
from .accounts import Accounts
from .consider import Choice, Consideration
from .year_end import year_end

ELSEWHERE = "england"  # whose bands hold wherever a nation has none of its own


@dataclass(frozen=True, slots=True)
class Saved:
    """Income tax in pence that one choice takes off in the year it counts, one sum for each of its answers; `on` is
    what of it makes a loss to carry forward instead."""

    year: TaxYear
    pence: tuple[int, ...]
    on: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class OwnerTax:
    """One owner: what each choice saves them, in the order of the choices; None where the year's income is not told
    or not known, or nothing comes off. `nation` is "" where the book does not say where they live."""

    owner: str
    full: str
    nation: str
    saved: tuple[Saved | None, ...]
    untold: tuple[TaxYear, ...]  # years whose other income would have to be told


def tax_now(accounts: Accounts, considered: Consideration) -> tuple[OwnerTax, ...]:
    """The estimate for each owner of the house whose other income the book tells for some year; none where no choice
    takes anything off in a known year."""
    found = []
    for landlord in accounts.book.landlords.values():
        if not landlord.other_income:
            continue
        years = dict.fromkeys(c.year for c in considered.choices if c.year is not None)
        untold = tuple(year for year in years if year not in landlord.other_income)
        saved = tuple(_saved(accounts, landlord.name, considered.house, choice) for choice in considered.choices)
        if any(saved) or untold:
            last = max(years, default=None)
            nation = landlord.nation(last) if last else ""
            found.append(OwnerTax(landlord.name, landlord.full, nation, saved, untold))
    return tuple(found)


def _saved(accounts: Accounts, owner: str, house: str, choice: Choice) -> Saved | None:
    landlord, year = accounts.book.landlords[owner], choice.year
    if year is None or choice.counts is None or year not in landlord.other_income or year in landlord.allowance_years:
        return None
    parts = accounts.shares(house, choice.counts)
    names = [name for name, _ in parts]
    if owner not in names:
        return None
    mine = [share(a.sums.off, [f for _, f in parts])[names.index(owner)] for a in choice.answers]
    other, nation = landlord.other_income[year], landlord.nation(year) or ELSEWHERE
    try:
        profit = _profit(accounts, owner, year)
        before = _tax(other, profit, year, nation)
        pence = tuple(before - _tax(other, profit - off, year, nation) for off in mine)
    except law.NoFigure:
        return None
    return Saved(year, pence, tuple(off - max(min(off, profit), 0) for off in mine))


def _tax(other: int, profit: int, year: TaxYear, nation: str) -> int:
    """Income tax on other income and the profit of the letting; a loss of the letting goes on to later years."""
    rents = max(profit, 0)
    return income_tax(other + rents, year, nation, rents)


def _profit(accounts: Accounts, owner: str, year: TaxYear) -> int:
    """The owner's profit of a year as far as the book tells, in pence, less losses brought in; a loss is negative."""
    pages: Sequence[tuple[str, int]] = [
        (box.number, box.figure.pence) for o in year_end(accounts, year).owners if o.owner == owner for box in o.boxes
    ]
    boxes = dict(pages)
    return boxes.get("40", 0) - boxes.get("41", 0)
