"""Stage E: items for use in the dwelling. The first one gets nothing, what replaces it has a relief of its own."""

from __future__ import annotations

from ...money import share
from ..answer import Answer, Carved, Remark, Said
from ..case import Case, either
from ..equal_price import amount, capped
from ..offers import rule_as
from ..registry import rule
from ..told import MORE
from ..verdict import Confidence, Kind, Part
from .c_pieces import counts

CLEAR, USUAL, ARGUABLE = Confidence.CLEAR, Confidence.USUAL, Confidence.ARGUABLE
PROVIDES = "installed, added, bought"
SAME = ("like for like", "modern equivalent", "plainer", "slightly better")
ACT = "ITTOIA 2005 s.311A"


@rule(
    "E",
    "first-provided",
    f"{ACT}(3); s.33; s.307B(6); PIM3210",
    CLEAR,
    "read",
    verbs=PROVIDES + ", replaced",
    flips=("there was one in this house before (then write `replaced`)",),
    keep=("a dated inventory",),
)
def first_provided(case: Case) -> Said:
    """No item of that kind was in the dwelling before."""
    if not case.domestic:
        return None
    if case.verb == "replaced" and case.facts.was_there not in ("none before", "missing when bought"):
        return None
    if case.verb == "bought" and case.had_before and case.facts.was_there != "none before":
        return either(
            case.replacement,
            case.no_relief,
            f"Your book tells of one here before ({case.what}); this replaces it, or is a first one beside it.",
            ("replaced", "added"),
        )
    return Answer(
        case.no_relief,
        f"There is no relief for the first of its kind in a house ({case.what}), but there is for what replaces it.",
    )


@rule(
    "E",
    "type-change",
    f"{ACT}(9)(b), (14); published answers differ",
    ARGUABLE,
    "read",
    verbs="replaced",
    flips=(
        "the new one lies loose and can be taken up",
        "the old one was worn out, not unwanted",
    ),
    keep=(
        "a note of why it was changed",
        "a photograph of the old one",
    ),
)
def type_change(case: Case) -> Said:
    """A loose item gave way to part of the building, or the other way round."""
    if not case.became or case.domestic == (case.became.nature == "domestic") or not case.domestic:
        return None
    if case.became.nature in ("fixture", "plant") and not (case.became.doubtful or case.became.furnishing):
        return Answer(
            case.improvement,
            f"A built-in {case.became.name} is no item for use in the home, so it replaces "
            f"nothing of its kind: it is new to the house.",
            USUAL,
        )
    cap = case.facts.same_again
    likelier = case.replacement if cap is None else capped(case, min(cap, case.amount))
    says = (
        f"A {case.became.name} for a {case.thing.name}: some call it the same furnishing replaced, some a new part of "
        "the house."
    )
    if cap is None:
        says += " Even as a furnishing no more comes off than one like the old would have cost (`same again £…`)."
    return either(likelier, case.improvement, says, rule_as("item replaced", "improvement"))


@rule(
    "E",
    "loose-for-built-in",
    f"{ACT}(3)",
    ARGUABLE,
    "read",
    verbs="replaced",
    flips=("the old one was loose too",),
    keep=("a photograph of the old one",),
)
def loose_for_built_in(case: Case) -> Said:
    """A loose item in place of something built in."""
    if case.domestic or not case.became or case.became.nature != "domestic" or not case.building:
        return None
    return either(
        case.replacement,
        case.no_relief,
        f"A loose {case.became.name} took the place of a built-in {case.thing.name}; "
        "whether that counts as an item replaced is open.",
    )


@rule(
    "E",
    "kept-in-the-house",
    f"{ACT}(3)(e)",
    ARGUABLE,
    "read",
    verbs="replaced",
    flips=("the old one left the house, or can no longer be used",),
    keep=("an inventory at each change of tenant",),
)
def kept_in_the_house(case: Case) -> Said:
    """The old one was kept."""
    old = case.facts.old_one
    if not case.domestic or old is None:
        return None
    if old.fate == "kept" or (old.fate == "moved" and old.to == case.house):
        return either(
            case.replacement,
            case.no_relief,
            "The old one was kept. While it can still be used in this house nothing has been replaced.",
            ("old one scrapped", "old one moved to …", *rule_as("no relief")),
        )
    return None


@rule(
    "E",
    "one-for-two",
    f"{ACT}(3)(d)",
    USUAL,
    "read",
    verbs="replaced",
    step="split",
    flips=("as many old ones went as new ones came",),
    keep=("an inventory before and after",),
)
def one_for_two(case: Case) -> Said:
    """More new ones than old ones: only as many as there were are replacements."""
    before, after = counts(case)
    if not case.domestic or before is None or after is None or after <= before:
        return None
    more = share(case.amount, [before, after - before])[1]
    return Carved(
        (Part(more, Kind.NO_RELIEF),),
        f"Only {before} of the {after} took the place of an old one; the rest are the first of their kind.",
    )


@rule(
    "E",
    "swapped-between-houses",
    f"{ACT}(3)(e); s.307F(2)",
    USUAL,
    "read",
    verbs="replaced",
    flips=("the old one comes back",),
    keep=("the inventories of both houses",),
)
def swapped_between_houses(case: Case) -> Said:
    """The old one went to another let house of the same owners."""
    old = case.facts.old_one
    if not case.domestic or old is None or old.fate != "moved":
        return None
    lets = case.history.lets
    if lets.leaves_an_owner(case.house, old.to, case.day) or lets.home_on(old.to, case.day):
        return None
    return Remark(
        f"The old one went to {old.to}: it can no longer be used in this house, and it costs nothing there.", USUAL
    )


@rule(
    "E",
    "two-for-one",
    f"{ACT}(3)(d), (9)",
    USUAL,
    "read",
    verbs="replaced",
    flips=("only one of the old ones went",),
    keep=("the price of an equal pair on the day", "the inventory"),
)
def two_for_one(case: Case) -> Said:
    """One new item in place of two or more old ones of different kinds."""
    line = case.line
    if not case.domestic or case.became is None or len(line.things) < 2 or not line.becomes:
        return None
    if len(line.becomes.things) != 1 or case.became.nature != "domestic":
        return None
    names = " and ".join(thing.name for thing in line.things)
    return Remark(
        f"One {line.becomes.things[0].name} took the place of {names}: the price of an equal one is that of all the "
        "old ones together.",
        USUAL,
    )


@rule(
    "E",
    "whose-was-the-old-item",
    f"{ACT}(3)(a), (c); PIM3210",
    ARGUABLE,
    "read",
    verbs="replaced",
    flips=("a tenant used the old one", "the old one never was in this house"),
    keep=(
        "the list of what was left in the house",
        "an inventory",
        "the tenancy agreement with its first day",
    ),
)
def whose_was_the_old_item(case: Case) -> Said:
    """The old one came from the seller or the owner, and no tenant ever had it."""
    told = case.facts.was_there
    lived = case.history.lets.was_home(case.house, case.day) and not case.let_before
    if not case.domestic or (told == "used by tenant" and not lived):
        return None
    # The inventory knows what came, when, and which lets ran while it was there; else any letting before will do.
    had = {lot.tenant for lot in case.old_ones if told != "taken out earlier"} - {None}
    if had == {True} or (not had and case.let_before and told != "taken out earlier" and not lived_since(case)):
        return None
    bought = next((lot for lot in case.old_ones if lot.bought and lot.tenant is False), None)
    if bought and told != "taken out earlier":
        return either(
            amount(case),
            case.no_relief,
            f"The old one came on {bought.since} and no let ran while it was here ({case.what}). The Act asks only "
            "that it was provided in the house; the manual reads it as provided for tenants.",
            (", used by tenant",),
        )
    seller = told == "left by seller" or (not told and (case.house, case.key) in case.history.left)
    if seller or told == "ours before" or (lived and told != "taken out earlier"):
        came = "was left by the seller" if case.got_how in ("", "bought") else "came with the house"
        whose = came if seller else "was your own"
        why = (
            f"The old one ({case.what}) {whose}, and your book tells of no tenant who used it. The Act asks only that "
            "it was provided in the house; "
        )
        return either(amount(case), case.no_relief, why + "the manual reads it as provided for tenants.")
    if told == "taken out earlier" and case.let_before:
        return either(
            amount(case),
            case.no_relief,
            f"The old one was taken out earlier ({case.what}); the longer ago, the less this replaces it.",
        )
    return either(
        amount(case),
        case.no_relief,
        f"No tenant has had the old one as far as your book tells ({case.what}). Whose was it?",
        (", used by tenant", ", none before"),
    )


def lived_since(case: Case) -> bool:
    """Whether the owner has lived in the house since the last let of it: then a thing here may be the owner's own."""
    lets = case.history.lets
    gap = lets.gap(case.house, case.day)
    return gap is not None and gap.lived and not lets.let_on(case.house, case.day)


@rule(
    "E",
    "excluded",
    f"{ACT}(3)(c), (8); s.793; s.797",
    CLEAR,
    "read",
    verbs="replaced",
    flips=("rent-a-room relief was not claimed for that tax year", "it is for the tenant's use alone"),
    keep=(
        "the claim, by year",
        "a note of whose room it stood in",
    ),
)
def excluded(case: Case) -> Said:
    """The owner lives in the house: with rent-a-room relief nothing comes off, without it only what they do not use."""
    lets, day = case.history.lets, case.day
    if not case.domestic or not lets.home_on(case.house, day):
        return None
    if lets.rents_a_room(case.house, day):
        return Answer(case.no_relief, "With rent-a-room relief for the year no item replaced in this house counts.")
    if not lets.let_on(case.house, day):
        return None
    return either(
        amount(case),
        case.no_relief,
        f"You live here too, and only what is for the tenant's use alone counts ({case.what}).",
        rule_as("item replaced", "no relief"),
    )


@rule(
    "E",
    "amount-not-told",
    f"{ACT}(9)",
    ARGUABLE,
    "read",
    verbs="replaced",
    flips=("you say what one like the old would have cost",),
    keep=("the price of one like the old, noted on the day",),
)
def amount_not_told(case: Case) -> Said:
    """Better than the old one, or not compared, and no price of an equal one."""
    if not case.domestic or case.facts.same_again is not None:
        return None
    changed = case.changed and case.alone
    if case.facts.compared in SAME and not (changed and case.facts.compared != "modern equivalent"):
        return None
    if changed or case.facts.compared in MORE or case.facts.compared == "finer finish":
        return either(
            case.replacement,
            case.no_relief,
            "It does more than the old one or is of a higher class: only the "
            "price of one like the old comes off, and your book does not tell it.",
            (", same again £…",),
        )
    return either(
        case.replacement,
        case.no_relief,
        "Your book does not say whether the new one is like the old.",
        (", like for like", ", same again £…"),
    )


@rule(
    "E",
    "replacement-relief",
    f"{ACT}(1)-(6), (9)-(15); PIM3210",
    CLEAR,
    "read",
    verbs="replaced",
    flips=(
        "the old one can still be used in the house",
        "you use the new one too",
        "it is built in for good",
        "one like the old would have cost more, or less",
    ),
    keep=(
        "the price of one like the old, noted on the day",
        "an inventory",
        "proof of what became of the old one",
    ),
)
def replacement_relief(case: Case) -> Said:
    """A new item for an old one, for the tenant's use alone: up to the price of an equal one, plus getting it there."""
    if not case.domestic:
        return None
    parts = amount(case)
    allowed = sum(part.amount for part in parts if part.kind is Kind.DOMESTIC)
    if allowed < case.amount:
        return Answer(
            parts,
            "One item for another: the price of one like the old and what it cost to get it there come "
            "off, less what the old one brought.",
        )
    brought = case.facts.part_exchange or (case.facts.old_one and case.facts.old_one.amount)
    comes = "its whole price counts, less what the old one brought" if brought else "all of it comes off"
    return Answer(parts, f"One item for another of the same kind: {comes}.")
