"""The rents of a house on a day: let by let what fell due and came in, what is owed and since when, the deposit, and
what the tenant was billed or what of the deposit was kept.

Knows no layout. Rules about deposits come with the figure of law they rest on.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from ..book.arrears import RentAccount, rent_account
from ..book.deposits import DepositAccount, deposit_account
from ..book.entries import Entry
from ..book.rents import Receipt, first_lines, let_of, receipts, unplaced, written_off
from ..book.world import Book, Tenancy
from ..days import Period, day_words
from ..ledger.open_bills import open_bills
from ..money import pounds
from ..record import record
from ..verdicts.inventory import Lot
from ..verdicts.lives import fair, lives, months_old
from .accounts import Accounts
from .deposit_rules import cap, nation, protect_by
from .inventory import held

REPLACED = timedelta(days=92)  # how long after the damage its replacement may come
SHOWN = timedelta(days=366)  # how long a let with nothing open is still shown after its end


@record
class Wear:
    """What age leaves of a spoilt thing: its price in pence, life in years, age in months, the pence that are left."""

    thing: str
    source: str  # of the line that bought it
    price: int
    years: int
    months: int
    left: int


@record
class Asked:
    """A sum asked of a tenant: kept of the deposit, or billed and then (partly) paid; pence.

    wear is what age leaves of the thing it was for; why says in words what keeps that from being worked out.
    """

    line: Entry
    kept: bool
    what: str
    pence: int
    paid: int
    wear: Wear | None
    why: str


@record
class LetRents:
    """One let: its rent, its deposit with what the rules held say of it, what was asked of the tenant besides."""

    let: Tenancy
    rent: RentAccount | None
    deposit: DepositAccount
    deposit_notes: tuple[str, ...]
    asked: tuple[Asked, ...]


@record
class HouseRents:
    """The lets of one house on a day; unplaced is rent that fits no let, or several; noted is the last day up to then
    of which the book has a line about the house."""

    house: str
    full: str
    on: date
    lets: tuple[LetRents, ...]
    unplaced: tuple[Receipt, ...]
    noted: date | None = None


def rents(accounts: Accounts, house: str, on: date) -> HouseRents:
    """The lets of a house that run on a day, ended in the year before it, or have something open."""
    book = accounts.book
    came, lost, noted, things = receipts(book), written_off(book), first_lines(book), _Things(accounts)
    unpaid = open_bills(accounts.rows, on)
    found = []
    for let in sorted(book.tenancies.values(), key=lambda let: (let.first_day or date.max, let.name)):
        if let.house != house:
            continue
        rent = rent_account(book, let, came.get(let.name, ()), lost.get(let.name, ()), on, noted.get(let.name))
        deposit = deposit_account(book, let, on)
        asked = tuple(_asked(book, let, deposit, things, unpaid, on))
        made = LetRents(let, rent, deposit, tuple(_notes(book, let, deposit, on)), asked)
        if _shown(made, on):
            found.append(made)
    loose = tuple(receipt for receipt in unplaced(book, house) if receipt.day <= on)
    days = (e.day.first for e in book.entries if any(h.house == house for line in (e, *e.lines) for h in line.homes))
    last = max((day for day in days if day <= on), default=None)
    return HouseRents(house, book.properties[house].full, on, tuple(found), loose, last)


def _shown(made: LetRents, on: date) -> bool:
    let, rent = made.let, made.rent
    if made.deposit.held or rent and (rent.arrears or rent.ahead) or any(a.pence > a.paid for a in made.asked):
        return True
    return let.first_day is not None and let.first_day <= on and (let.last_day is None or let.last_day + SHOWN >= on)


def due_and_came(book: Book, house: str, days: Period, on: date | None = None) -> tuple[int, int]:
    """The rent of a house ("" for all) that fell due on some days, and what came in then, in pence; up to a day.

    Lets that tell no rent are left out of both.
    """
    came, lost, noted = receipts(book), written_off(book), first_lines(book)
    until = min(days.last, on or days.last)
    due = received = 0
    for let in book.tenancies.values():
        if house in ("", let.house) and let.rents:
            rent = rent_account(book, let, came.get(let.name, ()), lost.get(let.name, ()), until, noted.get(let.name))
            if rent:
                due += sum(d.pence for d in rent.due if d.day in days)
                received += sum(r.pence for r in rent.came if r.day in days)
    return due, received


# ── the deposit ──────────────────────────────────────────────────────────────────────────────────────────────────


def _notes(book: Book, let: Tenancy, account: DepositAccount, on: date) -> Iterator[str]:
    """What to know of a deposit: whether it is too high, was protected late or not at all, is still held."""
    told, came, where = account.told, account.received_on, nation(book, let.house)
    if told is None:
        return
    if came is None:
        if told.received is None:
            yield "Your book does not tell the day it came: add `received DATE`."
        return
    most = cap(let, where, came) if where else None
    if most and told.amount > most.pence:
        yield (
            f"It may be {pounds(most.pence)} at most in {where.title()} ({most.held.citation.paragraph}, as held on "
            f"{day_words(most.held.known_until)}): this is {pounds(told.amount - most.pence)} more."
        )
    by = protect_by(account, where) if where else None
    if by and told.protected and by[0] < told.protected <= on:
        yield f"It was protected {(told.protected - by[0]).days} days after {day_words(by[0])}, the last day for it."
    elif not told.protected and account.held > 0:
        last = f" The last day for it, by the rule held: {day_words(by[0])}." if by else ""
        yield f"Your book does not tell that it was protected.{last}"
    if let.last_day and let.last_day < on and account.held > 0:
        yield (
            f"The let ended on {day_words(let.last_day)} and {pounds(account.held)} is still held: agree what is "
            "kept, give back the rest, or ask the scheme to decide."
        )
    if account.held < 0:
        yield f"{pounds(-account.held)} more was kept and given back than came."


# ── what was asked of the tenant ─────────────────────────────────────────────────────────────────────────────────


class _Things:
    """The things of the houses of a book with what they cost; gathered only where a line asks."""

    def __init__(self, accounts: Accounts) -> None:
        self._accounts = accounts

    def wear(self, what: str, house: str, first: date, day: date) -> tuple[Wear | None, str]:
        """What age leaves on a day of a thing spoilt in a let begun on `first`; or why that is not known."""
        known = self._accounts.history.known(what, "replaced").name
        years = lives().get(known, 0)
        if not years:
            return None, ""
        lots = _spoilt([lot for lot in self._accounts.history.inventory.of(house) if lot.key == known], first, day)
        dated = [(lot, held(lot, self._accounts.verdicts)) for lot in lots if lot.since]
        priced = [(lot, cost.cost) for lot, cost in dated if cost.cost and not cost.beside]
        if len(lots) != 1 or not priced:
            which = "which one" if len(lots) > 1 else "when it came and for how much"
            return None, f"your book does not tell {which}, so its age cannot be taken off"
        lot, price = priced[0]
        assert lot.since is not None and lot.bought is not None
        months = months_old(lot.since.first, day)
        return Wear(lot.name, lot.bought.entry.source, price, years, months, fair(price, years, months)), ""


def _spoilt(lots: Sequence[Lot], first: date, day: date) -> list[Lot]:
    """Of the things of a kind those that a tenant can have spoilt: what left in the let or soon after, else what is
    there on the day."""
    came = [lot for lot in lots if lot.since is None or lot.since.first <= day]
    left = [lot for lot in came if lot.went and first <= lot.went.first <= day + REPLACED]
    return left or [lot for lot in came if lot.here_on(day)]


def _asked(
    book: Book, let: Tenancy, deposit: DepositAccount, things: _Things, unpaid: dict[tuple[str, str], int], on: date
) -> Iterator[Asked]:
    first = let.first_day or date.min
    for line in deposit.kept:
        what = line.purpose
        day = min(line.day.first, let.last_day or line.day.first)
        wear, why = things.wear(what, let.house, first, day) if what else (None, "")
        yield Asked(line, True, what, line.total, line.total, wear, why)
    for entry in book.entries:
        if entry.verb != "recharged" or entry.day.first > on or let_of(book, entry, entry) != let.name:
            continue
        what = entry.thing or entry.purpose
        left = unpaid.get((entry.source, let.house), 0)
        wear, why = things.wear(what, let.house, first, entry.day.first)
        yield Asked(entry, False, what, entry.total, entry.total - left, wear, why)


def total_owed(houses: Sequence[HouseRents]) -> int:
    """The rent owed of all lets of some houses, in pence."""
    return sum(made.rent.arrears for house in houses for made in house.lets if made.rent)
