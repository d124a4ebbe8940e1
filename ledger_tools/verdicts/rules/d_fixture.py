"""Stage D: part of the house, or an item for use in it? Things used up leave the procedure here."""

from __future__ import annotations

from ..answer import Answer, Remark, Said
from ..case import Case, either
from ..registry import rule
from ..verdict import Confidence

CLEAR, USUAL, ARGUABLE = Confidence.CLEAR, Confidence.USUAL, Confidence.ARGUABLE
PROVIDES = "replaced, installed, added, bought"


@rule(
    "D",
    "thing-not-known",
    "common practice",
    ARGUABLE,
    "practice",
    verbs="replaced, installed, added, bought, removed, moved, rebuilt, altered",
    flips=("you say what it is",),
    keep=("a photograph of it",),
)
def thing_not_known(case: Case) -> Said:
    """A thing that neither the catalogue nor the book has a nature for."""
    if case.known or case.verb in ("rebuilt", "altered"):
        return None
    first = case.verb in ("installed", "added")
    return either(
        case.improvement if first else case.repair,
        case.no_relief if first else case.improvement,
        f'Is "{case.what}" part of the house or a loose item? Neither the catalogue nor your book says.',
        (f"thing {case.what} is fixture", f"thing {case.what} is furniture"),
    )


@rule(
    "D",
    "consumable",
    "common practice",
    CLEAR,
    "practice",
    verbs=PROVIDES,
    flips=(
        "it was used up on an improvement (then add `goes with …`)",
        "it was bought to last",
    ),
    keep=("receipts",),
)
def consumable(case: Case) -> Said:
    """Used up, or too small to be an asset."""
    if case.nature != "consumable" or case.thing.again == "job":
        return None
    if case.thing.first == "arguable" and case.verb in ("installed", "added", "bought"):
        return either(
            case.running,
            case.no_relief,
            f"The first here ({case.what}): it may count as provided for good; many list it with the ordinary costs.",
        )
    if case.thing.first == "cnr" and case.verb != "replaced" and not case.had_before:
        return Answer(
            case.no_relief, f"The first for this house ({case.what}): only what replaces it comes off.", USUAL
        )
    if case.thing.again == "rev":
        return Answer(case.repair, f"Used up on the upkeep of the house ({case.what}).", USUAL)
    return Answer(case.running, f"Used up, so a running cost ({case.what}).")


@rule(
    "D",
    "fixture-by-statute",
    "ITTOIA 2005 s.311A(14)",
    CLEAR,
    "read",
    verbs=PROVIDES,
    flips=("it is a portable heater that plugs in (then write `portable heater`)",),
    keep=(
        "the make and model",
        "a photograph of it in its place",
    ),
)
def fixture_by_statute(case: Case) -> Said:
    """A boiler or a water-filled radiator: part of the house because the Act says so."""
    if not case.new_one.statute:
        return None
    return Remark(f"The Act itself calls it a fixture ({case.new_one.name}), so it is judged as part of the house.")


@rule(
    "D",
    "fixture-in-fact",
    "BIM46910; BIM46911",
    CLEAR,
    "read",
    verbs=PROVIDES,
    flips=("it lifts out without damage and would go with you (then add `loose`)",),
    keep=("a photograph of how it is fixed",),
)
def fixture_in_fact(case: Case) -> Said:
    """Fixed to stay and to better the house."""
    if case.nature != "fixture" or case.new_one.statute:
        return None
    usual = case.thing.name.startswith("integrated") or case.thing.doubtful or case.thing.nature == "domestic"
    return Remark("It is fixed to stay, so it is part of the house.", USUAL if usual else CLEAR)


@rule(
    "D",
    "domestic-by-list",
    "ITTOIA 2005 s.311A(14); PIM3210",
    CLEAR,
    "read",
    verbs=PROVIDES,
    flips=("it is built in for good (then add `built in`)",),
    keep=(
        "photographs",
        "an inventory",
    ),
)
def domestic_by_list(case: Case) -> Said:
    """Furniture, furnishings, appliances, kitchenware."""
    if not case.domestic:
        return None
    if case.thing.doubtful and case.facts.fixing:
        says = f"You say that it is loose ({case.what}), which speaks for an item for use in the home."
        return Remark(says, USUAL)
    return Remark("It is an item for use in the home, not part of the building.")
