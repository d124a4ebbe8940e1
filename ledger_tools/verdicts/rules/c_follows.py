"""Before the stages: lines that go the way of another line, and pieces that can be told apart within one sum."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ...book.entries import Thing as Named
from ...money import pounds, share
from ...problems import Place
from ..answer import Answer, Carved, Outcome, Said
from ..case import Case, either
from ..catalogue import Thing
from ..following import like, other_jobs, outcomes, targets
from ..offers import goes_with as offers_near
from ..offers import rule_as
from ..registry import rule
from ..verdict import Cgt, Confidence, Kind, Part
from .c_building import ENERGY

CLEAR, USUAL, ARGUABLE = Confidence.CLEAR, Confidence.USUAL, Confidence.ARGUABLE
FIRST = ("installed", "added")


# ── lines that go with another ───────────────────────────────────────────────────────────────────────────────────


def linked(case: Case, word: str) -> tuple[str, list[int]] | None:
    """What a link names and the items found for it; None where the line has no such link."""
    things = [thing.name for link in case.facts.links if link.word == word for thing in link.things]
    if not things:
        return None
    found = [p for name in things for p in targets(case, name)]
    return " and ".join(things), list(dict.fromkeys(found))


def goes_like(case: Case, positions: list[int], says: str, confidence: Confidence | None = None) -> Said:
    """The answer of these items for this sum; None where none of them has one."""
    parts, cautious = like(case.amount, outcomes(case, positions))
    if not parts:
        return None
    return Answer(parts, says, Confidence.ARGUABLE if cautious else confidence, cautious)


@rule(
    "A",
    "private-share",
    "ITTOIA 2005 s.34(2)",
    CLEAR,
    "read",
    step="follow",
    flips=("the private part was bigger or smaller than you told",),
    keep=("a note of how you worked out the share",),
)
def private_share(case: Case) -> Said:
    """A private part told inside the sum."""
    told = sum(
        x.amount for x in case.facts.of_which if x.what == "private" or case.history.known(x.what).kind == "private"
    )
    if not told:
        return None
    return Carved((Part(min(told, case.amount), Kind.PRIVATE),), "The private part that you tell does not come off.")


@rule(
    "C",
    "making-good-after",
    "BIM46915; BIM46935; BIM46911",
    CLEAR,
    "read",
    step="follow",
    flips=("it was done in a room that the other job did not touch",),
    keep=("a bill that names the rooms",),
)
def making_good_after(case: Case) -> Said:
    """Plastering, decorating or flooring that another job made necessary."""
    named = linked(case, "making good after")
    if named is None:
        return None
    words, positions = named
    return goes_like(case, positions, f"Making good is judged like the job it makes good: {words}.") or either(
        case.repair,
        case.improvement,
        f"It makes good after {words}, but your book has no priced line about {words}; "
        "after a repair it is a repair, after an alteration it is capital.",
    )


@rule(
    "E",
    "incidentals",
    "ITTOIA 2005 s.311A(10)",
    CLEAR,
    "read",
    step="follow",
    flips=("the charge was for mending, or for something else",),
    keep=("a bill that shows it on a line of its own",),
)
def incidentals(case: Case) -> Said:
    """Delivery, fitting or taking away, told on a line of its own, of a domestic item replaced."""
    named = linked(case, "goes with")
    if named is None or (case.domestic and case.verb in ("replaced", "installed", "bought", "added")):
        return None
    found = outcomes(case, named[1])
    if len(found) != 1 or found[0].cautious or any(f.slug == "one-for-two" for f in found[0].path):
        return None
    if not any(part.kind is Kind.DOMESTIC for part in found[0].parts):
        return None
    return Answer(
        case.replacement, f"What it cost to get the new in and the old out ({named[0]}) is added to the price."
    )


@rule(
    "C",
    "goes-with",
    "BIM35467 (Samuel Jones v IRC (1951) 32 TC 513)",
    USUAL,
    "read",
    step="follow",
    flips=("it was a job of its own, not needed for the other",),
    keep=("a bill that names both jobs",),
)
def goes_with(case: Case) -> Said:
    """Part of the same swap as another line, with no comparison of its own."""
    named = linked(case, "goes with")
    if named is None or case.verb in ("sold", "scrapped", "took home", "received"):
        return None
    if case.facts.compared and case.verb in ("replaced", "repaired", "rebuilt"):
        return None
    words, positions = named
    return goes_like(case, positions, f"It is part of the same job as {words}, so it is judged with that job.")


@rule(
    "C",
    "making-way-for",
    "BIM35467; BIM46915",
    USUAL,
    "read",
    step="follow",
    flips=("it had to go anyway, because of damage or danger",),
    keep=(
        "photographs of it before",
        "a report on any damage or danger",
    ),
)
def making_way_for(case: Case) -> Said:
    """Cleared or taken out to make room for other work."""
    named = linked(case, "making way for")
    if named is None:
        return None
    words, positions = named
    said = f"It made way for {words}, so it is judged with that work."
    return goes_like(case, positions, said) or Answer(
        case.improvement, f"It made way for {words}, which your book takes as an addition or alteration.", USUAL
    )


@rule(
    "C",
    "survey-design-overheads",
    "BIM46415; BIM46405",
    USUAL,
    "read",
    step="follow",
    flips=("it paid for something else, such as a valuation",),
    keep=("a bill that names the job",),
)
def survey_design_overheads(case: Case) -> Said:
    """Scaffold, skip, labour, drawings: they follow the work they serve."""
    if case.thing.again != "job" or case.verb not in (
        "hired",
        "paid",
        "bought",
        "charged",
        "invoiced",
        "billed",
        "installed",
    ):
        return None
    jobs = other_jobs(case)
    if not jobs and case.before_owning:
        return None
    said = (
        goes_like(case, jobs, "It served the other work on this bill, so it is judged with that work, in proportion.")
        if jobs
        else None
    )
    named = linked(case, "goes with")
    offers = offers_near(case)
    if case.line.kind != "works":  # a money line has a purpose where works have a link
        offers = tuple(offer.replace(", goes with", " for") for offer in offers)
        if case.line.purpose:
            named = case.line.purpose, targets(case, case.line.purpose)
            said = said or goes_like(case, named[1], f"It served the {named[0]}, so it is judged with that work.")
    why = f"your book has no priced line about {named[0]}" if named else "your book does not say which"
    return said or either(
        case.repair,
        case.improvement,
        f"It follows the work it served ({case.what}), and {why}.",
        (*offers, *rule_as("repair", "improvement")),
    )


# ── pieces that can be told apart ────────────────────────────────────────────────────────────────────────────────


@rule(
    "C",
    "mixed-but-separable",
    "BIM46915; Conn v Robins (1966) 43 TC 266; BIM35480",
    CLEAR,
    "read",
    step="split",
    flips=("the two parts cannot honestly be told apart",),
    keep=(
        "an itemised bill",
        "a second quote for the repair alone",
        "a count of what there was before",
    ),
)
def mixed_but_separable(case: Case) -> Said:
    """An improvement part told inside the price of a repair."""
    told = case.facts.improvement
    if told is None or case.domestic:
        return None
    own = case.line.total or case.amount
    part = min(told.amount, own)
    part = share(case.amount, [part, own - part])[0]
    return Carved(
        (Part(part, Kind.IMPROVEMENT, cgt=Cgt.ENHANCEMENT),),
        "The part you call an improvement counts when the house is sold; the rest is judged by itself.",
    )


@rule(
    "C",
    "more-than-before",
    "BIM46915; Tax Bulletin 59 (2002)",
    CLEAR,
    "read",
    verbs="replaced",
    step="split",
    flips=("each new one stands where an old one stood",),
    keep=("the count before and after", "photographs"),
)
def more_than_before(case: Case) -> Said:
    """More of the same than there were: the ones too many are additions."""
    before, after = counts(case)
    if case.domestic or before is None or after is None or after <= before:
        return None
    more = share(case.amount, [before, after - before])[1]
    return Carved(
        (Part(more, Kind.IMPROVEMENT, cgt=Cgt.ENHANCEMENT),),
        f"There were {before}, now there are {after}: the extra ones are an addition, in proportion.",
    )


@rule(
    "E",
    "priced-inside",
    "ITTOIA 2005 s.311A; BIM46915",
    CLEAR,
    "read",
    verbs="replaced, installed, added, repaired, rebuilt, decorated, treated",
    step="split",
    flips=("the price inside was only a guess",),
    keep=("an itemised bill",),
)
def priced_inside(case: Case) -> Said:
    """Something inside the work with its own price and, by its nature, its own answer."""
    parts: tuple[Part, ...] = ()
    cautious: tuple[Part, ...] = ()
    ask: tuple[str, ...] = ()
    left = case.amount
    names = []
    for inside in case.facts.of_which:
        thing = case.history.known(inside.what, case.verb)
        if not told_apart(case, thing):
            continue
        size = min(inside.amount, left)
        left -= size
        found = energy_inside(case, thing, size)
        found = found or case.judged(inner(case, inside.what, inside.place, thing, size))
        parts, cautious, ask = parts + found.parts, cautious + (found.cautious or found.parts), ask + found.ask
        names.append(inside.what)
    if not names:
        return None
    open_ = cautious != parts
    says = f"The {' and the '.join(names)} inside it has its own price and its own answer."
    return Carved(parts, says, cautious=cautious if open_ else (), ask=ask if open_ else ())


def told_apart(case: Case, thing: Thing) -> bool:
    """Whether a thing inside the work has its own answer: loose in building work, or doubtful or capital by nature."""
    if not thing.nature or thing.nature in ("service", "consumable"):
        return False
    if (thing.nature == "domestic") != case.domestic:
        return True
    doubtful = thing.name in ENERGY or thing.again in ("arguable", "cap")
    return doubtful and not case.domestic and thing.name != case.name and case.facts.improvement is None


def energy_inside(case: Case, thing: Thing, amount: int) -> Outcome | None:
    """Both answers for insulation and the like done within a repair; None for anything else."""
    if thing.name not in ENERGY or case.domestic or case.verb in FIRST:
        return None
    new = (Part(amount, Kind.IMPROVEMENT, cgt=Cgt.ENHANCEMENT),)
    if case.facts.was_there == "none before":
        return Outcome(new, case.day)
    ask = (f", improvement {pounds(amount)}", *rule_as("repair"))
    return Outcome((Part(amount, Kind.REPAIR, "repairs"),), case.day, new, ask=ask)


def inner(case: Case, words: str, place: Place, thing: Thing, amount: int) -> Case:
    """The case of a thing priced inside this line: the same facts, but for what belongs to the whole line."""
    facts = replace(case.facts, of_which=(), plus=(), improvement=None, same_again=None, fixing="", links=())
    both_built = thing.nature != "domestic" and not case.domestic and case.verb not in FIRST
    verb = "replaced" if both_built else case.verb
    line = replace(case.line, verb=verb, things=(Named(words, place),), becomes=None, amount=amount, facts=facts)
    return case.but(line=line, thing=thing, became=None, nature=thing.nature, amount=amount)


def counts(case: Case) -> tuple[Fraction | None, Fraction | None]:
    """How many there were and are, where both are told."""
    line = case.line
    if not line.becomes or not line.things:
        return None, None
    after = line.becomes.count
    if after is None and len(line.becomes.things) == 1:
        after = line.becomes.things[0].count or (Fraction(1) if line.things[0].count else None)
    before = line.things[0].count if len(line.things) == 1 else Fraction(len(line.things))
    return before or (Fraction(1) if after and line.becomes.things else None), after
