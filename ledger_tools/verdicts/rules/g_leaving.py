"""Stage G: things of the house that leave it for money, and what the old one brought when it was replaced."""

from __future__ import annotations

from ... import law
from ...days import TaxYear
from ...money import pounds, share
from ..answer import Answer, Change, Outcome, Said, tidy
from ..case import Case, either
from ..following import OPEN, back_for, costs, open_ones, open_places, outcomes
from ..history import Line
from ..offers import jobs_near, rule_as
from ..registry import adjustment, rule
from ..told import TENANT
from ..verdict import Confidence, Kind, Part

CLEAR, USUAL, ARGUABLE = Confidence.CLEAR, Confidence.USUAL, Confidence.ARGUABLE
SALES = "sold, scrapped"
ONE_SWAP = 60  # days between a replacement and the sale of the old one: ours, no source


def relieved(case: Case) -> list[Outcome]:
    """The answers of the lines that bought this thing, in whichever house, where they had, or may have had, relief."""
    bought = [lot.bought for lot in case.old_ones]
    if any(bought):
        positions = dict.fromkeys(line.position for line in bought if line and line.position is not None)
        return [o for o in outcomes(case, positions) if relief(o.parts)]
    went = min((lot.went.first for lot in case.old_ones if lot.went), default=case.day)
    earlier = [
        line
        for line in case.history.told(case.house, case.key)
        if line.day < went and line.verb == "replaced" and line.position is not None
    ]
    last = max((line.day for line in earlier), default=None)
    found = outcomes(case, (line.position for line in earlier if line.day == last and line.position is not None))
    return [o for o in found if any(p.kind is Kind.DOMESTIC for p in o.parts)]


def swapped_for(case: Case) -> list[Outcome]:
    """The answers of what came in its place: named by a link, or such a thing replaced about the same time."""
    found = costs(case)
    if found:
        return found
    near = [
        (abs((line.day - case.day).days), line.day > case.day, line.position)
        for line in case.history.told(case.house, case.key)
        if line.verb == "replaced"
        and line.position is not None
        and line.position != case.position
        and any(case.history.key(thing.name, line.verb) == case.key for thing in line.entry.things)
    ]
    best = min((line[:2] for line in near), default=(ONE_SWAP + 1, False))
    if best[0] > ONE_SWAP:
        return []
    return [o for line in near if line[:2] == best and (o := case.settled_of(line[2])) is not None]


@rule(
    "G",
    "old-item-sold-with-replacement",
    "ITTOIA 2005 s.311A(12)-(13)",
    CLEAR,
    "read",
    verbs=SALES,
    flips=("it was another one that was replaced",),
    keep=("the advert and the receipt",),
)
def old_item_sold_with_replacement(case: Case) -> Said:
    """An item sold when another took its place."""
    found = [o for o in swapped_for(case) if relief(o.parts)] if case.domestic else []
    if not found:
        return None
    likelier = off_relief(case, sum(relief(o.parts) for o in found))
    cautious = off_relief(case, sum(relief(o.cautious or o.parts) for o in found))
    says = "All that the old one brought comes off the relief for the new one, whatever part of its price had relief."
    says += once(case)
    if likelier == cautious:
        return Answer(likelier, says)
    return Answer(likelier, says + OPEN, cautious=cautious, follows=open_ones(found))


def once(case: Case) -> str:
    """A note where the old one's own cost had relief too: the same money must not be taxed twice."""
    had = relieved(case)
    if not had or case.history.lets.basis(case.house, case.day) == "accruals":
        return ""
    counted = "its price is counted here once, and not again as income (s.307E)."
    if all(o.cautious and not relief(o.cautious) for o in had):
        where = open_places(case, had)
        return f" Whether the old one's own cost had relief too is open ({where}); if it had, {counted}"
    return f" The old one's own cost had relief too; {counted}"


def relief(parts: tuple[Part, ...]) -> int:
    """Pence of relief for items replaced in an answer."""
    return sum(part.amount for part in parts if part.kind is Kind.DOMESTIC)


def off_relief(case: Case, given: int) -> tuple[Part, ...]:
    """The price of the old one off the relief given, never below nil; what is over is a capital sum."""
    off = min(given, case.amount)
    return tidy((Part(off, Kind.NETS, "domestic"), Part(case.amount - off, Kind.CAPITAL_RECEIPT)))


@rule(
    "G",
    "kit-sold",
    "ITTOIA 2005 s.307E; CAA 2001 s.55, s.61-62",
    CLEAR,
    "read",
    verbs=SALES + ", took home",
    flips=("its price never came off",),
    keep=("a list of your kit, with what each cost and when",),
)
def kit_sold(case: Case) -> Said:
    """Kit of your own, to run the lets with, is sold or taken home."""
    own = case.nature == "kit"
    if not own and not (case.thing.often_own and case.domestic and case.line.purpose.lower() not in TENANT):
        return None
    lines = [lot.bought for lot in case.old_ones] or [
        line for line in case.history.told(case.house, case.key) if line.day < case.day and line.verb in GOT
    ]
    found = outcomes(case, dict.fromkeys(line.position for line in lines if line and line.position is not None))
    brings, came_off = kit_brings(case, [o.parts for o in found])
    if came_off:
        if not any(o.cautious for o in found):
            return Answer(brings, f"{BROUGHT}, up to what it cost{OVER * (len(brings) > 1)}.")
        # what may have come off counts as if it had: the likelier answer of the sale goes with that of the cost
        cautious, _ = kit_brings(case, [o.cautious or o.parts for o in found])
        return Answer(brings, f"{BROUGHT}, if its price came off.{OPEN}", cautious=cautious, follows=open_ones(found))
    if not own:
        return None
    if found:
        return Answer(brings, "Its price never came off, so what it brings is a capital sum.")
    return either(
        case.all(Kind.CAPITAL_RECEIPT),
        case.all(Kind.INCOME, CHARGE),
        f"{BROUGHT}, where its price came off; your book does not say when it was bought ({case.what}).",
        (", ours before",),
    )


def kit_brings(case: Case, answers: list[tuple[Part, ...]]) -> tuple[tuple[Part, ...], int]:
    """What kit brings: income as far as its price came off the rents by these answers of its cost, and what is over a
    capital sum; and the pence that came off."""
    had = sum(part.amount for parts in answers for part in parts if part.kind is Kind.RUNNING)
    income = min(case.amount, had)
    parts = (Part(income, Kind.INCOME, CHARGE), Part(case.amount - income, Kind.CAPITAL_RECEIPT))
    return tidy(parts), had


BROUGHT = "By payment what kit of yours brings is income; by what is owed it is a balancing charge (from memory)"
OVER = ", and what is over is a capital sum"
GOT = ("bought", "installed", "replaced", "added")
CHARGE = "balancing_charge"


@rule(
    "G",
    "relieved-item-leaves-later",
    "ITTOIA 2005 s.307E-307F; TCGA 1992 s.37",
    CLEAR,
    "read",
    verbs=SALES + ", took home",
    flips=("its price never came off the rents",),
    keep=("a list of the items whose price came off, when, and how much of it",),
)
def relieved_item_leaves_later(case: Case) -> Said:
    """An item whose cost had the relief is sold or taken home."""
    had = relieved(case) if case.domestic else []
    if not had:
        return None
    if case.history.lets.basis(case.house, case.day) == "accruals":
        return either(
            case.all(Kind.CAPITAL_RECEIPT),
            case.all(Kind.INCOME, "other_income"),
            "Its cost had relief; on accruals the price is income only if you used the cash basis before.",
        )
    worth = "what it was worth" if case.verb == "took home" else "what it brings"
    says = f"Its cost came off the rents, so {worth} is income, as far as the cost had relief."
    if "accruals" in case.history.lets.bases(case.house, case.day):
        says += " For an owner on accruals it is income only if the cost had relief on the cash basis: ask about it."
    cautious = as_income(case, [o.parts for o in had])
    likelier = as_income(case, [o.cautious or o.parts for o in had])
    if likelier == cautious:
        return Answer(cautious, says)
    where = open_places(case, had)
    return either(
        likelier, cautious, f"{says} Whether it had any is open ({where}), so this is open with it: settle that first."
    )


def as_income(case: Case, answers: list[tuple[Part, ...]]) -> tuple[Part, ...]:
    """The price as income in the proportion in which the cost had relief, by these answers; the rest a capital sum."""
    total = sum(part.amount for parts in answers for part in parts)
    given = sum(relief(parts) for parts in answers)
    income = share(case.amount, [given, total - given])[0] if total else case.amount
    return tidy((Part(income, Kind.INCOME, "other_income"), Part(case.amount - income, Kind.CAPITAL_RECEIPT)))


@rule(
    "G",
    "old-item-sold-no-replacement",
    "TCGA 1992 s.44-45, s.262; CG76573",
    CLEAR,
    "read",
    verbs=SALES + ", took home",
    flips=("its price came off the rents once", "it was one of a set sold together for a large sum"),
    keep=("a note of what was claimed for it, and when",),
)
def old_item_sold_no_replacement(case: Case) -> Said:
    """A loose thing whose cost never had relief is sold."""
    if case.building or not (case.domestic or left_by_seller(case)):
        return None
    if never_relieved(case):
        return Answer(
            case.all(Kind.CAPITAL_RECEIPT),
            f"Its price never came off the rents, so what it brings is a capital sum and no rent; {free_of_tax(case)}.",
            CLEAR if (case.domestic or case.thing.name == "scrap") and not over_the_limit(case) else USUAL,
        )
    return either(
        case.all(Kind.CAPITAL_RECEIPT),
        case.all(Kind.INCOME, "other_income"),
        f"Your book does not say where it came from ({case.what}). If its price ever came off the rents, what it "
        f"brings is income (then tell the line that bought it: `replaced {case.what} £…`, with `already returned` and "
        f"the year if it is on a return); if it never did, that is a capital sum, and {free_of_tax(case)}.",
        (", ours before", ", left by seller"),
    )


def over_the_limit(case: Case) -> int:
    """The price in pence up to which a thing is sold free of tax, where this one brought more; else nothing."""
    try:
        limit = law.figure("gains.chattel_limit", TaxYear.of(case.day)).pence
    except law.NoFigure:
        return 0
    return limit if case.amount > limit else 0


def free_of_tax(case: Case) -> str:
    """Whether a gain on such a thing is taxed, in words that end a sentence."""
    limit = over_the_limit(case)
    if not limit:
        return "small things like this are normally free of tax"
    return (
        f"it is more than the {pounds(limit)} up to which any such thing is free of tax (TCGA 1992 s.262), so a gain "
        "is free only where the thing cannot be expected to last 50 years more (s.44, s.45)"
    )


def left_by_seller(case: Case) -> bool:
    """Whether the seller of the house left it there."""
    return case.facts.was_there == "left by seller" or (case.house, case.key) in case.history.left


def never_relieved(case: Case) -> bool:
    """Whether the book tells how a thing came, so would tell of a relief for its price; or nothing was let yet."""
    told = case.facts.was_there in ("left by seller", "ours before") or any(lot.whose for lot in case.old_ones)
    return told or not case.let_before or left_by_seller(case)


@rule(
    "G",
    "scrap-of-a-replaced-part",
    "older letting manual text",
    USUAL,
    "quotation",
    verbs=SALES + ", received",
    flips=("the work that replaced it was an improvement",),
    keep=("the scrap dealer's note",),
)
def scrap_of_a_replaced_part(case: Case) -> Said:
    """Old parts of the house sold for scrap come off the work that replaced them."""
    if case.verb == "received" and case.thing.name != "scrap":
        return None
    found = swapped_for(case)
    parts, cautious = back_for(case.amount, found)
    if not parts:
        return None
    says = "What the old parts brought comes off the work that replaced them."
    if cautious:
        return Answer(parts, says + OPEN, None, cautious, follows=open_ones(found))
    return Answer(parts, says)


GROUNDS = frozenset({"garden", "yard"})
OF_LAND = (
    "Land sold off is a part of the property, so its price is a capital sum and a part of what the property cost goes "
    "with it. A small sale of land may, if you claim it, come off that cost instead (TCGA 1992 s.242)."
)
OF_A_FIXTURE = (
    "It came with the house, so what it brings is a capital sum. As a part of the property it takes a part of what "
    "that cost with it; people differ on whether it may count instead as a small thing, free of tax. Nothing hangs on "
    "that in the rents."
)


@rule(
    "G",
    "bit-of-the-property-sold",
    "TCGA 1992 s.42, s.242",
    ARGUABLE,
    "read",
    verbs=SALES + ", took home",
    flips=(
        "it was loose when you sold it",
        "it was replaced (then add `goes with …`)",
    ),
    keep=("a valuation of what you kept",),
)
def bit_of_the_property_sold(case: Case) -> Said:
    """A part of the house or garden sold by itself."""
    ground = case.line.thing.lower().rpartition(" ")[2] in GROUNDS | {"land"}  # a strip of garden
    if case.name in GROUNDS or (ground and (not case.known or case.nature == "garden")):
        return Answer(case.all(Kind.CAPITAL_RECEIPT), OF_LAND, CLEAR)
    if left_by_seller(case):
        return Answer(case.all(Kind.CAPITAL_RECEIPT), OF_A_FIXTURE)
    if case.verb == "took home":
        return None
    return either(
        case.all(Kind.CAPITAL_RECEIPT),
        case.all(Kind.NETS, "repairs"),
        "What a part of the house brings by itself is a capital sum; what the scrap of something replaced brings "
        "comes off that work.",
        (*(f", goes with {thing}" for thing in jobs_near(case, of=case.line.thing, swaps=True)), ", left by seller"),
    )


@adjustment(
    "G",
    "came-back",
    "ITTOIA 2005 s.311A(11)-(13); older letting manual",
    USUAL,
    "read",
    told="old_one, part_exchange",
    step="H",
    flips=("the part exchange was really a discount",),
    keep=("the receipt for the old one",),
)
def came_back(case: Case, outcome: Outcome) -> Change | None:
    """The old one was sold or given in part exchange: what it brought comes off the cost."""
    facts = case.facts
    back = (facts.part_exchange or 0) + (facts.old_one.amount if facts.old_one else 0)
    if not back:
        return None
    sure = CLEAR if any(part.kind is Kind.DOMESTIC for part in outcome.parts) else None
    says = "What the old one brought comes off the cost of the new."
    beyond = back - sum(part.amount for part in outcome.parts)
    if beyond > 0:
        says += f" It brought more than that, so nothing comes off; the {pounds(beyond)} over is a capital sum."
    return Change(
        says + (once(case) if sure else ""),
        less(outcome.parts, back),
        less(outcome.cautious, back),
        confidence=sure,
    )


@adjustment(
    "G",
    "to-another-owner",
    "ITTOIA 2005 s.311A(12)-(13), s.307E-307F; s.106C-106E (not read)",
    ARGUABLE,
    "read",
    told="old_one",
    step="H",
    flips=("its price never came off the rents", "the owners of the other house paid for it"),
    keep=("a note of what the old one was worth on the day", "a list of the items whose price came off"),
)
def to_another_owner(case: Case, outcome: Outcome) -> Change | None:
    """The old one went to a house of somebody else, and so out of this letting."""
    old = case.facts.old_one
    if not case.domestic or old is None or old.fate != "moved":
        return None
    lets = case.history.lets
    home = lets.home_on(old.to, case.day)
    if not home and not lets.leaves_an_owner(case.house, old.to, case.day):
        return None
    whose = "your own home" if home else "which has other owners"
    out = f"The old one went to {old.to}, {whose}, so it left this letting."
    had = sum(relief(o.parts) for o in relieved(case))
    if not had and never_relieved(case):
        return Change(f"{out} Its price never came off the rents, so nothing counts for it.", confidence=USUAL)
    worth = told_worth(case)
    if worth is not None:
        return Change(f"{out} What it was worth is told on a line of its own, and counts there.", confidence=USUAL)
    most = min(had, case.amount) if had else case.amount
    return Change(
        f"{out} Was anything paid for it? Then that comes off what the new one cost. Given away, it brought nothing; "
        "but where its own price had come off the rents, the rules on dealings at no market price may put its worth on "
        "it: then tell that in place of a price. Nothing hangs on it but what the old one was worth; as that is not "
        f"told, {pounds(most)} stands here, the most that it may come to.",
        cautious=less(outcome.cautious or outcome.parts, most),
        ask=("old one sold £…", *rule_as("item replaced")),
    )


def told_worth(case: Case) -> Line | None:
    """The line that tells what the old one was worth when it left the letting without a sale; None where none does."""
    inventory, gone = case.history.inventory, case.old_ones
    lines = (line for line in case.history.told(case.house, case.key) if line.verb == "took home")
    return next((x for x in lines if any(lot in gone for lot in inventory.taken(case.house, x.order))), None)


def less(parts: tuple[Part, ...], back: int) -> tuple[Part, ...]:
    """So many pence of the cost were met by the old one: off what is allowed first, never below nil."""
    order = sorted(range(len(parts)), key=lambda i: parts[i].kind in (Kind.NO_RELIEF, Kind.PRIVATE))
    left, met = list(parts), 0
    for i in order:
        taken = min(left[i].amount, back - met)
        left[i] = Part(left[i].amount - taken, left[i].kind, left[i].category, left[i].cgt)
        met += taken
    return tidy((*left, Part(met, Kind.IGNORED))) if parts else parts
