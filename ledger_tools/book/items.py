"""The money items of a book: each line that says what a sum was for, with shared lines spread over the jobs they serve.

An invoice of five lines gives its jobs as items; a payment against that invoice is no item, it settles them.
Knows no tax.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..money import share
from .entries import Entry
from .world import Book


@dataclass(frozen=True, slots=True)
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


def settles(entry: Entry) -> bool:
    """Whether a line only moves money for something told elsewhere: a part payment, a retention let go."""
    return entry.verb in ("paid", "repaid") and entry.paper is not None and not entry.lines


MONEY_VERBS = frozenset("paid repaid received kept borrowed banked recharged billed charged".split()) | {"wrote off"}


def items(book: Book) -> tuple[Item, ...]:
    """All money items of a book, in its order."""
    return tuple(item for entry in book.entries for item in items_of(entry))


def items_of(entry: Entry) -> Iterator[Item]:
    """The money items of one dated line. Plans, words and settlements have none; nor has a line without a sum."""
    if entry.kind in ("plan", "booking", "told", "answer", "noted") or settles(entry):
        return
    jobs = [line for line in entry.lines if line.kind != "spent"]
    if not jobs:
        if entry.total or entry.kind == "trip":
            yield Item(entry, entry, entry.total)
        return
    served = [line for line in jobs if not line.facts.shared and line.total]
    common = [line for line in jobs if line.facts.shared and line.total]
    if not served:  # everything is shared with nothing: each line stands for itself
        yield from (Item(entry, line, line.total) for line in common)
        return
    extra = [0] * len(served)
    for line in common:
        for i, part in enumerate(share(line.total, [s.total for s in served])):
            extra[i] += part
    yield from (Item(entry, line, line.total + more, more) for line, more in zip(served, extra, strict=True))
