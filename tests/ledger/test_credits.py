"""A firm's credit against its own bill: it settles the bill, and takes as much off what it was for."""

from __future__ import annotations

from datetime import date

import pytest

from ledger_tools.book.build import build
from ledger_tools.days import TaxYear
from ledger_tools.ledger.open_bills import open_bills
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.year_end import year_end
from tests.verdicts.books import LET, PEOPLE, book, short, verdicts

BILL = """30 Nov 2024 invoiced £1,612.40 by cobb, number BY-4471
    replaced skirting £1,222.40, like for like
    replaced internal doors £390.00, better
"""
PAID = "20 Dec 2024 paid £1,547.40 to cobb against invoice BY-4471\n"
CREDIT = "6 Dec 2024 received credit £65.00 from cobb against invoice BY-4471"


def left(lines: str) -> int:
    return sum(open_bills(Accounts(book(lines)).rows, date(2025, 4, 5)).values())


@pytest.mark.parametrize("word", ["credit", "refund", "credit note"])
def test_it_settles_the_bill_and_comes_off_the_line_it_names(word: str) -> None:
    credit = CREDIT.replace("credit", word, 1)
    of_doors = verdicts(BILL + PAID + f"{credit} for internal doors\n")[-1]
    of_skirting = verdicts(BILL + PAID + f"{credit} for skirting\n")[-1]

    assert left(BILL + PAID) == 65_00
    assert left(BILL + PAID + credit + " for internal doors\n") == 0
    assert short(of_doors.parts) == "65.00 nets [enhancement]"
    assert short(of_skirting.parts) == "65.00 nets repairs"


def test_without_a_thing_it_comes_off_the_whole_bill_in_proportion() -> None:
    assert short(verdicts(BILL + PAID + CREDIT + "\n")[-1].parts) == "49.28 nets repairs + 15.72 nets [enhancement]"


def test_a_bill_of_another_firm_or_number_is_not_meant() -> None:
    other = BILL.replace("cobb", "lowe").replace("better", "like for like").replace("30 Nov", "29 Nov")
    credit = verdicts(other + BILL + PAID + f"{CREDIT} for internal doors\n")[-1]

    assert short(credit.parts) == "65.00 nets [enhancement]"


def test_a_credit_after_the_bill_was_paid_in_full_is_money_back_and_no_second_payment() -> None:
    full = BILL + PAID.replace("1,547.40", "1,612.40")
    late = CREDIT.replace("6 Dec 2024", "6 Jan 2025") + " for skirting\n"
    accounts = Accounts(book(full + late))

    assert left(full + late) == 0
    assert sum(r.pence for r in accounts.rows if r.account == "paid ahead") == 0
    assert sum(accounts.balance.values()) == 0
    assert accounts.balance["money"] == -120_000_00 - 1_612_40 + 65_00


def box_25(lines: str) -> int:
    [owner] = year_end(Accounts(book(lines)), TaxYear(2024)).owners
    return next(box.figure.pence for box in owner.boxes if box.number == "25")


def test_the_year_counts_what_the_bill_came_to_after_the_credit() -> None:
    alike = BILL.replace("better", "like for like")
    plain = "6 Dec 2024 received refund £65.00 from cobb for internal doors\n"

    assert box_25(alike + PAID + CREDIT + " for internal doors\n") == 1_547_40
    assert box_25(alike + PAID + plain) == 1_482_40  # a refund that names no bill is money on top
    assert "credit-or-payment" in doubts(alike + PAID + plain)


def doubts(lines: str) -> list[str]:
    return [problem.code for problem in book(lines).problems]


@pytest.mark.parametrize(
    ("line", "doubted"),
    [
        ("received £65.00 from cobb against invoice BY-4471", True),
        ("received credit £65.00 from cobb against invoice BY-4471", False),
        ("received refund £65.00 from cobb", True),
        ("received refund £64.00 from cobb", False),
        ("received refund £65.00 from lowe", False),
    ],
)
def test_money_from_a_firm_whose_bill_lacks_as_much_is_doubted(line: str, doubted: bool) -> None:
    assert ("credit-or-payment" in doubts(f"{BILL}{PAID}6 Dec 2024 {line}\n")) is doubted


def test_a_bill_not_paid_at_all_lacks_nothing_yet() -> None:
    whole = "6 Dec 2024 received refund £1,612.40 from cobb\n"

    assert "credit-or-payment" not in doubts(BILL + whole)


def test_a_credit_does_not_overpay_a_bill_and_a_payment_does() -> None:
    full = BILL + PAID.replace("1,547.40", "1,612.40")
    late = CREDIT.replace("6 Dec 2024", "6 Jan 2025")

    assert "overpaid" not in doubts(full + late)
    paid = late.replace("received credit", "paid").replace("from cobb", "to cobb")
    told = build({"a.book": f"{PEOPLE}{LET}at mill-3\n{full}{paid}"})
    assert "overpaid" in [problem.code for problem in told.problems]
