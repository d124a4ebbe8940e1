"""Recognises mistakes in how lines stand: the first column, indentation, what lies under what."""

from __future__ import annotations

import re

from ...problems import Fix, Problem
from ..grammar import words
from ..records import Piece
from ..spot import VERBS, Spot, try_reading
from .tables import homes

_JOB = re.compile(r"[ \t]+(?P<job>(?P<number>\d[ \t]+)?(?P<verb>[^\W\d_]+))")
_ROOM = re.compile(r"^[ \t]+in[ \t]", re.M)

def _moved(spot: Spot, indent: str) -> Fix:
    """The line of the spot with another indentation."""
    blanks = len(spot.text[spot.head : spot.tail]) - len(spot.text[spot.head : spot.tail].lstrip(" \t"))
    return Fix(spot.mark(spot.head, spot.head + blanks), indent)


def indented(spot: Spot) -> Problem | None:
    """A line that should begin in the first column, and an indented one with nothing above it."""
    if spot.piece.type == "_NL" and spot.last is None:
        start = spot.piece.end_pos
        stop = try_reading(spot.text[start:])
        begins = stop is None or stop.piece.start_pos > 0
        dated = bool(re.compile(r"\d|[a-z]{3,9}\.? \d{4}", re.I).match(spot.text, start)) and begins
        word = re.compile(r"\S+").match(spot.text, start)
        end = word.end() if word else len(spot.text)
        if dated:
            end = _date_end(spot, start)
            return _dated(spot, start, end, _moved(spot, ""))
        return spot.error(
            "nothing-above",
            "A line is indented, but there is no line above it that it could belong to.",
            at=(start, end),
            label="nothing above",
            fix=_moved(spot, "") if begins else None,
            help="Begin the line in the first column, or write the line it belongs to above it.",
        )
    if spot.piece.type in ("DATE", "MONTH") and spot.begins_line and spot.last is not None and spot.head:
        return _dated(spot, spot.start, spot.end, _moved(spot, ""))
    return None


def _date_end(spot: Spot, start: int) -> int:
    found = re.compile(r"(?:\d+\S* +)?[^\W\d_]{3,9}\.? +\d{4}|\S+", re.I).match(spot.text, start)
    return found.end() if found else start


def _dated(spot: Spot, start: int, end: int, fix: Fix) -> Problem:
    return spot.error(
        "dated-line-indented",
        f"The dated line of {spot.text[start:end]} is indented, and a dated line begins in the first column.",
        at=(start, end),
        label="first column",
        fix=fix,
        help="Take the blanks before it away. Only what belongs to the line above is indented.",
    )


def first_column(spot: Spot) -> Problem | None:
    """A verb or a field in the first column: the date is missing, or the line should be indented."""
    if spot.last is not None or spot.unfinished:
        return None
    low = " ".join(word.lower() for word in spot.typed_words(1))
    kinds = set(words().words.get(low, ())) | {spot.piece.type}
    for phrase in words().phrases.get(low, ()):
        if phrase.match(spot.text, spot.start):
            kinds |= set(phrase.terminals)
    if kinds & VERBS:
        return spot.error(
            "date-missing",
            f'A line begins with "{spot.typed}", but a verb needs its day in front.',
            label="when?",
            help="Write the date first; or indent the line, if it is part of the one above.",
        )
    places = [home for kind in sorted(kinds) for home in homes(kind) if home.startswith("under ")]
    if not places:
        return None
    return spot.error(
        "needs-indent",
        f'"{spot.typed}" belongs {places[0]}, on an indented line.',
        label="indent it",
        help="Put four blanks before it.",
        fix=Fix(spot.mark(spot.head, spot.head), "    "),
    )


def under_the_wrong_line(spot: Spot) -> Problem | None:
    """Jobs under a single work, to-dos without priority or not deep enough, lines too deep, lines under a full one."""
    if spot.piece.type == "_DEEP" and spot.accepts & {"_NL", "$END"}:
        return _job_without_room(_below(spot)) or _too_deep(spot)
    if spot.piece.type == "_NL" and spot.accepts == {"$END"}:
        start = spot.piece.end_pos
        if try_reading(spot.text[start:].partition("\n")[0]) is None:
            return _dated(spot, start, _date_end(spot, start), _moved(_below(spot), ""))
        end = start + len(spot.text[start:].split(None, 1)[0])
        return spot.error(
            "nothing-below",
            "Nothing may stand under this line, so the indented line has no home.",
            at=(start, end),
            label="belongs elsewhere",
            also=(spot.mark(spot.head, spot.tail, "full"),),
            help="Begin the line in the first column, or move it under the line it belongs to.",
        )
    if not spot.begins_line or spot.last is None:
        return None
    if roomless := _job_without_room(spot):
        return roomless
    if spot.piece.type == "NUMBER" and "CONTINGENCY" in spot.accepts:
        indent = spot.text[spot.head : spot.start] + "    "
        return spot.error(
            "needs-deeper-indent",
            "A job of the schedule is indented further than its room.",
            label="further in",
            help="Put four more blanks before it.",
            fix=_moved(spot, indent),
        )
    if spot.accepts == {"NUMBER"} and "TODO_VERB" in words().words.get(spot.typed.lower(), ()):
        return spot.error(
            "priority-missing",
            f'The job "{" ".join(spot.typed_words(3))}" has no priority.',
            label="how urgent?",
            help="Begin it with a figure, 1 for the most urgent.",
            fix=spot.mend(spot.start, spot.start, "1 "),
        )
    if spot.piece.type in ("WORKS_VERB", "PART_VERB", "MONEY_VERB") and "PART_VERB" not in spot.accepts:
        return _job_alone(spot)
    return None


def _below(spot: Spot) -> Spot:
    """The spot at the beginning of the next line."""
    start = spot.piece.end_pos
    return Spot(spot.stop._replace(piece=Piece("", "", start, start)), spot.block, spot.file)


def _job_without_room(spot: Spot) -> Problem | None:
    """A job of a schedule above which no room stands, however far in."""
    found = _JOB.match(spot.text, spot.head)
    above = spot.text[: spot.head]
    if found is None or not above.startswith("schedule") or _ROOM.search(above):
        return None
    if not {"TODO_VERB", "WORKS_VERB"} & set(words().words.get(found["verb"].lower(), ())):
        return None
    room = "    in whole house\n        " + ("" if found["number"] else "1 ")
    return spot.error(
        "job-without-room",
        "This job of the schedule names no room.",
        at=(found.start("job"), found.end()),
        label="where?",
        help="Write the room above it, and the jobs of that room below, further in. What is for no room alone stands "
        "under `in whole house` or `in outside`.",
        fix=Fix(spot.mark(spot.head, found.start("job")), room),
    )


def _too_deep(spot: Spot) -> Problem:
    start = spot.piece.end_pos
    line = _below(spot)
    first = re.search(r"\n([ \t]+)\S", spot.text)
    end = start + len(spot.text[start:].split(None, 1)[0])
    return spot.error(
        "too-deep",
        "A line is indented further than the lines it belongs with.",
        at=(start, end),
        label="too far in",
        fix=_moved(line, first[1] if first else "    "),
        help="Give it the same indentation as the line above.",
    )


def _job_alone(spot: Spot) -> Problem | None:
    """A verb on a line under a statement that has no parts."""
    head = spot.stop.before[0]
    if head.type not in ("DATE", "MONTH"):
        return None
    day = spot.text[head.start_pos : head.end_pos]
    begins = try_reading(f"{day} {spot.rest}")
    fix = _moved(spot, f"{day} ") if begins is None else None
    return spot.error(
        "job-under-work",
        f'"{spot.typed}" stands under a line that has no parts of its own.',
        label="a line of its own",
        help="Only a bill (invoiced) or a sum of money (paid, banked) has jobs under it; give it its own date.",
        fix=fix,
        also=(spot.mark(head.start_pos, spot.text.find("\n"), "has no parts"),),
    )
