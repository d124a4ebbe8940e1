"""Bills of council tax in a book, and those that a later bill for some of the same days takes the place of.

Knows nothing of what the tax should be. A council sends a new bill whenever something changes, and then the new one is
what it asks (common practice, no source).
"""

from __future__ import annotations

from .entries import Entry
from .items import party
from .world import Book

TAX = "council tax"  # as a line names it


def is_council_tax(book: Book, entry: Entry) -> bool:
    """Whether a line is about council tax: it says so, or a council bills or is paid with nothing else said."""
    if any(line.thing == TAX for line in (entry, *entry.lines)):
        return True
    by_council = entry.who is not None and entry.who.name in book.councils
    return by_council and not entry.things and not entry.lines


def replaced(book: Book) -> dict[int, Entry]:
    """The later bill in place of each replaced one, by the identity of that one's entry.

    Only plain bills of one sum for days: what is told as paid on the bill itself, or has a number, stands.
    """
    plain = [(e, e.period) for e in book.entries if _plain(e) and e.period and is_council_tax(book, e)]
    found: dict[int, Entry] = {}
    for bill, days in plain:
        for later, other in plain:
            if later.day.first > bill.day.first and _same(bill, later) and days.overlap(other):
                found[id(bill)] = later
    return found


def _plain(entry: Entry) -> bool:
    return entry.verb == "billed" and not entry.lines and not entry.facts.paid and not entry.facts.number


def _same(one: Entry, other: Entry) -> bool:
    return (party(one), one.homes) == (party(other), other.homes)
