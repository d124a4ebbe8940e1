"""The capital record of a house, and the gain of each owner, as a page, as text or JSON. No arithmetic."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from ..days import day_words
from ..money import plain, pounds
from ..statements.base_cost import SELLING, BaseCost, OwnerGain, Sale
from . import json_form
from .page import Block, Column, Notes, Page, Row, Section, Sum, Table, Words
from .text import cell_words, columns, indent, paragraph, trail

RECORD = (Column("what"), Column("sum", right=True))
SETTLE = "(`audit --open`)"


def page(records: Sequence[BaseCost], checked: str) -> Page:
    """The records of houses, one after the other."""
    return Page("base-cost", "What counts when it is sold", tuple(map(_said, records)), checked)


def text(records: Sequence[BaseCost]) -> str:
    """The same for a terminal, every line of the book under its group."""
    return "\n\n".join("\n".join(_record(record)) for record in records)


def _title(r: BaseCost) -> str:
    return f"{r.full}: what counts when it is sold, as it stood on {day_words(r.day)}"


TOTAL = "The capital record"


def _gone(r: BaseCost) -> str:
    return f"{r.gone.label}, so it counts nowhere"


# ── the page ─────────────────────────────────────────────────────────────────────────────────────────────────────


def _said(r: BaseCost) -> Section:
    rows = [Row((g.label, Sum(g.pence, g.trail)), g.slug) for g in r.groups if g.trail]
    adds = tuple((g.slug, 1) for g in r.groups if g.trail and g.slug != SELLING)
    rows.append(Row((TOTAL, Sum(r.total, adds=adds)), "total", "total"))
    title = _title(r)
    blocks: list[Block] = [Table("record", title, RECORD, tuple(rows))]
    beside = [Row((_gone(r), Sum(r.gone.pence, r.gone.trail)), "gone")] if r.gone.trail else []
    if r.open.trail:
        label = f"{r.open.label}: up to so much more, if they turn out capital {SETTLE}"
        beside.append(Row((label, Sum(r.open.pence, r.open.trail)), "open"))
    if beside:
        blocks.append(Section("beside the record", (Table("beside", "Beside the record", RECORD, tuple(beside)),)))
    blocks += [Notes(r.notes)] if r.notes else []
    return Section(title, (*blocks, *((_sale_said(r.sale),) if r.sale else ())))


def _sale_said(s: Sale) -> Section:
    blocks: list[Block] = [] if s.owners else [Words(NOBODY)]
    for o in s.owners:
        table = Table("gain", f"{_who(o)}: {_sold(s)}", RECORD, tuple(_gain(o)))
        blocks.append(Section(_who(o), (table, Words(_tax(o)))))
    return Section(_sold(s), (*blocks, *((Words(said),) if (said := _report(s)) else ())))


# ── what both forms say ──────────────────────────────────────────────────────────────────────────────────────────

NOBODY = "Your book does not tell whose the house is: add `owners …`."


def _sold(s: Sale) -> str:
    said = "Sold" if s.happened else "If it were sold"
    return f"{said} on {day_words(s.day)} for {pounds(s.price)} (an estimate)"


def _report(s: Sale) -> str:
    if not s.owners or s.report_by is None:
        return ""
    return (
        f"Where there is tax to pay, report and pay it by {day_words(s.report_by)}, if {day_words(s.day)} is the "
        "day of completion. The year and the rate follow the day of the contract."
    )


def _who(o: OwnerGain) -> str:
    return o.full if o.fraction == 1 else f"{o.full} ({_share(o)})"


def _share(o: OwnerGain) -> str:
    percent = o.fraction * 100
    return f"{percent}%" if percent.denominator == 1 else f"{o.fraction}"


def _gain(o: OwnerGain) -> Iterator[Row]:
    """From the price to what is taxed, a row a step."""
    d = o.disposal
    costs = [
        Row((f"less {words}", Sum(-amount)), key)
        for key, words, amount in (("selling", "costs of selling", d.selling),
                                   ("buying", "what buying it cost", d.buying),
                                   ("improvements", "improvements", d.enhancement))
        if amount
    ]  # fmt: skip
    yield Row(("price", Sum(d.proceeds)), "price")
    yield from costs
    yield Row(("gain" if d.gain >= 0 else "loss", Sum(d.gain)), "gain", "total")  # in whole pounds, so no mere sum
    if o.home:
        yield Row(("less relief for days it was your home", Sum(-o.home)), "home")
    if o.charge and o.charge.exempt_used:
        yield Row(("less the exempt amount of the year", Sum(-o.charge.exempt_used)), "exempt")
    if o.charge and d.gain >= 0:
        yield Row(("taxable", Sum(o.charge.taxable)), "taxable", "total")


def _tax(o: OwnerGain) -> str:
    if not o.taxes:
        return "No rates are held here for that day, so the tax is not worked out."
    if not o.charge or not o.charge.taxable:
        return "no tax"
    if len(o.taxes) == 1:
        tax = o.taxes[0]
        both = ((tax.in_band, tax.low), (tax.above, tax.high))
        slices = [f"{pounds(amount)} at {rate:.0%}" for amount, rate in both if amount]
        return f"tax {pounds(tax.tax)} ({' and '.join(slices)})"
    most, least = max(t.tax for t in o.taxes), min(t.tax for t in o.taxes)
    return (
        f"tax between {pounds(least)} and {pounds(most)}: it hangs on the income of that year. Tell it in your book: "
        "`other income £… in …`."
    )


# ── text ─────────────────────────────────────────────────────────────────────────────────────────────────────────


def _record(r: BaseCost) -> list[str]:
    out = [_title(r)]
    for group in r.groups:
        if group.trail:
            out += ["", f"  {group.label}: {pounds(group.pence)}", *trail(group.trail)]
    out += ["", f"  {TOTAL}: {pounds(r.total)}"]
    if r.gone.trail:
        out += ["", f"  {_gone(r)}: {pounds(r.gone.pence)}", *trail(r.gone.trail)]
    if r.open.trail:
        said = f"  {r.open.label}: up to {pounds(r.open.pence)} more, if they turn out capital {SETTLE}"
        out += ["", said, *trail(r.open.trail)]
    if r.notes:
        out.append("")
    for note in r.notes:
        out += paragraph(note, "  * ", "    ")
    return out + (_sale(r.sale) if r.sale else [])


def _sale(s: Sale) -> list[str]:
    out = ["", f"  {_sold(s)}"]
    if not s.owners:
        return [*out, *paragraph(NOBODY, "    ", "    ")]
    for o in s.owners:
        rows = [tuple(map(cell_words, row.cells)) for row in _gain(o)]
        out += ["", f"    {_who(o)}", *indent([*columns(rows, right=(1,)), *paragraph(_tax(o), "", "")], "      ")]
    if said := _report(s):
        out += ["", *paragraph(said, "    ", "    ")]
    return out


# ── JSON ─────────────────────────────────────────────────────────────────────────────────────────────────────────


def as_json(records: Sequence[BaseCost]) -> dict[str, Any]:
    """The same as data."""
    return {"statement": "base-cost", "houses": [_record_json(record) for record in records]}


def _record_json(r: BaseCost) -> dict[str, Any]:
    return {
        "property": r.house,
        "name": r.full,
        "day": r.day.isoformat(),
        "groups": [{"group": g.slug, "label": g.label, **json_form.figure(g)} for g in r.groups],
        "total": plain(r.total),
        "gone": json_form.figure(r.gone),
        "open": json_form.figure(r.open),
        "sale": _sale_json(r.sale) if r.sale else None,
        "notes": list(r.notes),
    }


def _sale_json(s: Sale) -> dict[str, Any]:
    return {
        "day": s.day.isoformat(),
        "price": plain(s.price),
        "happened": s.happened,
        "report_by": s.report_by.isoformat() if s.report_by else None,
        "owners": [_owner_json(o) for o in s.owners],
    }


def _owner_json(o: OwnerGain) -> dict[str, Any]:
    d = o.disposal
    return {
        "owner": o.owner,
        "name": o.full,
        "share": str(o.fraction),
        "price": plain(d.proceeds),
        "selling": plain(d.selling),
        "buying": plain(d.buying),
        "improvements": plain(d.enhancement),
        "gain": plain(d.gain),
        "home_relief": plain(o.home),
        "exempt_used": plain(o.charge.exempt_used) if o.charge else None,
        "taxable": plain(o.charge.taxable) if o.charge else None,
        "tax": [plain(t.tax) for t in o.taxes],
    }
