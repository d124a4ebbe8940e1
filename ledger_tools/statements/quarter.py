"""A digital quarterly update of one owner: what each field holds, with its lines, and the body that is sent.

Knows nothing of layout or of how a body is written out.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from datetime import date

from .. import law
from ..book.rents import dues, receipts
from ..days import Period, TaxYear, day_before, day_words
from ..ledger.rows import Row
from ..money import pounds
from ..record import record
from ..taxes.income import quarters
from ..taxes.income.allowance import How
from ..taxes.income.basis import basis
from ..taxes.income.quarters import Body
from ..taxes.income.refusals import Refusal, refusals, too_early, yearly_refusals
from ..verdicts.verdict import Kind
from .accounts import Accounts
from .basis_change import adjustments, changed
from .brought import Carried, brought
from .digital_duty import digital_duty, not_bound
from .figures import Figure, Trace, figure, together, trace
from .labels import LABELS
from .loan_ceiling import cuts
from .lodgers import rent_a_room_told
from .owner_pages import came_in, corrections, relieved, totals

__all__ = ["Body", "Field", "QuarterUpdate", "YearlySubmission", "may_total", "quarter", "yearly"]

Rows = list[tuple[Row, date, int]]  # a row, the day it counts, the owner's pence of it


@record
class Field:
    """A sum that is sent: the name of its field below ukProperty, and the lines that make it."""

    name: str
    figure: Figure


@record
class QuarterUpdate:
    """One update of one owner. `later` waits for the year's end, `open` is left out until it is settled."""

    owner: str
    full: str
    basis: str
    update: quarters.Update
    fields: tuple[Field, ...]
    later: tuple[Figure, ...]
    open: Figure
    body: Body
    refusals: tuple[Refusal, ...]
    notes: tuple[str, ...]
    counted: Period  # the days whose lines are in it: other ones where accounts to 31 March stand for the tax year


@record
class YearlySubmission:
    """What the yearly submission of one owner holds beside the updates; an empty body where there is nothing."""

    owner: str
    full: str
    year: TaxYear
    fields: tuple[Field, ...]
    body: Body
    refusals: tuple[Refusal, ...]
    notes: tuple[str, ...]


def quarter(
    accounts: Accounts, owner: str, year: TaxYear, number: int, one_total: bool = False, on: date | None = None
) -> QuarterUpdate:
    """Update 1 to 4 of a tax year for one owner, cumulative from the beginning of the year, to be sent on a day.

    law.NoFigure before the first year that has updates. With `one_total` the expenses stand in one sum, which the
    service takes from those below the yearly limit (`may_total`).
    """
    landlord = accounts.book.landlords[owner]
    required = year.before >= quarters.required_from()  # before that only those gave updates who say so
    before = landlord.quarters_in(year.before) if required else landlord.quarters_told(year.before)
    update = quarters.update(number, year, landlord.quarters_in(year), before)
    way = basis(accounts.book, owner, year)
    days = _counted(accounts, owner, update)
    rows = list(_within(accounts, owner, way, days))
    traces = _by_category(accounts, rows, way)
    _correct(accounts, owner, year, update.period, traces)
    if year in landlord.allowance_years:
        traces = {slug: found for slug, found in traces.items() if _field(slug, year).startswith("income.")}
    sums = {slug: sum(t.pence for t in found) for slug, found in traces.items()}
    came = brought(accounts, owner, year).finance
    if came.pence and year not in landlord.allowance_years:
        words = f"unused finance costs, {came.source}"
        traces["finance_brought"] = [Trace(landlord.place.short, update.period.first, words, came.pence, -1)]
        sums["finance_brought"] = came.pence
    back = _interest_back(traces, sums)
    body = quarters.body(update.period, sums, year, one_total)
    fields = list(_fields(traces, year, "quarter"))
    return QuarterUpdate(
        owner,
        landlord.full,
        way,
        update,
        tuple(_together(fields, year) if one_total else fields),
        tuple(field.figure for field in _fields(traces, year, "year end")),
        figure("open", "Open questions", together(_open(rows))),
        body,
        (*refusals(body), *(too_early(update, on) if on else ())),
        (*back, *_no_rent(accounts, owner, way, days, on), *_notes(accounts, owner, update, before, came, sums)),
        days,
    )


def _no_rent(accounts: Accounts, owner: str, way: str, days: Period, on: date | None) -> Iterator[str]:
    """Lets of the owner's houses of which rent fell due in these days and none is in the book; by what is owed the rent
    counts anyway."""
    book, came = accounts.book, receipts(accounts.book)
    until = min(days.last, on) if on else days.last
    silent = []
    for let in book.tenancies.values() if way == "cash" else ():
        if owner not in dict(accounts.shares(let.house, until)) or any(r.day in days for r in came.get(let.name, ())):
            continue
        ours = book.let_from(let) or date.max
        fell = dues(let, until, book.let_until(let))
        if pence := sum(due.pence for due in fell if due.day in days and due.period.first >= ours):
            silent.append(f"{pounds(pence)} of {let.name} at {let.house}")
    if silent:
        yield (
            f"Your book has no rent of these days at all, though it fell due: {', '.join(silent)} (for all owners). "
            "Sent like this, the update says that none came. If rent came, write it down first."
        )


def _interest_back(traces: dict[str, list[Trace]], sums: dict[str, int]) -> tuple[str, ...]:
    """Leave out interest of which more came back than was paid, as far as it does not lower what is brought in: the
    service takes no such sum below nil. What to do with it, as the pages of the year say too."""
    back = -sums.get("finance_residential", 0)
    if back <= 0:
        return ()
    lines = traces.pop("finance_residential")
    del sums["finance_residential"]
    lowered = min(back, sums.get("finance_brought", 0))
    if lowered:
        sums["finance_brought"] -= lowered
        last = lines[-1]
        words = "more interest came back than was paid"
        traces["finance_brought"].append(Trace(last.source, last.day, words, -lowered, last.verdict))
    said = (
        f"{pounds(back)} more interest came back than was paid. The service takes no loan costs below nil, so "
        "expenses.residentialFinancialCost is left out of what is sent."
    )
    if lowered:
        said += f" {pounds(lowered)} of it is taken off what was brought in."
    if back > lowered:
        said += (
            f" {pounds(back - lowered)} belongs to the year in which you paid that interest: put that return right "
            "while it can be changed, or ask the tax office."
        )
    return (said,)


def yearly(accounts: Accounts, owner: str, year: TaxYear) -> YearlySubmission:
    """The yearly submission of one owner: replaced domestic items, allowances."""
    landlord = accounts.book.landlords[owner]
    way, allowance = basis(accounts.book, owner, year), year in landlord.allowance_years
    traces = _by_category(accounts, list(accounts.of_owner(owner, year, way)), way)
    _correct(accounts, owner, year, year.period, traces)
    income = came_in(totals(traces), year)
    if allowance and income > 0:
        claimed = min(income, law.figure("property.income_allowance", year).pence)
        told = Trace(landlord.place.short, year.period.first, "property income allowance", claimed, -1)
        traces = {"property_allowance": [told]}
    sums = {slug: sum(t.pence for t in found) for slug, found in traces.items()}
    notes = ("Take all expenses out of the last quarterly update before you claim the allowance.",) if allowance else ()
    if not allowance and relieved(landlord, year, sums) is How.FULL:
        notes = (
            f"Receipts so far are not above the property income allowance. If that holds for all of {year}, nothing of "
            f"them is taxed: add `claims property allowance in {year}` to send it so, or `declines property allowance "
            f"in {year}` if the real costs are to count.",
        )
    body = quarters.annual_body(sums, year, allowance)
    refused = yearly_refusals(body, year) if body else ()
    return YearlySubmission(owner, landlord.full, year, tuple(_fields(traces, year, "year end")), body, refused, notes)


def may_total(accounts: Accounts, owner: str, year: TaxYear) -> bool:
    """Whether an owner's income of the year is below the sum under which expenses may be sent as one total."""
    way = basis(accounts.book, owner, year)
    traces = _by_category(accounts, list(accounts.of_owner(owner, year, way)), way)
    return came_in(totals(traces), year) < law.figure("property.consolidated_limit", year).pence


def _counted(accounts: Accounts, owner: str, update: quarters.Update) -> Period:
    """The days whose lines an update holds: its own, but from the first day that stands for the year where that is
    another one, as with accounts to 31 March."""
    days = accounts.period(owner, update.year)
    return update.period if days == update.year.period else Period(days.first, min(days.last, update.period.last))


def _within(accounts: Accounts, owner: str, way: str, period: Period) -> Iterator[tuple[Row, date, int]]:
    """An owner's part of every row that counts in a period, which may touch two tax years."""
    first, last = TaxYear.of(period.first), TaxYear.of(period.last)
    for year in dict.fromkeys((first, last)):
        yield from ((row, day, pence) for row, day, pence in accounts.of_owner(owner, year, way) if day in period)


def _correct(accounts: Accounts, owner: str, year: TaxYear, period: Period, traces: dict[str, list[Trace]]) -> None:
    """Add what no line of the book tells and what counts within a period all the same."""
    for slug, moved in corrections(accounts, owner, year).items():
        if here := [t for t in moved if t.day in period]:
            traces[slug] = [*traces.get(slug, ()), *here]


def _by_category(accounts: Accounts, rows: Rows, way: str) -> dict[str, list[Trace]]:
    found: dict[str, list[Trace]] = defaultdict(list)
    for row, day, pence in rows:
        category, sign = accounts.counted(row, way)
        if sign:
            found[category].append(trace(row, sign * pence, day))
    return found


def _field(category: str, year: TaxYear) -> str:
    return law.field_for(category, year) or ""


def _fields(traces: dict[str, list[Trace]], year: TaxYear, sent: str) -> Iterator[Field]:
    for category in law.categories(year):
        if category.sent == sent and category.slug in traces:
            made = figure(category.slug, LABELS[category.slug], traces[category.slug])
            yield Field(_field(category.slug, year), made)


def _together(fields: list[Field], year: TaxYear) -> Iterator[Field]:
    """The fields with all expenses but residential finance in one."""
    joined = [f for f in fields if quarters.joins_total(f.figure.slug, f.name)]
    for field in fields:
        if field not in joined:
            yield field
        elif field is joined[0]:
            every = [trace for one in joined for trace in one.figure.trail]
            yield Field(_field("consolidated", year), figure("consolidated", LABELS["consolidated"], every))


def _open(rows: Rows) -> Iterator[Trace]:
    for row, day, pence in rows:
        if row.kind is Kind.ARGUABLE:
            yield trace(row, pence if row.way == "out" else -pence, day)


def _notes(
    accounts: Accounts, owner: str, update: quarters.Update, before: str, came: Carried, sums: Mapping[str, int]
) -> Iterator[str]:
    landlord, year = accounts.book.landlords[owner], update.year
    if lodgers := rent_a_room_told(accounts, owner, year, sums):
        yield lodgers
    if not update.checked:
        yield f"The days of {year} go beyond what was checked; look them up before you rely on them."
    if year < quarters.required_from():
        yield f"{year} was a year of testing: nobody had to give updates."
    if before and before != update.kind:
        yield (
            f"Your quarters changed with {year}, so the year begins on {day_words(update.period.first)} once, and no "
            f"day counts twice or never. If you gave no updates for {year.before}, tell your quarters without a year."
        )
    elif update.kind == "calendar" and not landlord.to_march(year):
        yield (
            f"Calendar quarters: lines of {day_words(update.period.first)} to "
            f"{day_words(day_before(year.period.first))} count here, while the pages of `year-end` run from 6 April to "
            "5 April. Accounts to 31 March may stand for the tax year (ITTOIA 2005 s. 275B): add `accounts to 31 march "
            f"from {year}`, and both hold the same."
        )
    if came.untold:
        years = " and ".join(str(y) for y in came.untold)
        yield (
            f"Finance costs of earlier years that earned no reduction belong in it, and hang on your other income of "
            f"{years}. Tell it, or add `unused finance costs £… brought into {year}`."
        )
    if changed(accounts, owner, year) and adjustments(accounts, owner, year):
        yield (
            f"The way of accounting changed after {year.before}: what would count twice or never is adjusted for in "
            "it, as on the pages of `year-end` (PIM1096; BIM72065-72071)."
        )
    if basis(accounts.book, owner, year) == "accruals" and update.period.last < year.period.last:
        yield (
            "By what was owed a sum for some days counts here whole from the first of them, so rent and costs for days "
            f"after {day_words(update.period.last)} may be in it; the last update has the year."
        )
    cut = sum(t.pence for moved in cuts(accounts, owner, year).values() for t in moved if t.day not in update.period)
    if cut:
        yield (
            f"Loan costs are cut by {pounds(-cut)} when the year ends, as `year-end` tells (ITTOIA 2005 ss. 307C-307D);"
            " that is not in this update yet."
        )
    if duty := not_bound(accounts, owner, year) or digital_duty(accounts, owner, year):
        yield duty
    if year in landlord.allowance_years:
        yield "The property income allowance is claimed, so no expense is sent."
    joint = [house for house in accounts.book.properties if _in_part(accounts, owner, house, update.period)]
    if joint:
        yield f"Only your own share of {' and '.join(sorted(joint))} is in it."


def _in_part(accounts: Accounts, owner: str, house: str, days: Period) -> bool:
    """Whether an owner had a part of a house's income, and not the whole, on some of these days."""
    changes = [day for day in accounts.share_changes(house) if day in days]
    parts = [dict(accounts.shares(house, day)).get(owner, 0) for day in (days.first, *changes, days.last)]
    return any(0 < part < 1 for part in parts)
