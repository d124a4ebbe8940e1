"""An inventory as a page, as text or JSON. No arithmetic here."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import groupby
from typing import Any

from ..days import day_words
from ..money import plain, pounds
from ..statements.audit import words
from ..statements.figures import Trace
from ..statements.inventory import Held, HouseInventory
from ..verdicts.inventory import Lot
from ..verdicts.slips import many, plural
from .columns import lined_up
from .page import Block, Cell, Column, Page, Row, Section, Sum, Table, Words
from .text import cell_words, title

CAME = {
    "left by seller": "left by the seller",
    "ours before": "ours before",
    "used by tenant": "there with a tenant",
    "": "not told",
    "replaced": "for an old one",
}
YES = {True: "yes", False: "no", None: "not told"}


HERE = (
    Column("thing", quiet=True), Column("since"), Column("how it came"), Column("tenant had it"),
    Column("cost", right=True), Column("off the rents", right=True), Column("proof"),
)  # fmt: skip
GONE = (
    Column("thing", quiet=True), Column("since"), Column("went"), Column("how it went"), Column("tenant had it"),
    Column("cost", right=True), Column("off the rents", right=True),
)  # fmt: skip
LEFT = "no longer there"
NOTHING = "Nothing loose that your book tells of."
ABOUT = "Only what your book tells of; what is fixed to the house is not listed."


def page(houses: Sequence[HouseInventory], gone: bool, checked: str) -> Page:
    """House by house, room by room; gone: what has left too."""
    return Page("inventory", "What is in each house", tuple(_said(h, gone) for h in houses), f"{ABOUT} {checked}")


def _title(s: HouseInventory) -> str:
    return f"{s.full}: what was in it on {day_words(s.on)}"


def _said(s: HouseInventory, gone: bool) -> Section:
    blocks: list[Block] = [Words(NOTHING)]
    if s.here:
        rows: list[Row] = []
        first = _first(s.here)
        for room, things in groupby(s.here, key=lambda held: held.lot.room):
            rows += [Row((room or "no room told",), kind="heading"), *(_row(held, first) for held in things)]
        blocks = [Table("here", _title(s), HERE, tuple(rows))]
    if gone and s.gone:
        first = _first(s.gone)
        table = Table("gone", f"{s.full}: {LEFT}", GONE, tuple(_left(held, first) for held in s.gone))
        blocks.append(Section(LEFT, (table,)))
    return Section(_title(s), tuple(blocks))


def text(houses: Sequence[HouseInventory], gone: bool) -> str:
    """The same for a terminal: each room over its things."""
    return "\n\n".join("\n".join(_house(house, gone)) for house in houses)


def _house(s: HouseInventory, gone: bool) -> list[str]:
    here, *left = _said(s, gone).blocks
    out = [*title(_title(s)), "", *(_lines(here) if isinstance(here, Table) else [NOTHING])]
    for section in left:
        if isinstance(section, Section) and isinstance(table := section.blocks[0], Table):
            out += ["", LEFT, *_lines(table)]
    return out


def _lines(table: Table) -> list[str]:
    names = tuple("" if column.quiet else column.name for column in table.columns)
    rows = [row for row in table.rows if row.kind == "line"]
    drawn = iter(lined_up([names, *(tuple(map(cell_words, row.cells)) for row in rows)],
                          [i for i, column in enumerate(table.columns) if column.right], "  ", "  "))  # fmt: skip
    said = [next(drawn), *(next(drawn) if row.kind == "line" else [cell_words(row.cells[0])] for row in table.rows)]
    return [line for lines in said for line in lines]


def _first(held: Sequence[Held]) -> dict[str, Held]:
    """By the line that bought them, which of several things with one price bears it in a list: the first."""
    first: dict[str, Held] = {}
    for one in held:
        if one.beside and one.lot.bought:
            first.setdefault(one.lot.bought.entry.source, one)
    return first


def _borne_by(held: Held, first: dict[str, Held]) -> str:
    """The thing that bears its price in the list, where that is another one: a sum stands once."""
    bears = first.get(held.lot.bought.entry.source, held) if held.lot.bought else held
    return "" if bears is held else f"with {bears.lot.name}"


def _row(held: Held, first: dict[str, Held]) -> Row:
    lot = held.lot
    proofs = ", ".join(proof.file for proof in lot.proofs)
    how = came(lot) + ("" if _borne_by(held, first) else _beside(held))
    return Row((called(lot), _day(lot.since), how, YES[lot.tenant], *_sums(held, first), proofs))


def _left(held: Held, first: dict[str, Held]) -> Row:
    lot = held.lot
    went = lot.how + (f" to {lot.to}" if lot.to else "") + (f" for {pounds(lot.brought)}" if lot.brought else "")
    went += "" if _borne_by(held, first) else _beside(held)
    return Row((called(lot), _day(lot.since), _day(lot.went), went, YES[lot.tenant], *_sums(held, first)))


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


def _beside(held: Held) -> str:
    """What else its price was for."""
    return f", priced with {' and '.join(held.beside)}" if held.beside else ""


def _sums(held: Held, first: dict[str, Held]) -> tuple[Cell, Cell]:
    """What it cost and what of that came off; of things with one price the first alone has them."""
    borne = _borne_by(held, first)
    return (borne, borne) if borne else (_cost(held), _relief(held))


def _cost(held: Held) -> Cell:
    if held.cost is None:
        return ""
    return Sum(held.cost, _bought(held, held.cost))


def _relief(held: Held) -> Cell:
    if held.cost is None:
        return ""
    if held.doubtful:
        return "open"
    if held.at_sale and not held.relief:
        return "when sold"
    return Sum(held.relief, _bought(held, held.relief)) if held.relief else "nothing"


def _bought(held: Held, pence: int) -> tuple[Trace, ...]:
    """The line that bought it, with this part of its sum."""
    line = held.lot.bought
    if line is None:
        return ()
    entry = line.entry
    return (Trace(entry.source, entry.day.first, words(entry), pence, -1),)


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
