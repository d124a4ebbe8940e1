"""Published answers on the tax on buying a dwelling (land_tax.toml, each with its source) against what we work out."""

from __future__ import annotations

import tomllib
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from ledger_tools.money import pence
from ledger_tools.taxes.land.purchase import LandTax, land_tax

DATA = tomllib.loads(Path(__file__).with_name("land_tax.toml").read_text(encoding="utf-8"))


def found(case: dict[str, Any]) -> LandTax:
    contract = case.get("contract", case["day"])
    return land_tax(case["tax"], pence(case["price"]), case["day"], contract, case["additional"])


@pytest.mark.parametrize("case", DATA["case"], ids=lambda case: case["id"])
def test_published(case: dict[str, Any]) -> None:
    tax = found(case)

    assert tax.payable == pence(case["payable"])
    assert 0 <= tax.exact - tax.payable < 100
    assert tax.exact == sum((s.tax for s in tax.slices), Fraction(0))
    if "exact" in case:
        assert tax.exact == Fraction(case["exact"]) * 100


@pytest.mark.parametrize("case", DATA["wrong"], ids=lambda case: case["id"])
def test_printed_and_wrong(case: dict[str, Any]) -> None:
    assert found(case).payable == pence(case["payable"]) != pence(case["printed"])


def test_every_case_names_its_source_and_no_id_twice() -> None:
    cases = DATA["case"]
    ids = [case["id"] for case in (*cases, *DATA["wrong"])]

    assert len(set(ids)) == len(ids) == 89
    assert all(case["source"] and case["weight"] and case["read"] for case in cases)
    assert sum(case["weight"] == "rules" for case in cases) == 44
