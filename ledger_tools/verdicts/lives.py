"""How long things usually last, and what a tenant may fairly be asked for one that is spoilt. Knows no tax, no book.

Lives are customary (common practice, no source). A landlord must not be better off: the price of the spoilt thing, for
the part of its life that is lost.
"""

from __future__ import annotations

import tomllib
from datetime import date
from fractions import Fraction
from functools import cache
from pathlib import Path

from ..money import round_half_up

FILE = Path(__file__).with_name("lives.toml")


@cache
def lives() -> dict[str, int]:
    """The customary life of things in years, by their name in the catalogue; read once."""
    return tomllib.loads(FILE.read_text(encoding="utf-8"))


def months_old(came: date, day: date) -> int:
    """The age of a thing in whole months."""
    return max((day.year - came.year) * 12 + day.month - came.month - (day.day < came.day), 0)


def fair(price: int, years: int, months: int) -> int:
    """The pence left in a thing of a price and a life in years when it is so many months old; nil where none is left.

    Published example: £500, ten years, spoilt after four: £300 (500 / 10 x 6).
    """
    left = max(years * 12 - months, 0)
    return round_half_up(Fraction(price * left, years * 12))
