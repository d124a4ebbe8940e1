"""Money a firm gave back that its own bill should be told of: else the bill stays open, or its whole sum counts.

Knows no tax; `checks` asks it.
"""

from __future__ import annotations

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
    for entry in came:
        theirs = [bill for bill in bills if party(bill) == party(entry)]
        if settles(entry) and not credits(entry):
            if any(entry.paper and bill.facts.number.lower() == entry.paper.number.lower() for bill in theirs):
                yield _named_no_credit(entry)
        elif entry.paper is None and entry.thing.lower() in CREDITS:
            short = [bill for bill in theirs if 0 < _paid(book, bill) == bill.total - entry.total]
            if len(short) == 1:
                yield _short_of_it(entry, short[0])


def _paid(book: Book, bill: Entry) -> int:
    """What was told as paid of a bill, on it or against its number, in pence."""
    told = sum(bill.total if amount is None else amount for _, amount in bill.facts.paid)
    number = bill.facts.number.lower()
    against = (e for e in book.entries if settles(e) and e.paper and e.paper.number.lower() == number)
    return told + sum(e.total for e in against if party(e) in ("", party(bill)))


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
