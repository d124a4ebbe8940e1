"""Published answers on works and items (works.toml, each with its source) against what the tool says."""

from __future__ import annotations

import tomllib
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from ..verdicts.books import LET, fresh, short, verdicts

DATA = tomllib.loads(Path(__file__).with_name("works.toml").read_text(encoding="utf-8"))
HOUSES = {
    "let": LET,
    "fair": fresh("lettable", "normal"),
    "unfit": fresh("not lettable", "normal"),
    "unfit and cheap": fresh("not lettable", "reduced"),
    "for a while": fresh("lettable for a while", "reduced"),
    "cheap": fresh("", "reduced"),
    "unknown": fresh(),
    "void": LET + "    ended 31 May 2025\n",
    "own home first": fresh(got="bought 10 Jun 2015 for £120,000", more="own home from 10 Jun 2015 to 30 Jun 2025"),
    "own home until June": fresh(
        got="bought 10 Jun 2015 for £120,000", more="own home from 10 Jun 2015 to 30 Jun 2025"
    ),
    "lease": fresh("not lettable", "normal", more="leasehold 14 years from 10 Jun 2025, to be put right"),
    "lodger": LET.replace("    left by", "    own home from 10 Jun 2018\n    left by"),
    "sold": LET.replace("    as bought", "    sold 1 Sep 2025 for £200,000\n    as bought") + "    ended 31 May 2025\n",
    "let again": LET + "    ended 31 May 2025\n"
    'tenancy bell at mill-3\n    tenants "A. Bell"\n    periodic from 1 Aug 2025\n    rent £700 a month\n',
    "moved into": LET.replace("    left by", "    own home from 1 Aug 2025\n    left by") + "    ended 31 May 2025\n",
    "second house": LET + 'property dock-9 "9 Dock Road"\n    bought 1 May 2025 for £90,000\n    as bought lettable\n'
    "    price normal\n",
}


@pytest.mark.parametrize("case", DATA["case"], ids=lambda case: f"{case['id']} {case['source']}")
def test_published(case: dict[str, Any]) -> None:
    found = verdicts(case["lines"].strip() + "\n", HOUSES[case.get("house", "let")])
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
