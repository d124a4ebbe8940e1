"""What was in a house on a day, with what each thing cost and how much of that came off the rents.

Joins the inventory to the verdicts; knows nothing of layout.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date
from fractions import Fraction

from ..book.world import Book
from ..money import share
from ..record import record
from ..verdicts.history import Line
from ..verdicts.inventory import Inventory, Lot
from ..verdicts.verdict import ALLOWED, Cgt, Verdict


@record
class Held:
    """A lot with its money in pence: cost is None where the book tells none; beside: what else that sum bought.

    relief is the part that came off the rents for certain, doubtful the part that is open, at_sale the part that
    counts when the house is sold.
    """

    lot: Lot
    cost: int | None = None
    beside: tuple[str, ...] = ()
    relief: int = 0
    doubtful: int = 0
    at_sale: int = 0


@record
class HouseInventory:
    """The things of one house on a day: what was there, by room, and what had left by then, in order of going."""

    house: str
    full: str
    on: date
    here: tuple[Held, ...]
    gone: tuple[Held, ...]


def inventory(
    book: Book, things: Inventory, verdicts: Sequence[Verdict], house: str, on: date
) -> HouseInventory:  # fmt: skip
    """The things of a house at the end of a day. `verdicts` are those of `judge` for the same book."""
    lots = [lot for lot in things.of(house) if lot.since is None or lot.since.first <= on]
    here = sorted(_alike(lot for lot in lots if lot.here_on(on)), key=lambda lot: (not lot.room, lot.room, lot.name))
    left = [lot for lot in lots if not lot.here_on(on)]
    gone = sorted(left, key=lambda lot: lot.went.first if lot.went else date.min)
    found = book.properties.get(house)
    return HouseInventory(
        house,
        found.full if found else house,
        on,
        tuple(held(lot, verdicts) for lot in here),
        tuple(held(lot, verdicts) for lot in gone),
    )


def _alike(lots: Iterable[Lot]) -> list[Lot]:
    """Lots of one coming together again, where a part of it left later."""
    found: dict[tuple[object, ...], Lot] = {}
    for lot in lots:
        origin = (lot.key, lot.name, lot.room, lot.since, lot.came, lot.line.order if lot.line else -1)
        other = found.get(origin)
        if other is not None:
            counted = other.count is not None and lot.count is not None
            lot = replace(other, count=Fraction(other.count or 0) + Fraction(lot.count or 0) if counted else None)
        found[origin] = lot
    return list(found.values())


def held(lot: Lot, verdicts: Sequence[Verdict]) -> Held:
    """A lot with the verdict of the line that bought it."""
    line = lot.bought
    if line is None or line.position is None:
        return Held(lot)
    verdict = verdicts[line.position]
    sums = [
        sum(part.amount for part in verdict.parts if part.kind in ALLOWED),
        sum(part.amount for part in verdict.parts if part.kind == "arguable"),
        sum(part.amount for part in verdict.parts if part.cgt is not Cgt.NONE and part.kind != "arguable"),
    ]
    cost, relief, doubtful, at_sale = (_part(amount, line, lot) for amount in (verdict.item.amount, *sums))
    things = line.entry.becomes.things if line.entry.becomes and line.entry.becomes.things else line.entry.things
    beside = tuple(thing.name for thing in things if thing.name.lower() != lot.name)
    return Held(lot, cost, beside, relief, doubtful, at_sale)


def _part(amount: int, line: Line, lot: Lot) -> int:
    """The part of a line's sum that belongs to the house it was bought for."""
    homes = line.entry.homes
    first = lot
    while first.earlier:
        first = first.earlier
    if len(homes) < 2:
        return amount
    shares = share(amount, [home.fraction for home in homes])
    return shares[[home.house for home in homes].index(first.house)]
