"""The profit of a house: the year of the money beside the year for tax, days held and let, and all houses together."""

from __future__ import annotations

import re

import pytest

from ledger_tools.book.build import build
from ledger_tools.days import TaxYear
from ledger_tools.money import plain
from ledger_tools.problems import Level
from ledger_tools.render import json_form
from ledger_tools.render.profit import page
from ledger_tools.render.text import draw
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.months import months
from ledger_tools.statements.profit import HouseProfit, profit
from ledger_tools.statements.year_end import year_end


def house(name: str, first_let: str = "1 Jun 2015", more: str = "", let: str = "") -> str:
    fields = "".join(f"    {line}\n" for line in more.split("; ") if line)
    ends = f"    {let}\n" if let else ""
    return (
        f'property {name} "1 {name.upper()} Street"\n    bought 1 May 2015 for £100,000\n    as bought lettable\n'
        f"    price normal\n{fields}tenancy t-{name} at {name}\n"
        f'    tenants "T. {name.title()}"\n    periodic from {first_let}\n{ends}'
    )


def work(text: str) -> Accounts:
    book = build({"a.book": text})
    assert [p.headline for p in book.problems if p.level is Level.ERROR] == []
    return Accounts(book)


def results(worked: Accounts, name: str, year: int) -> tuple[str, str]:
    """What was left over in money and for tax."""
    found = profit(worked, name, TaxYear(year)).result
    return plain(found.money.pence), plain(found.tax.pence)


def drawn(found: HouseProfit, lines: bool = False) -> str:
    return draw(page([found], "", lines), lines)


X = 'landlord x "X"\n'


@pytest.mark.parametrize("basis", ["cash", "accruals"])
def test_what_was_paid_before_the_first_let_is_money_then_and_counts_for_tax_later(basis: str) -> None:
    text = f'{X}    accounting {basis}\n{house("a", "1 May 2025")}1 Dec 2024 repaired tap £100.00 by "P", worn out\n'
    worked = work(text)

    assert results(worked, "a", 2024) == ("-100.00", "0.00")
    assert results(worked, "a", 2025) == ("0.00", "-100.00")


def test_a_bill_is_money_when_paid_and_counts_for_tax_by_the_owner_s_basis() -> None:
    lines = '1 Mar 2025 repaired tap £100.00 by "P", worn out, due 1 Apr 2025, paid 6 Apr 2025\n'
    cash, accruals = work(X + house("a") + lines), work(f"{X}    accounting accruals\n{house('a')}{lines}")

    assert [results(cash, "a", y) for y in (2024, 2025)] == [("0.00", "0.00"), ("-100.00", "-100.00")]
    assert [results(accruals, "a", y) for y in (2024, 2025)] == [("0.00", "-100.00"), ("-100.00", "0.00")]


def test_the_last_day_of_a_year_and_the_first_of_the_next() -> None:
    worked = work(
        f"{X}{house('a')}5 Apr 2025 received rent £500.00 from t-a\n6 Apr 2025 received rent £600.00 from t-a\n"
    )

    assert [results(worked, "a", y)[0] for y in (2024, 2025)] == ["500.00", "600.00"]


# ── days ─────────────────────────────────────────────────────────────────────────────────────────────────────────


def days(more: str, let: str = "", year: int = 2025, first_let: str = "1 Jun 2015") -> tuple[int, int]:
    statement = profit(work(X + house("a", first_let, more, let)), "a", TaxYear(year))
    return statement.days_held, statement.days_let


@pytest.mark.parametrize(
    "more, let, year, found",
    [
        ("", "", 2025, (365, 365)),
        ("", "", 2023, (366, 366)),  # 29 February 2024
        ("", "", 2014, (0, 0)),
        ("sold 30 Jun 2025 for £150,000", "", 2025, (86, 86)),  # 6 April to 30 June, and a let that runs on
        ("sold 6 Apr 2025 for £150,000", "", 2025, (1, 1)),
        ("sold 5 Apr 2025 for £150,000", "", 2025, (0, 0)),
        ("sold 30 Jun 2025 for £150,000", "ended 30 Apr 2025", 2025, (86, 25)),
        ("", "ended 6 Apr 2025", 2025, (365, 1)),
        ("", "ended 5 Apr 2025", 2025, (365, 0)),
    ],
)
def test_days_held_and_let_are_counted_within_the_year(more: str, let: str, year: int, found: tuple[int, int]) -> None:
    assert days(more, let, year) == found


def test_a_house_bought_within_the_year_is_held_from_that_day() -> None:
    """1 June 2015 to 5 April 2016, a leap year; bought on 1 May."""
    assert days("", year=2015) == (341, 310)


def test_days_let_to_two_tenancies_at_once_count_once_and_gaps_do_not() -> None:
    room = 'tenancy t{0} at a\n    tenants "T. {0}"\n    periodic from {1}\n    rent £200 a month\n    room {2}\n{3}'
    text = (
        X + house("a", let="ended 30 Apr 2025") + room.format("1", "1 Jun 2025", "attic", "    ended 10 Jun 2025\n")
        + room.format("2", "6 Jun 2025", "cellar", "    ended 15 Jun 2025\n")
    )  # fmt: skip

    assert profit(work(text), "a", TaxYear(2025)).days_let == 25 + 15


# ── all houses ───────────────────────────────────────────────────────────────────────────────────────────────────

PEOPLE = 'landlord x "X"\n    accounting accruals\nlandlord y "Y"\n    accounting cash\n'
THREE = PEOPLE + (
    house("a", more="owners x") + house("b", more="owners y") + house("c", more="owners x 50% and y 50%")
)  # fmt: skip
# Each house has rent, a bill of this year that is paid in the next, and one of the year before that is paid in this.
LINES = "".join(
    f"at {name}\n1 Jul 2025 received rent £{amount}.00 from t-{name}\n"
    f'1 Mar 2026 repaired tap £{amount // 10}.00 by "P", worn out, due 31 Mar 2026, paid 6 Apr 2026\n'
    f'1 Mar 2025 repaired door £{amount // 100}.00 by "P", worn out, due 31 Mar 2025, paid 6 Apr 2025\n'
    for name, amount in (("a", 1_000), ("b", 2_000), ("c", 4_000))
)


def test_a_house_counts_by_what_is_owed_only_where_all_its_owners_chose_that() -> None:
    worked = work(THREE + LINES)

    assert results(worked, "a", 2025) == ("990.00", "900.00")  # accruals: the bill of March 2026
    assert results(worked, "b", 2025) == ("1980.00", "1980.00")  # payment: the bill paid in April 2025
    assert results(worked, "c", 2025) == ("3960.00", "3960.00")


@pytest.mark.parametrize("year", [2024, 2025, 2026])
def test_houses_add_up_whatever_their_owners_bases(year: int) -> None:
    worked = work(THREE + LINES)
    each = [profit(worked, name, TaxYear(year)) for name in "abc"]
    whole = profit(worked, "", TaxYear(year))

    def sums(statement: HouseProfit) -> dict[str, tuple[int, int]]:
        lines = (*statement.income, *statement.expenses, statement.finance, statement.works, statement.result)
        return {line.slug: (line.money.pence, line.tax.pence) for line in lines}

    told = [sums(s) for s in each]
    for slug, (money, tax) in sums(whole).items():
        assert money == sum(t.get(slug, (0, 0))[0] for t in told), slug
        assert tax == sum(t.get(slug, (0, 0))[1] for t in told), slug
    assert (whole.days_held, whole.days_let) == (sum(s.days_held for s in each), sum(s.days_let for s in each))
    assert (whole.house, whole.full) == ("", "All houses")


def test_improvements_and_open_sums_are_money_and_no_tax() -> None:
    worked = work(
        f'{X}{house("a")}1 Jul 2025 installed extension £900.00 by "P"\n2 Jul 2025 paid carpet £60.00 to "C"\n'
    )
    statement = profit(worked, "a", TaxYear(2025))

    assert (statement.works.money.pence, statement.works.tax.pence) == (90_000, 0)
    assert (statement.open.money.pence, statement.open.tax.pence) == (6_000, 0)
    assert results(worked, "a", 2025) == ("-960.00", "0.00")
    assert [f.slug for f in statement.below] == []


def test_interest_is_money_left_over_and_no_cost_for_tax() -> None:
    text = f"{X}{house('a')}loan n on a\n1 Jul 2025 paid loan interest £100.00 to n\n"
    worked = work(text)
    statement = profit(worked, "a", TaxYear(2025))

    assert (statement.finance.money.pence, statement.finance.tax.pence) == (10_000, 0)
    assert results(worked, "a", 2025) == ("-100.00", "0.00")


def test_purchase_and_deposits_stand_below_the_result() -> None:
    worked = work(f"{X}{house('a')}1 Jun 2015 received deposit £500.00 from t-a\n")
    statement = profit(worked, "a", TaxYear(2015))

    assert {f.slug: f.pence for f in statement.below} == {"purchase": -10_000_000, "tenants' deposits": 50_000}
    assert results(worked, "a", 2015) == ("0.00", "0.00")


# ── what waits, what only tax knows, what comes to nil ───────────────────────────────────────────────────────────


def test_what_waits_for_a_first_letting_stands_apart_from_open_questions() -> None:
    never = 'property b "2 B Street"\n    bought 1 May 2025 for £100,000\n    as bought lettable\n    price normal\n'
    worked = work(f'{X}{never}1 Dec 2025 repaired tap £100.00 by "P" at b, worn out\n')
    found = profit(worked, "b", TaxYear(2025))

    assert (found.waiting.money.pence, found.open.money.pence) == (100_00, 0)
    assert results(worked, "b", 2025) == ("-100.00", "0.00")
    assert "Waiting for the first letting" in drawn(found) and "Open questions" not in drawn(found)


def test_miles_move_no_money() -> None:
    worked = work(f'{X}{house("a")}1 Jul 2025 drove 100 miles "merchant and back" at a\n')

    assert results(worked, "a", 2025)[0] == "0.00" and results(worked, "a", 2025)[1] != "0.00"
    assert re.search(r"Travel +- +£", drawn(profit(worked, "a", TaxYear(2025))))


def test_a_row_of_nil_is_shown_only_with_its_lines() -> None:
    lines = "1 Jul 2025 received rent £500.00 from t-a\n9 Jul 2025 repaid rent £500.00 to t-a\n"
    found = profit(work(X + house("a") + lines), "a", TaxYear(2025))

    assert "Rents" not in drawn(found) and "Rents" in drawn(found, lines=True)
    assert json_form.profit([found])["houses"][0]["income"][0]["slug"] == "rent"


def test_works_that_the_purchase_holds_stand_apart_from_it() -> None:
    """A house that could not be let as bought: the roof finished the purchase; the survey is a fee of buying."""
    text = house("a", "1 Sep 2015").replace("as bought lettable", "as bought not lettable")
    lines = (
        '1 May 2015 paid conveyancing £900.00 to "S"\n'
        '1 Jul 2015 replaced roof £7,850.00 by "R", modern equivalent, worn out\n'
    )
    below = {f.label: plain(f.pence) for f in profit(work(f'landlord x "X"\n{text}{lines}'), "a", TaxYear(2015)).below}

    assert below == {"Purchase": "-100900.00", "Purchase, works that finished it": "-7850.00"}


MARCH = """1 Apr 2025 received rent £1.00 from t-a
5 Apr 2025 received rent £2.00 from t-a
6 Apr 2025 received rent £4.00 from t-a
31 Mar 2026 received rent £8.00 from t-a
1 Apr 2026 received rent £16.00 from t-a
"""


def test_the_year_of_a_house_goes_by_the_accounts_of_its_owners() -> None:
    """ITTOIA 2005 s. 275B: with accounts to 31 March the days from 1 April 2025 to 31 March 2026 stand for 2025-26, in
    money, for tax and of the days let; by the pages of the year too."""
    x = X + "    accounts to 31 march from 2024-25\n"
    march, april = work(x + house("a") + MARCH), work(X + house("a") + MARCH)

    assert results(march, "a", 2025) == results(march, "", 2025) == ("15.00", "15.00")
    assert results(april, "a", 2025) == ("28.00", "28.00")
    (owner,) = year_end(march, TaxYear(2025)).owners
    assert next(b.figure.pence for b in owner.boxes if b.number == "20") == 15_00
    said = drawn(profit(march, "a", TaxYear(2025)))
    assert "The days from 1 Apr 2025 to 31 Mar 2026 stand for 2025-26" in said
    assert "stand for" not in drawn(profit(april, "a", TaxYear(2025)))
    assert [m.period.first.isoformat() for m in months(march, profit(march, "a", TaxYear(2025)))][::11] == [
        "2025-04-01", "2026-03-01",
    ]  # fmt: skip


def test_where_owners_accounts_end_on_different_days_the_page_keeps_to_the_tax_year_and_says_so() -> None:
    people = X + '    accounts to 31 march from 2024-25\nlandlord y "Yara"\n'
    made = work(people + house("a", more="owners x 50% and y 50%") + MARCH)

    assert results(made, "a", 2025) == ("28.00", "28.00")
    assert "For X other days stand for 2025-26" in drawn(profit(made, "a", TaxYear(2025)))
