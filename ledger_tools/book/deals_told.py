"""The purchase or the sale of a whole house told as a dated line, where a heading tells it.

Such a line would count as if a part of the house, or something in it, were bought or sold. Knows no tax.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..money import pounds
from ..problems import Level, Problem
from .entries import Entry
from .world import Book

_WHOLE = re.compile(
    r"(?:(?:the|my|our|whole|entire) )*"
    r"(?:house|flat|apartment|maisonette|bungalow|cottage|home|property|dwelling|freehold of (?:the )?house)"
)
_SALE = re.compile(
    r"(?:house |property )?(?:sale|selling) (?:price|proceeds)|proceeds of (?:the )?sale|(?:house|property) sale"
    r"|sale of (?:the )?(?:house|flat|property)"
)
NAMES = {"sold": "sale", "bought": "purchase"}


def deals_told(book: Book) -> Iterator[Problem]:
    """Errors "belongs-elsewhere": a house sold or bought on a dated line; its price, where no heading tells of it."""
    for entry in book.entries:
        for line in (entry, *entry.lines):
            if verb := whole_deal(book, line):
                yield _belongs_under(book, entry, line, verb)


def whole_deal(book: Book, line: Entry) -> str:
    """ "sold" or "bought", where a line tells no less than that of its house; "" else."""
    what = line.thing.lower()
    if not what or not line.homes or what in book.thing_words:
        return ""
    house = line.homes[0].house
    if line.verb in NAMES and (line.total and _WHOLE.fullmatch(what) or what == house.replace("-", " ")):
        return line.verb
    price = line.verb == "received" and _SALE.fullmatch(what) and not line.facts.returned
    return "sold" if price and book.properties[house].sold is None else ""


def _belongs_under(book: Book, entry: Entry, line: Entry, verb: str) -> Problem:
    name = line.homes[0].house
    house = book.properties[name]
    told = house.sold if verb == "sold" else house.got
    day = entry.day if entry.day.exact else "…"
    deal = f"{verb} {day} for {pounds(line.total) if line.total else '£…'}"
    if told:
        help = f"The {NAMES[verb]} is told under {name} already, so take this line out."
    else:
        help = f"Under `property {name}` write, indented, `{deal}`, and take this line out."
    mark = line.things[0].place.mark("belongs under the property")
    marks = (mark, told.place.mark("told here")) if told else (mark,)
    return Problem(
        "belongs-elsewhere", Level.ERROR,
        f"The {NAMES[verb]} of a whole house stands under its heading, and not on a dated line.", marks, help,
    )  # fmt: skip
