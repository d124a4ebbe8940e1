"""Income tax on non-savings income (wages, pensions, profits, rents) by the bands of a year and a nation.

Knows no book: whoever asks brings the income. Savings, dividends and tax reductions are not worked out here.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal

from ... import law
from ...days import TaxYear
from ...money import round_half_up


def income_tax(income: int, year: TaxYear, nation: str, property_income: int = 0) -> int:
    """The tax in pence on a year's income in pence, after the personal allowance and its withdrawal.

    nation: where the person lives ("england", "wales", "scotland", "northern ireland"). property_income: how much of
    the income comes from property; only from 2027-28 does that have rates of its own (FA 2026 Sch. 1), as the slice
    above the rest and with the allowance set against the rest first. Income below nil is none. Exact to the last
    step, where half a penny goes up. law.NoFigure for a year before the first one held.
    Source: ITA 2007 s. 10, 35; the rates in law/income_tax.
    """
    income = max(income, 0)
    upper = min(max(property_income, 0), income)
    allowance = personal_allowance(income, year)
    main, own = _bands(year, nation)
    rest = max(income - upper - allowance, 0)
    taxed = max(income - allowance, 0)
    return round_half_up(_slice(main, 0, rest) + _slice(own, rest, taxed))


def personal_allowance(income: int, year: TaxYear) -> int:
    """The allowance left in pence at an income in pence: it shrinks above a limit, and never below nil.

    What is left is rounded up to whole pounds (ITA 2007 s. 35(3), from memory). law.NoFigure as above.
    """
    full = law.figure("income_tax.personal_allowance", year).pence
    over = max(income - law.figure("income_tax.allowance_taper_start", year).pence, 0)
    lost = over * law.figure("income_tax.allowance_taper_share", year).value
    return max(full - int(lost // 100) * 100, 0)


def rates(year: TaxYear, nation: str) -> tuple[Decimal, ...]:
    """The rates property income can meet in a year, lowest first, as shares of one. law.NoFigure as above."""
    return tuple(band.rate for band in _bands(year, nation)[1])


def _bands(year: TaxYear, nation: str) -> tuple[Sequence[law.Band], Sequence[law.Band]]:
    """The bands of a year: those of property income second, the same ones where it has none of its own."""
    if nation == "scotland":
        bands = law.schedule("income_tax.bands_scotland", year).bands
        return bands, bands
    bands = law.schedule("income_tax.bands", year).bands
    try:
        return bands, law.schedule("income_tax.bands_property", year).bands
    except law.NoFigure:
        return bands, bands


def _slice(bands: Sequence[law.Band], low: int, high: int) -> Decimal:
    """The tax in pence, not yet rounded, on what lies between two sums of taxable income in pence."""
    return sum((max(top - bottom, 0) * rate for bottom, top, rate in _cut(bands, low, high)), Decimal(0))


def _cut(bands: Sequence[law.Band], low: int, high: int) -> Iterator[tuple[int, int, Decimal]]:
    """Each band's bottom, top and rate, cut to what lies between two sums."""
    bottom = 0
    for band in bands:
        top = high if band.to is None else int(band.to * 100)
        yield max(bottom, low), min(top, high), band.rate
        bottom = top
