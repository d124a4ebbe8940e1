"""Walks the lines of works once, in order of day, and keeps what is in which house. Makes an `Inventory`.

Knows no tax. Where the book does not tell how a thing came, it was there; only what the book contradicts is a slip.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace as changed
from datetime import date
from fractions import Fraction

from ..book.entries import Day, Entry, OldOne
from ..book.entries import Thing as Named
from .catalogue import split
from .history import History, Line
from .inventory import HELD, HERS, OURS, Inventory, Lot, Slip
from .told import WORN, as_it_was, nature_of

ONE_SWAP = 60  # days between a thing's going and the coming of what replaces it: ours, no source
COMING = frozenset({"bought", "installed", "added"})
GOING = {"sold": "sold", "scrapped": "scrapped", "took home": "taken home", "removed": "removed"}
BUILT_ANEW = {"rebuilt": "rebuilt", "converted": "converted"}
# Words for so many together that one more or less is no slip.
MASS = frozenset(
    "appliance bedding contents crockery cutlery furniture glassware kitchenware ornament pan picture planting tool "
    "towel".split()
)


class _Lot:
    """A lot while the walk goes on: what will stand in the frozen one, and who it was before."""

    __slots__ = ("earlier", "followed", "frozen", "known", "told")

    def __init__(self, told: Lot, earlier: _Lot | None = None, known: bool = True) -> None:
        self.told, self.earlier = told, earlier
        self.known = known  # the book tells how it came, or counts it
        self.followed = False  # a line has said that another came in its place
        self.frozen: Lot | None = None


def keep(history: History) -> Inventory:
    """The inventory of a book's history: linear in its lines of works."""
    walk = _Walk(history)
    for line in walk.lines():
        walk.hear(line)
    walk.sell_houses()
    return walk.done()


class _Walk:
    """The state of the walk."""

    def __init__(self, history: History) -> None:
        self.history = history
        self.all: list[_Lot] = []
        self.here: dict[tuple[str, str], dict[str, list[_Lot]]] = defaultdict(dict)  # by house and key, then by room
        self.gone: dict[tuple[str, str], list[_Lot]] = defaultdict(list)
        self.uncounted: set[tuple[str, str]] = set()  # of these the book never says how many there are
        self.taken: dict[tuple[str, int], list[_Lot]] = defaultdict(list)
        self.put: dict[tuple[str, int], list[_Lot]] = defaultdict(list)
        self.untold: set[tuple[str, str]] = set()  # of these one left that no line had brought
        self.sellers: set[tuple[str, str]] = set()  # of these the house says that the seller left them
        self.moved_in: dict[tuple[str, str], int] = {}
        self.slips: list[Slip] = []
        for house, found in history.book.properties.items():
            for thing in found.left_by_seller:
                known = history.known(thing.name)
                if known.nature in HELD:
                    self.sellers.add((house, history.key(thing.name)))
                    self._add(
                        house, thing, known.nature, number(thing, history.key(thing.name)), "", self._got(house), HERS
                    )

    def lines(self) -> list[Line]:
        """The lines of works that can be about a thing kept here, in the order of the book."""
        history = self.history
        kept: dict[int, Line] = {}
        for (_, key), lines in history.lines.items():
            sure = history.known(key).nature in HELD
            for line in lines:
                if sure or line.entry.facts.fixing == "loose" or line.entry.becomes:
                    kept[line.order] = line
        return [kept[order] for order in sorted(kept)]

    # ── a line ───────────────────────────────────────────────────────────────────────────────────────────────

    def hear(self, line: Line) -> None:
        """What one line does to the houses it is about."""
        entry = as_it_was(line.entry)
        many = len(entry.homes) > 1
        for home in entry.homes:
            for thing in entry.things:
                if thing.extent == "part of":
                    continue
                known = self.history.known(thing.name, entry.verb)
                swapped = entry.becomes.things if entry.becomes else ()
                became = self.history.known(swapped[0].name, entry.verb) if swapped else None
                key = self.history.key(thing.name, entry.verb)
                kept = nature_of(entry, known, became) in HELD or bool(self.here.get((home.house, key)))
                n = None if many else number(thing, key)
                if kept:
                    self._act(home.house, key, thing, n, entry, line)
            if entry.verb in ("replaced", "converted") and entry.becomes and entry.becomes.things:
                for thing in entry.becomes.things:
                    self._came(home.house, thing, entry, line, "replaced", many)

    def _act(self, house: str, key: str, thing: Named, n: Fraction | None, entry: Entry, line: Line) -> None:
        verb = entry.verb
        if verb in COMING:
            self._came(house, thing, entry, line, verb, len(entry.homes) > 1)
        elif verb == "replaced":
            self._replaced(house, key, thing, n, entry, line)
        elif verb in BUILT_ANEW:
            self._leave(self._pick(house, key, n, room(entry)), line, BUILT_ANEW[verb])
            if verb == "rebuilt":
                self._came(house, thing, entry, line, verb, len(entry.homes) > 1)
        elif verb in GOING:
            to = entry.who.full if entry.who and entry.who.role == "to" else ""
            self._goes(house, key, thing, n, entry, line, GOING[verb], to)
        elif verb == "moved":
            self._moved(house, key, thing, n, entry, line)

    def _came(self, house: str, thing: Named, entry: Entry, line: Line, came: str, many: bool) -> None:
        known = self.history.known(thing.name, entry.verb)
        nature = nature_of(changed(entry, becomes=None), known, None)
        if nature not in HELD:
            return
        n = None if many else number(thing, self.history.key(thing.name, entry.verb))
        lot = self._add(house, thing, nature, n, room(entry), entry.day, came, line)
        self.put[house, line.order].append(lot)

    # ── coming in place of another ───────────────────────────────────────────────────────────────────────────

    def _replaced(self, house: str, key: str, thing: Named, n: Fraction | None, entry: Entry, line: Line) -> None:
        old = entry.facts.old_one
        stays = old is not None and (old.fate == "kept" or old.fate == "moved" and old.to == house)
        if not stays:
            self._old_goes(house, key, thing, n, entry, line, old)
        swap = entry.becomes
        if swap is None or not swap.things:
            count = swap.count if swap and swap.count is not None else n
            self._came(house, changed(thing, count=count, of=None), entry, line, "replaced", len(entry.homes) > 1)

    def _old_goes(
        self, house: str, key: str, thing: Named, n: Fraction | None, entry: Entry, line: Line, old: OldOne | None
    ) -> None:
        where, there = room(entry), entry.facts.was_there
        found = self._pick(house, key, n, where, there if there in (HERS, OURS) else "", strict=True)
        for lot in found:
            self._replaced_twice(house, key, thing, lot, entry)
        short = n is not None and counted(found) is not None and n - (counted(found) or 0)
        if short or not found:
            before = self._went_before(house, key, where, entry, there == "taken out earlier")
            if before is not None:
                before.followed = True
                self.taken[house, line.order].append(before)
            elif self._contradicted(house, key, found, there):
                self._slip("more" if found else "claimed", house, key, thing, entry, found)
            else:
                left = Fraction(short) if short else n
                origin = there if there in (HERS, OURS, "used by tenant") else ""
                found.append(self._untold(house, thing, left, where, origin, entry))
        how, brought, to = fate(old, entry)
        self._leave(found, line, how, brought, to)
        if old and old.fate == "moved":
            if old.to in self.history.book.properties:
                self._arrive(found, old.to, entry, line)
            elif old.to not in self.history.book.unread:
                self.slips.append(Slip("no-house", house, entry, thing))

    def _went_before(self, house: str, key: str, where: str, entry: Entry, ever: bool) -> _Lot | None:
        """One that was sold or taken out shortly before its replacement came (or ever, where the line says so)."""
        for lot in reversed(self.gone[house, key]):
            told = lot.told
            if told.went is None or not ever and (entry.day.first - told.went.first).days > ONE_SWAP:
                return None
            own = told.how != "replaced" and (not where or not told.room or told.room == where)
            if own and not lot.followed:
                return lot
        return None

    def _replaced_twice(self, house: str, key: str, thing: Named, lot: _Lot, entry: Entry) -> None:
        """The only one there, new in place of the only one before, is replaced again days later."""
        came, told = lot.told.line, lot.told
        if came is None or told.came != "replaced" or not lot.known or not WORN.isdisjoint(entry.facts.causes):
            return
        first = [old for old in self.taken[house, came.order] if old.told.key == key]
        near = told.since is not None and (entry.day.first - told.since.first).days <= ONE_SWAP
        if near and first and all(old.known for old in first) and told.count is not None:
            self.slips.append(Slip("twice", house, entry, thing, told.count, freeze(lot)))

    def _contradicted(self, house: str, key: str, found: list[_Lot], there: str) -> bool:
        """Whether the book itself counts what there was, so that no other one can have been there."""
        if (house, key) in self.uncounted or there in (OURS, "used by tenant", "taken out earlier"):
            return False
        if there == HERS:
            return (house, key) in self.sellers
        return bool(found or self.gone[house, key]) and (house, key) not in self.untold

    # ── going ────────────────────────────────────────────────────────────────────────────────────────────────

    def _goes(
        self, house: str, key: str, thing: Named, n: Fraction | None, entry: Entry, line: Line, how: str, to: str
    ) -> None:
        brought = entry.amount or 0 if how in ("sold", "scrapped") else 0
        swapped = self._old_of_a_swap(house, key, entry, n)
        for lot in swapped:
            lot.told = changed(lot.told, how=how, brought=brought, to=to, gone=line)
            self.taken[house, line.order].append(lot)
        if swapped:
            return
        if self._old_went_already(house, key, thing, entry):
            self._slip("gone", house, key, thing, entry, [])
            return
        origin = entry.facts.was_there if entry.facts.was_there in (HERS, OURS) else ""
        found = self._pick(house, key, n, room(entry), origin)
        have = counted(found)
        if not found or n is not None and have is not None and n > have:
            if self._contradicted(house, key, found, entry.facts.was_there):
                self._slip("more" if found else "gone", house, key, thing, entry, found)
            else:
                left = n - (have or 0) if n is not None else None
                found.append(self._untold(house, thing, left, room(entry), origin, entry))
        self._leave(found, line, how, brought, to)

    def _old_of_a_swap(self, house: str, key: str, entry: Entry, n: Fraction | None) -> list[_Lot]:
        """What was replaced in the days before, where no line has told yet how it went."""
        waiting = [lot for lot in self._lately(house, key, entry) if lot.told.how == "replaced"]
        if not waiting:
            return []
        last = waiting[0]
        if n is None:
            return [lot for lot in waiting if lot.told.gone is last.told.gone]
        if last.told.count is None or n >= last.told.count:
            return [last]
        piece = self._part(last, n, "")
        self.gone[house, key].append(piece)
        return [piece]

    def _old_went_already(self, house: str, key: str, thing: Named, entry: Entry) -> bool:
        """ "Sold old sofa", when the line that replaced it has said where the old one went."""
        return is_old(thing) and any(
            lot.told.gone is not None and lot.told.gone.verb == "replaced" and lot.told.how != "replaced"
            for lot in self._lately(house, key, entry)
        )

    def _lately(self, house: str, key: str, entry: Entry) -> list[_Lot]:
        """What went within the days of one swap before a line, the last first."""
        found = []
        for lot in reversed(self.gone[house, key]):
            if lot.told.went is None or (entry.day.first - lot.told.went.first).days > ONE_SWAP:
                break
            found.append(lot)
        return found

    def _moved(self, house: str, key: str, thing: Named, n: Fraction | None, entry: Entry, line: Line) -> None:
        target = entry.who.name if entry.who and entry.who.role == "to" else ""
        if not target:
            for lot in self._pick(house, key, n, "") if room(entry) else []:
                lot.told = changed(lot.told, room=room(entry))
                self.here[house, key].setdefault(room(entry), []).append(lot)
            return
        if target == house:
            return
        self._goes(house, key, thing, n, entry, line, "moved", target)
        lots = [lot for lot in self.taken[house, line.order] if lot.told.key == key]
        if target in self.history.book.properties:
            self._arrive(lots, target, entry, line)

    def _arrive(self, lots: list[_Lot], target: str, entry: Entry, line: Line) -> None:
        """Lots that left a house by being moved, in their new one."""
        for lot in lots:
            here = changed(lot.told, house=target, room="", since=entry.day, came="moved", line=line, went=None, how="",
                           brought=0, to="", gone=None)  # fmt: skip
            self.put[target, line.order].append(self._keep(_Lot(here, lot, lot.known)))
            self.moved_in.setdefault((target, lot.told.key), line.order)

    # ── lots ─────────────────────────────────────────────────────────────────────────────────────────────────

    def _add(
        self, house: str, thing: Named, nature: str, n: Fraction | None, where: str, since: Day | None, came: str,
        line: Line | None = None,
    ) -> _Lot:  # fmt: skip
        key = self.history.key(thing.name, line.verb if line else "")
        return self._keep(_Lot(Lot(house, key, bare(thing), nature, n, where, since, came, line)))

    def _untold(
        self, house: str, thing: Named, n: Fraction | None, where: str, origin: str, entry: Entry
    ) -> _Lot:  # fmt: skip
        """One that goes now and must have been there, though no line brought it."""
        nature = self.history.known(thing.name, entry.verb).nature
        key = self.history.key(thing.name, entry.verb)
        since = self._got(house) if origin == HERS else None
        lot = _Lot(Lot(house, key, bare(thing), nature, n, where, since, origin), known=False)
        self.untold.add((house, key))
        self.all.append(lot)
        return lot

    def _got(self, house: str) -> Day | None:
        """The day the house was got."""
        found = self.history.book.properties.get(house)
        return Day(found.got.day, found.got.day) if found and found.got else None

    def _keep(self, lot: _Lot) -> _Lot:
        told = lot.told
        if not lot.known:
            self.untold.add((told.house, told.key))
        if told.count is None:
            self.uncounted.add((told.house, told.key))
        self.here[told.house, told.key].setdefault(told.room, []).append(lot)
        self.all.append(lot)
        return lot

    def _pick(
        self, house: str, key: str, n: Fraction | None, where: str, origin: str = "", strict: bool = False
    ) -> list[_Lot]:
        """So many of what is there, the oldest first, taken out of `here`; all of it where the line does not count.

        Of a room told: what is in it, or in no room told; strict: what is in another room is another thing. origin:
        only what came that way, as far as the book tells.
        """
        rooms = self.here.get((house, key), {})
        order = list(rooms) if not where else [r for r in (where, "") if r in rooms]
        if where and not strict and not any(rooms[r] for r in order):
            order = list(rooms)
        found: list[_Lot] = []
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
                    return [*found, self._part(lot, left, where)]  # one of them; how many stay nobody knows
                if count is not None and left is not None and count > left:
                    return [*found, self._part(lot, left, where)]
                found.append(lots.pop(i))
                left = None if left is None or count is None else left - count
        return found

    def _part(self, lot: _Lot, n: Fraction | None, where: str) -> _Lot:
        """Some of a lot, as a lot of its own; the rest stays."""
        piece = _Lot(changed(lot.told, count=n, room=lot.told.room or where), lot.earlier, lot.known)
        if lot.told.count is not None and n is not None:
            lot.told = changed(lot.told, count=lot.told.count - n)
        self.all.append(piece)
        return piece

    def _leave(self, lots: list[_Lot], line: Line, how: str, brought: int = 0, to: str = "") -> None:
        for lot in lots:
            told = lot.told
            used = told.tenant_told or line.entry.facts.was_there == "used by tenant"
            lot.told = changed(told, went=line.entry.day, how=how, brought=brought, to=to, gone=line, tenant_told=used)
            self.gone[told.house, told.key].append(lot)
            self.taken[told.house, line.order].append(lot)

    def _slip(self, what: str, house: str, key: str, thing: Named, entry: Entry, found: list[_Lot]) -> None:
        gone = self.gone[house, key]
        there = counted(found) or Fraction(0)
        self.slips.append(Slip(what, house, entry, thing, there, freeze(gone[-1]) if gone else None))

    # ── the end ──────────────────────────────────────────────────────────────────────────────────────────────

    def sell_houses(self) -> None:
        """What is in a house when it is sold goes with it."""
        for (house, key), rooms in self.here.items():
            deal = self.history.book.properties[house].sold if house in self.history.book.properties else None
            if deal is None:
                continue
            day = Day(deal.day, deal.day)
            for lot in (lot for lots in rooms.values() for lot in lots):
                if lot.told.since is None or lot.told.since.first <= deal.day:
                    lot.told = changed(lot.told, went=day, how="sold with the house")
                    self.gone[house, key].append(lot)

    def done(self) -> Inventory:
        """All of it, frozen."""
        for lot in self.all:
            lot.told = changed(lot.told, tenant=self._tenant(lot))
        for lot in self.all:
            freeze(lot)
        made = tuple(freeze(lot) for lot in self.all)
        return Inventory(made, tuple(self.slips), _frozen(self.taken), _frozen(self.put), self.moved_in)

    def _tenant(self, lot: _Lot) -> bool | None:
        """Whether a tenant had it: as told, or by the lets that ran while it was there; None where nobody can tell."""
        told = lot.told
        if told.tenant_told or told.came == "used by tenant" or lot.earlier and self._tenant(lot.earlier):
            return True
        if told.since is None:
            return None
        return self.history.lets.let_between(told.house, told.since.first, told.went.first if told.went else date.max)


def _frozen(moved: dict[tuple[str, int], list[_Lot]]) -> dict[tuple[str, int], tuple[Lot, ...]]:
    return {where: tuple(freeze(lot) for lot in lots) for where, lots in moved.items() if lots}


def freeze(lot: _Lot) -> Lot:
    """The lot with what it was before it was moved, made once."""
    if lot.frozen is None or lot.frozen.how != lot.told.how or lot.frozen.tenant is not lot.told.tenant:
        lot.frozen = changed(lot.told, earlier=freeze(lot.earlier)) if lot.earlier else lot.told
    return lot.frozen


def fate(old: OldOne | None, entry: Entry) -> tuple[str, int, str]:
    """How the old one went, what it brought in pence, and to whom."""
    if entry.facts.part_exchange:
        return "given in part exchange", entry.facts.part_exchange, entry.who.full if entry.who else ""
    if old is None:
        return "replaced", 0, ""
    return old.fate, old.amount, old.to


def counted(lots: list[_Lot]) -> Fraction | None:
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
