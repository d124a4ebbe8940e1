"""What a page says, before anything decides how it looks: sections of tables, sentences, notes and items.

Each statement says its words once, as such a page; text, HTML, CSV and spreadsheet are drawn from it. Knows nothing of
widths, tags or cells of a spreadsheet, and adds nothing up.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from ..record import record
from ..statements.figures import Trace


@record
class Sum:
    """Pence in a cell, and the lines of the book they are made of.

    adds: where it is the sum of other rows of its table, their keys, each with its sign. whole: written in whole
    pounds.
    """

    pence: int
    trail: tuple[Trace, ...] = ()
    adds: tuple[tuple[str, int], ...] = ()
    whole: bool = False


@record
class Link:
    """Words in a cell that lead to a file which lies with the page: `to` is its way from there."""

    words: str
    to: str


Cell = str | Sum | date | Link


@record
class Column:
    """What a column holds. right: set against its right edge; quiet: the text form leaves its name out."""

    name: str
    right: bool = False
    quiet: bool = False


@record
class Row:
    """Cells, one a column; a heading has only the first.

    kind: "line", "heading" or "total". under: a sentence that belongs to it; where several rows in turn say the same,
    it is said once, under the last. made: sentences that tell what its figures are made of, where that is no sum of
    lines; a page shows them when the row is opened.
    """

    cells: tuple[Cell, ...]
    key: str = ""
    kind: str = "line"
    under: str = ""
    made: tuple[str, ...] = ()

    @property
    def note(self) -> str:
        """All that is to be said of it, in one."""
        return " ".join((*([self.under] if self.under else []), *self.made))


@record
class Table:
    """Rows under named columns. `name` is the same wherever the columns mean the same, so that rows of several can be
    put together; unheaded: the names go without saying to those who see it."""

    name: str
    title: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    unheaded: bool = False


@record
class Words:
    """A paragraph."""

    said: str


@record
class Code:
    """Lines that are copied as they stand."""

    lines: tuple[str, ...]


@record
class Notes:
    """Sentences that stand in no order; `sign` is what the text form puts before each."""

    said: tuple[str, ...]
    sign: str = "*"


@record
class Item:
    """One line of the book and what there is to say of it: (label, sentence), the label "" where it goes on.

    sums: what it comes to, with a word each; day is "" where the source says enough.
    """

    source: str
    words: str
    sums: tuple[tuple[Sum, str], ...]
    told: tuple[tuple[str, str], ...] = ()
    day: str = ""
    open: bool = False
    rules: tuple[str, ...] = ()  # the names of those that decided, where the page tells of them
    beside: str = ""  # what stands beside its place: who was paid, when it counts, what proof there is


@record
class Items:
    """Items one under the other."""

    items: tuple[Item, ...]


@record
class Terms:
    """What names mean: (slug, name as it is read, sentences)."""

    terms: tuple[tuple[str, str, str], ...]


@record
class Bars:
    """A picture of a table: a bar for each row, with its label and its pence, which are above nil."""

    title: str
    rows: tuple[tuple[str, int], ...]


@record
class Months:
    """A picture of a year: for each month its short name, its pence, and how many of its days stood empty."""

    title: str
    rows: tuple[tuple[str, int, int], ...]


@record
class Pairs:
    """A picture of two sums side by side, such as what came in and what went out of each year: what each is called, and
    for each row its name and both sums in pence, neither below nil."""

    title: str
    names: tuple[str, str]
    rows: tuple[tuple[str, int, int], ...]


@record
class Spans:
    """A picture of time: for each stretch of days what it was, what it came to ("" where nothing), its first and last
    day, and whether something is due for it."""

    title: str
    rows: tuple[tuple[str, str, date, date, bool], ...]


Picture = Bars | Months | Pairs | Spans


@record
class Section:
    """A heading with what stands under it; `inset` is how far the text form moves it in."""

    title: str
    blocks: tuple[Block, ...]
    sub: str = ""
    inset: int = 2

    def every(self) -> Iterator[Block]:
        """Every block of it and of the sections in it, in order."""
        for block in self.blocks:
            if isinstance(block, Section):
                yield from block.every()
            else:
                yield block


Block = Table | Words | Code | Notes | Items | Terms | Picture | Section


@record
class Page:
    """A whole page: what is said first, its sections, the cautions they call for, and how far it was checked."""

    statement: str
    title: str
    sections: tuple[Section, ...]
    checked: str
    cautions: tuple[str, ...] = ()
    opening: str = ""
    so_far: str = ""  # where the year was chosen for the reader, or is still running

    @property
    def pictured(self) -> bool:
        """Whether it has pictures."""
        return any(isinstance(block, Picture) for section in self.sections for block in section.every())

    def tables(self) -> Iterator[tuple[str, Table]]:
        """Every table, with the title of the section it stands in."""
        for section in self.sections:
            for block in section.every():
                if isinstance(block, Table):
                    yield section.title, block


def trails(row: Row) -> Iterator[tuple[int, tuple[Trace, ...]]]:
    """The lines behind each sum of a row, with the number of its column; lines that two share, once."""
    seen: list[tuple[Trace, ...]] = []
    for i, cell in enumerate(row.cells):
        if isinstance(cell, Sum) and cell.trail and cell.trail not in seen:
            seen.append(cell.trail)
            yield i, cell.trail
