"""Who of some owners is whose spouse or civil partner on a day, as a book tells of either. Knows no tax."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from .world import Book


def spouses(book: Book, owners: Sequence[str], day: date) -> dict[str, str]:
    """The spouse of each owner who is married to another owner on a day; told on either side is enough."""
    found: dict[str, str] = {}
    for name in owners:
        landlord = book.landlords.get(name)
        if landlord is None or landlord.spouse not in owners or (landlord.married_from or date.min) > day:
            continue
        if landlord.spouse != name and not {name, landlord.spouse} & set(found):
            found |= {name: landlord.spouse, landlord.spouse: name}
    return found


def married(book: Book, one: str, other: str, day: date) -> bool:
    """Whether two people are spouses or civil partners on a day, as the book tells of either."""
    return spouses(book, [one, other], day).get(one) == other
