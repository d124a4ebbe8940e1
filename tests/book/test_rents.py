"""When rent falls due, and what came in of it. The lets are invented; every sum is worked out beside it."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ledger_tools.book.build import build
from ledger_tools.book.rents import dues, receipts
from ledger_tools.book.world import Book
from ledger_tools.days import day_words, months_after
from ledger_tools.problems import Level

END = date(2026, 4, 5)


def book(fields: str, lines: str = "") -> Book:
    made = build(
        {
            "a.book": 'landlord x "X"\nproperty a "1 A Street"\nproperty b "2 B Street"\n'
            f'tenancy t at a\n    tenants "T. Enant" and "Flo Mate"\n    {fields}\n{lines}'
        }
    )
    assert [p.headline for p in made.problems if p.level is Level.ERROR] == []
    return made


def due(fields: str, until: date = END) -> list[tuple[str, int]]:
    return [(day_words(d.day), d.pence) for d in dues(book(fields).tenancies["t"], until)]


def test_a_month_goes_by_the_day_of_the_month() -> None:
    assert due("periodic from 4 Aug 2025\n    rent £925 a month, first due 4 Aug 2025", date(2025, 10, 4)) == [
        ("4 Aug 2025", 925_00), ("4 Sep 2025", 925_00), ("4 Oct 2025", 925_00),
    ]  # fmt: skip


def test_a_month_from_the_31st_takes_the_last_day_and_does_not_slip() -> None:
    fields = "periodic from 31 Jan 2024\n    rent £100 a month"

    assert [day for day, _ in due(fields, date(2024, 4, 1))] == ["31 Jan 2024", "29 Feb 2024", "31 Mar 2024"]


@pytest.mark.parametrize(
    ("every", "second"),
    [("a week", "8 Sep 2025"), ("a fortnight", "15 Sep 2025"), ("every 4 weeks", "29 Sep 2025"),
     ("a quarter", "1 Dec 2025")],
)  # fmt: skip
def test_other_rhythms(every: str, second: str) -> None:
    assert due(f"periodic from 1 Sep 2025\n    rent £215 {every}")[1] == (second, 215_00)


def test_a_new_rent_within_a_period_counts_by_days() -> None:
    """10 of the 30 days of June at £950, 20 at £900: £300 and £633.33."""
    fields = "periodic from 1 Jun 2025\n    rent £900 a month\n    rent £950 a month from 11 Jun 2025"

    assert due(fields, date(2025, 7, 1)) == [("1 Jun 2025", 933_33), ("1 Jul 2025", 950_00)]


def test_a_new_rhythm_begins_with_its_rent() -> None:
    """Ten days of June at £900 a month are £300; from then on a week at a time."""
    fields = "periodic from 1 Jun 2025\n    rent £900 a month\n    rent £210 a week from 11 Jun 2025"

    assert due(fields, date(2025, 6, 18)) == [("1 Jun 2025", 300_00), ("11 Jun 2025", 210_00), ("18 Jun 2025", 210_00)]


def test_days_free_of_rent() -> None:
    """14 of 31 days free: 17/31 of £925 is £507.26 (507.258…)."""
    fields = "periodic from 4 Aug 2025\n    rent £925 a month\n    rent free 4 Aug 2025 to 17 Aug 2025"

    assert due(fields, date(2025, 8, 31)) == [("4 Aug 2025", 507_26)]


def test_a_free_period_is_not_due() -> None:
    fields = "periodic from 1 Jun 2025\n    rent £900 a month\n    rent free 1 Jun 2025 to 30 Jun 2025"

    assert due(fields, date(2025, 7, 1)) == [("1 Jul 2025", 900_00)]


def test_the_last_days_count_and_then_no_more() -> None:
    """3 of 31 days of March: £90 of £930."""
    fields = "periodic from 1 Jan 2026\n    rent £930 a month\n    moved out 10 Feb 2026\n    ended 3 Mar 2026"

    assert due(fields)[-1] == ("1 Mar 2026", 90_00)
    assert len(due(fields)) == 3


def test_a_fixed_term_rolls_on_when_nobody_ends_it() -> None:
    assert len(due("from 1 Jan 2026 to 31 Jan 2026\n    rent £930 a month")) == 4


def test_rent_due_before_the_days_it_is_for() -> None:
    fields = "periodic from 4 Aug 2025\n    rent £925 a month, first due 1 Aug 2025"
    found = dues(book(fields).tenancies["t"], date(2025, 9, 1))

    assert [(d.day, d.period.first) for d in found] == [
        (date(2025, 8, 1), date(2025, 8, 4)), (date(2025, 9, 1), date(2025, 9, 4)),
    ]  # fmt: skip


def test_rent_in_arrears_is_told_by_its_first_due_day() -> None:
    fields = "periodic from 1 Jul 2022\n    rent £1,500 a quarter, first due 1 Oct 2022"
    found = dues(book(fields).tenancies["t"], date(2023, 4, 5))

    assert [(d.day, d.period.first, d.pence) for d in found] == [
        (date(2022, 10, 1), date(2022, 7, 1), 1_500_00),
        (date(2023, 1, 1), date(2022, 10, 1), 1_500_00),
        (date(2023, 4, 1), date(2023, 1, 1), 1_500_00),
    ]


def test_a_due_day_keeps_to_its_own_day_of_the_month() -> None:
    fields = "periodic from 1 Feb 2026\n    rent £900 a month, first due 3 Feb 2026"

    assert [day for day, _ in due(fields, date(2026, 4, 3))] == ["3 Feb 2026", "3 Mar 2026", "3 Apr 2026"]


def test_a_let_without_rent_or_day_owes_nothing() -> None:
    assert due("periodic from 4 Aug 2025") == []


@given(st.integers(0, 400), st.integers(1, 200_000), st.integers(1, 60), st.sampled_from(["a week", "a month"]))
def test_periods_follow_each_other_and_add_up(start: int, pence: int, months: int, every: str) -> None:
    first = date.fromordinal(date(2024, 1, 1).toordinal() + start)
    rent = f"£{pence // 100:,}.{pence % 100:02d}"
    let = book(f"periodic from {day_words(first)}\n    rent {rent} {every}").tenancies["t"]
    found = dues(let, months_after(first, months))

    assert found[0].day == first
    assert all((b.period.first - a.period.last).days == 1 for a, b in zip(found, found[1:], strict=False))
    assert {d.pence for d in found} == {pence}


# ── what came in ─────────────────────────────────────────────────────────────────────────────────────────────────

LET = "periodic from 1 Jun 2025\n    rent £900 a month"
SECOND = 'tenancy u at b\n    tenants "U. Sher"\n    periodic from 1 Jun 2025\n    rent £400 a month\n'


@pytest.mark.parametrize(
    ("line", "let", "pence"),
    [
        ("received rent £900.00 from t", "t", 900_00),
        ('received £450.00 from "Flo Mate"', "t", 450_00),
        ("received rent £400.00 at b", "u", 400_00),
        ("repaid rent £20.00 to t", "t", -20_00),
        ('banked £820.00 from "Quay" at a\n    received rent £900.00\n    paid management fee £80.00', "t", 900_00),
    ],
)
def test_a_receipt_finds_its_let(line: str, let: str, pence: int) -> None:
    found = receipts(book(LET, f"{SECOND}2 Jun 2025 {line}\n"))

    assert {name: [r.pence for r in them] for name, them in found.items()} == {let: [pence]}


@pytest.mark.parametrize(
    "line",
    [
        'received rent £900.00 from "A. Stranger" at a',
        "received deposit £900.00 from t",
        "received ground rent £90.00 from t",
        "paid council tax £9.00 at a",
    ],
)
def test_what_is_no_rent_of_a_let_is_left_out(line: str) -> None:
    assert receipts(book(LET, f"2 Jun 2025 {line}\n")) == {}
