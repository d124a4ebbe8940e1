"""What works come to as a page: the words of the text, with the lines behind every sum. No arithmetic."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..statements.refurb import Group, JobMoney, Refurb
from . import refurb as said
from .page import Block, Cell, Column, Notes, Page, Pairs, Row, Section, Sum, Table, Words


def _sums(*names: str) -> tuple[Column, ...]:
    return tuple(Column(name, right=True) for name in names)


JOBS = (Column("job"), *_sums(*said.HEADS[1:]))
TRADES = (Column("trade"), *_sums(*said.TRADE_HEADS[1:]))
TOTALS = (Column("what", quiet=True), *_sums(*said.TOTAL_HEADS[1:]))
WHAT = (Column("what"), Column("sum", right=True))


def page(found: Sequence[Refurb], checked: str) -> Page:
    """One schedule after the other."""
    return Page("refurb", "What the works come to", tuple(map(_said, found)), checked)


def _said(r: Refurb) -> Section:
    rooms = Table("jobs", f"{r.full}: by room", JOBS, tuple(_jobs(r)))
    trades = Table("trades", f"{r.full}: {said.BY_TRADE}", TRADES, tuple(_trades(r)))
    totals = Table("totals", f"{r.full}: {said.IN_ALL}", TOTALS, tuple(said.total_rows(r)))
    blocks: list[Block] = [
        Section("by room", (*_drawn(r), rooms)),
        Section(said.BY_TRADE, (trades,)),
        Section(said.IN_ALL, (totals, *map(Words, said.about_totals(r)))),
        _contingency(r),
        _tax(r),
    ]
    notes = said.notes(r)
    return Section(said.title(r), (*blocks, *((Notes(tuple(notes)),) if notes else ())))


def _drawn(r: Refurb) -> Iterator[Pairs]:
    """Planned against billed, room by room."""
    rows = tuple((g.name, max(g.rough, 0), max(g.billed, 0)) for g in r.rooms)
    if any(planned or billed for _, planned, billed in rows):
        yield Pairs("Full, as planned at first; hollow, billed so far", ("planned", "billed"), rows)


def _jobs(r: Refurb) -> Iterator[Row]:
    """Each job under its room; a total names all of them."""
    keys: list[str] = []
    for group in r.rooms:
        yield Row((group.name,), kind="heading")
        for j in group.jobs:
            keys.append(f"job-{len(keys)}")
            yield Row(_job(j), keys[-1])
    g, adds = r.total, tuple((key, 1) for key in keys)
    sums = (Sum(pence, adds=adds) for pence in (g.agreed, g.billed, g.forecast))
    yield Row((said.ALL, Sum(g.rough, adds=adds), "", *sums, Sum(g.more), _percent(g.percent)), "all", "total")


def _job(j: JobMoney) -> tuple[Cell, ...]:
    p = j.prices
    billed = Sum(j.billed.pence, j.billed.trail) if j.billed.trail else ""
    forecast = Sum(j.forecast) if j.forecast or j.job.planned else ""
    more: Cell = Sum(j.more) if j.more else ("new" if j.more is None and j.forecast else "")
    marks = "; ".join(said.MARKS[sign] for sign in said.signs(j))
    name = f"{j.job.words} ({marks})" if marks else j.job.words
    return (name, _sum(p.rough), _sum(said.asked(j)), _sum(p.committed), billed, forecast, more,
            _percent(j.percent))  # fmt: skip


def _sum(pence: int | None) -> Cell:
    return "" if pence is None else Sum(pence)


def _percent(percent: int | None) -> str:
    return f"{percent}%" if percent else ""


def _trades(r: Refurb) -> Iterator[Row]:
    keys = tuple((f"trade-{i}", 1) for i in range(len(r.trades)))
    for (key, _), g in zip(keys, r.trades, strict=True):
        yield Row((g.name, *(Sum(pence) for pence in _seven(g))), key)
    yield Row((said.ALL, *(Sum(pence, adds=keys) for pence in _seven(r.total))), "all", "total")


def _seven(g: Group) -> tuple[int, ...]:
    return g.rough, g.agreed, g.billed, g.paid, g.retained, g.forecast, g.more


def _contingency(r: Refurb) -> Section:
    drawn = r.contingency.drawn
    rows = (Row((drawn.label, Sum(drawn.pence, drawn.trail)), "drawn"),) if drawn.trail else ()
    table = (Table("contingency", f"{r.full}: {said.SURPRISES}", WHAT, rows, unheaded=True),) if rows else ()
    return Section(said.SURPRISES, (Words(said.contingency(r.contingency)), *table))


def _tax(r: Refurb) -> Section:
    rows = tuple(Row((f.label, Sum(f.pence, f.trail)), f.slug) for f in r.tax if f.trail)
    if not rows:
        return Section(said.TAX_SEES, (Words(said.NOTHING_YET),))
    return Section(said.TAX_SEES, (Table("tax", f"{r.full}: {said.TAX_SEES}", WHAT, rows, unheaded=True),))
