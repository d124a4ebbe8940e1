"""`rents`: what fell due of each let, what came in, what is owed; deposits, and what was asked of tenants."""

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
def rents(book: Path, house: str | None, on: date, out: Output) -> None:
    """Who owes rent, and since when?

    Let by let: the rent that fell due against what came in, arrears with their age, deposits held and with whom, and
    what was kept of a deposit or billed to a tenant beside what age leaves of the thing it was for.
    """
    from ..render import rents as render
    from ..render.rents_page import page
    from ..statements.rents import rents as work_out

    opened = open_whole(book)
    accounts = opened.accounts
    statements = [work_out(accounts, name, on) for name in houses_asked(accounts.book, house)]
    out.statement(
        opened, lambda: render.as_json(statements), lambda: page(statements), lambda _: render.text(statements)
    )
