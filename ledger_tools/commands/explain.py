"""`explain`: a word, a message, a verdict, a thing or a rule in plain words; a figure walked back to its lines."""

from __future__ import annotations

import re
from pathlib import Path

import click

from .opening import choose_owner, open_accounts, owner_option, read_year, stop

FIGURE = re.compile(r"(\d{2,4}[-/]\d{2,4})\s+(?:box[- ]?)?(\d{1,2}(?:\.\d)?)", re.I)


@click.command()
@click.argument("subject", nargs=-1, required=True, metavar="SUBJECT")
@click.option("--book", type=click.Path(path_type=Path), default=".", help="For a figure: the book, the current folder "
              "if left out.")  # fmt: skip
@owner_option
def explain(subject: tuple[str, ...], book: Path, owner: str | None) -> None:
    """What does it mean?

    SUBJECT is a word of the book's language (`like for like`), the code of a message (`sum-off`), a verdict
    (`capital-improvement`), a rule (`same-again`), or a thing or cost in any of its words (`cooker hood`). Or it is a
    figure of the tax return: `2025-26 box-25` shows the lines that make it, what each was judged to be, and the
    rounding.
    """
    figure = FIGURE.fullmatch(" ".join(subject))
    if figure:
        _figure(book, owner, *figure.groups())
    else:
        _page(" ".join(subject))


def _figure(book: Path, owner: str | None, year: str, number: str) -> None:
    from .. import law
    from ..render import walk_back as render
    from ..render.text import paragraph
    from ..statements.checked import checked_shortly
    from ..statements.walk_back import walk_back

    accounts = open_accounts(book)
    asked = read_year(year)
    try:
        found = walk_back(accounts, asked, number)
    except law.NoFigure as why:
        stop(f"{str(why).capitalize()}.")
    if owner is not None:
        name = choose_owner(accounts.book, owner)
        found = tuple(one for one in found if one.owner == name)
    if not found:
        stop(f"Box {number} of {asked} is empty.")
    click.echo(render.text(found))
    click.echo("\n" + "\n".join(paragraph(checked_shortly(), "", "")))


def _page(asked: str) -> None:
    from textwrap import wrap

    from ..explain import look_up, subjects
    from ..explain.things import unknown
    from ..render.text import on_the_page
    from ..spelling import near

    page = look_up(asked)
    if page is None:
        found = near(asked, subjects())
        hint = f" Did you mean {' or '.join(found)}?" if found else ""
        stop("\n".join(wrap(f'There is no page about "{asked}".{hint}{unknown(asked)}', 100)))
    if page.kind == "message":
        click.echo(on_the_page(page.text))
        return
    click.echo(on_the_page(f"{page.subject}: {page.kind}\n\n{page.text}"))
    if page.example:
        click.echo(
            on_the_page(f"\n{page.where or 'For example:'}\n")
            + "\n".join(f"    {line}" for line in page.example.rstrip().split("\n"))
        )
    if page.source:
        click.echo(on_the_page(f"\nSource: {page.source}"))
    if page.more:
        click.echo(on_the_page(f"\n{page.more}"))
