"""Hard years of small books, each worked out by hand first: kit sold, a debt given up, shares on one day, a death."""

from __future__ import annotations

import pytest

from ledger_tools.days import TaxYear
from ledger_tools.render import json_form
from ledger_tools.render.text import draw
from ledger_tools.render.year_end import page
from ledger_tools.statements.quarter import quarter
from ledger_tools.statements.year_end import year_end

from .test_edges import book, of, pounds

ACCRUALS = 'landlord x "X"\n    accounting accruals\n    other income £30,000 in 2025-26\n'
CASH = ACCRUALS.replace("accruals", "cash")
RENTS = "".join(f"1 {m} 2024 received rent £500.00 from t\n" for m in ("May", "Jun", "Jul"))
RENTS += "".join(f"1 {m} 2025 received rent £500.00 from t\n" for m in ("May", "Jun", "Jul"))


@pytest.mark.parametrize(("people", "cost", "brings"), [(ACCRUALS, "32", "31"), (CASH, "29", "20")])
def test_a_mower_sold_is_what_the_line_that_bought_it_says(people: str, cost: str, brings: str) -> None:
    """Bought for upkeep for £400: all of it came off. Sold a year later for £150, whoever says what it was for: income
    by payment (ITTOIA 2005 s. 307E), a balancing charge by what is owed (CAA 2001 ss. 55, 61-62)."""
    made = book(
        RENTS + "10 Jun 2024 bought lawnmower £400.00, for upkeep\n10 Jun 2025 sold lawnmower £150.00\n", people
    )
    before, after = of(made, 2024), of(made, 2025)

    assert pounds(before)[cost] == 400
    assert pounds(after)[brings] == (150 if brings == "31" else 1_650)
    assert not after.open and not any(i.trace.pence == 150_00 for i in after.left_out)


def test_a_mower_of_unknown_use_is_open_when_it_goes_and_says_what_settles_it() -> None:
    """Whose use it was for was never told: that its £150 is no income would be a guess. Settled on the line of 2024."""
    made = book(RENTS + "10 Jun 2024 bought lawnmower £400.00\n10 Jun 2025 sold lawnmower £150.00\n", CASH)
    [sold] = of(made, 2025).open

    assert (sold.trace.pence, sold.comes_in, sold.worth and sold.worth.tax) == (150_00, True, 30_00)
    text = " ".join(draw(page(year_end(made, TaxYear(2025)))).split())
    assert f"it is settled with what it cost, of another year ({sold.follows[0]})" in text


def test_a_mower_left_for_the_tenant_brings_a_capital_sum() -> None:
    made = book(
        RENTS + "10 Jun 2024 bought lawnmower £400.00, for tenant\n10 Jun 2025 sold lawnmower £150.00\n", CASH
    )
    assert pounds(of(made, 2025))["20"] == 1_500
    assert [i.trace.pence for i in of(made, 2025).left_out] == [150_00]


# ── rent that never came ─────────────────────────────────────────────────────────────────────────────────────────

ENDED = "    moved out 20 Nov 2025\n    ended 20 Nov 2025\n"
GONE = "".join(f"10 {m} 2025 received rent £900.00 from t for {m} 2025\n" for m in ("Apr", "May", "Jun", "Jul", "Aug"))
GONE += "10 Sep 2025 received rent £500.00 from t for Sep 2025\n10 Jan 2026 wrote off rent £{}.00 from t\n"


def test_rent_of_an_ended_let_that_never_came_comes_off_by_what_is_owed() -> None:
    """April 25 of 30 days, May to October, 20 of 30 days of November at £900: £750 + £5,400 + £600. Of September to
    November £400 + £900 + £600 never came: £1,900 off (ITTOIA 2005 s. 35 through s. 272), though no let followed."""
    found = of(book(GONE.format("1,900"), ACCRUALS, ended=ENDED, rent="900"), 2025)

    assert {n: pounds(found)[n] for n in ("20", "29", "38")} == {"20": 6_750, "29": 1_900, "38": 4_850}
    assert not found.open and not any("more of the rent" in note for note in found.notes)


def test_more_given_up_than_was_owed_is_told() -> None:
    """£2,700 given up of £1,900 owed: £800 of it never counted."""
    found = of(book(GONE.format("2,700"), ACCRUALS, ended=ENDED, rent="900"), 2025)
    assert any("gives up £800.00 more of the rent of t at a as lost" in note for note in found.notes)


# ── whose it is ──────────────────────────────────────────────────────────────────────────────────────────────────

THREE = 'landlord x "X"\nlandlord y "Y"\nlandlord z "Z"\n'


def test_an_update_names_the_shared_houses_of_its_owner_alone() -> None:
    """X had all of the house until 1 October 2025 and 60% since; Z never had any."""
    made = book(RENTS, THREE, owners="x 100%\n    owners x 60% and y 40% from 1 Oct 2025")

    def says(owner: str, number: int) -> bool:
        notes = quarter(made, owner, TaxYear(2025), number).notes
        return "Only your own share of a is in it." in notes

    assert [says("x", n) for n in (1, 2, 3, 4)] == [False, True, True, True]
    assert [says("y", n) for n in (1, 2)] == [False, True]
    assert not any(says("z", n) for n in (1, 2, 3, 4))


def test_half_to_a_spouse_and_a_quarter_to_a_daughter_on_one_day() -> None:
    """X gives Y, the spouse, 50% and Z 25% on 1 October 2025. By hand: of £500 X has all of May to July, £1,500, and of
    December half of the 75% that the two hold together, 3/8: £187.50; Y the same £187.50, Z a quarter: £125."""
    people = THREE.replace('"Y"', '"Y"\n    married to x')
    people = people.replace('"\n', '"\n    declines property allowance in 2025-26\n')
    owners = "x 100%\n    owners x 25% and y 50% and z 25% from 1 Oct 2025"
    made = book(RENTS + "1 Dec 2025 received rent £500.00 from t\n", people, owners=owners)
    x, y, z = (of(made, 2025, name) for name in "xyz")

    came = [next(b.figure.pence for b in each.boxes if b.number == "20") for each in (x, y, z)]
    assert came == [1_687_50, 187_50, 125_00]
    half = "the rent of the 75% that they hold together is shared half and half between spouses, though you own 50%"
    assert any(half in note and "and was none before" in note for note in y.notes)
    assert not any("half and half" in note for note in z.notes)


def test_an_update_by_what_was_owed_says_that_sums_for_days_to_come_are_in_it() -> None:
    """Rent of July counts on 1 July, though only five of its days are before the 6th; a year has all of its days."""
    said = "days after 5 Jul 2025 may be in it"
    for people, told in ((ACCRUALS, True), (CASH, False)):
        made = book(RENTS, people)
        assert any(said in note for note in quarter(made, "x", TaxYear(2025), 1).notes) is told
        assert not any("may be in it" in note for note in quarter(made, "x", TaxYear(2025), 4).notes)


def test_the_boxes_left_blank_stand_in_the_json_as_on_the_page() -> None:
    told = json_form.year_end(year_end(book(RENTS, CASH), TaxYear(2025)))["blank"]

    assert {"boxes": "30", "why": "private use: the private part is left out of each cost instead"} in told
    assert [each["boxes"] for each in told] == ["30", "33, 33.1, 33.2", "34.1", "35", "42"]


def test_the_last_pages_of_one_who_died_ask_nothing_towards_the_next_year() -> None:
    """X dies on 10 November 2025 with half of a house; half goes to Z, who had none, and Y keeps the other. By hand: of
    £500 a month X has half of May to July, £750, and Z half of December, £250; the other income of £30,000 bears
    £3,486, nothing on account for a year in which X has no income. Rent of the estate may be no income of Z yet."""
    people = THREE.replace("\n", "\n    declines property allowance in 2025-26\n    other income £30,000 in 2025-26\n")
    owners = "x 50% and y 50%\n    owners z 50% and y 50% from 10 Nov 2025, on death"
    made = book(RENTS + "1 Dec 2025 received rent £500.00 from t\n", people, owners=owners)
    x, y, z = (of(made, 2025, name) for name in "xyz")

    assert [pounds(each)["20"] for each in (x, y, z)] == [750, 1_000, 250]
    assert [each.on_account for each in x.in_tax.to_pay] == [(), ()]
    assert y.in_tax.to_pay[1].on_account  # who lives on pays on account
    assert any("died on 10 Nov 2025" in note for note in x.notes)
    assert not any("if you let again" in note or "the same business goes on" in note for note in x.notes)
    assert any("came to you by the death of X" in note and "the estate's" in note for note in z.notes)
    assert not any("death" in note for note in y.notes)
    assert not any("joint tenants" in note for note in z.notes)


# ── from year to year ────────────────────────────────────────────────────────────────────────────────────────────


def test_a_sum_worked_out_from_a_year_with_open_questions_says_so() -> None:
    """2024-25: £1,500 of rent, £2,000 of interest: £500 goes on. Whether the worktop of £400 was a repair is open, and
    with it £900 would go on. The question is of 2024-25; 2025-26 must tell it, for its box 45 hangs on it."""
    people = 'landlord x "X"\n    other income £30,000 in 2024-25\n    other income £30,000 in 2025-26\n'
    lines = RENTS + "1 Jun 2024 paid loan interest £2,000.00 to big\n"
    said = "Open questions of 2024-25 can still change it"
    for worktop, open_ in (("", True), (", like for like", False)):
        made = book(lines + f"5 Jun 2024 replaced worktop £400.00, worn out{worktop}\n", people)
        found = of(made, 2025)
        assert pounds(found)["45"] == (500 if open_ else 900)
        assert any(said in note for note in found.notes) is open_
