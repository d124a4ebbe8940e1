"""Pieces that can be told apart within one sum, each with its own answer."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ...book.entries import Thing as Named
from ...money import pounds, share
from ...problems import Place
from ..answer import Carved, Outcome, Said
from ..case import Case
from ..catalogue import Thing
from ..offers import rule_as
from ..registry import rule
from ..verdict import Cgt, Confidence, Kind, Part
from .c_ask_first import ENERGY

CLEAR = Confidence.CLEAR
FIRST = ("installed", "added")


@rule(
    "C",
    "more-than-before",
    "BIM46915; Inland Revenue Tax Bulletin 59 (2002)",
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
    told="of_which",
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
