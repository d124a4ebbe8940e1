"""Draws every page of a tax year into a folder that somebody else keeps: statements, the book, and a first page.

Knows how the pages lie to one another; nothing of disks, nor what else the folder holds.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from .. import __version__
from ..days import TaxYear, day_words
from ..render import pack_page
from ..render.html import Pack, book_pieces, pieces
from ..render.pack_page import Contents, Entry, Paper
from ..render.page import Link
from ..render.pictures import missing as no_pictures
from ..statements.checked import checked
from .opening import Opened, so_far
from .progress import say
from .year_pages import Names, Statement, YearPage, statements

FIRST, FOLDER, BOOK = "index.html", "pages", "pages/book.html"


@dataclass
class Pages:
    """Pages on their way. `write` is given the name of a file and its text in pieces; broken: what is wrong with the
    book since it was read, for the top of each page."""

    opened: Opened
    year: TaxYear
    on: date
    write: Callable[[str, Iterable[str]], object]
    broken: str = ""
    entries: list[Entry] = field(default_factory=list)
    open: int = 0

    @property
    def name(self) -> str:
        """What all of it is called."""
        return f"The tax year {self.year}"

    def statements(self) -> Iterator[tuple[Statement, list[tuple[YearPage, str]]]]:
        """Every statement, once its pages are written, with the names of their files."""
        names = Names()
        for statement in statements(self.opened, self.year, self.on):
            written = []
            for each in statement.pages:
                say(f"{each.page.title} …")
                file = f"{FOLDER}/{names.give(each.file, '.html')}"
                beside = Pack(f"../{FIRST}", self.name, "book.html", self.broken)
                self.write(file, pieces(each.page, self.opened.texts, beside))
                self.entries.append(Entry(file, each.of, each.title))
                self.open += each.open
                written.append((each, file))
            yield statement, written

    def book(self, papers: Mapping[str, Sequence[Link]]) -> None:
        """The book, its lines with the papers that lie beside it."""
        say("The book …")
        opening = f"As it stood when its figures were worked out on {day_words(self.on)}."
        beside = Pack(f"../{FIRST}", self.name, broken=self.broken)
        self.write(BOOK, book_pieces(self.opened.texts, papers, opening, beside))
        self.entries.append(Entry(BOOK, "The book", "Every line, with its receipts" if papers else "Every line"))

    def first(
        self, more: Sequence[Entry] = (), papers: Sequence[Paper] | None = None, notes: Sequence[str] = ()
    ) -> None:
        """The page to begin with. more: other files; papers: those that the book names, None where nothing is said of
        them; notes: sentences about what is lacking."""
        made = (
            f"Worked out on {day_words(self.on)} by landlord-books {__version__}. Every figure opens to the lines that "
            "make it, and every line leads to the book."
        )
        lacking = ["Without pictures: they need `pip install 'landlord-books[pages]'`."] if no_pictures() else []
        contents = Contents(
            self.name, made, tuple(self.entries), tuple(more), None if papers is None else tuple(papers),
            (*lacking, *notes), self.open, checked(self.year), so_far(self.year, str(self.year), self.on),
        )  # fmt: skip
        self.write(FIRST, pieces(pack_page.page(contents), self.opened.texts, Pack(book=BOOK, broken=self.broken)))
