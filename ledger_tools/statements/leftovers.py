"""What the seller left in a house: whose it is, whether it is safe to let with, what was decided, what became of it.

Asks, and answers from the book what it tells; certifies nothing and decides no ownership. Knows no layout.
"""

from __future__ import annotations

from datetime import date

from ..book.entries import Entry, Thing
from ..record import record
from ..verdicts.history import History
from ..verdicts.inventory import HERS
from ..verdicts.trades import safe_to_let
from .house_facts import paid_for

LOOKED_AT = frozenset("tested inspected serviced certified".split())
# What a line or a job of the schedule makes of it: keep, mend, sell, skip, or put another in its place.
MADE = {"repaired": "mend", "sold": "sell", "scrapped": "skip", "removed": "skip", "cleared": "skip",
        "replaced": "replace", "took home": "taken home"}  # fmt: skip
MEANT = {"keep": "keep", "repair": "mend", "service": "keep", "sell": "sell", "scrap": "skip", "remove": "skip",
         "clear": "skip", "replace": "replace"}  # fmt: skip
STAYS = frozenset({"keep", "mend", ""})


@record
class Left:
    """One thing the seller left.

    papers say that it was to stay; letter is when the seller was told to fetch it; decision is keep, mend, sell, skip,
    replace or taken home, "" where none is told, planned or done on `day`; brought is pence had for it, to whom;
    questions are what is still to ask before it is let with, looked is when somebody looked at it.
    """

    name: str
    papers: tuple[str, ...]
    letter: date | None
    decision: str
    day: date | None
    brought: int
    to: str
    questions: tuple[str, ...]
    looked: date | None
    caution: str
    sellers: bool = True  # it may be a seller's; nobody sold what was left or given

    @property
    def settled(self) -> bool:
        """Whether the book tells that it was to stay, or that the seller was told to fetch it; or nobody sold it."""
        return bool(self.papers) or self.letter is not None or not self.sellers


def leftovers(history: History, house: str) -> tuple[Left, ...]:
    """The seller's things of a house as the book tells of them."""
    return tuple(_left(history, house, thing) for thing in history.book.properties[house].left_by_seller)


def _left(history: History, house: str, thing: Thing) -> Left:
    known = history.known(thing.name)
    key = history.key(thing.name)
    lines = history.told(house, key)
    decision, day = _meant(history, house, key), None
    for line in lines:
        if line.verb in MADE and (not day or MADE[line.verb] != "mend"):
            decision, day = MADE[line.verb], line.day
            if line.verb != "repaired":
                break  # the first that went; another such thing is not the seller's
    lot = next((lot for lot in history.inventory.of(house) if lot.came == HERS and lot.key == key and lot.went), None)
    stays = decision in STAYS
    looked = max((line.day for line in lines if line.verb in LOOKED_AT), default=None)
    return Left(
        thing.name, history.book.properties[house].left_says.get(thing.name, ()), _letter(history, house, key),
        decision, day, lot.brought if lot and day else 0, lot.to if lot and day else "",
        tuple(s.ask for s in safe_to_let(known)) if stays and looked is None else (), looked if stays else None,
        known.caution if stays else "", paid_for(history.book.properties[house]),
    )  # fmt: skip


def _meant(history: History, house: str, key: str) -> str:
    """What the schedule means to do with it."""
    todos = [todo for schedule in history.book.schedules if schedule.house == house for todo in schedule.todos]
    found = [MEANT[todo.verb] for todo in todos if todo.verb in MEANT
             and any(history.key(thing.name) == key for thing in todo.things)]  # fmt: skip
    return found[0] if found else ""


def _letter(history: History, house: str, key: str) -> date | None:
    """The first time the seller was told about it, by the words of the letter."""
    return next((e.day.first for e in history.book.entries if _told_seller(e, house)
                 and _names(history, e.note, key)), None)  # fmt: skip


def _told_seller(entry: Entry, house: str) -> bool:
    to_seller = entry.kind == "told" and entry.who is not None and "seller" in entry.who.full.lower()
    return to_seller and (not entry.homes or house in {share.house for share in entry.homes})


def _names(history: History, note: str, key: str) -> bool:
    """Whether words name a thing, by itself or in three words at most."""
    words = "".join(c if c.isalnum() or c in "-'" else " " for c in note.lower()).split()
    return any(history.key(" ".join(words[i : i + n])) == key for n in (1, 2, 3) for i in range(len(words) - n + 1))
