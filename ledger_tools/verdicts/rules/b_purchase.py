"""Stage B: does the work finish the purchase? Asked of the building and what is fixed to it, never of loose items."""

from __future__ import annotations

from ..answer import Answer, Remark, Said
from ..as_bought import PUTS_RIGHT, fault_bought, open_between, poor, was_lived_in
from ..case import Case
from ..offers import rule_as
from ..registry import rule
from ..verdict import Confidence

CLEAR, USUAL, ARGUABLE = Confidence.CLEAR, Confidence.USUAL, Confidence.ARGUABLE
EVIDENCE = ("the survey and photographs from the purchase", "an agent's word on whether it could be let as it stood")
STATE = ("as bought lettable", "as bought not lettable")


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
    if poor(case) and not home:
        return open_between(
            case,
            case.purchase,
            "It came to you without a price, in a state that needed work. That such work finishes a purchase is said "
            "of buyers; of what is inherited or given it is only argued.",
            rule_as("repair", "purchase cost"),
        )
    if case.as_bought == "lettable" or home:
        why = "You lived there, so it was usable" if home else "It was lettable when it came to you"
        return Remark(f"{why}; the work does not finish a purchase.", USUAL)
    return open_between(
        case,
        case.purchase,
        "It came to you without a price, and your book does not say whether it could be let as it stood.",
        ("as bought lettable", *rule_as("purchase cost")),
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
        return open_between(
            case,
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
        return open_between(
            case,
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
    return open_between(
        case,
        case.purchase,
        "It could be let as bought, which speaks for a repair; the price was cut "
        "for its state, which speaks for a part of the price.",
        ("price normal",),
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
    return open_between(
        case,
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
    return open_between(
        case,
        case.purchase,
        "Not let yet, and your book does not say whether the price was cut for its state; "
        "if it was, this may be part of what the house cost.",
        ("price normal", "price reduced"),
    )
