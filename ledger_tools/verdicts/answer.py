"""What a rule may say of a case: an answer, a part of one, or a remark; and how two answers become an open one.

Knows no rule and no book.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from datetime import date

from ..problems import Level
from ..record import record
from .verdict import Cgt, Confidence, Fired, Kind, Part


@record
class Answer:
    """Decides: `parts` add up to what was asked. Where honest people differ, `cautious` is the less favourable
    answer (it adds up to the same) and `ask` the words that would settle it. `third`, where there is one, brings the
    rents what one of the two does, by another name.

    `follows`: the positions of the open items whose answers it takes, the likelier with the likelier: of money back
    what it came back for, of work the job that it serves. They settle it, so nothing is asked of it.
    `apart`: those of the parts that the line itself gives an answer by their amount; a ruling is about the rest.
    """

    parts: tuple[Part, ...]
    says: str
    confidence: Confidence | None = None  # where it is not the rule's own
    cautious: tuple[Part, ...] = ()
    ask: tuple[str, ...] = ()
    follows: tuple[int, ...] = ()
    third: tuple[Part, ...] = ()
    apart: tuple[Part, ...] = ()
    # Where they are not the rule's own: what it rests on, what would change it, what to keep.
    authority: str = ""
    flips: tuple[str, ...] = ()
    keep: tuple[str, ...] = ()


@record
class Carved:
    """Decides a piece of the sum; the rest goes on to the later rules. `cautious` and `apart` as in an Answer."""

    parts: tuple[Part, ...]
    says: str
    confidence: Confidence | None = None
    cautious: tuple[Part, ...] = ()
    ask: tuple[str, ...] = ()
    apart: tuple[Part, ...] = ()


@record
class Remark:
    """Says why it does not decide."""

    says: str
    confidence: Confidence | None = None


@record
class Change:
    """What a later rule alters in an answer already found; what is None stays."""

    says: str
    parts: tuple[Part, ...] | None = None
    cautious: tuple[Part, ...] | None = None
    third: tuple[Part, ...] = ()  # beside a new answer: see Answer
    when: date | None = None
    confidence: Confidence | None = None
    ask: tuple[str, ...] = ()
    instead: bool = False  # it alone decides: what was said before only tells what it would have been
    authority: str = ""  # where it is not the rule's own
    flips: tuple[str, ...] = ()  # the same


@record
class Finding:
    """What a comparison with words told elsewhere shows. level: how loud to say it; None only explains or adds."""

    says: str
    level: Level | None = None
    confidence: Confidence | None = None
    authority: str = ""  # where it is not the rule's own


Said = Answer | Carved | Remark | None


@dataclass(slots=True)
class Outcome:
    """The answer for one case while the rules run: `parts` is the likelier or only answer, `cautious` the other.

    position: of the item it is for; follows, third and apart: as in an Answer.
    """

    parts: tuple[Part, ...]
    when: date
    cautious: tuple[Part, ...] = ()
    path: list[Fired] = field(default_factory=list)
    confidence: Confidence = Confidence.CLEAR
    would_change: list[str] = field(default_factory=list)
    keep: list[str] = field(default_factory=list)
    ask: tuple[str, ...] = ()
    position: int = -1
    follows: tuple[int, ...] = ()
    third: tuple[Part, ...] = ()
    apart: tuple[Part, ...] = ()

    @property
    def kinds(self) -> frozenset[Kind]:
        """The kinds of either answer."""
        return frozenset([part.kind for part in (*self.parts, *self.cautious)])


def tidy(parts: Iterable[Part]) -> tuple[Part, ...]:
    """Parts without empty ones, equal answers added together; one empty part where nothing is left."""
    parts = tuple(parts)
    if len(parts) == 1:
        return parts
    sums: dict[tuple[Kind, str, Cgt], int] = {}
    last = None
    for part in parts:
        last = part
        key = (part.kind, part.category, part.cgt)
        sums[key] = sums.get(key, 0) + part.amount
    found = tuple(Part(amount, *key) for key, amount in sums.items() if amount)
    return found or ((Part(0, last.kind, last.category, last.cgt),) if last else ())


def opened(
    parts: tuple[Part, ...], cautious: tuple[Part, ...], third: tuple[Part, ...] = ()
) -> tuple[Part, ...]:
    """The parts to show of an open answer: what both answers share stays, the rest is arguable.

    An arguable part has the category of the favourable answer, and the gains side of the cautious one or, where that
    has none, of the favourable one, and at last of the third. All must add up to the same sum.
    """
    if not any(part.amount for part in parts):
        return (Part(0, Kind.ARGUABLE, parts[0].category, _gains_side(parts[0], cautious[0])),)
    shown = tidy(
        one
        if (one.kind, one.category) == (two.kind, two.category)
        else Part(one.amount, Kind.ARGUABLE, one.category, _gains_side(one, two))
        for one, two in _side_by_side(tidy(parts), tidy(cautious))
    )
    if not third:
        return shown
    return tidy(
        Part(one.amount, one.kind, one.category, _gains_side(two, one)) if one.kind is Kind.ARGUABLE else one
        for one, two in _side_by_side(shown, tidy(third))
    )


def _gains_side(one: Part, two: Part) -> Cgt:
    return one.cgt if two.cgt is Cgt.NONE else two.cgt


def _side_by_side(one: tuple[Part, ...], two: tuple[Part, ...]) -> Iterator[tuple[Part, Part]]:
    """Both answers cut at the same pennies; what is alike in both is laid together first."""
    rest = {(p.kind, p.category, p.cgt): p.amount for p in two}
    left: list[Part] = []
    for part in one:
        key = (part.kind, part.category, part.cgt)
        same = min(part.amount, rest.get(key, 0))
        if same:
            rest[key] -= same
            alike = Part(same, *key)
            yield alike, alike
        if part.amount > same:
            left.append(Part(part.amount - same, *key))
    others = [Part(amount, *key) for key, amount in rest.items() if amount]
    while left and others:
        a, b = left.pop(0), others.pop(0)
        size = min(a.amount, b.amount)
        yield sized(a, size), sized(b, size)
        if a.amount > size:
            left.insert(0, sized(a, a.amount - size))
        if b.amount > size:
            others.insert(0, sized(b, b.amount - size))


def in_all(answers: Iterable[tuple[Part, ...]]) -> tuple[Part, ...]:
    """What all these answers share: the parts that are the same whichever is right."""
    first, *others = map(_sums, answers)
    least = {key: min(pence, *(other[key] for other in others)) for key, pence in first.items()} if others else first
    return tuple(Part(pence, *key) for key, pence in least.items() if pence)


def without(parts: tuple[Part, ...], taken: tuple[Part, ...]) -> tuple[Part, ...]:
    """An answer without these parts of it."""
    rest = _sums(parts)
    rest.subtract(_sums(taken))
    return tuple(Part(pence, *key) for key, pence in rest.items() if pence)


def _sums(parts: tuple[Part, ...]) -> Counter[tuple[Kind, str, Cgt]]:
    """Pence by answer."""
    sums: Counter[tuple[Kind, str, Cgt]] = Counter()
    for part in parts:
        sums[part.kind, part.category, part.cgt] += part.amount
    return sums


def sized(part: Part, amount: int) -> Part:
    """The same answer for another sum."""
    return Part(amount, part.kind, part.category, part.cgt)
