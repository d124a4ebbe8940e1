"""Recognises a job of a schedule told in other words: a verb of the trade, or a thing without what to do with it.

Knows no schedule but the line it looks at; what is planned for a thing is never guessed.
"""

from __future__ import annotations

import re
from functools import cache

from ...problems import Problem
from ..asked import PLAIN_FORMS
from ..grammar import words
from ..spot import Spot
from .tables import VERB_TURNS
from .verbs import thing_of

# Verbs of a dated line that a schedule says with another word.
_NOW = {"paint": "decorate", "mend": "repair", "fit": "install"}
_LOOKS = re.compile(r"(?:the )?(.+) (?:survey|report|inspection|check|test)", re.I)


@cache
def _turns() -> dict[str, str]:
    """Verbs of the trade, said of what was done or is to do, and what a schedule writes in their place."""
    found: dict[str, str] = {}
    for turn in VERB_TURNS:
        done, _, rest = re.sub(r"(?: in| for)? \{\}", "", turn.write).partition(" ")
        verb = PLAIN_FORMS.get(done, "")
        if "TODO_VERB" not in words().words.get(_NOW.get(verb, verb), ()):
            continue
        for past in turn.typed:
            for now in (past, past[:-1], past[:-2], past[:-3]):  # rewired, rewire; plastered, plaster; skimmed, skim
                found.setdefault(now, f"{_NOW.get(verb, verb)} {rest}".strip())
    return found | _NOW


def job_told(spot: Spot) -> Problem | None:
    """1 rewire £4,200, 3 paint walls, 2 extractor fan £120: after the priority comes what to do, then with what."""
    low = spot.typed.lower()
    here = spot.last_type == "NUMBER" and "TODO_VERB" in spot.accepts and not spot.unfinished
    if not here or "TODO_VERB" in words().words.get(PLAIN_FORMS.get(low, low), ()):
        return None
    turned = _turns().get(low)
    return _no_verb(spot) if turned is None else _other_verb(spot, turned)


def _other_verb(spot: Spot, turned: str) -> Problem:
    thing = thing_of(spot, spot.end)
    whole = " " in turned  # the words bring their own thing: rewire lounge is replace wiring, in the room above
    end = spot.start + len(spot.typed) + (len(spot.rest[len(spot.typed) :].partition(thing)[0]) + len(thing) if
                                          whole and thing else 0)  # fmt: skip
    return spot.error(
        "unknown-verb",
        f'"{spot.typed}" is not a verb of the book.',
        label=f"{turned}?",
        help=f"A schedule says `{turned}`." + (" Where, the line of the room above it tells." if whole else ""),
        fix=spot.mend(spot.start, end, turned),
    )


def _no_verb(spot: Spot) -> Problem | None:
    thing = thing_of(spot, spot.start - 1)
    if not thing or not spot.typed.isalpha():
        return None
    bare = thing.removeprefix("new ")
    help = (
        f"Put it in front: `replace {bare}` if it takes the place of an old one, `install {bare}` if there is none, "
        f"`repair {bare}` if the old one stays."
    )
    if looked := _LOOKS.fullmatch(thing):
        help = f"Put it in front, such as `inspect {looked[1]}`, and write `inspected {looked[1]}` once it was done."
    return spot.error(
        "job-without-verb",
        f'The job "{thing}" does not say what is to be done.',
        at=(spot.start, spot.start + len(thing)),
        label="do what?",
        help=help,
    )
