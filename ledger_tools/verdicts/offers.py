"""The words a landlord may add to a line to settle an open question. Each offer must really settle it. Knows no rule.

An offer that begins with a comma or a blank is added to the line; one that begins with "as bought", "price",
"periodic", "thing" or "council" is a line of a block; one that begins with a day is another line of the book, as it
should be; any other is written in place of what the line says.
"""

from __future__ import annotations

from .case import Case
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


def jobs_near(case: Case, damage: bool = False, most: int = 3) -> tuple[str, ...]:
    """Things of priced jobs in the same house about that time, the nearest first: what a line may go with.

    damage: only those that mended damage.
    """
    near = sorted(case.history.jobs_near(case.house, case.position, NEAR), key=lambda job: job[0])
    things = (
        thing
        for _, thing, position in near
        if not damage or not HARM.isdisjoint(case.history.items[position].line.facts.causes)
    )
    return tuple(dict.fromkeys(things))[:most]


def goes_with(case: Case) -> tuple[str, ...]:
    """`goes with` each of the jobs near; nothing where there are none."""
    return tuple(f", goes with {thing}" for thing in jobs_near(case))
