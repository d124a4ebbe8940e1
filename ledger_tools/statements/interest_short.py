"""Loans of which a book tells far less paid in a year than their interest comes to. Knows no layout.

Interest that is not written down earns no relief, as rent that is not written down would earn trust it has not got.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from fractions import Fraction

from ..book.world import Loan
from ..days import TaxYear, day_before, months_after
from ..money import round_half_up
from ..record import record
from .accounts import Accounts

ENOUGH = Fraction(7, 10)  # payments may fall a day into the next year, and rates be lower for some of it
FEW = 3  # whole months, of which one payment may be out already and be noted later
LEAST = 100_00  # pence of interest below which nothing is said


@record
class Short:
    """A loan, what was paid to it in a year and about what its interest came to, in pence."""

    loan: Loan
    paid: int
    interest: int


def interest_short(accounts: Accounts, house: str, year: TaxYear) -> Iterator[Short]:
    """The loans of a house with whole months of a year, up to the last line of the book, that are short of interest."""
    book = accounts.book
    if not any(loan.house == house and loan.rates for loan in book.loans.values()):
        return
    loans = accounts.history.loans
    last = max((e.day.first for e in book.entries), default=date.min)
    for loan in book.loans.values():
        if loan.house != house or not loan.rates:
            continue
        months = []
        for month in range(12):
            day = day_before(months_after(year.period.first, month + 1))
            owed = loans.stood(loan.name, months_after(year.period.first, month)) if day <= last else None
            months += [Fraction(owed.total) * _rate(loan, day) / 1200] if owed else []
        interest = sum(months, Fraction(0))
        paid = sum(
            line.total
            for entry in book.entries
            if entry.day.first in year.period
            for line in (entry, *entry.lines)
            if line.verb in ("paid", "repaid") and line.amount and line.who and loans.of(line) == loan.name
        )
        if len(months) >= FEW and interest >= LEAST and paid < interest * ENOUGH:
            yield Short(loan, paid, round_half_up(interest))


def _rate(loan: Loan, day: date) -> Fraction:
    """Per cent a year in force on a day; the lowest told where none is."""
    told = [(first, rate) for rate, first, until in loan.rates if first <= day <= (until or date.max)]
    return max(told)[1] if told else min(rate for rate, _, _ in loan.rates)
