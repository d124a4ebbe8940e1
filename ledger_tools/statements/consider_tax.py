"""What rides on a choice in income tax now: an estimate from the income a book tells, and only where it tells it.

The reduction for finance costs is worked out anew for each choice. Leaves out savings and dividends; recommends
nothing.
"""

from __future__ import annotations

from .. import law
from ..book.world import Landlord
from ..days import TaxYear
from ..money import share
from ..record import record
from ..taxes.income.allowance import How
from ..taxes.income.boxes import Pages
from ..taxes.income.estimate import estimate
from .accounts import Accounts
from .brought import brought
from .consider import Choice, Consideration
from .in_tax import ELSEWHERE
from .owner_pages import pages, sums


@record
class Saved:
    """Income tax in pence that one choice takes off in the year it counts, one sum for each of its answers; `on` is
    what of it makes a loss to carry forward instead."""

    year: TaxYear
    pence: tuple[int, ...]
    on: tuple[int, ...]


@record
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
    days = [choice.counts for choice in considered.choices if choice.counts is not None]
    whose = {name for day in days for name, _ in accounts.shares(considered.house, day)}
    for landlord in accounts.book.landlords.values():
        if not landlord.other_income or landlord.name not in whose:
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
    if year is None or choice.counts is None or year not in landlord.other_income:
        return None
    parts = accounts.shares(house, choice.counts)
    names = [name for name, _ in parts]
    if owner not in names:
        return None
    mine = [share(a.sums.off, [f for _, f in parts])[names.index(owner)] for a in choice.answers]
    came, made = brought(accounts, owner, year), sums(accounts, owner, year)
    try:
        found = pages(landlord, year, made, came.loss.pence, came.finance.pence)
        if found.how is not How.COSTS:
            return None
        profit = _exact(found, "40") - _exact(found, "41")
        before, *after = (_tax(landlord, year, found, profit - off) for off in (0, *mine))
    except law.NoFigure:
        return None
    return Saved(year, tuple(before - tax for tax in after), tuple(off - max(min(off, profit), 0) for off in mine))


def _tax(landlord: Landlord, year: TaxYear, found: Pages, profit: int) -> int:
    """Income tax of a year if the profit of the letting, after losses brought in, were this; a loss goes on."""
    costs, old = _exact(found, "44"), _exact(found, "45")
    nation = landlord.nation(year) or ELSEWHERE
    return estimate(landlord.other_income[year], max(profit, 0), costs, old, year, nation).tax


def _exact(found: Pages, number: str) -> int:
    """What belongs in a box, to the penny; nil where it is empty."""
    return found.boxes[number].pence if number in found.boxes else 0
