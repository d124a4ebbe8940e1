"""The gain on a house and the tax on it, step by step, from pence to pence. Knows no book and no clock.

Whole pounds as the tax authority's own calculator takes them: what comes in and income down, costs, losses and reliefs
up, the tax down to the penny; always by exact fractions. Sources: TCGA 1992 s. 1H, 1K, 37, 38, 222-223B, Sch. 1C; the
calculator's published tests.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta
from decimal import ROUND_FLOOR, Decimal

from ... import law
from ...days import Period, months_after
from ...money import down_to_pound, up_to_pound
from ...record import record


@record
class Disposal:
    """What a person's part of a house brought, and what came off it."""

    proceeds: int
    selling: int  # costs of selling
    buying: int  # the price and the costs of buying
    enhancement: int  # improvements that can still be seen

    @property
    def gain(self) -> int:
        """Pence in whole pounds; below nil it is a loss."""
        costs = (self.selling, self.buying, self.enhancement)
        return down_to_pound(self.proceeds) - sum(up_to_pound(cost) for cost in costs)


def home_relief(gain: int, owned: Period, lived: Iterable[Period]) -> int:
    """The part of a gain for the days the house was the only or main home, its last months always among them.

    Nothing where it never was. By days, as the tax authority accepts beside months (common practice, no source).
    TCGA 1992 s. 223(1)-(2). law.NoFigure for a sale before the first day for which the last months are held.
    """
    spells = [both for spell in lived if (both := spell.overlap(owned))]
    if gain <= 0 or not spells:
        return 0
    months = law.figure("gains.final_period_months", owned.last).whole
    last = Period(max(months_after(owned.last, -months) + timedelta(days=1), owned.first), owned.last)
    days = {day for p in (*spells, last) for day in range(p.first.toordinal(), p.last.toordinal() + 1)}
    return min(up_to_pound(Decimal(gain) * len(days) / owned.days), gain)


def lettings_relief(gain: int, home: int, let: int, day: date) -> int:
    """Relief for a part of the home let while the owner lived in the rest: the lowest of the cap, the relief for the
    home, what the letting made and what is left of the gain (TCGA 1992 s. 223B; CG64710)."""
    cap = law.figure("gains.lettings_cap", day).pence
    return max(min(cap, home, let, gain - home), 0)


@record
class Charge:
    """What is left to tax of a year's gains, and how far the exempt amount and earlier losses were used."""

    taxable: int
    exempt_used: int
    losses_used: int
    losses_left: int


def charge(gain: int, reliefs: int, losses: int, exempt: int, brought: int) -> Charge:
    """A gain less reliefs, losses of the year, the exempt amount, then losses brought forward, in that order.

    Losses of the year come off before the exempt amount; those brought forward only down to it.
    """
    left = gain - up_to_pound(reliefs) - up_to_pound(losses)
    free = min(max(left, 0), up_to_pound(exempt))
    left, earlier = left - free, up_to_pound(brought)
    used = min(max(left, 0), earlier)
    return Charge(max(left - used, 0), free, used, earlier - used + max(-left, 0))


def unused_band(income: int, allowance: int, other_gains: int, band: int) -> int:
    """How much of the basic rate band income and other gains leave: never below nil nor above the band."""
    used = max(down_to_pound(income) - up_to_pound(allowance), 0) + down_to_pound(other_gains)
    return min(max(band - used, 0), band)


@record
class GainTax:
    """The tax on a gain: the pence taxed at the lower and the higher rate, the rates, and the tax in pence."""

    in_band: int
    above: int
    low: Decimal
    high: Decimal

    @property
    def tax(self) -> int:
        """Down to the penny."""
        exact = self.in_band * self.low + self.above * self.high
        return int(exact.to_integral_value(ROUND_FLOOR))


def gain_tax(taxable: int, band_left: int, day: date) -> GainTax:
    """The tax on a taxable gain from a dwelling disposed of on a day (of the contract). law.NoFigure before those held.

    The unused part of the UK basic rate band is taken, for Scottish taxpayers too.
    """
    low, high = (law.figure(f"gains.residential_{name}", day).value for name in ("in_band", "above"))
    inside = min(taxable, band_left)
    return GainTax(inside, taxable - inside, low, high)


def report_by(completion: date) -> date:
    """The last day to report the gain on a dwelling and pay the tax (FA 2019 Sch. 2): so many days after completion.

    law.NoFigure for completions before the duty came in.
    """
    return completion + timedelta(days=law.figure("gains.report_days", completion).whole)
