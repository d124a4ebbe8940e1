"""The UK property pages by tax year, and the box and digital field of each category. Adds nothing up."""

from __future__ import annotations

from enum import StrEnum
from functools import cache

from ledger_tools.days import TaxYear
from ledger_tools.law.figures import NoFigure
from ledger_tools.law.load import Table, source, table

from ..record import Word, record


class Kind(Word):
    """What sort of entry a box takes."""

    INCOME = "income"
    EXPENSE = "expense"
    RELIEF = "relief"
    ADJUSTMENT = "adjustment"
    INFO = "info"
    TOTAL = "total"


class Rounding(StrEnum):
    """Which way a box total goes to whole pounds (SAM121370)."""

    DOWN = "down"
    UP = "up"
    NONE = "none"


@record
class Box:
    """One box of the pages as it stood from `first` to `last` (None: to this day as far as known).

    `sign` is how it enters the adjusted profit: 1 adds, -1 takes off, 0 stays out. `status` is read, second
    hand, derived or memory; `handled` is False for boxes that are listed but never filled.
    """

    number: str
    caption: str
    kind: Kind
    rounding: Rounding
    sign: int
    first: TaxYear
    last: TaxYear | None
    status: str
    source: str
    note: str
    handled: bool

    @property
    def order(self) -> tuple[int, int]:
        """Sort key: 20, 20.1, 20.2, 21."""
        whole, _, part = self.number.partition(".")
        return int(whole), int(part or 0)

    def stands_in(self, year: TaxYear) -> bool:
        """Whether the pages of that year have this box in this wording."""
        return self.first <= year and (self.last is None or year <= self.last)

    def checked_for(self, year: TaxYear) -> bool:
        """Whether somebody read this box on the very form of that year."""
        return self.status == "read" and year == form_last_seen()


@record
class Category:
    """Where one sort of money goes: a box, and a field below ukProperty sent each quarter or at the year end.

    `field` is empty where nothing is sent; `first` and `last` bound the tax years this holds for.
    """

    slug: str
    box: str
    field: str
    sent: str
    first: TaxYear
    last: TaxYear | None
    note: str

    def holds_in(self, year: TaxYear) -> bool:
        """Whether the category goes there in that year."""
        return self.first <= year and (self.last is None or year <= self.last)


@cache
def pages(year: TaxYear) -> tuple[Box, ...]:
    """Every box of a year's pages in the order of their numbers; NoFigure before the first year held."""
    _from_first(year)
    return tuple(sorted((box for box in _boxes() if box.stands_in(year)), key=lambda box: box.order))


def box(number: str, year: TaxYear) -> Box:
    """One box of a year's pages; NoFigure where that year's pages have none of that number."""
    for found in pages(year):
        if found.number == number:
            return found
    raise NoFigure(f"the property pages of {year} have no box {number}")


@cache
def categories(year: TaxYear) -> tuple[Category, ...]:
    """Every category with a place on a year's pages; NoFigure before the first year held."""
    numbers = {found.number for found in pages(year)}
    return tuple(found for found in _categories() if found.holds_in(year) and found.box in numbers)


@cache
def box_for(category: str, year: TaxYear) -> Box:
    """The box a category goes to; NoFigure where that year has no place for it, KeyError if unknown."""
    return box(_category(category, year).box, year)


def field_for(category: str, year: TaxYear) -> str | None:
    """The digital field of a category, as a path below ukProperty; None where it has none (yet).

    NoFigure and KeyError as for box_for.
    """
    found = _category(category, year)
    if year < TaxYear.read(table("property_pages")["digital"]["first"]):
        return None
    return found.field or None


def form_last_seen() -> TaxYear:
    """The latest year whose form was seen whole; captions of later years may differ."""
    return TaxYear.read(table("property_pages")["form"]["last_seen"])


def pages_checked_up_to() -> TaxYear:
    """The latest year for which the list of boxes was worked out."""
    return TaxYear.of(table("property_pages")["known"]["until"])


def _category(slug: str, year: TaxYear) -> Category:
    known = [found for found in _categories() if found.slug == slug]
    if not known:
        raise KeyError(f"no category is called {slug!r}")
    for found in categories(year):
        if found.slug == slug:
            return found
    raise NoFigure(f"the property pages of {year} have no place for {slug}")


def _from_first(year: TaxYear) -> None:
    first = TaxYear.read(table("property_pages")["form"]["first"])
    if year < first:
        raise NoFigure(f"no property pages are held before {first}; you asked about {year}")


def _year(entry: Table, key: str) -> TaxYear | None:
    return TaxYear.read(entry[key]) if key in entry else None


@cache
def _boxes() -> tuple[Box, ...]:
    held = table("property_pages")
    holiday = held["holiday"]
    plain = {"kind": "info", "rounding": "none", "sign": 0}
    unhandled = [_box({**holiday, **plain, "number": number}, handled=False) for number in holiday["numbers"]]
    return (*(_box(entry, handled=True) for entry in held["box"]), *unhandled)


def _box(entry: Table, *, handled: bool) -> Box:
    return Box(
        number=entry["number"],
        caption=entry["caption"],
        kind=Kind(entry["kind"]),
        rounding=Rounding(entry["rounding"]),
        sign=entry["sign"],
        first=TaxYear.read(entry["first"]),
        last=_year(entry, "last"),
        status=entry["status"],
        source=source(entry["source"])["title"],
        note=entry.get("note", ""),
        handled=handled,
    )


@cache
def _categories() -> tuple[Category, ...]:
    held = table("property_pages")
    start = TaxYear.read(held["form"]["first"])
    return tuple(
        Category(
            slug=entry["slug"],
            box=entry["box"],
            field=entry["field"],
            sent=entry["sent"],
            first=_year(entry, "first") or start,
            last=_year(entry, "last"),
            note=entry.get("note", ""),
        )
        for entry in held["category"]
    )
