"""What to know beside the gain of a house sold or of a part passed on: one function a matter. Knows no layout."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date

from .. import law
from ..days import Period, TaxYear, day_words
from ..money import pounds
from .accounts import Accounts
from .sold import OwnerGain, Part, Sold, Waiting, losses_before

Parts = Mapping[str, list[Part]]  # by owner, all that can be worked out


def notes_of_sale(
    accounts: Accounts,
    this: Sold,
    on: date,
    happened: bool,
    owners: Sequence[OwnerGain],
    parts: Parts,
    waiting: Iterable[Waiting],
) -> Iterator[str]:
    """Beside a sale, done or tried out, and the parts of all its owners up to a day."""
    year = TaxYear.of(this.contract)
    if not happened:
        yield (
            "The tax year, the exempt amount and the rates follow the day of the contract; the day tried out stands "
            "for it."
        )
    elif accounts.book.properties[this.house].sale_exchanged is None:
        yield (
            "The tax year, the exempt amount and the rates follow the day of the contract. Your book does not tell it, "
            "so the day of the sale stands for it: add `exchanged …` above the line `sold …`."
        )
    yield from _of_year(accounts, this.house, year, on, owners, parts)
    yield from _not_in_it(year, this.house, owners, waiting)


def notes_of_passing(
    accounts: Accounts, house: str, on: date, owners: Sequence[OwnerGain], parts: Parts, waiting: Iterable[Waiting]
) -> Iterator[str]:
    """Beside parts of a house passed on at their value on one day, and all parts of those owners up to a day."""
    yield (
        "The value of the part is its share of the value of the whole house, as your book tells it; a valuer may put a "
        "share by itself lower. What passing it on cost, as the deed and the valuation did, comes off too, and is not "
        "in it."
    )
    for owner in owners:
        if owner.part.disposal.gain < 0:
            yield (
                f"{owner.full}: the loss of {pounds(-owner.part.disposal.gain)} is in no other sum here. To relatives "
                "and others close to you it comes off gains on what passes to the same person only (TCGA 1992 s. "
                "18(3), from memory); on a gift to anybody else it counts like any loss, so add it by hand."
            )
    yield from _of_year(accounts, house, owners[0].part.tax_year, on, owners, parts)
    yield from _not_in_it(owners[0].part.tax_year, house, owners, waiting)


def _not_in_it(year: TaxYear, house: str, owners: Sequence[OwnerGain], waiting: Iterable[Waiting]) -> Iterator[str]:
    """Other disposals of the same owners that cannot be worked out, and would change the tax."""
    for one in waiting:
        if TaxYear.of(one.contract) > year or one.owner not in {o.owner for o in owners}:
            continue
        asks = f"`base-cost --property {one.house}` asks for it"
        if one.passed:
            yield (
                f"{one.full}: the part of {one.house} passed on ({day_words(one.day)}) is not in it, as what the "
                f"house was worth, then or when the part was got, is not told; {asks}."
            )
        elif one.house != house:
            yield (
                f"{one.full}: the sale of {one.house} is not in it, as what that part cost hangs on the value of "
                f"{day_words(one.day)}; {asks}."
            )


def _of_year(
    accounts: Accounts, house: str, year: TaxYear, on: date, owners: Sequence[OwnerGain], parts: Parts
) -> Iterator[str]:
    """What holds for the owners' year: what may still come, losses, what is not in it."""
    taxed = [o for o in owners if o.charge and o.charge.taxable]
    if taxed and on < year.period.last:
        yield (
            f"The profit of the letting and the sales of {year} are counted up to {day_words(on)}; what comes after, "
            "to 5 April, can change the tax."
        )
    for owner in owners:
        yield from _losses(owner, year, parts.get(owner.owner, []))
    early = TaxYear.of(law.began("gains.exempt_amount"))
    if year >= early and any(p.tax_year < early for o in owners for p in parts.get(o.owner, ())):
        yield (
            f"The exempt amounts before {early} are not held here: a loss of those years is brought on, but what was "
            "left of it is taken as used up by a later year of theirs that ended with a gain. If it was not, add up "
            "what is left by hand."
        )
    if taxed:
        yield "Gains and losses on anything else, and losses of years before this book, are not in it."
    yield from _home(accounts, house, owners)


def _losses(owner: OwnerGain, year: TaxYear, parts: list[Part]) -> Iterator[str]:
    if brought := losses_before(parts, year):
        used = owner.charge.losses_used if owner.charge else 0
        yield (
            f"{owner.full}: losses of {pounds(brought)} on earlier sales are brought into {year}, of which "
            f"{pounds(used)} is used, as if they were claimed. A loss must be told to the tax office within four "
            "years of the end of its tax year; where that was not done, leave it out (TCGA 1992 s. 16(2A), from "
            "memory)."
        )
    if owner.charge and owner.charge.losses_left and owner.part.left < 0 and not owner.part.passed:
        yield (
            f"{owner.full}: losses of {pounds(owner.charge.losses_left)} are left for later years, if the tax "
            "office is told within four years of the end of the tax year (TCGA 1992 s. 16(2A), from memory)."
        )


def _home(accounts: Accounts, house: str, owners: Sequence[OwnerGain]) -> Iterator[str]:
    """Where the relief for a home may belong to some owners only, or be less where a part was let then."""
    if not any(o.part.home for o in owners):
        return
    about = accounts.book.properties[house]
    lived = [Period(s.since, s.until or date.max) for s in about.spells if s.state == "own home"]
    if len(owners) > 1:
        yield "The days as a home count for every owner alike; one who did not live there has no such relief."
    lets = [
        Period(let.first_day, max(let.first_day, let.last_day or date.max))
        for let in accounts.book.tenancies.values()
        if let.house == house and let.first_day
    ]
    if any(let.overlap(spell) for let in lets for spell in lived):
        yield (
            "Part of it was let while it was your home, so some of the relief may be lost, and lettings relief may "
            "take its place (TCGA 1992 s. 223B; CG64710): neither is worked out here, as your book does not tell how "
            "much of the house was let."
        )
