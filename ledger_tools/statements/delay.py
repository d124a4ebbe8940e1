"""What one more day before the letting costs: the rent that does not come, and what runs on.

Each part is worked out by itself, says its base, and is rounded to the penny; the parts add up. Knows no layout.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from fractions import Fraction

from ..book.entries import Entry
from ..book.world import Book, Loan, Schedule
from ..money import pounds, round_half_up
from ..record import record
from ..taxes.council.years import council_year
from ..verdicts.history import History
from .accounts import Accounts

YEAR = 365  # days, as the base of every part says
EVERY = {  # how often rent is due: times a year, or days it is for
    "a month": (12, YEAR), "a week": (1, 7), "a fortnight": (1, 14), "every 4 weeks": (1, 28), "a quarter": (4, YEAR),
    "a year": (1, YEAR),
}  # fmt: skip


@record
class Daily:
    """One part of a day's cost: its pence, and in words what it was worked out from."""

    label: str
    pence: int
    base: str
    source: str


@record
class DayCost:
    """A day's cost in parts; missing: what the book does not tell, with the words that would."""

    parts: tuple[Daily, ...]
    missing: tuple[str, ...]

    @property
    def pence(self) -> int:
        """The sum of the parts."""
        return sum(part.pence for part in self.parts)


def day_cost(accounts: Accounts, history: History, schedule: Schedule, on: date) -> DayCost:
    """What a day costs as the book stands on a day."""
    book, house = accounts.book, schedule.house
    parts: list[Daily] = []
    missing: list[str] = []
    rent = _rent(schedule)
    if rent:
        parts.append(rent)
    else:
        missing.append("rent: `target let from … at £… a month` under the schedule")
    tax = _council_tax(book, house, on)
    if tax:
        parts.append(tax)
    else:
        missing.append("council tax: `charge band …` in the scheme, or the bill with its days")
    parts += _standing(book, history, house, on)
    loans = [loan for loan in book.loans.values() if loan.house == house]
    for loan in loans:
        found = _interest(accounts, history, loan, on)
        if found:
            parts.append(found)
        else:
            missing.append(f"interest of {loan.name}: `rate …% from …`, and `borrowed … from {loan.name}`")
    return DayCost(tuple(parts), tuple(missing))


def _rent(schedule: Schedule) -> Daily | None:
    if schedule.target is None or schedule.target[2] not in EVERY:
        return None
    _, pence, every = schedule.target
    times, days = EVERY[every]
    base = f"{times} x {pounds(pence)} / {days}" if times > 1 else f"{pounds(pence)} / {days}"
    return Daily("rent", round_half_up(Fraction(pence * times, days)), base, schedule.place.short)


def _latest(book: Book, house: str, on: date, about: str) -> Entry | None:
    """The last line for a thing with days told that reach a day, or end before it."""
    lines = [line for entry in book.entries for line in entry.lines or (entry,)
             if line.thing == about and line.period and line.total and line.day.first <= on
             and line.verb in ("billed", "paid") and [s.house for s in line.homes] == [house]]  # fmt: skip
    return max(lines, key=lambda line: line.period.last if line.period else date.min, default=None)


def _council_tax(book: Book, house: str, on: date) -> Daily | None:
    """The bill whose days hold this one, else the year's charge of the band: before any reduction for empty homes."""
    bill = _latest(book, house, on, "council tax")
    if bill and bill.period and on in bill.period:
        base = f"{pounds(bill.total)} / {bill.period.days} days billed"
        return Daily("council tax", round_half_up(Fraction(bill.total, bill.period.days)), base, bill.source)
    about = book.properties[house]
    scheme = book.schemes.get((about.council, council_year(on)))
    charge = scheme.charges.get(about.band) if scheme else None
    if scheme is None or charge is None:
        return None
    return Daily("council tax", round_half_up(Fraction(charge, YEAR)), f"{pounds(charge)} / {YEAR}", scheme.place.short)


def _standing(book: Book, history: History, house: str, on: date) -> Iterator[Daily]:
    """Standing charges, by the last line that tells its days: one part for each way they are written."""
    names = {line.thing for entry in book.entries for line in entry.lines or (entry,)
             if line.thing and history.known(line.thing, line.verb).name == "standing charge"}  # fmt: skip
    for name in sorted(names):
        line = _latest(book, house, on, name)
        if line and line.period:
            days, base = line.period.days, f"{pounds(line.total)} / {line.period.days} days"
            yield Daily(name, round_half_up(Fraction(line.total, days)), base, line.source)


def _interest(accounts: Accounts, history: History, loan: Loan, on: date) -> Daily | None:
    """A day's interest on what is owed."""
    rates = [rate for rate, since, until in loan.rates if since <= on and (until is None or on <= until)]
    owed = owed_on(accounts, history, loan, on)
    if not rates or not owed:
        return None
    pence = round_half_up(Fraction(owed) * rates[-1] / 100 / YEAR)
    percent = Decimal(rates[-1].numerator) / Decimal(rates[-1].denominator)
    return Daily(f"interest, {loan.name}", pence, f"{pounds(owed)} at {percent}% / {YEAR}", loan.place.short)


def owed_on(accounts: Accounts, history: History, loan: Loan, on: date) -> int:
    """What is owed on a loan at the end of a day, in pence: as told, with what was lent and paid back since."""
    told = max(((day, pence) for day, pence in loan.owed if day <= on), default=(date.min, 0))
    found = told[1]
    for row in accounts.rows:
        if row.account != "loans" or row.paid is None or not told[0] < row.paid <= on:
            continue
        line = accounts.verdicts[row.verdict].item.line if row.verdict >= 0 else None
        if line is not None and history.loans.of(line) == loan.name:
            found += row.pence if row.way == "in" else -row.pence
    return max(found, 0)
