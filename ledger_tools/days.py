"""Days, months known only as months, periods and the tax year as a type. Knows nothing of books or law."""

from __future__ import annotations

import calendar
from datetime import date, timedelta
from functools import lru_cache, total_ordering

from .record import record

EARLIEST, LATEST = 1900, 2200  # years a book may speak of: a house is kept for decades, and slips are many

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def day_words(day: date) -> str:
    """A day as people say it: "9 Jun 2025"."""
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"


@record
class Period:
    """A run of days, both ends included."""

    first: date
    last: date

    @property
    def days(self) -> int:
        """How many days, both ends counted."""
        return (self.last - self.first).days + 1

    def __contains__(self, day: object) -> bool:
        return isinstance(day, date) and self.first <= day <= self.last

    def overlap(self, other: Period) -> Period | None:
        """The days both have, or None."""
        first, last = max(self.first, other.first), min(self.last, other.last)
        return Period(first, last) if first <= last else None

    def __str__(self) -> str:
        return f"{day_words(self.first)} to {day_words(self.last)}"


def period_words(days: Period) -> str:
    """A period as one says it: 9 Oct 2025 to 3 Nov 2025, and a single day by itself."""
    return day_words(days.first) if days.days == 1 else str(days)


def month_period(year: int, month: int) -> Period:
    """A whole calendar month."""
    return Period(date(year, month, 1), date(year, month, calendar.monthrange(year, month)[1]))


@total_ordering
@record
class TaxYear:
    """6 April of `start` to 5 April of the next year; written "2025-26"."""

    start: int

    @classmethod
    @lru_cache(maxsize=1 << 16)  # every sum of a book asks it of its day
    def of(cls, day: date) -> TaxYear:
        """The tax year a day falls in: of the days of one year the same object, which is found without a look in it."""
        return _year(day.year if (day.month, day.day) >= (4, 6) else day.year - 1)

    @classmethod
    def read(cls, text: str) -> TaxYear:
        """Read "2025-26"; ValueError where the two years do not follow each other."""
        first, dash, second = text.partition("-")
        if not (dash and len(first) == 4 and len(second) == 2 and (first + second).isdigit()):
            raise ValueError(text)
        if (int(first) + 1) % 100 != int(second) or not EARLIEST <= int(first) < LATEST:
            raise ValueError(text)
        return cls(int(first))

    @property
    def period(self) -> Period:
        """All its days."""
        return Period(date(self.start, 4, 6), date(self.start + 1, 4, 5))

    @property
    def next(self) -> TaxYear:
        """The year after."""
        return TaxYear(self.start + 1)

    @property
    def before(self) -> TaxYear:
        """The year before."""
        return TaxYear(self.start - 1)

    def __contains__(self, day: object) -> bool:
        return day in self.period

    def __lt__(self, other: TaxYear) -> bool:
        return self.start < other.start

    def __hash__(self) -> int:
        return self.start

    def __str__(self) -> str:
        return f"{self.start}-{(self.start + 1) % 100:02d}"


@lru_cache
def _year(start: int) -> TaxYear:
    return TaxYear(start)


def day_before(day: date) -> date:
    """The day before."""
    return day - timedelta(days=1)


@lru_cache(maxsize=1 << 14)  # the clocks of council tax ask for the same days again and again
def months_after(day: date, months: int) -> date:
    """The same day so many months later (below nil: earlier); the month's last day where it has no such day."""
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))
