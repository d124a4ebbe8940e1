"""`next`: what is still to do before a house can be let."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from .opening import book_argument, on_option, open_whole, property_option, scheduled
from .output import Output, output_options


@click.command("next")
@book_argument
@property_option
@output_options
@on_option
def next_(book: Path, house: str | None, on: date, out: Output) -> None:
    """What is still to do?

    The schedule of works room by room, first things first: what waits for what, whom to book by when, where to hold
    and look, what a day's delay costs, and what the seller left. What is done your book tells itself: nothing is
    ticked. A screen a room, for a phone.
    """
    from ..render import schedule as render
    from ..render.schedule_page import page
    from ..statements.schedule import schedules

    opened = open_whole(book)
    statements = scheduled(opened, house, lambda found, name: schedules(found, name, on), out.form, out.file)
    out.statement(
        opened, lambda: render.as_json(statements), lambda: page(statements), lambda _: render.text(statements)
    )
