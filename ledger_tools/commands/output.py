"""How a statement leaves the program: the forms a command offers, to the terminal or into a file of its own."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import wraps
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from .files import SUFFIX, shown
from .opening import Opened, stop
from .progress import done
from .writing import NotWritten, write_whole

if TYPE_CHECKING:
    from ..render.page import Page

CALENDAR = "ics"
FORMS = ("text", "html", "csv", "xlsx", "json")
SUFFIXES = {".html": "html", ".htm": "html", ".csv": "csv", ".xlsx": "xlsx", ".json": "json"}


@dataclass(frozen=True)
class Output:
    """The form asked for, and the file it goes to: None for the terminal."""

    form: str
    file: Path | None = None
    force: bool = False
    table: str = ""

    @property
    def data(self) -> bool:
        """Whether programs read it: JSON."""
        return self.form == "json"

    @property
    def calendar(self) -> bool:
        """Whether it goes into a calendar."""
        return self.form == CALENDAR

    @property
    def full(self) -> bool:
        """Whether the form shows the lines behind every figure by itself."""
        return self.form in ("html", "csv", "xlsx")

    def write(self, words: str, end: str = "\n") -> None:
        """Print text and a line end, or write both to the file."""
        done()
        if self.file is None:
            click.echo(f"{words}{end}", nl=False)
        else:
            self._write(f"{words}{end}".encode("utf-8", "replace"))

    def statement(
        self, opened: Opened, data: Callable[[], Any], page: Callable[[], Page], text: Callable[[Page], str]
    ) -> None:
        """A statement in the form asked for, and made for that form alone: `data` for programs, else the page, which
        `text` draws for the terminal."""
        if self.data:
            from ..render.json_form import dump

            self.write(dump(data()))
            return
        made = page()
        self.page(made, opened, lambda: text(made))

    def page(self, page: Page, opened: Opened, text: Callable[[], str]) -> None:
        """The page in the form asked for; `text` draws it for the terminal."""
        if self.form == "html":
            from ..render.html import html
            from ..render.pictures import missing

            done()
            if page.pictured and missing():
                click.echo("Without pictures: they need `pip install 'landlord-books[pages]'`.", err=True)
            self.write(html(page, opened.texts).rstrip("\n"))
        elif self.form == "csv":
            self._csv(page, opened)
        elif self.form == "xlsx":
            self._xlsx(page, opened)
        else:
            self.write(text())

    def _csv(self, page: Page, opened: Opened) -> None:
        from ..render.places import Places
        from ..render.sheets import NoSuchTable, as_csv, choose

        try:
            words = as_csv(choose(page, opened.accounts.rows, self.table), Places(opened.texts))
        except NoSuchTable as why:
            raise click.BadParameter(str(why), param_hint="--table") from None
        if self.file is None:
            done()
            click.echo(words, nl=False)
        else:
            self._write(words.encode("utf-8-sig"))  # with the mark by which spreadsheets know UTF-8

    def _xlsx(self, page: Page, opened: Opened) -> None:
        from ..render.places import Places
        from ..render.workbook import NoWorkbooks, workbook

        assert self.file is not None
        try:
            self._write(workbook(page, opened.accounts.rows, Places(opened.texts)))
        except NoWorkbooks as why:
            stop(str(why))

    def _write(self, data: bytes) -> None:
        assert self.file is not None
        if self.file.suffix.lower() == SUFFIX:
            stop(f'"{shown(self.file)}" is the name of a book, and no statement is written over one.')
        try:
            write_whole(self.file, data, self.force)
        except NotWritten as why:
            stop(f'"{shown(self.file)}": {why}.')
        done()
        click.echo(f'Wrote "{shown(self.file)}".', err=True)


def output_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """--format, --output, --force and --table; the command is given one Output as `out`."""
    return _options(command, FORMS, SUFFIXES, "or JSON for programs")


def calendar_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """The same, and a calendar file beside the other forms."""
    words = "JSON for programs, or a calendar file (iCalendar) for your phone"
    return _options(command, (*FORMS, CALENDAR), {**SUFFIXES, ".ics": CALENDAR}, words)


def _options(
    command: Callable[..., Any], forms: Sequence[str], suffixes: Mapping[str, str], others: str
) -> Callable[..., Any]:
    @click.option("--format", "form", type=click.Choice(forms), help="Text to read, a page for a browser or printer, "
                  f"a table or a workbook for a spreadsheet, {others}. By the name of the file, if left "
                  "out.")  # fmt: skip
    @click.option("--output", "file", metavar="FILE", type=click.Path(path_type=Path, dir_okay=False),
                  help="Write it to this file, which must not be there yet.")  # fmt: skip
    @click.option("--force", is_flag=True, help="Write over the file if it is there.")
    @click.option("--table", metavar="NAME", default="", help="Which table, with `--format csv`: `lines` is every line "
                  "behind a figure, `money` every sum of the book.")  # fmt: skip
    @wraps(command)
    def wrapped(*args: Any, form: str | None, file: Path | None, force: bool, table: str, **kwargs: Any) -> Any:
        chosen = form or (suffixes.get(file.suffix.lower(), "text") if file else "text")
        if chosen == "xlsx" and file is None:
            raise click.UsageError("A workbook needs a file: add `--output FILE.xlsx`.")
        if table and chosen != "csv":
            raise click.UsageError("`--table` goes with `--format csv`.")
        return command(*args, out=Output(chosen, file, force, table), **kwargs)

    return wrapped
