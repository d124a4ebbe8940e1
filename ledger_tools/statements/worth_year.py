"""A year of a house in columns: as it was collected, as agreed, as tried; and what each year is of what the house cost.

Every ratio names the figures it is made of, so that its lines can be found. Knows no layout.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from fractions import Fraction

from ..days import Period
from ..money import round_half_up
from ..record import record
from . import earnings, returns
from .accounts import Accounts
from .cost_in import CostIn
from .earnings import Earned, agreed_interest, agreed_rent
from .figures import Figure, Trace, figure, total
from .land_tax import answers_for, nation_of

ASKED = "as asked"  # the source of a figure that was typed with the command


@record
class Asked:
    """What was asked: a value of the house, a lender's stress rate and cover in per cent, and what to try: a rent a
    month, a loan rate in per cent, a price, weeks empty in a year. Sums in pence; None where nothing was."""

    value: int | None = None
    stress: Fraction | None = None
    cover: Fraction | None = None
    rent: int | None = None
    rate: Fraction | None = None
    price: int | None = None
    empty: Fraction | None = None

    @property
    def tries(self) -> bool:
        """Whether anything is to be tried."""
        return any(told is not None for told in (self.rent, self.rate, self.price, self.empty))


@record
class Ratio:
    """A yearly figure over another, as a share of one, years or times; None where there is no answer."""

    slug: str
    label: str
    of: tuple[str, ...]  # the figures above, the first less the others
    over: str
    value: Fraction | None
    unit: str = "percent"


@record
class Year:
    """A year in one column: as it was collected, as agreed, or as tried. break_even: rent a month in pence."""

    slug: str
    label: str
    sums: Earned
    bases: tuple[Figure, ...]
    ratios: tuple[Ratio, ...]
    months: Fraction
    break_even: int | None

    def ratio(self, slug: str) -> Ratio | None:
        """One of its ratios; None where that was not asked about."""
        return next((r for r in self.ratios if r.slug == slug), None)


def years(
    accounts: Accounts, house: str, day: date, asked: Asked, cost: CostIn, value: Figure | None, days: Period | None
) -> Iterator[Year]:
    """The columns there are answers for: none where nothing is let and no rent is told or tried."""
    bases = _bases(cost, value)
    enough = days is not None and days.days >= earnings.FEW
    held = earnings.a_year_of(earnings.earned(accounts, house, days)) if days and enough else None
    if held and days:
        let = accounts.let_days(house, days)
        yield _year("collected", "collected", held, bases, Fraction(12 * let, days.days))
    rent = agreed_rent(accounts, house, day)
    costs = held.costs if held else figure("costs", "running costs", ())
    now = agreed_interest(accounts, house, cost.owed, day) or (held.interest if held else None)
    interest = now or figure("interest", "loan interest", ())
    span = days or Period(day, day)
    if rent:
        label = rent.label.removeprefix("rent ")
        yield _year("agreed", label, Earned(span, rent, costs, interest), bases, Fraction(12))
    whole = full_rent(asked, rent, day)
    if asked.tries and whole:
        months = returns.let_months(asked.empty or Fraction(0))
        if asked.rate is not None:
            interest = agreed_interest(accounts, house, cost.owed, day, asked.rate) or interest
        sums = Earned(span, _less_empty(whole, months), _tried_costs(accounts, house, costs, asked, day),
                      interest)  # fmt: skip
        yield _year("tried", "tried", sums, _bases(_tried_price(accounts, house, cost, asked, day), value), months)


def _bases(cost: CostIn, value: Figure | None) -> tuple[Figure, ...]:
    """What sums of a year are held against. Of a house that came as a gift one's own money would be a trifle."""
    price = total("price", "price", [cost.of("price"), cost.of("chattels")])
    gift = cost.of("value")
    first, cash = (replace(gift, slug="price"), None) if gift.trail else (price, cost.cash)
    return tuple(f for f in (first, cost.total, value, cash) if f is not None and f.pence)


def _year(slug: str, label: str, sums: Earned, bases: tuple[Figure, ...], months: Fraction) -> Year:
    rent, costs, interest, left = sums.rent.pence, sums.costs.pence, sums.interest.pence, sums.left.pence
    made: list[Ratio] = []
    for kind, of, what in (("gross", ("rent",), rent), ("net", ("rent", "costs"), rent - costs)):
        for base in bases:
            if base.slug != "cash" and (kind == "gross" or sums.costs.trail):
                name = f"{kind} yield on {_short(base)}"
                made.append(Ratio(f"{kind}_{base.slug}", name, of, base.slug, returns.share_of(what, base.pence)))
    cash = next((base.pence for base in bases if base.slug == "cash"), 0)
    if sums.costs.trail:
        price = next((base for base in bases if base.slug == "price"), None)
        all_three = ("rent", "costs", "interest")
        if price and interest:
            name = f"after interest too, on {_short(price)}"
            made.append(Ratio("after_interest_price", name, all_three, "price", returns.share_of(left, price.pence)))
        if cash:
            made.append(Ratio("on_cash", "return on your own money", all_three, "cash", returns.share_of(left, cash)))
            made.append(Ratio("payback", "payback, years", ("cash",), "left", returns.payback(cash, left), "years"))
    if interest:
        made.append(Ratio("cover", "interest cover", ("rent",), "interest", returns.cover(rent, interest), "times"))
    even = returns.break_even(costs + interest, months) if sums.costs.trail or interest else None
    return Year(slug, label, sums, bases, tuple(made), months, even)


def _short(base: Figure) -> str:
    if base.slug == "price":
        return base.label if base.label == "price" else "its value then"
    return {"total": "total cost", "value": "sale price" if base.label == "sale price" else "value"}[base.slug]


def full_rent(asked: Asked, agreed: Figure | None, day: date) -> Figure | None:
    """A year of rent without an empty week: as asked, else as agreed."""
    if asked.rent is None:
        return agreed
    return figure("rent", "rent as asked", (Trace(ASKED, day, "rent a month, 12 times", 12 * asked.rent, -1),))


def _less_empty(rent: Figure, months: Fraction) -> Figure:
    if months == 12:
        return rent
    lines = (replace(t, words=f"{t.words}, less the empty weeks", pence=round_half_up(t.pence * months / 12))
             for t in rent.trail)  # fmt: skip
    return figure(rent.slug, rent.label, lines)


def _tried_costs(accounts: Accounts, house: str, costs: Figure, asked: Asked, day: date) -> Figure:
    """Running costs, and the council tax of the empty weeks where it is told."""
    if not asked.empty:
        return costs
    part = asked.empty / returns.WEEKS
    more = (replace(t, words=f"{t.words}, for the empty weeks", pence=round_half_up(t.pence * part))
            for t in earnings.council_tax(accounts, house, day).trail)  # fmt: skip
    return figure(costs.slug, costs.label, (*costs.trail, *more))


def _tried_price(accounts: Accounts, house: str, cost: CostIn, asked: Asked, day: date) -> CostIn:
    """The cost of the house had it been bought for the price asked about, with the tax on that; the loan as it is."""
    if asked.price is None:
        return cost
    about = accounts.book.properties[house]
    chattels = cost.of("chattels").pence
    swap = {"price": as_asked("price", "price as tried", asked.price - chattels, day)}
    if about.got and about.got.how == "bought":
        answers = answers_for(about, replace(about.got, amount=asked.price), nation_of(accounts, about))
        if answers:
            swap["land_tax"] = as_asked("land_tax", "tax on that price", answers[0].tax.payable, day)
    kept = [swap.pop(f.slug, f) for f in cost.cost if f.slug != "value"] + list(swap.values())
    own = total("total", "total cost in", kept)
    cash = total("cash", cost.cash.label, [own, cost.finance, cost.advances, cost.repaid], [1, 1, -1, 1])
    return replace(cost, cost=tuple(kept), total=own, cash=cash)


def as_asked(slug: str, label: str, pence: int, day: date) -> Figure:
    return figure(slug, label, (Trace(ASKED, day, label, pence, -1),))
