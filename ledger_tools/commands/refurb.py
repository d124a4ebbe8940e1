"""`refurb`: what works were to cost, have cost and will have cost."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from .opening import book_argument, choose_houses, form_option, no_schedule, on_option, open_book, property_option


@click.command()
@book_argument
@property_option
@form_option
@on_option
@click.option("--lines", is_flag=True, help="The lines of your book under each sum.")
def refurb(book: Path, house: str | None, form: str, on: date, lines: bool) -> None:
    """What do the works come to?

    Each job of the schedule, by room and by trade: what was planned, asked, agreed and billed, and what it will have
    cost; work nobody planned; what is left for surprises; what came back; all the house took so far; and what of it the
    tax return will see.
    """
    from ..render import refurb as render
    from ..statements.refurb import refurb as work_out

    found = open_book(book)
    houses = choose_houses(found, house)
    statements = [statement for name in houses for statement in work_out(found, name, on)]
    if not statements:
        no_schedule(houses)
    if form == "json":
        from ..render.json_form import dump

        click.echo(dump(render.as_json(statements)))
        return
    from ..render.text import paragraph
    from ..statements.checked import checked_shortly

    click.echo(render.text(statements, lines))
    click.echo("\n" + "\n".join(paragraph(checked_shortly(), "", "")))
