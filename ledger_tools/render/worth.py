"""The numbers of a house as text or JSON: small tables that fit a phone held sideways. No arithmetic.

Only the length of a bar is worked out here.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from ..days import Period, day_words
from ..money import decimal, decimals, percent, plain, pounds, rate_words, round_half_up
from ..statements.earnings import Earned, describe
from ..statements.figures import Figure
from ..statements.land_tax import Answer, PurchaseTax
from ..statements.money_flows import Rate
from ..statements.rate import HIGHEST, LOWEST
from ..statements.worth import Lending, Worth
from ..statements.worth_year import Ratio, Year
from . import json_form
from .text import columns, indent, paragraph

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


def text(found: Sequence[Worth]) -> str:
    """The numbers of houses, one after the other; then what holds for all of them."""
    pages = ["\n".join(_house(w)) for w in found]
    said = [NAMES] if any(w.years for w in found) else []
    said += dict.fromkeys(w.tax.caution for w in found if w.tax and w.tax.caution)
    return "\n\n".join([*pages, *("\n".join(paragraph(each, "", "")) for each in (*said, LEFT_OUT))])


def _house(w: Worth) -> list[str]:
    out = [f"{w.full}: what it cost and what it brings, as it stood on {day_words(w.day)}"]
    out += _cost(w)
    if w.tax:
        out += _tax(w.tax)
    if w.years:
        out += _years(w)
    if w.lending:
        out += _lending(w.lending)
    if w.empty_week:
        rows = [(f.label, pounds(f.pence)) for f in w.empty_week]
        out += ["", f"  What an empty week costs: {pounds(w.empty_week_total)}"]
        out += indent(columns(rows, right=(1,)), "    ")
    out += _earned(w) + _rates(w.rates)
    if w.notes:
        out.append("")
    for note in w.notes:
        out += paragraph(note, "  * ", "    ")
    return out


def _cost(w: Worth) -> list[str]:
    c = w.cost
    rows = [(f.label, pounds(f.pence)) for f in c.cost]
    rows.append((c.total.label, pounds(c.total.pence)))
    rows += [(f.label, pounds(f.pence)) for f in (c.finance,) if f.trail]
    if c.advances.trail:
        rows.append(("less borrowed", pounds(-c.advances.pence)))
    if c.repaid.trail:
        rows.append((c.repaid.label, pounds(c.repaid.pence)))
    rows.append((c.cash.label, pounds(c.cash.pence)))
    return ["", "  What went into it", *indent(columns(rows, right=(1,)), "    ")]


# ── the tax on the purchase ──────────────────────────────────────────────────────────────────────────────────────


def _tax(t: PurchaseTax) -> list[str]:
    out = ["", f"  The tax on buying it: {t.name}"]
    for answer in t.answers:
        if answer.supposed:
            out += paragraph(f"If {', and '.join(answer.supposed)}:", "    ", "    ")
        out += indent(_slices(answer), "    " if len(t.answers) < 2 else "      ")
    if t.paid.trail:
        fits = t.fits
        said = f"Your book says paid: {pounds(t.paid.pence)}"
        if fits and len(t.answers) > 1:
            out += paragraph(f"{said}, as it is if {', and '.join(fits.supposed)}.", "    ", "    ")
        else:
            out.append(f"    {said}{', the same.' if fits else '.'}")
    for note in t.notes:
        out += paragraph(note, "    * ", "      ")
    return out


def _slices(a: Answer) -> list[str]:
    rows = [
        ("the whole price" if s.whole else f"{pounds(s.low)} to {pounds(s.high)}", rate_words(s.rate * 100),
         pounds(round_half_up(s.tax)))
        for s in a.tax.slices
    ]  # fmt: skip
    rows.append(("together", "", pounds(round_half_up(a.tax.exact))))
    rows.append(("to pay, in whole pounds", "", pounds(a.tax.payable)))
    due = [f"return and payment due by {day_words(a.tax.due)}"] if a.tax.due else []
    return [*columns(rows, right=(1, 2)), *due]


# ── a year of it ─────────────────────────────────────────────────────────────────────────────────────────────────


def _years(w: Worth) -> list[str]:
    rows = [("", *(year.label for year in w.years))]
    for slug, label in (("rent", "rent"), ("costs", "running costs"), ("interest", "loan interest")):
        rows.append((label, *(_sum(getattr(year.sums, slug)) for year in w.years)))
    rows.append(("left over", *(pounds(year.sums.left.pence) for year in w.years)))
    seen: dict[str, str] = {}
    for year in w.years:
        seen.update({r.slug: r.label for r in year.ratios})
    for slug, label in seen.items():
        rows.append((label, *(_ratio(year.ratio(slug)) for year in w.years)))
    even = ("break-even rent a month", *(pounds(y.break_even) if y.break_even is not None else "-" for y in w.years))
    rows.append(even)
    out = ["", "  A year of it", *indent(columns(rows, right=range(1, len(rows[0])), gap="  "), "    ")]
    for said in _explained(w):
        out += paragraph(said, "    ", "    ")
    return out


def _explained(w: Worth) -> list[str]:
    """What each column and each base is."""
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
    bases = w.years[-1].bases
    said.append("Bases: " + ", ".join(f"{base.label} {pounds(base.pence)}" for base in bases) + ".")
    return [*said, *w.gaps]


def _sum(f: Figure) -> str:
    return pounds(f.pence) if f.trail else "-"


def _ratio(r: Ratio | None) -> str:
    if r is None or r.value is None:
        return "-"
    return percent(r.value, 1) if r.unit == "percent" else decimals(r.value, 1 if r.unit == "years" else 2)


def _lending(t: Lending) -> list[str]:
    out = ["", f"  A lender's test at {rate_words(t.stress)}, rent {rate_words(t.cover)} of the interest"]
    rows = [("still owed", pounds(t.owed.pence)), ("rent a month it needs", pounds(t.rent_needed))]
    if t.rent and t.loan_possible is not None:
        rows.append((f"most to owe at {pounds(t.rent.pence)} a year", pounds(t.loan_possible)))
    said = "The rate and the cover are those you typed: they are a lender's custom, no law."
    return [*out, *indent(columns(rows, right=(1,)), "    "), *paragraph(said, "    ", "    ")]


# ── what it earned, and the rate ─────────────────────────────────────────────────────────────────────────────────


def _earned(w: Worth) -> list[str]:
    if not w.all_earned:
        return []
    most = max(abs(e.left.pence) for _, e in w.earned)
    rows = [("", "rent", "costs", "interest", "left over", "left over drawn")]
    rows += [(str(year), *_four(e), _bar(e.left.pence, most)) for year, e in w.earned]
    rows.append(("together", *_four(w.all_earned), ""))
    title = f"  What it brought since {day_words(w.all_earned.days.first)}, by tax year, in whole pounds"
    return ["", title, *indent(columns(rows, right=(1, 2, 3, 4), gap="  "), "    ")]


def _four(e: Earned) -> tuple[str, str, str, str]:
    rent, costs, interest, left = (
        f"{'-' if p < 0 else ''}£{abs(round_half_up(decimal(p))):,}"
        for p in (e.rent.pence, e.costs.pence, e.interest.pence, e.left.pence)
    )
    return rent, costs, interest, left


def _bar(pence: int, most: int) -> str:
    """A bar as long as the sum beside the greatest one; a loss is dotted."""
    signs = abs(pence) * BAR // most if most else 0
    return ("." if pence < 0 else "=") * max(signs, 1 if pence else 0)


def _rates(found: Sequence[Rate]) -> list[str]:
    out: list[str] = []
    for rate in found[:1] if found and found[0].why else found:
        out += paragraph(_rate(rate) if rate.why else f"{rate.label}: {_rate(rate)}", "    ", "      ")
    if found and not found[0].why:
        ends = found[0].flows.trail[-1]
        how = "sold" if found[0].ends == "sold" else f"{ends.words}, {pounds(ends.pence)}"
        said = f"Every sum on its day, from {day_words(found[0].flows.trail[0].day)}; at the end {how}."
        out += paragraph(said, "    ", "    ")
    return ["", "  Internal rate of return, a year", *out] if out else []


def _rate(rate: Rate) -> str:
    if rate.rates is None:
        return f"Not worked out, as {rate.why}."
    if rate.rates.one_way:
        return "none, as all sums go the same way."
    if not rate.rates.found:
        return f"none between {percent(LOWEST, 0)} and {percent(HIGHEST, 0)} makes the sums come out even."
    rates = [percent(r, 2) for r in rate.rates.found]
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
        "rates": [_rate_json(rate) for rate in w.rates],
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
        "found": [str(rate) for rate in r.rates.found] if r.rates else None,
        "why_not": r.why or None,
        "ends": r.ends,
        "flows": json_form.figure(r.flows)["lines"],
    }
