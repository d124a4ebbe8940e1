"""One date to watch, with the rule it rests on and how old that rule is. Knows no layout and no rule by itself."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from datetime import date

from ... import law
from ...days import day_words
from ...record import record


@record
class Rule:
    """Where a date of law comes from: the source in words, the day on which the stored rule was read or last held for
    true, and a caution where it was not read there or goes beyond that day."""

    says: str
    held: date
    caution: str

    def __str__(self) -> str:
        return f"{self.says}; as held on {day_words(self.held)}" + (f", {self.caution}" if self.caution else "")


def rule(held: law.Dated) -> Rule:
    """The rule behind a figure of law. What nobody read at its source is said to be so."""
    cited = held.citation
    caution = "" if cited.read is None and "memory" in cited.title else held.caution
    return Rule(f"{cited.paragraph} ({cited.title})", cited.read or held.known_until, caution)


@record
class Reminder:
    """A day by which something is to be done, or on which something runs out.

    kind and begun (the day it was counted from, or a number) make it one and the same from run to run; house is ""
    where it concerns an owner; about names a let, an owner or a thing; ask is the caution, which sends to whoever
    decides; rule is None where the day itself stands in the book. untold: the book cannot tell whether it was done, so
    it is told only until its day is over. may: nothing falls due; it is a day that lets something be done.
    """

    kind: str
    day: date
    house: str
    about: str
    what: str
    ask: str
    begun: str
    rule: Rule | None = None
    sources: tuple[str, ...] = ()
    untold: bool = False
    may: bool = False

    @property
    def uid(self) -> str:
        """The same for the same thing from run to run, wherever its lines stand in the book."""
        said = "|".join((self.kind, self.house, self.about, self.begun))
        return hashlib.sha256(said.encode("utf-8")).hexdigest()[:32] + "@landlord-books"


def due_first(found: Iterable[Reminder]) -> tuple[Reminder, ...]:
    """In order of day, then house, kind and what it is about: the order of the lines of a book never matters."""
    return tuple(sorted(found, key=lambda r: (r.day, r.house, r.kind, r.about, r.begun, r.what)))
