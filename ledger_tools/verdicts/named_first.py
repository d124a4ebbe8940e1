"""A doubt about sums that a name of the book stands before, or behind: "paid moor-1 interest £300". Decides no tax."""

from __future__ import annotations

import re

from ..book.entries import Entry, Thing
from ..book.items import money_in
from ..problems import Fix, Level, Mark, Problem
from .catalogue import UNKNOWN
from .history import History

AMOUNT = re.compile(r"£ ?\d[\d,]*(?:\.\d\d)?")


def named_first(history: History, line: Entry, thing: Thing) -> Problem | None:
    """The doubt "thing-unknown" for a loan, a party, a let or a house where a line tells what the sum was for."""
    meant = as_meant(history, line, thing)
    if not meant:
        return None
    name, whole = _name(history, _typed(thing)), line.place.mark()
    house = name in history.book.properties
    party = "who paid it behind `from`" if money_in(line) else "who got it behind `to`"
    return Problem(
        "thing-unknown", Level.DOUBT, f'"{name}" stands where a line tells what the sum was for.',
        (thing.place.mark("where, not what for" if house else "who, not what for"),),
        f"What it was for comes first, and {'the house behind `at`' if house else party}.",
        fix=Fix(Mark(whole.file, whole.line, whole.column, whole.end, whole.text), meant),
    )  # fmt: skip


def as_meant(history: History, line: Entry, thing: Thing) -> str:
    """The line as typed, with the name in its own place; "" where no name of the book stands beside the thing."""
    typed = _typed(thing)
    name = _name(history, typed)
    rest, house = _without(typed, name), name in history.book.properties
    if not name or line.kind != "money" or rest and history.known(rest, line.verb) is UNKNOWN:
        return ""
    if not house and line.who is not None:
        return ""  # two parties: which of them was meant only the landlord knows
    joint = "at" if house else "from" if money_in(line) else "to"
    mark = line.place.mark()
    words = mark.text[mark.column - 1 : mark.end - 1]
    amount = AMOUNT.search(words)
    if amount is None:
        return ""
    at = words.find(typed)
    said = f"{words[:at]}{rest} {words[at + len(typed) : amount.end()].lstrip()} {joint} {name}{words[amount.end() :]}"
    return re.sub(r"(\S) {2,}", r"\1 ", said)


def _typed(thing: Thing) -> str:
    return thing.place.block[thing.place.start : thing.place.end]


def _name(history: History, typed: str) -> str:
    """The name of the book that these words begin or end with, the longest; nothing where they do with none."""
    book = history.book
    names = {*book.loans, *book.parties, *book.tenancies, *book.properties}
    return max((name for name in names if _without(typed, name) != typed), key=len, default="")


def _without(typed: str, name: str) -> str:
    """Words without a name at their beginning or their end."""
    if not name:
        return typed
    loose = re.escape(name).replace(r"\-", "[- ]")
    return re.sub(rf"^{loose}(?:'s)?(?: +|$)|(?:^| +){loose}$", "", typed, count=1, flags=re.I)
