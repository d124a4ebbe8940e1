"""The words a landlord may add to a line to settle an open question. Each offer must really settle it. Knows no rule.

An offer that begins with a comma or a blank is added to the line; one that begins with "as bought", "price",
"periodic", "marketed", "thing" or "council" is a line of a block; one that begins with a day is another line of the
book, as it should be; any other is written in place of what the line says.
"""

from __future__ import annotations

import re

from ..book.items import same_party
from .answer import in_all, without
from .case import BUILDING, Case
from .declared import parts_of
from .told import EVENTS
from .trades import step_of, steps
from .verdict import Cgt, Kind, Part

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
SOON = 60  # days within which the biggest job is the likelier one: ours, no source


def rule_as(*verdicts: str) -> tuple[str, ...]:
    """Your own ruling, in the words of a book."""
    return tuple(f', treat as {verdict} because "…"' for verdict in verdicts)


def as_replaced(case: Case) -> tuple[str, ...]:
    """The line as typed, with `replaced` for its verb, and each way the new one may compare with the old."""
    mark = case.line.place.mark()
    typed = mark.text[mark.column - 1 : mark.end - 1]
    line = re.sub(r"\b(installed|fitted|added)\b", "replaced", typed, count=1)
    return tuple(f"{line}{words}" for words in COMPARE if words != ", does more")


def treat_as(*answers: tuple[Part, ...]) -> tuple[str, ...]:
    """Your own ruling for each of these answers that is one of the verdicts a book can give, but for what all share."""
    same = in_all(answers)
    words = [{_ruling(part) for part in without(parts, same) or parts} for parts in answers]
    return rule_as(*dict.fromkeys(one for held in words if len(held) == 1 for one in held if one))


def _ruling(part: Part) -> str:
    """The word a book has for such an answer; nothing where it has none."""
    if part.kind is Kind.ACQUISITION and part.cgt is Cgt.DISPOSAL:
        return "cost of selling"
    return RULINGS.get(part.kind, "")


OUTSIDE = frozenset({"garden", "outbuilding"})
SHAPES = frozenset({"converted", "extended", "altered", "rebuilt", "demolished"})  # verbs of works that need plans
SWAPS = frozenset({"replaced", "rebuilt"})
METAL_IN = {  # what the scrap of a metal may have been part of: common practice, no source
    "copper": ("wiring", "central heating", "pipework", "water supply"),
    "lead": ("flashing", "roof", "lead pipe"),
    "iron": ("radiator", "bath", "gutter", "boiler", "soil pipe"),
}


def jobs_near(case: Case, most: int = 3, of: str = "", swaps: bool = False) -> tuple[str, ...]:
    """Things of priced jobs in the same house about that time, the nearest first: what a line may go with.

    of: only those that stand where this thing stands, in the grounds or in the house, where the catalogue knows it;
    swaps: only those that put another in place of this thing, of what it is part of, or of what such a metal is in.
    """
    history = case.history
    nature = history.known(of, "repaired").nature if of else ""
    metal = parts_of({name for word in of.lower().split() for name in METAL_IN.get(word, ())})
    found: list[str] = []
    for _, thing, position in sorted(history.jobs_near(case.house, case.position, NEAR), key=lambda job: job[0]):
        line = history.items[position].line
        apart = nature and (nature in OUTSIDE) != (history.known(thing, line.verb).nature in OUTSIDE)
        if apart:
            continue
        key = history.key(thing, line.verb)
        of_it = key in metal if metal else same_or_part(history.key(of), key)
        if not swaps or (line.verb in SWAPS and of_it):
            found.append(thing)
    return tuple(dict.fromkeys(found))[:most]


def same_or_part(one: str, two: str) -> bool:
    """Whether two names of the catalogue are one, or one of them names a part of the other."""
    return one in parts_of({two}) or two in parts_of({one})


def damage_near(case: Case, of: str = "", most: int = 3) -> tuple[str, ...]:
    """Things whose damage was mended about that time, for money that may have paid for it: before the money, and after
    it only where nothing was mended before.

    First what says how it was harmed (storm, water), then what was just broken, the nearest first. of: only what stands
    where this thing stands, in the grounds or in the house, where the catalogue knows it.
    """
    history = case.history
    nature = history.known(of, "repaired").nature if of else ""
    found: list[tuple[bool, bool, int, str]] = []
    for apart, thing, position in history.jobs_near(case.house, case.position, NEAR):
        line = history.items[position].line
        elsewhere = nature and (nature in OUTSIDE) != (history.known(thing, line.verb).nature in OUTSIDE)
        if not elsewhere and not HARM.isdisjoint(line.facts.causes):
            later, plain = line.day.first > case.day, EVENTS.isdisjoint(line.facts.causes)
            found.append((later, plain, apart, thing))
    before = [job for job in sorted(found) if not job[0]] or sorted(found)
    return tuple(dict.fromkeys(thing for *_, thing in before))[:most]


def could_serve(case: Case, most: int = 3) -> tuple[str, ...]:
    """Things of priced jobs in the same house about that time that a skip, or labour, may have been for.

    First those of the trade in the firm's name ("Brannock Electrical"), then those of the same firm, then those of the
    step of the trades that the line names ("first fix"), then the biggest, those near in time before the others. Plans
    and their control serve works on the building: no loose item, and what gives it more before all else.
    """
    history, line = case.history, case.line
    named = [step.name for step in steps() if step.name in line.thing.lower()]
    said = map(history.catalogue.find, line.who.full.split() if line.who else ())
    trade = parts_of({thing.name for thing in said if thing is not None and thing.nature in BUILDING})

    plans = case.thing.category == "professional"

    def built(job: tuple[int, str, int]) -> bool:
        thing = history.known(job[1], history.items[job[2]].line.verb)
        return history.items[job[2]].line.verb in SHAPES or (thing.nature in BUILDING and not thing.small)

    def rank(job: tuple[int, str, int]) -> tuple[bool, bool, bool, bool, bool, int, int]:
        apart, thing, position = job
        other = history.items[position].line
        step = step_of(other.verb, [history.known(thing, other.verb)]) if named else None
        same_firm = line.who is not None and other.who is not None and same_party(line, other)
        in_step = step is not None and step.name in named
        of_trade = history.key(thing, other.verb) in trade
        shapes = plans and other.verb in SHAPES
        size = history.items[position].amount
        return not shapes, not of_trade, not same_firm, not in_step, apart > SOON, -size, apart

    near = history.jobs_near(case.house, case.position, NEAR)
    jobs = sorted((job for job in near if built(job) or not plans), key=rank)
    found: dict[str, str] = {}
    for _, words, _ in jobs:
        found.setdefault(history.key(words), words)
    return tuple(found.values())[:most]


def with_the_room(case: Case) -> tuple[str, ...]:
    """`goes with` each of the jobs near that was done in the same room, or to that room; any where no room is told."""
    rooms = {str(room).lower() for room in case.line.rooms}
    if not rooms:
        return goes_with(case)
    near = sorted(case.history.jobs_near(case.house, case.position, NEAR))
    items = case.history.items
    where = {position: {str(room).lower() for room in items[position].line.rooms} for *_, position in near}
    found = (thing for _, thing, position in near if rooms & (where[position] | {thing.lower()}))
    return tuple(f", goes with {thing}" for thing in dict.fromkeys(found))


def goes_with(case: Case, of: str = "") -> tuple[str, ...]:
    """`goes with` each of the jobs near, of those that stand where this thing stands; nothing where there are none."""
    return tuple(f", goes with {thing}" for thing in jobs_near(case, of=of))
