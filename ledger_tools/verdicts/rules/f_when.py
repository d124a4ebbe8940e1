"""Stage F: when does it count, and is there a letting business yet? These change an answer already found."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import cache

from ... import law
from ...days import day_words
from ..answer import Change, Outcome, tidy
from ..case import Case
from ..registry import adjustment
from ..verdict import ALLOWED, Confidence, Kind, Part

CLEAR, USUAL, ARGUABLE = Confidence.CLEAR, Confidence.USUAL, Confidence.ARGUABLE


def allowed(outcome: Outcome) -> bool:
    """Whether anything of either answer comes off the rents or the tax."""
    return any(part.kind in ALLOWED for part in (*outcome.parts, *outcome.cautious))


def turned(parts: tuple[Part, ...], into: Callable[[Part], Part]) -> tuple[Part, ...]:
    """The parts that come off, each turned into something else."""
    return tidy(into(part) if part.kind in ALLOWED else part for part in parts)


def private(part: Part) -> Part:
    """The same sum, private."""
    return Part(part.amount, Kind.PRIVATE)


def nothing(part: Part) -> Part:
    """The same sum without relief."""
    return Part(part.amount, Kind.NO_RELIEF)


def unless_replaced(part: Part) -> Part:
    """The same sum; no relief where it replaced a domestic item."""
    return nothing(part) if part.kind is Kind.DOMESTIC else part


def waiting(part: Part) -> Part:
    """The same sum, waiting for the first letting."""
    return Part(part.amount, Kind.PENDING, part.category)


@cache
def years_allowed(begins: date) -> int:
    """How many years before the first day of letting a cost may lie; the oldest figure held for days before it."""
    topic = "property.pre_letting_years"
    return law.figure(topic, max(begins, law.began(topic))).whole


def years_before(day: date, years: int) -> date:
    """The same day so many years before; 28 February for a leap day that year does not have."""
    try:
        return day.replace(year=day.year - years)
    except ValueError:
        return day.replace(year=day.year - years, day=28)


@adjustment(
    "F",
    "owner-moves-in",
    "ITTOIA 2005 s.34; PIM2510",
    USUAL,
    "read",
    flips=("it was done after you moved out, for the letting",),
    keep=("papers that show when you moved in and out",),
)
def owner_moves_in(case: Case, outcome: Outcome) -> Change | None:
    """Costs while the house is the owner's home."""
    if (
        not allowed(outcome)
        or not case.history.home_on(case.house, case.day)
        or case.history.let_on(case.house, case.day)
    ):
        return None
    return Change(
        "It was your home on that day, so the cost is private.",
        turned(outcome.parts, private),
        turned(outcome.cautious, private),
        instead=True,
    )


@adjustment(
    "F",
    "after-the-last-let",
    "TCGA 1992 s.39(2); Day v HMRC [2015] UKFTT 142",
    ARGUABLE,
    "read",
    flips=("it was let again first",),
    keep=("what you told the agents: to sell or to let",),
)
def after_the_last_let(case: Case, outcome: Outcome) -> Change | None:
    """Done to sell, after the last letting."""
    if not case.because("before sale") or not allowed(outcome) or case.history.let_after(case.house, case.day):
        return None
    return Change(
        "Done to sell and not let again: most say it comes off neither the rents nor the gain.",
        cautious=turned(outcome.cautious or outcome.parts, nothing),
    )


@adjustment(
    "F",
    "never-let",
    "ITTOIA 2005 s.57; PIM2505",
    CLEAR,
    "read",
    flips=("you let within the years the law allows",),
    keep=("adverts", "letters to agents"),
)
def never_let(case: Case, outcome: Outcome) -> Change | None:
    """No letting has begun yet: nothing comes off until it does."""
    if not allowed(outcome) or case.begins is not None:
        return None
    return Change(
        "Nothing is let yet. It waits for the first day of letting and counts from then.",
        turned(outcome.parts, waiting),
        turned(outcome.cautious, waiting),
    )


@adjustment(
    "F",
    "before-first-let",
    "ITTOIA 2005 s.57; BIM46351; PIM2505",
    CLEAR,
    "read",
    flips=(
        "somebody else paid it",
        "it was for something other than this letting",
    ),
    keep=("the date of the bill", "who paid it", "the first day of letting"),
)
def before_first_let(case: Case, outcome: Outcome) -> Change | None:
    """Spent before the business began: it counts on the first day of letting, if not too long before."""
    begins = case.begins if allowed(outcome) else None
    if begins is None or case.day >= begins:
        return None
    years = years_allowed(begins)
    if case.day < years_before(begins, years):
        return Change(
            f"It was spent more than {years} years before the first letting, too early to count.",
            turned(outcome.parts, nothing),
            turned(outcome.cautious, nothing),
        )
    says = f"Spent before the first letting, so it counts on that day, {day_words(begins)}."
    if any(part.kind is Kind.DOMESTIC for part in outcome.parts):
        return Change(
            says + " Whether the relief for replaced items reaches back before that day is open.",
            cautious=turned(outcome.cautious or outcome.parts, unless_replaced),
            when=begins,
            confidence=ARGUABLE,
        )
    return Change(says, when=begins)


@adjustment(
    "F",
    "back-before-first-let",
    "ITTOIA 2005 s.57",
    USUAL,
    "read",
    flips=("what it came back for counts on its own day",),
    keep=("the credit note",),
)
def back_before_first_let(case: Case, outcome: Outcome) -> Change | None:
    """Money back before the business began: it counts on the day its cost counts."""
    begins = case.begins if any(p.kind is Kind.NETS and p.category for p in outcome.parts) else None
    if begins is None or case.day >= begins:
        return None
    return Change(
        f"What it cost counts on the first day of letting, {day_words(begins)}, and so does this.", when=begins
    )


@adjustment(
    "F",
    "later-property",
    "PIM2505",
    CLEAR,
    "head",
    flips=("the houses belong to different people",),
    keep=("papers that show who owns what",),
)
def later_property(case: Case, outcome: Outcome) -> Change | None:
    """Another house was let already, so readying this one is an ordinary cost of a running business."""
    begins = None if case.let_before or not allowed(outcome) else case.begins
    if begins is None or case.day < begins:
        return None
    first = case.history.first_let(case.house)
    if first is not None and first <= case.day:
        return None
    return Change("You let already, so what readies this house counts on its own day.")
