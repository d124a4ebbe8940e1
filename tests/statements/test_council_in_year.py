"""What a landlord bears of council tax in the year's boxes: money back nets, premiums count, penalties do not."""

from __future__ import annotations

from datetime import date

import pytest

from ledger_tools.book.build import build
from ledger_tools.days import TaxYear
from ledger_tools.problems import Level
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.audit import audit
from ledger_tools.statements.quarter import quarter
from ledger_tools.statements.year_end import year_end

HEAD = """
landlord x "X. Mere"
    accounting {basis}
council mere "Mere Council"
property house "Mere House"
    bought 1 May 2025 for £100,000
    as bought lettable
    price normal
tenancy gale at house
    tenants "A. Gale"
    periodic from 1 Sep 2025
    rent £500 a month, first due 1 Sep 2025
at house
"""
BILL = "3 May 2025 billed council tax £600.00 by mere for 1 May 2025 to 31 Aug 2025\n"


def accounts(lines: str, basis: str = "cash") -> Accounts:
    made = build({"mere.book": HEAD.format(basis=basis) + lines})
    assert [p.headline for p in made.problems if p.level is Level.ERROR] == []
    return Accounts(made)


def box_24(lines: str, basis: str = "cash") -> int:
    """Pence in the box of rent, rates, insurance and ground rents for 2025-26."""
    owner = year_end(accounts(lines, basis), TaxYear(2025)).owners[0]
    return sum(box.figure.pence for box in owner.boxes if box.number == "24")


@pytest.mark.parametrize(
    ("lines", "pence"),
    [
        (BILL + "1 Jun 2025 paid council tax £100.00 to mere\n1 Jul 2025 paid council tax £100.00 to mere\n", 200_00),
        (
            "1 Jun 2025 paid council tax £100.00 to mere\n"
            "1 Oct 2025 received refund £40.00 from mere for council tax\n",
            60_00,
        ),
        ("1 Jun 2025 paid council tax £100.00 to mere\n2 Jun 2025 paid council tax premium £90.00 to mere\n", 190_00),
        ("1 Jun 2025 paid council tax £100.00 to mere\n2 Jun 2025 paid council tax penalty £70.00 to mere\n", 100_00),
        ("1 Jun 2025 paid council tax £100.00 to mere\n2 Jun 2025 paid summons costs £65.00 to mere\n", 100_00),
    ],
    ids=["instalments", "refund", "premium", "penalty", "summons"],
)
def test_what_was_paid_less_what_came_back_is_in_the_box(lines: str, pence: int) -> None:
    assert box_24(lines) == pence


def test_by_what_is_owed_the_whole_bill_counts() -> None:
    assert box_24(BILL + "1 Jun 2025 paid council tax £100.00 to mere\n", "accruals") == 600_00


def test_council_tax_before_the_first_let_counts_on_the_day_of_the_let() -> None:
    """Paid in June, let in September: treated as spent on the first day of letting (ITTOIA 2005 s. 57)."""
    owner = year_end(accounts("1 Jun 2025 paid council tax £100.00 to mere\n"), TaxYear(2025)).owners[0]
    trails = [trace for box in owner.boxes if box.number == "24" for trace in box.figure.trail]

    assert [(trace.pence, trace.day, trace.counts) for trace in trails] == [
        (100_00, date(2025, 6, 1), date(2025, 9, 1))
    ]


def test_nothing_is_counted_twice_where_void_compares_a_bill() -> None:
    """The bill, its payment and the money back: what was borne, once."""
    lines = BILL + (
        "1 Jun 2025 paid council tax £600.00 to mere\n"
        "2 Aug 2025 granted 50% off council tax by mere for 1 May 2025 to 31 Aug 2025\n"
        "9 Aug 2025 received refund £300.00 from mere for council tax\n"
    )
    assert box_24(lines) == 300_00


# ── a bill that the council cut down ─────────────────────────────────────────────────────────────────────────────

NEW = "1 Aug 2025 billed council tax £{} by mere for 1 May 2025 to 31 Jul 2025\n"
PAID = "1 Jun 2025 paid council tax £100.00 to mere\n"


def notes(lines: str, basis: str) -> str:
    return " ".join(year_end(accounts(lines, basis), TaxYear(2025)).owners[0].notes)


def test_by_what_is_owed_a_new_bill_takes_the_place_of_the_old() -> None:
    assert box_24(BILL + PAID + NEW.format("450.00"), "accruals") == 450_00


def test_what_was_paid_beyond_the_new_bill_comes_back() -> None:
    """£100 paid of £600; the new bill is for £60, and the council gives £40 back: £60 was borne in the end."""
    back = "9 Aug 2025 received refund £40.00 from mere for council tax\n"

    assert box_24(BILL + PAID + NEW.format("60.00") + back, "accruals") == 60_00
    assert box_24(BILL + PAID + NEW.format("60.00") + back, "cash") == 60_00


@pytest.mark.parametrize(
    "more",
    [
        "1 Aug 2025 billed council tax £50.00 by mere for 1 Sep 2025 to 31 Oct 2025\n",  # other days
        "1 Aug 2025 billed council tax premium £50.00 by mere for 1 May 2025 to 31 Jul 2025\n",  # another thing
        "1 Aug 2025 billed council tax £50.00 by mere for 1 May 2025 to 31 Jul 2025, number 7\n",  # a paper of its own
    ],
)
def test_another_bill_stands_beside_the_first(more: str) -> None:
    assert box_24(BILL + more, "accruals") == 650_00


def test_the_audit_counts_the_new_bill_alone_and_names_it() -> None:
    made = accounts(BILL + NEW.format("450.00"), "accruals")
    found = audit(made)
    old = next(item for item in found.items if item.verdict.item.amount == 600_00)

    assert sum(total.pence for total in found.houses[0].totals) == 450_00
    assert [source for source, _, _ in old.pays] == ["mere.book:15"]


def test_a_council_bill_not_paid_asks_whether_it_was_cut() -> None:
    assert "£500.00 of the bill of house" in notes(BILL + PAID, "accruals")
    assert "takes the place of the old" in notes(BILL + PAID, "accruals")
    assert "Council tax counts as billed" not in notes(BILL + PAID, "cash")
    paid = "1 Jun 2025 paid council tax £600.00 to mere\n"
    assert "Council tax counts as billed" not in notes(BILL + paid, "accruals")
# ── the right quarter ────────────────────────────────────────────────────────────────────────────────────────────


def premises(lines: str, number: int, basis: str = "cash", year: int = 2025) -> int:
    """Pence of what it costs to run the premises, as the update of a quarter holds them: the year so far."""
    update = quarter(accounts(lines, basis), "x", TaxYear(year), number)
    return sum(field.figure.pence for field in update.fields if field.name == "expenses.premisesRunningCosts")


@pytest.mark.parametrize(
    ("lines", "by_quarter"),
    [
        # paid in June, before the first let of September: the second update holds it, not the first
        ("1 Jun 2025 paid council tax £100.00 to mere\n", [0, 100_00, 100_00, 100_00]),
        # instalments on both sides of the first let
        (
            "1 Jun 2025 paid council tax £100.00 to mere\n1 Nov 2025 paid council tax £50.00 to mere\n",
            [0, 100_00, 150_00, 150_00],
        ),
        # money back in February comes off in the fourth
        (
            "1 Oct 2025 paid council tax £100.00 to mere\n"
            "9 Feb 2026 received refund £40.00 from mere for council tax\n",
            [0, 100_00, 100_00, 60_00],
        ),
        # a premium counts, a penalty does not
        (
            "1 Oct 2025 paid council tax premium £90.00 to mere\n2 Oct 2025 paid council tax penalty £70.00 to mere\n",
            [0, 90_00, 90_00, 90_00],
        ),
    ],
    ids=["before the first let", "instalments", "money back", "premium and penalty"],
)
def test_each_update_holds_what_was_borne_by_then(lines: str, by_quarter: list[int]) -> None:
    assert [premises(lines, number) for number in (1, 2, 3, 4)] == by_quarter


def test_council_tax_of_a_later_house_counts_on_the_day_it_is_paid() -> None:
    """The business is running: nothing waits for the first let of another house (PIM2505)."""
    later = (
        'property other "Other House"\n    bought 1 Oct 2025 for £90,000\n    as bought lettable\n    price normal\n'
        "at other\n2 Oct 2025 paid council tax £80.00 to mere\n"
    )
    assert [premises(later, number) for number in (1, 2, 3, 4)] == [0, 80_00, 80_00, 80_00]


def test_a_bill_by_what_is_owed_is_shared_by_its_days() -> None:
    """£600.00 for the 123 days from 1 May to 31 August, all before the first let: they count as it begins."""
    assert [premises(BILL, number, "accruals") for number in (1, 2, 3, 4)] == [0, 600_00, 600_00, 600_00]


def test_a_bill_across_the_tax_year_is_shared_by_its_days() -> None:
    """£365.00 for the year from 1 October 2025: 187 days to 5 April 2026, 178 after it."""
    bill = "1 Oct 2025 billed council tax £365.00 by mere for 1 Oct 2025 to 30 Sep 2026\n"

    assert premises(bill, 4, "accruals") == 187_00
    assert premises(bill, 4, "accruals", 2026) == 178_00
