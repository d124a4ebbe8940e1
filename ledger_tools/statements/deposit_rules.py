"""What the rules of a nation, as held, say of a let's deposit: the last day to protect it, how much it may be.

Knows no layout. Law comes with the figure it rests on; where none is held for a nation and day there is no answer.
"""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction

from .. import law
from ..book.deposits import DepositAccount
from ..book.rents import DAYS, MONTHS
from ..book.world import Book, Tenancy
from ..record import record

WEEKS_A_YEAR = 52  # a week's rent is the yearly rent by 52, as the deposit rules have it


@record
class Cap:
    """The most a deposit may be, in pence, and the rule it rests on."""

    pence: int
    held: law.Figure


def nation(book: Book, house: str) -> str:
    """The nation of a house, by its own heading or its council's; "" where neither tells."""
    about = book.properties.get(house)
    council = book.councils.get(about.council) if about else None
    return (about.nation if about else "") or (council.nation if council else "")


def working_days_after(day: date, number: int) -> date:
    """So many working days after a day, Saturdays and Sundays left out; bank holidays are not known here."""
    while number:
        day += timedelta(days=1)
        number -= day.weekday() < 5
    return day


def protect_by(account: DepositAccount, where: str) -> tuple[date, law.Figure] | None:
    """The last day to protect a deposit, and its rule; None where none is held. The day it came is the first day; in
    Scotland working days are counted from the day after, bank holidays not left out, so it may be a little early."""
    if account.received_on is None:
        return None
    held = law.in_nation("letting.deposit_days", where, account.received_on)
    if held:
        return account.received_on + timedelta(days=held.whole - 1), held
    held = law.in_nation("letting.deposit_working_days", where, account.received_on)
    return (working_days_after(account.received_on, held.whole), held) if held else None


def yearly_rent(let: Tenancy, day: date) -> Fraction | None:
    """The rent of a year in pence by the rent that held on a day, or the first one; None where none is told."""
    rents = sorted(let.rents, key=lambda rent: rent.since or date.min)
    if not rents:
        return None
    rent = [r for r in rents if r.since is None or r.since <= day][-1:] or rents[:1]
    every = rent[0].every
    times = Fraction(12, MONTHS[every]) if every in MONTHS else Fraction(WEEKS_A_YEAR * 7, DAYS[every])
    return rent[0].amount * times


def cap(let: Tenancy, where: str, day: date) -> Cap | None:
    """The most a deposit taken on a day may be, down to the penny; None where no rule is held or no rent is told."""
    yearly = yearly_rent(let, day)
    months = law.in_nation("letting.deposit_months", where, day)
    weeks, high = (law.in_nation(f"letting.deposit_{name}", where, day) for name in ("weeks", "weeks_high"))
    limit = law.in_nation("letting.deposit_high_rent", where, day)
    if yearly is None:
        return None
    if weeks and high and limit:
        held = high if yearly >= limit.pence else weeks
        return Cap(int(yearly * held.whole / WEEKS_A_YEAR), held)
    return Cap(int(yearly * months.whole / 12), months) if months else None
