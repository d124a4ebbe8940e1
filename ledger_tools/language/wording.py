"""Words a mistake of the book language: from the stop of a block to a problem that a landlord can act on.

Mistakes that are known by name come first; for the rest the table of stops says what could have come.
"""

from __future__ import annotations

from ..problems import Problem
from .blocks import Block
from .checks import doubled
from .mistakes import RECOGNISERS
from .mistakes.tables import Next, next_words, nobodys
from .reading import Stop, read
from .spot import Spot, quoted

_OTHERS = {"paid": 'to "The Plumber"', "repaid": 'to "The Tenant"', "received": 'from "The Tenant"'}
_LONGEST = 40  # letters of the book's own text that a headline quotes


def problem(stop: Stop, block: Block, file: str) -> Problem:
    """The one problem of a block that did not read: `stop` as `reading.read(block.text)` gave it."""
    spot = Spot(stop, block, file)
    for recognise in RECOGNISERS:
        found = recognise(spot)
        if found is not None:
            return found
    return _plain(spot)


def _plain(spot: Spot) -> Problem:
    """The sentence of the place, with the line as it might go on."""
    entry = next_words(spot.accepts, spot.last_type, spot.lead)
    help = entry.say if entry else "Nothing that the book knows fits here."
    if entry and entry.like != entry.after:
        help += f" For example: {_example(entry, spot)}"
    before = _shortened(spot.text[spot.head : spot.start].split(",")[-1].strip())
    if spot.unfinished:
        what = f'A line ends too early, after "{before}".' if before else "A line ends before it has begun."
        return spot.error("line-unfinished", what, label="something is missing", help=help)
    typed = _shortened(spot.typed)
    what = f'{quoted(typed)} cannot follow "{before}".' if before else f"A line here cannot begin with {quoted(typed)}."
    if not before and spot.text[spot.head : spot.start].strip():  # only the comma stands between
        what = f"{quoted(typed)} cannot come after the comma."
    return spot.error("word-out-of-place", what, label="does not fit", help=help)


def _reads(text: str, spot: Spot) -> bool:
    """Whether a text reads and says nothing twice."""
    statement = read(text).statement
    return statement is not None and not doubled(statement, spot.block._replace(text=text), spot.file)


def _shortened(text: str) -> str:
    if len(text) <= _LONGEST:
        return text
    kept = text[-_LONGEST:]
    return f"… {kept.partition(' ')[2] or kept}"


def _example(entry: Next, spot: Spot) -> str:
    """The line up to the spot as typed, going on as the entry does; the entry's own line where that does not read."""
    place = len(entry.after)
    tail = entry.like.find("\n", place)
    rest = nobodys(entry.like[place : len(entry.like) if tail < 0 else tail])
    if (verb := next((piece.value for piece in spot.stop.before[:2] if piece.type == "MONEY_VERB"), "")) in _OTHERS:
        rest = rest.replace('by "The Plumber"', _OTHERS[verb])
    typed = spot.text[: spot.start].rstrip(" \t")
    if typed[spot.head :].strip() and not entry.like[:place].endswith("\n"):
        for more in (rest.strip(), rest[rest.find(",") :].strip() if "," in rest else ""):
            own = typed + ("" if more.startswith(",") else " ") + more
            if more and _reads(own, spot):
                return own[spot.head :].strip()
    head = entry.like.rfind("\n", 0, place) + 1
    return nobodys(entry.like[head : len(entry.like) if tail < 0 else tail]).strip()
