"""`refurb`: what works were to cost, have cost and will have cost."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from .opening import book_argument, on_option, open_whole, property_option, scheduled
from .output import Output, output_options


@click.command()
@book_argument
@property_option
@output_options
@on_option
@click.option("--lines", is_flag=True, help="The lines of your book under each sum.")
def refurb(book: Path, house: str | None, on: date, lines: bool, out: Output) -> None:
    """What do the works come to?

    Each job of the schedule, by room and by trade: what was planned, asked, agreed and billed, and what it will have
    cost; work nobody planned; what is left for surprises; what came back; all the house took so far; and what of it the
    tax return will see.
    """
    from ..render import refurb as render
    from ..render.refurb_page import page
    from ..render.text import foot
    from ..statements.checked import checked_shortly
    from ..statements.refurb import refurb as work_out

    opened = open_whole(book)
    statements = scheduled(opened, house, lambda found, name: work_out(found, name, on), out.form, out.file)
    out.statement(
        opened, lambda: render.as_json(statements), lambda: page(statements, checked_shortly()),
        lambda said: f"{render.text(statements, lines)}\n\n{foot((), said.checked)}",
    )  # fmt: skip
