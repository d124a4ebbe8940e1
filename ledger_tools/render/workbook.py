"""Pages as an .xlsx workbook: a sheet a statement, the lines behind its figures, and the one table of money lines.

Sums are numbers and days are days; a figure is the sum of its lines, a total the sum of its rows, both as formulas, so
the workbook recalculates to what the pages say. Words never become formulas. The same pages make the same bytes.
"""

from __future__ import annotations

import io
import re
import shutil
import tempfile
import zipfile
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from typing import IO, TYPE_CHECKING, Any

from ..ledger.rows import Row as MoneyRow
from ..money import decimal
from .page import Block, Cell, Code, Items, Notes, Page, Row, Section, Sum, Table, Terms, Words
from .places import Places
from .sheets import LINES_NAMES, MONEY_NAMES, harmless, lines, money_cells
from .text import cell_words

if TYPE_CHECKING:
    from openpyxl.cell import Cell as Field
    from openpyxl.worksheet._write_only import WriteOnlyWorksheet

MONEY_FORM, WHOLE_FORM, DAY_FORM = '"£"#,##0.00;-"£"#,##0.00', '"£"#,##0;-"£"#,##0', "d mmm yyyy"
SUMS = "ABCDEFGH"[LINES_NAMES.index("sum")]
LONGEST = 32_767  # signs a cell may hold
BEGAN = (1980, 1, 1, 0, 0, 0)  # the first moment the form knows; the true one would make no two files alike


class NoWorkbooks(RuntimeError):
    """The library that writes workbooks is not there; the text says how to get it."""


def workbook(page: Page, money: Sequence[MoneyRow], places: Places) -> bytes:
    """The file of one statement. NoWorkbooks where openpyxl is missing."""
    made, held = Book(places), io.BytesIO()
    made.add(page)
    made.save(money, held)
    return held.getvalue()


def missing() -> bool:
    """Whether the library that writes workbooks is not there."""
    try:
        import openpyxl  # noqa: F401
    except ImportError:
        return True
    return False


class Book:
    """A workbook that statements are added to, one after the other; rows once written are not kept in memory."""

    def __init__(self, places: Places) -> None:
        """NoWorkbooks where openpyxl is missing."""
        if missing():
            said = "Workbooks need one more library: install it with `pip install 'landlord-books[xlsx]'`."
            raise NoWorkbooks(said)
        from openpyxl import Workbook

        self._book, self._places = Workbook(write_only=True), places
        self._lines = _List(self._book.create_sheet("Lines"), LINES_NAMES, places)
        self._money = _List(self._book.create_sheet("Money"), MONEY_NAMES, places)

    def add(self, page: Page) -> None:
        """A sheet for a statement, named after it, before the lists; its lines go to theirs."""
        sheet = self._book.create_sheet(page.statement.capitalize(), len(self._book.sheetnames) - 2)
        _Statement(sheet, page, self._places, self._lines.at).write()
        for row in lines(page):
            self._lines.add(row)

    def save(self, money: Iterable[MoneyRow], out: IO[bytes]) -> None:
        """Write the file, with every money line of the book as its last sheet."""
        for row in money:
            self._money.add(money_cells(row))
        self._lines.end()
        self._money.end()
        self._book.calculation.fullCalcOnLoad = True
        self._book.active = 0
        with tempfile.TemporaryFile() as held:
            self._book.save(held)
            _undated(held, out)


MEASURED = 500  # rows by which the width of a column is chosen


class _List:
    """A plain table with its names on top, which stay in sight. `at` is the last row given to it."""

    def __init__(self, sheet: WriteOnlyWorksheet, names: tuple[str, ...], places: Places) -> None:
        self._sheet, self._places, self._wide = sheet, places, len(names)
        self._waiting: list[list[Any]] | None = [[_field(sheet, name, places, bold=True) for name in names]]
        self.at = 1
        sheet.freeze_panes = "A2"

    def add(self, row: Sequence[Cell]) -> None:
        """One more row."""
        self.at += 1
        fields = [_field(self._sheet, cell, self._places) for cell in row]
        if self._waiting is None:
            self._sheet.append(fields)
            return
        self._waiting.append(fields)
        if len(self._waiting) == MEASURED:
            self._begin()

    def end(self) -> None:
        """No more rows."""
        from openpyxl.utils import get_column_letter

        self._begin()
        self._sheet.auto_filter.ref = f"A1:{get_column_letter(self._wide)}{self.at}"

    def _begin(self) -> None:
        """Choose the widths, which stand in the file before all rows, and write what waited for them."""
        from openpyxl.utils import get_column_letter

        waiting, self._waiting = self._waiting or [], None
        for i, column in enumerate(zip(*waiting, strict=True), 1):
            longest = max((len(str(field.value)) for field in column if field.value is not None), default=0)
            self._sheet.column_dimensions[get_column_letter(i)].width = min(max(longest + 2, 10), 60)
        for fields in waiting:
            self._sheet.append(fields)


def _field(sheet: WriteOnlyWorksheet, cell: Cell, places: Places, bold: bool = False) -> Field:
    """One cell: a number, a day or words, and words stay words whatever they begin with."""
    from openpyxl.cell import WriteOnlyCell
    from openpyxl.styles import Font

    field = WriteOnlyCell(sheet)
    if isinstance(cell, Sum):
        field.value = decimal(cell.pence)
        field.number_format = WHOLE_FORM if cell.whole else MONEY_FORM
    elif isinstance(cell, date):
        field.value = cell
        field.number_format = DAY_FORM
    elif said := cell_words(cell):
        field.value = harmless(places.short(said))[:LONGEST]
        field.data_type = "s"
        field.quotePrefix = True
    if bold:
        field.font = Font(bold=True)
    return field


class _Statement:
    """Writes the sheet of the statement, row by row; counts the lines behind it as `lines` lists them."""

    def __init__(self, sheet: WriteOnlyWorksheet, page: Page, places: Places, behind: int) -> None:
        self.places = places
        self.sheet = sheet
        self.page = page
        self.at = 0  # the last row written
        self.behind = behind  # the last row of the sheet of lines spoken of

    def write(self) -> None:
        self.sheet.column_dimensions["A"].width = 48
        for letter in "BCDEFGH":
            self.sheet.column_dimensions[letter].width = 18
        self._say(self.page.title, bold=True)
        if self.page.opening:
            self._say(self.page.opening)
        for section in self.page.sections:
            self._section(section)
        self._cells(())
        for said in (*self.page.cautions, self.page.checked):
            self._say(said)

    def _say(self, said: str, bold: bool = False) -> None:
        self._cells((said,), bold)

    def _section(self, section: Section) -> None:
        self._cells(())
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

    def _cells(self, cells: Sequence[Cell], bold: bool = False, formulas: Mapping[int, str] | None = None) -> None:
        """One row; `formulas` stand in the place of what they come to, by the number of the cell."""
        self.at += 1
        fields = [_field(self.sheet, cell, self.places, bold) for cell in cells]
        for i, formula in (formulas or {}).items():
            fields[i].value = formula
        self.sheet.append(fields)

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
            self._cells((*row.cells, row.note), row.kind != "line", dict(self._formulas(table, row, where)))

    def _formulas(self, table: Table, row: Row, where: dict[str, int]) -> Iterator[tuple[int, str]]:
        """In place of a figure the sum of its lines; in place of a total the sum of its rows."""
        from openpyxl.utils import get_column_letter

        ranges: dict[Any, str] = {}
        for i, cell in enumerate(row.cells):
            if not isinstance(cell, Sum):
                continue
            if cell.trail and cell.trail not in ranges:
                ranges[cell.trail] = f"Lines!{SUMS}{self.behind + 1}:{SUMS}{self.behind + len(cell.trail)}"
                self.behind += len(cell.trail)
            if cell.trail and sum(t.pence for t in cell.trail) == cell.pence:
                yield i, f"=ROUND(SUM({ranges[cell.trail]}),2)"
            elif cell.adds and (parts := self._parts(table, cell, where, i)):
                letter = get_column_letter(i + 1)
                yield i, "=ROUND(" + "".join(f"{sign}{letter}{number}" for sign, number in parts) + ",2)"

    def _parts(self, table: Table, cell: Sum, where: dict[str, int], i: int) -> list[tuple[str, int]]:
        """The rows a total is made of, those left out that hold no sum in its column."""
        sums = {row.key for row in table.rows if i < len(row.cells) and isinstance(row.cells[i], Sum)}
        return [("+" if sign > 0 else "-", where[key]) for key, sign in cell.adds if key in sums]


# ── the same bytes ───────────────────────────────────────────────────────────────────────────────────────────────

MOMENT = re.compile(rb"(<dcterms:(created|modified)[^>]*>)[^<]*(<)")


def _undated(made: IO[bytes], out: IO[bytes]) -> None:
    """The file without the moment it was written."""
    with zipfile.ZipFile(made) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            part = zipfile.ZipInfo(name, BEGAN)
            part.compress_type = zipfile.ZIP_DEFLATED
            part.external_attr = 0o600 << 16
            if name == "docProps/core.xml":
                new.writestr(part, MOMENT.sub(rb"\g<1>1980-01-01T00:00:00Z\g<3>", old.read(name)))
                continue
            with old.open(name) as body, new.open(part, "w") as into:
                shutil.copyfileobj(body, into)
