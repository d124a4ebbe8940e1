"""`base-cost`: what counts when a house is sold."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from .opening import book_argument, houses_asked, on_option, open_whole, property_option, stop
from .output import Output, output_options

if TYPE_CHECKING:
    from ..book.world import Property


@click.command("base-cost")
@book_argument
@property_option
@click.option("--price", metavar="POUNDS", help="Try a sale at this price, such as 250000 (with --property).")
@output_options
@on_option
def base_cost(book: Path, house: str | None, price: str | None, on: date, out: Output) -> None:
    """What counts when it is sold?

    The capital record of each house as it stands on a day: what buying it cost, the work that finished the purchase,
    the improvements that can still be seen, what has gone since; and the gain and tax of each owner where it was sold,
    or with --price as if it were.
    """
    from ..render import base_cost as render
    from ..render.text import foot
    from ..statements.base_cost import base_cost as work_out
    from ..statements.checked import checked_shortly

    opened = open_whole(book)
    found = opened.book
    houses = houses_asked(found, house)
    if price is not None and len(houses) > 1:
        raise click.UsageError(f"A price for which house? Add `--property` and one of {', '.join(houses)}.")
    if price is not None:
        _may_try(found.properties[houses[0]], on)
    records = [work_out(found, name, on, _pence(price)) for name in houses]
    out.statement(
        opened, lambda: render.as_json(records), lambda: render.page(records, checked_shortly(on)),
        lambda page: f"{render.text(records)}\n\n{foot((), page.checked)}",
    )  # fmt: skip


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
