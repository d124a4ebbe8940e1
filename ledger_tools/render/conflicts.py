"""Conflicts for a page, as text or JSON: what was told elsewhere and the sums it is held against. Weighs nothing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from ..days import day_words
from ..money import plain, pounds
from ..statements.audit import words
from ..verdicts.conflicts import Conflict, headline, problem
from ..verdicts.verdict import Fired
from .columns import columns
from .page import Block, Column, Notes, Row, Section, Sum, Table
from .places import Place
from .text import paragraph

HEADING = "What was said elsewhere, held against these answers"


def text(conflicts: Iterable[Conflict], place: Place = str) -> str:
    """A heading and one paragraph a conflict; "" for none. place: how the page around it writes the place of a line."""
    told = ["\n".join(_conflict(conflict, place)) for conflict in conflicts]
    return "\n\n".join([HEADING, *told]) if told else ""


SAID, HELD = "what was said", "what it is held against"
SAYS = (Column("line"), Column("day"), Column("words"))
AGAINST = (Column("line"), Column("day"), Column("what"), Column("sum", right=True), Column("open"))


def sections(conflicts: Iterable[Conflict]) -> list[Section]:
    """The same for a page: one section with a part a conflict; none for none."""
    told = tuple(map(_part, conflicts))
    return [Section(HEADING, told)] if told else []


def _part(c: Conflict) -> Section:
    says = tuple(Row((t["source"], t["day"], t["words"])) for t in _said(c))
    against = tuple(
        Row((item.source, day_words(item.line.day.first), words(item.line), Sum(stake.pence), _open(stake.open)))
        for stake, item in ((stake, stake.verdict.item) for stake in c.items)
    )
    blocks: list[Block] = [Section(SAID, (Table("said", SAID, SAYS, says),))]
    blocks.append(Section(HELD, (Table("held against", HELD, AGAINST, against),)))
    blocks.append(Notes((*map(_reason, c.path), *map(_do, c.do), _keep(c)), "-"))
    return Section(_headline(c), tuple(blocks))


def _headline(c: Conflict) -> str:
    return f"{c.level.capitalize()}: {headline(c)}"


def _reason(fired: Fired) -> str:
    sure = "" if fired.confidence == "clear" else f", {fired.confidence}"
    return f"{fired.says} ({fired.slug}: {fired.authority}{sure})"


def _do(words: str) -> str:
    return f"to do: {words}"


def _keep(c: Conflict) -> str:
    return "keep: " + "; ".join(c.keep)


def _open(open_: bool) -> str:
    return "open" if open_ else ""


def _conflict(c: Conflict, place: Place) -> Iterator[str]:
    yield from paragraph(_headline(c), "", "  ")
    yield f"    {SAID}"
    yield from columns([(place(t["source"]), t["day"], t["words"]) for t in _said(c)], right=(), margin="      ")
    yield f"    {HELD}"
    rows = [
        (place(item.source), day_words(item.line.day.first), words(item.line), pounds(stake.pence), _open(stake.open))
        for stake, item in ((stake, stake.verdict.item) for stake in c.items)
    ]
    yield from columns(rows, right=(3,), margin="      ")
    for fired in c.path:
        yield from paragraph(_reason(fired), "    - ", "      ")
    for mend in c.do:
        yield from paragraph(_do(mend), "    ", "      ")
    yield from paragraph(_keep(c), "    ", "      ")


def _said(c: Conflict) -> list[dict[str, str]]:
    """The line that says it, and the line that tells what came of it."""
    told = c.told
    lines = [(told.entry, told.words if told.word == "barred" else f'{told.who}: "{told.words}"')]
    if told.answer is not None and told.answer is not told.entry:
        lines.append((told.answer, told.answer.verb))
    return [{"source": entry.source, "day": str(entry.day), "words": words} for entry, words in lines]


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
