"""`quarter`: the digital quarterly update of one owner."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from .opening import (
    book_argument,
    choose_owner,
    form_option,
    on_option,
    open_accounts,
    owner_option,
    read_year,
    stop,
    year_option,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..book.world import Landlord
    from ..days import TaxYear
    from ..taxes.income.refusals import Refusal

WHICH = click.Choice(["1", "2", "3", "4", "annual"])


@click.command()
@book_argument
@click.option("--quarter", "which", type=WHICH, help="Which update; the last one that has ended, if left out. "
              "`annual` is what no quarterly update takes.")  # fmt: skip
@year_option
@owner_option
@form_option
@on_option
@click.option("--consolidated", is_flag=True, help="All expenses in one sum, for those whose income is small enough.")
@click.option("--lines", is_flag=True, help="Under every sum the lines of the book that make it.")
def quarter(
    book: Path, which: str | None, year: str | None, owner: str | None, form: str, on: date, consolidated: bool,
    lines: bool,
) -> None:  # fmt: skip
    """What goes into the digital update?

    From the beginning of the tax year to the end of the quarter, since each update replaces the one before. With
    `--format json` exactly the body that the service takes is printed, and nothing else.
    """
    from ..render import quarter as render
    from ..statements import quarter as statement
    from ..statements.checked import checked_shortly

    accounts = open_accounts(book)
    who = choose_owner(accounts.book, owner)
    asked, number = _asked(which, year, on, accounts.book.landlords[who])
    if number is None:
        yearly = statement.yearly(accounts, who, asked)
        if form == "json" and not yearly.body:
            stop(f"There is nothing to send for {asked} beside the quarterly updates.")
        _refuse(form, yearly.refusals)
        click.echo(render.body_text(yearly.body) if form == "json" else render.yearly_text(yearly, lines))
    else:
        if consolidated and not statement.may_total(accounts, who, asked):
            stop("Expenses can be sent in one sum only where the income of the year is below the limit; leave out "
                 "`--consolidated`.")  # fmt: skip
        update = statement.quarter(accounts, who, asked, number, consolidated, on)
        _refuse(form, update.refusals)
        click.echo(render.body_text(update.body) if form == "json" else render.text(update, lines))
    if form != "json":
        from ..render.text import paragraph

        click.echo("\n" + "\n".join(paragraph(checked_shortly(), "", "")))


def _refuse(form: str, refusals: Sequence[Refusal]) -> None:
    """No body is printed that the service would not take."""
    if form == "json" and refusals:
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
