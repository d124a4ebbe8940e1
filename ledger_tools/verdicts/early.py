"""Doubts about money of a house before it was got: what running it costs or brings cannot come before it is yours.

Knows the catalogue; decides no tax. Works before that day are looked at where lines are read.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from ..book.entries import Entry
from ..book.world import Property
from ..days import day_words
from ..problems import Level, Problem
from .catalogue import Thing
from .history import History

RUNS = frozenset({"premises", "services", "repairs", "rent"})  # classes of what only a house one has can cost or bring
AHEAD = timedelta(days=365)  # a house is insured from the contract on, which is rarely longer before: ours, no source


def early(history: History) -> Iterator[Problem]:
    """Doubts "before-bought": a cost or a rent of a house dated before the day it was got."""
    for entry in history.book.entries:
        for line in (entry, *entry.lines):
            if line.kind != "money" or not line.things or line.facts.returned or line.facts.ruling:
                continue
            thing = history.known(line.thing, line.verb)
            for share in line.homes:
                house = history.book.properties[share.house]
                if house.got and line.day.last < house.got.day and _too_early(house, line, thing):
                    yield _doubt(house, line, "rent" if thing.category == "rent" else "cost")


def _too_early(house: Property, line: Entry, thing: Thing) -> bool:
    """Whether it is no cost of buying the house, of looking at it, or of what holds from the contract on."""
    assert house.got is not None
    if "insurance" in thing.name:
        return line.day.last < house.got.day - AHEAD
    return thing.money and thing.category in RUNS or thing.nature == "service" and thing.again in ("run", "rev")


def _doubt(house: Property, line: Entry, what: str) -> Problem:
    assert house.got is not None
    return Problem(
        "before-bought", Level.DOUBT,
        f"This {what} is dated {line.day}, before {house.name} was {house.got.how} on {day_words(house.got.day)}.",
        (line.place.mark("before it was yours"), house.got.place.mark(f"{house.got.how} here")),
        "Check the year, or add `at` and the name of the house it was for. What may come before is what buying the "
        "house or looking at it costs: legal fees, searches, a survey, a trip.",
    )  # fmt: skip
