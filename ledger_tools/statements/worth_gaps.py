"""What is plainly not in the yearly numbers of a house: days after the last line, too few days, a cost nobody told.

Says it in words beside the yields; works nothing out and knows no layout.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from ..days import Period, day_words, months_after
from ..money import pounds
from ..verdicts.catalogue import catalogue
from .accounts import Accounts
from .cost_in import CostIn, is_finance
from .earnings import FEW, told_until

INSURED = frozenset({"insurance", "service charge"})  # a service charge mostly holds the insurance of the block


def gaps(accounts: Accounts, house: str, day: date, cost: CostIn, days: Period | None) -> tuple[str, ...]:
    """What to say beside the yields of a house on a day; `days` are those of which a year is made."""
    if days is None:
        return ()
    return tuple(_said(accounts, house, day, cost, days))


def _said(accounts: Accounts, house: str, day: date, cost: CostIn, days: Period) -> Iterator[str]:
    last = told_until(accounts, house, day)
    sold = accounts.book.properties[house].sold
    if last < day and not (sold and sold.day <= day):
        yield (
            f"The lines of your book about {house} stop on {day_words(last)}, though the let runs on. What came in and "
            "went out since is in none of these numbers; the rate of return takes it for nothing."
        )
    if days.days < FEW:
        yield (
            f"Your book tells {days.days} days of this let, too few to make a year of: so nothing is told as collected,"
            " and no yield that rests on running costs."
        )
        return
    year = Period(months_after(days.last, -12) + timedelta(days=1), days.last)
    paid = [row for row in accounts.rows if row.house == house and row.way == "out" and row.paid and row.paid in year]
    if not any((known := catalogue().find(row.thing, row.verb)) and known.name in INSURED for row in paid):
        yield (
            f"No insurance is among the costs of the 12 months to {day_words(days.last)}. If you paid it, write it "
            "down; the net yield and what is left over are too high without it."
        )
    if cost.owed.pence > 0 and not any(is_finance(accounts, row) for row in paid):
        yield (
            f"{pounds(cost.owed.pence)} is owed, but no payment to the lender is told in the 12 months to "
            f"{day_words(days.last)}: what was collected is told without it."
        )
