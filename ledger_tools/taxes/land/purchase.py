"""The tax on buying a dwelling, slice by slice: stamp duty land tax, or that of Wales or of Scotland. Knows no book.

For people living in the United Kingdom who buy one dwelling; whoever asks brings the price of the land without
chattels. Sources: FA 2003 s. 55, Sch. 4ZA; the rates, their days and what they say of earlier contracts in law/land.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from decimal import Decimal
from fractions import Fraction

from ... import law
from ...money import down_to_pound
from ...record import record

NAMES = {
    "sdlt": "stamp duty land tax",
    "ltt": "land transaction tax",
    "lbtt": "land and buildings transaction tax",
}
ABROAD, COMPANY = "land.sdlt_abroad", "land.sdlt_company"
DAY = timedelta(days=1)


@record
class Slice:
    """So much of the price at one rate: pence from and to, the rate as a share of one, the exact tax in pence."""

    low: int
    high: int
    rate: Decimal
    whole: bool = False  # a supplement on the whole price, beside the slices

    @property
    def tax(self) -> Fraction:
        """Pence, not rounded."""
        return (self.high - self.low) * Fraction(self.rate)


@record
class LandTax:
    """The tax on one purchase: its slices, the law they came from, and the last day to return and pay.

    taxed: the price in pence as it is taxed. as_of: the day whose rates were used where an earlier contract keeps or
    chooses them, else the day of completion. due is None before the first day for which the time to pay is held.
    """

    tax: str
    taxed: int
    additional: bool
    as_of: date
    slices: tuple[Slice, ...]
    held: tuple[law.Dated, ...]
    due: date | None

    @property
    def exact(self) -> Fraction:
        """Pence, not rounded."""
        return sum((s.tax for s in self.slices), Fraction(0))

    @property
    def payable(self) -> int:
        """Pence in whole pounds, pence of the tax dropped."""
        return down_to_pound(self.exact)

    @property
    def caution(self) -> str:
        """Why the rates should be looked up again, in plain words; empty where they need not be."""
        return "; ".join(dict.fromkeys(d.caution for d in self.held if d.caution))


def which(nation: str, completed: date) -> str:
    """The tax of a nation on a day: "sdlt", "ltt" or "lbtt". Wales and Scotland had stamp duty land tax before theirs.

    ValueError for a nation that is not one of the four.
    """
    own = {"england": "", "northern ireland": "", "wales": "ltt", "scotland": "lbtt"}
    if nation not in own:
        raise ValueError(nation)
    tax = own[nation]
    return tax if tax and completed >= law.began(f"land.{tax}") else "sdlt"


def land_tax(tax: str, price: int, completed: date, contract: date, additional: bool, chooses: bool = False) -> LandTax:
    """The tax on a dwelling for a price in pence, completed on a day under a contract of a day.

    A contract made before a rise keeps the rates before it where the law says so; where the law leaves a choice,
    `chooses` takes the earlier rates. law.NoFigure before the first day held.
    """
    taxed = down_to_pound(price) if tax == "sdlt" else price  # that return takes whole pounds; of the others not known
    main = _in_force(f"land.{tax}", completed, contract, chooses)
    if not additional or taxed < law.figure(f"land.{tax}_floor", completed).pence:
        bands = law.schedule(f"land.{tax}", main)
        return LandTax(tax, taxed, additional, main, tuple(_cut(bands, taxed)), (bands,), _due(tax, completed))
    own = _in_force(f"land.{tax}_additional", completed, contract, chooses)
    if tax == "ltt":
        held: tuple[law.Dated, ...] = (bands := law.schedule("land.ltt_additional", own),)
        slices = tuple(_cut(bands, taxed))
    else:
        bands, more = law.schedule(f"land.{tax}", main), law.figure(f"land.{tax}_additional", own)
        held = (bands, more)
        slices = tuple(_cut(bands, taxed, more.value if tax == "sdlt" else Decimal(0)))
        if tax == "lbtt":
            slices += (Slice(0, taxed, more.value, whole=True),)
    return LandTax(tax, taxed, additional, own, slices, held, _due(tax, completed))


def turning_days(tax: str, completed: date, additional: bool) -> tuple[date, ...]:
    """The days before which a contract gives another answer, the latest first; those of all rates behind the answer."""
    topics = [f"land.{tax}_additional"] if additional else []
    topics += [f"land.{tax}"] if not (additional and tax == "ltt") else []
    return tuple(sorted({day for topic in topics for day in _turns(topic, completed)}, reverse=True))


def may_choose(tax: str, completed: date, contract: date, additional: bool) -> bool:
    """Whether a buyer under an earlier contract may choose the rates before or those of the day of completion."""
    if additional and tax == "ltt":
        return False
    earlier = law.earlier_contract(f"land.{tax}", completed)
    return bool(earlier and earlier.choice and contract < earlier.before)


def _in_force(topic: str, completed: date, contract: date, chooses: bool) -> date:
    """The day whose value holds: that of completion, or for an earlier contract the last day before the rise."""
    earlier = law.earlier_contract(topic, completed)
    if earlier and contract < earlier.before and (chooses or not earlier.choice):
        return _in_force(topic, _dated(topic, completed).since - DAY, contract, chooses)
    return completed


def _turns(topic: str, completed: date) -> Iterator[date]:
    earlier = law.earlier_contract(topic, completed)
    if earlier:
        yield earlier.before
        yield from _turns(topic, _dated(topic, completed).since - DAY)


def _dated(topic: str, day: date) -> law.Dated:
    try:
        return law.schedule(topic, day)
    except TypeError:
        return law.figure(topic, day)


def _cut(bands: law.Schedule, taxed: int, more: Decimal = Decimal(0)) -> Iterator[Slice]:
    """The slices a price reaches, each at its rate and so much more."""
    low = 0
    for band in bands.bands:
        high = taxed if band.to is None else min(taxed, int(band.to * 100))
        if high > low:
            yield Slice(low, high, band.rate + more)
            low = high


def _due(tax: str, completed: date) -> date | None:
    held = days_to_return(tax, completed)
    return completed + timedelta(days=held.whole) if held else None


def days_to_return(tax: str, completed: date) -> law.Figure | None:
    """Within how many days of completion a tax is to be returned; None where that is not held for the day."""
    try:
        return law.figure(f"land.{tax}_days", completed)
    except law.NoFigure:
        return None
