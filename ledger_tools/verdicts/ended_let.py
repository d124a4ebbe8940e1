"""What a cost after a let tells by itself: for the house, for the letting, or for the let that ended. Knows no rule."""

from __future__ import annotations

from ..days import day_words
from .answer import Outcome
from .case import Case
from .verdict import ALLOWED


def keeps_the_house(case: Case, outcome: Outcome) -> bool:
    """Whether a cost is for the house as it stands: works on it, or what is paid for having it."""
    return case.line.kind == "works" or any(part.category == "premises" for part in outcome.parts)


def tells_its_purpose(outcome: Outcome) -> bool:
    """Whether a cost says by itself that it was for the letting: an agent, an accountant, a lawyer of a let."""
    return all(part.category == "professional" for part in outcome.parts if part.kind in ALLOWED)


def of_the_ended_let(case: Case) -> str:
    """What tells that a cost after a let is that let's: a period inside it, harm by the tenant, what a deposit was kept
    for, its rent given up as lost. Nothing where nothing does."""
    period = case.line.period
    if case.verb == "wrote off":
        return "its rent"
    if period and case.history.lets.let_on(case.house, period.last):
        return f"it is for days up to {day_words(period.last)}"
    if case.because("tenant damage"):
        return "you tell that the tenant did it"
    words = {case.key, "cleaning"} if case.verb == "cleaned" else {case.key}
    return "part of the deposit was kept for it" if not words.isdisjoint(case.history.kept_for(case.house)) else ""
