"""What counts when a house is sold: its capital record on a day, and the gain of each owner if it went for a price.

A cost is in income or in the gain, never in both: everything here comes from the same verdicts as the tax return. Knows
nothing of layout.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction

from .. import law
from ..book.world import Book, Property
from ..days import Period, TaxYear, day_words
from ..ledger.rows import Row
from ..money import pounds, share
from ..taxes.gains import gain as gains
from ..taxes.income.bands import personal_allowance
from ..verdicts.verdict import Cgt, Kind
from .accounts import Accounts
from .brought import taxable_profit
from .figures import Figure, Trace, figure, together, words

PURCHASE, FINISHED, ADDED, SELLING = "purchase", "finished", "added", "selling"
LABELS = {
    PURCHASE: "What buying it cost",
    FINISHED: "Work that finished the purchase",
    ADDED: "Improvements that can still be seen",
    SELLING: "Costs of selling",
}


@dataclass(frozen=True, slots=True)
class OwnerGain:
    """One owner's part of a sale. Sums in pence; `taxes` has one answer, or the least and the most where the owner's
    other income is not told; empty where the law room holds no rates for the day."""

    owner: str
    full: str
    fraction: Fraction
    disposal: gains.Disposal
    home: int  # relief for days it was the owner's home
    charge: gains.Charge | None
    taxes: tuple[gains.GainTax, ...]


@dataclass(frozen=True, slots=True)
class Sale:
    """A sale that happened or is tried out."""

    day: date
    price: int
    happened: bool
    owners: tuple[OwnerGain, ...]
    report_by: date | None


@dataclass(frozen=True, slots=True)
class BaseCost:
    """The capital record of a house on a day.

    groups: what counts, by PURCHASE, FINISHED, ADDED and SELLING, money back already off; total: their sum without the
    costs of selling. gone: improvements that can no longer be seen. open: sums that count if they turn out capital.
    """

    house: str
    full: str
    day: date
    groups: tuple[Figure, ...]
    total: int
    gone: Figure
    open: Figure
    sale: Sale | None
    notes: tuple[str, ...]

    def pence(self, slug: str) -> int:
        """The sum of one group."""
        return next((group.pence for group in self.groups if group.slug == slug), 0)


def base_cost(book: Book, house: str, day: date, price: int | None = None) -> BaseCost:
    """The record of a house as it stands at the end of a day; with a price (pence), or where it was sold by then, the
    gain of each owner. What the book tells of later days is left aside, as nobody could know it."""
    about = book.properties[house]
    sold = about.sold if about.sold and about.sold.day <= day else None
    accounts = Accounts(replace(book, entries=tuple(e for e in book.entries if e.day.first <= day)))
    rows = [r for r in accounts.rows if r.house == house and r.owed is not None and r.owed <= day]
    groups = tuple(_listed(slug, LABELS[slug], (r for r in rows if _group(accounts, r) == slug)) for slug in LABELS)
    gone = _listed("gone", "Gone since", (r for r in rows if _gone(accounts, r)))
    open_ = _listed("open", "Open questions", (r for r in rows if _may_count(r)))
    made = BaseCost(
        house, about.full, day, groups, sum(g.pence for g in groups if g.slug != SELLING), gone, open_, None,
        tuple(_notes(about, accounts, rows)),
    )  # fmt: skip
    if sold is not None:
        return replace(made, sale=_sale(accounts, made, sold.day, sold.amount, True))
    return replace(made, sale=_sale(accounts, made, day, price, False)) if price is not None else made


# ── the record ───────────────────────────────────────────────────────────────────────────────────────────────────


def _fired(accounts: Accounts, row: Row, slug: str) -> bool:
    return row.verdict >= 0 and any(rule.slug == slug for rule in accounts.verdicts[row.verdict].path)


def _finished(accounts: Accounts, row: Row) -> bool:
    """Whether it is work on the house, no tax or fee of buying it."""
    works = row.verdict >= 0 and accounts.verdicts[row.verdict].item.line.kind == "works"
    grant = row.kind is Kind.NETS and not _fired(accounts, row, "refund")  # what was given towards such work
    return (works or grant) and row.cgt is Cgt.ACQUISITION and not _fired(accounts, row, "buying-or-selling-cost")


def _group(accounts: Accounts, row: Row) -> str:
    """Where a row belongs; nothing where it is no part of the record."""
    if row.kind is Kind.ARGUABLE or row.cgt is Cgt.NONE:
        return ""
    if row.cgt is Cgt.ENHANCEMENT:
        return ADDED
    if row.cgt is Cgt.DISPOSAL:
        return SELLING
    return FINISHED if _finished(accounts, row) else PURCHASE


def _listed(slug: str, label: str, rows: Iterable[Row]) -> Figure:
    """Rows as one line of the book each, on the day it was owed, in order of the days; money in comes off."""
    traces = (
        Trace(r.source, r.owed, words(r), r.pence if r.way == "out" else -r.pence, r.verdict)
        for r in rows
        if r.owed is not None
    )
    return figure(slug, label, sorted(together(traces), key=lambda t: t.day))


def _gone(accounts: Accounts, row: Row) -> bool:
    return row.kind is Kind.IMPROVEMENT and row.cgt is Cgt.NONE and _fired(accounts, row, "gone-by-sale")


def _may_count(row: Row) -> bool:
    return row.kind is Kind.ARGUABLE and row.cgt is not Cgt.NONE and row.way == "out"


def _notes(about: Property, accounts: Accounts, rows: list[Row]) -> Iterator[str]:
    if about.got is None:
        yield "What the house cost is not told: add `bought … for £…`, `inherited … at £…` or `given … at £…`."
    elif about.got.how != "bought":
        yield f"It was {about.got.how}, so its value on that day stands in place of a price; keep the valuation."
    if len(about.owners) > 1:
        days = " and ".join(day_words(o.since) for o in about.owners if o.since)
        yield (
            f"The shares changed on {days}. Between spouses living together a share passes at its cost, to anybody "
            "else at its value (TCGA 1992 s. 17, 18, 58); each owner's own cost then differs, and is not worked out "
            "here."
        )
    for row in rows:
        if _fired(accounts, row, "bit-of-the-property-sold"):
            yield (
                f"{row.thing.capitalize()} was sold off it for {pounds(row.pence)} ({row.source}). If that was part of "
                "the property, a part of its cost went with it (TCGA 1992 s. 42, 242), which is not worked out here."
            )
    if any(_finished(accounts, row) for row in rows):
        yield (
            "Work that finished the purchase counts as far as it can still be seen when the house is sold "
            "(TCGA 1992 s. 38(1)(b)); what has since been replaced is open, so ask before you claim it."
        )


# ── the sale ─────────────────────────────────────────────────────────────────────────────────────────────────────


def _sale(accounts: Accounts, made: BaseCost, day: date, price: int, happened: bool) -> Sale:
    owned = accounts.book.owners_on(made.house, day)
    fractions = [fraction for _, fraction in owned]
    if not owned:
        return Sale(day, price, happened, (), _by(day))

    def each(amount: int) -> list[int]:
        return share(amount, fractions)

    parts = zip(each(price), each(made.pence(SELLING)), each(made.pence(PURCHASE) + made.pence(FINISHED)),
                each(made.pence(ADDED)), strict=True)  # fmt: skip
    owners = tuple(
        _owner_gain(accounts, made, name, fraction, gains.Disposal(*amounts), day)
        for (name, fraction), amounts in zip(owned, parts, strict=True)
    )
    return Sale(day, price, happened, owners, _by(day))


def _by(day: date) -> date | None:
    try:
        return gains.report_by(day)
    except law.NoFigure:
        return None


def _owner_gain(
    accounts: Accounts, made: BaseCost, owner: str, fraction: Fraction, disposal: gains.Disposal, day: date
) -> OwnerGain:
    full = accounts.book.landlords[owner].full if owner in accounts.book.landlords else owner
    try:
        home = _home(accounts.book.properties[made.house], disposal.gain, day)
        exempt = law.figure("gains.exempt_amount", day).pence
        charged = gains.charge(disposal.gain, home, 0, exempt, 0)
        taxes = tuple(gains.gain_tax(charged.taxable, left, day) for left in _bands_left(accounts, owner, day))
    except law.NoFigure:
        return OwnerGain(owner, full, fraction, disposal, 0, None, ())
    return OwnerGain(owner, full, fraction, disposal, home, charged, taxes)


def _home(about: Property, gain: int, day: date) -> int:
    if about.got is None:
        return 0
    lived = [Period(spell.since, spell.until or day) for spell in about.spells if spell.state == "own home"]
    return gains.home_relief(gain, Period(about.got.day, day), lived)


def _bands_left(accounts: Accounts, owner: str, day: date) -> tuple[int, ...]:
    """What the owner's income leaves of the basic rate band: one sum where the other income is told, else none and
    all of it, between which the answer must lie."""
    year = TaxYear.of(day)
    band = law.schedule("income_tax.bands", year).band("basic").to
    assert band is not None
    whole = int(band * 100)
    landlord = accounts.book.landlords.get(owner)
    other = landlord.other_income.get(year) if landlord else None
    if other is None:
        return (0, whole)
    income = other + taxable_profit(accounts, owner, year)
    return (gains.unused_band(income, personal_allowance(income, year), 0, whole),)
