"""The numbers of a house as a page: the words of its text, with the lines behind every sum. No arithmetic."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..days import day_words
from ..money import pounds
from ..statements.earnings import Earned
from ..statements.figures import Figure
from ..statements.land_tax import PurchaseTax
from ..statements.money_flows import Rate
from ..statements.worth import Lending, Worth
from ..statements.worth_year import Year
from . import worth as said
from .page import Bars, Block, Cell, Column, Notes, Page, Pairs, Row, Section, Sum, Table, Words

WHAT = (Column("what"), Column("sum", right=True))
SLICES = (Column("of the price"), Column("rate", right=True), Column("tax", right=True))
EARNED = (
    Column("tax year"), Column("rent", right=True), Column("costs", right=True), Column("interest", right=True),
    Column("left over", right=True),
)  # fmt: skip
RATES = (Column("which sums"), Column("rate", right=True), Column("in less out", right=True))


def page(found: Sequence[Worth]) -> Page:
    """The numbers of houses, one after the other; then what holds for all of them."""
    cautions = tuple(dict.fromkeys(w.tax.caution for w in found if w.tax and w.tax.caution))
    names = f"{said.NAMES} " if any(w.years for w in found) else ""
    return Page("worth", "What each house cost and what it brings", tuple(map(_house, found)),
                f"{names}{said.LEFT_OUT}", cautions)  # fmt: skip


def _house(w: Worth) -> Section:
    parts = tuple(sorted(((f.label, f.pence) for f in w.cost.cost if f.pence > 0), key=lambda part: -part[1]))
    picture = (Bars("What went into it, the most first", parts),) if len(parts) > 1 else ()
    blocks: list[Block] = [_sums(w, "cost", said.WENT_IN, said.cost_rows(w.cost), *picture)]
    blocks += [_tax(w, w.tax)] if w.tax else []
    blocks += [_years(w)] if w.years else []
    blocks += [_lending(w, w.lending)] if w.lending else []
    if w.empty_week:
        together = Sum(w.empty_week_total, adds=tuple((f.slug, 1) for f in w.empty_week))
        rows = [*map(_row, w.empty_week), Row((said.TOGETHER, together), "together", "total")]
        blocks.append(_sums(w, "empty-week", said.EMPTY_WEEK, rows))
    blocks += [_earned(w, w.all_earned)] if w.all_earned else []
    blocks += [_rates(w)] if w.rates else []
    return Section(said.title(w), (*blocks, *((Notes(w.notes),) if w.notes else ())))


def _row(f: Figure) -> Row:
    return Row((f.label, Sum(f.pence, f.trail)), f.slug)


def _sums(w: Worth, name: str, title: str, rows: Sequence[Row], *more: Block) -> Section:
    return Section(title, (Table(name, f"{w.full}: {title}", WHAT, tuple(rows), unheaded=True), *more))


def _tax(w: Worth, t: PurchaseTax) -> Section:
    title = f"{said.LAND_TAX}: {t.name}"
    blocks: list[Block] = []
    for answer in t.answers:
        about = said.supposed(answer)
        table = Table("land-tax", f"{w.full}: {about or title}", SLICES, tuple(said.slice_rows(answer)))
        due = (Words(told),) if (told := said.due(answer)) else ()
        blocks += [Section(about.rstrip(":"), (table, *due))] if about else [table, *due]
    if t.paid.trail:
        row = Row((f"{said.PAID}{said.fitting(t).rstrip('.')}", Sum(t.paid.pence, t.paid.trail)), "paid")
        blocks.append(Table("paid", f"{w.full}: {said.PAID}", WHAT, (row,), unheaded=True))
    return Section(title, (*blocks, *((Notes(t.notes),) if t.notes else ())))


# ── a year of it ─────────────────────────────────────────────────────────────────────────────────────────────────

LEFT = (("rent", 1), ("costs", -1), ("interest", -1))


def _years(w: Worth) -> Section:
    rows = [Row((label, *(_told(getattr(year.sums, slug)) for year in w.years)), slug) for slug, label in said.YEARLY]
    rows.append(Row((said.LEFT_OVER, *(_left(year) for year in w.years)), "left", "total"))
    for slug, label in said.ratio_labels(w).items():
        cells = (said.ratio(year.ratio(slug)) for year in w.years)
        rows.append(Row((label, *cells), slug, made=tuple(_made(w, slug))))
    even = (Sum(y.break_even) if y.break_even is not None else "-" for y in w.years)
    rows.append(Row((said.BREAK_EVEN, *even), "break-even", made=tuple(_evened(w))))
    columns = (Column("what", quiet=True), *(Column(year.label, right=True) for year in w.years))
    table = Table("year", f"{w.full}: {said.YEAR}", columns, tuple(rows))
    bases = Table("bases", f"{w.full}: {said.BASES}", WHAT, tuple(map(_row, w.years[-1].bases)), unheaded=True)
    told: list[Block] = [Words(words) for words in said.columns_explained(w)]
    return Section(said.YEAR, (table, *told, Section(said.BASES, (bases, *map(Words, w.gaps)))))


def _made(w: Worth, slug: str) -> Iterator[str]:
    """What a ratio is of what, in each column: rows of this page, which open to their lines."""
    for year in w.years:
        ratio = year.ratio(slug)
        if ratio is not None and ratio.value is not None:
            above = " less ".join(_named(year, figure) for figure in ratio.of)
            yield f"{_column(w, year)}{above}, over {_named(year, ratio.over)}."


def _evened(w: Worth) -> Iterator[str]:
    for year in w.years:
        if year.break_even is not None:
            both = " and ".join(_named(year, slug) for slug in ("costs", "interest"))
            yield f"{_column(w, year)}{both}, over the months let: {said.months_let(year)} a year."


def _column(w: Worth, year: Year) -> str:
    return f"{year.label.capitalize()}: " if len(w.years) > 1 else ""


def _named(year: Year, slug: str) -> str:
    """A figure of a year, or what it is held against, with what it comes to."""
    sums = {"rent": year.sums.rent, "costs": year.sums.costs, "interest": year.sums.interest, "left": year.sums.left}
    found = sums.get(slug) or next(base for base in year.bases if base.slug == slug)
    names = {**dict(said.YEARLY), "left": said.LEFT_OVER}
    return f"{names.get(slug, found.label)} {pounds(found.pence)}"


def _told(f: Figure) -> Cell:
    return Sum(f.pence, f.trail) if f.trail else "-"


def _left(year: Year) -> Sum:
    """What is left over, as the sum of those rows that have a sum."""
    parts = {f.slug: f for f in (year.sums.rent, year.sums.costs, year.sums.interest)}
    return Sum(year.sums.left.pence, adds=tuple((slug, sign) for slug, sign in LEFT if parts[slug].trail))


def _lending(w: Worth, t: Lending) -> Section:
    return _sums(w, "lending", said.lending_title(t), said.lending_rows(t), Words(said.CUSTOM))


# ── what it earned, and the rate ─────────────────────────────────────────────────────────────────────────────────


def _earned(w: Worth, whole: Earned) -> Section:
    title = said.earned_title(whole)
    rows = [Row((str(year), *_four(e), Sum(e.left.pence)), str(year)) for year, e in w.earned]
    adds = tuple((str(year), 1) for year, _ in w.earned)
    sums = (Sum(pence, adds=adds) for pence in said.four(whole))
    rows.append(Row((said.TOGETHER, *sums), "together", "total"))
    drawn = tuple((str(year), max(e.rent.pence, 0), max(e.out.pence, 0)) for year, e in w.earned)
    moved = any(came or went for _, came, went in drawn)
    picture = (Pairs("Full, what came in; hollow, costs and interest", ("in", "out"), drawn),) if moved else ()
    return Section(title, (*picture, Table("earned", f"{w.full}: {title}", EARNED, tuple(rows))))


def _four(e: Earned) -> Iterator[Sum]:
    """The three sums with their lines; what is left over follows from them."""
    return (Sum(f.pence, f.trail) for f in (e.rent, e.costs, e.interest))


def _rates(w: Worth) -> Section:
    if w.rates[0].why:
        return Section(said.RETURN, (Words(said.rate(w.rates[0])),))
    rows = tuple(map(_rate, w.rates))
    table = Table("rates", f"{w.full}: {said.RETURN}, to {day_words(w.day)}", RATES, rows)
    return Section(said.RETURN, (table, Words(said.ends(w.rates[0]))))


def _rate(r: Rate) -> Row:
    told, flows = said.rate(r), Sum(r.flows.pence, r.flows.trail)
    one = r.rates is not None and len(r.rates.found) == 1
    return Row((r.label, told if one else "-", flows), r.slug, under="" if one else f"{told[0].upper()}{told[1:]}")
