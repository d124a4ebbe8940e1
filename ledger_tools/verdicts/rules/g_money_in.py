"""Stage G: money that comes in."""

from __future__ import annotations

from ...book.rents import is_rent
from ...days import TaxYear
from ...money import share
from ..answer import Answer, Outcome, Said, tidy
from ..case import Case, either
from ..following import ASIDE, OPEN, back_for, costs, in_proportion, like, off_cost, open_ones, targets
from ..history import MONEY_IN
from ..offers import jobs_near
from ..registry import rule
from ..verdict import ALLOWED, CAPITAL, Cgt, Confidence, Kind, Part
from .a_money import years
from .g_damages import paid_before

CLEAR, USUAL, ARGUABLE = Confidence.CLEAR, Confidence.USUAL, Confidence.ARGUABLE
RECEIVED = "received, banked"


def settled(case: Case, words: str) -> list[Outcome]:
    """The settled answers of the lines that these words mean."""
    return [found for p in targets(case, words) if (found := case.settled_of(p)) is not None] if words else []


def about(case: Case) -> str:
    """What the money is for: as told, else the words before "refund" in "service charge refund", else its bill."""
    first, _, last = case.line.thing.rpartition(" ")
    bill = f"invoice {case.line.paper.number}" if case.line.paper is not None else ""
    return case.line.purpose or (first if last in ("refund", "rebate") else "") or bill


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
    if is_rent(case.line):
        return Answer(
            case.all(Kind.INCOME, "other_income"),
            "What you keep of a deposit for rent pays that rent: by payment it is income when you may keep it; by what "
            "is owed the rent counted when it fell due, and what pays it adds nothing.",
        )
    return Answer(
        case.all(Kind.INCOME, "other_income"),
        "What you keep of a deposit is income when you may keep it; what it costs to put things right comes off by "
        "itself.",
    )


@rule(
    "G",
    "beyond-the-deposit",
    "taxationweb.co.uk, property deposits (Jan 2015)",
    USUAL,
    "quotation",
    verbs=RECEIVED + ", recharged",
    flips=(
        "the house is let again",
        "it is sold",
    ),
    keep=("the letter that asked for it", "adverts to let or to sell"),
)
def beyond_the_deposit(case: Case) -> Said:
    """A tenant who has left pays for damage beyond the deposit: income where the house is let again."""
    tenancy, words = case.tenant, paid_towards(case)
    if tenancy is None or not words or not case.history.known(words, "repaired").nature:
        return None
    if case.thing.kind == "income" and case.verb != "recharged" and case.thing.name not in FOR_COSTS:
        return None  # called rent
    house = tenancy.house
    if tenancy.last_day is None or tenancy.last_day >= case.day or case.history.lets.let_after(house, case.day):
        return None
    if case.place is not None and case.place.sold is not None:
        return Answer(case.all(Kind.CAPITAL_RECEIPT), "The house was not let again, so this makes up for its state.")
    return either(
        case.all(Kind.CAPITAL_RECEIPT),
        case.all(Kind.INCOME, "other_income"),
        "Money for damage beyond the deposit is income where the house is let again, a capital sum where it is not; "
        "your book tells of no later let and no sale.",
        ("periodic from …", "kept deposit"),
    )


@rule(
    "G",
    "tenant-pays-for-more",
    "TCGA 1992 s.50; ITTOIA 2005 s.266(2)",
    ARGUABLE,
    "read",
    verbs="recharged, received, banked",
    flips=("what you agreed with the tenant makes it rent", "the work it went towards was a repair"),
    keep=("what you agreed with the tenant, in writing",),
)
def tenant_pays_for_more(case: Case) -> Said:
    """An improvement, or what may be one, that a tenant paid towards."""
    words = paid_towards(case)
    added = towards_capital(case, words) if from_tenant(case) else 0
    if not added:
        return None
    for_house = tidy((Part(case.amount - added, Kind.INCOME, "other_income"), Part(added, Kind.CAPITAL_RECEIPT)))
    rest = " As far as it paid for the repair, it is rent." if added < case.amount else ""
    if case.thing.name == FOR_THE_HOUSE:
        says = f"By your book it was agreed as a sum for the house and no rent ({words}).{rest}"
        return Answer(for_house, says, USUAL)
    let = case.tenant
    return either(
        for_house,
        case.all(Kind.INCOME, "other_income"),
        f"A tenant paid towards something that is capital ({words}): whether that is rent, or a sum for the "
        f"house, no rule says; what you agreed decides.{rest}",
        ("received rent", f"received {FOR_THE_HOUSE}", *(["received lease premium"] if let and let.term else ())),
    )


FOR_THE_HOUSE = "capital contribution"


@rule(
    "G",
    "tenant-pays",
    "ITTOIA 2005 s.266(2); PIM2076",
    CLEAR,
    "read",
    verbs="recharged, received, banked",
    flips=("the tenant paid towards an improvement",),
    keep=(
        "the bill you sent the tenant",
        "the tenancy agreement, for who must repair what",
    ),
)
def tenant_pays(case: Case) -> Said:
    """A cost billed to a tenant, or damage a tenant paid for, by any name."""
    words = paid_towards(case)
    billed = case.verb == "recharged" or case.thing.name in ("recharge", FOR_THE_HOUSE)
    if not billed and not (from_tenant(case) and words):
        return None
    if not case.line.things and case.history.known(words, "received").kind == "income":
        return None  # for rent
    mended = all(part.kind in UPKEEP for outcome in settled(case, words) for part in outcome.parts)
    return Answer(
        case.all(Kind.INCOME, "other_income"),
        "What a tenant pays towards your costs is income; the cost comes off by itself.",
        None if mended else USUAL,
    )


FOR_COSTS = frozenset({"recharge", "compensation"})  # what a tenant's money for what it cost you may be called


def paid_towards(case: Case) -> str:
    """What money of a tenant is towards: as told, or what was billed."""
    return case.line.purpose or (case.line.thing if case.verb == "recharged" else "")


def towards_capital(case: Case, words: str) -> int:
    """Pence of a tenant's money that met what is capital, or may be, by the sizes of what the work came to."""
    if case.history.known(words).name in ALWAYS_MORE:
        return case.amount
    return max(sum(p.amount for p in parts if p.kind in BETTER) for parts in like(case.amount, settled(case, words)))


BETTER = frozenset({Kind.IMPROVEMENT, Kind.ACQUISITION})  # what makes the house, not a loose item in it, worth more
UPKEEP = frozenset({Kind.RUNNING, Kind.REPAIR, Kind.PENDING})
ALWAYS_MORE = frozenset({"extension", "loft conversion", "conservatory"})  # no repair, whatever else the book tells


def from_tenant(case: Case) -> bool:
    """Whether the other party of a line is a tenant of the book, and it is no rent and no payment of an insurer."""
    named = not case.line.things or case.verb == "recharged" or case.thing.name in FOR_COSTS | {FOR_THE_HOUSE}
    return named and case.tenant is not None


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
    found = costs(case) or settled(case, words)
    parts, cautious = back_for(case.amount, found)
    if cautious:
        return Answer(parts, says + OPEN, None, cautious, follows=open_ones(found))
    if parts:
        return Answer(parts, says)
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
    met = min(case.amount, max(0, cost_of(found) - paid_before(case)))
    rest = (Part(case.amount - met, Kind.INCOME, "other_income"),)
    split, doubted = (tidy((*granted(parts), *rest)) if parts else () for parts in like(met, found))
    says = (
        "A grant towards repairs is income; towards an improvement it is not, and makes smaller what counts when you "
        "sell."
    )
    if met < case.amount:
        says += " What it brought beyond the cost met nothing, so that is income."
    doubt = OPEN if doubted and split != doubted else ""
    follows = open_ones(found) if doubt else ()
    cut = doubted or split
    if not from_public_money(case) and any(part.kind is Kind.NETS for part in cut):
        return Answer(
            tidy(Part(p.amount, Kind.IGNORED) if p.kind is Kind.NETS else p for p in split),
            f"{says} Only public money does that, though, and your book does not say that a council or another public "
            f"body gave it.{doubt}",
            cautious=cut,
            ask=giver_told(case),
            follows=follows,
        )
    return Answer(split, says + doubt, cautious=cut if doubt else (), follows=follows)


PUBLIC = frozenset({"council", "government", "authority", "department", "ministry"})  # words of such bodies' names


def from_public_money(case: Case) -> bool:
    """Whether a council or another public body paid, by the blocks of the book or by its name (TCGA 1992 s.50)."""
    who, councils = case.line.who, case.history.book.councils
    if who is None:
        return False
    known = who.name in councils or who.full in {council.full for council in councils.values()}
    return known or not PUBLIC.isdisjoint(who.full.lower().split())


def giver_told(case: Case) -> tuple[str, ...]:
    """The words that make the giver a public body of the book."""
    if case.line.who:
        return (f'council … "{case.line.who.full}"',)
    return tuple(f" from {name}" for name in case.history.book.councils) or (" from …",)


def cost_of(found: list[Outcome]) -> int:
    """Pence that these lines cost, what others paid of them left out."""
    return sum(part.amount for outcome in found for part in outcome.parts if part.kind not in ASIDE)


def granted(parts: tuple[Part, ...]) -> tuple[Part, ...]:
    """A grant by the answers of what it was for."""
    return tidy(
        Part(p.amount, Kind.NETS, "", p.cgt) if p.kind in CAPITAL else Part(p.amount, Kind.INCOME, "other_income")
        for p in parts
    )


HEAT = frozenset({"gas", "electricity", "communal heating"})


@rule(
    "G",
    "heat-payment",
    "PIM2076",
    USUAL,
    "read",
    verbs=RECEIVED,
    flips=("the heat was for your own home",),
    keep=("the scheme's statement", "bills for the fuel"),
)
def heat_payment(case: Case) -> Said:
    """Payments for heat or power made for the tenant: off what it cost to supply, the rest is income."""
    if case.thing.name != "heat payment":
        return None
    year, history, mine = TaxYear.of(case.day), case.history, case.history.turn(case.position)
    fuel: list[Outcome] = []
    before = 0
    for position, item in enumerate(history.items):
        line = item.line
        if TaxYear.of(line.day.first) != year or case.house not in {share.house for share in line.homes}:
            continue
        name = history.known(line.thing, line.verb).name if line.things else ""
        if name == "heat payment" and line.verb in MONEY_IN and history.turn(position) < mine:
            before += item.amount
        elif name in HEAT and line.verb not in MONEY_IN and (found := case.settled_of(position)):
            fuel.append(found)
    cost = sum(p.amount for o in fuel for p in o.parts if p.kind in ALLOWED)
    met = max(0, min(cost - before, case.amount))
    off = off_cost(in_proportion(met, [o.parts for o in fuel])) if met else ()
    return Answer(
        tidy((*off, Part(case.amount - met, Kind.INCOME, "other_income"))),
        "It comes off what the heat or power of the tax year cost you; what goes beyond that is income.",
    )


PART_GONE = (
    " for a part of the house that is gone for that time: a part disposal with a gain of its own, which `base-cost` "
    "names and does not work out (TCGA 1992 s. 42; Sch. 8 para. 2, from memory)"
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
    let = case.tenant
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
        says = f"A premium for a lease of over {LONGEST} years is a capital sum{PART_GONE}."
        return Answer(case.all(Kind.CAPITAL_RECEIPT), says)
    later = max(0, whole - 1)  # complete years other than the first
    income, capital = share(case.amount, [LONGEST - later, later])
    return Answer(
        tidy((Part(income, Kind.INCOME, "premium"), Part(capital, Kind.CAPITAL_RECEIPT))),
        f"Of a premium {LONGEST - later} parts in {LONGEST} are income where the lease is for {whole} years; "
        f"the rest is a capital sum{PART_GONE}.",
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
        lodger = case.thing.category == "rent_a_room_rents"
        apart = not lodger or case.history.lets.rents_a_room(case.house, case.day)
        category = case.thing.category if apart else "rent"
        return Answer(case.all(Kind.INCOME, category), f"Income of the letting ({case.what}).")
    if case.thing.name == "sale price":
        return Answer(case.all(Kind.CAPITAL_RECEIPT), "The price of the house counts for the gain, not for the rents.")
    if case.line.things or case.tenant is None:
        return None
    if not case.line.purpose:
        return Answer(
            case.all(Kind.INCOME, "rent"), "Money from a tenant with nothing else said is taken as rent.", USUAL
        )
    purpose = case.history.known(case.line.purpose, "received")
    category = purpose.category if purpose.kind == "income" else "other_income"
    return Answer(case.all(Kind.INCOME, category), f"Income of the letting ({case.line.purpose}).", USUAL)


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
        ("received rent", *towards(case), *(f"received refund for {thing}" for thing in jobs_near(case, most=1)))
        if case.line.kind == "money"
        else (),
    )


def towards(case: Case) -> tuple[str, ...]:
    """What money that names a thing may be, in words: a tenant's towards it, or the price of it."""
    named = case.line.purpose or case.line.thing
    if not case.history.known(named, "repaired").nature:
        return ()
    return f"received recharge for {named}", f"sold {named}"
