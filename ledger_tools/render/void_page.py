"""The council tax of empty homes as a page: the words of its text, with the lines behind every sum. No arithmetic."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..statements.figures import Trace
from ..statements.void_parts import BillRow, Open, Void, joined
from . import void as said
from .page import Block, Cell, Column, Notes, Page, Row, Section, Spans, Sum, Table, Words

DAYS = tuple(Column(name, right=name in ("days", "share", "amount")) for name in said.NAMES)
WHY = (Column("from"), Column("why"), Column("where it stands"), Column("lines"))
ANSWERS = (Column("answer"), Column("at least", right=True), Column("at most", right=True))
WHAT = (Column("what"), Column("sum", right=True))
A_DAY = (Column("from"), Column("why"), Column("a day", right=True))


def page(statements: Sequence[Void], checked: str) -> Page:
    """The statements of homes, one after the other."""
    return Page("void", "Council tax while a home is empty", tuple(map(_void, statements)), checked)


def _void(v: Void) -> Section:
    blocks: list[Block] = []
    if v.nation != "northern ireland":
        if v.rows:
            table = Table("days", said.title(v), DAYS, tuple(_days(v)))
            why = Table("why", f"{v.full}: {said.WHY}", WHY, tuple(_why(v)))
            blocks += [_drawn(v), table, Words(said.total(v)), Section(said.WHY, (why,))]
        blocks += [*_open(v), *(_bill(v, bill) for bill in v.bills), *_paid(v), *_ahead(v), *_claims(v)]
    blocks += [Notes(v.notes)] if v.notes else []
    blocks += [Section(said.ROUTE, (Notes(v.route),))] if v.route else []
    return Section(said.title(v), tuple(blocks), said.standing(v))


def _drawn(v: Void) -> Spans:
    """The days of each state where they stand in the time; full where the landlord owes something for them."""
    rows = tuple(
        (", ".join(filter(None, (state, f"{share} due" if share else f"answered by {who}"))), amount, row.days.first,
         row.days.last, row.ours and bool(row.pence))
        for row, (_, _, _, state, who, share, amount) in zip(joined(v.rows), said.cells(joined(v.rows)), strict=True)
    )  # fmt: skip
    return Spans("The days of each state; full where you owe something for them", rows)


def _days(v: Void) -> Iterator[Row]:
    """The days of each state; the scheme stands behind a sum, as the first of the lines it rests on."""
    known: list[str] = []
    for number, (row, cells) in enumerate(zip(joined(v.rows), said.cells(joined(v.rows)), strict=True)):
        amount: Cell = cells[-1]
        if row.ours and row.pence is not None:
            trace = Trace(row.sources[0], row.days.first, f"{row.state}, {row.days}", row.pence, -1)
            amount = Sum(row.pence, (trace,))
            known.append(str(number))
        yield Row((row.days.first, row.days.last, *cells[2:-1], amount), str(number))
    if known and v.known:
        yield Row(("together", "", "", "", "", "", Sum(v.total, adds=tuple((key, 1) for key in known))), "all", "total")


def _why(v: Void) -> Iterator[Row]:
    for row in joined(v.rows):
        under = " ".join(f"{said.part(name, pence).capitalize()}." for name, pence in row.parts)
        for day, words, law in row.reasons:
            yield Row((day, words, law, ", ".join(row.sources)), under=under)


def _open(v: Void) -> Iterator[Section]:
    for name, title, asked in said.doubts(v):
        if asked:
            rows = tuple(row for o in asked for row in _question(o))
            yield Section(title, (Table(name, f"{v.full}: {title}", ANSWERS, rows),))


def _question(o: Open) -> Iterator[Row]:
    yield Row((said.ask(o),), kind="heading")
    for number, (words, low, high) in enumerate(o.answers, 1):
        settle = f"{said.to_write(o)}." if o.write and number == len(o.answers) else ""
        yield Row((f"{words}{said.taken(o, words)}", Sum(low), Sum(high)), under=settle.capitalize())


def _bill(v: Void, b: BillRow) -> Section:
    title = said.bill_title(b)
    rows = [Row(("billed", Sum(b.billed, (Trace(b.source, b.day, "bill", b.billed, -1),))), "billed")]
    if b.replaced:
        blocks: list[Block] = [Words(said.replaced(b))]
    else:
        rows += [Row(("should be", Sum(b.should)), "should")] if b.should is not None and not b.unsettled else []
        blocks = [Words(said.verdict(b)), *([Words(said.instalments(b))] if b.instalments else [])]
        reasons = tuple("; ".join(sentence for sentence in (said.reason(r), said.send(r)) if sentence)
                        for r in b.reasons)  # fmt: skip
        blocks += [Notes(reasons)] if reasons else []
    return Section(title, (Table("bills", f"{v.full}: {title}", WHAT, tuple(rows), unheaded=True), *blocks))


def _paid(v: Void) -> Iterator[Section]:
    rows = tuple(Row((f.label, Sum(f.pence, f.trail)), f.slug) for f in (v.paid, v.back) if f.trail)
    if rows:
        table = Table("paid", f"{v.full}: what moved", WHAT, rows, unheaded=True)
        yield Section("what moved", (table, Words(said.balance(v))) if said.balance(v) else (table,))


def _ahead(v: Void) -> Iterator[Section]:
    if v.ahead:
        now, *later = v.ahead
        rows = [Row(("now", now.why, said.a_day(now)))]
        rows += [Row((step.since, step.why, said.a_day(step))) for step in later]
        yield Section(said.AHEAD, (Table("ahead", f"{v.full}: {said.AHEAD}", A_DAY, tuple(rows)),))


def _claims(v: Void) -> Iterator[Section]:
    if v.claims:
        yield Section(said.CLAIMS, (Notes(tuple(map(said.claim, v.claims))),))
