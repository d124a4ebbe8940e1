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
from ..days import TaxYear
from ..render.pack_page import Entry, Paper
from ..render.page import Link
from ..render.places import Places
from ..render.workbook import Book
from ..render.workbook import missing as no_workbooks
from .files import MANIFEST
from .filling import Filling, Written
from .opening import Opened
from .pages import Pages
from .papers import MISSING, ON_PAPER, OUTSIDE, Found, Shelf, open_plain
from .progress import say
from .year_pages import Names, file_name

WORKBOOK, BODIES, BOOK, PAPERS = "figures.xlsx", "for-the-tax-office", "book", "receipts-and-photos"
TOLD = {
    MISSING: "not there, so not in this pack",
    OUTSIDE: "outside the folder of the book, so left alone",
    ON_PAPER: "kept on paper",
}


@dataclass
class Packing:
    """A pack on its way: what it is made from, and what is in it beside its pages so far."""

    opened: Opened
    shelf: Shelf
    year: TaxYear
    on: date
    into: Filling
    more: list[Entry] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    def fill(self) -> list[Paper]:
        """Write everything. The papers that the book names, with what became of them. NotWritten: the disk fails."""
        pages = Pages(self.opened, self.year, self.on, self.into.write)
        self._statements(pages)
        papers = self._papers()
        pages.book(_by_line(papers))
        self._copy_book()
        told = "Every file with its digest (SHA-256), and how far the law was checked"
        pages.first([*self.more, Entry(MANIFEST, "", told)], papers, self.notes)
        self._manifest(pages.name, papers)
        return papers

    def _statements(self, pages: Pages) -> None:
        """The pages, the bodies that go to the tax office, and the workbook."""
        book = None if no_workbooks() else Book(Places(self.opened.texts))
        for statement, written in pages.statements():
            for each, file in written:
                if each.body:
                    body = f"{BODIES}/{file.rpartition('/')[2].removesuffix('.html')}.json"
                    self.into.write(body, (each.body, "\n"))
                    self.more.append(Entry(body, each.of, f"{each.page.title}, the very body that the service takes"))
            if book is not None and statement.whole is not None:
                book.add(statement.whole)
        if book is None:
            self.notes.append("Without a workbook: it needs `pip install 'landlord-books[xlsx]'`.")
            return
        say("The workbook …")
        self.into.save(WORKBOOK, lambda out: book.save(self.opened.accounts.rows, out))
        told = "The statements as a workbook, with the lines behind their figures and every sum of the book"
        self.more.append(Entry(WORKBOOK, "", told))

    # ── the book and its papers ──────────────────────────────────────────────────────────────────────────────────

    def _papers(self) -> list[Paper]:
        """Every paper that the book names, copied once where it can be, in the order of the lines that name it."""
        lines: dict[tuple[Found, str, str], list[str]] = defaultdict(list)
        for proof in sorted(self.opened.book.proofs, key=lambda proof: (proof.place.file, proof.place.line)):
            found = self.shelf.find(proof.place.file, proof.file)
            if found.state == MISSING and proof.on_paper:
                found = Found(ON_PAPER)
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

    def _copy_book(self) -> None:
        names = Names()
        for name, text in sorted(self.opened.texts.items()):
            copy = f"{BOOK}/{names.give(file_name(name.removesuffix('.book')), '.book')}"
            self.into.write(copy, (text,))  # what was worked out, though somebody saves the book meanwhile
            self.more.append(Entry(copy, "", f"A copy of {name}"))

    def _manifest(self, name: str, papers: Sequence[Paper]) -> None:
        told = {
            "pack": name,
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


def _by_line(papers: Sequence[Paper]) -> dict[str, list[Link]]:
    """The copies of the papers that each line names, seen from the page of the book."""
    found: dict[str, list[Link]] = defaultdict(list)
    for paper in papers:
        for source in paper.sources if paper.file else ():
            found[source].append(Link(paper.name, f"../{paper.file}"))
    return found


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
