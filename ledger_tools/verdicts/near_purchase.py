"""What was told of the state of a home near its purchase, and which works it touches. Decides nothing."""

from __future__ import annotations

from datetime import date
from functools import lru_cache

from .. import law
from ..book.entries import Entry
from .declared import Told, declares, parts_of, told
from .history import History

PUTS_RIGHT = frozenset({"repaired", "replaced", "treated", "rebuilt", "removed", "moved"})
WALLS = frozenset({"wall", "plaster", "ceiling"})  # decorating is work on these


@lru_cache(maxsize=4)  # asked of each line of a book that is being judged
def unfit_near(history: History) -> tuple[Told, ...]:
    """All that called a home of the book unfit near its purchase, in its order."""
    if not declares(history.book):
        return ()
    return tuple(t for t in told(history) if t.word == "unfit" and near_purchase(history, t))


def near_purchase(history: History, t: Told) -> bool:
    """Whether it speaks of the state in which the home was got: said up to the first letting, or about that day."""
    first, day = history.lets.first_let(t.house.name), t.entry.day.first
    if t.band:
        return _too_low(t, first or day) and _in_force(history, t)
    return t.question.whenever or first is None or day <= first


def _too_low(t: Told, day: date) -> bool:
    """Whether a home of this energy band may not be newly let on a day, in its nation."""
    if t.house.nation not in ("", "england", "wales") or not "a" <= t.band <= "g":
        return False
    try:
        lowest = law.figure("letting.lowest_energy_band", day).whole
    except law.NoFigure:
        return False
    return ord(t.band) - ord("a") + 1 > lowest


def _in_force(history: History, t: Told) -> bool:
    """Whether it is the certificate the home was got with: the last one by then, else the first up to the letting."""
    bands = [
        line.day.first
        for entry in history.book.entries
        for line in (entry, *entry.lines)
        if line.facts.energy_band and any(share.house == t.house.name for share in line.homes)
    ]
    got = t.house.got.day if t.house.got else None
    before = [day for day in bands if got is None or day <= got]
    first = history.lets.first_let(t.house.name)
    chosen = max(before) if before else min(bands)
    return t.entry.day.first == chosen and (first is None or chosen <= first)


def touches(history: History, line: Entry, t: Told) -> bool:
    """Whether work touches what was told: all work where no thing was named, else the thing or its room."""
    if not t.things or line.verb == "decorated" and not WALLS.isdisjoint(t.things):
        return True
    return not t.things.isdisjoint(_keys(history, line)) or not t.rooms.isdisjoint(room.text for room in line.rooms)


def put_right(history: History, line: Entry, t: Told) -> bool:
    """Whether a named defect had been put right once since the home was got, before this line."""
    got = t.house.got.day if t.house.got else date.min
    return any(
        before.verb in PUTS_RIGHT and got <= before.day < line.day.first
        for key in _keys(history, line) & t.things
        for before in history.told(t.house.name, key)
    )


def _keys(history: History, line: Entry) -> set[str]:
    swapped = line.becomes.things if line.becomes else ()
    linked = (thing for link in line.facts.links for thing in link.things)
    return {history.key(thing.name, line.verb) for thing in (*line.things, *swapped, *linked)}


def says_otherwise(history: History, t: Told) -> bool:
    """Whether the record of a home says that it could be let, if only for a while, owing to nothing that was told."""
    if t.house.as_bought not in ("lettable", "lettable for a while"):
        return False
    faults = {history.key(thing.name) for thing in t.house.as_bought_faults}
    return not t.things or not t.things <= parts_of(faults)
