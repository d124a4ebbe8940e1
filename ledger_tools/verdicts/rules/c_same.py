"""Stage C, the same again: what was put back, taken away or moved, and what the book does not compare."""

from __future__ import annotations

import re

from ..answer import Answer, Said
from ..case import Case, either
from ..following import like, outcomes, targets
from ..offers import COMPARE, goes_with, rule_as, with_the_room
from ..registry import rule
from ..told import FORCED, INSULATION, WALLS
from ..verdict import Confidence

CLEAR, USUAL, ARGUABLE = Confidence.CLEAR, Confidence.USUAL, Confidence.ARGUABLE
SAME = (", like for like", ", modern equivalent")
BUILT_ON = frozenset({"conservatory", "porch", "extension"})  # structures for all that they lean on the house
MENDS = "repaired, replaced, treated, rebuilt, bought"


@rule(
    "C",
    "trivial-gain",
    "BIM46925; PIM2030, as quoted by others; Steadfast Manufacturing v HMRC (2020) TC07770",
    USUAL,
    "read",
    verbs="replaced, rebuilt, repaired",
    flips=(
        "the extra was wanted (then write `does more`)",
        "the extra has a price of its own (then add `improvement £…`)",
    ),
    keep=("a note from the trade that the old size or kind is no longer made", "the bill"),
)
def trivial_gain(case: Case) -> Said:
    """Slightly better, because the nearest size or kind now made is."""
    if case.facts.compared != "slightly better":
        return None
    if case.because("chosen", "for more rent") and not case.damaged:
        return either(
            case.repair,
            case.improvement,
            "It is only slightly better, which speaks for a repair; but nothing forced the change, and what was "
            "wanted for itself is an improvement.",
            rule_as("repair", "improvement"),
        )
    return Answer(case.repair, f"So slight a gain came with the repair and is no improvement ({case.what}).")


@rule(
    "C",
    "different-material-or-cheaper",
    "BIM35480 (Conn v Robins (1966) 43 TC 266); BIM46920",
    CLEAR,
    "read",
    verbs="replaced, rebuilt",
    flips=("it bears more or does more than before", "it is a thing of a different kind"),
    keep=("the specification",),
)
def different_material_or_cheaper(case: Case) -> Said:
    """Another material, or plainer, with no more done by it."""
    plainer = case.facts.compared == "plainer"
    if not plainer and not (case.changed and case.facts.compared in ("like for like", "modern equivalent")):
        return None
    if case.because("chosen", "for more rent") and not plainer and case.facts.compared == "modern equivalent":
        return None
    if case.changed and case.nature == "fixture" and plainer and not _of_one_kind(case):
        says = "You call it plainer: it does no more than the old one did, so another make or form of it is a repair."
        return Answer(case.repair, says, USUAL)
    if case.changed and case.nature == "fixture" and not _of_one_kind(case):
        return Answer(
            case.repair,
            "It does no more than the old one did, so another make or form of it is a repair. Is it a thing of another "
            "kind? That would be an improvement.",
            USUAL,
        )
    return Answer(case.repair, "It does no more than the old one did, so another material or make is a repair.")


def _of_one_kind(case: Case) -> bool:
    """Whether the old and the new are called by one word: a panel heater for a storage heater."""
    return not set(case.thing.name.split()).isdisjoint(case.new_one.name.split())


@rule(
    "C",
    "sound-and-changed",
    "BIM46920; BIM46925; practitioners' articles, which disagree",
    ARGUABLE,
    "read",
    verbs="replaced, rebuilt, repaired",
    flips=("the old one was worn out or broken (then add `worn out`)", "the old kind is no longer allowed"),
    keep=("photographs of the old one", "the energy certificates before and after"),
)
def sound_and_changed(case: Case) -> Said:
    """Today's equivalent by choice: the old one was sound."""
    if case.facts.compared != "modern equivalent" or case.damaged:
        return None
    if not case.because("chosen", "for more rent") and not told_sound(case):
        return None
    return either(
        case.repair,
        case.improvement,
        "It is today's equivalent, but the old one was sound and nothing forced the change.",
        (*(() if told_sound(case) or case.because("chosen") else (", worn out",)), *rule_as("improvement", "repair")),
    )


def told_sound(case: Case) -> bool:
    """Whether the landlord's own reason says that the old one was sound: "sound, but the rating was F"."""
    said = " ".join(case.facts.because).lower()
    return bool(re.search(r"\bsound\b", said)) and not re.search(r"\b(not|no longer|never|hardly) sound\b", said)


RATED = frozenset(  # what an energy certificate looks at: common practice, no source
    {"window", "door", "front door", "back door", "patio door", "skylight", "boiler", "radiator", "central heating",
     "storage heater", "panel heater", "hot water cylinder", "loft insulation", "wall insulation", "glazing"}
)  # fmt: skip


@rule(
    "C",
    "closest-modern-equivalent",
    "BIM46920; BIM46925; BIM35455; KA-01106",
    CLEAR,
    "read",
    verbs="replaced, rebuilt, repaired",
    flips=(
        "the old one was sound, and changed by choice or for the energy rating",
        "more can be done with it than before",
    ),
    keep=("a note from the trade that the old kind is no longer sold or allowed",),
)
def closest_modern_equivalent(case: Case) -> Said:
    """Better only because that is what is sold or allowed today."""
    if case.facts.compared != "modern equivalent":
        return None
    says = "It is what is sold or allowed today in place of the old one, so it is a repair."
    forced = case.damaged or case.because("required")
    if not forced:
        why = "for its energy rating" if case.thing.name in RATED else "by choice"
        says += f" Was the old one worn out or broken? Of a sound one, changed {why}, opinions differ."
    sure = None if case.damaged or forced and case.name in ("boiler", "window") else USUAL
    return Answer(case.repair, says, USUAL if all_of_it_outside(case) else sure)


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
        sure = USUAL if all_of_it_outside(case) or case.name in INSULATION else None
        says = f"One of the same standard took the place of the old: a repair of the house ({case.what})."
        return Answer(case.repair, says, sure)
    return None


def all_of_it_outside(case: Case) -> bool:
    """Whether all of a fence or a path may have been renewed, which is less sure than a part of it."""
    return case.nature == "garden" and case.verb == "replaced" and not case.partly


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
    "BIM35467; BIM43255; BIM46915",
    USUAL,
    "read",
    verbs="removed, cleared",
    flips=("it was taken away for another reason",),
    keep=("a report or photographs of the damage or danger",),
)
def taken_away(case: Case) -> Said:
    """Removed and not replaced."""
    structure = case.thing.whole or case.dwelling or case.name in BUILT_ON
    if structure and not case.partly:
        return either(
            case.repair,
            case.no_relief,
            f"Taken away for good ({case.what}). To be rid of damage or "
            "danger that is a repair; the end of a whole building is capital and adds nothing to the house.",
            (*((f"part of {case.what}",) if case.alone else ()), *rule_as("repair", "no relief")),
        )
    if case.damaged or case.domestic or case.nature == "consumable":
        return Answer(case.repair, "What was worn, damaged or in the way was taken out; that is upkeep of the house.")
    if case.thing.name == "asbestos" and not case.because("required"):
        return either(
            case.repair,
            case.improvement,
            "Asbestos taken out within a repair is part of it, and what was breaking up is a repair by itself; sound "
            "asbestos taken out for good is open, and where nothing better stands there it counts at no sale either.",
            (", broken", *with_the_room(case), *rule_as("repair", "improvement", "no relief")),
            case.no_relief,
        )
    if case.because("required"):
        return Answer(case.repair, "It was taken out because it had to be, and nothing new was put there.")
    if case.because("for more rent"):
        return Answer(case.improvement, f"Taken out to gain by it ({case.what}): more can be done with the house.")
    if case.because("chosen"):
        return either(
            case.improvement,
            case.no_relief,
            f"Taken out by choice ({case.what}), so no repair: where more can be done with the house that is an "
            "improvement, else it leaves nothing that counts at a sale.",
            (", for more rent", *rule_as("no relief")),
        )
    return either(
        case.repair,
        case.improvement,
        f"Your book does not say why it was taken out ({case.what}). To be rid of damage or danger that is a repair, "
        "to gain by the change it is an improvement, to make way for something it is judged with that, and by itself "
        "it leaves nothing that counts at a sale.",
        (", worn out", ", broken", ", for more rent", ", making way for …", *made_one(case), *rule_as("no relief")),
        case.no_relief,
    )


def made_one(case: Case) -> tuple[str, ...]:
    """Of a wall within a house: that the rooms beside it were changed, as `altered` says."""
    return ("altered",) if case.name in WALLS else ()


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
    if case.because("for more rent"):
        return Answer(case.improvement, f"Moved to gain by it ({case.what}): more can be done with the house.")
    if case.because("chosen"):
        return either(
            case.repair,
            case.improvement,
            f"Moved by choice ({case.what}): to gain space or use that is an improvement, and most would call it one.",
            rule_as("improvement", "repair"),
        )
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
    if case.new_one.name == "fire door":
        return either(
            case.repair,
            case.improvement,
            "Was the old one a fire door too? In place of a fire door it is a repair; in place of an ordinary door, "
            "by order or by choice, it does more than before.",
            (", better", ", required") if case.changed else _fire_doors(case),
        )
    if case.facts.improvement is not None:  # that part is told: what calls all of it better would undo it
        return either(
            case.repair,
            case.improvement,
            "The part that is better is told; your book does not say how the rest compares with the old one.",
            SAME,
        )
    return either(
        case.repair, case.improvement, "Your book does not say how the new one compares with the old.", COMPARE
    )


def _fire_doors(case: Case) -> tuple[str, ...]:
    """The line as typed, with both things that may have been there before."""
    mark = case.line.place.mark()
    typed = mark.text[mark.column - 1 : mark.end - 1]
    ordinary = re.sub(r"\bfire[ -](doors?)\b", r"\1 with fire \1", typed, count=1, flags=re.I)
    return (f"{typed}, like for like", ordinary) if ordinary != typed else SAME


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
    """Part of a house, bought, without a word on what became of it; what it was bought for is such a word."""
    if case.line.purpose:
        parts, cautious = like(case.amount, outcomes(case, targets(case, case.line.purpose)))
        if parts:
            says = f"Bought for that work, it is judged with it ({case.line.purpose})."
            return Answer(parts, says, None if cautious else USUAL, cautious)
    if case.facts.was_there == "none before":
        says = f"You tell that there was none before ({case.what}): it adds to the house."
        return Answer(case.improvement, says, USUAL)
    return either(
        case.repair,
        case.improvement,
        f"What became of it ({case.what})? In place of an old one it is a repair, as a first one an improvement.",
        ("replaced", "installed", *goes_with(case, of=case.name)),
    )
