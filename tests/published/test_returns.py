"""Published yields, covers and rates of return (returns.toml, each with its source) against what is worked out here."""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from datetime import date, timedelta
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from ledger_tools.money import decimals, pence, percent, plain, round_half_up
from ledger_tools.statements import returns
from ledger_tools.statements.rate import rates

DATA = tomllib.loads(Path(__file__).with_name("returns.toml").read_text(encoding="utf-8"))


def found(rent: str, price: str) -> str:
    share = returns.share_of(returns.per_year(pence(rent), "a month"), pence(price))
    assert share is not None
    return percent(share, 1).removesuffix("%")


def net(rent: str, costs: str, price: str) -> str:
    share = returns.share_of(returns.per_year(pence(rent), "a month") - pence(costs), pence(price))
    assert share is not None
    return percent(share, 2).removesuffix("%")


def cash(rent: str, loan: str, rate: str, cash: str) -> list[str]:
    interest = round_half_up(pence(loan) * Fraction(rate) / 100)
    left = returns.per_year(pence(rent), "a month") - interest
    share = returns.share_of(left, pence(cash))
    assert share is not None
    return [plain(left), percent(share, 1).removesuffix("%")]


def dated(flows: list[list[str]]) -> list[str]:
    made = rates((date.fromisoformat(day), int(Decimal(told) * 100)) for day, told in flows)
    return [decimals(rate, 5) for rate in made.found]


def even(flows: list[str]) -> list[str]:
    start = date(2001, 1, 1)
    return dated([[(start + timedelta(365 * i)).isoformat(), told] for i, told in enumerate(flows)])


def loan(rent: str, stress: str, cover: str) -> str:
    most = returns.loan_possible(pence(rent), Fraction(stress) / 100, Fraction(cover) / 100)
    assert most is not None
    return plain(most)


WORKS: dict[str, Callable[[Any], Any]] = {
    "yield": lambda given: found(**given),
    "yields": lambda given: [found(*each) for each in zip(given["rents"], given["prices"], strict=True)],
    "net yield": lambda given: net(**given),
    "cash": lambda given: cash(**given),
    "rent needed": lambda given: plain(returns.rent_needed(pence(given["interest"]), Fraction(given["cover"]) / 100)),
    "loan possible": lambda given: loan(**given),
    "week": lambda given: plain(round_half_up(Fraction(returns.per_year(pence(given["rent"]), "a month"), 52))),
    "rate": dated,
    "even rate": even,
}


@pytest.mark.parametrize("case", DATA["case"], ids=lambda case: case["id"])
def test_published(case: dict[str, Any]) -> None:
    assert WORKS[case["work"]](case["given"]) == case["gives"]


@pytest.mark.parametrize("case", DATA["wrong"], ids=lambda case: case["id"])
def test_printed_and_wrong(case: dict[str, Any]) -> None:
    """Each stands beside a case with the same sums, which says what is right."""
    right = [one["gives"] for one in DATA["case"] if (one["work"], one["given"]) == (case["work"], case["given"])]

    assert [WORKS[case["work"]](case["given"])] == right != [case["printed"]]


def test_every_case_names_its_source_and_no_id_twice() -> None:
    ids = [case["id"] for case in (*DATA["case"], *DATA["wrong"])]

    assert len(set(ids)) == len(ids) == 22
    assert all(case["source"] and case["weight"] and case["read"] for case in DATA["case"])
    assert all(case["source"] and case["why"] for case in DATA["wrong"])
