"""What a day of delay costs: the worked figures of practice, and what is owed on a loan. Houses are invented.

The daily figures V1 and V2 were worked out by hand: 12 x 950 / 365; 1,825 / 365; 0.95; 150,000 at 5.2% / 365.
"""

from __future__ import annotations

from datetime import date

import pytest

from ledger_tools.money import plain
from ledger_tools.statements.delay import DayCost
from tests.statements.works_books import SCHEDULE, plan

ON = date(2025, 5, 1)
RENT = SCHEDULE.replace("at £600 a month", "at £950 a month")
COUNCIL = """    council wold, band B
council wold "Wold Council"
scheme wold 2025-26
    charge band B £1,825.00
loan moor on a from "Moor Bank"
    rate 5.2% from 1 Mar 2025
"""
LENT = "1 Mar 2025 borrowed £150,000.00 from moor for purchase\n"
STANDING = '1 Apr 2025 paid standing charge £28.50 to "Tidal" for 1 Apr 2025 to 30 Apr 2025\n'


def parts(cost: DayCost) -> dict[str, str]:
    return {part.label: plain(part.pence) for part in cost.parts}


def test_rent_alone() -> None:
    cost = plan("", ON, RENT).cost

    assert parts(cost) == {"rent": "31.23"}
    assert cost.parts[0].base == "12 x £950.00 / 365"
    assert [words.split(":")[0] for words in cost.missing] == ["council tax"]


def test_rent_council_tax_standing_charges_and_interest() -> None:
    cost = plan(LENT + STANDING, ON, RENT, COUNCIL).cost

    assert parts(cost) == {
        "rent": "31.23", "council tax": "5.00", "standing charge": "0.95", "interest, moor": "21.37",
    }  # fmt: skip
    assert (plain(cost.pence), cost.missing) == ("58.55", ())


def test_the_bill_whose_days_hold_this_one_wins_over_the_scheme() -> None:
    bill = '2 Apr 2025 billed council tax £219.00 by "Wold Council" for 1 Apr 2025 to 31 May 2025\n'

    assert parts(plan(bill, ON, RENT, COUNCIL).cost)["council tax"] == "3.59"  # 219 over 61 days
    assert parts(plan(bill, date(2025, 6, 2), RENT, COUNCIL).cost)["council tax"] == "5.00"


def test_the_councils_year_begins_on_the_first_of_april() -> None:
    """The scheme of 2025-26 holds from 1 April, five days before the tax year of that name."""
    early = plan("", date(2025, 4, 1), RENT, COUNCIL)

    assert parts(early.cost)["council tax"] == "5.00"
    assert "council tax" not in parts(plan("", date(2025, 3, 31), RENT, COUNCIL).cost)


def test_once_it_is_let_a_day_is_told_as_it_was_before() -> None:
    """Let from 1 July: the council tax of the tenants' days is not the landlord's."""
    bill = '2 Apr 2025 billed council tax £219.00 by "Wold Council" for 1 Apr 2025 to 30 Jun 2025\n'

    assert parts(plan(bill, date(2025, 7, 2), RENT, COUNCIL).cost)["council tax"] == "2.41"  # 219 over 91 days


def test_what_was_paid_back_bears_no_interest_and_a_rate_holds_for_its_days() -> None:
    back = "1 Apr 2025 repaid loan £50,000.00 to moor\n"
    later = COUNCIL.replace("from 1 Mar 2025", "from 1 Mar 2025 to 30 Apr 2025\n    rate 4% from 1 May 2025")

    assert parts(plan(LENT + back, ON, RENT, COUNCIL).cost)["interest, moor"] == "14.25"
    assert parts(plan(LENT, ON, RENT, later).cost)["interest, moor"] == "16.44"
    assert parts(plan(LENT, date(2025, 4, 30), RENT, later).cost)["interest, moor"] == "21.37"


def test_a_rate_that_has_ended_is_no_rate() -> None:
    ended = COUNCIL.replace("from 1 Mar 2025", "from 1 Mar 2025 to 30 Apr 2025")
    cost = plan(LENT, ON, RENT, ended).cost

    assert "interest, moor" not in parts(cost)
    assert cost.missing[0].startswith("interest of moor")


def test_a_loan_the_book_tells_in_mid_life() -> None:
    owed = COUNCIL + "    owed £90,000 on 10 Apr 2025\n"

    assert parts(plan(LENT, ON, RENT, owed).cost)["interest, moor"] == "12.82"


@pytest.mark.parametrize(
    "every, pence",
    [("a month", "31.23"), ("a week", "135.71"), ("a fortnight", "67.86"), ("every 4 weeks", "33.93"),
     ("a quarter", "10.41"), ("a year", "2.60")],
)  # fmt: skip
def test_rent_by_every_way_it_falls_due(every: str, pence: str) -> None:
    assert parts(plan("", ON, RENT.replace("a month", every)).cost) == {"rent": pence}
