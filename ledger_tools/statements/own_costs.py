"""What each owner's own part of a house cost, where shares passed from one owner to another. Knows no layout.

Between spouses who live together a share passes at what it cost; to anybody else, as between relatives or as a gift, it
counts as sold and bought at its value on that day (TCGA 1992 ss. 17, 18, 58, 286, all from memory). A book tells that
value with `valued`; without it the gain of whoever gave or got the share is a question, no guess.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date
from fractions import Fraction

from ..book.world import Book
from ..days import day_before
from ..money import round_half_up
from ..record import record
from .passings import Passing, passings

Costs = Callable[[str, date], tuple[int, int, int]]  # of a house by a day: selling, buying and improving it, in pence


@record
class Given:
    """The part of a house that one owner passed on at its value, and what it is of what the owner held until then.

    value: pence; None where the book does not tell it. cost: what buying and improving that part cost, in pence, as
    A/(A+B) of the owner's own costs (TCGA 1992 s. 42, with the part that stays valued alike); None where it hangs on an
    earlier value that is not told.
    """

    day: date
    owner: str
    part: Fraction
    of_own: Fraction
    value: int | None
    cost: tuple[int, int] | None


@record
class OwnCosts:
    """By owner what buying and improving the own part cost, in pence; the owners whose cost hangs on a day's value that
    is not told; what was passed on at its value."""

    costs: dict[str, tuple[int, int]]
    untold: dict[str, Passing]
    given: tuple[Given, ...]


Pool = tuple[Fraction, Fraction]  # what buying and improving an owner's part cost, in exact pence
NONE: Pool = (Fraction(0), Fraction(0))


def own_costs(book: Book, house: str, until: date, costs: Costs) -> OwnCosts:
    """The own costs of the owners of a house at the end of a day; costs tells those of the whole house by a day."""
    pools: dict[str, Pool] = {}
    untold: dict[str, Passing] = {}
    given: list[Given] = []
    values, done = dict(book.properties[house].valued), [0, 0]

    def spent(day: date) -> None:
        now = list(costs(house, day)[1:])
        more = [new - old for new, old in zip(now, done, strict=True)]
        for name, part in book.owners_on(house, day):
            pools[name] = _plus(pools.get(name, NONE), (part * more[0], part * more[1]))
        done[:] = now

    for passing in passings(book, house, until):
        spent(day_before(passing.day))
        held = dict(book.owners_on(house, day_before(passing.day)))
        value = values.get(passing.day)
        given += _given(passing, held, pools, untold, value)
        untold.update(_untold(passing, untold, value))
        pools.update(_passed(passing, held, pools, value or 0))
        for name, part in passing.less.items():
            if part == held[name]:  # nothing is left whose cost could hang on it
                untold.pop(name, None)
    spent(until)
    found = {name: (round_half_up(buying), round_half_up(added)) for name, (buying, added) in pools.items()}
    return OwnCosts(found, untold, tuple(given))


def _plus(one: Pool, other: Pool, times: Fraction | int = 1) -> Pool:
    return one[0] + other[0] * times, one[1] + other[1] * times


def _given(
    passing: Passing, held: dict[str, Fraction], pools: dict[str, Pool], untold: dict[str, Passing], value: int | None
) -> Iterator[Given]:
    """What each giver passed on at its value."""
    for name in passing.less:
        if part := passing.at_value(name):
            of_own, (buying, added) = part / held[name], pools[name]
            cost = None if name in untold else (round_half_up(of_own * buying), round_half_up(of_own * added))
            yield Given(passing.day, name, part, of_own, None if value is None else round_half_up(part * value), cost)


def _untold(passing: Passing, before: dict[str, Passing], value: int | None) -> dict[str, Passing]:
    """The takers whose cost cannot be known: by the value of the day, or by an earlier one behind a spouse's cost."""
    if passing.unclear:
        return dict.fromkeys(passing.more, passing)
    found: dict[str, Passing] = {}
    for flow in passing.flows:
        if flow.at_cost and flow.giver in before:
            found.setdefault(flow.taker, before[flow.giver])
        elif not flow.at_cost and value is None:
            found[flow.taker] = passing
    return found


def _passed(passing: Passing, held: dict[str, Fraction], pools: dict[str, Pool], value: int) -> dict[str, Pool]:
    """The pools after shares passed: a giver's is smaller in proportion, a taker's greater by cost or value."""
    after = {name: _plus(pools[name], pools[name], -part / held[name]) for name, part in passing.less.items()}
    for flow in passing.flows:
        got = pools[flow.giver] if flow.at_cost else (Fraction(value), Fraction(0))
        times = flow.part / held[flow.giver] if flow.at_cost else flow.part
        after[flow.taker] = _plus(after.get(flow.taker, pools.get(flow.taker, NONE)), got, times)
    return after
