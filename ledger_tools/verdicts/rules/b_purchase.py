"""Stage B: does the work finish the purchase? Asked of the building and what is fixed to it, never of loose items."""

from __future__ import annotations

from ..answer import Answer, Remark, Said, tidy
from ..case import Case, either
from ..offers import rule_as
from ..registry import rule
from ..told import EVENTS
from ..verdict import ALLOWED, Cgt, Confidence, Kind, Part

CLEAR, USUAL, ARGUABLE = Confidence.CLEAR, Confidence.USUAL, Confidence.ARGUABLE
PUTS_RIGHT = "repaired, replaced, treated, rebuilt, removed, moved, bought, decorated"
EVIDENCE = ("the survey and photographs from the purchase", "an agent's word on whether it could be let as it stood")
STATE = ("as bought lettable", "as bought not lettable")


def fault_bought(case: Case) -> bool:
    """Whether the fault may have been there when the house was got: nothing since explains it.

    Before the first letting of a house bought in a poor state no tenant can have done it, and that the work was
    chosen explains nothing; of fire, storm and water `damage_since` asks.
    """
    if case.verb == "decorated" or case.facts.was_there == "none before":
        return False
    wanted = case.because("chosen", "for more rent")
    if wanted and (case.verb == "moved" or case.facts.compared in ("better", "does more")):
        return False
    if poor(case) and not case.let_before:
        return True
    if not EVENTS.isdisjoint(case.facts.causes) or case.facts.was_there == "used by tenant":
        return False
    if case.because("chosen", "for more rent"):
        return False
    if not case.let_before:
        return True
    return not case.because("broken") and (case.verb != "repaired" or case.because("required"))


def poor(case: Case) -> bool:
    """Whether the house was got in a state, or at a price, that speaks of work to do."""
    return case.as_bought in ("not lettable", "lettable for a while") or case.price == "reduced"


def was_lived_in(case: Case) -> bool:
    """Whether the owner lived there before this day."""
    return case.history.was_home(case.house, case.day)


@rule(
    "B",
    "missing-at-purchase",
    "BIM46935",
    CLEAR,
    "read",
    verbs="replaced, installed, added, repaired, bought",
    step="B",
    flips=("it was there on the day you bought, and failed later",),
    keep=("photographs from the day you got the keys",),
)
def missing_at_purchase(case: Case) -> Said:
    """Something a home needs was not there when the house was bought."""
    if case.facts.was_there != "missing when bought":
        return None
    sure = CLEAR if case.as_bought == "not lettable" else USUAL  # clear where the house could not be let without it
    said = f"Missing when you bought ({case.what}), so putting it in finished the purchase."
    return Answer(case.purchase, said, sure)


@rule(
    "B",
    "ordinary-cycle",
    "BIM46935; BIM35450",
    CLEAR,
    "read",
    verbs="decorated",
    flips=("it made good after building work (then add `making good after …`)",),
    keep=(
        "photographs",
        "a note of when it was last decorated",
    ),
)
def ordinary_cycle(case: Case) -> Said:
    """Decorating comes round every few years, whoever owned the house."""
    return Answer(case.repair, "Decorating comes round every few years, so it is a repair even straight after buying.")


@rule(
    "B",
    "damage-since",
    "BIM35450; BIM46935",
    ARGUABLE,
    "read",
    verbs=PUTS_RIGHT,
    flips=("you can show on which day it was damaged",),
    keep=("the insurer's letter or a dated photograph of the damage",),
)
def damage_since(case: Case) -> Said:
    """Fire, storm or water damage in a house bought in a poor state and not let yet: it may be older."""
    if case.let_before or not poor(case) or case.verb == "decorated" or was_lived_in(case):
        return None
    if not case.because("fire damage", "storm damage", "water damage"):
        return None
    return either(
        case.repair,
        case.purchase,
        "Did it happen after you bought? Damage that was there when you bought is part of the price; "
        "this house was bought in a poor state and has not been let yet.",
        rule_as("repair", "purchase cost"),
    )


@rule(
    "B",
    "own-wear-share",
    "Law Shipping v IRC (1923) 12 TC 621",
    USUAL,
    "head",
    verbs=PUTS_RIGHT,
    flips=(
        "it was not let between the purchase and the work",
        "the share was measured in another way",
    ),
    keep=(
        "photographs and a survey from the purchase",
        "a surveyor's view of the share",
    ),
)
def own_wear_share(case: Case) -> Said:
    """A share of purchase-finishing work was worn by the landlord's own letting."""
    worn = sum(x.amount for x in case.facts.of_which if x.what.startswith("worn since"))
    if not worn or (case.let_before and not EVENTS.isdisjoint(case.facts.causes)):
        return None
    if case.as_bought == "lettable" and case.price != "reduced":
        return None
    if not case.let_before:
        return Remark("You tell what was worn since you bought, but the house had not been let before this work.")
    worn = min(worn, case.amount)
    return Answer(
        tidy((Part(worn, Kind.REPAIR, "repairs"), Part(case.amount - worn, Kind.ACQUISITION, cgt=Cgt.ACQUISITION))),
        "What your own letting wore out is a repair; what was worn when you bought is part of the price.",
    )


@rule(
    "B",
    "not-usable-as-bought",
    "BIM35450; BIM46935; Jackson v Laskers (1956) 37 TC 69",
    USUAL,
    "read",
    verbs=PUTS_RIGHT,
    flips=(
        "an agent would have let it as it stood",
        "the fault came after you bought",
        "this job was not needed for letting",
    ),
    keep=EVIDENCE,
)
def not_usable_as_bought(case: Case) -> Said:
    """The house could not be let without the work."""
    if case.as_bought != "not lettable" or not fault_bought(case):
        return None
    if case.let_before:
        return Remark("It could not be let as bought, but it had been let before this work was done.")
    return Answer(case.purchase, "The house could not be let as bought, so putting it right is part of what it cost.")


@rule(
    "B",
    "usable-for-a-while-only",
    "BIM46935; Law Shipping v IRC (1923) 12 TC 621",
    USUAL,
    "read",
    verbs=PUTS_RIGHT,
    flips=("it was let in the ordinary way for years before the work",),
    keep=("papers that show what you knew when you bought, and by when it had to be done",),
)
def usable_for_a_while_only(case: Case) -> Said:
    """It could be let at first, but not for long without the work."""
    if case.as_bought != "lettable for a while" or not fault_bought(case):
        return None
    if case.let_before and not case.because("required"):
        return either(
            case.repair,
            case.purchase,
            "It could be let for a while as bought and was let; the longer that letting, the more this is a repair.",
            (", of which worn since bought £…",),
        )
    return Answer(case.purchase, "You bought knowing that letting would have to stop without this work.")


@rule(
    "B",
    "price-cut-for-disrepair",
    "BIM46935; BIM35450; BIM35475",
    USUAL,
    "read",
    verbs=PUTS_RIGHT,
    flips=("tidy houses nearby fetched the same", "the price only allowed for age"),
    keep=(
        "the prices of like houses nearby",
        "offers and letters about the price",
    ),
)
def price_cut_for_disrepair(case: Case) -> Said:
    """The price was lower because it needed the work."""
    if case.price != "reduced" or case.as_bought == "lettable" or not fault_bought(case):
        return None
    if case.let_before:
        return either(
            case.repair,
            case.purchase,
            "The price was cut for its state, yet it was let before this work.",
            (", of which worn since bought £…", *rule_as("repair", "purchase cost")),
        )
    return Answer(case.purchase, "You paid less because it needed this, so the work is the rest of the price.")


@rule(
    "B",
    "facts-disagree",
    "BIM35450; BIM46935",
    ARGUABLE,
    "read",
    verbs=PUTS_RIGHT,
    flips=("a strong paper on its state or its price turns up",),
    keep=EVIDENCE,
)
def facts_disagree(case: Case) -> Said:
    """Lettable as it stood, yet bought for less."""
    if case.price != "reduced" or case.as_bought != "lettable" or not fault_bought(case):
        return None
    return either(
        case.repair,
        case.purchase,
        "It could be let as bought, which speaks for a repair; the price was cut "
        "for its state, which speaks for a part of the price.",
        ("price normal",),
    )


@rule(
    "B",
    "no-price-paid",
    "by analogy with BIM46935",
    ARGUABLE,
    "memory",
    verbs=PUTS_RIGHT,
    flips=(
        "it was let or lived in shortly before",
        "its value was cut for its state",
    ),
    keep=(
        "the valuation and its wording",
        "photographs from the day it came to you",
    ),
)
def no_price_paid(case: Case) -> Said:
    """Inherited, given, or the owner's own home before: nobody cut a price for it."""
    free, home = case.got_how in ("inherited", "given"), was_lived_in(case)
    if not (free or home) or case.let_before or not fault_bought(case):
        return None
    if case.as_bought == "lettable" or home:
        why = "You lived there, so it was usable" if home else "It was lettable when it came to you"
        return Remark(f"{why}; the work does not finish a purchase.", USUAL)
    return either(
        case.repair,
        case.purchase,
        "It came to you without a price, and your book does not say whether it could be let as it stood.",
        STATE,
    )


@rule(
    "B",
    "usable-and-fairly-priced",
    "BIM35450; BIM46935; Odeon v Jones (1971) 48 TC 257",
    CLEAR,
    "read",
    verbs=PUTS_RIGHT,
    flips=(
        "a survey says otherwise",
        "the lender held money back until works were done",
    ),
    keep=EVIDENCE,
)
def usable_and_fairly_priced(case: Case) -> Said:
    """Lettable as bought and no price cut, or let as it stood: the work is judged by what it did."""
    if case.let_before:
        return Remark("It had been let as it stood before this work.") if not case.as_bought else None
    if case.as_bought == "lettable" and (case.price == "normal" or case.got_how in ("inherited", "given")):
        return Remark("It could be let as bought and the price was not cut.")
    return None


@rule(
    "B",
    "state-not-told",
    "BIM35450; BIM46935",
    ARGUABLE,
    "read",
    verbs=PUTS_RIGHT,
    flips=("you say in what state you bought it",),
    keep=EVIDENCE,
)
def state_not_told(case: Case) -> Said:
    """Not let yet, and the book does not say in what state it was got."""
    if case.let_before or not fault_bought(case) or was_lived_in(case) or case.as_bought:
        return None
    work = case.judged(case.but(skip="B"))
    if not any(part.kind in ALLOWED for part in work.parts):
        return Remark("Your book does not say in what state the house was bought; here that makes no difference.")
    return either(
        case.repair,
        case.purchase,
        "Not let yet, and your book does not say whether it could be let as bought "
        "at a full price; if not, this is part of what the house cost.",
        STATE,
    )


@rule(
    "B",
    "price-not-told",
    "BIM35450; BIM46935",
    ARGUABLE,
    "read",
    verbs=PUTS_RIGHT,
    flips=("you say whether the price was cut",),
    keep=EVIDENCE,
)
def price_not_told(case: Case) -> Said:
    """Not let yet, lettable as bought, and the book does not say whether the price was cut for its state."""
    if case.let_before or not fault_bought(case) or was_lived_in(case) or case.as_bought != "lettable":
        return None
    if case.price or case.got_how in ("inherited", "given"):
        return None
    work = case.judged(case.but(skip="B"))
    if not any(part.kind in ALLOWED for part in work.parts):
        return Remark("Your book does not say whether the price was cut; here that makes no difference.")
    return either(
        case.repair,
        case.purchase,
        "Not let yet, and your book does not say whether the price was cut for its state; "
        "if it was, this may be part of what the house cost.",
        ("price normal", "price reduced"),
    )
