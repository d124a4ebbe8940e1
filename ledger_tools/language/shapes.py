"""The shape of a block: its text without the days, sums, quoted words and numbers of papers that fill it.

A landlord writes the same line month after month, year after year. Blocks of one shape have the same tokens but for
their values, so that the lexer and the parser need to look at one of them only. Knows no record.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache
from typing import Any, NamedTuple

from .lexer import value
from .records import Piece
from .tables import tables


class Token(NamedTuple):
    """A token of a shape; `filled` where its value comes from the block at hand."""

    type: str
    value: Any
    start: int
    end: int
    filled: bool


@cache
def _values() -> re.Pattern[str]:
    """What fills a shape, as the lexer reads it. No run of words comes before a day, so that none can reach into it."""
    found = dict(tables().terminals)
    kinds = [f"(?P<{kind}>{found[kind]})" for kind in ("DATE", "AMOUNT", "STRING")]
    return re.compile("|".join([*kinds, f"(?P<REF>(?<=number ){found['REF']})"]))


def filling(text: str) -> tuple[str, list[re.Match[str]]]:
    """The shape of a block's plain text, and what fills it in order."""
    found = list(_values().finditer(text))
    parts: list[str] = []
    at = 0
    for match in found:
        start, end = match.span()
        parts += (text[at:start], "\0", match.lastgroup or "")
        at = end
    parts.append(text[at:])
    return "".join(parts), found


def tokens_of(pieces: Sequence[Piece], found: Sequence[re.Match[str]]) -> list[Token] | None:
    """The tokens of a block as its shape has them; None where what fills it is not told apart by tokens of its own."""
    fills = {(*match.span(), match.lastgroup) for match in found}
    tokens = [
        Token(p.type, p.value, p.start_pos, p.end_pos, (p.start_pos, p.end_pos, p.type) in fills) for p in pieces
    ]
    return tokens if sum(token.filled for token in tokens) == len(found) else None


def filled(tokens: Sequence[Token], found: Sequence[re.Match[str]]) -> list[Piece]:
    """The pieces of a block of a shape. ValueError where a value means nothing, such as 30 February."""
    pieces, moved, at = [], 0, 0
    for kind, said, start, end, by_block in tokens:
        if by_block:
            first, last = found[at].span()
            pieces.append(Piece(kind, value(kind, found[at][0]), first, last))
            moved, at = last - end, at + 1
        else:
            pieces.append(Piece(kind, said, start + moved, end + moved))
    return pieces
