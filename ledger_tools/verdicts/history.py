"""What a whole book tells of each house over time, gathered once: lets, things it has had, bills, miles.

Knows no rule; the rules ask it about one day or one thing.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import defaultdict
from datetime import date, timedelta
from decimal import Decimal
from functools import cache, cached_property
from itertools import product
from typing import TYPE_CHECKING

from ..book.entries import Entry, Ruling
from ..book.items import Item, credits, items, money_in, party, same_party
from ..book.settling import shared_rulings
from ..book.world import Book
from ..days import TaxYear
from ..money import round_half_up
from ..record import record
from .catalogue import UNKNOWN, Catalogue, Thing
from .lets import Lets
from .told import MORE, as_it_was

if TYPE_CHECKING:
    from .inventory import Inventory
    from .loans import Loans

PUT_IN = frozenset({"replaced", "installed", "added", "rebuilt"})
PUT_THERE = frozenset({"bought", "installed", "added", "replaced", "repaired"})
MONEY_IN = frozenset({"received", "banked"})
COVERS = frozenset({"insurance", "compensation", "grant"})
LEAVES = frozenset({"sold", "scrapped", "took home"})
WITH = timedelta(days=120)  # within which a job is meant by what goes with it: ours, no source
LEAVES_WALLS_ALONE = frozenset({"decorated", "cleaned", "cleared", "serviced", "inspected", "tested", "certified"})
BUILDS = frozenset({"installed", "added", "converted", "extended", "altered", "rebuilt"})
NO_JOBS = LEAVES | {"hired", "inspected", "tested", "certified"}
TAKEN = frozenset({"replaced", "removed", "sold", "scrapped", "took home", "rebuilt"})


@record
class Line:
    """A line of works in the order of the book, priced or not: what happened to which thing, where."""

    order: int
    day: date
    verb: str
    entry: Entry
    position: int | None  # of its item, where it has a sum


class History:
    """A book read once through: made by `judge`, asked by the rules. Never changes after it is made."""

    def __init__(self, book: Book, catalogue: Catalogue) -> None:
        self.book = book
        declared = {word.name: word.nature for word in book.thing_words.values()}
        self.catalogue = catalogue.extend(declared) if declared else catalogue
        self.items: tuple[Item, ...] = items(book)
        self._known: dict[tuple[str, str], Thing] = {}
        self.lets = Lets(book, self.items, self.known)
        self._meant: dict[tuple[str, int, str], list[int]] = {}
        self.lines: dict[tuple[str, str], list[Line]] = defaultdict(list)
        self.bills: dict[int, list[int]] = defaultdict(list)  # of a head line: the positions of its items
        self.orders: list[int] = []  # of an item by its position: where its line stands in the book
        self._priced: dict[tuple[str, str], list[Line]] = defaultdict(list)
        self._put_in: dict[tuple[str, str], list[Line]] = defaultdict(list)
        self._first_put: dict[tuple[str, str], date] = {}
        self._last_gone: dict[tuple[str, str], date] = {}
        self._gather()
        self.left = self._left_by_seller()
        self.driven = frozenset(TaxYear.of(i.line.day.first) for i in self.items if i.line.kind == "trip")

    # What only verdicts ask for is worked out when they do: proof looks at histories too, and needs no law.

    @cached_property
    def miles(self) -> dict[int, int]:
        """The mileage allowance of each trip in pence, by position."""
        return self._mileage()

    @cached_property
    def _shared_rulings(self) -> dict[str, Ruling]:
        return shared_rulings(self.book)

    def ruling(self, position: int) -> Ruling | None:
        """The landlord's own ruling on an item: on its line, else on the bill it pays or on what pays it."""
        line = self.items[position].line
        own = line.facts.ruling
        return own or (self._shared_rulings.get(line.source) if self._shared_rulings else None)

    @cached_property
    def payouts(self) -> dict[tuple[str, str], list[int]]:
        """Insurance and other money back for one job, together."""
        return self._payouts()

    @cached_property
    def loans(self) -> Loans:
        """What each advance was spent on."""
        from .loans import Loans

        return Loans(self.book, self.known)

    @cached_property
    def inventory(self) -> Inventory:
        """What was in which house, and when."""
        from .comings import keep

        return keep(self)

    # ── things ───────────────────────────────────────────────────────────────────────────────────────────────

    def known(self, words: str, verb: str = "") -> Thing:
        """The catalogue's thing for these words; UNKNOWN where it has none."""
        found = self._known.get((words, verb))
        if found is None:
            found = (self.catalogue.find(words, verb) if words else None) or self._by_ending(words, verb)
            self._known[words, verb] = found
        return found

    def thing_of(self, line: Entry) -> Thing:
        """The catalogue's thing of a line; what money was for may make another of it: "valuation for insurance"."""
        if line.kind == "money" and line.purpose and line.verb not in MONEY_IN:
            found = self.catalogue.find(f"{line.thing} for {line.purpose}", line.verb)
            if found is not None:
                return found
        return self.known(line.thing, line.verb)

    def _by_ending(self, words: str, verb: str) -> Thing:
        """Money in by the last of its words: "service charge refund" is a refund, "June rent" is rent."""
        ending = words.lower().rpartition(" ")[2]
        if verb in MONEY_IN and ending in ("refund", "rebate", "rent"):
            return self.catalogue.find(ending, verb) or UNKNOWN
        return UNKNOWN

    def key(self, words: str, verb: str = "") -> str:
        """What lines about the same thing share: its name in the catalogue, else the words themselves."""
        return self.known(words, verb).name or words.lower()

    def named(self, words: str) -> tuple[str, ...]:
        """The things that money is told to be for: "burst pipe and ceiling" are two, "carpet and underlay" is one."""
        if " and " not in words or self.known(words) is not UNKNOWN:
            return (self.key(words),)
        return tuple(self.key(name) for name in words.split(" and "))

    def told(self, house: str, key: str) -> list[Line]:
        """Every line of works about a thing in a house, in order."""
        return self.lines.get((house, key), [])

    def put_in(self, house: str, key: str) -> list[Line]:
        """The lines that put such a thing new into a house, in order."""
        return self._put_in.get((house, key), [])

    def had(self, house: str, key: str, before: date) -> bool:
        """Whether the book tells of such a thing in the house before a day: left by the seller, put or moved there."""
        told = (house, key) in self.left or self._first_put.get((house, key), before) < before
        return told or self.inventory.moved_in(house, key, before)

    def advertised(self, house: str, since: date) -> bool:
        """Whether an advert for a house was paid for after a day."""
        return any(
            line.day.first > since and any(share.house == house for share in line.homes)
            for line in (item.line for item in self.items)
            if line.things and self.known(line.thing, line.verb).name == "advertising"
        )

    def refunded(self, house: str, key: str, pence: int, day: date) -> date | None:
        """The first day from this one on which just this sum came back for such a thing; None where it did not."""
        found = self._refunds.get((house, key), [])
        return next((when for when, back in found if when >= day and back == pence), None)

    @cached_property
    def _refunds(self) -> dict[tuple[str, str], list[tuple[date, int]]]:
        """The refunds for each thing of each house, by their days."""
        found: dict[tuple[str, str], list[tuple[date, int]]] = defaultdict(list)
        for item in self.items:
            line = item.line
            if line.verb == "received" and line.purpose and self.known(line.thing, line.verb).name == "refund":
                for share, name in product(line.homes, self.named(line.purpose)):
                    found[share.house, self.key(name)].append((line.day.first, item.amount))
        return {where: sorted(back) for where, back in found.items()}

    @cached_property
    def goes_to(self) -> date:
        """The last day that any line of the book tells of."""
        return max((item.line.day.first for item in self.items), default=date.min)

    def began(self, house: str, key: str, day: date, days: int) -> date:
        """The day on which work on a thing was started that a line of this day tells of: told by a line of its own, not
        more than so many days before; else the day itself."""
        started = self._started.get((house, key), [])
        at = bisect_right(started, day)
        return started[at - 1] if at and (day - started[at - 1]).days <= days else day

    @cached_property
    def _started(self) -> dict[tuple[str, str], list[date]]:
        """The days on which work on each thing of each house was started, in order."""
        found: dict[tuple[str, str], list[date]] = defaultdict(list)
        for entry in self.book.entries:
            if entry.verb == "started":
                for share, thing in product(entry.homes, entry.things):
                    found[share.house, self.key(thing.name)].append(entry.day.first)
        return {where: sorted(days) for where, days in found.items()}

    def jobs_near(self, house: str, position: int, days: int) -> list[tuple[int, str, int]]:
        """(days apart, thing, position) of priced works of a house near an item in time that are jobs in themselves."""
        when, found = self._jobs.get(house, ([], []))
        day = self.items[position].line.day.first
        first, end = bisect_left(when, day - timedelta(days)), bisect_left(when, day + timedelta(days + 1))
        return [(abs((when[i] - day).days), *found[i]) for i in range(first, end) if found[i][1] != position]

    @cached_property
    def _jobs(self) -> dict[str, tuple[list[date], list[tuple[str, int]]]]:
        jobs: dict[str, tuple[list[date], list[tuple[str, int]]]] = {}
        for position, item in enumerate(self.items):
            line = item.line
            served = line.kind == "works" and line.verb not in NO_JOBS and line.amount
            if not served or not line.thing or self.known(line.thing, line.verb).again == "job":
                continue
            for share in line.homes:
                when, found = jobs.setdefault(share.house, ([], []))
                when.append(line.day.first)
                found.append((line.thing, position))
        return jobs

    def built(self, house: str, place: str, day: date, only_more: bool) -> list[tuple[int, int, str]]:
        """(days apart, position, thing) of the jobs of the last day on each thing of the building; of decorating none.

        place: a room or a thing, "" for the whole house; only_more: only jobs that give more than there was.
        """
        found = []
        for thing, jobs in self._building.get((house, place, only_more), {}).items():
            until = bisect_right(jobs, (day, len(self.items)))
            if until:
                last = jobs[until - 1][0]
                of_that_day = jobs[bisect_left(jobs, (last, 0)) : until]
                found += [((day - last).days, position, thing) for _, position in of_that_day]
        return found

    @cached_property
    def _building(self) -> dict[tuple[str, str, bool], dict[str, list[tuple[date, int]]]]:
        """Day and position of the jobs that `built` asks of, in order, by what it is asked and by thing."""
        places: dict[tuple[str, str, bool], dict[str, list[tuple[date, int]]]] = defaultdict(lambda: defaultdict(list))
        for house, (when, jobs) in self._jobs.items():
            for day, (thing, position) in zip(when, jobs, strict=True):
                line = self.items[position].line
                walls = line.verb == "treated" or self.known(thing, line.verb).nature in ("fabric", "fixture")
                if line.verb in LEAVES_WALLS_ALONE or not walls:
                    continue
                for place in {"", thing, *(room.text for room in line.rooms)}:
                    for only_more in {False, line.verb in BUILDS or line.facts.compared in MORE}:
                        places[house, place, only_more][thing].append((day, position))
        return places

    def goes_after(self, house: str, key: str, day: date) -> bool:
        """Whether any line of a later day takes such a thing away or replaces it."""
        return self._last_gone.get((house, key), day) > day

    def nearest(self, house: str, key: str, position: int, words: str = "") -> list[int]:
        """The positions of what was paid for such a thing on the day nearest to an item's; the earlier of two days.

        All of that day: which of them stands first in a file tells nothing. A refund is about what was paid to the
        firm it came from, where that had such a thing. Near in time work on it is meant before its service, its clean
        or its paint, and what is called by just these words before what goes by another name of it.
        """
        priced, day = self._priced.get((house, key), []), self.items[position].line.day.first
        priced = self._work_meant(priced, day, words.lower()) or priced
        mine = self.items[position].line
        firm = party(mine) if mine.things and self.known(mine.thing, mine.verb).name == "refund" else ""
        theirs = [line for line in priced if line.position is not None and self._firm(line.position) == firm]
        priced = theirs if firm and theirs else priced
        first, end = on_day(priced, day)
        found = [line for line in priced[first:end] if line.position != position]
        around = [line.day for line in (*priced[max(0, first - 1) : first], *priced[end : end + 1])]
        if not found and around:
            first, end = on_day(priced, min(around, key=lambda when: (abs((when - day).days), when > day)))
            found = priced[first:end]
        positions = [line.position for line in found if line.position is not None]
        return sorted(positions, key=lambda p: (self.items[p].amount, self.items[p].line.verb))

    def _firm(self, position: int) -> str:
        """Who did the work of an item, or sold it: told on its line or its bill."""
        return party(self.items[position].line) or party(self.items[position].head)

    def meant(self, house: str, position: int, words: str) -> list[int]:
        """The positions of the items that an item's words mean: on its own bill, else of the nearest day in the house.

        What left the house is meant by none: such words ask what was paid for a thing.
        """
        asked = house, position, words
        if asked not in self._meant and len(each := self.named(words)) > 1:
            self._meant[asked] = list(dict.fromkeys(p for name in each for p in self.meant(house, position, name)))
        elif asked not in self._meant:
            key = self.key(words)
            near = (p for p in (*self.bill_of(position), *self.credited(position)) if p != position)
            bill = [p for p in near if self._about(p, key)]
            self._meant[asked] = bill or self.nearest(house, key, position, words)
        return self._meant[asked]

    def _work_meant(self, priced: list[Line], day: date, words: str) -> list[Line]:
        """Those of these lines that are work near a day, and of them those called by these words where any are."""
        first, end = bisect_left(priced, day - WITH, key=_day), bisect_right(priced, day + WITH, key=_day)
        near = [line for line in priced[first:end] if line.verb not in LEAVES_WALLS_ALONE]
        if len(near) < 2:
            return near
        return [line for line in near if any(thing.name.lower() == words for thing in line.entry.things)] or near

    def _about(self, position: int, key: str) -> bool:
        line = self.items[position].line
        if money_in(line):
            return False
        swapped = line.becomes.things if line.becomes else ()
        return any(self.key(thing.name, line.verb) == key for thing in (*line.things, *swapped))

    def turn(self, position: int) -> tuple[date, int, int]:
        """When an item has its turn: by its day; of one day the smaller first, whichever stands first in the book."""
        item = self.items[position]
        return item.line.day.first, item.amount, position

    def credited(self, position: int) -> list[int]:
        """The positions of the items of the bill that a firm's credit is against; nothing for any other item."""
        line = self.items[position].line
        if line.paper is None or not credits(line):
            return []
        number = line.paper.number.lower()
        return [p for p in self._numbered.get(number, ()) if same_party(self.items[p].head, line)]

    @cached_property
    def _numbered(self) -> dict[str, list[int]]:
        """The positions of the items of each bill that has a number."""
        found: dict[str, list[int]] = defaultdict(list)
        for position, item in enumerate(self.items):
            if item.head.facts.number and not money_in(item.line):
                found[item.head.facts.number.lower()].append(position)
        return found

    def bill_of(self, position: int) -> list[int]:
        """The positions of all items of the same bill or statement."""
        return self.bills[id(self.items[position].head)]

    def kept_for(self, house: str) -> frozenset[str]:
        """What parts of the last tenant's deposit were kept for."""
        lets = self.book.lets_of(house)
        ended = max((t.last_day or date.max for t in lets), default=None)
        lasts = {t.name for t in lets if (t.last_day or date.max) == ended}
        return frozenset(self.key(purpose) for name, purpose in self._kept if name in lasts)

    @cached_property
    def _kept(self) -> list[tuple[str, str]]:
        """Whose deposit was kept, and what for."""
        lines = (item.line for item in self.items)
        return [(line.who.name, line.purpose) for line in lines if line.verb == "kept" and line.who and line.purpose]

    # ── gathered once ────────────────────────────────────────────────────────────────────────────────────────

    def _gather(self) -> None:
        position = 0
        order = 0
        for entry in self.book.entries:
            for line in entry.lines or (entry,):
                mine = None
                if position < len(self.items) and self.items[position].line is line:
                    mine = position
                    self.bills[id(entry)].append(position)
                    self.orders.append(order)
                    position += 1
                if line.kind == "works":
                    self._remember(Line(order, line.day.first, as_it_was(line).verb, line, mine))
                order += 1
            if entry.lines and position < len(self.items) and self.items[position].line is entry:
                self.bills[id(entry)].append(position)  # a head line whose lines are all "spent"
                self.orders.append(order)
                position += 1
        for priced in self._priced.values():
            priced.sort(key=_day)

    def _remember(self, line: Line) -> None:
        entry = line.entry
        swapped = entry.becomes.things if entry.becomes else ()
        names = {self.key(thing.name, line.verb) for thing in (*entry.things, *swapped)}
        for share in entry.homes:
            for name in names:
                key = (share.house, name)
                self.lines[key].append(line)
                if line.position is not None and line.verb not in LEAVES:
                    self._priced[key].append(line)
                if line.verb in PUT_IN:
                    self._put_in[key].append(line)
                if line.verb in PUT_THERE:
                    self._first_put[key] = min(line.day, self._first_put.get(key, line.day))
                if line.verb in TAKEN and not of_the_old(entry):
                    self._last_gone[key] = max(line.day, self._last_gone.get(key, line.day))

    def _payouts(self) -> dict[tuple[str, str], list[int]]:
        """The positions of an insurer's or wrongdoer's money, by house and by what it was for, in order."""
        found: dict[tuple[str, str], list[int]] = defaultdict(list)
        for position, item in enumerate(self.items):
            line = item.line
            if line.verb in MONEY_IN and line.purpose and self.known(line.thing, line.verb).name in COVERS:
                for share in line.homes:
                    for name in self.named(line.purpose):
                        found[share.house, name].append(position)
        return found

    def _left_by_seller(self) -> frozenset[tuple[str, str]]:
        return frozenset(
            (house, self.key(thing.name)) for house, p in self.book.properties.items() for thing in p.left_by_seller
        )

    def _mileage(self) -> dict[int, int]:
        """Pence for each trip: the first band of miles of a tax year at one rate, the rest at another.

        All landlords of a book drive as one. A trip of a year for which no rate is held is left out.
        """
        driven: dict[TaxYear, Decimal] = defaultdict(Decimal)
        found = {}
        trips = ((i.line.day.first, i.line.miles, p) for p, i in enumerate(self.items) if i.line.kind == "trip")
        for day, told, position in sorted((day, told, p) for day, told, p in trips if told is not None):
            year = TaxYear.of(day)
            rates = mileage(year)
            if rates is None:
                continue
            first, after, band = rates
            miles = Decimal(told.numerator) / Decimal(told.denominator)
            cheap = max(Decimal(0), min(miles, driven[year] + miles - band))
            driven[year] += miles
            found[position] = round_half_up(((miles - cheap) * first + cheap * after) * 100)
        return found


def _day(line: Line) -> date:
    return line.day


def of_the_old(entry: Entry) -> bool:
    """Whether a line tells of the old one of a thing, by its words or by what it made way for, or went with."""
    links = {thing.name.lower() for link in entry.facts.links for thing in link.things}
    names = {thing.name.lower() for thing in entry.things}
    old = {name.removeprefix("old ") for name in names if name.startswith("old ")}
    return bool(old) or bool(links & names)


def on_day(lines: list[Line], day: date) -> tuple[int, int]:
    """Where the lines of a day begin and end among lines in the order of days."""
    return bisect_left(lines, day, key=_day), bisect_right(lines, day, key=_day)


@cache
def mileage(year: TaxYear) -> tuple[Decimal, Decimal, Decimal] | None:
    """Pounds a mile up to the band and beyond it, and the band in miles; None where the law room holds none."""
    from .. import law  # proof looks at histories too, and needs no figures of law

    try:
        first, after = (law.figure(f"mileage.{name}", year).value for name in ("car_first", "car_after"))
        return first, after, law.figure("mileage.first_band", year).value
    except law.NoFigure:
        return None
