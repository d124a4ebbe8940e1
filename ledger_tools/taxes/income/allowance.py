"""The property income allowance: small receipts free of tax, or a round sum in place of all costs. Knows no book.

Source: ITTOIA 2005 ss. 783BD-783BP. It is one allowance for all lets of a person, here and overseas.
"""

from __future__ import annotations

from enum import StrEnum

from ... import law
from ...days import TaxYear
from ...record import record


class Choice(StrEnum):
    """What a person chose for a year, by the day deadlines.allowance_election tells."""

    NOTHING = "nothing"
    ALLOWANCE = "the allowance in place of costs"
    COSTS = "no allowance"


class Bar(StrEnum):
    """What shuts a person out of the allowance for a year, for all lets; one pound of such receipts is enough."""

    EMPLOYER = "rent from your employer or your spouse's (s. 783BN)"
    FIRM = "rent from a partnership of yours or of someone close to you (s. 783BO)"
    COMPANY = "rent from a close company of yours or of someone close to you (s. 783BP)"
    REDUCTION = "the finance-cost reduction is taken in the year (s. 783BL)"


class How(StrEnum):
    """How a year's result came about."""

    FULL = "full relief"
    PARTIAL = "partial relief"
    COSTS = "costs"


@record
class Result:
    """The year's profit in pence (below nil: a loss) and how it came about."""

    pence: int
    how: How


def limit(year: TaxYear) -> int:
    """The allowance of a year in pence; nil before there was one."""
    topic = "property.income_allowance"
    return law.figure(topic, year).pence if year.period.first >= law.began(topic) else 0


def result(
    receipts: int, costs: int, year: TaxYear, choice: Choice = Choice.NOTHING, bars: frozenset[Bar] = frozenset()
) -> Result:
    """A year's result from receipts (balancing charges among them) and costs, both in pence.

    Receipts up to the allowance are free without asking, and then a loss is lost too, unless the person chose
    against it; where there are none there is nothing to free (from memory: s. 783BB). Above it the allowance comes off
    in place of costs only where that was chosen (ss. 783BF-783BJ).
    Whoever takes the finance-cost reduction names Bar.REDUCTION, which is a choice as well.
    """
    free = limit(year)
    if bars or choice is Choice.COSTS or not free:
        return Result(receipts - costs, How.COSTS)
    if 0 < receipts <= free:
        return Result(0, How.FULL)
    if choice is Choice.ALLOWANCE:
        return Result(receipts - free, How.PARTIAL)
    return Result(receipts - costs, How.COSTS)
