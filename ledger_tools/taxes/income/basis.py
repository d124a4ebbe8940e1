"""Which way of accounting a person's year follows: by payment or by what was owed. Source: ITTOIA 2005 s. 271A-271D."""

from __future__ import annotations

from ... import law
from ...book.world import Book
from ...days import TaxYear
from .owners import halved_with


def basis(book: Book, owner: str, year: TaxYear) -> str:
    """ "cash" or "accruals": as the book tells; else by payment from the first year that let landlords do so.

    Whoever shares a house half and half with a spouse who accounts by what is owed must do so too (condition C).
    """
    told = book.landlords[owner].basis(year)
    if told == "accruals" or spouse_on_accruals(book, owner, year):
        return "accruals"
    if told:
        return told
    try:
        law.figure("property.cash_basis_limit", year)
    except law.NoFigure:
        return "accruals"
    return "cash"


def spouse_on_accruals(book: Book, owner: str, year: TaxYear) -> str:
    """The spouse who accounts by what is owed and is taxed on half of a house of an owner's; "" where none."""
    if not any(one.basis(year) == "accruals" for name, one in book.landlords.items() if name != owner):
        return ""
    spouse = halved_with(book, owner, year)
    return spouse if spouse and book.landlords[spouse].basis(year) == "accruals" else ""
