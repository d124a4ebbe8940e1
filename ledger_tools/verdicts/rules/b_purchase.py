"""Stage B: does the work finish the purchase? Asked of the building and what is fixed to it, never of loose items."""

from __future__ import annotations

from ..answer import Remark, Said
from ..as_bought import (
    FREE,
    MEASURE,
    NO_PRICE_FLIPS,
    NO_PRICE_KEEP,
    PUTS_RIGHT,
    comes_off,
    cut_for_another,
    days_let,
    fairly_bought,
    fault_bought,
    finishes,
    kept_from_letting,
    let_for,
    let_for_years,
    let_when_got,
    named,
    open_between,
    poor,
    price_cut_for,
    was_lived_in,
    who_names,
    worn_or_broken,
)
from ..case import Case
from ..declared import parts_of
from ..offers import rule_as
from ..registry import rule
from ..verdict import Confidence

CLEAR, USUAL, ARGUABLE = Confidence.CLEAR, Confidence.USUAL, Confidence.ARGUABLE
EVIDENCE = ("the survey and photographs from the purchase", "an agent's word on whether it could be let as it stood")
STATE = ("as bought lettable", "as bought not lettable")
MEASURED = (MEASURE, *rule_as("repair", "purchase cost"))


def for_another_fault(case: Case, lead: str, faults: tuple[str, ...]) -> Said:
    """Both answers where the book names something else."""
    since = f" It had been let for {let_for(case)} before this work." if days_let(case) else ""
    return open_between(
        case,
        case.purchase,
        f"{lead}, by your book, another fault ({', '.join(faults)}); does it hold for this too ({case.what})?{since}",
        worn_or_broken(case) if since else rule_as("repair", "purchase cost"),
    )


@rule(
    "B",
    "no-price-paid",
    "by analogy with BIM46935",
    ARGUABLE,
    "read",
    verbs=PUTS_RIGHT,
    flips=NO_PRICE_FLIPS,
    keep=NO_PRICE_KEEP,
)
def no_price_paid(case: Case) -> Said:
    """Inherited, given, or the owner's own home before: nobody cut a price for it."""
    if was_lived_in(case):
        return None if days_let(case) else Remark("You lived there, so it was usable.", USUAL)
    if case.got_how not in FREE or not fault_bought(case):
        return None
    since = f" It had been let for {let_for(case)} before this work." if days_let(case) else ""
    if poor(case):
        return open_between(
            case,
            case.purchase,
            "It came to you without a price, in a state that needed work. That such work finishes a purchase is said "
            f"of buyers; of what is inherited or given it is only argued.{since}",
            worn_or_broken(case)[1:],
        )
    if case.as_bought == "lettable" or let_when_got(case):
        return None  # what is left is its value: see `price-not-told`
    return open_between(
        case,
        case.purchase,
        f"It came to you without a price, and your book does not say whether it could be let as it stood.{since}",
        ("as bought lettable", *rule_as("purchase cost")),
    )


@rule(
    "B",
    "fault-named-when-bought",
    "BIM46935; BIM35450; Law Shipping v IRC (1923) 12 TC 621",
    USUAL,
    "read",
    verbs=PUTS_RIGHT,
    flips=(
        "it was let in the ordinary way for years before the work",
        "the papers meant another fault",
        "your own letting wore part of it out (then add `, of which worn since bought £…`)",
    ),
    keep=("a paper from the purchase that names it", "anything that shows how it got worse since"),
)
def fault_named_when_bought(case: Case) -> Said:
    """This very fault is named of the house as bought, so it was known and bought with it."""
    if case.got_how in FREE or not named(case) or not fault_bought(case):
        return None
    own = any(case.key in parts_of({fault}) for fault in named(case))
    what = "this fault" if own else "what this goes with"
    says = who_names(case, what)
    if not days_let(case):
        return finishes(case, f"{says}, so putting it right is part of what the house cost.")
    says += f". It had been let for {let_for(case)} before this work"
    if let_for_years(case):
        return open_between(case, case.purchase, f"{says}; years of ordinary letting speak for a repair.", MEASURED)
    return finishes(
        case,
        f"{says}, but that it could be used for a time does not make an old fault a new one. What your own letting "
        "wore out of it is a repair: tell that part at the end of the line with `, of which worn since bought £…`.",
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
    if case.as_bought != "not lettable" or case.got_how in FREE or not fault_bought(case):
        return None
    if days_let(case) and not kept_from_letting(case):
        return open_between(
            case,
            case.purchase,
            f"It could not be let as bought, yet it had been let for {let_for(case)} before this work. As far as it "
            "was worn when you bought, this is part of what the house cost; as far as it wore out since, a repair.",
            worn_or_broken(case),
        )
    if kept_from_letting(case):  # where the price was cut as well, a rule below asks of that
        lead = "What kept it from being let was"
        return None if case.price == "reduced" else for_another_fault(case, lead, kept_from_letting(case))
    return finishes(case, "The house could not be let as bought, so putting it right is part of what it cost.")


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
    if case.as_bought != "lettable for a while" or case.got_how in FREE or not fault_bought(case):
        return None
    if days_let(case) and not kept_from_letting(case):
        return open_between(
            case,
            case.purchase,
            f"It could be let for a while as bought, and had been let for {let_for(case)} before this work. Was it "
            "this that letting would have had to stop for? The longer that letting, the more this is a repair.",
            worn_or_broken(case),
        )
    if kept_from_letting(case):  # where the price was cut as well, a rule below asks of that
        lead = "What letting would have had to stop for was"
        return None if case.price == "reduced" else for_another_fault(case, lead, kept_from_letting(case))
    cut = ""
    if case.price == "reduced":
        cut_for = price_cut_for(case)
        cut = f"; the price was cut for {', '.join(cut_for)}" if cut_for else ", nor what the price was cut for"
    return open_between(
        case,
        case.purchase,
        "It could be let for a while as bought, and your book does not say what letting would have had to stop for"
        f"{cut}. If you knew when you bought that it would have to stop without this work ({case.what}), that is part "
        "of what the house cost; if not, it is judged by what it did.",
        (f"as bought lettable for a while owing to {case.key}", *rule_as("repair", "purchase cost")),
    )


@rule(
    "B",
    "price-cut-for-disrepair",
    "BIM46935; BIM35450; BIM35475",
    ARGUABLE,
    "read",
    verbs=PUTS_RIGHT,
    flips=("tidy houses nearby fetched the same", "the price only allowed for age"),
    keep=(
        "the prices of like houses nearby",
        "offers and letters about the price",
    ),
)
def price_cut_for_disrepair(case: Case) -> Said:
    """The price was lower, and the papers do not name this work: it may have been cut for it."""
    if case.price != "reduced" or case.as_bought == "lettable" or case.got_how in FREE or not fault_bought(case):
        return None
    if days_let(case):
        return open_between(
            case,
            case.purchase,
            f"The price was cut for its state, yet it had been let for {let_for(case)} before this work."
            f"{_what_for(case)}",
            worn_or_broken(case),
        )
    if price_cut_for(case):
        return for_another_fault(case, "What the price was cut for was", price_cut_for(case))
    if kept_from_letting(case):
        lead = f"Your book does not say what the price was cut for; what {held_up(case)} was"
        return for_another_fault(case, lead, kept_from_letting(case))
    if not comes_off(case):  # capital whichever it is, and a cut price speaks for what was lacking
        return finishes(case, "You paid less because it needed this, so the work is the rest of the price.")
    return open_between(
        case,
        case.purchase,
        f"The price was cut, and your book does not say for what. If it was because the house needed this "
        f"({case.what}) to be usable, the work is the rest of the price; if not, it is judged by what it did.",
        (f"price reduced owing to {case.key}", *rule_as("repair", "purchase cost")),
    )


def _what_for(case: Case) -> str:
    """What the book names as wrong with the house when it was got, where that is not this."""
    cut_for, held = price_cut_for(case), kept_from_letting(case)
    if cut_for:
        return f" What it was cut for was, by your book, another fault ({', '.join(cut_for)})."
    if not held:
        return ""
    return (
        f" Your book does not say what it was cut for; what {held_up(case)} was another fault ({', '.join(held)}). If "
        f"it was cut for that alone, put `price reduced owing only to {' and '.join(held)}` under the house."
    )


def held_up(case: Case) -> str:
    """What a fault named of the state did, to stand behind "what"."""
    return "kept it from being let" if case.as_bought == "not lettable" else "letting would have had to stop for"


@rule(
    "B",
    "facts-disagree",
    "BIM35450; BIM46935",
    ARGUABLE,
    "read",
    verbs=PUTS_RIGHT,
    flips=("a strong paper on its state or its price turns up", "tidy houses nearby fetched the same"),
    keep=EVIDENCE,
)
def facts_disagree(case: Case) -> Said:
    """Lettable as it stood, yet bought for less."""
    if case.price != "reduced" or case.as_bought != "lettable" or case.got_how in FREE or not fault_bought(case):
        return None
    if cut_for_another(case):
        return None
    if price_cut_for(case):
        lead = "It could be let as bought; what the price was cut for was"
        return for_another_fault(case, lead, price_cut_for(case))
    since = ""
    if days_let(case):
        since = f" It had been let for {let_for(case)} before this work; the longer, the more that speaks for a repair."
    return open_between(
        case,
        case.purchase,
        "It could be let as bought, which speaks for a repair; the price was cut for its state, which speaks for a "
        "part of the price. A cut that only allowed for age, or that tidy houses nearby had too, is none; then it is "
        f"`price normal`.{since}",
        (*(worn_or_broken(case) if since else rule_as("repair", "purchase cost")), "price normal"),
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
    """Lettable as bought, or let since, and no price cut for it: the work is judged by what it did."""
    if cut_for_another(case) and case.got_how not in FREE and fault_bought(case):
        cut = ", ".join(price_cut_for(case))
        says = f"It could be let as bought, and you tell what the price was cut for: another fault ({cut})."
        return Remark(says, USUAL)
    if not fairly_bought(case):
        return None
    if case.as_bought == "lettable":
        return Remark("It could be let as bought and the price was not cut.")
    return Remark("It was let as it stood and the price was not cut.", USUAL)


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
    """Not let yet, or not for long, and the book does not say in what state it was got."""
    if case.as_bought or not fault_bought(case) or poor(case) or case.got_how in FREE or fairly_bought(case):
        return None
    if days_let(case):
        return open_between(
            case,
            case.purchase,
            f"It had been let for {let_for(case)} before this work, and your book does not say in what state and at "
            "what price you bought it; if the price was cut for this, it is part of what the house cost.",
            ("price normal", *rule_as("purchase cost")),
        )
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
    """Lettable when got, not let for long yet, and the book does not say whether the price, or value, was cut."""
    free = case.got_how in FREE
    lettable = case.as_bought == "lettable" or free and not case.as_bought and let_when_got(case)
    if not lettable or case.price or not fault_bought(case):
        return None
    so_far = f"Let for {let_for(case)} before this work" if days_let(case) else "Not let yet"
    if free:
        return open_between(
            case,
            case.purchase,
            f"{so_far}, and your book does not say whether its value was cut for its state, as a valuation for probate "
            "or for a gift would show; if it was cut for this, the work may be part of what the house cost, though "
            "where no price was paid that is only argued.",
            ("price normal", "price reduced"),
        )
    return open_between(
        case,
        case.purchase,
        f"{so_far}, and your book does not say whether the price was cut for its state; "
        "if it was, this may be part of what the house cost.",
        ("price normal", "price reduced"),
    )
