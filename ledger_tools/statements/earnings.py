"""What a house brought in money over some days, what its lets bring as agreed, and what an empty week costs.

By money: what was received and paid, from the first letting on. Knows no layout.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction

from ..book.world import Loan, Rent, Tenancy
from ..days import Period, TaxYear, day_words, months_after
from ..ledger.rows import Row
from ..money import pounds, rate_words, round_half_up
from ..record import record
from ..taxes.council.years import days_of
from ..verdicts.verdict import Kind
from .accounts import EXPENSES, INCOME, Accounts
from .cost_in import NO_MONEY, before_let, first_rent, is_finance, letting_began, loans_of
from .figures import Figure, Trace, figure, together, total, trace
from .returns import TIMES, WEEKS, per_year

QUIET = timedelta(days=61)
FEW = 183  # fewer days than these make no year: one rent or one bill more or less would turn the figures over
SOON = timedelta(days=92)  # rent that first shows later than this after the let began: the book starts in mid-life


@record
class Earned:
    """What came in, what went out and what is left over in some days, or in a year reckoned from them."""

    days: Period
    rent: Figure
    costs: Figure
    interest: Figure

    @property
    def left(self) -> Figure:
        """Rent less running costs and interest."""
        return total("left", "left over", (self.rent, self.costs, self.interest), (1, -1, -1))

    @property
    def out(self) -> Figure:
        """Running costs and interest."""
        return total("out", "costs and interest", (self.costs, self.interest))


def earned(accounts: Accounts, house: str, days: Period) -> Earned:
    """What a house brought in some days, by money."""
    first_let = letting_began(accounts, house)
    told: dict[str, list[Trace]] = {"rent": [], "costs": [], "interest": []}
    for row in accounts.rows:
        if row.house == house and row.paid and row.paid in days:
            slug, sign = _enters(accounts, row, first_let)
            if slug:
                told[slug].append(trace(row, sign * row.pence, row.paid))
    return Earned(
        days,
        figure("rent", "rent and other income", together(told["rent"])),
        figure("costs", "running costs", together(told["costs"])),
        figure("interest", "loan interest and fees", together(told["interest"])),
    )


def _enters(accounts: Accounts, row: Row, first_let: date | None) -> tuple[str, int]:
    into = 1 if row.way == "in" else -1
    if row.verb in NO_MONEY or row.kind is Kind.PRIVATE:
        return "", 0
    if row.kind is Kind.INCOME or row.kind is Kind.NETS and row.category in INCOME:
        return "rent", into
    if row.verdict < 0 or before_let(row, first_let):
        return "", 0
    if is_finance(accounts, row) and row.account != "loans":
        return "interest", -into
    if row.kind in EXPENSES and row.category or row.kind in (Kind.ARGUABLE, Kind.PENDING):
        return "costs", -into
    return "", 0


def by_tax_year(accounts: Accounts, house: str, first: date, last: date) -> tuple[tuple[TaxYear, Earned], ...]:
    """What a house brought in each tax year between two days."""
    years = (TaxYear(start) for start in range(TaxYear.of(first).start, TaxYear.of(last).start + 1))
    cut = ((year, Period(first, last).overlap(year.period)) for year in years)
    return tuple((year, earned(accounts, house, days)) for year, days in cut if days)


def a_year_of(held: Earned) -> Earned:
    """The same as sums of a year: of fewer days a sum is scaled up by days, to the penny, with its lines as they stand
    and what scaling adds."""

    def scaled(f: Figure) -> Figure:
        more = round_half_up(f.pence * Fraction(365, held.days.days)) - f.pence
        if not more:
            return f
        words = f"scaled up from {held.days.days} days to a year"
        return figure(f.slug, f.label, (*f.trail, Trace("", held.days.last, words, more, -1)))

    if held.days.days >= 365:
        return held
    return replace(held, rent=scaled(held.rent), costs=scaled(held.costs), interest=scaled(held.interest))


def starts_late(accounts: Accounts, house: str) -> bool:
    """Whether the book tells of a let long before it tells of its rent, so that earlier years are missing."""
    let, rent = accounts.book.first_let(house), first_rent(accounts, house)
    return let is not None and rent is not None and rent > let + SOON


# ── as agreed ────────────────────────────────────────────────────────────────────────────────────────────────────


def running(accounts: Accounts, house: str, day: date) -> list[Tenancy]:
    """The lets of a house that run on a day."""
    return [
        let
        for let in accounts.book.tenancies.values()
        if let.house == house and let.first_day and let.first_day <= day <= (let.last_day or date.max)
    ]


def agreed_rent(accounts: Accounts, house: str, day: date) -> Figure | None:
    """A year of the rents in force on a day; of a house never let the target of its schedule; else, or sold, None."""
    sold = accounts.book.properties[house].sold
    if sold and sold.day <= day:
        return None
    lets = running(accounts, house, day)
    if not lets:
        first_let = accounts.book.first_let(house)
        return None if first_let and first_let <= day else _target(accounts, house)
    traces = [
        Trace(rent.place.short, day, f"rent {pounds(rent.amount)} {rent.every}, {TIMES[rent.every]} times",
              per_year(rent.amount, rent.every), -1)
        for let in lets
        if (rent := _in_force(let, day))
    ]  # fmt: skip
    return figure("rent", "rent as agreed", traces) if traces else None


def _in_force(let: Tenancy, day: date) -> Rent | None:
    begun = [rent for rent in let.rents if rent.since is None or rent.since <= day]
    return max(begun, key=lambda rent: rent.since or date.min, default=None)


def _target(accounts: Accounts, house: str) -> Figure | None:
    for plan in accounts.book.schedules:
        if plan.house == house and plan.target:
            since, rent, every = plan.target
            words = f"target rent {pounds(rent)} {every}, {TIMES[every]} times"
            line = Trace(plan.place.short, since, words, per_year(rent, every), -1)
            return figure("rent", "rent as planned", (line,))
    return None


def agreed_interest(accounts: Accounts, house: str, owed: Figure, day: date, rate: Fraction | None = None) -> (
    Figure | None
):  # fmt: skip
    """A year of interest on what is owed on each loan, at the rate in force, or at a rate in per cent for all that bear
    interest; None where a loan without a rate leaves it open."""
    if owed.pence <= 0:
        return figure("interest", "loan interest", ())
    lent = [loan for loan in accounts.book.loans.values() if loan.house == house]
    each = _owed_on_each(accounts, lent, owed, day)
    rates = [_rate(loan, day) for loan in lent]
    if each is None or rate is None and None in rates:
        if rate is None:
            return None
        lent, each, rates = [], [owed.pence], [rate]
    elif rate is not None:
        rates = [rate if own is None or own else own for own in rates]
    places = [loan.place.short for loan in lent] or [owed.trail[0].source]
    traces = (
        Trace(place, day, f"{rate_words(held)} a year of {pounds(pence)}", round_half_up(pence * held / 100), -1)
        for place, pence, held in zip(places, each, rates, strict=True)
        if pence and held is not None
    )
    return figure("interest", "loan interest", traces)


def _owed_on_each(accounts: Accounts, lent: list[Loan], owed: Figure, day: date) -> list[int] | None:
    """The pence owed on each of some loans; None where they do not make what is owed."""
    if len(lent) == 1:
        return [owed.pence]
    stood = [loans_of(accounts.book).stood(loan.name, day) for loan in lent]
    pence = [use.letting + use.untold for use in stood if use is not None]
    return pence if len(pence) == len(lent) and sum(pence) == owed.pence else None


def _rate(loan: Loan, day: date) -> Fraction | None:
    """The rate of a loan in force on a day in per cent, the last told that has begun; None where none is told."""
    told = [(since, percent) for percent, since, until in loan.rates if since <= day <= (until or date.max)]
    return max(told)[1] if told else None


# ── an empty week ────────────────────────────────────────────────────────────────────────────────────────────────


def empty_week(accounts: Accounts, house: str, day: date, rent: Figure, interest: Figure) -> tuple[Figure, ...]:
    """What a week without a tenant costs: the rent, the council tax that is then yours, the interest that runs on."""
    week = [
        figure("rent", "rent that does not come", _a_week(rent)),
        figure("council_tax", "council tax that becomes yours", _a_week(council_tax(accounts, house, day))),
        figure("interest", "loan interest that runs on", _a_week(interest)),
    ]
    return tuple(part for part in week if part.trail)


def _a_week(yearly: Figure) -> Iterator[Trace]:
    for t in yearly.trail:
        yield replace(t, words=f"{t.words}, a week of {WEEKS}", pence=round_half_up(Fraction(t.pence, WEEKS)))


def council_tax(accounts: Accounts, house: str, day: date) -> Figure:
    """The full charge of a year, as far as told, of a house whose tenants bear it while it is let."""
    about = accounts.book.properties[house]
    lets = [let for let in accounts.book.tenancies.values() if let.house == house]
    told = [
        scheme
        for (council, _), scheme in accounts.book.schemes.items()
        if council == about.council and about.band in scheme.charges and days_of(scheme.year).first <= day
    ]
    label = "council tax of a year"
    if not told or not any("council tax" in let.tenant_pays for let in lets):
        return figure("council_tax", label, ())
    last = max(told, key=lambda scheme: scheme.year)
    full = last.charges[about.band]
    words = f"council tax, band {about.band.upper()} {pounds(full)} in {last.year}"
    return figure("council_tax", label, (Trace(last.place.short, day, words, full, -1),))


def told_until(accounts: Accounts, house: str, day: date) -> date:
    """The last day of which the book tells, up to a day or the sale: earlier than these where a let runs on and no sum
    of the house was written down for two periods of its rent, two months at least, as where a book was put aside."""
    sold = accounts.book.properties[house].sold
    last = min(day, sold.day) if sold else day
    every = [TIMES[rent.every] for let in running(accounts, house, last) if (rent := _in_force(let, last))]
    days = {d for r in accounts.rows if r.house == house for d in (r.paid, r.owed) if d and d <= last}
    if not every or not days:
        return last
    quiet = max(QUIET, timedelta(days=round_half_up(Fraction(2 * 365) / min(every))))
    return max(days) if max(days) + quiet < last else last


def window(accounts: Accounts, house: str, day: date) -> Period | None:
    """The last twelve months up to a day (or to the sale), no more than it was let and the book tells."""
    last = told_until(accounts, house, day)
    rent = first_rent(accounts, house)
    began = rent if starts_late(accounts, house) else letting_began(accounts, house)
    if rent is None or began is None:
        return None
    first = max(months_after(last, -12) + timedelta(days=1), began)
    return Period(first, last) if first <= last else None


def describe(days: Period) -> str:
    """ "the 12 months to 5 Apr 2026", or the days where they are fewer."""
    if days.days >= 365:
        return f"the 12 months to {day_words(days.last)}"
    return f"{days.days} days to {day_words(days.last)}, as a year"
