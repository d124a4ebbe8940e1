"""Stage F: when does it count, and is there a letting business yet? These change an answer already found."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from functools import cache

from ... import law
from ...days import day_words
from ...money import share
from ..answer import Change, Outcome, tidy
from ..case import Case
from ..ended_let import keeps_the_house, of_the_ended_let, tells_its_purpose
from ..lets import Gap
from ..offers import rule_as, treat_as
from ..registry import adjustment
from ..turned import borne_by_another, nothing, private, turned, unless_replaced, waiting
from ..verdict import ALLOWED, CAPITAL, Confidence, Kind, Part

CLEAR, USUAL, ARGUABLE = Confidence.CLEAR, Confidence.USUAL, Confidence.ARGUABLE


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


def years_on(day: date, years: int) -> date:
    """The same day so many years later, as far as the calendar goes."""
    return years_before(day, -years) if day.year + years <= date.max.year else date.max


@adjustment(
    "F",
    "owner-did-it",
    "Simon's commentary on TCGA 1992 s.38; common practice for income",
    ARGUABLE,
    "head",
    of=ALLOWED | CAPITAL,
    flips=("the sum went to somebody else, for materials or for work",),
    keep=("receipts for the materials", "bank statements that show who was paid"),
)
def owner_did_it(case: Case, outcome: Outcome) -> Change | None:
    """Work by an owner of the house, or money to one, not told as own labour: nobody can pay themselves."""
    line = case.line
    who = line.who or case.history.items[case.position].head.who
    people = case.history.book.landlords
    if who is None or who.name not in people or who.role not in ("by", "to") or case.facts.own_labour:
        return None
    if not case.history.lets.owns(who.name, case.house, case.day):
        return None
    cautious = borne_by_another(outcome.cautious or outcome.parts)
    name = people[who.name].full
    if line.kind == "works":
        says = f"{name} owns the house, and own work is no cost, for the rents or for a gain. If the sum is what the "
        return Change(says + "materials cost, say so.", cautious=cautious, ask=(", own labour", *rule_as("no relief")))
    return Change(
        f"{name} owns the house, and what an owner takes is no cost. Paid back for what was laid out to somebody else "
        "it is: then tell whom.",
        cautious=cautious,
        ask=treat_as(outcome.parts, cautious),
    )


@adjustment(
    "F",
    "tenant-did-it",
    "ITTOIA 2005 s.34; TCGA 1992 s.38(1)(b)",
    ARGUABLE,
    "read",
    flips=("you say who bore it",),
    keep=("the receipt, and how you settled it with the tenant",),
)
def tenant_did_it(case: Case, outcome: Outcome) -> Change | None:
    """A tenant did the work, and the book does not say whether the owners bore what it cost."""
    line, facts = case.line, case.facts
    if line.kind != "works" or line.who is None or line.who.role != "by" or case.tenant is None:
        return None
    if facts.payer or facts.paid or facts.number or facts.due or line.paper:
        return None
    cautious = borne_by_another(outcome.cautious or outcome.parts)
    if cautious == outcome.parts:
        return None
    name = line.who.name or line.who.full
    owners = case.history.lets.owners(case.house, case.day)
    return Change(
        f"A tenant did it ({name}), and your book does not say who bore the cost. What you paid, or let off the rent, "
        "is yours; what the tenant paid is no cost of yours and counts at no sale.",
        cautious=cautious,
        ask=tuple(f", paid by {who}" for who in (name, *owners)),
    )


@adjustment(
    "F",
    "someone-else-paid",
    "ITTOIA 2005 s.34, s.57; TCGA 1992 s.38(1)(b); BIM46355",
    USUAL,
    "read",
    told="payer",
    flips=("you paid them back, or owe it to them",),
    keep=("papers that show who paid it, and how you settled it",),
)
def someone_else_paid(case: Case, outcome: Outcome) -> Change | None:
    """Somebody who is no owner of the house bore the cost."""
    payer = case.facts.payer
    if not payer or case.history.lets.owns(payer, case.house, case.day):
        return None
    parts = borne_by_another(outcome.parts)
    if parts == outcome.parts and not outcome.cautious:
        return None
    payer = payer[:1].upper() + payer[1:]
    return Change(
        f"{payer} bore it, no owner of the house; only who spends it may claim it or count it at a sale."
        f"{_estate(payer)}",
        parts,
        borne_by_another(outcome.cautious),
        instead=True,
    )


def _estate(payer: str) -> str:
    """What to add where those bore it who wound up an estate."""
    if not {"executors", "executor", "estate", "administrators", "administrator"} & set(payer.lower().split()):
        return ""
    return " It may come off the rents that came to them before the estate was settled, in their own return."


@adjustment(
    "F",
    "never-let",
    "ITTOIA 2005 s.57; PIM2505",
    CLEAR,
    "read",
    unlet=True,
    of=ALLOWED,
    flips=("you let within the years the law allows",),
    keep=("adverts", "letters to agents"),
)
def never_let(case: Case, outcome: Outcome) -> Change | None:
    """No letting has begun yet: nothing comes off until it does."""
    if case.begins is not None:
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
    unlet=True,
    of=ALLOWED,
    flips=(
        "somebody else paid it",
        "it was for something other than this letting",
    ),
    keep=(
        "the bill with its date",
        "papers that show who paid it",
        "the first tenancy agreement",
    ),
)
def before_first_let(case: Case, outcome: Outcome) -> Change | None:
    """Spent before the business began: it counts on the first day of letting, if not too long before."""
    begins = case.begins
    if begins is None or case.day >= begins:
        return None
    years = years_allowed(begins)
    if case.day < years_before(begins, years):
        return Change(
            f"It was spent more than {years} years before the first letting, too early to count.",
            turned(outcome.parts, nothing),
            turned(outcome.cautious, nothing),
        )
    returned = case.history.lets.by_return(begins)
    says = f"Spent before the first letting, so it counts on that day, {day_words(begins)}."
    if returned:
        says = (
            f"Your book tells of no let so early, but that a cost came off the return of {returned}: letting had begun "
            f"by {day_words(begins)}, and this counts in that year."
        )
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
    of={Kind.NETS},
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
    unlet=True,
    of=ALLOWED,
    flips=(
        "the houses are let in different capacities: by a person, a partnership, trustees",
        "the one let before lies abroad",
    ),
    keep=("papers that show who owns what",),
)
def later_property(case: Case, outcome: Outcome) -> Change | None:
    """Another house was let already, so readying this one is an ordinary cost of a running business."""
    begins = None if case.let_before else case.begins
    if begins is None or case.day < begins:
        return None
    first = case.history.lets.first_let(case.house)
    if first is not None and first <= case.day:
        return None
    got = case.place.got.day if case.place and case.place.got else date.min
    long = (case.history.goes_to - case.day).days > A_YEAR
    if first is None and long and not tells_its_purpose(outcome) and not still_meant_for_letting(case, got):
        cautious = turned(outcome.cautious or outcome.parts, private)
        return Change(
            "You let another house already, but for over a year after this your book tells of no let of this one, no "
            "advert and no programme of works. Meant for letting, it comes off; meant for yourself or for a sale, it "
            "does not.",
            cautious=cautious,
            confidence=ARGUABLE,
            ask=("marketed to let from …", "periodic from …", *treat_as(outcome.parts, cautious)),
        )
    later = case.history.lets.not_yet_letting(case.house, case.day)
    if not later:
        return Change("You let already, so what readies this house counts on its own day.")
    says = "One of you let already, and that part of what readies this house counts on its own day."
    for owner in later:
        says += f" {owner.full} had let nothing yet, as far as your book tells: {_until(case, owner.begins)}."
    says += " The figures here count all of it on its own day."
    part = sum((owner.part for owner in later), Fraction(0))
    if not any(p.kind is Kind.DOMESTIC for p in outcome.parts):
        return Change(says, confidence=USUAL, authority=REACHES_BACK, flips=(ANOTHER_BEGAN,))
    says += " Whether the relief for replaced items reaches back for what was spent before a letting is open."
    cautious = outcome.cautious or tidy(piece for p in outcome.parts for piece in in_part(p, part))
    return Change(says, cautious=cautious, confidence=ARGUABLE, authority=REACHES_BACK, flips=(ANOTHER_BEGAN,))


A_YEAR = 365  # days without a let after which readying a house is asked about: ours, no source
REACHES_BACK = "PIM2505; ITTOIA 2005 s.57; BIM46351"
ANOTHER_BEGAN = "that owner let something earlier, or somebody else paid that part"


def _until(case: Case, begins: date | None) -> str:
    """When the part of an owner counts whose own letting begins later."""
    if begins is None:
        return "that part waits for the first letting"
    returned = case.history.lets.by_return(begins)
    if returned:
        return f"that part counts on the first day of letting, which by a return that it tells of lay in {returned}"
    return f"that part counts on {day_words(begins)}, the first day of letting"


def in_part(part: Part, of: Fraction) -> tuple[Part, ...]:
    """A replaced item, with no relief for so large a part of it."""
    if part.kind is not Kind.DOMESTIC:
        return (part,)
    lost, kept = share(part.amount, [of, 1 - of])
    return nothing(Part(lost, part.kind)), Part(kept, part.kind, part.category, part.cgt)


@cache
def gap_years(day: date) -> int:
    """How many years may lie between two lets before the letting is taken to have stopped."""
    topic = "property.void_gap_years"
    return law.figure(topic, max(day, law.began(topic))).whole


@adjustment(
    "F",
    "void",
    "PIM2510; ITTOIA 2005 s.57",
    USUAL,
    "read",
    unlet=True,
    of=ALLOWED,
    flips=("it was no longer meant for letting", "you lived there, or put it up for sale"),
    keep=(
        "adverts and letters to agents",
        "the programme of works",
    ),
)
def void(case: Case, outcome: Outcome) -> Change | None:
    """Between lets: the letting goes on, unless the owner moved in meanwhile or the gap grew long."""
    if not case.let_before or case.because("before sale"):
        return None
    lets = case.history.lets
    if lets.let_on(case.house, case.day) or case.place and case.place.sold and not lets.let_after(case.house, case.day):
        return None
    gap = lets.gap(case.house, case.day)
    if gap is None:
        return None
    to_be_sold = lets.to_be_sold(case.house, case.day) if keeps_the_house(case, outcome) else ""
    if to_be_sold and not of_the_ended_let(case):
        cautious = turned(outcome.cautious or outcome.parts, nothing)
        return Change(
            f"{to_be_sold} that the house was to be sold, and it was not let again. Still meant for letting when it "
            "was done, it comes off; done to sell, most say it comes off neither the rents nor the gain.",
            cautious=cautious,
            confidence=ARGUABLE,
            ask=treat_as(outcome.parts, cautious),
        )
    if of_the_ended_let(case):
        return Change("It is left from the let that ended, so it comes off whatever comes after.")
    stopped = None if gap.running else _stopped(case, outcome, gap)
    if stopped and stopped.when is None:
        return stopped
    if gap.own_again or still_meant_for_letting(case, gap.own_last):
        return stopped or Change("Empty between lets and still meant for letting, so the letting goes on.")
    if tells_its_purpose(outcome):
        return stopped
    cautious = turned(outcome.cautious or outcome.parts, private)
    elsewhere = gap.running or gap.again is not None
    others = " That you let another house does not tell what this was for." if elsewhere else ""
    return Change(
        f"Empty since its last let ended on {day_words(gap.own_last)}, and your book tells of "
        f"{_no_offer(case, gap.own_last)}.{others} Still meant for letting, it comes off; meant for yourself or for a "
        "sale, it does not.",
        cautious=cautious,
        when=stopped.when if stopped else None,
        confidence=ARGUABLE,
        ask=("marketed to let from …", "periodic from …", *treat_as(outcome.parts, cautious)),
    )


def _no_offer(case: Case, ended: date) -> str:
    """What would tell that a house is to be let again and is not told; with an offer that may be for a sale."""
    spells = case.place.spells if case.place else ()
    offered = [s.since for s in spells if s.state == "marketed" and (s.until is None or s.until > ended)]
    if not offered:
        return "no later let of it, no advert and no programme of works"
    day = day_words(min(offered))
    return f"no later let of it and no programme of works, nor whether it was marketed from {day} to let or for sale"


def _stopped(case: Case, outcome: Outcome, gap: Gap) -> Change | None:
    """The letting may have stopped: nothing else is let, and they lived there since, or the gap grew long."""
    years = gap_years(gap.last)
    long = (gap.again or case.day) > years_on(gap.last, years)
    if gap.lived or (long and gap.elsewhere):
        why = (
            "you lived there since" if gap.lived else f"nothing was let for over {years} years, and then another house"
        )
        return _begins_afresh(outcome, gap.again, case.day, why)
    if long and gap.again is None:
        return Change(
            f"Nothing has been let for over {years} years, so the letting may have stopped; then this waits for the "
            "next one.",
            cautious=turned(outcome.cautious or outcome.parts, waiting),
            confidence=ARGUABLE,
            ask=("periodic from …",),
        )
    return None


FOR_LETTING = frozenset({"marketed to let", "works", "needs works"})


def still_meant_for_letting(case: Case, ended: date) -> bool:
    """Whether anything told since a let ended says that the house is to be let again: an offer, works, adverts."""
    place, book = case.place, case.history.book
    spells = place.spells if place else ()
    planned = any(plan.house == case.house and plan.target and plan.target[0] > ended for plan in book.schedules)
    offered = any(s.state in FOR_LETTING and (s.until is None or s.until > ended) for s in spells)
    return planned or offered or case.history.advertised(case.house, ended)


def _begins_afresh(outcome: Outcome, again: date | None, day: date, why: str) -> Change:
    """The letting stopped, so a cost waits for the next one."""
    said = f"The letting had stopped: {why}."
    if again is None:
        waits = "This waits for the next first day of letting."
        return Change(f"{said} {waits}", turned(outcome.parts, waiting), turned(outcome.cautious, waiting))
    years = years_allowed(again)
    if day < years_before(again, years):
        says = f"{said} It was spent more than {years} years before the next one, too early to count."
        return Change(says, turned(outcome.parts, nothing), turned(outcome.cautious, nothing))
    return Change(f"{said} It counts on the first day of the next one, {day_words(again)}.", when=again)
