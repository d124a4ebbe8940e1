"""Cross-checks of papers: bills and quotes by their numbers, receipts that prove too much or are not there.

Touches no file itself. Knows no tax.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator

from ..money import pounds
from ..problems import Level, Place, Problem, placed
from ..spelling import near
from .entries import Entry
from .items import credits, party
from .world import Book


def papers(book: Book) -> Iterator[Problem]:
    """Payments name invoices that exist and do not pay them twice; an invoice is entered once."""
    told: dict[str, dict[tuple[str, str], Entry]] = {"invoice": {}, "quote": {}, "order": {}}
    kinds = {
        "invoiced": "invoice",
        "billed": "invoice",
        "recharged": "invoice",
        "quoted": "quote",
        "estimated": "quote",
        "ordered": "order",
    }
    for entry in book.entries:
        kind = kinds.get(entry.verb) or ("invoice" if entry.kind == "works" else None)
        if kind and entry.facts.number:
            key = (party(entry), entry.facts.number.lower())
            first = told[kind].setdefault(key, entry)
            if first is not entry and kind == "invoice":
                yield placed(
                    "same-paper-twice", Level.DOUBT, f"Invoice {entry.facts.number} is in your book twice.",
                    entry.place, "this one again", "Delete one of them, or correct the number.",
                    (first.place, "first told here"),
                )  # fmt: skip
    paid: dict[tuple[str, str], int] = defaultdict(int)
    for (who, number), bill in told["invoice"].items():
        facts = sum(bill.total if amount is None else amount for _, amount in bill.facts.paid)
        paid[who, number] = facts
        if facts > bill.total:
            yield placed(
                "overpaid", Level.ERROR, f"The line was {pounds(bill.total)}, and {pounds(facts)} is told as paid.",
                bill.place, f"{pounds(facts - bill.total)} too much", "Correct a sum; after several `paid` say each.",
            )  # fmt: skip
    for entry in book.entries:
        paper = entry.paper
        if paper is None:
            continue
        found = _find(told[paper.kind], party(entry), paper.number.lower())
        if found is None and paper.number.lower() in book.unread:
            continue
        if found is None:
            known = {number: told_by.facts.number for (_, number), told_by in told[paper.kind].items()}
            meant = [known[number] for number in near(paper.number, known)]
            help = f"Enter the {paper.kind} with `, number {paper.number}`."
            if meant:
                help = f"Did you mean {' or '.join(meant)}?"
            yield placed("unknown-paper", Level.ERROR, f"Your book has no {paper.kind} numbered {paper.number}.",
                           paper.place, f"no such {paper.kind}", help)  # fmt: skip
        elif paper.kind == "invoice" and entry.verb in ("paid", "received"):
            key = (party(found), found.facts.number.lower())
            before = paid[key]
            if credits(entry):  # after the bill was paid in full it is money back
                paid[key] = max(before, min(found.total, before + entry.total))
                continue
            paid[key] += entry.total
            if before <= found.total < paid[key]:
                yield placed(
                    "overpaid", Level.ERROR,
                    f"Invoice {paper.number} was {pounds(found.total)}; with this {pounds(paid[key])} is paid.",
                    entry.place, f"{pounds(paid[key] - found.total)} too much", "Correct the sum or the number.",
                    (found.place, "the invoice"),
                )  # fmt: skip


def _find(told: dict[tuple[str, str], Entry], party: str, number: str) -> Entry | None:
    """A paper by party and number; by number alone where the line names nobody."""
    if party:
        return told.get((party, number)) or told.get(("", number))
    return next((entry for (_, n), entry in told.items() if n == number), None)


def receipts_twice(book: Book) -> Iterator[Problem]:
    """One receipt proves one dated line; twice the same file is often one cost entered twice."""
    seen: dict[str, tuple[Entry, Place]] = {}
    for entry in book.entries:
        for line in (entry, *entry.lines):
            for proof in line.facts.proofs:
                if proof.kind != "receipt" or proof.on_paper:
                    continue
                first = seen.setdefault(proof.file, (entry, proof.place))
                if first[0] is not entry and entry.kind not in ("told", "noted", "answer"):
                    yield placed(
                        "same-receipt-twice", Level.DOUBT, f'The receipt "{proof.file}" proves two lines.',
                        proof.place, "again here", "If one paper was for several things, put them as lines under one "
                        "`paid` or `invoiced` line; if the cost is in twice, delete one.", (first[1], "first here"),
                    )  # fmt: skip


def missing_files(book: Book, look: Callable[[str, str], str]) -> Iterator[Problem]:
    """Files named as proof are there; `look(book file, name)` answers "there", "missing" or "outside": out of the
    folders that papers may lie in."""
    for proof in book.proofs:
        where = look(proof.place.file, proof.file)
        if where == "missing" and not proof.on_paper:
            yield placed(
                "file-missing", Level.DOUBT, f'The {proof.kind} "{proof.file}" is not there.', proof.place,
                "no such file", "Put the file beside your book, or correct its name.",
            )  # fmt: skip
        elif where == "outside":
            yield placed(
                "file-outside", Level.DOUBT,
                f'The {proof.kind} "{proof.file}" lies outside the folder of your book, and is left alone.',
                proof.place, "outside the book",
                "Put a copy of the file beside your book and name that, or allow its folder: `--receipts-from FOLDER`.",
            )  # fmt: skip
