"""The numbers of a house as text or JSON: small tables that fit a phone held sideways. No arithmetic.

Only the length of a bar is worked out here.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from ..days import Period, day_words
from ..money import decimal, decimals, percent, plain, pounds, rate_words, round_half_up
from ..statements.cost_in import CostIn
from ..statements.earnings import Earned, describe
from ..statements.figures import Figure, total
from ..statements.land_tax import Answer, PurchaseTax
from ..statements.money_flows import Rate
from ..statements.rate import HIGHEST, LOWEST
from ..statements.worth import Lending, Worth
from ..statements.worth_year import Ratio, Year
from . import json_form
from .columns import columns
from .page import Row, Sum
from .text import cell_words, indent, paragraph

BAR = 16  # signs of the longest bar
LEFT_OUT = (
    "These numbers leave out income tax and tax on a gain, the cost of a sale to come, your own work and miles, and "
    "repairs that will come one day. They are what your book tells, and no advice."
)
NAMES = (
    "Collected is by money, as agreed by the rents in force. Gross is the rent alone, net the rent less running costs "
    "with the loan left out; others use these words for other things. Your own money in it is the total cost in and "
    "the loan costs before the first let, less what was borrowed and not paid back."
)
WENT_IN, EMPTY_WEEK, TOGETHER = "What went into it", "What an empty week costs", "together"
LAND_TAX, PAID = "The tax on buying it", "Your book says paid"
YEAR, LEFT_OVER, BREAK_EVEN, BASES = "A year of it", "left over", "break-even rent a month", "Bases"
YEARLY = (("rent", "rent"), ("costs", "running costs"), ("interest", "loan interest"))
CUSTOM = "The rate and the cover are those you typed: they are a lender's custom, no law."
RETURN = "Internal rate of return, a year"


def text(found: Sequence[Worth]) -> str:
    """The numbers of houses, one after the other; then what holds for all of them."""
    pages = ["\n".join(_house(w)) for w in found]
    said = [NAMES] if any(w.years for w in found) else []
    said += dict.fromkeys(w.tax.caution for w in found if w.tax and w.tax.caution)
    return "\n\n".join([*pages, *("\n".join(paragraph(each, "", "")) for each in (*said, LEFT_OUT))])


def _house(w: Worth) -> list[str]:
    out = [*paragraph(title(w), "", "  "), "", f"  {WENT_IN}", *_drawn(cost_rows(w.cost))]
    if w.tax:
        out += _tax(w.tax)
    if w.years:
        out += _years(w)
    if w.lending:
        out += _lending(w.lending)
    if w.empty_week:
        rows = [(f.label, pounds(f.pence)) for f in w.empty_week]
        out += ["", f"  {EMPTY_WEEK}: {pounds(w.empty_week_total)}"]
        out += columns(rows, right=(1,), margin="    ")
    out += _earned(w) + _rates(w.rates)
    if w.notes:
        out.append("")
    for note in w.notes:
        out += paragraph(note, "  * ", "    ")
    return out


def title(w: Worth) -> str:
    """What stands over the numbers of a house."""
    return f"{w.full}: what it cost and what it brings, as it stood on {day_words(w.day)}"


def _drawn(rows: Sequence[Row], right: Sequence[int] = (1,)) -> list[str]:
    return columns([tuple(map(cell_words, row.cells)) for row in rows], right=right, margin="    ")


def cost_rows(c: CostIn) -> list[Row]:
    """What went into a house, and what of it is one's own money; totals name their rows."""
    borrowed = total("advances", "less borrowed", (c.advances,), (-1,))
    rows = [_row(f) for f in c.cost]
    rows.append(Row((c.total.label, Sum(c.total.pence, adds=tuple((f.slug, 1) for f in c.cost))), "total", "total"))
    beside = [f for f in (c.finance, borrowed, c.repaid) if f.trail]
    if c.of("value").trail:
        return rows  # it was no money of one's own, and what else went in would look like all of it
    adds = (("total", 1), *((f.slug, 1) for f in beside))
    return [*rows, *map(_row, beside), Row((c.cash.label, Sum(c.cash.pence, adds=adds)), "cash", "total")]


def _row(f: Figure) -> Row:
    return Row((f.label, Sum(f.pence, f.trail)), f.slug)


# ── the tax on the purchase ──────────────────────────────────────────────────────────────────────────────────────


def _tax(t: PurchaseTax) -> list[str]:
    out = ["", f"  {LAND_TAX}: {t.name}"]
    for answer in t.answers:
        out += paragraph(supposed(answer), "    ", "    ")
        inset = "" if len(t.answers) < 2 else "  "
        out += indent([*_drawn(list(slice_rows(answer)), (1, 2)), *indent([due(answer)], "    ")], inset)
    if t.paid.trail:
        out += paragraph(f"{PAID}: {pounds(t.paid.pence)}{fitting(t)}", "    ", "    ")
    for note in t.notes:
        out += paragraph(note, "    * ", "      ")
    return out


def supposed(a: Answer) -> str:
    """What an answer holds for; "" where it holds as it is."""
    return f"If {', and '.join(a.supposed)}:" if a.supposed else ""


def fitting(t: PurchaseTax) -> str:
    """Which answer is what was paid."""
    if t.fits and len(t.answers) > 1:
        return f", as it is if {', and '.join(t.fits.supposed)}."
    return ", the same." if t.fits else "."


def slice_rows(a: Answer) -> Iterator[Row]:
    """The tax slice by slice, each to the nearest penny, so the sum of all is worked out from the exact ones."""
    for s in a.tax.slices:
        of = "the whole price" if s.whole else f"{pounds(s.low)} to {pounds(s.high)}"
        yield Row((of, rate_words(s.rate * 100), Sum(round_half_up(s.tax))))
    yield Row(("together", "", Sum(round_half_up(a.tax.exact))))
    yield Row(("to pay, in whole pounds", "", Sum(a.tax.payable)), "payable", "total")


def due(a: Answer) -> str:
    """When it is to be paid, where that is known."""
    return f"return and payment due by {day_words(a.tax.due)}" if a.tax.due else ""


# ── a year of it ─────────────────────────────────────────────────────────────────────────────────────────────────


def _years(w: Worth) -> list[str]:
    rows = [("", *(year.label for year in w.years))]
    for slug, label in YEARLY:
        rows.append((label, *(_sum(getattr(year.sums, slug)) for year in w.years)))
    rows.append((LEFT_OVER, *(pounds(year.sums.left.pence) for year in w.years)))
    for slug, label in ratio_labels(w).items():
        rows.append((label, *(ratio(year.ratio(slug)) for year in w.years)))
    even = (BREAK_EVEN, *(pounds(y.break_even) if y.break_even is not None else "-" for y in w.years))
    rows.append(even)
    out = ["", f"  {YEAR}", *columns(rows, right=range(1, len(rows[0])), gap="  ", margin="    ")]
    bases = ", ".join(f"{base.label} {pounds(base.pence)}" for base in w.years[-1].bases)
    for said in (*columns_explained(w), f"{BASES}: {bases}.", *w.gaps):
        out += paragraph(said, "    ", "    ")
    return out


def ratio_labels(w: Worth) -> dict[str, str]:
    """The ratios that any column has, by slug."""
    return {r.slug: r.label for year in w.years for r in year.ratios}


def columns_explained(w: Worth) -> list[str]:
    """What each column is."""
    said = []
    for year in w.years:
        days = year.sums.days
        if year.slug == "collected":
            others = "; the running costs of the other columns are the same" if len(w.years) > 1 else ""
            said.append(f"Collected in {describe(days)}{others}.")
        elif not year.sums.costs.trail:
            said.append(
                f"{year.label.capitalize()}: there are no running costs to go by yet, so what is left over and the "
                "break-even rent are told without any."
            )
    return said


def _sum(f: Figure) -> str:
    return pounds(f.pence) if f.trail else "-"


def ratio(r: Ratio | None) -> str:
    """A ratio as it is read; "-" where there is no answer."""
    if r is None or r.value is None:
        return "-"
    return percent(r.value, 1) if r.unit == "percent" else decimals(r.value, 1 if r.unit == "years" else 2)


def months_let(year: Year) -> str:
    """How many months of a year it is let: "12", "11.4"."""
    return str(year.months) if year.months.denominator == 1 else decimals(year.months, 1)


def _lending(t: Lending) -> list[str]:
    return ["", f"  {lending_title(t)}", *_drawn(lending_rows(t)), *paragraph(CUSTOM, "    ", "    ")]


def lending_title(t: Lending) -> str:
    """The two numbers of a lender's test."""
    return f"A lender's test at {rate_words(t.stress)}, rent {rate_words(t.cover)} of the interest"


def lending_rows(t: Lending) -> list[Row]:
    """What is owed, what rent that needs, and what could be owed."""
    rows = [Row(("still owed", Sum(t.owed.pence, t.owed.trail)), "owed"),
            Row(("rent a month it needs", Sum(t.rent_needed)), "rent-needed")]  # fmt: skip
    if t.rent and t.loan_possible is not None:
        rows.append(Row((f"most to owe at {pounds(t.rent.pence)} a year", Sum(t.loan_possible)), "loan-possible"))
    return rows


# ── what it earned, and the rate ─────────────────────────────────────────────────────────────────────────────────


def _earned(w: Worth) -> list[str]:
    if not w.all_earned:
        return []
    most = max(abs(e.left.pence) for _, e in w.earned)
    rows: list[tuple[str, ...]] = [("", "rent", "costs", "interest", LEFT_OVER, "left over drawn")]
    rows += [(str(year), *_four(e), _bar(e.left.pence, most)) for year, e in w.earned]
    rows.append((TOGETHER, *_four(w.all_earned), ""))
    said = f"  {earned_title(w.all_earned)}, in whole pounds"
    return ["", said, *columns(rows, right=(1, 2, 3, 4), gap="  ", margin="    ")]


def earned_title(whole: Earned) -> str:
    """Since when it is told what a house brought."""
    return f"What it brought since {day_words(whole.days.first)}, by tax year"


def four(e: Earned) -> tuple[int, int, int, int]:
    """Rent, costs, interest and what is left over, in pence."""
    return e.rent.pence, e.costs.pence, e.interest.pence, e.left.pence


def _four(e: Earned) -> Iterator[str]:
    return (f"{'-' if p < 0 else ''}£{abs(round_half_up(decimal(p))):,}" for p in four(e))


def _bar(pence: int, most: int) -> str:
    """A bar as long as the sum beside the greatest one; a loss is dotted."""
    signs = abs(pence) * BAR // most if most else 0
    return ("." if pence < 0 else "=") * max(signs, 1 if pence else 0)


def _rates(found: Sequence[Rate]) -> list[str]:
    out: list[str] = []
    for r in found[:1] if found and found[0].why else found:
        out += paragraph(rate(r) if r.why else f"{r.label}: {rate(r)}", "    ", "      ")
    if found and not found[0].why:
        out += paragraph(ends(found[0]), "    ", "    ")
    return ["", f"  {RETURN}", *out] if out else []


def ends(r: Rate) -> str:
    """From when to when the sums of a rate run, and what the last of them is."""
    last = r.flows.trail[-1]
    how = "sold" if r.ends == "sold" else f"{last.words}, {pounds(last.pence)}"
    return f"Every sum on its day, from {day_words(r.flows.trail[0].day)}; at the end {how}."


def rate(r: Rate) -> str:
    """A rate, or why there is none."""
    if r.rates is None:
        return f"Not worked out, as {r.why}."
    if r.rates.one_way:
        return "none, as all sums go the same way."
    if not r.rates.found:
        return f"none between {percent(LOWEST, 0)} and {percent(HIGHEST, 0)} makes the sums come out even."
    rates = [percent(each, 2) for each in r.rates.found]
    if len(rates) > 1:
        listed = f"{', '.join(rates[:-1])} and {rates[-1]}"
        return f"{listed} each make the sums come out even, so none of them alone says anything."
    return rates[0]


# ── JSON ─────────────────────────────────────────────────────────────────────────────────────────────────────────


def as_json(found: Sequence[Worth]) -> dict[str, Any]:
    """The same as data."""
    return {"statement": "worth", "houses": [_house_json(w) for w in found]}


def _named(f: Figure) -> dict[str, Any]:
    return {"figure": f.slug, "label": f.label, **json_form.figure(f)}


def _house_json(w: Worth) -> dict[str, Any]:
    c, lending = w.cost, w.lending
    return {
        "property": w.house,
        "name": w.full,
        "day": w.day.isoformat(),
        "cost": [_named(f) for f in c.cost],
        **{f.slug: json_form.figure(f) for f in (c.total, c.finance, c.advances, c.repaid, c.owed, c.cash)},
        "value": _named(w.value) if w.value else None,
        "land_tax": _tax_json(w.tax) if w.tax else None,
        "years": [_year_json(year) for year in w.years],
        "lending": {
            "stress": rate_words(lending.stress),
            "cover": rate_words(lending.cover),
            "rent_needed": plain(lending.rent_needed),
            "loan_possible": plain(lending.loan_possible) if lending.loan_possible is not None else None,
        } if lending else None,
        "empty_week": [_named(f) for f in w.empty_week],
        "earned": [{"tax_year": str(year), **_sums_json(e)} for year, e in w.earned],
        "all_earned": _sums_json(w.all_earned) if w.all_earned else None,
        "rates": [_rate_json(r) for r in w.rates],
        "gaps": list(w.gaps),
        "notes": [*w.notes, NAMES, LEFT_OUT],
    }  # fmt: skip


def _tax_json(t: PurchaseTax) -> dict[str, Any]:
    return {
        "tax": t.name,
        "price": plain(t.price),
        "chattels": plain(t.chattels),
        "paid": json_form.figure(t.paid),
        "agrees": t.fits is not None,
        "answers": [_answer_json(a) for a in t.answers],
        "notes": [*t.notes, t.caution] if t.caution else list(t.notes),
    }


def _answer_json(a: Answer) -> dict[str, Any]:
    return {
        "supposed": list(a.supposed),
        "add": list(a.add),
        "additional": a.tax.additional,
        "rates_of": a.tax.as_of.isoformat(),
        "slices": [
            {"from": plain(s.low), "to": plain(s.high), "rate": rate_words(s.rate * 100), "whole_price": s.whole,
             "tax": decimals(s.tax / 100, 4)}
            for s in a.tax.slices
        ],
        "unrounded": decimals(a.tax.exact / 100, 4),
        "payable": plain(a.tax.payable),
        "due": a.tax.due.isoformat() if a.tax.due else None,
        "law": [{"figure": d.topic, "source": str(d.citation), "since": d.since.isoformat(), "caution": d.caution}
                for d in a.tax.held],
    }  # fmt: skip


def _days_json(days: Period) -> dict[str, str]:
    return {"from": days.first.isoformat(), "to": days.last.isoformat()}


def _sums_json(e: Earned) -> dict[str, Any]:
    return {
        **_days_json(e.days),
        **{f.slug: json_form.figure(f) for f in (e.rent, e.costs, e.interest)},
        "left": plain(e.left.pence),
    }


def _year_json(y: Year) -> dict[str, Any]:
    return {
        "year": y.slug,
        "label": y.label,
        **_sums_json(y.sums),
        "bases": [_named(base) for base in y.bases],
        "ratios": [
            {"ratio": r.slug, "label": r.label, "unit": r.unit, "of": list(r.of), "over": r.over,
             "value": _value_json(r)}
            for r in y.ratios
        ],
        "let_months": decimals(y.months, 2),
        "break_even_rent": plain(y.break_even) if y.break_even is not None else None,
    }  # fmt: skip


def _value_json(r: Ratio) -> str | None:
    if r.value is None:
        return None
    return decimals(r.value * 100, 2) if r.unit == "percent" else decimals(r.value, 2)


def _rate_json(r: Rate) -> dict[str, Any]:
    return {
        "rate": r.slug,
        "label": r.label,
        "found": [str(each) for each in r.rates.found] if r.rates else None,
        "why_not": r.why or None,
        "ends": r.ends,
        "flows": json_form.figure(r.flows)["lines"],
    }
