"""The whole story of the sample house against sections 11 and 12 of saltmarsh_by_hand.md.

The works as they went on, the budget that slipped, resale, delay, the first tenants, what the house cost and brings.

Sums are pounds as the hand wrote them down; they come from reading the book, not from running the tool.
"""

from __future__ import annotations

from datetime import date
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Decimal
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest
from scipy.optimize import brentq

from ledger_tools.book.build import build
from ledger_tools.money import decimal, percent
from ledger_tools.render.schedule import standing
from ledger_tools.statements.accounts import Accounts, up_to
from ledger_tools.statements.diary import diary
from ledger_tools.statements.refurb import Refurb, refurb
from ledger_tools.statements.rents import rents
from ledger_tools.statements.schedule import Schedule, schedules
from ledger_tools.statements.worth import Worth, worth
from ledger_tools.statements.worth_year import Asked, Year

from .test_saltmarsh import BOOK, BOX_27, accounts, d

HOUSE = "saltmarsh-14"
LAST = date(2026, 4, 5)
PENNY = d("0.01")


def penny(sum_: Decimal, way: str = ROUND_HALF_UP) -> Decimal:
    return sum_.quantize(PENNY, way)


def plan(on: date) -> Schedule:
    return schedules(accounts().book, HOUSE, on)[0]


def works(on: date) -> Refurb:
    return refurb(accounts().book, HOUSE, on)[0]


@cache
def numbers() -> Worth:
    asked = Asked(value=160_000_00, stress=Fraction("5.5"), cover=Fraction(145))
    return worth(Accounts(up_to(accounts().book, LAST)), HOUSE, LAST, asked)


def year(slug: str) -> Year:
    return next(y for y in numbers().years if y.slug == slug)


# ── the works ────────────────────────────────────────────────────────────────────────────────────────────────────

PLANNED = sum(map(d, "2400 400 30 180 600 280 150 450 90 400 60 180 100 60".split()))
MOVED = {  # what moved the budget up to the evening of each day
    date(2025, 5, 30): d("2160") + d("150") - d("2400"),
    date(2025, 6, 8): (d("560") - d("600")) + d("270") + d("240"),
    date(2025, 6, 29): (
        -d("240") + (d("420") - d("450")) + (d("84.50") + d("92") - d("90")) + d("55") + d("75")
        + (d("96.40") - d("100")) + (d("28") - d("30")) + (d("410") - d("400"))
    ),
    date(2025, 7, 10): d("90") + (d("54.20") - d("60")) + d("75") + d("95"),
    date(2025, 7, 20): (
        (d("560") + d("448") * 560 / 700 - d("560")) + (d("140") + d("448") * 140 / 700 - d("150"))
        + (d("270") - d("280")) + (d("395") - d("400")) + d("279") + d("65") + (d("38") + d("45"))
    ),
    date(2025, 8, 3): d("329") + d("45") + d("46") + d("150") + d("24") + d("110"),
}  # fmt: skip


@pytest.mark.parametrize("on", MOVED)
def test_the_budget_slips_as_the_hand_says(on: date) -> None:
    expected = PLANNED + sum(moved for day, moved in MOVED.items() if day <= on)
    found = works(on)

    assert decimal(found.total.rough) == PLANNED == d("5380")
    assert decimal(found.total.forecast) == expected
    assert f"{expected:,.2f}" in page()


@pytest.mark.parametrize(
    ("on", "done"),
    [(date(2025, 6, 8), 0), (date(2025, 6, 10), 1), (date(2025, 6, 29), 7), (date(2025, 7, 10), 9), (LAST, 14)],
)
def test_the_schedule_is_done_by_the_lines_of_the_book(on: date, done: int) -> None:
    found = plan(on)

    assert (sum(n.done for n in found.planned), len(found.planned)) == (done, 14)


def test_who_is_to_be_booked_and_what_is_ordered() -> None:
    found = {n.job.words: n for n in plan(date(2025, 6, 29)).planned}

    assert {words for words, n in found.items() if n.to_book} == {
        "certify electrical installation", "replace gutters", "replace 2 radiators with 3", "replace shower",
        "install chimney cowl",
    }  # fmt: skip
    ordered = found["replace worktop"].state.ordered
    assert ordered and not found["replace worktop"].to_book
    assert found["replace gutters"].state.name == "agreed"


def test_what_came_back_resale_and_contingency() -> None:
    found = works(date(2025, 8, 3))

    assert decimal(found.back.pence) == d("84.50") + d("150")
    assert decimal(found.resale.pence) == d("38") + d("240") + d("60")
    assert decimal(found.net) == d("6946.60")
    assert found.contingency.told and decimal(found.contingency.told) == PLANNED * 12 / 100 == d("645.60")
    assert decimal(found.contingency.left) == d("645.60") - d("90")
    assert (found.open_jobs, decimal(found.total.retained)) == (0, d("57.40"))


def test_the_days_that_were_lost() -> None:
    day = penny(12 * d("925") / 365) + penny(d("1687.30") / 365) + penny(d("109500") * d("0.052") / 365)

    assert decimal(plan(date(2025, 6, 29)).cost.pence) == day == d("50.63")
    for on in (date(2025, 8, 4), date(2026, 2, 1)):
        found = plan(on)
        assert (found.let, found.late, decimal(found.late_cost)) == (date(2025, 8, 4), 3, 3 * day)
        assert standing(found)[1] == (
            "Let since 4 Aug 2025, 3 days after the day you aimed at. At £50.63 a day that came to £151.89."
        )


def test_the_first_tenants() -> None:
    """The deposit of 1 August may be five weeks' rent, 1,067.30; the first of thirty days to protect it is that day."""
    watched = diary(accounts(), [HOUSE], False, date(2025, 8, 2), 12)
    held = rents(accounts(), HOUSE, LAST).lets[0]

    assert [r.day for r in (*watched.overdue, *watched.due) if r.kind == "deposit"] == [date(2025, 8, 30)]
    assert held.rent and decimal(held.rent.arrears) == d("125")
    assert decimal(held.deposit.held) == d("1067") <= 12 * d("925") * 5 / 52
    assert held.deposit_notes == ()


# ── what it cost ─────────────────────────────────────────────────────────────────────────────────────────────────

COST = {
    "price": d("146000") - d("900"),
    "chattels": d("900"),
    "land_tax": d("125000") * 5 / 100 + d("20100") * 7 / 100,
    "fees": d("480") + d("1790"),
    "repairs": d("4161") + d("270") + d("110"),
    "furnishing": d("279") + d("150") + d("130"),
    "holding": d("286") + d("58.20") + d("63.40") + d("95") + d("179.92") + d("75") + d("180") + d("65"),
    "open": d("410") + d("329") + d("46"),
    "improvements": d("1171.60"),
    "sold": -(d("240") + d("60")),
}
TOTAL = sum(COST.values(), Decimal(0))
FINANCE = d("995") + d("180") + 2 * d("474.50")
CASH = TOTAL + FINANCE - d("109500")


def test_the_total_cost_by_what_it_was_for() -> None:
    cost = numbers().cost

    assert {f.slug: decimal(f.pence) for f in cost.cost} == COST
    assert (decimal(cost.total.pence), decimal(cost.finance.pence)) == (TOTAL, FINANCE)
    assert (decimal(cost.owed.pence), decimal(cost.cash.pence)) == (d("109500"), CASH)


def test_what_is_open_counts_as_money_whatever_tax_will_say() -> None:
    """The three open questions were paid: settling them moves them to another line, and no total."""
    texts = {p.name: p.read_text(encoding="utf-8") for p in sorted(BOOK.glob("*.book"))}
    words = {"£410.00 from drays, own labour": "like for like", "£329.00 from": "treat as improvement because \"mine\""}
    for at, fact in words.items():
        lines = texts["diary.book"].split("\n")
        (n,) = [n for n, line in enumerate(lines) if at in line and "replaced" in line]
        lines[n] += f", {fact}"
        texts["diary.book"] = "\n".join(lines)
    made = worth(Accounts(up_to(build(texts), LAST)), HOUSE, LAST, Asked(value=160_000_00))

    assert decimal(made.cost.of("open").pence) == d("46")
    assert decimal(made.cost.of("repairs").pence) == COST["repairs"] + d("410")
    assert decimal(made.cost.of("improvements").pence) == COST["improvements"] + d("329")
    assert decimal(made.cost.total.pence) == TOTAL
    assert [r.rates for r in made.rates] == [r.rates for r in numbers().rates]


# ── what it brings ───────────────────────────────────────────────────────────────────────────────────────────────

AGENT = [d(s) for s in "222 111 111 72 150 111 96 111".split()] + [d("180"), d("72")]
RENT_LINES = [d(s) for s in "925 925 925 925 600 325 925 925 800 60 925".split()]
COST_LINES = [
    d("181"), -d("132.09"), *AGENT, d("75"), d("64"), d("380"), -d("280"), d("60"), d("450") - d("130") - d("30"),
    d("150"),
]  # fmt: skip
INTEREST_LINES = [d("474.50")] * 8


def yearly(lines: list[Decimal]) -> Decimal:
    return penny(sum(lines, Decimal(0)) * 365 / 245)


def test_what_it_brought() -> None:
    earned = numbers().all_earned
    assert earned
    sums = (sum(RENT_LINES), sum(COST_LINES), sum(INTEREST_LINES))

    assert sum(AGENT) == BOX_27
    assert tuple(decimal(f.pence) for f in (earned.rent, earned.costs, earned.interest)) == sums
    assert decimal(earned.left.pence) == sums[0] - sums[1] - sums[2] == d("2440.09")


def test_a_year_as_collected_and_as_agreed() -> None:
    costs = yearly(COST_LINES)
    collected = (yearly(RENT_LINES), costs, yearly(INTEREST_LINES))
    agreed = (12 * d("925"), costs, d("109500") * d("0.052"))

    for slug, sums in (("collected", collected), ("agreed", agreed)):
        y = year(slug)
        assert tuple(decimal(f.pence) for f in (y.sums.rent, y.sums.costs, y.sums.interest)) == sums, slug
        assert f"{sums[0] - sums[1] - sums[2]:,.2f}" in page()
        assert decimal(y.break_even or 0) == penny((sums[1] + sums[2]) / 12, ROUND_CEILING)


def test_the_ratios_of_a_year_as_agreed() -> None:
    rent, costs, interest = 12 * d("925"), yearly(COST_LINES), d("5694")
    left = rent - costs - interest
    found = {r.slug: r.value for r in year("agreed").ratios}

    def near(slug: str, by_hand: Decimal, told: str) -> None:
        value = found[slug]
        assert value is not None and abs(Decimal(value.numerator) / value.denominator - by_hand) < d("1e-12")
        assert told in page(), slug

    near("gross_price", rent / 146000, "7.6%")
    near("gross_total", rent / TOTAL, "6.8%")
    near("net_price", (rent - costs) / 146000, "5.5%")
    near("net_total", (rent - costs) / TOTAL, "4.9%")
    near("on_cash", left / CASH, "4.2%")
    near("payback", CASH / left, "23.6")
    near("cover", rent / interest, "1.95")


def test_an_empty_week_and_a_lenders_test() -> None:
    week = {"rent": penny(d("11100") / 52), "council_tax": penny(d("1687.30") / 52), "interest": penny(d("5694") / 52)}
    lending = numbers().lending

    assert {f.slug: decimal(f.pence) for f in numbers().empty_week} == week
    assert sum(week.values()) == d("355.41")
    assert lending
    assert decimal(lending.rent_needed) == penny(d("109500") * d("0.055") * d("1.45") / 12, ROUND_CEILING)
    assert decimal(lending.loan_possible or 0) == penny(d("11100") / (d("0.055") * d("1.45")), ROUND_FLOOR)


# ── rates of return ──────────────────────────────────────────────────────────────────────────────────────────────

ON_THE_HOUSE = """
2025-03-18 -480        2025-05-23 -146000 -7657 -1790 -286      2025-06-02 -270       2025-06-09 -2310 -75
2025-06-10 38          2025-06-11 -420        2025-06-16 -84.50 2025-06-19 84.50      2025-06-20 240
2025-06-21 -92         2025-06-22 60          2025-06-26 -96.40 2025-06-27 -28        2025-06-30 -90
2025-07-04 -295        2025-07-05 -54.20      2025-07-08 -180   2025-07-11 150 -410   2025-07-12 -170 -279
2025-07-15 -270        2025-07-16 -65         2025-07-17 -83    2025-07-18 -395       2025-07-20 -500
2025-07-21 -329        2025-07-22 -45         2025-07-25 -46    2025-07-26 -150       2025-07-29 -24
2025-07-30 -110        2025-07-31 -58.20 -63.40 -95             2025-08-01 -179.92    2025-08-14 -590.60
2025-09-01 -181        2025-09-05 1376        2025-10-03 132.09 2025-10-06 739        2025-11-05 814
2025-11-14 -450 30     2025-12-05 464         2025-12-09 -380 -60                     2026-01-06 1100
2026-01-14 -57.40      2026-01-16 280         2026-02-05 814    2026-03-05 704        2026-03-07 -150
2026-03-27 60          2026-04-02 814         2026-04-05 160000
"""
LOAN = """
2025-05-23 109500 -995 -180  2025-06-23 -474.50  2025-07-23 -474.50  2025-08-26 -474.50  2025-09-23 -474.50
2025-10-23 -474.50  2025-11-24 -474.50  2025-12-23 -474.50  2026-01-23 -474.50  2026-02-23 -474.50
2026-03-23 -474.50  2026-04-05 -109500
"""


def by_day(*texts: str) -> dict[date, Decimal]:
    """Day by day what moved: a day, then its sums."""
    found: dict[date, Decimal] = {}
    for text in texts:
        for word in text.split():
            if word[:2] == "20" and word.count("-") == 2:
                day = date.fromisoformat(word)
            else:
                found[day] = found.get(day, Decimal(0)) + d(word)
    return {day: moved for day, moved in found.items() if moved}


@pytest.mark.parametrize(("slug", "texts"), [("house", (ON_THE_HOUSE,)), ("own", (ON_THE_HOUSE, LOAN))])
def test_the_rate_of_return_of_sums_read_off_the_book(slug: str, texts: tuple[str, ...]) -> None:
    expected = by_day(*texts)
    first = min(expected)
    rate = next(r for r in numbers().rates if r.slug == slug)
    moved: dict[date, Decimal] = {}
    for t in rate.flows.trail:
        moved[t.day] = moved.get(t.day, Decimal(0)) + decimal(t.pence)

    def worth_at(yearly: float) -> float:
        return sum(float(s) * (1 + yearly) ** (-(day - first).days / 365) for day, s in expected.items())

    assert {day: s for day, s in moved.items() if s} == expected
    assert rate.rates and len(rate.rates.found) == 1
    by_root = brentq(worth_at, -0.9, 1)
    assert float(rate.rates.found[0]) == pytest.approx(by_root, abs=1e-8)
    assert percent(Fraction(rate.rates.found[0]), 2) in page()


# ── the page ─────────────────────────────────────────────────────────────────────────────────────────────────────


@cache
def page() -> str:
    return (Path(__file__).parent / "saltmarsh_by_hand.md").read_text(encoding="utf-8")


def test_the_working_agrees_with_the_page_it_is_told_on() -> None:
    told = [*COST.values(), TOTAL, FINANCE, CASH, sum(COST_LINES), sum(INTEREST_LINES), yearly(COST_LINES)]

    assert [f"{sum_:,.2f}" for sum_ in told if f"{sum_:,.2f}" not in page()] == []
