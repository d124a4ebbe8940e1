"""Stage C, what is asked before the general rules: essential things "installed", fire doors, trifles that wore out."""

from __future__ import annotations

from ..answer import Answer, Remark, Said
from ..case import Case, either
from ..offers import as_replaced
from ..registry import rule
from ..told import MORE, THERE_BEFORE
from ..verdict import Confidence

CLEAR, USUAL, ARGUABLE = Confidence.CLEAR, Confidence.USUAL, Confidence.ARGUABLE


@rule(
    "C",
    "there-was-one",
    "common practice",
    USUAL,
    "practice",
    verbs="replaced",
    step="follow",
    flips=("it was the first one after all (then write `none before`)",),
    keep=("a photograph of the old one",),
)
def there_was_one(case: Case) -> Said:
    """Called installed, though the line tells of an old one."""
    if case.history.items[case.position].line.verb != "installed":
        return None
    return Remark(f"Your line tells of an old one ({case.what}), so it is judged as replaced, not as the first one.")


@rule(
    "C",
    "hardly-the-first",
    "BIM35435; BIM46901",
    ARGUABLE,
    "read",
    verbs="installed",
    flips=("the house really had none (then add `none before`)",),
    keep=("photographs of the room before",),
)
def hardly_the_first(case: Case) -> Said:
    """A thing without which no home is let, put into a house that was lettable or let."""
    if not case.thing.essential or case.facts.was_there or case.line.things[0].count:
        return None
    lived_in = case.history.lets.was_home(case.house, case.day)
    if not (case.let_before or lived_in or case.as_bought == "lettable"):
        return None
    return either(
        case.repair,
        case.improvement,
        f"Was there one before ({case.what})? A home that could be lived in has one, so this may be a replacement: "
        "then say how it compares with the old one.",
        (", none before", *as_replaced(case)),
    )


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


@rule(
    "C",
    "first-energy-kit",
    "Inland Revenue Tax Bulletin 59 (2002); CAA 2001 s.28(2)-(2A), s.35",
    CLEAR,
    "quotation",
    verbs="installed, added",
    flips=("there was one before, even a broken one (then write `replaced`)",),
    keep=("older photographs", "the energy certificates before and after"),
)
def first_energy_kit(case: Case) -> Said:
    """The first insulation, heat pump, solar panels or central heating: no allowance makes up for it in a home."""
    if case.name not in ENERGY | {"central heating"} or case.facts.was_there in THERE_BEFORE:
        return None
    return Answer(
        case.improvement,
        f"The first here ({case.what}): it adds to the house, and no capital allowance makes up for it in a home.",
    )


ABOVE_A_HOME = {
    "fire door": "A fire door does more than an ordinary door",
    "fire alarm": "A fire alarm system does more than alarms that stand alone",
    "mains alarm": "Wired or linked alarms do more than alarms that stand alone",
    "linked alarm": "Wired or linked alarms do more than alarms that stand alone",
}


@rule(
    "C",
    "safety-above-a-home",
    "BIM46920; practitioners' articles on licensed houses",
    USUAL,
    "read",
    verbs="replaced",
    flips=(
        "the old ones were of that kind too (then name that kind as what was replaced)",
        "any home must have them today",
    ),
    keep=("the licence conditions or the notice",),
)
def safety_above_a_home(case: Case) -> Said:
    """Fire doors for ordinary ones, a wired alarm for battery alarms, because licence or law asked for it."""
    does_more = ABOVE_A_HOME.get(case.new_one.name, "")
    if not does_more or not case.changed or case.facts.compared in MORE:
        return None
    ordered = case.because("required")
    if not ordered and case.new_one.name != "fire door":  # alarms wired or linked are the rule for any home by now
        return None
    why = "that it was ordered does not make it a repair" if ordered else "whether ordered or chosen, that is no repair"
    if case.facts.compared:
        return either(
            case.repair,
            case.improvement,
            f"{does_more}, and {why}; you call it no more than today's equivalent, which may hold where any home must "
            "have one.",
        )
    return Answer(case.improvement, f"{does_more}; {why}.")


@rule(
    "C",
    "character-changed",
    "BIM35460; BIM35470; BIM46950; Moonlight Textiles v HMRC (2010) TC00755",
    USUAL,
    "read",
    verbs="altered, rebuilt, replaced, repaired",
    flips=("each job stands alone (then write a line for each)",),
    keep=("drawings of the scheme", "quotes that price each job"),
)
def character_changed(case: Case) -> Said:
    """The whole was remade and is no longer the same thing, or can do more."""
    if case.partly or case.facts.improvement is not None or not case.building:
        return None
    house = case.dwelling and (case.verb == "altered" or case.facts.compared in MORE)
    if not house and not (case.extent == "whole" and case.facts.compared == "does more"):
        return None
    return Answer(
        case.improvement,
        f"Taken together this remade the whole ({case.what}): what stands there now is not the same as before, "
        "so all of it is capital.",
    )


@rule(
    "C",
    "small-thing-worn",
    "BIM35435 (the tap washer in Auckland Gas); BIM46925",
    USUAL,
    "read",
    verbs="replaced",
    flips=("you chose a much better one (then add `better`)",),
    keep=("the receipt",),
)
def small_thing_worn(case: Case) -> Said:
    """A trifle that was worn or broken: the next one is hardly ever more than its equal."""
    if not case.thing.small or not case.damaged or case.facts.compared or case.changed or case.domestic:
        return None
    return Answer(case.repair, f"A small part that was worn or broken ({case.what}): putting in another is a repair.")
