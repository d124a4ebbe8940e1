"""Losses, the property allowance, payments on account and digital reporting, each at its edges."""

from __future__ import annotations

from datetime import date

import pytest

from ledger_tools import law
from ledger_tools.days import TaxYear
from ledger_tools.taxes.income.allowance import Bar, Choice, How, Result, limit, result
from ledger_tools.taxes.income.digital import first_possible, joins, may_leave, over_limit, scaled
from ledger_tools.taxes.income.late import late_payment, late_return, points
from ledger_tools.taxes.income.losses import AfterLosses, after_losses
from ledger_tools.taxes.income.payments import Payment, on_account

YEAR = TaxYear(2025)


@pytest.mark.parametrize(
    "profit, brought, taxable, used, on",
    [
        (500, 0, 500, 0, 0),
        (500, 200, 300, 200, 0),
        (500, 900, 0, 500, 400),
        (0, 900, 0, 0, 900),
        (-100, 900, 0, 0, 1000),
    ],
)
def test_losses(profit: int, brought: int, taxable: int, used: int, on: int) -> None:
    """ITA 2007 s. 118: the whole of a profit is used before anything is carried on."""
    assert after_losses(profit, brought) == AfterLosses(taxable, used, on)


def test_a_loss_is_told_without_a_sign() -> None:
    with pytest.raises(ValueError, match="without a sign"):
        after_losses(5, -5)


@pytest.mark.parametrize(
    "receipts, choice, bars, pence, how",
    [
        (1_000_00, Choice.NOTHING, (), 0, How.FULL),
        (1_000_01, Choice.NOTHING, (), 700_01, How.COSTS),
        (1_000_01, Choice.ALLOWANCE, (), 1, How.PARTIAL),
        (1_000_00, Choice.ALLOWANCE, (), 0, How.FULL),
        (200_00, Choice.NOTHING, (), 0, How.FULL),  # no loss either
        (200_00, Choice.COSTS, (), -100_00, How.COSTS),
        (900_00, Choice.NOTHING, (Bar.EMPLOYER,), 600_00, How.COSTS),
        (5_000_00, Choice.ALLOWANCE, (Bar.FIRM,), 4_700_00, How.COSTS),
        (5_000_00, Choice.ALLOWANCE, (Bar.REDUCTION,), 4_700_00, How.COSTS),
        (5_000_00, Choice.ALLOWANCE, (Bar.COMPANY,), 4_700_00, How.COSTS),
    ],
)
def test_the_allowance(receipts: int, choice: Choice, bars: tuple[Bar, ...], pence: int, how: How) -> None:
    """ITTOIA 2005 ss. 783BF-783BP; costs of £300.00 each time."""
    assert result(receipts, 300_00, YEAR, choice, frozenset(bars)) == Result(pence, how)


def test_no_allowance_before_2017_18() -> None:
    assert (limit(TaxYear(2016)), limit(TaxYear(2017))) == (0, 1_000_00)
    assert result(900_00, 300_00, TaxYear(2016)) == Result(600_00, How.COSTS)


@pytest.mark.parametrize(
    "bill, at_source, first, second",
    [
        (2_000_00, 0, 1_000_00, 1_000_00),
        (2_000_01, 0, 1_000_00, 1_000_01),  # the odd penny goes on the second
        (1_000_00, 0, 500_00, 500_00),  # only under £1,000 there are none
        (5_000_00, 4_000_00, 500_00, 500_00),  # exactly 80% at source is not over it
    ],
)
def test_payments_on_account(bill: int, at_source: int, first: int, second: int) -> None:
    """SAM1010, SAM1110."""
    assert on_account(bill, at_source, TaxYear(2026)) == (
        Payment(date(2027, 1, 31), first), Payment(date(2027, 7, 31), second),
    )  # fmt: skip


@pytest.mark.parametrize("bill, at_source", [(999_99, 0), (0, 0), (20_000_00, 16_000_01), (500_00, 600_00)])
def test_no_payments_on_account(bill: int, at_source: int) -> None:
    assert on_account(bill, at_source, TaxYear(2026)) == ()


def test_first_possible_year_of_updates() -> None:
    """SI 2026/336 reg. 5: a letting begun in 2025-26 is first returned in 2026-27, so from 6 April 2027."""
    assert [first_possible(TaxYear(y)).start for y in (2018, 2024, 2025, 2026)] == [2026, 2026, 2027, 2028]


def test_over_the_limit_means_over() -> None:
    assert not over_limit(50_000_00, TaxYear(2026)) and over_limit(50_000_01, TaxYear(2026))
    assert not over_limit(30_000_00, TaxYear(2027)) and over_limit(30_000_01, TaxYear(2027))
    assert not over_limit(20_000_00, TaxYear(2029)) and over_limit(20_000_01, TaxYear(2029))
    with pytest.raises(law.NoFigure):
        over_limit(1, YEAR)


def test_the_first_year_told_that_is_over_brings_them_in() -> None:
    told = {TaxYear(2023): 90_000_00, TaxYear(2024): 40_000_00, TaxYear(2025): 29_000_00, TaxYear(2026): 25_000_00}

    assert joins(TaxYear(2020), told) == TaxYear(2028)
    assert joins(TaxYear(2020), {}) is None


def test_a_part_of_a_year_is_made_up_to_a_whole_one() -> None:
    """Reg. 26(d): £12,000.00 in 73 days is £60,000.00 in 365."""
    assert scaled(12_000_00, 73, YEAR) == 60_000_00


def test_three_years_not_above_the_limit_set_free_from_2029_30() -> None:
    """Regs. 23, 24."""
    low = {TaxYear(y): 20_000_00 for y in (2026, 2027, 2028)}
    leaves = TaxYear(2029)

    assert may_leave(leaves, TaxYear(2026), low)
    assert not may_leave(leaves, TaxYear(2027), low)
    assert not may_leave(leaves, TaxYear(2026), {**low, TaxYear(2027): 20_000_01})
    assert not may_leave(leaves, TaxYear(2026), {TaxYear(2027): 1, TaxYear(2028): 1})


def test_a_return_on_paper_is_due_earlier() -> None:
    """SAM61220, SAM61230: 31 October against 31 January."""
    assert late_return(YEAR, date(2026, 11, 1), 0, on_paper=True) == 100_00
    assert late_return(YEAR, date(2026, 10, 31), 0, on_paper=True) == 0
    assert late_return(YEAR, date(2027, 1, 31), 0) == 0


def test_points_lapse_below_the_threshold_and_stay_at_it() -> None:
    """FA 2021 Sch. 24: one point lapses after 24 months; at four nothing lapses by itself."""
    first = (date(2027, 8, 7), "update")

    assert points([first, (date(2029, 8, 7), "update")])[-1] == (2, 0)
    assert points([first, (date(2029, 8, 31), "update")])[-1] == (2, 0)
    assert points([first, (date(2029, 9, 1), "update")])[-1] == (1, 0)
    four = [first, *((date(2027 + y, m, 7), "update") for y, m in ((0, 11), (1, 2), (1, 5)))]
    assert points([*four, (date(2031, 8, 7), "update")])[-1] == (4, 200_00)


def test_the_yearly_part_of_paying_late_runs_from_day_31() -> None:
    """FA 2021 Sch. 26: £36,500.00 is £10.00 a day, beside twice 3%."""
    year, due = TaxYear(2026), date(2028, 1, 31)

    assert [late_payment(year, due, date(2028, 3, day), 36_500_00) for day in (1, 2, 3)] == [
        1_095_00, 2_200_00, 2_210_00,
    ]  # fmt: skip


def test_a_person_with_a_return_a_year_only_has_fewer_points() -> None:
    assert points([(date(2028, 1, 31), "return"), (date(2029, 1, 31), "return")], quarterly=False) == [
        (1, 0), (2, 200_00),
    ]  # fmt: skip


def test_a_return_and_an_update_of_one_month_are_two_failures() -> None:
    assert points([(date(2028, 1, 31), "return"), (date(2028, 1, 7), "update")])[-1] == (2, 0)
