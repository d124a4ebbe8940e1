"""Whether a house was let on some day of a year. Knows no page."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from ..days import Period, TaxYear
from .accounts import Accounts


def let_in(accounts: Accounts, house: str, year: TaxYear) -> bool:
    """Whether a house was let on some day of a year: by its tenancies and the leases granted for a premium; where none
    is told, by rent that came."""
    told = [(accounts.book.let_from(t), t.last_day or date.max) for t in accounts.book.lets_of(house)]
    told += [(lease.first, lease.last) for lease in _leases(accounts, house)]
    if any(first for first, _ in told):
        return any(first and first <= year.period.last and last >= year.period.first for first, last in told)
    rents = (row for row, _ in accounts.in_year("cash", year) if row.house == house and row.category == "rent")
    return any(row.way == "in" for row in rents)


def _leases(accounts: Accounts, house: str) -> Iterator[Period]:
    """The days of leases of a house that a premium was received for."""
    for row in accounts.rows:
        if row.house == house and row.way == "in" and row.verdict >= 0:
            verdict = accounts.verdicts[row.verdict]
            if any(fired.slug == "lease-premium" for fired in verdict.path):
                line = verdict.item.line
                yield line.period or Period(line.day.first, line.day.first)
