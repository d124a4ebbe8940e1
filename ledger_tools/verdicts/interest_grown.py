"""The most interest that can have grown on a loan between two days, by the rates its block tells. Knows no rule."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import ROUND_CEILING, Decimal
from fractions import Fraction

from ..record import record

YEAR = 365
Rates = Sequence[tuple[Fraction, date, date | None]]  # percent a year, its first and its last day


@record
class Grown:
    """The most that can be interest in a payment, in pence, at this percent a year since a day; `apart` of what grew
    was paid apart."""

    pence: int
    percent: Fraction
    since: date
    apart: int = 0


def grown(rates: Rates, since: date, owed: int, until: date, apart: int) -> Grown | None:
    """The most interest on so many pence from a day to another, less what was paid apart; None without a rate.

    Each day's interest bears interest from the next, and the highest rate of the time is taken throughout, so that no
    lender's own reckoning can come to more.
    """
    held = [percent for percent, first, last in rates if first <= until and (last is None or last >= since)]
    days = (until - since).days
    if not held or not owed or days <= 0:
        return None
    percent = max(held)
    daily = Decimal(percent.numerator) / percent.denominator / 100 / YEAR
    pence = int((owed * ((1 + daily) ** days - 1)).to_integral_value(ROUND_CEILING))
    return Grown(max(0, pence - apart), percent, since, min(apart, pence))
