"""What would become of sums held against a claim, were the book to say of the house what was claimed. Changes nothing.

Only the verdicts asked for are found: a book of many houses is not judged a second time for one claim.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from ..book.entries import Thing
from ..book.world import OwingTo, Property
from ..money import pounds
from .declared import Stake, Told
from .engine import Judging
from .history import History
from .verdict import Kind, Part

POOR, FOR_A_WHILE = "not lettable", "lettable for a while"


def were_it_so(history: History, t: Told, stakes: Iterable[tuple[int, Stake]]) -> str:
    """What these sums, each with the position of its item, would do: the end of a sentence that begins with "then".

    "these sums count when it is sold", or so much of them, so much open, and so much as it is now. Pence add up.
    """
    stakes = tuple(stakes)
    houses = {**history.book.properties, t.house.name: _as_claimed(t, [stake for _, stake in stakes])}
    then = Judging(History(replace(history.book, properties=houses), history.catalogue))
    total, sold, open_ = 0, 0, 0
    for position, stake in stakes:
        parts = then.verdict(position).parts
        moved = min(stake.pence, _sum(parts, Kind.ACQUISITION))
        total, sold = total + stake.pence, sold + moved
        if not stake.open:  # what is open already stays so, on its own grounds
            open_ += min(stake.pence - moved, _sum(parts, Kind.ARGUABLE))
    stays = total - sold - open_
    if sold == total:
        return "these sums count when it is sold"
    said = [f"{pounds(sold)} of these sums counts when it is sold"] if sold else []
    said += [f"{pounds(open_)} is open"] if open_ else []
    said += [f"{pounds(stays)} stays as it is now"] if stays else []
    *most, last = said
    return f"{', '.join(most)} and {last}" if most else last


def _as_claimed(t: Told, stakes: Iterable[Stake]) -> Property:
    """The house as the claim has it: could not be let; where that is told already, for what was named too, or for all
    of these works where nothing was."""
    if t.house.as_bought != POOR:
        before = t.house.as_bought_told if t.house.as_bought == FOR_A_WHILE else ()
        return replace(t.house, as_bought=POOR, as_bought_told=(*before, OwingTo(_called(t))))
    named = _called(t)
    worked_on = tuple(thing for stake in stakes for thing in stake.verdict.item.line.things)
    return replace(t.house, as_bought_told=(*t.house.as_bought_told, OwingTo(named or worked_on)))


def line_of_it(t: Told) -> str:
    """The line of the house's block that says what was claimed; "" where that would lose what the block says of a
    house that could be let for a while: of one state it has one word."""
    if t.house.as_bought == FOR_A_WHILE:
        return ""
    owing = " and ".join(dict.fromkeys(thing.name for thing in _called(t)))
    return f"as bought {POOR}{f' owing to {owing}' if owing else ''}"


def _called(t: Told) -> tuple[Thing, ...]:
    """The things named as what made it unfit."""
    called = t.entry.facts.called
    return called.things if called else ()


def _sum(parts: Iterable[Part], kind: Kind) -> int:
    return sum(part.amount for part in parts if part.kind is kind)
