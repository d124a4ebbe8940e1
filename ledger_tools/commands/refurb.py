"""`refurb`: what works were to cost, have cost and will have cost."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from .opening import book_argument, choose_houses, form_option, on_option, open_book, property_option, stop

SCHEDULE = """There is no schedule of works in this book. Write one, such as:
  schedule {house} "ready to let"
      target let from 1 Aug 2026 at £925 a month
      contingency 15%
      in kitchen
          1 replace boiler £2,400 by gas engineer"""


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
        stop(SCHEDULE.format(house=houses[0] if houses else "mill-3"))
    if form == "json":
        from ..render.json_form import dump

        click.echo(dump(render.as_json(statements)))
        return
    from ..render.text import paragraph
    from ..statements.checked import checked_shortly

    click.echo(render.text(statements, lines))
    click.echo("\n" + "\n".join(paragraph(checked_shortly(), "", "")))
