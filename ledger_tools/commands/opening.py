"""Opens a book for a command: finds and reads its files, builds it, and stops with words where that is impossible."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Mapping
from datetime import date
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn, TypeVar

import click

from ..problems import Level, Problem
from .files import Unreadable, book_files, read_book, shown
from .progress import done, say

if TYPE_CHECKING:
    from ..book.world import Book
    from ..days import TaxYear
    from ..statements.accounts import Accounts

F = Callable[..., Any]


def book_argument(command: F) -> F:
    """BOOK: a file or folder, the current folder if left out."""
    return click.argument("book", default=".", type=click.Path(path_type=Path), metavar="[BOOK]")(command)


def form_option(command: F) -> F:
    """--format text or json, for commands that make no statement."""
    return click.option(
        "--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True,
        help="Text to read, or JSON for programs.",
    )(command)  # fmt: skip


def year_option(command: F) -> F:
    """--year 2025-26."""
    return click.option("--year", metavar="YEAR", help="The tax year, such as 2025-26. The last one of the book "
                        "that has ended, if left out.")(command)  # fmt: skip


def property_option(command: F) -> F:
    """--property NAME."""
    return click.option("--property", "house", metavar="NAME", help="Only this house.")(command)


def owner_option(command: F) -> F:
    """--owner NAME."""
    return click.option("--owner", metavar="NAME", help="The landlord, where the book has several.")(command)


def on_option(command: F) -> F:
    """--on DATE: the one clock."""
    return click.option(
        "--on", metavar="DATE", help="Take this day as today, such as 2026-03-01.", callback=_read_day, default=""
    )(command)


def _read_day(context: click.Context, parameter: click.Parameter, value: str) -> date:
    if not value:
        return today()
    from ..days import EARLIEST, LATEST
    from ..language.reading import read_date

    try:
        day = read_date(value)
    except ValueError:
        raise click.BadParameter(f'"{value}" is not a day; write 2026-03-01 or "1 Mar 2026".') from None
    if not EARLIEST <= day.year <= LATEST:
        raise click.BadParameter(f"a book speaks of the years {EARLIEST} to {LATEST}.")
    return day


def today() -> date:
    """The only place that reads the clock."""
    return date.today()


# Mistakes that the catalogue and the names of a book can say more of; loading what says it is for such books alone.
TOLD_ON = frozenset({"unknown-verb", "verb-missing", "verb-first", "net-only"})


def problems_of(
    path: Path, inside: bool = False, only_errors: bool = False
) -> tuple[Book | None, list[Problem], dict[str, str]]:
    """The book at a path with every problem of it, and its texts; no book where no file could be read.

    inside: its files are named as seen from its folder, not from where the command was given. only_errors: doubts are
    not looked for.
    """
    from ..book.build import build

    say("Reading the book …")
    texts, problems = texts_of(path, inside)
    if not texts:
        return None, problems, {}
    book = build(texts, only_errors)
    if any(problem.code in TOLD_ON for problem in book.problems):
        from ..explain.no_verb import with_verbs

        return book, [*problems, *with_verbs(book)], texts
    return book, [*problems, *book.problems], texts


def texts_of(path: Path, inside: bool = False) -> tuple[dict[str, str], list[Problem]]:
    """The texts of the files of a book at a path, by name, and what was wrong with those that could not be read.

    inside: names are those seen from its folder.
    """
    problems: list[Problem] = []
    try:
        files = book_files(path)
    except Unreadable as error:
        return {}, [error.problem]
    texts: dict[str, str] = {}
    for file in files:
        try:
            name = file.relative_to(folder_of(path)).as_posix() if inside else file
            texts[shown(name)] = read_book(file)
        except Unreadable as error:
            problems.append(error.problem)
    return texts, problems


def folder_of(path: Path) -> Path:
    """The folder of a book: itself, or that of its only file."""
    return path if path.is_dir() else path.parent


class Opened:
    """A sound book with the texts of its files by name, worked out when it is asked."""

    def __init__(self, book: Book, texts: Mapping[str, str]) -> None:
        self.book = book
        self.texts = texts

    @cached_property
    def accounts(self) -> Accounts:
        """The book worked out."""
        from ..statements.accounts import Accounts

        say("Working it out …")
        return Accounts(self.book)


def open_whole(path: Path, inside: bool = False) -> Opened:
    """The book at a path; where it has errors they are printed and the command ends with status 1.

    inside: its files are named as seen from its folder, so that what is made of it is the same wherever it lies.
    """
    from ..render.problems import draw

    book, problems, texts = problems_of(path, inside, only_errors=True)
    errors = [problem for problem in problems if problem.level is Level.ERROR]
    if errors or book is None:
        if inside:
            open_whole(path)  # which tells the same, at places as they were typed
        done()
        click.echo(draw(errors), err=True)
        click.echo("No figures while the book has errors: mend them, then run this again.", err=True)
        sys.exit(1)
    return Opened(book, texts)


def open_book(path: Path) -> Book:
    """The book alone."""
    return open_whole(path).book


def open_accounts(path: Path) -> Accounts:
    """The book at a path, worked out."""
    return open_whole(path).accounts


def choose_year(book: Book, text: str | None, on: date) -> TaxYear:
    """The tax year asked for; else the last of the book's years that has ended by `on`, else its first."""
    from ..days import TaxYear

    if text:
        return _held(read_year(text))
    ended = [year for year in book.years if year.period.last < on]
    chosen = ended[-1] if ended else book.years[0] if book.years else TaxYear.of(on)
    return _held(chosen)


def read_year(text: str) -> TaxYear:
    """A tax year as people type it: "2025-26", "25-26", "2025/26", "2025-2026"."""
    from ..days import TaxYear

    try:
        return TaxYear.read(_year_words(text))
    except ValueError:
        raise click.BadParameter(f'"{text}" is not a tax year; write it as 2025-26.', param_hint="--year") from None


def so_far(year: TaxYear, asked: str | None, on: date) -> str:
    """What to say of a year's figures where the year was chosen for the reader, or is still running; else nothing."""
    from ..days import day_words

    said = "" if asked else f"{year} was taken; `--year` asks for another. "
    if on <= year.period.last:
        said += f"The tax year runs until {day_words(year.period.last)}: these are its figures so far."
    return said.strip()


def _held(year: TaxYear) -> TaxYear:
    """The year, where property pages are held for it."""
    from .. import law

    try:
        law.pages(year)
    except law.NoFigure as why:
        raise click.BadParameter(f"{why}.", param_hint="--year") from None
    return year


def _year_words(text: str) -> str:
    """ "25-26", "2025/26" and "2025-2026" as "2025-26"; anything else as it stands."""
    first, _, second = text.strip().replace("/", "-").partition("-")
    if len(first) == 2 and first.isdigit():
        first = f"20{first}"
    return f"{first}-{second[-2:]}" if second else text


def choose_houses(book: Book, house: str | None) -> list[str]:
    """The houses asked for; all where none was named."""
    return list(book.properties) if house is None else [_known(house, book.properties, "property")]


def houses_asked(book: Book, house: str | None) -> list[str]:
    """The same; where the book has no house at all the command ends with words."""
    return choose_houses(book, house) or stop("There is no property in this book yet.")


def choose_owner(book: Book, owner: str | None) -> str:
    """The landlord asked for; the only one where none was named."""
    if owner is None:
        if len(book.landlords) != 1:
            names = " or ".join(f"`--owner {name}`" for name in book.landlords)
            raise click.UsageError(f"Whose? Add {names}." if names else "There is no landlord in this book yet.")
        return next(iter(book.landlords))
    return _known(owner, book.landlords, "landlord", "--owner")


def _known(asked: str, names: Iterable[str], what: str, option: str = "") -> str:
    """A name of the book as asked for; else the names that come near it."""
    if asked.lower() not in names:
        from ..spelling import near

        found = near(asked, names)
        hint = f" Did you mean {' or '.join(found)}?" if found else f" It has {', '.join(names) or 'none'}."
        raise click.BadParameter(f'the book has no {what} called "{asked}".{hint}', param_hint=option or f"--{what}")
    return asked.lower()


def stop(words: str) -> NoReturn:
    """End the command with words on the error stream and status 1."""
    done()
    click.echo(words, err=True)
    sys.exit(1)


S = TypeVar("S")


def scheduled(
    opened: Opened, house: str | None, made: Callable[[Book, str], Iterable[S]], form: str, file: Path | None
) -> list[S]:
    """What is made of every schedule of works of the houses asked for, in the form and the file asked for.

    That nothing is planned is no fault: read as text the command ends well, with the words that begin a schedule, and
    programs are given none. Asked for a page or a table it ends with status 1, for there is none to give.
    """
    houses = choose_houses(opened.book, house)
    found = [one for name in houses for one in made(opened.book, name)]
    if found or form == "json":
        return found
    words = _no_schedule(houses[0] if houses else "mill-3")
    if form != "text" or file is not None:
        stop(words)
    done()
    click.echo(words)
    sys.exit(0)


def _no_schedule(house: str) -> str:
    return (
        "There are no works planned in this book. To plan some, write a schedule into it, such as:\n"
        f'schedule {house} "ready to let"\n'
        "    target let from 1 Aug 2026 at £925 a month\n"
        "    contingency 15%\n"
        "    in kitchen\n"
        "        1 replace boiler £2,400 by gas engineer"
    )
