"""The numbers that tell what a house brings for what it cost: yields, cover, payback, break-even. Pure functions.

Sums are whole pence, answers exact fractions; nothing is rounded but sums of money one must reach (up) or may not pass
(down). Each name says what is left out, as the trade uses "gross" and "net" for different things (common practice).
Knows no book, no law, no layout.
"""

from __future__ import annotations

import math
from fractions import Fraction

WEEKS = 52  # of a year, for what a week costs; what is let by the week is 52 weeks of rent
TIMES = {"a week": 52, "a fortnight": 26, "every 4 weeks": 13, "a month": 12, "a quarter": 4, "a year": 1}


def per_year(rent: int, every: str) -> int:
    """A rent in pence and how often it falls due as pence a year: twelve months, fifty-two weeks."""
    return rent * TIMES[every]


def share_of(part: int, base: int) -> Fraction | None:
    """What a yearly sum is of a base, as a share of one; None where there is no base.

    Gross yield: rent over the price, the total cost or the value. Net yield: rent less running costs, finance left
    out. Return on cash: rent less running costs and interest, over one's own money in it.
    """
    return Fraction(part, base) if base > 0 else None


def payback(cash: int, left: int) -> Fraction | None:
    """Years until what is left over has come to the cash put in, no interest reckoned; None where it never does."""
    return Fraction(cash, left) if cash > 0 and left > 0 else None


def cover(rent: int, interest: int) -> Fraction | None:
    """How many times a year's rent is a year's interest; None where there is none."""
    return Fraction(rent, interest) if interest > 0 else None


def rent_needed(interest: int | Fraction, times: Fraction) -> int:
    """The monthly rent in pence, up to the penny, that covers a year's interest so many times."""
    return math.ceil(interest * times / 12)


def loan_possible(rent: int, rate: Fraction, times: Fraction) -> int | None:
    """The most one may owe, in pence and down to the penny, where a year's rent has to cover interest at a rate (a
    share of one) so many times; None at no rate."""
    return math.floor(rent / (rate * times)) if rate * times > 0 else None


def break_even(costs: int, months: Fraction) -> int | None:
    """The monthly rent in pence, up to the penny, at which a year's costs are paid from so many let months."""
    return math.ceil(costs / months) if months > 0 else None


def let_months(empty_weeks: Fraction) -> Fraction:
    """The months of a year that are let where it stands empty for some weeks of it, fifty-two being the year."""
    return 12 * max(WEEKS - empty_weeks, Fraction(0)) / WEEKS
