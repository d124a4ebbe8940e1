"""Boxes of the pages that are seldom used: lodgers, kit of one's own, ticks, and what is said of blank ones."""

from __future__ import annotations

from pathlib import Path

import pytest

from ledger_tools import law
from ledger_tools.book.build import build
from ledger_tools.days import TaxYear
from ledger_tools.problems import Level
from ledger_tools.render.year_end import TICKS, page
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.blank_boxes import blank_boxes
from ledger_tools.statements.quarter import quarter, yearly
from ledger_tools.statements.year_end import OwnerYear, year_end

YEAR = TaxYear(2025)
HARBOUR = Path(__file__).parents[2] / "sample_books" / "harbour"
HOME = """landlord x "X"
    claims rent a room {claim}in 2025-26
{people}property a "1 A Street"
    bought 1 May 2015 for £100,000
    as bought lettable
    price normal
    owners {owners}
    own home from 1 May 2015
property b "2 B Street"
    bought 1 May 2015 for £100,000
    as bought lettable
    price normal
    owners x 100%
tenancy t at b
    tenants "T. Enant"
    periodic from 1 Jun 2015
    rent £500 a month
at b
1 May 2025 received rent £6,000.00 from t
at a
"""


def accounts(text: str) -> Accounts:
    made = build({"a.book": text})
    assert [p.headline for p in made.problems if p.level is Level.ERROR] == []
    return Accounts(made)


def lodger(rent: str, claim: str = "", owners: str = "x 100%", people: str = "") -> Accounts:
    return accounts(HOME.format(claim=claim, owners=owners, people=people) + rent)


def of(made: Accounts, owner: str = "x") -> OwnerYear:
    return next(o for o in year_end(made, YEAR).owners if o.owner == owner)


def pounds(o: OwnerYear) -> dict[str, int]:
    return {b.number: b.pounds for b in o.boxes}


@pytest.mark.parametrize(("rent", "ticked"), [("7,500.00", True), ("7,500.01", False)])
def test_lodgers_who_paid_no_more_than_the_limit_are_a_tick_in_box_4_and_no_rent(rent: str, ticked: bool) -> None:
    """£7,500 is the limit, itself within it (SA105 box 4); the rent of the other house stays."""
    found = of(lodger(f"1 Jul 2025 received lodger rent £{rent}\n"))

    assert (dict(found.ticks).get("4") == "X") is ticked
    assert pounds(found)["20"] == (6_000 if ticked else 13_500)


def test_where_the_home_has_two_owners_the_limit_is_the_half_for_each() -> None:
    """£3,750 each: £7,500 in all is within it, £7,502 is not."""
    two = {"owners": "x 50% and y 50%", "people": 'landlord y "Y"\n'}

    assert dict(of(lodger("1 Jul 2025 received lodger rent £7,500.00\n", **two)).ticks).get("4") == "X"
    assert "4" not in dict(of(lodger("1 Jul 2025 received lodger rent £7,502.00\n", **two)).ticks)


def test_a_sum_told_stands_in_box_37_and_ticks_nothing() -> None:
    found = of(lodger("1 Jul 2025 received lodger rent £5,000.00\n", claim="£5,000 "))

    assert "4" not in dict(found.ticks) and (pounds(found)["20"], pounds(found)["37"]) == (11_000, 5_000)


def test_free_rent_of_lodgers_is_in_no_update_either_not_even_before_all_of_it_came() -> None:
    made = lodger("1 Jul 2025 received lodger rent £2,000.00\n1 Jan 2026 received lodger rent £2,000.00\n")

    for number in (1, 4):
        assert sum(f.figure.pence for f in quarter(made, "x", YEAR, number).fields) == 6_000_00


def test_costs_that_come_off_for_the_lodgers_home_are_told() -> None:
    """A repair of the home before it was lived in no more: here the home is not told, so its costs come off."""
    told = HOME.replace("    own home from 1 May 2015\n", "")
    lines = "1 Jul 2025 received lodger rent £5,000.00\n2 Jul 2025 paid landlord insurance £300.00\n"
    found = of(accounts(told.format(claim="", owners="x 100%", people="") + lines))

    assert any("£300.00 of costs of the same home come off above" in note for note in found.notes)
    assert not any("come off above" in note for note in of(lodger(lines)).notes)


KIT = """landlord x "X"
    accounting accruals
landlord y "Y"
property a "1 A Street"
    bought 1 May 2015 for £100,000
    as bought lettable
    price normal
    owners x 50% and y 50%
tenancy t at a
    tenants "T. Enant"
    periodic from 1 Jun 2015
    rent £500 a month
at a
1 May 2025 received rent £6,000.00 from t
2 May 2025 bought laptop £90.00
"""


def test_kit_of_their_own_is_an_expense_of_one_owner_and_an_allowance_of_the_other() -> None:
    """ITTOIA 2005 s. 307B: half of £90 by payment in box 29; by what is owed in box 32, once a year."""
    made = accounts(KIT)
    x, y = pounds(of(made, "x")), pounds(of(made, "y"))

    assert (x.get("32"), x.get("29"), y.get("32"), y.get("29")) == (45, None, None, 45)
    assert "allowances.annualInvestmentAllowance" in {f.name for f in yearly(made, "x", YEAR).fields}
    assert "expenses.other" in {f.name for f in quarter(made, "y", YEAR, 1).fields}


def test_every_tick_has_words_and_the_page_of_a_year_in_which_the_last_house_went_can_be_said() -> None:
    ticks = {box.number for box in law.pages(YEAR) if box.kind == "info" and box.rounding == "none"}
    sold = KIT.replace("tenancy t", "    sold 10 Feb 2026 for £150,000\ntenancy t")

    assert ticks == set(TICKS)
    assert dict(of(accounts(sold)).ticks)["2"] == "X" and page(year_end(accounts(sold), YEAR))


FILLED = {"1", "2", "3", "4", "20", "20.1", "20.2", "21", "22", "23", "24", "25", "26", "27", "28", "29", "31", "32",
          "36", "37", "38", "39", "40", "41", "43", "44", "45"}  # fmt: skip


@pytest.mark.parametrize("start", range(2016, 2026))
def test_each_box_of_a_year_is_filled_or_said_to_stay_blank(start: int) -> None:
    year = TaxYear(start)
    blank = {box.number for box in law.pages(year) if not box.handled}
    for numbers, _ in blank_boxes(year):
        blank |= set() if numbers == "5 to 19" else {*numbers.split(", ")}
    stands = {box.number for box in law.pages(year)}

    assert blank | (FILLED & stands) == stands
    assert not blank & FILLED and ("5 to 19" in dict(blank_boxes(year))) is (start < 2025)


SHARED = HOME.format(claim="", owners="x 75% and y 25%", people='landlord y "Y"\n')
OPEN = SHARED.replace("    own home from 1 May 2015\n", "")


def test_an_open_sum_of_which_neither_answer_is_on_the_pages_is_worth_nothing_either_way() -> None:
    told = OPEN.replace("in 2025-26\n", "in 2025-26\n    other income £30,000 in 2025-26\n", 1)
    made = accounts(told + "1 Jul 2025 replaced worktop £600.00\n2 Jul 2025 installed bike store £380.00, loose\n")
    worktop, store = of(made).open

    assert (worktop.if_so, store.if_so) == ("off the rents", "either way")


def test_the_answers_of_an_open_sum_are_about_what_is_open_of_it() -> None:
    """Of £3,900 for windows £400 were worn since the house was got, so £3,500 is open, £2,625 of it Morwenna's: neither
    answer speaks of the £400 that is no question."""
    made = Accounts(build({p.name: p.read_text(encoding="utf-8") for p in HARBOUR.glob("*.book")}))
    (windows,) = (i for i in of(made, "morwenna").open if i.trace.words.startswith("replaced windows"))

    assert windows.trace.pence == 2_625_00 and not any("£" in answer for answer in windows.answers)


def test_by_what_is_owed_a_year_after_the_last_line_of_the_book_is_no_result() -> None:
    """Insurance of £366 for 2024 told in February of it: 270 of its days are of 2024-25, for which no rent is told."""
    lines = "1 Feb 2024 paid landlord insurance £366.00 for 1 Jan 2024 to 31 Dec 2024\n"
    made = accounts(KIT[: KIT.index("1 May 2025")] + lines)
    found, before = (next(o for o in year_end(made, TaxYear(y)).owners if o.owner == "x") for y in (2024, 2023))

    assert pounds(found)["24"] == 135 and any("Your book ends in 2023-24" in note for note in found.notes)
    assert pounds(before)["24"] == 48 and not any("Your book ends" in note for note in before.notes)


SOFA = KIT.replace("2 May 2025 bought laptop £90.00\n", "") + (
    "1 May 2024 replaced sofa £400.00, like for like\n    old one scrapped\n3 Feb 2026 sold sofa £80.00\n"
)


def test_an_item_that_had_relief_leaves_by_the_owners_ways_of_accounting() -> None:
    """ITTOIA 2005 ss. 307E, 271A condition C: by payment what it brings is income; by what is owed it is open, and so
    it is for her husband too; strangers who account in two ways are told."""
    married = SOFA.replace('landlord y "Y"\n', 'landlord y "Y"\n    married to x\n')
    strangers, couple = accounts(SOFA), accounts(married)

    assert [len(of(couple, name).open) for name in "xy"] == [1, 1]
    assert [len(of(strangers, name).open) for name in "xy"] == [0, 0] and pounds(of(strangers, "y"))["20"] == 3_040
    said = [fired.says for verdict in strangers.verdicts for fired in verdict.path if fired.decided]
    assert any("For an owner on accruals it is income only if" in words for words in said)


def test_kit_that_is_sold_is_other_income_of_one_owner_and_a_balancing_charge_of_the_other() -> None:
    """ITTOIA 2005 s. 307E; CAA 2001 s. 55, from memory. A laptop of £90 brings £120: £90 counts, half of it each, and
    £30 is a capital sum."""
    made = accounts(KIT + "1 Feb 2026 sold laptop £120.00\n")
    x, y = pounds(of(made, "x")), pounds(of(made, "y"))

    assert (x.get("31"), x["20"], y.get("31"), y["20"]) == (45, 3_000, None, 3_045)
    assert "adjustments.balancingCharge" in {f.name for f in yearly(made, "x", YEAR).fields}


def test_a_balancing_charge_is_among_the_receipts_of_the_allowance() -> None:
    """S. 783BD: £900 of rent and £100 for the laptop are within £1,000, and a penny more is not."""
    lone = KIT.replace('landlord y "Y"\n', "").replace("x 50% and y 50%", "x 100%")
    lone = lone.replace("    rent £500 a month\n", "").replace("£6,000.00", "£900.00")
    lone = lone.replace("laptop £90.00", "laptop £400.00")

    free, above = (of(accounts(f"{lone}1 Feb 2026 sold laptop £{price}\n")) for price in ("100.00", "100.01"))
    assert (pounds(free)["20.1"], pounds(free)["40"]) == (1_000, 0)
    assert "20.1" not in pounds(above) and pounds(above)["38"] == 900 + 100 - 400
