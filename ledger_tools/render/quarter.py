"""Quarterly updates and the yearly submission: as text to read, and as the very body that the service takes."""

from __future__ import annotations

from collections.abc import Sequence

from ..days import day_words
from ..money import plain, pounds
from ..statements.quarter import Body, Field, QuarterUpdate, YearlySubmission
from .text import BASES, columns, indent, paragraph, trail


def text(u: QuarterUpdate, lines: bool = False) -> str:
    """One update: what is sent, what waits for the year's end, what is left out and why it might be refused."""
    when = u.update
    out = [f"{u.full}: digital update {when.number} of {when.year}, {BASES[u.basis]}"]
    out += [f"{when.period}, {when.kind} quarters", ""]
    out += _sent(u.fields, lines) or ["  Nothing happened in these days; rents of nil are sent."]
    if any(figure.pence for figure in u.later):
        out += ["", "  Kept for the yearly submission"]
        out += indent(columns([(f.label, pounds(f.pence)) for f in u.later], right=(1,)), "    ")
    if u.open.trail:
        count = len(u.open.trail)
        said = (
            f"Left out: {count} open question{'s' if count > 1 else ''}, {pounds(u.open.pence)} in all; "
            "`audit --open` tells them with the words that settle them."
        )
        out += ["", *paragraph(said)]
    for refusal in u.refusals:
        out += ["", *paragraph(f"The service would refuse this ({refusal.code}): {refusal.says}")]
    out.append("")
    out += paragraph(f"To be sent from {day_words(when.early)}, if complete, and by {day_words(when.due)}.")
    for note in u.notes:
        out += paragraph(note, "  * ", "    ")
    return "\n".join(out)


def yearly_text(s: YearlySubmission, lines: bool = False) -> str:
    """The yearly submission."""
    out = [f"{s.full}: what the quarterly updates of {s.year} do not take", ""]
    out += _sent(s.fields, lines, "in the year") or ["  Nothing: there is nothing to send."]
    for refusal in s.refusals:
        out += ["", *paragraph(f"The service would refuse this ({refusal.code}): {refusal.says}")]
    for note in s.notes:
        out += paragraph(note, "  * ", "    ")
    return "\n".join(out)


def _sent(fields: Sequence[Field], lines: bool, when: str = "since it began") -> list[str]:
    rows = [("what it is", "field", when)]
    rows += [(field.figure.label, field.name, pounds(field.figure.pence)) for field in fields]
    drawn = indent(columns(rows, right=(2,)))
    if not fields:
        return []
    if not lines:
        return drawn
    out = drawn[:1]
    for row, field in zip(drawn[1:], fields, strict=True):
        out += [row, *trail(field.figure)]
    return out


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
