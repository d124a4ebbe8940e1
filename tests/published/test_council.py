"""Published figures and days of council tax (council.toml, each with its source) against what the tool works out."""

from __future__ import annotations

import tomllib
from datetime import date
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from ledger_tools.book.build import build
from ledger_tools.book.world import Book
from ledger_tools.days import Period
from ledger_tools.money import plain
from ledger_tools.problems import Level
from ledger_tools.taxes.council.answers import every_way
from ledger_tools.taxes.council.bill import Worked, work_out
from ledger_tools.taxes.council.facts import gather

DATA = tomllib.loads(Path(__file__).with_name("council.toml").read_text(encoding="utf-8"))


def book(case: dict[str, Any]) -> Book:
    """The book of a case. Mere House and its people are invented."""
    nation = case.get("nation", "england")
    out = ['landlord x "X. Mere"', 'council mere "Mere Council"', f"    nation {nation}"]
    for year, told in case["scheme"].items():
        charge, _, rules = told.partition(";")
        out += [f"scheme mere {year}", f"    charge band B £{charge}", *(_lines(rules))]
    out += ['property house "Mere House"', f"    nation {nation}", "    council mere, band B", *_lines(case["house"])]
    for name, told in case.get("let", {}).items():
        out += [f"tenancy {name} at house", f'    tenants "{name.upper()}"', "    rent £500 a month", *_lines(told)]
    made = build({"mere.book": "\n".join(out) + "\n"})
    assert [p.headline for p in made.problems if p.level is Level.ERROR] == []
    return made


def _lines(told: str) -> list[str]:
    return [f"    {line.strip()}" for line in told.replace("\n", ";").split(";") if line.strip()]


def ways(case: dict[str, Any], given: dict[str, str]) -> list[Worked]:
    """What comes out, for every answer to what the case leaves open."""
    made = book(case)
    first, last = (date.fromisoformat(day) for day in case["span"].split())
    facts = gather(made, "house")
    return [w for _, w in every_way(lambda a: work_out(facts, made.schemes, Period(first, last), a), given)]


def short(worked: Worked) -> list[str]:
    """The landlord's stretches as "days x share = pounds"."""
    return [
        f"{s.days.days} x {_share(s.due.factor)} = {plain(s.pence)}"
        for s in worked.segments
        if s.ours and s.due.factor is not None
    ]


def _share(share: Fraction) -> str:
    return f"{share.numerator / share.denominator:g}"


@pytest.mark.parametrize("case", DATA["case"], ids=lambda case: f"{case['id']} {case['source']}")
def test_published(case: dict[str, Any]) -> None:
    given = case.get("given", {})
    found = ways(case, given)

    assert found
    for worked in found:  # whatever is left open makes no difference
        assert worked.known
        if "days" in case:
            assert short(worked) == case["days"], [s.due.why for s in worked.segments]
        if "total" in case:
            assert plain(worked.pence) == case["total"], short(worked)
    if "other" in case:
        other = case["other"]
        assert {plain(w.pence) for w in ways(case, {**given, other["question"]: other["answer"]})} == {other["total"]}


def test_every_case_names_its_source_and_no_id_twice() -> None:
    cases = [*DATA["case"], *DATA["skipped"]]

    assert all(case["source"] and case["status"] in ("published", "rule", "constructed") for case in cases)
    assert all((case["source"].startswith("ours")) == (case["status"] == "constructed") for case in cases)
    assert len({case["id"] for case in cases}) == len(cases)
    assert all(case["why"] for case in DATA["skipped"])
