"""Which work left walls to make good where a line of decorating was done: found, not judged. Knows no rule."""

from __future__ import annotations

import re

from .answer import Outcome
from .as_bought import poor
from .case import Case
from .offers import NEAR
from .papers import spoken_of
from .verdict import CAPITAL, Kind


def building_before(case: Case) -> tuple[tuple[int, str], ...]:
    """Building work of the weeks before, in these rooms or all of them, that is an improvement or may finish the
    purchase: position and thing, the nearest first."""
    more = not poor(case)
    found = set(case.history.built(case.house, "", case.day, more))
    if not case.dwelling:
        places = {case.line.thing, *(room.text for room in case.line.rooms)}
        here = {job for place in places for job in case.history.built(case.house, place, case.day, more)}
        found = here | {job for job in found if _in_every_room(case, *job[1:])}
    return tuple((position, thing) for apart, position, thing in sorted(found) if apart <= NEAR)


def _in_every_room(case: Case, position: int, thing: str) -> bool:
    """Whether a job told in no room went through all of them."""
    line = case.history.items[position].line
    return not line.rooms and case.history.known(thing, line.verb).name in IN_EVERY_ROOM


PLAIN_WORDS = frozenset({"and", "back", "front", "house", "new", "old", "rear", "room", "the", "whole"})


def not_told_of(case: Case, jobs: tuple[tuple[int, str], ...]) -> tuple[tuple[int, str], ...]:
    """Those jobs that the improvement part told does not speak of: where its words name none of them, it is for all."""
    told = case.facts.improvement
    if told is None:
        return jobs
    said = _words(" ".join((told.note, *spoken_of(told.note, case.history.catalogue))))
    others = tuple(job for job in jobs if said.isdisjoint(_names(case, *job)))
    return others if len(others) < len(jobs) else ()


def _names(case: Case, position: int, thing: str) -> set[str]:
    """The words that a job may be called by: its thing as typed and as the catalogue knows it, and what it became."""
    line = case.history.items[position].line
    known = case.history.known(thing, line.verb)
    became = (new.name for new in line.becomes.things) if line.becomes else ()
    return _words(" ".join((thing, known.name, *became)))


def _words(text: str) -> set[str]:
    """The telling words of a text, of one form for one thing and many."""
    return {word.rstrip("s") for word in re.findall(r"[a-z]+", text.lower())} - PLAIN_WORDS


REMADE = frozenset({"converted", "extended", "altered"})
# What goes through every room, and what several of them without a room may be spread over: common practice, no source.
IN_EVERY_ROOM = frozenset({"wiring", "central heating", "pipework", "plaster", "fire alarm"})
IN_MANY_ROOMS = frozenset({"internal door", "fire door", "window", "radiator", "basin"})


def opened_up_by(case: Case, jobs: tuple[tuple[int, str], ...]) -> dict[str, Outcome]:
    """The answers of those jobs that are or may be capital and left walls to make good where this was decorated.

    In a room those that cost no less than its paint, as what costs less hardly made all of it needed (ours, no source);
    in a house those that went through it.
    """
    found: dict[str, Outcome] = {}
    for position, thing in jobs:
        answer = case.outcome_of(position)
        kinds = _kinds(answer)
        here = not case.dwelling and case.history.items[position].amount >= case.amount  # no less than the paint
        if answer and not CAPITAL.isdisjoint(kinds) and (here or _leaves_walls(case, position, thing)):
            found.setdefault(thing, answer)
    return found


def capital_jobs(case: Case, jobs: tuple[tuple[int, str], ...]) -> dict[str, Outcome]:
    """The answers of those jobs in themselves that are or may be capital, by their things, the nearest first."""
    items = case.history.items
    alone = ((position, thing) for position, thing in jobs if not items[position].line.facts.links)
    found: dict[str, Outcome] = {}
    for position, thing in alone:
        answer = case.outcome_of(position)
        if answer and not CAPITAL.isdisjoint(_kinds(answer)):
            found.setdefault(thing, answer)
    return found


def _kinds(answer: Outcome | None) -> set[Kind]:
    return {part.kind for part in (*answer.parts, *answer.cautious)} if answer else set()


def _leaves_walls(case: Case, position: int, thing: str) -> bool:
    """Whether a job remade these rooms, or went through all of them, or through many of a house that was decorated."""
    line = case.history.items[position].line
    known = case.history.known(thing, line.verb).name
    if line.verb in REMADE or known in IN_EVERY_ROOM and not (case.dwelling and line.rooms):
        return True
    several = any(told.count and told.count > 1 for told in line.things)
    return case.dwelling and not line.rooms and several and known in IN_MANY_ROOMS
