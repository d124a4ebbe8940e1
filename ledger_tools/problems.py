"""What can be wrong with a book, as data: where, what, and how to mend it. Drawing it is someone else's job."""

from __future__ import annotations

from typing import NamedTuple

from .record import Word, record


class Level(Word):
    """How much it matters: an error stops figures, a doubt should be acted on, a note is for information."""

    ERROR = "error"
    DOUBT = "doubt"
    NOTE = "note"


@record
class Mark:
    """A stretch of text in one file of the book; lines and columns count from 1, `end` is one past the last column.

    `text` is the whole line it lies on, so that a problem can be drawn without the file.
    """

    file: str
    line: int
    column: int
    end: int
    text: str = ""
    label: str = ""

    def said(self, label: str) -> Mark:
        """The same place with a label."""
        return Mark(self.file, self.line, self.column, self.end, self.text, label)

    @property
    def place(self) -> str:
        """ "file:line:column", as editors understand it."""
        return f"{self.file}:{self.line}:{self.column}"


@record
class Fix:
    """An edit that mends the problem: put `text` in place of the marked stretch. `certain` where nothing else fits."""

    mark: Mark
    text: str
    certain: bool = False

    @property
    def line(self) -> str:
        """The whole corrected line."""
        return self.mark.text[: self.mark.column - 1] + self.text + self.mark.text[self.mark.end - 1 :]


@record
class Problem:
    """One mistake, doubt or note. The first mark is where it is; others are what it is at odds with."""

    code: str
    level: Level
    headline: str
    marks: tuple[Mark, ...] = ()
    help: str = ""
    because: str = ""
    fix: Fix | None = None

    @property
    def order(self) -> tuple[str, int, int, str]:
        """Sort key: file, line, column, code."""
        if not self.marks:
            return ("", 0, 0, self.code)
        first = self.marks[0]
        return (first.file, first.line, first.column, self.code)


class Problems(Exception):
    """Raised where figures were asked of a book that has errors."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        super().__init__(f"{len(problems)} problems")
        self.problems = problems


class Place(NamedTuple):
    """Where something was said, kept light: characters `start` to `end` of a block of a file. Opaque to most rooms."""

    file: str
    block: str
    line: int  # of the block's first line
    start: int
    end: int

    def mark(self, label: str = "") -> Mark:
        """The place as a mark; it ends with its line at the latest."""
        head = self.block.rfind("\n", 0, self.start) + 1
        tail = self.block.find("\n", head)
        tail = len(self.block) if tail < 0 else tail
        number = self.line + self.block.count("\n", 0, head)
        begin, stop = self.start - head, max(min(self.end, tail) - head, self.start - head)
        return Mark(self.file, number, begin + 1, stop + 1, self.block[head:tail], label)

    def within(self, words: str) -> Place:
        """Where some words stand, from its beginning to the end of its block; itself where they do not stand there."""
        at = self.block.find(words, self.start)
        return self._replace(start=at, end=at + len(words)) if at >= 0 else self

    @property
    def short(self) -> str:
        """ "file:line", the way figures name their sources."""
        return f"{self.file}:{self.line + self.block.count(chr(10), 0, self.start)}"


def placed(
    code: str, level: Level, headline: str, place: Place, label: str = "", help: str = "",
    other: tuple[Place, str] | None = None,
) -> Problem:  # fmt: skip
    """A problem marked at one place, and at another that it has to do with."""
    marks = [place.mark(label)]
    if other is not None:
        marks.append(other[0].mark(other[1]))
    return Problem(code, level, headline, tuple(marks), help)
