"""How a sum of several houses is shared, who is meant by a full name, and what a line takes from its head line."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest

from ledger_tools.book.build import build
from ledger_tools.book.entries import Entry, Retention
from ledger_tools.book.splits import held, rent_a_year, rent_on, runs_on
from ledger_tools.book.world import Book
from ledger_tools.problems import Level

TWO = """
landlord x "X"
supplier pell "Pell & Sons"
property a "1 A Street"
    bought 1 May 2015 for £100,000
tenancy t at a
    tenants "T. Enant"
    periodic from 1 Jun 2015
    rent £600 a month
property b "2 B Street"
    bought 1 May 2016 for £50,000
    sold 30 Jun 2026 for £60,000
tenancy u at b
    tenants "U. Sher"
    periodic from 1 Jun 2016
    rent £400 a month
"""


def read(lines: str, head: str = TWO) -> Book:
    return build({"a.book": head + lines})


def codes(lines: str, head: str = TWO) -> list[str]:
    return [p.code for p in read(lines, head).problems]


def parts(lines: str, head: str = TWO) -> dict[str, Fraction]:
    """The houses of the last line, with their part of it."""
    book = read(lines, head)
    assert [p.headline for p in book.problems if p.level is Level.ERROR] == []
    return {share.house: share.fraction for share in book.entries[-1].homes}


# ── rents ────────────────────────────────────────────────────────────────────────────────────────────────────────


def yearly(rent: str, more: str = "", day: date = date(2025, 7, 1)) -> Fraction:
    book = read("", TWO.replace("rent £600 a month", f"rent {rent}\n    {more}" if more else f"rent {rent}"))
    assert book.problems == ()
    return rent_a_year("a", book.tenancies.values(), day)


@pytest.mark.parametrize(
    "rent, pence",
    [
        ("£70 a week", Fraction(7_000 * 365, 7)), ("£140 a fortnight", Fraction(14_000 * 365, 14)),
        ("£280 every 4 weeks", Fraction(28_000 * 365, 28)), ("£600 a month", Fraction(720_000)),
        ("£900 a quarter", Fraction(360_000)), ("£5,000 a year", Fraction(500_000)),
    ],
)  # fmt: skip
def test_a_year_of_rent_has_365_days(rent: str, pence: Fraction) -> None:
    """52 weeks and a day; £70 a week, £140 a fortnight and £280 every 4 weeks are all £3,650."""
    assert yearly(rent) == pence


@pytest.mark.parametrize(
    "day, pence",
    [(date(2015, 5, 31), 0), (date(2015, 6, 1), 720_000), (date(2025, 7, 1), 720_000), (date(2025, 7, 2), 0)],
)
def test_a_rent_counts_from_the_first_day_of_a_let_to_its_last(day: date, pence: int) -> None:
    assert yearly("£600 a month", "ended 1 Jul 2025", day) == pence


def test_a_new_rent_counts_from_its_day() -> None:
    more = "rent £700 a month from 1 Jul 2025"

    assert yearly("£600 a month", more, date(2025, 6, 30)) == 720_000
    assert yearly("£600 a month", more, date(2025, 7, 1)) == 840_000


def test_rents_told_in_any_order_are_taken_by_their_days() -> None:
    head = TWO.replace("rent £600 a month", "rent £800 a month from 1 Jul 2026\n    rent £700 a month from 1 Jul 2025\n"
                       "    rent £600 a month")  # fmt: skip
    let = read("", head).tenancies["t"]

    found = [rent_on(let, day) for day in (date(2025, 6, 30), date(2025, 7, 1), date(2026, 7, 1))]
    assert [rent.amount for rent in found if rent] == [60_000, 70_000, 80_000]


def test_rooms_let_apart_add_up() -> None:
    more = 'tenancy v at a\n    tenants "V"\n    periodic from 1 Jan 2025\n    rent £100 a month\n    room attic\n'

    assert rent_a_year("a", read(more).tenancies.values(), date(2025, 7, 1)) == 840_000
    assert rent_a_year("a", read(more).tenancies.values(), date(2024, 12, 31)) == 720_000


def test_a_let_runs_on_both_its_ends() -> None:
    let = read("", TWO.replace("rent £600 a month", "rent £600 a month\n    ended 1 Jul 2025")).tenancies["t"]

    days = [date(2015, 5, 31), date(2015, 6, 1), date(2025, 7, 1), date(2025, 7, 2)]
    assert [runs_on(let, day) for day in days] == [False, True, True, False]


# ── splits ───────────────────────────────────────────────────────────────────────────────────────────────────────

PAID = '1 Jul 2025 paid insurance £100.00 to "I" across '


def test_the_ways_to_share() -> None:
    assert parts(f"{PAID}a and b, split equally\n") == {"a": Fraction(1, 2), "b": Fraction(1, 2)}
    assert parts(f"{PAID}a 70% and b 30%\n") == {"a": Fraction(7, 10), "b": Fraction(3, 10)}
    assert parts(f"{PAID}a and b, split by rent\n") == {"a": Fraction(6, 10), "b": Fraction(4, 10)}
    assert parts(f"{PAID}a and b, split by price\n") == {"a": Fraction(2, 3), "b": Fraction(1, 3)}
    assert parts(f"{PAID}all, split by price\n") == {"a": Fraction(2, 3), "b": Fraction(1, 3)}


def test_a_split_by_rent_takes_the_rents_of_the_day() -> None:
    head = TWO.replace("rent £600 a month", "rent £600 a month\n    rent £1,200 a month from 1 Jul 2025")

    assert parts(f"{PAID}a and b, split by rent\n", head)["a"] == Fraction(3, 4)
    assert parts(f"{PAID.replace('1 Jul', '30 Jun')}a and b, split by rent\n", head)["a"] == Fraction(6, 10)


@pytest.mark.parametrize(
    "shared, code",
    [
        ("a and b", "shares-needed"), ("all", "shares-needed"), ("a 60% and b", "shares-mixed"),
        ("a 60% and b 39%", "shares-not-whole"), ("a 60% and b 41%", "shares-not-whole"),
    ],
)  # fmt: skip
def test_a_share_that_is_not_told_or_no_whole_is_an_error(shared: str, code: str) -> None:
    assert code in codes(f"{PAID}{shared}\n")
    assert code not in codes(f"{PAID}a 60% and b 40%\n")


@pytest.mark.parametrize(
    "line, known",
    [
        ('31 May 2016 paid insurance £9.00 to "I" across a and b, split by rent', False),  # b is let from 1 June
        ('1 Jun 2016 paid insurance £9.00 to "I" across a and b, split by rent', True),
    ],
)
def test_a_house_without_a_rent_on_the_day_cannot_be_split_by_it(line: str, known: bool) -> None:
    assert ("split-unknown" not in codes(f"{line}\n")) is known


def test_a_house_without_a_price_cannot_be_split_by_it() -> None:
    head = TWO.replace("    bought 1 May 2015 for £100,000\n", "")

    assert "split-unknown" in codes(f"{PAID}a and b, split by price\n", head)


@pytest.mark.parametrize(
    "day, houses",
    [("30 Apr 2016", "a"), ("1 May 2016", "ab"), ("30 Jun 2026", "ab"), ("1 Jul 2026", "a")],
)
def test_all_houses_are_those_held_on_the_day(day: str, houses: str) -> None:
    assert "".join(parts(f'{day} paid insurance £9.00 to "I" across all, split equally\n')) == houses


def test_a_house_is_held_on_the_days_it_was_bought_and_sold() -> None:
    b = read("").properties["b"]
    days = [date(2016, 4, 30), date(2016, 5, 1), date(2026, 6, 30), date(2026, 7, 1)]

    assert [held(b, day) for day in days] == [False, True, True, False]
    assert held(read("", 'property a "A"\n').properties["a"], date(1950, 1, 1))


# ── full names ───────────────────────────────────────────────────────────────────────────────────────────────────


def last(lines: str, head: str = TWO) -> Entry:
    return read(lines, head).entries[-1]


@pytest.mark.parametrize("quoted", ["U. Sher", "u. sher"])
def test_the_full_name_of_a_tenant_is_the_tenancy_and_its_house(quoted: str) -> None:
    entry = last(f'1 Jul 2025 received rent £400.00 from "{quoted}"\n')

    assert entry.who is not None and entry.who.name == "u"
    assert [share.house for share in entry.homes] == ["b"]


@pytest.mark.parametrize("quoted", ["Pell & Sons", "PELL & SONS"])
def test_the_full_name_of_a_supplier_is_the_coined_name(quoted: str) -> None:
    entry = last(f'at a\n1 Jul 2025 repaired tap £9.00 by "{quoted}", worn out\n')

    assert entry.who is not None and entry.who.name == "pell"
    payment = "1 Aug 2025 paid £9.00 to pell against invoice 4\n"
    bill = f'at a\n1 Jul 2025 repaired tap £9.00 by "{quoted}", worn out, number 4\n'
    assert "unknown-paper" not in codes(bill + payment)


def test_a_bill_with_a_slip_in_it_is_not_called_missing() -> None:
    bill = 'supplier pell "Pell Bros"\nat a\n1 Jul 2025 invoiced £9.00 by pell, number 4\n    repaird tap £9.00\n'
    payment = "1 Aug 2025 paid £9.00 to pell against invoice {}\n"
    assert "unknown-paper" not in codes(bill + payment.format(4))
    assert "unknown-paper" in codes(bill + payment.format(5))


def test_a_stranger_stays_a_stranger() -> None:
    bill = 'at a\n1 Jul 2025 repaired tap £9.00 by "Pell Bros", worn out, number 4\n'
    who = last(bill).who

    assert who is not None and (who.name, who.full) == ("", "Pell Bros")
    assert "unknown-paper" in codes(f"{bill}1 Aug 2025 paid £9.00 to pell against invoice 4\n")
    assert "unknown-paper" not in codes(f'{bill}1 Aug 2025 paid £9.00 to "PELL BROS" against invoice 4\n')


# ── from the head line ───────────────────────────────────────────────────────────────────────────────────────────

BILL = (
    "at a\n1 Jun 2025 invoiced £30.00 by pell in kitchen, number 8, worn out, like for like\n"
    '    repaired tap £10.00\n    replaced door in hall £20.00 by "Quill" at b, broken, better\n'
)


def test_lines_take_from_their_head_line_what_they_do_not_say_themselves() -> None:
    tap, door = last(BILL).lines

    assert tap.who is not None and door.who is not None
    assert (tap.who.name, [str(r) for r in tap.rooms], [s.house for s in tap.homes]) == ("pell", ["kitchen"], ["a"])
    assert (tap.facts.causes, tap.facts.compared) == (("worn out",), "like for like")
    assert (door.who.full, [str(r) for r in door.rooms], [s.house for s in door.homes]) == ("Quill", ["hall"], ["b"])
    assert (door.facts.causes, door.facts.compared) == (("broken",), "better")
    assert tap.day == door.day == last(BILL).day


def test_papers_and_sums_of_the_head_line_stay_there() -> None:
    tap, _ = last(BILL.replace(", worn out", ", worn out, retention 5%, due 1 Jul 2025, paid 2 Jul 2025")).lines

    assert (tap.facts.number, tap.facts.retention, tap.facts.due, tap.facts.paid) == ("", None, None, ())


@pytest.mark.parametrize("fact, name", [
    ('treat as repair because "so the surveyor says"', "ruling"), ("already returned 2024-25", "returned"),
    ("left by seller", "was_there"),
])  # fmt: skip
def test_rulings_returns_and_what_was_there_hold_for_every_line(fact: str, name: str) -> None:
    head = last(BILL.replace(", worn out", f", worn out, {fact}"))

    assert getattr(head.facts, name)
    assert all(getattr(line.facts, name) == getattr(head.facts, name) for line in head.lines)


@pytest.mark.parametrize(
    "told, total, held_back",
    [
        ((None, Fraction(5)), 10_000, 500), ((None, Fraction(5)), 10_010, 501), ((None, Fraction(5)), 10_009, 500),
        ((None, Fraction(5)), 10_011, 501), ((None, Fraction(5, 2)), 1_020, 26), ((1_234, None), 10_000, 1_234),
    ],
)  # fmt: skip
def test_half_a_penny_of_a_retention_is_held_back(
    told: tuple[int | None, Fraction | None], total: int, held_back: int
) -> None:
    assert Retention(*told, None).of(total) == held_back
