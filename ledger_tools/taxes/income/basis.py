"""Which way of accounting a person's year follows: by payment or by what was owed. Source: ITTOIA 2005 s. 271A-271D."""

from __future__ import annotations

from ... import law
from ...book.world import Landlord
from ...days import TaxYear


def basis(landlord: Landlord, year: TaxYear) -> str:
    """ "cash" or "accruals": as the book tells; else by payment from the first year that let landlords do so."""
    told = landlord.basis(year)
    if told:
        return told
    try:
        law.figure("property.cash_basis_limit", year)
    except law.NoFigure:
        return "accruals"
    return "cash"
