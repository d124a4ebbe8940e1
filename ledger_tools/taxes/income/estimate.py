"""A person's income tax of a year with the letting and without it. Knows no book: other income is told.

An estimate: all other income is taken to be of one kind (wages, pensions, a trade), with no relief of its own.
"""

from __future__ import annotations

from ... import law
from ...days import TaxYear
from ...record import record
from .bands import income_tax
from .finance_costs import Relief, adjusted_income, relief


@record
class Estimate:
    """All in pence. other: income without the letting; profits: of the letting, after losses.

    without: tax on the other income alone; before: tax on both; relief: the finance-cost reduction by its own rules;
    reduction: as much of it as there was tax.
    """

    other: int
    profits: int
    without: int
    before: int
    relief: Relief
    reduction: int

    @property
    def tax(self) -> int:
        """The tax on everything, after the reduction."""
        return self.before - self.reduction

    @property
    def added(self) -> int:
        """What the letting adds to the tax; below nil where the reduction is more than that."""
        return self.tax - self.without


def estimate(other: int, profits: int, costs: int, brought: int, year: TaxYear, nation: str) -> Estimate:
    """The tax of a year. costs: the year's restricted finance costs; brought: those left from earlier years; pence.

    What the reduction would be above the tax is lost, not carried on. Errors as for income_tax.
    """
    income = other + profits
    without = income_tax(other, year, nation)
    before = income_tax(income, year, nation, profits)
    found = relief(costs, brought, profits, adjusted_income(income, year), year)
    return Estimate(other, profits, without, before, found, min(found.amount, before))


def unchecked(year: TaxYear, nation: str) -> str:
    """Why the rates an estimate of a year rests on should be looked up again, in plain words; "" where they need not.

    law.NoFigure as for income_tax.
    """
    bands = law.schedule("income_tax.bands_scotland" if nation == "scotland" else "income_tax.bands", year)
    others = (law.figure(f"income_tax.{name}", year) for name in ("personal_allowance", "allowance_taper_start"))
    return next((held.caution for held in (bands, *others) if held.caution), "")
