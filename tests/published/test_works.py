"""Published answers on works and items (works.toml, each with its source) against what the tool says."""

from __future__ import annotations

import tomllib
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from ledger_tools.explain.houses import HOUSES

from ..verdicts.books import short, verdicts

DATA = tomllib.loads(Path(__file__).with_name("works.toml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("case", DATA["case"], ids=lambda case: f"{case['id']} {case['source']}")
def test_published(case: dict[str, Any]) -> None:
    found = verdicts(case["lines"].strip() + "\n", HOUSES[case.get("house", "let")].book)
    said = [short(v.parts) + (f" / {short(v.other)}" if v.other else "") for v in found]

    if "parts" in case:
        assert said == case["parts"], [[f.slug for f in v.path] for v in found]
    else:
        assert [[str(part.kind) for part in v.parts] for v in found] == [[kind] for kind in case["kinds"]]
    if "when" in case:
        assert {v.when for v in found} == {date.fromisoformat(case["when"])}


def test_every_case_names_its_source_and_no_id_twice() -> None:
    cases = [*DATA["case"], *DATA["skipped"]]

    assert all(case["source"] for case in cases)
    assert len({case["id"] for case in cases}) == len(cases)
    assert all(case["why"] for case in DATA["skipped"])


def test_a_case_answered_otherwise_says_what_was_published_and_why() -> None:
    assert all(case["published"] and case["differs"] for case in DATA["case"] if {"published", "differs"} & set(case))
