"""`worth`: whether a house earns its keep."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from fractions import Fraction
from pathlib import Path
from typing import Any

import click

from .opening import book_argument, houses_asked, on_option, open_whole, property_option
from .output import Output, output_options

LONGEST = 12  # digits of a number that can mean anything here


def _pence(context: click.Context, parameter: click.Parameter, value: str | None) -> int | None:
    from ..money import pence

    if value is None:
        return None
    try:
        if len(value) > 2 * LONGEST:
            raise ValueError(value)
        return pence(value.removeprefix("£").strip())
    except ValueError:
        raise click.BadParameter(f'"{value}" is not a sum; write it as 925 or £925.00.') from None


def _number(context: click.Context, parameter: click.Parameter, value: str | None) -> Fraction | None:
    if value is None:
        return None
    said = value.removesuffix("%").strip()
    whole, dot, part = said.partition(".")
    digits = whole + part
    if not (digits.isascii() and digits.isdigit() and whole and bool(part) == bool(dot) and len(digits) <= LONGEST):
        raise click.BadParameter(f'"{value}" is not a number; write it as 5.5.')
    return Fraction(said)


def _weeks(context: click.Context, parameter: click.Parameter, value: str | None) -> Fraction | None:
    number = _number(context, parameter, value)
    if number is not None and number > 52:
        raise click.BadParameter("a year has 52 weeks.")
    return number


def _sum(name: str, words: str) -> Callable[..., Any]:
    return click.option(name, metavar="POUNDS", callback=_pence, help=words)


def _amount(name: str, metavar: str, words: str) -> Callable[..., Any]:
    return click.option(name, metavar=metavar, callback=_number, help=words)


@click.command()
@book_argument
@property_option
@on_option
@output_options
@_sum("--value", "What the house is worth, where your book does not say or says another sum.")
@_amount("--stress", "PERCENT", "A lender's stress rate, such as 5.5 (with --cover).")
@_amount("--cover", "PERCENT", "How much of the stressed interest the rent must be, such as 145 (with --stress).")
@_sum("--rent", "Try another rent a month.")
@_amount("--rate", "PERCENT", "Try another loan rate.")
@_sum("--price", "Try another price of the house, with the tax on it.")
@click.option("--empty", metavar="WEEKS", callback=_weeks, help="Try so many weeks a year without a tenant.")
def worth(book: Path, house: str | None, on: date, out: Output, **typed: Any) -> None:
    """Does the house earn its keep?

    What went into it and the tax on buying it, held against what you paid; then yields, return on your own money,
    payback, interest cover, break-even rent, what an empty week costs, what it brought by tax year, and the internal
    rate of return. With --rent, --rate, --price and --empty a column of what you try stands beside it.
    """
    from ..render import worth as render
    from ..render.worth_page import page
    from ..statements.accounts import Accounts, up_to
    from ..statements.worth import worth as work_out
    from ..statements.worth_year import Asked

    asked = Asked(**typed)
    if (asked.stress is None) != (asked.cover is None):
        raise click.UsageError("A lender's test needs both numbers, such as `--stress 5.5 --cover 145`.")
    opened = open_whole(book)
    found = opened.book
    houses = houses_asked(found, house)
    one = asked.value is not None or asked.price is not None or asked.rent is not None
    if one and len(houses) > 1:
        raise click.UsageError(f"Of which house? Add `--property` and one of {', '.join(houses)}.")
    accounts = Accounts(up_to(found, on))
    numbers = [work_out(accounts, name, on, asked) for name in houses]
    out.statement(opened, lambda: render.as_json(numbers), lambda: page(numbers), lambda _: render.text(numbers))
