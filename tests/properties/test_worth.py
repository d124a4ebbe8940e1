"""Made-up houses: larger sums change money and no yield, the order of lines nothing; every sum has one place."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from ledger_tools.book.build import build
from ledger_tools.book.world import Book
from ledger_tools.days import day_words
from ledger_tools.money import pounds
from ledger_tools.problems import Level
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.worth import Worth, worth
from ledger_tools.statements.worth_year import Asked

RELAXED = settings(
    deadline=None, max_examples=30, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)
FIRST, LAST = date(2022, 6, 10), date(2025, 6, 9)
COSTS = (
    "paid stamp duty {}", "paid conveyancing {}", "replaced boiler {}, modern equivalent, broken",
    "replaced kitchen {}, better", "replaced worktop {}", "bought fridge {}, loose, none before",
    "paid landlord insurance {}", "paid loan interest {} to bank", "repaid loan {} to bank",
    "installed conservatory {}, chosen", "sold shed {}", "received refund {} for boiler", "received rent {} from t",
    "replaced washing machine {}, like for like, used by tenant, old one sold {old}",
    "replaced shower {}, better, chosen, part exchange {old}", "replaced sofa {}, loose, old one sold {old}",
)  # fmt: skip
LINES = st.lists(
    st.tuples(
        st.integers(0, (LAST - FIRST).days),
        st.sampled_from(COSTS),
        st.integers(25, 225_000).map(lambda quarters: 4 * quarters),
    ),
    max_size=14,
)
Told = list[tuple[int, str, int]]


def lines_of(told: Told, times: int) -> list[str]:
    dated = ((day_words(FIRST + timedelta(days=days)), words, pence * times) for days, words, pence in told)
    return [f"{day} {words.format(pounds(pence), old=pounds(pence // 4))}\n" for day, words, pence in dated]


def book_of(lines: list[str], times: int) -> Book:
    """A house whose book is kept up to the day asked about, so that no part of a year is scaled up to the penny."""
    made = build({"a.book": f"""
landlord x "X"
property a "1 A Street"
    nation england
    bought 10 Jun 2022 for {pounds(90_000_00 * times)}, additional dwelling
    as bought lettable
    price normal
loan bank on a
    interest only
tenancy t at a
    tenants "T. Enant"
    periodic from 1 Aug 2022
    rent {pounds(600_00 * times)} a month
at a
10 Jun 2022 borrowed {pounds(60_000_00 * times)} from bank for purchase
1 Aug 2022 received rent {pounds(600_00 * times)} from t
9 Jun 2025 received rent {pounds(600_00 * times)} from t
""" + "".join(lines)})  # fmt: skip
    assert [p.headline for p in made.problems if p.level is Level.ERROR] == []
    return made


def numbers(told: Told, times: int = 1) -> Worth:
    asked = Asked(value=110_000_00 * times, rent=650_00 * times)
    return worth(Accounts(book_of(lines_of(told, times), times)), "a", LAST, asked)


@RELAXED
@given(LINES, st.integers(2, 9))
def test_larger_sums_change_money_and_no_yield(told: Told, times: int) -> None:
    one, more = numbers(told), numbers(told, times)

    assert more.cost.total.pence == times * one.cost.total.pence
    assert more.cost.cash.pence == times * one.cost.cash.pence
    for a, b in zip(one.years, more.years, strict=True):
        assert b.sums.left.pence == times * a.sums.left.pence
        assert [(r.slug, r.value) for r in a.ratios] == [(r.slug, r.value) for r in b.ratios]
    assert [r.rates for r in one.rates] == [r.rates for r in more.rates]


@RELAXED
@given(LINES, st.randoms())
def test_the_order_of_lines_changes_no_number(told: Told, random) -> None:  # type: ignore[no-untyped-def]
    mixed = list(told)
    random.shuffle(mixed)
    one, other = numbers(told), numbers(mixed)

    def bare(w: Worth) -> object:
        return (
            [(f.slug, f.pence) for f in (*w.cost.cost, w.cost.cash, w.cost.owed)],
            [(y.slug, y.sums.left.pence, y.ratios, y.break_even) for y in w.years],
            [(r.slug, r.rates) for r in w.rates],
        )

    assert bare(one) == bare(other)


@RELAXED
@given(LINES)
def test_every_sum_of_money_has_one_place(told: Told) -> None:
    """What went into the house, what it brought and what it is worth make the dated sums, no penny more or less."""
    w = numbers(told)
    own = next(r for r in w.rates if r.slug == "own").flows
    assert w.all_earned and w.value

    assert own.pence == w.all_earned.left.pence - w.cost.cash.pence + w.value.pence - w.cost.owed.pence
    assert sum(e.left.pence for _, e in w.earned) == w.all_earned.left.pence
    assert own.pence == sum(t.pence for t in own.trail)


@RELAXED
@given(LINES)
def test_money_is_what_moved_whatever_tax_calls_it(told: Told) -> None:
    """What was paid less what came, read off the lines: repair or improvement, open or without relief."""
    moved = -90_000_00 + 2 * 600_00
    for _, words, pence in told:
        moved += pence if words.startswith(("sold", "received")) else -pence
        moved += pence // 4 if "{old}" in words else 0
    repaid = sum(pence for _, words, pence in told if words.startswith("repaid"))
    house, own = numbers(told).rates
    interest = sum(pence for _, words, pence in told if "interest" in words)

    assert own.flows.pence - 110_000_00 == moved + repaid
    assert house.flows.pence - 110_000_00 == moved + repaid + interest


@RELAXED
@given(LINES, st.integers(0, 2000))
def test_any_day_gives_numbers_or_says_why(told: Told, days: int) -> None:
    day = date(2021, 6, 1) + timedelta(days=days)
    book = book_of(lines_of(told, 1), 1)
    kept = replace(book, entries=tuple(e for e in book.entries if e.day.first <= day))
    w = worth(Accounts(kept), "a", day, Asked(value=100_000_00))

    assert all(rate.rates is not None or rate.why for rate in w.rates)
    assert w.day == day
