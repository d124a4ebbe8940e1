"""Stage H: what an answer means for the gain when the house is sold. These change an answer already found."""

from __future__ import annotations

from ..answer import Change, Outcome
from ..case import Case
from ..registry import adjustment
from ..verdict import Cgt, Confidence, Kind, Part

CLEAR, USUAL, ARGUABLE = Confidence.CLEAR, Confidence.USUAL, Confidence.ARGUABLE
GOES = frozenset({"removed", "replaced", "rebuilt", "sold", "scrapped"})


@adjustment(
    "H",
    "gone-by-sale",
    "TCGA 1992 s.38(1)(b); CG15180",
    CLEAR,
    "read",
    flips=("a part of it is still there",),
    keep=("photographs from the sale",),
)
def gone_by_sale(case: Case, outcome: Outcome) -> Change | None:
    """An improvement that was later replaced or taken away is not in the house when it is sold."""
    if not any(p.cgt is Cgt.ENHANCEMENT and p.kind is Kind.IMPROVEMENT for p in outcome.parts) or not case.known:
        return None
    rooms = {room.text for room in case.line.rooms}
    key = case.history.key(case.new_one.name, "")
    if not case.history.goes_after(case.house, key, case.day):
        return None
    for line in case.history.told(case.house, key):
        if (
            line.day <= case.day
            or line.verb not in GOES
            or any(t.extent == "part of" or t.of for t in line.entry.things)
        ):
            continue
        if not any(case.history.key(t.name, line.verb) == key for t in line.entry.things):
            continue
        if rooms and line.entry.rooms and rooms.isdisjoint(room.text for room in line.entry.rooms):
            continue
        gone = tuple(Part(p.amount, p.kind, p.category) if p.cgt is Cgt.ENHANCEMENT else p for p in outcome.parts)
        return Change(f"It was {line.verb} later, so it is not there to count when the house is sold.", gone)
    return None


@adjustment(
    "H",
    "initial-repairs-count",
    "CG15201; Statement of Practice D24; TCGA 1992 s.39(2)",
    USUAL,
    "memory",
    flips=("it comes off the rents after all",),
    keep=("a note of why it was no repair",),
)
def initial_repairs_count(case: Case, outcome: Outcome) -> Change | None:
    """What finished the purchase counts for the gain."""
    parts = outcome.cautious or outcome.parts
    if case.line.kind != "works" or not any(part.kind is Kind.ACQUISITION for part in parts):
        return None
    if any(fired.slug == "buying-or-selling-cost" for fired in outcome.path):  # a survey leaves nothing to be seen
        return None
    return Change("What finished the purchase counts when the house is sold, if it can still be seen then.")
