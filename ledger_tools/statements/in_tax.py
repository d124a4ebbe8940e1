"""What an owner's letting means in income tax: an estimate for those whose other income the book tells.

Works from the whole pounds of the boxes, as the tax office does. Knows no layout; what the figures rest on and what
they leave out is said beside them.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from .. import law
from ..book.world import Landlord
from ..days import TaxYear, day_words
from ..money import pounds
from ..record import record
from ..taxes.income.allowance import Choice, How, limit
from ..taxes.income.boxes import Pages
from ..taxes.income.estimate import Estimate, estimate, unchecked
from ..taxes.income.finance_costs import Cap, rate
from ..taxes.income.payments import Payment, on_account
from .brought import Brought
from .owner_pages import choice, pages, typed

ELSEWHERE = "england"  # the rates taken where the book does not say where an owner lives; a note says so

Sums = Mapping[str, int]


@record
class Worth:
    """What an open item is worth: the difference both answers make, in pence.

    tax: less tax of the year if it comes off the rents; more of it if it is income. finance_on, loss_on: how much more
    (below nil: less) goes on to the next year.
    """

    tax: int
    finance_on: int
    loss_on: int


@record
class ToPay:
    """What is left to pay for the year, before what was paid on account for it, if the tax on the other income comes
    the way `how` says: "at source", "by the return", or "" where there is none. Then what is asked towards the next."""

    how: str
    last: Payment
    on_account: tuple[Payment, ...]


@record
class InTax:
    """One owner's year in tax. `estimate` is None where it cannot be made; `tell` holds the words to add then."""

    year: TaxYear
    nation: str  # as the book tells, "" where it does not
    rate: Decimal  # of the reduction, a share of one
    estimate: Estimate | None = None
    to_pay: tuple[ToPay, ...] = ()
    notes: tuple[str, ...] = ()
    tell: str = ""


def of_pages(landlord: Landlord, year: TaxYear, found: Pages) -> Estimate | None:
    """The estimate for some pages of an owner; None where the other income is not told or no rates are held."""
    other = landlord.other_income.get(year)
    if other is None:
        return None
    given = (other, typed(found, "40"), typed(found, "44"), typed(found, "45"))
    try:
        return estimate(*given, year, landlord.nation(year) or ELSEWHERE)
    except law.NoFigure:
        return None


def worth(
    landlord: Landlord, year: TaxYear, sums: Sums, came: Brought, counted: Sums, otherwise: Sums, sign: int
) -> Worth | None:
    """What an item would change if it counted: pence by category, as it would count and otherwise, on top of the sums.

    `sign` is 1 for a cost, -1 for income. None where there is no estimate.
    """
    other, found = (
        pages(landlord, year, sums, came.loss.pence, came.finance.pence, extra) for extra in (counted, otherwise)
    )
    now, then = of_pages(landlord, year, found), of_pages(landlord, year, other)
    if now is None or then is None:
        return None
    finance_on = then.relief.left - now.relief.left
    return Worth(sign * (now.tax - then.tax), finance_on, (other.loss_on - found.loss_on) * 100)


def in_tax(
    landlord: Landlord, year: TaxYear, sums: Sums, found: Pages, came: Brought, last: bool = False
) -> InTax:
    """What an owner's pages mean in tax; they were made of the sums (pence by category) and what came in. last: the
    owner died in the year, so nothing is asked towards the next."""
    nation = landlord.nation(year)
    made = of_pages(landlord, year, found)
    if made is None:
        if year in landlord.other_income:
            where = "Scotland" if nation == "scotland" else "this year"
            return InTax(year, nation, rate(year), notes=(f"No rates of income tax are held for {where} in {year}.",))
        return InTax(year, nation, rate(year), tell=f"other income £… in {year}")
    taken = found.boxes["21"].pence if "21" in found.boxes else 0
    told = (
        _taken_off(taken), _cap(made), _above_tax(made), _unknown(came), _instead(landlord, year, sums, made, came),
        _nation(landlord, nation, year), _one_kind(), _rates(year, nation),
    )  # fmt: skip
    return InTax(year, nation, rate(year), made, _to_pay(made, taken, year, last), tuple(note for note in told if note))


def _to_pay(made: Estimate, taken: int, year: TaxYear, last: bool) -> tuple[ToPay, ...]:
    """What is left to pay after the pence taken off the rents; two answers where the book cannot tell how the tax on
    the other income is paid. Towards the next year nothing is asked of one who died (from memory)."""
    ways = (("at source", made.without), ("by the return", 0)) if made.without else (("", 0),)
    day = law.due("deadlines.return_online", year).day
    return tuple(
        ToPay(
            how, Payment(day, made.tax - source - taken),
            () if last else on_account(made.tax, source + taken, year.next),
        )
        for how, source in ways
    )  # fmt: skip


# ── the notes ────────────────────────────────────────────────────────────────────────────────────────────────────


def _taken_off(taken: int) -> str:
    if not taken:
        return ""
    return (
        f"Tax of {pounds(taken)} was taken off the rents (box 21): it is counted as paid. The personal allowance is "
        "counted too, which not everybody has who lives abroad (ITA 2007 s. 56, from memory)."
    )


def _cap(made: Estimate) -> str:
    r = made.relief
    if not r.costs:
        return ""
    lowest = {
        Cap.COSTS: "the finance costs",
        Cap.PROFITS: "the profit",
        Cap.INCOME: "the income above the personal allowance",
    }[r.cap]
    return (
        f"The reduction is worked out on {lowest}, the lowest of three: finance costs with those brought in "
        f"{pounds(r.costs)}, profit {pounds(r.profits)}, income above the personal allowance {pounds(r.income)} "
        "(ITTOIA 2005 s. 274AA)."
    )


def _above_tax(made: Estimate) -> str:
    lost = made.relief.amount - made.reduction
    return f"The reduction would be {pounds(lost)} more than the tax; that part is lost." if lost else ""


def _unknown(came: Brought) -> str:
    if came.finance.known:
        return ""
    return "Finance costs brought in are not known (see box 45 above) and are left out here."


def _instead(landlord: Landlord, year: TaxYear, sums: Sums, made: Estimate, came: Brought) -> str:
    """Whether the other choice about the property allowance would cost less tax this year."""
    if not limit(year):
        return ""
    other = pages(landlord, year, sums, came.loss.pence, came.finance.pence, other_choice=True)
    then = of_pages(landlord, year, other)
    if then is None or then.tax >= made.tax:
        return ""
    less, by = pounds(made.tax - then.tax), day_words(law.due("deadlines.allowance_election", year).day)
    told = choice(landlord, year)
    if other.how is How.COSTS:  # the allowance stands in the boxes
        said = f"With the real costs in place of the property allowance the tax would be {less} less."
        if told is Choice.ALLOWANCE:
            return said
        return f"{said} You may choose them up to {by}: add `declines property allowance in {year}`."
    bars = (
        "but not where any rent comes from your or your spouse's employer, or from a firm or company of yours or of "
        "someone close to you; this year's costs then earn nothing later either."
    )
    if told is Choice.COSTS:
        return (
            f"If the property allowance of {pounds(limit(year))} were not declined the tax would be {less} less, {bars}"
        )
    return (
        f"With the property allowance of {pounds(limit(year))} in place of all costs and of the reduction the tax "
        f"would be {less} less. You may choose it up to {by}, {bars} If you do, add `claims property allowance in "
        f"{year}`."
    )


def _nation(landlord: Landlord, nation: str, year: TaxYear) -> str:
    if nation:
        return ""
    return (
        "The rates are those of England, Wales and Northern Ireland. If you live in Scotland, add `lives in scotland "
        f"from {year}` (or the year you moved) under landlord {landlord.name}; with `lives in england` this line goes."
    )


def _one_kind() -> str:
    return (
        "Your other income is taken to be wages, a pension or a trade. Savings, dividends, gifts to charity, pension "
        "payments, and what other reliefs you have are not in it, and change it."
    )


def _rates(year: TaxYear, nation: str) -> str:
    why = unchecked(year, nation or ELSEWHERE)
    return f"The rates of {year}: {why}." if why else ""
