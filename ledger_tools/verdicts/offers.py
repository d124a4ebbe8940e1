"""The words a landlord may add to a line to settle an open question. Each offer must really settle it. Knows no rule.

An offer that begins with a comma or a blank is added to the line; one that begins with "as bought", "price",
"periodic", "thing" or "council" is a line of a block; one that begins with a day is another line of the book, as it
should be; any other is written in place of what the line says.
"""

from __future__ import annotations

from .case import Case
from .declared import parts_of
from .told import EVENTS
from .verdict import Kind, Part

RULINGS = {
    Kind.RUNNING: "running cost",
    Kind.REPAIR: "repair",
    Kind.IMPROVEMENT: "improvement",
    Kind.ACQUISITION: "purchase cost",
    Kind.DOMESTIC: "item replaced",
    Kind.NO_RELIEF: "no relief",
    Kind.PRIVATE: "private",
}
COMPARE = (", like for like", ", modern equivalent", ", better", ", does more")
HARM = EVENTS | {"broken"}
NEAR = 120  # days between a job and what served it: ours, no source


def rule_as(*verdicts: str) -> tuple[str, ...]:
    """Your own ruling, in the words of a book."""
    return tuple(f', treat as {verdict} because "…"' for verdict in verdicts)


def treat_as(*answers: tuple[Part, ...]) -> tuple[str, ...]:
    """Your own ruling for each of these answers that is one of the verdicts a book can give."""
    kinds = [{part.kind for part in parts} for parts in answers]
    words = [RULINGS.get(parts[0].kind, "") for parts, held in zip(answers, kinds, strict=True) if len(held) == 1]
    return rule_as(*dict.fromkeys(word for word in words if word))


OUTSIDE = frozenset({"garden", "outbuilding"})
SWAPS = frozenset({"replaced", "rebuilt"})


def jobs_near(case: Case, damage: bool = False, most: int = 3, of: str = "", swaps: bool = False) -> tuple[str, ...]:
    """Things of priced jobs in the same house about that time, the nearest first: what a line may go with.

    damage: only those that mended damage; of: only those that stand where this thing stands, in the grounds or in the
    house, where the catalogue knows it; swaps: only those that put another in place of this thing, or of what it is
    part of or made of.
    """
    history = case.history
    nature = history.known(of, "repaired").nature if of else ""
    found: list[str] = []
    for _, thing, position in sorted(history.jobs_near(case.house, case.position, NEAR), key=lambda job: job[0]):
        line = history.items[position].line
        apart = nature and (nature in OUTSIDE) != (history.known(thing, line.verb).nature in OUTSIDE)
        if apart or (damage and HARM.isdisjoint(line.facts.causes)):
            continue
        if not swaps or (line.verb in SWAPS and same_or_part(history.key(of), history.key(thing, line.verb))):
            found.append(thing)
    return tuple(dict.fromkeys(found))[:most]


def same_or_part(one: str, two: str) -> bool:
    """Whether two names of the catalogue are one, or one of them names a part of the other."""
    return one in parts_of({two}) or two in parts_of({one})


def goes_with(case: Case) -> tuple[str, ...]:
    """`goes with` each of the jobs near; nothing where there are none."""
    return tuple(f", goes with {thing}" for thing in jobs_near(case))
