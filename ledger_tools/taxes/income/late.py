"""What a late return or late tax costs under the rules before the points, and late tax under the rules beside them.

Knows no book. Interest is extra, and is not worked out here. Sources: SAM61230, SAM61240; Finance Act 2021 Sch. 26.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from fractions import Fraction

from ... import law
from ...days import TaxYear, months_after
from ...money import round_half_up


def late_return(year: TaxYear, sent: date, tax: int, on_paper: bool = False, spared_to: date | None = None) -> int:
    """What a late return of a year costs in pence, all steps together, for those not under the points.

    tax: the year's own, in pence. spared_to: the last day on which the tax office let the first step go, where it did.
    """

    def held(name: str) -> law.Figure:
        return law.figure(f"penalties.return_{name}", year)

    due = law.due("deadlines.return_paper" if on_paper else "deadlines.return_online", year).day
    cost = held("fixed").pence if sent > max(due, spared_to or due) else 0
    daily_from = months_after(due, held("daily_after").whole)
    days = (sent - daily_from).days
    cost += held("daily").pence * max(0, min(days, held("daily_days").whole))
    share = max(round_half_up(tax * held("share").value), held("least").pence)
    steps = [months_after(due, held(name).whole) for name in ("second_after", "third_after")]
    return cost + share * sum(sent > step for step in steps)


def late_payment(year: TaxYear, due: date, paid: date, unpaid: int) -> int:
    """What paying a year's tax late and in one sum costs in pence, for those who must give quarterly updates.

    unpaid: pence owed from the due day to the day paid, without a plan agreed with the tax office. The yearly part is
    counted by the day, 365 to the year (the Schedule only says that it is a yearly rate).
    """

    def held(name: str) -> law.Figure:
        return law.figure(f"points.payment_{name}", year)

    late = (paid - due).days
    cost = 0
    if late > held("grace_days").whole:
        cost += round_half_up(unpaid * held("first_share").value)
    more = late - held("second_days").whole
    if more > 0:
        cost += round_half_up(unpaid * held("second_share").value)
        cost += round_half_up(Fraction(unpaid * more, 365) * Fraction(held("yearly_share").value))
    return cost


def lapses(failed: date, year: TaxYear) -> date:
    """The day a point for a failure lapses, unless the threshold was reached by then."""
    return months_after(failed.replace(day=1), 1 + law.figure("points.expiry_months", year).whole)


def points(failures: Sequence[tuple[date, str]], quarterly: bool = True) -> list[tuple[int, int]]:
    """After each failure (the missed due day; "update" or "return"), in order: points held, and the penalty in pence.

    Several businesses late with the same kind in the same month cost one point. Points do not lapse while at the
    threshold; how they are taken away from there by sending everything in time is not worked out here. The tax office
    may let a point go, and has said so of the first year's updates.
    """
    held: list[date] = []
    told: list[tuple[int, int]] = []
    seen: set[tuple[int, int, str]] = set()
    for day, kind in sorted(failures):
        year = TaxYear.of(day)
        limit = law.figure(f"points.threshold_{'quarterly' if quarterly else 'annual'}", year).whole
        if len(held) < limit:
            held = [failed for failed in held if lapses(failed, TaxYear.of(failed)) > day]
        fresh = (day.year, day.month, kind) not in seen
        seen.add((day.year, day.month, kind))
        at_limit = len(held) >= limit
        if fresh and not at_limit:
            held.append(day)
        costs = fresh and len(held) >= limit
        told.append((len(held), law.figure("points.penalty", year).pence if costs else 0))
    return told
