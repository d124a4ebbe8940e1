"""Stage H: what an answer means for the gain when the house is sold. These change an answer already found."""

from __future__ import annotations

from datetime import date

from ...book.entries import Entry
from ...days import day_words
from ..answer import Change, Outcome
from ..case import Case
from ..history import LEAVES, of_the_old
from ..offers import SOON
from ..registry import adjustment
from ..told import EVENTS
from ..verdict import CAPITAL, Cgt, Confidence, Kind, Part

CLEAR, USUAL, ARGUABLE = Confidence.CLEAR, Confidence.USUAL, Confidence.ARGUABLE
GOES = frozenset({"removed", "replaced", "rebuilt", "sold", "scrapped"})
SHAPES = frozenset({"altered", "extended", "converted"})


@adjustment(
    "H",
    "gone-by-sale",
    "TCGA 1992 s.38(1)(b); CG15180",
    CLEAR,
    "read",
    of={Kind.IMPROVEMENT},
    flips=("a part of it is still there",),
    keep=("photographs from the sale",),
)
def gone_by_sale(case: Case, outcome: Outcome) -> Change | None:
    """An improvement that was later replaced or taken away is not in the house when it is sold."""
    if not any(p.cgt is Cgt.ENHANCEMENT and p.kind is Kind.IMPROVEMENT for p in outcome.parts) or not case.known:
        return None
    if case.verb in SHAPES and case.new_one.room and not (case.new_one.whole or case.dwelling):
        return None  # new units in a room are not the end of its new shape
    rooms = {room.text for room in case.line.rooms}
    key = case.history.key(case.new_one.name, "")
    if not case.history.goes_after(case.house, key, case.day):
        return None
    for line in case.history.told(case.house, key):
        if (
            line.day <= case.day
            or line.verb not in GOES
            or any(t.extent == "part of" or t.of for t in line.entry.things)
            or of_the_old(line.entry)
            or line.verb in LEAVES and _just_swapped(case, line.day)
            or _one_of_many(case, line.entry)
        ):
            continue
        if not any(case.history.key(t.name, line.verb) == key for t in line.entry.things):
            continue
        if rooms and line.entry.rooms and rooms.isdisjoint(room.text for room in line.entry.rooms):
            continue
        gone = tuple(Part(p.amount, p.kind, p.category) if p.cgt is Cgt.ENHANCEMENT else p for p in outcome.parts)
        return Change(f"It was {line.verb} later, so it is not there to count when the house is sold.", gone)
    return None


def _just_swapped(case: Case, day: date) -> bool:
    """Whether what left a house some weeks after a swap will have been the old one."""
    return case.verb in ("replaced", "rebuilt") and (day - case.day).days <= SOON


def _one_of_many(case: Case, later: Entry) -> bool:
    """Whether no more than a part of what was put in then was replaced or taken away later."""
    put = case.line.becomes.things if case.line.becomes and case.line.becomes.things else case.line.things
    then = sum(thing.count or 0 for thing in put) or (case.line.becomes.count if case.line.becomes else 0) or 0
    many = max(then, 2 if any(thing.count is None and _plural(thing.name) for thing in put) else 0)
    gone = sum(thing.count or (0 if _plural(thing.name) else 1) for thing in later.things)
    return 0 < gone < many


def _plural(name: str) -> bool:
    return name.lower().endswith("s") and not name.lower().endswith("ss")


@adjustment(
    "H",
    "enhancement-test",
    "TCGA 1992 s.38(1)(b); CG15180; CG15183; Aberdeen Construction v IRC (1978) 52 TC 281",
    CLEAR,
    "read",
    of=CAPITAL,
    flips=("something of it can be seen in the house when it is sold",),
    keep=(
        "the bills",
        "photographs from the sale",
    ),
)
def enhancement_test(case: Case, outcome: Outcome) -> Change | None:
    """What is capital counts for the gain only as far as it shows in the house when that is sold."""
    capital = [p for p in (*outcome.parts, *outcome.cautious) if p.cgt is not Cgt.NONE and p.kind in CAPITAL]
    if not capital:
        return None
    if case.facts.given_up:
        gone = tuple(without_gain(p) for p in outcome.parts)
        doubted = tuple(without_gain(p) for p in outcome.cautious)
        return Change("It came to nothing, so there is nothing in the house that it could count for.", gone, doubted)
    sold = case.place.sold if case.place else None
    if sold is None or not any(p.cgt is Cgt.ENHANCEMENT for p in capital):
        return None
    return Change(f"It counts for the sale of {day_words(sold.day)} as far as it could still be seen then.")


def without_gain(part: Part) -> Part:
    """The same capital sum, of no use for a gain."""
    return Part(part.amount, part.kind, part.category) if part.kind in CAPITAL else part


@adjustment(
    "H",
    "revenue-cannot-become-gain-cost",
    "TCGA 1992 s.39(1)-(2)",
    CLEAR,
    "read",
    of={Kind.REPAIR, Kind.RUNNING},
    flips=(
        "it was an improvement and no repair",
        "a tribunal takes decorating for a sale as an improvement, as one did in 2015 (Day)",
    ),
    keep=("a note of what was claimed against the rents, by year",),
)
def revenue_cannot_become_gain_cost(case: Case, outcome: Outcome) -> Change | None:
    """A repair made for a sale is no cost of the sale, claimed or not."""
    if not case.because("before sale"):
        return None
    return Change("By the words of the law a repair does not count for the gain, even where the rents do not take it.")


@adjustment(
    "H",
    "building-lost",
    "TCGA 1992 s.23-24",
    CLEAR,
    "read",
    flips=("a part of it survived",),
    keep=(
        "the values of the building and of its site",
        "the insurer's letter and the day it paid",
    ),
)
def building_lost(case: Case, outcome: Outcome) -> Change | None:
    """A building was destroyed, or knocked down for good; a shed or the like is too small to ask about."""
    if case.thing.again == "arguable":
        return None
    building = case.thing.whole or case.dwelling
    destroyed = case.verb in ("rebuilt", "replaced") and not EVENTS.isdisjoint(case.facts.causes)
    if not building or case.partly or not (case.verb == "removed" or destroyed):
        return None
    return Change(
        "Where a building is lost altogether, that can be a disposal even without payment, and insurance put into a "
        "new one can be rolled over; ask an adviser."
    )


@adjustment(
    "H",
    "initial-repairs-count",
    "CG15201; Statement of Practice D24; TCGA 1992 s.39(2)",
    USUAL,
    "memory",
    of={Kind.ACQUISITION},
    flips=("it comes off the rents after all",),
    keep=("a note of why it was no repair",),
)
def initial_repairs_count(case: Case, outcome: Outcome) -> Change | None:
    """What finished the purchase counts for the gain."""
    parts = outcome.cautious or outcome.parts
    bought = (part.kind is Kind.ACQUISITION and part.cgt is not Cgt.DISPOSAL for part in parts)
    if case.line.kind != "works" or not any(bought):
        return None
    if any(fired.slug == "buying-or-selling-cost" for fired in outcome.path):  # a survey leaves nothing to be seen
        return None
    return Change("What finished the purchase counts when the house is sold, if it can still be seen then.")
