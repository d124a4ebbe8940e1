"""What the notes under an owner's pages are about. Says nothing itself."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from datetime import date

from ...days import Period, TaxYear
from ...record import record
from ...taxes.income.boxes import Pages
from ..accounts import Accounts
from ..brought import Brought


@record
class About:
    """What the notes are about: one owner's year, its pages, and what is brought into it."""

    accounts: Accounts
    owner: str
    year: TaxYear
    way: str  # "cash" or "accruals"
    pages: Pages
    came: Brought
    sums: Mapping[str, int] = field(default_factory=dict)  # pence by category, as the pages were made of
    on: date | None = None  # rents that fall due later are not due yet

    @property
    def days(self) -> Period:
        """The days that stand for the owner's year."""
        return self.accounts.period(self.owner, self.year)
