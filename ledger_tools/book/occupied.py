"""Who lived in a house when, and whose council tax bills are about: what cannot both be true. Knows no tax, no rate."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from ..days import Period, day_words
from ..problems import Level, Place, Problem
from ..spelling import near
from .entries import Entry
from .world import Book, Property

LIVED = ("own home", "lived in")
TAX = "council tax"
LET = "was let to"
Occupation = tuple[date, date, str, Place]  # first and last day, in words, where it is told
SAID = {"own home": "was your own home", "lived in": "was lived in"}


def occupied_twice(book: Book) -> Iterator[Problem]:
    """Nobody else lives in a house that is let as a whole, and it is not lived in by two that are told apart."""
    for house in book.properties.values():
        found = sorted(_occupations(book, house), key=lambda one: one[0])
        for number, later in enumerate(found):
            clash = next((one for one in reversed(found[:number]) if _both(one, later)), None)
            if clash is not None:
                yield _twice(house, clash, later)


def _both(one: Occupation, later: Occupation) -> bool:
    """Whether they have days in common that they cannot have; two lets that do are told elsewhere, and a let within
    the time of your own home is that of a lodger."""
    lets = one[2].startswith(LET), later[2].startswith(LET)
    lodger = one[2] == SAID["own home"] and lets[1] and later[1] <= one[1]
    return later[0] <= one[1] and not all(lets) and not lodger


def _twice(house: Property, one: Occupation, later: Occupation) -> Problem:
    first, last, said, place = one
    since, until, then, other = later
    days = Period(since, min(last, until))
    return Problem(
        "lived-in-twice", Level.DOUBT,
        f"{house.name} {said} and {then}, both {'on' if days.days == 1 else 'from'} {day_words(since)}{_to(days)}.",
        (other.mark("here it " + then), place.mark("and here it " + said)),
        f"Correct one of the dates, such as `{_corrected(first, since, said)}`; of two that hold at once, council tax "
        "goes by the first of the Act's list: you, then the tenant.",
    )  # fmt: skip


def _to(days: Period) -> str:
    return "" if days.days == 1 or days.last == date.max else f" to {day_words(days.last)}"


def _occupations(book: Book, house: Property) -> Iterator[Occupation]:
    for spell in house.spells:
        if spell.state in LIVED:
            yield spell.since, spell.until or date.max, SAID[spell.state], spell.place
    for let in book.tenancies.values():
        first = let.moved_in or let.first_day
        if let.house == house.name and first is not None and not let.room:
            left = date.fromordinal(let.moved_out.toordinal() - 1) if let.moved_out else None
            last = left or let.last_day or date.max
            if first <= last:
                yield first, last, f"{LET} {let.name}", let.place


def _corrected(first: date, since: date, said: str) -> str:
    before = day_words(date.fromordinal(max(since.toordinal() - 1, first.toordinal())))
    words = {text: state for state, text in SAID.items()}
    return f"{words[said]} from {day_words(first)} to {before}" if said in words else f"moved out {day_words(since)}"


def bills_of_others(book: Book) -> Iterator[Problem]:
    """A bill of council tax is for days on which the house was the landlord's, or some of them."""
    for entry in book.entries:
        if entry.verb != "billed" or entry.period is None or not _about_tax(entry):
            continue
        for share in entry.homes:
            house = book.properties[share.house]
            got, sold = house.got, house.sold
            if got and entry.period.last < got.day:
                yield _others(entry, f"before {house.name} was {got.how} on {day_words(got.day)}", got.place, got.how)
            elif sold and entry.period.first >= sold.day:
                yield _others(entry, f"after {house.name} was sold on {day_words(sold.day)}", sold.place, "sold")


def _about_tax(entry: Entry) -> bool:
    return any(line.thing.startswith(TAX) for line in (entry, *entry.lines))


def _others(entry: Entry, when: str, place: Place, how: str) -> Problem:
    return Problem(
        "bill-for-others", Level.DOUBT, f"This bill is for {entry.period}, {when}.",
        (entry.place.mark("none of these days is yours"), place.mark(f"{how} here")),
        "Check the days after `for` and the date of the deal. If the council did bill you for them, write back: the "
        "owner of those days answers for them.",
    )  # fmt: skip


def rules_twice(book: Book) -> Iterator[Problem]:
    """A scheme has one rule of a kind, beside those that are for some houses only."""
    for scheme in book.schemes.values():
        told: dict[tuple[str, tuple[str, ...]], Place] = {}
        for rule in scheme.rules:
            first = told.setdefault((rule.kind, rule.only_at), rule.place)
            if first is not rule.place:
                yield Problem(
                    "rule-twice", Level.ERROR,
                    f"The scheme {scheme.council} {scheme.year} has two lines for `{rule.kind}`.",
                    (rule.place.mark("the second one"), first.mark("the first one")),
                    "Leave one of them, and join steps in it by `then`; or say of one which houses it is for: `, only "
                    f"at {next(iter(book.properties), 'NAME')}`.",
                )  # fmt: skip


def schemes_for_houses(book: Book) -> Iterator[Problem]:
    """A rule of a scheme that is for some houses only names houses of the book."""
    for scheme in book.schemes.values():
        for rule in scheme.rules:
            for name in rule.only_at:
                if name not in book.properties and name not in book.unread:
                    found = near(name, list(book.properties))
                    other = f"Did you mean {' or '.join(found)}?"
                    help = other if found else f"Begin a block for it: property {name} …"
                    yield Problem(
                        "unknown-house", Level.DOUBT, f'Your book has no property called "{name}".',
                        (rule.place.mark("no such property"),), help,
                    )  # fmt: skip
