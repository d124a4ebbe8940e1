"""The profit statement of a house for a tax year: what money did, and what the tax return takes of it, side by side."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date

from ..days import Period, TaxYear
from ..ledger.rows import Row
from ..record import record
from ..verdicts.verdict import Kind
from .accounts import EXPENSES, WORKS, Accounts, nets_capital, tax_sign
from .base_cost import finished
from .figures import Figure, figure, total, trace
from .labels import EXPENSES as EXPENSES_BY_CLASS
from .labels import INCOME, LABELS
from .rents import due_and_came

ALWAYS = ("rent", "other_income")


@record
class Line:
    """One line of the statement: the same label by money and by tax."""

    slug: str
    label: str
    money: Figure
    tax: Figure


@record
class HouseProfit:
    """The statement of one house ("" for all houses together) for one year; `result` is income less the rest."""

    house: str
    full: str
    year: TaxYear
    income: tuple[Line, ...]
    expenses: tuple[Line, ...]
    finance: Line
    works: Line
    open: Line
    open_in: Line
    waiting: Line  # costs before anything is let: they wait for the first letting
    result: Line
    below: tuple[Figure, ...]  # money that is no part of the result: purchase, sale, loans, deposits
    days_held: int
    days_let: int
    rent_due: int  # pence of rent that fell due in the year of lets that tell a rent, and what came in of it
    rent_came: int
    days: Period  # the days that stand for the year, where its owners' accounts end on 31 March
    differ: tuple[str, ...] = ()  # owners for whom other days stand for it, where they do not agree


def profit(accounts: Accounts, house: str, year: TaxYear, on: date | None = None) -> HouseProfit:
    """The profit statement of a house of the book; with "" the sum of the statements of all its houses.

    By money a line holds what was paid or received in the year; by tax what the return takes on the basis of the
    house's owners (by payment unless all of them chose what is owed). Both go by the days that stand for the year of
    all its owners. What falls due after `on` is not due yet.
    """
    days = {h: accounts.house_period(h, year) for h in ([house] if house else ["", *accounts.book.properties])}
    paid = [
        (r, r.paid)
        for r in accounts.rows
        if r.paid and r.house in days and r.paid in days[r.house] and r.verb != "drove"  # miles move no money
    ]
    taxed = [
        (r, d)
        for h, period in days.items()
        for r, d in accounts.in_period(accounts.house_basis(h, year), period)
        if r.house == h
    ]
    lines = {slug: _line(slug, label, paid, taxed) for slug, label in LABELS.items()}
    income = tuple(line for slug, line in lines.items() if slug in ALWAYS or slug in INCOME and _told(line))
    expenses = tuple(line for slug, line in lines.items() if slug in EXPENSES_BY_CLASS and _told(line))
    finance = lines["finance_residential"]
    finance = Line(finance.slug, finance.label, finance.money, figure("finance_residential", finance.label, ()))
    works = _money_only(
        "capital", "Improvements and first furnishing", [(r, d) for r, d in paid if r.kind in WORKS or nets_capital(r)]
    )
    undecided = [(r, d) for r, d in paid if r.kind is Kind.ARGUABLE]
    open_ = _money_only("open", "Open questions, not deducted", [(r, d) for r, d in undecided if r.way == "out"])
    open_in = _money_only("open_in", "Open questions, not counted", [(r, d) for r, d in undecided if r.way == "in"], -1)
    pending = [(r, d) for r, d in paid if r.kind is Kind.PENDING]
    waiting = _money_only("waiting", "Waiting for the first letting", pending)
    costs = (*expenses, finance, works, open_, waiting)
    signs = [1] * (len(income) + 1) + [-1] * len(costs)
    every = [*income, open_in, *costs]
    result = Line(
        "result", "Result",
        total("result-money", "Left over in money", [line.money for line in every], signs),
        total("result-tax", "Result for tax", [line.tax for line in every], signs),
    )  # fmt: skip
    each = [days_in(accounts, h, period) for h, period in days.items() if h]
    rents = [due_and_came(accounts.book, h, period, on) for h, period in days.items() if h]
    full = accounts.book.properties[house].full if house else "All houses"
    return HouseProfit(
        house, full, year, income, expenses, finance, works, open_, open_in, waiting, result, _below(accounts, paid),
        sum(h for h, _ in each), sum(let for _, let in each), sum(due for due, _ in rents), sum(c for _, c in rents),
        _of_all(days, year), _differ(accounts, house, year) if house else (),
    )  # fmt: skip


def _of_all(days: Mapping[str, Period], year: TaxYear) -> Period:
    """The days of a statement: those of its houses where they agree, else 6 April to 5 April."""
    told = {period for house, period in days.items() if house}
    return told.pop() if len(told) == 1 else year.period


def _differ(accounts: Accounts, house: str, year: TaxYear) -> tuple[str, ...]:
    """The owners of a house for whom other days stand for the year than in its statement."""
    days = accounts.house_period(house, year)
    people = accounts.book.landlords
    names = [name for name, _ in accounts.shares(house, year.period.last) if name in people]
    return tuple(people[name].full for name in names if accounts.period(name, year) != days)


Dated = Iterable[tuple[Row, date]]


def _told(line: Line) -> bool:
    return bool(line.money.trail or line.tax.trail)


def _line(slug: str, label: str, paid: Dated, taxed: Dated) -> Line:
    def of(rows: Dated) -> Figure:
        chosen = ((r, d) for r, d in rows if r.category == slug and (r.kind is Kind.INCOME or r.kind in EXPENSES))
        return figure(slug, label, (trace(r, tax_sign(r) * r.pence, d) for r, d in chosen))

    return Line(slug, label, of(paid), of(taxed))


def _money_only(slug: str, label: str, paid: Dated, sign: int = 1) -> Line:
    """A line that only money knows: what went out adds (with `sign` -1, what came in)."""
    chosen = ((r, d) for r, d in paid if r.verdict >= 0)
    money = figure(slug, label, (trace(r, sign * (r.pence if r.way == "out" else -r.pence), d) for r, d in chosen))
    return Line(slug, label, money, figure(slug, label, ()))


FINISHED = "purchase, works that finished it"


def _below(accounts: Accounts, paid: Dated) -> tuple[Figure, ...]:
    """Money that is no part of the result, by account; what came in is positive. Works that the purchase holds stand
    apart from its price and fees."""
    told: dict[str, list[tuple[Row, date]]] = {}
    for row, day in paid:
        shown = row.kind in (Kind.INCOME, Kind.ARGUABLE, Kind.PENDING) or row.kind in EXPENSES
        if not shown and not (row.kind in WORKS and row.verdict >= 0):
            works = row.kind is Kind.ACQUISITION and finished(accounts, row)
            told.setdefault(FINISHED if works else row.account, []).append((row, day))
    return tuple(
        figure(account, account.capitalize(), (trace(r, r.pence if r.way == "in" else -r.pence, d) for r, d in rows))
        for account, rows in sorted(told.items())
    )


def days_in(accounts: Accounts, house: str, period: Period) -> tuple[int, int]:
    """Days of a period the house was held, and of them let; for all houses the sums."""
    if not house:
        each = [days_in(accounts, name, period) for name in accounts.book.properties]
        return sum(h for h, _ in each), sum(let for _, let in each)
    about = accounts.book.properties[house]
    first = about.got.day if about.got else date.min
    last = about.sold.day if about.sold else date.max
    held = Period(first, last).overlap(period)
    if held is None:
        return 0, 0
    return held.days, accounts.let_days(house, held)
