"""The rows of the one table: each part of each verdict, by house and by the day it was owed and the day it was paid.

A cost that is paid in three parts makes three rows; what is still owed makes a row without a day of payment. So the
same rows serve both ways of accounting: by payment, and by what was owed. Knows nothing of boxes or owners.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from ..book.council_bills import replaced
from ..book.entries import Entry
from ..book.items import credits, money_in
from ..book.settling import Settling
from ..book.world import Book
from ..money import share
from ..record import record
from ..verdicts.verdict import Cgt, Kind, Part, Verdict


@record
class Row:
    """So many pence of one part of one line, of one house.

    owed: the day it was owed (None: it pays a bill whose own row says so, or is a bill that a later one took the place
    of); paid: the day money moved (None: it has not). counts: the day it counts by payment, moved to the first day of
    letting where law says so (None while unpaid). way: "out" or "in". pence are positive.
    """

    house: str
    owed: date | None
    paid: date | None
    counts: date | None
    way: str
    pence: int
    kind: Kind
    category: str
    cgt: Cgt
    account: str  # where it is posted, in words
    thing: str
    verb: str
    who: str
    source: str
    verdict: int  # its number among the verdicts, -1 for a row of a heading
    pays: str = ""  # the place of the bill it pays or gave way to, where that bill has a row of its own

    @property
    def turn(self) -> int:
        """Whose turn it is among owners of equal parts to have the odd penny: it moves on with each month, so that the
        pennies of rents and instalments do not all go to one. It hangs on nothing but the row (no source: any fair way
        will do)."""
        day = self.paid or self.owed
        return day.year * 12 + day.month if day else 0

    @property
    def owed_or_paid(self) -> date | None:
        """The day it was owed; where it pays a bill whose own row says so, the day it was paid."""
        return self.owed or self.paid


def way(line: Entry) -> str:
    """ "in" where a line brings money in, else "out"."""
    return "in" if money_in(line) else "out"


def rows(book: Book, verdicts: Sequence[Verdict]) -> tuple[Row, ...]:
    """All rows of a book, in its order; then payments that found no bill, deposits, purchases and sales of houses."""
    gone = replaced(book)
    settling = Settling(book.entries, gone)
    heads: dict[int, list[tuple[int, Verdict]]] = {}
    for number, verdict in enumerate(verdicts):
        heads.setdefault(id(verdict.item.head), []).append((number, verdict))
    found: list[Row] = []
    for entry in book.entries:
        judged = heads.get(id(entry))
        if judged and id(entry) in gone:
            found += _replaced_rows(judged, gone[id(entry)].source)
        elif judged and entry.verb != "wrote off":  # no rent is entered before it comes, so none has to go again
            found += _entry_rows(entry, judged, settling)
    found += _old_ones(book)
    found += _paid_ahead(settling)
    found += _deposits(book)
    found += _house_rows(book)
    return tuple(found)


def _replaced_rows(judged: list[tuple[int, Verdict]], by: str) -> Iterator[Row]:
    """The rows of a bill that a later one takes the place of: never owed, never paid, and counted with that one."""
    for number, verdict in judged:
        for part in verdict.parts:
            yield from part_rows(number, verdict, part, part.amount, None, None, by)


Slice = tuple[date | None, date | None, list[int], str]  # owed, paid, pence of every part, the bill it pays


def _entry_rows(entry: Entry, judged: list[tuple[int, Verdict]], settling: Settling) -> Iterator[Row]:
    """The rows of one dated line: each part, over its payments, over its houses."""
    cells = [(number, verdict, part) for number, verdict in judged for part in verdict.parts]
    for owed, paid, amounts, pays in _slices(entry, [part.amount for _, _, part in cells], settling):
        for (number, verdict, part), pence in zip(cells, amounts, strict=True):
            if pence:
                yield from part_rows(number, verdict, part, pence, owed, paid, pays)


def _slices(entry: Entry, parts: list[int], settling: Settling) -> list[Slice]:
    """How a line falls into slices of what was owed on a day and paid on a day. All slices add up to the parts."""
    day = entry.day.first
    if not settling.on_account(entry):
        return _paid_at_once(entry, day, parts, settling)
    slices: list[Slice] = []
    for paid, amount in settling.bills[id(entry)]:
        here = min(amount, sum(parts))
        if here > 0:
            taken = share(here, parts)
            slices.append((day, paid, taken, ""))
            parts = [left - take for left, take in zip(parts, taken, strict=True)]
    if any(parts):
        slices.append((day, None, parts, ""))
    return slices


def _paid_at_once(entry: Entry, day: date, parts: list[int], settling: Settling) -> list[Slice]:
    """A plain payment: of an open bill of the same party for the same thing as far as that goes, else a cost itself."""
    slices: list[Slice] = []
    for source, settled in settling.plain(entry, sum(parts)):
        taken = share(settled, parts)
        parts = [part - take for part, take in zip(parts, taken, strict=True)]
        slices.append((None, day, taken, source))
    return [*slices, (day, day, parts, "")] if any(parts) or not slices else slices


def part_rows(
    number: int, verdict: Verdict, part: Part, pence: int, owed: date | None, paid: date | None, pays: str = ""
) -> Iterator[Row]:
    line, head = verdict.item.line, verdict.item.head
    homes = line.homes or head.homes
    moved = verdict.when if verdict.when > head.day.first else None
    if moved is None and verdict.begins is not None and verdict.begins <= head.day.first and part.category:
        moved = verdict.begins  # an advance before the letting began, for a bill that came after
    counts = max(paid, moved) if paid and moved else paid
    who = line.who or head.who
    thing = f"{line.miles} miles" if line.miles is not None else line.thing
    parts = [(homes[0].house if homes else "", pence)]
    if len(homes) > 1:
        parts = list(zip([h.house for h in homes], share(pence, [h.fraction for h in homes]), strict=True))
    for house, amount in parts:
        if amount:
            yield Row(
                house, owed, paid, counts, way(line), amount, part.kind, part.category, part.cgt,
                account(part, line), thing, line.verb, who.full if who else "", line.source, number, pays,
            )  # fmt: skip


ACCOUNTS = {
    Kind.IMPROVEMENT: "improvements", Kind.ACQUISITION: "purchase", Kind.NO_RELIEF: "first furnishing",
    Kind.ARGUABLE: "open questions", Kind.PRIVATE: "private", Kind.PENDING: "before any letting",
    Kind.CAPITAL_RECEIPT: "things sold",
}  # fmt: skip


def account(part: Part, line: Entry) -> str:
    """The account, in words, that a part is posted to against money or a debt."""
    if part.kind is Kind.IGNORED:
        if line.verb == "borrowed" or "loan" in line.thing or "mortgage" in line.thing or "capital" in line.thing:
            return "loans"
        return "tenants' deposits" if "deposit" in line.thing else "outside the figures"
    if part.kind is Kind.PRIVATE and part.category:
        return "tax taken off the rents"
    if part.cgt is Cgt.DISPOSAL and part.kind is not Kind.ARGUABLE:
        return "costs of selling"
    return ACCOUNTS.get(part.kind) or part.category or str(part.kind)


def _plain_row(house: str, day: date, way: str, pence: int, kind: Kind, cgt: Cgt, account: str, thing: str,
               verb: str, source: str, paid: bool = True) -> Row:  # fmt: skip
    moved = day if paid else None
    return Row(house, day, moved, moved, way, pence, kind, "", cgt, account, thing, verb, "", source, -1)


def _old_ones(book: Book) -> Iterator[Row]:
    """What an old item brought when it was replaced: money, or a lower price. Its part of the cost got no relief."""
    for entry in book.entries:
        for line in (entry, *entry.lines):
            sold = line.facts.old_one.amount if line.facts.old_one else 0
            brought = sold + (line.facts.part_exchange or 0)
            for house, pence in _over_houses(brought, line if line.homes else entry):
                yield _plain_row(house, line.day.first, "in", pence, Kind.IGNORED, Cgt.NONE, "outside the figures",
                                 f"old {line.thing}", "sold", line.source)  # fmt: skip


def _paid_ahead(settling: Settling) -> Iterator[Row]:
    """Payments against a paper that no bill took up: money gone, still to be earned."""
    for payment in settling.told:
        if credits(payment):  # money back beyond what was still owed; its own row tells it
            continue
        left = payment.total - settling.taken[id(payment)]
        for home, pence in _over_houses(left, payment):
            yield _plain_row(home, payment.day.first, way(payment), pence, Kind.IGNORED, Cgt.NONE, "paid ahead",
                             payment.thing, payment.verb, payment.source)  # fmt: skip


def _over_houses(amount: int, entry: Entry) -> Iterator[tuple[str, int]]:
    """An amount over the houses of a line; with no house at all, over none."""
    if amount > 0:
        parts = share(amount, [home.fraction for home in entry.homes]) if entry.homes else [amount]
        yield from zip([home.house for home in entry.homes] or [""], parts, strict=True)


def _deposits(book: Book) -> Iterator[Row]:
    """Deposits told on the tenancy only, not on a dated line."""
    dated = {
        line.who.name
        for entry in book.entries
        for line in (entry, *entry.lines)
        if line.verb == "received" and "deposit" in line.thing and line.who
    }
    for let in book.tenancies.values():
        for deposit in let.deposits:
            if deposit.received and let.name not in dated:
                yield _plain_row(let.house, deposit.received, "in", deposit.amount, Kind.IGNORED, Cgt.NONE,
                                 "tenants' deposits", "deposit", "received", let.place.short)  # fmt: skip


def _house_rows(book: Book) -> Iterator[Row]:
    """What each house cost, and what it was sold for."""
    for house in book.properties.values():
        got, sold = house.got, house.sold
        if got is not None:
            chattels = sum(extra.amount for extra in got.of_which if "chattel" in extra.what)
            price = got.amount - chattels
            bought = got.how == "bought"
            yield _plain_row(house.name, got.day, "out", price, Kind.ACQUISITION, Cgt.ACQUISITION, "purchase",
                             "purchase price" if bought else "value when " + got.how, got.how, got.place.short,
                             paid=bought)  # fmt: skip
            if chattels:
                yield _plain_row(house.name, got.day, "out", chattels, Kind.NO_RELIEF, Cgt.NONE, "purchase",
                                 "chattels", got.how, got.place.short, paid=bought)  # fmt: skip
        if sold is not None:
            yield _plain_row(house.name, sold.day, "in", sold.amount, Kind.CAPITAL_RECEIPT, Cgt.NONE, "sale of house",
                             "sale price", "sold", sold.place.short)  # fmt: skip
