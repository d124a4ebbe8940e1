"""Published decisions on the state of homes (declared.toml, each with its source) against what the tool warns of."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from ledger_tools.explain.houses import HOUSES
from ledger_tools.money import plain
from ledger_tools.verdicts.conflicts import conflicts
from ledger_tools.verdicts.engine import judge

from ..verdicts.books import book, short

CASES = tomllib.loads(Path(__file__).with_name("declared.toml").read_text(encoding="utf-8"))["case"]


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case['id']} {case['source']}")
def test_published(case: dict[str, Any]) -> None:
    made = book(case["lines"].strip() + "\n", HOUSES[case["house"]].book)
    verdicts = judge(made)
    found = conflicts(made, verdicts)

    assert [short(v.parts) for v in verdicts] == case["parts"]
    assert [fired.slug for conflict in found for fired in conflict.path] == case["warns"]
    items = [(stake.verdict.item.line.thing, stake.pence) for conflict in found for stake in conflict.items]
    assert [f"{thing} {plain(pence)}" for thing, pence in items] == case["against"]
    assert [c.told.answer.verb for c in found if c.told.answer] == [case[key] for key in ("answer",) if key in case]
    if "raised" in case:
        assert [f.slug for conflict in found for f in conflict.path if f.decided] == case["raised"]


def test_every_case_names_its_source_and_no_id_twice() -> None:
    assert all(case["source"] and case["weight"] and case["read"] for case in CASES)
    assert len({case["id"] for case in CASES}) == len(CASES)
