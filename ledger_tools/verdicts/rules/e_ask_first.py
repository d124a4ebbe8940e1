"""Stage E, what is asked before the relief for items replaced: mended, moved about, too early for it."""

from __future__ import annotations

from ... import law
from ..answer import Answer, Said
from ..case import Case
from ..registry import rule
from ..verdict import Confidence, Kind

CLEAR, USUAL = Confidence.CLEAR, Confidence.USUAL
ACT = "ITTOIA 2005 s.311A"


@rule(
    "E",
    "mended",
    "ITTOIA 2005 s.308(1)(b); PIM2025",
    CLEAR,
    "read",
    verbs="repaired, replaced, treated",
    flips=("so much of it was renewed that it is a new thing",),
    keep=("the repair bill",),
)
def mended(case: Case) -> Said:
    """A domestic item, or a part of one, put right."""
    if not case.domestic or (case.verb == "replaced" and case.extent != "part of"):
        return None
    return Answer(
        case.repair, f"Mending it is a repair ({case.what}); the relief for replacing items is not needed for it."
    )


@rule(
    "E",
    "moved-about",
    "common practice",
    USUAL,
    "practice",
    verbs="moved, altered",
    flips=("it was moved for your own use",),
    keep=("the bill",),
)
def moved_about(case: Case) -> Said:
    """A loose item carried somewhere else or adapted."""
    if not case.domestic:
        return None
    return Answer(case.all(Kind.RUNNING, "services"), "Moving furniture about leaves nothing new behind.")


@rule(
    "E",
    "before-the-relief",
    f"Finance Act 2016 s.73; {ACT}",
    CLEAR,
    "memory",
    verbs="replaced",
    flips=("it was bought later than your book tells",),
    keep=("the dated receipt",),
)
def before_the_relief(case: Case) -> Said:
    """Replaced before the relief came in."""
    if not case.domestic or case.day >= law.began("property.domestic_items_share"):
        return None
    return Answer(case.no_relief, "The relief for replacing items began only after this day.")
