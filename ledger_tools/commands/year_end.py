"""`year-end`: the boxes of the tax return, for each owner."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from .opening import book_argument, choose_year, on_option, open_whole, so_far, year_option
from .output import Output, output_options


@click.command("year-end")
@book_argument
@year_option
@output_options
@on_option
@click.option("--lines", is_flag=True, help="Under every box the lines of the book that make it.")
def year_end(book: Path, year: str | None, on: date, lines: bool, out: Output) -> None:
    """What goes on the tax return?

    Every box of the UK property pages that the book reaches, for each owner: the exact sum and the whole pounds to
    type; then what was left out and why, and what is open, with the words that would settle it.
    """
    from ..statements.year_end import year_end as work_out

    opened = open_whole(book)
    chosen = choose_year(opened.book, year, on)
    statement = work_out(opened.accounts, chosen, on)
    if out.data:
        from ..render import json_form

        out.write(json_form.dump(json_form.year_end(statement)))
        return
    from ..render.text import draw
    from ..render.year_end import page as said

    page = said(statement, so_far(chosen, year, on))
    out.page(page, opened, lambda: draw(page, lines))
