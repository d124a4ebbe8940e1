"""The tax year of each owner: the boxes of the UK property pages, what was left out and why, what is open."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from functools import cache

from .. import law
from ..days import TaxYear
from ..ledger.rows import Row
from ..taxes.income.basis import basis
from ..taxes.income.boxes import Pages, fill
from ..verdicts.verdict import CAPITAL, Cgt, Kind, deciding
from .accounts import Accounts, nets_capital, tax_sign
from .basis_change import adjustments
from .checked import checked
from .figures import Figure, Trace, figure, together, trace
from .notes import About, fractions, let_in, notes


@dataclass(frozen=True, slots=True)
class BoxLine:
    """A box of the pages: the exact figure with its lines, and the whole pounds to type."""

    number: str
    caption: str
    figure: Figure
    pounds: int


@dataclass(frozen=True, slots=True)
class OpenItem:
    """An arguable sum left out of the boxes: both answers, the words to add, and the box it would go to."""

    trace: Trace
    box: str
    answers: tuple[str, ...]
    ask: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A sum that is on no page this year, with the reason: capital, private, before any letting."""

    trace: Trace
    kind: Kind
    why: str


@dataclass(frozen=True, slots=True)
class OwnerYear:
    """One owner's pages."""

    owner: str
    full: str
    basis: str
    ticks: tuple[tuple[str, str], ...]  # (box, what to put)
    boxes: tuple[BoxLine, ...]
    open: tuple[OpenItem, ...]
    left_out: tuple[LeftOut, ...]
    notes: tuple[str, ...]
    loss_on: int  # whole pounds carried forward


@dataclass(frozen=True, slots=True)
class YearEnd:
    """The tax year of a book."""

    year: TaxYear
    owners: tuple[OwnerYear, ...]
    cautions: tuple[str, ...]
    checked: str


def year_end(accounts: Accounts, year: TaxYear) -> YearEnd:
    """The pages of every owner who had a share in a house in the year."""
    owners = tuple(
        found for name in accounts.book.landlords if (found := _owner_year(accounts, name, year)) is not None
    )
    numbers = {t.verdict for o in owners for b in o.boxes for t in b.figure.trail}
    numbers |= {i.trace.verdict for o in owners for i in o.open}
    numbers |= {i.trace.verdict for o in owners for i in o.left_out}
    cautions: dict[str, None] = {}
    for number in sorted(numbers - {-1}):
        for caution in accounts.verdicts[number].cautions:
            cautions.setdefault(caution)
    return YearEnd(year, owners, tuple(cautions), checked(year))


def _sums(accounts: Accounts, owner: str, year: TaxYear, way: str) -> dict[str, list[Trace]]:
    """The traces of each category that counts, the owner's part of each line."""
    found: dict[str, list[Trace]] = defaultdict(list)
    for row, day, pence in accounts.of_owner(owner, year, way):
        sign = tax_sign(row)
        if sign:
            found[row.category].append(trace(row, sign * pence, day))
    for category, traces in adjustments(accounts, owner, year).items():
        found[category] += traces
    return found


def brought(accounts: Accounts, owner: str, year: TaxYear) -> tuple[int, str]:
    """The loss brought into a year (pence) and where it comes from: told in the book, else worked out from the year
    before as far back as the book goes."""

    @cache
    def into(y: TaxYear) -> tuple[int, str]:
        landlord = accounts.book.landlords[owner]
        if y in landlord.losses:
            return landlord.losses[y], f"as your book tells ({landlord.place.short})"
        first = min([*accounts.book.years[:1], *landlord.losses], default=y)
        if y <= first:
            return 0, ""
        try:
            pages = _pages(accounts, owner, y.before, into(y.before)[0])
        except law.NoFigure:  # before the first pages held here; what was lost then must be told in the book
            return 0, ""
        return pages.loss_on * 100, f"worked out from {y.before}"

    return into(year)


def _pages(accounts: Accounts, owner: str, year: TaxYear, loss_brought: int) -> Pages:
    landlord = accounts.book.landlords[owner]
    traces = _sums(accounts, owner, year, basis(landlord, year))
    sums = {category: sum(t.pence for t in found) for category, found in traces.items()}
    return fill(year, sums, loss_brought, landlord.unused_finance.get(year, 0), year in landlord.allowance_years)


def taxable_profit(accounts: Accounts, owner: str, year: TaxYear) -> int:
    """An owner's taxable profit of a year in pence, in whole pounds as the pages have it; nil where it is a loss."""
    box = _pages(accounts, owner, year, brought(accounts, owner, year)[0]).boxes.get("40")
    return box.pounds * 100 if box else 0


def _owner_year(accounts: Accounts, owner: str, year: TaxYear) -> OwnerYear | None:
    landlord = accounts.book.landlords[owner]
    way = basis(landlord, year)
    mine = list(accounts.of_owner(owner, year, way))
    loss, loss_from = brought(accounts, owner, year)
    traces = _sums(accounts, owner, year, way)
    if not mine and not loss and not traces:
        return None
    pages = _pages(accounts, owner, year, loss)
    boxes = tuple(
        BoxLine(number, box.caption, _box_figure(number, box.caption, box.pence, traces, year), box.pounds)
        for number, box in sorted(pages.boxes.items(), key=lambda kv: Decimal(kv[0]))
    )
    return OwnerYear(
        owner, landlord.full, way, _ticks(accounts, owner, year, way), boxes,
        _open(accounts, mine, year), _left_out(accounts, mine),
        notes(About(accounts, owner, year, way, pages, loss, loss_from)), pages.loss_on,
    )  # fmt: skip


def _box_figure(number: str, caption: str, pence: int, traces: dict[str, list[Trace]], year: TaxYear) -> Figure:
    """A box with its lines. A total, or a box that holds only part of its lines, has its own sum and all of them."""
    lines = [t for category, found in traces.items() for t in found if _in_box(category, year, number)]
    made = figure(f"box-{number}", caption, lines)
    return made if made.pence == pence else Figure(made.slug, caption, pence, made.trail)


def _in_box(category: str, year: TaxYear, number: str) -> bool:
    if category == "finance_residential" and number in ("26", "44"):
        return True
    return law.box_for(category, year).number == number


Mine = list[tuple[Row, date, int]]


def _ticks(accounts: Accounts, owner: str, year: TaxYear, way: str) -> tuple[tuple[str, str], ...]:
    """Boxes that hold no sum: how many houses were let, whether any is joint, whether accruals were used."""
    parts = {house: fractions(accounts, owner, house, year) for house in accounts.book.properties}
    let = [house for house, held in parts.items() if any(held) and let_in(accounts, house, year)]
    ticks = [("1", str(len(let)))]
    if any(0 < part < 1 for house in let for part in parts[house]):
        ticks.append(("3", "X"))
    if way == "accruals" and any(box.number == "20.2" for box in law.pages(year)):
        ticks.append(("20.2", "X"))
    return tuple(ticks)


def _open(accounts: Accounts, mine: Mine, year: TaxYear) -> tuple[OpenItem, ...]:
    found = []
    boxes: dict[int, str] = {}
    for row, _, _ in mine:
        if row.kind is Kind.ARGUABLE:
            boxes[row.verdict] = law.box_for(row.category, year).number if row.category else ""
    for t in together(trace(row, pence, day) for row, day, pence in mine if row.kind is Kind.ARGUABLE):
        verdict = accounts.verdicts[t.verdict]
        found.append(OpenItem(t, boxes[t.verdict], verdict.answers, verdict.ask))
    return tuple(found)


def _left_out(accounts: Accounts, mine: Mine) -> tuple[LeftOut, ...]:
    found: dict[Kind, list[Trace]] = defaultdict(list)
    things: dict[tuple[str, int], str] = {}
    for row, day, pence in mine:
        things[row.source, row.verdict] = row.thing
        if nets_capital(row):
            found[Kind.IMPROVEMENT].append(trace(row, -pence, day))
        elif row.kind in CAPITAL and row.cgt is Cgt.NONE:  # an improvement that is gone, a plan given up
            found[Kind.NO_RELIEF].append(trace(row, pence, day))
        elif row.kind in CAPITAL or row.kind in (Kind.PRIVATE, Kind.PENDING, Kind.CAPITAL_RECEIPT):
            found[row.kind].append(trace(row, pence, day))
    return tuple(
        LeftOut(t, kind, _why(accounts, t.verdict, things[t.source, t.verdict], kind))
        for kind, traces in found.items()
        for t in together(traces)
    )


def _why(accounts: Accounts, number: int, thing: str, kind: Kind) -> str:
    if number < 0:
        return "what the house cost counts when it is sold" if "sale" not in thing else "it counts for the gain"
    gone = [fired for fired in accounts.verdicts[number].path if fired.decided and fired.stage == "H"]
    if gone and kind is Kind.NO_RELIEF:
        return gone[-1].says  # why nothing is left of it for the gain
    reasons, _ = deciding(accounts.verdicts[number])
    return reasons[0].says if reasons else ""
