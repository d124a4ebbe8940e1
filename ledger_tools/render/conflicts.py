"""Conflicts as text or JSON: what was told elsewhere and the sums it is held against, side by side. Weighs nothing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from ..days import day_words
from ..money import plain, pounds
from ..verdicts.conflicts import Conflict, headline, problem
from .text import columns, indent, paragraph

HEADING = "What was said elsewhere, held against these answers"


def text(conflicts: Iterable[Conflict]) -> str:
    """A heading and one paragraph a conflict; "" for none."""
    told = ["\n".join(_conflict(conflict)) for conflict in conflicts]
    return "\n\n".join([HEADING, *told]) if told else ""


def _conflict(c: Conflict) -> Iterator[str]:
    yield from paragraph(f"{c.level.capitalize()}: {headline(c)}", "", "  ")
    yield "    what was said"
    yield from indent(columns([(t["source"], t["day"], t["words"]) for t in _said(c)], right=()), "      ")
    yield "    what it is held against"
    rows = [(i["source"], i["day"], i["words"], i["amount"], i["open"]) for i in _items(c)]
    yield from indent(columns(rows, right=(3,)), "      ")
    for fired in c.path:
        sure = "" if fired.confidence == "clear" else f", {fired.confidence}"
        yield from paragraph(f"{fired.says} ({fired.slug}: {fired.authority}{sure})", "    - ", "      ")
    for words in c.do:
        yield from paragraph(f"to do: {words}", "    ", "      ")
    yield from paragraph("keep: " + "; ".join(c.keep), "    ", "      ")


def _said(c: Conflict) -> list[dict[str, str]]:
    """The line that says it, and the line that tells what came of it."""
    told = c.told
    lines = [(told.entry, told.words if told.word == "barred" else f'{told.who}: "{told.words}"')]
    if told.answer is not None and told.answer is not told.entry:
        lines.append((told.answer, told.answer.verb))
    return [{"source": entry.source, "day": str(entry.day), "words": words} for entry, words in lines]


def _items(c: Conflict) -> list[dict[str, str]]:
    lines = ((stake, stake.verdict.item) for stake in c.items)
    return [
        {
            "source": item.source,
            "day": day_words(item.line.day.first),
            "words": f"{item.line.verb} {' and '.join(thing.name for thing in item.line.things)}".strip(),
            "amount": pounds(stake.pence),
            "open": "open" if stake.open else "",
        }
        for stake, item in lines
    ]


def as_json(conflicts: Iterable[Conflict]) -> list[dict[str, Any]]:
    """The same as data."""
    return [
        {
            "code": problem(c).code,
            "level": str(c.level),
            "property": c.told.house.name,
            "headline": headline(c),
            "said": {
                "source": c.told.entry.source,
                "day": c.told.entry.day.first.isoformat(),
                "to": c.told.who,
                "called": c.told.word,
                "words": c.told.words,
                "things": sorted(c.told.things),
                "question": c.told.question.slug,
                "answer": c.told.answer.verb if c.told.answer else "",
                "answer_source": c.told.answer.source if c.told.answer else "",
            },
            "held_against": [
                {
                    "source": stake.verdict.item.source,
                    "day": stake.verdict.item.line.day.first.isoformat(),
                    "verb": stake.verdict.item.line.verb,
                    "things": [thing.name for thing in stake.verdict.item.line.things],
                    "amount": plain(stake.pence),
                    "open": stake.open,
                }
                for stake in c.items
            ],
            "amount": plain(c.pence),
            "path": [
                {"rule": f.slug, "says": f.says, "authority": f.authority, "confidence": str(f.confidence),
                 "raised": f.decided}
                for f in c.path
            ],
            "do": list(c.do),
            "keep": list(c.keep),
        }
        for c in conflicts
    ]  # fmt: skip
