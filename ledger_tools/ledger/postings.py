"""Each row as postings to two sides, so that the trial balance is nil. Knows no tax."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from datetime import date
from typing import NamedTuple

from .rows import Row

MONEY, OWED_BY_US, OWED_TO_US, OWN = "money", "owed to others", "owed by others", "the owner"


class Posting(NamedTuple):
    """Pence on one side of one account: positive what it received, negative what it gave."""

    day: date
    account: str
    pence: int
    source: str


def postings(rows: Iterable[Row]) -> Iterator[Posting]:
    """Both sides of every row, on the day it was owed and on the day it was paid."""
    for row in rows:
        sign = 1 if row.way == "out" else -1
        debt = OWED_BY_US if row.way == "out" else OWED_TO_US
        # A trip in one's own car, a house inherited, a thing taken home: no money of the business moves.
        purse = OWN if row.verb in ("drove", "inherited", "given", "took home") else MONEY
        pence = sign * row.pence
        if row.owed is not None and (row.owed == row.paid or purse is OWN):
            yield Posting(row.owed, row.account, pence, row.source)
            yield Posting(row.owed, purse, -pence, row.source)
            continue
        if row.owed is not None:
            yield Posting(row.owed, row.account, pence, row.source)
            yield Posting(row.owed, debt, -pence, row.source)
        if row.paid is not None:
            yield Posting(row.paid, debt, pence, row.source)
            yield Posting(row.paid, purse, -pence, row.source)


def trial_balance(rows: Iterable[Row]) -> dict[str, int]:
    """What each account holds, in pence; together they make nil."""
    held: dict[str, int] = defaultdict(int)
    for posting in postings(rows):
        held[posting.account] += posting.pence
    return dict(sorted(held.items()))
