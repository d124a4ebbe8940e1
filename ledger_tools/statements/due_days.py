"""The days that follow from a tax year: what must be with the tax office by when, and what a late return costs.

They are the same for every owner, so a statement holds them once. Knows no book and no layout.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from .. import law
from ..days import TaxYear, months_after
from ..money import pounds
from ..record import record
from ..taxes.gains.gain import report_by
from ..taxes.income.late import late_return


@record
class DueDays:
    """What must be done by a day, or by two; no day where none is held for the year. `source` is where it stands."""

    what: str
    days: tuple[date, ...]
    says: str
    source: str


def due_days(year: TaxYear) -> tuple[DueDays, ...]:
    """All of a tax year, the earliest first; what is not held for the year stands where it would come.

    law.NoFigure for a year before the first return held. Sources: those of law/deadlines and law/records.
    """
    towards = f"pay on account for {year}, if your bill of {year.before} asked for it"
    records = law.records_until(year)
    return (
        _due(year, "pay_on_account", ("account_first", "account_second"), towards),
        _due(year, "tell_of_new_source", ("notify",), "tell the tax office that you let, if it does not know yet"),
        _due(year, "return_on_paper", ("return_paper",), "send the return, if on paper"),
        _due(year, "return_online", ("return_online",), "send the return, if online, and pay what is still owed"),
        _due(year, "change_return", ("amend_return",), "the last day to change a return that was sent"),
        DueDays("keep_records", (records.day,), "keep every record of the year until then", str(records.citation)),
    )


def gain_due(house: str, completed: date) -> DueDays:
    """By when the gain on a house is reported and the tax on it paid, counted from the day it was handed over."""
    says = f"report the gain on {house} and pay the tax on it, if there is any to pay; `base-cost` works it out"
    try:
        day, held = report_by(completed), law.figure("gains.report_days", completed)
    except law.NoFigure:
        return DueDays("report_gain", (), says, "")
    return DueDays("report_gain", (day,), says, str(held.citation))


def in_order(days: Sequence[DueDays], more: Iterable[DueDays]) -> tuple[DueDays, ...]:
    """Days with some more among them, each before the first that falls later."""
    found = list(days)
    for one in more:
        later = (i for i, other in enumerate(found) if one.days and other.days and other.days[0] > one.days[0])
        found.insert(next(later, len(found)), one)
    return tuple(found)


def late(year: TaxYear) -> str:
    """What a return of a year costs that is sent late, at once and after the last step, where no tax is owed."""
    due, months = law.due("deadlines.return_online", year).day, law.figure("penalties.return_third_after", year).whole
    at_once, after = (late_return(year, day + timedelta(days=1), 0) for day in (due, months_after(due, months)))
    said = f"A late return costs {pounds(at_once)}, after {months} months {pounds(after)} or more"
    # For whoever must send updates points stand in place of these sums (FA 2021 Sch. 24, SI 2026/370).
    points = year >= TaxYear.of(law.began("points.penalty"))
    return f"{said}; with quarterly updates, a point." if points else f"{said}, whether tax is owed or not."


def _due(year: TaxYear, what: str, topics: tuple[str, ...], says: str) -> DueDays:
    try:
        found = [law.due(f"deadlines.{topic}", year) for topic in topics]
    except law.NoFigure:
        return DueDays(what, (), says, "")
    unread = any(due.citation.read is None for due in found)
    says += " (from memory)" if unread else ""
    return DueDays(what, tuple(due.day for due in found), says, str(found[0].citation))
