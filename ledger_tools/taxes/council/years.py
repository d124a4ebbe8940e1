"""The council's year, 1 April to 31 March, and lengths of time counted as councils count them. Knows no rate."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from functools import lru_cache

from ... import law
from ...book.world import Span
from ...days import Period, TaxYear, months_after
from ...record import record

DAY = timedelta(days=1)
# How many months (True) or days (False) a unit of time has.
UNITS = {"day": (1, False), "week": (7, False), "month": (1, True), "year": (12, True)}


@record
class Run:
    """A run of days, the last one included; None while it goes on."""

    first: date
    last: date | None = None

    def __contains__(self, day: date) -> bool:
        return self.first <= day and (self.last is None or day <= self.last)


def council_year(day: date) -> TaxYear:
    """The council's year a day falls in; it bears the name of the tax year that begins five days later."""
    return TaxYear(day.year if day.month >= 4 else day.year - 1)


def days_of(year: TaxYear) -> Period:
    """All days of a council's year: 366 where its February has 29 days."""
    return Period(date(year.start, 4, 1), date(year.start + 1, 3, 31))


def first_after(start: date, months: int, days: int = 0) -> date:
    """The first day after a time that begins on `start`. A month from the 15th ends on the 14th; from the 31st, where
    the next month has no such day, on its last day."""
    same = months_after(start, months)
    return (same + DAY if same.day < start.day else same) + timedelta(days=days)


def length(spans: Sequence[Span]) -> tuple[int, int]:
    """These lengths of time, one upon the other, in whole months and days."""
    if len(spans) == 1:  # as nearly all are
        times, months = UNITS[spans[0].unit]
        number = int(spans[0].number * times)
        return (number, 0) if months else (0, number)
    both = [(s.number * UNITS[s.unit][0], UNITS[s.unit][1]) for s in spans]
    return int(sum(n for n, months in both if months)), int(sum(n for n, months in both if not months))


def after_spans(start: date, spans: Sequence[Span]) -> date:
    """The first day after these lengths of time, one upon the other from `start`; months first, then days."""
    return first_after(start, *length(spans))


@lru_cache(maxsize=8192)
def figure(nation: str, name: str, day: date) -> law.Figure | None:
    """A figure of council tax law that held in a nation on a day; None where it has none of that name then."""
    for folder in (f"council_{nation.replace(' ', '_')}", "council"):
        topic = f"{folder}.{name}"
        if topic in law.topics():
            try:
                return law.figure(topic, day)
            except law.NoFigure:
                return None
    return None


def whole(nation: str, name: str, day: date, otherwise: int = 0) -> int:
    """The same as a whole number; `otherwise` where there is none."""
    found = figure(nation, name, day)
    return found.whole if found else otherwise


def overlapping(year: TaxYear, run: Run) -> Period | None:
    """The days of a council's year that a run has, or None."""
    span = days_of(year)
    return span.overlap(Period(run.first, run.last or span.last)) if run.first <= span.last else None
