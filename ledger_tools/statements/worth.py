"""Whether a house earns its keep: what it cost, what it brings for that, and what would change it.

Every figure carries the lines that make it. Gives no advice and knows no layout.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from fractions import Fraction

from ..days import Period, TaxYear, day_words
from ..money import pounds, share
from ..record import record
from ..verdicts.verdict import ALLOWED, Kind
from . import earnings, returns
from .accounts import Accounts
from .cost_in import CostIn, cost_in, first_rent, letting_began, owed_at_first
from .earnings import Earned
from .figures import Figure, Trace, figure
from .land_tax import PurchaseTax, purchase_tax
from .money_flows import Rate, rates_of
from .worth_gaps import gaps
from .worth_year import Asked, Year, as_asked, full_rent, years


@record
class Lending:
    """A lender's test with the user's own stress rate and cover, in per cent. Pence; None where a part is not known."""

    stress: Fraction
    cover: Fraction
    owed: Figure
    rent: Figure | None
    rent_needed: int
    loan_possible: int | None


@record
class Worth:
    """The numbers of one house on a day."""

    house: str
    full: str
    day: date
    tax: PurchaseTax | None
    cost: CostIn
    value: Figure | None
    years: tuple[Year, ...]
    lending: Lending | None
    empty_week: tuple[Figure, ...]
    earned: tuple[tuple[TaxYear, Earned], ...]
    all_earned: Earned | None
    rates: tuple[Rate, ...]
    gaps: tuple[str, ...]  # what is plainly not in the year
    notes: tuple[str, ...]

    @property
    def empty_week_total(self) -> int:
        """What a week without a tenant costs together, in pence."""
        return sum(part.pence for part in self.empty_week)


def worth(accounts: Accounts, house: str, day: date, asked: Asked = Asked()) -> Worth:  # noqa: B008 - frozen
    """The numbers of a house as it stood at the end of a day; `accounts` are those of the book up to that day."""
    about = accounts.book.properties[house]
    cost, tax = cost_in(accounts, house, day), purchase_tax(accounts, house)
    value = _value(accounts, house, day, asked)
    days = earnings.window(accounts, house, day)
    columns = tuple(years(accounts, house, day, asked, cost, value, days))
    rent = full_rent(asked, earnings.agreed_rent(accounts, house, day), day)
    held = _told_days(accounts, house, day)
    rates = rates_of(accounts, house, day, value, cost.owed)
    return Worth(
        house, about.full, day, tax, cost, value, columns, _lending(asked, cost, rent),
        earnings.empty_week(accounts, house, day, rent, columns[-1].sums.interest) if rent and columns else (),
        earnings.by_tax_year(accounts, house, held.first, held.last) if held else (),
        earnings.earned(accounts, house, held) if held else None,
        rates,
        gaps(accounts, house, day, cost, days),
        (*_notes(accounts, house, day, cost, days, columns), *_short(accounts, house, day, rates)),
    )  # fmt: skip


def _told_days(accounts: Accounts, house: str, day: date) -> Period | None:
    """The days of which the book tells what the house brought, to the day asked about; after a sale to its last sum."""
    rent = first_rent(accounts, house)
    began = letting_began(accounts, house)
    first = rent if earnings.starts_late(accounts, house) else min(filter(None, (began, rent)), default=None)
    sold = accounts.book.properties[house].sold
    if sold and sold.day <= day:
        day = max([sold.day, *(r.paid for r in accounts.rows if r.house == house and r.paid and r.paid <= day)])
    else:
        day = earnings.told_until(accounts, house, day)
    return Period(first, day) if first and first <= day else None


def _value(accounts: Accounts, house: str, day: date, asked: Asked) -> Figure | None:
    """What the house is worth: as asked, what it was sold for, or as last valued."""
    about = accounts.book.properties[house]
    if asked.value is not None:
        return as_asked("value", "value as asked", asked.value, day)
    if about.sold and about.sold.day <= day:
        line = Trace(about.sold.place.short, about.sold.day, "sale price", about.sold.amount, -1)
        return figure("value", "sale price", (line,))
    told = [(on, pence) for on, pence in about.valued if on <= day]
    if told:
        on, pence = max(told)
        return figure("value", "value as told", (Trace(about.place.short, on, "valued", pence, -1),))
    return None


# ── a lender's test, and what to say ─────────────────────────────────────────────────────────────────────────────


def _lending(asked: Asked, cost: CostIn, rent: Figure | None) -> Lending | None:
    """Only where both numbers are told: they are the lender's custom, no law, so none is supposed."""
    if asked.stress is None or asked.cover is None:
        return None
    rate, times = asked.stress / 100, asked.cover / 100
    return Lending(
        asked.stress, asked.cover, cost.owed, rent, returns.rent_needed(cost.owed.pence * rate, times),
        returns.loan_possible(rent.pence, rate, times) if rent else None,
    )  # fmt: skip


def _notes(
    accounts: Accounts, house: str, day: date, cost: CostIn, days: Period | None, columns: tuple[Year, ...]
) -> Iterator[str]:
    about = accounts.book.properties[house]
    if about.got is None:
        yield "What the house cost is not told: add `bought … for £…`, `inherited … at £…` or `given … at £…`."
    elif cost.of("value").trail:
        yield (
            "It came as a gift or inheritance: its value then stands in place of a price. It was no money of yours, so "
            "no return on your own money is told."
        )
    if owed := owed_at_first(accounts.book, house, day):
        yield (
            f"What was borrowed is not in your book, so what was owed on {day_words(owed[0].day)} stands for it. What "
            "you had paid off by then is your own money too: add the line `borrowed £… from … for purchase` with its "
            "day, and it is counted."
        )
    if earnings.starts_late(accounts, house):
        first = first_rent(accounts, house)
        assert first is not None
        yield (
            f"Rent first shows in your book on {day_words(first)}, long after the first let began. What came in and "
            "went out before is not in these numbers, nor in what is owed and what is your own money in it."
        )
    if days and earnings.FEW <= days.days < 365:
        yield (
            f"Your book tells less than a year of this let: what came in and went out in {days.days} days is scaled up "
            "to a year. A bill paid once a year then weighs too much, or is missing."
        )
    if not columns and cost.total.trail:
        yield f"No rent is agreed on {day_words(day)}, and none came in: try one with `--rent`."
    yield from _open_sums(accounts, columns)


def _open_sums(accounts: Accounts, columns: tuple[Year, ...]) -> Iterator[str]:
    """What of the first column is open: costs that may be part of what the house cost, and money that may be none of
    the letting. They are told apart, for one is no answer to the other."""
    open_ = [_open(accounts, t) for year in columns[:1] for t in year.sums.costs.trail]
    went, came = sum(p for p in open_ if p > 0), -sum(p for p in open_ if p < 0)
    left = columns[0].sums.left.pence if columns else 0
    if went:
        yield (
            f"{pounds(went)} of the running costs of a year is an open question (`audit --open`): {pounds(left)} is "
            f"left over if all of it comes off the rents, {pounds(left + went)} if none of it does, as it then counts "
            "when the house is sold, or nowhere."
        )
    if came:
        yield (
            f"{pounds(came)} that came in is an open question (`audit --open`), and is taken off the running costs of "
            f"the year here: without it {pounds(left - came)} is left over."
        )


def _short(accounts: Accounts, house: str, day: date, rates: tuple[Rate, ...]) -> Iterator[str]:
    """What to say of rates a year where the house has not been held for one."""
    got = accounts.book.properties[house].got
    held = (day - got.day).days if got else 365
    if held < 365 and any(rate.ends == "value" and rate.rates and rate.rates.found for rate in rates):
        yield (
            f"It has been yours for {held} days. A rate of return says what they would come to in a year, so it swings "
            "with what the house is said to be worth; after a year it tells more."
        )


def _open(accounts: Accounts, t: Trace) -> int:
    """How many of its pence are open: as much of them as of all that comes off, or may, of the item."""
    parts = accounts.verdicts[t.verdict].parts if t.verdict >= 0 else ()
    open_ = sum(part.amount for part in parts if part.kind is Kind.ARGUABLE)
    sure = sum(part.amount for part in parts if part.kind in ALLOWED or part.kind is Kind.PENDING)
    return share(t.pence, [open_, sure])[0] if open_ else 0
