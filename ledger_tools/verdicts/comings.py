"""Walks the lines of works once, in order of day, and keeps what is in which house. Makes an `Inventory`.

Knows no tax. Where the book does not tell how a thing came, it was there; only what the book contradicts is a slip.
"""

from __future__ import annotations

from dataclasses import replace as changed
from datetime import date
from fractions import Fraction

from ..book.entries import Day, Entry, OldOne
from ..book.entries import Thing as Named
from .history import History, Line
from .inventory import HELD, HERS, OURS, Inventory, Lot, Slip
from .stock import ONE_SWAP, Kept, Stock, counted, freeze, is_old, number, room
from .told import WORN, as_it_was, nature_of

COMING = frozenset({"bought", "installed", "added"})
GOING = {"sold": "sold", "scrapped": "scrapped", "took home": "taken home", "removed": "removed"}
BUILT_ANEW = {"rebuilt": "rebuilt", "converted": "converted"}


def keep(history: History) -> Inventory:
    """The inventory of a book's history: linear in its lines of works."""
    walk = _Walk(history)
    for line in walk.lines():
        walk.hear(line)
    walk.sell_houses()
    return walk.done()


class _Walk(Stock):
    """What each line does to the stock."""

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
            self._there_already(house, key, thing, entry)
            self._came(house, thing, entry, line, verb, len(entry.homes) > 1)
        elif verb == "replaced":
            self._replaced(house, key, thing, n, entry, line)
        elif verb in BUILT_ANEW:
            self.leave(self.pick(house, key, n, room(entry)), line, BUILT_ANEW[verb])
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
        lot = self.add(house, thing, nature, n, room(entry), entry.day, came, line)
        self.put[house, line.order].append(lot)

    def _there_already(self, house: str, key: str, thing: Named, entry: Entry) -> None:
        """ "None before", where the book has one in that very room, or in no room where the line names none."""
        lots = self.here.get((house, key), {}).get(room(entry), []) if entry.facts.was_there == "none before" else []
        if lots and (house, key) not in self.uncounted and lots[-1].told.since != entry.day:
            self.slips.append(Slip("there", house, entry, thing, Fraction(len(lots)), freeze(lots[-1])))

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
        found = self.pick(house, key, n, where, there if there in (HERS, OURS) else "", strict=True)
        for lot in found:
            self._replaced_twice(house, key, thing, lot, entry)
        short = n is not None and counted(found) is not None and n - (counted(found) or 0)
        if short or not found:
            before = self._went_before(house, key, where, entry, there == "taken out earlier")
            if before is not None:
                before.followed = True
                self.taken[house, line.order].append(before)
            elif self.contradicted(house, key, found, there):
                self.slipped("more" if found else "claimed", house, key, thing, entry, found)
            else:
                left = Fraction(short) if short else n
                origin = there if there in (HERS, OURS, "used by tenant") else ""
                found.append(self.must_have_been(house, thing, left, where, origin, entry))
        how, brought, to = fate(old, entry)
        self.leave(found, line, how, brought, to)
        if old and old.fate == "moved":
            if old.to in self.history.book.properties:
                self._arrive(found, old.to, entry, line)
            elif old.to not in self.history.book.unread:
                self.slips.append(Slip("no-house", house, entry, thing))

    def _went_before(self, house: str, key: str, where: str, entry: Entry, ever: bool) -> Kept | None:
        """One that was sold or taken out shortly before its replacement came (or ever, where the line says so)."""
        for lot in reversed(self.gone[house, key]):
            told = lot.told
            if told.went is None or not ever and (entry.day.first - told.went.first).days > ONE_SWAP:
                return None
            own = told.how != "replaced" and (not where or not told.room or told.room == where)
            if own and not lot.followed:
                return lot
        return None

    def _replaced_twice(self, house: str, key: str, thing: Named, lot: Kept, entry: Entry) -> None:
        """The only one there, new in place of the only one before, is replaced again days later."""
        came, told = lot.told.line, lot.told
        if came is None or told.came != "replaced" or not lot.known or not WORN.isdisjoint(entry.facts.causes):
            return
        first = [old for old in self.taken[house, came.order] if old.told.key == key]
        near = told.since is not None and (entry.day.first - told.since.first).days <= ONE_SWAP
        if near and first and all(old.known for old in first) and told.count is not None:
            self.slips.append(Slip("twice", house, entry, thing, told.count, freeze(lot)))

    # ── going ────────────────────────────────────────────────────────────────────────────────────────────────

    def _goes(
        self, house: str, key: str, thing: Named, n: Fraction | None, entry: Entry, line: Line, how: str, to: str
    ) -> None:
        if how == GOING["took home"] and (told := self._left_the_letting(house, key, entry)):
            self.taken[house, line.order] += told  # gone already: this line tells what it was worth
            return
        brought = entry.amount or 0 if how in ("sold", "scrapped") else 0
        swapped = self._old_of_a_swap(house, key, entry, n)
        for lot in swapped:
            lot.told = changed(lot.told, how=how, brought=brought, to=to, gone=line)
            self.taken[house, line.order].append(lot)
        if swapped:
            return
        if self._old_went_already(house, key, thing, entry):
            self.slipped("gone", house, key, thing, entry, [])
            return
        origin = entry.facts.was_there if entry.facts.was_there in (HERS, OURS) else ""
        found = self.pick(house, key, n, room(entry), origin)
        have = counted(found)
        if not found or n is not None and have is not None and n > have:
            if self.contradicted(house, key, found, entry.facts.was_there):
                self.slipped("more" if found else "gone", house, key, thing, entry, found)
            else:
                left = n - (have or 0) if n is not None else None
                found.append(self.must_have_been(house, thing, left, room(entry), origin, entry))
        self.leave(found, line, how, brought, to)

    def _old_of_a_swap(self, house: str, key: str, entry: Entry, n: Fraction | None) -> list[Kept]:
        """What was replaced in the days before, where no line has told yet how it went."""
        waiting = [lot for lot in self.lately(house, key, entry) if lot.told.how == "replaced"]
        if not waiting:
            return []
        last = waiting[0]
        if n is None:
            return [lot for lot in waiting if lot.told.gone is last.told.gone]
        if last.told.count is None or n >= last.told.count:
            return [last]
        piece = self.part(last, n, "")
        self.gone[house, key].append(piece)
        return [piece]

    def _left_the_letting(self, house: str, key: str, entry: Entry) -> list[Kept]:
        """What a line in the days before put into a house of other owners when another took its place."""
        return [
            lot
            for lot in self.lately(house, key, entry)
            if lot.told.how == "moved"
            and lot.told.gone is not None
            and lot.told.gone.verb == "replaced"
            and self.history.lets.leaves_an_owner(house, lot.told.to, entry.day.first)
        ]

    def _old_went_already(self, house: str, key: str, thing: Named, entry: Entry) -> bool:
        """ "Sold old sofa", when the line that replaced it has said where the old one went."""
        return is_old(thing) and any(
            lot.told.gone is not None and lot.told.gone.verb == "replaced" and lot.told.how != "replaced"
            for lot in self.lately(house, key, entry)
        )

    def _moved(self, house: str, key: str, thing: Named, n: Fraction | None, entry: Entry, line: Line) -> None:
        target = entry.who.name if entry.who and entry.who.role == "to" else ""
        if not target:
            for lot in self.pick(house, key, n, "") if room(entry) else []:
                lot.told = changed(lot.told, room=room(entry))
                self.here[house, key].setdefault(room(entry), []).append(lot)
            return
        if target == house:
            return
        self._goes(house, key, thing, n, entry, line, "moved", target)
        lots = [lot for lot in self.taken[house, line.order] if lot.told.key == key]
        if target in self.history.book.properties:
            self._arrive(lots, target, entry, line)

    def _arrive(self, lots: list[Kept], target: str, entry: Entry, line: Line) -> None:
        """Lots that left a house by being moved, in their new one."""
        for lot in lots:
            here = changed(lot.told, house=target, room="", since=entry.day, came="moved", line=line, went=None, how="",
                           brought=0, to="", gone=None)  # fmt: skip
            self.put[target, line.order].append(self.place(Kept(here, lot, lot.known)))
            self.moved_in.setdefault((target, lot.told.key), line.day)

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

    def _tenant(self, lot: Kept) -> bool | None:
        """Whether a tenant had it: as told, or by the lets that ran while it was there; None where nobody can tell."""
        told = lot.told
        if self.history.known(told.name, "bought").nature == "kit":
            return False  # the owners' own, to run their lets with
        if told.tenant_told or told.came == "used by tenant" or lot.earlier and self._tenant(lot.earlier):
            return True
        if told.since is None:
            return None
        return self.history.lets.let_between(told.house, told.since.first, told.went.first if told.went else date.max)


def _frozen(moved: dict[tuple[str, int], list[Kept]]) -> dict[tuple[str, int], tuple[Lot, ...]]:
    return {where: tuple(freeze(lot) for lot in lots) for where, lots in moved.items() if lots}


def fate(old: OldOne | None, entry: Entry) -> tuple[str, int, str]:
    """How the old one went, what it brought in pence, and to whom."""
    if entry.facts.part_exchange:
        return "given in part exchange", entry.facts.part_exchange, entry.who.full if entry.who else ""
    if old is None:
        return "replaced", 0, ""
    return old.fate, old.amount, old.to
