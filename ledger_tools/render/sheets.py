"""The tables of a page as plain rows for a spreadsheet: each by its name, with the lines behind its figures, and CSV.

What comes from a book stays text: a cell that a spreadsheet would take for a formula is marked as words.
"""

from __future__ import annotations

import csv
import io
import unicodedata
from collections.abc import Iterator, Sequence
from datetime import date

from ..ledger.rows import Row as MoneyRow
from ..money import plain
from ..record import record
from .page import Cell, Items, Page, Sum, trails
from .places import Places
from .text import cell_words

LINES, MONEY, ITEMS = "lines", "money", "items"
LINES_NAMES = ("statement", "table", "figure", "day", "words", "sum", "line", "counts on")
MONEY_NAMES = (
    "house", "owed", "paid", "counts", "way", "sum", "answer", "category", "gain", "account", "thing", "verb", "who",
    "line",
)  # fmt: skip
ITEM_NAMES = ("of", "day", "words", "sum", "answer", "told", "beside", "line")


class NoSuchTable(ValueError):
    """A page holds no table of that name; the text says which it holds."""


@record
class Flat:
    """A table with a name to each column and a cell to each column in every row."""

    name: str
    names: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


def choose(page: Page, money: Sequence[MoneyRow], name: str = "") -> Flat:
    """The table of that name, or the first of the page. NoSuchTable where there is none."""
    found = [*dict.fromkeys(table.name for _, table in page.tables()), *([ITEMS] if any(_items(page)) else [])]
    known = [*found, LINES, MONEY]
    name = name or (known[0] if page.statement != "audit" else ITEMS)
    if name not in known:
        raise NoSuchTable(f'there is no table "{name}" here; there are {", ".join(known)}.')
    if name == LINES:
        return Flat(LINES, LINES_NAMES, tuple(lines(page)))
    if name == MONEY:
        return Flat(MONEY, MONEY_NAMES, tuple(map(money_cells, money)))
    return Flat(ITEMS, ITEM_NAMES, tuple(_items(page))) if name == ITEMS else _together(page, name)


def _together(page: Page, name: str) -> Flat:
    """All tables of a name as one, each row with the section and the heading it stands under, and what is noted.

    Where a table lacks a column that another has, its cells there are empty.
    """
    tables = [(where, table) for where, table in page.tables() if table.name == name]
    names = tuple(dict.fromkeys(column.name for _, table in tables for column in table.columns))
    rows: list[tuple[Cell, ...]] = []
    for where, table in tables:
        heading: Cell = ""
        for row in table.rows:
            if row.kind == "heading":
                heading = row.cells[0]
                continue
            cells = dict(zip((column.name for column in table.columns), row.cells, strict=True))
            rows.append((where, heading if row.kind == "line" else "", *(cells.get(n, "") for n in names), row.note))
    return Flat(name, ("of", "group", *names, "note"), tuple(rows))


def lines(page: Page) -> Iterator[tuple[Cell, ...]]:
    """Every line of the book behind a figure of the page, by table, row and, where its sums differ, column."""
    for where, table in page.tables():
        for row in table.rows:
            found = list(trails(row))
            for i, traces in found:
                label = " ".join(cell_words(cell) for cell in row.cells[:i] if isinstance(cell, str) and cell)
                figure = f"{label}, {table.columns[i].name}" if len(found) > 1 else label
                for t in traces:
                    yield where, table.name, figure, t.day, t.words, Sum(t.pence), t.source, t.counts or ""


def money_cells(row: MoneyRow) -> tuple[Cell, ...]:
    """A row of the one table of money lines."""
    return (
        row.house, row.owed or "", row.paid or "", row.counts or "", row.way, Sum(row.pence), str(row.kind),
        row.category, str(row.cgt), row.account, row.thing, row.verb, row.who, row.source,
    )  # fmt: skip


def _items(page: Page) -> Iterator[tuple[Cell, ...]]:
    """The items of a page, a row for each part of their sums."""
    for section in page.sections:
        for block in section.every():
            for item in block.items if isinstance(block, Items) else ():
                told = " ".join(f"{label}: {words}" if label else words for label, words in item.told)
                for pence, answer in item.sums:
                    yield section.title, item.day, item.words, pence, answer, told, item.beside, item.source


# ── CSV ──────────────────────────────────────────────────────────────────────────────────────────────────────────


def as_csv(flat: Flat, places: Places) -> str:
    """The table as CSV with its names on top: sums as 1234.50, days as 2025-06-09, words as words."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(flat.names)
    writer.writerows([_csv_cell(cell, places) for cell in row] for row in flat.rows)
    return out.getvalue()


def _csv_cell(cell: Cell, places: Places) -> str:
    if isinstance(cell, Sum):
        return plain(cell.pence)
    return cell.isoformat() if isinstance(cell, date) else words_only(places.short(cell_words(cell)))


FORMULA = ("=", "+", "-", "@", "＝", "＋", "－", "＠")


def words_only(words: str) -> str:
    """Words that no spreadsheet takes for a formula: an apostrophe goes before a sign that would begin one.

    Signs that steer a terminal or break a line come out as a dot. A dash that stands alone is no formula.
    """
    said = harmless(words)
    return f"'{said}" if said.lstrip(" ·'").startswith(FORMULA) and said != "-" else said


def harmless(words: str) -> str:
    """Words without signs that steer a program, each of them a dot."""
    if words.isprintable():
        return words
    return "".join("·" if unicodedata.category(sign) in ("Cc", "Cs", "Zl", "Zp") else sign for sign in words)
