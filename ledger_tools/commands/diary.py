"""`diary`: the dates to watch, to read, for a spreadsheet, for programs, or for a calendar."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from .opening import book_argument, houses_asked, on_option, open_whole, property_option, stop
from .output import Output, calendar_options

INSTALL = "pip install 'landlord-books[calendar]'"


@click.command()
@book_argument
@property_option
@on_option
@click.option("--weeks", type=click.IntRange(0, 520), default=12, show_default=True, help="How far to look ahead.")
@calendar_options
def diary(book: Path, house: str | None, on: date, weeks: int, out: Output) -> None:
    """What falls due?

    Certificates, alarms, insurance and licences that run out, deposits to protect, money held back, terms and notices,
    the earliest day for a higher rent, returns, updates and payments of each owner: overdue first, then by day, each
    with the rule behind it and how old that rule is. With --property only what concerns that house. Reminders from
    your own notes; they certify nothing.
    """
    from ..render import diary as render
    from ..render.diary_page import page
    from ..statements.diary import diary as work_out

    opened = open_whole(book)
    accounts = opened.accounts
    found = work_out(accounts, houses_asked(accounts.book, house), house is None, on, weeks)
    if out.calendar:
        try:
            out.write(render.calendar(found), end="")
        except ImportError:
            stop(f"A calendar file needs the library icalendar, which is not installed here. Run:  {INSTALL}")
        return
    out.statement(opened, lambda: render.as_json(found), lambda: page(found), lambda _: render.text(found))
