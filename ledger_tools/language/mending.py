"""All mistakes of one block: each is mended as its problem proposes, and what is left is read again.

A line that cannot be mended is passed over with what hangs on it, so that it hides no mistake of the lines below.
Knows no wording and no meaning.
"""

from __future__ import annotations

import re

from ..problems import Fix, Mark, Problem
from ..record import record
from .blocks import Block, mark
from .lexer import indent
from .reading import read
from .wording import problem

_ENDING = re.compile(r"(?:\s*\n[ \t]*(?:#[^\n]*)?)+\Z")  # no block ends with a blank line or a note
MOST = 8  # mistakes told of one block; where more come, the mending has gone astray


@record
class _Edit:
    """The characters from `start` of a text took the place of `before` others."""

    start: int
    before: int
    after: int

    def back(self, position: int) -> int:
        """Where a position of the edited text was before."""
        if position >= self.start + self.after:
            return position - self.after + self.before
        return min(position, self.start + self.before)


def mistakes(block: Block, file: str) -> list[Problem]:
    """The problems of a block that does not read, in order, at their places in the text as typed.

    After the first, each is what was found once those before it were mended; so its corrected line holds their
    mending too.
    """
    found: list[Problem] = []
    edits: list[_Edit] = []
    text, reached = block.text, -1
    while len(found) < MOST:
        stop = read.__wrapped__(text).stop
        if stop is None or stop.piece.start_pos < reached:
            break
        reached = stop.piece.start_pos
        mended = block._replace(text=text)
        told = problem(stop, mended, file)
        found.append(_as_typed(told, block, mended, edits) if edits else told)
        edit, put = _mended(told, mended) or _passed_over(told, mended) or (None, "")
        if edit is None:
            break
        if not put and text[edit.start - 1] == "\n":
            reached = edit.start
        text = _ENDING.sub("", text[: edit.start] + put + text[edit.start + edit.before :])
        edits.append(edit)
    return found


def _mended(told: Problem, block: Block) -> tuple[_Edit, str] | None:
    """The edit a problem proposes; None for how far in a line stands, which the cutter would have to cut again."""
    fix = told.fix
    if fix is None or fix.mark.column == 1 and fix.mark.line > block.line:
        return None
    start, end = _span(fix.mark, block)
    if block.text[start:end].strip() == "" and fix.text.strip() == "":
        return None
    return _Edit(start, end - start, len(fix.text)), fix.text


def _passed_over(told: Problem, block: Block) -> tuple[_Edit, str] | None:
    """The line of a problem, and those further in below it, taken out; None for the head of the block."""
    lines = block.text.split("\n")
    at = told.marks[0].line - block.line
    if not 0 < at < len(lines):
        return None
    own = indent(lines[at][: len(lines[at]) - len(lines[at].lstrip())])
    last = at
    while last + 1 < len(lines) and (below := lines[last + 1]).strip():
        if indent(below[: len(below) - len(below.lstrip())]) <= own:
            break
        last += 1
    start = sum(len(line) + 1 for line in lines[:at])
    return _Edit(start, len("\n".join(lines[at : last + 1])), 0), ""


def _span(place: Mark, block: Block) -> tuple[int, int]:
    """The characters of a block that a mark of one of its lines is about."""
    head = sum(len(line) + 1 for line in block.text.split("\n")[: place.line - block.line])
    return head + place.column - 1, head + place.end - 1


def _as_typed(told: Problem, block: Block, mended: Block, edits: list[_Edit]) -> Problem:
    """A problem of the mended text at its places in the text as typed."""

    def back(place: Mark) -> Mark:
        start, end = _span(place, mended)
        for edit in reversed(edits):
            start, end = edit.back(start), edit.back(end)
        return mark(place.file, block, start, max(end, start), place.label)

    fix = told.fix
    if fix is not None:
        whole = back(Mark(fix.mark.file, fix.mark.line, 1, len(fix.mark.text) + 1, fix.mark.text))
        fix = Fix(Mark(whole.file, whole.line, 1, len(whole.text) + 1, whole.text), fix.line, fix.certain)
    marks = tuple(back(place) for place in told.marks)
    return Problem(told.code, told.level, told.headline, marks, told.help, told.because, fix)
