"""The one table of money lines as a pandas frame: integer pence, a source mark on every line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields
from typing import TYPE_CHECKING

from .rows import Row

if TYPE_CHECKING:
    import pandas

COLUMNS = tuple(f.name for f in fields(Row))


def frame(rows: Sequence[Row]) -> pandas.DataFrame:
    """One line a row, in the order given, with the columns of Row; `pence` is int64, days are dates or None."""
    import pandas

    table = pandas.DataFrame(
        {name: pandas.Series([getattr(row, name) for row in rows], dtype=_dtype(name)) for name in COLUMNS}
    )
    return table


def _dtype(name: str) -> str:
    return "int64" if name in ("pence", "verdict") else "object"
