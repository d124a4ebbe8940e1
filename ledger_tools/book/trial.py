"""A book with room for a line that is not in it: the book is read once, each line tried costs little more than itself.

A tried line is read, looked up and checked as it would be in a last file of the book. Knows no tax, touches no file.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace
from datetime import date

from ..collector import collector_paused
from ..days import day_words
from ..language.asked import Asked, asked, told_otherwise, undated
from ..problems import Problem
from ..record import record
from .build import Index, book_of, gather, read_files, typed_entry
from .entries import Entry
from .world import Book

FILE = "your line"  # what stands for a file name where a tried line is marked
_QUOTED = re.compile(r'"[^"]*"')
LET = "not-told-yet"  # the name of a tenancy that is only supposed


@record
class Tried:
    """A line, and the book as it would be with it. `entry` is None where the line cannot be read."""

    text: str  # as a line of a book
    book: Book
    entry: Entry | None

    def to_paste(self, house: str) -> str:
        """The line for a book, with DAY where its day is to be put; of a book of several houses with its house."""
        named = len(self.book.properties) > 1 and not re.search(r"\b(at|across)\b", _QUOTED.sub("", self.text), re.I)
        return undated(self.text, "DAY") + (f", at {house}" if named and house else "")


class Trial:
    """A book that lines can be tried in. The book itself never changes."""

    def __init__(self, files: Mapping[str, str]) -> None:
        """files: name → text, as for `build`."""
        with collector_paused():
            self._index, self._entries = read_files(files)
        self._days = [entry.day.first for entry in self._entries]
        self.book = book_of(self._index, self._entries)

    def line(self, words: str, day: date, house: str = "") -> tuple[Asked, Tried, tuple[Problem, ...]]:
        """A typed line tried on a day, unless it has its own, in a house, unless it names its own: and what is wrong
        with it, at its places in the words as typed."""
        typed = asked(words, day)
        tried, index = self._put(typed.text, house)
        told = book_of(index, tried.book.entries).problems if tried.entry else index.problems
        ours = [problem for problem in told if any(mark.file == FILE for mark in problem.marks)]
        return typed, tried, tuple(typed.placed(problem, FILE) for problem in ours)

    def again(
        self, tried: Tried, house: str, verb: str = "", add: Sequence[str] = (), without: Collection[str] = (),
        day: date | None = None, let_from: date | None = None,
    ) -> Tried:  # fmt: skip
        """A tried line told in another way (see `language.asked`); `let_from` supposes a let of the house from that
        day. The entry is None where it cannot be told so: a fact that does not go with the verb."""
        return self._put(told_otherwise(tried.text, verb, add, without, day), house, let_from)[0]

    def _put(self, text: str, house: str, let_from: date | None = None) -> tuple[Tried, Index]:
        index = _copy(self._index)
        lines = [f"at {house}"] if house else []
        if let_from is not None:
            lines.insert(0, f"tenancy {LET} at {house}\n    periodic from {day_words(let_from)}")
        dated = gather(index, {FILE: "\n".join([*lines, text])})
        made = [typed_entry(index, spot, statement) for spot, statement in dated]
        book = replace(self.book, tenancies=index.named["tenancy"], entries=self._with(made))
        return Tried(text, book, made[0] if len(made) == 1 else None), index

    def _with(self, made: Sequence[Entry]) -> tuple[Entry, ...]:
        """The entries of the book and these, each the last of its day."""
        entries = list(self._entries)
        for entry in made:
            entries.insert(bisect_right(self._days, entry.day.first), entry)
        return tuple(entries)


def _copy(index: Index) -> Index:
    """The index, to be added to without touching it; without its problems, which are the book's."""
    return Index(
        {kind: dict(named) for kind, named in index.named.items()}, [], dict(index.headings), dict(index.full_names),
        set(index.reported), set(index.unread), dict(index.unread_kinds),
    )  # fmt: skip
