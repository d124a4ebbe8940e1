"""What the profit statement says: the lines of each house by money and by tax, and the pictures of its year."""

from __future__ import annotations

from collections.abc import Sequence

from ..statements.figures import Figure
from ..statements.profit import HouseProfit, Line
from .page import Block, Cell, Column, Page, Row, Section, Sum, Table, Words

COLUMNS = (Column("what", quiet=True), Column("in money", right=True), Column("for tax", right=True))
BESIDE = (Column("what"), Column("in money", right=True))


def page(statements: Sequence[HouseProfit], checked: str, lines: bool = False) -> Page:
    """The profit statements of houses, one after the other; `lines` shows those of nil too that have lines."""
    year = statements[0].year
    return Page("profit", f"Profit of {year}", tuple(_house(s, lines) for s in statements), checked)


def _house(s: HouseProfit, lines: bool) -> Section:
    let = f"let {s.days_let} of {s.days_held} days held" if s.days_held else "not held in this year"
    sub = f"({let})" if s.house else "(the sum of all houses)"
    blocks: list[Block] = [Table("profit", f"Profit of {s.full}, {s.year}", COLUMNS, _rows(s, lines))]
    if s.finance.money.trail and s.house:
        blocks.append(Words("Finance costs of dwellings do not come off the rents for tax: they earn a tax reduction."))
    if s.below:
        rows = tuple(Row((f.label, _sum(f)), f.slug) for f in s.below)
        title = "beside it: money that is no part of the result"
        blocks.append(Section(title, (Table("beside", f"{s.full}, {title}", BESIDE, rows, unheaded=True),)))
    return Section(f"{s.full}, tax year {s.year}", tuple(blocks), sub, inset=0)


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
