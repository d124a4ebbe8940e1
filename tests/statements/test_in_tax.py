"""What a year means in tax: sums brought through the years, the estimate, what open items are worth.

Sums are worked out by hand beside each test; the computations alone are held by tests/published/tax.toml.
"""

from __future__ import annotations

import json

import pytest

from ledger_tools.book.build import build
from ledger_tools.days import TaxYear
from ledger_tools.render import json_form
from ledger_tools.render.text import draw
from ledger_tools.render.year_end import page
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.in_tax import Worth
from ledger_tools.statements.year_end import OwnerYear, YearEnd, year_end

from .test_years import HOUSE, owners, typed

LOAN = "loan n on a\n"
# Small rents in these books stand for any: the property allowance, which would free them by itself, is declined.
DECLINED = "".join(f"    declines property allowance in {year}\n" for year in ("2022-23", "2024-25"))
WAGES = "    other income £30,000 in {}\n"


def landlord(*years: str, more: str = "") -> str:
    return 'landlord x "X"\n' + DECLINED + "".join(WAGES.format(year) for year in years) + more


def year(rent: str, interest: str, start: int) -> str:
    return f"1 Jul {start} received rent £{rent} from t\n1 Jul {start} paid loan interest £{interest} to n\n"


def x(book: str, start: int) -> OwnerYear:
    return owners(book, start)["x"]


def said(owner: OwnerYear, words: str) -> bool:
    return any(words in note for note in (*owner.notes, *owner.in_tax.notes))


# ── brought through the years ────────────────────────────────────────────────────────────────────────────────────

THREE = HOUSE + LOAN + year("1,000.00", "5,000.00", 2022) + year("6,000.00", "5,000.00", 2023)
THREE += year("9,000.00", "0.01", 2024)


def test_unused_finance_costs_go_on_until_a_profit_takes_them() -> None:
    """2022-23: 5,000 against a profit of 1,000 leaves 4,000; 2023-24: 9,000 against 6,000 leaves 3,000; then none."""
    book = landlord("2022-23", "2023-24", "2024-25") + THREE
    found = {start: x(book, start) for start in (2022, 2023, 2024)}

    assert "45" not in typed(found[2022])
    assert (typed(found[2023])["45"], typed(found[2024])["45"]) == (4000, 3000)
    made = [o.in_tax.estimate for o in found.values()]
    assert [e and e.reduction for e in made] == [200_00, 1_200_00, 600_20]
    assert made[2] and made[2].relief.left == 0
    assert said(found[2024], "£3,000.00 that earned no reduction yet, worked out from 2023-24")


def test_a_year_without_a_line_carries_them_on() -> None:
    found = x(landlord("2022-23", "2023-24", "2024-25") + HOUSE + LOAN + year("1,000.00", "5,000.00", 2022), 2024)

    assert typed(found) == {"38": 0, "40": 0, "45": 4000}


def test_what_the_book_tells_is_the_start() -> None:
    book = landlord("2023-24", more="    unused finance costs £700 brought into 2023-24\n") + HOUSE + LOAN
    book += year("6,000.00", "100.00", 2023)

    assert typed(x(book, 2023))["45"] == 700
    assert said(x(book, 2023), "as your book tells")
    assert owners(book, 2024) == {}  # all of it earned its reduction, and the next year has no line


def test_other_income_not_told_leaves_box_45_open_and_says_what_to_write() -> None:
    """A profit of 6,000 is below the allowance: without the wages nobody knows whether it earned a reduction."""
    book = landlord("2022-23", "2024-25") + THREE
    found = x(book, 2024)

    assert "45" not in typed(found)
    assert said(found, "add `other income £… in 2023-24`, or `unused finance costs £… brought into 2024-25`")
    assert said(found, "are not known")
    both = x(landlord("2024-25") + THREE, 2024)
    assert said(both, "add `other income £… in 2022-23` and `other income £… in 2023-24`, or")


def test_other_income_that_cannot_change_the_answer_is_not_asked_for() -> None:
    """A profit of 20,000 alone leaves 7,430 above the allowance, more than the costs of 5,000; no profit leaves all."""
    rich = landlord() + HOUSE + LOAN + year("20,000.00", "5,000.00", 2023) + year("1.00", "1.00", 2024)
    poor = landlord() + HOUSE + LOAN + "1 Jul 2023 paid loan interest £500.00 to n\n" + year("1.00", "1.00", 2024)
    edge = landlord() + HOUSE + LOAN + year("17,569.00", "5,000.00", 2023) + year("1.00", "1.00", 2024)

    assert "45" not in typed(x(rich, 2024)) and not said(x(rich, 2024), "Box 45")
    assert typed(x(poor, 2024))["45"] == 500
    assert said(x(edge, 2024), "Box 45: finance costs that earned no reduction up to 2023-24 belong there")


def test_a_year_with_the_allowance_leaves_older_costs_open() -> None:
    more = "    claims property allowance in 2023-24\n"
    book = landlord("2022-23", "2023-24", "2024-25", more=more) + THREE

    assert said(x(book, 2024), "before 2023-24, when the property allowance was claimed")
    assert "45" not in typed(x(book, 2024))


@pytest.mark.parametrize(
    "more, words",
    [
        ("    unused finance costs £3,500 brought into 2024-25\n", "unused finance costs of £3,500.00 brought into"),
        ("    loss £80 brought into 2024-25\n", "a loss of £80.00 brought into"),
    ],
)  # fmt: skip
def test_a_told_sum_is_used_and_held_against_the_lines(more: str, words: str) -> None:
    people = landlord("2022-23", "2023-24", "2024-25", more=more)
    found = x(people + THREE, 2024)

    assert said(found, words) and said(found, "At odds")
    assert typed(found)["45" if "finance" in more else "39"] == (3500 if "finance" in more else 80)


def test_a_told_sum_that_agrees_or_cannot_be_held_against_anything_is_quiet() -> None:
    agrees = landlord("2022-23", "2023-24", "2024-25", more="    unused finance costs £3,000 brought into 2024-25\n")
    first = landlord("2022-23", more="    loss £80 brought into 2022-23\n")

    assert not said(x(agrees + THREE, 2024), "At odds")
    assert not said(x(first + THREE, 2022), "At odds")


# ── the estimate ─────────────────────────────────────────────────────────────────────────────────────────────────


def test_the_tax_with_and_without_the_letting_and_the_dates() -> None:
    """£45,000 of wages, a profit of 12,000, costs of 6,000: 6,486 without; 10,232 less 1,200 with (2025-26)."""
    book = 'landlord x "X"\n    other income £45,000 in 2025-26\n    lives in england\n' + HOUSE + LOAN
    found = x(book + year("12,000.00", "6,000.00", 2025), 2025).in_tax

    assert found.estimate is not None
    assert (found.estimate.without, found.estimate.before, found.estimate.tax) == (6_486_00, 10_232_00, 9_032_00)
    assert found.estimate.added == 2_546_00
    told = [(p.how, p.last.pence, [(str(a.day), a.pence) for a in p.on_account]) for p in found.to_pay]
    assert told == [
        ("at source", 2_546_00, [("2027-01-31", 1_273_00), ("2027-07-31", 1_273_00)]),
        ("by the return", 9_032_00, [("2027-01-31", 4_516_00), ("2027-07-31", 4_516_00)]),
    ]
    assert not any("Scotland" in note for note in found.notes)


def test_scottish_rates_follow_where_the_landlord_lives() -> None:
    """The same in Scotland comes to £11,953.80 less 1,200."""
    book = 'landlord x "X"\n    other income £45,000 in 2025-26\n    lives in scotland\n' + HOUSE + LOAN
    made = x(book + year("12,000.00", "6,000.00", 2025), 2025).in_tax.estimate

    assert made is not None and made.tax == 10_753_80


def test_no_rates_held_is_said_and_nothing_is_guessed() -> None:
    book = 'landlord x "X"\n    other income £45,000 in 2018-19\n    lives in scotland\n' + HOUSE + LOAN
    found = x(book + year("12,000.00", "6,000.00", 2018), 2018).in_tax

    assert found.estimate is None and not found.tell and "No rates of income tax" in found.notes[0]


def test_rates_that_nobody_read_are_told() -> None:
    book = 'landlord x "X"\n    other income £45,000 in 2026-27\n    lives in scotland\n' + HOUSE + LOAN
    assert said(x(book + year("12,000.00", "6,000.00", 2026), 2026), "not read at its source")
    assert not said(x(book + year("12,000.00", "6,000.00", 2026), 2026), "not checked beyond")
    later = book.replace("2026-27", "2027-28") + year("12,000.00", "6,000.00", 2027)
    assert said(x(later, 2027), "not read at its source and not checked beyond 5 Apr 2027")
    assert not said(x(book.replace("2026-27", "2025-26") + year("12,000.00", "6,000.00", 2025), 2025), "not read")


def test_without_other_income_the_words_to_add_are_told() -> None:
    found = x(landlord() + HOUSE + LOAN + year("12,000.00", "6,000.00", 2025), 2025)

    assert found.in_tax.estimate is None and found.in_tax.tell == "other income £… in 2025-26"


def test_the_other_choice_is_told_where_it_costs_less() -> None:
    """£1,800 of rent, £300 of costs: 160 with the allowance, 300 with the costs; with 1,000 of interest 100."""
    rent = '1 Jul 2025 received rent £1,800.00 from t\n2 Jul 2025 paid insurance £300.00 to "I"\n'
    book = landlord("2025-26") + HOUSE + LOAN + rent
    interest = "1 Jul 2025 paid loan interest £1,000.00 to n\n"
    claims = landlord("2025-26", more="    claims property allowance in 2025-26\n") + HOUSE + LOAN + rent

    assert said(x(book, 2025), "would be £140.00 less. You may choose it up to 31 Jan 2028")
    assert not said(x(book + interest, 2025), "You may choose it")
    assert said(
        x(claims + interest, 2025), "With the real costs in place of the property allowance the tax would be £60"
    )
    assert not said(x(claims, 2025), "With the real costs")
    assert not said(x(book.replace("£300.00", "£1,000.00"), 2025), "less. You may choose")  # the same either way


@pytest.mark.parametrize(
    "start, rent, tells",
    [(2024, "50,000.00", False), (2024, "50,000.01", True), (2025, "30,000.01", True), (2023, "90,000.00", False)],
)
def test_who_must_send_quarterly_updates_is_told_two_years_before(start: int, rent: str, tells: bool) -> None:
    """SI 2026/336: over £50,000 in 2024-25 from 6 April 2026, over £30,000 in 2025-26 from 6 April 2027."""
    book = landlord() + HOUSE + f"1 Jul {start} received rent £{rent} from t\n"

    assert said(x(book, start), f"quarterly updates from 6 Apr {start + 2}") is tells


# ── what open items are worth ────────────────────────────────────────────────────────────────────────────────────


def test_money_back_of_no_told_cause_adds_to_the_profit_either_way() -> None:
    """£100 back, off a cost or income: 20% of it more tax than the pages as they stand, at the basic rate."""
    book = 'landlord x "X"\n    other income £20,000 in 2025-26\n' + HOUSE
    book += '1 Jul 2025 received rent £1,900.00 from t\n2 Jul 2025 received refund £100.00 from "Wold Council"\n'
    (item,) = x(book, 2025).open

    assert (item.comes_in, item.if_so, item.worth, item.box) == (True, "either way", Worth(20_00, 0, 0), "")


def test_what_one_open_item_is_worth() -> None:
    """£48,000 of wages, a profit of 12,000 before an item of 3,000, costs of 7,000 (2025-26): 10,032 or 8,832."""
    book = 'landlord x "X"\n    other income £48,000 in 2025-26\n' + HOUSE + LOAN + year("12,000.00", "7,000.00", 2025)
    book += '1 Aug 2025 replaced worktop £3,000.00 by "P"\n'
    found = x(book, 2025)

    assert [item.worth for item in found.open] == [Worth(1_200_00, 0, 0)]
    scottish = x(book.replace("48,000 in 2025-26", "48,000 in 2025-26\n    lives in scotland"), 2025)
    assert [item.worth for item in scottish.open] == [Worth(1_260_00, 0, 0)]
    assert [item.worth for item in x(book.replace("    other income £48,000 in 2025-26\n", ""), 2025).open] == [None]


def test_below_the_finance_costs_an_item_saves_no_tax_but_costs_go_on() -> None:
    """A profit of 2,000 caps the reduction; an item of 2,500 makes a loss of 500 and leaves 2,000 more costs."""
    book = landlord("2025-26") + HOUSE + LOAN + year("2,000.00", "7,000.00", 2025)
    book += '1 Aug 2025 replaced worktop £2,500.00 by "P"\n'

    assert [item.worth for item in x(book, 2025).open] == [Worth(0, 2_000_00, 500_00)]


def test_an_open_sum_that_came_in_is_worth_more_tax() -> None:
    book = landlord("2025-26") + HOUSE + "1 Jul 2025 received rent £2,000.00 from t\n"
    book += '1 Aug 2025 received compensation £500.00 from "C"\n'
    open_ = [item for item in x(book, 2025).open if item.comes_in]

    assert [item.worth for item in open_] == [Worth(100_00, 0, 0)]
    assert "£500.00 that came in may be income, and is in no box above" in x(book, 2025).notes[0]


def test_an_open_cost_and_money_that_is_no_income_either_way_are_no_income_left_out() -> None:
    book = landlord("2025-26") + HOUSE + "1 Jul 2025 received rent £2,000.00 from t\n"
    cost = x(book + "1 Aug 2025 replaced worktop £500.00\n", 2025)
    grant = x(book + "1 Aug 2025 installed solar panels £900.00, none before\n"
              '2 Aug 2025 received grant £500.00 from "Sunny Trust" for solar panels\n', 2025)  # fmt: skip

    assert [len(found.open) for found in (cost, grant)] == [1, 1]
    assert not any("may be income" in note for found in (cost, grant) for note in found.notes)


def test_a_grant_for_an_open_cost_is_worth_what_both_come_to() -> None:
    """Income of £500 and a repair of £800 off, or neither: 20% of £300 less, not 20% of £500 more, nor of £800 less."""
    book = 'council mere "Mere Council"\n    nation england\n' + landlord("2025-26") + HOUSE
    book += "1 Jul 2025 received rent £2,000.00 from t\n1 Jul 2025 replaced worktop £800.00\n"
    book += "1 Aug 2025 received grant £500.00 from mere for worktop\n"
    cost, back = x(book, 2025).open

    assert (cost.worth, cost.follows, cost.came_back) == (Worth(60_00, 0, 0), (), (back.trace.source,))
    assert (back.worth, back.follows) == (Worth(-60_00, 0, 0), (cost.trace.source,))
    drawn = " ".join(draw(page(statement(book))).split())
    assert f"if it is income and what it cost comes off ({cost.trace.source}): £60.00 less tax this year" in drawn
    assert f"off the rents, with what came back for it ({back.trace.source}): £60.00 less tax this year" in drawn
    alone = x(book.replace("£800.00", "£800.00, like for like"), 2025)
    assert [item.follows for item in alone.open] == []


def test_scrap_that_may_come_off_a_cost_is_not_called_income_and_adds_to_no_loss() -> None:
    book = landlord("2025-26") + HOUSE + "1 Jul 2025 received rent £2,000.00 from t\n"
    scrap = '1 Aug 2025 sold scrap copper £118.00 to "Denny Metals"\n'
    [item] = [item for item in x(book + scrap, 2025).open if item.comes_in]

    assert (item.if_so, item.worth) == ("off a cost", Worth(23_60, 0, 0))
    text = draw(page(statement(book + scrap)))
    assert "if it comes off a cost: £23.60 more tax this year" in text and "if it is income" not in text


# ── drawn ────────────────────────────────────────────────────────────────────────────────────────────────────────


def statement(book: str) -> YearEnd:
    return year_end(Accounts(build({"a.book": book})), TaxYear(2025))


def test_json_holds_the_estimate_and_what_items_are_worth() -> None:
    book = landlord("2025-26") + HOUSE + LOAN + year("2,000.00", "7,000.00", 2025)
    book += '1 Aug 2025 replaced worktop £2,500.00 by "P"\n'
    told = json.loads(json_form.dump(json_form.year_end(statement(book))))["owners"][0]

    assert told["open"][0]["worth"] == {"tax": "0.00", "finance_carried": "2000.00", "loss_carried": "500.00"}
    made = told["in_tax"]["estimate"]
    assert (made["tax_before_reduction"], made["reduction"], made["tax"]) == ("3886.00", "400.00", "3486.00")
    assert (made["reduction_limited_by"], made["finance_costs_carried_forward"]) == ("profits", "5000.00")
    assert told["in_tax"]["to_pay"][0] == {
        "other_tax_paid": "at source", "day": "2027-01-31", "amount": "0.00", "on_account": [],
    }  # fmt: skip


def test_text_says_what_an_item_that_came_in_is_worth() -> None:
    """£40,000 left over from earlier years: each pound of profit earns its reduction, so no more tax either way."""
    book = landlord("2025-26", more="    unused finance costs £40,000 brought into 2025-26\n") + HOUSE
    book += "1 Jul 2025 received rent £2,000.00 from t\n" + '1 Aug 2025 received compensation £500.00 from "C"\n'
    drawn = " ".join(draw(page(statement(book))).split())

    assert "so the letting adds £0.00" in drawn
    assert "if it is income: this year's tax stays the same, £500.00 less finance costs to go on" in drawn


def test_text_says_less_tax_for_a_cost_and_more_for_income() -> None:
    book = landlord("2025-26") + HOUSE + "1 Jul 2025 received rent £4,000.00 from t\n"
    book += '1 Aug 2025 replaced worktop £500.00 by "P"\n1 Aug 2025 received compensation £700.00 from "C"\n'
    drawn = " ".join(draw(page(statement(book))).split())

    assert "if it comes off the rents: £100.00 less tax this year" in drawn
    assert "if it is income: £140.00 more tax this year" in drawn


def test_text_says_what_comes_back() -> None:
    """Scotland taxes the first slice at 19% and the reduction is 20%: £13,000 of wages and £2,000 of rent, all of it
    interest: 19% of 430 without; 19% of 2,430 less 20% of 2,000 with; £20.00 less."""
    book = 'landlord x "X"\n    other income £13,000 in 2025-26\n    lives in scotland\n' + HOUSE + LOAN
    drawn = " ".join(draw(page(statement(book + year("2,000.00", "2,000.00", 2025)))).split())

    assert "so the letting adds -£20.00" in drawn
    assert "(wages, a pension): £20.00 comes back with the return; nothing on account" in drawn


def test_text_says_what_to_add_where_other_income_is_not_told() -> None:
    drawn = " ".join(
        draw(page(statement(landlord() + HOUSE + year("9.00", "9.00", 2025).replace(" to n", ' to "N"')))).split()
    )

    assert "Add `other income £… in 2025-26` under the landlord" in drawn
