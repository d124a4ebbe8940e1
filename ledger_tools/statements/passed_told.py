"""What to say of shares of a house that passed from one owner to another. Knows no layout and works nothing out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from fractions import Fraction

from ..book.world import Book
from ..days import TaxYear, day_before, day_words
from ..money import pounds
from .own_costs import Given, OwnCosts
from .passings import Flow, Passing, died, passings, percent

AT_VALUE = (
    "between relatives, or as a gift, that counts as a sale at its value (TCGA 1992 ss. 17, 18, 286, from memory)"
)
STRANGER = "To a stranger the price paid would count instead; if an owner died, write `on death` behind that line."


def passed_notes(book: Book, house: str, until: date, own: OwnCosts) -> Iterator[str]:
    """What to say under a house's record of the shares that passed, and of what must be told of them."""
    for passing in passings(book, house, until):
        if passing.unclear:
            givers, takers = names(book, passing.less), names(book, passing.more)
            yield (
                f"On {day_words(passing.day)} shares passed from {givers} to {takers}, some of them between spouses "
                "and some not, and your book does not tell who gave to whom: neither what was passed on nor what the "
                f"parts of {takers} cost is worked out here. Where the parts passed on different days, tell each on "
                "its own day; else ask an adviser."
            )
        for flow in passing.flows:
            if flow.at_cost:
                giver, taker = names(book, [flow.giver]), names(book, [flow.taker])
                yield (
                    f"On {day_words(passing.day)} {percent(flow.part)} passed from {giver} to {taker}: between spouses "
                    "living together at what it cost, so with no gain and no loss (TCGA 1992 s. 58, from memory), and "
                    f"that cost is in the part of {taker}."
                )
            if flow.on_death:
                yield (
                    f"On {day_words(passing.day)} {percent(flow.part)} came to {names(book, [flow.taker])} from "
                    f"{names(book, [flow.giver])}, who had died: nobody has a gain then, and the part counts from that "
                    "day at its value (TCGA 1992 s. 62, from memory)."
                )
        for given in own.given:
            if given.day == passing.day:
                yield _given(book, given)
        hang = [name for name in passing.more if own.untold.get(name) == passing]
        if hang and not passing.unclear:
            yield ask_value(book, house, passing, hang)


def ask_value(book: Book, house: str, passing: Passing, takers: Iterable[str]) -> str:
    """The question on which the gain of whoever gave and got a share hangs, with the words that settle it."""
    day, got = day_words(passing.day), names(book, takers)
    gave = names(book, [name for name in passing.less if passing.at_value(name)])
    if not gave:
        return (
            f"What was {house} worth on {day}? What {got} got then counts at that value, which your book does not "
            f"tell: add `valued {day} at £…` under the house, for the whole of it, as the probate papers have it. "
            f"Until then no gain is worked out for {got} at a sale."
        )
    return (
        f"What was {house} worth on {day}? What {gave} passed on counts as sold at its value, and what {got} got then "
        "as bought at it, not at a share of what the house had cost; and your book does not tell that value: add "
        f"`valued {day} at £…` under the house, for the whole of it. Until then no gain is worked out for {gave} on "
        f"that part, nor for {got} at a sale."
    )


def _given(book: Book, given: Given) -> str:
    name, year = names(book, [given.owner]), TaxYear.of(given.day)
    said = f"On {day_words(given.day)} {name} passed on {percent(given.part)} of it: {AT_VALUE}"
    if given.value is None or given.cost is None:
        return f"{said}. What it comes to is not worked out yet. {STRANGER}"
    return f"{said}, {pounds(given.value)}. The gain or loss on it belongs to {year} and stands below. {STRANGER}"


def names(book: Book, some: Iterable[str]) -> str:
    """The full names of owners, in a list of words."""
    return " and ".join(book.landlords[name].full if name in book.landlords else name for name in some)


def passed_in_year(book: Book, owner: str, year: TaxYear) -> str:
    """What to say in an owner's year of parts of houses that the owner passed on in it to others than a spouse."""
    said = []
    for house in book.properties:
        for passing in passings(book, house, year.period.last):
            if passing.day not in year.period or owner not in passing.less:
                continue
            day, part = day_words(passing.day), passing.less[owner] if passing.unclear else passing.at_value(owner)
            if passing.unclear:
                said.append(
                    f"On {day} you passed on {percent(part)} of {house}, to a spouse or to somebody else: `base-cost` "
                    "says what must be told before the gain, if there is one, can be worked out."
                )
            elif part:
                said.append(
                    f"On {day} you passed on {percent(part)} of {house}: {AT_VALUE}, and the gain, if there is one, is "
                    "a part of your year beside these pages. `base-cost` works it out, or asks for the value."
                )
    return " ".join(said)


def death_told(book: Book, owner: str, year: TaxYear) -> str:
    """What to say in an owner's year of a share that passed in it as somebody died: the owner, or from whom it came."""
    said, dead = [], died(book, owner)
    if dead and dead in year.period:
        said.append(
            f"{names(book, [owner])} died on {day_words(dead)}, as the book tells: these pages end there, and whoever "
            "settles the estate sends them (from memory). Rent that the estate has after that day is not in them."
        )
    for house in book.properties:
        for passing in passings(book, house, year.period.last):
            came = [f for f in passing.flows if f.on_death and f.taker == owner]
            if passing.day in year.period and came:
                had = owner in dict(book.owners_on(house, day_before(passing.day)))
                said.append(_by_death(book, house, passing.day, came, had))
    return " ".join(said)


def _by_death(book: Book, house: str, day: date, came: list[Flow], had: bool) -> str:
    """That a share came by a death, and whose its rent is until the estate is settled; had: a part was hers before."""
    part = percent(sum((flow.part for flow in came), Fraction(0)))
    estate = (
        "by a will its rent is first the estate's, until the share is handed over, and is taxed as income of an estate,"
        " outside these pages (ITTOIA 2005 Part 5 Ch. 6, from memory): ask whoever settles it, and give the `owners` "
        "line the day from which the rent is yours."
    )
    whose = f"That is so where you held the house together as joint tenants; {estate}" if had else f"B{estate[1:]}"
    return (
        f"{part} of {house} came to you by the death of {names(book, [flow.giver for flow in came])}; its rent counts "
        f"here from {day_words(day)}, the day on that line. {whose}"
    )
