"""A page as an .xlsx workbook: the statement, the lines behind its figures, and the one table of money lines.

Sums are numbers and days are days; a figure is the sum of its lines, a total the sum of its rows, both as formulas, so
the workbook recalculates to what the page says. Words never become formulas. The same page makes the same bytes.
"""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Iterable, Sequence
from datetime import date
from typing import TYPE_CHECKING, Any

from ..ledger.rows import Row as MoneyRow
from ..money import decimal
from .page import Block, Cell, Code, Items, Notes, Page, Row, Section, Sum, Table, Terms, Words
from .places import Places
from .sheets import LINES_NAMES, MONEY_NAMES, harmless, lines, money_cells

if TYPE_CHECKING:
    from openpyxl.cell import Cell as Field
    from openpyxl.worksheet.worksheet import Worksheet

MONEY_FORM, WHOLE_FORM, DAY_FORM = '"£"#,##0.00;-"£"#,##0.00', '"£"#,##0;-"£"#,##0', "d mmm yyyy"
SUMS = "ABCDEFGH"[LINES_NAMES.index("sum")]
LONGEST = 32_767  # signs a cell may hold
BEGAN = (1980, 1, 1, 0, 0, 0)  # the first moment the form knows; the true one would make no two files alike


class NoWorkbooks(RuntimeError):
    """The library that writes workbooks is not there; the text says how to get it."""


def workbook(page: Page, money: Sequence[MoneyRow], places: Places) -> bytes:
    """The file. NoWorkbooks where openpyxl is missing."""
    try:
        from openpyxl import Workbook
    except ImportError:
        said = "Workbooks need one more library: install it with `pip install 'landlord-books[xlsx]'`."
        raise NoWorkbooks(said) from None
    book = Workbook()
    assert book.active is not None
    book.remove(book.active)
    statement = _Statement(book.create_sheet(page.statement.capitalize()), page, places)
    behind = book.create_sheet("Lines")
    _listed(behind, LINES_NAMES, lines(page), places)
    _listed(book.create_sheet("Money"), MONEY_NAMES, map(money_cells, money), places)
    statement.write()
    book.calculation.fullCalcOnLoad = True
    held = io.BytesIO()
    book.save(held)
    return _undated(held.getvalue())


def _listed(sheet: Worksheet, names: Sequence[str], rows: Iterable[tuple[Cell, ...]], places: Places) -> None:
    """A plain table with its names on top, which stay in sight."""
    for i, name in enumerate(names, 1):
        _put(sheet.cell(1, i), name, places, bold=True)
    for number, row in enumerate(rows, 2):
        for i, cell in enumerate(row, 1):
            _put(sheet.cell(number, i), cell, places)
    sheet.freeze_panes = "A2"
    sheet.auto_filter.ref = sheet.dimensions
    _widen(sheet)


def _put(field: Field, cell: Cell, places: Places, bold: bool = False) -> None:
    """One cell: a number, a day or words, and words stay words whatever they begin with."""
    from openpyxl.styles import Font

    if isinstance(cell, Sum):
        field.value = decimal(cell.pence)
        field.number_format = WHOLE_FORM if cell.whole else MONEY_FORM
    elif isinstance(cell, date):
        field.value = cell
        field.number_format = DAY_FORM
    elif cell:
        field.value = harmless(places.short(cell))[:LONGEST]
        field.data_type = "s"
        field.quotePrefix = True
    if bold:
        field.font = Font(bold=True)


def _widen(sheet: Worksheet) -> None:
    from openpyxl.utils import get_column_letter

    for i, column in enumerate(sheet.iter_cols(), 1):
        longest = max((len(str(field.value)) for field in column[:500] if field.value is not None), default=0)
        sheet.column_dimensions[get_column_letter(i)].width = min(max(longest + 2, 10), 60)


class _Statement:
    """Writes the sheet of the statement, row by row; counts the lines behind it as `lines` lists them."""

    def __init__(self, sheet: Worksheet, page: Page, places: Places) -> None:
        self.places = places
        self.sheet = sheet
        self.page = page
        self.at = 0  # the last row written
        self.behind = 1  # the last row of the sheet of lines spoken of

    def write(self) -> None:
        self._say(self.page.title, bold=True)
        if self.page.opening:
            self._say(self.page.opening)
        for section in self.page.sections:
            self._section(section)
        self.at += 1
        for said in (*self.page.cautions, self.page.checked):
            self._say(said)
        self.sheet.column_dimensions["A"].width = 48
        for letter in "BCDEFGH":
            self.sheet.column_dimensions[letter].width = 18

    def _say(self, said: str, bold: bool = False) -> None:
        self.at += 1
        _put(self.sheet.cell(self.at, 1), said, self.places, bold)

    def _section(self, section: Section) -> None:
        self.at += 1
        if section.title:
            self._say(section.title, bold=True)
        if section.sub:
            self._say(section.sub)
        for block in section.blocks:
            self._block(block)

    def _block(self, block: Block) -> None:
        if isinstance(block, Section):
            self._section(block)
        elif isinstance(block, Table):
            self._table(block)
        elif isinstance(block, Words):
            self._say(block.said)
        elif isinstance(block, Notes):
            for said in block.said:
                self._say(said)
        elif isinstance(block, Code):
            for line in block.lines:
                self._say(line)
        elif isinstance(block, Terms):
            for _, name, words in block.terms:
                self._cells((name, words))
        elif isinstance(block, Items):
            self._items(block)

    def _cells(self, cells: Sequence[Cell], bold: bool = False) -> None:
        self.at += 1
        for i, cell in enumerate(cells, 1):
            _put(self.sheet.cell(self.at, i), cell, self.places, bold)

    def _items(self, block: Items) -> None:
        self._cells(("what", "day", "sum", "answer", "line", "with it", "what there is to say"), bold=True)
        for item in block.items:
            told = " ".join(f"{label}: {words}" if label else words for label, words in item.told)
            for pence, answer in item.sums:
                self._cells((item.words, item.day, pence, answer, item.source, item.beside, told))

    def _table(self, table: Table) -> None:
        self._cells([column.name for column in table.columns], bold=True)
        first = self.at + 1
        where = {row.key: first + i for i, row in enumerate(table.rows) if row.key}
        for row in table.rows:
            self._cells((*row.cells, row.under), bold=row.kind != "line")
            self._formulas(table, row, where)

    def _formulas(self, table: Table, row: Row, where: dict[str, int]) -> None:
        """In place of a figure the sum of its lines; in place of a total the sum of its rows."""
        from openpyxl.utils import get_column_letter

        ranges: dict[Any, str] = {}
        for i, cell in enumerate(row.cells):
            if not isinstance(cell, Sum):
                continue
            field, letter = self.sheet.cell(self.at, i + 1), get_column_letter(i + 1)
            if cell.trail and cell.trail not in ranges:
                ranges[cell.trail] = f"Lines!{SUMS}{self.behind + 1}:{SUMS}{self.behind + len(cell.trail)}"
                self.behind += len(cell.trail)
            if cell.trail and sum(t.pence for t in cell.trail) == cell.pence:
                field.value = f"=ROUND(SUM({ranges[cell.trail]}),2)"
            elif cell.adds and (parts := self._parts(table, cell, where, i)):
                field.value = "=ROUND(" + "".join(f"{sign}{letter}{number}" for sign, number in parts) + ",2)"

    def _parts(self, table: Table, cell: Sum, where: dict[str, int], i: int) -> list[tuple[str, int]]:
        """The rows a total is made of, those left out that hold no sum in its column."""
        sums = {row.key for row in table.rows if i < len(row.cells) and isinstance(row.cells[i], Sum)}
        return [("+" if sign > 0 else "-", where[key]) for key, sign in cell.adds if key in sums]


# ── the same bytes ───────────────────────────────────────────────────────────────────────────────────────────────

MOMENT = re.compile(rb"(<dcterms:(created|modified)[^>]*>)[^<]*(<)")


def _undated(data: bytes) -> bytes:
    """The file without the moment it was written."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            body = old.read(name)
            if name == "docProps/core.xml":
                body = MOMENT.sub(rb"\g<1>1980-01-01T00:00:00Z\g<3>", body)
            part = zipfile.ZipInfo(name, BEGAN)
            part.compress_type = zipfile.ZIP_DEFLATED
            part.external_attr = 0o600 << 16
            new.writestr(part, body)
    return out.getvalue()
