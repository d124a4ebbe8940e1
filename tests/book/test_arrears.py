"""What is owed of the rent and since when; deposits. Lets are invented; every sum is worked out beside it."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from ledger_tools.book.arrears import RentAccount, rent_account
from ledger_tools.book.build import build
from ledger_tools.book.deposits import deposit_account
from ledger_tools.book.rents import next_period, receipts, unplaced, written_off
from ledger_tools.book.world import Book
from ledger_tools.days import day_words
from ledger_tools.problems import Level

FROM = "    periodic from 1 Jun 2025\n    rent £900 a month\n"


def book(fields: str = FROM, lines: str = "", files: int = 1) -> Book:
    head = f'landlord x "X"\nproperty a "1 A Street"\ntenancy t at a\n    tenants "T. Enant"\n{fields}'
    parts = lines.splitlines(keepends=True)
    texts = {"a.book": head} | {f"b{n}.book": "at a\n" + "".join(parts[n::files]) for n in range(files)}
    made = build(texts)
    assert [p.headline for p in made.problems if p.level is Level.ERROR] == []
    return made


def of(made: Book, on: date) -> RentAccount:
    found = rent_account(
        made, made.tenancies["t"], receipts(made).get("t", ()), written_off(made).get("t", ()), on
    )  # fmt: skip
    assert found is not None
    return found


def owed(lines: str, on: date, fields: str = FROM) -> list[tuple[str, int, int]]:
    return [(day_words(o.day), o.pence, o.late(on)) for o in of(book(fields, lines), on).owed]


def test_nothing_came() -> None:
    assert owed("", date(2025, 7, 11)) == [("1 Jun 2025", 900_00, 40), ("1 Jul 2025", 900_00, 10)]


def test_money_without_days_pays_the_oldest() -> None:
    lines = "5 Jul 2025 received rent £1,000.00 from t\n"

    assert owed(lines, date(2025, 7, 11)) == [("1 Jul 2025", 800_00, 10)]
    assert owed(lines, date(2025, 7, 4)) == [("1 Jun 2025", 900_00, 33), ("1 Jul 2025", 900_00, 3)], "not yet come"


def test_money_told_for_its_days_pays_their_rent() -> None:
    """June is short by £125 and stays so, though July was paid early."""
    lines = (
        "2 Jun 2025 received rent £775.00 from t for Jun 2025\n28 Jun 2025 received rent £900.00 from t for Jul 2025\n"
    )
    assert owed(lines, date(2025, 7, 3)) == [("1 Jun 2025", 125_00, 32)]
    early = of(book(lines=lines), date(2025, 6, 29))
    assert (early.arrears, early.ahead) == (125_00, 900_00)


def test_what_is_too_much_for_its_days_pays_the_rest() -> None:
    lines = "1 Jul 2025 received rent £1,100.00 from t for Jul 2025\n"

    assert owed(lines, date(2025, 7, 3)) == [("1 Jun 2025", 700_00, 32)]


def test_written_off_and_given_back() -> None:
    lines = "1 Jun 2025 received rent £900.00 from t\n2 Jul 2025 wrote off rent £500.00 from t\n"
    assert owed(lines, date(2025, 7, 3)) == [("1 Jul 2025", 400_00, 2)]
    back = lines + "3 Jul 2025 repaid rent £50.00 to t\n"
    assert owed(back, date(2025, 7, 3)) == [("1 Jul 2025", 450_00, 2)]
    told = "1 Jul 2025 received rent £900.00 from t for Jun 2025\n3 Jul 2025 repaid rent £50.00 to t\n"
    assert owed(told, date(2025, 7, 3)) == [("1 Jun 2025", 50_00, 32), ("1 Jul 2025", 900_00, 2)]


def test_money_for_fewer_days_is_placed_first() -> None:
    """June is paid by the sum for June, so the sum for June to August pays July and nothing is left for the arrears."""
    fields = FROM + "    arrears £350 on 1 Jun 2025\n"
    lines = (
        "1 Jul 2025 received rent £900.00 from t for 1 Jun 2025 to 31 Aug 2025\n"
        "5 Jul 2025 received rent £900.00 from t for Jun 2025\n"
    )
    assert owed(lines, date(2025, 7, 6), fields) == [("1 Jun 2025", 350_00, 35)]


ARREARS = FROM.replace("2025", "2021") + "    arrears £350 on 6 Apr 2025\n"


def test_arrears_carried_in_are_the_oldest() -> None:
    lines = "1 Mar 2025 received rent £900.00 from t\n8 Apr 2025 received rent £200.00 from t\n"

    assert owed(lines, date(2025, 4, 30), ARREARS) == [("6 Apr 2025", 150_00, 24)], "what came before is in them"
    assert owed(lines, date(2025, 5, 1), ARREARS)[1:] == [("1 May 2025", 900_00, 0)]


def test_arrears_told_again_that_do_not_follow() -> None:
    again = ARREARS + "    arrears £999 on 2 May 2025\n"
    lines = "8 Apr 2025 received rent £350.00 from t\n"

    assert of(book(again, lines), date(2025, 5, 5)).odds == ((date(2025, 5, 2), 999_00, 900_00),)
    assert of(book(again.replace("999", "900"), lines), date(2025, 5, 5)).odds == ()


def test_a_let_older_than_the_book_is_followed_from_its_first_rents() -> None:
    old = FROM.replace("2025", "2021")
    plain = of(book(old, "10 May 2025 received rent £900.00 from t\n"), date(2025, 5, 31))
    told = of(book(old, "10 Apr 2025 received rent £900.00 from t for Apr 2025\n"), date(2025, 4, 30))

    assert (plain.since, plain.total_due) == (date(2025, 4, 6), 900_00)
    assert (told.since, told.total_due, told.arrears) == (date(2025, 4, 1), 900_00, 0)


def test_a_let_that_has_not_begun() -> None:
    made = book()
    assert rent_account(made, made.tenancies["t"], (), (), date(2025, 5, 31)) is None


def test_rent_that_fits_no_let() -> None:
    made = book(FROM + "    ended 30 Jun 2025\n", "1 Sep 2025 received rent £900.00 at a\n")

    assert [r.pence for r in unplaced(made, "a")] == [900_00]
    assert unplaced(made, "b") == ()


@pytest.mark.parametrize(
    ("day", "begins"),
    [(date(2025, 6, 1), date(2025, 6, 1)), (date(2025, 6, 2), date(2025, 7, 1)), (date(2026, 5, 31), date(2026, 6, 1))],
)
def test_the_next_period(day: date, begins: date) -> None:
    assert next_period(book().tenancies["t"], day) == begins


money = st.lists(
    st.tuples(
        st.integers(0, 300), st.integers(1, 200_000), st.sampled_from(["received", "repaid", "wrote off"]),
        st.one_of(st.none(), st.sampled_from(["Jun 2025", "Jul 2025", "Sep 2025", "1 Jun 2025 to 31 Aug 2025"])),
    ),
    max_size=8,
)  # fmt: skip


def typed(after: int, pence: int, verb: str, days: str | None) -> str:
    day = day_words(date(2025, 5, 25) + timedelta(days=after))
    said = f" for {days}" if days else ""
    way = "to" if verb == "repaid" else "from"
    return f"{day} {verb} rent £{pence // 100:,}.{pence % 100:02d} {way} t{said}\n"


@settings(deadline=None)
@given(money, st.integers(1, 400), st.booleans(), st.randoms(), st.integers(1, 3))
def test_dues_and_receipts_partition_what_is_owed(lines, after, carried, shuffle, files) -> None:
    """What was carried in and fell due is what came and was lost, less what is ahead, with what is owed; no sum is
    owed twice or beyond itself; and the order of lines and files makes no difference."""
    fields = FROM + ("    arrears £350 on 10 Jun 2025\n" if carried else "")
    on = date(2025, 6, 1) + timedelta(days=after)
    texts = [typed(*line) for line in lines]
    found = of(book(fields, "".join(texts)), on)

    assert found.carried + found.total_due == found.total_came + found.total_lost - found.ahead + found.arrears
    dues = {d.day: d.pence for d in found.due}
    assert all(0 < o.pence <= (found.carried if o.carried else dues[o.day]) for o in found.owed)
    assert [o.day for o in found.owed] == sorted(o.day for o in found.owed)
    shuffle.shuffle(texts)
    other = of(book(fields, "".join(texts), files), on)
    assert (other.owed, other.ahead, other.arrears) == (found.owed, found.ahead, found.arrears)


# ── deposits ─────────────────────────────────────────────────────────────────────────────────────────────────────

DEPOSIT = FROM + "    deposit £1,000, received 28 May 2025, protected 2 Jun 2025\n"


def test_what_is_held_of_a_deposit() -> None:
    lines = "2 Sep 2025 kept deposit £180.00 from t for cleaning\n2 Sep 2025 repaid deposit £820.00 to t\n"
    made = book(DEPOSIT, lines)

    assert [deposit_account(made, made.tenancies["t"], day).held for day in
            (date(2025, 5, 27), date(2025, 5, 28), date(2025, 9, 2))] == [0, 1_000_00, 0]  # fmt: skip


def test_a_deposit_on_a_dated_line_is_not_counted_twice() -> None:
    made = book(DEPOSIT, "29 May 2025 received deposit £1,000.00 from t\n")
    found = deposit_account(made, made.tenancies["t"], date(2025, 6, 1))

    assert (found.held, found.received_on) == (1_000_00, date(2025, 5, 29))


def test_a_holding_deposit_goes_in_and_out() -> None:
    fields = DEPOSIT + "    holding deposit £200, received 20 May 2025\n"
    made = book(fields, '28 May 2025 repaid deposit £200.00 to t, because "the holding deposit"\n')

    assert deposit_account(made, made.tenancies["t"], date(2025, 6, 1)).held == 1_000_00


MINE = """\
landlord x "X"
property a "1 A Street"
    bought 2 Feb 2025 for £90,000, with tenant in
tenancy t at a
    tenants "T. Enant"
    periodic from 1 Jan 2023
    rent £700 a month
"""


def test_rent_of_before_the_house_was_mine_was_due_to_others() -> None:
    """Bought on 2 February 2025 with a tenant of 2023 in it: what is followed begins with the rent of March."""
    found = of(build({"a.book": f"{MINE}at a\n1 Mar 2025 received rent £700.00 from t\n"}), date(2025, 4, 20))

    assert [owed.day for owed in found.owed] == [date(2025, 4, 1)]
    assert found.due[0].day == date(2025, 3, 1) and found.total_due == 1400_00


def test_a_let_that_was_over_before_the_house_was_mine_owes_me_nothing() -> None:
    made = build({"a.book": f"{MINE}    ended 31 Jan 2025\nat a\n1 Mar 2025 paid cleaning £70.00\n"})

    assert rent_account(made, made.tenancies["t"], (), (), date(2025, 4, 20)) is None
    assert made.first_let("a") is None


def test_rent_after_the_sale_of_the_house_is_owed_to_others() -> None:
    """Sold in mid-let on 15 August: June, July, and of August 15 of 31 days, £900 * 15 / 31 = £435.48."""
    head = 'landlord x "X"\nproperty a "1 A Street"\n    sold 15 Aug 2025 for £90,000\n'
    made = build({"a.book": f'{head}tenancy t at a\n    tenants "T. Enant"\n{FROM}at a\n1 Jun 2025 noted "x"\n'})
    account = of(made, date(2026, 3, 1))
    assert [(day_words(o.day), o.pence) for o in account.owed] == [
        ("1 Jun 2025", 900_00), ("1 Jul 2025", 900_00), ("1 Aug 2025", 435_48)
    ]  # fmt: skip


def test_many_like_rents_in_a_row_are_told_at_once_and_add_up() -> None:
    """£2,900 pay all of June, July and August, and £200 of September; one in January is paid by name."""
    lines = "5 Sep 2025 received rent £2,900.00 from t\n2 Feb 2026 received rent £900.00 from t for Feb 2026\n"
    account = of(book(lines=lines), date(2026, 6, 10))
    runs = [(day_words(r.owed[0].day), day_words(r.owed[-1].day), len(r.owed), r.pence) for r in account.owed_runs]
    assert runs == [
        ("1 Sep 2025", "1 Sep 2025", 1, 700_00), ("1 Oct 2025", "1 Jan 2026", 4, 3_600_00),
        ("1 Mar 2026", "1 Jun 2026", 4, 3_600_00),
    ]  # fmt: skip
    assert sum(run.pence for run in account.owed_runs) == account.arrears
