"""The note that a house lacks its state and its price when bought, and how many sums hang on that. Decides no tax."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from ..book.entries import Entry
from ..book.world import Book, Property
from ..money import pounds
from ..problems import Level, Problem
from .lets import YEARS
from .verdict import Verdict

LONGEST_YEAR = 366
ASKS = frozenset({"state-not-told", "price-not-told", "no-price-paid"})  # the rules that leave it open for this


def state_untold(book: Book) -> list[Problem]:
    """Notes "state-as-bought", one a house, in the order of the book."""
    lacking = [house for house in book.properties.values() if _may_lack(book, house)]
    if not lacking:
        return []
    from .catalogue import catalogue
    from .engine import Judging  # only a book that lacks it pays for verdicts, and only for those of these works
    from .history import History

    judging = Judging(History(book, catalogue()))
    early = [
        judging.verdict(position)
        for position, item in enumerate(judging.history.items)
        if item.line.kind == "works"
        and any(_soon(book, house.name, item.line.day.first) for house in lacking if _of(house, item.line))
    ]
    return list(_notes(lacking, tuple(early)))


def _of(house: Property, line: Entry) -> bool:
    return any(share.house == house.name for share in line.homes)


def _soon(book: Book, house: str, day: date) -> bool:
    """Whether a day lies before the first let of a house or not long after."""
    first = book.first_let(house)
    return first is None or (day - first).days < YEARS * LONGEST_YEAR


def _may_lack(book: Book, house: Property) -> bool:
    """Whether its state or price is not told, and something was done there before its first let or not long after."""
    told = house.as_bought == "not lettable" or house.as_bought and house.price
    if house.got is None or told:
        return False
    return any(
        line.kind == "works" and _soon(book, house.name, entry.day.first)
        for entry in book.entries
        if _of(house, entry)
        for line in (entry, *entry.lines)
    )


def _priced(house: Property) -> bool:
    return house.got is not None and house.got.how == "bought"


def _notes(houses: list[Property], verdicts: tuple[Verdict, ...]) -> Iterator[Problem]:
    for house in houses:
        hang = [
            verdict
            for verdict in verdicts
            if verdict.arguable
            and _of(house, verdict.item.line)
            and any(fired.decided and fired.slug in ASKS for fired in verdict.path)
        ]
        if hang:
            yield _note(house, hang)


def _note(house: Property, hang: list[Verdict]) -> Problem:
    total = pounds(sum(verdict.item.amount for verdict in hang))
    sums = f"{len(hang)} sums, {total} together, hang" if len(hang) > 1 else f"One sum of {total} hangs"
    lettable = "`as bought lettable`, if it could have been let as it stood, or `as bought not lettable`"
    state = "" if house.as_bought else lettable
    less = "it cost less" if _priced(house) else "its value was cut"
    price = "" if house.price else f"`price normal`, or `price reduced` if {less} for its state"
    both = "two lines" if state and price else "a line"
    assert house.got is not None
    return Problem(
        "state-as-bought", Level.NOTE,
        f"{house.name} was worked on before its first let or soon after, and your book does not say in what state it "
        f"was {house.got.how}. {sums} on it.", (house.place.mark("in what state?"),),
        f"Put {both} under this heading, indented, since they hold for all the works: "
        f"{'; and '.join(words for words in (state, price) if words)}. Until then these sums count nowhere.",
        "BIM35450; BIM46935",
    )  # fmt: skip
