"""From exact sums to boxes: rounding, the allowance, losses, finance costs; each at its edge."""

from __future__ import annotations

import pytest

from ledger_tools.days import TaxYear
from ledger_tools.taxes.income.allowance import How
from ledger_tools.taxes.income.boxes import Pages, fill, whole_pounds

YEAR = TaxYear(2025)


def typed(pages: Pages) -> dict[str, int]:
    return {number: box.pounds for number, box in pages.boxes.items()}


def exact(pages: Pages) -> dict[str, int]:
    return {number: box.pence for number, box in pages.boxes.items()}


# ── rounding ─────────────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(
    "pence, down, up",
    [(0, 0, 0), (1, 0, 1), (99, 0, 1), (100, 1, 1), (101, 1, 2), (-1, -1, 0), (-100, -1, -1), (-101, -2, -1)],
)
def test_whole_pounds_go_to_the_landlord_s_advantage(pence: int, down: int, up: int) -> None:
    """SAM121370: income is rounded down, costs up."""
    assert (whole_pounds(pence, "down"), whole_pounds(pence, "up")) == (down, up)


def test_categories_of_one_box_are_added_before_it_is_rounded() -> None:
    pages = fill(YEAR, {"rent": 10_060, "other_income": 10_060, "repairs": 5_001})

    assert exact(pages) == {"20": 20_120, "25": 5_001, "38": 15_119, "40": 15_119}
    assert typed(pages) == {"20": 201, "25": 51, "38": 150, "40": 150}


def test_a_category_of_nothing_makes_no_box_and_one_below_nil_is_told() -> None:
    assert typed(fill(YEAR, {"rent": 10_000, "repairs": 0})) == {"20": 100, "38": 100, "40": 100}
    below = fill(YEAR, {"rent": 10_000, "repairs": -150})
    assert exact(below) == {"20": 10_150, "38": 10_150, "40": 10_150}
    assert [note[:6] for note in below.notes] == ["Box 25"]
    assert fill(YEAR, {"rent": 10_000, "repairs": 150}).notes == ()


def test_a_refund_above_the_costs_of_the_year_is_income_and_no_minus_is_typed() -> None:
    """The profit is the same: £2,000 and £400.50 that came back, less £300."""
    found = fill(YEAR, {"rent": 200_000, "premises": -40_050, "professional": 30_000})

    assert typed(found) == {"20": 2_400, "27": 300, "38": 2_100, "40": 2_100}
    assert found.moved == {"24": "20"}


def test_rent_given_back_beyond_what_came_is_another_cost() -> None:
    assert typed(fill(YEAR, {"rent": -10_000})) == {"29": 100, "41": 100, "43": 100}


@pytest.mark.parametrize("brought, in_45, said", [(0, None, "£200.50 lowers"), (15_000, None, "£50.50 lowers"),
                                                  (30_000, 9_950, "taken off box 45")])  # fmt: skip
def test_interest_that_came_back_is_no_income_and_lowers_what_was_brought_in(
    brought: int, in_45: int | None, said: str
) -> None:
    """Box 44 earned a reduction at the basic rate; in box 20 the refund would be taxed at the highest one."""
    found = fill(YEAR, {"rent": 200_000, "finance_residential": -20_050}, finance_brought=brought)

    assert (exact(found)["20"], exact(found).get("44"), exact(found).get("45")) == (200_000, None, in_45)
    assert said in found.notes[0] and "box 20" in found.notes[0]


# ── finance costs ────────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(
    "year, pence, in_26, in_44",
    [
        (2016, 101, 101, None),  # all of it
        (2017, 1, 1, None), (2017, 2, 2, None), (2017, 3, 2, 1), (2017, 4, 3, 1),  # three quarters: 2.25 is 2
        (2018, 101, 51, 50), (2018, 1, 1, None), (2018, 3, 2, 1),  # half a penny goes to box 26
        (2019, 2, 1, 1), (2019, 1, None, 1), (2019, 101, 25, 76), (2019, 102, 26, 76),
        (2020, 101, None, 101),
    ],
)  # fmt: skip
def test_half_a_penny_of_finance_costs_comes_off_the_rents(
    year: int, pence: int, in_26: int | None, in_44: int | None
) -> None:
    """ITTOIA 2005 s. 272A: 75%, 50%, 25% and nothing deductible; the two boxes always make the whole."""
    boxes = exact(fill(TaxYear(year), {"finance_residential": pence}))

    assert (boxes.get("26"), boxes.get("44")) == (in_26, in_44)


def test_finance_costs_in_box_44_change_no_profit() -> None:
    assert typed(fill(YEAR, {"rent": 10_000, "finance_residential": 4_001})) == {
        "20": 100,
        "38": 100,
        "40": 100,
        "44": 41,
    }


def test_unused_finance_costs_stand_in_box_45_from_the_first_year_that_has_one() -> None:
    assert exact(fill(YEAR, {"rent": 10_000}, finance_brought=2_501))["45"] == 2_501
    assert typed(fill(YEAR, {"rent": 10_000}, finance_brought=2_501)) == {"20": 100, "38": 100, "40": 100, "45": 26}
    assert "45" not in fill(YEAR, {"rent": 10_000}).boxes
    assert "45" not in fill(TaxYear(2016), {"rent": 10_000}, finance_brought=2_501).boxes
    assert "45" not in fill(YEAR, {"rent": 10_000}, finance_brought=2_501, how=How.PARTIAL).boxes


# ── the allowance ────────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(
    "rent, pence, pounds, profit",
    [
        (99_999, 99_999, 999, 0), (100_000, 100_000, 1_000, 0), (100_001, 100_000, 1_000, 0),
        (100_100, 100_000, 1_000, 1), (56_750, 56_750, 567, 0), (1, 1, 0, 0),
    ],
)  # fmt: skip
def test_the_allowance_is_capped_by_the_law_and_by_the_income(rent: int, pence: int, pounds: int, profit: int) -> None:
    """ITTOIA 2005 s. 783BF, 783BI: £1,000, and never a loss."""
    pages = fill(YEAR, {"rent": rent}, how=How.PARTIAL)

    assert (pages.boxes["20.1"].pence, pages.boxes["20.1"].pounds) == (pence, pounds)
    assert (pages.boxes["38"].pounds, pages.loss_on) == (profit, 0)


def test_the_allowance_counts_all_income_and_takes_the_place_of_every_cost() -> None:
    sums = {"rent": 30_000, "premium": 90_050, "repairs": 50_000, "domestic": 10_000, "finance_residential": 5_000}
    pages = fill(YEAR, sums, how=How.PARTIAL)

    assert typed(pages) == {"20": 300, "20.1": 1_000, "22": 900, "38": 200, "40": 200}
    assert len(pages.notes) == 1


def test_the_allowance_of_a_premium_alone_and_of_a_year_without_income() -> None:
    alone = fill(YEAR, {"premium": 120_000}, how=How.PARTIAL)
    nothing = fill(YEAR, {"repairs": 5_000}, how=How.PARTIAL)

    assert typed(alone) == {"20.1": 1_000, "22": 1_200, "38": 200, "40": 200}
    assert (nothing.boxes["38"].pounds, nothing.loss_on) == (0, 0)
    assert "25" not in nothing.boxes and "41" not in nothing.boxes


def test_a_loss_brought_is_used_after_the_allowance() -> None:
    pages = fill(YEAR, {"rent": 140_000}, loss_brought=10_000, how=How.PARTIAL)

    assert typed(pages) == {"20": 1_400, "20.1": 1_000, "38": 400, "39": 100, "40": 300}


# ── losses ───────────────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(
    "rent, costs, brought, boxes, loss_on",
    [
        (10_000, 0, 0, {"38": 100, "40": 100}, 0),
        (10_000, 0, 3_001, {"38": 100, "39": 31, "40": 69}, 0),  # a loss is rounded up
        (10_000, 0, 9_999, {"38": 100, "39": 100, "40": 0}, 0),
        (10_000, 0, 10_000, {"38": 100, "39": 100, "40": 0}, 0),
        (10_000, 0, 10_001, {"38": 100, "39": 100, "40": 0, "43": 1}, 1),
        (10_000, 10_000, 5_000, {"38": 0, "39": 0, "40": 0, "43": 50}, 50),
        (10_000, 10_001, 0, {"41": 1, "43": 1}, 1),
        (10_000, 12_000, 5_000, {"41": 20, "43": 70}, 70),
    ],
)
def test_losses_are_used_as_far_as_the_profit_goes_and_the_rest_goes_on(
    rent: int, costs: int, brought: int, boxes: dict[str, int], loss_on: int
) -> None:
    """Boxes 38 to 43 of the pages: a loss of earlier years comes off the first profit (ITA 2007 s. 118)."""
    pages = fill(YEAR, {"rent": rent, "repairs": costs}, loss_brought=brought)

    assert {n: p for n, p in typed(pages).items() if n not in ("20", "25")} == boxes
    assert pages.loss_on == loss_on


def test_beside_the_pounds_of_losses_stand_the_exact_sums() -> None:
    used = exact(fill(YEAR, {"rent": 10_050}, loss_brought=3_001))
    left = exact(fill(YEAR, {"rent": 10_050}, loss_brought=20_001))
    more = exact(fill(YEAR, {"rent": 10_050, "repairs": 12_075}, loss_brought=3_001))

    assert (used["38"], used["39"], used["40"]) == (10_050, 3_001, 7_049)
    assert (left["39"], left["40"], left["43"]) == (10_050, 0, 9_951)
    assert (more["41"], more["43"]) == (2_025, 5_026)


def test_boxes_below_nil_are_moved_alike_in_whatever_order_the_sums_come() -> None:
    """A cost that came back goes to the income first; what is then below nil there is a cost."""
    sums = {"rent": -16_33, "repairs": -1, "other": -2}
    made = [fill(YEAR, dict(order)).boxes for order in (sums.items(), reversed(sums.items()))]

    assert [{n: b.pence for n, b in boxes.items() if n in ("20", "25", "29")} for boxes in made] == [{"29": 16_30}] * 2
