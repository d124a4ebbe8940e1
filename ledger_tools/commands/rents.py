"""`rents`: what fell due of each let, what came in, what is owed; deposits, and what was asked of tenants."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from .opening import book_argument, choose_houses, form_option, on_option, open_accounts, property_option, stop


@click.command()
@book_argument
@property_option
@form_option
@on_option
def rents(book: Path, house: str | None, form: str, on: date) -> None:
    """Who owes rent, and since when?

    Let by let: the rent that fell due against what came in, arrears with their age, deposits held and with whom, and
    what was kept of a deposit or billed to a tenant beside what age leaves of the thing it was for.
    """
    from ..render import rents as render
    from ..statements.rents import rents as work_out

    accounts = open_accounts(book)
    houses = choose_houses(accounts.book, house)
    if not houses:
        stop("There is no property in this book yet.")
    statements = [work_out(accounts, name, on) for name in houses]
    if form == "json":
        from ..render.json_form import dump

        click.echo(dump(render.as_json(statements)))
    else:
        click.echo(render.text(statements))
