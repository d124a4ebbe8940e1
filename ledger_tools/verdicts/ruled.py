"""The landlord's own ruling put in the place of what the rules found.

A ruling decides what is open. What every answer has alike stays as it is, and so does what the line itself gives an
answer by its amount: a private part, the share of one's own wear, an improvement part. Where nothing is open it
overrules what the rules say of the rest. Knows no rule but its own.
"""

from __future__ import annotations

from dataclasses import replace

from ..book.entries import Ruling
from ..money import pounds
from .answer import Outcome, Remark, in_all, tidy
from .case import Case
from .equal_price import amount
from .registry import own_rule
from .verdict import Cgt, Confidence, Kind, Part

RULED = {
    "running cost": (Kind.RUNNING, "other", Cgt.NONE),
    "repair": (Kind.REPAIR, "repairs", Cgt.NONE),
    "improvement": (Kind.IMPROVEMENT, "", Cgt.ENHANCEMENT),
    "purchase cost": (Kind.ACQUISITION, "", Cgt.ACQUISITION),
    "cost of selling": (Kind.ACQUISITION, "", Cgt.DISPOSAL),
    "item replaced": (Kind.DOMESTIC, "domestic", Cgt.NONE),
    "no relief": (Kind.NO_RELIEF, "", Cgt.NONE),
    "private": (Kind.PRIVATE, "", Cgt.NONE),
}
RULING = own_rule(
    "",
    "your-ruling",
    "your own decision",
    Confidence.CLEAR,
    "practice",
    "The landlord's own decision wins, and never hides what the rules thought.",
    flips=("you take your decision back",),
    keep=("the advice you relied on, in writing",),
)


def ruled(case: Case, outcome: Outcome, ruling: Ruling) -> Outcome:
    """The landlord's own answer; what the rules thought stays in the path. `apart` is then all that it left alone."""
    stays = left_alone(outcome)
    left = sum(part.amount for part in outcome.parts) - sum(part.amount for part in stays)
    said = Remark(f"You decided: {ruling.verdict}, because {ruling.because}.{besides(stays, ruling.verdict)}")
    path = [replace(fired, decided=False) for fired in outcome.path]
    path.append(replace(RULING.fired(said), decided=True))
    parts = tidy((*_as_told(case.but(amount=left), outcome, ruling.verdict), *stays))
    return replace(outcome, parts=parts, cautious=(), path=path, ask=(), third=(), apart=stays)


def left_alone(outcome: Outcome) -> tuple[Part, ...]:
    """What a ruling leaves as it is: what is not open, or where nothing is, what the line decides by amounts."""
    answers = [answer for answer in (outcome.parts, outcome.cautious, outcome.third) if answer]
    return in_all(answers) if outcome.cautious else outcome.apart


def besides(stays: tuple[Part, ...], verdict: str) -> str:
    """How much of the sum has another answer than this ruling's, in a sentence; nothing where none has."""
    told = sum(part.amount for part in stays if part.kind is not RULED[verdict][0])
    return f" The other {pounds(told)} of the sum stays as it is." if told else ""


def _as_told(case: Case, outcome: Outcome, verdict: str) -> tuple[Part, ...]:
    """What is left of the sum by this ruling; an item replaced has relief up to the price of one like the old."""
    kind, category, cgt = RULED[verdict]
    if kind is Kind.RUNNING:
        category = next((part.category for part in outcome.parts if part.kind is Kind.RUNNING), category)
    if kind is Kind.DOMESTIC and not any(part.kind is Kind.NO_RELIEF for part in left_alone(outcome)):
        return amount(case)
    return (Part(case.amount, kind, category, cgt),)
