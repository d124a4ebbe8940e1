"""What is brought into a year: losses and finance costs that earned no reduction yet, as told or as the years before
make them. Knows no layout.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from .. import law
from ..book.world import Landlord
from ..days import TaxYear
from ..record import record
from ..taxes.income.allowance import How
from ..taxes.income.boxes import Pages, whole_pounds
from ..taxes.income.finance_costs import adjusted_income, relief
from .accounts import Accounts
from .owner_pages import pages, sums, typed

WORKED_OUT = "worked out from"


@record
class Carried:
    """So many pence brought into a year, and where they come from.

    follows: what the book itself comes to, where it tells another sum and so is at odds with itself. untold: years
    whose other income must be told before the sum can be known; chosen: a year with the property allowance, after
    which it is not worked out. With either of the last two the pence are nil and mean nothing.
    """

    pence: int = 0
    source: str = ""
    follows: int | None = None
    untold: tuple[TaxYear, ...] = ()
    chosen: TaxYear | None = None

    @property
    def worked_out(self) -> bool:
        """Whether it follows from the lines of earlier years, and not from what the book tells."""
        return self.source.startswith(WORKED_OUT)

    @property
    def known(self) -> bool:
        """Whether the sum is known."""
        return not self.untold and self.chosen is None


@record
class Brought:
    """Both kinds brought into a year."""

    loss: Carried = Carried()
    finance: Carried = Carried()

    def of(self, kind: str) -> Carried:
        """One of the two: "loss" or "finance"."""
        return self.loss if kind == "loss" else self.finance


def brought(accounts: Accounts, owner: str, year: TaxYear) -> Brought:
    """What an owner brings into a year: as the book tells, else worked out year by year as far back as the book goes.

    A told sum is also held against what the years before come to, where the book has them.
    """
    found: Brought | None = accounts.brought.get((owner, year))
    if found is None:
        landlord = accounts.book.landlords[owner]
        first = min([*accounts.book.years[:1], *landlord.losses, *landlord.unused_finance], default=year)
        before = year.before
        made = _after(accounts, owner, before, brought(accounts, owner, before)) if year > first else None
        found = accounts.brought[owner, year] = Brought(
            _told(landlord, landlord.losses, year, made.loss if made else None),
            _told(landlord, landlord.unused_finance, year, made.finance if made else None),
        )
    return found


def taxable_profit(accounts: Accounts, owner: str, year: TaxYear) -> int:
    """An owner's taxable profit of a year in pence, in whole pounds as the pages have it; nil where it is a loss."""
    came = brought(accounts, owner, year)
    made = sums(accounts, owner, year)
    found = pages(accounts.book.landlords[owner], year, made, came.loss.pence, came.finance.pence)
    return typed(found, "40")


def _told(landlord: Landlord, told: Mapping[TaxYear, int], year: TaxYear, made: Carried | None) -> Carried:
    """The sum told in the book where there is one, held against the one made by the year before."""
    if year not in told:
        return made or Carried()
    pence = told[year]
    odd = made is not None and made.known and whole_pounds(made.pence, "up") != whole_pounds(pence, "up")
    return Carried(pence, f"as your book tells ({landlord.place.short})", made.pence if odd and made else None)


def _after(accounts: Accounts, owner: str, year: TaxYear, before: Brought) -> Brought | None:
    """What a year leaves to the next; None where it says nothing: the owner has no line in it, or no pages are held."""
    try:
        made = sums(accounts, owner, year)
        found = pages(accounts.book.landlords[owner], year, made, before.loss.pence, before.finance.pence)
    except law.NoFigure:  # what was left then must be told in the book
        return None
    if before == Brought() and not any(box.pence for box in found.boxes.values()):
        return None
    loss = Carried(found.loss_on * 100, f"{WORKED_OUT} {year}" if found.loss_on else "")
    return Brought(loss, _finance_on(accounts.book.landlords[owner], year, found, before.finance))


def _finance_on(landlord: Landlord, year: TaxYear, found: Pages, before: Carried) -> Carried:
    """The finance costs a year leaves over.

    Where other income is not told the answer may still be certain: more income never makes the reduction smaller, so
    what it cannot change without any it cannot change at all.
    """
    costs, profits = typed(found, "44"), typed(found, "40")
    other = landlord.other_income.get(year)
    if not before.known:
        return replace(before, untold=(*before.untold, year)) if before.untold and other is None else before
    if costs + before.pence <= 0:
        return Carried()
    if found.how is not How.COSTS:
        return Carried(chosen=year)
    income = adjusted_income((other or 0) + profits, year)
    came = found.boxes["45"].pence if "45" in found.boxes else 0  # less what came back beyond box 44
    made = relief(costs, came, profits, income, year)
    if other is None and made.income < min(made.costs, profits):
        return Carried(untold=(year,))
    return Carried(made.left, f"{WORKED_OUT} {year}" if made.left else "")
