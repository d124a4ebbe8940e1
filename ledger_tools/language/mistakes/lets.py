"""Recognises what a landlord tells on a dated line and the book holds elsewhere: tenancies, deposits, own time.

Knows how people say it; what follows from it is for others.
"""

from __future__ import annotations

import re

from ...problems import Problem
from ..spot import Spot
from .remarks import as_fact
from .verbs import behind_date

_MONTH = "(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*"
_DAY = re.compile(rf"\b\d{{1,2}}(?:st|nd|rd|th)? +{_MONTH} +\d{{4}}|\b\d{{1,2}}/\d{{1,2}}/\d{{4}}", re.I)
_ENDS = r"(?=[ \t]*(?:$|[,.#]|on\b|today|yesterday|early|owing|leaving|without|out\b|the (?:house|flat|property|room)))"
_WHO = r"(?P<who>[^\W\d_][\w'-]*(?: [^\W\d_][\w'-]*){0,2})"
_SAID: tuple[tuple[re.Pattern[str], str], ...] = tuple(
    (re.compile(pattern, re.I), write)
    for pattern, write in (
        (rf"{_WHO} (?:has |have |had )?(?:left|moved out|vacated|checked out){_ENDS}", "moved out {day}"),
        (rf"{_WHO} (?:has |have |had )?(?:moved in|checked in|got the keys){_ENDS}", "moved in {day}"),
        (r"(?:end of|ended) (?:the )?(?:tenancy|let)\b|(?:tenancy|let) (?:has )?ended\b", "ended {day}"),
        (r"(?:i |we )?(?:served|issued)\b[^£,]*\b(?:notice|section \d+)", "notice {day} by landlord"),
        (r"(?:i|we|landlord) (?:gave|handed in) (?:[\w']+ )?notice\b", "notice {day} by landlord"),
        (rf"{_WHO} (?:gave|has given|handed in|served) (?:[\w']+ )?notice\b", "notice {day} by tenant"),
        (r"(?:gave|given) (?:[\w']+ )?notice\b", "notice {day} by landlord"),
        (
            r"(?:protected|registered|lodged|secured) (?:the |their |his |her )?deposit\b"
            r"|deposit (?:was )?(?:protected|registered)\b",
            "deposit {sum}, received …, protected {day}",
        ),
        (
            r"(?:new |the )?rent (?:increase|rise|change|review|reduction|went up|goes up|up)\b"
            r"|(?:the )?rent (?:increased|raised|put up|reduced)\b|put (?:the )?rent (?:up|down)\b|new rent\b"
            r"|(?:increased|raised|reduced|lowered|upped|put up) (?:the )?rent\b",
            "rent {sum} a month from {later}, notice {day}",
        ),
        (r"(?:re-?let|let|rented out|let out)\b(?! off)", "from {later}"),
    )
)
_OWN = re.compile(
    r"(?:(?:my|our) (?:own )?(?:labour|time|work|hours|effort)|own (?:labour|time|work))\b"
    r"|(?:did|done) it (?:my|our)sel(?:f|ves)\b|\d+(?:\.\d)? ?(?:hours|hrs|days) (?:of )?(?:my|our|own)\b",
    re.I,
)


_HOURS = re.compile(
    r"(?:own (?:labour|time|work)[ \t,]*)?(?P<count>\d+(?:\.\d+)?)[ \t]*(?P<unit>hours?|hrs?\.?|days?)\b"
    r"(?P<mine>[ \t]*,?[ \t]*(?:of )?(?:(?:my|our) )?(?:own )?"
    r"(?:labour|time|work|graft|me|myself|ourselves|us|mine|by me)\b)?"
    r"(?=[ \t]*(?:[,£\"#\n]|$)|[ \t]+(?:in|by|at|from|to)\b)",
    re.I,
)


def tenancy_told(spot: Spot) -> Problem | None:
    """smith left, protected deposit, rent increase £950 from …: what the block of the tenancy holds."""
    if not behind_date(spot):
        return None
    for pattern, write in _SAID:
        found = pattern.match(spot.rest)
        if found is None:
            continue
        end = spot.start + found.end()
        later = _DAY.search(spot.text, end, spot.tail)
        line = write.format(day=spot.day, sum=spot.sum, later=later[0] if later else spot.day)
        more = " Give the whole new rent, and the day you told them of it." if line.startswith("rent") else ""
        return spot.error(
            "belongs-elsewhere",
            f'"{spot.text[spot.start : end]}" belongs under a tenancy, not on a dated line.',
            at=(spot.start, end),
            label="belongs elsewhere",
            help=f"Put an indented line into the block of that tenancy: `{line}`.{more}",
        )
    return None


def own_time(spot: Spot) -> Problem | None:
    """my own labour £200.00: one's own time, as if it were a cost."""
    if not behind_date(spot) or (found := _OWN.match(spot.rest)) is None:
        return None
    return spot.error(
        "verb-missing",
        f'No verb stands after the date, but "{found[0]}", and your own time is never a cost.',
        at=(spot.start, spot.start + found.end()),
        label="no cost",
        help="Leave the line out. Materials are lines of their own, such as `bought paint £24.00`, "
        'and a job you did yourself ends in ", own labour".',
    )


def hours_worked(spot: Spot) -> Problem | None:
    """cleared house 14 hours own labour: how long one worked oneself, in other words than the book's."""
    if spot.lead not in ("WORKS_VERB", "PART_VERB") or not spot.day or spot.unfinished:
        return None
    told = next((piece for piece in spot.stop.before[-2:] if piece.type == "OWN_LABOUR"), None)
    start = told.start_pos if told else spot.start
    found = _HOURS.match(spot.text, start)
    if found is None or not found["mine"] and found["unit"].lower().startswith("day"):
        return None  # 3 days may be how long something was hired
    if found["unit"].lower().startswith("day"):
        fact = f'own labour, because "{found["count"]} {found["unit"]}"'
    else:
        fact = f"own labour {found['count']} {'hour' if found['count'] == '1' else 'hours'}"
    fix = as_fact(spot, start, found.end(), fact)
    return spot.error(
        "other-word",
        f'"{found[0]}" is told in other words here.',
        at=(start, found.end()),
        label="own labour?",
        help="Your own time is noted in hours and is never a cost. If somebody was paid for it, leave the hours out "
        "and write the sum and `by` with a name.",
        fix=fix,
    )
