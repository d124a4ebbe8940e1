"""Stage C: a whole of its own, a thing of another kind, and things on which opinion is divided."""

from __future__ import annotations

from ..answer import Answer, Remark, Said
from ..case import Case, either
from ..following import other_jobs
from ..offers import rule_as
from ..registry import rule
from ..told import INSULATION
from ..verdict import Confidence
from .c_ask_first import ENERGY

CLEAR, USUAL, ARGUABLE = Confidence.CLEAR, Confidence.USUAL, Confidence.ARGUABLE


@rule(
    "C",
    "repairs-inside-a-conversion",
    "CAA 2001 s.270BJ(3), s.270CE, s.270CF",
    USUAL,
    "read",
    verbs="replaced, repaired, treated",
    flips=("it is a shop or an office, or the part of a mixed building that is no dwelling",),
    keep=("plans that show the use of each part before and after",),
)
def repairs_inside_a_conversion(case: Case) -> Said:
    """A repair on the bill of a conversion: the line of the manual on renovations is not meant for a dwelling."""
    if not case.building or case.line is case.history.items[case.position].head:  # no line of a bill
        return None
    lines = (case.history.items[p].line for p in other_jobs(case))
    if not any(line.verb in ("converted", "extended", "altered") for line in lines):
        return None
    return Remark(
        "Repairs that belong to a conversion can be capital for a business building; in a home each job is judged "
        "by itself."
    )


BUILT_ON = frozenset(  # what is as often built on to a house as not: common practice, no source
    {"outhouse", "wash house", "outside toilet", "outside wc", "annexe", "privy", "coal house", "brew house"}
)
NAMED = "BIM46911"  # the source of things that the manual itself names as wholes; of others it gives pointers only


@rule(
    "C",
    "whole-thing-rebuilt",
    "BIM46911; BIM35467; BIM35485; BIM35490",
    CLEAR,
    "read",
    verbs="rebuilt, replaced",
    flips=(
        "some of the old structure was kept (then write `part of …`)",
        "it is built on to the house and used as a part of it",
    ),
    keep=("photographs before and after", "the builder's estimate"),
)
def whole_thing_rebuilt(case: Case) -> Said:
    """A structure that is a whole of its own was put up again."""
    if case.partly or case.changed and case.became and case.became.nature not in ("outbuilding", "plant"):
        return None
    if case.dwelling:
        says = "The whole house was put up again, so it is an improvement, even where that was forced or no better."
        return Answer(case.improvement, says)
    stands = case.nature == "outbuilding" and case.thing.whole and case.thing.again != "arguable"
    if stands and case.line.thing.lower() not in BUILT_ON:
        return Answer(
            case.improvement,
            f"It stands by itself and is no part of the house ({case.what}), so a new one is an improvement, even "
            "where it was forced, cheapest or no better.",
            CLEAR if case.thing.source == NAMED else USUAL,
        )
    outside = case.nature not in ("fabric", "fixture")  # of a house the roof, the kitchen, the wiring are parts
    anew = case.nature == "garden" and (case.verb == "rebuilt" or case.thing.again == "arguable")
    if case.thing.whole or anew or (case.extent == "whole" and outside):
        return either(
            case.repair,
            case.improvement,
            f"Is it a thing of its own, or built on to another and a part of that ({case.what})? The whole of a thing "
            "of its own put up again is an improvement; a part, or a new surface, is a repair.",
            (f"part of {case.what}", *rule_as("repair", "improvement")),
        )
    return None


@rule(
    "C",
    "another-kind-of-thing",
    "BIM35460",
    USUAL,
    "read",
    verbs="replaced",
    flips=("it does the same job in another material",),
    keep=("photographs before and after",),
)
def another_kind_of_thing(case: Case) -> Said:
    """A wall for a fence, a tank for a pipe: a thing of another kind in its place."""
    if not case.became or not case.changed or case.nature != "garden":
        return None
    if "wall" not in case.became.name.split() or "wall" in case.thing.name.split():
        return None
    return Answer(
        case.improvement,
        f"A {case.became.name} is a different kind of thing from a {case.thing.name}, so this is no repair of it.",
    )


WET_HEATING = frozenset({"central heating", "boiler", "radiator"})


@rule(
    "C",
    "reaching-energy-standard",
    "BIM46925; Inland Revenue Tax Bulletin 59 (2002)",
    ARGUABLE,
    "read",
    verbs="replaced",
    flips=(
        "it does no more than the old one did when that was new",
        "building control asked for it within a repair",
    ),
    keep=("the energy certificates before and after",),
)
def reaching_energy_standard(case: Case) -> Said:
    """Energy kit in place of something older, which may be more than its equivalent of today."""
    to_energy = case.changed and case.new_one.name in ENERGY
    heating = case.changed and case.thing.name == "storage heater" and case.new_one.name in WET_HEATING
    if case.name in INSULATION and not case.changed and case.facts.compared == "modern equivalent":
        return either(
            case.repair,
            case.improvement,
            f"Perished insulation put back is a repair, but what is laid today keeps in more warmth ({case.what}): "
            "today's equivalent, or more? Published answers differ.",
        )
    if not to_energy and not heating and not (case.thing.name in ENERGY and case.thing.again == "arguable"):
        return None
    return either(
        case.repair,
        case.improvement,
        f"Is it only today's equivalent of what was there, or more ({case.new_one.name})? Honest people differ.",
    )


@rule(
    "C",
    "doubtful-again",
    "BIM46910; BIM46911",
    ARGUABLE,
    "read",
    verbs="replaced, repaired, treated, rebuilt",
    flips=("only a part of it was renewed (then write `part of …`)",),
    keep=(
        "photographs before and after",
        "a plan that shows how it stands to the house",
    ),
)
def doubtful_again(case: Case) -> Said:
    """Things on which opinion is divided even where the same is put back."""
    either_way = case.thing.again == case.thing.first == "arguable"  # underpinning: mending it is a doubt as well
    if (case.verb in ("repaired", "treated") and not either_way) or case.partly:
        return None
    if case.thing.again == "cap":
        return Answer(
            case.improvement, f"A new one is a thing of its own, not a repair of the house ({case.what}).", USUAL
        )
    if case.thing.again != "arguable":
        return None
    why = case.thing.remark or f"Whether this is a repair of something larger is open ({case.what})."
    return either(case.repair, case.improvement, why)


@rule(
    "C",
    "integral-features-stop-at-the-front-door",
    "CAA 2001 s.33A(3)-(4), s.35",
    CLEAR,
    "read",
    verbs="replaced",
    flips=("it also serves shared parts outside any dwelling",),
    keep=("a note of what the system serves",),
)
def integral_features_stop_at_the_front_door(case: Case) -> Said:
    """Most of a wiring, water or heating system renewed: the warning in the manual is not meant for a dwelling."""
    if case.thing.name not in ("wiring", "central heating", "pipework") or case.partly:
        return None
    return Remark(
        "For a shop or an office, renewing a whole system can be capital; inside a let home it is judged like any "
        "other work."
    )
