"""Quarterly updates and the yearly submission: as a page to read, and as the very body that the service takes."""

from __future__ import annotations

from collections.abc import Sequence

from ..days import day_words
from ..money import plain, pounds
from ..statements.quarter import Body, Field, QuarterUpdate, YearlySubmission
from .page import Block, Column, Notes, Page, Row, Section, Sum, Table, Words
from .text import BASES

LATER = (Column("what"), Column("so far", right=True))


def page(u: QuarterUpdate, checked: str) -> Page:
    """One update: what is sent, what waits for the year's end, what is left out and why it might be refused."""
    when = u.update
    title = f"{u.full}: digital update {when.number} of {when.year}, {BASES[u.basis]}"
    nothing = Words("Nothing happened in these days; rents of nil are sent.")
    blocks: list[Block] = [_sent(title, u.fields) if u.fields else nothing]
    if any(figure.pence for figure in u.later):
        kept = "Kept for the yearly submission"
        rows = tuple(Row((f.label, Sum(f.pence, f.trail)), f.slug) for f in u.later)
        blocks.append(Section(kept, (Table("later", kept, LATER, rows, unheaded=True),)))
    if u.open.trail:
        count = len(u.open.trail)
        blocks.append(Words(
            f"Left out: {count} open question{'s' if count > 1 else ''}, {pounds(u.open.pence)} in all; "
            "`audit --open` tells them with the words that settle them."
        ))  # fmt: skip
    blocks += [Words(f"The service would refuse this ({refusal.code}): {refusal.says}") for refusal in u.refusals]
    blocks.append(Words(f"To be sent from {day_words(when.early)}, if complete, and by {day_words(when.due)}."))
    blocks += [Notes(u.notes)] if u.notes else []
    days = "" if u.counted == when.period else f"; as your accounts run, lines of {u.counted} count"
    section = Section(title, tuple(blocks), f"{when.period}, {when.kind} quarters{days}")
    return Page("quarter", f"Digital update {when.number} of {when.year}", (section,), checked)


def yearly_page(s: YearlySubmission, checked: str) -> Page:
    """The yearly submission."""
    title = f"{s.full}: what the quarterly updates of {s.year} do not take"
    nothing = Words("Nothing: there is nothing to send.")
    blocks: list[Block] = [_sent(title, s.fields, "in the year") if s.fields else nothing]
    blocks += [Words(f"The service would refuse this ({refusal.code}): {refusal.says}") for refusal in s.refusals]
    blocks += [Notes(s.notes)] if s.notes else []
    return Page("quarter", f"Yearly submission of {s.year}", (Section(title, tuple(blocks)),), checked)


def _sent(title: str, fields: Sequence[Field], when: str = "since it began") -> Table:
    rows = tuple(Row((f.figure.label, f.name, Sum(f.figure.pence, f.figure.trail)), f.figure.slug) for f in fields)
    return Table("fields", title, (Column("what it is"), Column("field"), Column(when, right=True)), rows)


def body_text(body: Body) -> str:
    """The body as JSON text: pence as numbers of pounds with two decimals, written out digit by digit."""
    return _object(body, "")


def _object(body: Body, margin: str) -> str:
    inner = margin + "  "
    members = [f'{inner}"{name}": {_value(value, inner)}' for name, value in body.items()]
    return "{\n" + ",\n".join(members) + f"\n{margin}}}"


def _value(value: str | int | Body, margin: str) -> str:
    if isinstance(value, dict):
        return _object(value, margin)
    return plain(value) if isinstance(value, int) else f'"{value}"'
