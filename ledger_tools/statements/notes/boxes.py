"""Notes on how single boxes of an owner's pages came about, and on what stands beside them. Knows no layout."""

from __future__ import annotations

from ...money import pounds
from ..digital_duty import digital_duty
from ..lodgers import rent_a_room_told
from ..passed_told import passed_in_year
from ..shared_income import fractions
from .about import About


def _rounded(a: About) -> str:
    if all(box.pence == box.pounds * 100 for box in a.pages.boxes.values()):
        return ""
    return "Each box is rounded once, income down and costs up; boxes 38 to 43 are added up from the rounded boxes."


def _lodgers(a: About) -> str:
    return rent_a_room_told(a.accounts, a.owner, a.year, a.sums)


def _digital(a: About) -> str:
    return digital_duty(a.accounts, a.owner, a.year)


def _recovered(a: About) -> str:
    rows = a.accounts.of_owner(a.owner, a.year, a.way)
    if not (pence := sum(pence for row, _, pence in rows if a.accounts.recovered(row))):
        return ""
    return (
        f"{pounds(pence)} paid to you for damage stands in box 20, and the repair whole among the costs of its "
        "year: what is recovered for a cost that comes off is a receipt (ITTOIA 2005 s. 106). The profit is the same "
        "as if it made the repair cheaper; the limits that look at receipts count it."
    )


def _passed_on(a: About) -> str:
    return passed_in_year(a.accounts.book, a.owner, a.year)


def _own_part(a: About) -> str:
    """That sums of houses held with others are parts of the lines they come from."""
    mine = (fractions(a.accounts, a.owner, house, a.year) for house in a.accounts.book.properties)
    if not any(0 < part < 1 for parts in mine for part in parts):
        return ""
    return "Of houses held with others every sum here is your own part; the lines of your book hold the whole."


NOTES = (_own_part, _lodgers, _recovered, _rounded, _passed_on, _digital)
