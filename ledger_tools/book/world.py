"""The headings of a book as typed, frozen objects: people, houses, loans, tenancies, councils, schedules; and the Book.

Knows no tax. Amounts are whole pence, percentages exact fractions.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import field
from datetime import date
from fractions import Fraction
from typing import Any

from ..days import Period, TaxYear
from ..problems import Place, Problem
from ..record import record
from .entries import Becomes, Day, Entry, Extra, Name, Proof, Share, Thing


@record
class Landlord:
    """A person who lets."""

    name: str
    full: str
    place: Place = field(compare=False)
    bases: tuple[tuple[TaxYear | None, str], ...] = ()  # (first year it holds for, "cash" or "accruals")
    other_income: Mapping[TaxYear, int] = field(default_factory=dict)
    losses: Mapping[TaxYear, int] = field(default_factory=dict)  # brought into the year
    unused_finance: Mapping[TaxYear, int] = field(default_factory=dict)
    spouse: str = ""
    married_from: date | None = None
    allowance_years: frozenset[TaxYear] = frozenset()  # of the property allowance: claimed
    declined_years: frozenset[TaxYear] = frozenset()  # chosen against, where it would hold by itself
    rent_a_room: Mapping[TaxYear, int | None] = field(default_factory=dict)  # claimed: the sum free of tax, where told
    lives: tuple[tuple[TaxYear | None, str], ...] = ()
    quarters: tuple[tuple[TaxYear | None, str], ...] = ()  # (first year it holds for, "standard" or "calendar")
    accounts_to: tuple[tuple[TaxYear | None, str], ...] = ()  # (first year it holds for, "31 march" or "5 april")

    def basis(self, year: TaxYear) -> str:
        """ "cash" or "accruals" as the book says for the year, "" where it says nothing."""
        return _told_for(self.bases, year)

    def nation(self, year: TaxYear) -> str:
        """The nation whose income tax rates apply in a year, "" where the book says nothing."""
        return _told_for(self.lives, year)

    def to_march(self, year: TaxYear) -> bool:
        """Whether the accounts of a year end with 31 March."""
        return _told_for(self.accounts_to, year) == "31 march"

    def quarters_told(self, year: TaxYear) -> str:
        """ "standard" or "calendar" as the book says for the year, "" where it says nothing."""
        return _told_for(self.quarters, year)

    def quarters_in(self, year: TaxYear) -> str:
        """ "calendar" where the book says so for the year, else "standard", as the law has it unless one chooses."""
        return self.quarters_told(year) or "standard"


def _told_for(told: tuple[tuple[TaxYear | None, str], ...], year: TaxYear) -> str:
    """Of words told from a year on (None: from the start), the last that holds in a year; "" where none does."""
    found = ""
    for first, word in sorted(told, key=lambda one: one[0].start if one[0] else 0):
        if first is None or first <= year:
            found = word
    return found


@record
class Charge:
    """What a firm charges: so many per cent of something ("rent", "rent due", "works"), and what comes on top."""

    percent: Fraction
    of: str
    plus: str
    place: Place = field(compare=False)


@record
class Party:
    """A supplier, agent, lender or insurer."""

    kind: str
    name: str
    full: str
    place: Place = field(compare=False)
    charges: tuple[Charge, ...] = ()
    trade: str = ""


@record
class Council:
    """A council, with its nation where told."""

    name: str
    full: str
    place: Place = field(compare=False)
    nation: str = ""


@record
class Span:
    """So many days, weeks, months or years."""

    number: Fraction
    unit: str  # day, week, month, year


@record
class Step:
    """A step of a scheme's ladder: `off` is the share of the charge let off, or the premium on top; for or after."""

    off: Fraction
    span: Span | None


@record
class SchemeRule:
    """One rule of a council's scheme: its class, its steps and its conditions."""

    kind: str  # empty, works, furnished, for sale or let, premium, second homes
    place: Place = field(compare=False)
    steps: tuple[Step, ...] = ()
    since: date | None = None
    whose_time: str = ""  # shared with earlier owner, anew for each owner
    again: tuple[bool, Span] | None = None  # (more than, span lived in)
    again_furnished: bool = False  # furnished days count like lived in ones
    tail: Span | None = None
    stops: date | None = None
    exceptions: tuple[tuple[str, Span | None, str], ...] = ()
    waits: Span | None = None
    decided: date | None = None  # when the council first decided on it
    only_at: tuple[str, ...] = ()  # the houses it is for; none: for all


@record
class Scheme:
    """A council's scheme for one year."""

    council: str
    year: TaxYear
    place: Place = field(compare=False)
    charges: Mapping[str, int] = field(default_factory=dict)  # band letter → pence a year
    parts: Mapping[str, tuple[tuple[str, int], ...]] = field(default_factory=dict)  # band → water and the like
    rules: tuple[SchemeRule, ...] = ()
    never_reduced: tuple[str, ...] = ()


@record
class Deal:
    """How a house was got or left: bought, inherited, given, sold."""

    how: str
    day: date
    amount: int
    place: Place = field(compare=False)
    facts: frozenset[str] = frozenset()
    of_which: tuple[Extra, ...] = ()
    says: tuple[str, ...] = ()


@record
class Ownership:
    """Who owns what share from a day on (None: from the start)."""

    since: date | None
    shares: tuple[tuple[str, Fraction], ...]
    place: Place = field(compare=False)
    on_death: bool = False  # the shares changed as an owner died
    says: tuple[str, ...] = ()


@record
class Spell:
    """A state that lasted: furnished, unfurnished, own home, lived in, works, needs works, marketed (for sale, to let),
    no premium, one adult counts, no adult counts, hmo, band deleted, exempt with its class."""

    state: str
    since: date
    until: date | None
    place: Place = field(compare=False)
    council_class: str = ""
    says: tuple[str, ...] = ()
    because: tuple[str, ...] = ()


@record
class OwingTo:
    """What one line of a house's block tells of its state, or its price, when got: the faults it was owing to, the
    papers that say so, and why in words that are no paper's. only: it was owing to nothing else.
    """

    faults: tuple[Thing, ...] = ()
    says: tuple[str, ...] = ()
    because: tuple[str, ...] = ()
    only: bool = False
    place: Place | None = field(default=None, compare=False)


@record
class Property:
    """A house or flat."""

    name: str
    full: str
    place: Place = field(compare=False)
    nation: str = ""
    council: str = ""
    band: str = ""
    contracts: tuple[tuple[date, Place], ...] = ()  # exchanged: of the purchase, and of the sale
    got: Deal | None = None
    sold: Deal | None = None
    owners: tuple[Ownership, ...] = ()
    form_17: tuple[tuple[date, date], ...] = ()  # (signed, sent)
    as_bought: str = ""  # lettable, not lettable, lettable for a while
    as_bought_told: tuple[OwingTo, ...] = ()  # by line, in the order of the block
    as_bought_place: Place | None = field(default=None, compare=False)
    price: str = ""  # normal, reduced
    price_cut: int | None = None
    price_told: tuple[OwingTo, ...] = ()
    empty_since: date | None = None
    empty_says: tuple[str, ...] = ()
    owner_died: date | None = None  # the owner before the landlord, or the one they inherited from
    probate: date | None = None  # the day of the grant
    rooms: tuple[Name, ...] = ()
    spells: tuple[Spell, ...] = ()
    left_by_seller: tuple[Thing, ...] = ()
    left_says: Mapping[str, tuple[str, ...]] = field(default_factory=dict)  # by thing: the papers that say it stays
    leasehold: tuple[Span, date] | None = None
    put_right: bool = False  # the lease was taken on terms of putting it right
    valued: tuple[tuple[date, int], ...] = ()
    proofs: tuple[Proof, ...] = ()
    places: Mapping[str, Place] = field(default_factory=dict, compare=False)  # by kind of field: where it stands first

    @property
    def as_bought_says(self) -> tuple[str, ...]:
        """The papers that say in what state it was got."""
        return tuple(said for line in self.as_bought_told for said in line.says)

    @property
    def as_bought_because(self) -> tuple[str, ...]:
        """Why, in words that are no paper's."""
        return tuple(said for line in self.as_bought_told for said in line.because)

    @property
    def as_bought_faults(self) -> tuple[Thing, ...]:
        """What that state was owing to, where a line of the block names it."""
        return tuple(fault for line in self.as_bought_told for fault in line.faults)

    @property
    def price_says(self) -> tuple[str, ...]:
        """The papers that say what the price was like."""
        return tuple(said for line in self.price_told for said in line.says)

    @property
    def price_faults(self) -> tuple[Thing, ...]:
        """What the price was cut for, where a line of the block names it."""
        return tuple(fault for line in self.price_told for fault in line.faults)

    @property
    def exchanged(self) -> date | None:
        """The day of the contract by which it was bought."""
        days = [day for day, _ in self.contracts if self.got is None or day <= self.got.day]
        return days[0] if days else None

    @property
    def sale_exchanged(self) -> date | None:
        """The day of the contract by which it was sold: the first after it became the landlord's."""
        days = [day for day, _ in self.contracts if self.got is not None and day > self.got.day]
        return days[0] if days else None

    def shares_on(self, day: date) -> tuple[tuple[str, Fraction], ...]:
        """Who owns it on a day, as the book tells; nothing where it does not."""
        held: tuple[tuple[str, Fraction], ...] = ()
        for ownership in sorted(self.owners, key=lambda o: o.since or date.min):
            if ownership.since is None or ownership.since <= day:
                held = ownership.shares
        return held


@record
class Loan:
    """A loan and the house it is secured on; what it was spent on is told by the dated lines."""

    name: str
    house: str
    lender: str
    place: Place = field(compare=False)
    rates: tuple[tuple[Fraction, date, date | None], ...] = ()
    kind: str = ""  # interest only, repayment
    monthly: int | None = None
    owed: tuple[tuple[date, int], ...] = ()


@record
class Todo:
    """A job of the schedule."""

    room: str
    priority: int
    verb: str
    things: tuple[Thing, ...]
    place: Place = field(compare=False)
    amount: int | None = None
    trade: str = ""
    note: str = ""
    facts: frozenset[str] = frozenset()
    needs: tuple[Thing, ...] = ()
    takes: Span | None = None  # how long it takes
    ahead: Span | None = None  # how long before its day it must be booked
    becomes: Becomes | None = None


@record
class Schedule:
    """What is to do before it can be let."""

    house: str
    title: str
    place: Place = field(compare=False)
    target: tuple[date, int, str] | None = None  # let from, pence, per what
    contingency_percent: Fraction | None = None
    contingency: int | None = None
    todos: tuple[Todo, ...] = ()


@record
class Rent:
    """A rent from a day on (None: from the start): pence and how often."""

    amount: int
    every: str  # "a month", "a week", …
    since: date | None
    place: Place = field(compare=False)
    first_due: date | None = None
    notice: date | None = None
    includes: tuple[str, ...] = ()


@record
class Deposit:
    """A tenant's deposit."""

    amount: int
    holding: bool
    place: Place = field(compare=False)
    received: date | None = None
    protected: date | None = None
    informed: date | None = None  # the tenant had the prescribed information
    held_with: str = ""
    number: str = ""


@record
class Tenancy:
    """A let: who, from when, for how much, and how it ended."""

    name: str
    house: str
    place: Place = field(compare=False)
    tenants: tuple[str, ...] = ()
    term: Period | None = None  # a fixed term with both ends
    starts: date | None = None
    periodic: date | None = None
    rents: tuple[Rent, ...] = ()
    deposits: tuple[Deposit, ...] = ()
    notices: tuple[tuple[date, str], ...] = ()
    notice_reasons: tuple[tuple[date, str], ...] = ()  # day of the notice, and why it was given, as told
    moved_in: date | None = None
    moved_out: date | None = None
    ended: date | None = None
    tenant_pays: tuple[str, ...] = ()
    rent_free: tuple[Period, ...] = ()
    room: str = ""
    room_place: Place | None = field(default=None, compare=False)
    arrears: tuple[tuple[date, int], ...] = ()
    let_kind: str = ""  # assured, not assured
    rolls_on: str = ""  # once a fixed term is over: rolls on by contract, rolls on by law

    @property
    def first_day(self) -> date | None:
        """The first day of the let: as told, else the earliest day any of its lines names."""
        told = [d for d in (self.starts, self.periodic) if d]
        if told:
            return min(told)
        return self.moved_in or next((r.first_due for r in self.rents if r.first_due), None)

    @property
    def last_day(self) -> date | None:
        """Its last day in law, or when they left; None while it runs (a fixed term rolls on when nobody ends it)."""
        return self.ended or self.moved_out


@record
class ThingWord:
    """A thing the landlord declared, and its nature."""

    name: str
    nature: str
    place: Place = field(compare=False)


@record
class Book:
    """Everything a book says, names resolved. `problems` holds what was found wrong while resolving."""

    landlords: Mapping[str, Landlord]
    parties: Mapping[str, Party]
    councils: Mapping[str, Council]
    schemes: Mapping[tuple[str, TaxYear], Scheme]
    properties: Mapping[str, Property]
    loans: Mapping[str, Loan]
    schedules: tuple[Schedule, ...]
    tenancies: Mapping[str, Tenancy]
    thing_words: Mapping[str, ThingWord]
    entries: tuple[Entry, ...]  # in order of day, then file and line
    problems: tuple[Problem, ...] = ()
    unread: frozenset[str] = frozenset()  # names and papers told in a block with a mistake: unknown
    unread_kinds: Mapping[str, str] = field(default_factory=dict)  # of those names, the heading that gives each
    _lines: dict[str, list[tuple[int, Entry]]] = field(init=False, repr=False, compare=False, default_factory=dict)
    _lets: dict[str, list[Tenancy]] = field(init=False, repr=False, compare=False, default_factory=dict)
    kept: dict[object, Any] = field(init=False, repr=False, compare=False, default_factory=dict)  # see once.py

    @property
    def years(self) -> tuple[TaxYear, ...]:
        """The tax years its dated lines touch, first to last without gaps."""
        if not self.entries:
            return ()
        first, last = (TaxYear.of(self.entries[at].day.first) for at in (0, -1))
        return tuple(TaxYear(y) for y in range(first.start, last.start + 1))

    @property
    def proofs(self) -> tuple[Proof, ...]:
        """Every file that is named as proof, under houses and on lines."""
        houses = [proof for house in self.properties.values() for proof in house.proofs]
        return (*houses, *(p for e in self.entries for line in (e, *e.lines) for p in line.facts.proofs))
    def about(self, house: str) -> tuple[Entry, ...]:
        """The dated lines of a house and those of no house, in order; they are sorted out by houses once."""
        if not self._lines:
            for number, entry in enumerate(self.entries):
                for name in {home.house for home in entry.homes} or {""}:
                    self._lines.setdefault(name, []).append((number, entry))
        return tuple(entry for _, entry in sorted([*self._lines.get(house, ()), *self._lines.get("", ())]))

    def lets_of(self, house: str) -> Sequence[Tenancy]:
        """The tenancies of a house, in order; they are sorted out by houses once."""
        if not self._lets:
            for tenancy in self.tenancies.values():
                self._lets.setdefault(tenancy.house, []).append(tenancy)
        return self._lets.get(house, ())

    def owners_on(self, house: str, day: date) -> tuple[tuple[str, Fraction], ...]:
        """Who owns a house on a day; the only landlord of the book where nothing is told."""
        told = self.properties[house].shares_on(day)
        if not told and len(self.landlords) == 1:
            return ((next(iter(self.landlords)), Fraction(1)),)
        return told

    def let_from(self, let: Tenancy) -> date | None:
        """The first day of a let as one of these owners': the day they got the house, where it ran by then already.

        None where no first day is told, or where it was over before they got the house: that was the letting of others.
        """
        house, first = self.properties.get(let.house), let.first_day
        if first is None or house is None or house.got is None:
            return first
        got, last = house.got.day, let.last_day
        return None if last is not None and first <= last < got else max(first, got)

    def let_until(self, let: Tenancy) -> date | None:
        """The last day of a let as one of these owners': its last day, or the day on which they sold the house.

        The rent of the day of completion is the seller's (common practice, no source). None while it runs.
        """
        house = self.properties.get(let.house)
        days = [day for day in (let.last_day, house.sold.day if house and house.sold else None) if day]
        return min(days, default=None)

    def first_let(self, house: str | None = None) -> date | None:
        """The first day its owners let a house (or any house of the book)."""
        days = (self.let_from(t) for t in self.tenancies.values() if house in (None, t.house))
        return min((day for day in days if day), default=None)


__all__ = [
    "Book", "Council", "Day", "Deal", "Deposit", "Landlord", "Loan", "Ownership", "Party", "Property", "Rent",
    "Schedule", "Scheme", "SchemeRule", "Share", "Span", "Spell", "Step", "Tenancy", "ThingWord", "Todo",
]  # fmt: skip
