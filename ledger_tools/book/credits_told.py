"""Money a firm gave back that its own bill should be told of: else the bill stays open, or its whole sum counts.

Knows no tax; `checks` asks it.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from ..money import pounds
from ..problems import Fix, Level, Mark, Problem
from .entries import Entry
from .items import CREDITS, credits, party, settles
from .world import Book

BILLS = frozenset({"invoiced", "billed"})


def credits_untold(book: Book) -> Iterator[Problem]:
    """Doubts "credit-or-payment": money in against a firm's bill that is called no credit, or a refund that is just
    what is lacking to such a bill and does not name it."""
    bills = [entry for entry in book.entries if entry.verb in BILLS and entry.facts.number and party(entry)]
    came = [entry for entry in book.entries if entry.verb == "received" and party(entry) and not entry.lines]
    if not bills or not came:
        return
    numbers = {(party(bill), bill.facts.number.lower()) for bill in bills}
    short = _short(book, bills)
    for entry in came:
        if settles(entry) and not credits(entry):
            if entry.paper and (party(entry), entry.paper.number.lower()) in numbers:
                yield _named_no_credit(entry)
        elif entry.paper is None and entry.thing.lower() in CREDITS:
            lacking = short.get((party(entry), entry.total), [])
            if len(lacking) == 1:
                yield _short_of_it(entry, lacking[0])


def _short(book: Book, bills: list[Entry]) -> dict[tuple[str, int], list[Entry]]:
    """The bills that were paid in part, on them or against their number, by firm and the pence that lack."""
    against: dict[str, list[Entry]] = defaultdict(list)
    for entry in book.entries:
        if settles(entry) and entry.paper:
            against[entry.paper.number.lower()].append(entry)
    found: dict[tuple[str, int], list[Entry]] = defaultdict(list)
    for bill in bills:
        paid = sum(bill.total if amount is None else amount for _, amount in bill.facts.paid)
        paid += sum(e.total for e in against[bill.facts.number.lower()] if party(e) in ("", party(bill)))
        if paid > 0:
            found[party(bill), bill.total - paid].append(bill)
    return found


def _named_no_credit(entry: Entry) -> Problem:
    text = _typed(entry)
    head, verb, rest = text.partition("received")
    return Problem(
        "credit-or-payment", Level.DOUBT,
        f"This money came from the firm that sent the bill ({pounds(entry.total)}), and the line does not say that it "
        "makes the bill smaller: so far it counts as if you had paid it.",
        (entry.place.mark("a credit?"),), "Call it a credit, and say for what, where the credit note does.",
        fix=_whole(entry, f"{head}{verb} credit{rest}"),
    )  # fmt: skip


def _short_of_it(entry: Entry, bill: Entry) -> Problem:
    number = bill.facts.number
    text = _typed(entry)
    head, comma, facts = text.partition(", ")
    return Problem(
        "credit-or-payment", Level.DOUBT,
        f"Of invoice {number} just {pounds(entry.total)} was not paid, and this is the same sum from the same firm. "
        "Was it taken off that bill?",
        (entry.place.mark("off the bill?"), bill.place.mark("the bill")),
        "If so, name the bill, and say for what, where the credit note does: then nothing of it is still to pay. If "
        "the money came to you, leave the line as it is.",
        fix=_whole(entry, f"{head} against invoice {number}{comma}{facts}"),
    )  # fmt: skip


def _typed(entry: Entry) -> str:
    mark = entry.place.mark()
    return mark.text[mark.column - 1 : mark.end - 1].rstrip()


def _whole(entry: Entry, text: str) -> Fix:
    mark = entry.place.mark()
    return Fix(Mark(mark.file, mark.line, mark.column, mark.end, mark.text), text)
