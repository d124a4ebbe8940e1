"""`proof`: is the book sound? Every mistake and doubt at once."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from ..problems import Level, Problem
from .opening import book_argument, form_option, on_option, problems_of
from .papers import Shelf, receipts_option
from .progress import done

if TYPE_CHECKING:
    from ..book.world import Book

MOST = 200  # problems drawn at once: nobody mends more in one sitting


@click.command()
@book_argument
@form_option
@on_option
@receipts_option
@click.option("--quiet", is_flag=True, help="Errors only, no doubts or notes.")
def proof(book: Path, form: str, on: date, allowed: tuple[Path, ...], quiet: bool) -> None:
    """Is the book sound?

    Every mistake of a book is told in one run, with its place and how to mend it: lines that cannot be read, sums that
    do not add up, names nobody knows, dates at odds, papers paid twice, receipts that are missing. Doubts are worth
    a look; only errors keep figures from being worked out.

    The status is 1 where there are errors.
    """
    from ..render.problems import as_json, draw

    found, problems, _ = problems_of(book)
    if found is not None:
        from ..book.checks import in_the_future
        from ..book.papers_told import missing_files
        from ..verdicts.checks import doubts
        from ..verdicts.state_told import faults_in_quotes, state_untold

        broken = any(problem.level is Level.ERROR for problem in problems)
        problems += [
            *missing_files(found, Shelf(book, allowed).look),
            *in_the_future(found, on),
            *doubts(found),
            *agents(found),
            *forms_late(found),
            *([] if broken else [*told_elsewhere(found), *state_untold(found), *faults_in_quotes(found)]),
        ]
    problems.sort(key=lambda problem: problem.order)
    done()
    if quiet:
        problems = [problem for problem in problems if problem.level is Level.ERROR]
    if form == "json":
        import json

        click.echo(json.dumps({"problems": as_json(problems)}, indent=2, ensure_ascii=False))
    else:
        if problems:
            click.echo(draw(problems[:MOST]))
        if len(problems) > MOST:
            click.echo(f"… and {len(problems) - MOST} more. Mend these first; `--format json` tells them all.")
        if found is not None and not any(p.level is Level.ERROR for p in problems):
            click.echo(_sound(found, any(p.level is Level.DOUBT for p in problems)))
    sys.exit(1 if found is None or any(p.level is Level.ERROR for p in problems) else 0)


def forms_late(book: Book) -> list[Problem]:
    """Doubts about declarations of a couple's shares; the law is asked only where the book tells one."""
    if not any(house.form_17 for house in book.properties.values()):
        return []
    from ..taxes.income.owners import doubts

    return doubts(book)


def agents(book: Book) -> list[Problem]:
    """Agents' statements held against their terms; a book without terms does not load what it takes."""
    if not any(party.charges for party in book.parties.values()):
        return []
    from ..verdicts.agents import agent_doubts

    return agent_doubts(book)


def told_elsewhere(book: Book) -> list[Problem]:
    """Doubts about what a book says was told elsewhere; a book that tells nothing of the kind is not judged for it."""
    from ..verdicts.told import tells_elsewhere

    if not tells_elsewhere(book):
        return []
    from ..verdicts.conflicts import doubts

    return doubts(book)


def _sound(book: object, doubtful: bool) -> str:
    """How much was read: for each house how many lines of which days."""
    from ..book.world import Book
    from ..days import day_words

    assert isinstance(book, Book)
    if not book.properties and not book.entries:
        return "There is nothing in this book yet. `landlord-books new mill-3` writes a starter book to look at."
    lines = ["The book is sound." if not doubtful else "No errors."]
    for house in book.properties.values():
        days = [e.day.first for e in book.entries if any(share.house == house.name for share in e.homes)]
        count = f"{len(days)} line{'s' if len(days) != 1 else ''}"
        said = f"{count}, {day_words(min(days))} to {day_words(max(days))}" if days else "no lines yet"
        lines.append(f"  {house.name}: {said}")
    return "\n".join(lines)
