"""`new`: writes a starter book for a house, asking as little as possible."""

from __future__ import annotations

import os
import re
from datetime import date
from pathlib import Path

import click

from ..days import day_words
from .opening import on_option, stop

NAME = re.compile(r"[a-z][a-z0-9]*(?:-[a-z0-9]+)*")


def _day(context: click.Context, parameter: click.Parameter, value: str | None) -> date | None:
    if value is None:
        return None
    from ..language.reading import read_date

    try:
        return read_date(value)
    except ValueError:
        raise click.BadParameter(f'"{value}" is not a day; write "23 May 2025" or 2025-05-23.') from None


def _price(context: click.Context, parameter: click.Parameter, value: str | None) -> str | None:
    if value is None:
        return None
    from ..money import pence, pounds

    try:
        return pounds(pence(value.strip().lstrip("£"))).removesuffix(".00")
    except ValueError:
        raise click.BadParameter(f'"{value}" is not a price; write £146,000.') from None


@click.command()
@click.argument("words", nargs=-1, required=True, metavar="NAME")
@click.option("--address", metavar="TEXT", help='Its address, such as "3 Mill Lane, Anytown".')
@click.option("--landlord", metavar="TEXT", help='Your name, such as "Robin Marsh".')
@click.option("--nation", type=click.Choice(["england", "wales", "scotland", "northern ireland"]), default="england",
              show_default=True, help="Where it stands.")  # fmt: skip
@click.option("--bought", metavar="DATE", callback=_day, help="The day it became yours.")
@click.option("--price", metavar="POUNDS", callback=_price, help="What it cost.")
@on_option
def new(words: tuple[str, ...], address: str | None, landlord: str | None, nation: str, bought: date | None,
        price: str | None, on: date) -> None:  # fmt: skip
    """Write a starter book for a house.

    NAME is one word of your own for the house, such as mill-3; of an address, such as 14 Brick Street, a short name
    is made. The file NAME.book is written in the folder you are
    in; what you do not tell now stands in it as a line to fill in. A file that is there already is never touched.
    """
    name, full = _named(" ".join(words))
    address = address or full
    from ..language.grammar import LITTLE_WORDS

    if not NAME.fullmatch(name) or name in LITTLE_WORDS:
        raise click.BadParameter(f'"{name}" is not one word; write it like mill-3.', param_hint="NAME")
    from ..language.tidy import tidy

    text = tidy(starter(name, address, landlord, nation, bought, price, on))
    place = Path(f"{name}.book")
    try:
        handle = os.open(place, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o644)
    except FileExistsError:
        stop(f'"{place}" is there already and was left alone. Choose another name, or add to that book.')
    except OSError as error:
        stop(f'"{place}" could not be written: {error.strerror}.')
    with os.fdopen(handle, "w", encoding="utf-8") as out:
        out.write(text)
    click.echo(f'Wrote "{place}". Open it in any text editor; `landlord-books proof {place}` tells how it stands.')


def _named(typed: str) -> tuple[str, str | None]:
    """The short name of a house and, where an address of several words was typed, that address."""
    parts = [part for part in re.findall(r"[^\s,]+", typed) if part.lower() not in ("the", "a")]
    if len(parts) < 2:
        return typed.lower(), None
    number = next((part for part in parts[:2] if re.fullmatch(r"\d+[a-z]?", part, re.I)), "")
    word = next((part for part in parts if part != number), "")
    short = f"{word}-{number}" if number else "-".join(parts[:2])
    return re.sub(r"[^a-z0-9-]", "", short.lower()), " ".join(typed.split())


def _quoted(text: str | None, otherwise: str) -> str:
    return '"' + (text or otherwise).replace('"', "'").replace("\n", " ") + '"'


def starter(name: str, address: str | None, landlord: str | None, nation: str, bought: date | None,
            price: str | None, on: date) -> str:  # fmt: skip
    """The text of a starter book. It is sound as it stands; lines to fill in are comments."""
    day = day_words(on)
    told = f"    bought {day_words(bought)} for {price}" if bought and price else (
        f"    # bought {day_words(bought) if bought else day} for {price or '£146,000'}"
    )  # fmt: skip
    return f"""\
# Notes to yourself stand after a hash. A line an event: the day, what was done, to what, where, for how much, by whom.
# Take a hash away to use a line, and change what it says.

landlord me {_quoted(landlord, "My Name")}
    # other income £31,400 in 2025-26

property {name} {_quoted(address, "Address, Town")}
    nation {nation}
{told}
    # as bought lettable, says "agent's letter"
    # price normal
    rooms hall, lounge, kitchen, bathroom, front bedroom, back bedroom, garden

# loan {name}-loan on {name} from "The Building Society"
#     rate 5% from {day}
#     interest only
#     owed £80,000 on {day}
# tenancy first at {name}
#     tenants "A. Tenant"
#     periodic from {day}
#     rent £925 a month, first due {day}
#     deposit £1,067, with "The Scheme", protected {day}

at {name}
{day}  noted  "began this book"
# {day}  paid       landlord insurance £286.00 to "The Insurer"
# {day}  replaced   boiler in kitchen £2,310.00 by "The Plumber", modern equivalent, broken
# {day}  received   rent £925.00 from first
"""
