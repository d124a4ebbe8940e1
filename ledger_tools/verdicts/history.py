"""What a whole book tells of each house over time, gathered once: lets, things it has had, bills, miles.

Knows no rule; the rules ask it about one day or one thing.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from functools import cache

from ..book.entries import Entry
from ..book.items import Item, items
from ..book.world import Book, Spell
from ..days import TaxYear
from ..money import round_half_up
from .catalogue import Catalogue, Thing

UNKNOWN = Thing("")
PUT_THERE = frozenset({"bought", "installed", "added", "replaced", "repaired"})
TAKEN = frozenset({"replaced", "removed", "sold", "scrapped", "took home", "rebuilt"})


@dataclass(frozen=True, slots=True)
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
        self._first_let = self._lets()
        self.begins = min(self._first_let.values(), default=None)
        self.lines: dict[tuple[str, str], list[Line]] = defaultdict(list)
        self.bills: dict[int, list[int]] = defaultdict(list)  # of a head line: the positions of its items
        self.orders: list[int] = []  # of an item by its position: where its line stands in the book
        self._priced: dict[tuple[str, str], list[Line]] = defaultdict(list)
        self._first_put: dict[tuple[str, str], int] = {}
        self._last_gone: dict[tuple[str, str], int] = {}
        self._gather()
        self.left = self._left_by_seller()
        self.miles = self._mileage()

    # ── things ───────────────────────────────────────────────────────────────────────────────────────────────

    def known(self, words: str, verb: str = "") -> Thing:
        """The catalogue's thing for these words; UNKNOWN where it has none."""
        found = self._known.get((words, verb))
        if found is None:
            found = (self.catalogue.find(words, verb) if words else None) or UNKNOWN
            self._known[words, verb] = found
        return found

    def key(self, words: str, verb: str = "") -> str:
        """What lines about the same thing share: its name in the catalogue, else the words themselves."""
        return self.known(words, verb).name or words.lower()

    def told(self, house: str, key: str) -> list[Line]:
        """Every line of works about a thing in a house, in order."""
        return self.lines.get((house, key), [])

    def had(self, house: str, key: str, before: int) -> bool:
        """Whether the book tells of such a thing in the house before a line: left by the seller, or put there."""
        return (house, key) in self.left or self._first_put.get((house, key), before) < before

    def goes_after(self, house: str, key: str, order: int) -> bool:
        """Whether any later line takes such a thing away or replaces it."""
        return self._last_gone.get((house, key), -1) > order

    def nearest(self, house: str, key: str, position: int) -> int | None:
        """The position of the priced line about such a thing whose day is nearest to an item's; the earlier of two."""
        priced = self._priced.get((house, key), [])
        order, day = self.orders[position], self.items[position].line.day.first
        at = bisect_left(priced, order, key=lambda line: line.order)
        around = [line for line in priced[max(0, at - 2) : at + 3] if line.position != position]
        best = min(around, key=lambda line: (abs((line.day - day).days), line.day > day, line.order), default=None)
        return best.position if best else None

    def bill_of(self, position: int) -> list[int]:
        """The positions of all items of the same bill or statement."""
        return self.bills[id(self.items[position].head)]

    # ── lets ─────────────────────────────────────────────────────────────────────────────────────────────────

    def first_let(self, house: str) -> date | None:
        """The first day a house was let, as far as the book tells."""
        return self._first_let.get(house)

    def let_on(self, house: str, day: date) -> bool:
        """Whether any tenancy of the house ran on a day."""
        return any(
            t.house == house and t.first_day and t.first_day <= day and (t.last_day is None or day <= t.last_day)
            for t in self.book.tenancies.values()
        )

    def let_after(self, house: str, day: date) -> bool:
        """Whether a tenancy of the house ran on a day or began after it."""
        return any(
            t.house == house and t.first_day and (t.last_day is None or day <= t.last_day)
            for t in self.book.tenancies.values()
        )

    def home_on(self, house: str, day: date) -> bool:
        """Whether the owner lived in the house on a day."""
        return any(
            s.state == "own home" and s.since <= day and (s.until is None or day <= s.until)
            for s in self._spells(house)
        )

    def was_home(self, house: str, day: date) -> bool:
        """Whether the owner lived in the house on a day or some time before it."""
        return any(s.state == "own home" and s.since <= day for s in self._spells(house))

    def basis(self, house: str, day: date) -> str:
        """ "cash" or "accruals" as the owners on a day have told; "" where nobody has, or they differ."""
        year = TaxYear.of(day)
        owners = self.book.owners_on(house, day) if house in self.book.properties else ()
        people = [name for name, _ in owners] or list(self.book.landlords)
        told = {self.book.landlords[name].basis(year) for name in people if name in self.book.landlords}
        return told.pop() if len(told) == 1 else ""

    def _spells(self, house: str) -> tuple[Spell, ...]:
        found = self.book.properties.get(house)
        return found.spells if found else ()

    def _lets(self) -> dict[str, date]:
        """First day of letting by house: of a tenancy, of rent that came in, of a purchase with the tenant in it."""
        days: dict[str, date] = {}

        def told(house: str, day: date | None) -> None:
            if day is not None and (house not in days or day < days[house]):
                days[house] = day

        for tenancy in self.book.tenancies.values():
            told(tenancy.house, tenancy.first_day)
        for house, found in self.book.properties.items():
            if found.got and "with tenant in" in found.got.facts:
                told(house, found.got.day)
        for item in self.items:
            line = item.line
            if line.verb == "received" and line.things and self.known(line.thing, "received").category == "rent":
                for share in line.homes:
                    told(share.house, line.period.first if line.period else line.day.first)
        return days

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
                    self._remember(Line(order, line.day.first, line.verb, line, mine))
                order += 1
            if entry.lines and position < len(self.items) and self.items[position].line is entry:
                self.bills[id(entry)].append(position)  # a head line whose lines are all "spent"
                self.orders.append(order)
                position += 1

    def _remember(self, line: Line) -> None:
        entry = line.entry
        swapped = entry.becomes.things if entry.becomes else ()
        names = {self.key(thing.name, line.verb) for thing in (*entry.things, *swapped)}
        for share in entry.homes:
            for name in names:
                key = (share.house, name)
                self.lines[key].append(line)
                if line.position is not None:
                    self._priced[key].append(line)
                if line.verb in PUT_THERE:
                    self._first_put.setdefault(key, line.order)
                if line.verb in TAKEN:
                    self._last_gone[key] = line.order

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
        for position, item in enumerate(self.items):
            if item.line.kind != "trip" or item.line.miles is None:
                continue
            year = TaxYear.of(item.line.day.first)
            rates = mileage(year)
            if rates is None:
                continue
            first, after, band = rates
            miles = Decimal(item.line.miles.numerator) / Decimal(item.line.miles.denominator)
            cheap = max(Decimal(0), min(miles, driven[year] + miles - band))
            driven[year] += miles
            found[position] = round_half_up(((miles - cheap) * first + cheap * after) * 100)
        return found


@cache
def mileage(year: TaxYear) -> tuple[Decimal, Decimal, Decimal] | None:
    """Pounds a mile up to the band and beyond it, and the band in miles; None where the law room holds none."""
    from .. import law  # proof looks at histories too, and needs no figures of law

    try:
        first, after = (law.figure(f"mileage.{name}", year).value for name in ("car_first", "car_after"))
        return first, after, law.figure("mileage.first_band", year).value
    except law.NoFigure:
        return None
