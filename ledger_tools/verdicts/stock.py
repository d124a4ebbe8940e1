"""What is in which house while a book is walked through: lots that come, are picked, split, and leave.

Knows no verb and no order of events: those are told by the walk.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace as changed
from datetime import date
from fractions import Fraction

from ..book.entries import Day, Entry
from ..book.entries import Thing as Named
from .catalogue import split
from .history import History, Line
from .inventory import HELD, HERS, OURS, Lot, Slip

ONE_SWAP = 60  # days between a thing's going and the coming of what replaces it: ours, no source
# Words for so many together that one more or less is no slip.
MASS = frozenset(
    "appliance bedding contents crockery cutlery furniture glassware kitchenware ornament pan picture planting tool "
    "towel".split()
)


class Kept:
    """A lot while the walk goes on: what will stand in the frozen one, and who it was before."""

    __slots__ = ("earlier", "followed", "frozen", "known", "told")

    def __init__(self, told: Lot, earlier: Kept | None = None, known: bool = True) -> None:
        self.told, self.earlier = told, earlier
        self.known = known  # the book tells how it came, or counts it
        self.followed = False  # a line has said that another came in its place
        self.frozen: Lot | None = None


class Stock:
    """Every lot so far, those in each house now, and those that went."""

    def __init__(self, history: History) -> None:
        self.history = history
        self.all: list[Kept] = []
        self.here: dict[tuple[str, str], dict[str, list[Kept]]] = defaultdict(dict)  # by house and key, then by room
        self.gone: dict[tuple[str, str], list[Kept]] = defaultdict(list)
        self.uncounted: set[tuple[str, str]] = set()  # of these the book never says how many there are
        self.taken: dict[tuple[str, int], list[Kept]] = defaultdict(list)
        self.put: dict[tuple[str, int], list[Kept]] = defaultdict(list)
        self.untold: set[tuple[str, str]] = set()  # of these one left that no line had brought
        self.sellers: set[tuple[str, str]] = set()  # of these the house says that the seller left them
        self.moved_in: dict[tuple[str, str], date] = {}
        self.slips: list[Slip] = []
        for house, found in history.book.properties.items():
            for thing in found.left_by_seller:
                known = history.known(thing.name)
                if known.nature in HELD:
                    self.sellers.add((house, history.key(thing.name)))
                    self.add(
                        house, thing, known.nature, number(thing, history.key(thing.name)), "", self.got(house), HERS
                    )

    # ── coming ───────────────────────────────────────────────────────────────────────────────────────────────

    def add(
        self, house: str, thing: Named, nature: str, n: Fraction | None, where: str, since: Day | None, came: str,
        line: Line | None = None,
    ) -> Kept:  # fmt: skip
        """A lot that comes into a house."""
        key = self.history.key(thing.name, line.verb if line else "")
        return self.place(Kept(Lot(house, key, bare(thing), nature, n, where, since, came, line)))

    def must_have_been(
        self, house: str, thing: Named, n: Fraction | None, where: str, origin: str, entry: Entry
    ) -> Kept:  # fmt: skip
        """One that goes now and must have been there, though no line brought it."""
        nature = self.history.known(thing.name, entry.verb).nature
        key = self.history.key(thing.name, entry.verb)
        since = self.got(house) if origin == HERS else None
        lot = Kept(Lot(house, key, bare(thing), nature, n, where, since, origin), known=False)
        self.untold.add((house, key))
        self.all.append(lot)
        return lot

    def got(self, house: str) -> Day | None:
        """The day the house was got."""
        found = self.history.book.properties.get(house)
        return Day(found.got.day, found.got.day) if found and found.got else None

    def place(self, lot: Kept) -> Kept:
        """Put a lot among those of its house and room."""
        told = lot.told
        if not lot.known:
            self.untold.add((told.house, told.key))
        if told.count is None:
            self.uncounted.add((told.house, told.key))
        self.here[told.house, told.key].setdefault(told.room, []).append(lot)
        self.all.append(lot)
        return lot

    # ── going ────────────────────────────────────────────────────────────────────────────────────────────────

    def pick(
        self, house: str, key: str, n: Fraction | None, where: str, origin: str = "", strict: bool = False
    ) -> list[Kept]:
        """So many of what is there, the oldest first, taken out of `here`; all of it where the line does not count.

        Of a room told: what is in it, or in no room told; strict: what is in another room is another thing. origin:
        only what came that way, as far as the book tells.
        """
        rooms = self.here.get((house, key), {})
        order = list(rooms) if not where else [r for r in (where, "") if r in rooms]
        if where and not strict and not any(rooms[r] for r in order):
            order = list(rooms)
        found: list[Kept] = []
        left = n
        for name in order:
            lots, i = rooms[name], 0
            while i < len(lots) and left != 0:
                lot = lots[i]
                count = lot.told.count
                if origin and lot.told.came not in (origin, "", "moved"):
                    i += 1
                    continue
                if count is None and (left is not None or where not in ("", name)):
                    return [*found, self.part(lot, left, where)]  # one of them; how many stay nobody knows
                if count is not None and left is not None and count > left:
                    return [*found, self.part(lot, left, where)]
                found.append(lots.pop(i))
                left = None if left is None or count is None else left - count
        return found

    def part(self, lot: Kept, n: Fraction | None, where: str) -> Kept:
        """Some of a lot, as a lot of its own; the rest stays."""
        piece = Kept(changed(lot.told, count=n, room=lot.told.room or where), lot.earlier, lot.known)
        if lot.told.count is not None and n is not None:
            lot.told = changed(lot.told, count=lot.told.count - n)
        self.all.append(piece)
        return piece

    def leave(self, lots: list[Kept], line: Line, how: str, brought: int = 0, to: str = "") -> None:
        """Lots that go by a line: how, for how much (pence), to whom or where."""
        for lot in lots:
            told = lot.told
            used = told.tenant_told or line.entry.facts.was_there == "used by tenant"
            lot.told = changed(told, went=line.entry.day, how=how, brought=brought, to=to, gone=line, tenant_told=used)
            self.gone[told.house, told.key].append(lot)
            self.taken[told.house, line.order].append(lot)

    def lately(self, house: str, key: str, entry: Entry) -> list[Kept]:
        """What went within the days of one swap before a line, the last first."""
        found = []
        for lot in reversed(self.gone[house, key]):
            if lot.told.went is None or (entry.day.first - lot.told.went.first).days > ONE_SWAP:
                break
            found.append(lot)
        return found

    # ── what cannot be ───────────────────────────────────────────────────────────────────────────────────────

    def contradicted(self, house: str, key: str, found: list[Kept], there: str) -> bool:
        """Whether the book itself counts what there was, so that no other one can have been there."""
        if (house, key) in self.uncounted or there in (OURS, "used by tenant", "taken out earlier"):
            return False
        if there == HERS:
            return (house, key) in self.sellers
        return bool(found or self.gone[house, key]) and (house, key) not in self.untold

    def slipped(self, what: str, house: str, key: str, thing: Named, entry: Entry, found: list[Kept]) -> None:
        """Note that a line cannot be; `found` is what of the thing was there."""
        gone = self.gone[house, key]
        there = counted(found) or Fraction(0)
        self.slips.append(Slip(what, house, entry, thing, there, freeze(gone[-1]) if gone else None))


def freeze(lot: Kept) -> Lot:
    """The lot with what it was before it was moved, made once."""
    if lot.frozen is None or lot.frozen.how != lot.told.how or lot.frozen.tenant is not lot.told.tenant:
        lot.frozen = changed(lot.told, earlier=freeze(lot.earlier)) if lot.earlier else lot.told
    return lot.frozen


def counted(lots: list[Kept]) -> Fraction | None:
    """How many these are; None where any of them is not counted."""
    counts = [lot.told.count for lot in lots]
    return None if None in counts else sum((c for c in counts if c is not None), Fraction(0))


def number(thing: Named, key: str) -> Fraction | None:
    """How many a line says: the number told, one for a word in the singular, None for "curtains" and "crockery"."""
    if thing.count is not None:
        return thing.count
    if key in MASS or thing.name.lower().endswith("s") and not key.endswith("s"):
        return None
    return Fraction(1)


def room(entry: Entry) -> str:
    """The room or rooms of a line."""
    return " and ".join(name.text.lower() for name in entry.rooms)


def bare(thing: Named) -> str:
    """The words for a thing without "old"."""
    return " ".join(word for word in split(thing.name) if word != "old")


def is_old(thing: Named) -> bool:
    """Whether the words call it the old one."""
    return split(thing.name)[:1] == ["old"]
