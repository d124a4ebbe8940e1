"""`profit`: what each house brought, by money and by tax."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from .opening import (
    book_argument,
    choose_year,
    houses_asked,
    on_option,
    open_whole,
    property_option,
    so_far,
    year_option,
)
from .output import Output, output_options


@click.command()
@book_argument
@year_option
@property_option
@output_options
@on_option
@click.option("--lines", is_flag=True, help="Under every figure the lines of the book that make it.")
def profit(book: Path, year: str | None, house: str | None, on: date, lines: bool, out: Output) -> None:
    """What did each house bring?

    For a tax year, house by house and then all together: rents, each class of cost, finance, works, and what was left
    over, in money and for tax side by side.
    """
    from ..render import json_form
    from ..render import profit as render
    from ..render.text import draw
    from ..statements.checked import checked_shortly
    from ..statements.months import months
    from ..statements.profit import profit as work_out

    opened = open_whole(book)
    accounts = opened.accounts
    chosen = choose_year(accounts.book, year, on)
    houses = houses_asked(accounts.book, house)
    statements = [work_out(accounts, name, chosen, on) for name in houses]
    if house is None and len(houses) > 1:
        statements.append(work_out(accounts, "", chosen, on))
    along = [months(accounts, statement) for statement in statements] if out.full else []
    out.statement(
        opened, lambda: json_form.profit(statements),
        lambda: render.page(statements, checked_shortly(), lines or out.full, along, so_far(chosen, year, on)),
        lambda page: draw(page, lines),
    )  # fmt: skip
