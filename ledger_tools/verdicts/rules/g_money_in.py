"""Stage G: money that comes in."""

from __future__ import annotations

from datetime import date

from ...money import share
from ..answer import Answer, Outcome, Said, tidy
from ..case import Case, either
from ..following import ASIDE, OPEN, back_for, costs, in_proportion, like, off_cost, targets
from ..offers import jobs_near
from ..registry import rule
from ..verdict import ALLOWED, CAPITAL, Cgt, Confidence, Kind, Part
from .a_money import years

CLEAR, USUAL, ARGUABLE = Confidence.CLEAR, Confidence.USUAL, Confidence.ARGUABLE
RECEIVED = "received, banked"


def settled(case: Case, words: str) -> list[Outcome]:
    """The settled answers of the lines that these words mean."""
    return [found for p in targets(case, words) if (found := case.settled_of(p)) is not None] if words else []


def about(case: Case) -> str:
    """What the money is for: as told, else the words before "refund" in "service charge refund"."""
    first, _, last = case.line.thing.rpartition(" ")
    return case.line.purpose or (first if last in ("refund", "rebate") else "")


@rule(
    "G",
    "deposit-kept",
    "PIM1052",
    CLEAR,
    "read",
    verbs="kept",
    flips=("you gave it back after all",),
    keep=("the scheme's decision",),
)
def deposit_kept(case: Case) -> Said:
    """A part of a deposit became the landlord's."""
    return Answer(
        case.all(Kind.INCOME, "other_income"),
        "What you keep of a deposit is income when you may keep it; the repair comes off by itself.",
    )


@rule(
    "G",
    "tenant-pays",
    "ITTOIA 2005 s.266(2); PIM2076",
    CLEAR,
    "read",
    verbs="recharged",
    flips=("the tenant paid towards an improvement",),
    keep=(
        "the bill you sent the tenant",
        "the tenancy agreement, for who must repair what",
    ),
)
def tenant_pays(case: Case) -> Said:
    """A cost billed to a tenant."""
    return Answer(
        case.all(Kind.INCOME, "other_income"),
        "What a tenant pays towards your costs is income; the cost comes off by itself.",
    )


@rule(
    "G",
    "refund",
    "common practice",
    USUAL,
    "practice",
    verbs=RECEIVED,
    flips=("it was money back for something else",),
    keep=("the credit note",),
)
def refund(case: Case) -> Said:
    """Money back for a cost."""
    if case.thing.name != "refund":
        return None
    words = about(case)
    says = f"Money back comes off what it cost ({words})."
    parts, cautious = back_for(case.amount, costs(case) or settled(case, words))
    if parts:
        return Answer(parts, says + OPEN if cautious else says, None, cautious)
    thing = case.history.known(words, "paid")
    if thing.kind == "private":
        return Answer(case.all(Kind.IGNORED), "Money back for something private is none of the letting's.")
    if thing.kind in ("purchase", "capital"):
        return Answer(case.all(Kind.NETS, cgt=Cgt.ACQUISITION), f"{says} It counts when the house is sold.")
    if thing.category and thing.kind != "income":
        return Answer(case.all(Kind.NETS, thing.category), says)
    return either(
        case.all(Kind.NETS, "other"),
        case.all(Kind.INCOME, "other_income"),
        "Your book does not say what the refund was for.",
        (" for …",),
    )


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
    """Insurance or damages in place of rent."""
    about_rent = case.line.purpose and case.history.known(case.line.purpose, "received").name in ("lost rent", "rent")
    if case.thing.name != "lost rent" and not (case.thing.name in ("insurance", "compensation") and about_rent):
        return None
    return Answer(case.all(Kind.INCOME, "other_income"), "Money in place of rent is income like the rent.")


@rule(
    "G",
    "insurance-for-damage",
    "ITTOIA 2005 s.106; BIM40755; PIM2110; TCGA 1992 s.22",
    CLEAR,
    "read",
    verbs=RECEIVED,
    flips=("the money was for rebuilding or improving",),
    keep=("the settlement letter, with what each sum is for",),
)
def insurance_for_damage(case: Case) -> Said:
    """Insurance or damages for harm to the house: off the repair it met, up to what the repair came to."""
    if case.thing.name not in ("insurance", "compensation"):
        return None
    found = costs(case)
    if not found:
        return no_cost_told(case)
    before = paid_before(case)
    parts = insured(before, case.amount, [o.parts for o in found])
    cautious = insured(before, case.amount, [o.cautious or o.parts for o in found])
    said = "Insurance comes off the repair it paid for"
    over = any(p.kind is Kind.CAPITAL_RECEIPT for p in parts)
    said += "; what goes beyond the cost, all payments together, is a capital sum." if over else "."
    capital = any(p.kind in CAPITAL for o in found for p in o.parts)
    if parts == cautious:
        return Answer(parts, said, USUAL if capital or case.thing.name == "compensation" else None)
    return Answer(parts, said + OPEN, cautious=cautious)


def no_cost_told(case: Case) -> Said:
    """An insurer's money where the book has no cost it could come off."""
    jobs = tuple(f" for {thing}" for thing in jobs_near(case, damage=True))
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
    """Pence that earlier payments brought for the same work."""
    history, mine = case.history, targets(case, case.line.purpose)
    others = history.payouts.get((case.house, history.key(case.line.purpose)), ())
    earlier = (p for p in others if _turn(case, p) < _turn(case, case.position))
    return sum(history.items[p].amount for p in earlier if history.meant(case.house, p, case.line.purpose) == mine)


def _turn(case: Case, position: int) -> tuple[date, int, int]:
    """When a payment came; of one day the smaller first, whichever stands first in the book."""
    item = case.history.items[position]
    return item.line.day.first, item.amount, position


def insured(before: int, amount: int, answers: list[tuple[Part, ...]]) -> tuple[Part, ...]:
    """So much of insurers' money, after so much of it before: off the repairs first, then off what is capital."""
    costs_ = [part for parts in answers for part in parts if part.kind not in ASIDE]
    repairs = tuple(part for part in costs_ if part.kind in (*ALLOWED, Kind.PENDING))
    rest = tuple(part for part in costs_ if part not in repairs)
    found: list[Part] = []
    for group in (repairs, rest):
        size = sum(part.amount for part in group)
        met = max(0, min(size - before, amount))
        found += off_cost(in_proportion(met, [group])) if met else ()
        amount, before = amount - met, max(0, before - size)
    return tidy((*found, Part(amount, Kind.CAPITAL_RECEIPT)))


@rule(
    "G",
    "grant",
    "BIM40451; TCGA 1992 s.50",
    USUAL,
    "read",
    verbs=RECEIVED,
    flips=(
        "the grant letter names other work",
        "it came from no public body",
    ),
    keep=("the grant letter",),
)
def grant(case: Case) -> Said:
    """A grant goes by what it was for."""
    if case.thing.name != "grant":
        return None
    found = costs(case)
    if not found:
        says = "A grant for no stated work is taken as income."
        return Answer(case.all(Kind.INCOME, "other_income"), says)
    split, doubted = (granted(parts) for parts in like(case.amount, found))
    says = (
        "A grant towards repairs is income; towards an improvement it is not, and makes smaller what counts when you "
        "sell."
    )
    if not doubted or split == doubted:
        return Answer(split, says)
    return Answer(split, says + OPEN, cautious=doubted)


def granted(parts: tuple[Part, ...]) -> tuple[Part, ...]:
    """A grant by the answers of what it was for."""
    return tidy(
        Part(p.amount, Kind.NETS, "", p.cgt) if p.kind in CAPITAL else Part(p.amount, Kind.INCOME, "other_income")
        for p in parts
    )


LONGEST = 50  # years: a premium for a lease of more is capital (ITTOIA 2005 s.276(1))


@rule(
    "G",
    "lease-premium",
    "ITTOIA 2005 s.276-277; PIM1205",
    CLEAR,
    "read",
    verbs=RECEIVED,
    flips=("the lease is for longer, or shorter, than your book tells",),
    keep=("the lease",),
)
def lease_premium(case: Case) -> Said:
    """A sum for granting a lease: part of it is rent, the less the longer the lease."""
    if case.thing.name != "lease premium":
        return None
    let = case.history.book.tenancies.get(case.line.who.name) if case.line.who else None
    term = case.line.period or (let.term if let else None)
    if term is None:
        return either(
            case.all(Kind.CAPITAL_RECEIPT),
            case.all(Kind.INCOME, "premium"),
            "Of a premium only a part is income, the less the longer the lease, and your book does not say how long "
            "it is for. Write the term on the line.",
            (" for … to …",),
        )
    whole = years(term)
    if whole > LONGEST:
        says = f"A premium for a lease of over {LONGEST} years is a capital sum."
        return Answer(case.all(Kind.CAPITAL_RECEIPT), says)
    later = max(0, whole - 1)  # complete years other than the first
    income, capital = share(case.amount, [LONGEST - later, later])
    return Answer(
        tidy((Part(income, Kind.INCOME, "premium"), Part(capital, Kind.CAPITAL_RECEIPT))),
        f"Of a premium {LONGEST - later} parts in {LONGEST} are income where the lease is for {whole} years; "
        "the rest is a capital sum.",
    )


@rule(
    "G",
    "rent",
    "ITTOIA 2005 s.264, s.266",
    CLEAR,
    "read",
    verbs=RECEIVED,
    flips=("it was money back for a cost, or a deposit",),
    keep=(
        "the tenancy agreement",
        "bank statements",
    ),
)
def rent(case: Case) -> Said:
    """Rent and other income of the letting."""
    if case.thing.kind == "income" and case.thing.category:
        return Answer(case.all(Kind.INCOME, case.thing.category), f"Income of the letting ({case.what}).")
    if case.thing.name == "sale price":
        return Answer(case.all(Kind.CAPITAL_RECEIPT), "The price of the house counts for the gain, not for the rents.")
    tenancies, who = case.history.book.tenancies, case.line.who
    if case.line.things or who is None or who.name not in tenancies:
        return None
    if not case.line.purpose:
        return Answer(
            case.all(Kind.INCOME, "rent"), "Money from a tenant with nothing else said is taken as rent.", USUAL
        )
    purpose = case.history.known(case.line.purpose, "received")
    return Answer(
        case.all(Kind.INCOME, purpose.category if purpose.kind == "income" else "other_income"),
        f"What a tenant pays is income of the letting ({case.line.purpose}); what it cost comes off by itself.",
        USUAL,
    )


@rule(
    "G",
    "money-not-told",
    "common practice",
    ARGUABLE,
    "practice",
    verbs=RECEIVED + ", took home",
    flips=("you say what the money was",),
    keep=("the letter or statement that came with it",),
)
def money_not_told(case: Case) -> Said:
    """Money in, without a word the book or the catalogue knows."""
    return either(
        case.all(Kind.CAPITAL_RECEIPT),
        case.all(Kind.INCOME, "other_income"),
        "Your book does not say what this money was: rent, money back for a cost, or the price of something.",
        ("received rent", *(f"received refund for {thing}" for thing in jobs_near(case, most=1)))
        if case.line.kind == "money"
        else (),
    )
