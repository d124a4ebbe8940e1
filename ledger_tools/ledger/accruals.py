"""The rows as they count where what is owed counts, whenever it is paid: rent for the days it is for, and what covers
days of two tax years shared between them by days. Source: ITTOIA 2005 s. 275(3)-(4); PIM1010.

Knows nothing of boxes, owners or who accounts in this way.
"""

from __future__ import annotations

from collections.abc import Callable, Container, Iterable, Iterator, Sequence
from dataclasses import replace
from datetime import date, timedelta

from ..book.arrears import rent_account
from ..book.rents import Due, Receipt, dues, first_lines, receipts, written_off
from ..book.world import Book, Tenancy
from ..days import Period, TaxYear, day_before
from ..money import share
from ..verdicts.verdict import Cgt, Kind, Verdict
from .rows import Row, part_rows

LONGEST_RENT = timedelta(366)  # a sum of rent due within it may still be for days of the last year


Cuts = Callable[[str, Period], Iterable[date]]  # of a house: days at which a sum for some days is cut beside 6 April


def no_cuts(house: str, period: Period) -> Iterable[date]:
    """Where the shares of a house never change."""
    return ()


def accrue(book: Book, rows: Sequence[Row], verdicts: Sequence[Verdict], cuts: Cuts = no_cuts) -> tuple[Row, ...]:
    """Every row with the day it counts as `owed`; rent received of a let gives way to what its rent comes to.

    A sum for some days is shared by days between tax years, and between the stretches that `cuts` begins.

    A let that tells no rent keeps the sums received. Rent is worked out from the tax year on in which a landlord of the
    book chose to account so, or in which rent of the let first came in: of years before that the book keeps no rents.
    """
    came, lets = receipts(book), _kept(book)
    instead = {id(receipt.line) for name in lets for receipt in came.get(name, ())}
    found: list[Row] = []
    for row in rows:
        line = verdicts[row.verdict].item.line if row.verdict >= 0 else None
        if line is not None and id(line) in instead:
            continue
        if line is None or line.period is None or row.owed is None or not row.category:
            found.append(row)
        else:
            found += _spread(row, line.period, cuts)
    return (*found, *_rents(book, lets.values(), cuts), *_lost(lets, verdicts))


def opening_rents(book: Book, cuts: Cuts = no_cuts) -> Iterator[Row]:
    """What a change of the way of accounting must know of the rents before the book: what they were ahead or behind.

    "in": rent of days before those that `accrue` keeps, which was still to come then, as the book follows it; "out":
    rent of days that it keeps, which fell due before, so that it had come by payment before the book began, unless it
    is among the arrears told.
    """
    came, lost, noted = receipts(book), written_off(book), first_lines(book)
    for name, (let, first) in _kept(book).items():
        last, none = book.years[-1].period.last, ()
        account = rent_account(book, let, came.get(name, none), lost.get(name, none), last, noted.get(name))
        if account is None:
            continue
        if account.carried:
            yield _rent(let, account.since, account.carried)
        for due, part, pence in _parts(book, let, last, (*cuts(let.house, Period(first, last)), first)):
            follows = due.day >= account.since if account.told else due.period.first >= min(account.since, first)
            if follows and part.first < first:
                yield _rent(let, part.first, pence)
            elif not follows and part.first >= first:
                yield replace(_rent(let, part.first, pence), way="out")


def _kept(book: Book) -> dict[str, tuple[Tenancy, date]]:
    """The lets whose rent is worked out, each with the first day from which it is."""
    came = receipts(book)
    return {
        name: (let, first)
        for name, let in book.tenancies.items()
        if let.rents and let.first_day and (first := _kept_from(book, came.get(name, ())))
    }


def _spread(row: Row, period: Period, cuts: Cuts) -> Iterator[Row]:
    """A row for some days, shared between the stretches they fall in."""
    parts = stretches(period, cuts(row.house, period))
    for part, pence in zip(parts, share(row.pence, [part.days for part in parts]), strict=True):
        if pence:
            yield replace(row, owed=part.first, paid=row.paid if len(parts) == 1 else None, pence=pence)


def stretches(period: Period, cuts: Iterable[date] = ()) -> list[Period]:
    """The days of a period by tax year, in order, cut once more before each of some days."""
    years = range(TaxYear.of(period.first).start + 1, TaxYear.of(period.last).start + 1)
    begins = {*(TaxYear(year).period.first for year in years), *(day for day in cuts if day in period), period.first}
    firsts = sorted(begins)
    lasts = [*(day_before(day) for day in firsts[1:]), period.last]
    return [Period(first, last) for first, last in zip(firsts, lasts, strict=True)]


def _kept_from(book: Book, came: Sequence[Receipt]) -> date | None:
    """The first day from which the book keeps the rents of a let, as far as it shows."""
    chosen = [year or book.years[0] for person in book.landlords.values() for year, how in person.bases
              if how == "accruals" and book.years]  # fmt: skip
    years = [*chosen, *(TaxYear.of(receipt.day) for receipt in came[:1])]
    return min(years).period.first if years else None


def _rents(book: Book, lets: Iterable[tuple[Tenancy, date]], cuts: Cuts) -> Iterator[Row]:
    for let, first in lets:
        known = Period(first, book.years[-1].period.last)
        for _, part, pence in _parts(book, let, known.last, cuts(let.house, known)):
            if part.first in known:
                yield _rent(let, part.first, pence)


def _parts(book: Book, let: Tenancy, last: date, cuts: Iterable[date]) -> Iterator[tuple[Due, Period, int]]:
    """The owners' rent of a let up to a last day and what is due soon after, in parts by tax year and by cuts."""
    ours, days = book.let_from(let) or date.max, tuple(cuts)
    for due in dues(let, last + LONGEST_RENT, book.let_until(let)):
        parts = stretches(due.period, (*days, ours))
        for part, pence in zip(parts, share(due.pence, [part.days for part in parts]), strict=True):
            if pence and part.first >= ours:
                yield due, part, pence


def _lost(lets: Container[str], verdicts: Sequence[Verdict]) -> Iterator[Row]:
    """Rent written off, of lets whose rent was counted as it fell due; what is open of it too, to be asked about."""
    for number, verdict in enumerate(verdicts):
        line = verdict.item.line
        if line.verb == "wrote off" and line.who and line.who.name in lets:
            for part in verdict.parts:
                if part.kind in (Kind.RUNNING, Kind.ARGUABLE):
                    yield from part_rows(number, verdict, part, part.amount, line.day.first, None)


def _rent(let: Tenancy, day: date, pence: int) -> Row:
    who = " and ".join(let.tenants)
    return Row(
        let.house, day, None, None, "in", pence, Kind.INCOME, "rent", Cgt.NONE, "rent", "rent", "fell due", who,
        let.place.short, -1,
    )  # fmt: skip
