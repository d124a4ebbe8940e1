"""Under the cash basis: whether an owner's loans are more than what the houses were worth when first let, and what of
the loan costs counts then. Source: ITTOIA 2005 ss. 307C-307D. Knows no layout.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from datetime import date
from fractions import Fraction

from .. import law
from ..days import TaxYear, day_words
from ..ledger.rows import Row
from ..money import pounds, round_half_up
from ..record import record
from ..taxes.income.basis import basis
from ..taxes.income.finance_costs import under_ceiling
from ..verdicts.verdict import Kind
from .accounts import Accounts, nets_capital, tax_sign
from .figures import Trace

COSTS = frozenset({"finance_residential", "finance_other"})


@record
class Ceiling:
    """One owner's year in pence: the loan costs by category, the part of the loans they belong to, and the value of the
    houses; what is cut from each category.

    untold: loans of which nobody tells what is owed, or whether the sale of the house paid them off. unvalued: houses
    whose value is not told; priced: those for which the price was taken.
    """

    costs: dict[str, int]
    loans: int
    value: int
    cut: dict[str, int]
    untold: tuple[str, ...] = ()
    unvalued: tuple[str, ...] = ()
    priced: tuple[str, ...] = ()


def ceiling(accounts: Accounts, owner: str, year: TaxYear) -> Ceiling | None:
    """How the ceiling bears on an owner's year; None where there is none: accruals, or no loan costs."""
    if basis(accounts.book, owner, year) != "cash" or year.period.first < law.began("finance.loan_ceiling"):
        return None
    if COSTS.isdisjoint(accounts.sums(owner, year, "cash")):
        return None
    costs: dict[str, int] = defaultdict(int)
    mine: dict[str, None] = {}  # the loans they are costs of
    for row, _, pence in accounts.of_owner(owner, year, "cash"):
        if row.category in COSTS and (sign := tax_sign(row)):
            costs[row.category] += sign * pence
            mine.setdefault(_loan(accounts, row) or "")
    if sum(costs.values()) <= 0:
        return None
    loans, untold = _loans(accounts, owner, year, tuple(mine))
    value, unvalued, priced = _value(accounts, owner, year)
    owed, worth = round_half_up(loans), round_half_up(value)
    sure = not untold and not unvalued
    cut = {slug: pence - under_ceiling(pence, worth, owed, year) for slug, pence in costs.items()} if sure else {}
    return Ceiling(dict(costs), owed, worth, cut, untold, unvalued, priced)


def cuts(accounts: Accounts, owner: str, year: TaxYear) -> dict[str, list[Trace]]:
    """What the ceiling takes off each category of a year, as lines of a figure."""
    found = ceiling(accounts, owner, year)
    if found is None:
        return {}
    words, place = "ceiling on loan costs (ITTOIA 2005 s. 307D)", accounts.book.landlords[owner].place.short
    return {slug: [Trace(place, year.period.last, words, -pence, -1)] for slug, pence in found.cut.items() if pence}


def ceiling_note(accounts: Accounts, owner: str, year: TaxYear) -> str:
    """What to say of the ceiling under the pages: what was cut and why, or what the book would have to tell."""
    found = ceiling(accounts, owner, year)
    if found is None:
        return ""
    day, rule = day_words(year.period.last), "(ITTOIA 2005 ss. 307C-307D)"
    if found.untold:
        sold = [name for name in found.untold if _security_sold(accounts, name, year.period.last)]
        if sold:
            names = " and ".join(sold)
            return (
                f"Was {names} paid off when the house it was on was sold? Your book does not tell. If so, write "
                f"`repaid loan £… to {sold[0]}` on that day; if it went on, `owed £… on {day}` under its `loan`: by "
                "payment, loan costs are cut where the loans are more than what the houses that are left were worth "
                f"when first let {rule}. Nothing is cut here until then."
            )
        return (
            "Not looked into: by payment, loan costs count in full only while the loans are not more than what the "
            f"houses were worth when first let, with improvements since {rule}. Your book does not tell what was owed "
            f"on {day}: add `owed £… on {day}` under its `loan`, or see for yourself that it is not more."
        )
    if found.loans <= found.value:
        return ""
    what = f"Your loans for the letting came to {pounds(found.loans)} on {day}, by your share"
    if found.unvalued:
        houses = " and ".join(found.unvalued)
        return (
            f"{what}. By payment, loan costs are cut where that is more than what the houses were worth when first "
            f"let, with improvements since {rule}, and of {houses} your book tells no value. Add `valued … at £…` "
            "under it with the day of its first letting; nothing is cut here until then."
        )
    taken = ""
    if found.priced:
        houses = " and ".join(found.priced)
        taken = (
            f" For {houses} the price stands for that value; if it was worth another sum on the day of its first "
            "letting, add `valued … at £…` with that day."
        )
    return (
        f"{what}, more than the {pounds(found.value)} the houses were worth when first let, with improvements since: "
        f"by payment only that share of the loan costs counts, so {pounds(sum(found.cut.values()))} of "
        f"{pounds(sum(found.costs.values()))} is cut {rule}. By what was owed nothing would be cut.{taken}"
    )


def _loan(accounts: Accounts, row: Row) -> str | None:
    """The name of the loan a row is a cost of; None for any other row."""
    if row.verdict < 0:
        return None
    item, history = accounts.verdicts[row.verdict].item, accounts.history
    if history.known(item.line.thing, item.line.verb).kind != "finance" and row.category not in COSTS:
        return None
    return history.loans.of(item.line if item.line.who else item.head)


def _loans(accounts: Accounts, owner: str, year: TaxYear, names: tuple[str, ...]) -> tuple[Fraction, tuple[str, ...]]:
    """What of some loans is for the letting at a year's end, by the owner's share that day, as the houses' value is.

    Of each loan the part of its year's costs that can come off, whoever paid them (s. 307D(3)-(4)). A share that
    changed within the year changes the costs, not what of the loan stands on the last day. Then the loans untold.
    """
    counted: dict[str, Fraction] = defaultdict(Fraction)
    whole: dict[str, int] = defaultdict(int)
    for row, _ in accounts.in_period("cash", accounts.period(owner, year)):
        if (name := _loan(accounts, row)) not in names:
            continue
        if row.way == "out" and row.kind is not Kind.IGNORED:
            whole[name] += row.pence
        if row.category in COSTS:
            part = dict(accounts.shares(row.house, year.period.last)).get(owner, Fraction(0))
            counted[name] += tax_sign(row) * row.pence * part
    total, untold = Fraction(0), []
    for name in names:
        stood = accounts.history.loans.stood(name, year.period.last)
        if stood is None or stood.total and _security_sold(accounts, name, year.period.last):
            untold.append(name)
        elif whole[name] > 0:
            total += stood.total * max(counted[name], Fraction(0)) / whole[name]
    return total, tuple(untold)


def _security_sold(accounts: Accounts, name: str, last: date) -> bool:
    """Whether the house a loan is on was sold by a day, and the book does not tell what was owed since."""
    loan = accounts.book.loans.get(name)
    sold = accounts.book.properties[loan.house].sold if loan and loan.house in accounts.book.properties else None
    return bool(loan and sold and sold.day <= last and not any(sold.day <= day <= last for day, _ in loan.owed))


def _value(accounts: Accounts, owner: str, year: TaxYear) -> tuple[Fraction, tuple[str, ...], tuple[str, ...]]:
    """What the houses were worth when first let, with capital spending since, by the owner's share at the year's end.

    Then the houses without a value, and those with a price instead. Houses sold or never let do not count.
    """
    last, total = year.period.last, Fraction(0)
    unvalued, priced = [], []
    for name, house in accounts.book.properties.items():
        first = accounts.history.lets.first_let(name)
        part = dict(accounts.shares(name, last)).get(owner, Fraction(0))
        if not part or first is None or first > last or house.sold and house.sold.day <= last:
            continue
        told = max(((day, pence) for day, pence in house.valued if day <= first), default=None)
        if told is None and house.got and house.got.amount:
            told = house.got.day, house.got.amount
            priced.append(name)
        if told is None:
            unvalued.append(name)
            continue
        since, worth = told
        total += part * (worth + sum(_spending(accounts, name, since, last)))
    return total, tuple(unvalued), tuple(priced)


def _spending(accounts: Accounts, house: str, since: date, last: date) -> Iterator[int]:
    """The improvements of a house paid after a day and up to another, less what others gave towards them."""
    for row in accounts.rows:
        if row.house == house and row.paid and since < row.paid <= last:
            if row.kind is Kind.IMPROVEMENT:
                yield row.pence
            elif nets_capital(row):
                yield -row.pence
