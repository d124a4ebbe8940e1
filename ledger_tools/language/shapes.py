"""The shape of a block: its text without the days, sums, quoted words and numbers of papers that fill it.

A landlord writes the same line month after month, year after year. Blocks of one shape have the same tokens but for
their values, so that the lexer and the parser need to look at one of them only. Knows no record.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache
from typing import Any, NamedTuple

from .grammar import words
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
    """What fills a shape: a value between blanks, so that no other token can reach into it.

    "9th June 2025" is left out, since "9th" can be a word where "9" can't.
    """
    found = dict(tables().terminals)
    groups = (
        rf"(?P<DATE>(?!\d+(?:st|nd|rd|th)){found['DATE']})",
        rf"(?P<AMOUNT>{found['AMOUNT']})",
        rf"(?P<STRING>{found['STRING']})",
        rf"(?P<REF>(?<=number ){found['REF']})",
    )
    return re.compile(rf"(?<!\S)(?:{'|'.join(groups)})(?=[\s,]|$)", re.I)


@cache
def _heads() -> tuple[str, ...]:
    """How the phrases that hold a figure begin ("form 17", "every 4 weeks"): after these a figure may be a word."""
    texts = [phrase.text for phrases in words().phrases.values() for phrase in phrases]
    return tuple({head.strip() for text in texts if (head := re.split(r"\d", text, maxsplit=1)[0]) != text})


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


def tokens_of(text: str, pieces: Sequence[Piece], found: Sequence[re.Match[str]]) -> list[Token] | None:
    """The tokens of a block as its shape has them; None where what fills it is not told apart by tokens of its own."""
    fills = {(*match.span(), match.lastgroup) for match in found}
    tokens = [
        Token(p.type, p.value, p.start_pos, p.end_pos, (p.start_pos, p.end_pos, p.type) in fills) for p in pieces
    ]
    if sum(token.filled for token in tokens) < len(found):
        return None
    before = (" ".join(text[: match.start()].lower().replace("-", " ").split()) for match in found)
    return None if any(words.endswith(_heads()) for words in before) else tokens


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
