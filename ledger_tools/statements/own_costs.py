"""What each owner's own part of a house cost, where shares passed from one owner to another. Knows no layout.

Between spouses who live together a share passes at what it cost; to anybody else, as between relatives or as a gift, it
counts as sold and bought at its value on that day (TCGA 1992 ss. 17, 18, 58, 286). A book tells that value with
`valued`; without it the gain of whoever got the share is a question, no guess.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date
from fractions import Fraction

from .. import law
from ..book.world import Book
from ..days import TaxYear, day_before, day_words
from ..money import pounds, round_half_up
from ..record import record
from ..taxes.gains.gain import report_by
from ..taxes.income.owners import married

Costs = Callable[[str, date], tuple[int, int, int]]  # of a house by a day: selling, buying and improving it, in pence


@record
class Passing:
    """A day on which shares changed: who has less and who has more, by how much; whether between two spouses alone.

    mixed: some of them are spouses and some are not, so that no one rule fits.
    """

    day: date
    less: dict[str, Fraction]
    more: dict[str, Fraction]
    spouses: bool
    mixed: bool


@record
class Given:
    """The part of a house that one owner passed on at its value. pence; None where the book does not tell enough."""

    day: date
    owner: str
    part: Fraction
    value: int | None
    cost: int | None


@record
class OwnCosts:
    """By owner what buying and improving the own part cost, in pence; the owners whose cost hangs on a day's value that
    is not told; what was passed on at its value."""

    costs: dict[str, tuple[int, int]]
    untold: dict[str, Passing]
    given: tuple[Given, ...]


def passings(book: Book, house: str, until: date) -> Iterator[Passing]:
    """The days up to one on which the shares of a house changed after it was got."""
    about = book.properties[house]
    got = about.got.day if about.got else date.min
    for day in sorted({o.since for o in about.owners if o.since and got < o.since <= until}):
        before, after = dict(book.owners_on(house, day_before(day))), dict(book.owners_on(house, day))
        change = {name: after.get(name, Fraction(0)) - before.get(name, Fraction(0)) for name in {**before, **after}}
        less = {name: -by for name, by in change.items() if by < 0}
        more = {name: by for name, by in change.items() if by > 0}
        if less and more:
            pairs = [married(book, one, other, day) for one in less for other in more]
            yield Passing(day, less, more, pairs == [True], any(pairs) and len(pairs) > 1)


def own_costs(book: Book, house: str, until: date, costs: Costs) -> OwnCosts:
    """The own costs of the owners of a house at the end of a day; costs tells those of the whole house by a day."""
    pools: dict[str, list[Fraction]] = {}
    untold: dict[str, Passing] = {}
    given: list[Given] = []
    values, done = dict(book.properties[house].valued), [0, 0]

    def spent(day: date) -> None:
        now = list(costs(house, day)[1:])
        for name, part in book.owners_on(house, day):
            pool = pools.setdefault(name, [Fraction(0), Fraction(0)])
            pools[name] = [had + part * (new - old) for had, new, old in zip(pool, now, done, strict=True)]
        done[:] = now

    for passing in passings(book, house, until):
        spent(day_before(passing.day))
        held = dict(book.owners_on(house, day_before(passing.day)))
        value = None if passing.mixed else values.get(passing.day)
        taken = [Fraction(0), Fraction(0)]
        for name, part in passing.less.items():
            goes = [had * part / held[name] for had in pools[name]]
            pools[name] = [had - gone for had, gone in zip(pools[name], goes, strict=True)]
            taken = [one + other for one, other in zip(taken, goes, strict=True)]
            if not passing.spouses:
                worth = None if value is None else round_half_up(part * value)
                cost = None if name in untold else round_half_up(sum(goes, Fraction(0)))
                given.append(Given(passing.day, name, part, worth, cost))
        for name, part in passing.more.items():
            pool = pools.setdefault(name, [Fraction(0), Fraction(0)])
            got = taken if passing.spouses else [part * (value or 0), Fraction(0)]
            pools[name] = [had + came for had, came in zip(pool, got, strict=True)]
            hangs = next((untold[giver] for giver in passing.less if passing.spouses and giver in untold), None)
            if hangs or not passing.spouses and value is None:
                untold[name] = hangs or passing
    spent(until)
    found = {name: (round_half_up(buying), round_half_up(added)) for name, (buying, added) in pools.items()}
    return OwnCosts(found, untold, tuple(given))


# ── what to say of it ────────────────────────────────────────────────────────────────────────────────────────────

AT_VALUE = "between relatives, or as a gift, that counts as a sale at its value (TCGA 1992 ss. 17, 18, 286)"


def percent(part: Fraction) -> str:
    """A share in words: 25%, or 1/3."""
    whole = part * 100
    return f"{whole}%" if whole.denominator == 1 else str(part)


def passed_notes(book: Book, house: str, until: date, own: OwnCosts) -> Iterator[str]:
    """What to say under a house's record of the shares that passed, and of what must be told of them."""
    for passing in passings(book, house, until):
        givers, takers = (_names(book, some) for some in (passing.less, passing.more))
        day = day_words(passing.day)
        if passing.spouses:
            part = percent(sum(passing.less.values(), Fraction(0)))
            yield (
                f"On {day} {part} passed from {givers} to {takers}: between spouses living together at what it "
                "cost (TCGA 1992 s. 58), so that cost is in the part of the other."
            )
        elif passing.mixed:
            yield (
                f"On {day} shares passed from {givers} to {takers}, some of them between spouses and some not: what "
                f"each part cost is then not worked out here, so no gain is given for {takers}. Ask an adviser."
            )
        for given in own.given:
            if given.day == passing.day:
                yield _given(book, given)
        hang = {name: part for name, part in passing.more.items() if own.untold.get(name) == passing}
        if hang and not passing.mixed:
            yield ask_value(house, passing.day, _names(book, hang))


def ask_value(house: str, day: date, takers: str) -> str:
    """The question on which the gain of whoever got a share hangs, with the words that settle it."""
    return (
        f"What was {house} worth on {day_words(day)}? What {takers} got then counts at its value, not at a share of "
        f"what the house had cost, and your book does not tell that value: add `valued {day_words(day)} at £…` under "
        "the house, for the whole of it. Until then no gain is worked out for that owner."
    )


def _given(book: Book, given: Given) -> str:
    name = _names(book, {given.owner: given.part})
    said = f"On {day_words(given.day)} {name} passed on {percent(given.part)} of it: {AT_VALUE}"
    if given.value is not None and given.cost is not None:
        made = given.value - given.cost
        word = "gain" if made >= 0 else "loss"
        said += (
            f", {pounds(given.value)} for a part that had cost {pounds(given.cost)}: a {word} of {pounds(abs(made))} "
            f"in {TaxYear.of(given.day)}, before the exempt amount"
        )
    return f"{said}. That is no part of what is worked out here. To a stranger the price paid would count instead."


def _names(book: Book, some: dict[str, Fraction]) -> str:
    return " and ".join(book.landlords[name].full if name in book.landlords else name for name in some)


def passed_in_year(book: Book, owner: str, year: TaxYear) -> str:
    """What to say in an owner's year of parts of houses that the owner passed on in it to others than a spouse."""
    said = []
    for house in book.properties:
        for passing in passings(book, house, year.period.last):
            if passing.day in year.period and owner in passing.less and not passing.spouses:
                said.append(
                    f"On {day_words(passing.day)} you passed on {percent(passing.less[owner])} of {house}: {AT_VALUE}, "
                    "and the gain, if there is one, is a part of your year beside these pages. `base-cost` tells what "
                    f"it comes to, or asks for the value.{_by(passing.day)}"
                )
    return " ".join(said)


def _by(day: date) -> str:
    try:
        return f" Where there is tax to pay on it, it had to be reported by {day_words(report_by(day))}."
    except law.NoFigure:
        return ""
