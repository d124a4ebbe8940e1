"""The property pages by year: boxes, their wording, rounding and signs, and where each category goes."""

from __future__ import annotations

import pytest

from ledger_tools import law
from ledger_tools.days import TaxYear
from ledger_tools.law import load

STATUSES = {"read", "second hand", "derived", "memory"}


def test_nothing_got_lost() -> None:
    """The counts change only when somebody adds or takes away a box or a category, and then here too."""
    held = load.table("property_pages")
    assert len(held["box"]) == 37
    assert len(held["holiday"]["numbers"]) == 17
    assert len(held["category"]) == 26
    assert {entry["status"] for entry in held["box"]} <= STATUSES


def numbers(year: int) -> list[str]:
    return [found.number for found in law.pages(TaxYear(year))]


@pytest.mark.parametrize("year", range(2016, 2029))
def test_each_number_stands_once_a_year_in_order(year: int) -> None:
    listed = law.pages(TaxYear(year))
    assert [found.order for found in listed] == sorted({found.order for found in listed})
    assert all(found.caption and found.source for found in listed)


def test_pages_of_2019_20() -> None:
    """The form of 2018-19, with box 33 given its later use."""
    assert {"5", "5.1", "19", "20.1", "20.2", "33", "34", "44", "45"} <= set(numbers(2019))
    assert {"33.2", "34.1"}.isdisjoint(numbers(2019))
    year = TaxYear(2019)
    assert "as far as deductible" in law.box("26", year).caption
    assert "not already in box 26" in law.box("44", year).caption


def test_2020_21_changes_the_wording_of_two_boxes_and_no_number() -> None:
    """From 2020-21 box 44 takes all residential finance costs, box 26 only the others."""
    assert numbers(2020) == numbers(2019)
    before, after = law.pages(TaxYear(2019)), law.pages(TaxYear(2020))
    changed = {new.number for old, new in zip(before, after, strict=True) if old.caption != new.caption}
    assert changed == {"26", "44"}
    assert "not residential" in law.box("26", TaxYear(2020)).caption
    assert law.box("26", TaxYear(2020)).status == "memory"
    assert law.box("44", TaxYear(2020)).status == "second hand"


def test_2025_26_has_lost_the_holiday_boxes_and_34() -> None:
    """Holiday lets ended on 6 April 2025 (FA 2025 Sch. 5); box 34 has no field in the 2025-26 schema."""
    gone = set(numbers(2024)) - set(numbers(2025))
    holiday = {"5", "5.1", "5.2", *(str(number) for number in range(6, 20))}
    assert gone == holiday | {"34"}
    assert set(numbers(2025)) - set(numbers(2020)) == {"33.2", "34.1"}
    assert {found.number for found in law.pages(TaxYear(2024)) if not found.handled} == holiday
    assert all(found.handled for found in law.pages(TaxYear(2025)))


def test_boxes_that_came_in_2017_18() -> None:
    assert set(numbers(2017)) - set(numbers(2016)) == {"20.1", "20.2", "44", "45"}
    with pytest.raises(law.NoFigure, match="before 2016-17"):
        law.pages(TaxYear(2015))
    with pytest.raises(law.NoFigure, match="no box 44"):
        law.box("44", TaxYear(2016))


def test_only_the_form_seen_counts_as_checked() -> None:
    assert law.form_last_seen() == TaxYear(2018)
    assert law.pages_checked_up_to() == TaxYear(2025)
    assert law.box("25", TaxYear(2018)).checked_for(TaxYear(2018))
    assert not law.box("25", TaxYear(2025)).checked_for(TaxYear(2025))


def test_rounding_goes_the_way_of_the_manual() -> None:
    """SAM121370: income down; tax taken off, expenses and reliefs up."""
    listed = law.pages(TaxYear(2025))
    ways = {(found.kind.value, found.rounding.value) for found in listed if found.number != "21"}
    assert ways == {
        ("income", "down"), ("adjustment", "down"), ("expense", "up"), ("relief", "up"), ("info", "none"),
        ("total", "none"),
    }  # fmt: skip
    assert law.box("21", TaxYear(2025)).rounding is law.Rounding.UP


def test_signs_follow_the_working_sheet() -> None:
    """Adds 20, 22, 23, 30, 31; takes off 24-29, 32-37 and the allowance; finance cost boxes stay out."""
    signs = {found.number: found.sign for found in law.pages(TaxYear(2025))}
    assert {number for number, sign in signs.items() if sign == 1} == {"20", "22", "23", "30", "31"}
    assert {number for number, sign in signs.items() if sign == -1} == {
        "20.1", "24", "25", "26", "27", "28", "29", "32", "33", "33.1", "33.2", "34.1", "35", "36", "37",
    }  # fmt: skip
    assert signs["44"] == signs["45"] == signs["39"] == 0


# The keys of HMRC's request schemas of 11 June 2026 (Property Business service 6.0) that hold one amount.
PUBLISHED_FIELDS = {
    "income.premiumsOfLeaseGrant", "income.reversePremiums", "income.periodAmount", "income.taxDeducted",
    "income.otherIncome", "income.rentARoom.rentsReceived", "expenses.premisesRunningCosts",
    "expenses.repairsAndMaintenance", "expenses.financialCosts", "expenses.professionalFees",
    "expenses.costOfServices", "expenses.travelCosts", "expenses.other", "expenses.consolidatedExpenses",
    "expenses.residentialFinancialCost", "expenses.residentialFinancialCostsCarriedForward",
    "expenses.rentARoom.amountClaimed", "adjustments.privateUseAdjustment", "adjustments.balancingCharge",
    "allowances.propertyIncomeAllowance", "allowances.costOfReplacingDomesticItems",
    "allowances.annualInvestmentAllowance", "allowances.otherCapitalAllowance",
    "allowances.zeroEmissionsCarAllowance",
}  # fmt: skip


def test_fields_are_those_published_each_once() -> None:
    fields = [found.field for found in law.categories(TaxYear(2025)) if found.field]
    assert sorted(fields) == sorted(PUBLISHED_FIELDS)
    for found in law.categories(TaxYear(2025)):
        room = found.field.partition(".")[0]
        expected = {"income": "quarter", "expenses": "quarter", "": ""}.get(room, "year end")
        assert found.sent == expected


@pytest.mark.parametrize("year", range(2016, 2029))
def test_each_category_has_one_place_a_year(year: int) -> None:
    slugs = [found.slug for found in law.categories(TaxYear(year))]
    assert len(slugs) == len(set(slugs))
    assert all(law.box_for(slug, TaxYear(year)).handled for slug in slugs)


@pytest.mark.parametrize(
    ("category", "number", "field"),
    [
        ("rent", "20", "income.periodAmount"),
        ("premises", "24", "expenses.premisesRunningCosts"),
        ("repairs", "25", "expenses.repairsAndMaintenance"),
        ("finance_other", "26", "expenses.financialCosts"),
        ("professional", "27", "expenses.professionalFees"),
        ("services", "28", "expenses.costOfServices"),
        ("travel", "29", "expenses.travelCosts"),
        ("other", "29", "expenses.other"),
        ("domestic", "36", "allowances.costOfReplacingDomesticItems"),
        ("finance_residential", "44", "expenses.residentialFinancialCost"),
        ("finance_brought", "45", "expenses.residentialFinancialCostsCarriedForward"),
        ("loss_brought", "39", None),
        ("property_allowance", "20.1", "allowances.propertyIncomeAllowance"),
    ],
)
def test_where_a_category_goes_in_2025_26(category: str, number: str, field: str | None) -> None:
    assert law.box_for(category, TaxYear(2025)).number == number
    assert law.field_for(category, TaxYear(2025)) == field
    assert law.field_for(category, TaxYear(2024)) is None


def test_residential_finance_costs_had_one_box_before_the_restriction() -> None:
    assert law.box_for("finance_residential", TaxYear(2016)).number == "26"
    assert law.box_for("finance_residential", TaxYear(2017)).number == "44"
    with pytest.raises(law.NoFigure, match="no place for finance_brought"):
        law.box_for("finance_brought", TaxYear(2016))
    with pytest.raises(KeyError):
        law.box_for("rente", TaxYear(2025))
