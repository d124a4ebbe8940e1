"""The months of a tax year of a house: what rent came in, and how many days it was held and stood empty.

Rents are paid by calendar months, so the year is cut at the first of each. Knows nothing of layout.
"""

from __future__ import annotations

from ..days import Period, month_period
from ..record import record
from .accounts import Accounts
from .figures import Figure, figure
from .profit import HouseProfit, days_in


@record
class Month:
    """One calendar month, as far as it lies in the year: the rent by the day it was paid, the days the house was held,
    and of them those without a let."""

    period: Period
    rent: Figure
    held: int
    empty: int


def months(accounts: Accounts, of: HouseProfit) -> tuple[Month, ...]:
    """The months of a profit statement; their rents add up to its rents, their days to its days."""
    rents = [t for line in of.income if line.slug == "rent" for t in line.money.trail]
    found = []
    for period in calendar_months(of.days):
        held, let = days_in(accounts, of.house, period)
        found.append(Month(period, figure("rent", "Rents", (t for t in rents if t.day in period)), held, held - let))
    return tuple(found)


def calendar_months(days: Period) -> tuple[Period, ...]:
    """Some days cut at the first of each month: of a tax year part of an April, eleven months, and the first days of an
    April."""
    first, last = days.first, days.last
    months = range(first.month - 1, (last.year - first.year) * 12 + last.month)
    whole = [month_period(first.year + month // 12, month % 12 + 1) for month in months]
    return tuple(part for month in whole if (part := month.overlap(days)))
