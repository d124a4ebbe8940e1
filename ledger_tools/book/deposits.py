"""The deposit of each let: what came, what was kept and given back, what is still held. Knows no tax and no rule."""

from __future__ import annotations

from datetime import date

from ..record import record
from .entries import Entry
from .rents import let_of
from .world import Book, Deposit, Tenancy


@record
class DepositAccount:
    """A let's deposit at the end of a day in pence; `told` is what its heading says, None where it says nothing.

    A holding deposit is in the sums too: it goes back, is kept, or becomes part of the deposit.
    """

    let: str
    on: date
    told: Deposit | None
    holding: Deposit | None
    received: int
    received_on: date | None
    kept: tuple[Entry, ...]
    repaid: tuple[Entry, ...]

    @property
    def held(self) -> int:
        """What is still the tenant's; below nil where more went back than came."""
        return self.received - sum(line.total for line in (*self.kept, *self.repaid))


def deposit_account(book: Book, let: Tenancy, on: date) -> DepositAccount:
    """The deposit of a let. Dated lines that tell it came stand in place of the day and sum under the heading."""
    lines = {verb: _lines(book, let, verb, on) for verb in ("received", "kept", "repaid")}
    told = next((deposit for deposit in let.deposits if not deposit.holding), None)
    holding = next((deposit for deposit in let.deposits if deposit.holding), None)
    day = told.received if told and told.received and told.received <= on else None
    received = sum(one.amount for one in let.deposits if one.received and one.received <= on)
    if lines["received"]:
        received, day = sum(line.total for line in lines["received"]), lines["received"][0].day.first
    return DepositAccount(let.name, on, told, holding, received, day, tuple(lines["kept"]), tuple(lines["repaid"]))


def _lines(book: Book, let: Tenancy, verb: str, on: date) -> list[Entry]:
    """The lines of a verb about the let's deposit up to a day, in order of day."""
    found = []
    for entry in book.entries:
        for line in (entry, *entry.lines):
            if line.verb != verb or "deposit" not in line.thing.lower() or "holding" in line.thing.lower():
                continue
            if line.amount and entry.day.first <= on and let_of(book, entry, line) == let.name:
                found.append(line)
    return found
