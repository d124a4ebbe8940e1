"""Payments on account: what the bill of one year asks towards the next. Knows no book.

Source: SAM1010, SAM1110. Tax on capital gains is no part of the bill meant here.
"""

from __future__ import annotations

from datetime import date

from ... import law
from ...days import TaxYear
from ...record import record


@record
class Payment:
    """So many pence by a day."""

    day: date
    pence: int


def on_account(bill: int, at_source: int, year: TaxYear) -> tuple[Payment, ...]:
    """The payments towards a tax year, two or none; pence.

    bill: the income tax of the year before; at_source: what was taken off before the person had it (wages, pensions).
    None where what is left is under the least sum, or more than the told part was taken at source. An odd penny goes
    on the second. law.NoFigure for a year before the first one held.
    """
    own = bill - at_source
    if own < law.figure("payments.on_account_minimum", year).pence:
        return ()
    if at_source > bill * law.figure("payments.on_account_at_source", year).value:
        return ()
    part = law.figure("payments.on_account_part", year).value
    first = int(own * part)
    return (
        Payment(law.due("deadlines.account_first", year).day, first),
        Payment(law.due("deadlines.account_second", year).day, int(own * 2 * part) - first),
    )
