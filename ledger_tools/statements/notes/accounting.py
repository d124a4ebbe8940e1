"""Notes on the days and the way of accounting of an owner's year, and on whose the income is. Knows no layout."""

from __future__ import annotations

from ... import law
from ...days import TaxYear, day_words
from ...money import pounds
from ...taxes.income.basis import spouse_on_accruals
from ...taxes.income.owners import halved_with
from ..accounts import Accounts
from ..basis_change import adjustments, changed
from ..owner_pages import came_in, totals, traces
from ..passed_told import death_told
from ..shared_income import income_shared
from ..stopped import stopped
from .about import About


def _days(a: About) -> str:
    """Where other days than those from 6 April to 5 April stand for the year."""
    days, year = a.days, a.year
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
    """Receipts above the most for the cash basis: the owner's own, or those of a spouse whose basis is theirs too."""
    if a.way != "cash":
        return ""
    over, held = _over(a.accounts, a.owner, a.year), law.figure("property.cash_basis_limit", a.year)
    if over:
        income, limit, days = over
        part = f" for the {days} days of the year on which you let" if days < a.year.period.days else ""
        return (
            f"Not to be sent like this: receipts of {pounds(income)} are above {pounds(limit)}, the most for the cash "
            f"basis{part} ({held.citation}), so the return must be made by what was owed. Add `accounting accruals "
            f"from {a.year}` under your landlord heading."
        )
    spouse = halved_with(a.accounts.book, a.owner, a.year)
    if not spouse or not _over(a.accounts, spouse, a.year):
        return ""
    return (
        f"Not to be sent like this: you are taxed half and half with {a.accounts.book.landlords[spouse].full}, whose "
        "receipts are above the most for the cash basis and whose return must be made by what was owed. The cash basis "
        f"is then closed to you too (ITTOIA 2005 s. 271A, condition C): add `accounting accruals from {a.year}` under "
        "both landlord headings."
    )


def _over(accounts: Accounts, owner: str, year: TaxYear) -> tuple[int, int, int] | None:
    """An owner's receipts of a year by payment, where they are above the limit; the limit, in pence, and the days of
    the year on which the letting went on, to which it is cut."""
    income = came_in(totals(traces(accounts, owner, year)), year)
    days = _let_for(accounts, owner, year)
    limit = law.figure("property.cash_basis_limit", year).pence * days // year.period.days
    return (income, limit, days) if income > limit else None


def _let_for(accounts: Accounts, owner: str, year: TaxYear) -> int:
    """How many days of the year the owner's letting went on, from its beginning to the day the last house went, as far
    as that is told."""
    days = accounts.period(owner, year)
    last = stopped(accounts, owner, year)
    last = last if last and last in days else days.last
    return (last - min(max(accounts.begun(owner) or days.first, days.first), last)).days + 1


def _spouse(a: About) -> str:
    name = spouse_on_accruals(a.accounts.book, a.owner, a.year)
    if not name or a.accounts.book.landlords[a.owner].basis(a.year) == "accruals":
        return ""
    return (
        f"You are taxed half and half with {a.accounts.book.landlords[name].full}, who accounts by what is owed: the "
        "cash basis is then closed to you too, so these pages are made by what was owed (ITTOIA 2005 s. 271A, "
        f"condition C). Add `accounting accruals from {a.year}` under your landlord heading as well."
    )


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


def _shared(a: About) -> str:
    return income_shared(a.accounts, a.owner, a.year)


def _death(a: About) -> str:
    return death_told(a.accounts.book, a.owner, a.year)


NOTES = (_cash_limit, _spouse, _days, _accruals, _basis_changed, _shared, _death)
