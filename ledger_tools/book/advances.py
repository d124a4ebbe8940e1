"""Borrowed money and what it went on: whether a book tells it, and the lines that would.

Knows no tax; what follows for the interest is for others.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..money import pounds
from ..problems import Fix, Level, Mark, Problem
from .entries import Entry
from .world import Book

FOR = ("purchase", "works")  # what most advances for a let house go on


def untold(entry: Entry) -> int:
    """The pence of an advance of which its line does not tell what they went on; 0 for any other line."""
    if entry.verb != "borrowed" or not entry.amount or entry.purpose:
        return 0
    return max(0, entry.amount - sum(line.amount or 0 for line in entry.lines if line.kind == "spent"))


def told_purpose(entry: Entry) -> tuple[str, ...]:
    """The line of an advance as it would stand with each usual purpose."""
    who = entry.who
    lent = f" {who.role} {who.name or chr(34) + who.full + chr(34)}" if who else ""
    return tuple(f"{entry.day} borrowed {pounds(entry.amount or 0)}{lent} for {purpose}" for purpose in FOR)


def purposes(book: Book) -> Iterator[Problem]:
    """Doubts "borrowed-for-what": an advance that does not say, on its line or under it, what it went on."""
    for entry in book.entries:
        pence = untold(entry)
        if not pence:
            continue
        bought, works = told_purpose(entry)
        part = "" if pence == entry.amount else f"{pounds(pence)} of "
        yield Problem(
            "borrowed-for-what", Level.DOUBT, f"This does not say what {part}the borrowed money was spent on.",
            (entry.place.mark("for what?"),),
            "What it went on decides which of its interest counts, and until you say, the interest stays open. Write "
            f"`{bought}` if it bought the house, `{works}` if it paid for works, `for private` at the end if it was "
            "for something else; or tell it in parts, each on an indented line: `spent £… on works`.",
        )  # fmt: skip


def other_houses(book: Book) -> Iterator[Problem]:
    """Doubts "loan-of-another-house": a payment for a loan on one house under another, for which it lent nothing."""
    lent = {(e.who.name, home.house) for e in book.entries if e.verb == "borrowed" and e.who for home in e.homes}
    for entry in book.entries:
        for line in (entry, *entry.lines):
            loan = book.loans.get(line.who.name) if line.who else None
            if loan is None or line.who is None or line.verb not in ("paid", "repaid") or len(line.homes) != 1:
                continue
            house = line.homes[0].house
            if house == loan.house or (loan.name, house) in lent:
                continue
            name = line.who.place.mark()
            at = Mark(name.file, name.line, name.end, name.end, name.text)
            yield Problem(
                "loan-of-another-house", Level.DOUBT,
                f"{loan.name} is a loan on {loan.house}, but this payment stands under {house}.",
                (line.place.mark("which house?"), loan.place.mark("the loan")),
                f"As it stands the interest counts at {house}, for its owners. If it belongs to {loan.house}, add `at "
                f"{loan.house}`. If the money was lent for {house}, tell it there: `DATE borrowed £… from {loan.name} "
                f"for works at {house}`.",
                fix=None if f" at {house}" in name.text else Fix(at, f" at {loan.house}"),
            )  # fmt: skip
