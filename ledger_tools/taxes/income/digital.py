"""Who must keep digital records and give quarterly updates, and from when. Knows no book.

Source: Income Tax (Digital Obligations) Regulations 2026 (SI 2026/336) regs. 5, 22-27. Who is exempt (regs. 18-44: no
National Insurance number, digitally excluded, …) is not asked here.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from ... import law
from ...days import TaxYear
from ...money import round_half_up

LIMIT = "digital.income_limit"


def scaled(receipts: int, days: int, year: TaxYear) -> int:
    """Receipts of a period that is no whole year, made up to a year (reg. 26(d)); pence, `days` at least one."""
    return round_half_up(Fraction(receipts * year.period.days, days))


def over_limit(qualifying: int, year: TaxYear) -> bool:
    """Whether the qualifying income of the year two before brings a person in for a year.

    qualifying: gross receipts of trades and lets, the own share, before any cost, in pence. Exactly the limit is not
    over it. law.NoFigure for a year before the duty began.
    """
    return qualifying > law.figure(LIMIT, year).pence


def first_possible(first_let: TaxYear) -> TaxYear:
    """The first year whose updates can be asked of someone who first let in a year (reg. 5).

    That is the tax year after the one in which the first return falls due, and none before the duty began.
    """
    return_due = law.due("deadlines.return_online", first_let).day
    return max(TaxYear.of(return_due).next, TaxYear.of(law.began(LIMIT)))


def joins(first_let: TaxYear, qualifying: Mapping[TaxYear, int]) -> TaxYear | None:
    """The year from whose 6 April a person must give updates, by the qualifying income told of each year in pence.

    None where no year told brings them in. law.NoFigure where they first let before the returns held here.
    """
    start = first_possible(first_let)
    bound = (y.next.next for y in sorted(qualifying) if y.next.next >= start)
    return next((year for year in bound if over_limit(qualifying[year.before.before], year)), None)


def may_leave(year: TaxYear, joined: TaxYear, qualifying: Mapping[TaxYear, int]) -> bool:
    """Whether a person bound since `joined` is free for a year: bound in each of the years before that count, with
    income not above the limit in any of them (regs. 23, 24). A year whose income is not told does not count for them.
    """
    years = law.figure("digital.leave_years", year).whole
    before = [TaxYear(year.start - back) for back in range(1, years + 1)]
    return all(y >= joined and y in qualifying and not over_limit(qualifying[y], year) for y in before)
