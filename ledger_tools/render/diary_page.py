"""The dates to watch as a page: each with what to do, the lines of the book it comes from and the rule behind it."""

from __future__ import annotations

from collections.abc import Iterator

from ..statements.diary import Diary, Reminder, late, state_the_nation
from . import diary as said
from .page import Block, Column, Notes, Page, Row, Section, Table, Words

DATES = (Column("what"), Column("day"), Column("when"), Column("lines"))


def page(d: Diary) -> Page:
    """Overdue first, then by day, then what could be done."""
    rows = tuple(_rows(d))
    blocks: list[Block] = [Table("dates", said.title(d), DATES, rows) if rows else Words(said.NOTHING)]
    notes = (*map(state_the_nation, d.unplaced), *d.notes)
    blocks += [Notes(notes)] if notes else []
    return Page("diary", "Dates to watch", (Section(said.title(d), tuple(blocks)),), d.footer)


def _rows(d: Diary) -> Iterator[Row]:
    for heading, reminders in said.groups(d):
        if reminders:
            yield Row((heading,), kind="heading")
            yield from (_row(reminder, d) for reminder in reminders)


def _row(r: Reminder, d: Diary) -> Row:
    """What is to be done stands under its date, with the rule, which is no line of the book."""
    cells = (said.what(r), r.day, late(r, d.on), ", ".join(r.sources))
    by = f" B{said.by(r)[1:]}" if r.rule else ""
    return Row(cells, under=f"{r.ask}{by}")
