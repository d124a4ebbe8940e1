"""How the tokens of a block are set out on its lines: blanks, commas, indentation, and the one way to write each.

Knows nothing of files, nor of what a statement means; tidy.py sees to it that nothing but the layout changes.
"""

from __future__ import annotations

import re
from collections.abc import Container

from ..days import MONTHS
from .blocks import PLAIN, plain
from .records import Piece

DATE_WIDTH = 11  # "12 May 2025"; two blanks later, in column 14, stands the verb
VERB_WIDTH = 9  # "installed"; two blanks later stands what it happened to
STEP = 4  # a detail line stands one step in, a line that goes on with a detail line two

BLANKS = " \t" + "".join(chr(sign) for sign, as_read in PLAIN.items() if as_read == " ")  # all that read as blank

_OPENING_VERBS = ("WORKS_VERB", "PART_VERB", "SPENT")  # a detail line that begins with one lines up its verb
_AS_TYPED = ("NUMBER", "PERCENT", "TAXYEAR", "REF")


def lay_out(typed: str, pieces: tuple[Piece, ...], hyphens: Container[int]) -> list[str]:
    """The lines of a block that reads as these pieces; words beginning at a place in `hyphens` keep theirs."""
    return _Layout(typed, hyphens).rows(pieces)


def hyphened(typed: str, words: Piece) -> list[int]:
    """Where in the block the words with hyphens begin."""
    run = plain(typed[words.start_pos : words.end_pos])
    return [words.start_pos + word.start() for word in re.finditer(r"[^ \t]+", run) if "-" in word[0]]


def floor_of(pieces: tuple[Piece, ...]) -> int:
    """How far in the detail lines of a block were typed; 0 where it has none."""
    return next((int(piece.value) for piece in pieces if piece.type == "_NL"), 0)


def comment_row(before: str, comment: str, floor: int) -> str:
    """A comment on a line of its own: it keeps the first column, or stands as far in as lines typed like it do."""
    deep = len(plain(before).expandtabs(4))
    step = 0 if not before else 2 if 0 < floor < deep else 1
    return without_tail(" " * STEP * step + comment)


def without_tail(line: str) -> str:
    """The line without the blanks, of any kind, at its end."""
    return line.rstrip(BLANKS)


class _Layout:
    """One pass over the tokens of a block that reads, gathering its lines."""

    def __init__(self, typed: str, hyphens: Container[int]) -> None:
        self.typed = typed
        self.flat = plain(typed)
        self.hyphens = hyphens  # where words begin that keep theirs
        self.cells: list[str] = []  # of the line being gathered
        self.step = 0  # how far in the line stands
        self.last: Piece | None = None  # the token before

    def rows(self, pieces: tuple[Piece, ...]) -> list[str]:
        """The lines of the block."""
        rows = [""] * (self.typed.count("\n") + 1)
        floor = floor_of(pieces)
        said = self._said(pieces)
        newline: Piece | None = None  # the one just read, if the line after it has not begun
        line = step = seen = 0  # the line, its step, how far its number has been counted
        for number, piece in enumerate(said):
            if piece.type in ("_NL", "_DEEP"):
                newline = piece
                continue
            here = line + self.flat.count("\n", seen, piece.start_pos)
            seen = piece.start_pos
            begins = here > line or number == 0
            if begins:
                rows[line], self.cells, line = self._row(), [], here
            if piece.type == "comment":
                comment = self.typed[piece.start_pos : piece.end_pos]
                if begins:
                    head = self.flat.rfind("\n", 0, piece.start_pos) + 1
                    self.cells, self.step = [comment_row(self.typed[head : piece.start_pos], comment, floor)], 0
                else:
                    self.cells = [f"{self._row()}  {comment}"]
                    self.step = 0
                continue
            if begins:
                if newline is not None:
                    step = 1 if newline.type == "_NL" else 2
                # A line that runs on from a comma stands a step further in than the line it goes on with.
                self.step = step if newline is not None or number == 0 else step + 1
                newline = None
            self._add(piece, opens=begins and self.step > 0)
        rows[line] = self._row()
        return rows

    def _said(self, pieces: tuple[Piece, ...]) -> list[Piece]:
        """The tokens to write: `for` before a plain price goes, but not where a house was bought for so much."""
        self.dated = pieces[0].type in ("DATE", "MONTH")
        if pieces[0].type == "PROPERTY":
            return list(pieces)
        after = [piece.type for piece in pieces[1:]] + [""]
        return [p for p, following in zip(pieces, after, strict=True) if (p.type, following) != ("FOR", "AMOUNT")]

    def _row(self) -> str:
        """The line gathered so far."""
        return without_tail(" " * STEP * self.step + " ".join(self.cells)) if self.cells else ""

    def _add(self, piece: Piece, opens: bool) -> None:
        """Put a token on the line; dates and verbs are followed by blanks to the end of their field."""
        cells = self.cells
        if piece.type == "_COMMA":
            cells[-1] = cells[-1].rstrip(" ") + ","
            return
        word = self._word(piece)
        self.last = piece
        if self.dated and self.step == 0 and not cells:
            word = word.ljust(DATE_WIDTH + 1)
        elif self.dated and self.step == 0 and len(cells) == 1 or opens and piece.type in _OPENING_VERBS:
            word = word.ljust(VERB_WIDTH + 1)
        cells.append(word)

    def _word(self, piece: Piece) -> str:
        """A token as the layout writes it."""
        start, end = piece.start_pos, piece.end_pos
        if piece.type == "STRING":
            return f'"{self.typed[start + 1 : end - 1]}"'
        if piece.type == "DATE":
            return f"{piece.value.day} {MONTHS[piece.value.month - 1]} {piece.value.year:04d}"
        if piece.type == "MONTH":
            year, month = piece.value
            return f"{MONTHS[month - 1]} {year:04d}"
        if piece.type == "AMOUNT":
            return _amount(self.flat[start:end])
        if piece.type == "WORDS":
            return self._words(start, end)
        if piece.type == "NAME":
            name = self.flat[start:end]
            return name.upper() if self._letter_awaited() and name.isascii() else _lower(name)
        return self.flat[start:end] if piece.type in _AS_TYPED else str(piece.value)

    def _letter_awaited(self) -> bool:
        """Whether the token before was the keyword of a letter that councils write large: band C, class F."""
        return self.last is not None and self.last.type != "NAME" and self.last.value in ("band", "class")

    def _words(self, start: int, end: int) -> str:
        """A run of plain words, with single blanks."""
        words = []
        for word in re.finditer(r"[^ \t]+", self.flat[start:end]):
            join = "-" if start + word.start() in self.hyphens else " "
            words.append(join.join(map(_lower, word[0].split("-"))))
        return " ".join(words)


def _lower(word: str) -> str:
    """In small letters; a letter that has no small form of its own (a Turkish dotted I) leaves the word as typed."""
    low = word.lower()
    return low if len(low) == len(word) else word


def _amount(typed: str) -> str:
    """A sum with its thousands marked; pence only where they were typed."""
    whole, dot, pence = typed.removeprefix("£").strip().replace(",", "").partition(".")
    return f"£{int(whole):,}{dot}{pence}"
