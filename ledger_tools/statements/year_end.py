"""The tax year of each owner: the boxes of the UK property pages, what was left out and why, what is open."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from fractions import Fraction
from functools import cache

from .. import law
from ..days import TaxYear, day_words
from ..ledger.rows import Row
from ..money import pounds
from ..taxes.income.boxes import Pages, fill
from ..verdicts.verdict import CAPITAL, Kind
from .accounts import Accounts, nets_capital, tax_sign
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
    numbers |= {i.trace.verdict for o in owners for i in o.open}
    numbers |= {i.trace.verdict for o in owners for i in o.left_out}
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
        try:
            pages = _pages(accounts, owner, y.before, into(y.before)[0])
        except law.NoFigure:  # before the first pages held here; what was lost then must be told in the book
            return 0, ""
        return pages.loss_on * 100, f"worked out from {y.before}"

    return into(year)


def _pages(accounts: Accounts, owner: str, year: TaxYear, loss_brought: int) -> Pages:
    landlord = accounts.book.landlords[owner]
    basis = landlord.basis(year) or "cash"
    sums = {c: sum(t.pence for t in traces) for c, traces in _sums(accounts, owner, year, basis).items()}
    return fill(year, sums, loss_brought, landlord.unused_finance.get(year, 0), year in landlord.allowance_years)


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
        for number, box in sorted(pages.boxes.items(), key=lambda kv: Decimal(kv[0]))
    )
    return OwnerYear(
        owner, landlord.full, basis, _ticks(accounts, owner, year, basis), boxes,
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


Mine = list[tuple[Row, date, int]]


def _ticks(accounts: Accounts, owner: str, year: TaxYear, basis: str) -> tuple[tuple[str, str], ...]:
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


def _fraction(accounts: Accounts, owner: str, house: str, year: TaxYear) -> Fraction:
    shares = dict(accounts.shares(house, year.period.last)) or dict(accounts.shares(house, year.period.first))
    return shares.get(owner, Fraction(0))


def _owns(accounts: Accounts, owner: str, house: str, year: TaxYear) -> bool:
    return any(owner in dict(accounts.shares(house, day)) for day in (year.period.first, year.period.last))


def _together(traces: Iterable[Trace]) -> Iterator[Trace]:
    """One trace a line of the book: what was paid in parts is shown as one sum, on its first day."""
    found: dict[tuple[str, str, int], Trace] = {}
    for t in traces:
        key = (t.source, t.words, t.verdict)
        before = found.get(key)
        found[key] = Trace(t.source, before.day, t.words, before.pence + t.pence, t.verdict) if before else t
    yield from found.values()


def _open(accounts: Accounts, mine: Mine, year: TaxYear) -> tuple[OpenItem, ...]:
    found = []
    boxes: dict[int, str] = {}
    for row, _, _ in mine:
        if row.kind is Kind.ARGUABLE:
            boxes[row.verdict] = law.box_for(row.category, year).number if row.category else ""
    for t in _together(trace(row, pence, day) for row, day, pence in mine if row.kind is Kind.ARGUABLE):
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
        elif row.kind in CAPITAL or row.kind in (Kind.PRIVATE, Kind.PENDING, Kind.CAPITAL_RECEIPT):
            found[row.kind].append(trace(row, pence, day))
    return tuple(
        LeftOut(t, kind, _why(accounts, t.verdict, things[t.source, t.verdict]))
        for kind, traces in found.items()
        for t in _together(traces)
    )


def _why(accounts: Accounts, number: int, thing: str) -> str:
    if number < 0:
        return "what the house cost counts when it is sold" if "sale" not in thing else "it counts for the gain"
    decided = [fired for fired in accounts.verdicts[number].path if fired.decided]
    # What it is comes before when it counts and what it does for the gain.
    first = [fired for fired in decided if fired.stage not in ("F", "H")] or decided
    return first[0].says if first else ""


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
    unpaid = _unpaid(accounts, owner, year)
    if unpaid > 0 and basis == "cash":
        notes.append(
            f"Your book holds bills of which {pounds(unpaid)} was not paid by 5 April; what you pay later counts in "
            "the year you pay it."
        )
    return tuple(notes)


def _unpaid(accounts: Accounts, owner: str, year: TaxYear) -> int:
    """What the bills of an owner's houses still wanted at the end of a year, in pence of the whole house."""
    last = year.period.last
    total = 0
    for row in accounts.rows:
        if row.way == "out" and row.verdict >= 0 and row.owed != row.paid and row.kind is not Kind.IGNORED:
            day = row.owed or row.paid
            if day is not None and owner in dict(accounts.shares(row.house, day)):
                total += row.pence if row.owed and row.owed <= last else 0
                total -= row.pence if row.paid and row.paid <= last else 0
    return total
