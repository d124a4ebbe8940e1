"""Which row every payment and every bill makes: the day owed, the day paid, the house; and what ways of accounting
make of it."""

from __future__ import annotations

from datetime import date

import pytest

from ledger_tools.days import TaxYear
from ledger_tools.statements.let_in import let_in
from tests.ledger.books import HOUSE, SECOND, balance, pages, told, work

BOTH = pytest.mark.parametrize("basis", ["cash", "accruals"])

# ── papers ───────────────────────────────────────────────────────────────────────────────────────────────────────


def test_bills_of_two_firms_with_one_number_keep_their_own_payments() -> None:
    worked = work(
        "1 Jun 2025 repaired tap £100.00 by pell, worn out, number 1\n"
        '2 Jun 2025 repaired door £300.00 by "Quill", worn out, number 1\n'
        '1 Jul 2025 paid £300.00 to "Quill" against invoice 1\n'
        "1 Aug 2025 paid £100.00 to pell against invoice 1\n"
    )

    assert told(worked) == [
        "a tap 100.00 owed 2025-06-01 paid 2025-08-01",
        "a door 300.00 owed 2025-06-02 paid 2025-07-01",
    ]


def test_a_payment_that_names_nobody_goes_by_the_number() -> None:
    worked = work(
        "1 Jun 2025 repaired tap £100.00 by pell, worn out, number 1\n1 Jul 2025 paid £100.00 against invoice 1\n"
    )

    assert told(worked) == ["a tap 100.00 owed 2025-06-01 paid 2025-07-01"]


QUOTED = "1 May 2025 quoted roof £1,000.00 by pell, number 7\n"


def test_a_payment_against_a_quote_is_taken_up_by_its_bills_in_turn() -> None:
    worked = work(
        f"{QUOTED}1 Jun 2025 paid £600.00 to pell against quote 7\n"
        "1 Jul 2025 invoiced £500.00 by pell against quote 7, number 1\n    repaired roof £500.00, worn out\n"
        "1 Aug 2025 invoiced £500.00 by pell against quote 7, number 2\n    repaired gutters £500.00, worn out\n"
    )

    assert told(worked) == [
        "a roof 500.00 owed 2025-07-01 paid 2025-06-01",
        "a gutters 100.00 owed 2025-08-01 paid 2025-06-01",
        "a gutters 400.00 owed 2025-08-01 paid -",
    ]
    assert balance(worked) == {"repairs": "1000.00", "money": "-600.00", "owed to others": "-400.00"}


def test_money_paid_on_a_quote_without_a_bill_is_paid_ahead_and_no_cost() -> None:
    lines = f"{QUOTED}1 Jun 2025 paid £500.00 to pell against quote 7\n"
    worked = work(lines)

    assert [(r.house, r.pence, r.account) for r in worked.rows] == [("a", 50_000, "paid ahead")]
    assert worked.balance["paid ahead"] == 50_000
    assert balance(worked) == {"paid ahead": "500.00", "money": "-500.00"}
    assert "25" not in pages(lines, 2025, "cash") and "25" not in pages(lines, 2025, "accruals")


def test_money_paid_ahead_is_shared_by_the_houses_of_the_payment() -> None:
    worked = work(
        f"at a\n{QUOTED}1 Jun 2025 paid £500.00 to pell across a 70% and b 30% against quote 7\n", HOUSE + SECOND
    )

    assert [(r.house, r.pence) for r in worked.rows] == [("a", 35_000), ("b", 15_000)]
    assert worked.balance["paid ahead"] == 50_000


@pytest.mark.parametrize("basis, box_25", [("cash", "60.00"), ("accruals", "100.00")])
def test_a_works_line_with_a_number_is_a_bill_once_a_payment_names_it(basis: str, box_25: str) -> None:
    line = "1 Jun 2025 repaired tap £100.00 by pell, worn out, number 1\n"
    paid = "1 Jul 2025 paid £60.00 to pell against invoice 1\n"

    assert told(work(line + paid)) == [
        "a tap 60.00 owed 2025-06-01 paid 2025-07-01", "a tap 40.00 owed 2025-06-01 paid -",
    ]  # fmt: skip
    assert pages(line + paid, 2025, basis)["25"] == box_25
    assert told(work(line)) == ["a tap 100.00 owed 2025-06-01 paid 2025-06-01"]


def test_a_line_that_is_due_is_not_paid_until_it_says_so() -> None:
    due = "1 Mar 2026 repaired tap £100.00 by pell, worn out, due 31 Mar 2026"

    assert told(work(f"{due}\n")) == ["a tap 100.00 owed 2026-03-01 paid -"]
    assert told(work(f"{due}, paid 6 Apr 2026\n")) == ["a tap 100.00 owed 2026-03-01 paid 2026-04-06"]
    assert told(work(f"{due}, paid 6 Apr 2026 £30.00\n")) == [
        "a tap 30.00 owed 2026-03-01 paid 2026-04-06", "a tap 70.00 owed 2026-03-01 paid -",
    ]  # fmt: skip


# ── before the first letting ─────────────────────────────────────────────────────────────────────────────────────

NOT_YET = HOUSE.replace("1 Jun 2015", "1 May 2025")


@BOTH
def test_what_was_spent_before_the_first_letting_counts_on_its_day(basis: str) -> None:
    """ITTOIA 2005 s. 57: a cost before the business began is treated as met on the day it began."""
    repair = "1 Dec 2024 repaired tap £100.00 by pell, worn out\n"
    (row,) = work(repair, NOT_YET).rows

    assert (row.owed, row.paid, row.counts) == (date(2024, 12, 1), date(2024, 12, 1), date(2025, 5, 1))
    assert "25" not in pages(repair, 2024, basis, NOT_YET)
    assert pages(repair, 2025, basis, NOT_YET)["25"] == "100.00"


def advance(billed: str) -> str:
    """An advance on 1 March 2025, and the bill."""
    return (
        f"{QUOTED.replace('1 May', '1 Feb')}1 Mar 2025 paid £600.00 to pell against quote 7\n"
        f"{billed} 2025 invoiced £1,000.00 by pell against quote 7, number 1, paid 20 May 2025 £400.00\n"
        "    repaired roof £1,000.00, worn out\n"
    )


@pytest.mark.parametrize(
    "basis, billed",
    [("cash", "20 Apr"), ("accruals", "20 Apr"), ("accruals", "10 May"), ("cash", "10 May")],
)
def test_an_advance_before_the_first_letting_counts_on_its_day_too(basis: str, billed: str) -> None:
    """ITTOIA 2005 s. 57; the bill may come before or after the letting begins."""
    assert "25" not in pages(advance(billed), 2024, basis, NOT_YET)
    assert pages(advance(billed), 2025, basis, NOT_YET)["25"] == "1000.00"


@pytest.mark.parametrize("basis, before, after", [("cash", "600.00", "400.00"), ("accruals", None, "1000.00")])
def test_an_advance_while_letting_counts_when_it_was_paid(basis: str, before: str | None, after: str) -> None:
    assert pages(advance("10 May"), 2024, basis).get("25") == before
    assert pages(advance("10 May"), 2025, basis)["25"] == after


# ── what tenants pay towards costs ───────────────────────────────────────────────────────────────────────────────


@BOTH
@pytest.mark.parametrize(
    "billed, came",
    [
        ("carpet £60.00 to t", "received recharge £60.00 from t for carpet"),
        ("carpet £60.00 to t", "received £60.00 from t for carpet"),
        ("£60.00 to t for carpet", "received recharge £60.00 from t for carpet"),
        ("£60.00 to t for carpet", "received £60.00 from t for carpet"),
        ("£60.00 to t", "received recharge £60.00 from t"),
        ("£60.00 to t", "received recharge £60.00 from t for carpet"),
        ("carpet £60.00 to t, number R1", "received £60.00 from t against invoice R1"),
    ],
)
def test_a_recharge_and_the_money_for_it_count_once(billed: str, came: str, basis: str) -> None:
    lines = f"1 Jul 2025 recharged {billed}\n1 Aug 2025 {came}\n"

    assert pages(lines, 2025, basis)["20"] == "60.00"
    assert balance(work(lines)) == {"other_income": "-60.00", "money": "60.00"}


@BOTH
def test_rent_does_not_pay_a_recharge(basis: str) -> None:
    lines = "1 Jul 2025 recharged carpet £60.00 to t\n1 Aug 2025 received rent £500.00 from t\n"

    assert pages(lines, 2025, basis)["20"] == {"cash": "500.00", "accruals": "560.00"}[basis]
    assert balance(work(lines))["owed by others"] == "60.00"


def test_a_recharge_by_number_is_paid_on_the_day_of_the_money() -> None:
    worked = work(
        "1 Apr 2026 recharged carpet £60.00 to t, number R1\n6 Apr 2026 received £60.00 from t against invoice R1\n"
    )

    assert told(worked) == ["a carpet 60.00 owed 2026-04-01 paid 2026-04-06"]


# ── bills that are paid by instalments ───────────────────────────────────────────────────────────────────────────

BILLED = "2 Mar 2026 billed council tax £180.00 by wold\n"
INSTALMENTS = [
    # before the bill, on its day, after it and in the next tax year
    ("1 Mar 2026 paid council tax £50.00 to wold\n", "50.00", "0.00"),
    ("2 Mar 2026 paid council tax £20.00 to wold\n", "20.00", "0.00"),
    ("9 Mar 2026 paid council tax £30.00 to wold\n", "30.00", "0.00"),
    ("9 Apr 2026 paid council tax £40.00 to wold\n", "0.00", "40.00"),
]


@pytest.mark.parametrize("instalment, this_year, next_year", INSTALMENTS)
@pytest.mark.parametrize("bill_first", [True, False])
def test_an_instalment_counts_by_payment_and_the_bill_by_what_is_owed(
    instalment: str, this_year: str, next_year: str, bill_first: bool
) -> None:
    lines = BILLED + instalment if bill_first else instalment + BILLED
    paid = float(this_year) + float(next_year)

    assert pages(lines, 2025, "cash").get("24", "0.00") == this_year
    assert pages(lines, 2026, "cash").get("24", "0.00") == next_year
    assert pages(lines, 2025, "accruals")["24"] == "180.00"
    assert "24" not in pages(lines, 2026, "accruals")
    assert balance(work(lines)) == {
        "premises": "180.00", "money": f"-{paid:.2f}", "owed to others": f"-{180 - paid:.2f}",
    }  # fmt: skip


def test_what_is_paid_beyond_the_bill_is_a_cost_of_its_own_day() -> None:
    lines = BILLED + "9 Mar 2026 paid council tax £170.00 to wold\n9 Apr 2026 paid council tax £30.00 to wold\n"

    assert told(work(lines)) == [
        "a council tax 180.00 owed 2026-03-02 paid -",
        "a council tax 170.00 owed - paid 2026-03-09",
        "a council tax 10.00 owed - paid 2026-04-09",
        "a council tax 20.00 owed 2026-04-09 paid 2026-04-09",
    ]
    assert (pages(lines, 2025, "cash")["24"], pages(lines, 2026, "cash")["24"]) == ("170.00", "30.00")
    assert (pages(lines, 2025, "accruals")["24"], pages(lines, 2026, "accruals")["24"]) == ("180.00", "20.00")
    assert "owed to others" not in balance(work(lines))


def test_the_bills_of_two_houses_by_one_council_are_paid_each_by_its_own_instalments() -> None:
    worked = work(
        "2 Mar 2026 billed council tax £180.00 by wold at a\n2 Mar 2026 billed council tax £90.00 by wold at b\n"
        "9 Mar 2026 paid council tax £100.00 to wold at b\n",
        HOUSE + SECOND,
    )

    assert told(worked) == [
        "a council tax 180.00 owed 2026-03-02 paid -",
        "b council tax 90.00 owed 2026-03-02 paid -",
        "b council tax 90.00 owed - paid 2026-03-09",
        "b council tax 10.00 owed 2026-03-09 paid 2026-03-09",
    ]
    assert balance(worked)["owed to others"] == "-180.00"


def test_another_party_s_money_settles_no_bill() -> None:
    worked = work(BILLED + '9 Mar 2026 paid council tax £30.00 to "Another Council"\n')

    assert balance(worked) == {"premises": "210.00", "money": "-30.00", "owed to others": "-180.00"}


def test_a_bill_by_lines_is_paid_line_by_line() -> None:
    lines = (
        "2 Mar 2026 billed £200.00 by wold\n    charged council tax £150.00\n    charged water £50.00\n"
        "9 Mar 2026 paid water £60.00 to wold\n9 Mar 2026 paid council tax £100.00 to wold\n"
    )

    assert told(work(lines)) == [
        "a council tax 150.00 owed 2026-03-02 paid -",
        "a water 50.00 owed 2026-03-02 paid -",
        "a water 50.00 owed - paid 2026-03-09",
        "a water 10.00 owed 2026-03-09 paid 2026-03-09",
        "a council tax 100.00 owed - paid 2026-03-09",
    ]
    assert pages(lines, 2025, "cash")["24"] == "160.00"
    assert pages(lines, 2025, "accruals")["24"] == "210.00"
    assert balance(work(lines))["owed to others"] == "-50.00"


@pytest.mark.parametrize(
    "told_paid", [", number C9\n9 Mar 2026 paid £80.00 to wold against invoice C9\n", ", paid 9 Mar 2026 £80.00\n"]
)
def test_a_bill_paid_in_part_by_its_paper_leaves_the_rest_for_instalments(told_paid: str) -> None:
    lines = f"2 Mar 2026 billed council tax £200.00 by wold{told_paid}9 Apr 2026 paid council tax £130.00 to wold\n"

    assert told(work(lines)) == [
        "a council tax 80.00 owed 2026-03-02 paid 2026-03-09",
        "a council tax 120.00 owed 2026-03-02 paid -",
        "a council tax 120.00 owed - paid 2026-04-09",
        "a council tax 10.00 owed 2026-04-09 paid 2026-04-09",
    ]
    assert (pages(lines, 2025, "cash")["24"], pages(lines, 2026, "cash")["24"]) == ("80.00", "130.00")
    assert (pages(lines, 2025, "accruals")["24"], pages(lines, 2026, "accruals")["24"]) == ("200.00", "10.00")
    assert "owed to others" not in balance(work(lines))


# ── houses ───────────────────────────────────────────────────────────────────────────────────────────────────────


def test_the_jobs_of_one_bill_go_to_their_own_houses_with_their_part_of_what_is_shared() -> None:
    worked = work(
        "at a\n1 Jun 2025 invoiced £400.00 by pell, number 3\n    repaired roof £100.00 at a, worn out\n"
        "    repaired door £200.00 at b, worn out\n    hired scaffold £100.00, shared\n"
        "1 Jul 2025 paid £120.00 to pell against invoice 3\n",
        HOUSE + SECOND,
    )

    assert told(worked) == [
        "a roof 40.00 owed 2025-06-01 paid 2025-07-01",
        "b door 80.00 owed 2025-06-01 paid 2025-07-01",
        "a roof 93.33 owed 2025-06-01 paid -",
        "b door 186.67 owed 2025-06-01 paid -",
    ]


def test_shared_lines_of_an_agent_s_statement_are_borne_by_costs_only() -> None:
    worked = work(
        "1 Jun 2025 banked £400.00 from quay\n    received rent £500.00 from t\n    repaired tap £60.00, worn out\n"
        "    paid management fee £20.00\n    hired skip £20.00, shared\n"
    )

    assert [(r.thing, r.way, r.pence) for r in worked.rows] == [
        ("rent", "in", 50_000), ("tap", "out", 7_500), ("management fee", "out", 2_500),
    ]  # fmt: skip


def test_a_bill_that_is_shared_with_nothing_keeps_its_lines() -> None:
    worked = work(
        "1 Jun 2025 invoiced £100.00 by pell\n    hired scaffold £60.00, shared\n    hired skip £40.00, shared\n"
    )

    assert [(r.thing, r.pence) for r in worked.rows] == [("scaffold", 6_000), ("skip", 4_000)]


# ── agents ───────────────────────────────────────────────────────────────────────────────────────────────────────

STATEMENT = "1 Apr 2026 banked £440.00 from quay{}\n    received rent £500.00 from t\n    paid management fee £60.00\n"


@pytest.mark.parametrize(
    "facts", ["", ", due 20 Apr 2026", ", paid 21 Apr 2026", ", due 20 Apr 2026, paid 21 Apr 2026"]
)
def test_a_statement_banked_is_gross_rent_and_fee_on_its_day_whatever_facts_stand_on_it(facts: str) -> None:
    lines = STATEMENT.format(facts)

    assert told(work(lines)) == [
        "a rent 500.00 owed 2026-04-01 paid 2026-04-01", "a management fee 60.00 owed 2026-04-01 paid 2026-04-01",
    ]  # fmt: skip
    declined = HOUSE.replace('landlord x "X"\n', 'landlord x "X"\n    declines property allowance in 2025-26\n')
    assert pages(lines, 2025, "cash", declined) == {"20": "500.00", "27": "60.00", "38": "440.00", "40": "440.00"}
    assert balance(work(lines)) == {"rent": "-500.00", "professional": "60.00", "money": "440.00"}


# ── old ones, deposits ───────────────────────────────────────────────────────────────────────────────────────────


def test_a_part_exchange_on_a_bill_is_its_first_payment_and_money_of_nobody() -> None:
    worked = work(
        "1 Jun 2025 invoiced £400.00 by pell, number 5\n"
        "    replaced fridge £400.00, like for like, used by tenant, part exchange £40.00\n"
        "1 Jul 2025 paid £200.00 to pell against invoice 5\n"
    )

    assert sum(r.pence for r in worked.rows if r.way == "out" and r.paid == date(2025, 6, 1)) == 4_000
    assert sum(r.pence for r in worked.rows if r.way == "out" and r.paid == date(2025, 7, 1)) == 20_000
    assert balance(worked) == {"domestic": "360.00", "money": "-200.00", "owed to others": "-160.00"}


def test_a_deposit_told_on_the_tenancy_and_on_a_line_is_one_row() -> None:
    head = HOUSE + "    deposit £500, received 1 Jun 2015\n"
    line = "1 Jun 2015 received deposit £500.00 from t\n"
    one = ["a deposit 500.00 owed 2015-06-01 paid 2015-06-01"]

    assert told(work("", head)) == told(work(line, head)) == told(work(line)) == one
    assert balance(work(line, head)) == {"tenants' deposits": "-500.00", "money": "500.00"}


def test_a_deposit_of_another_tenancy_is_a_row_of_its_own() -> None:
    second = SECOND + "    deposit £400, received 1 Jun 2016\n"
    worked = work("1 Jun 2015 received deposit £500.00 from t\n", HOUSE + second)

    assert [(r.house, r.pence) for r in worked.rows] == [("a", 50_000), ("b", 40_000)]


def test_a_house_is_let_on_the_days_of_its_tenancy_only() -> None:
    worked = work("", NOT_YET)

    assert [let_in(worked, "a", TaxYear(year)) for year in (2024, 2025)] == [False, True]


def test_what_is_taken_home_is_income_at_its_worth_and_never_a_cost() -> None:
    lines = "2 Jun 2019 replaced sofa £90.00 by pell, like for like\n1 Jun 2025 took home sofa £20.00\n"

    assert pages(lines, 2025, "cash")["20"] == "20.00"
