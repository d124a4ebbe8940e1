"""The update of an owner: what of a book falls into it, and the body as the service's own schema takes it."""

from __future__ import annotations

import json
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from ledger_tools.book.build import build
from ledger_tools.days import TaxYear
from ledger_tools.problems import Level
from ledger_tools.render.quarter import body_text, page
from ledger_tools.render.text import draw
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.quarter import QuarterUpdate, may_total, quarter, yearly
from ledger_tools.statements.year_end import year_end
from tests.ledger.books import HOUSE, SECOND, work

SAMPLES = Path(__file__).parents[2] / "sample_books"
# Published by the tax authority; kept beside the checkout, not in it.
SCHEMAS = Path(__file__).parents[3] / "shared" / "hmrc-schema" / "property-business-api" / "6.0"
SUMMARY = SCHEMAS / "schemas/uk_property_cumulative_summary_create_and_amend/def1/request.json"
YEARLY = SCHEMAS / "schemas/uk_property_annual_submission_create_and_amend/def2/request.json"
EXAMPLES = SCHEMAS / "examples/uk_property_cumulative_summary_create_and_amend/def1"
YEAR = TaxYear(2026)
BOXES = {
    "rent": "20", "other_income": "20", "premises": "24", "repairs": "25", "professional": "27", "services": "28",
    "travel": "29", "other": "29", "finance_residential": "44", "finance_brought": "45",
}  # fmt: skip
LINES = """
at a
3 Apr 2026 received rent £1.00 from t
6 May 2026 received rent £500.00 from t
2 Jul 2026 repaired gutters £90.10, worn out
5 Jul 2026 paid loan interest £70.00 to fen
6 Jul 2026 received rent £500.00 from t
7 Aug 2026 replaced sofa £300.00, like for like, used by tenant
8 Aug 2026 replaced worktop £200.00
4 Apr 2027 received rent £2.00 from t
"""
HEAD = 'lender fen "Fen Lending"\n' + HOUSE


def sent(update: QuarterUpdate) -> dict[str, str]:
    return {field.name: f"{Decimal(field.figure.pence) / 100:.2f}" for field in update.fields}


def of_x(
    lines: str = LINES, number: int = 1, year: TaxYear = YEAR, head: str = HEAD, total: bool = False
) -> QuarterUpdate:
    return quarter(work(lines, head), "x", year, number, total)


def calendar(words: str) -> str:
    return HEAD.replace('landlord x "X"\n', f'landlord x "X"\n    {words}\n')


def test_interest_that_came_back_is_left_out_of_the_body_and_told() -> None:
    """£70.00 paid, £100.00 back: the service takes no residentialFinancialCost below nil (its schema)."""
    paid = "10 Apr 2026 paid loan interest £70.00 to fen\n"
    back = "1 May 2026 received refund £100.00 from fen for loan interest\n"
    made = of_x(f"at a\n{paid}{back}6 May 2026 received rent £500.00 from t\n")

    assert sent(made) == {"income.periodAmount": "500.00"}
    assert made.refusals == ()
    assert "£30.00 belongs to the year in which you paid that interest" in " ".join(made.notes)
    brought = HEAD.replace('landlord x "X"\n', 'landlord x "X"\n    unused finance costs £20.00 brought into 2026-27\n')
    less = of_x(f"at a\n{paid}{back}6 May 2026 received rent £500.00 from t\n", head=brought)
    assert "expenses.residentialFinancialCostsCarriedForward" not in less.body["ukProperty"]  # £20.00 used up
    assert "£20.00 of it is taken off" in " ".join(less.notes) and "£10.00 belongs" in " ".join(less.notes)


def test_an_update_without_any_rent_of_a_running_let_says_so() -> None:
    """Three sums of £500.00 fell due on 1 May, 1 June and 1 July, before 6 July."""
    told = HEAD.replace("    periodic from 1 Jun 2015\n", "    periodic from 1 Jun 2015\n    rent £500 a month\n")
    silent = of_x("at a\n2 May 2026 repaired gutters £90.00, worn out\n", head=told)

    assert "£1,500.00 of t at a" in " ".join(silent.notes)
    assert "no rent of these days" not in " ".join(of_x(head=told).notes)


def test_accounts_to_31_march_are_told_at_the_head_of_an_update() -> None:
    made = of_x(head=calendar("accounts to 31 march from 2025-26"))

    assert made.update.period.first == date(2026, 4, 6)
    assert (made.counted.first, made.counted.last) == (date(2026, 4, 1), date(2026, 7, 5))
    assert "lines of 1 Apr 2026 to 5 Jul 2026 count" in " ".join(draw(page(made, "")).split())


def test_each_update_holds_the_year_so_far() -> None:
    assert sent(of_x(number=1)) == {
        "income.periodAmount": "500.00",
        "expenses.repairsAndMaintenance": "90.10",
        "expenses.residentialFinancialCost": "70.00",
    }
    assert sent(of_x(number=2))["income.periodAmount"] == "1000.00"
    assert sent(of_x(number=4))["income.periodAmount"] == "1002.00"


def test_what_waits_and_what_is_open_is_shown_apart() -> None:
    found = of_x(number=2)

    assert [(f.label, f.pence) for f in found.later] == [("Replacing domestic items", 30_000)]
    assert (found.open.pence, [t.source for t in found.open.trail]) == (20_000, ["a.book:21"])


def test_calendar_quarters_begin_and_end_with_the_month() -> None:
    found = of_x(head=calendar("calendar quarters"))

    assert sent(found) == {"income.periodAmount": "501.00"}
    assert "6 April to 5 April" in " ".join(found.notes)


def test_changing_to_calendar_quarters_begins_on_6_april_once() -> None:
    head = calendar("calendar quarters from 2027-28")
    lines = "at a\n3 Apr 2027 received rent £1.00 from t\n6 May 2027 received rent £500.00 from t\n"
    found = of_x(lines, 1, TaxYear(2027), head)

    assert sent(found) == {"income.periodAmount": "500.00"}
    assert "6 Apr 2027 once" in " ".join(found.notes)


@pytest.mark.parametrize(
    "words, first",
    [
        ("standard quarters from 2025-26\n    calendar quarters from 2026-27", "2026-04-06"),  # gave updates before
        ("calendar quarters from 2025-26", "2026-04-01"),
        ("calendar quarters from 2026-27", "2026-04-01"),  # a newcomer begins before the tax year
        ("calendar quarters", "2026-04-01"),
    ],
)
def test_in_the_first_year_that_binds_the_quarters_told_for_the_year_of_testing_count(words: str, first: str) -> None:
    """SI 2026/336 reg. 13(2): after a year of standard updates calendar quarters begin on 6 April, once."""
    assert of_x(head=calendar(words)).body["fromDate"] == first


CHANGED = """
at a
1 Mar 2025 repaired door £220.00, worn out, due 31 Mar 2025, paid 1 May 2025
1 Mar 2026 repaired gate £90.00, worn out, due 31 Mar 2026, paid 1 May 2026
6 May 2026 received ground rent £2,000.00
"""


def test_a_change_of_the_way_of_accounting_is_in_the_updates_as_on_the_pages() -> None:
    """£90 was deducted as owed in 2025-26 (PIM1096): it does not come off a second time when it is paid."""
    head = calendar("accounting accruals\n    accounting cash from 2026-27")
    found = of_x(CHANGED, 4, head=head)
    pages = {b.number: b.figure.pence for b in year_end(work(CHANGED, head), YEAR).owners[0].boxes}

    assert sent(found) == {"income.otherIncome": "2000.00", "expenses.repairsAndMaintenance": "0.00"}
    assert pages["20"] == 2_000_00 and pages.get("25", 0) == 0
    assert "way of accounting changed after 2025-26" in " ".join(found.notes)


def test_the_ceiling_on_loan_costs_is_in_the_last_update_and_told_before() -> None:
    head = HEAD + "loan big on a from fen\n    owed £200,000 on 6 Apr 2026\n"
    head = head.replace("    as bought", "    valued 1 Jun 2015 at £150,000\n    as bought", 1)

    assert sent(of_x(number=4, head=head))["expenses.residentialFinancialCost"] == "52.50"  # 70 x 150 / 200
    assert sent(of_x(number=1, head=head))["expenses.residentialFinancialCost"] == "70.00"
    assert "cut by £17.50 when the year ends" in " ".join(of_x(number=1, head=head).notes)


def test_only_the_own_share_is_sent() -> None:
    head = HEAD.replace('landlord x "X"\n', 'landlord x "X"\nlandlord y "Y"\n').replace(
        "    as bought", "    owners x 30% and y 70%\n    as bought", 1
    )

    assert sent(of_x(number=1, head=head))["income.periodAmount"] == "150.00"


def test_expenses_in_one_sum() -> None:
    found = of_x(number=1, total=True)

    assert sent(found) == {
        "income.periodAmount": "500.00",
        "expenses.consolidatedExpenses": "90.10",
        "expenses.residentialFinancialCost": "70.00",
    }
    assert may_total(work(LINES, HEAD), "x", YEAR)
    assert not may_total(work(LINES + "1 Dec 2026 received rent £90,000.00 from t\n", HEAD), "x", YEAR)


def test_the_allowance_leaves_no_expense() -> None:
    head = HEAD.replace('landlord x "X"\n', 'landlord x "X"\n    claims property allowance in 2026-27\n')

    assert sent(of_x(number=4, head=head)) == {"income.periodAmount": "1002.00"}
    assert yearly(work(LINES, head), "x", YEAR).body == {
        "ukProperty": {"allowances": {"propertyIncomeAllowance": 1_000_00}}
    }


def test_rent_given_back_beyond_what_came_is_refused() -> None:
    found = of_x("at a\n6 May 2026 repaid rent £5.00 to t\n")

    assert [r.code for r in found.refusals] == ["FORMAT_VALUE"]


def test_an_update_asked_for_long_before_its_period_ends_is_refused() -> None:
    found = quarter(work(LINES, HEAD), "x", YEAR, 4, on=date(2026, 7, 1))

    assert [r.code for r in found.refusals] == ["RULE_EARLY_DATA_SUBMISSION_NOT_ACCEPTED"]


def test_an_open_question_paid_in_two_parts_is_one() -> None:
    lines = """
at a
1 May 2026 invoiced £300.00 by pell, number 7
    replaced worktop £300.00
2 May 2026 paid £100.00 to pell against invoice 7
3 May 2026 paid £200.00 to pell against invoice 7
"""
    assert [t.pence for t in of_x(lines).open.trail] == [300_00]


def test_unused_finance_costs_told_in_the_book_are_sent() -> None:
    head = HEAD.replace('landlord x "X"\n', 'landlord x "X"\n    unused finance costs £12 brought into 2026-27\n')

    assert sent(of_x(head=head))["expenses.residentialFinancialCostsCarriedForward"] == "12.00"


@pytest.mark.parametrize("name", ["saltmarsh", "harbour"])
def test_the_fourth_update_is_the_year(name: str) -> None:
    book = build({p.name: p.read_text(encoding="utf-8") for p in sorted((SAMPLES / name).glob("*.book"))})
    assert not [p for p in book.problems if p.level is Level.ERROR]
    accounts = Accounts(book)
    for owner in year_end(accounts, TaxYear(2025)).owners:
        boxes = {b.number: b.figure.pence for b in owner.boxes}
        told: dict[str, int] = {}
        for field in quarter(accounts, owner.owner, TaxYear(2025), 4).fields:
            number = BOXES[field.figure.slug]
            told[number] = told.get(number, 0) + field.figure.pence

        assert told == {n: p for n, p in boxes.items() if n in BOXES.values()}


# ── the service's own schema ─────────────────────────────────────────────────────────────────────────────────────


def validate(text: str, schema: Path) -> None:
    """Numbers as Decimal throughout: as floats the schema's `multipleOf 0.01` refuses whole pence."""
    jsonschema = pytest.importorskip("jsonschema", reason="jsonschema is not installed")
    if not schema.is_file():
        pytest.skip("the published schemas are not beside this checkout")
    held = json.loads(schema.read_text(encoding="utf-8"), parse_float=Decimal)
    jsonschema.Draft4Validator(held).validate(json.loads(text, parse_float=Decimal))


@pytest.mark.parametrize("number", [1, 2, 3, 4])
@pytest.mark.parametrize("total", [False, True])
def test_the_body_is_what_the_schema_takes(number: int, total: bool) -> None:
    validate(body_text(of_x(number=number, total=total).body), SUMMARY)
    validate(body_text(of_x("", number, head=HEAD + SECOND).body), SUMMARY)


def test_the_yearly_body_is_what_the_schema_takes() -> None:
    validate(body_text(yearly(work(LINES, HEAD), "x", YEAR).body), YEARLY)


@pytest.mark.parametrize("example", ["request.json", "consolidated_request.json"])
def test_the_published_examples_pass_the_same_check(example: str) -> None:
    if not EXAMPLES.is_dir():
        pytest.skip("the published schemas are not beside this checkout")
    validate((EXAMPLES / example).read_text(encoding="utf-8"), SUMMARY)


def test_a_third_decimal_is_no_body() -> None:
    jsonschema = pytest.importorskip("jsonschema", reason="jsonschema is not installed")
    with pytest.raises(jsonschema.ValidationError):
        validate(body_text(of_x().body).replace("500.00", "500.001"), SUMMARY)
