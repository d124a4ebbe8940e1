"""What a year makes of the finance costs of dwellings: the part still deducted, the tax reduction, what is left over.

Knows no book and no boxes. Sources: ITTOIA 2005 ss. 272A, 274A, 274AA; Finance Act 2026 Sch. 1 para. 40.
"""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction

from ... import law
from ...days import TaxYear
from ...money import round_half_up, share
from ...record import record
from .bands import personal_allowance


class Cap(StrEnum):
    """What the reduction was worked out on: the lowest of the three, the first one named where two are the same."""

    COSTS = "finance costs"
    PROFITS = "profits"
    INCOME = "income above the allowance"


@record
class Relief:
    """The tax reduction of one letting business in pence, before it is held against the tax itself.

    costs: those of the year and those brought in; profits: after losses; income: what s. 274AA calls adjusted total
    income. used: the lowest of them (less where several businesses share the income); amount: the rate times that.
    left: costs that go on to the next year.
    """

    costs: int
    profits: int
    income: int
    used: int
    amount: int
    cap: Cap

    @property
    def left(self) -> int:
        """Finance costs in pence that earned nothing yet: they go on to the same business's next year."""
        return self.costs - self.used


def under_ceiling(cost: int, value: int, loans: int, year: TaxYear) -> int:
    """What of a year's loan cost counts by payment; all in pence (s. 307D). It comes before the split.

    value: of the houses when first let, with capital spending since; loans: outstanding at the year's end, the part
    the cost belongs to. law.NoFigure before the cash basis.
    """
    most = law.figure("finance.loan_ceiling", year).value * value
    return cost if loans <= most else round_half_up(cost * Fraction(most) / loans)


def split(cost: int, year: TaxYear) -> tuple[int, int]:
    """(pence that still come off the rents, pence that earn the reduction) of a year's cost; they add up to it.

    All of it came off up to 2016-17, nothing does from 2020-21 on (s. 272A). law.NoFigure before 2016-17.
    """
    deducted = round_half_up(cost * law.figure("finance.share_deductible", year).value)
    return deducted, cost - deducted


def adjusted_income(income: int, year: TaxYear) -> int:
    """Income without savings and dividends, in pence, less the whole personal allowance; never below nil.

    The allowance comes off in full even where it was used against savings (s. 274AA(6)). Who has savings or dividends
    as well, above the limit where the allowance shrinks, keeps less of it than this knows.
    """
    return max(income - personal_allowance(income, year), 0)


def relief(costs: int, brought: int, profits: int, income: int, year: TaxYear) -> Relief:
    """The reduction of a person with one letting business; all in pence.

    costs: the year's restricted finance costs; brought: those left from the year before; profits: after losses
    brought in, nil or more; income: see adjusted_income.
    """
    return reliefs([(costs + brought, profits)], income, year)[0]


def reliefs(businesses: Sequence[tuple[int, int]], income: int, year: TaxYear) -> tuple[Relief, ...]:
    """The reduction of each business (costs and those brought in, profits), in pence.

    Where together they would pass the income above the allowance, each is cut in proportion (s. 274AA(3)); the parts
    add up to that income. Costs below nil (more came back than was paid) are none.
    """
    businesses = [(max(0, costs), max(0, profits)) for costs, profits in businesses]
    wanted = [min(costs, profits) for costs, profits in businesses]
    income = max(0, income)
    cut = sum(wanted) > income
    used = share(income, wanted) if cut else wanted
    return tuple(
        Relief(costs, profits, income, here, round_half_up(here * rate(year)), _cap(costs, profits, cut))
        for (costs, profits), here in zip(businesses, used, strict=True)
    )


def _cap(costs: int, profits: int, cut: bool) -> Cap:
    if cut:
        return Cap.INCOME
    return Cap.COSTS if costs <= profits else Cap.PROFITS


def rate(year: TaxYear) -> Decimal:
    """The rate of the reduction, a share of one; nil in the years before there was one."""
    topic = "finance.reduction_rate"
    return law.figure(topic, year).value if year.period.first >= law.began(topic) else Decimal(0)
