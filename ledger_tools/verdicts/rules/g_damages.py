"""Stage G: money for harm, from an insurer or from whoever did it."""

from __future__ import annotations

from dataclasses import replace

from ...book.entries import Entry
from ...money import pounds
from ..answer import Answer, Carved, Outcome, Said, tidy
from ..case import Case, either
from ..following import ASIDE, OPEN, costs, in_proportion, off_cost, open_ones, targets
from ..history import History
from ..offers import damage_near
from ..registry import rule
from ..told import EVENTS
from ..verdict import ALLOWED, CAPITAL, Confidence, Kind, Part

CLEAR, USUAL, ARGUABLE = Confidence.CLEAR, Confidence.USUAL, Confidence.ARGUABLE
RECEIVED = "received, banked"


@rule(
    "G",
    "insurance-for-lost-rent",
    "BIM40751; PIM2110",
    CLEAR,
    "read",
    verbs=RECEIVED,
    flips=("the policy paid for damage",),
    keep=("the settlement letter",),
)
def insurance_for_lost_rent(case: Case) -> Said:
    """Insurance in place of rent."""
    about_rent = case.line.purpose and case.history.known(case.line.purpose, "received").name in ("lost rent", "rent")
    if case.thing.name != "lost rent" and not (case.thing.name == "insurance" and about_rent):
        return None
    return Answer(case.all(Kind.INCOME, "other_income"), "Money in place of rent is income like the rent.")


@rule(
    "G",
    "damages-from-a-wrongdoer",
    "BIM40110; BIM40115; BIM40130; TCGA 1992 s.22",
    USUAL,
    "read",
    verbs=RECEIVED,
    flips=("the money was for something else",),
    keep=("the settlement letter, with what each sum is for",),
)
def damages_from_a_wrongdoer(case: Case) -> Said:
    """A neighbour, a builder or a driver pays for harm, no tenant: by the hole it fills."""
    if case.thing.name != "compensation":
        return None
    if case.tenant is None:
        return settlement(case)
    named = tuple(part for part in headings(case.history, case.line, case.amount) if part.amount)
    return Carved(named, HEADINGS) if named else None  # the rest is money of a tenant like any other


@rule(
    "G",
    "insurance-for-damage",
    "ITTOIA 2005 s.106; BIM40755; PIM2110; TCGA 1992 s.22",
    CLEAR,
    "read",
    verbs=RECEIVED,
    flips=("the money was for rebuilding or improving, and you make no claim under TCGA 1992 s.23",),
    keep=("the settlement letter, with what each sum is for",),
)
def insurance_for_damage(case: Case) -> Said:
    """Insurance for harm to the house: off the repair it met, up to what the repair came to."""
    return settlement(case) if case.thing.name == "insurance" else None


HEADINGS = "Such money goes by the hole it fills: lost rent is income, lasting loss of value is a capital sum."


def settlement(case: Case) -> Said:
    """What its headings name first, the rest by the work it met."""
    named = headings(case.history, case.line, case.amount)
    rest = case.amount - sum(part.amount for part in named)
    if not rest:
        return Answer(tidy(named), HEADINGS)
    said = off_the_work(case.but(amount=rest)) or no_cost_told(case.but(amount=rest))
    if not isinstance(said, Answer) or rest == case.amount:
        return said
    cautious = tidy((*named, *said.cautious)) if said.cautious else ()
    return replace(said, parts=tidy((*named, *said.parts)), says=f"{HEADINGS} {said.says}", cautious=cautious)


def headings(history: History, line: Entry, amount: int) -> tuple[Part, ...]:
    """What is named as lost rent or as lasting loss of value: told inside the sum, or all of it by its purpose."""
    about = history.known(line.purpose, "received").name if line.purpose else ""
    found: list[Part] = []
    for name, kind, category in (
        ("lost rent", Kind.INCOME, "other_income"),
        ("lost value", Kind.CAPITAL_RECEIPT, ""),
    ):
        told = sum(x.amount for x in line.facts.of_which if history.known(x.what, "received").name == name)
        left = amount - sum(part.amount for part in found)
        found.append(Part(min(told, left), kind, category))
    left = amount - sum(part.amount for part in found)
    if about in ("lost rent", "rent"):
        found.append(Part(left, Kind.INCOME, "other_income"))
    elif about == "lost value":
        found.append(Part(left, Kind.CAPITAL_RECEIPT))
    return tuple(found)


def off_the_work(case: Case) -> Said:
    """Money for harm set against the work it met; None where the book has no such work."""
    found = costs(case)
    if not found:
        return None
    before = paid_before(case)
    parts = insured(before, case.amount, [o.parts for o in found])
    cautious = insured(before, case.amount, [o.cautious or o.parts for o in found])
    if not any(p.kind is Kind.NETS for p in parts) and all(p.kind is Kind.NO_RELIEF for o in found for p in o.parts):
        says = f"There was no repair that this could come off ({case.line.purpose}), so it is a capital sum."
        return Answer(parts, says, USUAL)
    said = paid_for(found)
    beyond = sum(p.amount for p in parts if p.kind is Kind.CAPITAL_RECEIPT)
    said += "; what goes beyond the cost, all payments together, is a capital sum." if beyond else "."
    capital = any(p.kind in CAPITAL for o in found for p in o.parts)
    besides = other_damage(case) if beyond and parts == cautious else []
    if besides:
        more = costs(case.but(line=replace(case.line, purpose=f"{case.line.purpose} and {' and '.join(besides)}")))
        met = insured(before, case.amount, [o.cautious or o.parts for o in more])
        return either(
            parts,
            met,
            f"{said} Other damage was mended about that time ({', '.join(besides)}): was the money for that too? Then "
            "it comes off that as well.",
            (f" for {case.line.purpose} and {' and '.join(besides)}", f", of which lost value {pounds(beyond)}"),
        )
    if parts == cautious:
        return Answer(parts, said, USUAL if capital or case.thing.name == "compensation" else None)
    return Answer(parts, said + OPEN, cautious=cautious, follows=open_ones(found))


AS_CAPITAL = (
    "What it paid for is capital, so the money is a capital sum for the house (TCGA 1992 s.22). Here it comes off what "
    "that work counts for at a sale, as it does where you claim it under s.23; without that claim it is taxed as if a "
    "part of the house had been sold"
)


def paid_for(found: list[Outcome]) -> str:
    """What money for damage comes off, by what it paid for; without the stop at the end."""
    kinds = {part.kind for outcome in found for part in outcome.parts}
    if not kinds.isdisjoint(CAPITAL - {Kind.NO_RELIEF}):
        return AS_CAPITAL
    if Kind.DOMESTIC in kinds:
        return "Money for damage comes off the relief for what took the place of the damaged thing"
    return "Money for damage comes off the repair it paid for"


def other_damage(case: Case) -> list[str]:
    """What else was harmed and mended before money that went beyond the cost of what it names, with no money of its
    own."""
    history, named = case.history, set(targets(case, case.line.purpose))
    paid = {p for words in history.payouts if words[0] == case.house for m in history.payouts[words]
            for p in history.meant(case.house, m, history.items[m].line.purpose)}  # fmt: skip
    found = []
    for thing in damage_near(case):
        mine = set(targets(case, thing))
        lines = [history.items[p].line for p in mine]
        harmed = any(not EVENTS.isdisjoint(line.facts.causes) and line.day.first <= case.day for line in lines)
        if harmed and mine.isdisjoint(named) and mine.isdisjoint(paid):
            found.append(thing)
    return found


def no_cost_told(case: Case) -> Said:
    """An insurer's money where the book has no cost it could come off."""
    jobs = tuple(f" for {thing}" for thing in damage_near(case, of=case.line.purpose))
    if case.line.purpose and case.history.known(case.line.purpose, "repaired").nature and not jobs:
        return Answer(
            case.all(Kind.CAPITAL_RECEIPT),
            f"Your book has no cost for this damage ({case.line.purpose}), and money for damage that was not "
            "made good at a cost is a capital sum. Once the repair is told, it comes off that.",
            USUAL,
        )
    purpose = case.line.purpose
    says = f"your book has no priced line about {purpose}" if purpose else "your book does not say so"
    return either(
        case.all(Kind.INCOME, "other_income"),
        case.all(Kind.CAPITAL_RECEIPT),
        f"Which work did the money pay for? Up to what the repair cost it comes off that; {says}.",
        jobs or (" for …",),
    )


def paid_before(case: Case) -> int:
    """Pence that earlier payments brought for the same work, what they named as something else left out."""
    history, mine = case.history, set(targets(case, case.line.purpose))
    named = history.named(case.line.purpose)
    others = dict.fromkeys(p for name in named for p in history.payouts.get((case.house, name), ()))
    earlier = (p for p in others if history.turn(p) < history.turn(case.position))
    same = [i for p in earlier if mine & set(history.meant(case.house, p, (i := history.items[p]).line.purpose))]
    return sum(i.amount - sum(part.amount for part in headings(history, i.line, i.amount)) for i in same)


def insured(before: int, amount: int, answers: list[tuple[Part, ...]]) -> tuple[Part, ...]:
    """So much of insurers' money, after so much of it before: off the repairs first, then off what is capital."""
    costs_ = [part for parts in answers for part in parts if part.kind not in ASIDE]
    repairs = tuple(part for part in costs_ if part.kind in (*ALLOWED, Kind.PENDING))
    # A first furnishing is no repair and counts for no gain, so money for its loss is what a sale of it would be.
    rest = tuple(part for part in costs_ if part not in repairs and part.kind is not Kind.NO_RELIEF)
    found: list[Part] = []
    for group in (repairs, rest):
        size = sum(part.amount for part in group)
        met = max(0, min(size - before, amount))
        found += off_cost(in_proportion(met, [group])) if met else ()
        amount, before = amount - met, max(0, before - size)
    return tidy((*found, Part(amount, Kind.CAPITAL_RECEIPT)))
