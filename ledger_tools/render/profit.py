"""What the profit statement says: the lines of each house by money and by tax, and the pictures of its year."""

from __future__ import annotations

from collections.abc import Sequence

from ..days import MONTHS as MONTH_NAMES
from ..money import pounds
from ..statements.figures import Figure
from ..statements.months import Month
from ..statements.profit import HouseProfit, Line
from .page import Bars, Block, Cell, Column, Months, Page, Row, Section, Sum, Table, Words

COLUMNS = (Column("what", quiet=True), Column("in money", right=True), Column("for tax", right=True))
BESIDE = (Column("what"), Column("in money", right=True))


def page(
    statements: Sequence[HouseProfit],
    checked: str,
    lines: bool = False,
    along: Sequence[Sequence[Month]] = (),
    so_far: str = "",
) -> Page:
    """The profit statements of houses, one after the other; `lines` shows those of nil too that have lines.

    along: the months of each statement, which are shown with pictures where they are given. so_far: which year it is.
    """
    year = statements[0].year
    each = along or [()] * len(statements)
    sections = tuple(_house(s, lines, months) for s, months in zip(statements, each, strict=True))
    return Page("profit", f"Profit of {year}", sections, checked, so_far=so_far)


def _house(s: HouseProfit, lines: bool, months: Sequence[Month]) -> Section:
    let = f"let {s.days_let} of {s.days_held} days held" if s.days_held else "not held in this year"
    sub = f"({let})" if s.house else "(the sum of all houses)"
    blocks: list[Block] = [Table("profit", f"Profit of {s.full}, {s.year}", COLUMNS, _rows(s, lines))]
    if s.days != s.year.period:
        blocks.append(Words(f"The days from {s.days} stand for {s.year}, as the accounts of its owners have it."))
    if s.differ:
        theirs = " and ".join(s.differ)
        said = f"For {theirs} other days stand for {s.year}; `year-end` goes by those, and this page does not."
        blocks.append(Words(said))
    if s.finance.money.trail and s.house:
        blocks.append(Words("Finance costs of dwellings do not come off the rents for tax: they earn a tax reduction."))
    if s.rent_due != s.rent_came and s.house:
        said = f"Rents of {pounds(s.rent_due)} fell due in {s.year}, {pounds(s.rent_came)} came in."
        blocks.append(Words(f"{said} `rents` shows what is owed and since when."))
    if s.below:
        rows = tuple(Row((f.label, _sum(f)), f.slug) for f in s.below)
        title = "beside it: money that is no part of the result"
        blocks.append(Section(title, (Table("beside", f"{s.full}, {title}", BESIDE, rows, unheaded=True),)))
    if months:
        blocks += [_went(s), _months(s, months)]
    return Section(f"{s.full}, tax year {s.year}", tuple(blocks), sub, inset=0)


def _went(s: HouseProfit) -> Bars:
    """Where the money went, the most first."""
    costs = [(line.label, line.money.pence) for line in (*s.expenses, s.finance, s.works, s.open, s.waiting)]
    rows = sorted((cost for cost in costs if cost[1] > 0), key=lambda cost: -cost[1])
    return Bars(f"Where the money of {s.year} went", tuple(rows))


MONTHS = (
    Column("month"), Column("rent", right=True), Column("days held", right=True), Column("days empty", right=True),
)  # fmt: skip


def _months(s: HouseProfit, months: Sequence[Month]) -> Section:
    title = "Rents and empty days along the months"
    names = [MONTH_NAMES[m.period.first.month - 1] for m in months]
    columns = tuple((name, m.rent.pence, m.empty) for name, m in zip(names, months, strict=True))
    picture = Months("A column of rent a month; in frames, the days without a let", columns)
    rows = tuple(
        Row((f"{name} {m.period.first.year}", _sum(m.rent), str(m.held), str(m.empty)), m.period.first.isoformat())
        for name, m in zip(names, months, strict=True)
    )
    return Section(title, (picture, Table("months", f"{s.full}: {title}", MONTHS, rows)))


def _rows(s: HouseProfit, lines: bool) -> tuple[Row, ...]:
    income = [line for line in (*s.income, s.open_in) if _shown(line, lines)]
    costs = [line for line in (*s.expenses, s.finance, s.works, s.open, s.waiting) if _shown(line, lines)]
    rows = []
    for heading, members in (("came in", income), ("went out", costs)):
        if members:
            rows.append(Row((heading,), kind="heading"))
            rows += [Row((line.label, _money(line), _tax(line)), line.slug) for line in members]
    adds = (*((line.slug, 1) for line in income), *((line.slug, -1) for line in costs))
    money, tax = (Sum(figure.pence, adds=adds) for figure in (s.result.money, s.result.tax))
    return (*rows, Row((s.result.label, money, tax), "result", "total"))


def _shown(line: Line, lines: bool) -> bool:
    """Whether a line of the statement holds something; one of nil only where its lines are asked for."""
    return bool(line.money.pence or line.tax.pence or lines and (line.money.trail or line.tax.trail))


def _sum(figure: Figure) -> Sum:
    return Sum(figure.pence, figure.trail)


def _money(line: Line) -> Cell:
    """What only tax knows, such as the rate for a mile, moved no money."""
    return "-" if line.tax.trail and not line.money.trail else _sum(line.money)


def _tax(line: Line) -> Cell:
    if line.slug == "finance_residential" and line.money.trail:
        return "see below"
    if line.slug in ("capital", "open", "open_in", "waiting") and not line.tax.trail:
        return "-"
    return _sum(line.tax)
