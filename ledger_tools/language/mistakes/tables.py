"""Loads the tables of wording: what comes next at every place, words of other books, signs, where words are at home."""

from __future__ import annotations

import re
import tomllib
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

from ..spot import accepts_at, lead, stop_at

LANGUAGE = Path(__file__).parents[1]


_ROLES = {"by": "Plumber", "from": "Shop", "to": "Plumber", "booked": "Plumber"}
_NAMED = re.compile(r"\b(by|from|to|booked) (?:larkin|volt|quayside|wharf)\b", re.I)


def nobodys(line: str) -> str:
    """An example of the tables with nobody's name in it, so that it is not taken for somebody of the book."""
    return _NAMED.sub(lambda found: f'{found[1]} "The {_ROLES[found[1].lower()]}"', line)


class Next(NamedTuple):
    """What may come at one place: a text that reaches it, the sentence, and the text as it might go on."""

    after: str
    say: str
    like: str


class Sign(NamedTuple):
    """A sign that does not belong: its code and headline, and what is tried in its place."""

    signs: str
    code: str
    say: str
    label: str
    help: str
    puts: tuple[str, ...]


class Turn(NamedTuple):
    """Words people use and the words of the book; `say` where there is no single answer."""

    typed: tuple[str, ...]
    write: str
    say: str


class Noun(NamedTuple):
    """Words for a sum that stand where a verb should: what the book writes when it came, and when it went."""

    typed: tuple[str, ...]
    came: str
    went: str


def _table(name: str) -> Any:
    return tomllib.loads((LANGUAGE / name).read_text(encoding="utf-8"))


def _turns(rows: list[dict[str, Any]]) -> tuple[Turn, ...]:
    return tuple(Turn(tuple(row["typed"]), row.get("write", ""), row.get("say", "")) for row in rows)


_WORDS = _table("turns.toml")
SIGNS = tuple(Sign(**{**row, "puts": tuple(row["puts"])}) for row in _WORDS["sign"])
TURNS = _turns(_WORDS["turn"])
VERB_TURNS = _turns(_WORDS["verb"])
NOUNS, ENDINGS = (
    tuple(Noun(tuple(row["typed"]), row["came"], row["went"]) for row in _WORDS[table]) for table in ("noun", "ending")
)
PLAIN_ENGLISH = frozenset(_WORDS["plain"]["words"].split())
NUMBERS: dict[str, str] = _WORDS["numbers"]
PARTICIPLES: dict[str, str] = _WORDS["participles"]
PLACES: tuple[tuple[str, str], ...] = tuple((row["after"], row["called"]) for row in _WORDS["place"])


# What a bare figure may count that is no money.
UNITS = (
    r"hours?|hrs?|days?|nights?|weeks?|months?|years?|miles?|m2|m²|sqm|sq|square|metres?|meters?|mm|cm|ft|feet|litres?"
    r"|tins?|bags?|rolls?|packs?|boxes|sheets?|coats?|loads?|visits?|trips?|lots?|pieces?|kg|tonnes?"
)

# A room by the names it mostly goes by; the book may have others.
ROOM = (
    r"(?:(?:front|back|rear|main|spare|master|small|large|single|double|middle|upstairs|downstairs|top|first|second) )*"
    r"(?:bedroom|bed|bathroom|kitchen|lounge|living room|sitting room|front room|dining room|diner|hall|hallway|landing"
    r"|stairs|stairwell|loft|attic|cellar|basement|utility(?: room)?|toilet|wc|cloakroom|study|box ?room|garage|garden"
    r"|yard|conservatory|porch|en-?suite|shower room|airing cupboard|pantry|room(?= \d))(?: \d+)?"
)

# What people say of an old thing: that it was worn out, that it broke.
WORN = r"(?:worn(?: out)?|torn|tatty|threadbare|past it|rotten|perished|knackered|falling apart)"
BROKE = (
    r"(?:broken(?: down)?|broke(?: down)?|died|dead|packed up|packed in|gave up|given up|failed|bust|blew up|leaking"
    r"|condemned|unsafe|stopped working|beyond repair)"
)


def old_one_said(text: str) -> str:
    """A line with ", old one condemned" as the fact of the book it is: ", broken"."""
    for said, fact in ((WORN, "worn out"), (BROKE, "broken")):
        told = rf"\b(?:the )?old one(?: (?:was|is|had|has|got))* {said}(?=[ \t]*(?:,|$))"
        text = re.sub(told, fact, text, flags=re.I)
    return text


def ways() -> list[dict[str, str]]:
    """The rows of ways.toml, as they stand there."""
    rows: list[dict[str, str]] = _table("ways.toml")["way"]
    return rows


@cache
def stops() -> tuple[Next, ...]:
    """All entries of stops.toml."""
    return tuple(Next(row["after"], nobodys(row["say"]), row["like"]) for row in _table("stops.toml")["stop"])


@cache
def by_place() -> dict[tuple[frozenset[str], str, str], Next]:
    """The entries by what could come next, the kind of the word before, and the kind of the ruling word.

    The first entry of a set also stands under no words at all, the first with its word before under no ruling word.
    """
    found: dict[tuple[frozenset[str], str, str], Next] = {}
    for entry in stops():
        stop = stop_at(entry.after)
        if stop is None:
            continue
        last = stop.before[-1].type if stop.before else ""
        for key in ((last, lead(stop)), (last, "any"), ("any", "any")):
            found.setdefault((stop.accepts, *key), entry)
    return found


def next_words(accepts: frozenset[str], last: str, ruling: str = "any") -> Next | None:
    """The entry for a place, one for the word before it if there is one; None where none was written."""
    table = by_place()
    keys = ((last, ruling), (last, "any"), ("any", "any"))
    return next((table[accepts, *key] for key in keys if (accepts, *key) in table), None)


@cache
def _homes() -> dict[str, tuple[str, ...]]:
    found: dict[str, list[str]] = {}
    for after, called in PLACES:
        for name in accepts_at(after):
            found.setdefault(name, []).append(called)
    return {name: tuple(dict.fromkeys(called)) for name, called in found.items()}


def homes(terminal: str) -> tuple[str, ...]:
    """Where words of this kind are at home: "on lines about works", "under a tenancy"; () for clauses and values."""
    return _homes().get(terminal, ())


def place_called(accepts: frozenset[str]) -> str:
    """What this place is called, "" for one of no name."""
    return next((called for after, called in PLACES if accepts_at(after) == accepts), "")
