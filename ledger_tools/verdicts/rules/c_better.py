"""Stage C, more than was there: bigger, new, better by order or by choice."""

from __future__ import annotations

from ...days import day_words
from ..answer import Answer, Remark, Said
from ..case import Case, either
from ..following import outcomes, targets
from ..offers import as_replaced, goes_with, rule_as
from ..registry import rule
from ..told import FORCED, THERE_BEFORE, WALLS
from ..verdict import Confidence, Kind

CLEAR, USUAL, ARGUABLE = Confidence.CLEAR, Confidence.USUAL, Confidence.ARGUABLE
BULLETIN = "Inland Revenue Tax Bulletin 59 (2002)"


@rule(
    "C",
    "bigger-or-different-use",
    "BIM46915; BIM35445; BIM46950; PIM2025",
    CLEAR,
    "read",
    verbs="extended, converted, removed",
    flips=("a repair in the same project has a price of its own",),
    keep=("plans", "building control papers"),
)
def bigger_or_different_use(case: Case) -> Said:
    """Made bigger, turned into something else, or two rooms knocked into one."""
    if case.verb == "removed":
        if case.name not in WALLS or len(case.line.rooms) < 2 or not FORCED.isdisjoint(case.facts.causes):
            return None
        rooms = " and ".join(str(room) for room in case.line.rooms)
        says = f"With the wall gone {rooms} are one: something else can be done with them."
        return Answer(case.improvement, says, USUAL)
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


THOUGH_ORDERED = (
    "That a law or a licence asks for it does not decide: a repair mends or renews what was there, and what was not "
    "there is new, whoever asked for it. What takes its place one day is a repair."
)


@rule(
    "C",
    "new-though-ordered",
    f"{BULLETIN}; BIM46920; practitioners' articles on licensed houses",
    USUAL,
    "quotation",
    verbs="installed, added, replaced",
    flips=(
        "there was one of that kind before, even a broken one (then write `replaced`)",
        "there was one of an older kind, and any home must have this one today",
    ),
    keep=("the licence conditions or the notice", "older photographs"),
)
def new_though_ordered(case: Case) -> Said:
    """The first one here, or one more, because licence or law asked for it."""
    new = case.verb != "replaced" or case.facts.was_there == "none before"
    if not case.because("required") or not new or case.facts.was_there in THERE_BEFORE:
        return None
    if case.thing.first == "arguable":  # a trifle: see `something-new`
        return None
    return Answer(case.improvement, f"{_adds(case)} {THOUGH_ORDERED}")


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
    if case.facts.was_there in THERE_BEFORE:
        return either(
            case.repair,
            case.improvement,
            "There was one before, so this may be a replacement rather than something new.",
            as_replaced(case),
        )
    if case.thing.first in ("arguable", "rev", "run"):
        small = f"The first here ({case.what}): strictly an addition, though many list it with the ordinary costs "
        small += "of letting."
        return either(
            case.repair,
            case.improvement,
            small + (f" {THOUGH_ORDERED}" if case.because("required") else "")
            if case.thing.small
            else f"The first here ({case.what}): an addition to the house, or the cure of something that was wrong "
            "with it? Honest people differ.",
        )
    return Answer(case.improvement, _adds(case), CLEAR if case.thing.first == "cap" else USUAL)


def _adds(case: Case) -> str:
    back = case.history.refunded(case.house, case.key, case.amount, case.day)
    if back:
        return (
            f"A new one would add to the house ({case.what}); what this one cost came back on {day_words(back)}, so "
            "nothing of it counts."
        )
    lead = "More than there were" if there_are_others(case) else "The first here"
    return f"{lead} ({case.what}): it adds to the house{', however small' if case.thing.small else ''}."


def there_are_others(case: Case) -> bool:
    """Whether the line, or the book before it, tells of such things in the house already."""
    if case.facts.was_there == "none before":
        return False
    mine, history = case.history.orders[case.position], case.history
    told = any(line.order < mine and line.verb in STAY for line in history.told(case.house, case.key))
    return case.verb == "added" or case.had_before or told


STAY = frozenset({"replaced", "repaired", "moved", "installed", "added", "serviced"})  # after these it is there


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
    "finer-finish",
    "BIM46920; BIM46925; KA-01106",
    ARGUABLE,
    "read",
    verbs="replaced, repaired, rebuilt",
    flips=("it is of a clearly higher class altogether (then write `better`)", "the old finish was as fine when new"),
    keep=("photographs and the make of the old one", "the price of a plain one on the day"),
)
def finer_finish(case: Case) -> Said:
    """Finer to look at than the old one was when new, and no more done by it."""
    if case.facts.compared != "finer finish":
        return None
    return either(
        case.repair,
        case.improvement,
        f"Only the finish is finer ({case.what}). The manual asks what can be done with it afterwards, which speaks "
        "for a repair; an answer of HMRC takes a higher standard for an improvement.",
        rule_as("repair", "improvement"),
    )


@rule(
    "C",
    "better-by-choice",
    "BIM46925; BIM46920; BIM46930; KA-01106",
    CLEAR,
    "read",
    verbs="replaced, repaired, rebuilt",
    flips=(
        "the old one was of that class when it was new",
        "only the finish is finer and it does no more (then write `finer finish`)",
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
        )
    return None


@rule(
    "C",
    "mixed-not-separable",
    "BIM46930; BIM35465; Bullcroft (1932) 17 TC 93, as told in BIM35467",
    CLEAR,
    "read",
    verbs="replaced, repaired, rebuilt, treated",
    flips=("the better part can honestly be priced (then add `improvement £…`)",),
    keep=("an itemised bill, if the trade can still give one",),
)
def mixed_not_separable(case: Case) -> Said:
    """Repair and improvement in one piece of work, with no price for either."""
    if case.facts.compared != "partly better":
        return None
    if case.facts.improvement is not None:
        return Answer(case.repair, "The better part has its own price; the rest put back what was there.", USUAL)
    return Answer(
        case.improvement,
        "Repair and improvement are one piece of work here and the result is better, so all of it is an improvement; "
        "what a plain repair would have cost makes no difference.",
    )


def forced_to_move(case: Case) -> bool:
    """Whether the new layout was forced: required, or it goes with a repair."""
    if case.because("required"):
        return True
    named = [t.name for link in case.facts.links if link.word == "goes with" for t in link.things]
    found = outcomes(case, (p for name in named for p in targets(case, name)))
    return bool(found) and all(p.kind is Kind.REPAIR for o in found for p in (*o.parts, *o.cautious))


@rule(
    "C",
    "layout-changed",
    "KA-01106; BIM46911",
    USUAL,
    "read",
    verbs="replaced, rebuilt, repaired",
    flips=(
        "the new layout was not forced, but wanted for more room or use",
        "the standard is above the old one's",
    ),
    keep=(
        "a plan of the room before and after",
        "the fitter's note of why it changed",
    ),
)
def layout_changed(case: Case) -> Said:
    """The same kind of thing, laid out anew."""
    if not case.facts.new_layout or case.domestic:
        return None
    if case.because("for more rent"):
        return Answer(case.improvement, f"Laid out anew to gain by it ({case.what}).")
    if case.because("chosen"):
        return either(
            case.repair,
            case.improvement,
            f"Laid out anew by choice ({case.what}): where the layout changed a lot that is an improvement, says an "
            "answer of HMRC, and most would call it one; the manual keeps a kitchen of equal quality in a changed "
            "layout as a repair, though its owner called it modernising.",
            rule_as("improvement", "repair"),
        )
    if forced_to_move(case):
        says = "The new layout was forced, so it is part of the repair where the standard is the same."
        return Answer(case.repair, says) if case.facts.compared else Remark(says)
    return either(
        case.repair,
        case.improvement,
        "A layout changed a lot is an improvement, says one answer of HMRC; its manual takes a changed layout as part "
        "of the repair where something forced it. Your book does not say.",
        (", required", ", for more rent"),
    )
