"""Doubts about rulings on lines that are judged with another: what is ruled of the job holds for what goes with it.

Judges only the lines that it looks at and what they follow; decides no tax.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

from ..book.entries import Entry
from ..problems import Fix, Level, Mark, Place, Problem
from .answer import Outcome
from .following import leaders
from .history import History

if TYPE_CHECKING:
    from .engine import Judging

FOLLOWING = frozenset({"making-good-after", "goes-with", "making-way-for", "incidentals", "survey-design-overheads"})
RULING = re.compile(r',? *\btreat as [a-z ]+? because *"[^"]*"')


def ruled_apart(history: History) -> Iterator[Problem]:
    """Doubts "ruled-apart", line by line: ruled otherwise than the job that the line goes with, or idle as shared."""
    ruled = [line for entry in history.book.entries for line in (entry, *entry.lines) if line.facts.ruling]
    if not ruled:
        return
    from .engine import Judging  # a book without rulings is proved without judging

    judging = Judging(history)
    positions = {id(item.line): position for position, item in enumerate(history.items)}
    for line in ruled:
        position = positions.get(id(line))
        if position is not None:
            yield from _apart(judging, position)
        elif line.facts.shared:
            yield _idle(line)


def _apart(judging: Judging, position: int) -> Iterator[Problem]:
    """The doubt about one ruled item; none where its answer is that of the job, or it goes with none, or is private:
    what was spent on a job may be the owner's own affair, and the job none."""
    ruling = judging.history.ruling(position)
    if ruling is not None and ruling.verdict == "private":
        return
    rules, answered = judging.outcome(position), judging.answered(position)
    assert rules is not None and answered is not None
    led_by = leaders(judging.case(position)) if _follows(rules) else []
    if led_by and (rules.cautious or _kinds(rules) != _kinds(answered)):
        yield _told(judging.history, position, led_by)


def _follows(outcome: Outcome) -> bool:
    return any(fired.decided and fired.slug in FOLLOWING for fired in outcome.path)


def _kinds(outcome: Outcome) -> frozenset[str]:
    return frozenset(part.kind for part in outcome.parts)


def _told(history: History, position: int, led_by: list[int]) -> Problem:
    line, jobs = history.items[position].line, [history.items[n].line for n in led_by]
    job, ruling = jobs[0], line.facts.ruling
    assert ruling is not None
    names = " and ".join(dict.fromkeys(f"{job.verb} {job.thing}" for job in jobs))
    where = ", ".join(dict.fromkeys(job.place.short for job in jobs))
    if len(jobs) > 1:
        help = (
            f"Rule on those lines, and take the ruling out here: this takes their answers in proportion. If it served "
            f"one of them alone, write `goes with {job.thing}`, say, in place of the ruling."
        )
    else:
        said = f'treat as {ruling.verdict} because "{ruling.because}"'
        there = "" if job.facts.ruling else f": `{_typed(job)}, {said}`"
        help = f"Rule on that line{there}, and take the ruling out here: what goes with a job is judged with it."
    alone = _unlinked(line)
    if alone:
        help += f" If this was a job of its own, write `{alone}`."
    return Problem(
        "ruled-apart", Level.DOUBT,
        f"This goes with another line ({names}, {where}), and your ruling takes it apart from that.",
        (ruling.place.mark("ruled apart"), job.place.mark("what it goes with")), help, fix=_without(line),
    )  # fmt: skip


def _idle(line: Entry) -> Problem:
    assert line.facts.ruling is not None
    return Problem(
        "ruled-apart", Level.DOUBT,
        f"The {line.thing or line.verb} is shared over the other lines of its bill, so a ruling of its own changes "
        "nothing.",
        (line.facts.ruling.place.mark("changes nothing"),),
        "Each of those lines is judged with its part of it, so rule there. If it served one of them alone, write "
        "`goes with …` in place of `shared`.", fix=_without(line),
    )  # fmt: skip


def _typed(line: Entry) -> str:
    """The line as typed, the first line of it where it has several."""
    mark = line.place.mark()
    return " ".join(mark.text[mark.column - 1 : mark.end - 1].split())


def _unlinked(line: Entry) -> str:
    """The line as typed, with its ruling and without its link; "" where the link stands elsewhere."""
    words = "|".join(re.escape(link.word) for link in line.facts.links)
    typed = _typed(line)
    bare = re.sub(rf",? *\b(?:{words})\b[^,\"]*", "", typed) if words else typed
    return bare if bare != typed else ""


def _without(line: Entry) -> Fix | None:
    """The line without its ruling, where both stand in one line of the text."""
    assert line.facts.ruling is not None
    place: Place = line.facts.ruling.place
    mark = place.mark()
    found = next((m for m in RULING.finditer(mark.text) if m.start() <= mark.column <= m.end()), None)
    if found is None or not mark.text[: found.start()].strip():
        return None
    return Fix(Mark(mark.file, mark.line, found.start() + 1, found.end() + 1, mark.text), "")
