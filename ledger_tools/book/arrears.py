"""What of the rent due of a let was paid, what is owed on a day and since when. Knows no tax.

Money told for certain days pays the rent of those days; all else pays the oldest rent first (common practice, no
source). The book is followed from the day on which arrears are told; else from the tax year in which rent of the let
first came in; where none came, from the tax year of the first line of its house in the days of the let. Of years before
that it keeps no rents.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from ..days import Period, TaxYear, day_before
from ..record import record
from .rents import Due, Receipt, dues
from .world import Book, Tenancy


@record
class Owed:
    """Rent still owed: the day it fell due and pence; `carried` where it was owed when the book began."""

    day: date
    pence: int
    carried: bool = False

    def late(self, on: date) -> int:
        """For how many days it has been owed."""
        return (on - self.day).days


LEAST_RUN = 4  # so many whole rents in a row, all alike, are told in one line


@record
class OwedRun:
    """Rents owed that fell due one after the other, of the same sum each: the first and the last of them."""

    owed: tuple[Owed, ...]

    @property
    def pence(self) -> int:
        """All of them together."""
        return sum(one.pence for one in self.owed)


@record
class RentAccount:
    """The rent of a let up to the end of a day, in pence.

    since: the first day followed; told: whether the book tells the arrears of that day (`carried`). What was carried in
    and fell due is what came and was lost, less what is `ahead`, with what is owed.
    """

    let: str
    on: date
    since: date
    told: bool
    carried: int
    due: tuple[Due, ...]
    came: tuple[Receipt, ...]
    lost: tuple[Receipt, ...]
    owed: tuple[Owed, ...]  # the oldest first
    ahead: int  # paid before it fell due; below nil where more went back than came
    odds: tuple[tuple[date, int, int], ...] = ()  # arrears told later: the day, pence told, pence that follow

    @property
    def total_due(self) -> int:
        """What fell due."""
        return sum(due.pence for due in self.due)

    @property
    def total_came(self) -> int:
        """What came in, less what went back."""
        return sum(receipt.pence for receipt in self.came)

    @property
    def total_lost(self) -> int:
        """What was written off."""
        return sum(receipt.pence for receipt in self.lost)

    @property
    def arrears(self) -> int:
        """What is owed."""
        return sum(owed.pence for owed in self.owed)

    @property
    def owed_runs(self) -> tuple[OwedRun, ...]:
        """The same, where many like ones in a row are taken together: nobody reads forty lines of one sum."""
        order = {due.day: number for number, due in enumerate(self.due)}
        runs: list[list[Owed]] = []
        for one in self.owed:
            last = runs[-1][-1] if runs else None
            follows = last and not last.carried and order.get(one.day, -1) == order.get(last.day, -3) + 1
            if follows and last and last.pence == one.pence:
                runs[-1].append(one)
            else:
                runs.append([one])
        parts = ([run] if len(run) >= LEAST_RUN else [[one] for one in run] for run in runs)
        return tuple(OwedRun(tuple(part)) for run in parts for part in run)


def rent_account(
    book: Book, let: Tenancy, came: Sequence[Receipt], lost: Sequence[Receipt], on: date, noted: date | None = None
) -> RentAccount | None:
    """The rent of a let at the end of a day; None where it had not begun or no first day is told. Rent for days before
    its owners got the house was due to others.

    came, lost, noted: as `receipts`, `written_off` and `first_lines` give them for the let.
    """
    first = book.let_from(let)
    if first is None or first > on and not any(receipt.day <= on for receipt in came):
        return None
    told = sorted(one for one in let.arrears if one[0] <= on)
    since = told[0][0] if told else max(first, followed_from(first, came, noted))
    carried = told[0][1] if told else 0
    due = tuple(d for d in dues(let, on, book.let_until(let)) if (d.day if told else d.period.first) >= since)
    if not told and not came and noted and let.last_day and let.last_day < noted:
        since, due = noted, ()  # over before the first line of the house: the book keeps nothing of it
    counted = [tuple(r for r in them if r.day <= on and (not told or r.day >= since)) for them in (came, lost)]
    sums = [_Sum(Owed(d.day, d.pence), d.period) for d in due]
    if carried:
        sums.insert(0, _Sum(Owed(since, carried, True), None))
    owed, ahead = _settle(sums, [*counted[0], *counted[1]])
    odds = tuple(_at_odds(book, let, came, lost, told[1:]))
    return RentAccount(let.name, on, since, bool(told), carried, due, counted[0], counted[1], owed, ahead, odds)


def followed_from(first: date, came: Sequence[Receipt], noted: date | None = None) -> date:
    """The first day from which the book keeps the rent of a let that began on `first`, as far as its lines show."""
    if not came:
        return TaxYear.of(noted).period.first if noted else first
    periods = [receipt.line.period.first for receipt in came if receipt.line.period]
    return min([TaxYear.of(min(receipt.day for receipt in came)).period.first, *periods])


@dataclass(slots=True)
class _Sum:
    """A sum to be paid, the days it is for, and how much of it was paid so far."""

    owed: Owed
    period: Period | None
    paid: int = 0

    def take(self, pence: int) -> int:
        """Pay what is left of it out of some money; what is left of the money."""
        here = min(pence, self.owed.pence - self.paid)
        self.paid += here
        return pence - here


def _settle(sums: list[_Sum], money: Sequence[Receipt]) -> tuple[tuple[Owed, ...], int]:
    """What is left of sums in order of day, and what was paid ahead. The order of the money makes no difference."""
    sums.sort(key=lambda one: (one.owed.day, not one.owed.carried))
    last = max((one.period.last for one in sums if one.period), default=None)
    pool = ahead = 0
    for receipt in sorted(money, key=_narrowest_first):
        period, left = receipt.line.period, receipt.pence
        if period is None or left < 0:
            pool += left
        elif last is None or period.first > last:
            ahead += left
        else:
            for one in sums:
                left = one.take(left) if one.period and one.period.overlap(period) else left
            pool += left
    for one in sums:
        pool = one.take(pool) if pool > 0 else pool
    for one in reversed(sums):  # money that went back beyond what lay ready was for the latest rent
        back = min(max(-pool, 0), one.paid)
        one.paid, pool = one.paid - back, pool + back
    left_over = (Owed(one.owed.day, one.owed.pence - one.paid, one.owed.carried) for one in sums)
    return tuple(owed for owed in left_over if owed.pence), pool + ahead


def _narrowest_first(receipt: Receipt) -> tuple[int, date, date, int]:
    period = receipt.line.period
    return (period.days, period.first, receipt.day, receipt.pence) if period else (0, date.min, receipt.day, 0)


def _at_odds(
    book: Book, let: Tenancy, came: Sequence[Receipt], lost: Sequence[Receipt], told: Iterable[tuple[date, int]]
) -> Iterable[tuple[date, int, int]]:
    """Arrears told of a later day that do not follow from the earlier ones; arrears are told as the day begins."""
    for day, pence in told:
        before = rent_account(book, let, came, lost, day_before(day))
        if before and before.arrears - max(before.ahead, 0) != pence:
            yield day, pence, before.arrears - max(before.ahead, 0)
