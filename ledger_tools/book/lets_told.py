"""Doubts and notes about lets: rent from somebody nobody knows as a tenant, deposits without their protection.

Knows no tax and no rule of any deposit scheme.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from ..days import day_words
from ..money import pounds
from ..problems import Level, Problem
from .entries import Entry
from .world import Book, Party, Tenancy

EARLY = timedelta(days=62)  # rent may come this long before the first day of a let, or after its last
OTHERS_PAY = frozenset("council dwp department universal housing insurance guarantor guarantors".split())


def strangers(book: Book) -> Iterator[Problem]:
    """Rent of a house from a name that is no tenant there; when a let runs is held against its rent elsewhere."""
    for entry in book.entries:
        for line in (entry, *entry.lines):
            who = line.who
            if line.verb != "received" or line.thing != "rent" or who is None or len(line.homes) != 1:
                continue
            house = line.homes[0].house
            let = book.tenancies.get(who.name)
            known = let.house == house if let else who.name or OTHERS_PAY & set(who.full.lower().split())
            if not known:
                lets = [let for let in book.tenancies.values() if let.house == house and _runs(let, line)]
                yield _stranger(line, house, let.tenants[0] if let and let.tenants else who.full, lets)


def _runs(let: Tenancy, line: Entry) -> bool:
    """Whether rent that came on the day of a line can be for a let."""
    first, last = let.first_day or date.min, let.last_day
    begins = first - EARLY if first > date.min + EARLY else first
    return begins <= line.day.last and (last is None or line.day.first <= last + EARLY)


def _stranger(line: Entry, house: str, full: str, lets: list[Tenancy]) -> Problem:
    assert line.who is not None
    short = "".join(letter for letter in full.split()[-1].lower() if letter.isalnum() or letter == "-") or "new"
    ways = []
    if lets:
        let = lets[-1]
        tenants = " and ".join(f'"{name}"' for name in (*let.tenants, full))
        ways.append(
            f"If it is rent of the tenancy {let.name}, write `from {let.name}`, or add the name to that block: "
            f"`tenants {tenants}`."
        )
    ways.append(
        f"{'If it is' if lets else 'For'} a new let{',' if lets else ''} write its block, in the first column: "
        f'`tenancy {short} at {house}`, and indented under it `tenants "{full}"`, `from {line.day}` with the first '
        f"day of the let, and `rent {pounds(line.amount or 0)} a month`; then this line says `from {short}`."
    )
    ways.append("If it was for another house, add `at` and its name.")
    return Problem(
        "rent-from-whom", Level.DOUBT, f'Nobody called "{full}" is a tenant of {house} on {line.day}. Who is it?',
        (line.who.place.mark("in no tenancy here"),), " ".join(ways),
    )  # fmt: skip


def unprotected(book: Book) -> Iterator[Problem]:
    """Deposits of lets that run whose protection the book does not tell; a holding deposit needs none."""
    for let in book.tenancies.values():
        for deposit in () if let.last_day else let.deposits:
            if deposit.holding or deposit.protected:
                continue
            agent = _agent(book, deposit.held_with)
            held = f', with "{deposit.held_with}"' if deposit.held_with and not agent else ', with "…"'
            about = f" {agent.full} is your agent: which scheme holds the deposit, they can tell." if agent else ""
            began = day_words(let.first_day) if let.first_day else "…"
            yield Problem(
                "deposit-not-protected", Level.NOTE,
                f"Your book does not tell when the deposit of {pounds(deposit.amount)} was protected.",
                (deposit.place.mark("protected when, and with whom?"),),
                f"Say when, and with which scheme: `deposit {pounds(deposit.amount)}{held}, protected {began}`, with "
                "the day that the scheme's paper gives. A tenant's deposit is to be protected soon after it came, "
                f"under the rules that hold where the house stands.{about}",
            )  # fmt: skip


def _agent(book: Book, name: str) -> Party | None:
    """The agent of the book that goes by a name: an agent is no deposit scheme."""
    low = name.lower()
    agents = (party for party in book.parties.values() if party.kind == "agent")
    return next((party for party in agents if low in (party.name.lower(), party.full.lower())), None)
