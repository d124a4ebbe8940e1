"""Statements as JSON: money as strings with two decimals, every figure with its source lines.

The shapes are described in DEVELOPERS.md; keys are only ever added.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from datetime import date
from typing import Any

from ..money import plain
from ..statements.figures import Figure, Trace
from ..statements.in_tax import InTax
from ..statements.profit import HouseProfit, Line
from ..statements.year_end import OpenItem, OwnerYear, YearEnd
from . import asked_once


def dump(value: Any) -> str:
    """JSON text as people can read it too."""
    return json.dumps(value, indent=2, ensure_ascii=False)


def trace(t: Trace) -> dict[str, str]:
    """A line of the book in a figure."""
    told = {"source": t.source, "day": t.day.isoformat(), "words": t.words, "amount": plain(t.pence)}
    return {**told, "counts": t.counts.isoformat()} if t.counts else told


def figure(f: Figure) -> dict[str, Any]:
    """A figure with its lines."""
    return {"amount": plain(f.pence), "lines": [trace(t) for t in f.trail]}


def profit(statements: Sequence[HouseProfit]) -> dict[str, Any]:
    """The profit statements."""
    return {"statement": "profit", "houses": [_house(s) for s in statements]}


def _house(s: HouseProfit) -> dict[str, Any]:
    return {
        "property": s.house or None,
        "name": s.full,
        "tax_year": str(s.year),
        "days_held": s.days_held,
        "days_let": s.days_let,
        "income": [_line(line) for line in (*s.income, s.open_in)],
        "expenses": [_line(line) for line in (*s.expenses, s.finance, s.works, s.open, s.waiting)],
        "result": _line(s.result, lines=False),
        "rents": {"due": plain(s.rent_due), "came_in": plain(s.rent_came)},
        "beside": [{"account": f.slug, **figure(f)} for f in s.below],
    }


def _line(line: Line, lines: bool = True) -> dict[str, Any]:
    told = {"slug": line.slug, "label": line.label}
    if not lines:
        return {**told, "money": plain(line.money.pence), "tax": plain(line.tax.pence)}
    return {**told, "money": figure(line.money), "tax": figure(line.tax)}


def year_end(s: YearEnd) -> dict[str, Any]:
    """The tax year of a book."""
    return {
        "statement": "year-end",
        "tax_year": str(s.year),
        "owners": [_owner(o) for o in s.owners],
        "blank": [{"boxes": numbers, "why": why} for numbers, why in s.blank],
        "cautions": list(s.cautions),
        "checked": s.checked,
        "due": [
            {"what": d.what, "days": [day.isoformat() for day in d.days], "words": d.says, "source": d.source or None}
            for d in s.due
        ],
        "late": s.late,
        **({"later": list(s.later)} if s.later else {}),
    }


def _owner(o: OwnerYear) -> dict[str, Any]:
    return {
        "owner": o.owner,
        "name": o.full,
        "basis": o.basis,
        "ticks": [{"box": number, "put": put} for number, put in o.ticks],
        "boxes": [{"box": b.number, "caption": b.caption, "pounds": b.pounds, **figure(b.figure)} for b in o.boxes],
        "open": [_open(i) for i in o.open],
        "left_out": [{**trace(i.trace), "kind": str(i.kind), "why": i.why} for i in o.left_out],
        "notes": list(o.notes),
        "loss_carried_forward": o.loss_on,
        "in_tax": _in_tax(o.in_tax),
    }


def _open(i: OpenItem) -> dict[str, Any]:
    w = i.worth
    worth = (
        {"tax": plain(w.tax), "finance_carried": plain(w.finance_on), "loss_carried": plain(w.loss_on)} if w else None
    )
    told = {"box": i.box, "answers": list(i.answers), "add": list(i.ask), "worth": worth, "follows": list(i.follows)}
    told["came_back"] = list(i.came_back)
    question = {"question": asked_once.as_data(i.question)} if i.question else {}
    return {**trace(i.trace), **told, **question}


def _in_tax(t: InTax) -> dict[str, Any]:
    """The estimate; amounts only where the book tells enough."""
    told: dict[str, Any] = {"nation": t.nation or None, "notes": list(t.notes), "add": t.tell or None, "estimate": None}
    e = t.estimate
    if e is None:
        return told
    r = e.relief
    told["estimate"] = {
        "other_income": plain(e.other),
        "profit": plain(e.profits),
        "tax_without_letting": plain(e.without),
        "tax_before_reduction": plain(e.before),
        "reduction": plain(e.reduction),
        "tax": plain(e.tax),
        "letting_adds": plain(e.added),
        "finance_costs": plain(r.costs),
        "income_above_allowance": plain(r.income),
        "reduction_limited_by": str(r.cap) if r.costs else None,
        "finance_costs_carried_forward": plain(r.left),
    }
    told["to_pay"] = [
        {
            "other_tax_paid": p.how or None,
            **_payment(p.last.day, p.last.pence),
            "on_account": [_payment(each.day, each.pence) for each in p.on_account],
        }
        for p in t.to_pay
    ]
    return told


def _payment(day: date, pence: int) -> dict[str, str]:
    return {"day": day.isoformat(), "amount": plain(pence)}
