"""What is still to do as a page: the words of the screens, with the lines of the book behind them. No arithmetic."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..statements.figures import Trace
from ..statements.schedule import Next, Schedule
from ..verdicts.cautions import caution
from . import schedule as said
from .page import Block, Column, Notes, Page, Row, Section, Sum, Table, Words

JOBS = (Column("job"), Column("how far"), Column("lines"))
DELAY = (Column("what"), Column("worked out from"), Column("a day", right=True))
WHAT = (Column("what"), Column("to know"))


def page(found: Sequence[Schedule]) -> Page:
    """Each schedule room by room; the cautions of all of them once."""
    cautions = dict.fromkeys(caution(name) for s in found for name in s.cautions)
    return Page("next", "What is still to do", tuple(map(_said, found)), said.FOOTER, tuple(cautions))


def _said(s: Schedule) -> Section:
    blocks: list[Block] = [Words(words) for words in said.standing(s)]
    blocks.append(Section("room by room", (Table("jobs", said.title(s), JOBS, tuple(_jobs(s))),)))
    if s.let is None:
        blocks += [*_cost(s), _book(s), _hold(s)]
    if s.left:
        rows = tuple(Row((head, "; ".join(told))) for head, *told in map(said.left_told, s.left))
        table = Table("left", f"{s.full}: {said.LEFT_BY_SELLER}", WHAT, rows)
        blocks.append(Section(said.LEFT_BY_SELLER, (table,)))
    return Section(said.title(s), tuple(blocks))


def _cost(s: Schedule) -> Iterator[Section]:
    about: tuple[Block, ...] = tuple(map(Words, said.about_cost(s)))
    rows = [
        Row((p.label, p.base, Sum(p.pence, (Trace(p.source, s.on, p.base, p.pence, -1),))), f"part-{i}")
        for i, p in enumerate(s.cost.parts)
    ]
    if rows:
        together = Sum(s.cost.pence, adds=tuple((row.key, 1) for row in rows))
        rows.append(Row(("together", "", together), "together", "total"))
        about = (Table("delay", f"{s.full}: {said.DELAY}", DELAY, tuple(rows)), *about)
    if about:
        yield Section(said.DELAY, about)


def _jobs(s: Schedule) -> Iterator[Row]:
    for room in s.rooms:
        yield Row((room.name,), kind="heading")
        yield from (_job(s, n) for n in room.jobs if not n.done)
        if did := said.done(room):
            yield Row((did, "", ", ".join(e.entry.source for n in room.jobs if n.done for e in n.job.lines)))


def _job(s: Schedule, n: Next) -> Row:
    lines = ", ".join(e.entry.source for e in n.job.lines)
    return Row((said.job_name(n), "; ".join(said.job_told(s, n)), lines))


def _book(s: Schedule) -> Section:
    rows = [*((words, "") for words in said.ask_first(s)),
            *((head, "; ".join(told)) for head, told in said.to_book(s))]  # fmt: skip
    table = Table("book", f"{s.full}: {said.BOOK_FIRST}", WHAT, tuple(map(Row, rows)))
    return Section(said.BOOK_FIRST, (table if rows else Words(said.nobody(s)), *map(Words, said.untold(s))))


def _hold(s: Schedule) -> Section:
    rows = tuple(Row((head, "; ".join(told))) for head, told in said.to_hold(s))
    blocks: list[Block] = [Table("hold", f"{s.full}: {said.HOLD}", WHAT, rows)] if rows else []
    if not s.nation:
        return Section(said.HOLD, (*blocks, Words(said.NO_NATION)))
    papers = (Words(said.before_let(s)), Notes(tuple(said.papers(s))), Words(said.ASK_COUNCIL))
    return Section(said.HOLD, (*blocks, *papers))
