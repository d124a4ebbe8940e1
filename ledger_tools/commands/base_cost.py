"""`base-cost`: what counts when a house is sold."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from ..book.world import Property

from .opening import book_argument, choose_houses, form_option, on_option, open_book, property_option, stop


@click.command("base-cost")
@book_argument
@property_option
@click.option("--price", metavar="POUNDS", help="Try a sale at this price, such as 250000 (with --property).")
@form_option
@on_option
def base_cost(book: Path, house: str | None, price: str | None, form: str, on: date) -> None:
    """What counts when it is sold?

    The capital record of each house as it stands on a day: what buying it cost, the work that finished the purchase,
    the improvements that can still be seen, what has gone since; and the gain and tax of each owner where it was sold,
    or with --price as if it were.
    """
    from ..render import base_cost as render
    from ..statements.base_cost import base_cost as work_out

    found = open_book(book)
    houses = choose_houses(found, house)
    if not houses:
        stop("There is no property in this book yet.")
    if price is not None and len(houses) > 1:
        raise click.UsageError(f"A price for which house? Add `--property` and one of {', '.join(houses)}.")
    if price is not None:
        _may_try(found.properties[houses[0]], on)
    records = [work_out(found, name, on, _pence(price)) for name in houses]
    if form == "json":
        from ..render.json_form import dump

        click.echo(dump(render.as_json(records)))
    else:
        from ..render.text import paragraph
        from ..statements.checked import checked_shortly

        click.echo(render.text(records))
        click.echo("\n" + "\n".join(paragraph(checked_shortly(on), "", "")))


def _may_try(about: Property, on: date) -> None:
    """Stop where the house was not the landlord's on the day a price is tried."""
    from ..days import day_words

    if about.got and on < about.got.day:
        got = f"it was {about.got.how} on {day_words(about.got.day)}"
        stop(f"On {day_words(on)} {about.name} was not yours yet: {got}. Try a later day.")
    if about.sold and about.sold.day <= on:
        stop(f"{about.name} was sold on {day_words(about.sold.day)}; leave out `--price`, or try an earlier day.")


def _pence(price: str | None) -> int | None:
    from ..money import pence

    if price is None:
        return None
    try:
        return pence(price.removeprefix("£").strip())
    except ValueError:
        said = f'"{price}" is not a price; write it as 250000 or £250,000.00.'
        raise click.BadParameter(said, param_hint="--price") from None
