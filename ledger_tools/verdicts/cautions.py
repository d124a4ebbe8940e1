"""The one-line cautions for work that can hurt someone, by the name a thing of the catalogue gives.

They defer to local rules and registered trades and certify nothing. Knows no tax.
"""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path

FILE = Path(__file__).with_name("cautions.toml")


@cache
def cautions() -> dict[str, dict[str, str]]:
    """Every caution by name: what it `says` and its `source`, read once."""
    return tomllib.loads(FILE.read_text(encoding="utf-8"))


def caution(name: str) -> str:
    """The sentence to print, "" for no name. KeyError where there is no caution of that name."""
    return cautions()[name]["says"] if name else ""
