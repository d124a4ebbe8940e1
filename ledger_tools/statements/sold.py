"""Disposals of houses as figures: each owner's parts, and what all of an owner's parts of a year come to.

Knows no book: who sold what, and what it cost, is told to it.
"""

from __future__ import annotations

from datetime import date
from fractions import Fraction

from .. import law
from ..days import TaxYear
from ..record import record
from ..taxes.gains import gain as gains


@record
class Part:
    """One owner's part of one sale, in pence. contract: the day that decides the tax year. home: the relief for days it
    was the owner's home. passed: it was no sale; the part was passed on at its value to somebody else."""

    house: str
    full: str
    contract: date
    fraction: Fraction
    disposal: gains.Disposal
    home: int
    passed: bool = False

    @property
    def left(self) -> int:
        """The gain after that relief; a loss is below nil."""
        return self.disposal.gain - self.home

    @property
    def tax_year(self) -> TaxYear:
        """The year it belongs to, by the day of the contract."""
        return TaxYear.of(self.contract)


@record
class OwnerGain:
    """What a sale comes to for one owner.

    others: the owner's other disposals of the same tax year; charge and taxes are of all together. `taxes` has one
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
    """An owner whose part of a sale is not worked out, as its cost hangs on what the book does not tell of a day; or,
    where it was passed on, as that day's value is not told, or one before it."""

    owner: str
    full: str
    house: str
    fraction: Fraction
    contract: date
    day: date
    passed: bool = False


@record
class Sale:
    """A sale that happened or is tried out; day: when the house passed. Sums in pence.

    exchanged: the day of the contract, where the book tells it of a sale that happened. passed: it was no sale; parts
    were passed on at their value, and the price is what those parts were worth.
    """

    day: date
    price: int
    happened: bool
    year: TaxYear
    owners: tuple[OwnerGain, ...]
    report_by: date | None
    notes: tuple[str, ...]
    waiting: tuple[Waiting, ...] = ()
    exchanged: date | None = None
    passed: bool = False


@record
class Sold:
    """A whole house sold: when it passed, the day of the contract, and the price in pence."""

    house: str
    day: date
    contract: date
    price: int


# ── all of an owner's parts of a year ────────────────────────────────────────────────────────────────────────────


def charge_of(parts: list[Part], year: TaxYear, brought: int) -> gains.Charge:
    """All disposals of a year together. law.NoFigure where the year's exempt amount is not held."""
    exempt = law.figure("gains.exempt_amount", year.period.last).pence
    return gains.charge(*_of_year(parts, year), exempt, brought)


def _of_year(parts: list[Part], year: TaxYear) -> tuple[int, int, int]:
    """What the sales of a year won, of it the relief for a home, and what they lost."""
    made = [p for p in parts if p.tax_year == year]
    won = sum(p.disposal.gain for p in made if p.disposal.gain > 0)
    lost = -sum(p.disposal.gain for p in made if p.disposal.gain < 0)
    return won, sum(p.home for p in made), lost


def losses_before(parts: list[Part], year: TaxYear) -> int:
    """Losses that earlier sales of the book left unused.

    In years whose exempt amount is not held a loss is carried on, and a gain is taken to have used all that came in.
    """
    brought = 0
    for earlier in sorted({p.tax_year for p in parts if p.tax_year < year}):
        try:
            brought = charge_of(parts, earlier, brought).losses_left
        except law.NoFigure:
            won, home, lost = _of_year(parts, earlier)
            brought = brought + lost - (won - home) if won - home <= lost else 0
    return brought
