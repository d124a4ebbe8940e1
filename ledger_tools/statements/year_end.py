"""The tax year of each owner: the boxes of the UK property pages, what was left out and why, what is open."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from decimal import Decimal

from .. import law
from ..days import Period, TaxYear, day_words
from ..ledger.rows import Row
from ..money import pounds, share
from ..record import record
from ..taxes.income.basis import basis
from ..taxes.income.boxes import Filled, Pages
from ..verdicts.asked_once import HouseQuestion
from ..verdicts.closing import in_words
from ..verdicts.verdict import CAPITAL, Cgt, Kind, Part, Verdict, deciding
from .accounts import INCOME, Accounts, nets_capital
from .blank_boxes import blank_boxes
from .brought import brought
from .checked import checked
from .due_days import DueDays, due_days, gain_due, in_order, late
from .figures import Figure, Trace, figure, together, trace
from .in_tax import InTax, Worth, in_tax, worth
from .let_in import let_in
from .lodgers import box_4
from .notes import About, notes
from .owner_pages import pages, totals, traces
from .passings import died_in, passings
from .shared_income import fractions
from .stake import both_answers, both_sums
from .stopped import stopped


@record
class BoxLine:
    """A box of the pages: the exact figure with its lines, and the whole pounds to type."""

    number: str
    caption: str
    figure: Figure
    pounds: int
    adds: tuple[tuple[str, int], ...] = ()  # of a total the boxes it is made of, each with its sign


@record
class OpenItem:
    """An arguable sum left out of the boxes: both answers, the words to add, and the box it would go to."""

    trace: Trace
    box: str
    answers: tuple[str, ...]
    ask: tuple[str, ...]
    worth: Worth | None = None  # where the other income is told
    comes_in: bool = False  # money that came in
    if_so: str = "off the rents"  # what `worth` supposes; "either way" where only the box differs
    follows: tuple[str, ...] = ()  # the places of what settles it: the job it goes with, the costs it came back for
    with_costs: bool = False  # of money in: `worth` takes it with the open costs of the same year among them
    came_back: tuple[str, ...] = ()  # the places of open money back for it alone, with which `worth` takes it
    question: HouseQuestion | None = None  # of its house, on which others of these sums hang too


@record
class Asked:
    """A question of a house on which open sums of an owner's year hang: what they come to, and are worth together."""

    question: HouseQuestion
    pence: int
    worth: Worth | None


@record
class LeftOut:
    """A sum that is on no page this year, with the reason: capital, private, before any letting."""

    trace: Trace
    kind: Kind
    why: str
    of_sale: bool = False  # the price of a house sold, or a cost of selling it


@record
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
    in_tax: InTax
    asked: tuple[Asked, ...] = ()  # what several of the open sums hang on


@record
class YearEnd:
    """The tax year of a book."""

    year: TaxYear
    owners: tuple[OwnerYear, ...]
    cautions: tuple[str, ...]
    checked: str
    due: tuple[DueDays, ...]  # the same for every owner
    late: str
    no_landlord: bool = False  # the book names none, so nobody has pages
    blank: tuple[tuple[str, str], ...] = ()  # boxes that are never filled here, each with the reason
    later: tuple[str, ...] = ()  # of owners without pages: their letting counts with the next year, or is not written


def year_end(accounts: Accounts, year: TaxYear, on: date | None = None) -> YearEnd:
    """The pages of every owner who had a share in a house in the year. What falls due after `on` is not due yet."""
    owners = tuple(
        found for name in accounts.book.landlords if (found := _owner_year(accounts, name, year, on)) is not None
    )
    later = [_begins_later(accounts, n, year) for n in accounts.book.landlords if begins_later(accounts, n, year)]
    later += _unwritten(accounts, year, on) if not owners and not later else []
    numbers = {t.verdict for o in owners for b in o.boxes for t in b.figure.trail}
    numbers |= {i.trace.verdict for o in owners for i in o.open}
    numbers |= {i.trace.verdict for o in owners for i in o.left_out}
    cautions: dict[str, None] = {}
    for number in sorted(numbers - {-1}):
        for caution in accounts.verdicts[number].cautions:
            cautions.setdefault(caution)
    return YearEnd(
        year, owners, tuple(cautions), checked(year), _due(accounts, year), late(year), not accounts.book.landlords,
        blank_boxes(year), tuple(later),
    )  # fmt: skip


def begins_later(accounts: Accounts, owner: str, year: TaxYear) -> bool:
    """Whether an owner's letting began within a year and counts with the next one alone (ITTOIA 2005 s. 275C)."""
    begun = accounts.begun(owner)
    return begun is not None and accounts.period(owner, year).last < begun <= year.period.last


def _begins_later(accounts: Accounts, owner: str, year: TaxYear) -> str:
    begun = accounts.begun(owner)
    assert begun is not None
    return (
        f"{accounts.book.landlords[owner].full}: the letting began on {day_words(begun)}, and a letting begun in the "
        f"last days of a tax year counts with the next one (ITTOIA 2005 s. 275C; PIM1015): there are no pages for "
        f"{year}, and those of {year.next} hold all of it. `base-cost` keeps what buying the house cost."
    )


def _unwritten(accounts: Accounts, year: TaxYear, on: date | None) -> list[str]:
    """The lets that ran in a year, up to a day, of which the book holds no line."""
    book, each = accounts.book, []
    for let in book.tenancies.values():
        first, last = book.let_from(let), min(book.let_until(let) or date.max, on or date.max)
        spell = Period(first, last).overlap(year.period) if first and first <= last else None
        if spell and let.rents:
            each.append(f"{let.name} ({day_words(spell.first)} to {day_words(spell.last)}, at {let.house})")
    if not each:
        return []
    return [
        f"Nothing in this book falls in the tax year {year}, and yet {' and '.join(each)} ran in it. Write down the "
        "rent that came and what was paid, and the pages follow."
    ]


def _due(accounts: Accounts, year: TaxYear) -> tuple[DueDays, ...]:
    """The days that follow from the year, among them by which the gain on a house sold, or a part passed on, in it is
    reported."""
    sales = [
        gain_due(name, house.sold.day)
        for name, house in accounts.book.properties.items()
        if house.sold and TaxYear.of(house.sale_exchanged or house.sold.day) == year
    ]
    passed = [
        gain_due(f"the part of {name} passed on", passing.day)
        for name in accounts.book.properties
        for passing in passings(accounts.book, name, year.period.last)
        if passing.day in year.period and any(map(passing.at_value, passing.less))
    ]
    return in_order(due_days(year), sorted((*sales, *passed), key=lambda due: due.days))


def _owner_year(accounts: Accounts, owner: str, year: TaxYear, on: date | None) -> OwnerYear | None:
    landlord = accounts.book.landlords[owner]
    way = basis(accounts.book, owner, year)
    mine = list(accounts.of_owner(owner, year, way))
    came = brought(accounts, owner, year)
    lines = traces(accounts, owner, year)
    nothing = not mine and not lines or begins_later(accounts, owner, year)
    if nothing and not came.loss.pence and not came.finance.pence:
        return None
    sums = totals(lines)
    found = pages(landlord, year, sums, came.loss.pence, came.finance.pence)
    about = About(accounts, owner, year, way, found, came, sums, on)
    boxes = tuple(
        BoxLine(number, box.caption, _box_figure(box, lines, found), box.pounds, _adds(number, found.boxes, year))
        for number, box in sorted(found.boxes.items(), key=lambda kv: Decimal(kv[0]))
    )
    open_ = tuple(_open(about, mine, sums))
    return OwnerYear(
        owner, landlord.full, way, _ticks(accounts, owner, year, way), boxes,
        open_, _left_out(accounts, mine), (*_came_in(accounts, open_), *notes(about)), found.loss_on,
        in_tax(landlord, year, sums, found, came, died_in(accounts.book, owner, year)),
        tuple(_asked(about, open_, sums)),
    )  # fmt: skip


def _box_figure(box: Filled, traces: dict[str, list[Trace]], found: Pages) -> Figure:
    """A box with its lines. A total, or a box that holds only part of its lines, has its own sum and all of them."""
    took = [number for number, into in found.moved.items() if into == box.number]
    lines = [
        t if _in_box(category, found.year, box.number) else replace(t, pence=-t.pence)
        for category, here in traces.items()
        for t in here
        if any(_in_box(category, found.year, number) for number in (box.number, *took))
    ]
    made = figure(f"box-{box.number}", box.caption, lines)
    return made if made.pence == box.pence else Figure(made.slug, box.caption, box.pence, made.trail)


def _adds(number: str, filled: Mapping[str, Filled], year: TaxYear) -> tuple[tuple[str, int], ...]:
    """The boxes that a total is made of: the profit or loss of all that enter it, what is taxed of the profit."""
    if number == "40":
        return (("38", 1), *((("39", -1),) if "39" in filled else ()))
    if number not in ("38", "41"):
        return ()
    way = 1 if number == "38" else -1
    return tuple((box.number, way * box.sign) for box in law.pages(year) if box.sign and box.number in filled)


def _in_box(category: str, year: TaxYear, number: str) -> bool:
    if category == "finance_residential" and number in ("26", "44"):
        return True
    return law.box_for(category, year).number == number


Mine = list[tuple[Row, date, int]]


def _ticks(accounts: Accounts, owner: str, year: TaxYear, way: str) -> tuple[tuple[str, str], ...]:
    """Boxes that hold no sum: how many houses were let, whether letting has stopped, any is joint, what basis."""
    parts = {house: fractions(accounts, owner, house, year) for house in accounts.book.properties}
    let = [house for house, held in parts.items() if any(held) and let_in(accounts, house, year)]
    ticks = [("1", str(len(let)))]
    if stopped(accounts, owner, year):
        ticks.append(("2", "X"))
    if any(0 < part < 1 for house in let for part in parts[house]):
        ticks.append(("3", "X"))
    if box_4(accounts, owner, year):
        ticks.append(("4", "X"))
    if way == "accruals" and any(box.number == "20.2" for box in law.pages(year)):
        ticks.append(("20.2", "X"))
    return tuple(ticks)


def _open(a: About, mine: Mine, sums: dict[str, int]) -> Iterator[OpenItem]:
    """The open sums, each with what it is worth in tax: both answers worked out with everything else as it is."""
    landlord = a.accounts.book.landlords[a.owner]
    rows: dict[int, Row] = {row.verdict: row for row, _, _ in mine if row.kind is Kind.ARGUABLE}
    asked = {number: question for question in a.accounts.questions for number in question.numbers}
    lines = list(together(trace(row, pence, day) for row, day, pence in mine if row.kind is Kind.ARGUABLE))
    held: Counter[int] = Counter()
    for t in lines:
        held[t.verdict] += t.pence
    for t in lines:
        verdict, row = a.accounts.verdicts[t.verdict], rows[t.verdict]
        comes_in = row.way == "in"
        box = law.box_for(row.category, a.year).number if row.category else ""
        with_it = [cost for cost in verdict.follows if cost in held and comes_in]
        back = [one for one in a.accounts.came_back.get(t.verdict, ()) if one in held]
        answers = [both_sums(a.accounts.verdicts[one], held[one]) for one in (t.verdict, *with_it, *back)]
        by_profit = comes_in and not with_it  # money in counts by the answer that leaves the greater profit
        both = [_added(one) for one in zip(*answers, strict=True)]
        otherwise, counted = sorted(both, key=lambda sums: (by_profit and _profit(a.year, sums), sums.total()))
        either_way = comes_in and _profit(a.year, counted) == _profit(a.year, otherwise) != 0
        nothing = not any(counted.values()) and not any(otherwise.values())  # neither answer is of this year's pages
        # Money in of which neither answer is counted yet is held against the pages as they stand.
        value = worth(landlord, a.year, sums, a.came, counted, {} if either_way else otherwise, -1 if comes_in else 1)
        leaders = with_it or verdict.follows
        places, came_back = (tuple(a.accounts.verdicts[n].item.source for n in them) for them in (leaders, back))
        if_so = "off the rents" if not comes_in else "income" if INCOME & counted.keys() else "off a cost"
        yield OpenItem(
            t, "" if comes_in else box, _answers(verdict, t.pence), verdict.ask, value, comes_in,
            "either way" if either_way or nothing else if_so, places, bool(with_it), came_back, asked.get(t.verdict),
        )  # fmt: skip


def _answers(verdict: Verdict, pence: int) -> tuple[str, ...]:
    """The answers in words, of the open part alone and of the owner's pence of it where they name sums."""
    both = both_answers(verdict)
    if len(verdict.answers) != len(both):
        return verdict.answers
    return tuple(in_words(_scaled(parts, pence)) for parts in both)


def _scaled(parts: Sequence[Part], pence: int) -> tuple[Part, ...]:
    mine = share(pence, [part.amount for part in parts])
    return tuple(replace(part, amount=amount) for part, amount in zip(parts, mine, strict=True))


def _came_in(accounts: Accounts, open_: Iterable[OpenItem]) -> Iterator[str]:
    """That money in is left out which may be income: left out, a cost is cautious, and income is not."""
    may_be = sum(i.trace.pence for i in open_ if i.comes_in and _may_be_income(accounts.verdicts[i.trace.verdict]))
    if may_be:
        yield (
            f"{pounds(may_be)} that came in may be income, and is in no box above: it stands under the open questions. "
            "Settle it before the return goes in, for to leave income out understates the profit."
        )


def _may_be_income(verdict: Verdict) -> bool:
    """Whether an answer of an open sum that came in adds to the profit."""
    parts = (*verdict.other, *verdict.cautious)
    return any(part.kind is Kind.INCOME or part.kind is Kind.NETS and part.category for part in parts)


def _added(sums: Iterable[Mapping[str, int]]) -> Counter[str]:
    """Sums by category, added up."""
    made: Counter[str] = Counter()
    for each in sums:
        made.update(each)
    return made


def _asked(a: About, open_: Sequence[OpenItem], sums: dict[str, int]) -> Iterator[Asked]:
    """Each question of a house with all the open sums that hang on it, worked out together."""
    landlord = a.accounts.book.landlords[a.owner]
    for question in dict.fromkeys(item.question for item in open_ if item.question):
        traces = [item.trace for item in open_ if item.question is question]
        good: Counter[str] = Counter()
        bad: Counter[str] = Counter()
        for t in traces:
            better, worse = both_sums(a.accounts.verdicts[t.verdict], t.pence)
            good.update(better)
            bad.update(worse)
        yield Asked(question, sum(t.pence for t in traces), worth(landlord, a.year, sums, a.came, good, bad, 1))


def _profit(year: TaxYear, sums: Mapping[str, int]) -> int:
    """What sums by category add to the profit of a year's pages."""
    return sum(law.box_for(category, year).sign * pence for category, pence in sums.items() if category)


def _left_out(accounts: Accounts, mine: Mine) -> tuple[LeftOut, ...]:
    found: dict[tuple[Kind, bool], list[Trace]] = defaultdict(list)
    for row, day, pence in mine:
        of_sale = row.cgt is Cgt.DISPOSAL or row.verdict < 0 and row.kind is Kind.CAPITAL_RECEIPT
        if nets_capital(row):
            found[Kind.ACQUISITION if of_sale else Kind.IMPROVEMENT, of_sale].append(trace(row, -pence, day))
        elif row.kind in CAPITAL and row.cgt is Cgt.NONE:  # an improvement that is gone, a plan given up
            found[Kind.NO_RELIEF, False].append(trace(row, pence, day))
        elif row.category and row.kind is Kind.PRIVATE:  # tax taken off the rents stands in a box
            continue
        elif row.kind in CAPITAL or row.kind in (Kind.PRIVATE, Kind.PENDING, Kind.CAPITAL_RECEIPT):
            found[row.kind, of_sale].append(trace(row, pence, day))
    return tuple(
        LeftOut(t, kind, _why(accounts, t.verdict, kind), of_sale)
        for (kind, of_sale), traces in found.items()
        for t in together(traces)
    )


OF_HOUSES = {
    Kind.CAPITAL_RECEIPT: "no income of the year; `base-cost` works out the gain or the loss",
    Kind.NO_RELIEF: "furniture and the like that came with the house: the first of each has no relief, and no part in "
    "the gain on the house",
}


def _why(accounts: Accounts, number: int, kind: Kind) -> str:
    if number < 0:  # of a house's own heading: its price, furniture in that price, its sale
        return OF_HOUSES.get(kind, "what the house cost counts when it is sold")
    gone = [fired for fired in accounts.verdicts[number].path if fired.decided and fired.stage == "H"]
    if gone and kind is Kind.NO_RELIEF:
        return gone[-1].says  # why nothing is left of it for the gain
    verdict = accounts.verdicts[number]
    reasons, others = deciding(verdict)
    if verdict.arguable and kind is not Kind.ARGUABLE:  # a piece carved off what is open has a reason of its own
        reasons = tuple(fired for fired in others if fired.stage not in ("F", "H")) or reasons
    return reasons[0].says if reasons else ""
