"""Rents, deposits and what is asked of tenants. Houses are invented; published cases name their source."""

from __future__ import annotations

from datetime import date

import pytest

from ledger_tools.book.build import build
from ledger_tools.days import TaxYear
from ledger_tools.problems import Level
from ledger_tools.render.rents import text
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.deposit_rules import cap
from ledger_tools.statements.profit import profit
from ledger_tools.statements.rents import HouseRents, due_and_came, rents
from ledger_tools.verdicts.catalogue import catalogue
from ledger_tools.verdicts.lives import fair, lives, months_old

LET = 'tenancy t at a\n    tenants "T. Enant"\n    periodic from 1 Jun 2021\n'


def book(fields: str, lines: str = "", nation: str = "england") -> Accounts:
    house = f'landlord x "X"\nproperty a "1 A Street"\n    nation {nation}\n    rooms hall\n'
    made = build({"a.book": house + LET + fields + lines})
    assert [p.headline for p in made.problems if p.level is Level.ERROR] == []
    return Accounts(made)


def shown(fields: str, lines: str = "", on: date = date(2025, 6, 30), nation: str = "england") -> HouseRents:
    return rents(book(fields, lines, nation), "a", on)


# ── deposits ─────────────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(
    ("rent", "nation", "most"),
    [
        ("£950 a month", "england", 1_096_15),  # 11,400 x 5 / 52, down to the penny
        ("£4,200 a month", "england", 5_815_38),  # 50,400 a year: six weeks
        ("£50,000 a year", "england", 5_769_23),  # exactly 50,000: six weeks
        ("£200 a week", "england", 1_000_00),
        ("£400 every 4 weeks", "england", 500_00),
        ("£2,850 a quarter", "england", 1_096_15),
        ("£950 a month", "scotland", 1_900_00),  # two months (from memory)
        ("£950 a month", "northern ireland", 950_00),  # one month (from memory)
        ("£950 a month", "wales", None),
    ],
)
def test_the_most_a_deposit_may_be(rent: str, nation: str, most: int | None) -> None:
    """Tenant Fees Act 2019, by the pages of the deposit schemes."""
    let = book(f"    rent {rent}\n").book.tenancies["t"]
    found = cap(let, nation, date(2025, 6, 1))

    assert (found.pence if found else None) == most


def test_notes_of_a_deposit() -> None:
    fields = "    rent £950 a month\n    deposit £1,100, received 28 May 2021, protected 28 Jun 2021\n"
    over, late = shown(fields).lets[0].deposit_notes

    assert "£1,096.15 at most in England" in over and "this is £3.85 more" in over
    assert late == "It was protected 2 days after 26 Jun 2021, the last day for it."


def test_a_deposit_kept_too_long_or_never_protected() -> None:
    fields = "    rent £950 a month\n    deposit £1,000, received 28 May 2021\n    ended 31 May 2025\n"
    open_, held = shown(fields).lets[0].deposit_notes

    assert "does not tell that it was protected" in open_ and "26 Jun 2021" in open_
    assert "The let ended on 31 May 2025 and £1,000.00 is still held" in held


# ── what age leaves ──────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(
    ("months", "left"), [(0, 500_00), (48, 300_00), (49, 295_83), (120, 0), (200, 0)]
)  # fmt: skip
def test_fair_wear_of_a_carpet(months: int, left: int) -> None:
    """£500, ten years, spoilt after four: 500 / 10 x 6 = £300, worked by the way that agents' guides publish."""
    assert fair(500_00, 10, months) == left


def test_age_in_whole_months() -> None:
    assert months_old(date(2021, 6, 2), date(2025, 6, 1)) == 47
    assert months_old(date(2021, 6, 2), date(2025, 6, 2)) == 48
    assert months_old(date(2021, 6, 2), date(2020, 1, 1)) == 0


def test_lives_are_of_things_the_catalogue_knows() -> None:
    known = [catalogue().find(name, "replaced") for name in lives()]

    assert [thing.name for thing in known if thing] == list(lives())
    assert all(isinstance(years, int) and 1 <= years <= 25 for years in lives().values())


CARPET = '2 Jun 2021 installed carpet in hall £500.00 by "Floor Hall", none before\n'
KEPT = "    rent £950 a month\n    deposit £1,000, received 28 May 2021, protected 1 Jun 2021\n    ended 2 Jun 2025\n"


def test_what_was_kept_beside_what_age_leaves() -> None:
    lines = CARPET + "9 Jun 2025 kept deposit £320.00 from t for carpet\n"
    (asked,) = shown(KEPT, lines).lets[0].asked

    assert asked.kept and asked.pence == 320_00
    assert asked.wear and (asked.wear.months, asked.wear.left) == (48, 300_00)
    assert asked.wear.source == "a.book:11"


def test_the_new_one_is_not_taken_for_the_spoilt_one() -> None:
    lines = (
        CARPET + '3 Jun 2025 replaced carpet in hall £640.00 by "Floor Hall", like for like, used by tenant\n'
        "9 Jun 2025 kept deposit £300.00 from t for carpet\n"
    )
    (asked,) = shown(KEPT, lines).lets[0].asked

    assert asked.wear and (asked.wear.price, asked.wear.left) == (500_00, 300_00)


def test_a_thing_spoilt_and_replaced_while_the_let_runs() -> None:
    """£500, bought 2 June 2021, spoilt by March 2025: 45 months, so 75 of 120 are left: £312.50."""
    lines = (
        CARPET + '7 Mar 2025 replaced carpet in hall £640.00 by "Floor Hall", like for like, used by tenant\n'
        "9 Mar 2025 recharged carpet £310.00 to t, due 31 Mar 2025\n"
    )
    (asked,) = shown("    rent £950 a month\n", lines).lets[0].asked

    assert asked.wear and (asked.wear.price, asked.wear.months, asked.wear.left) == (500_00, 45, 312_50)


def test_a_thing_whose_age_the_book_does_not_tell() -> None:
    (asked,) = shown(KEPT, "9 Jun 2025 kept deposit £300.00 from t for carpet\n").lets[0].asked
    (other,) = shown(KEPT, "9 Jun 2025 kept deposit £90.00 from t for cleaning\n").lets[0].asked

    assert asked.wear is None and "does not tell" in asked.why
    assert other.wear is None and other.why == ""


def test_recharges() -> None:
    lines = (
        "1 Mar 2025 recharged lock £60.00 to t, due 31 Mar 2025\n5 Mar 2025 received recharge £25.00 from t for lock\n"
    )
    (before,) = shown("    rent £950 a month\n", lines, date(2025, 3, 4)).lets[0].asked
    (after,) = shown("    rent £950 a month\n", lines).lets[0].asked

    assert (before.pence, before.paid, after.paid) == (60_00, 0, 25_00)


# ── which lets, and the year ─────────────────────────────────────────────────────────────────────────────────────


def test_a_let_long_over_is_shown_only_while_something_is_open() -> None:
    done = "    rent £950 a month\n    ended 30 Jun 2021\n"
    paid = "1 Jun 2021 received rent £950.00 from t\n"

    assert [made.let.name for made in shown(done, paid).lets] == []
    assert [made.let.name for made in shown(done, paid, date(2022, 6, 30)).lets] == ["t"]
    assert [made.let.name for made in shown(done, "1 Jun 2021 received rent £900.00 from t\n").lets] == ["t"]


def test_a_year_of_rent_in_the_profit_statement() -> None:
    """Eleven firsts of a month from 1 June 2021 to 1 April 2022: £10,450 fell due; by 1 July two of them."""
    made = book("    rent £950 a month\n", "1 Jul 2021 received rent £8,000.00 from t\n")
    year = TaxYear(2021)
    days = year.period

    assert due_and_came(made.book, "a", days) == due_and_came(made.book, "", days) == (10_450_00, 8_000_00)
    assert due_and_came(made.book, "a", days, date(2021, 7, 1)) == (1_900_00, 8_000_00)
    found = profit(made, "a", year)
    assert (found.rent_due, found.rent_came) == (10_450_00, 8_000_00)
    assert found.income[0].money.pence == 8_000_00


def test_wear_is_spoken_of_only_where_something_was_asked_of_a_tenant() -> None:
    told = "    deposit £500, received 1 Jun 2021, protected 2 Jun 2021\n"
    bare = text([shown(told)])
    kept = text([shown(told, '1 Jun 2025 kept deposit £100.00 from t for carpet in hall, because "burnt"\n')])

    assert "Money told for certain days" in bare and "spoilt" not in bare
    assert "What age leaves of a spoilt thing" in kept


@pytest.mark.parametrize(("on", "said"), [(date(2025, 7, 1), False), (date(2025, 9, 1), True)])
def test_rent_owed_for_days_the_book_has_not_reached_is_said_to_be_so(on: date, said: bool) -> None:
    fields, lines = "    rent £600 a month from 1 Jun 2025\n", "at a\n1 Jun 2025 received rent £600.00 from t\n"
    page = text([shown(fields, lines, on)])

    assert ("The last line about a is of 1 Jun 2025" in page) is said


def test_a_house_whose_rent_all_came_says_nothing_of_its_last_line() -> None:
    fields, lines = "    rent £600 a month\n    ended 30 Jun 2021\n", "at a\n1 Jun 2021 received rent £600.00 from t\n"

    assert "The last line" not in text([shown(fields, lines, date(2022, 1, 1))])


def test_what_was_kept_of_a_deposit_for_rent_pays_rent() -> None:
    fields = "    rent £600 a month\n    deposit £650, received 1 Jun 2021\n    ended 31 Jul 2021\n"
    lines = "at a\n1 Jun 2021 received rent £600.00 from t\n5 Aug 2021 kept deposit £400.00 from t{}\n"
    on = date(2021, 9, 1)

    def owed(what: str) -> int:
        (made,) = shown(fields, lines.format(what), on).lets
        return made.rent.arrears if made.rent else -1

    assert owed(" for rent") == 200_00
    assert owed(" for carpet") == owed(', because "dirty"') == 600_00
