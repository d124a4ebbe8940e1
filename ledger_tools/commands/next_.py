"""`next`: what is still to do before a house can be let."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from .opening import book_argument, choose_houses, form_option, no_schedule, on_option, open_book, property_option


@click.command("next")
@book_argument
@property_option
@form_option
@on_option
def next_(book: Path, house: str | None, form: str, on: date) -> None:
    """What is still to do?

    The schedule of works room by room, first things first: what waits for what, whom to book by when, where to hold
    and look, what a day's delay costs, and what the seller left. What is done your book tells itself: nothing is
    ticked. A screen a room, for a phone.
    """
    from ..render import schedule as render
    from ..statements.schedule import schedules

    found = open_book(book)
    houses = choose_houses(found, house)
    statements = [statement for name in houses for statement in schedules(found, name, on)]
    if not statements:
        no_schedule(houses)
    if form == "json":
        from ..render.json_form import dump

        click.echo(dump(render.as_json(statements)))
    else:
        click.echo(render.text(statements))
