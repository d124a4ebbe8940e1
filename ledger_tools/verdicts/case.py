"""The facts of one item as a rule sees them, and the few answers rules give in the same words. Knows no rule."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from functools import cache
from operator import attrgetter
from typing import Any

from ..book.entries import Entry, Facts
from ..book.world import Property, Tenancy
from ..record import record
from .answer import Answer, Outcome
from .catalogue import UNKNOWN, Thing
from .history import History
from .inventory import Lot
from .registry import facts_looked_at
from .told import TENANT, WORN
from .verdict import Cgt, Kind, Part

BUILDING = frozenset({"fabric", "fixture", "plant", "outbuilding", "garden"})


@record
class Case:
    """One item in one house. `amount` is what is still to decide, in pence.

    thing is what the line is about, became what took its place ("with", "into"), both as the catalogue knows them;
    nature is how the thing is looked at now: a doubtful one is tried both ways. `outcome_of` gives the answer
    found for another item by its position, None where that one waits for this; `settled_of` the same once date and
    gains have had their say; `judged` the answer for a variant of this case, before date and gains.
    """

    history: History
    position: int
    line: Entry
    house: str
    amount: int
    thing: Thing
    became: Thing | None
    nature: str
    outcome_of: Callable[[int], Outcome | None]
    settled_of: Callable[[int], Outcome | None]
    judged: Callable[[Case], Outcome]
    since: str = ""  # the step to begin with, where the earlier ones have had their say
    # What most rules look at first, laid down once: `but` keeps it true.
    verb: str = ""
    facts: Facts = Facts()  # of the line; those of the head line hold for it where it says nothing nearer
    day: date = date.min  # the first of a month where only the month is known
    place: Property | None = None  # the house, where the book has it
    told: frozenset[str] = frozenset()  # which of the facts that a rule may need it tells

    # ── the line ─────────────────────────────────────────────────────────────────────────────────────────────

    @property
    def what(self) -> str:
        """The thing, or the things, in the landlord's words."""
        if len(self.line.things) > 1:
            return " and ".join(thing.name for thing in self.line.things)
        return self.line.thing or self.line.purpose or self.line.verb

    @property
    def known(self) -> bool:
        """Whether the catalogue knows the thing."""
        return self.thing is not UNKNOWN

    @property
    def name(self) -> str:
        """The thing's name in the catalogue, else the landlord's words in lower case."""
        return self.thing.name or self.line.thing.lower()

    @property
    def dwelling(self) -> bool:
        """Whether the line is about the house as a whole."""
        return self.name == "house"

    @property
    def key(self) -> str:
        """The name lines about this thing share."""
        return self.history.key(self.line.thing, self.verb)

    @property
    def domestic(self) -> bool:
        """Whether it is furniture or another item for use in the dwelling."""
        return self.nature == "domestic"

    @property
    def building(self) -> bool:
        """Whether it is part of the building or its grounds."""
        return self.nature in BUILDING

    @property
    def extent(self) -> str:
        """The extent told for the thing: "part of", "whole" or nothing."""
        return self.line.things[0].extent if self.line.things else ""

    @property
    def partly(self) -> bool:
        """Whether only a part of it was touched: "part of drive", "3 of 8 windows"."""
        first = self.line.things[0] if self.line.things else None
        if first is None:
            return False
        return first.extent == "part of" or bool(first.of and first.count and first.count < first.of)

    @property
    def new_one(self) -> Thing:
        """What is there now: what it was replaced with, else the same kind of thing."""
        return self.became or self.thing

    @property
    def changed(self) -> bool:
        """Whether the line says that a thing of another name took its place."""
        return self.became is not None and self.became.name != self.thing.name

    @property
    def alone(self) -> bool:
        """Whether only one thing is named."""
        return len(self.line.things) < 2

    def because(self, *causes: str) -> bool:
        """Whether any of these causes is recorded."""
        told = self.line.facts.causes
        return bool(told) and not set(causes).isdisjoint(told)

    @property
    def damaged(self) -> bool:
        """Whether it is recorded as worn, broken or damaged."""
        return not WORN.isdisjoint(self.facts.causes)

    # ── the house on the day ─────────────────────────────────────────────────────────────────────────────────

    @property
    def begins(self) -> date | None:
        """The first day of the letting business that this house belongs to; None while there is none."""
        return self.history.lets.begins_for(self.house, self.day)

    @property
    def let_before(self) -> bool:
        """Whether the house had been let before this day."""
        first = self.history.lets.first_let(self.house)
        return first is not None and first < self.day

    @property
    def as_bought(self) -> str:
        """The state it was got in, as told: lettable, not lettable, lettable for a while, or nothing."""
        place = self.place
        return place.as_bought if place else ""

    @property
    def price(self) -> str:
        """The price it was got for, as told: normal, reduced, or nothing."""
        place = self.place
        return place.price if place else ""

    @property
    def got_how(self) -> str:
        """bought, inherited, given; nothing where not told."""
        place = self.place
        return place.got.how if place and place.got else ""

    @property
    def before_owning(self) -> bool:
        """Whether the day lies before the house was got."""
        got = self.place.got if self.place else None
        return got is not None and self.day < got.day

    @property
    def tenant(self) -> Tenancy | None:
        """The let whose tenant the other party is, by its name or as plain "tenant"; None for anybody else.

        Of several that may be meant it is one that runs on the day, else the last that had ended.
        """
        who, book = self.line.who, self.history.book
        if who is None or who.name in book.tenancies:
            return book.tenancies.get(who.name) if who else None
        if who.full.lower() not in TENANT:
            return None
        begun = [let for let in book.lets_of(self.house) if let.first_day and let.first_day <= self.day]
        return max(begun, key=lambda let: let.last_day or date.max, default=None)

    @property
    def let(self) -> bool:
        """Whether its owners let the house on the day of the line; a tenant who came with it is theirs from then on."""
        first = self.history.lets.first_let(self.house)
        return first is not None and first <= self.day and self.history.lets.let_on(self.house, self.day)

    @property
    def old_ones(self) -> tuple[Lot, ...]:
        """What this line took out of the house, by the inventory: the old ones of a replacement, the things sold."""
        taken = self.history.inventory.taken(self.house, self.history.orders[self.position])
        return tuple(lot for lot in taken if lot.key == self.key)

    @property
    def had_before(self) -> bool:
        """Whether the book tells of such a thing in this house before this day."""
        return self.history.had(self.house, self.key, self.day)

    # ── answers ──────────────────────────────────────────────────────────────────────────────────────────────

    def all(self, kind: Kind, category: str = "", cgt: Cgt = Cgt.NONE) -> tuple[Part, ...]:
        """The whole sum with one answer."""
        return (Part(self.amount, kind, category, cgt),)

    @property
    def repair(self) -> tuple[Part, ...]:
        """All of it a repair."""
        return self.all(Kind.REPAIR, "repairs")

    @property
    def improvement(self) -> tuple[Part, ...]:
        """All of it an improvement."""
        return self.all(Kind.IMPROVEMENT, cgt=Cgt.ENHANCEMENT)

    @property
    def purchase(self) -> tuple[Part, ...]:
        """All of it part of what the house cost."""
        return self.all(Kind.ACQUISITION, cgt=Cgt.ACQUISITION)

    @property
    def selling(self) -> tuple[Part, ...]:
        """All of it a cost of selling the house."""
        return self.all(Kind.ACQUISITION, cgt=Cgt.DISPOSAL)

    @property
    def replacement(self) -> tuple[Part, ...]:
        """All of it the replacement of a domestic item."""
        return self.all(Kind.DOMESTIC, "domestic")

    @property
    def no_relief(self) -> tuple[Part, ...]:
        """No relief for any of it."""
        return self.all(Kind.NO_RELIEF)

    @property
    def running(self) -> tuple[Part, ...]:
        """All of it a running cost, in the class of the thing."""
        return self.all(Kind.RUNNING, self.thing.category or "other")

    def but(self, **changed: Any) -> Case:
        """The same case with something changed."""
        line = changed.get("line")
        if line is not None:
            told = told_by(line.facts)
            changed |= {"verb": line.verb, "facts": line.facts, "day": line.day.first, "told": told}
        if "house" in changed:
            changed["place"] = self.history.book.properties.get(changed["house"])
        return replace(self, **changed)


def told_by(facts: Facts) -> frozenset[str]:
    """Which of the facts that a rule may need are told."""
    values = _values_looked_at()(facts)
    if not any(values):
        return NOTHING_TOLD
    return frozenset(name for name, value in zip(facts_looked_at(), values, strict=True) if value)


NOTHING_TOLD: frozenset[str] = frozenset()


@cache
def _values_looked_at() -> Callable[[Facts], tuple[object, ...]]:
    return attrgetter(*facts_looked_at())


def either(
    likelier: tuple[Part, ...],
    cautious: tuple[Part, ...],
    says: str,
    ask: tuple[str, ...] = (),
    third: tuple[Part, ...] = (),
) -> Answer:
    """An open answer: the favourable one first, then the cautious one, and a third (see Answer)."""
    return Answer(likelier, says, cautious=cautious, ask=ask, third=third)
