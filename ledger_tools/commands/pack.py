"""Writes the pack of a tax year: pages, workbook, official bodies, the book, its receipts, and what they all are.

Writes file by file and keeps none of them; knows what goes into a pack, nothing of how a page is drawn.
"""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from .. import __version__, law
from ..days import TaxYear, day_words
from ..render import pack_page
from ..render.html import Pack, book_pieces, pieces
from ..render.pack_page import Contents, Entry, Paper
from ..render.page import Link
from ..render.pictures import missing as no_pictures
from ..render.places import Places
from ..render.workbook import Book
from ..render.workbook import missing as no_workbooks
from ..statements.checked import checked
from .files import MANIFEST
from .filling import Filling, Written
from .opening import Opened, so_far
from .papers import MISSING, OUTSIDE, Found, Shelf, open_plain
from .progress import say
from .year_pages import Names, YearPage, file_name, statements

FIRST, BOOK_PAGE, WORKBOOK = "index.html", "pages/book.html", "figures.xlsx"
PAGES, BODIES, BOOK, PAPERS = "pages", "for-the-tax-office", "book", "receipts-and-photos"
TOLD = {MISSING: "not there, so not in this pack", OUTSIDE: "outside the folder of the book, so left alone"}


@dataclass
class Packing:
    """A pack on its way: what it is made from, and what is in it so far."""

    opened: Opened
    shelf: Shelf
    year: TaxYear
    on: date
    into: Filling
    entries: list[Entry] = field(default_factory=list)
    more: list[Entry] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    open: int = 0

    @property
    def name(self) -> str:
        """What the pack is called."""
        return f"The tax year {self.year}"

    def fill(self) -> list[Paper]:
        """Write everything. The papers that the book names, with what became of them. NotWritten: the disk fails."""
        self._statements()
        papers = self._papers()
        self._book(papers)
        self._first(papers)
        self._manifest(papers)
        return papers

    # ── statements ───────────────────────────────────────────────────────────────────────────────────────────────

    def _statements(self) -> None:
        book, names = None if no_workbooks() else Book(Places(self.opened.texts)), Names()
        for statement in statements(self.opened, self.year, self.on):
            for each in statement.pages:
                say(f"{each.page.title} …")
                self._page(each, names.give(each.file, ".html"))
            if book is not None and statement.whole is not None:
                book.add(statement.whole)
        if no_pictures():
            self.notes.append("Without pictures: they need `pip install 'landlord-books[pages]'`.")
        if book is None:
            self.notes.append("Without a workbook: it needs `pip install 'landlord-books[xlsx]'`.")
            return
        say("The workbook …")
        self.into.save(WORKBOOK, lambda out: book.save(self.opened.accounts.rows, out))
        told = "The statements as a workbook, with the lines behind their figures and every sum of the book"
        self.more.append(Entry(WORKBOOK, "", told))

    def _page(self, each: YearPage, name: str) -> None:
        file = f"{PAGES}/{name}"
        self.into.write(file, pieces(each.page, self.opened.texts, Pack(f"../{FIRST}", self.name, "book.html")))
        self.entries.append(Entry(file, each.of, each.title))
        self.open += each.open
        if each.body:
            body = f"{BODIES}/{name.removesuffix('.html')}.json"
            self.into.write(body, (each.body, "\n"))
            self.more.append(Entry(body, each.of, f"{each.page.title}, the very body that the service takes"))

    # ── the book and its papers ──────────────────────────────────────────────────────────────────────────────────

    def _papers(self) -> list[Paper]:
        """Every paper that the book names, copied once where it can be, in the order of the lines that name it."""
        lines: dict[tuple[Found, str, str], list[str]] = defaultdict(list)
        for proof in sorted(self.opened.book.proofs, key=lambda proof: (proof.place.file, proof.place.line)):
            found = self.shelf.find(proof.place.file, proof.file)
            where = "" if found.file else proof.place.file  # what is not there is no other's file
            lines[found, proof.file, where].append(proof.place.short)
        papers: list[Paper] = []
        copies: dict[Path, Written] = {}
        for number, ((found, name, _), sources) in enumerate(lines.items(), 1):
            say(f"Receipts and photos: {number} of {len(lines)} …")
            papers.append(self._paper(found, name, tuple(dict.fromkeys(sources)), copies))
        return papers

    def _paper(self, found: Found, name: str, lines: tuple[str, ...], copies: dict[Path, Written]) -> Paper:
        if found.file is None:
            return Paper(name, lines, TOLD[found.state])
        if found.file not in copies:
            try:
                source = open_plain(found.file)
            except OSError as error:
                return Paper(name, lines, f"could not be read ({error.strerror or error})")
            with source:
                copies[found.file] = self.into.copy(_copy_name(len(copies) + 1, name), source)
        copy = copies[found.file]
        return Paper(name, lines, "copied", copy.name, copy.sha256)

    def _book(self, papers: Sequence[Paper]) -> None:
        say("The book …")
        by_line: dict[str, list[Link]] = defaultdict(list)
        for paper in papers:
            for source in paper.sources if paper.file else ():
                by_line[source].append(Link(paper.name, f"../{paper.file}"))
        opening = f"As it stood when its figures were worked out on {day_words(self.on)}."
        beside = Pack(f"../{FIRST}", self.name)
        self.into.write(BOOK_PAGE, book_pieces(self.opened.texts, by_line, opening, beside))
        self.entries.append(Entry(BOOK_PAGE, "The book", "Every line, with its receipts"))
        names = Names()
        for name, text in sorted(self.opened.texts.items()):
            copy = f"{BOOK}/{names.give(file_name(name.removesuffix('.book')), '.book')}"
            self.into.data(copy, text.encode("utf-8"))  # what was worked out, though somebody saves the book meanwhile
            self.more.append(Entry(copy, "", f"A copy of {name}"))

    # ── the first page and the manifest ──────────────────────────────────────────────────────────────────────────

    def _first(self, papers: Sequence[Paper]) -> None:
        made = (
            f"Worked out on {day_words(self.on)} by landlord-books {__version__}. Every figure opens to the lines that "
            "make it, and every line leads to the book."
        )
        manifest = Entry(MANIFEST, "", "Every file with its digest (SHA-256), and how far the law was checked")
        contents = Contents(
            self.name, made, tuple(self.entries), (*self.more, manifest), tuple(papers), tuple(self.notes), self.open,
            checked(self.year), so_far(self.year, str(self.year), self.on),
        )  # fmt: skip
        self.into.write(FIRST, pieces(pack_page.page(contents), self.opened.texts, Pack(book=BOOK_PAGE)))

    def _manifest(self, papers: Sequence[Paper]) -> None:
        told = {
            "pack": self.name,
            "worked_out_on": self.on.isoformat(),
            "tool": {"name": "landlord-books", "version": __version__},
            "law": {
                "figures_checked_up_to": law.checked_up_to().isoformat(),
                "boxes_checked_up_to": str(law.pages_checked_up_to()),
                "council_tax_checked_up_to": law.checked_until("council").isoformat(),
                "sha256": law.digest(),
            },
            "papers": [
                {"named": p.name, "lines": list(p.sources), "told": p.told, "file": p.file or None} for p in papers
            ],
            "files": [
                {"file": w.name, "bytes": w.size, "sha256": w.sha256}
                for w in sorted(self.into.files, key=lambda written: written.name)
            ],
        }
        self.into.write(MANIFEST, (json.dumps(told, indent=2, ensure_ascii=False), "\n"))


def _copy_name(number: int, name: str) -> str:
    """What a copy of a paper is called: its number, since two can have one name, and what is left of its own."""
    first, dot, last = name.replace("\\", "/").rpartition("/")[2].rpartition(".")
    ending = f".{file_name(last)[:10]}" if dot and first else ""
    return f"{PAPERS}/{number:03}-{file_name(first if ending else f'{first}{dot}{last}')}{ending}"


def may_replace(folder: Path) -> str:
    """Why the folder that is there must not be replaced; "" where it is a pack to which nothing was added."""
    try:
        told: Mapping[str, list[Mapping[str, str]]] = json.loads((folder / MANIFEST).read_bytes())
        ours = {MANIFEST, *(each["file"] for each in told["files"])}
    except (OSError, ValueError, LookupError, TypeError):
        return "the folder is no pack, so it was left alone; name another"
    found = (file for file in folder.rglob("*") if file.is_symlink() or not file.is_dir())
    added = sorted({file.relative_to(folder).as_posix() for file in found} - ours)
    return f"it holds a file that is not of the pack ({added[0]}), so it was left alone" if added else ""
