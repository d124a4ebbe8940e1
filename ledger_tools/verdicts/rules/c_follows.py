"""Before the stages: lines that go the way of another line, and pieces that can be told apart within one sum."""

from __future__ import annotations

from functools import reduce

from ...money import share
from ..answer import Answer, Carved, Said
from ..case import Case, either
from ..following import like, open_ones, open_places, other_jobs, outcomes, targets
from ..offers import could_serve, rule_as
from ..registry import rule
from ..told import BLOCK, MORE, UPKEEP
from ..verdict import Cgt, Confidence, Kind, Part, less_sure

CLEAR, USUAL, ARGUABLE = Confidence.CLEAR, Confidence.USUAL, Confidence.ARGUABLE
FIRST = ("installed", "added")


# ── lines that go with another ───────────────────────────────────────────────────────────────────────────────────


def linked(case: Case, word: str) -> tuple[str, list[int]] | None:
    """What a link names and the items found for it; None where the line has no such link."""
    if not case.facts.links:
        return None
    things = [thing.name for link in case.facts.links if link.word == word for thing in link.things]
    if not things:
        return None
    found = [p for name in things for p in targets(case, name)]
    return " and ".join(things), list(dict.fromkeys(found))


SHAPES = frozenset({"converted", "extended", "altered", "rebuilt", "demolished"})
COMES = frozenset({"installed", "added", "bought"})


def adds_by_itself(case: Case, loose_too: bool = True) -> bool:
    """Whether a line tells of a job with an answer of its own, whatever it goes with: something new, something bigger,
    something better than the old one. loose_too: also a part of the fabric put in without a word on what was there.
    """
    if case.verb in SHAPES or case.facts.compared in MORE or case.facts.was_there == "none before":
        return True
    if case.verb not in COMES or case.thing.again == "job":
        return False
    if case.verb == "bought":
        return case.domestic
    return case.domestic or case.nature == "fixture" or loose_too and case.building


def goes_like(case: Case, positions: list[int], says: str, sure: Confidence) -> Said:
    """The answer of these items for this sum, no surer than theirs, and one that is ruled is told as such; None where
    none of them has one."""
    found = outcomes(case, positions)
    parts, cautious = like(case.amount, found)
    if not parts:
        return None
    if cautious:
        says += f" That is open ({open_places(case, found)}); what settles it settles this too."
    decided = [outcome.position for outcome in found if case.history.ruling(outcome.position)]
    if decided:
        places = ", ".join(dict.fromkeys(case.history.items[p].source for p in decided))
        says += f" You ruled on that yourself ({places})."
    theirs = (USUAL if outcome.position in decided else outcome.confidence for outcome in found)
    less = reduce(less_sure, theirs, sure)
    return Answer(parts, says, less, cautious, follows=open_ones(found) if cautious else ())


def private_told(case: Case) -> int:
    """The pence of the line that it tells to be private."""
    if not case.facts.of_which:
        return 0
    return sum(
        x.amount for x in case.facts.of_which if x.what == "private" or case.history.known(x.what).kind == "private"
    )


@rule(
    "A",
    "private-share",
    "ITTOIA 2005 s.34(2)",
    CLEAR,
    "read",
    told="of_which",
    step="follow",
    flips=("the private part was bigger or smaller than you told",),
    keep=("a note of how you worked out the share",),
)
def private_share(case: Case) -> Said:
    """A private part told inside the sum."""
    told = private_told(case)
    if not told:
        return None
    private = (Part(min(told, case.amount), Kind.PRIVATE),)
    return Carved(private, "The private part that you tell does not come off.", apart=private)


@rule(
    "C",
    "mixed-but-separable",
    "BIM46915; Conn v Robins (1966) 43 TC 266; BIM35480",
    CLEAR,
    "read",
    told="improvement",
    step="follow",
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
    if told is None or case.domestic or case.thing.name in BLOCK:
        return None
    own = max(0, case.line.total - private_told(case)) if case.line.total else case.amount
    part = min(told.amount, own)
    if not own:
        return None
    part = share(case.amount, [part, own - part])[0]
    better = (Part(part, Kind.IMPROVEMENT, cgt=Cgt.ENHANCEMENT),)
    says = "The part you call an improvement counts when the house is sold; the rest is judged by itself."
    return Carved(better, says, apart=better)


@rule(
    "C",
    "making-good-after",
    "BIM46915; BIM46935; BIM46911",
    CLEAR,
    "read",
    told="links",
    step="follow",
    flips=("it was done in a room that the other job did not touch",),
    keep=("a bill that names the rooms",),
)
def making_good_after(case: Case) -> Said:
    """Plastering, decorating or flooring that another job made necessary."""
    named = linked(case, "making good after")
    if named is None or adds_by_itself(case, loose_too=False):
        return None
    words, positions = named
    return goes_like(case, positions, f"Making good is judged like the job it makes good: {words}.", CLEAR) or either(
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
    if named is None and case.thing.again == "job" and case.line.purpose:  # a money line has a purpose for a link
        named = case.line.purpose, targets(case, case.line.purpose)
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
    told="links",
    step="follow",
    flips=("it was a job of its own, not needed for the other",),
    keep=("a bill that names both jobs",),
)
def goes_with(case: Case) -> Said:
    """Part of the same swap as another line, with no comparison of its own."""
    named = linked(case, "goes with")
    if named is None or case.verb in ("sold", "scrapped", "took home", "received"):
        return None
    if case.facts.compared and case.verb in ("replaced", "repaired", "rebuilt") or serves(case):
        return None
    if adds_by_itself(case) or case.verb == "moved" and case.because("for more rent", "chosen"):
        return None
    words, positions = named
    return goes_like(case, positions, f"It is part of the same job as {words}, so it is judged with that job.", USUAL)


@rule(
    "C",
    "making-way-for",
    "BIM35467; BIM46915",
    USUAL,
    "read",
    told="links",
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
    return goes_like(case, positions, said, USUAL) or Answer(
        case.improvement, f"It made way for {words}, which your book takes as an addition or alteration.", USUAL
    )


FEES = {
    **dict.fromkeys(UPKEEP, "upkeep"),
    **dict.fromkeys(("purchase", "buying", "buying another", "sale", "selling"), "buying"),
    **dict.fromkeys(("improving", "improvement", "improvements", "alteration", "alterations"), "improving"),
}


@rule(
    "A",
    "fee-by-purpose",
    "BIM46405; BIM46415; BIM35325",
    USUAL,
    "read",
    verbs="paid, billed, charged, invoiced",
    step="follow",
    flips=("the adviser was asked to do something else",),
    keep=("a bill that names the work",),
)
def fee_by_purpose(case: Case) -> Said:
    """A professional's fee goes by what it was for, whether or not anything came of it."""
    if case.thing.category != "professional" or case.thing.again not in ("job", "cap"):
        return None
    capital = case.thing.again == "cap"  # planning permission: for something new, whatever the words
    if targets(case, case.line.purpose) and not capital:
        return None
    about = FEES.get(case.line.purpose.lower()) or ("improving" if case.facts.given_up or capital else "")
    if about == "upkeep":
        says = "A fee for keeping up what you have is a running cost, whether or not it succeeded."
        return Answer(case.all(Kind.RUNNING, "professional"), says)
    if about == "buying":
        return Answer(case.purchase, f"A fee for buying or selling is capital, like the price.{came_of_it(case)}")
    if about:
        dropped = CLEAR if case.facts.given_up else None  # plans that came to nothing stay capital (ECC Quarries)
        return Answer(case.improvement, f"A fee for improving the house is capital.{came_of_it(case)}", dropped)
    return None


def came_of_it(case: Case) -> str:
    """Where nothing tells that a plan was dropped: that the fee then counts nowhere, and the words for it."""
    if case.facts.given_up:
        return ""
    return " It counts when the house is sold only if something came of it: if not, add `given up`."


SERVING = frozenset({"hired", "paid", "bought", "charged", "invoiced", "billed", "installed"})


def serves(case: Case) -> bool:
    """Whether it is a skip, labour, drawings or the like: no work in itself, but paid for the sake of some."""
    return case.thing.again == "job" and case.verb in SERVING


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
    if not serves(case):
        return None
    jobs, named = other_jobs(case), linked(case, "goes with")
    if not jobs and case.before_owning and named is None:
        return None
    if named and named[1]:
        said = goes_like(case, named[1], f"It served the {named[0]}, so it is judged with that.", USUAL)
    else:
        on_bill = "It served the other work on this bill, so it is judged with that work, in proportion."
        said = goes_like(case, jobs, on_bill, USUAL) if jobs else None
    offers = tuple(f", goes with {thing}" for thing in could_serve(case))
    if case.line.kind != "works":  # a money line has a purpose where works have a link
        offers = tuple(offer.replace(", goes with", " for") for offer in offers)
        if case.thing.category == "professional" and not case.line.purpose:
            offers += (" for upkeep", " for improvement")
        if case.line.purpose:
            named = case.line.purpose, targets(case, case.line.purpose)
            served = f"It served the {named[0]}, so it is judged with that."
            said = said or goes_like(case, named[1], served, USUAL)
    if not said and named and any(case.history.known(name).nature == "domestic" for name in named[0].split(" and ")):
        return carried(case, named[0])
    why = f"your book has no priced line about {named[0]}" if named else "the line names none"
    unfit = case.as_bought == "not lettable" and not case.let_before
    return said or either(
        case.repair,
        case.improvement,
        f"What it was for decides ({case.what}): it follows the work it served, and {why}.",
        (*offers, *rule_as("repair", "improvement", *(("purchase cost",) if unfit else ()))),
        case.purchase if unfit else (),
    )


def carried(case: Case, what: str) -> Said:
    """Carriage, or the like, of a loose item that the book tells no price of."""
    came = case.history.inventory.came_from(case.house, case.history.key(what), case.day)
    says = f"It was for a loose item ({what}), and your book has no priced line about that here"
    first = "to bring in the first of its kind is part of furnishing the house, which has no relief"
    if came and not case.history.lets.leaves_an_owner(came, case.house, case.day):
        says += f": it came from {came}, which is yours too. To move what you have is an ordinary cost of letting; "
        says += f"{first}."
        return either(case.all(Kind.RUNNING, "other"), case.no_relief, says, rule_as("running cost", "no relief"))
    says += f": it came from {came}, which has other owners. " if came else ". "
    says += f"What brings in the new one for an old comes off with it (ITTOIA 2005 s.311A(10)); {first}."
    return either(case.replacement, case.no_relief, says, rule_as("item replaced", "no relief"))
