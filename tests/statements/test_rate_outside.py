"""The internal rate of return against two general-purpose libraries, each with a way of its own of finding it.

pyxirr counts a year as 365 days by default, as we do; scipy's brentq finds a root between two places of unlike sign.
Both give one rate at a time, so where the sums change sign more than once each of theirs must be among ours.
"""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest
import pyxirr
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from numpy import roots
from scipy.optimize import brentq

from ledger_tools.statements.rate import HIGHEST, LOWEST, rates

START = date(2016, 2, 29)
LOW, HIGH = float(LOWEST), float(HIGHEST)
NEAR = 1e-7
Flows = list[tuple[date, int]]
DAYS = st.integers(0, 7000).map(lambda n: START + timedelta(days=n))
FLOWS = st.lists(st.tuples(DAYS, st.integers(-900_000, 900_000)), min_size=2, max_size=14)


def worth_at(flows: Flows, rate: float) -> float:
    first = min(day for day, _ in flows)
    return sum(pence * (1 + rate) ** (-(day - first).days / 365) for day, pence in flows)


def scanned(flows: Flows, steps: int = 600) -> list[float]:
    """The roots that brentq finds between places of unlike sign, the places even by the logarithm of 1 + rate."""
    ratio = (1 + HIGH) / (1 + LOW)
    places = [(1 + LOW) * ratio ** (i / steps) - 1 for i in range(steps + 1)]
    found = []
    for left, right in zip(places, places[1:], strict=False):
        if worth_at(flows, left) * worth_at(flows, right) < 0:
            found.append(brentq(lambda rate: worth_at(flows, rate), left, right, xtol=1e-13))
    return found


def ours(flows: Flows) -> list[float]:
    return [float(rate) for rate in rates(flows).found]


def library(flows: Flows) -> float | None:
    return pyxirr.xirr([day for day, _ in flows], [pence / 100 for _, pence in flows], silent=True)


def yearly(*sums: int) -> Flows:
    return [(START + timedelta(days=365 * i), pence) for i, pence in enumerate(sums)]


# The dated cases of tests/published/returns.toml, and sums of a house bought on a loan and sold.
DATED: dict[str, Flows] = {
    "R14": [(date(2008, 1, 1), -10_000_00), (date(2008, 3, 1), 2_750_00), (date(2008, 10, 30), 4_250_00),
            (date(2009, 2, 15), 3_250_00), (date(2009, 4, 1), 2_750_00)],
    "X6": [(date(2024, 12, 2), -70_500_00), (date(2025, 2, 10), -12_000_00), (date(2026, 4, 1), 4_200_00),
           (date(2026, 11, 25), 95_000_00)],
    "X7": [(date(2020, 1, 1), -1_000_00), (date(2021, 1, 1), 750_00), (date(2022, 1, 1), 500_00)],
    "even, R10": yearly(-100, 39, 59, 55, 20),
    "a loss, R11": yearly(-100, 0, 0, 74),
}  # fmt: skip


@pytest.mark.parametrize("flows", DATED.values(), ids=list(DATED))
def test_sums_with_one_rate(flows: Flows) -> None:
    expected = library(flows)

    assert ours(flows) == pytest.approx([expected], abs=NEAR)
    assert ours(flows) == pytest.approx(scanned(flows), abs=NEAR)
    assert pyxirr.is_conventional_cash_flow([pence / 100 for _, pence in sorted(flows)])


def test_a_leap_year_shows_that_a_year_is_365_days() -> None:
    """By actual days of each year X7 would be 0.1753905."""
    days, sums = zip(*DATED["X7"], strict=True)
    other = pyxirr.xirr(days, [pence / 100 for pence in sums], day_count=pyxirr.DayCount.ACT_ACT_ISDA)

    assert other == pytest.approx(0.1753905, abs=NEAR)
    assert ours(DATED["X7"]) == pytest.approx([0.1750093], abs=NEAR) != pytest.approx([other], abs=NEAR)


@pytest.mark.parametrize(
    ("sums", "number"),
    [((-100, 100, 0, -7), 2), ((-100, 230, -132), 2), ((-1000, 3600, -4250, 1650), 3), ((-100, 200, -101), 0)],
)
def test_several_rates_and_none(sums: tuple[int, ...], number: int) -> None:
    flows = yearly(*sums)
    found = ours(flows)
    one = library(flows)

    assert len(found) == number
    assert found == pytest.approx(scanned(flows), abs=NEAR)
    assert len(pyxirr.zero_crossing_points(list(sums))) > 1
    assert (one is None) == (number == 0)
    assert one is None or any(one == pytest.approx(rate, abs=NEAR) for rate in found)


@settings(deadline=None, max_examples=150)
@given(FLOWS)
def test_every_rate_that_either_library_finds_is_among_ours(flows: Flows) -> None:
    found = ours(flows)
    theirs = scanned(flows)
    one = library(flows)
    if one is not None and LOW < one < HIGH and abs(worth_at(flows, one)) < 1:
        theirs.append(one)

    for rate in theirs:
        assert any(rate == pytest.approx(mine, abs=NEAR * (1 + abs(rate))) for mine in found), (rate, found)


@settings(deadline=None, max_examples=100)
@given(st.integers(1, 9_000_000), st.lists(st.tuples(DAYS, st.integers(1, 900_000)), min_size=1, max_size=20))
def test_money_out_and_then_in_has_the_one_rate_of_both(out: int, into: Flows) -> None:
    flows = [(START - timedelta(days=1), -out), *into]
    assume(worth_at(flows, LOW) > 0 > worth_at(flows, HIGH))
    expected = library(flows)

    assert expected is not None
    assert ours(flows) == pytest.approx([expected], abs=NEAR * (1 + abs(expected)))


@settings(deadline=None, max_examples=150)
@given(st.lists(st.integers(-1000, 1000), min_size=3, max_size=7))
def test_even_years_have_the_roots_of_their_polynomial_and_no_other(sums: list[int]) -> None:
    """Of 1 + rate, the sums are the coefficients; roots that stand close together are left to the other tests."""
    assume(sums[0] and any(s > 0 for s in sums) and any(s < 0 for s in sums))
    every = [complex(root) for root in roots(sums)]
    assume(all(abs(a - b) > 1e-3 for i, a in enumerate(every) for b in every[:i]))
    assume(all(abs(root - edge) > 1e-3 for root in every for edge in (1 + LOW, 1 + HIGH)))
    expected = sorted(r.real - 1 for r in every if abs(r.imag) < 1e-9 and 1 + LOW < r.real < 1 + HIGH)

    assert ours(yearly(*sums)) == pytest.approx(expected, abs=1e-6)


@given(st.lists(st.tuples(DAYS, st.integers(0, 900_000)), max_size=8), st.sampled_from([1, -1]))
def test_sums_one_way_have_no_rate_in_either(flows: Flows, way: int) -> None:
    told = [(day, way * pence) for day, pence in flows]

    assert rates(told).one_way and not rates(told).found
    assert not told or library(told) is None


def test_a_rate_is_found_to_the_last_place_that_is_told() -> None:
    assert rates(DATED["R14"]).found == (Decimal("0.3733625335"),)
