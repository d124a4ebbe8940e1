"""Rows of cells lined up under one another on a page of a fixed width: cells too long for it go on below.

No line is wider than the page unless a single word is; no number, day or amount is ever broken. Knows no statement.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from itertools import zip_longest

WIDTH = 100
ROOM = 24  # letters that names and words keep before a place in a file is broken
_WHOLE = re.compile(r"(?<=\d) (?=(?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)\b)|(?<=[A-Z][a-z]{2}) (?=\d{4}\b)")
_PIECE = re.compile(r"(?:[^ /-]|-(?![a-z]))*(?:/|-(?=[a-z]))|(?:[^ /-]|-(?![a-z]))+ ?| +")


def columns(rows: Sequence[Sequence[str]], right: Collection[int], gap: str = "   ", margin: str = "") -> list[str]:
    """Rows of cells lined up; the columns named in `right` are set against their right edge."""
    return [line for row in lined_up(rows, right, gap, margin) for line in row]


def lined_up(
    rows: Sequence[Sequence[str]], right: Collection[int], gap: str = "   ", margin: str = ""
) -> list[list[str]]:
    """The same, the lines of each row for themselves."""
    if not rows:
        return []
    widths = [max(len(row[i]) for row in rows) for i in range(len(rows[0]))]
    room = WIDTH - len(margin) - len(gap) * (len(widths) - 1)
    if sum(widths) > room:
        widths = _narrowed(rows, widths, room)
    folded = [_folded(row, widths) for row in rows]
    widths = [max(len(cells[i]) for lines in folded for cells in lines) for i in range(len(widths))]
    return [[_line(cells, widths, right, gap, margin) for cells in lines] for lines in folded]


def _line(cells: Sequence[str], widths: Sequence[int], right: Collection[int], gap: str, margin: str) -> str:
    pairs = enumerate(zip(cells, widths, strict=True))
    line = gap.join(cell.rjust(wide) if i in right else cell.ljust(wide) for i, (cell, wide) in pairs)
    return f"{margin}{line}".rstrip()


def _narrowed(rows: Sequence[Sequence[str]], widths: Sequence[int], room: int) -> list[int]:
    """Widths that fit, as far as words allow: the widest column gives way first, words before places in files."""
    least = [max(_longest(row[i], places=False) for row in rows) for i in range(len(widths))]
    last = [max(_longest(row[i], places=True) for row in rows) for i in range(len(widths))]
    found = list(widths)
    for floor in ([max(n, min(ROOM, w)) for n, w in zip(least, widths, strict=True)], least, last):
        while sum(found) > room:
            loose = [i for i, width in enumerate(found) if width > floor[i]]
            if not loose:
                break
            found[max(loose, key=lambda i: found[i])] -= 1
    return found


def _pieces(cell: str) -> list[str]:
    """A cell in the pieces it may be broken into; the blanks of a day hold."""
    return [piece.replace("\xa0", " ") for piece in _PIECE.findall(_WHOLE.sub("\xa0", cell))]


def _longest(cell: str, places: bool) -> int:
    """The longest piece of a cell that stays whole, with its indentation; places: whether those may be broken, and
    names with hyphens."""
    pieces = _pieces(cell) if places else _WHOLE.sub("\xa0", cell).split(" ")
    words = [piece.rstrip() for piece in pieces]
    return max((len(word) for word in words), default=0) + len(cell) - len(cell.lstrip())


def _folded(row: Sequence[str], widths: Sequence[int]) -> list[tuple[str, ...]]:
    """A row as lines of cells, each cell on as many as it needs."""
    return list(zip_longest(*(_fold(cell, width) for cell, width in zip(row, widths, strict=True)), fillvalue=""))


def _fold(cell: str, width: int) -> list[str]:
    if len(cell) <= width:
        return [cell]
    lead = cell[: len(cell) - len(cell.lstrip())]
    lines = [lead]
    for piece in _pieces(cell.lstrip()):
        if lines[-1].strip() and len(lines[-1] + piece.rstrip()) > width:
            lines.append(lead)
        lines[-1] += piece
    return [line.rstrip() for line in lines]
