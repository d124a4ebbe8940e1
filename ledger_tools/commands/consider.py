"""`consider`: the verdict on something not done yet, and the ways of doing it side by side."""

from __future__ import annotations

import os
import re
import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from ..problems import Level, Problem
from .opening import choose_houses, form_option, on_option, property_option, stop, texts_of

if TYPE_CHECKING:
    from ..book.trial import Trial
    from ..statements.consider import Consideration
    from ..statements.consider_tax import OwnerTax

# After these a shell has eaten the quotation marks of what it hands over as one word.
QUOTED_AFTER = frozenset("by from to because says receipt photo before after invoice quote number".split())

SELLING = re.compile(
    r"(?:sell|sold|selling)\s+(?:(?:the|my|our|whole)\s+)*(?:house|flat|home|property|bungalow|it)(?=\s*(?:,|$|£|\d|for\b|at\b|in\b))"
    r"(?:\D*?(?P<price>£?\s?\d[\d,]*(?:\.\d\d)?))?",
    re.I,
)


@click.command()
@click.argument("words", nargs=-1, metavar="[BOOK] LINE...", required=True)
@property_option
@on_option
@form_option
def consider(words: tuple[str, ...], house: str | None, on: date, form: str) -> None:
    """What if I replace it now, or after the first let?

    LINE is typed as a line of the book; it needs no day, and its verb may stand in the plain form: replace boiler in
    kitchen £2,400, modern equivalent. Side by side come the line as typed, done after the first let where the house
    is not let yet, and the ways of doing it that make a difference: what comes off the rents, what counts when the
    house is sold, what gets nothing, and why. Nothing is written to your book.
    """
    from ..book.trial import FILE, Trial
    from ..render import consider as render
    from ..statements.consider import NotAskable
    from ..statements.consider import consider as work_out
    from ..verdicts.checks import doubts

    path, line = _book_and_line(words)
    if selling := SELLING.match(line):
        stop(_sale(words[0] if str(path) == words[0] else "BOOK", selling["price"] or ""))
    texts, problems = texts_of(path)
    if not texts:
        _end(problems, form)
    trial = Trial(texts)
    errors = [p for p in (*problems, *trial.book.problems) if p.level is Level.ERROR]
    if errors:
        _end(errors, form, "No figures while the book has errors: mend them, then run this again.")
    at = choose_houses(trial.book, house)[0] if house is not None else ""
    typed, tried, wrong = trial.line(line, on, at)
    if tried.entry is not None:
        about_things = [p for p in doubts(tried.book) if p.marks[0].file == FILE]
        wrong = (*wrong, *(typed.placed(problem, FILE) for problem in about_things))
    if any(p.level is Level.ERROR for p in wrong):
        _end(list(wrong), form, counted=False)
    try:
        considered = work_out(trial, tried)
    except NotAskable as why:
        stop(str(why))
    tax = _tax(trial, considered)
    if form == "json":
        from ..render.json_form import dump
        from ..render.problems import as_json

        click.echo(dump({**render.as_json(considered, tax), "problems": as_json(wrong)}))
    else:
        if wrong:
            from ..render.problems import draw

            click.echo(draw(wrong, counted=False) + "\n")
        click.echo(render.text(considered, tax))


def _sale(book: str, price: str) -> str:
    """Where the sale of a house is worked out."""
    sum_ = re.sub(r"[£,\s]", "", price).removesuffix(".00") or "…"
    return (
        "This command is for works and costs. What selling the house would bring, and the tax on it,\n"
        f"is worked out by another:\n  landlord-books base-cost {book} --price {sum_}\n"
        "With several houses add `--property` and the name of the house."
    )


def _book_and_line(words: tuple[str, ...]) -> tuple[Path, str]:
    """The book, where the first word names one and no verb, and the line; quotation marks put back round names."""
    from ..language.asked import PLAIN_FORMS, VERBS

    first = words[0]
    is_path = first.endswith(".book") or "/" in first and not first[0].isdigit() or os.path.exists(first)
    named = is_path and " " not in first and first.lower() not in {*VERBS, *PLAIN_FORMS}
    rest = words[1:] if named else words
    if not rest:
        raise click.UsageError("Say what you consider, such as: replace boiler in kitchen £2,400, like for like")
    said = [_quoted(word) if i and rest[i - 1].lower() in QUOTED_AFTER else word for i, word in enumerate(rest)]
    return Path(first) if named else Path("."), " ".join(said)


def _quoted(word: str) -> str:
    """A name of several words in quotation marks again; a comma that came after it stays after it."""
    name = word.rstrip(",")
    return f'"{name}"{word[len(name) :]}' if " " in name and '"' not in name else word


def _tax(trial: Trial, considered: Consideration) -> tuple[OwnerTax, ...]:
    """The estimate of tax, where the book tells any other income: only then is the book worked out as a whole."""
    from ..statements.accounts import Accounts
    from ..statements.consider_tax import tax_now

    if not any(landlord.other_income for landlord in trial.book.landlords.values()):
        return ()
    return tax_now(Accounts(trial.book), considered)


def _end(problems: list[Problem], form: str, words: str = "", counted: bool = True) -> NoReturn:
    """Tell the problems and end with status 1."""
    from ..render.problems import as_json, draw

    if form == "json":
        from ..render.json_form import dump

        click.echo(dump({"problems": as_json(problems)}))
    else:
        click.echo(draw(problems, counted=counted), err=True)
        if words:
            click.echo(words, err=True)
    sys.exit(1)
