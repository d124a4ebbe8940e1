"""A question of a house that several open works hang on, said once, and what is left to say of each. No arithmetic."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from ..verdicts.asked_once import HouseQuestion
from .page import Block, Code, Section, Words
from .text import indent, paragraph, settling

LABEL = "Asked once for the house, above."


def blocks(q: HouseQuestion, count: str) -> tuple[Block, ...]:
    """The question as a page has it: what it is about, the lines to write, and what they mean."""
    before, lines, after = _said(q, count)
    return Words(before), Section("Write:", (Code(lines),)), *((Words(after),) if after else ())


def text(q: HouseQuestion, count: str) -> list[str]:
    """The same as lines."""
    before, lines, after = _said(q, count)
    return ["", *paragraph(before, "", ""), "  Write:", *indent(lines, "      "), *paragraph(after, "", "")]


def _said(q: HouseQuestion, count: str) -> tuple[str, tuple[str, ...], str]:
    either = f"either {'; or '.join(q.answers)}"
    before = f"One question about {q.full} stands behind {count}. {q.asks} Each is {either}. "
    if not q.leave_out:
        which = "the one that is so" if len(q.lines) > 1 else "if it is so"
        return f"{before}Under `property {q.house}` put, {which}:", q.lines, ""
    before += (
        f"Under `property {q.house}` put this line, beside what stands there; leave out of it what it does not hold "
        "for, and add what else it does."
    )
    own = settling([words for words in q.ask if words[:1] == ","])
    left_out = "of what you leave out your book is then asked what the price was cut for"
    if q.settles:
        left_out = "what you leave out is judged by what was done, as your book says that nothing else counts"
        if q.named:
            left_out += f" (but for {' and '.join(q.named)}, which another line of the block names)"
    after = (
        f"What this line names is then part of what the house cost; {left_out}. To answer for one of them alone, "
        f"{own.removeprefix('to settle it ')} at the end of its line."
    )
    if len(q.lines) > 1:
        after += f" If the cut only allowed for age, write `{q.lines[1]}` in place of the line that says it was."
    return before, q.lines[:1], after


def as_data(q: HouseQuestion) -> dict[str, Any]:
    """The same as data."""
    return {
        "property": q.house,
        "rule": q.rule,
        "asks": q.asks,
        "write": list(q.lines),
        "in_place_of": None,
        "answers": list(q.answers),
    }


def left_to_say(q: HouseQuestion, answers: Sequence[str], ask: Sequence[str]) -> Iterator[tuple[str, str]]:
    """What is not said with the question: answers of its own, and words that settle it alone."""
    if tuple(answers) != q.answers:
        for number, answer in enumerate(answers):
            yield "or" if number else "either", answer
    own = [words for words in ask if words not in q.ask and not words.startswith(("as bought", "price ", "marketed"))]
    if own:
        yield "to settle", settling(own).removeprefix("to settle it ")
