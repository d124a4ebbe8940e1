"""Every update of a large sample book as the body that is sent: against the service's own schema where that lies beside
the checkout, and against what the schema and its rules ask for where it does not.

Fields and limits: the tax authority's published schema of the property service, version 6.0 (read 25 Nov 2026). Days:
its example files for 2025-26.
"""

from __future__ import annotations

import json
import re
from datetime import date
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from ledger_tools.book.build import build
from ledger_tools.days import TaxYear
from ledger_tools.render.quarter import body_text
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.quarter import quarter, yearly
from tests.statements.test_quarter import SUMMARY, YEARLY, validate

HARBOUR = Path(__file__).parents[2] / "sample_books" / "harbour"
YEAR = TaxYear(2025)
OWNERS = ("morwenna", "daniel", "isolde")
LAST_DAYS = {1: date(2025, 7, 5), 2: date(2025, 10, 5), 3: date(2026, 1, 5), 4: date(2026, 4, 5)}
INCOME = {"premiumsOfLeaseGrant", "reversePremiums", "periodAmount", "taxDeducted", "otherIncome", "rentARoom"}
ITEMISED = {"premisesRunningCosts", "repairsAndMaintenance", "financialCosts", "professionalFees", "costOfServices",
            "other", "travelCosts"}  # fmt: skip
BESIDE = {"residentialFinancialCost", "residentialFinancialCostsCarriedForward", "rentARoom"}  # a total may join these
MOST = Decimal("99999999999.99")

every_update = pytest.mark.parametrize("total", [False, True], ids=["itemised", "one total"])
of_each = pytest.mark.parametrize("owner", OWNERS)


@cache
def harbour() -> Accounts:
    return Accounts(build({p.name: p.read_text(encoding="utf-8") for p in sorted(HARBOUR.glob("*.book"))}))


@cache
def sent(owner: str, number: int, total: bool) -> str:
    update = quarter(harbour(), owner, YEAR, number, total)
    assert update.refusals == ()
    return body_text(update.body)


def read(text: str) -> Any:
    return json.loads(text, parse_float=Decimal)


def test_the_owners_are_all_of_the_book() -> None:
    assert set(harbour().book.landlords) == set(OWNERS)


@of_each
@every_update
@pytest.mark.parametrize("number", LAST_DAYS)
def test_every_update_is_what_the_schema_takes(owner: str, total: bool, number: int) -> None:
    validate(sent(owner, number, total), SUMMARY)


@of_each
def test_every_yearly_submission_is_what_the_schema_takes(owner: str) -> None:
    validate(body_text(yearly(harbour(), owner, YEAR).body), YEARLY)


@of_each
@every_update
def test_every_update_runs_from_6_april_to_its_quarters_end(owner: str, total: bool) -> None:
    """RULE_MISSING_SUBMISSION_DATES, RULE_TO_DATE_BEFORE_FROM_DATE: both days or none, in order."""
    for number, last in LAST_DAYS.items():
        told = read(sent(owner, number, total))

        assert set(told) == {"fromDate", "toDate", "ukProperty"}
        assert (told["fromDate"], told["toDate"]) == ("2025-04-06", last.isoformat())


@of_each
@every_update
@pytest.mark.parametrize("number", LAST_DAYS)
def test_no_part_is_unknown_or_empty(owner: str, total: bool, number: int) -> None:
    """RULE_INCORRECT_OR_EMPTY_BODY_SUBMITTED: the schema takes no name but its own, the rules no part without a sum."""
    told = read(sent(owner, number, total))["ukProperty"]

    assert told and set(told) <= {"income", "expenses"}
    assert all(told.values())
    assert set(told.get("income", {})) <= INCOME
    assert set(told.get("expenses", {})) <= ITEMISED | BESIDE | {"consolidatedExpenses"}


@of_each
@pytest.mark.parametrize("number", LAST_DAYS)
def test_expenses_are_itemised_or_one_total_never_both(owner: str, number: int) -> None:
    """RULE_BOTH_EXPENSES_SUPPLIED; and the total is that of the items, finance costs of dwellings apart."""
    items, whole = (read(sent(owner, number, total))["ukProperty"]["expenses"] for total in (False, True))

    assert "consolidatedExpenses" not in items
    assert not ITEMISED & set(whole)
    assert whole["consolidatedExpenses"] == sum(items[name] for name in ITEMISED & set(items))
    assert {name: whole.get(name) for name in BESIDE} == {name: items.get(name) for name in BESIDE}


@of_each
@every_update
@pytest.mark.parametrize("number", LAST_DAYS)
def test_every_sum_has_pence_and_lies_in_its_limits(owner: str, total: bool, number: int) -> None:
    """FORMAT_VALUE: at most two decimals; nil or more but for expenses other than the finance costs of dwellings."""
    text = sent(owner, number, total)
    told = read(text)["ukProperty"]

    assert "e" not in "".join(found := re.findall(r": (-?[\d.e+]+),?$", text, re.M)).lower()
    assert found and all(re.fullmatch(r"-?\d+\.\d\d", number) for number in found)
    assert all(0 <= value <= MOST for value in told["income"].values())
    for name, value in told["expenses"].items():
        assert (0 if name in BESIDE else -MOST) <= value <= MOST
