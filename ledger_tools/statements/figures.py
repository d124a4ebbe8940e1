"""A figure and where it comes from: every sum of a statement can be walked back to lines of the book.

Knows how to add rows up; knows nothing of pages or layout.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from datetime import date

from ..ledger.rows import Row
from ..record import record


@record
class Trace:
    """One line of the book that a figure is made of: its place, the day it counts, its words, its signed pence."""

    source: str
    day: date
    words: str
    pence: int
    verdict: int  # its number among the verdicts, -1 where none was needed
    counts: date | None = None  # the day it counts for tax, where that is another one


@record
class Figure:
    """A labelled sum in pence with the lines that make it; the lines add up to the sum."""

    slug: str
    label: str
    pence: int
    trail: tuple[Trace, ...] = ()


def figure(slug: str, label: str, traces: Iterable[Trace]) -> Figure:
    """The sum of some traces."""
    trail = tuple(traces)
    return Figure(slug, label, sum(trace.pence for trace in trail), trail)


def total(slug: str, label: str, parts: Sequence[Figure], signs: Sequence[int] | None = None) -> Figure:
    """The sum of figures (each taken with its sign), with all their lines."""
    trail: list[Trace] = []
    for part, sign in zip(parts, signs or [1] * len(parts), strict=True):
        trail += part.trail if sign > 0 else [replace(t, pence=-t.pence) for t in part.trail]
    return Figure(slug, label, sum(t.pence for t in trail), tuple(trail))


def words(row: Row) -> str:
    """A row in a few words: "replaced boiler, by Kestrel Heating"."""
    said = " ".join(word for word in (row.verb, row.thing) if word)
    return f"{said}, {row.who}" if row.who else said


def together(traces: Iterable[Trace]) -> Iterator[Trace]:
    """One trace a line of the book: what was paid in parts is shown as one sum, on its first day."""
    found: dict[tuple[str, str, int], Trace] = {}
    for t in traces:
        key = (t.source, t.words, t.verdict)
        before = found.get(key)
        found[key] = replace(before, pence=before.pence + t.pence, counts=None) if before else replace(t, counts=None)
    yield from found.values()


def trace(row: Row, pence: int, counts: date) -> Trace:
    """A row as part of a figure; `counts` is the day it counts for the figure."""
    day = row.paid or row.owed or counts
    return Trace(row.source, day, words(row), pence, row.verdict, counts if counts != day else None)
