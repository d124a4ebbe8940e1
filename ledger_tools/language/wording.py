"""Words a mistake of the book language: from the stop of a block to a problem that a landlord can act on.

Mistakes that are known by name come first; for the rest the table of stops says what could have come.
"""

from __future__ import annotations

from ..problems import Problem
from .blocks import Block
from .mistakes import RECOGNISERS
from .mistakes.tables import Next, next_words
from .reading import Stop
from .spot import Spot, quoted

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
        help += f" For example: {_example(entry)}"
    before = _shortened(spot.text[spot.head : spot.start].split(",")[-1].strip())
    if spot.unfinished:
        what = f'A line ends too early, after "{before}".' if before else "A line ends before it has begun."
        return spot.error("line-unfinished", what, label="something is missing", help=help)
    typed = _shortened(spot.typed)
    what = f'{quoted(typed)} cannot follow "{before}".' if before else f"A line here cannot begin with {quoted(typed)}."
    return spot.error("word-out-of-place", what, label="does not fit", help=help)


def _shortened(text: str) -> str:
    if len(text) <= _LONGEST:
        return text
    kept = text[-_LONGEST:]
    return f"… {kept.partition(' ')[2] or kept}"


def _example(entry: Next) -> str:
    """The line of the example on which the place lies."""
    head = entry.like.rfind("\n", 0, len(entry.after)) + 1
    tail = entry.like.find("\n", len(entry.after))
    return entry.like[head : len(entry.like) if tail < 0 else tail].strip()
