"""Stage A, last: a payment that names a part of the house or a loose item, and not what was done to it."""

from __future__ import annotations

from ..answer import Said
from ..case import Case, either
from ..offers import rule_as
from ..registry import rule
from ..retold import works_behind
from ..verdict import Confidence


@rule(
    "A",
    "work-not-told",
    "BIM35435; BIM46920",
    Confidence.ARGUABLE,
    "read",
    verbs="paid, billed, charged",
    flips=("you say what was done",),
    keep=("a bill that says what was done",),
)
def work_not_told(case: Case) -> Said:
    """A part of the house or a loose item is named, not what was done to it."""
    lines = tuple(works_behind(case.history, case.line).values())
    if not lines:
        return None
    thing = case.history.known(case.line.thing)
    says = f"That money was {case.verb} is told, not what was done ({case.what}), and that decides the tax. "
    if thing.again == thing.first == "arguable":  # underpinning: open whatever was done
        why = thing.remark or f"Whether this is a repair of something larger is open ({case.what})."
        return either(case.repair, case.improvement, why, rule_as("repair", "improvement"))
    if thing.nature == "domestic":
        return either(
            case.replacement,
            case.no_relief,
            says + "What takes the place of an old one comes off; the first one has no relief.",
            lines,
        )
    return either(
        case.repair, case.improvement, says + "What is put right is a repair, what is new an improvement.", lines
    )
