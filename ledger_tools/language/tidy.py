"""The one true layout of a book: the same lines in the same order, with the same words, set out one way.

Works on the tokens of each block and on the text as typed; knows nothing of what a statement means. Nothing is
sorted, joined or split: what stands on a line of its own stays there. A block that does not read is left as it is,
and no text is handed out that would say something else, lose a comment, or change again when tidied again.
"""

from __future__ import annotations

import re
from collections.abc import Container, Iterable, Iterator
from itertools import zip_longest
from typing import NamedTuple

from .blocks import cut, plain
from .layout import BLANKS, comment_row, floor_of, hyphened, lay_out, without_tail
from .reading import read

MOST_BLANK_LINES = 2  # longer gaps are closed up to this
MOST_HYPHENS = 60  # each may need a reading of the block; past this all stay as typed, for the time it takes

_LINE_END = re.compile(r"\r\n|\r|\n")


class TidyRefused(Exception):
    """The layout would have changed more than the layout: a fault of this module. `line` counts from 1."""

    def __init__(self, line: int, why: str) -> None:
        super().__init__(f"line {line}: {why}")
        self.line = line
        self.why = why


class Stretch(NamedTuple):
    """Some lines of a file: one block, or the blank lines and comments between two (`block` is False)."""

    block: bool
    line: int  # the number of its first line, from 1
    typed: str  # its lines as typed, joined by "\n"
    raw: str  # the same with the line ends of the file, without the last
    flat: str  # as typed, with plain signs, as it is read; places in it are places in `typed`
    at: str = ""  # the house the cutter gives the block

    @property
    def reads(self) -> bool:
        """Whether it is a block that makes a statement. An indented line with nothing above it makes none."""
        return self.block and self.flat[:1] not in ("", " ", "\t") and read(self.flat).statement is not None


def tidy(text: str) -> str:
    """The whole text of a file in its layout; the lines end as all of them did, else in "\\n".

    Raises TidyRefused rather than hand out a text that means something else.
    """
    once = _laid_out(text, _stretches(text))
    _compare(text, once)
    return once


def tidy_block(text: str) -> str:
    """The layout of one block, its lines ending in "\\n"; a block that does not read comes back as it is.

    Raises TidyRefused rather than hand out a text that means something else.
    """
    typed = _LINE_END.sub("\n", text)
    laid = _laid_block(Stretch(True, 1, typed, text, plain(typed)))
    if laid is None:
        return text
    once = "\n".join(laid)
    if _laid_block(Stretch(True, 1, once, once, plain(once))) != laid:
        raise TidyRefused(1, "a second pass would change it again")
    return once


def unread(text: str) -> list[int]:
    """The first lines (from 1) of the blocks that do not read and so keep the layout they have."""
    return [part.line for part in _stretches(text) if part.block and not part.reads]


# ── the file ─────────────────────────────────────────────────────────────────────────────────────────────────────


def _stretches(text: str) -> Iterator[Stretch]:
    """The blocks of a file and what lies between them, in order, leaving out no line."""
    typed = _LINE_END.split(text)
    ends = [*_LINE_END.findall(text), ""]

    def part(block: bool, first: int, size: int, at: str = "") -> Stretch:
        own = slice(first, first + size)
        raw = "".join(line + end for line, end in zip(typed[own], ends[own], strict=True))
        text = "\n".join(typed[own])
        return Stretch(block, first + 1, text, raw.removesuffix(ends[first + size - 1]), plain(text), at)

    done = 0
    for block in cut(plain(text)):
        first = block.line - 1
        if first > done:
            yield part(False, done, first - done)
        size = block.text.count("\n") + 1
        yield part(True, first, size, block.at)
        done = first + size
    if done < len(typed):
        yield part(False, done, len(typed) - done)


def _laid_out(text: str, parts: Iterable[Stretch]) -> str:
    """The layout of a text cut into its parts, unchecked."""
    rows: list[str] = []
    floor = 0
    for part in parts:
        if not part.block:
            rows += _laid_gap(part.typed, floor)
        elif (laid := _laid_block(part)) is not None:
            rows += laid
            floor = floor_of(read(part.flat).pieces)
        else:
            rows.append(part.raw)
            floor = 0
    ends = set(_LINE_END.findall(text))
    end = "\r\n" if ends == {"\r\n"} else "\n"
    return "".join(row + end for row in _closed_up(rows))


def _closed_up(rows: list[str]) -> Iterator[str]:
    """The rows without blank ones at either end of the file, and no more than so many on end between."""
    blank = 0
    begun = False
    for row in rows:
        if not row:
            blank += 1
            continue
        if begun:
            yield from [""] * min(blank, MOST_BLANK_LINES)
        yield row
        begun, blank = True, 0


def _laid_gap(typed: str, floor: int) -> list[str]:
    """Blank lines and comments outside a block; an indented comment is still about the block above it."""
    rows = []
    for line in typed.split("\n"):
        comment = line.lstrip(BLANKS)
        rows.append(comment_row(line[: len(line) - len(comment)], comment, floor))
    return rows


# ── a block ──────────────────────────────────────────────────────────────────────────────────────────────────────


def _laid_block(part: Stretch) -> list[str] | None:
    """The lines of a block in their layout; None where it does not read."""
    if not part.reads:
        return None
    typed = part.typed
    reading = read(part.flat)
    assert reading.statement is not None
    meaning = reading.statement.meaning

    def lay(hyphens: Container[int]) -> list[str] | None:
        rows = lay_out(typed, reading.pieces, hyphens)
        again = read(plain("\n".join(rows))).statement
        return rows if again is not None and again.meaning == meaning else None

    if (laid := lay(())) is not None:
        return laid
    # "walk-in wardrobe" without its hyphen would be a wardrobe in a wardrobe: such hyphens stay, all others go.
    needed = {start for piece in reading.pieces if piece.type == "WORDS" for start in hyphened(typed, piece)}
    laid = lay(needed)
    for start in sorted(needed) if len(needed) <= MOST_HYPHENS else ():
        if (without := lay(needed - {start})) is not None:
            needed, laid = needed - {start}, without
    if laid is None:
        raise TidyRefused(part.line, "its layout would read as something else")
    return laid


# ── the promise ──────────────────────────────────────────────────────────────────────────────────────────────────


def _compare(text: str, once: str) -> None:
    """Raise TidyRefused where the layout `once` says anything else than the text, or is not its own layout."""
    before, after = list(_stretches(text)), list(_stretches(once))
    old_blocks, new_blocks = ([part for part in parts if part.block] for parts in (before, after))
    for old, new in zip(old_blocks, new_blocks, strict=False):
        if old.at != new.at:
            raise TidyRefused(old.line, "its lines, or those below it, would belong to another house")
        if not old.reads:
            if old.raw != new.raw:
                raise TidyRefused(old.line, "a block that does not read would be changed")
        elif not new.reads or _meaning(old) != _meaning(new):
            raise TidyRefused(old.line, "its layout would read as something else")
    if len(old_blocks) != len(new_blocks):
        raise TidyRefused(1, "blocks would be joined or split")
    for old_words, new_words in zip_longest(_verbatim(before), _verbatim(after), fillvalue=(1, "")):
        if old_words[1] != new_words[1]:
            raise TidyRefused(old_words[0], "a comment or quoted words would be changed")
    if (twice := _laid_out(once, after)) != once:
        pairs = zip(once.split("\n"), twice.split("\n"), strict=False)
        line = next((number for number, (one, two) in enumerate(pairs, 1) if one != two), 1)
        raise TidyRefused(line, "a second pass would change it again (the line is that of the layout)")


def _meaning(part: Stretch) -> object:
    statement = read(part.flat).statement
    return statement.meaning if statement is not None else None


def _verbatim(parts: Iterable[Stretch]) -> Iterator[tuple[int, str]]:
    """All comments, and quoted words of blocks that read, as typed, each with its line."""
    for part in parts:
        if not part.block:
            for number, line in enumerate(part.typed.split("\n"), part.line):
                if comment := line.strip(BLANKS):
                    yield number, comment
        elif part.reads:
            number, counted = part.line, 0
            for piece in read(part.flat).pieces:
                if piece.type in ("comment", "STRING"):
                    words = part.typed[piece.start_pos : piece.end_pos]
                    number += part.typed.count("\n", counted, piece.start_pos)
                    counted = piece.start_pos
                    yield number, without_tail(words) if piece.type == "comment" else words[1:-1]
