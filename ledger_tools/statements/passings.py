"""The days on which shares of a house passed from one owner to another, and who gave what to whom. Knows no money.

What a passing means for the gain hangs on whether the two are spouses (TCGA 1992 s. 58) or anybody else (ss. 17, 18),
and whether an owner died (s. 62, all from memory).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from fractions import Fraction

from ..book.couples import married
from ..book.world import Book
from ..days import TaxYear, day_before
from ..record import record


@record
class Flow:
    """A part of a house that went from one owner to another; at_cost: between spouses who live together; on_death:
    from one who died, at its value and without a gain."""

    giver: str
    taker: str
    part: Fraction
    at_cost: bool
    on_death: bool = False


@record
class Passing:
    """A day on which shares changed: who has less and who has more, by how much, and what went from whom to whom.

    flows: empty where that cannot be told: several gave, several got, and some of them are spouses and some are not.
    """

    day: date
    less: Mapping[str, Fraction]
    more: Mapping[str, Fraction]
    flows: tuple[Flow, ...]

    @property
    def unclear(self) -> bool:
        """Whether nobody can tell from the book who gave to whom, where it matters."""
        return not self.flows

    def at_value(self, giver: str) -> Fraction:
        """What an owner passed on in life to others than a spouse; nil where that cannot be told."""
        mine = (f for f in self.flows if f.giver == giver and not f.at_cost and not f.on_death)
        return sum((f.part for f in mine), Fraction(0))


def passings(book: Book, house: str, until: date) -> Iterator[Passing]:
    """The days up to one on which the shares of a house changed after it was got, the earliest first."""
    about = book.properties[house]
    got = about.got.day if about.got else date.min
    for day in sorted({o.since for o in about.owners if o.since and got < o.since <= until}):
        before, after = dict(book.owners_on(house, day_before(day))), dict(book.owners_on(house, day))
        change = {name: after.get(name, Fraction(0)) - before.get(name, Fraction(0)) for name in {**before, **after}}
        less = {name: -by for name, by in change.items() if by < 0}
        more = {name: by for name, by in change.items() if by > 0}
        if less and more:
            dying = any(o.on_death for o in about.owners if o.since == day)
            died = {name for name in less if name not in after} if dying else set()
            yield Passing(day, less, more, tuple(_flows(book, day, less, more, died)))


def died(book: Book, owner: str) -> date | None:
    """The day on which an owner died, by a share that passed `on death`; None where the book tells none."""
    days = [
        o.since
        for house in book.properties.values()
        for o in house.owners
        if o.on_death and o.since and _out(book, owner, house.name, o.since)
    ]
    return min(days, default=None)


def died_in(book: Book, owner: str, year: TaxYear) -> bool:
    """Whether an owner died in a tax year."""
    day = died(book, owner)
    return day is not None and day in year.period


def _out(book: Book, owner: str, house: str, day: date) -> bool:
    """Whether an owner had a share of a house until the day before and none since."""
    return owner in dict(book.owners_on(house, day_before(day))) and owner not in dict(book.owners_on(house, day))


def _flows(
    book: Book, day: date, less: dict[str, Fraction], more: dict[str, Fraction], died: set[str]
) -> Iterator[Flow]:
    """What went from whom to whom: plain where one gave or one got. Among several strangers it is all one who gave to
    whom, as each part counts at its value, so it goes in proportion; with spouses among several on both sides nothing
    is told."""
    total = sum(less.values(), Fraction(0))
    pairs = {(g, taker): g not in died and married(book, g, taker, day) for g in less for taker in more}
    if len(less) > 1 and len(more) > 1 and any(pairs.values()):
        return
    for (giver, taker), spouses in pairs.items():
        yield Flow(giver, taker, less[giver] * more[taker] / total, spouses, giver in died)


def percent(part: Fraction) -> str:
    """A share in words: 25%, or 1/3."""
    whole = part * 100
    return f"{whole}%" if whole.denominator == 1 else str(part)
