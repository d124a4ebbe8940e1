"""Loans of which a book tells far less paid in a year than their interest comes to. Houses and sums are made up."""

from __future__ import annotations

from datetime import date

import pytest

from ledger_tools.book.build import build
from ledger_tools.days import TaxYear
from ledger_tools.money import pounds
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.interest_short import interest_short
from ledger_tools.statements.worth import worth
from ledger_tools.statements.worth_year import Asked
from ledger_tools.statements.year_end import year_end

HEAD = (
    'landlord x "X"\nproperty a "A"\n    bought 1 Apr 2024 for £90,000\nloan bank on a from "Bank"\n    {rate}\n'
    "tenancy t at a\n    periodic from 1 May 2024\n    rent £600 a month\nat a\n"
    "1 Apr 2024 borrowed £60,000.00 from bank for purchase\n"
)
LAST = "5 Apr 2026 received rent £600.00 from t\n"


def accounts(lines: str, rate: str = "rate 4% from 1 Apr 2024") -> Accounts:
    return Accounts(build({"a.book": HEAD.format(rate=rate) + lines}))


def short(lines: str, rate: str = "rate 4% from 1 Apr 2024", year: int = 2025) -> list[tuple[int, int]]:
    return [(one.paid, one.interest) for one in interest_short(accounts(lines, rate), "a", TaxYear(year))]


def paid(*months: int) -> str:
    days = (date(2025 + (month > 12), (month - 1) % 12 + 1, 20) for month in months)
    return "".join(f"{day} paid loan interest £200.00 to bank\n" for day in days)


def test_far_less_than_a_year_of_interest_is_told() -> None:
    """£60,000 at 4% is £2,400 a year; a new rate for the second half makes it 1,200 + 1,500."""
    assert short(paid(5, 6) + LAST) == [(400_00, 2_400_00)]
    assert short(LAST, "rate 4% from 1 Apr 2024\n    rate 5% from 6 Oct 2025") == [(0, 2_700_00)]


@pytest.mark.parametrize(
    ("lines", "rate"),
    [
        (paid(5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15) + LAST, "rate 4% from 1 Apr 2024"),  # one slipped into the next
        (LAST, "rate 0% from 1 Apr 2024"),
        (LAST, "interest only"),  # no rate is told
        ("1 May 2025 repaid loan £59,000.00 to bank\n" + LAST, "rate 4% from 1 Apr 2024"),
        ('20 Jun 2025 noted "x"\n', "rate 4% from 1 Apr 2024"),  # the book has hardly begun the year
    ],
)  # fmt: skip
def test_what_is_enough_or_cannot_be_told(lines: str, rate: str) -> None:
    assert short(lines, rate) == []


def test_the_pages_say_so_once_for_each_loan() -> None:
    (owner,) = year_end(accounts(paid(5, 6) + LAST), TaxYear(2025)).owners
    (note,) = [note for note in owner.notes if "its interest comes to about" in note]

    assert "£400.00 was paid on bank, and its interest comes to about £2,400.00" in note


@pytest.mark.parametrize(("asked", "interest"), [(None, 60_000_00 * 4 // 100), (6, 60_000_00 * 6 // 100)])
def test_a_year_of_interest_is_by_each_loans_own_debt_and_a_loan_free_of_interest_stays_so(
    asked: int | None, interest: int
) -> None:
    dad = 'loan dad on a from "Dad"\n    rate 0% from 1 Apr 2024\nat a\n'
    dad += "1 Apr 2024 borrowed £15,000.00 from dad for purchase\n"
    made = worth(accounts(dad + LAST), "a", date(2026, 4, 6), Asked(rate=asked))

    assert made.years[-1].sums.interest.pence == interest, pounds(interest)
