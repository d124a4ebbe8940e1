"""Stage G: money that comes in, and domestic items that leave."""

from __future__ import annotations

from ..answer import Answer, Change, Outcome, Said, tidy
from ..case import Case, either
from ..following import in_proportion, outcomes, targets
from ..registry import adjustment, rule
from ..verdict import ALLOWED, CAPITAL, Confidence, Kind, Part

CLEAR, USUAL, ARGUABLE = Confidence.CLEAR, Confidence.USUAL, Confidence.ARGUABLE
RECEIVED = "received, banked"
SALES = "sold, scrapped"


def costs(case: Case) -> list[Outcome]:
    """The answers of the lines this money is about: `for roof`, `goes with roof`."""
    words = [case.line.purpose] if case.line.purpose else []
    words += [t.name for link in case.facts.links for t in link.things]
    return outcomes(case, dict.fromkeys(p for name in words for p in targets(case, name)))


def netted(amount: int, found: list[Outcome]) -> tuple[Part, ...]:
    """The sum off these costs, in their classes and on the gains side of what is capital."""
    parts = in_proportion(amount, [outcome.parts for outcome in found])
    return tidy(Part(p.amount, Kind.IGNORED if p.kind is Kind.PRIVATE else Kind.NETS, p.category, p.cgt) for p in parts)


@rule(
    "G",
    "deposit-kept",
    "PIM1052",
    CLEAR,
    "read",
    verbs="kept",
    flips=("it was given back after all",),
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
    flips=("it was paid towards an improvement",),
    keep=("the tenant's bill",),
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
    flips=("what the refund was for",),
    keep=("the credit note",),
)
def refund(case: Case) -> Said:
    """Money back for a cost."""
    if case.thing.name != "refund":
        return None
    parts = netted(case.amount, costs(case))
    if parts:
        return Answer(parts, f"Money back for the {case.line.purpose} comes off what it cost.")
    thing = case.history.known(case.line.purpose, "paid")
    if thing.category and thing.kind != "income":
        return Answer(
            case.all(Kind.NETS, thing.category), f"Money back for the {case.line.purpose} comes off that cost."
        )
    return either(
        case.all(Kind.NETS, "other"),
        case.all(Kind.INCOME, "other_income"),
        "Your book does not say what the refund was for.",
        (" for …",),
    )


@rule(
    "G",
    "insurance-for-lost-rent",
    "PIM2110; BIM40751",
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
    keep=("the settlement letter by heading",),
)
def insurance_for_damage(case: Case) -> Said:
    """Insurance or damages for harm to the house: off the repair it met, up to what the repair came to."""
    if case.thing.name not in ("insurance", "compensation"):
        return None
    found = costs(case)
    if not found:
        return either(
            case.all(Kind.INCOME, "other_income"),
            case.all(Kind.CAPITAL_RECEIPT),
            "Your book does not say which damage the money was for.",
            (" for …",),
        )
    off = tuple(p for o in found for p in o.parts if p.kind in ALLOWED)
    capital = any(p.kind in CAPITAL for o in found for p in o.parts)
    cost = sum(p.amount for p in off)
    met = min(cost, case.amount)
    parts = [Part(p.amount, Kind.NETS, p.category) for p in in_proportion(met, [off])] if met else []
    parts.append(Part(case.amount - met, Kind.CAPITAL_RECEIPT))
    said = "Insurance comes off the repair it paid for"
    said += "; what goes beyond the repair is a capital sum." if met < case.amount else "."
    return Answer(tidy(parts), said, USUAL if capital or case.thing.name == "compensation" else None)


@rule(
    "G",
    "grant",
    "BIM40451; TCGA 1992 s.50",
    USUAL,
    "read",
    verbs=RECEIVED,
    flips=("the grant names other work", "the giver is not a public body"),
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
    split = in_proportion(case.amount, [o.parts for o in found])
    return Answer(
        tidy(
            Part(p.amount, Kind.NETS, "", p.cgt) if p.kind in CAPITAL else Part(p.amount, Kind.INCOME, "other_income")
            for p in split
        ),
        "A grant towards repairs is income; one towards capital works is not, and comes off what they count for later.",
    )


@rule("G", "rent", "ITTOIA 2005 s.264, s.266", CLEAR, "read", verbs=RECEIVED)
def rent(case: Case) -> Said:
    """Rent and other income of the letting."""
    if case.thing.kind == "income" and case.thing.category:
        return Answer(case.all(Kind.INCOME, case.thing.category), f"Income of the letting ({case.what}).")
    if case.thing.name == "sale price":
        return Answer(case.all(Kind.CAPITAL_RECEIPT), "The price of the house counts for the gain, not for the rents.")
    tenancies, who = case.history.book.tenancies, case.line.who
    if not case.line.things and who is not None and who.name in tenancies:
        return Answer(
            case.all(Kind.INCOME, "rent"), "Money from a tenant with nothing else said is taken as rent.", USUAL
        )
    return None


# ── things that leave ────────────────────────────────────────────────────────────────────────────────────────────


def relieved(case: Case) -> list[Outcome]:
    """The answers of earlier lines about this thing that had the relief for replaced items."""
    mine = case.history.orders[case.position]
    earlier = [
        line.position
        for line in case.history.told(case.house, case.key)
        if line.order < mine and line.verb == "replaced" and line.position is not None
    ]
    return [o for o in outcomes(case, earlier[-1:]) if any(p.kind is Kind.DOMESTIC for p in o.parts)]


def swapped_for(case: Case) -> list[Outcome]:
    """The answers of what came in its place: named by a link, or replaced on the same day."""
    found = costs(case)
    if found:
        return found
    same_day = [
        line.position
        for line in case.history.told(case.house, case.key)
        if line.day == case.day and line.verb == "replaced" and line.position not in (None, case.position)
    ]
    return outcomes(case, [p for p in same_day if p is not None])


@rule(
    "G",
    "old-item-sold-with-replacement",
    "ITTOIA 2005 s.311A(12)-(13)",
    CLEAR,
    "read",
    verbs=SALES,
    flips=("it was not this one that was replaced",),
    keep=("the advert and the receipt",),
)
def old_item_sold_with_replacement(case: Case) -> Said:
    """An item sold when another took its place."""
    found = [o for o in swapped_for(case) if any(p.kind is Kind.DOMESTIC for p in o.parts)]
    if not case.domestic or not found:
        return None
    return Answer(case.all(Kind.NETS, "domestic"), "What the old one brought comes off the relief for the new one.")


@rule(
    "G",
    "relieved-item-leaves-later",
    "ITTOIA 2005 s.307E-307F; TCGA 1992 s.37",
    CLEAR,
    "read",
    verbs=SALES + ", took home",
    flips=("its cost never had relief",),
    keep=("which items had relief, when, and for how much",),
)
def relieved_item_leaves_later(case: Case) -> Said:
    """An item whose cost had the relief is sold or taken home."""
    had = relieved(case) if case.domestic else []
    if not had:
        return None
    if case.history.basis(case.house, case.day) == "accruals":
        return either(
            case.all(Kind.CAPITAL_RECEIPT),
            case.all(Kind.INCOME, "other_income"),
            "Its cost had relief; on accruals the price is income only if you used the cash basis before.",
        )
    costs = had[-1].parts
    total = sum(p.amount for p in costs)
    given = sum(p.amount for p in costs if p.kind is Kind.DOMESTIC)
    income = case.amount * given // total if total else case.amount
    return Answer(
        tidy((Part(income, Kind.INCOME, "other_income"), Part(case.amount - income, Kind.CAPITAL_RECEIPT))),
        "Its cost came off the rents, so what it brings is income, as far as the cost had relief.",
    )


@rule(
    "G",
    "old-item-sold-no-replacement",
    "TCGA 1992 s.44-45, s.262; CG76573",
    CLEAR,
    "read",
    verbs=SALES + ", took home",
    flips=("its cost had relief",),
    keep=("what was claimed for it and when",),
)
def old_item_sold_no_replacement(case: Case) -> Said:
    """A loose thing whose cost never had relief is sold."""
    left = case.facts.was_there == "left by seller" or (case.house, case.key) in case.history.left
    if not case.domestic and not left:
        return None
    return Answer(
        case.all(Kind.CAPITAL_RECEIPT),
        "It never came off the rents, so its price is no rent: a capital sum, and "
        "small things like this are normally free of tax.",
        CLEAR if case.domestic else USUAL,
    )


@rule(
    "G",
    "scrap-of-a-replaced-part",
    "older letting manual text",
    USUAL,
    "quotation",
    verbs=SALES + ", received",
    flips=("the replaced part was capital",),
    keep=("the scrap dealer's note",),
)
def scrap_of_a_replaced_part(case: Case) -> Said:
    """Old parts of the house sold for scrap come off the work that replaced them."""
    if case.verb == "received" and case.thing.name != "scrap":
        return None
    parts = netted(case.amount, swapped_for(case))
    if not parts:
        return None
    return Answer(parts, "What the old parts brought comes off the work that replaced them.")


@rule(
    "G",
    "bit-of-the-property-sold",
    "TCGA 1992 s.42, s.242",
    ARGUABLE,
    "read",
    verbs=SALES,
    flips=("it was loose when sold", "it was replaced: add goes with …"),
    keep=("the value of what was kept",),
)
def bit_of_the_property_sold(case: Case) -> Said:
    """A part of the house or garden sold by itself."""
    return either(
        case.all(Kind.CAPITAL_RECEIPT),
        case.all(Kind.NETS, "repairs"),
        "A part of the house sold by itself is a capital sum; scrap of something replaced comes off that work.",
        (", goes with …", ", left by seller"),
    )


@rule("G", "money-not-told", "common practice", ARGUABLE, "practice", verbs=RECEIVED + ", took home")
def money_not_told(case: Case) -> Said:
    """Money in, without a word the book or the catalogue knows."""
    return either(
        case.all(Kind.CAPITAL_RECEIPT),
        case.all(Kind.INCOME, "other_income"),
        "Your book does not say what this money was for.",
        (" for …",),
    )


@adjustment(
    "G",
    "came-back",
    "ITTOIA 2005 s.311A(11)-(13); older letting manual",
    USUAL,
    "quotation",
    step="H",
    flips=("what was called a part exchange was a discount",),
    keep=("the receipt for the old one",),
)
def came_back(case: Case, outcome: Outcome) -> Change | None:
    """The old one was sold or given in part exchange: what it brought comes off the cost."""
    facts = case.facts
    back = (facts.part_exchange or 0) + (facts.old_one.amount if facts.old_one else 0)
    if not back:
        return None
    sure = CLEAR if any(part.kind is Kind.DOMESTIC for part in outcome.parts) else None
    return Change(
        "What the old one brought comes off the cost of the new.",
        less(outcome.parts, back),
        less(outcome.cautious, back),
        confidence=sure,
    )


def less(parts: tuple[Part, ...], back: int) -> tuple[Part, ...]:
    """So many pence of the cost were met by the old one: off what is allowed first, never below nil."""
    order = sorted(range(len(parts)), key=lambda i: parts[i].kind in (Kind.NO_RELIEF, Kind.PRIVATE))
    left, met = list(parts), 0
    for i in order:
        taken = min(left[i].amount, back - met)
        left[i] = Part(left[i].amount - taken, left[i].kind, left[i].category, left[i].cgt)
        met += taken
    return tidy((*left, Part(met, Kind.IGNORED))) if parts else parts
