"""The dates to watch of a book on a day: what is overdue, what falls due in the weeks after, what could be done.

A reminder from the landlord's own notes: it certifies nothing and knows no layout.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from ... import law
from ...days import day_words
from ...record import record
from ..accounts import Accounts
from ..deposit_rules import nation
from .lets import lets
from .missing import missing
from .money import bills, deals, loans, rents_owed
from .papers import Known, papers
from .reminder import Reminder, due_first
from .returns import returns

FOOTER = (
    "These are reminders from your own notes: no check that a home is safe, no certificate, no legal advice. Rules "
    "differ by nation, council and house; the council says what holds for yours, and registered trades do the work. "
    "What your book cannot tell as done (returns, updates, copies for tenants) is shown until its day is over."
)


@record
class Diary:
    """The dates to watch from a day to another: overdue and due in order of day, then what could be done. unplaced
    names the houses whose nation the book does not tell: nothing else is said of them.
    notes say what is not held."""

    on: date
    until: date
    overdue: tuple[Reminder, ...]
    due: tuple[Reminder, ...]
    may: tuple[Reminder, ...]
    unplaced: tuple[str, ...]
    notes: tuple[str, ...]
    footer: str


def diary(accounts: Accounts, houses: Sequence[str], owners: bool, on: date, weeks: int) -> Diary:
    """The dates to watch of some houses, and (with `owners`) of everybody's tax, up to so many weeks after a day."""
    until = on + timedelta(weeks=weeks)
    unplaced = tuple(house for house in houses if not nation(accounts.book, house))
    known = accounts.history.known
    found: list[Reminder] = []
    for house in houses:
        if house not in unplaced:
            found += _of_house(accounts, known, house, on)
    if owners:
        found += returns(accounts, on, until)
    kept = due_first(one for one in found if one.day <= until and not (one.untold and one.day < on))
    sure = [one for one in kept if not one.may]
    return Diary(
        on, until, tuple(one for one in sure if one.day < on), tuple(one for one in sure if one.day >= on),
        tuple(one for one in kept if one.may), unplaced, _not_held(accounts, houses, on), FOOTER,
    )  # fmt: skip


def _not_held(accounts: Accounts, houses: Sequence[str], on: date) -> tuple[str, ...]:
    """The nations of running lets for which no rule about a higher rent is held."""
    lets = [let for let in accounts.book.tenancies.values() if let.house in houses and let.first_day and let.rents]
    running = [let.house for let in lets if let.last_day is None or let.last_day >= on]
    nations = {where for house in running if (where := nation(accounts.book, house))}
    return tuple(
        f"Rules about a higher rent in {where.title()} on {day_words(on)} are not held here: ask a registered adviser."
        for where in sorted(nations)
        if law.in_nation("letting.rent_rise_weeks", where, on) is None
    )


def _of_house(accounts: Accounts, known: Known, house: str, on: date) -> Iterator[Reminder]:
    """The dates of a house while it is held; of one that was sold only the tax of the sale."""
    about = accounts.book.properties[house]
    yield from deals(accounts, house, on)
    if about.sold is None or about.sold.day > on:
        yield from papers(accounts.book, known, house, on)
        yield from missing(accounts.book, known, house, nation(accounts.book, house), on)
        yield from lets(accounts.book, known, house, on)
        yield from loans(accounts.book, house, on)
    yield from rents_owed(accounts.book, house, on)
    yield from bills(accounts, house, on)


def state_the_nation(house: str) -> str:
    """What to print of a house whose nation the book does not tell, and nothing else."""
    return (
        f"{house}: state the nation. Add `nation england` (or wales, scotland, northern ireland) under property "
        f"{house}."
    )


def late(reminder: Reminder, on: date) -> str:
    """How long something is overdue, or when it falls due, in a few words."""
    days = (reminder.day - on).days
    if days == 0:
        return "today"
    count = f"{abs(days)} day{'s' if abs(days) != 1 else ''}"
    return f"in {count}" if days > 0 else f"{count} ago"


__all__ = ["Diary", "Reminder", "diary", "late", "state_the_nation"]
