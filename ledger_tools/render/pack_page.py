"""The first page of a year's pack: what is in it, which receipts came along, what is open, and who must check it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..record import record
from .page import Block, Column, Link, Notes, Page, Row, Section, Table, Words

WHAT = (Column("page"), Column("file"))
MORE = (Column("file"), Column("what it is"))
OTHERS = "Files for other programs"
PAPERS = (Column("receipt or photo"), Column("what became of it"), Column("lines"))


@record
class Entry:
    """A file of the pack: its name seen from the first page, whom or what it is about, and what it tells."""

    file: str
    of: str
    tells: str


@record
class Paper:
    """A receipt or photo that the book names: its lines, and what became of it, with its copy where there is one."""

    name: str
    sources: tuple[str, ...]
    told: str
    file: str = ""
    sha256: str = ""


@record
class Contents:
    """All that the first page speaks of. more: files that are no pages; papers: None where nothing is said of them;
    open: how many questions the book leaves open, in every year; so_far: what to say of a year that is running."""

    name: str
    made: str
    entries: tuple[Entry, ...]
    more: tuple[Entry, ...]
    papers: tuple[Paper, ...] | None
    notes: tuple[str, ...]
    open: int
    checked: str
    so_far: str = ""


def page(c: Contents) -> Page:
    """The first page."""
    inside = Table("pages", "What is in it", WHAT, tuple(_entries(c.entries)))
    sections = [
        Section("What is in it", (inside, *((Notes(c.notes),) if c.notes else ()))),
        Section("Who must check it", (Notes(tuple(_who(c))),)),
    ]
    if c.papers is not None:
        sections.append(Section("Receipts and photos", tuple(_papers(c.papers))))
    if c.more:
        rows = tuple(Row((Link(e.file, e.file), e.tells)) for e in c.more)
        sections.append(Section(OTHERS, (Table("files", OTHERS, MORE, rows),)))
    return Page("pack", c.name, tuple(sections), c.checked, opening=c.made, so_far=c.so_far)


def _entries(entries: Sequence[Entry]) -> Iterator[Row]:
    """Under a heading for each house and owner, in the order in which they first come."""
    for of in dict.fromkeys(entry.of for entry in entries):
        yield Row((of,), kind="heading")
        for entry in entries:
            if entry.of == of:
                yield Row((Link(entry.tells, entry.file), entry.file), entry.file)


def _papers(papers: Sequence[Paper]) -> Iterator[Block]:
    if not papers:
        yield Words("The book names none.")
        return
    lost = sum(not paper.file for paper in papers)
    said = f"The book names {len(papers)}" if len(papers) > 1 else "The book names one"
    yield Words(f"{said}; {_lost(lost, len(papers))}.")
    rows = tuple(
        Row((Link(p.name, p.file) if p.file else p.name, p.told, ", ".join(p.sources)),
            under=f"SHA-256 {p.sha256}" if p.sha256 else "")
        for p in papers
    )  # fmt: skip
    yield Table("papers", "Receipts and photos", PAPERS, rows)


def _lost(lost: int, all_: int) -> str:
    if not lost:
        return "each was copied" if all_ > 1 else "it was copied"
    return "none could be copied" if lost == all_ else f"{lost} of them could not be copied"


def _who(c: Contents) -> Iterator[str]:
    """Whose work is left, before anything is sent."""
    yield "You: that the book tells everything of the year, and that each receipt is what its line says."
    if c.open:
        are = "One question is" if c.open == 1 else f"{c.open} questions are"
        told = f"{are} open and in no figure; the page of open questions tells both answers and what settles them."
        yield f"You, with an accountant or adviser: {told}"
    yield "An accountant or adviser: the answers about repairs and improvements, before the return is sent."
    yield "The tax office decides about the tax, the council about its bill."
