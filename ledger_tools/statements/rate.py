"""The internal rate of return of dated sums: every rate of a wide range at which they are worth nothing together.

A year has 365 days, also in a leap year, and the first sum is the day one counts from (the common way of spreadsheets).
Knows no book, no law, no layout.

How it searches. With x = (1 + rate) ** (-1/365) the worth of the sums is a polynomial, each sum times x to the power of
its days. What comes in and what goes out each only grow with x; so on a stretch of x the worth lies between (in at its
left end less out at its right end) and (in at its right end less out at its left end). Where that leaves no room for
nothing, the stretch holds no rate. The same bounds of the slope tell where the worth only rises or only falls: such a
stretch holds one rate where its ends differ in sign, else none. Every other stretch is cut in two. So no rate is missed
and none is found twice, however often the sums change sign; all in decimals of 40 digits.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from decimal import Decimal, localcontext
from typing import NamedTuple

from ..record import record

YEAR = 365
LOWEST, HIGHEST = Decimal("-0.99"), Decimal(10)  # from losing all but a hundredth in a year to eleven times the sum
DIGITS, PLACES = 40, Decimal("1e-10")
NARROW = Decimal("1e-13")  # of x: a stretch as narrow as this is a point


@record
class Rates:
    """Every rate a year found between LOWEST and HIGHEST, lowest first, as shares of one to ten places.

    one_way: nothing was searched, because all the sums go the same way.
    """

    found: tuple[Decimal, ...]
    one_way: bool = False


class _Point(NamedTuple):
    """The worth of what comes in and of what goes out at a place x, and the slope of each, times x."""

    x: Decimal
    into: Decimal
    out: Decimal
    into_slope: Decimal
    out_slope: Decimal

    @property
    def worth(self) -> Decimal:
        return self.into - self.out


def rates(flows: Iterable[tuple[date, int]]) -> Rates:
    """The rates of some sums in pence: what came in above nil, what went out below. Their order does not matter."""
    by_day: dict[date, int] = {}
    for day, pence in flows:
        by_day[day] = by_day.get(day, 0) + pence
    told = sorted((day, pence) for day, pence in by_day.items() if pence)
    if not any(p > 0 for _, p in told) or not any(p < 0 for _, p in told):
        return Rates((), one_way=True)
    sums = [((day - told[0][0]).days, Decimal(pence)) for day, pence in told]
    with localcontext() as exact:
        exact.prec = DIGITS
        places = sorted(_place(rate) for rate in (LOWEST, HIGHEST))
        found = sorted(_rate(x).quantize(PLACES) + 0 for x in _roots(sums, _at(sums, places[0]), _at(sums, places[1])))
    return Rates(tuple(r for i, r in enumerate(found) if i == 0 or r - found[i - 1] > 2 * PLACES))


def _place(rate: Decimal) -> Decimal:
    return (-(1 + rate).ln() / YEAR).exp()


def _rate(x: Decimal) -> Decimal:
    return (-x.ln() * YEAR).exp() - 1


def _at(sums: list[tuple[int, Decimal]], x: Decimal) -> _Point:
    into = out = into_slope = out_slope = Decimal(0)
    power, before = Decimal(1), 0
    for days, pence in sums:
        power *= x ** (days - before)
        before = days
        if pence > 0:
            into += pence * power
            into_slope += days * pence * power
        else:
            out -= pence * power
            out_slope -= days * pence * power
    return _Point(x, into, out, into_slope, out_slope)


def _roots(sums: list[tuple[int, Decimal]], first: _Point, last: _Point) -> Iterator[Decimal]:
    stretches = [(first, last)]
    while stretches:
        left, right = stretches.pop()
        if left.into > right.out or right.into < left.out:
            continue
        if left.into_slope >= right.out_slope or right.into_slope <= left.out_slope:
            if left.worth * right.worth <= 0:
                yield _between(sums, left, right)
            continue
        middle = _at(sums, (left.x + right.x) / 2)
        if right.x - left.x < NARROW:
            if abs(middle.worth) <= middle.into * NARROW:  # it only touches nothing, or comes too near to tell
                yield middle.x
            continue
        stretches += [(left, middle), (middle, right)]


def _between(sums: list[tuple[int, Decimal]], left: _Point, right: _Point) -> Decimal:
    """The one place between two of unlike sign, by halving."""
    low, high, rising = left.x, right.x, right.worth > left.worth
    while high - low > NARROW / 100:
        middle = (low + high) / 2
        if (_at(sums, middle).worth < 0) == rising:
            low = middle
        else:
            high = middle
    return (low + high) / 2
