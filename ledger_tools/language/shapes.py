"""The shape of a block: its text without the days, sums, quoted words and numbers of papers that fill it.

A landlord writes the same line month after month, year after year. Blocks of one shape have the same tokens but for
their values, at the same places, so that the lexer and the parser need to look at one of them only. Knows no record.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache
from typing import NamedTuple

from .lexer import value
from .records import Piece
from .tables import tables


class Slot(NamedTuple):
    """Stands where the block at hand has a value of its own."""

    type: str


_MARKS = ("", "\0a", "\0b", "\0c", "\0d")  # of each kind of value, which no text of a book holds


@cache
def _values() -> re.Pattern[str]:
    """What fills a shape, as the lexer reads it. No run of words comes before a day, so that none can reach into it."""
    found = dict(tables().terminals)
    kinds = [f"(?P<{kind}>{found[kind]})" for kind in ("DATE", "AMOUNT", "STRING")]
    kinds.append(f"number (?P<REF>{found['REF']})")
    return re.compile(rf"(?=[\d£\"n])(?:{'|'.join(kinds)})")  # one look at most signs is enough


def filling(text: str) -> tuple[str, list[re.Match[str]]]:
    """The shape of a block's plain text, and what fills it in order: kinds and lengths are part of the shape."""
    found = list(_values().finditer(text))
    parts: list[str] = []
    at = 0
    for match in found:
        kind = match.lastindex or 0
        start, end = match.span(kind)
        parts += (text[at:start], _MARKS[kind], chr(end - start))
        at = end
    parts.append(text[at:])
    return "".join(parts), found


def with_slots(pieces: Sequence[Piece], found: Sequence[re.Match[str]]) -> list[Piece | Slot] | None:
    """The tokens of a block with slots where it is filled; None where what fills it is no token by itself."""
    fills = {(*match.span(match.lastindex or 0), match.lastgroup) for match in found}
    tokens = [Slot(p.type) if (p.start_pos, p.end_pos, p.type) in fills else p for p in pieces]
    return tokens if sum(type(token) is Slot for token in tokens) == len(found) else None


def filled(kind: str, by: re.Match[str]) -> Piece:
    """The piece in a slot of a kind. ValueError where its value means nothing, such as 30 February."""
    of = by.lastindex or 0
    return Piece(kind, value(kind, by[of]), *by.span(of))
