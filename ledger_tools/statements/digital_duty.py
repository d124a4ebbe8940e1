"""Whether and from when an owner must give digital updates, by the receipts that the book itself tells."""

from __future__ import annotations

from collections.abc import Mapping

from .. import law
from ..days import TaxYear, day_words
from ..money import pounds
from ..taxes.income.basis import basis
from ..taxes.income.digital import joins
from .accounts import INCOME, Accounts

EARLIEST = TaxYear.of(law.began("deadlines.return_online"))  # whoever let before then has long made returns


def receipts(accounts: Accounts, owner: str) -> dict[TaxYear, int]:
    """An owner's receipts of each tax year of the book in pence, the own share, before any cost."""
    found = {}
    for year in accounts.book.years:
        sums = accounts.sums(owner, year, basis(accounts.book, owner, year))
        found[year] = sum(pence for category, pence in sums.items() if category in INCOME)
    return found


def bound_from(accounts: Accounts, owner: str, gross: Mapping[TaxYear, int]) -> TaxYear | None:
    """The first tax year whose updates these receipts of an owner make a duty; None where they make none."""
    first = accounts.book.first_let()
    if first is None:
        return None
    try:
        begun = max(accounts.year_of(owner, first), EARLIEST)
        return joins(begun, {y: pence for y, pence in gross.items() if pence > 0})
    except law.NoFigure:
        return None


def digital_duty(accounts: Accounts, owner: str, year: TaxYear) -> str:
    """What to know of the duty up to two years ahead of a year; "" where these receipts bring none, or none so soon."""
    gross = receipts(accounts, owner)
    start = bound_from(accounts, owner, gross)
    if start is None or start > year.next.next:
        return ""
    by = start.before.before
    limit = law.figure("digital.income_limit", start)
    return (
        f"Receipts of {pounds(gross[by])} in {by} are above {pounds(limit.pence)}: unless you are exempt you must keep "
        f"digital records and send quarterly updates from {day_words(start.period.first)} (SI 2026/336); `quarter` "
        "makes them. Receipts of a trade of yours, or of lets abroad, would be added."
    )


def not_bound(accounts: Accounts, owner: str, year: TaxYear) -> str:
    """That the updates of a year are no duty by what the book tells, and what decides; "" where they are one."""
    gross = receipts(accounts, owner)
    start = bound_from(accounts, owner, gross)
    if start is not None and start <= year:
        return ""
    by = year.before.before
    try:
        limit = law.figure("digital.income_limit", year)
    except law.NoFigure:
        return ""
    decides = f"rents and takings of a trade above {pounds(limit.pence)} in {by} (SI 2026/336)"
    if by not in gross:
        return f"Whether you must send it hangs on {decides}; your book tells nothing of that year."
    return f"By your book you need not send it: what decides are {decides}, and it tells {pounds(gross[by])}."
