"""An inventory as text or JSON. No arithmetic here."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import groupby
from typing import Any

from ..days import day_words
from ..money import plain, pounds
from ..statements.inventory import Held, HouseInventory
from ..verdicts.inventory import Lot
from ..verdicts.slips import many, plural
from .text import columns, indent

CAME = {
    "left by seller": "left by the seller",
    "ours before": "ours before",
    "used by tenant": "there with a tenant",
    "": "not told",
    "replaced": "for an old one",
}
YES = {True: "yes", False: "no", None: "not told"}


def text(houses: Sequence[HouseInventory], gone: bool) -> str:
    """House by house, room by room; gone: what has left too."""
    return "\n\n".join("\n".join(_house(house, gone)) for house in houses)


def _house(s: HouseInventory, gone: bool) -> list[str]:
    rows: list[tuple[str, ...]]
    out = [f"{s.full}: what was in it on {day_words(s.on)}", ""]
    if s.here:
        rows = [("", "since", "how it came", "tenant had it", "cost", "off the rents", "proof")]
        rooms: dict[int, str] = {}
        for room, things in groupby(s.here, key=lambda held: held.lot.room):
            rooms[len(rows)] = room or "no room told"
            rows += [_row(held) for held in things]
        for i, line in enumerate(indent(columns(rows, right=(4, 5), gap="  "))):
            out += [rooms[i]] if i in rooms else []
            out.append(line)
    else:
        out.append("Nothing loose that your book tells of.")
    if gone and s.gone:
        out += ["", "no longer there"]
        rows = [("", "since", "went", "how it went", "tenant had it", "cost", "off the rents")]
        rows += [_left(held) for held in s.gone]
        out += indent(columns(rows, right=(5, 6), gap="  "))
    return out


def _row(held: Held) -> tuple[str, ...]:
    lot = held.lot
    proofs = ", ".join(proof.file for proof in lot.proofs)
    return called(lot), _day(lot.since), came(lot), YES[lot.tenant], _cost(held), _relief(held), proofs


def _left(held: Held) -> tuple[str, ...]:
    lot = held.lot
    went = lot.how + (f" to {lot.to}" if lot.to else "") + (f" for {pounds(lot.brought)}" if lot.brought else "")
    return called(lot), _day(lot.since), _day(lot.went), went, YES[lot.tenant], _cost(held), _relief(held)


def _day(day: object) -> str:
    return str(day) if day else "not told"


def called(lot: Lot) -> str:
    """The thing with its number: "sofa", "4 chairs", "curtains"."""
    one = lot.key if lot.name.endswith("s") and not lot.key.endswith("s") else lot.name
    if lot.count is None:
        return lot.name
    return one if lot.count == 1 else f"{many(lot.count)} {plural(lot.name)}"


def came(lot: Lot) -> str:
    """How it came, in a few words."""
    return f"from {lot.earlier.house}" if lot.earlier else CAME.get(lot.came, lot.came)


def _cost(held: Held) -> str:
    if held.cost is None:
        return ""
    return pounds(held.cost) + (f" with {' and '.join(held.beside)}" if held.beside else "")


def _relief(held: Held) -> str:
    if held.cost is None:
        return ""
    if held.doubtful:
        return "open"
    if held.at_sale and not held.relief:
        return "when sold"
    return pounds(held.relief) if held.relief else "nothing"


# ── JSON ─────────────────────────────────────────────────────────────────────────────────────────────────────────


def as_json(houses: Sequence[HouseInventory]) -> dict[str, Any]:
    """The same as data."""
    return {
        "statement": "inventory",
        "houses": [
            {
                "property": s.house,
                "name": s.full,
                "on": s.on.isoformat(),
                "here": [_item(held) for held in s.here],
                "gone": [_item(held) for held in s.gone],
            }
            for s in houses
        ],
    }


def _item(held: Held) -> dict[str, Any]:
    lot = held.lot
    bought = lot.bought
    return {
        "thing": lot.name,
        "catalogue": lot.key,
        "nature": lot.nature,
        "count": _count(lot.count),
        "room": lot.room,
        "since": lot.since.first.isoformat() if lot.since else None,
        "came": lot.came or None,
        "from": lot.earlier.house if lot.earlier else None,
        "whose": lot.whose or None,
        "tenant_had_it": lot.tenant,
        "tenant_told": lot.tenant_told,
        "bought_at": bought.entry.source if bought else None,
        "cost": plain(held.cost) if held.cost is not None else None,
        "cost_with": list(held.beside),
        "off_the_rents": plain(held.relief) if held.cost is not None else None,
        "open": plain(held.doubtful) if held.cost is not None else None,
        "when_sold": plain(held.at_sale) if held.cost is not None else None,
        "proof": [{"kind": proof.kind, "file": proof.file} for proof in lot.proofs],
        "went": lot.went.first.isoformat() if lot.went else None,
        "how": lot.how or None,
        "brought": plain(lot.brought) if lot.brought else None,
        "to": lot.to or None,
    }


def _count(count: Fraction | None) -> int | str | None:
    return None if count is None else count.numerator if count.denominator == 1 else many(count)
