"""The tax on buying a dwelling: which tax, which rates, what a contract keeps. Published answers: tests/published."""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ledger_tools import law
from ledger_tools.taxes.land.purchase import land_tax, may_choose, turning_days, which

DAY = date(2025, 5, 1)
TAXES = st.sampled_from(["sdlt", "ltt", "lbtt"])
PRICES = st.integers(0, 3_000_000_00)
DAYS = st.dates(date(2018, 4, 1), date(2026, 6, 30))


def test_each_nation_has_its_tax_from_its_first_day() -> None:
    assert [which(n, DAY) for n in ("england", "northern ireland", "wales", "scotland")] == [
        "sdlt", "sdlt", "ltt", "lbtt",
    ]  # fmt: skip
    assert (which("wales", date(2018, 3, 31)), which("wales", date(2018, 4, 1))) == ("sdlt", "ltt")
    assert (which("scotland", date(2015, 3, 31)), which("scotland", date(2015, 4, 1))) == ("sdlt", "lbtt")
    with pytest.raises(ValueError, match="atlantis"):
        which("atlantis", DAY)


def test_no_rates_before_the_first_day_held() -> None:
    with pytest.raises(law.NoFigure):
        land_tax("sdlt", 100_000_00, date(2016, 3, 31), date(2016, 3, 31), False)


def test_pence_of_the_price_are_dropped_for_stamp_duty_alone() -> None:
    assert land_tax("sdlt", 150_000_99, DAY, DAY, True).exact == land_tax("sdlt", 150_000_00, DAY, DAY, True).exact
    assert land_tax("lbtt", 150_000_99, DAY, DAY, True).exact > land_tax("lbtt", 150_000_00, DAY, DAY, True).exact


def test_the_supplement_of_scotland_is_a_slice_of_its_own() -> None:
    tax = land_tax("lbtt", 200_000_00, DAY, DAY, True)

    assert [(s.low, s.high, s.whole, s.tax) for s in tax.slices] == [
        (0, 145_000_00, False, 0), (145_000_00, 200_000_00, False, 1_100_00), (0, 200_000_00, True, 16_000_00),
    ]  # fmt: skip
    assert {held.topic for held in tax.held} == {"land.lbtt", "land.lbtt_additional"}


def test_the_welsh_choice_takes_the_earlier_slices() -> None:
    done, before, after = date(2022, 11, 1), date(2022, 10, 9), date(2022, 10, 10)

    assert may_choose("ltt", done, before, False)
    assert not may_choose("ltt", done, after, False)
    assert not may_choose("ltt", done, before, True)  # the higher rates are a table of their own
    now = land_tax("ltt", 300_000_00, done, before, False)
    then = land_tax("ltt", 300_000_00, done, before, False, chooses=True)
    assert (now.payable, then.payable, then.as_of) == (4_500_00, 4_950_00, date(2022, 10, 9))


def test_days_at_which_a_contract_turns_the_answer() -> None:
    assert turning_days("lbtt", DAY, True) == (date(2024, 12, 5), date(2022, 12, 16), date(2018, 12, 12))
    assert turning_days("sdlt", DAY, True) == (date(2024, 10, 31),)
    assert turning_days("ltt", DAY, True) == (date(2024, 12, 11), date(2020, 12, 22))
    assert turning_days("sdlt", DAY, False) == ()


def test_how_far_the_rates_were_checked_is_said() -> None:
    assert land_tax("sdlt", 150_000_00, DAY, DAY, True).caution == ""
    assert land_tax("sdlt", 150_000_00, date(2026, 7, 1), DAY, True).caution == "not checked beyond 30 Jun 2026"
    assert land_tax("lbtt", 150_000_00, DAY, DAY, True).caution == "not read at its source"


def test_time_to_pay() -> None:
    assert land_tax("sdlt", 150_000_00, DAY, DAY, True).due == date(2025, 5, 15)
    assert land_tax("ltt", 150_000_00, DAY, DAY, True).due == date(2025, 5, 31)
    assert land_tax("sdlt", 150_000_00, date(2019, 2, 28), DAY, True).due is None


@given(TAXES, PRICES, DAYS, st.integers(0, 1000), st.booleans())
def test_slices_cover_the_price_once(tax: str, price: int, day: date, earlier: int, additional: bool) -> None:
    made = land_tax(tax, price, day, day - timedelta(days=earlier), additional)
    plain = [s for s in made.slices if not s.whole]

    assert sum(s.high - s.low for s in plain) == made.taxed
    assert [s.low for s in plain] == [0, *(s.high for s in plain)][: len(plain)]
    assert made.exact == sum((s.tax for s in made.slices), Fraction(0))
    assert 0 <= made.exact - made.payable < 100


@given(TAXES, PRICES, st.integers(0, 500_000_00), DAYS, st.booleans())
def test_a_higher_price_never_costs_less(tax: str, price: int, more: int, day: date, additional: bool) -> None:
    assert land_tax(tax, price, day, day, additional).exact <= land_tax(tax, price + more, day, day, additional).exact


@given(TAXES, PRICES, DAYS)
def test_an_additional_home_never_costs_less(tax: str, price: int, day: date) -> None:
    assert land_tax(tax, price, day, day, False).exact <= land_tax(tax, price, day, day, True).exact
