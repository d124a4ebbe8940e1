"""`year-end`: the boxes of the tax return, for each owner."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from .opening import book_argument, choose_year, form_option, on_option, open_accounts, so_far, year_option


@click.command("year-end")
@book_argument
@year_option
@form_option
@on_option
@click.option("--lines", is_flag=True, help="Under every box the lines of the book that make it.")
def year_end(book: Path, year: str | None, form: str, on: date, lines: bool) -> None:
    """What goes on the tax return?

    Every box of the UK property pages that the book reaches, for each owner: the exact sum and the whole pounds to
    type; then what was left out and why, and what is open, with the words that would settle it.
    """
    from ..statements.year_end import year_end as work_out

    accounts = open_accounts(book)
    chosen = choose_year(accounts.book, year, on)
    statement = work_out(accounts, chosen)
    if form == "json":
        from ..render import json_form

        click.echo(json_form.dump(json_form.year_end(statement)))
    else:
        from ..render import text

        click.echo(text.year_end(statement, lines))
        if said := so_far(chosen, year, on):
            click.echo("\n" + "\n".join(text.paragraph(said, "", "")))
