"""The internal rate of return: every rate, none missed. Published answers: tests/published/returns.toml."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from ledger_tools.statements.rate import HIGHEST, LOWEST, rates

START = date(2015, 3, 1)
Flows = list[tuple[date, int]]
DAYS = st.integers(0, 4000).map(lambda n: START + timedelta(days=n))


def yearly(*sums: int) -> Flows:
    return [(START + timedelta(days=365 * i), pence) for i, pence in enumerate(sums)]


def worth_at(flows: Flows, rate: Decimal) -> Decimal:
    first = min(day for day, _ in flows)
    return sum((pence * (1 + rate) ** (Decimal(-(day - first).days) / 365) for day, pence in flows), Decimal(0))


def changes(flows: Flows) -> int:
    by_day: dict[date, int] = {}
    for day, pence in flows:
        by_day[day] = by_day.get(day, 0) + pence
    signs = [pence > 0 for _, pence in sorted(by_day.items()) if pence]
    return sum(a != b for a, b in zip(signs, signs[1:], strict=False))


def test_two_rates_are_both_found() -> None:
    """100 out, 230 in, 132 out: (1.1 x - 1)(1.2 x - 1) by hand."""
    assert rates(yearly(-100, 230, -132)).found == (Decimal("0.1000000000"), Decimal("0.2000000000"))


def test_three_rates_are_all_found() -> None:
    """Roots at nil, a tenth and a half: x**3 coefficients of (y-1)(y-1.1)(y-1.5), times a thousand, by hand."""
    assert rates(yearly(-1000, 3600, -4250, 1650)).found == (
        Decimal("0E-10"), Decimal("0.1000000000"), Decimal("0.5000000000"),
    )  # fmt: skip


def test_a_rate_that_only_touches_is_found() -> None:
    assert rates(yearly(-100, 220, -121)).found == (Decimal("0.1000000000"),)


def test_sums_that_never_come_out_even_have_none() -> None:
    found = rates(yearly(-100, 200, -101))
    assert (found.found, found.one_way) == ((), False)


@pytest.mark.parametrize("flows", [[], yearly(-100), yearly(-100, -5), yearly(5, 0, 7), [(START, -5), (START, 5)]])
def test_sums_one_way_are_not_searched(flows: Flows) -> None:
    assert rates(flows).one_way


def test_sums_of_one_day_are_one_sum() -> None:
    assert rates([(START, -60), (START, -40), *yearly(0, 110)]) == rates(yearly(-100, 110))


@settings(deadline=None, max_examples=60)
@given(st.lists(st.tuples(DAYS, st.integers(-900_000, 900_000)), min_size=2, max_size=12), st.randoms())
def test_each_rate_found_is_one_and_order_does_not_matter(flows: Flows, random) -> None:  # type: ignore[no-untyped-def]
    found = rates(flows)
    mixed = list(flows)
    random.shuffle(mixed)

    assert rates(mixed) == found
    assert len(found.found) <= changes(flows)
    whole = sum(abs(pence) for _, pence in flows)
    step = Decimal("1e-9")
    for rate in found.found:
        near = [worth_at(flows, rate + move) for move in (-step, Decimal(0), step)]
        assert min(near) <= 0 <= max(near) or abs(near[1]) < whole * Decimal("1e-6")


@settings(deadline=None, max_examples=60)
@given(
    st.integers(1, 9_000_000),
    st.lists(st.tuples(st.integers(1, 4000).map(lambda n: START + timedelta(days=n)), st.integers(1, 900_000)),
             min_size=1, max_size=30),
)  # fmt: skip
def test_money_out_then_in_has_one_rate_or_lies_outside_the_range(out: int, into: Flows) -> None:
    flows = [(START, -out), *into]
    found = rates(flows).found
    inside = worth_at(flows, LOWEST) >= 0 >= worth_at(flows, HIGHEST)

    assert len(found) == (1 if inside else 0)


@settings(deadline=None, max_examples=60)
@given(st.lists(st.tuples(DAYS, st.integers(-9_000, 9_000)), min_size=2, max_size=12), st.integers(2, 50))
def test_larger_sums_have_the_same_rates(flows: Flows, times: int) -> None:
    assert rates([(day, pence * times) for day, pence in flows]) == rates(flows)


@settings(deadline=None, max_examples=40)
@given(st.lists(st.integers(-10, 40), min_size=1, max_size=4, unique=True))
def test_every_rate_of_sums_made_to_have_them_is_found(twentieths: list[int]) -> None:
    """The sums are those of the product of (20 y - 20 - n), so they come out even at n twentieths and nowhere else."""
    sums = [1]
    for n in twentieths:
        sums = [20 * a - (20 + n) * b for a, b in zip([*sums, 0], [0, *sums], strict=True)]

    found = rates(yearly(*sums)).found

    assert [rate * 20 for rate in found] == sorted(twentieths)
