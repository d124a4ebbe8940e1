"""Whether a book tells that a house is to be sold, and where: a notice, a note, words to a council, an offer for sale.

Knows no rule and no thing. What counts as such words is common practice, no source; a false alarm only asks.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from datetime import date

from ..book.entries import Entry
from ..book.world import Book
from ..days import day_words
from ..record import record

IN_A_NOTICE = frozenset({"sale", "sell", "selling", "sold"})
SPEAKS = frozenset({"noted", "told", "asked", "claimed"})
OF_A_HOUSE = frozenset({"house", "flat", "home", "property", "place", "cottage", "bungalow", "it", "up"})
TO_SELL = frozenset({"sale", "sell", "selling"})
NOT_OURS = ("sale or let", "let or sale", "sell or let", "let or sell", "next door", "neighbour")


@record
class Telling:
    """Who or what told it, as the start of a sentence, from which day, and until when where that is told."""

    day: date
    lead: str
    until: date | None = None


class Selling:
    """What a book tells of houses that are to be sold."""

    def __init__(self, book: Book) -> None:
        self._told: dict[str, list[Telling]] = defaultdict(list)
        for tenancy in book.tenancies.values():
            for day, why in tenancy.notice_reasons:
                if not IN_A_NOTICE.isdisjoint(_words(why)):
                    self._told[tenancy.house].append(Telling(day, f"The notice of {day_words(day)} said"))
        for house, place in book.properties.items():
            for spell in place.spells:
                if spell.state == "marketed for sale":
                    lead = f"That it was marketed for sale from {day_words(spell.since)} says"
                    self._told[house].append(Telling(spell.since, lead, spell.until))
        for entry in book.entries:
            if entry.verb in SPEAKS and any(map(speaks_of_selling, _said(entry))):
                for home in entry.homes:
                    lead = f"Your line of {day_words(entry.day.first)} ({entry.source}) says"
                    self._told[home.house].append(Telling(entry.day.first, lead))

    def told(self, house: str, day: date) -> Telling | None:
        """The last telling that holds on a day; None where there is none."""
        told = self._told.get(house, ())
        found = [one for one in told if one.day <= day and (one.until is None or day <= one.until)]
        return max(found, key=lambda telling: telling.day, default=None)


def speaks_of_selling(text: str) -> bool:
    """Whether a landlord's own words say that the house is to be sold: "the flat is to be sold", "to sell it"."""
    plain, words = text.lower(), _words(text)
    if any(phrase in plain for phrase in NOT_OURS) or OF_A_HOUSE.isdisjoint(words):
        return False
    return not TO_SELL.isdisjoint(words) or "be sold" in plain


def _words(text: str) -> set[str]:
    return {word.strip(".,;:!?'\"()") for word in text.lower().split()}


def _said(entry: Entry) -> Iterator[str]:
    """The words of a line: its note, what was told, and why."""
    yield entry.note
    yield from entry.facts.because
    yield from entry.facts.says
