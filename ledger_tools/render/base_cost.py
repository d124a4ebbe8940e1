"""The capital record of a house, and the gain of each owner, as text or JSON. No arithmetic."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from ..days import day_words
from ..money import plain, pounds
from ..statements.base_cost import BaseCost
from ..statements.sale import OwnerGain, Part, Sale
from . import json_form
from .text import columns, indent, paragraph, trail


def text(records: Sequence[BaseCost]) -> str:
    """The records of houses, one after the other."""
    return "\n\n".join("\n".join(_record(record)) for record in records)


def _record(r: BaseCost) -> list[str]:
    out = [f"{r.full}: what counts when it is sold, as it stood on {day_words(r.day)}"]
    for group in r.groups:
        if group.trail:
            out += ["", f"  {group.label}: {pounds(group.pence)}", *trail(group)]
    out += ["", f"  The capital record: {pounds(r.total)}"]
    if r.gone.trail:
        out += ["", f"  {r.gone.label}, so it counts nowhere: {pounds(r.gone.pence)}", *trail(r.gone)]
    if r.open.trail:
        said = f"  {r.open.label}: up to {pounds(r.open.pence)} more, if they turn out capital (`audit --open`)"
        out += ["", said, *trail(r.open)]
    if r.notes:
        out.append("")
    for note in r.notes:
        out += paragraph(note, "  * ", "    ")
    return out + (_sale(r.sale) if r.sale else [])


def _sale(s: Sale) -> list[str]:
    said = "Sold" if s.happened else "If it were sold"
    out = ["", f"  {said} on {day_words(s.day)} for {pounds(s.price)} (an estimate)"]
    if not s.owners:
        return [*out, *paragraph("Your book does not tell whose the house is: add `owners …`.", "    ", "    ")]
    for owner in s.owners:
        out += ["", *_owner(owner, s)]
    if s.report_by:
        words = (
            f"Where there is tax to pay, report and pay it by {day_words(s.report_by)}, if {day_words(s.day)} is the "
            "day of completion."
        )
        out += ["", *paragraph(words, "    ", "    ")]
    out.append("")
    for note in s.notes:
        out += paragraph(note, "    * ", "      ")
    return out


def _owner(o: OwnerGain, s: Sale) -> list[str]:
    d, charge = o.part.disposal, o.charge
    rows = [("price", pounds(d.proceeds))]
    rows += [
        (f"less {words}", pounds(-amount))
        for words, amount in (("costs of selling", d.selling), ("what buying it cost", d.buying),
                              ("improvements", d.enhancement))
        if amount
    ]  # fmt: skip
    rows.append(("gain" if d.gain >= 0 else "loss", pounds(d.gain)))
    if o.part.home:
        rows.append(("less relief for days it was your home", pounds(-o.part.home)))
    rows += [
        (f"{'gain' if p.left >= 0 else 'loss'} on {p.full}, {day_words(p.contract)}", pounds(p.left)) for p in o.others
    ]
    if charge and charge.exempt_used:
        rows.append((f"less the exempt amount of {s.year}", pounds(-charge.exempt_used)))
    if charge and charge.losses_used:
        rows.append(("less losses of earlier years", pounds(-charge.losses_used)))
    if charge and (charge.taxable or d.gain >= 0):
        rows.append((f"taxable, all sales of {s.year}" if o.others else "taxable", pounds(charge.taxable)))
    part = "" if o.part.fraction == 1 else f" ({_share(o.part)})"
    out = [f"    {o.full}{part}", *indent(columns(rows, right=(1,)), "      ")]
    return out + indent(_taxes(o), "      ")


def _share(p: Part) -> str:
    percent = p.fraction * 100
    return f"{percent}%" if percent.denominator == 1 else f"{p.fraction}"


def _taxes(o: OwnerGain) -> list[str]:
    if not o.taxes:
        return ["No rates are held here for that day, so the tax is not worked out."]
    if not o.charge or not o.charge.taxable:
        return ["no tax"]
    if len(o.taxes) == 1:
        tax = o.taxes[0]
        both = ((tax.in_band, tax.low), (tax.above, tax.high))
        slices = [f"{pounds(amount)} at {rate:.0%}" for amount, rate in both if amount]
        together = ", for these sales together" if o.others else ""
        return [f"tax {pounds(tax.tax)}{together} ({' and '.join(slices)})"]
    most, least = max(t.tax for t in o.taxes), min(t.tax for t in o.taxes)
    return paragraph(
        f"tax between {pounds(least)} and {pounds(most)}: it hangs on the income of that year. Tell it in your book: "
        "`other income £… in …`.", "", "",
    )  # fmt: skip


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
        "year": str(s.year),
        "owners": [_owner_json(o) for o in s.owners],
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
            {"property": p.house, "contract": p.contract.isoformat(), "gain": plain(p.left)} for p in o.others
        ],
        "earlier_losses_used": plain(o.charge.losses_used) if o.charge else None,
        "exempt_used": plain(o.charge.exempt_used) if o.charge else None,
        "taxable": plain(o.charge.taxable) if o.charge else None,
        "tax": [plain(t.tax) for t in o.taxes],
    }
