"""One owner's pages of a year: the lines of each category that counts, and the boxes they fill. Knows no other year."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence

from .. import law
from ..book.world import Landlord
from ..days import TaxYear
from ..taxes.income.allowance import Choice, How, result
from ..taxes.income.basis import basis
from ..taxes.income.boxes import RECEIPTS, Pages, fill
from .accounts import Accounts
from .basis_change import adjustments
from .figures import Trace, trace
from .loan_ceiling import cuts
from .lodgers import lodgers_told


def traces(accounts: Accounts, owner: str, year: TaxYear) -> dict[str, list[Trace]]:
    """The lines of each category that counts in a year, the owner's part of each, on the owner's basis; among them
    what a change of basis adds and what the ceiling on loan costs takes off."""
    found: dict[str, list[Trace]] = defaultdict(list)
    way = basis(accounts.book, owner, year)
    for row, day, pence in accounts.of_owner(owner, year, way):
        category, sign = accounts.counted(row, way)
        if sign:
            found[category].append(trace(row, sign * pence, day))
    for category, moved in corrections(accounts, owner, year).items():
        found[category] += moved
    return found


def corrections(accounts: Accounts, owner: str, year: TaxYear) -> dict[str, list[Trace]]:
    """By category, what is no line of the book and counts all the same: a change of basis, a ceiling on loan costs,
    what is told of lodgers."""
    found: dict[str, list[Trace]] = defaultdict(list)
    lodgers = lodgers_told(accounts, owner, year)
    for corrected in (adjustments(accounts, owner, year), cuts(accounts, owner, year), lodgers):
        for category, moved in corrected.items():
            found[category] += moved
    return found


def sums(accounts: Accounts, owner: str, year: TaxYear) -> dict[str, int]:
    """What `totals` makes of `traces`, without the lines themselves."""
    found = dict(accounts.sums(owner, year, basis(accounts.book, owner, year)))
    for category, pence in totals(corrections(accounts, owner, year)).items():
        found[category] = found.get(category, 0) + pence
    return found


def totals(lines: Mapping[str, Sequence[Trace]]) -> dict[str, int]:
    """The pence of each category."""
    return {category: sum(t.pence for t in found) for category, found in lines.items()}


def pages(
    landlord: Landlord,
    year: TaxYear,
    sums: Mapping[str, int],
    loss: int,
    finance: int,
    extra: Mapping[str, int] | None = None,
    other_choice: bool = False,
) -> Pages:
    """The boxes of an owner: pence by category, and a loss and unused finance costs (pence) brought into the year.

    extra: pence by category on top of the sums; other_choice: as if the property allowance had been chosen where it is
    not, and not where it is or holds by itself. law.NoFigure for a year before the first pages held.
    """
    whole = dict(sums)
    for category, pence in (extra or {}).items():
        whole[category] = whole.get(category, 0) + pence
    how = relieved(landlord, year, whole)
    if other_choice:
        how = How.PARTIAL if how is How.COSTS else How.COSTS
    return fill(year, whole, loss, finance, how)


def choice(landlord: Landlord, year: TaxYear) -> Choice:
    """What the book tells of the property income allowance for a year."""
    if year in landlord.allowance_years:
        return Choice.ALLOWANCE
    return Choice.COSTS if year in landlord.declined_years else Choice.NOTHING


def relieved(landlord: Landlord, year: TaxYear, sums: Mapping[str, int]) -> How:
    """Whether the property income allowance takes the place of an owner's costs, by these sums (pence by category)."""
    return result(came_in(sums, year), 0, year, choice(landlord, year)).how


def came_in(sums: Mapping[str, int], year: TaxYear) -> int:
    """What came in before any cost, in pence, of sums by category; balancing charges are among it (s. 783BD)."""
    kinds = {box.number: box.kind for box in law.pages(year)}
    return sum(pence for slug, pence in sums.items() if pence and kinds.get(_box(slug, year)) in RECEIPTS)


def _box(category: str, year: TaxYear) -> str:
    return "44" if category == "finance_residential" else law.box_for(category, year).number


def typed(found: Pages, number: str) -> int:
    """The whole pounds of a box, in pence; nil where it is empty."""
    return found.boxes[number].pounds * 100 if number in found.boxes else 0
