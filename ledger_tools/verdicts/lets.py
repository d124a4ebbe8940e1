"""When each house of a book was let, lived in or empty, and by whom: asked by the rules about one house on one day.

Knows no rule and no thing but the rent.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date, timedelta
from fractions import Fraction
from functools import cached_property

from ..book.couples import spouses
from ..book.items import Item
from ..book.world import Book, Landlord, Spell
from ..days import Period, TaxYear
from ..record import record
from .catalogue import Thing
from .selling import Selling

# Whole years of letting that begin to speak for a repair. No page holds a limit; "about two years" are the facts of
# Odeon v Jones (1971) 48 TC 257. Alone it settles nothing in a house that was told to be in a poor state.
YEARS = 2
UNTOLD = 62  # days of letting before the first tenancy told that a reason speaks of: ours, no source
LETS = frozenset({"rent", "premium"})  # what comes in only where a house is let


@record
class Gap:
    """A time between lets: the last day of the let before, the first of the next one if there is one, whether another
    house of the same owners is let meanwhile, whether they lived in this one since, whether the next let is of another;
    and the last day of the last let of this house itself, whether any of it follows.
    """

    last: date
    again: date | None
    running: bool
    lived: bool
    elsewhere: bool
    own_last: date
    own_again: bool


@record
class Starter:
    """An owner whose letting begins later than that of the others: full name, part of the house, the day if known."""

    full: str
    part: Fraction
    begins: date | None


class Lets:
    """The lets of a book. Never changes after it is made."""

    def __init__(self, book: Book, items: tuple[Item, ...], known: Callable[[str, str], Thing]) -> None:
        """known gives the catalogue's thing for words after a verb."""
        self._book = book
        self._items = items
        self._known = known
        self._first_let = self._firsts()
        self._returned = self._first_returns()
        self._starts = {
            house: min(day for day in (self._first_let.get(house), self._returned.get(house)) if day)
            for house in {**self._first_let, **self._returned}
        }
        self._begins: dict[tuple[str, date], date | None] = {}
        self._not_yet: dict[tuple[str, date], tuple[Starter, ...]] = {}
        self._days_let: dict[tuple[str, date], int] = {}
        self._runs: dict[str, list[tuple[date, date]]] = {}
        self._let_spells: dict[str, list[tuple[date, date]]] = {}

    def first_let(self, house: str) -> date | None:
        """The first day its owners let a house, as far as the book tells; not what others let before they got it."""
        return self._first_let.get(house)

    def first_return(self, house: str) -> TaxYear | None:
        """The first tax year for which a cost of a house came off a return, where the book tells of one."""
        last = self._returned.get(house)
        return TaxYear.of(last) if last else None

    def let_under_others(self, house: str) -> date | None:
        """The first day of a tenancy that ran when its owners got the house; None where none is told to begin before.
        """
        place = self._book.properties.get(house)
        got = place.got.day if place and place.got else date.min
        before = (t.first_day for t in self._book.lets_of(house) if t.first_day and t.first_day < got)
        return min((day for day in before if self.let_on(house, got - timedelta(1))), default=None)

    def begins_for(self, house: str, day: date) -> date | None:
        """The first day of the letting business of a house's owners, as they are on a day; None where they have none.

        Each person has one business of all lets (PIM2505), so the earliest letting of any house counts that shares
        an owner with this one. Of a house whose owners began at different times the earliest start is taken. Where no
        let is told so early, but a cost of a house that came off a return: the last day of that return's year.
        """
        key = house, day
        if key not in self._begins:
            mine = self._people(house, day)
            ours = (first for other, first in self._starts.items() if self._share(mine, other, max(day, first)))
            own = self._starts.get(house)
            self._begins[key] = min((*ours, *([own] if own else ())), default=None)
        return self._begins[key]

    def by_return(self, begins: date) -> TaxYear | None:
        """The tax year by whose return alone the book tells that a letting had begun by a day; None where by a let."""
        told = begins in self._returned.values() and begins not in self._first_let.values()
        return TaxYear.of(begins) if told else None

    def not_yet_letting(self, house: str, day: date) -> tuple[Starter, ...]:
        """The owners of a house on a day whose own letting begins only later, while that of another has begun."""
        if (house, day) not in self._not_yet:
            self._not_yet[house, day] = tuple(self._starters(house, day))
        return self._not_yet[house, day]

    def _starters(self, house: str, day: date) -> Iterator[Starter]:
        people = self._book.landlords
        owners = self._book.owners_on(house, day) if len(people) > 1 and house in self._book.properties else ()
        found = [(name, part, self.begins_of(name, day)) for name, part in owners]
        if any(begins is not None and begins <= day for _, _, begins in found):
            for name, part, begins in found:
                if begins is None or begins > day:
                    yield Starter(people[name].full if name in people else name, part, begins)

    def begins_of(self, name: str, day: date) -> date | None:
        """The first day of the letting of one owner, as houses are owned on a day."""
        mine = frozenset({name})
        return min(
            (first for house, first in self._starts.items() if self._share(mine, house, max(day, first))),
            default=None,
        )

    def _people(self, house: str, day: date) -> frozenset[str]:
        """The owners of a house on a day; nobody where not told, or where one person owns all."""
        if len(self._book.landlords) < 2 or house not in self._book.properties:
            return frozenset()
        return frozenset(name for name, _ in self._book.owners_on(house, day))

    def leaves_an_owner(self, house: str, other: str, day: date) -> bool:
        """Whether an owner of a house on a day owns nothing of another; no where the owners of either are not told."""
        theirs = self._people(other, day)
        return bool(theirs) and not self._people(house, day) <= theirs

    def _share(self, mine: frozenset[str], other: str, day: date) -> bool:
        """Whether any of these people owns a house on a day; yes where either is not told."""
        theirs = self._people(other, day) if mine else mine
        return not theirs or not mine.isdisjoint(theirs)

    def let_on(self, house: str, day: date) -> bool:
        """Whether any tenancy of the house ran on a day."""
        return any(first <= day <= last for first, last in self._runs_of(house))

    def _runs_of(self, house: str) -> list[tuple[date, date]]:
        """The first and last day of each tenancy of a house that has begun, far off where it runs on."""
        found = self._runs.get(house)
        if found is None:
            lets = self._book.lets_of(house)
            found = self._runs[house] = [(t.first_day, t.last_day or date.max) for t in lets if t.first_day]
        return found

    def let_between(self, house: str, first: date, last: date) -> bool:
        """Whether any tenancy of the house ran on a day after `first` and before `last`, or both lie in it."""
        told = self._runs_of(house)
        if told:
            return any(begun < last and first < ended for begun, ended in told)
        begun = self._first_let.get(house)  # rent came in, and no tenancy is written down
        return begun is not None and begun < last

    def days_let(self, house: str, before: date) -> int:
        """On how many days before this one the house was let since its owners got it, as far as the book tells."""
        key = house, before
        if key not in self._days_let:
            if house not in self._let_spells:
                self._let_spells[house] = self._let_spells_of(house)
            days, done = 0, date.min
            for begins, ends in self._let_spells[house]:
                begins, ends = max(begins, done), min(ends, before - timedelta(1))
                if begins <= ends:
                    days, done = days + (ends - begins).days + 1, ends + timedelta(1)
            self._days_let[key] = days
        return self._days_let[key]

    def _let_spells_of(self, house: str) -> list[tuple[date, date]]:
        """From when to when a house was let since its owners got it, by the first day; spells may overlap."""
        first, place = self._first_let.get(house), self._book.properties.get(house)
        if first is None:
            return []
        got = place.got.day if place and place.got else first
        told = sorted(self._runs_of(house))
        spells = [(first, told[0][0] - timedelta(1) if told else date.max), *told]  # rent, or a tenant, came before
        return [(max(begins, got), ends) for begins, ends in spells]

    def first_told(self, house: str) -> date | None:
        """The first day of the first tenancy told, where letting counts from long before it: a tenant came with the
        house, or rent came in, of whom no tenancy is told. None where it does not, or no tenancy is told."""
        told, first = sorted(self._runs_of(house)), self._first_let.get(house)
        late = bool(told) and first is not None and (told[0][0] - first).days > UNTOLD
        return told[0][0] if late else None

    def let_after(self, house: str, day: date) -> bool:
        """Whether a tenancy of the house ran on a day or began after it."""
        return any(day <= last for _, last in self._runs_of(house))

    def gap(self, house: str, day: date) -> Gap | None:
        """What lies between two lets of a house's owners on a day; None where no let of the house ended before it."""
        mine = self._people(house, day)
        lets = [
            (first, t.last_day or date.max, t.house)
            for t in self._book.tenancies.values()
            if (first := self._book.let_from(t)) and self._share(mine, t.house, max(day, first))
        ]
        ended = [last for _, last, _ in lets if last < day]
        of_it = [(first, last) for first, last, other in lets if other == house]
        own_last = max((last for _, last in of_it if last < day), default=None)
        if own_last is None:
            return None
        again = min(((first, other) for first, _, other in lets if first > day), default=(None, house))
        running = any(first <= day <= last for first, last, _ in lets)
        lived = any(s.state == "own home" and max(ended) < s.since <= day for s in self._spells(house))
        own_again = any(first > day for first, _ in of_it)
        return Gap(max(ended), again[0], running, lived, again[1] != house, own_last, own_again)

    def to_be_sold(self, house: str, day: date) -> str:
        """What told by a day that the house was to be sold, as the start of a sentence: "The notice of … said".

        Nothing where nothing told it, or a let of it has begun since.
        """
        told = self._selling.told(house, day)
        again = told and any(t.first_day and t.first_day > told.day for t in self._book.lets_of(house))
        return told.lead if told and not again else ""

    @cached_property
    def _selling(self) -> Selling:
        return Selling(self._book)

    def owners(self, house: str, day: date) -> tuple[str, ...]:
        """The coined names of those who own a house on a day."""
        return tuple(one.name for one in self._owners(house, day))

    def owns(self, who: str, house: str, day: date) -> bool:
        """Whether somebody, by the coined or the full name, owns a part of a house on a day."""
        return any(who.lower() in (one.name.lower(), one.full.lower()) for one in self._owners(house, day))

    def home_on(self, house: str, day: date) -> bool:
        """Whether the owner lived in the house on a day."""
        spells = self._spells(house)
        return bool(spells) and any(
            s.state == "own home" and s.since <= day and (s.until is None or day <= s.until) for s in spells
        )

    def days_home(self, house: str, period: Period) -> int:
        """On how many days of a time the owner lived in the house."""
        spells = [s for s in self._spells(house) if s.state == "own home"]
        found = (period.overlap(Period(s.since, s.until or date.max)) for s in spells)
        return sum(inside.days for inside in found if inside is not None)

    def was_home(self, house: str, day: date) -> bool:
        """Whether the owner lived in the house on a day or some time before it."""
        spells = self._spells(house)
        return bool(spells) and any(s.state == "own home" and s.since <= day for s in spells)

    def rents_a_room(self, house: str, day: date) -> bool:
        """Whether an owner of a house on a day claims rent-a-room relief for the tax year of that day."""
        year = TaxYear.of(day)
        return any(year in landlord.rent_a_room for landlord in self._owners(house, day))

    def basis(self, house: str, day: date) -> str:
        """ "cash" or "accruals" as the owners on a day have told; "" where nobody has, or they differ."""
        told = self.bases(house, day)
        return next(iter(told)) if len(told) == 1 else ""

    def bases(self, house: str, day: date) -> frozenset[str]:
        """The ways of accounting of the owners on a day, as told, "" among them for who told none. Whoever shares the
        house with a spouse on accruals, without a Form 17, is on accruals too (ITTOIA 2005 s. 271A, condition C)."""
        owners, year = self._owners(house, day), TaxYear.of(day)
        told = {one.name: one.basis(year) for one in owners}
        found = self._book.properties.get(house)
        if found and not found.form_17 and "accruals" in told.values():
            for name, spouse in spouses(self._book, list(told), day).items():
                told[name] = "accruals" if told[spouse] == "accruals" else told[name]
        return frozenset(told.values())

    def _owners(self, house: str, day: date) -> list[Landlord]:
        """The landlords who own a house on a day; all of the book where it does not say."""
        owners = self._book.owners_on(house, day) if house in self._book.properties else ()
        people = [name for name, _ in owners] or list(self._book.landlords)
        return [self._book.landlords[name] for name in people if name in self._book.landlords]

    def _spells(self, house: str) -> tuple[Spell, ...]:
        found = self._book.properties.get(house)
        return found.spells if found else ()

    def _first_returns(self) -> dict[str, date]:
        """By house the last day of the first tax year for which a cost of it came off a return, where that is told."""
        days: dict[str, date] = {}
        for item in self._items:
            if item.line.facts.returned is not None:
                for share in item.line.homes:
                    day = item.line.facts.returned.period.last
                    days[share.house] = min(day, days.get(share.house, day))
        return days

    def _firsts(self) -> dict[str, date]:
        """First day of letting by house: of a tenancy, of rent or a premium, of a purchase with the tenant in it.

        None is before the day its owners got the house: until then others let it, and theirs was another business.
        """
        days: dict[str, date] = {}

        def told(house: str, day: date | None) -> None:
            place = self._book.properties.get(house)
            if day is not None and place is not None and place.got is not None:
                day = max(day, place.got.day)
            if day is not None and (house not in days or day < days[house]):
                days[house] = day

        for tenancy in self._book.tenancies.values():
            told(tenancy.house, self._book.let_from(tenancy))
        for house, found in self._book.properties.items():
            if found.got and "with tenant in" in found.got.facts:
                told(house, found.got.day)
        for item in self._items:
            line = item.line
            if line.verb == "received" and line.things and self._known(line.thing, "received").category in LETS:
                for share in line.homes:
                    told(share.house, line.period.first if line.period else line.day.first)
        return days
