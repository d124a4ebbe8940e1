"""The money items of a book: each line that says what a sum was for, with shared lines spread over the jobs they serve.

An invoice of five lines gives its jobs as items; a payment against that invoice is no item, it settles them.
Knows no tax.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..money import share
from ..record import record
from .entries import Entry
from .world import Book


@record
class Item:
    """A sum with what it was for.

    head is the dated line, line the line itself (the same where it stands alone); `amount` is pence as spent or
    received: what was named on top is in it, and its part of any shared line of the same bill (`shared` of it).
    """

    head: Entry
    line: Entry
    amount: int
    shared: int = 0

    @property
    def source(self) -> str:
        """ "file:line"."""
        return self.line.source


# Verbs that bring money in, or make somebody owe it to us, or give its worth to the owner ("took home"); every other
# verb that names a sum takes it out.
IN_VERBS = frozenset({*"received kept sold scrapped borrowed recharged banked".split(), "took home"})


def money_in(line: Entry) -> bool:
    """Whether a line brings money in."""
    return line.verb in IN_VERBS


def party(entry: Entry) -> str:
    """The other party as names are compared: the coined word, else the quoted words in small letters; or nothing."""
    return (entry.who.name or entry.who.full.lower()) if entry.who else ""


def same_party(one: Entry, other: Entry) -> bool:
    """Whether two lines may be about the same party; a line that names nobody fits any."""
    return not party(one) or not party(other) or party(one) == party(other)


def settles(entry: Entry) -> bool:
    """Whether a line only moves money for something told elsewhere: a part payment, a retention let go."""
    return entry.verb in ("paid", "repaid", "received") and entry.paper is not None and not entry.lines


CREDITS = frozenset({"refund", "credit", "credit note", "rebate", "money back"})


def credits(entry: Entry) -> bool:
    """Whether a firm gave credit against its own bill: `received credit £65.00 from yard against invoice 118`.

    It settles the bill like a payment, and makes smaller what it was for.
    """
    return entry.verb == "received" and settles(entry) and entry.thing.lower() in CREDITS


def items(book: Book) -> tuple[Item, ...]:
    """All money items of a book, in its order."""
    return tuple(item for entry in book.entries for item in items_of(entry))


def items_of(entry: Entry) -> Iterator[Item]:
    """The money items of one dated line. Plans, words and payments of bills have none; nor has a line without a sum."""
    if entry.kind in ("plan", "booking", "told", "answer", "noted") or settles(entry) and not credits(entry):
        return
    jobs = [line for line in entry.lines if line.kind != "spent"]
    if not jobs:
        if entry.total or entry.kind == "trip":
            yield Item(entry, entry, entry.total)
        return
    shared = [line for line in jobs if line.facts.shared and line.total]
    # A shared cost goes to costs alone: in an agent's statement the rent is no job that a fee could be part of.
    ways = {money_in(line) for line in shared}
    served = [line for line in jobs if not line.facts.shared and line.total and money_in(line) in ways]
    if served:
        common = share(sum(line.total for line in shared), [line.total for line in served])
        extra = {id(line): more for line, more in zip(served, common, strict=True)}
    for line in jobs:
        if line.total and not (served and line.facts.shared):  # shared with nothing, each line stands for itself
            more = extra.get(id(line), 0) if served else 0
            yield Item(entry, line, line.total + more, more)
