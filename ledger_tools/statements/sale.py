"""The sale of a house, done or tried out: each owner's gain and the tax on all the owner's sales of that year together.

Losses of the year, the exempt amount and the basic rate band are the owner's, not the house's. Knows nothing of layout.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from fractions import Fraction

from .. import law
from ..book.world import Property
from ..days import Period, TaxYear, day_words
from ..money import pounds, share
from ..record import record
from ..taxes.gains import gain as gains
from ..taxes.income.bands import personal_allowance
from .accounts import Accounts
from .brought import taxable_profit
from .own_costs import Costs, own_costs, passings


@record
class Part:
    """One owner's part of one sale, in pence. contract: the day that decides the tax year. home: the relief for days it
    was the owner's home."""

    house: str
    full: str
    contract: date
    fraction: Fraction
    disposal: gains.Disposal
    home: int

    @property
    def left(self) -> int:
        """The gain after that relief; a loss is below nil."""
        return self.disposal.gain - self.home


@record
class OwnerGain:
    """What a sale comes to for one owner.

    others: the owner's other sales of the same tax year; charge and taxes are of all of them together. `taxes` has one
    answer, or the least and the most where the owner's other income is not told; empty, and no charge, where the law
    room holds no figures for the day.
    """

    owner: str
    full: str
    part: Part
    others: tuple[Part, ...]
    charge: gains.Charge | None
    taxes: tuple[gains.GainTax, ...]


@record
class Waiting:
    """An owner whose part of a sale is not worked out, as its cost hangs on what the book does not tell of a day."""

    owner: str
    full: str
    house: str
    fraction: Fraction
    contract: date
    day: date


@record
class Sale:
    """A sale that happened or is tried out; day: when the house passed. Sums in pence."""

    day: date
    price: int
    happened: bool
    year: TaxYear
    owners: tuple[OwnerGain, ...]
    report_by: date | None
    notes: tuple[str, ...]
    waiting: tuple[Waiting, ...] = ()


@record
class _Sold:
    house: str
    day: date
    contract: date
    price: int


def sale(accounts: Accounts, house: str, on: date, price: int | None, costs: Costs) -> Sale | None:
    """The sale of a house by the end of a day, or with a price (pence) as if it were sold that day; else None.

    accounts: of the book up to that day. What other houses of the same owners brought until then is worked out with it.
    """
    done = {name: sold for name, about in accounts.book.properties.items() if (sold := _sold(about, on))}
    this = done.get(house)
    if this is None:
        if price is None:
            return None
        this = done[house] = _Sold(house, on, on, price)
    about, year = accounts.book.properties[house], TaxYear.of(this.contract)
    parts, waiting = _parts(accounts, done.values(), costs)
    owners = tuple(
        _owner(accounts, owner, year, house, parts[owner])
        for owner, _ in accounts.book.owners_on(house, this.day)
        if any(part.house == house for part in parts.get(owner, ()))
    )
    happened = about.sold is not None and about.sold.day <= on
    notes = (*_notes(accounts, about, this, on, happened, owners, parts), *_not_in_it(year, house, owners, waiting))
    here = tuple(one for one in waiting if one.house == house)
    return Sale(this.day, this.price, happened, year, owners, _by(this.day), notes, here)


def _sold(about: Property, on: date) -> _Sold | None:
    if about.sold is None or about.sold.day > on:
        return None
    return _Sold(about.name, about.sold.day, about.sale_exchanged or about.sold.day, about.sold.amount)


def _by(day: date) -> date | None:
    try:
        return gains.report_by(day)
    except law.NoFigure:
        return None


# ── each owner ───────────────────────────────────────────────────────────────────────────────────────────────────


def _parts(accounts: Accounts, sales: Iterable[_Sold], costs: Costs) -> tuple[dict[str, list[Part]], list[Waiting]]:
    """Every owner's parts of these sales, by the day of the contract; and those that cannot be worked out."""
    found: dict[str, list[Part]] = {}
    waiting: list[Waiting] = []
    book = accounts.book
    for sold in sorted(sales, key=lambda s: (s.contract, s.house)):
        about = book.properties[sold.house]
        owned = book.owners_on(sold.house, sold.day)
        fractions = [fraction for _, fraction in owned]
        sums = (sold.price, *costs(sold.house, sold.day))
        split = zip(*(share(amount, fractions) for amount in sums), strict=True) if owned else ()
        changed = any(passings(book, sold.house, sold.day))
        own = own_costs(book, sold.house, sold.day, costs) if changed else None
        for (owner, fraction), (price, selling, buying, added) in zip(owned, split, strict=True):
            if own and owner in own.untold:
                full = book.landlords[owner].full if owner in book.landlords else owner
                hangs = own.untold[owner].day
                waiting.append(Waiting(owner, full, sold.house, fraction, sold.contract, hangs))
                continue
            disposal = gains.Disposal(price, selling, *(own.costs[owner] if own else (buying, added)))
            home = _home(about, disposal.gain, sold.day)
            part = Part(sold.house, about.full, sold.contract, fraction, disposal, home)
            found.setdefault(owner, []).append(part)
    return found, waiting


def _not_in_it(year: TaxYear, house: str, owners: tuple[OwnerGain, ...], waiting: list[Waiting]) -> Iterator[str]:
    """Other sales of the same owners that cannot be worked out, and would change the tax."""
    for one in waiting:
        if one.house != house and TaxYear.of(one.contract) <= year and one.owner in {o.owner for o in owners}:
            yield (
                f"{one.full}: the sale of {one.house} is not in it, as what that part cost hangs on the value of "
                f"{day_words(one.day)}; `base-cost --property {one.house}` asks for it."
            )


def _home(about: Property, gain: int, day: date) -> int:
    if about.got is None:
        return 0
    lived = [Period(spell.since, spell.until or day) for spell in about.spells if spell.state == "own home"]
    try:
        return gains.home_relief(gain, Period(about.got.day, day), lived)
    except law.NoFigure:
        return 0


def _owner(accounts: Accounts, owner: str, year: TaxYear, house: str, parts: list[Part]) -> OwnerGain:
    full = accounts.book.landlords[owner].full if owner in accounts.book.landlords else owner
    part = next(p for p in parts if p.house == house)
    others = tuple(p for p in parts if TaxYear.of(p.contract) == year and p.house != house)
    try:
        charged = _charge(parts, year, losses_before(parts, year))
        left = _bands_left(accounts, owner, year)
        taxes = tuple(gains.gain_tax(charged.taxable, each, part.contract) for each in left)
    except law.NoFigure:
        return OwnerGain(owner, full, part, others, None, ())
    return OwnerGain(owner, full, part, others, charged, taxes)


def _charge(parts: list[Part], year: TaxYear, brought: int) -> gains.Charge:
    """All sales of a year together. law.NoFigure where the year's exempt amount is not held."""
    exempt = law.figure("gains.exempt_amount", year.period.last).pence
    return gains.charge(*_of_year(parts, year), exempt, brought)


def _of_year(parts: list[Part], year: TaxYear) -> tuple[int, int, int]:
    """What the sales of a year won, of it the relief for a home, and what they lost."""
    made = [p for p in parts if TaxYear.of(p.contract) == year]
    won = sum(p.disposal.gain for p in made if p.disposal.gain > 0)
    lost = -sum(p.disposal.gain for p in made if p.disposal.gain < 0)
    return won, sum(p.home for p in made), lost


def losses_before(parts: list[Part], year: TaxYear) -> int:
    """Losses that earlier sales of the book left unused.

    In years whose exempt amount is not held a loss is carried on, and a gain is taken to have used all that came in.
    """
    brought = 0
    for earlier in sorted({TaxYear.of(p.contract) for p in parts if TaxYear.of(p.contract) < year}):
        try:
            brought = _charge(parts, earlier, brought).losses_left
        except law.NoFigure:
            won, home, lost = _of_year(parts, earlier)
            brought = brought + lost - (won - home) if won - home <= lost else 0
    return brought


def _bands_left(accounts: Accounts, owner: str, year: TaxYear) -> tuple[int, ...]:
    """What the owner's income leaves of the basic rate band: one sum where the other income is told, else none and
    all of it, between which the answer must lie."""
    band = law.schedule("income_tax.bands", year).band("basic").to
    assert band is not None
    whole = int(band * 100)
    landlord = accounts.book.landlords.get(owner)
    other = landlord.other_income.get(year) if landlord else None
    if other is None:
        return (0, whole)
    income = other + taxable_profit(accounts, owner, year)
    return (gains.unused_band(income, personal_allowance(income, year), 0, whole),)


# ── what to know about it ────────────────────────────────────────────────────────────────────────────────────────


def _notes(
    accounts: Accounts,
    about: Property,
    this: _Sold,
    on: date,
    happened: bool,
    owners: tuple[OwnerGain, ...],
    parts: dict[str, list[Part]],
) -> Iterator[str]:
    year = TaxYear.of(this.contract)
    if not happened:
        yield (
            "The tax year, the exempt amount and the rates follow the day of the contract; the day tried out stands "
            "for it."
        )
    elif about.sale_exchanged is None:
        yield (
            "The tax year, the exempt amount and the rates follow the day of the contract. Your book does not tell it, "
            "so the day of the sale stands for it: add `exchanged …` above the line `sold …`."
        )
    taxed = [o for o in owners if o.charge and o.charge.taxable]
    if taxed and on < year.period.last:
        yield (
            f"The profit of the letting and the sales of {year} are counted up to {day_words(on)}; what comes after, "
            "to 5 April, can change the tax."
        )
    for owner in owners:
        if brought := losses_before(parts[owner.owner], year):
            used = owner.charge.losses_used if owner.charge else 0
            yield (
                f"{owner.full}: losses of {pounds(brought)} on earlier sales are brought into {year}, of which "
                f"{pounds(used)} is used, as if they were claimed. A loss must be told to the tax office within four "
                "years of the end of its tax year; where that was not done, leave it out (TCGA 1992 s. 16(2A), from "
                "memory)."
            )
        if owner.charge and owner.charge.losses_left and owner.part.left < 0:
            yield (
                f"{owner.full}: losses of {pounds(owner.charge.losses_left)} are left for later years, if the tax "
                "office is told within four years of the end of the tax year (TCGA 1992 s. 16(2A), from memory)."
            )
    early = TaxYear.of(law.began("gains.exempt_amount"))
    if year >= early and any(TaxYear.of(p.contract) < early for o in owners for p in parts[o.owner]):
        yield (
            f"The exempt amounts before {early} are not held here: a loss of those years is brought on, but what was "
            "left of it is taken as used up by a later year of theirs that ended with a gain. If it was not, add up "
            "what is left by hand."
        )
    if taxed:
        yield "Gains and losses on anything else, and losses of years before this book, are not in it."
    yield from _home_notes(accounts, about, owners)


def _home_notes(accounts: Accounts, about: Property, owners: tuple[OwnerGain, ...]) -> Iterator[str]:
    lived = [Period(s.since, s.until or date.max) for s in about.spells if s.state == "own home"]
    if not any(o.part.home for o in owners):
        return
    if len(owners) > 1:
        yield "The days as a home count for every owner alike; one who did not live there has no such relief."
    lets = [
        Period(let.first_day, max(let.first_day, let.last_day or date.max))
        for let in accounts.book.tenancies.values()
        if let.house == about.name and let.first_day
    ]
    if any(let.overlap(spell) for let in lets for spell in lived):
        yield (
            "Part of it was let while it was your home, so some of the relief may be lost, and lettings relief may "
            "take its place (TCGA 1992 s. 223B; CG64710): neither is worked out here, as your book does not tell how "
            "much of the house was let."
        )
