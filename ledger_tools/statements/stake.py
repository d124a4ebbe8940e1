"""What rides on open sums: the income tax of each owner's part between both answers, an estimate.

The tax is worked out twice on top of the owner's other income and the property result of the year, the reduction for
finance costs each time anew; savings, dividends and the gain when the house is sold are left out.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date
from functools import cached_property

from .. import law
from ..days import TaxYear
from ..ledger.rows import way
from ..money import round_half_up, share
from ..record import record
from ..taxes.income.bands import rates
from ..taxes.income.basis import basis
from ..taxes.income.estimate import Estimate
from ..verdicts.verdict import Cgt, Kind, Part, Verdict
from .accounts import INCOME, Accounts, recovers, tax_sign
from .brought import Brought, brought
from .in_tax import ELSEWHERE, Sums, of_pages
from .owner_pages import pages, sums


@record
class TooLate:
    """The last day to claim tax of a year back, and what that day rests on: paragraph, and how far it was read."""

    day: date
    rests_on: str


@record
class Stake:
    """What open sums mean for one owner in one tax year.

    pence: by how much the owner's result of the year differs between both answers; the owner's part of the sums where
    it is the same either way. tax: the difference in pence between both answers, None where the book does
    not tell the owner's other income. each: then the tax on each £100 at every rate of the year, in pence, lowest
    first; nothing where no bands are held for the year, or where both answers take the same off the rents.
    nation: whose rates; "" where the book does not say, and those of England are taken. why: where there is no tax
    between both answers, why not, in a few words. no_rents: the book keeps none of the year, as it begins with a later
    one, so there is no sum whatever it tells. too_late: the last day to claim tax of the year back, and what it rests
    on, where the book goes beyond it.
    """

    owner: str
    full: str
    year: TaxYear
    pence: int
    tax: int | None
    each: tuple[int, ...] = ()
    nation: str = ""
    why: str = ""
    no_rents: bool = False
    too_late: TooLate | None = None


Who = tuple[str, TaxYear]


class Stakes:
    """Answers what rides on open verdicts of one book; what is asked twice is kept."""

    def __init__(self, accounts: Accounts) -> None:
        self.accounts = accounts
        self._sums: dict[Who, tuple[Sums, Brought]] = {}
        self._rents: dict[str, TaxYear | None] = {}

    def of(self, numbers: Sequence[int]) -> tuple[Stake, ...]:
        """What rides on these verdicts taken together, for each owner and year; nothing for those not open or paid.

        Money back is taken with the open costs that it came back for, and a cost with what came back for it alone:
        neither can be settled without the other.
        """
        mine: dict[Who, dict[int, int]] = defaultdict(dict)
        verdicts, back = self.accounts.verdicts, self.accounts.came_back
        costs = {n: verdicts[n].follows for n in numbers if way(verdicts[n].item.line) == "in"}
        taken = (n for one in numbers for n in (one, *costs.get(one, ()), *back.get(one, ())))
        for number in dict.fromkeys(taken):
            for who, pence in self._open.get(number, {}).items():
                mine[who][number] = pence
        ordered = sorted(mine, key=lambda who: (who[1], who[0]))
        return tuple(replace(self._stake(*who, mine[who]), too_late=self._too_late(who[1])) for who in ordered)

    def _too_late(self, year: TaxYear) -> TooLate | None:
        """The last day to claim tax of a year back, where the book has a later line."""
        try:
            last = law.due("deadlines.overpayment_claim", year)
        except law.NoFigure:
            return None
        rests_on = "; ".join((str(last.citation), *([last.caution] if last.caution else ())))
        return TooLate(last.day, rests_on) if self._until > last.day else None

    @cached_property
    def _until(self) -> date:
        """The day of the last line of the book."""
        return max((entry.day.first for entry in self.accounts.book.entries), default=date.min)

    @cached_property
    def _open(self) -> dict[int, dict[Who, int]]:
        """Of each open verdict the part of each owner in each year, in pence."""
        found: dict[int, dict[Who, int]] = defaultdict(lambda: defaultdict(int))
        for row in self.accounts.rows:
            if row.kind is not Kind.ARGUABLE:
                continue
            for how in ("cash", "accruals"):
                day = self.accounts.day(row, how)
                if day is None:
                    continue
                for name, pence in self.accounts.parts(row, day).items():
                    landlord = self.accounts.book.landlords.get(name)
                    if not pence or landlord is None:
                        continue
                    begins = self.accounts.history.lets.begins_of(name, day)  # a part of before counts from then on
                    year = self.accounts.year_of(name, max(day, begins or day))
                    if basis(self.accounts.book, name, year) == how:
                        found[row.verdict][name, year] += pence
        return found

    def _stake(self, owner: str, year: TaxYear, mine: Mapping[int, int]) -> Stake:
        landlord = self.accounts.book.landlords[owner]
        nation, other = landlord.nation(year), landlord.other_income.get(year)
        good: Counter[str] = Counter()
        bad: Counter[str] = Counter()
        for number, pence in mine.items():
            better, worse = both_sums(self.accounts.verdicts[number], pence)
            good.update(better)
            bad.update(worse)
        made = (owner, landlord.full, year, abs(_result(good) - _result(bad)) or sum(mine.values()))
        if not any((good - bad).values()) and not any((bad - good).values()):
            return Stake(*made, 0, (), nation, "neither answer changes what is taxed of the rents")
        first = self._first_rents(owner)
        unkept = first is not None and year.next < first  # rent of a first let may come in the year after
        try:
            if other is None or unkept:
                each = tuple(round_half_up(rate * 10_000) for rate in rates(year, nation or ELSEWHERE))
                return Stake(*made, None, each, nation, no_rents=unkept)
        except law.NoFigure:
            return Stake(*made, None, (), nation)
        low, high = (self._estimate(owner, year, extra) for extra in (good, bad))
        if low is None or high is None:
            return Stake(*made, None, (), nation)
        tax = abs(high.tax - low.tax)
        return Stake(*made, tax, (), nation, "" if tax else _why_none(low, high))

    def _first_rents(self, owner: str) -> TaxYear | None:
        """The first tax year in which the book keeps rents of an owner; None where it keeps none."""
        if owner not in self._rents:
            book = self.accounts.book
            begun = min((entry.day.first for entry in book.entries), default=date.max)
            years = (TaxYear(start) for start in range(TaxYear.of(begun).start, TaxYear.of(self._until).start + 1))
            kept = (year for year in years if self.accounts.sums(owner, year, basis(book, owner, year)).get("rent"))
            self._rents[owner] = next(kept, None)
        return self._rents[owner]

    def _estimate(self, owner: str, year: TaxYear, extra: Sums) -> Estimate | None:
        """The owner's tax of a year with these sums on top of what the boxes hold; None without an estimate."""
        landlord, (made, came) = self.accounts.book.landlords[owner], self._base(owner, year)
        return of_pages(landlord, year, pages(landlord, year, made, came.loss.pence, came.finance.pence, extra))

    def _base(self, owner: str, year: TaxYear) -> tuple[Sums, Brought]:
        """The owner's sums by category without anything open, and what is brought into the year."""
        if (owner, year) not in self._sums:
            self._sums[owner, year] = sums(self.accounts, owner, year), brought(self.accounts, owner, year)
        return self._sums[owner, year]


def _why_none(low: Estimate, high: Estimate) -> str:
    """Why two estimates of a year come to the same tax, in a few words."""
    if not low.profits and not high.profits:
        return "no profit is left to tax"
    if low.profits == high.profits:
        return "the same profit is taxed either way"
    if low.before == high.before:
        return "so much profit is free of tax"
    takes = "the reduction for finance costs takes that tax off already"
    return takes if low.profits and high.profits else f"{takes}, and beyond the profit nothing is left to tax"


def _result(sums: Sums) -> int:
    """What sums by category add to the result of the lets; finance costs stand outside of it."""
    return sum(pence if category in INCOME else -pence for category, pence in sums.items() if category not in OUTSIDE)


OUTSIDE = frozenset({"", "finance_residential"})


def both_sums(verdict: Verdict, pence: int) -> tuple[Sums, Sums]:
    """So many pence of the open part of a verdict, by category: by the favourable answer, then by the cautious one."""
    good: Counter[str] = Counter()
    bad: Counter[str] = Counter()
    better, worse = both_answers(verdict)
    _add(good, better, pence, verdict)
    _add(bad, worse, pence, verdict)
    return good, bad


def both_answers(verdict: Verdict) -> tuple[tuple[Part, ...], tuple[Part, ...]]:
    """The open part of a verdict by the favourable and by the cautious answer; what both share is left out."""
    rest: Counter[tuple[Kind, str, Cgt]] = Counter()
    for part in verdict.cautious:
        rest[part.kind, part.category, part.cgt] += part.amount
    better = []
    for part in verdict.other:
        key = part.kind, part.category, part.cgt
        same = min(part.amount, rest[key])
        rest[key] -= same
        if part.amount > same:
            better.append(Part(part.amount - same, *key))
    return tuple(better), tuple(Part(pence, *key) for key, pence in rest.items() if pence)


def _add(sums: Counter[str], parts: tuple[Part, ...], pence: int, verdict: Verdict) -> None:
    """Put an owner's pence of an answer into the sums by category."""
    if not parts:
        return
    goes = way(verdict.item.line)
    for part, mine in zip(parts, share(pence, [part.amount for part in parts]), strict=True):
        if goes == "in" and recovers(verdict, part):  # a receipt, as it is once it is settled
            sums["other_income"] += mine
        else:
            sums[part.category] += tax_sign(part, goes) * mine
