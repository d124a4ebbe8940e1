"""Which boxes of the property pages stay blank here whatever a book holds, and why. Knows no book and no layout."""

from __future__ import annotations

from .. import law
from ..days import TaxYear

WHY = (
    (("5", "19"), "furnished holiday lets, which are not worked out here"),
    (("30",), "private use: the private part is left out of each cost instead"),
    (("33", "33.1", "33.2"), "allowances for buildings and charge points, none of which a dwelling earns"),
    (("34", "34.1"), "vehicles without emissions, which no book tells from others"),
    (("35",), "allowances over years: kit of yours is in box 32, or by payment in 29"),
    (("42",), "a loss set against other income, which is unusual"),
)


def blank_boxes(year: TaxYear) -> tuple[tuple[str, str], ...]:
    """The boxes of a year's pages that are never filled, as one would name them, each with the reason."""
    stands = {box.number for box in law.pages(year)}
    found = []
    for numbers, why in WHY:
        here = [number for number in numbers if number in stands]
        if here:
            found.append((f"{here[0]} to {here[-1]}" if numbers == ("5", "19") else ", ".join(here), why))
    return tuple(found)
