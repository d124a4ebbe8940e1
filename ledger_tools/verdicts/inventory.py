"""The loose things, kit and outbuildings of each house: since when, how they came, how they went.

Gathered from the history of a book; knows no rule, no tax and no sum but what a thing brought when it left.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from datetime import date
from fractions import Fraction
from typing import TYPE_CHECKING

from ..book.entries import Day, Entry, Proof
from ..book.entries import Thing as Named
from ..record import record

if TYPE_CHECKING:
    from .history import Line

HELD = frozenset({"domestic", "outbuilding", "kit"})  # natures of what leaves and comes by itself
HERS = "left by seller"
OURS = "ours before"


@record
class Lot:
    """A thing, or several alike that came together, while they are in one house.

    count is None where the book counts nothing ("curtains"); since and went are None where it tells no day. came is
    "left by seller", "ours before", "used by tenant", the verb that brought it ("bought", "replaced", …), "moved" from
    another house, or "" where it was there and nobody wrote how it came. how says how it went, "" while it is there.
    brought is pence, what was had for it. tenant: whether a tenant had it, None where the book does not tell.
    """

    house: str
    key: str
    name: str
    nature: str
    count: Fraction | None
    room: str
    since: Day | None
    came: str
    line: Line | None = field(default=None, compare=False)  # that brought it here
    earlier: Lot | None = None  # what it was in the house it was moved from
    went: Day | None = None
    how: str = ""
    brought: int = 0
    to: str = ""  # the house or the person it went to
    gone: Line | None = field(default=None, compare=False)  # the line that tells it went
    tenant: bool | None = None
    tenant_told: bool = False  # the book says so itself; else it follows from the lets

    @property
    def bought(self) -> Line | None:
        """The line that bought it, in whichever house it was then; None where it came otherwise."""
        return self.earlier.bought if self.earlier else self.line

    @property
    def whose(self) -> str:
        """Whose it was when it came: "the seller's", "ours", or "" where nobody wrote it down."""
        if self.earlier:
            return self.earlier.whose
        return {HERS: "the seller's", OURS: "ours", "used by tenant": "", "": ""}.get(self.came, "ours")

    @property
    def proofs(self) -> tuple[Proof, ...]:
        """The files named on the line that brought it."""
        return self.line.entry.facts.proofs if self.line else ()

    def here_on(self, day: date) -> bool:
        """Whether it was in the house at the end of a day, as far as the book tells."""
        return (self.since is None or self.since.first <= day) and (self.went is None or self.went.first > day)


@record
class Slip:
    """What cannot be: a line about a thing that, by the book, was no longer there.

    what is "gone" (it left before), "more" (more leave than there were), "claimed" (replaced long after it left),
    "twice" (replaced again days later, so two new ones for one old), "there" (none before, and one is there), or
    "no-house" (moved to a house nobody knows).
    """

    what: str
    house: str
    line: Entry
    thing: Named
    there: Fraction = Fraction(0)  # how many there were
    last: Lot | None = None  # the earlier going


@record
class Inventory:
    """Every lot of every house, in the order in which they came; and what each line of works moved."""

    lots: tuple[Lot, ...]
    slips: tuple[Slip, ...]
    _taken: Mapping[tuple[str, int], tuple[Lot, ...]]
    _put: Mapping[tuple[str, int], tuple[Lot, ...]]
    _moved_in: Mapping[tuple[str, str], date]  # by house and key: the first day on which one was moved in

    def of(self, house: str) -> tuple[Lot, ...]:
        """The lots of one house."""
        return tuple(lot for lot in self.lots if lot.house == house)

    def taken(self, house: str, order: int) -> tuple[Lot, ...]:
        """What a line of works, by its order in the book, took away from a house or replaced there."""
        return self._taken.get((house, order), ())

    def moved_in(self, house: str, key: str, before: date) -> bool:
        """Whether such a thing was moved into a house from another one before a day."""
        return self._moved_in.get((house, key), before) < before

    def came_from(self, house: str, key: str, until: date) -> str:
        """The house from which such a thing was moved in up to a day, the last of several; "" where none was."""
        moved = [
            (lot.since.first, lot.earlier.house)
            for lot in self.lots
            if lot.house == house and lot.key == key and lot.earlier and lot.since and lot.since.first <= until
        ]
        return max(moved)[1] if moved else ""

    def put(self, house: str, order: int) -> tuple[Lot, ...]:
        """What a line of works, by its order in the book, brought into a house."""
        return self._put.get((house, order), ())
