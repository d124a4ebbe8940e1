"""A book worked out: its verdicts and its rows, made once and shared by every statement."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from fractions import Fraction
from functools import cached_property
from typing import TYPE_CHECKING, Any

from ..book.world import Book
from ..collector import collector_paused
from ..days import Period, TaxYear, day_before
from ..ledger.postings import trial_balance
from ..ledger.rows import Row, rows, way
from ..money import share
from ..taxes.income.basis import basis
from ..taxes.income.owners import tax_shares
from ..taxes.income.period import early_end, period
from ..verdicts.catalogue import catalogue
from ..verdicts.engine import judge_all
from ..verdicts.history import History
from ..verdicts.verdict import CAPITAL, Kind, Part, Verdict

if TYPE_CHECKING:
    import pandas

    from ..verdicts.asked_once import HouseQuestion

EXPENSES = frozenset({Kind.RUNNING, Kind.REPAIR, Kind.DOMESTIC, Kind.NETS})
WORKS = frozenset({Kind.IMPROVEMENT, Kind.NO_RELIEF})
RECOVERS = frozenset({"insurance-for-damage", "damages-from-a-wrongdoer"})
BY_PAYMENT = {"investment_allowance": "other", "balancing_charge": "other_income"}  # kit of one's own, got and sold
INCOME = frozenset(  # what money in adds to
    {"rent", "other_income", "rent_a_room_rents", "premium", "inducement", "balancing_charge"}
)


@dataclass
class Accounts:
    """What a book comes to. `basis` questions are asked of each owner, so both days stay on every row."""

    book: Book
    history: History = field(init=False)  # what the book tells of each house over time
    verdicts: tuple[Verdict, ...] = field(init=False)
    rows: tuple[Row, ...] = field(init=False)
    _by_year: dict[str, dict[TaxYear, list[tuple[Row, date]]]] = field(init=False, default_factory=dict)
    _shares: dict[tuple[str, date], tuple[tuple[str, Fraction], ...]] = field(init=False, default_factory=dict)

    moved: dict[tuple[str, TaxYear], dict[str, int]] = field(init=False, default_factory=dict)  # see basis_change
    brought: dict[tuple[str, TaxYear], Any] = field(init=False, default_factory=dict)  # see brought.py
    _sums: dict[tuple[str, TaxYear, str], dict[str, int]] = field(init=False, default_factory=dict)
    _bases: dict[tuple[str, TaxYear], str] = field(init=False, default_factory=dict)
    _begun: dict[str, date | None] = field(init=False, default_factory=dict)
    _periods: dict[tuple[str, TaxYear], Period] = field(init=False, default_factory=dict)
    _changes: dict[str, list[date]] = field(init=False, default_factory=dict)

    def __post_init__(self) -> None:
        with collector_paused():
            self.history = History(self.book, catalogue())
            self.verdicts = judge_all(self.history)
            self.rows = rows(self.book, self.verdicts)

    @cached_property
    def table(self) -> pandas.DataFrame:
        """All rows as one pandas frame (see ledger/table.py)."""
        from ..ledger.table import frame

        return frame(self.rows)

    @cached_property
    def questions(self) -> tuple[HouseQuestion, ...]:
        """What several open works of a house hang on, each asked once."""
        from ..verdicts.asked_once import house_questions

        if sum(verdict.arguable for verdict in self.verdicts) < 2:
            return ()
        return house_questions(self.history, self.verdicts)

    @cached_property
    def balance(self) -> dict[str, int]:
        """The trial balance in pence; its sum is nil."""
        return trial_balance(self.rows)

    @cached_property
    def accrued(self) -> tuple[Row, ...]:
        """The rows as they count where what is owed counts: rent by the days it is for, costs shared over years."""
        from ..ledger.accruals import accrue

        return accrue(self.book, self.rows, self.verdicts, self._cuts)

    @cached_property
    def opening_rents(self) -> tuple[Row, ...]:
        """What rents were ahead or behind when the book began: asked where the way of accounting changes."""
        from ..ledger.accruals import opening_rents

        return tuple(opening_rents(self.book, self._cuts))

    def _cuts(self, house: str, period: Period) -> Iterator[date]:
        """The days of a period on which a house's shares change, or begin a year of accounts to 31 March."""
        yield from (day for day in self.share_changes(house) if day in period)
        if any(person.accounts_to for person in self.book.landlords.values()):
            for year in range(TaxYear.of(period.first).start, TaxYear.of(period.last).start + 1):
                if end := early_end(TaxYear(year)):
                    yield end + timedelta(days=1)

    @cached_property
    def came_back(self) -> Mapping[int, tuple[int, ...]]:
        """Of each open cost the open money back that hangs on it alone, by number: the two are settled as one."""
        found: dict[int, tuple[int, ...]] = {}
        for number, verdict in enumerate(self.verdicts):
            if len(verdict.follows) == 1 and way(verdict.item.line) == "in":
                [cost] = verdict.follows
                found[cost] = (*found.get(cost, ()), number)
        return found

    def share_changes(self, house: str) -> list[date]:
        """The days on which a house's income is shared in another way than the day before."""
        if house not in self._changes:
            about = self.book.properties.get(house)
            told = {o.since for o in about.owners} | {signed for signed, _ in about.form_17} if about else set()
            told |= {person.married_from for person in self.book.landlords.values()}
            days = sorted(day for day in told if day and day > date.min)
            self._changes[house] = [d for d in days if self.shares(house, d) != self.shares(house, day_before(d))]
        return self._changes[house]

    def begun(self, owner: str) -> date | None:
        """The first day on which a house of an owner's was let, as far as told."""
        if owner not in self._begun:
            days = []
            for name, house in self.book.properties.items():
                if first := self.history.lets.first_let(name):
                    held = [first, *(o.since for o in house.owners if o.since and o.since > first)]
                    days += [day for day in held if owner in dict(self.shares(name, day))]
            self._begun[owner] = min(days, default=None)
        return self._begun[owner]

    def period(self, owner: str, year: TaxYear) -> Period:
        """The days that stand for an owner's tax year: 6 April to 5 April, but for accounts to 31 March and a letting
        begun in the days after it."""
        if not self._ends_differ:
            return year.period
        key = (owner, year)
        if key not in self._periods:
            self._periods[key] = period(year, self.book.landlords[owner].to_march, self.begun(owner))
        return self._periods[key]

    @cached_property
    def _ends_differ(self) -> bool:
        """Whether other days than those of the tax year may stand for it, which few books have."""
        begun = [day for let in self.book.tenancies.values() if (day := self.book.let_from(let))]
        close = any((end := early_end(TaxYear.of(day))) and end < day for day in begun)
        return close or any(person.accounts_to for person in self.book.landlords.values())

    def year_of(self, owner: str, day: date) -> TaxYear:
        """The tax year of an owner that a day stands for."""
        year = TaxYear.of(day)
        if not self._ends_differ or day <= self.period(owner, year).last:
            return year
        return year.next

    def in_period(self, basis: str, days: Period) -> Iterator[tuple[Row, date]]:
        """The rows that count on some days on a basis, each with its day."""
        for start in range(TaxYear.of(days.first).start, TaxYear.of(days.last).start + 1):
            yield from ((row, day) for row, day in self.in_year(basis, TaxYear(start)) if day in days)

    def owed_day(self, row: Row) -> date | None:
        """The day a row counts where what is owed counts: moved to the first letting day where law says so."""
        if row.owed is None or row.verdict < 0:
            return row.owed
        return max(row.owed, self.verdicts[row.verdict].when)

    def day(self, row: Row, basis: str) -> date | None:
        """The day a row counts for tax on a basis, "cash" or "accruals"; None where it does not (yet)."""
        return self.owed_day(row) if basis == "accruals" else row.counts

    def in_year(self, basis: str, year: TaxYear) -> list[tuple[Row, date]]:
        """The rows that count in a tax year on a basis, each with the day it counts."""
        return self.by_year(basis).get(year, [])

    def by_year(self, basis: str) -> dict[TaxYear, list[tuple[Row, date]]]:
        """The rows by the tax year in which they count on a basis, "cash" or "accruals", each with its day."""
        found = self._by_year.get(basis)
        if found is None:
            found = self._by_year[basis] = defaultdict(list)
            for row in self.accrued if basis == "accruals" else self.rows:
                day = self.day(row, basis)
                if day is not None:
                    found[TaxYear.of(day)].append((row, day))
        return found

    def shares(self, house: str, day: date) -> tuple[tuple[str, Fraction], ...]:
        """Whose income the house is on a day, as income tax sees it."""
        key = (house, day)
        if key not in self._shares:
            self._shares[key] = tax_shares(self.book, house, day).parts if house in self.book.properties else ()
        return self._shares[key]

    def let_days(self, house: str, days: Period) -> int:
        """How many of some days a house was let, days with several lets counted once."""
        let: set[int] = set()
        for tenancy in self.book.tenancies.values():
            if tenancy.house == house and tenancy.first_day:
                run = Period(tenancy.first_day, max(tenancy.first_day, tenancy.last_day or date.max)).overlap(days)
                let.update(range(run.first.toordinal(), run.last.toordinal() + 1) if run else ())
        return len(let)

    def house_basis(self, house: str, year: TaxYear) -> str:
        """The basis of a house's year: what is owed where all its owners chose that, else by payment."""
        key = (house, year)
        if key not in self._bases:
            names = {name for name, _ in self.shares(house, year.period.last)}
            told = {basis(self.book, name, year) for name in names if name in self.book.landlords}
            self._bases[key] = "accruals" if told == {"accruals"} else "cash"
        return self._bases[key]

    def house_period(self, house: str, year: TaxYear) -> Period:
        """The days that stand for a house's year: those of its owners where they agree, else 6 April to 5 April."""
        names = [name for name, _ in self.shares(house, year.period.last) if name in self.book.landlords]
        told = {self.period(name, year) for name in names}
        return told.pop() if len(told) == 1 else year.period

    def deducted_before(self, owner: str, row: Row, day: date) -> bool:
        """Whether a cost that is for a day was deducted in an earlier year, when the owner accounted by payment.

        Such a cost does not come off a second time when the way of accounting changes (BIM72072).
        """
        if row.way != "out" or row.kind not in EXPENSES or row.counts is None:
            return False
        paid = self.year_of(owner, row.counts)
        return paid < self.year_of(owner, day) and basis(self.book, owner, paid) == "cash"

    def of_owner(self, owner: str, year: TaxYear, way: str) -> Iterator[tuple[Row, date, int]]:
        """An owner's part of every row of a year: (row, day it counts, pence). Owners' parts add up to the row, but for
        what one of them, who accounts by what is owed now, deducted earlier by payment."""
        owed = way == "accruals" == basis(self.book, owner, year)
        days = self.period(owner, year)
        for row, day in self.in_year(way, year) if days == year.period else self.in_period(way, days):
            if owed and self.deducted_before(owner, row, day):
                continue
            pence = self.parts(row, day).get(owner)
            if pence:
                yield row, day, pence

    def sums(self, owner: str, year: TaxYear, way: str) -> dict[str, int]:
        """The pence of each category that counts in an owner's year, by the lines of the book alone."""
        key = (owner, year, way)
        if key not in self._sums:
            found: dict[str, int] = {}
            for row, _, pence in self.of_owner(owner, year, way):
                category, sign = self.counted(row, way)
                if sign:
                    found[category] = found.get(category, 0) + sign * pence
            self._sums[key] = found
        return self._sums[key]

    def recovered(self, row: Row) -> bool:
        """Whether a row is what an insurer, or whoever did the harm, paid for a cost that comes off the rents.

        Such a sum is a receipt of the letting on both ways of accounting, and the cost stands whole (ITTOIA 2005 s. 106
        through the tables of ss. 272, 272ZA). What comes back for a domestic item makes its
        relief smaller.
        """
        return row.way == "in" and row.verdict >= 0 and recovers(self.verdicts[row.verdict], row)

    def counted(self, row: Row, basis: str) -> tuple[str, int]:
        """The category a row counts in for the pages and the updates on a basis, and its sign there; 0 where it does
        not. Owners of one house may account in two ways, so kit of their own is a capital allowance of the one and an
        expense of the other (ITTOIA 2005 s. 307B), and what it brings a balancing charge or other income (s. 307E)."""
        if self.recovered(row):
            return "other_income", 1
        category = BY_PAYMENT.get(row.category, row.category) if basis == "cash" else row.category
        return category, tax_sign(row)

    def parts(self, row: Row, day: date) -> dict[str, int]:
        """Whose a row is that counts on a day: pence by owner, which add up to it; empty where nobody is told.

        Income is shared as income tax sees it (ITA 2007 s. 836); what is capital goes by who owns the house.
        """
        owns = is_capital(row) and row.house in self.book.properties
        held = self.book.owners_on(row.house, day) if owns else self.shares(row.house, day)
        if len(held) < 2:
            return {name: row.pence for name, _ in held}
        pence = share(row.pence, [fraction for _, fraction in held], row.turn)
        return dict(zip((name for name, _ in held), pence, strict=True))


def up_to(book: Book, day: date) -> Book:
    """The book as it stood at the end of a day: later lines are left aside, as nobody could know them."""
    return replace(book, entries=tuple(entry for entry in book.entries if entry.day.first <= day))


def nets_capital(row: Row) -> bool:
    """Whether a row is money back for something that was no expense: it comes off what the works cost."""
    return row.kind is Kind.NETS and not row.category


def is_capital(row: Row) -> bool:
    """Whether a row is for the gain, or for no relief at all, and never for the income of a year."""
    return row.kind in CAPITAL or row.kind is Kind.CAPITAL_RECEIPT or nets_capital(row)


def recovers(verdict: Verdict, part: Row | Part) -> bool:
    """Whether a part of a verdict on money in is what was recovered for a cost that comes off the rents."""
    if part.kind is not Kind.NETS or part.category in ("", "domestic"):
        return False
    return any(fired.decided and fired.slug in RECOVERS for fired in verdict.path)


def tax_sign(row: Row | Part, way: str = "") -> int:
    """How a row enters its category: 1 adds, -1 takes off, 0 not at all. Income in and expenses out add.

    A part of a verdict that is no row yet is asked about with the way its money goes, "in" or "out".
    """
    if not row.category:
        return 0
    way = row.way if isinstance(row, Row) else way
    if row.kind is Kind.INCOME or row.kind is Kind.NETS and row.category in INCOME:
        return 1 if way == "in" else -1
    if row.kind in EXPENSES or row.kind is Kind.PRIVATE:  # private and in a class: tax taken off the rents
        return 1 if way == "out" else -1
    return 0
