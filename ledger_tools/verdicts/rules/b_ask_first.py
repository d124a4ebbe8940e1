"""Stage B, what is asked before the state and the price: things missing, damage since, a lease to be put right."""

from __future__ import annotations

from ..answer import Answer, Remark, Said, tidy
from ..as_bought import PUTS_RIGHT, fault_bought, open_between, poor, was_lived_in
from ..case import Case
from ..offers import rule_as
from ..registry import rule
from ..told import EVENTS
from ..verdict import Cgt, Confidence, Kind, Part

CLEAR, USUAL, ARGUABLE = Confidence.CLEAR, Confidence.USUAL, Confidence.ARGUABLE


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
    """Fire, storm, water or squatter damage in a house bought in a poor state and not let yet: it may be older."""
    if case.let_before or not poor(case) or case.verb == "decorated" or was_lived_in(case):
        return None
    if not case.because("fire damage", "storm damage", "water damage", "squatter damage"):
        return None
    return open_between(
        case,
        case.purchase,
        "Did it happen after you bought? Damage that was there when you bought is part of the price; "
        "this house was bought in a poor state and has not been let yet.",
        rule_as("repair", "purchase cost"),
    )


@rule(
    "B",
    "ruined-while-out-of-my-hands",
    "Granite City Steamship v IRC (1927) 13 TC 1, by analogy; BIM40130",
    ARGUABLE,
    "head",
    verbs=PUTS_RIGHT,
    flips=("a tenant did it during a letting (then write `tenant damage`)",),
    keep=(
        "court or police papers with their dates",
        "photographs of it before and after",
    ),
)
def ruined_while_out_of_my_hands(case: Case) -> Said:
    """People who were no tenants ruined it while it was out of the owner's hands."""
    if not case.because("squatter damage") or case.thing.small:  # a lock or a pane is nobody's ruin
        return None
    return open_between(
        case,
        case.improvement,
        "Squatters did it. Damage is an ordinary hazard of letting, which speaks for a repair; a court once held "
        "that putting right what strangers ruined is no upkeep but capital.",
        rule_as("repair", "improvement"),
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
    if case.as_bought == "lettable" and not poor(case):
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
    "put-right-for-the-lease",
    "Jackson v Laskers (1956) 37 TC 69; BIM35620; BIM46940",
    CLEAR,
    "read",
    verbs=PUTS_RIGHT,
    flips=("it fell due as an ordinary repair while you held the lease",),
    keep=("the lease", "a schedule of its condition when you took it"),
)
def put_right_for_the_lease(case: Case) -> Said:
    """The lease was taken on terms of putting the place right."""
    if case.place is None or not case.place.put_right or not fault_bought(case):
        return None
    if case.let_before:
        return open_between(
            case,
            case.purchase,
            "You took the lease on terms of putting the place right, but it was let before this work: is this what "
            "you promised, or a repair that fell due since?",
            rule_as("repair", "purchase cost"),
        )
    return Answer(case.purchase, "You took the lease on terms of putting it right, so this is part of its price.")
