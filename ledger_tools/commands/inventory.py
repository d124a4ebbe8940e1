"""`inventory`: what is in each house, since when, and what it cost."""

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
@click.option("--gone", is_flag=True, help="What has left the house too: sold, replaced, scrapped, moved.")
def inventory(book: Path, house: str | None, form: str, on: date, gone: bool) -> None:
    """What was in the house on a day?

    The loose things, kit and outbuildings your book tells of, room by room: since when, how each came, whether a tenant
    had it, what it cost and how much of that came off the rents. It shows that a new item replaced an old one, and
    serves as a list for the day tenants move in.
    """
    from ..render import inventory as render
    from ..render.text import paragraph
    from ..statements.checked import checked_shortly
    from ..statements.inventory import inventory as work_out
    from ..verdicts.catalogue import catalogue
    from ..verdicts.history import History

    accounts = open_accounts(book)
    things = History(accounts.book, catalogue()).inventory
    houses = choose_houses(accounts.book, house)
    if not houses:
        stop("There is no property in this book yet.")
    statements = [work_out(accounts.book, things, accounts.verdicts, name, on) for name in houses]
    if form == "json":
        from ..render.json_form import dump

        click.echo(dump(render.as_json(statements)))
        return
    click.echo(render.text(statements, gone))
    said = f"Only what your book tells of; what is fixed to the house is not listed. {checked_shortly()}"
    click.echo("\n" + "\n".join(paragraph(said, "", "")))
