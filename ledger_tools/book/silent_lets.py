"""Lets of which a book keeps no rent in a tax year, though it keeps costs of their house. Knows no tax.

Such a year has a result that lacks its income, and the loss it seems to leave is none.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from datetime import timedelta

from ..days import Period, TaxYear, day_words
from ..problems import Level, Problem
from ..record import record
from .entries import Entry
from .once import once
from .rents import receipts, unplaced, written_off
from .world import Book, Tenancy

_COMES = frozenset({"sold", "scrapped", "took home", "recharged"})
ABOUT = timedelta(days=62)
LEAST = 28  # days of a year: of a shorter part the rent may well have come in another year


@record
class Silent:
    """A let, a tax year, and the days of it in that year of which no rent stands in the book."""

    let: Tenancy
    year: TaxYear
    days: Period


@once
def silent_lets(book: Book) -> tuple[Silent, ...]:
    """Every let and tax year with costs of the house in the book and no rent of that let, paid or given up."""
    costs = _years_with_costs(book)
    rent: dict[str, set[TaxYear]] = defaultdict(set)
    for found in (receipts(book), written_off(book)):
        for name, them in found.items():
            for one in them:
                days = one.line.period or Period(one.day, one.day)
                rent[name] |= {TaxYear.of(one.day), TaxYear.of(days.first), TaxYear.of(days.last)}
    loose = {house: {TaxYear.of(r.day) for r in unplaced(book, house)} for house in book.properties}
    silent = []
    for let in book.tenancies.values():
        for year in sorted(costs[let.house], key=lambda year: year.start):
            spell = _days(book, let, year)
            if spell and spell.days >= LEAST and year not in rent[let.name] | loose.get(let.house, set()):
                silent.append(Silent(let, year, spell))
    return tuple(silent)


def _years_with_costs(book: Book) -> dict[str, set[TaxYear]]:
    years: dict[str, set[TaxYear]] = defaultdict(set)
    for entry in book.entries:
        for line in (entry, *entry.lines):
            if line.amount and (line.kind in ("works", "bill") and line.verb not in _COMES or line.verb == "paid"):
                for home in line.homes:
                    if not (line.verb == "paid" and _with_purchase(book, home.house, entry)):
                        years[home.house].add(TaxYear.of(entry.day.first))
    return years


def _with_purchase(book: Book, house: str, entry: Entry) -> bool:
    """Whether a payment falls in the days about the purchase, and so may be part of what that cost."""
    got = book.properties[house].got if house in book.properties else None
    return got is not None and abs(entry.day.first - got.day) <= ABOUT


def _days(book: Book, let: Tenancy, year: TaxYear) -> Period | None:
    """The days of a let in a year, as far as the house was held."""
    first, last = book.let_from(let), book.let_until(let) or year.period.last
    if let.house not in book.properties or first is None or not let.rents:
        return None
    return Period(first, last).overlap(year.period) if first <= last else None


def rents_missing(book: Book) -> Iterator[Problem]:
    """Doubts "rents-missing": a year that is over, of which the book keeps a house's costs and not its rent.

    Where arrears are told, the book says itself from when it keeps the rent.
    """
    if not book.entries:
        return
    year = TaxYear.of(book.entries[-1].day.first)
    if book.landlords and all(landlord.basis(year) == "accruals" for landlord in book.landlords.values()):
        return  # by what is owed the rent counts without its coming
    ended = book.entries[-1].day.first
    by_let: dict[str, list[Silent]] = defaultdict(list)
    for one in silent_lets(book):
        if one.year.period.last < ended and not one.let.arrears:
            by_let[one.let.name].append(one)
    yield from map(_missing, by_let.values())


def _missing(years: list[Silent]) -> Problem:
    """All years of a let that lack its rent, told at once."""
    let, last, many = years[0].let, day_words(years[-1].days.last), len(years) > 1
    lines = [
        f"`{day_words(one.days.last)} received rent £… from {let.name} for {day_words(one.days.first)} to "
        f"{day_words(one.days.last)}`" for one in years
    ]  # fmt: skip
    told = [str(one.year) for one in years]
    when = f"{', '.join(told[:-1])} and {told[-1]}" if many else told[0]
    lines_ = f"{', '.join(lines[:-1])} and {lines[-1]}" if many else lines[0]
    each = "What those years bring, and a loss one leaves to the next, then come out wrong. One line a year is enough"
    alone = "What that year brings, and a loss it leaves to the next, then come out wrong. One line is enough"
    return Problem(
        "rents-missing", Level.DOUBT, f"Of {when} your book has costs of {let.house}, but no rent of {let.name}.",
        (let.place.mark(f"no rent of {'those years' if many else 'that year'}"),),
        f"{each if many else alone}: {lines_}, with all that came. If none came, say so: `arrears £… on {last}` under "
        "the tenancy.",
    )  # fmt: skip
