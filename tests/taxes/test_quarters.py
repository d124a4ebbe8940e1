"""Quarterly updates: days, bodies, refusals. Facts: SI 2026/336 regs. 9 to 14; the published schema of the property
service 6.0 (commit of 11 June 2026); sums are our own."""

from __future__ import annotations

from datetime import date

import pytest

from ledger_tools import law
from ledger_tools.days import Period, TaxYear
from ledger_tools.taxes.income.quarters import Body, annual_body, body, required_from, update
from ledger_tools.taxes.income.refusals import refusals, too_early, yearly_refusals

YEAR = TaxYear(2026)
FULL = update(4, YEAR, "standard", "").period
# Below ukProperty, what an update takes; below nil only where True (schema of the cumulative summary, def1).
FIELDS = {
    "income.premiumsOfLeaseGrant": False, "income.reversePremiums": False, "income.periodAmount": False,
    "income.taxDeducted": False, "income.otherIncome": False, "income.rentARoom.rentsReceived": False,
    "expenses.premisesRunningCosts": True, "expenses.repairsAndMaintenance": True, "expenses.financialCosts": True,
    "expenses.professionalFees": True, "expenses.costOfServices": True, "expenses.travelCosts": True,
    "expenses.other": True, "expenses.consolidatedExpenses": True, "expenses.residentialFinancialCost": False,
    "expenses.residentialFinancialCostsCarriedForward": False, "expenses.rentARoom.amountClaimed": False,
}  # fmt: skip


@pytest.mark.parametrize(
    ("number", "kind", "before", "first", "last", "due"),
    [
        (1, "standard", "", date(2026, 4, 6), date(2026, 7, 5), date(2026, 8, 7)),
        (2, "standard", "", date(2026, 4, 6), date(2026, 10, 5), date(2026, 11, 7)),
        (3, "standard", "", date(2026, 4, 6), date(2027, 1, 5), date(2027, 2, 7)),
        (4, "standard", "", date(2026, 4, 6), date(2027, 4, 5), date(2027, 5, 7)),
        (1, "calendar", "", date(2026, 4, 1), date(2026, 6, 30), date(2026, 8, 7)),
        (4, "calendar", "calendar", date(2026, 4, 1), date(2027, 3, 31), date(2027, 5, 7)),
        (1, "calendar", "standard", date(2026, 4, 6), date(2026, 6, 30), date(2026, 8, 7)),
        (1, "standard", "calendar", date(2026, 4, 1), date(2026, 7, 5), date(2026, 8, 7)),
    ],
)
def test_days(number: int, kind: str, before: str, first: date, last: date, due: date) -> None:
    found = update(number, YEAR, kind, before)

    assert (found.period, found.due) == (Period(first, last), due)


def test_no_day_is_lost_or_counts_twice_when_the_quarters_change() -> None:
    for kinds in (("standard", "calendar"), ("calendar", "standard"), ("calendar", "calendar")):
        year = update(4, YEAR, kinds[0], "").period
        after = update(4, YEAR.next, kinds[1], kinds[0]).period

        assert (after.first - year.last).days == 1


def test_it_may_be_sent_ten_days_before_the_period_ends() -> None:
    assert update(1, YEAR, "standard", "").early == date(2026, 6, 25)


def test_the_year_of_testing_had_other_days_and_no_year_before_it_has_any() -> None:
    assert update(1, TaxYear(2025), "standard", "").due == date(2025, 8, 5)
    assert required_from() == YEAR
    with pytest.raises(law.NoFigure):
        update(1, TaxYear(2024), "standard", "")


def test_sums_go_to_their_fields_and_others_stay_out() -> None:
    sums = {"rent": 500_000, "repairs": -1_25, "travel": 4_50, "domestic": 9_900, "finance_residential": 88}

    assert body(FULL, sums, YEAR, one_total=False) == {
        "fromDate": "2026-04-06",
        "toDate": "2027-04-05",
        "ukProperty": {
            "income": {"periodAmount": 500_000},
            "expenses": {"repairsAndMaintenance": -1_25, "travelCosts": 4_50, "residentialFinancialCost": 88},
        },
    }


def test_one_total_takes_every_expense_but_residential_finance() -> None:
    sums = {"rent": 500_000, "repairs": 1_25, "travel": 4_50, "finance_residential": 88, "finance_brought": 12}
    found = body(FULL, sums, YEAR, one_total=True)["ukProperty"]

    assert found == {
        "income": {"periodAmount": 500_000},
        "expenses": {
            "consolidatedExpenses": 5_75, "residentialFinancialCost": 88, "residentialFinancialCostsCarriedForward": 12,
        },
    }  # fmt: skip


def test_nothing_is_sent_as_rents_of_nil() -> None:
    assert body(FULL, {"repairs": 0}, YEAR, one_total=False)["ukProperty"] == {"income": {"periodAmount": 0}}


def test_every_field_is_one_the_service_knows() -> None:
    sent = {c.field for c in law.categories(YEAR) if c.sent == "quarter"}

    assert sent == set(FIELDS)


@pytest.mark.parametrize(("field", "minus"), FIELDS.items())
def test_what_may_not_come_out_below_nil_is_refused(field: str, minus: bool) -> None:
    category = next(c.slug for c in law.categories(YEAR) if c.field == field)
    found = refusals(body(FULL, {category: -1}, YEAR, one_total=False))

    assert [r.code for r in found] == ([] if minus else ["FORMAT_VALUE"])
    assert all(field in r.says for r in found)
    assert refusals(body(FULL, {category: 99_999_999_999_99}, YEAR, one_total=False)) == ()
    assert refusals(body(FULL, {category: 100_000_000_000_00}, YEAR, one_total=False)) != ()


def test_the_yearly_submission_takes_what_updates_do_not() -> None:
    sums = {"rent": 100, "domestic": 290_00, "capital_allowance": 45_00}

    assert annual_body(sums, YEAR, allowance=False) == {
        "ukProperty": {"allowances": {"otherCapitalAllowance": 45_00, "costOfReplacingDomesticItems": 290_00}}
    }
    assert annual_body({"rent": 100}, YEAR, allowance=False) == {}


def test_the_allowance_shuts_out_all_else() -> None:
    sums = {"domestic": 290_00, "property_allowance": 1_000_00}

    assert annual_body(sums, YEAR, allowance=True) == {
        "ukProperty": {"allowances": {"propertyIncomeAllowance": 1_000_00}}
    }


# ── what the service refuses ─────────────────────────────────────────────────────────────────────────────────────

RENT: Body = {"income": {"periodAmount": 100}}


@pytest.mark.parametrize(
    ("given", "codes"),
    [
        ({}, ["RULE_INCORRECT_OR_EMPTY_BODY_SUBMITTED"]),
        ({"ukProperty": {}}, ["RULE_INCORRECT_OR_EMPTY_BODY_SUBMITTED"]),
        ({"ukProperty": {**RENT, "expenses": {}}}, ["RULE_INCORRECT_OR_EMPTY_BODY_SUBMITTED"]),
        ({"ukProperty": {"expenses": {"consolidatedExpenses": 1, "other": 1}}}, ["RULE_BOTH_EXPENSES_SUPPLIED"]),
        ({"ukProperty": {"expenses": {"consolidatedExpenses": 1, "residentialFinancialCost": 1}}}, []),
        ({"ukProperty": {"income": {"periodAmount": -100}}}, ["FORMAT_VALUE"]),
        ({"ukProperty": {"expenses": {"residentialFinancialCost": -500}}}, ["FORMAT_VALUE"]),
        ({"fromDate": "2026-04-06", "ukProperty": RENT}, ["RULE_MISSING_SUBMISSION_DATES"]),
        ({"toDate": "2026-07-05", "ukProperty": RENT}, ["RULE_MISSING_SUBMISSION_DATES"]),
        ({"fromDate": "2026-07-06", "toDate": "2026-07-05", "ukProperty": RENT}, ["RULE_TO_DATE_BEFORE_FROM_DATE"]),
        ({"fromDate": "2026-07-05", "toDate": "2026-07-05", "ukProperty": RENT}, []),
        ({"fromDate": "1569-04-06", "toDate": "2026-07-05", "ukProperty": RENT}, ["FORMAT_FROM_DATE"]),
        ({"fromDate": "2026-04-06", "toDate": "2026-06-31", "ukProperty": RENT}, ["FORMAT_TO_DATE"]),
        ({"ukProperty": RENT}, []),
    ],
)
def test_tc_61_a_body_that_is_refused_by_its_code(given: Body, codes: list[str]) -> None:
    """Rules of the property service, 11 June 2026. Three decimals cannot arise from whole pence, and an unknown key
    fails its form already."""
    assert [r.code for r in refusals(given)] == codes


@pytest.mark.parametrize(
    ("allowances", "codes"),
    [
        ({"propertyIncomeAllowance": 678_45, "otherCapitalAllowance": 1}, ["RULE_BOTH_ALLOWANCES_SUPPLIED"]),
        ({"propertyIncomeAllowance": 1_000_01}, ["FORMAT_VALUE"]),
        ({"propertyIncomeAllowance": 1_000_00}, []),
        ({"costOfReplacingDomesticItems": 567_34}, []),
        ({"costOfReplacingDomesticItems": -1}, ["FORMAT_VALUE"]),
    ],
)
def test_tc_62_the_yearly_allowance_stands_alone_and_has_a_limit(allowances: Body, codes: list[str]) -> None:
    assert [r.code for r in yearly_refusals({"ukProperty": {"allowances": allowances}}, YEAR)] == codes


def test_the_yearly_allowance_bars_private_use() -> None:
    given: Body = {"allowances": {"propertyIncomeAllowance": 1}, "adjustments": {"privateUseAdjustment": 1}}

    assert [r.code for r in yearly_refusals({"ukProperty": given}, YEAR)] == ["RULE_PROPERTY_INCOME_ALLOWANCE"]


def test_an_update_sent_more_than_ten_days_before_its_period_ends_is_refused() -> None:
    first = update(1, YEAR, "standard", "")

    assert [r.code for r in too_early(first, date(2026, 6, 24))] == ["RULE_EARLY_DATA_SUBMISSION_NOT_ACCEPTED"]
    assert too_early(first, date(2026, 6, 25)) == ()
