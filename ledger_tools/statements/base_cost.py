"""What counts when a house is sold: its capital record on a day, and the gain of each owner if it went for a price.

A cost is in income or in the gain, never in both: everything here comes from the same verdicts as the tax return. Knows
nothing of layout.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date
from itertools import groupby

from ..book.world import Book, Property
from ..days import TaxYear
from ..ledger.rows import Row
from ..money import pounds
from ..record import record
from ..verdicts.verdict import Cgt, Kind
from .accounts import Accounts, up_to
from .figures import Figure, Trace, figure, together, words
from .house_facts import paid_for
from .own_costs import Costs, Given, own_costs
from .passed_told import passed_notes
from .passings import passings
from .sale import passed_on, sale
from .sold import Sale

PURCHASE, FINISHED, ADDED, SELLING = "purchase", "finished", "added", "selling"
LABELS = {
    PURCHASE: "What buying it cost",
    FINISHED: "Work that finished the purchase",
    ADDED: "Improvements that can still be seen",
    SELLING: "Costs of selling",
}
CAME_FREE = {  # what was left or given to its owners
    PURCHASE: "Its value when it came, and what getting it cost",
    FINISHED: "Work taken as part of what it cost",
}


@record
class BaseCost:
    """The capital record of a house on a day.

    groups: what counts, by PURCHASE, FINISHED, ADDED and SELLING, money back already off; total: their sum without the
    costs of selling. gone: improvements that can no longer be seen. open: sums that count if they turn out capital.
    passed_on: what owners passed on at its value, each day by itself.
    """

    house: str
    full: str
    day: date
    groups: tuple[Figure, ...]
    total: int
    gone: Figure
    open: Figure
    sale: Sale | None
    notes: tuple[str, ...]
    passed_on: tuple[Sale, ...] = ()

    def pence(self, slug: str) -> int:
        """The sum of one group."""
        return next((group.pence for group in self.groups if group.slug == slug), 0)

    @property
    def along(self) -> tuple[tuple[TaxYear, Figure, int], ...]:
        """Each tax year that added to the record as it stands: what it added, and what the record held at its end."""
        lines = sorted((t for g in self.groups if g.slug != SELLING for t in g.trail), key=lambda t: (t.day, t.source))
        found, held = [], 0
        for year, traces in groupby(lines, lambda t: TaxYear.of(t.day)):
            added = figure(str(year), str(year), traces)
            held += added.pence
            found.append((year, added, held))
        return tuple(found)


def base_cost(book: Book, house: str, day: date, price: int | None = None) -> BaseCost:
    """The record of a house as it stands at the end of a day; with a price (pence), or where it was sold by then, the
    gain of each owner. What the book tells of later days is left aside, as nobody could know it."""
    return of_accounts(Accounts(up_to(book, day)), house, day, price)


def of_accounts(accounts: Accounts, house: str, day: date, price: int | None = None) -> BaseCost:
    """The same from the accounts of the book as it stood at the end of that day."""
    made = _record(accounts, house, day)
    costs, book = _costs(accounts, made), accounts.book
    given = {name: _given(accounts, name, day, costs) for name in book.properties if any(passings(book, name, day))}
    said = (*passed_notes(book, house, day, own_costs(book, house, day, costs)),) if house in given else ()
    return replace(
        made, sale=sale(accounts, house, day, price, costs, given), notes=(*said, *made.notes),
        passed_on=passed_on(accounts, house, day, costs, given),
    )  # fmt: skip


def _costs(accounts: Accounts, made: BaseCost) -> Costs:
    """What houses cost by a day, one of whose records is made already."""
    sold = accounts.book.properties[made.house].sold
    last = min(made.day, sold.day) if sold else made.day  # what selling it cost may come after it was sold

    def costs(name: str, until: date) -> tuple[int, int, int]:
        found = made if name == made.house and until >= last else _record(accounts, name, until)
        return found.pence(SELLING), found.pence(PURCHASE) + found.pence(FINISHED), found.pence(ADDED)

    return costs


def _given(accounts: Accounts, house: str, on: date, costs: Costs) -> tuple[Given, ...]:
    """What was passed on of a house at its value, each part with what it had cost as the house stood on that day.

    An improvement that was taken out later still counted then, so where there is one the book of that day is asked.
    """
    given = own_costs(accounts.book, house, on, costs).given
    if not given or not _record(accounts, house, on).gone.trail:
        return given
    found: list[Given] = []
    for day in dict.fromkeys(each.day for each in given):
        then = Accounts(up_to(accounts.book, day))
        own = own_costs(then.book, house, day, _costs(then, _record(then, house, day)))
        found += [each for each in own.given if each.day == day]
    return tuple(found)


def _record(accounts: Accounts, house: str, day: date) -> BaseCost:
    rows = [r for r in accounts.rows if r.house == house and r.owed is not None and r.owed <= day]
    about = accounts.book.properties[house]
    labels = LABELS if paid_for(about) else {**LABELS, **CAME_FREE}
    groups = tuple(_listed(slug, labels[slug], (r for r in rows if _group(accounts, r) == slug)) for slug in labels)
    gone = _listed("gone", "Gone since", (r for r in rows if _gone(accounts, r)))
    open_ = _listed("open", "Open questions", (r for r in rows if _may_count(r)))
    total = sum(g.pence for g in groups if g.slug != SELLING)
    return BaseCost(
        house, about.full, day, groups, total, gone, open_, None, tuple(_notes(about, accounts, rows))
    )  # fmt: skip


# ── the record ───────────────────────────────────────────────────────────────────────────────────────────────────


def _fired(accounts: Accounts, row: Row, slug: str) -> bool:
    return row.verdict >= 0 and any(rule.slug == slug for rule in accounts.verdicts[row.verdict].path)


def finished(accounts: Accounts, row: Row) -> bool:
    """Whether a row of the purchase is work on the house, no tax or fee of buying it."""
    works = row.verdict >= 0 and accounts.verdicts[row.verdict].item.line.kind == "works"
    grant = row.kind is Kind.NETS and not _fired(accounts, row, "refund")  # what was given towards such work
    return (works or grant) and row.cgt is Cgt.ACQUISITION and not _fired(accounts, row, "buying-or-selling-cost")


def _group(accounts: Accounts, row: Row) -> str:
    """Where a row belongs; nothing where it is no part of the record."""
    if row.kind is Kind.ARGUABLE or row.cgt is Cgt.NONE:
        return ""
    if row.cgt is Cgt.ENHANCEMENT:
        return ADDED
    if row.cgt is Cgt.DISPOSAL:
        return SELLING
    return FINISHED if finished(accounts, row) else PURCHASE


def _listed(slug: str, label: str, rows: Iterable[Row]) -> Figure:
    """Rows as one line of the book each, on the day it was owed, in order of the days; money in comes off."""
    traces = (
        Trace(r.source, r.owed, words(r), r.pence if r.way == "out" else -r.pence, r.verdict)
        for r in rows
        if r.owed is not None
    )
    return figure(slug, label, sorted(together(traces), key=lambda t: t.day))


def _gone(accounts: Accounts, row: Row) -> bool:
    return row.kind is Kind.IMPROVEMENT and row.cgt is Cgt.NONE and _fired(accounts, row, "gone-by-sale")


def _may_count(row: Row) -> bool:
    """Whether either answer to an open sum counts; money back for what may count comes off what is open."""
    return row.kind is Kind.ARGUABLE and row.cgt is not Cgt.NONE


def _notes(about: Property, accounts: Accounts, rows: list[Row]) -> Iterator[str]:
    if about.got is None:
        yield "What the house cost is not told: add `bought … for £…`, `inherited … at £…` or `given … at £…`."
    elif about.got.how != "bought":
        yield f"It was {about.got.how}, so its value on that day stands in place of a price; keep the valuation."
    for row in rows:
        if _fired(accounts, row, "bit-of-the-property-sold"):
            yield (
                f"{row.thing.capitalize()} was sold off it for {pounds(row.pence)} ({row.source}). If that was part of "
                "the property, a part of its cost went with it (TCGA 1992 s. 42, 242), which is not worked out here."
            )
        if _fired(accounts, row, "lease-premium") and row.kind is Kind.CAPITAL_RECEIPT:
            yield (
                f"A lease of it was granted for a premium ({row.source}), of which {pounds(row.pence)} is a capital "
                "sum. That is a part disposal in the year of the lease: a part of what the house cost went with it "
                "(TCGA 1992 s. 42; Sch. 8 para. 2, from memory), which is not worked out here."
            )
    if any(finished(accounts, row) for row in rows):
        yield (
            "Work that finished the purchase counts as far as it can still be seen when the house is sold "
            "(TCGA 1992 s. 38(1)(b)); what has since been replaced is open, so ask before you claim it."
        )
