"""`inventory`: what is in each house, since when, and what it cost."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from .opening import book_argument, houses_asked, on_option, open_whole, property_option
from .output import Output, output_options


@click.command()
@book_argument
@property_option
@output_options
@on_option
@click.option("--gone", is_flag=True, help="What has left the house too: sold, replaced, scrapped, moved.")
def inventory(book: Path, house: str | None, on: date, gone: bool, out: Output) -> None:
    """What was in the house on a day?

    The loose things, kit and outbuildings your book tells of, room by room: since when, how each came, whether a tenant
    had it, what it cost and how much of that came off the rents. It shows that a new item replaced an old one, and
    serves as a list for the day tenants move in.
    """
    from ..render import inventory as render
    from ..render.text import foot
    from ..statements.checked import checked_shortly
    from ..statements.inventory import inventory as work_out

    opened = open_whole(book)
    accounts = opened.accounts
    things = accounts.history.inventory
    houses = houses_asked(accounts.book, house)
    statements = [work_out(accounts.book, things, accounts.verdicts, name, on) for name in houses]
    out.statement(
        opened, lambda: render.as_json(statements), lambda: render.page(statements, gone, checked_shortly()),
        lambda page: f"{render.text(statements, gone)}\n\n{foot((), page.checked)}",
    )  # fmt: skip
