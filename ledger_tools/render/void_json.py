"""The council tax of empty homes as JSON; keys are only ever added. No arithmetic."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from ..money import plain, round_half_up
from ..statements.void_letter import evidence
from ..statements.void_parts import BillRow, Row, Void
from . import json_form


def as_json(statements: Sequence[Void]) -> dict[str, Any]:
    """The same as data."""
    return {"statement": "void", "houses": [_json(v) for v in statements]}


def _json(v: Void) -> dict[str, Any]:
    return {
        "property": v.house,
        "name": v.full,
        "nation": v.nation or None,
        "council": v.council or None,
        "on": v.on.isoformat(),
        "from": v.span.first.isoformat(),
        "to": v.span.last.isoformat(),
        "days": [_row_json(row) for row in v.rows],
        "total": plain(v.total),
        "least": plain(v.least),
        "known": v.known,
        "empty_days": v.empty,
        "open": [
            {
                "ask": o.ask,
                "answers": [{"answer": w, "least": plain(low), "most": plain(high)} for w, low, high in o.answers],
                "write": list(o.write),
                "taken": o.usual or None,
                "source": o.source,
            }
            for o in v.open
        ],
        "bills": [_bill_json(b) for b in v.bills],
        "paid": json_form.figure(v.paid),
        "back": json_form.figure(v.back),
        "balance": plain(v.balance) if v.balance is not None else None,
        "ahead": [{"from": a.since.isoformat(), "a_day": _plain(a.a_day), "why": a.why} for a in v.ahead],
        "claims": [
            {"what": c.what, "from": c.days.first.isoformat(), "to": c.days.last.isoformat(), "worth": plain(c.pence),
             "law": c.law, "answer": c.answer or None, "source": c.source or None}
            for c in v.claims
        ],
        "notes": list(v.notes),
        "route": list(v.route),
    }  # fmt: skip


def _plain(exact: Fraction) -> str:
    return plain(round_half_up(exact))


def _row_json(row: Row) -> dict[str, Any]:
    return {
        "from": row.days.first.isoformat(),
        "to": row.days.last.isoformat(),
        "days": row.days.days,
        "council_year": str(row.year),
        "liable": row.party,
        "who": row.who or None,
        "state": row.state or None,
        "share": str(row.share) if row.share is not None else None,
        "annual": plain(row.annual) if row.annual is not None else None,
        "amount": plain(row.pence) if row.pence is not None else None,
        "parts": [{"name": name, "amount": plain(pence)} for name, pence in row.parts],
        "reasons": [{"from": day.isoformat(), "words": words, "law": law} for day, words, law in row.reasons],
        "lines": list(row.sources),
    }


def _bill_json(b: BillRow) -> dict[str, Any]:
    return {
        "source": b.source,
        "day": b.day.isoformat(),
        "from": b.days.first.isoformat() if b.days else None,
        "to": b.days.last.isoformat() if b.days else None,
        "billed": plain(b.billed),
        "known_then": plain(b.then),
        "should_be": plain(b.should) if b.should is not None else None,
        "least": plain(b.least),
        "most": plain(b.most),
        "too_much": plain(b.too_much),
        "explained": b.explained,
        "flat_share": str(b.flat) if b.flat is not None else None,
        "replaced_by": b.replaced or None,
        "instalments": [plain(pence) for pence in b.instalments],
        "reasons": [
            {"code": r.code, "from": r.days.first.isoformat(), "to": r.days.last.isoformat(), "amount": plain(r.pence),
             "words": r.words, "law": r.law, "send": list(evidence(r.code, r.words))}
            for r in b.reasons
        ],
    }  # fmt: skip
