"""The tax year of each owner: the boxes of the UK property pages, what was left out and why, what is open."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from datetime import date
from functools import cache

from .. import law
from ..days import TaxYear, day_words
from ..money import pounds
from ..taxes.income.boxes import Pages, fill
from ..verdicts.verdict import CAPITAL, Kind
from .accounts import Accounts, tax_sign
from .figures import Figure, Trace, figure, trace


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
    numbers |= {i.trace.verdict for o in owners for i in (*o.open, *o.left_out)}
    cautions: dict[str, None] = {}
    for number in sorted(numbers - {-1}):
        for caution in accounts.verdicts[number].cautions:
            cautions.setdefault(caution)
    return YearEnd(year, owners, tuple(cautions), _checked(year))


def _checked(year: TaxYear) -> str:
    seen, until = law.form_last_seen(), law.checked_up_to()
    text = (
        f"Law and figures checked up to {day_words(until)}. Box wording compared with the {seen} pages; "
        "hold it against the form of your year."
    )
    if year.period.last > until:
        text += f" {year} goes beyond that: treat its figures as unchecked."
    return text + " This is no tax advice: an adviser and the tax office decide."


def _sums(accounts: Accounts, owner: str, year: TaxYear, basis: str) -> dict[str, list[Trace]]:
    """The traces of each category that counts, the owner's part of each line."""
    found: dict[str, list[Trace]] = defaultdict(list)
    for row, day, pence in accounts.of_owner(owner, year, basis):
        sign = tax_sign(row)
        if sign:
            found[row.category].append(trace(row, sign * pence, day))
    return found


def brought(accounts: Accounts, owner: str, year: TaxYear) -> tuple[int, str]:
    """The loss brought into a year (pence) and where it comes from: told in the book, else worked out from the year
    before as far back as the book goes."""

    @cache
    def into(y: TaxYear) -> tuple[int, str]:
        landlord = accounts.book.landlords[owner]
        if y in landlord.losses:
            return landlord.losses[y], f"as your book tells ({landlord.place.short})"
        if not accounts.book.years or y.start <= accounts.book.years[0].start:
            return 0, ""
        return _pages(accounts, owner, y.before, into(y.before)[0]).loss_on * 100, f"worked out from {y.before}"

    return into(year)


def _pages(accounts: Accounts, owner: str, year: TaxYear, loss_brought: int) -> Pages:
    landlord = accounts.book.landlords[owner]
    basis = landlord.basis(year) or "cash"
    sums = {c: sum(t.pence for t in traces) for c, traces in _sums(accounts, owner, year, basis).items()}
    return fill(
        year, sums, loss_brought, landlord.unused_finance.get(year, 0), year in landlord.allowance_years
    )


def _owner_year(accounts: Accounts, owner: str, year: TaxYear) -> OwnerYear | None:
    landlord = accounts.book.landlords[owner]
    basis = landlord.basis(year) or "cash"
    mine = list(accounts.of_owner(owner, year, basis))
    if not mine:
        return None
    loss, loss_from = brought(accounts, owner, year)
    pages = _pages(accounts, owner, year, loss)
    traces = _sums(accounts, owner, year, basis)
    boxes = tuple(
        BoxLine(number, box.caption, _box_figure(number, box.caption, box.pence, traces, year), box.pounds)
        for number, box in pages.boxes.items()
    )
    return OwnerYear(
        owner, landlord.full, basis, _ticks(accounts, owner, mine, year, basis), boxes,
        _open(accounts, mine, year), _left_out(accounts, mine),
        _notes(accounts, owner, pages, loss, loss_from, basis, year), pages.loss_on,
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


def _ticks(
    accounts: Accounts, owner: str, mine: list[tuple[object, date, int]] | list[object], year: TaxYear, basis: str
) -> tuple[tuple[str, str], ...]:
    """Boxes that hold no sum: how many houses were let, whether any is joint, whether accruals were used."""
    let = [h for h in accounts.book.properties if _let_in(accounts, h, year) and _owns(accounts, owner, h, year)]
    joint = any(0 < _fraction(accounts, owner, h, year) < 1 for h in let)
    ticks = [("1", str(len(let)))]
    if joint:
        ticks.append(("3", "X"))
    if basis == "accruals":
        ticks.append(("20.2", "X"))
    return tuple(ticks)


def _let_in(accounts: Accounts, house: str, year: TaxYear) -> bool:
    for let in accounts.book.tenancies.values():
        first, last = let.first_day, let.last_day or date.max
        if let.house == house and first and first <= year.period.last and last >= year.period.first:
            return True
    return False


def _fraction(accounts: Accounts, owner: str, house: str, year: TaxYear) -> float | int:
    shares = dict(accounts.shares(house, year.period.last)) or dict(accounts.shares(house, year.period.first))
    return shares.get(owner, 0)  # type: ignore[return-value]


def _owns(accounts: Accounts, owner: str, house: str, year: TaxYear) -> bool:
    return any(owner in dict(accounts.shares(house, day)) for day in (year.period.first, year.period.last))


def _open(accounts: Accounts, mine: list[object], year: TaxYear) -> tuple[OpenItem, ...]:
    found = []
    for row, day, pence in mine:  # type: ignore[misc]
        if row.kind is Kind.ARGUABLE:
            verdict = accounts.verdicts[row.verdict]
            box = law.box_for(row.category, year).number if row.category else ""
            found.append(OpenItem(trace(row, pence, day), box, verdict.answers, verdict.ask))
    return tuple(found)


def _left_out(accounts: Accounts, mine: list[object]) -> tuple[LeftOut, ...]:
    found = []
    for row, day, pence in mine:  # type: ignore[misc]
        if row.kind in CAPITAL or row.kind in (Kind.PRIVATE, Kind.PENDING, Kind.CAPITAL_RECEIPT):
            found.append(LeftOut(trace(row, pence, day), row.kind, _why(accounts, row.verdict, row.thing)))
    return tuple(found)


def _why(accounts: Accounts, number: int, thing: str) -> str:
    if number < 0:
        return "what the house cost counts when it is sold" if "sale" not in thing else "it counts for the gain"
    decided = [fired for fired in accounts.verdicts[number].path if fired.decided]
    return decided[-1].says if decided else ""


def _notes(
    accounts: Accounts, owner: str, pages: Pages, loss: int, loss_from: str, basis: str, year: TaxYear
) -> tuple[str, ...]:
    notes = list(pages.notes)
    if loss:
        notes.append(f"Loss of {pounds(loss)} brought into {year}, {loss_from}.")
    income = sum(b.pence for n, b in pages.boxes.items() if n in ("20", "22", "23"))
    if basis == "cash":
        limit = law.figure("property.cash_basis_limit", year).pence
        if income > limit:
            notes.append(f"Receipts of {pounds(income)} are above {pounds(limit)}: the return must be made by what "
                         "was owed, not by payment. Add `accounting accruals`.")  # fmt: skip
    else:
        notes.append("Worked out by what was owed. Rents and costs that run over 5 April are not split by days here: "
                     "check them.")  # fmt: skip
    if "44" in pages.boxes:
        notes.append("Box 44 is not deducted from the rents: it earns a tax reduction at the basic rate.")
    unpaid = sum(
        row.pence for row in accounts.rows
        if row.paid is None and row.owed and row.owed <= year.period.last and row.way == "out" and row.verdict >= 0
        and owner in dict(accounts.shares(row.house, row.owed))
    )  # fmt: skip
    if unpaid and basis == "cash":
        notes.append(f"Bills of {pounds(unpaid)} are still unpaid in your book; they count in the year you pay them.")
    return tuple(notes)
