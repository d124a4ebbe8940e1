"""Stage A: the leaseholder's share of what is spent on the block."""

from __future__ import annotations

from ...money import share
from ..answer import Answer, Said, tidy
from ..case import Case, either
from ..offers import rule_as
from ..registry import rule
from ..told import BLOCK
from ..verdict import Cgt, Confidence, Kind, Part


@rule(
    "A",
    "leaseholder-share",
    "BIM46900 by principle; no authority read on service charges",
    Confidence.USUAL,
    "practice",
    verbs="paid, billed, charged, invoiced",
    flips=("the managing agent shows another share for improvements (then add `improvement £…`)",),
    keep=("the section 20 papers", "the block's accounts for the year"),
)
def leaseholder_share(case: Case) -> Said:
    """A share of the block's works: what is repair comes off, what is improvement is capital."""
    if case.thing.name not in BLOCK or case.line.purpose == "private":
        return None
    major = case.thing.name == "major works bill"
    kind, category = (Kind.REPAIR, "repairs") if major else (Kind.RUNNING, case.thing.category)
    told = case.facts.improvement
    if told is not None:
        own = max(case.line.total or case.amount, told.amount)
        better, rest = share(case.amount, [told.amount, own - told.amount])
        return Answer(
            tidy((Part(rest, kind, category), Part(better, Kind.IMPROVEMENT, cgt=Cgt.ENHANCEMENT))),
            "Your share of the block's repairs and upkeep comes off; your share of its improvement counts when the "
            "flat is sold.",
        )
    if case.thing.name == "reserve fund":
        return either(
            case.all(kind, category),
            case.improvement,
            f"This is put by for works to come ({case.what}): as far as they are repairs it comes off, as far as they "
            "are something new it is capital, and your book does not say what the fund is for.",
            (", improvement £…", *rule_as("running cost", "improvement")),
        )
    if not major:
        return Answer(
            case.all(kind, category),
            f"Your share of the block's upkeep is an ordinary cost of letting ({case.what}). Was any of it for "
            "something new in the building? That part is capital: the block's accounts and section 20 papers show it, "
            "and your book tells of none.",
        )
    return either(
        case.repair,
        case.improvement,
        "Your share of major works comes off as far as they were repairs; the block's papers say which part was "
        "something new, your book does not.",
        (", improvement £…", *rule_as("repair", "improvement")),
    )


@rule(
    "A",
    "handed-back",
    "BIM43255; BIM43260; BIM43265, written for trades",
    Confidence.ARGUABLE,
    "read",
    verbs="paid, billed, charged, invoiced",
    flips=("the schedule of dilapidations says what each sum is for",),
    keep=("the schedule of dilapidations", "the lease"),
)
def handed_back(case: Case) -> Said:
    """Paid at the end of a lease that the landlord held, for the state of the place."""
    if case.thing.name != "dilapidations" or case.line.purpose == "private":
        return None
    return either(
        case.repair,
        case.no_relief,
        "What is paid at the end of a lease for overdue repairs comes off, even where it goes to the freeholder and no "
        "work is done; for rebuilding, or for taking out what you had put in, it is capital. Your book does not say "
        "which it was.",
        rule_as("repair", "no relief"),
    )
