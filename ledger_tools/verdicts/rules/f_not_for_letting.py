"""Stage F, first: costs of a house that was its owner's home on the day, or was to be sold. They change an answer."""

from __future__ import annotations

from dataclasses import replace

from ...days import day_words
from ...money import share
from ..answer import Change, Outcome, tidy
from ..case import Case
from ..ended_let import keeps_the_house, of_the_ended_let
from ..offers import treat_as
from ..registry import adjustment
from ..turned import enhances, nothing, private, turned
from ..verdict import ALLOWED, Confidence, Part

USUAL, ARGUABLE = Confidence.USUAL, Confidence.ARGUABLE


@adjustment(
    "F",
    "owner-moves-in",
    "ITTOIA 2005 s.34; PIM2510",
    USUAL,
    "read",
    of=ALLOWED,
    flips=("it was done after you moved out, for the letting",),
    keep=("papers that show when you moved in and out",),
)
def owner_moves_in(case: Case, outcome: Outcome) -> Change | None:
    """Costs while the house is the owner's home."""
    lets, period = case.history.lets, case.line.period
    if period is not None:  # what is paid for days is private for those of them
        home = lets.days_home(case.house, period)
        if 0 < home < period.days:
            return _in_part(outcome, home, period.days)
        if not home:
            return None
    elif not lets.home_on(case.house, case.day):
        return None
    if lets.let_on(case.house, period.first if period else case.day):
        return _with_a_lodger(case, outcome)
    return Change(
        "It was your home on that day, so the cost is private.",
        turned(outcome.parts, private),
        turned(outcome.cautious, private),
        third=turned(outcome.third, private),
        instead=True,
    )


def _in_part(outcome: Outcome, home: int, days: int) -> Change:
    """The part of a cost for days that falls into those on which it was the owner's home."""
    return Change(
        f"It was your home on {home} of the {days} days that this is for, so that part of the cost is private.",
        _apart(outcome.parts, home, days),
        _apart(outcome.cautious, home, days),
        third=_apart(outcome.third, home, days),
    )


def _apart(parts: tuple[Part, ...], home: int, days: int) -> tuple[Part, ...]:
    found: list[Part] = []
    for part in parts:
        own, rest = share(part.amount, [home, days - home]) if part.kind in ALLOWED else (0, part.amount)
        found += [private(replace(part, amount=own))] if own else []
        found += [replace(part, amount=rest)] if rest else []
    return tidy(found)


def _with_a_lodger(case: Case, outcome: Outcome) -> Change | None:
    """What is spent on a home of which only rooms are let is for both."""
    lets = [let for let in case.history.book.lets_of(case.house) if let.first_day and let.first_day <= case.day]
    running = [let for let in lets if let.last_day is None or case.day <= let.last_day]
    rooms = {let.room for let in running}
    if "" in rooms or any(room.text in rooms for room in case.line.rooms) or case.line.thing in rooms:
        return None
    cautious = turned(outcome.cautious or outcome.parts, private)
    return Change(
        "You lived there and let a room: only the part that is for the room comes off, and your book does not tell it.",
        cautious=cautious,
        confidence=ARGUABLE,
        ask=(", of which private £…", *treat_as(outcome.parts, cautious)),
    )


TO_SELL = "ITTOIA 2005 s.34; TCGA 1992 s.39(2)"


@adjustment(
    "F",
    "after-the-last-let",
    f"{TO_SELL}, s.38(2)(b); Day v HMRC [2015] UKFTT 142; practitioners' answers",
    ARGUABLE,
    "read",
    unlet=True,
    of=ALLOWED,
    flips=("it was let again first", "a paper shows whether it was done for the letting or for the sale"),
    keep=("what you told the agents: to sell or to let",),
)
def after_the_last_let(case: Case, outcome: Outcome) -> Change | None:
    """Done to sell, after the last letting; not what the ended let itself left to pay or to put right."""
    lead = _done_to_sell(case, outcome)
    if not lead:
        return _left_by_the_let(case, outcome)
    cautious = turned(outcome.cautious or outcome.parts, nothing)
    more, authority, third = ("", TO_SELL, ()) if outcome.cautious else _for_the_gain(case)
    if third and not wanted_by_a_buyer(case):
        third = tuple(map(enhances, outcome.parts))
    return Change(
        f"{lead}{more}",
        cautious=cautious,
        third=third,
        ask=treat_as(outcome.parts, cautious, *((third,) if third else ())),
        authority=authority,
    )


def _done_to_sell(case: Case, outcome: Outcome) -> str:
    """What tells that a cost was, or may have been, for a sale, and what people make of it; else nothing."""
    lets, sold = case.history.lets, case.place.sold if case.place else None
    if lets.let_after(case.house, case.day):
        return ""
    split = "some take it as a last cost of the letting, most say that it comes off neither the rents nor the gain."
    if sold and case.day > sold.day and case.line.kind == "works":
        return (
            f"The house was sold on {day_words(sold.day)}, before this. Owed under the contract it may be a cost of "
            "the sale, and left over from the letting it may come off; else it is no work on a house of yours."
        )
    if case.because("before sale"):
        return f"Done to sell and not let again: {split}"
    if not sold or not _then_sold(case, outcome) or of_the_ended_let(case) or _on_offer_to_let(case):
        return ""
    told = lets.to_be_sold(case.house, case.day)
    ended = f"{told} that the house was to be sold, and it was" if told else "The last let had ended, and it was sold"
    return (
        f"{ended}, on {day_words(sold.day)}, without another. Meant for letting when it was done, it comes off; done "
        f"to sell, {split}"
    )


def _then_sold(case: Case, outcome: Outcome) -> bool:
    """Whether it is for the house or for a buyer, after its last let and before the house was sold."""
    sold = case.place.sold if case.place else None
    after = sold is not None and case.let_before and case.day <= sold.day
    over = not case.history.lets.let_after(case.house, case.day)
    return after and over and (wanted_by_a_buyer(case) or keeps_the_house(case, outcome))


def _left_by_the_let(case: Case, outcome: Outcome) -> Change | None:
    """What the ended let left to put right comes off, though the house was then sold; said, for it hangs on that."""
    why = of_the_ended_let(case)
    if not why or not _then_sold(case, outcome):
        return None
    says = f"The let that ended left this to be done or paid ({why}), so it comes off though the house was then sold."
    return Change(says, confidence=USUAL, authority=TO_SELL)


def _on_offer_to_let(case: Case) -> bool:
    """Whether the house was told to be on the market to let on the day; an offer of no told end may have ended."""
    spells = case.place.spells if case.place else ()
    return any(s.state == "marketed to let" and s.until and s.since <= case.day <= s.until for s in spells)


def wanted_by_a_buyer(case: Case) -> bool:
    """Whether it is wanted for a let and for a sale alike."""
    return case.thing.name in ("epc", "advertising")


WHOLE_ROOMS = frozenset({"kitchen", "bathroom"})


def _for_the_gain(case: Case) -> tuple[str, str, tuple[Part, ...]]:
    """What some count for the gain all the same: who says so, on what it rests, and as what."""
    if wanted_by_a_buyer(case):
        surely = "it is" if case.thing.name == "advertising" else "it may be"
        says = f" Spent to find a buyer, {surely} a cost of the sale (TCGA 1992 s.38(2)(b))."
        return says, f"{TO_SELL}, s.38(2)(b)", case.selling
    if case.verb == "decorated":
        says = " One tribunal let decorating for a sale count for the gain, as an improvement (Day); it stands alone."
        return says, f"{TO_SELL}; Day v HMRC [2015] UKFTT 142", case.improvement
    if case.name in WHOLE_ROOMS and case.verb == "replaced":
        says = f" Of a whole new {case.name} some advisers think that it counts for the gain."
        return says, f"{TO_SELL}; practitioners' answers", case.improvement
    return "", TO_SELL, ()
