"""The example bodies that the tax authority prints for a cumulative update, made from books written for them.

The sums are its own (property service 6.0, commit of 11 June 2026); they show a form and are no computation: more is
claimed for a lodger's room than the law frees, and the page says so. The lines that make them are ours.
"""

from __future__ import annotations

import json
from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from ledger_tools.days import TaxYear
from ledger_tools.render.quarter import body_text
from ledger_tools.statements.quarter import quarter
from ledger_tools.statements.year_end import year_end
from tests.ledger.books import HOUSE, work
from tests.statements.test_quarter import EXAMPLES, SUMMARY, validate

YEAR = TaxYear(2025)
HEAD = 'lender fen "Fen Lending"\n' + HOUSE.replace(
    'landlord x "X"\n',
    'landlord x "X"\n    claims rent a room £{free} in 2025-26\n'
    "    unused finance costs £{brought} brought into 2025-26\n",
)
COMES_IN = """at a
1 May 2025 received lease premium £{} for 1 May 2025 to 30 Apr 2026
1 May 2025 received inducement £{}
1 May 2025 received rent £{} from t
1 May 2025 paid tax taken off rent £{}
1 May 2025 received laundry income £{}
1 May 2025 received lodger rent £{}
"""
GOES_OUT = """1 May 2025 paid ground rent £3,123.21
1 May 2025 repaired roof £928.42, worn out
1 May 2025 received refund £842.99 for shop loan interest
1 May 2025 received refund £8,831.12 for accountant
1 May 2025 cleaned hall £484.12
1 May 2025 paid train fare £974.47
1 May 2025 paid advertising £99,282
1 May 2025 paid loan interest £2,884.99 to fen
"""
ITEMISED = (
    HEAD.format(free="8,842.43", brought="483.91"),
    COMES_IN.format("4,889.23", "847.35", "5,000.99", "3,123.21", "954.32", "532.12") + GOES_OUT,
)
ONE_TOTAL = (
    HEAD.format(free="860.88", brought="300.13"),
    COMES_IN.format("42.12", "84.31", "9,884.93", "842.99", "31.44", "947.66")
    + "1 May 2025 paid postage £11.82\n1 May 2025 received refund £1,000.00 for accountant\n"
    + "1 May 2025 paid loan interest £9,000.10 to fen\n",
)
DAYS = {"fromDate": "2025-04-06", "toDate": "2025-07-05"}
PRINTED: dict[str, dict[str, Any]] = {
    "request.json": {
        "income": {
            "premiumsOfLeaseGrant": "4889.23", "reversePremiums": "847.35", "periodAmount": "5000.99",
            "taxDeducted": "3123.21", "otherIncome": "954.32", "rentARoom": {"rentsReceived": "532.12"},
        },
        "expenses": {
            "premisesRunningCosts": "3123.21", "repairsAndMaintenance": "928.42", "financialCosts": "-842.99",
            "professionalFees": "-8831.12", "costOfServices": "484.12", "other": "99282", "travelCosts": "974.47",
            "residentialFinancialCost": "2884.99", "residentialFinancialCostsCarriedForward": "483.91",
            "rentARoom": {"amountClaimed": "8842.43"},
        },
    },
    "consolidated_request.json": {
        "income": {
            "premiumsOfLeaseGrant": "42.12", "reversePremiums": "84.31", "periodAmount": "9884.93",
            "taxDeducted": "842.99", "otherIncome": "31.44", "rentARoom": {"rentsReceived": "947.66"},
        },
        "expenses": {
            "consolidatedExpenses": "-988.18", "residentialFinancialCost": "9000.10",
            "residentialFinancialCostsCarriedForward": "300.13", "rentARoom": {"amountClaimed": "860.88"},
        },
    },
}  # fmt: skip


def numbers(part: dict[str, Any]) -> dict[str, Any]:
    return {name: numbers(held) if isinstance(held, dict) else Decimal(held) for name, held in part.items()}


@pytest.mark.parametrize(
    ("book", "total", "example"), [(ITEMISED, False, "request.json"), (ONE_TOTAL, True, "consolidated_request.json")]
)
def test_tc_59_the_printed_body_comes_out_of_a_book(book: tuple[str, str], total: bool, example: str) -> None:
    head, lines = book
    update = quarter(work(lines, head), "x", YEAR, 1, total)
    made = body_text(update.body)
    printed = {**DAYS, "ukProperty": numbers(PRINTED[example])}

    assert json.loads(made, parse_float=Decimal) == printed
    assert update.refusals == ()
    if EXAMPLES.is_dir():
        assert json.loads((EXAMPLES / example).read_text(encoding="utf-8"), parse_float=Decimal) == printed
    validate(made, SUMMARY)


# ── what its fields stand for on a page ──────────────────────────────────────────────────────────────────────────


def notes(head: str, lines: str) -> str:
    (owner,) = year_end(work(lines, head), YEAR).owners
    return " ".join(owner.notes)


def lodger(claim: str, rent: str) -> tuple[str, str]:
    head = HOUSE.replace('landlord x "X"\n', f'landlord x "X"\n    claims rent a room {claim}in 2025-26\n')
    return head, f"at a\n1 May 2025 received lodger rent £{rent}\n1 May 2025 received rent £20,000.00 from t\n"


def test_above_the_limit_of_rent_a_room_the_page_says_what_to_do() -> None:
    said = notes(*lodger("", "9,000.00"))

    assert "£9,000.00, more than the £7,500.00 of box 4" in said
    assert "`claims rent a room £7,500.00 in 2025-26`" in said


def test_what_is_told_as_free_of_tax_stands_in_box_37() -> None:
    head, lines = lodger("£7,500.00 ", "9,000.00")
    (owner,) = year_end(work(lines, head), YEAR).owners

    assert {b.number: b.pounds for b in owner.boxes} == {"20": 29_000, "37": 7_500, "38": 21_500, "40": 21_500}
    assert "Not to be sent" not in notes(head, lines)


@pytest.mark.parametrize(
    ("told", "rent", "why"),
    [("£7,500.01 ", "9,000.00", "frees £7,500.00 at most"), ("£7,000.01 ", "7,000.00", "tells £7,000.00 of rent")],
)
def test_a_sum_that_cannot_be_free_of_tax_is_not_to_be_sent(told: str, rent: str, why: str) -> None:
    assert "Not to be sent" in (said := notes(*lodger(told, rent)))
    assert why in said


def test_without_the_claim_a_lodgers_rent_is_rent() -> None:
    lines = "at a\n1 May 2025 received lodger rent £9,000.00\n"

    assert {f.name for f in quarter(work(lines), "x", YEAR, 1).fields} == {"income.periodAmount"}


def test_tax_taken_off_the_rents_is_no_cost_and_is_counted_as_paid() -> None:
    head = HOUSE.replace('landlord x "X"\n', 'landlord x "X"\n    other income £0 in 2025-26\n')
    lines = "at a\n1 May 2025 received rent £20,000.00 from t\n1 Jun 2025 paid tax taken off rent £1,000.00\n"
    (owner,) = year_end(work(lines, head), YEAR).owners
    (way,) = owner.in_tax.to_pay

    assert {b.number: b.pounds for b in owner.boxes} == {"20": 20_000, "21": 1_000, "38": 20_000, "40": 20_000}
    assert owner.left_out == ()
    assert (way.last.day, way.last.pence) == (date(2027, 1, 31), 486_00)  # 20% of 20,000 less 12,570, less 1,000
    assert way.on_account == ()  # what is left is under £1,000 (SAM1010)
