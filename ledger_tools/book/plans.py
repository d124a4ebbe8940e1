"""Cross-checks of what is planned: quotes agreed once, trades booked for a day before the one aimed at.

Knows no prices and no order of trades.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from ..days import day_words
from ..problems import Fix, Level, Place, Problem
from ..spelling import near
from .entries import Entry
from .items import party
from .world import Book, Schedule


def agreed_twice(book: Book) -> Iterator[Problem]:
    """A quote is agreed once; what more was agreed is a change to it. A quote called off may be agreed anew."""
    agreed: dict[tuple[str, str], Entry] = {}
    for entry in book.entries:
        if entry.paper is None or entry.paper.kind != "quote":
            continue
        key = (party(entry), entry.paper.number.lower())
        if entry.verb == "cancelled":
            agreed.pop(key, None)
        if entry.verb != "agreed":
            continue
        first = agreed.setdefault(key, entry)
        if first is not entry:
            who = f" by {entry.who.name}" if entry.who else ""
            yield Problem(
                "agreed-twice", Level.DOUBT, f"The quote {entry.paper.number} is agreed twice.",
                (entry.place.mark("again here"), first.place.mark("agreed here")),
                "It counts once. Delete one of the two lines; if more was agreed later, write that as a change: "
                f"`varied quote {entry.paper.number} £… more{who}`.",
            )  # fmt: skip


def booked_late(book: Book) -> Iterator[Problem]:
    """Who is booked comes before the day the house is to be let from; a day missed already is no news."""
    for entry in book.entries:
        if entry.verb != "booked" or entry.period is None or len(entry.homes) != 1:
            continue
        plans = [plan for plan in book.schedules if plan.house == entry.homes[0].house and _ahead(plan, entry)]
        plan = max(plans, key=lambda plan: plan.target or LONG_AGO, default=None)
        if plan is None or plan.target is None or entry.period.last < plan.target[0]:
            continue
        aim, last = plan.target[0], entry.period.last
        days, target = entry.place.within("for " + day_words(entry.period.first)), plan.place.within("target let")
        yield Problem(
            "booked-after-target", Level.DOUBT,
            f"{entry.who.full if entry.who else 'Somebody'} is booked up to {day_words(last)}, and you aim to let from "
            f"{day_words(aim)}.",
            (days.mark("too late for that"), target.mark("the day you aim at")),
            "Ask for an earlier day and correct this line; or put off the day you aim at. What each day costs, `next` "
            "tells.",
            fix=_put_off(target, day_words(aim), day_words(last + timedelta(days=1))),
        )  # fmt: skip


def varied_nothing(book: Book) -> Iterator[Problem]:
    """Doubts "varied-nothing": a change to a price that the book does not have, so that it would be lost."""
    priced = [entry for entry in book.entries if entry.verb in ("estimated", "quoted", "agreed")]
    for entry in book.entries:
        if entry.verb != "varied" or entry.paper is not None or not entry.thing:
            continue
        own = {home.house for home in entry.homes}
        here = [one.thing for one in priced if one.thing and own & {home.house for home in one.homes}]
        if entry.thing in here:
            continue
        meant = [thing for thing in dict.fromkeys(here) if thing in entry.thing] or near(entry.thing, here)
        mend = f"Did you mean {' or '.join(meant)}? " if meant else ""
        yield Problem(
            "varied-nothing", Level.DOUBT, f'Your book has no price for "{entry.thing}" that this could change.',
            (entry.place.mark("a change of what?"),),
            f"{mend}Name the thing as the line of the price does, or the quote by its number: `varied quote Q-1 £… "
            "more`. A job of its own gets a price of its own: `agreed …`.",
        )  # fmt: skip


LONG_AGO = (date.min, 0, "")


def _ahead(plan: Schedule, entry: Entry) -> bool:
    """Whether a schedule's day still lay ahead when the line was written, and the line names no other schedule."""
    told = entry.facts.part_of.lower()
    return plan.target is not None and plan.target[0] >= entry.day.first and told in ("", plan.title.lower())


def _put_off(target: Place, aim: str, later: str) -> Fix | None:
    """A later day to aim at, where the first one is written as we write days."""
    day = target.within(aim)
    return Fix(day.mark(), later) if day != target else None
