"""Stage C: what did the work do to the building? And, before it, which lines go the way of another line."""

from __future__ import annotations

from ..answer import Answer, Remark, Said
from ..case import Case, either
from ..offers import goes_with, rule_as
from ..registry import rule
from ..told import FORCED
from ..verdict import Confidence

CLEAR, USUAL, ARGUABLE = Confidence.CLEAR, Confidence.USUAL, Confidence.ARGUABLE
MENDS = "repaired, replaced, treated, rebuilt, bought"
BULLETIN = "Inland Revenue Tax Bulletin 59 (2002)"
COMPARE = (", like for like", ", modern equivalent", ", better", ", does more")
ENERGY = frozenset(
    {
        "heat pump",
        "solar panel",
        "home battery",
        "ev charger",
        "loft insulation",
        "wall insulation",
        "roof insulation board",
    }
)


# ── more than was there ──────────────────────────────────────────────────────────────────────────────────────────


@rule(
    "C",
    "bigger-or-different-use",
    "BIM46915; BIM35445; BIM46950; PIM2025",
    CLEAR,
    "read",
    verbs="extended, converted",
    flips=("a repair in the same project has a price of its own",),
    keep=("plans", "building control papers"),
)
def bigger_or_different_use(case: Case) -> Said:
    """Made bigger, or turned into something else."""
    return Answer(
        case.improvement, f"{case.verb.capitalize()}: more, or something else, can be done with the house than before."
    )


@rule(
    "C",
    "altered",
    "BIM46915; PIM2025",
    USUAL,
    "read",
    verbs="altered",
    flips=("it only put right what was worn (then write `repaired`)",),
    keep=("plans before and after",),
)
def altered(case: Case) -> Said:
    """Changed, though no bigger."""
    if not FORCED.isdisjoint(case.facts.causes) and not case.because("required"):
        return either(
            case.repair,
            case.improvement,
            "It was altered because something failed; if it only put that right it is a repair.",
            ("repaired", *goes_with(case)),
        )
    return Answer(case.improvement, "An alteration changes the house rather than mending it.")


@rule(
    "C",
    "something-new",
    BULLETIN,
    CLEAR,
    "quotation",
    verbs="installed, added, bought, replaced",
    flips=("there was one before, even a broken one (then write `replaced`)",),
    keep=("older photographs", "an inventory"),
)
def something_new(case: Case) -> Said:
    """The first one here, or one more."""
    none_before = case.facts.was_there == "none before"
    if case.verb == "bought" or (case.verb == "replaced" and not none_before):
        return None
    if case.facts.was_there in ("left by seller", "ours before", "used by tenant", "taken out earlier"):
        return either(
            case.repair,
            case.improvement,
            "There was one before, so this may be a replacement rather than something new.",
            COMPARE,
        )
    if (
        case.thing.first in ("arguable", "rev", "run")
        and not case.because("required")
        or case.thing.first == "arguable"
    ):
        return either(
            case.repair,
            case.improvement,
            f"The first here ({case.what}): strictly an addition, though many list it with the ordinary costs "
            "of letting.",
        )
    sure = CLEAR if case.thing.first == "cap" else USUAL
    why = (
        "and that licence or law asked for it does not make it a repair"
        if case.because("required")
        else "however small"
    )
    return Answer(case.improvement, f"The first here ({case.what}): it adds to the house, {why}.", sure)


@rule(
    "C",
    "better-because-ordered",
    "BIM46920; practitioners' articles on licensed houses",
    USUAL,
    "read",
    verbs="replaced, repaired, rebuilt",
    flips=("the same class was there before", "it is only today's standard for any home"),
    keep=("the licence conditions or the notice",),
)
def better_because_ordered(case: Case) -> Said:
    """A standard above an ordinary home's, because licence or law asked for it."""
    if case.facts.compared not in ("better", "does more") or not case.because("required"):
        return None
    return Answer(case.improvement, "It is more than was there; that it was ordered does not make it a repair.")


@rule(
    "C",
    "better-by-choice",
    "BIM46925; BIM46920; BIM46930; KA-01106",
    CLEAR,
    "read",
    verbs="replaced, repaired, rebuilt",
    flips=(
        "the old one was of that class when it was new",
        "only the finish is finer and it does no more",
    ),
    keep=("photographs and the make of the old one",),
)
def better_by_choice(case: Case) -> Said:
    """Of a clearly higher class than the old one when new, or meant to do more."""
    if case.facts.compared == "does more":
        return Answer(
            case.improvement,
            "It can do more than the old one could, so the whole of it is an improvement; "
            "what a plain repair would have cost makes no difference.",
        )
    if case.facts.compared == "better":
        return Answer(
            case.improvement,
            "You chose a higher class than the old one was when new, so the whole of it is an improvement.",
            USUAL,
        )
    return None


# ── a whole of its own, or of another kind ───────────────────────────────────────────────────────────────────────


@rule(
    "C",
    "whole-thing-rebuilt",
    "BIM46911; BIM35467; BIM35485; BIM35490",
    CLEAR,
    "read",
    verbs="rebuilt, replaced",
    flips=("some of the old structure was kept (then write `part of …`)",),
    keep=("photographs before and after", "the builder's estimate"),
)
def whole_thing_rebuilt(case: Case) -> Said:
    """A structure that is a whole of its own was put up again."""
    if case.partly or case.changed and case.became and case.became.nature not in ("outbuilding", "plant"):
        return None
    if case.thing.whole and case.nature == "outbuilding" and case.thing.again != "arguable":
        return Answer(
            case.improvement,
            f"It stands by itself and is no part of the house ({case.what}), so a new one is an improvement, even "
            "where it was forced, cheapest or no better.",
        )
    if case.thing.whole or (case.verb == "rebuilt" and case.nature == "garden") or case.extent == "whole":
        return either(
            case.repair,
            case.improvement,
            f"Is it a part of something, or a thing of its own ({case.what})? "
            "The whole of it put up again is an improvement; a new surface or a part is a repair.",
            (f"part of {case.what}", *rule_as("improvement")),
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


@rule(
    "C",
    "reaching-energy-standard",
    f"BIM46925; {BULLETIN}",
    ARGUABLE,
    "read",
    verbs="replaced",
    flips=(
        "the old one had perished and was put back as it was",
        "building control asked for it within a repair",
    ),
    keep=("the energy certificates before and after",),
)
def reaching_energy_standard(case: Case) -> Said:
    """Energy kit in place of something older, which may be more than its equivalent of today."""
    to_energy = case.changed and case.new_one.name in ENERGY
    heating = (
        case.changed and case.thing.name == "storage heater" and case.new_one.name in ("central heating", "boiler")
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


# ── the same again ───────────────────────────────────────────────────────────────────────────────────────────────


@rule(
    "C",
    "different-material-or-cheaper",
    "BIM35480 (Conn v Robins (1966) 43 TC 266); BIM46920",
    CLEAR,
    "read",
    verbs="replaced, rebuilt",
    flips=("it bears more or does more than before",),
    keep=("the specification",),
)
def different_material_or_cheaper(case: Case) -> Said:
    """Another material, or plainer, with no more done by it."""
    plainer = case.facts.compared == "plainer"
    if not plainer and not (case.changed and case.facts.compared in ("like for like", "modern equivalent")):
        return None
    if case.because("chosen") and not plainer and case.facts.compared == "modern equivalent":
        return None
    return Answer(case.repair, "Another material or make that does no more than the old one is a repair.")


@rule(
    "C",
    "closest-modern-equivalent",
    "BIM46920; BIM46925; BIM35455; KA-01106",
    CLEAR,
    "read",
    verbs="replaced, rebuilt, repaired",
    flips=("the old one was sound and only changed for the energy rating", "more can be done with it than before"),
    keep=("a note from the trade that the old kind is no longer sold or allowed",),
)
def closest_modern_equivalent(case: Case) -> Said:
    """Better only because that is what is sold or allowed today."""
    if case.facts.compared != "modern equivalent":
        return None
    if case.because("chosen") and not case.damaged:
        return either(
            case.repair,
            case.improvement,
            "It is today's equivalent, but the old one was sound and nothing forced the change.",
            (", worn out",),
        )
    sure = None if case.name in ("boiler", "window") or case.damaged else USUAL
    return Answer(case.repair, "It is what is sold or allowed today in place of the old one, so it is a repair.", sure)


@rule(
    "C",
    "same-again",
    "BIM35435; BIM46901; PIM2025",
    CLEAR,
    "read",
    verbs=MENDS,
    flips=(
        "you chose a higher class",
        "it can do more than before",
    ),
    keep=(
        "the make and model of old and new",
        "the wording of the quote",
    ),
)
def same_again(case: Case) -> Said:
    """Mended, or a worn part replaced by the same standard."""
    if case.verb in ("repaired", "treated") and case.building:
        return Answer(case.repair, f"Put right, and still the same thing ({case.what}).")
    if case.facts.compared == "like for like":
        return Answer(
            case.repair, f"One of the same standard took the place of the old: a repair of the house ({case.what})."
        )
    return None


@rule(
    "C",
    "damp-rot-subsidence",
    "PIM2025",
    CLEAR,
    "head",
    verbs="treated, repaired",
    flips=(
        "it made a dry room where there was none",
        "it made the house stronger than it was",
    ),
    keep=("the damp or timber report",),
)
def damp_rot_subsidence(case: Case) -> Said:
    """Treating damp, rot or worm."""
    return Answer(case.repair, "Treating what is wrong with the house is a repair.")


@rule(
    "C",
    "taken-away",
    "BIM35467; BIM43255",
    USUAL,
    "read",
    verbs="removed, cleared",
    flips=("it was taken away for another reason",),
    keep=("a report or photographs of the damage or danger",),
)
def taken_away(case: Case) -> Said:
    """Removed and not replaced."""
    if case.thing.whole and not case.partly:
        return either(
            case.repair,
            case.no_relief,
            f"Taken away for good ({case.what}). To be rid of damage or "
            "danger that is a repair; the end of a whole building is capital and adds nothing to the house.",
        )
    if case.damaged or case.domestic or case.nature == "consumable":
        return Answer(case.repair, "What was worn, damaged or in the way was taken out; that is upkeep of the house.")
    if case.thing.name == "asbestos" and not case.because("required"):
        return either(
            case.repair,
            case.improvement,
            "Asbestos taken out within a repair is part of it; sound asbestos taken out by itself is open.",
            (", broken", *goes_with(case)),
        )
    if case.because("required"):
        return Answer(case.repair, "It was taken out because it had to be, and nothing new was put there.")
    return either(
        case.repair,
        case.improvement,
        f"Your book does not say why it was taken out ({case.what}).",
        (", worn out", ", making way for …"),
    )


@rule(
    "C",
    "moved",
    "BIM46911; KA-01106",
    USUAL,
    "read",
    verbs="moved",
    flips=("it was moved for another reason",),
    keep=(
        "the fitter's note of why it moved",
        "a plan of the room before and after",
    ),
)
def moved(case: Case) -> Said:
    """The same thing in a new place."""
    if not FORCED.isdisjoint(case.facts.causes):
        return Answer(
            case.repair, f"It had to move ({case.what}); a move that is forced is part of putting things right."
        )
    if case.because("chosen", "for more rent"):
        return Answer(case.improvement, f"Moved by choice, to gain by it ({case.what}).")
    return either(
        case.repair,
        case.improvement,
        f"A move that was forced is a repair, one to gain space an improvement; "
        f"your book does not say why it moved ({case.what}).",
        (", required", ", chosen"),
    )


@rule(
    "C",
    "not-compared",
    "BIM46920; BIM46925",
    ARGUABLE,
    "read",
    verbs="replaced, rebuilt, repaired",
    flips=("you say how it compares with the old one when that was new",),
    keep=("the make and model of old and new",),
)
def not_compared(case: Case) -> Said:
    """Replaced, without a word on how the new one compares with the old."""
    fire = case.new_one.name == "fire door" and case.changed
    return either(
        case.repair,
        case.improvement,
        "Your book does not say how the new one compares with the old.",
        (", better", ", required") if fire else COMPARE,
    )


@rule(
    "C",
    "bought-for-what",
    "BIM46920; BIM35435",
    ARGUABLE,
    "read",
    verbs="bought",
    flips=("you say what became of it",),
    keep=("the bill of the job it was for",),
)
def bought_for_what(case: Case) -> Said:
    """Part of a house, bought, without a word on what became of it."""
    return either(
        case.repair,
        case.improvement,
        f"What became of it ({case.what})? In place of an old one it is a repair, as a first one an improvement.",
        ("replaced", "installed", *goes_with(case)),
    )
