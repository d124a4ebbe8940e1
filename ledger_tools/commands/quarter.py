"""`quarter`: the digital quarterly update of one owner."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from .opening import (
    book_argument,
    choose_owner,
    on_option,
    open_whole,
    owner_option,
    read_year,
    stop,
    year_option,
)
from .output import Output, output_options

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..book.world import Landlord
    from ..days import TaxYear
    from ..statements.quarter import QuarterUpdate, YearlySubmission
    from ..taxes.income.refusals import Refusal

WHICH = click.Choice(["1", "2", "3", "4", "annual"])


@click.command()
@book_argument
@click.option("--quarter", "which", type=WHICH, help="Which update; the last one that has ended, if left out. "
              "`annual` is what no quarterly update takes.")  # fmt: skip
@year_option
@owner_option
@output_options
@on_option
@click.option("--consolidated", is_flag=True, help="All expenses in one sum, for those whose income is small enough.")
@click.option("--lines", is_flag=True, help="Under every sum the lines of the book that make it.")
def quarter(
    book: Path, which: str | None, year: str | None, owner: str | None, on: date, consolidated: bool, lines: bool,
    out: Output,
) -> None:  # fmt: skip
    """What goes into the digital update?

    From the beginning of the tax year to the end of the quarter, since each update replaces the one before. With
    `--format json` exactly the body that the service takes is printed, and nothing else.
    """
    from ..render import quarter as render
    from ..render.text import draw
    from ..statements import quarter as statement
    from ..statements.checked import checked_shortly

    opened = open_whole(book)
    accounts = opened.accounts
    who = choose_owner(accounts.book, owner)
    asked, number = _asked(which, year, on, accounts.book.landlords[who])
    made: QuarterUpdate | YearlySubmission
    if number is None:
        made = statement.yearly(accounts, who, asked)
        if out.data and not made.body:
            stop(f"There is nothing to send for {asked} beside the quarterly updates.")
        _refuse(out.data, made.refusals)
        page = render.yearly_page(made, checked_shortly())
    else:
        if consolidated and not statement.may_total(accounts, who, asked):
            stop("Expenses can be sent in one sum only where the income of the year is below the limit; leave out "
                 "`--consolidated`.")  # fmt: skip
        made = statement.quarter(accounts, who, asked, number, consolidated, on)
        _refuse(out.data, made.refusals)
        page = render.page(made, checked_shortly())
    if out.data:
        out.write(render.body_text(made.body))
    else:
        out.page(page, opened, lambda: draw(page, lines))


def _refuse(body: bool, refusals: Sequence[Refusal]) -> None:
    """No body is printed that the service would not take."""
    if body and refusals:
        stop("\n".join(f"The service would refuse this ({r.code}): {r.says}" for r in refusals))


def _asked(which: str | None, year: str | None, on: date, landlord: Landlord) -> tuple[TaxYear, int | None]:
    """The year and the number of the update asked for; else the last one that has ended by `on`. None: the yearly."""
    from .. import law
    from ..days import TaxYear
    from ..taxes.income.quarters import update

    asked = read_year(year) if year else TaxYear.of(on)
    try:
        ends = [(n, update(n, asked, landlord.quarters_in(asked), "").period.last) for n in (1, 2, 3, 4)]
    except law.NoFigure:
        first = TaxYear.of(law.began("digital.update_1"))
        said = f"there are no digital updates before {first}; you asked about {asked}."
        raise click.BadParameter(said, param_hint="--year") from None
    if which:
        return asked, None if which == "annual" else int(which)
    ended = [n for n, last in ends if last < on]
    if not ended and not year:
        return asked.before, 4
    return asked, ended[-1] if ended else 1
