"""Notes on what an owner's book may lack for a year: rents, interest, bills paid later. Knows no layout."""

from __future__ import annotations

from datetime import date, timedelta

from ...book.arrears import rent_account
from ...book.council_bills import is_council_tax
from ...book.rents import first_lines, receipts, written_off
from ...book.silent_lets import Silent, silent_lets
from ...days import day_words
from ...ledger.open_bills import open_bills
from ...money import pounds
from ...taxes.income.allowance import How
from ...verdicts.verdict import Kind
from ..interest_short import interest_short
from ..let_in import let_in
from ..no_let import no_let_told
from ..rents import due_and_came
from ..shared_income import fractions
from ..stopped import stopped
from .about import About


def silent(a: About) -> list[Silent]:
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
        for one in silent(a)
        if one.year == a.year and not due_and_came(a.accounts.book, one.let.house, a.days, a.on)[0]
    ]
    if not each:
        return ""
    return (
        f"Of {a.year} your book has costs and no rent at all of {' and '.join(each)}. If rent came, the income here is "
        "too low, and a loss too high; write it down, and the boxes follow."
    )


def _after_the_book(a: About) -> str:
    """By what is owed: a year after the last line of the book, whose rents are not worked out."""
    years = a.accounts.book.years
    if a.way != "accruals" or not years or a.year <= years[-1] or not a.pages.boxes:
        return ""
    return (
        f"Your book ends in {years[-1]}, so no rent of {a.year} is worked out, and what stands above was told before "
        "for days of it. It is no result of the year: write the year down first."
    )


def _rents_missing(a: About) -> str:
    """Where less rent came in of a house in the year than fell due; by what is owed the rent counts anyway."""
    if a.way != "cash":
        return ""
    mine = {house: fractions(a.accounts, a.owner, house, a.year) for house in a.accounts.book.properties}
    sums = {house: due_and_came(a.accounts.book, house, a.days, a.on) for house, parts in mine.items() if any(parts)}
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
    last, total = a.days.last, 0
    for row in a.accounts.rows:
        if row.way != "out" or row.verdict < 0 or row.kind is Kind.IGNORED or row.verb in ("billed", "charged"):
            continue  # a council's bill is often changed and its instalments are told by themselves
        if row.owed is None or row.owed > last or row.paid is not None and row.paid <= last:
            continue
        total += a.accounts.parts(row, row.owed).get(a.owner, 0)
    if not total:
        return ""
    return (
        f"Your book holds bills of which {pounds(total)} was not paid by {day_words(last)}; what you pay later counts "
        "in the year you pay it."
    )


def _lost_too_much(a: About) -> str:
    """By what is owed: more of a let's rent given up as lost than was owed, for only what counted can come off."""
    if a.way != "accruals":
        return ""
    book, each = a.accounts.book, []
    came, lost, noted = receipts(book), written_off(book), first_lines(book)
    for name, gone in lost.items():
        let, days = book.tenancies[name], [receipt.day for receipt in gone if receipt.day in a.days]
        if not days or not any(fractions(a.accounts, a.owner, let.house, a.year)):
            continue
        rent = rent_account(book, let, came.get(name, ()), gone, max(days), noted.get(name))
        if rent and (over := min(rent.ahead, rent.total_lost)) > 0:
            each.append(f"{pounds(over)} more of the rent of {name} at {let.house}")
    if not each:
        return ""
    return (
        f"Not to be sent like this: your book gives up {' and '.join(each)} as lost than was owed (for all owners). "
        "Only rent that counted when it fell due can come off again (ITTOIA 2005 s. 35 through s. 272): put the sum of "
        "`wrote off` right; `rents` shows what was owed."
    )


def _council_bills(a: About) -> str:
    """By what is owed: council tax bills of the year that were not paid in full, for the council may have cut them."""
    if a.way != "accruals":
        return ""
    book, days, open_ = a.accounts.book, a.days, open_bills(a.accounts.rows, date.max)
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
    if a.way != "cash":
        return ""
    last, late = a.days.last, []
    for entry in a.accounts.book.entries:
        if entry.verb == "banked" and last < entry.day.first <= last + timedelta(days=30):
            houses = {home.house for line in (entry, *entry.lines) for home in line.homes}
            if a.owner in {name for house in houses for name, _ in a.accounts.shares(house, entry.day.first)}:
                late.append(f"of {entry.day} ({entry.source})")
    if not late:
        return ""
    many = len(late) > 1
    each = f"{', '.join(late[:-1])} and {late[-1]}" if many else late[0]
    return (
        f"The statement{'s' * many} {each} came after {day_words(last)}. Rent your agent had before then "
        f"counts in this year; if so, give {'those statements' if many else 'the statement'} that day."
    )


def _not_let(a: About) -> str:
    houses = [h for h in a.accounts.book.properties if any(fractions(a.accounts, a.owner, h, a.year))]
    if not a.pages.boxes or any(let_in(a.accounts, h, a.year) for h in houses) or stopped(a.accounts, a.owner, a.year):
        return ""
    return (
        "None of the houses was let in this year. Costs between lets count while you mean to let again; if letting has "
        "stopped for good, later costs do not, and box 2 is ticked (PIM2510)."
    )


def _no_let(a: About) -> str:
    if a.pages.how is not How.COSTS:
        return ""  # the allowance stands in place of all costs
    return no_let_told(a.accounts, a.owner, a.year, a.way)


NOTES = (
    _after_the_book, _rents_silent, _rents_missing, _interest_missing, _agent_holds, _unpaid, _lost_too_much,
    _council_bills, _not_let, _no_let,
)  # fmt: skip
