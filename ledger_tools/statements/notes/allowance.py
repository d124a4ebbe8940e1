"""The note on the property income allowance in an owner's year: what it would change, what holds by itself.

Knows no layout.
"""

from __future__ import annotations

from ... import law
from ...days import TaxYear, day_words
from ...money import pounds
from ...taxes.income.allowance import How
from ..owner_pages import pages
from .about import About


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


NOTES = (_allowance_might,)
