"""`watch`: the pages of a tax year, drawn anew whenever the book is saved. Files of this machine only, no server."""

from __future__ import annotations

import gc
import os
from collections.abc import Iterable, Iterator
from datetime import date
from pathlib import Path

import click

from ..problems import Level
from .files import MANIFEST, SUFFIX, Unreadable, book_files, shown
from .opening import Opened, book_argument, choose_year, folder_of, on_option, problems_of, stop, year_option
from .progress import done
from .writing import NotWritten, write_whole

QUIET = 200  # milliseconds without another save before the pages are drawn
LONGEST = 2_000  # and the longest wait for them
LOOK = 5_000  # how often is looked whether something was missed


@click.command()
@book_argument
@click.option("--output", "folder", metavar="FOLDER", type=click.Path(path_type=Path), required=True,
              help="The folder of the pages, which is made where it is not there.")  # fmt: skip
@year_option
@on_option
@click.option("--force", is_flag=True, help="Write into the folder although there is something in it.")
def watch(book: Path, folder: Path, year: str | None, on: date, force: bool) -> None:
    """Pages that follow the book.

    Draws the statements of a tax year as pages, and draws them anew whenever you save the book; reload the page in your
    browser to see it. While the book has errors the last good pages stay, with the errors on top. Ctrl-C ends it.
    """
    saves = _saves(book)  # first, so that its library is asked for before anything is written
    _may_write(folder, force)
    gc.enable()  # unlike other commands this one lives long
    drawn = Drawn(book, folder, year, on)
    try:
        for _ in saves:
            drawn.anew()
    except KeyboardInterrupt:
        pass
    except NotWritten as why:
        stop(f'"{shown(folder)}": {why}.')
    finally:
        done()
    click.echo("No longer watching.")


def _may_write(folder: Path, force: bool) -> None:
    """Stop where the folder is no place for pages."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        names = os.listdir(folder)
    except OSError as error:
        stop(f'"{shown(folder)}" cannot be used ({error.strerror or error}).')
    if MANIFEST in names:
        stop(f'"{shown(folder)}" is the pack of a year, which stays as it is; name another folder.')
    if names and not force:
        stop(f'"{shown(folder)}" has something in it; add `--force` to write the pages there, or name a new folder.')


class Drawn:
    """The pages in their folder, and the book as it was when it last had no errors."""

    def __init__(self, book: Path, folder: Path, year: str | None, on: date) -> None:
        self._book, self._folder, self._year, self._on = book, folder, year, on
        self._good: Opened | None = None
        self._files: set[str] = set()  # written before
        self._now: set[str] = set()

    def anew(self) -> None:
        """Read the book and draw its pages; where it has errors, those of before with the errors on top."""
        from ..render.problems import draw

        book, problems, texts = problems_of(self._book, inside=True)
        errors = [problem for problem in problems if problem.level is Level.ERROR]
        if book is not None and not errors:
            self._good = Opened(book, texts)
        broken = draw(errors) if errors else ""
        self._now = set()
        if self._good is None:
            self._only(broken)
        else:
            self._pages(self._good, broken)
        for name in self._files - self._now:
            (self._folder / name).unlink(missing_ok=True)
        self._files = self._now
        done()
        count = f"{len(errors)} error{'' if len(errors) == 1 else 's'}"
        told = f"The book has {count}, told on top of" if errors else "Drawn:"
        click.echo(f"{told} {shown(self._folder / 'index.html')}")

    def _pages(self, opened: Opened, broken: str) -> None:
        from .pages import Pages

        pages = Pages(opened, choose_year(opened.book, self._year, self._on), self._on, self._write, broken)
        for _ in pages.statements():
            pass
        pages.book({})
        pages.first()

    def _only(self, broken: str) -> None:
        """A page with nothing but the errors."""
        from ..render.html import Pack, pieces
        from ..render.page import Page
        from .pages import FIRST

        page = Page("pack", "The book", (), "", opening="Mend them and save the book: then its pages come.")
        self._write(FIRST, pieces(page, {}, Pack(book=FIRST, broken=broken)))

    def _write(self, name: str, pieces: Iterable[str]) -> None:
        place = self._folder / name
        place.parent.mkdir(exist_ok=True)
        write_whole(place, "".join(pieces).encode("utf-8", "replace"), force=True)
        self._now.add(name)


# ── when the book is saved ───────────────────────────────────────────────────────────────────────────────────────

Marks = dict[str, tuple[int, int, int]]


def _saves(book: Path) -> Iterator[None]:
    """Now, and each time the book was saved; saves that follow each other closely count as one."""
    try:
        import watchfiles
    except ImportError:
        stop("To watch a book one more library is needed: install it with `pip install 'landlord-books[watch]'`.")

    def ours(_: object, path: str) -> bool:
        name = os.path.basename(path)
        return name == book.name if book.is_file() else name.lower().endswith(SUFFIX) and not name.startswith(".")

    def look() -> Iterator[None]:
        seen = _marks(book)
        click.echo(f"Watching {shown(book)}; Ctrl-C ends it.")
        yield
        turns = watchfiles.watch(
            folder_of(book), watch_filter=ours, debounce=LONGEST, step=QUIET, rust_timeout=LOOK, yield_on_timeout=True,
            recursive=not book.is_file(),
        )  # fmt: skip
        for _ in turns:
            now = _marks(book)
            if now != seen:  # else somebody only opened it, or nothing happened for a while
                seen = now
                yield

    return look()


def _marks(book: Path) -> Marks:
    """What tells one state of the book's files from the next."""
    try:
        found = [(file, file.stat()) for file in book_files(book)]
    except (Unreadable, OSError):  # between an old file and its new one
        return {}
    return {str(file): (about.st_mtime_ns, about.st_size, about.st_ino) for file, about in found}
