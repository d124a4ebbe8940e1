"""`profit`: what each house brought, by money and by tax."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from .opening import (
    book_argument,
    choose_houses,
    choose_year,
    form_option,
    on_option,
    open_accounts,
    property_option,
    so_far,
    stop,
    year_option,
)


@click.command()
@book_argument
@year_option
@property_option
@form_option
@on_option
@click.option("--lines", is_flag=True, help="Under every figure the lines of the book that make it.")
def profit(book: Path, year: str | None, house: str | None, form: str, on: date, lines: bool) -> None:
    """What did each house bring?

    For a tax year, house by house and then all together: rents, each class of cost, finance, works, and what was left
    over, in money and for tax side by side.
    """
    from ..statements.checked import checked_shortly
    from ..statements.profit import profit as work_out

    accounts = open_accounts(book)
    chosen = choose_year(accounts.book, year, on)
    houses = choose_houses(accounts.book, house)
    if not houses:
        stop("There is no property in this book yet.")
    statements = [work_out(accounts, name, chosen, on) for name in houses]
    if house is None and len(houses) > 1:
        statements.append(work_out(accounts, "", chosen, on))
    if form == "json":
        from ..render import json_form

        click.echo(json_form.dump(json_form.profit(statements)))
    else:
        from ..render import text

        click.echo(text.profit(statements, lines))
        if said := so_far(chosen, year, on):
            click.echo("\n" + "\n".join(text.paragraph(said, "", "")))
        click.echo("\n" + "\n".join(text.paragraph(checked_shortly(), "", "")))
