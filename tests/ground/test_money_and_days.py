"""The ground: pence that never go missing, tax years, periods."""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ledger_tools.days import Period, TaxYear, day_words, month_period, months_after
from ledger_tools.money import decimal, pence, plain, pounds, round_half_up, share

DAYS = st.dates(date(1990, 1, 1), date(2090, 12, 31))


@given(st.integers(-(10**12), 10**12), st.lists(st.fractions(0, 100), min_size=1, max_size=12))
def test_a_split_places_every_penny(amount: int, weights: list[Fraction]) -> None:
    if not sum(weights):
        with pytest.raises(ValueError, match="weights"):
            share(amount, weights)
        return
    parts = share(amount, weights)

    assert sum(parts) == amount
    for part, weight in zip(parts, weights, strict=True):
        assert abs(part - amount * weight / sum(weights)) < 1


@given(st.integers(1, 10**6), st.lists(st.integers(0, 50), min_size=1, max_size=6))
def test_a_split_is_mirrored_for_money_going_back(amount: int, weights: list[int]) -> None:
    if sum(weights):
        assert share(-amount, weights) == [-p for p in share(amount, weights)]


def test_pennies_left_over_go_to_the_largest_remainders_first_come_first() -> None:
    assert share(100, [1, 1, 1]) == [34, 33, 33]
    assert share(101, [1, 2]) == [34, 67]
    assert share(7, [0, 1]) == [0, 7]


@given(st.integers(-(10**9), 10**9))
def test_money_is_written_and_read_back(amount: int) -> None:
    assert pence(pounds(abs(amount)).lstrip("£")) == abs(amount)
    assert decimal(amount) * 100 == amount
    assert plain(amount).replace(".", "").lstrip("-").lstrip("0") == str(abs(amount)).lstrip("0")


@pytest.mark.parametrize("text", ["1.5", "1.234", "", "12a", "-5", ".50", "1.2.3", "١٢"])
def test_sums_that_could_mean_two_things_are_refused(text: str) -> None:
    with pytest.raises(ValueError):
        pence(text)


def test_halves_round_away_from_nil() -> None:
    assert [round_half_up(Fraction(n, 2)) for n in (-3, -1, 1, 3, 4)] == [-2, -1, 1, 2, 2]


@given(DAYS)
def test_every_day_lies_in_just_its_tax_year(day: date) -> None:
    year = TaxYear.of(day)

    assert day in year
    assert day not in year.next and day not in year.before
    assert TaxYear.read(str(year)) == year


def test_the_tax_year_turns_on_6_april() -> None:
    assert str(TaxYear.of(date(2026, 4, 5))) == "2025-26"
    assert str(TaxYear.of(date(2026, 4, 6))) == "2026-27"
    assert str(TaxYear(1999)) == "1999-00"
    assert TaxYear(2023).period.days == 366  # 29 February 2024 lies in 2023-24


@pytest.mark.parametrize("text", ["2025", "2025-27", "2025/26", "25-26", "2025-2026", "abcd-ef"])
def test_what_is_no_tax_year_is_refused(text: str) -> None:
    with pytest.raises(ValueError):
        TaxYear.read(text)


@given(DAYS, st.integers(0, 500), DAYS, st.integers(0, 500))
def test_periods_overlap_where_both_have_days(a: date, more: int, b: date, most: int) -> None:
    one, two = Period(a, a + timedelta(more)), Period(b, b + timedelta(most))
    both = one.overlap(two)
    shared = {one.first + timedelta(i) for i in range(one.days)} & {two.first + timedelta(i) for i in range(two.days)}

    assert (both.days if both else 0) == len(shared)


def test_months_and_words() -> None:
    assert month_period(2024, 2).days == 29
    assert day_words(date(2025, 6, 9)) == "9 Jun 2025"


@pytest.mark.parametrize(
    "day, months, later",
    [
        (date(2025, 6, 9), 1, date(2025, 7, 9)),
        (date(2021, 1, 31), 3, date(2021, 4, 30)),
        (date(2023, 11, 30), 3, date(2024, 2, 29)),
        (date(2024, 2, 29), 12, date(2025, 2, 28)),
        (date(2025, 12, 5), 1, date(2026, 1, 5)),
        (date(2025, 6, 9), 0, date(2025, 6, 9)),
    ],
)
def test_months_later_is_the_same_day_or_the_last_of_the_month(day: date, months: int, later: date) -> None:
    assert months_after(day, months) == later
