"""The ceiling on loan costs under the cash basis, ITTOIA 2005 ss. 307C-307D; DX-16 is worked out by hand from them."""

from __future__ import annotations

import pytest

from ledger_tools.book.build import build
from ledger_tools.days import TaxYear
from ledger_tools.money import plain
from ledger_tools.problems import Level
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.year_end import OwnerYear, year_end
from ledger_tools.taxes.income.finance_costs import under_ceiling

LENT = "1 May 2015 borrowed £200,000.00 from big for purchase\n"
HOLIDAY = '2 May 2015 borrowed £40,000.00 from big for private "boat"\n'
PAID = "1 Jun 2025 received rent £24,000.00 from t\n1 Jul 2025 paid loan interest £12,000.00 to big\n"
VALUED = "    valued 1 Jun 2015 at £150,000\n"
EXTENSION = '1 Jul 2020 added extension £10,000.00 by "Bo Lunt"\n'


def owner(
    lines: str,
    valued: str = VALUED,
    people: str = "",
    bought: str = "bought 1 May 2015 for £120,000",
    owed: str = "",
) -> OwnerYear:
    text = (
        f'landlord x "X"\n{people}property a "1 A Street"\n    {bought}\n    as bought lettable\n'
        f'    price normal\n{valued}loan big on a from "Big Bank"\n{owed}tenancy t at a\n    tenants "T. Enant"\n'
        f"    periodic from 1 Jun 2015\n    rent £2,000 a month\nat a\n{lines}{PAID}"
    )
    book = build({"a.book": text})
    assert [p.headline for p in book.problems if p.level is Level.ERROR] == []
    return year_end(Accounts(book), TaxYear(2025)).owners[0]


def box(found: OwnerYear, number: str = "44") -> str:
    return next((plain(b.figure.pence) for b in found.boxes if b.number == number), "")


def note(found: OwnerYear, words: str) -> bool:
    return any(words in said for said in found.notes)


def test_dx_16_loans_above_the_value_when_first_let_with_improvements() -> None:
    """£10,000 of £12,000 passes the use; loans of £200,000 are the letting's; value £160,000: £8,000 counts."""
    found = owner(LENT + HOLIDAY + EXTENSION)

    assert box(found) == "8000.00"
    assert note(found, "£2,000.00 of £10,000.00 is cut")
    assert sum(t.pence for b in found.boxes if b.number == "44" for t in b.figure.trail) == 8_000_00


def test_up_to_the_value_nothing_is_cut_nor_by_what_was_owed() -> None:
    assert box(owner(LENT, "    valued 1 Jun 2015 at £200,000\n")) == "12000.00"
    assert box(owner(LENT, "    valued 1 Jun 2015 at £199,999.99\n")) == "12000.00"  # cut by less than half a penny
    assert box(owner(LENT, "    valued 1 Jun 2015 at £199,999\n")) == "11999.94"
    assert box(owner(LENT, people="    accounting accruals\n")) == "12000.00"


def test_what_was_paid_back_by_the_end_of_the_year_no_longer_stands_above_the_value() -> None:
    assert box(owner(LENT + "5 Apr 2026 repaid loan £50,000.00 to big\n")) == "12000.00"
    assert box(owner(LENT + "6 Apr 2026 repaid loan £50,000.00 to big\n")) == "9000.00"


def test_a_later_value_does_not_count_and_the_price_stands_in_with_a_word() -> None:
    found = owner(LENT, "    valued 1 Jun 2020 at £300,000\n")

    assert box(found) == "7200.00"
    assert note(found, "the price stands for that value")


def test_each_owner_by_the_own_share() -> None:
    half = owner(LENT, VALUED + "    owners x 50% and z 50%\n", 'landlord z "Z"\n')

    assert box(half) == "4500.00"
    assert note(half, "£100,000.00 on 5 Apr 2026, by your share, more than the £75,000.00")


NOT_BOUGHT = "nation england"


@pytest.mark.parametrize(
    "lines, valued, words", [(LENT, "", "of a your book tells no value"), ("", VALUED, "Not looked into")]
)
def test_what_is_not_known_is_said_and_nothing_is_cut(lines: str, valued: str, words: str) -> None:
    found = owner(lines, valued, bought=NOT_BOUGHT)

    assert box(found) == "12000.00"
    assert note(found, words)


def test_the_part_that_counts() -> None:
    assert under_ceiling(10_000_00, 160_000_00, 200_000_00, TaxYear(2025)) == 8_000_00
    assert under_ceiling(10_000_00, 200_000_00, 200_000_00, TaxYear(2025)) == 10_000_00


@pytest.mark.parametrize("valued, of_x, of_z", [("140,000", "4712.50", "2537.50"), ("175,000", "5850.00", "3150.00")])
def test_loans_and_value_are_measured_by_the_share_of_the_year_s_last_day(valued: str, of_x: str, of_z: str) -> None:
    """ss. 307C, 307D(3)-(5). Form 17 on 1 Aug 2025: x 70%. By hand: of £200,000 nine tenths are the letting's, so are
    £9,000 of £10,000 interest; a quarter of it fell due before, half and half, so x has £1,125 + £4,725 = £5,850 and z
    £1,125 + £2,025 = £3,150. L is £180,000 and V £145,000 (£140,000 and an extension), by the same shares at the end:
    5,850 x 145/180 and 3,150 x 145/180. Where the house was worth £175,000, V is £180,000: no cut."""
    text = (
        'landlord x "X"\n    married to z\nlandlord z "Z"\nproperty a "1 A Street"\n'
        "    bought 1 Mar 2015 for £150,000\n    owners x 70% and z 30%\n"
        "    form 17 signed 1 Aug 2025, sent 29 Sep 2025\n    as bought lettable\n    price normal\n"
        f'    valued 1 Jun 2015 at £{valued}\nloan big on a from "Big Bank"\n    interest only\n'
        "tenancy t at a\n    tenants \"T. Enant\"\n    periodic from 1 Jun 2015\n    rent £1,400 a month\nat a\n"
        "1 Mar 2015 borrowed £180,000.00 from big for purchase\n"
        '1 Mar 2015 borrowed £20,000.00 from big for private "boat"\n'
        '10 Jun 2024 extended lounge £5,000.00 by "Bo Lunt", chosen\n'
        "1 Jun 2025 received rent £16,800.00 from t\n"
        + "".join(f"{day} paid loan interest £2,500.00 to big\n" for day in
                  ("30 Jun 2025", "30 Sep 2025", "31 Dec 2025", "31 Mar 2026"))
    )  # fmt: skip
    book = build({"a.book": text})
    assert [p.headline for p in book.problems if p.level is Level.ERROR] == []
    found = {o.owner: o for o in year_end(Accounts(book), TaxYear(2025)).owners}

    assert [box(found["x"]), box(found["z"])] == [of_x, of_z]
    assert note(found["x"], "is cut") == (valued == "140,000")


def test_a_loan_on_a_house_that_was_sold_is_a_question_and_nothing_is_cut() -> None:
    """No house is left whose worth could bear it, so all would be cut; a sale commonly pays the loan off."""
    sold = VALUED + "    exchanged 1 Nov 2025\n    sold 1 Dec 2025 for £250,000\n"
    asked = owner(LENT, sold)

    assert box(asked) == "12000.00" and note(asked, "Was big paid off when the house it was on was sold?")
    paid_off = owner(LENT + "1 Dec 2025 repaid loan £200,000.00 to big\n", sold)
    assert box(paid_off) == "12000.00" and not note(paid_off, "paid off")
    went_on = owner(LENT, sold, owed="    owed £200,000 on 5 Apr 2026\n")
    assert box(went_on) == "" and note(went_on, "£12,000.00 of £12,000.00 is cut")
