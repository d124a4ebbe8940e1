"""The schemes of real councils (schemes.toml) in the book's words: each is sound, and gives the steps it tells."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from ledger_tools.taxes.council.bill import Worked

from .test_council import shown, ways

ROWS = tomllib.loads(Path(__file__).with_name("schemes.toml").read_text(encoding="utf-8"))["row"]
CASES = [(row, home) for row in ROWS for home in row["home"]]


def test_every_row_is_there_once() -> None:
    assert [row["row"] for row in ROWS] == list(range(1, 49))
    assert all(row["council"] and row["scheme"] and row["home"] for row in ROWS)


@pytest.mark.parametrize(("row", "home"), CASES, ids=[f"{row['row']}: {home['house'][:60]}" for row, home in CASES])
def test_a_scheme_gives_its_steps(row: dict[str, Any], home: dict[str, Any]) -> None:
    """Whatever the case leaves open makes no difference to the days looked at."""
    scheme = {year: f"1825.00; {rules}" for year, rules in row["scheme"].items()}
    found = ways({**row, **home, "scheme": scheme}, home.get("given", {}))

    assert {_steps(worked) for worked in found} == {tuple(home["days"])}


def _steps(worked: Worked) -> tuple[str, ...]:
    """The landlord's days by share of the charge; neighbours of one share, such as two council years, as one."""
    told: list[tuple[int, str]] = []
    for segment in worked.segments:
        if segment.ours and segment.due.factor is not None:
            share = shown(segment.due.factor)
            if told and told[-1][1] == share:
                told[-1] = (told[-1][0] + segment.days.days, share)
            else:
                told.append((segment.days.days, share))
    return tuple(f"{days} x {share}" for days, share in told)
