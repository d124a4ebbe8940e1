"""The sale of a house, done or tried out, and what was passed on at its value: each owner's gain and the tax on all the
owner's disposals of that year together.

Losses of the year, the exempt amount and the basic rate band are the owner's, not the house's. Knows nothing of layout.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from itertools import groupby

from .. import law
from ..book.world import Property
from ..days import Period, TaxYear
from ..money import share
from ..taxes.gains import gain as gains
from ..taxes.income.bands import personal_allowance
from .accounts import Accounts
from .brought import taxable_profit
from .own_costs import Costs, Given, own_costs
from .passings import passings
from .sale_notes import notes_of_passing, notes_of_sale
from .sold import OwnerGain, Part, Sale, Sold, Waiting, charge_of, losses_before

Passed = Mapping[str, Sequence[Given]]  # by house what was passed on at its value up to a day, the earliest first


def sale(accounts: Accounts, house: str, on: date, price: int | None, costs: Costs, passed: Passed) -> Sale | None:
    """The sale of a house by the end of a day, or with a price (pence) as if it were sold that day; else None.

    accounts: of the book up to that day. What other houses of the same owners brought until then is worked out with it.
    """
    done = _done(accounts, on)
    this = done.get(house)
    if this is None:
        if price is None:
            return None
        this = done[house] = Sold(house, on, on, price)
    about, year = accounts.book.properties[house], TaxYear.of(this.contract)
    parts, waiting = _parts(accounts, done.values(), costs, passed)
    here = {owner: part for owner, some in parts.items() for part in some if part.house == house and not part.passed}
    owners = tuple(
        _owner(accounts, owner, year, here[owner], parts[owner])
        for owner, _ in accounts.book.owners_on(house, this.day)
        if owner in here
    )
    happened = about.sold is not None and about.sold.day <= on
    told = happened and about.sale_exchanged is not None
    notes = tuple(notes_of_sale(accounts, this, on, happened, owners, parts, waiting))
    waits = tuple(one for one in waiting if one.house == house and not one.passed)
    return Sale(this.day, this.price, happened, year, owners, _by(this.day), notes, waits,
                exchanged=this.contract if told else None)  # fmt: skip


def passed_on(accounts: Accounts, house: str, on: date, costs: Costs, passed: Passed) -> tuple[Sale, ...]:
    """What the owners of a house passed on at its value by the end of a day, each day by itself, worked out like a sale
    with all else they disposed of; without those parts whose value or cost is not told."""
    parts, waiting = _parts(accounts, _done(accounts, on).values(), costs, passed)
    made = []
    for day, some in groupby(passed.get(house, ()), key=lambda given: given.day):
        mine = {given.owner: part for given in some if (part := _given_part(accounts, house, given))}
        year = TaxYear.of(day)
        owners = tuple(_owner(accounts, owner, year, part, parts.get(owner, [])) for owner, part in mine.items())
        if owners:
            notes = tuple(notes_of_passing(accounts, house, on, owners, parts, waiting))
            price = sum(part.disposal.proceeds for part in mine.values())
            made.append(Sale(day, price, True, year, owners, _by(day), notes, passed=True))
    return tuple(made)


def _done(accounts: Accounts, on: date) -> dict[str, Sold]:
    return {name: sold for name, about in accounts.book.properties.items() if (sold := _sold(about, on))}




def _sold(about: Property, on: date) -> Sold | None:
    if about.sold is None or about.sold.day > on:
        return None
    return Sold(about.name, about.sold.day, about.sale_exchanged or about.sold.day, about.sold.amount)


def _by(day: date) -> date | None:
    try:
        return gains.report_by(day)
    except law.NoFigure:
        return None


# ── each owner ───────────────────────────────────────────────────────────────────────────────────────────────────


def _parts(
    accounts: Accounts, sales: Iterable[Sold], costs: Costs, passed: Passed
) -> tuple[dict[str, list[Part]], list[Waiting]]:
    """Every owner's parts of these sales and of what was passed on, by the day of the contract; and those that cannot
    be worked out. A loss on what was passed on is none of them, as it comes off no other gain."""
    found: dict[str, list[Part]] = {}
    waiting: list[Waiting] = []
    book = accounts.book
    for house, given in ((house, given) for house, some in passed.items() for given in some):
        part = _given_part(accounts, house, given)
        if part is None:
            full = _full(accounts, given.owner)
            waiting.append(Waiting(given.owner, full, house, given.part, given.day, given.day, passed=True))
        elif part.disposal.gain >= 0:
            found.setdefault(given.owner, []).append(part)
    for sold in sales:
        about = book.properties[sold.house]
        owned = book.owners_on(sold.house, sold.day)
        fractions = [fraction for _, fraction in owned]
        sums = (sold.price, *costs(sold.house, sold.day))
        split = zip(*(share(amount, fractions) for amount in sums), strict=True) if owned else ()
        changed = any(passings(book, sold.house, sold.day))
        own = own_costs(book, sold.house, sold.day, costs) if changed else None
        for (owner, fraction), (price, selling, buying, added) in zip(owned, split, strict=True):
            if own and owner in own.untold:
                hangs = own.untold[owner].day
                waiting.append(Waiting(owner, _full(accounts, owner), sold.house, fraction, sold.contract, hangs))
                continue
            disposal = gains.Disposal(price, selling, *(own.costs[owner] if own else (buying, added)))
            home = _home(about, disposal.gain, sold.day)
            part = Part(sold.house, about.full, sold.contract, fraction, disposal, home)
            found.setdefault(owner, []).append(part)
    for some in found.values():
        some.sort(key=lambda part: (part.contract, part.house))
    return found, waiting


def _given_part(accounts: Accounts, house: str, given: Given) -> Part | None:
    """What was passed on as a disposal at its value; None where that value, or what the part had cost, is not told."""
    if given.value is None or given.cost is None:
        return None
    about = accounts.book.properties[house]
    disposal = gains.Disposal(given.value, 0, *given.cost)
    home = _home(about, disposal.gain, given.day)
    return Part(house, about.full, given.day, given.part, disposal, home, passed=True)


def _full(accounts: Accounts, owner: str) -> str:
    return accounts.book.landlords[owner].full if owner in accounts.book.landlords else owner


def _home(about: Property, gain: int, day: date) -> int:
    if about.got is None:
        return 0
    lived = [Period(spell.since, spell.until or day) for spell in about.spells if spell.state == "own home"]
    try:
        return gains.home_relief(gain, Period(about.got.day, day), lived)
    except law.NoFigure:
        return 0


def _owner(accounts: Accounts, owner: str, year: TaxYear, part: Part, parts: list[Part]) -> OwnerGain:
    """One owner's part with all the owner's parts of that year; it is not among them if it is a loss passed on."""
    full = _full(accounts, owner)
    others = tuple(p for p in parts if p.tax_year == year and p != part)
    try:
        charged = charge_of(parts, year, losses_before(parts, year))
        left = _bands_left(accounts, owner, year)
        taxes = tuple(gains.gain_tax(charged.taxable, each, part.contract) for each in left)
    except law.NoFigure:
        return OwnerGain(owner, full, part, others, None, ())
    return OwnerGain(owner, full, part, others, charged, taxes)


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
