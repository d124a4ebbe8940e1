"""Asks once of each house whose costs come off, and of which the book tells no let and no wish for one.

Knows no layout, and changes no figure.
"""

from __future__ import annotations

from ..book.world import Book
from ..days import TaxYear
from ..money import pounds
from ..verdicts.verdict import Kind
from .accounts import EXPENSES, Accounts

MEANT = frozenset({"marketed", "marketed to let", "works", "needs works", "lived in"})


def never_let(accounts: Accounts, house: str) -> bool:
    """Whether the book tells nothing of a house that would answer the question: no let, no rent, no wish for one."""
    book = accounts.book
    return not (
        any(let.house == house for let in book.tenancies.values())
        or any(plan.house == house for plan in book.schedules)
        or any(spell.state in MEANT for spell in book.properties[house].spells)
        or any(row.house == house and row.kind is Kind.INCOME for row in accounts.rows)
    )


def no_let_told(accounts: Accounts, owner: str, year: TaxYear, way: str) -> str:
    """The question with the sum of the owner's costs in a year, a paragraph for all such houses; "" for none."""
    sums: dict[str, int] = {}
    for row, _, pence in accounts.of_owner(owner, year, way):
        if row.house and row.way == "out" and row.kind in EXPENSES:
            sums[row.house] = sums.get(row.house, 0) + pence
    asked = [house for house in _named(accounts.book, sums) if sums[house] > 0 and never_let(accounts, house)]
    if not asked:
        return ""
    costs = " and ".join(f"{pounds(sums[house])} of costs of {house}" for house in asked)
    one = asked[0]
    return (
        f"{costs} stand in the boxes, but your book tells no let there. Is it let, or meant to be? Costs come off only "
        f"then. If it is let, write its `tenancy`; if you look for a tenant, add `marketed to let from DATE` under "
        f'property {one}; if neither, add `, treat as private because "…"` to its lines; a line it shares with other '
        "houses is split first, one line for each."
    )


def _named(book: Book, sums: dict[str, int]) -> list[str]:
    """Of these houses those of the book, in its order."""
    return [house for house in book.properties if house in sums]
