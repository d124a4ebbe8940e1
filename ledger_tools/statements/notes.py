"""What stands under the boxes of an owner's pages: one function a note, each silent where it has nothing to say."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import field
from datetime import date, timedelta

from .. import law
from ..book.council_bills import is_council_tax
from ..book.silent_lets import Silent, silent_lets
from ..days import Period, TaxYear, day_words
from ..ledger.open_bills import open_bills
from ..money import pounds
from ..record import record
from ..taxes.income.allowance import How
from ..taxes.income.basis import spouse_on_accruals
from ..taxes.income.boxes import Pages
from ..verdicts.verdict import Kind
from .accounts import Accounts
from .basis_change import adjustments, changed
from .brought import Brought, brought
from .digital_duty import digital_duty
from .interest_short import interest_short
from .loan_ceiling import ceiling_note
from .lodgers import rent_a_room_told
from .no_let import no_let_told
from .owner_pages import pages
from .passed_told import passed_in_year
from .rents import due_and_came
from .shared_income import fractions, income_shared
from .stopped import stopped, stopped_told


@record
class About:
    """What the notes are about: one owner's year, its pages, and what is brought into it."""

    accounts: Accounts
    owner: str
    year: TaxYear
    way: str  # "cash" or "accruals"
    pages: Pages
    came: Brought
    sums: Mapping[str, int] = field(default_factory=dict)  # pence by category, as the pages were made of
    on: date | None = None  # rents that fall due later are not due yet


def let_in(accounts: Accounts, house: str, year: TaxYear) -> bool:
    """Whether a house was let on some day of a year: by its tenancies and the leases granted for a premium; where none
    is told, by rent that came."""
    told = [(t.first_day, t.last_day or date.max) for t in accounts.book.tenancies.values() if t.house == house]
    told += [(lease.first, lease.last) for lease in _leases(accounts, house)]
    if any(first for first, _ in told):
        return any(first and first <= year.period.last and last >= year.period.first for first, last in told)
    rents = (row for row, _ in accounts.in_year("cash", year) if row.house == house and row.category == "rent")
    return any(row.way == "in" for row in rents)


def _leases(accounts: Accounts, house: str) -> Iterator[Period]:
    """The days of leases of a house that a premium was received for."""
    for row in accounts.rows:
        if row.house == house and row.way == "in" and row.verdict >= 0:
            verdict = accounts.verdicts[row.verdict]
            if any(fired.slug == "lease-premium" for fired in verdict.path):
                line = verdict.item.line
                yield line.period or Period(line.day.first, line.day.first)


# ── the notes ────────────────────────────────────────────────────────────────────────────────────────────────────


def _loss_brought(a: About) -> str:
    loss = a.came.loss
    if not loss.pence:
        return ""
    said = f"Loss of {pounds(loss.pence)} brought into {a.year}, {loss.source}."
    years = sorted({str(one.year) for one in _silent(a) if one.year.start < a.year.start})
    if years:
        said += (
            f" Do not rely on it: the rent of {' and '.join(years)} is not all in your book, as the pages of "
            f"{'that year' if len(years) == 1 else 'those years'} say, so the true loss is smaller, or none."
        )
    return said


def _silent(a: About) -> list[Silent]:
    """Lets of the owner's houses with years of which the book keeps costs and no rent; by what is owed rent counts
    without its coming."""
    if a.way != "cash":
        return []
    return [
        one
        for one in silent_lets(a.accounts.book)
        if any(fractions(a.accounts, a.owner, one.let.house, one.year))
    ]


def _rents_silent(a: About) -> str:
    """A let that ran in the year, and no rent of it is in the book; unless `_rents_missing` tells it with its sums."""
    each = [
        f"{one.let.name} ({day_words(one.days.first)} to {day_words(one.days.last)}, at {one.let.house})"
        for one in _silent(a)
        if one.year == a.year and not due_and_came(a.accounts.book, one.let.house, a.year, a.on)[0]
    ]
    if not each:
        return ""
    return (
        f"Of {a.year} your book has costs and no rent at all of {' and '.join(each)}. If rent came, the income here is "
        "too low, and a loss too high; write it down, and the boxes follow."
    )


def _at_odds(a: About) -> str:
    """Where the book tells another sum than its own lines make."""
    words = {"a loss": a.came.loss, "unused finance costs": a.came.finance}
    odd = [
        f"{what} of {pounds(told.pence)} brought into {a.year}, {told.source}, but the lines of {a.year.before} make "
        f"it {pounds(told.follows)}"
        for what, told in words.items()
        if told.follows is not None
    ]
    if not odd:
        return ""
    return f"At odds: {' and '.join(odd)}. What your book tells is used here; put right whichever is wrong."


def _older_losses(a: About) -> str:
    first = law.began("property.domestic_items_share")
    told = a.accounts.book.landlords[a.owner].losses
    start, begun, years = TaxYear.of(first), a.accounts.begun(a.owner), a.accounts.book.years
    if begun and begun < start.period.first and years and years[0] < start and not told:
        return (
            f"Your letting began before {start}, the first year worked out here. If a loss was left then, tell it: "
            f"`loss £… brought into {start}`."
        )
    return ""


def _rounded(a: About) -> str:
    if all(box.pence == box.pounds * 100 for box in a.pages.boxes.values()):
        return ""
    return "Each box is rounded once, income down and costs up; boxes 38 to 43 are added up from the rounded boxes."


def _days(a: About) -> str:
    """Where other days than those from 6 April to 5 April stand for the year."""
    days, year = a.accounts.period(a.owner, a.year), a.year
    if days == year.period:
        return ""
    begun = a.accounts.begun(a.owner)
    if begun and (days.first <= begun < year.period.first or days.last < begun <= year.period.last):
        why = f"your letting began on {day_words(begun)}, after the day on which accounts could have ended"
        return f"The days from {days} stand for {year}: {why} (ITTOIA 2005 s. 275C; PIM1015)."
    return (
        f"The days from {days} stand for {year}, as your accounts end on 31 March and no day counts twice (ITTOIA 2005 "
        "ss. 275A, 275B; PIM1015)."
    )


def _cash_limit(a: About) -> str:
    if a.way != "cash":
        return ""
    income, held = _receipts(a), law.figure("property.cash_basis_limit", a.year)
    days = _let_for(a)
    limit = held.pence * days // a.year.period.days
    if income <= limit:
        return ""
    part = f" for the {days} days of the year on which you let" if days < a.year.period.days else ""
    return (
        f"Not to be sent like this: receipts of {pounds(income)} are above {pounds(limit)}, the most for the cash basis"
        f"{part} ({held.citation}), so the return must be made by what was owed. Add `accounting accruals from "
        f"{a.year}` under your landlord heading."
    )


def _let_for(a: About) -> int:
    """How many days of the year the owner's letting went on, from its beginning to the day the last house went, as far
    as that is told."""
    days = a.accounts.period(a.owner, a.year)
    last = stopped(a.accounts, a.owner, a.year)
    last = last if last and last in days else days.last
    return (last - min(max(a.accounts.begun(a.owner) or days.first, days.first), last)).days + 1


def _spouse(a: About) -> str:
    name = spouse_on_accruals(a.accounts.book, a.owner, a.year)
    if not name or a.accounts.book.landlords[a.owner].basis(a.year) == "accruals":
        return ""
    return (
        f"You are taxed half and half with {a.accounts.book.landlords[name].full}, who accounts by what is owed: the "
        "cash basis is then closed to you too, so these pages are made by what was owed (ITTOIA 2005 s. 271A, "
        f"condition C). Add `accounting accruals from {a.year}` under your landlord heading as well."
    )


def _shared(a: About) -> str:
    return income_shared(a.accounts, a.owner, a.year)


def _accruals(a: About) -> str:
    if a.way != "accruals":
        return ""
    return (
        "Worked out by what was owed: the rent your book tells for each let by the days it is for, whatever came of "
        "it; a cost told `for` certain days by those days; all else on the day it was owed."
    )


def _basis_changed(a: About) -> str:
    if not changed(a.accounts, a.owner, a.year):
        return ""
    if not adjustments(a.accounts, a.owner, a.year):
        return (
            f"The way of accounting changed after {a.year.before}. Your book holds no rent and no cost of the years "
            "before that would count twice or never now, so nothing is adjusted for; what was owed then and is not in "
            "your book would have to be (PIM1096; BIM72065-72071)."
        )
    said = (
        f"The way of accounting changed after {a.year.before}. What would count twice or never is adjusted for, as far "
        "as your book goes back (PIM1096; BIM72065-72071); `year-end --lines` shows the sums."
    )
    if a.way == "accruals":
        said += (
            " Out of the cash basis a sum that adds to the profit is spread over years, under other income; one that "
            "takes from it stands under other expenses at once."
        )
    return said


def _finance(a: About) -> str:
    if "44" not in a.pages.boxes:
        return ""
    return "Box 44 is not deducted from the rents: it earns a tax reduction at the basic rate."


def _ceiling(a: About) -> str:
    if a.pages.how is not How.COSTS:
        return ""
    return ceiling_note(a.accounts, a.owner, a.year)


def _finance_brought(a: About) -> str:
    came, before = a.came.finance, a.year.before
    told = f"`unused finance costs £… brought into {a.year}`"
    if came.pence and a.pages.how is How.COSTS:
        return f"Box 45: finance costs of {pounds(came.pence)} that earned no reduction yet, {came.source}."
    if came.untold:
        years = " and ".join(f"`other income £… in {year}`" for year in came.untold)
        return (
            f"Box 45: finance costs that earned no reduction up to {before} belong there. How much that is depends on "
            f"what else you earned: add {years}, or {told}."
        )
    if came.chosen:
        return (
            f"Box 45: what became of finance costs from before {came.chosen}, when the property allowance was claimed, "
            f"is not worked out here. If any are left, add {told}."
        )
    return ""


def _passed_on(a: About) -> str:
    return passed_in_year(a.accounts.book, a.owner, a.year)


def _lodgers(a: About) -> str:
    return rent_a_room_told(a.accounts, a.owner, a.year, a.sums)


def _digital(a: About) -> str:
    return digital_duty(a.accounts, a.owner, a.year)


def _receipts(a: About) -> int:
    """What the owner's lets brought in before any cost, in pence."""
    return sum(b.pence for n, b in a.pages.boxes.items() if n in ("20", "22", "23"))


def _recovered(a: About) -> str:
    rows = a.accounts.of_owner(a.owner, a.year, a.way)
    if not (pence := sum(pence for row, _, pence in rows if a.accounts.recovered(row))):
        return ""
    return (
        f"{pounds(pence)} paid to you for damage stands in box 20, and the repair whole among the costs of its "
        "year: what is recovered for a cost that comes off is a receipt (ITTOIA 2005 s. 106). The profit is the same "
        "as if it made the repair cheaper; the limits that look at receipts count it."
    )


def _rents_missing(a: About) -> str:
    """Where less rent came in of a house in the year than fell due; by what is owed the rent counts anyway."""
    if a.way != "cash":
        return ""
    mine = {house: fractions(a.accounts, a.owner, house, a.year) for house in a.accounts.book.properties}
    sums = {house: due_and_came(a.accounts.book, house, a.year, a.on) for house, parts in mine.items() if any(parts)}
    short = {house: (due, came) for house, (due, came) in sums.items() if came < due}
    if not short:
        return ""
    each = ", ".join(f"{pounds(came)} of {pounds(due)} at {house}" for house, (due, came) in short.items())
    whole = " (for all its owners)" if any(part < 1 for house in short for part in mine[house]) else ""
    return (
        f"In {a.year} less rent came in than fell due: {each}{whole}. By payment only what came in counts: if more "
        "came, write it down, and the boxes follow. `rents` shows what is owed."
    )


def _interest_missing(a: About) -> str:
    """Loans of the owner's houses of which far less is told as paid than their interest comes to."""
    houses = [house for house in a.accounts.book.properties if any(fractions(a.accounts, a.owner, house, a.year))]
    each = [
        f"{pounds(one.paid)} was paid on {one.loan.name}, and its interest comes to about {pounds(one.interest)}"
        for house in houses
        for one in interest_short(a.accounts, house, a.year)
    ]
    if not each:
        return ""
    return (
        f"In {a.year}, as your book tells, {'; '.join(each)}. Payments that are not written down earn no relief: "
        "compare with the lender's statement of the year."
    )


def _unpaid(a: About) -> str:
    """Bills of the owner's houses, by their share, that were not paid when the year ended."""
    if a.way != "cash":
        return ""
    last, total = a.year.period.last, 0
    for row in a.accounts.rows:
        if row.way != "out" or row.verdict < 0 or row.kind is Kind.IGNORED or row.verb in ("billed", "charged"):
            continue  # a council's bill is often changed and its instalments are told by themselves
        if row.owed is None or row.owed > last or row.paid is not None and row.paid <= last:
            continue
        total += a.accounts.parts(row, row.owed).get(a.owner, 0)
    if not total:
        return ""
    return (
        f"Your book holds bills of which {pounds(total)} was not paid by 5 April; what you pay later counts in the "
        "year you pay it."
    )


def _council_bills(a: About) -> str:
    """By what is owed: council tax bills of the year that were not paid in full, for the council may have cut them."""
    if a.way != "accruals":
        return ""
    book, days, open_ = a.accounts.book, a.accounts.period(a.owner, a.year), open_bills(a.accounts.rows, date.max)
    bills = {e.source for e in book.entries if e.verb == "billed" and e.day.first in days and is_council_tax(book, e)}
    left = {key: pence for key, pence in open_.items() if key[0] in bills}
    left = {key: pence for key, pence in left.items() if any(fractions(a.accounts, a.owner, key[1], a.year))}
    if not left:
        return ""
    each = " and ".join(f"{pounds(pence)} of the bill of {house} ({source})" for (source, house), pence in left.items())
    return (
        f"Council tax counts as billed, though your book tells no payment of {each}. If the council has cut that bill, "
        "write the new one on the day it came, with its days (`billed council tax £… for … to …`): it takes the place "
        "of the old."
    )


def _agent_holds(a: About) -> str:
    """Rent counts when the agent has it, which may be before the agent pays it over."""
    last = a.year.period.last
    for entry in a.accounts.book.entries:
        if entry.verb == "banked" and last < entry.day.first <= last + timedelta(days=30):
            houses = {home.house for line in (entry, *entry.lines) for home in line.homes}
            owners = {name for house in houses for name, _ in a.accounts.shares(house, entry.day.first)}
            if a.way == "cash" and a.owner in owners:
                return (
                    f"The statement of {entry.day} ({entry.source}) came after 5 April. Rent your agent had before "
                    "then counts in this year; if so, give the statement that day."
                )
    return ""


def _not_let(a: About) -> str:
    houses = [h for h in a.accounts.book.properties if any(fractions(a.accounts, a.owner, h, a.year))]
    if not a.pages.boxes or any(let_in(a.accounts, h, a.year) for h in houses) or stopped(a.accounts, a.owner, a.year):
        return ""
    return (
        "None of the houses was let in this year. Costs between lets count while you mean to let again; if letting has "
        "stopped for good, later costs do not, and box 2 is ticked (PIM2510)."
    )


def _stopped(a: About) -> str:
    if not stopped(a.accounts, a.owner, a.year):
        return ""
    left = brought(a.accounts, a.owner, a.year.next)
    return stopped_told(a.accounts, a.owner, a.year, left.loss.pence, left.finance.pence)


def _no_let(a: About) -> str:
    if a.pages.how is not How.COSTS:
        return ""  # the allowance stands in place of all costs
    return no_let_told(a.accounts, a.owner, a.year, a.way)


def _allowance_might(a: About) -> str:
    """Where the property income allowance covers the receipts, or is more than the expenses."""
    landlord = a.accounts.book.landlords[a.owner]
    if a.year in landlord.allowance_years and a.pages.how is How.PARTIAL:
        return ""
    if TaxYear.of(law.began("property.income_allowance")) > a.year:
        return ""
    kinds = {box.number: box.kind for box in law.pages(a.year)}
    sums: dict[str, int] = {}
    for number, box in a.pages.boxes.items():
        kind = str(kinds.get(number, ""))
        sums[kind] = sums.get(kind, 0) + box.pence
    income, costs = sums.get("income", 0), sums.get("expense", 0) + sums.get("relief", 0)
    allowance = law.figure("property.income_allowance", a.year).pence
    bars = (
        "It stands in place of every expense, of the finance-cost reduction and of what you spent before the first "
        "letting, and makes no loss; there is one a person for all lets, and none where a tenant is your own or your "
        "spouse's employer, or a firm or company of yours (ITTOIA 2005 ss. 783BD-783BP)."
    )
    if 0 < income <= allowance:
        return _small_receipts(a, income, allowance)
    if income <= allowance or costs >= allowance or a.year in landlord.other_income:
        return ""  # with other income told, what the letting means in tax compares both to the penny
    gain = (
        f"Your expenses of {pounds(costs)}, what is open not counted, are less than the property income allowance of "
        f"{pounds(allowance)}:"
    )
    finance = a.pages.boxes["44"].pence if "44" in a.pages.boxes else 0
    less = f"{gain} with it the profit would be {pounds(allowance - costs)} smaller."
    if finance:
        rate = law.figure("finance.reduction_rate", a.year).value * 100
        less += f" But the reduction of {rate:.0f}% of {pounds(finance)} would be gone: compare what each saves."
    return f"{less} To take it, add `claims property allowance in {a.year}` under your landlord heading. {bars}"


def _small_receipts(a: About, income: int, allowance: int) -> str:
    """Receipts that the allowance covers: they are free by themselves, unless the book tells that it was declined."""
    by = day_words(law.due("deadlines.allowance_election", a.year).day)
    small = (
        f"Your receipts of {pounds(income)} are not above the property income allowance of {pounds(allowance)} "
        "(ITTOIA 2005 ss. 783BD-783BP)"
    )
    words = f"`declines property allowance in {a.year}`"
    if a.pages.how is How.COSTS:
        return (
            f"{small}, and your book declines it, so the real costs count. Unless it is closed to you, that choice "
            f"must reach the tax office by {by}; without it none of the receipts is taxed, and no loss is made."
        )
    return (
        f"{small}, so by itself nothing of them is taxed. No cost counts then, no loss is made, and the finance costs "
        f"of the year earn no reduction, now or later.{_declined(a)} If you would rather have the real costs, choose "
        f"so by {by} and add {words} under your landlord heading. Add it too where the allowance is closed to you: "
        "where any rent comes from your own or your spouse's employer, or from a firm or company of yours or of "
        "someone close to you."
    )


def _declined(a: About) -> str:
    """What the real costs would bring in place of an allowance that holds by itself: a loss, and finance costs."""
    landlord, came = a.accounts.book.landlords[a.owner], a.came
    real = pages(landlord, a.year, a.sums, came.loss.pence, came.finance.pence, other_choice=True).boxes
    brings = [f"a loss of {pounds(real['41'].pence)} to carry forward"] if "41" in real else []
    brings += [f"finance costs of {pounds(real['44'].pence)} for the reduction, now or later"] if "44" in real else []
    if brings:
        return f" The real costs would bring {' and '.join(brings)}."
    return f" By the real costs the profit would be {pounds(real['38'].pence)}." if "38" in real else ""


NOTES: tuple[Callable[[About], str], ...] = (
    _loss_brought, _at_odds, _older_losses, _days, _rounded, _cash_limit, _spouse, _shared, _accruals,
    _basis_changed, _finance, _ceiling, _finance_brought, _lodgers, _digital, _rents_silent, _rents_missing,
    _interest_missing, _recovered, _passed_on, _unpaid, _council_bills, _agent_holds, _not_let, _stopped, _no_let,
    _allowance_might,
)  # fmt: skip


def notes(about: About) -> tuple[str, ...]:
    """All notes that have something to say, in order."""
    return (*about.pages.notes, *(said for note in NOTES if (said := note(about))))
