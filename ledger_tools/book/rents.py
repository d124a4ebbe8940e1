"""When the rent of each let falls due, for which days, and how much; and what came in of it. Knows no tax.

Rent runs from the first day of the let, period after period. Each sum falls due on the first day of its period, or as
much before or after it as the first due day told; so rent in arrears is told by a first due day one period on. A part
of a period counts by days: where a new rent begins within it, where days are free of rent, at the end of a let (common
practice, no source).
"""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterator, Mapping
from datetime import date, timedelta
from fractions import Fraction

from ..days import Period, day_before, months_after
from ..money import round_half_up
from ..record import record
from .entries import Entry
from .once import once
from .world import Book, Rent, Tenancy

DAYS = {"a week": 7, "a fortnight": 14, "every 4 weeks": 28}
MONTHS = {"a month": 1, "a quarter": 3, "a year": 12}


@record
class Due:
    """A sum of rent: the day it falls due, the days it is for, and pence."""

    day: date
    period: Period
    pence: int


@record
class _Run:
    """Days in which rent runs at one rhythm: the first of them, the first due day, the rhythm, the last day."""

    first: date
    due: date
    every: str
    last: date

    def begins(self, number: int) -> date:
        """The first day of a period, the first one being number 0."""
        return self._on(self.first, number)

    def falls_due(self, number: int) -> date:
        """The day on which the rent of a period is due."""
        return self._on(self.due, number)

    def _on(self, day: date, number: int) -> date:
        if self.every in DAYS:
            return day + timedelta(DAYS[self.every] * number)
        return months_after(day, MONTHS[self.every] * number)


def dues(let: Tenancy, until: date, ours: date | None = None) -> tuple[Due, ...]:
    """Every sum of rent of a let that falls due up to a day, in order; none where no rent or no first day is told.

    ours: the last day on which the rent is the owners' (`Book.let_until`), where the house was sold in the let. What
    the whole days of a period are free of is left out.
    """
    rents = _in_force(let)
    last = min(let.last_day or date.max, ours or date.max)
    found = []
    for run in _runs(rents):
        number = 0
        while (start := run.begins(number)) <= min(run.last, last) and (day := run.falls_due(number)) <= until:
            whole = Period(start, day_before(run.begins(number + 1)))
            counted = Period(start, min(whole.last, run.last, last))
            exact = (_exact(let, rent, days, whole) for rent, days in _by_rent(rents, counted))
            if pence := round_half_up(sum(exact, Fraction(0))):
                found.append(Due(day, counted, pence))
            number += 1
    return tuple(found)


def next_period(let: Tenancy, day: date) -> date | None:
    """The first day of a period of rent on or after a day, as the rents told run on; None where no rent is told."""
    run = next((run for run in reversed(list(_runs(_in_force(let)))) if run.first <= day), None)
    if run is None:
        return None
    number = 0
    while run.begins(number) < day:
        number += 1
    return run.begins(number)


def _in_force(let: Tenancy) -> list[tuple[date, Rent]]:
    """The rents of a let, each with the day it begins: the first with the let."""
    rents = sorted(let.rents, key=lambda rent: rent.since or date.min)
    first = let.first_day
    if first is None:
        return []
    return [(max(rent.since or first, first) if number else first, rent) for number, rent in enumerate(rents)]


def _runs(rents: list[tuple[date, Rent]]) -> Iterator[_Run]:
    """A new run begins with the first rent, and with one that names another rhythm or first due day of its own."""
    heads = [
        (since, rent)
        for number, (since, rent) in enumerate(rents)
        if number == 0 or rent.every != rents[number - 1][1].every or rent.first_due
    ]
    for number, (since, rent) in enumerate(heads):
        ends = day_before(heads[number + 1][0]) if number + 1 < len(heads) else date.max
        if since <= ends:
            yield _Run(since, rent.first_due or since, rent.every, ends)


def _by_rent(rents: list[tuple[date, Rent]], days: Period) -> Iterator[tuple[Rent, Period]]:
    """The parts of a period in which one rent was in force."""
    for number, (since, rent) in enumerate(rents):
        ends = day_before(rents[number + 1][0]) if number + 1 < len(rents) else date.max
        part = Period(since, ends).overlap(days) if since <= ends else None
        if part:
            yield rent, part


def _exact(let: Tenancy, rent: Rent, days: Period, whole: Period) -> Fraction:
    """The rent for some days of a whole period, days free of rent left out, before rounding."""
    free = {
        day
        for spell in let.rent_free
        if (both := spell.overlap(days))
        for day in range(both.first.toordinal(), both.last.toordinal() + 1)
    }
    return Fraction(rent.amount * (days.days - len(free)), whole.days)


# ── what came in ─────────────────────────────────────────────────────────────────────────────────────────────────


@record
class Receipt:
    """Rent that came in, or went back (then pence are below nil), with its line."""

    day: date
    pence: int
    line: Entry


@once
def receipts(book: Book) -> dict[str, tuple[Receipt, ...]]:
    """The rent received of each let, in order of day: from its tenants by name, or on the house while it had one let.
    What was kept of a deposit for rent is rent too.

    A line that fits no let, or several, is left out; `unplaced` tells it.
    """
    return _by_let(book, {"received": 1, "repaid": -1, "kept": 1})


@once
def first_lines(book: Book) -> dict[str, date]:
    """The first dated line of the house of each let, of those on or after the day the let began."""
    days: dict[str, list[date]] = defaultdict(list)
    for entry in book.entries:  # in order of day
        for house in {home.house for line in (entry, *entry.lines) for home in line.homes}:
            days[house].append(entry.day.first)
    found = {}
    for let in book.tenancies.values():
        if let.first_day and (at := bisect_left(days[let.house], let.first_day)) < len(days[let.house]):
            found[let.name] = days[let.house][at]
    return found


@once
def written_off(book: Book) -> dict[str, tuple[Receipt, ...]]:
    """The rent of each let that was given up as lost, in order of day."""
    return _by_let(book, {"wrote off": 1})


def unplaced(book: Book, house: str) -> tuple[Receipt, ...]:
    """Rent received for a house with lets that fits none of them, or several."""
    if all(let.house != house for let in book.tenancies.values()):
        return ()
    return tuple(
        receipt for head, receipt in _loose(book) if house in {home.house for home in receipt.line.homes or head.homes}
    )


@once
def _loose(book: Book) -> list[tuple[Entry, Receipt]]:
    """Rent received that fits no let, or several, with its head line."""
    return [(head, receipt) for let, head, receipt in _lines(book, {"received": 1, "repaid": -1}) if not let]


ABOUT_RENT = frozenset({"received", "repaid", "kept", "wrote off"})


def _by_let(book: Book, signs: Mapping[str, int]) -> dict[str, tuple[Receipt, ...]]:
    found: dict[str, list[Receipt]] = defaultdict(list)
    for let, _, receipt in _lines(book, signs):
        if let:
            found[let].append(receipt)
    return {let: tuple(sorted(them, key=lambda receipt: receipt.day)) for let, them in found.items()}


def _lines(book: Book, signs: Mapping[str, int]) -> Iterator[tuple[str, Entry, Receipt]]:
    """Lines about rent whose verb has a sign: the let ("" where not plain), the head line, the sum."""
    for let, entry, line in _rent_lines(book):
        sign = signs.get(line.verb)
        if sign:
            yield let, entry, Receipt(entry.day.first, sign * line.total, line)


@once
def _rent_lines(book: Book) -> list[tuple[str, Entry, Entry]]:
    """Lines about rent: the let ("" where not plain), the head line, the line."""
    return [
        (let_of(book, entry, line), entry, line)
        for entry in book.entries
        for line in ((entry, *entry.lines) if entry.lines else (entry,))
        if line.verb in ABOUT_RENT and line.amount and is_rent(line)
    ]


# "June rent" is rent of a let, "ground rent" is not; and rent has a few names without the word at the end.
OTHER_RENTS = frozenset({"ground", "lost", "of"})
RENT_TOO = frozenset(
    "rent arrears, arrears, rent payment, rental income, rent in advance, housing benefit, universal credit".split(", ")
)


def is_rent(line: Entry) -> bool:
    """Whether money of a line is rent of a let, by what it is called; of a deposit kept, by what it was kept for."""
    kept = line.verb == "kept"  # of a deposit, and what for
    said = " ".join(((line.purpose if kept else line.thing) or line.purpose).lower().split())
    if kept and not said:
        return False
    if not said:
        return line.who is not None
    *before, last = said.split()
    return said in RENT_TOO or (last == "rent" and OTHER_RENTS.isdisjoint(before))


def let_of(book: Book, entry: Entry, line: Entry) -> str:
    """The let that money from or to a tenant belongs to, by its line and the head line; nothing where not plain."""
    who = line.who or (None if entry.lines else entry.who)
    if who is not None:
        if who.name in book.tenancies:
            return who.name
        named = [let.name for let in book.tenancies.values() if who.full in let.tenants]
        if named:
            return named[0] if len(named) == 1 else ""
        if not entry.lines and book.parties.get(who.name) is None:
            return ""
    day = line.period.first if line.period else entry.day.first
    houses = {share.house for share in line.homes or entry.homes}
    running = [
        let.name
        for let in book.tenancies.values()
        if let.house in houses and let.first_day and let.first_day <= day and day <= (let.last_day or date.max)
    ]
    return running[0] if len(running) == 1 else ""
