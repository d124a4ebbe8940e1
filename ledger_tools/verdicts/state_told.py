"""Notes on the state of a house when bought: that it is not told, or what was wrong only in quotes, and which sums hang
on that. Decides no tax.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from ..book.entries import Entry
from ..book.world import Book, Property
from ..days import day_words
from ..money import pounds
from ..problems import Level, Problem
from .lets import YEARS
from .verdict import Verdict

LONGEST_YEAR = 366
RESTS = frozenset({"not-usable-as-bought", "usable-for-a-while-only"})
ASKS = frozenset({"state-not-told", "price-not-told", "no-price-paid"})  # the rules that leave it open for this


def state_untold(book: Book) -> list[Problem]:
    """Notes "state-as-bought", one a house, in the order of the book."""
    lacking = [house for house in book.properties.values() if _may_lack(book, house)]
    if not lacking:
        return []
    return list(_notes(book, lacking, _early(book, lacking)))


def _early(book: Book, houses: list[Property]) -> tuple[Verdict, ...]:
    """The verdicts of the works on these houses before their first let or not long after."""
    from .catalogue import catalogue
    from .engine import Judging  # only a book that lacks it pays for verdicts, and only for those of these works
    from .history import History

    judging = Judging(History(book, catalogue()))
    return tuple(
        judging.verdict(position)
        for position, item in enumerate(judging.history.items)
        if item.line.kind == "works"
        and any(_soon(book, house.name, item.line.day.first) for house in houses if _of(house, item.line))
    )


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


def _notes(book: Book, houses: list[Property], verdicts: tuple[Verdict, ...]) -> Iterator[Problem]:
    for house in houses:
        hang = [
            verdict
            for verdict in verdicts
            if verdict.arguable
            and _of(house, verdict.item.line)
            and any(fired.decided and fired.slug in ASKS for fired in verdict.path)
        ]
        if hang:
            yield _note(house, hang, book.first_let(house.name))


def _note(house: Property, hang: list[Verdict], let: date | None) -> Problem:
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
        f"Your book does not say in what state {house.name} was {house.got.how}. {sums} on it.",
        (house.place.mark("in what state?"),),
        f"Put {both} under this heading, indented, since they hold for all the works: "
        f"{'; and '.join(words for words in (state, price) if words)}. Until then these sums count nowhere."
        f"{_let_before(house, house.got.day, let)}",
        "BIM35450; BIM46935",
    )  # fmt: skip


def _let_before(house: Property, got: date, let: date | None) -> str:
    """What else may lack where the first let that is told began years after the house was got; "" else."""
    if let is None or (let - got).days < 2 * LONGEST_YEAR:
        return ""
    return (
        f" Your book tells no let before {day_words(let)}: if there was one, write it too, `tenancy … at {house.name}` "
        "with its `from … to …`, for the longer it had been let, the less hangs on its state when it came to you."
    )


# ── faults told in quotes ────────────────────────────────────────────────────────────────────────────────────────


def faults_in_quotes(book: Book) -> list[Problem]:
    """Notes "fault-in-quotes", one a house: quoted words say why it could not be let, and name nothing that is known.

    Then every work before the first let counts as if letting had hung on it.
    """
    houses = [house for house in book.properties.values() if _only_quoted(house)]
    if not houses:
        return []
    from .catalogue import catalogue
    from .history import History
    from .papers import state_faults

    history = History(book, catalogue())
    unread = [house for house in houses if not state_faults(history, house)]
    verdicts = _early(book, unread) if unread else ()
    notes = []
    for house in unread:
        rest = [v for v in verdicts if _of(house, v.item.line) and _rests_on_state(v)]
        names = dict.fromkeys(v.item.line.thing for v in rest)
        if len(names) > 1:  # of a single job the question would be idle
            notes.append(_unread(house, tuple(names), sum(v.item.amount for v in rest)))
    return notes


def _only_quoted(house: Property) -> bool:
    told = house.as_bought in ("not lettable", "lettable for a while") and not house.as_bought_faults
    return bool(told and (house.as_bought_says or house.as_bought_because))


def _rests_on_state(verdict: Verdict) -> bool:
    """Whether it is part of what the house cost because of the state it was bought in."""
    decided = not verdict.ruled and not verdict.arguable
    return decided and any(fired.decided and fired.slug in RESTS for fired in verdict.path)


def _unread(house: Property, names: tuple[str, ...], pence: int) -> Problem:
    assert house.as_bought_place is not None
    words = " ".join(f'"{said}"' for said in (*house.as_bought_says, *house.as_bought_because))
    more = "".join(f', says "{said}"' for said in house.as_bought_says)
    more += "".join(f', because "{said}"' for said in house.as_bought_because)
    return Problem(
        "fault-in-quotes", Level.NOTE,
        f"Why {house.name} could not be let as bought stands only in quotes, {words}, in which no part of a house is "
        "recognised.", (house.as_bought_place.mark("owing to what?"),),
        f"So all {len(names)} jobs that put something right, {pounds(pence)} together, count as part of what the house "
        "cost. If it was not all of them, name what letting hung on and leave out the rest: "
        f"`as bought {house.as_bought} owing to {' and '.join(names)}{more}`. Of what you leave out it is then asked.",
        "BIM35450; BIM46935",
    )  # fmt: skip
