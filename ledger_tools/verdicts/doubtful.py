"""Whether a thing is part of the house or a loose item, where honest people differ: both looks are taken.

Knows no rule but its own, and not how either look is found.
"""

from __future__ import annotations

from dataclasses import replace

from .answer import Answer, Outcome, Remark
from .case import Case
from .offers import treat_as
from .registry import hear, own_rule
from .told import standing_loose
from .verdict import ALLOWED, Confidence, Part


def both_ways(case: Case) -> bool:
    """Whether honest people differ on the thing's nature, the line does not settle it, and it matters here."""
    doubtful = case.thing.doubtful and not case.facts.fixing
    return (
        (doubtful or standing_loose(case.line, case.thing))
        and case.line.kind == "works"
        and case.nature == case.thing.nature
        and case.verb in ("replaced", "installed", "added", "bought")
        and case.facts.was_there != "missing when bought"
    )


DOUBT = own_rule(
    "D",
    "doubtful",
    "BIM46910; ITTOIA 2005 s.311A(14)",
    Confidence.ARGUABLE,
    "read",
    "Honest people differ on whether such a thing is part of the house; both looks are taken.",
    flips=(
        "you say how it is fixed, or it is fixed in another way than told",
        "it would go with you, or stay, at a sale",
    ),
    keep=("a photograph of how it is fixed",),
)


def either_nature(case: Case, fixed: Outcome, loose: Outcome) -> Outcome:
    """Both looks at a doubtful thing. Where the sum is the same either way the doubt is harmless and only named."""
    one, two = (fixed, loose) if case.thing.nature != "domestic" else (loose, fixed)
    given = [sum(p.amount for p in o.parts if p.kind in ALLOWED) for o in (one, two)]
    if not one.cautious and not two.cautious and given[0] == given[1] == case.amount:
        said = Remark(
            f"Part of the house, or a loose item ({case.what})? Here the sum is the same either way.",
            Confidence.USUAL,
        )
        hear(one, DOUBT, said)
        return one
    best, worst = (one, two) if given[0] >= given[1] else (two, one)
    # Of two that give no relief, the one that counts for the gain: so the fixed look comes first.
    doubts = (fixed.cautious or fixed.parts, fixed.parts, loose.cautious or loose.parts)
    cautious = min(
        (parts for parts in doubts if parts != best.parts),
        key=lambda parts: sum(p.amount for p in parts if p.kind in ALLOWED),
        default=best.parts,
    )
    others = [o.parts for o in (fixed, loose) if o.parts not in (best.parts, cautious)]
    third = others[0] if others else best.third
    said_both = Answer(
        best.parts,
        _asked(case),
        cautious=cautious,
        ask=_settles_nature(case, fixed, loose, (best.parts, cautious, third)),
        third=third,
    )
    hear(best, DOUBT, said_both)
    both = tuple(words for words in fixed.ask if words in loose.ask)  # what settles it whatever its nature
    best.cautious, best.third, best.ask = cautious, third, (*said_both.ask, *both)
    best.would_change += worst.would_change
    return best


def _asked(case: Case) -> str:
    """The question of its nature; a thing in the grounds that is told to be loose may be part of the property yet."""
    if not standing_loose(case.line, case.thing):
        return f"Part of the house, or a loose item ({case.what})? The answer hangs on it."
    return (
        f"You call it loose ({case.what}); but what stands in the grounds is a part of the property all the same where "
        "it is meant to stay there and to better it for good. The answer hangs on that."
    )


def _settles_nature(
    case: Case, fixed: Outcome, loose: Outcome, answers: tuple[tuple[Part, ...], ...]
) -> tuple[str, ...]:
    """The words that settle what it is: how it is fixed where that leaves nothing open, else a ruling for an answer."""
    told = bool(case.facts.fixing)
    lying = replace(case.line, facts=replace(case.facts, fixing="loose"))
    words = [] if told or fixed.cautious else [", built in"]
    words += [] if told or loose.cautious or standing_loose(lying, case.thing) else [", loose"]
    return (*words, *(() if len(words) == 2 else treat_as(*filter(None, answers))))
