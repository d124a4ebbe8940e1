"""Which days stand for a person's tax year: 6 April to 5 April, or accounts to 31 March in their place.

Sources: ITTOIA 2005 ss. 275A-275C; PIM1015. Knows no book.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta

from ... import law
from ...days import Period, TaxYear

TOPIC = "property.early_end_days"


def early_end(year: TaxYear) -> date | None:
    """The earliest day on which accounts may end and stand for a tax year; None before the law let them."""
    if year.period.first < law.began(TOPIC):
        return None
    return year.period.last - timedelta(days=law.figure(TOPIC, year).whole)


def period(year: TaxYear, early: Callable[[TaxYear], bool], begun: date | None) -> Period:
    """The days that stand for a tax year; each day stands for one year only.

    early: whether the person's accounts of a year end with 31 March. begun: the first day of the letting, if told; a
    letting begun after 31 March counts with the next year (s. 275C).
    """
    return Period(_last(year.before, early, begun) + timedelta(days=1), _last(year, early, begun))


def _last(year: TaxYear, early: Callable[[TaxYear], bool], begun: date | None) -> date:
    end = early_end(year)
    if end and (early(year) or begun and end < begun <= year.period.last):
        return end
    return year.period.last
