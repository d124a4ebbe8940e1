"""How a bill may be asked for in instalments, by the usual scheme of England and Wales. Knows no book.

Source: Council Tax (Administration and Enforcement) Regulations 1992, Sch. 1 Part I.
"""

from __future__ import annotations

from datetime import date
from fractions import Fraction

from ...money import round_half_up

LEAST = 5_00  # pence: none need be less


def number(issued: date, first: date) -> int:
    """How many instalments a bill of a day has in the council year that begins on `first`: ten if issued by 30 April,
    then one fewer than the whole months left, one from January on and once the year is over."""
    if issued >= date(first.year + 1, 4, 1):
        return 1
    if issued < first or issued.month == 4:
        return 10
    if issued.month <= 3:
        return 1
    return max(1, 14 - issued.month)


def instalments(pence: int, count: int) -> tuple[int, ...]:
    """The first and the others, which are the nearest pound of an equal share; fewer where they would be under £5."""
    count = max(1, min(count, pence // LEAST)) if pence < LEAST * count else count
    each = round_half_up(Fraction(pence, 100 * count)) * 100
    return (pence - (count - 1) * each, *(each for _ in range(count - 1)))
