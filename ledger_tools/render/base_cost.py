"""The capital record of a house, and the gain of each owner, as a page, as text or JSON. No arithmetic."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Any

from ..days import day_words
from ..money import plain, pounds
from ..statements.base_cost import SELLING, BaseCost
from ..statements.passings import percent
from ..statements.sold import OwnerGain, Part, Sale, Waiting
from . import json_form
from .columns import columns
from .page import Bars, Block, Column, Notes, Page, Row, Section, Sum, Table, Words
from .text import cell_words, paragraph, title, trail

RECORD = (Column("what"), Column("sum", right=True))
GREW = (Column("tax year"), Column("added", right=True), Column("by its end", right=True))
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
        much = "up to so much more" if r.open.pence >= 0 else "so much less"
        label = f"{r.open.label}: {much}, if they turn out capital {SETTLE}"
        beside.append(Row((label, Sum(r.open.pence, r.open.trail)), "open"))
    if beside:
        blocks.append(Section("beside the record", (Table("beside", "Beside the record", RECORD, tuple(beside)),)))
    blocks += [_grew(r)] if len(r.along) > 1 else []
    blocks += [Notes(r.notes)] if r.notes else []
    return Section(title, (*blocks, *map(_sale_said, _sales(r))))


def _sales(r: BaseCost) -> tuple[Sale, ...]:
    """What was passed on, then the sale, if there is one."""
    return (*r.passed_on, *((r.sale,) if r.sale else ()))


def _grew(r: BaseCost) -> Section:
    """The record along the years, of what stands in it now."""
    title = "How it grew, of what still counts"
    rows = tuple(Row((str(year), Sum(added.pence, added.trail), Sum(held)), str(year)) for year, added, held in r.along)
    drawn = tuple((str(year), held) for year, _, held in r.along if held > 0)
    picture = (Bars("In the record at the end of each tax year that added to it", drawn),) if drawn else ()
    return Section(title, (*picture, Table("grew", f"{r.full}: {title}", GREW, rows)))


def _sale_said(s: Sale) -> Section:
    blocks: list[Block] = [] if s.owners or s.waiting else [Words(NOBODY)]
    for o in s.owners:
        table = Table("gain", f"{_who(o)}: {_sold(s)}", RECORD, tuple(_gain(o, s)))
        blocks.append(Section(_who(o), (table, Words(_tax(o)))))
    blocks += [Section(_named(w.full, w.fraction), (Words(_waits(w)),)) for w in s.waiting]
    blocks += [Words(said)] if (said := _report(s)) else []
    return Section(_sold(s), (*blocks, *((Notes(s.notes),) if s.notes else ())))


# ── what both forms say ──────────────────────────────────────────────────────────────────────────────────────────

NOBODY = "Your book does not tell whose the house is: add `owners …`."


def _sold(s: Sale) -> str:
    if s.passed:
        part = percent(sum((o.part.fraction for o in s.owners), Fraction(0)))
        return f"{part} passed on, {day_words(s.day)}, worth {pounds(s.price)} (an estimate)"
    said = "Sold" if s.happened else "If it were sold"
    return f"{said} on {day_words(s.day)} for {pounds(s.price)} (an estimate)"


def _report(s: Sale) -> str:
    """By when to report, and which tax year it belongs to: the one runs from completion, the other by the contract."""
    if not (s.owners or s.waiting) or s.report_by is None:
        return ""
    said = f"Where there is tax to pay, report and pay it by {day_words(s.report_by)}"
    if s.passed:
        return f"{said}."
    if s.exchanged is None:
        return f"{said}, if {day_words(s.day)} is the day of completion."
    return (
        f"{said}: the days run from completion on {day_words(s.day)}. The contract of {day_words(s.exchanged)} puts "
        f"the sale in {s.year}, with the exempt amount and the rates of that day (TCGA 1992 s. 28, from memory)."
    )


def _who(o: OwnerGain) -> str:
    return _named(o.full, o.part.fraction)


def _named(full: str, fraction: Fraction) -> str:
    return full if fraction == 1 else f"{full} ({percent(fraction)})"


def _waits(w: Waiting) -> str:
    return (
        f"Not worked out: what this part cost hangs on what the house was worth on {day_words(w.day)}, which your book "
        "does not tell (see above)."
    )


def _gain(o: OwnerGain, s: Sale) -> Iterator[Row]:
    """From the price to what is taxed of all the owner's sales of the year, a row a step."""
    d, charge = o.part.disposal, o.charge
    costs = [
        Row((f"less {words}", Sum(-amount)), key)
        for key, words, amount in (("selling", "costs of selling", d.selling),
                                   ("buying", "what buying it cost", d.buying),
                                   ("improvements", "improvements", d.enhancement))
        if amount
    ]  # fmt: skip
    yield Row(("value of that day" if s.passed else "price", Sum(d.proceeds)), "price")
    yield from costs
    yield Row(("gain" if d.gain >= 0 else "loss", Sum(d.gain)), "gain", "total")  # in whole pounds, so no mere sum
    if o.part.home:
        yield Row(("less relief for days it was your home", Sum(-o.part.home)), "home")
    for p in o.others:
        yield Row((f"{'gain' if p.left >= 0 else 'loss'} on {_of(p)}, {day_words(p.contract)}", Sum(p.left)), p.house)
    if charge and charge.exempt_used:
        yield Row((f"less the exempt amount of {s.year}", Sum(-charge.exempt_used)), "exempt")
    if charge and charge.losses_used:
        yield Row(("less losses of earlier years", Sum(-charge.losses_used)), "losses")
    if charge and (charge.taxable or d.gain >= 0):
        said = f"taxable, all sales of {s.year}" if o.others else "taxable"
        yield Row((said, Sum(charge.taxable)), "taxable", "total")


def _of(p: Part) -> str:
    return f"{percent(p.fraction)} of {p.full} passed on" if p.passed else p.full


def _tax(o: OwnerGain) -> str:
    if not o.taxes:
        return "No rates are held here for that day, so the tax is not worked out."
    if not o.charge or not o.charge.taxable:
        return "no tax"
    if len(o.taxes) == 1:
        tax = o.taxes[0]
        both = ((tax.in_band, tax.low), (tax.above, tax.high))
        slices = [f"{pounds(amount)} at {rate:.0%}" for amount, rate in both if amount]
        together = ", for these sales together" if o.others else ""
        return f"tax {pounds(tax.tax)}{together} ({' and '.join(slices)})"
    most, least = max(t.tax for t in o.taxes), min(t.tax for t in o.taxes)
    return (
        f"tax between {pounds(least)} and {pounds(most)}: it hangs on the income of that year. Tell it in your book: "
        "`other income £… in …`."
    )


# ── text ─────────────────────────────────────────────────────────────────────────────────────────────────────────


def _record(r: BaseCost) -> list[str]:
    out = title(_title(r))
    for group in r.groups:
        if group.trail:
            out += ["", f"  {group.label}: {pounds(group.pence)}", *trail(group)]
    out += ["", f"  {TOTAL}: {pounds(r.total)}"]
    if r.gone.trail:
        out += ["", f"  {_gone(r)}: {pounds(r.gone.pence)}", *trail(r.gone)]
    if r.open.trail:
        said = f"up to {pounds(r.open.pence)} more" if r.open.pence >= 0 else f"{pounds(-r.open.pence)} less"
        out += ["", f"  {r.open.label}: {said}, if they turn out capital {SETTLE}", *trail(r.open)]
    if r.notes:
        out.append("")
    for note in r.notes:
        out += paragraph(note, "  * ", "    ")
    for s in _sales(r):
        out += _sale(s)
    return out


def _sale(s: Sale) -> list[str]:
    out = ["", f"  {_sold(s)}"]
    if not s.owners and not s.waiting:
        return [*out, *paragraph(NOBODY, "    ", "    ")]
    for o in s.owners:
        rows = [tuple(map(cell_words, row.cells)) for row in _gain(o, s)]
        out += ["", f"    {_who(o)}", *columns(rows, right=(1,), margin="      ")]
        out += paragraph(_tax(o), "      ", "      ")
    for w in s.waiting:
        out += ["", f"    {_named(w.full, w.fraction)}", *paragraph(_waits(w), "      ", "      ")]
    if said := _report(s):
        out += ["", *paragraph(said, "    ", "    ")]
    out.append("")
    for note in s.notes:
        out += paragraph(note, "    * ", "      ")
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
        "passed_on": [_sale_json(s) for s in r.passed_on],
        "notes": list(r.notes),
    }


def _sale_json(s: Sale) -> dict[str, Any]:
    return {
        "day": s.day.isoformat(),
        "price": plain(s.price),
        "happened": s.happened,
        "report_by": s.report_by.isoformat() if s.report_by else None,
        "year": str(s.year),
        "owners": [_owner_json(o) for o in s.owners],
        "waiting": [
            {"owner": w.owner, "name": w.full, "share": str(w.fraction), "value_of": w.day.isoformat()}
            for w in s.waiting
        ],
        "notes": list(s.notes),
    }


def _owner_json(o: OwnerGain) -> dict[str, Any]:
    d = o.part.disposal
    return {
        "owner": o.owner,
        "name": o.full,
        "share": str(o.part.fraction),
        "price": plain(d.proceeds),
        "selling": plain(d.selling),
        "buying": plain(d.buying),
        "improvements": plain(d.enhancement),
        "gain": plain(d.gain),
        "home_relief": plain(o.part.home),
        "other_sales": [
            {"property": p.house, "contract": p.contract.isoformat(), "gain": plain(p.left), "passed_on": p.passed}
            for p in o.others
        ],
        "earlier_losses_used": plain(o.charge.losses_used) if o.charge else None,
        "exempt_used": plain(o.charge.exempt_used) if o.charge else None,
        "taxable": plain(o.charge.taxable) if o.charge else None,
        "tax": [plain(t.tax) for t in o.taxes],
    }
