"""The pieces of the statement of an empty home: frozen figures in whole pence. Knows nothing of how they are found."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from fractions import Fraction

from ..days import Period, TaxYear
from ..record import record
from ..taxes.council.compare import Reason
from ..taxes.council.liability import US
from .figures import Figure

__all__ = ["Ahead", "BillRow", "Claim", "Open", "Reason", "Row", "Void", "joined"]

ROUNDED = 2  # pence that rounding may leave between what was paid and what is due


@record
class Row:
    """Days of one state: who answers, the share of the charge that is due (1 is the whole), the pence, the reasons from
    their days on with where they stand, the lines of the book it rests on. share and pence: None where not known."""

    days: Period
    year: TaxYear
    party: str
    who: str
    state: str
    share: Fraction | None
    annual: int | None
    pence: int | None
    parts: tuple[tuple[str, int], ...]
    reasons: tuple[tuple[date, str, str], ...]
    sources: tuple[str, ...]

    @property
    def ours(self) -> bool:
        """Whether the landlord answers."""
        return self.party == US


def joined(rows: Sequence[Row]) -> tuple[Row, ...]:
    """Rows as they are read: years in a row of which nothing differs, and that have no sum, are one."""
    found: list[Row] = []
    for row in rows:
        last = found[-1] if found else None
        if last and _alike(last) == _alike(row) and not (row.ours and row.pence is not None):
            found[-1] = replace(last, days=Period(last.days.first, row.days.last))
        else:
            found.append(row)
    return tuple(found)


def _alike(row: Row) -> tuple[object, ...]:
    reasons = tuple((words, law) for _, words, law in row.reasons)
    return row.party, row.who, row.state, row.share, row.pence, row.parts, reasons, row.sources


@record
class Open:
    """A question the book leaves open: what it is, its answers in words with what the whole then comes to at least and
    at most, and what to write. usual: the answer that was taken, "" where none was."""

    ask: str
    answers: tuple[tuple[str, int, int], ...]
    write: tuple[str, ...]
    usual: str
    source: str


@record
class BillRow:
    """A bill against what it should be on the answers that explain it, and on those that cost least and most.

    then: pence on what could be known when it came. reasons: as compared. instalments: pence, how the sum is usually
    asked for.
    """

    source: str
    day: date
    days: Period | None
    who: str
    billed: int
    then: int
    should: int | None
    least: int
    most: int
    reasons: tuple[Reason, ...]
    explained: bool
    replaced: str
    instalments: tuple[int, ...]
    flat: Fraction | None = None

    @property
    def unsettled(self) -> bool:
        """Whether it hangs on what the book leaves open, and no answer explains it."""
        return not self.explained and self.least != self.most

    @property
    def too_much(self) -> int:
        """What was billed beyond what should be; below nil where too little was."""
        return self.billed - self.should if self.should is not None else 0


@record
class Ahead:
    """What an empty day costs from a day on, in exact pence, and why."""

    since: date
    a_day: Fraction
    why: str


@record
class Claim:
    """Something let off that a council gives only to those who ask: for which days, what it is worth in pence, whether
    the book tells that it was asked for, granted or refused, with the line; why it is due."""

    what: str
    days: Period
    pence: int
    law: str
    answer: str
    source: str
    why: str = ""


@record
class Void:
    """All of it for one home. total: pence as far as known, on the answer that costs most; least: on the one that costs
    least. empty: the days nobody lived there and the landlord answered."""

    house: str
    full: str
    nation: str
    council: str
    council_full: str
    landlords: tuple[str, ...]
    on: date
    span: Period
    rows: tuple[Row, ...]
    total: int
    least: int
    known: bool
    empty: int
    open: tuple[Open, ...]
    bills: tuple[BillRow, ...]
    paid: Figure
    back: Figure
    ahead: tuple[Ahead, ...]
    claims: tuple[Claim, ...]
    notes: tuple[str, ...]
    route: tuple[str, ...]

    @property
    def settled(self) -> bool:
        """Whether the book leaves nothing open that could change a sum."""
        return self.known and all(b.should is not None and b.least == b.most for b in self.bills if not b.replaced)

    @property
    def balance(self) -> int | None:
        """What was paid, less what came back, beyond what is due, in pence; below nil where some is still to be paid.
        None where nothing was paid or a sum is open."""
        if not self.paid.trail or not self.known or self.least != self.total:
            return None
        return self.paid.pence - self.back.pence - self.total

    @property
    def repaid(self) -> bool:
        """Whether what was too much has come back already, to the pennies of rounding."""
        return self.balance is not None and bool(self.back.trail) and abs(self.balance) <= ROUNDED
