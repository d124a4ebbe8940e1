"""The reduction for finance costs at its edges; the published answers are in tests/published/tax.toml."""

from __future__ import annotations

import pytest

from ledger_tools import law
from ledger_tools.days import TaxYear
from ledger_tools.taxes.income.estimate import estimate
from ledger_tools.taxes.income.finance_costs import Cap, adjusted_income, relief, reliefs, split

YEAR = TaxYear(2025)


@pytest.mark.parametrize("cost", [1, 2, 3, 99, 101, 33_333, -101])
@pytest.mark.parametrize("year", range(2016, 2022))
def test_both_parts_of_a_cost_add_up(cost: int, year: int) -> None:
    assert sum(split(cost, TaxYear(year))) == cost


def test_half_a_penny_of_a_cost_still_comes_off() -> None:
    assert split(1, TaxYear(2018)) == (1, 0)
    assert split(1, TaxYear(2019)) == (0, 1)


@pytest.mark.parametrize(
    "costs, brought, profits, income, amount, left, cap",
    [
        (6_000_00, 0, 9_000_00, 20_000_00, 1_200_00, 0, Cap.COSTS),
        (6_000_00, 4_000_00, 9_000_00, 20_000_00, 1_800_00, 1_000_00, Cap.PROFITS),
        (6_000_00, 4_000_00, 9_000_00, 5_000_00, 1_000_00, 5_000_00, Cap.INCOME),
        (6_000_00, 0, 6_000_00, 6_000_00, 1_200_00, 0, Cap.COSTS),  # all three the same
        (6_000_00, 0, 0, 20_000_00, 0, 6_000_00, Cap.PROFITS),
        (6_000_00, 0, 6_000_00, -5_00, 0, 6_000_00, Cap.INCOME),  # below nil is nil
        (0, 0, 9_000_00, 20_000_00, 0, 0, Cap.COSTS),
        (-50_00, 0, 9_000_00, 20_000_00, 0, 0, Cap.COSTS),  # more came back than was paid: none, not less than none
        (3, 0, 9_000_00, 20_000_00, 1, 0, Cap.COSTS),  # 0.6p is a penny
        (2, 0, 9_000_00, 20_000_00, 0, 0, Cap.COSTS),  # 0.4p is none, and nothing goes on for it
    ],
)
def test_the_lowest_of_three(
    costs: int, brought: int, profits: int, income: int, amount: int, left: int, cap: Cap
) -> None:
    """ITTOIA 2005 s. 274AA."""
    found = relief(costs, brought, profits, income, YEAR)

    assert (found.amount, found.left, found.cap) == (amount, left, cap)


def test_the_rate_follows_the_year_and_there_was_none_before_2017_18() -> None:
    assert [relief(1_000_00, 0, 1_000_00, 1_000_00, TaxYear(y)).amount for y in (2016, 2017, 2026, 2027)] == [
        0, 200_00, 200_00, 220_00,
    ]  # fmt: skip


def test_several_businesses_share_the_income_to_the_penny() -> None:
    found = reliefs([(100, 100), (100, 100), (100, 100)], 100, YEAR)

    assert [r.used for r in found] == [34, 33, 33]
    assert {r.cap for r in found} == {Cap.INCOME}


@pytest.mark.parametrize(
    "income, left",
    [
        (12_570_00, 0),
        (12_569_99, 0),
        (12_570_01, 1),
        (110_000_00, 102_430_00),  # £5,000 of the allowance is gone
        (130_000_00, 130_000_00),  # all of it
    ],
)
def test_the_whole_allowance_comes_off_the_income(income: int, left: int) -> None:
    assert adjusted_income(income, YEAR) == left


def test_costs_that_earned_nothing_are_carried_through_years_and_used() -> None:
    left = 0
    for year, costs, profits in [(2022, 5_000_00, 1_000_00), (2023, 5_000_00, 6_000_00), (2024, 0, 9_000_00)]:
        found = estimate(40_000_00, profits, costs, left, TaxYear(year), "england")
        left = found.relief.left
        assert found.reduction == found.relief.used // 5
    assert (found.relief.used, left) == (3_000_00, 0)


def test_a_reduction_above_the_tax_is_lost_not_carried_on() -> None:
    """Scotland taxes the first slice at 19%; the reduction is 20%: £190.00 of tax, £200.00 of reduction."""
    found = estimate(0, 13_570_00, 8_000_00, 0, YEAR, "scotland")

    assert (found.before, found.relief.amount, found.reduction, found.tax) == (190_00, 200_00, 190_00, 0)
    assert found.relief.left == 7_000_00


def test_the_letting_can_take_the_allowance_away() -> None:
    """£100,000 of wages and £10,000 of rents: 40% of £10,000 and of the £5,000 of allowance that is gone."""
    assert estimate(100_000_00, 10_000_00, 0, 0, YEAR, "england").added == 6_000_00


def test_no_estimate_before_the_first_year_held() -> None:
    with pytest.raises(law.NoFigure):
        estimate(1, 1, 0, 0, TaxYear(2015), "england")
