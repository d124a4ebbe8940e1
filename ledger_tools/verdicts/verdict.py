"""What a verdict is: what the tax return allows of an item, by part, with reasons, authority and what would change it.

Knows nothing of how the book was typed; places travel through as opaque marks.
"""

from __future__ import annotations

from datetime import date

from ..book.items import Item
from ..record import Word, record


class Kind(Word):
    """The answer for a sum of money."""

    RUNNING = "running-expense"
    REPAIR = "revenue-repair"
    IMPROVEMENT = "capital-improvement"
    ACQUISITION = "capital-acquisition"  # capital because it bought the house or finished the purchase
    DOMESTIC = "domestic-replacement"
    NO_RELIEF = "capital-no-relief"
    ARGUABLE = "arguable"
    PRIVATE = "private"
    PENDING = "pending"  # no letting yet
    NETS = "nets-cost"  # money in that comes off a cost
    INCOME = "income-receipt"
    CAPITAL_RECEIPT = "capital-receipt"
    IGNORED = "ignored"  # moves money, changes nothing: loan capital, a tenant's deposit


ALLOWED = frozenset({Kind.RUNNING, Kind.REPAIR, Kind.DOMESTIC})
CAPITAL = frozenset({Kind.IMPROVEMENT, Kind.ACQUISITION, Kind.NO_RELIEF})


class Cgt(Word):
    """What a capital part does for the gain when the house is sold."""

    ENHANCEMENT = "enhancement"
    ACQUISITION = "acquisition"
    DISPOSAL = "disposal"  # a cost of selling it
    NONE = "none"


class Confidence(Word):
    """How sure: statute or case law agree; what is normally accepted; or honest people differ."""

    CLEAR = "clear"
    USUAL = "usual"
    ARGUABLE = "arguable"


_ORDER = {Confidence.CLEAR: 0, Confidence.USUAL: 1, Confidence.ARGUABLE: 2}


def less_sure(one: Confidence, two: Confidence) -> Confidence:
    """The weaker of two confidences."""
    return one if _ORDER[one] >= _ORDER[two] else two


ON_A_RETURN = "returned"  # the category of a part that came off on a return already


@record
class Part:
    """So many pence of an item with one answer.

    category is the class of expense or income of the property pages (repairs, premises, professional, services,
    travel, other, domestic, finance_residential, rent, other_income …), "" where the sum is on no page.
    """

    amount: int
    kind: Kind
    category: str = ""
    cgt: Cgt = Cgt.NONE


@record
class Fired:
    """A rule that spoke: its stage and slug, one sentence a landlord understands, its authority, how sure it is."""

    stage: str
    slug: str
    says: str
    authority: str
    confidence: Confidence
    decided: bool = True
    lowered: bool = False  # whether it left the answer less sure than it was
    flips: tuple[str, ...] = ()  # what would change it and what to keep, where that is not the rule's own
    keep: tuple[str, ...] = ()


@record
class Verdict:
    """The answer for one item. The parts add up to the item's amount; so do those of `other` and of `cautious`, where
    there are any."""

    item: Item
    parts: tuple[Part, ...]
    path: tuple[Fired, ...]
    confidence: Confidence
    when: date  # the day it counts, moved to the first day of letting where law says so
    would_change: tuple[str, ...] = ()
    keep: tuple[str, ...] = ()
    other: tuple[Part, ...] = ()  # where arguable: the favourable answer
    answers: tuple[str, ...] = ()  # where arguable: the answers in words, the favourable one first, rarely three
    ask: tuple[str, ...] = ()  # the facts to add to the line, as words of the book
    cautions: tuple[str, ...] = ()
    ruled: str = ""  # the landlord's own ruling and its reason, where there is one
    without: Verdict | None = None  # ruled, or on a return already: what the rules say of it by themselves
    begins: date | None = None  # the day the owners' letting began, None where it has not
    cautious: tuple[Part, ...] = ()  # where arguable: the less favourable answer
    follows: tuple[int, ...] = ()  # where arguable: the open items, by position, whose answers it takes

    @property
    def thought(self) -> tuple[Part, ...]:
        """Where it is ruled, or on a return already: what the rules make of it, open where they leave it open."""
        return self.without.parts if self.without is not None else ()

    @property
    def arguable(self) -> bool:
        """Whether any part of it is open."""
        return self.confidence is Confidence.ARGUABLE and any(part.kind is Kind.ARGUABLE for part in self.parts)


def deciding(v: Verdict) -> tuple[tuple[Fired, ...], tuple[Fired, ...]]:
    """The rule that decided, then the others that changed something.

    Where the item is open that is the rule that left it open; where it is on a return already, the rule that says so;
    else the rule that said what it is, before those of date and gain. A carved piece has a rule of its own, so there
    may be two; and where another rule left the answer less sure than the one that decided, that one stands last.
    """
    decided = [fired for fired in v.path if fired.decided]
    if v.thought and not v.ruled:
        return tuple(decided[-1:]), ()
    chosen = [fired for fired in decided if fired.confidence is Confidence.ARGUABLE] if v.arguable else []
    chosen = chosen or [fired for fired in decided if fired.stage not in ("F", "H")] or decided[:1] or list(v.path[:1])
    if chosen and not v.ruled and less_sure(chosen[-1].confidence, v.confidence) is not chosen[-1].confidence:
        lowered = [fired for fired in v.path if fired.lowered and fired.confidence is v.confidence]
        chosen += [fired for fired in lowered[-1:] if fired not in chosen]
    return tuple(chosen), tuple(fired for fired in decided if fired not in chosen)
