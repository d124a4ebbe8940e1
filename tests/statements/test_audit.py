"""The audit of small books: what decided, what is kept, what rides on what is open, and which items are asked for."""

from __future__ import annotations

import json
from datetime import date
from decimal import Decimal

import pytest

from ledger_tools.book.build import build
from ledger_tools.days import TaxYear
from ledger_tools.problems import Level
from ledger_tools.render import audit as render
from ledger_tools.render import path as paths
from ledger_tools.render.verdicts import item_lines
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.audit import Audit, AuditItem, audit, items, walk
from ledger_tools.statements.chosen import NotInBook, Wanted, choose, find, kind_called, left_out, years
from ledger_tools.statements.kinds import PLAIN
from ledger_tools.statements.stake import Stake, both_answers
from ledger_tools.verdicts.registry import all_rules
from ledger_tools.verdicts.verdict import Kind

HOUSE = """
property {n} "{n} Pier Road"
    bought 1 May 2015 for £100,000
    as bought lettable
    price normal
    rooms kitchen, hall
    {more}
tenancy t{n} at {n}
    tenants "T. Enant"
    periodic from 1 Jun 2015
    rent £500 a month
"""


def accounts(lines: str, people: str = 'landlord wren "Wren"\n', houses: tuple[str, ...] = ("quay",),
             more: str = "") -> Accounts:  # fmt: skip
    text = people + "".join(HOUSE.format(n=name, more=more) for name in houses) + f"at {houses[0]}\n" + lines
    book = build({"a.book": text})
    assert [p.headline for p in book.problems if p.level is Level.ERROR] == []
    return Accounts(book)


def audited(lines: str, **about: object) -> Audit:
    return audit(accounts(lines, **about))  # type: ignore[arg-type]


def only(lines: str, **about: object) -> AuditItem:
    (item,) = audited(lines, **about).items
    return item


def said(page: str) -> str:
    """The words of a page, wherever its lines end."""
    return " ".join(page.split())


# ── reasons ──────────────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(
    ("line", "slugs"),
    [
        ("9 Jun 2025 repaired tap in kitchen £50.00", ["same-again"]),
        # What is carved off has a reason of its own.
        (
            "9 Jun 2025 decorated kitchen £500.00, improvement £90.00",
            ["mixed-but-separable", "ordinary-cycle"],
        ),
        # An open item by the rule that left it open.
        ("9 Jun 2025 replaced worktop in kitchen £400.00", ["not-compared"]),
        ('9 Jun 2025 repaired tap £50.00, treat as improvement because "we say"', ["your-ruling"]),
        ("9 Jun 2025 repaired tap £50.00, already returned 2024-25", ["one-ledger-line-one-home"]),
    ],
)
def test_the_rule_that_decided(line: str, slugs: list[str]) -> None:
    assert [fired.slug for fired in only(line + "\n").reasons] == slugs


def test_an_open_item_after_the_last_let_is_open_for_that_reason() -> None:
    text = (
        HOUSE.format(n="quay", more="")
        + "    ended 31 Mar 2025\nat quay\n9 Jun 2025 decorated kitchen £640.00, before sale\n"
    )
    book = build({"a.book": 'landlord wren "Wren"\n' + text})
    (item,) = audit(Accounts(book)).items

    assert [fired.slug for fired in item.reasons] == ["after-the-last-let"]
    assert [fired.slug for fired in item.also] == ["ordinary-cycle", "revenue-cannot-become-gain-cost"]


def test_what_was_ruled_tells_what_the_rules_thought() -> None:
    item = only('9 Jun 2025 repaired tap £50.00, treat as improvement because "we say"\n')

    assert [fired.slug for fired in item.overruled] == ["same-again"]
    assert only("9 Jun 2025 repaired tap £50.00\n").overruled == ()


def test_routine_is_what_is_neither_open_nor_capital_nor_ruled() -> None:
    told = audited(
        "1 Jun 2025 repaired tap £50.00\n2 Jun 2025 cleaned house £60.00\n3 Jun 2025 replaced worktop £400.00\n"
        "4 Jun 2025 installed outside tap £90.00, none before\n"
        '5 Jun 2025 repaired tap £50.00, treat as repair because "yes"\n'
        "6 Jun 2025 repaired tap £50.00, already returned 2024-25\n"
    )

    assert [item.routine for item in told.items] == [True, True, False, False, False, False]
    for item in told.items:
        if item.routine:
            assert len(item_lines(item)) <= 3
        assert any("changes if" in line for line in item_lines(item)) == item.verdict.arguable
    assert any("changes if" in line for line in item_lines(told.items[0], whole=True))


# ── proof ────────────────────────────────────────────────────────────────────────────────────────────────────────


def test_proof_is_on_the_line_on_its_bill_or_of_the_house() -> None:
    told = audited(
        '1 Jun 2025 repaired tap £50.00, receipt "tap.pdf"\n    before "leak.jpg"\n'
        '2 Jun 2025 invoiced £60.00 by "Harl", receipt "bill.pdf"\n    repaired door £60.00\n'
        "3 Jun 2025 cleaned house £60.00\n",
        more='empty since 1 May 2015, photo "front.jpg"',
    )
    named = [[(p.kind, p.name, p.where) for p in item.proofs] for item in told.items]
    front = ("photo", "front.jpg", "house")

    assert named == [
        [("receipt", "tap.pdf", ""), ("before", "leak.jpg", ""), front],
        [("receipt", "bill.pdf", "bill"), front],
        [front],
    ]
    assert [f.words for f in told.houses[0].facts if f.about == "papers"] == ["photo front.jpg"]
    assert [item.proven for item in told.items] == [True, True, False]
    assert told.unproven == 1


def test_the_page_says_what_the_book_has_and_what_it_lacks() -> None:
    told = audited(
        '1 Jun 2025 repaired tap £50.00, receipt "scans/tap.pdf"\n3 Jun 2025 cleaned house £60.00\n'
        '4 Jun 2025 installed outside tap £90.00, says "the plumber\'s note"\n',
        more='empty since 1 May 2015, photo "front.jpg"',
    )
    page = said(render.text(told))

    assert "the book has receipt tap.pdf" in page
    assert page.count("; no proof named") == 1
    assert 'the words "the plumber\'s note"' in page
    assert page.count("front.jpg") == 1  # once, under the house's name
    assert "For 1 item the book names no proof" in page


# ── when ─────────────────────────────────────────────────────────────────────────────────────────────────────────


def test_the_days_an_item_counts() -> None:
    told = audited(
        '1 Mar 2026 invoiced £100.00 by "Harl", number 7\n    repaired tap £100.00\n'
        '2 Apr 2026 paid £40.00 to "Harl" against invoice 7\n'
        '9 Apr 2026 paid £60.00 to "Harl" against invoice 7\n'
        '3 Mar 2026 invoiced £55.00 by "Orr", number 8\n    repaired door £55.00\n'
        '9 Mar 2026 invoiced £80.00 by "Harl", number 9\n    installed outside tap £80.00, none before\n'
        '20 Apr 2026 paid £80.00 to "Harl" against invoice 9\n'
    )
    tap, door, outside = told.items

    assert [day.isoformat() for day in tap.days] == ["2026-04-02", "2026-04-09"]
    assert door.days == outside.days == ()  # not paid; capital, so it waits for the sale
    assert years(outside) == {TaxYear(2025)}
    assert "not paid yet" in said("\n".join(item_lines(door)))


# ── what rides on it ─────────────────────────────────────────────────────────────────────────────────────────────

RICH = 'landlord wren "Wren"\n    other income £60,000 in 2025-26\n'
DECLINED = "    declines property allowance in 2025-26\n"  # which would free small receipts by itself
OPEN = "9 Jun 2025 replaced worktop in kitchen £400.00\n"


def stakes(lines: str, people: str, **about: object) -> list[tuple[str, str, str | None, list[str]]]:
    return [
        (
            s.owner,
            str(s.year),
            None if s.tax is None else f"{Decimal(s.tax) / 100:.2f}",
            [f"{e / 100:g}" for e in s.each],
        )
        for s in audited(lines, people=people, **about).together
    ]


def test_the_tax_between_both_answers_on_top_of_other_income_and_the_result() -> None:
    """£60,000 of wages and £5,000 of rent lie in the higher band: 40% of £400."""
    rent = "1 May 2025 received rent £5,000.00 from tquay\n"

    assert stakes(rent + OPEN, RICH) == [("wren", "2025-26", "160.00", [])]


def test_the_tax_changes_band_within_the_sum() -> None:
    """Wages and rents of £50,470 are £200 above the end of the basic band (£50,270): £200 at 40%, £200 at 20%."""
    rent = "1 May 2025 received rent £5,470.00 from tquay\n"

    assert stakes(rent + OPEN, RICH.replace("60,000", "45,000")) == [("wren", "2025-26", "120.00", [])]


def test_a_sum_above_the_profit_saves_only_what_the_profit_bears() -> None:
    rent = "1 May 2025 received rent £100.00 from tquay\n"

    assert stakes(rent + OPEN, RICH + DECLINED) == [("wren", "2025-26", "40.00", [])]
    assert stakes(rent + OPEN, RICH) == [("wren", "2025-26", "0.00", [])]  # the allowance frees the rent by itself
    assert stakes(OPEN, RICH) == [("wren", "2025-26", "0.00", [])]


@pytest.mark.parametrize(
    ("rent", "more", "why"),
    [
        ("0.00", "", "no profit is left to tax"),
        ("900.00", "    other income £3,000 in 2025-26\n", "so much profit is free of tax"),
        (
            "5,000.00",
            "    other income £20,000 in 2025-26\n    unused finance costs £40,000 brought into 2025-26\n",
            "the reduction for finance costs takes that tax off already",
        ),
    ],
)
def test_where_no_tax_rides_on_it_the_page_says_why(rent: str, more: str, why: str) -> None:
    people = 'landlord wren "Wren"\n' + DECLINED + (more or "    other income £20,000 in 2025-26\n")
    told = audited(("" if rent == "0.00" else f"1 May 2025 received rent £{rent} from tquay\n") + OPEN, people=people)

    assert [(s.tax, s.why) for s in told.together] == [(0, why)]
    assert why in said("\n".join(item_lines(told.open[0])))


def test_a_loss_brought_in_leaves_less_to_save() -> None:
    rent = "1 May 2025 received rent £5,000.00 from tquay\n"

    assert stakes(rent + OPEN, RICH + "    loss £4,900 brought into 2025-26\n") == [("wren", "2025-26", "40.00", [])]


def test_nothing_rides_on_it_where_the_allowance_stands_in_for_every_expense() -> None:
    rent = "1 May 2025 received rent £5,000.00 from tquay\n"

    told = stakes(rent + OPEN, RICH + "    claims property allowance in 2025-26\n")
    assert told == [("wren", "2025-26", "0.00", [])]


def test_by_the_rates_of_where_the_owner_lives() -> None:
    rent = "1 May 2025 received rent £5,000.00 from tquay\n"

    assert stakes(rent + OPEN, RICH + "    lives in scotland\n") == [("wren", "2025-26", "168.00", [])]
    assert stakes(OPEN, 'landlord wren "Wren"\n') == [("wren", "2025-26", None, ["20", "40", "45"])]
    assert stakes(OPEN, 'landlord wren "Wren"\n    lives in scotland\n') == [
        ("wren", "2025-26", None, ["19", "20", "21", "42", "45", "48"])
    ]


def test_of_a_year_before_the_rents_of_the_book_only_the_rates_are_told() -> None:
    """Its profit is not told, so it is not nil; rent of a first let may come in the year after."""
    rich = RICH + DECLINED
    rent, soon = "1 May 2027 received rent £5,000.00 from tquay\n", "1 May 2026 received rent £5,000.00 from tquay\n"
    told = audited(OPEN + rent, people=rich)

    assert stakes(OPEN + rent, rich) == [("wren", "2025-26", None, ["20", "40", "45"])]
    assert stakes(OPEN + soon, rich) == [("wren", "2025-26", "0.00", [])]
    page = said(render.text(told))
    assert "Of 2025-26 your book keeps no rents, so there only the rates can be told." in page
    assert "which your book does not keep" in page and "To see a sum" not in page


def test_no_rates_are_held_for_early_years() -> None:
    item = only("9 Jun 2015 replaced worktop in kitchen £400.00\n")  # rates are held from 2016-17 on

    assert [(s.tax, s.each) for s in item.stakes] == [(None, ())]
    assert "no rates are held for 2015-16" in said("\n".join(item_lines(item)))


@pytest.mark.parametrize(("last", "late"), [("5 Apr 2024", False), ("6 Apr 2024", True)])
def test_where_a_claim_for_the_year_comes_too_late_that_is_said(last: str, late: bool) -> None:
    """Four years from 5 April 2020, the end of 2019-20 (TMA 1970 Sch. 1AB para. 3, from memory)."""
    item = only(f'9 Jun 2019 replaced worktop in kitchen £400.00\n{last} noted "read the meters"\n')

    assert ("could be claimed until 5 Apr 2024" in said("\n".join(item_lines(item)))) is late
    assert [stake.too_late and stake.too_late.day for stake in item.stakes] == [date(2024, 4, 5) if late else None]
    assert ("Sch. 1AB para. 3; not read at its source" in said("\n".join(item_lines(item)))) is late


def test_the_reduction_for_finance_costs_is_worked_out_each_time() -> None:
    """£3,000 of interest against a profit of 3,200 or 2,800: 40% of 400 saved, but 20% of 200 of the reduction lost."""
    money = '1 May 2025 received rent £3,200.00 from tquay\n1 May 2025 paid loan interest £3,000.00 to "B"\n'

    assert stakes(money + OPEN, RICH) == [("wren", "2025-26", "120.00", [])]


def test_an_open_sum_that_came_in_is_told_without_a_sign() -> None:
    money = '1 Aug 2025 received compensation £700.00 from "C"\n'

    assert stakes(money, RICH + DECLINED) == [("wren", "2025-26", "280.00", [])]


def test_each_owner_has_a_stake_of_their_part() -> None:
    people = RICH + 'landlord orla "Orla"\n    other income £20,000 in 2025-26\n'
    rent = "1 May 2025 received rent £5,000.00 from tquay\n"
    told = audited(rent + OPEN, people=people, more="owners wren 75% and orla 25%")

    assert [(s.owner, s.pence, s.tax) for s in told.together] == [("orla", 100_00, 20_00), ("wren", 300_00, 120_00)]
    assert told.open[0].at_stake == 140_00

    half = audited(rent + OPEN, people=RICH + 'landlord orla "Orla"\n', more="owners wren 75% and orla 25%")
    assert half.open[0].at_stake is None  # one of them has rates and no sum


def test_taken_together_they_may_be_worth_less_than_one_by_one() -> None:
    rent = "1 May 2025 received rent £500.00 from tquay\n"
    told = audited(rent + OPEN + "10 Jun 2025 replaced sink in kitchen £400.00\n", people=RICH + DECLINED)

    assert [item.at_stake for item in told.open] == [160_00, 160_00]
    assert [s.tax for s in told.together] == [200_00]


def test_money_in_that_may_be_income_is_at_stake_the_other_way() -> None:
    """An open receipt: the cautious answer is income, so it adds 40% of £300."""
    item = next(
        i for i in audited('1 May 2025 received payment £300.00 from "A. Stranger"\n', people=RICH + DECLINED).items
        if i.verdict.arguable
    )  # fmt: skip

    assert item.verdict.cautious[0].kind is Kind.INCOME
    assert item.at_stake == 120_00


MERE = 'council mere "Mere Borough Council"\n    nation england\n'
GRANT = "20 Jun 2025 received grant £300.00 from mere for worktop\n"


def test_money_back_for_an_open_cost_is_priced_together_with_it() -> None:
    """A repair of £400 and a grant of £300 as income, or neither of them: 40% of £100, not of £400 and of £300."""
    rent = "1 May 2025 received rent £5,000.00 from tquay\n"
    told = audited(rent + OPEN + GRANT, people=MERE + RICH)
    worktop, back = told.open

    assert (worktop.follows, worktop.came_back, worktop.at_stake) == ((), (back.verdict.item.source,), 40_00)
    assert (back.follows, back.came_back, back.at_stake) == ((worktop.verdict.item.source,), (), 40_00)
    assert [(s.pence, s.tax) for s in told.together] == [(100_00, 40_00)]
    assert f"with what it cost ({back.follows[0]}): about £40.00" in said("\n".join(item_lines(back)))
    assert f"with what came back for it ({worktop.came_back[0]}): about £40.00" in said("\n".join(item_lines(worktop)))
    assert f"settle what it cost ({back.follows[0]})" in said("\n".join(item_lines(back)))


def test_the_list_of_what_is_open_counts_no_pound_of_tax_twice() -> None:
    """Its sums add up to what rides on all of it together; by itself money back shows the sum with its cost."""
    rent = "1 May 2025 received rent £5,000.00 from tquay\n"
    told = audited(rent + OPEN + GRANT, people=MERE + RICH)
    listed = said(render.text(told)).partition("What is open, and the tax that rides on it")[2]

    assert "replaced worktop in kitchen £400.00 about £40.00" in listed
    assert "received grant for worktop £300.00 in that of its cost" in listed
    assert listed.count("£40.00") == 2  # of the worktop, and of all together


def test_the_list_of_what_is_open_shows_the_open_part_of_each() -> None:
    """Of £400, of which a private part of £90 is decided, £310 is open: the list adds up to its total."""
    told = audited("4 Mar 2025 replaced worktop in kitchen £400.00, of which private £90.00\n", people=MERE + RICH)
    [item] = told.open
    listed = said(render.text(told)).partition("What is open, and the tax that rides on it")[2]

    assert (item.pence, item.open_pence) == (400_00, 310_00)
    assert sum(total.pence for total in told.totals if total.kind is Kind.ARGUABLE) == 310_00
    assert "replaced worktop in kitchen £310.00" in listed


def test_money_back_for_two_open_costs_is_in_the_sum_of_neither() -> None:
    """Only the two together settle it, so each cost shows its own sum."""
    bill = '9 Jun 2025 invoiced £900.00 by "Cobb", number 7\n    replaced worktop £400.00\n    replaced sink £500.00\n'
    paid = '10 Jun 2025 paid £900.00 to "Cobb" against invoice 7\n'
    back = '20 Jun 2025 received refund £300.00 from "Cobb" against invoice 7\n'
    told = audited(f"1 May 2025 received rent £5,000.00 from tquay\n{bill}{paid}{back}", people=RICH)

    assert [len(item.follows) for item in told.open] == [0, 0, 2]
    assert all(item.came_back == () for item in told.open)


def test_money_back_for_what_is_settled_follows_nothing() -> None:
    rent = "1 May 2025 received rent £5,000.00 from tquay\n"
    ruled = OPEN.replace(".00\n", '.00, treat as repair because "as it was"\n')
    told = audited(rent + ruled + GRANT, people=MERE + RICH)

    assert told.open == ()
    assert [item.follows for item in told.items] == [()] * 3


def test_what_is_open_by_itself_is_priced_by_itself() -> None:
    """A stranger's money goes with no cost: it is priced alone, and both swings are added in all."""
    money = '1 May 2025 received rent £5,000.00 from tquay\n1 Jun 2025 received payment £300.00 from "A. Stranger"\n'
    told = audited(money + OPEN, people=RICH)

    assert [(item.follows, item.at_stake) for item in told.open] == [((), 120_00), ((), 160_00)]
    assert [(s.pence, s.tax) for s in told.together] == [(700_00, 280_00)]


def test_what_both_answers_share_is_not_at_stake() -> None:
    for item in audited(
        OPEN
        + "9 Jun 2025 replaced blind in hall £40.00, better\n9 Jun 2025 replaced sink £500.00, improvement £90.00\n"
    ).open:
        better, worse = both_answers(item.verdict)
        open_ = sum(part.amount for part in item.verdict.parts if part.kind is Kind.ARGUABLE)

        assert sum(p.amount for p in better) == sum(p.amount for p in worse) == open_ > 0


def test_an_unpaid_item_has_no_stake_yet() -> None:
    lines = '1 Mar 2026 invoiced £100.00 by "Harl", number 7\n    replaced worktop £100.00\n'

    assert only(lines, people=RICH).stakes == ()


def test_an_estimate_is_called_one() -> None:
    rent = "1 May 2025 received rent £5,000.00 from tquay\n"
    page = said(render.text(audited(rent + OPEN, people=RICH)))

    assert "about £160.00 of income tax of Wren, 2025-26 (an estimate, on £400.00)" in page
    assert "These are estimates" in page
    assert "lives in scotland" in page
    assert "no tax advice" in page


# ── houses and totals ────────────────────────────────────────────────────────────────────────────────────────────

TWO = ("quay", "pier")


def test_totals_of_houses_add_up_to_all_of_it_and_to_the_items() -> None:
    told = audited(
        "1 Jun 2025 repaired tap £50.01, across quay and pier, split equally\n"
        "2 Jun 2025 cleaned house £60.00 at pier\n" + OPEN
        + "9 Jun 2025 replaced 2 radiators with 3 in hall £100.00, like for like\n",
        houses=TWO,
    )  # fmt: skip

    for kind in Kind:
        by_house = sum(t.pence for house in told.houses for t in house.totals if t.kind is kind)
        parts = sum(p.amount for item in told.items for p in item.verdict.parts if p.kind is kind)
        assert by_house == parts == sum(t.pence for t in told.totals if t.kind is kind)
    assert [[pence for _, pence in house.items] for house in told.houses] == [[25_01, 400_00, 100_00], [25_00, 60_00]]
    assert sum(t.items for t in told.totals) == 5  # the radiators hold two answers, the shared tap counts once
    assert "£25.01 of it is this house's" in said(render.text(told))


def test_a_trip_comes_to_the_allowance_for_its_miles() -> None:
    told = audited('1 Jun 2025 drove 20 miles "to the house and back"\n')

    assert told.items[0].pence == sum(t.pence for t in told.totals) == told.houses[0].items[0][1] == 9_00
    assert "drove 20 miles" in render.text(told) and "£9.00" in render.text(told)


def test_every_rule_an_answer_rests_on_is_listed_once_with_its_authority() -> None:
    told = audited("1 Jun 2025 repaired tap £50.00\n2 Jun 2025 repaired door £50.00\n" + OPEN)
    page = render.text(told)

    assert [(n.rule.slug, n.items) for n in told.rules] == [("same-again", 2), ("not-compared", 1)]
    assert page.count("BIM35435") == 1
    assert page.count("the wording of the quote") == 1


# ── choosing ─────────────────────────────────────────────────────────────────────────────────────────────────────

LINES = """\
1 Jun 2024 repaired combi boiler in kitchen £50.00, receipt "one.pdf"
2 Jun 2025 replaced worktop in kitchen £400.00
3 Jun 2025 installed outside tap in hall £90.00, none before
4 Jun 2025 paid insurance £70.00 to "The Insurer"
1 Mar 2025 invoiced £80.00 by "Harl", number 7
    repaired door in hall £30.00
    cleaned house £50.00
2 May 2025 paid £80.00 to "Harl" against invoice 7
5 May 2023 decorated wc £60.00
"""


def chosen(**wanted: object) -> list[str]:
    book = accounts(LINES, more='empty since 1 May 2015, photo "front.jpg"')
    return [item.verdict.item.line.thing for item in choose(book.book, list(items(book)), Wanted(**wanted))]  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("wanted", "things"),
    [
        ({}, ["wc", "combi boiler", "door", "house", "worktop", "outside tap"]),
        ({"everything": True}, ["wc", "combi boiler", "door", "house", "worktop", "outside tap", "insurance"]),
        ({"room": "Hall"}, ["door", "outside tap"]),
        ({"thing": "boiler"}, ["combi boiler"]),  # by any word the catalogue has for it
        ({"thing": "Combi-Boiler"}, ["combi boiler"]),
        ({"thing": "landlord insurance"}, ["insurance"]),  # a thing named is looked for everywhere
        ({"thing": "lavatory"}, ["wc"]),  # whatever the verb makes of the word
        ({"kind": Kind.RUNNING}, ["house", "insurance"]),
        ({"kind": Kind.ARGUABLE}, ["worktop"]),
        ({"only_open": True}, ["worktop"]),
        ({"no_proof": True}, ["wc", "door", "house", "worktop", "outside tap"]),
        ({"year": TaxYear(2024)}, ["combi boiler"]),  # the bill of March was paid in May
        ({"year": TaxYear(2025)}, ["door", "house", "worktop", "outside tap"]),
        ({"year": TaxYear(2025), "room": "hall", "no_proof": True}, ["door", "outside tap"]),
        ({"houses": frozenset({"elsewhere"})}, []),
    ],
)
def test_filters(wanted: dict[str, object], things: list[str]) -> None:
    assert chosen(**wanted) == things


@pytest.mark.parametrize(
    ("wanted", "says"),
    [
        ({"room": "kitchn"}, "Did you mean kitchen?"),
        ({"room": "attic"}, "You can ask for hall, kitchen."),
        ({"thing": "worktp"}, "Did you mean worktop?"),
        ({"thing": "carpet"}, 'No item of the book is about "carpet".'),
    ],
)
def test_a_filter_that_fits_nothing_is_refused_with_near_names(wanted: dict[str, object], says: str) -> None:
    with pytest.raises(NotInBook, match=says.replace("?", "[?]").replace(".", "[.]")):
        chosen(**wanted)


@pytest.mark.parametrize("kind", Kind)
def test_an_answer_by_its_plain_name_or_as_data(kind: Kind) -> None:
    assert kind_called(PLAIN[kind]) is kind
    assert kind_called(kind.value) is kind
    assert kind_called(PLAIN[kind].upper().replace(" ", "-")) is kind


def test_an_answer_in_the_plural_and_one_that_is_none() -> None:
    assert kind_called("repairs") is Kind.REPAIR
    with pytest.raises(NotInBook, match="Did you mean repair[?]"):
        kind_called("repiar")


@pytest.mark.parametrize(
    ("words", "things"),
    [
        ("a.book:14", ["combi boiler"]),
        (":14", ["combi boiler"]),
        ("14", ["combi boiler"]),
        ("18", ["door", "house"]),  # the line of a bill stands for all its jobs
        ("19", ["door"]),
        ("worktops", ["worktop"]),
    ],
)
def test_one_item_by_its_place_or_thing(words: str, things: list[str]) -> None:
    book = accounts(LINES)

    assert [item.verdict.item.line.thing for item in find(book.book, list(items(book)), words)] == things


def test_a_place_without_an_item_is_told_from_its_neighbours() -> None:
    book = accounts(LINES.replace("4 Jun 2025 paid insurance", '3 Jun 2025 noted "rain"\n4 Jun 2025 paid insurance'))

    with pytest.raises(NotInBook, match=r"line 16 \(installed outside tap in hall\) and line 18 \(paid insurance\)"):
        find(book.book, list(items(book)), "17")
    with pytest.raises(NotInBook, match="Did you mean a.book"):
        find(book.book, list(items(book)), "b.book:14")


# ── one item ─────────────────────────────────────────────────────────────────────────────────────────────────────


def test_the_path_tells_each_rule_and_where_it_stopped() -> None:
    book = accounts("1 Jun 2025 cleaned house £50.00\n")
    (item,) = audit(book).items
    page = paths.way(item, walk(book, item))

    assert "decided         running-service" in page
    assert "There it stopped: running-service" in page
    way = ("does not apply  only-moves-money", "decided         running-service", "When does it count?")
    order = [page.index(words) for words in way]
    assert order == sorted(order)
    assert all(rule.slug in page for rule in all_rules() if rule.step == "F")  # asked, though they do not apply
    assert said(page).count("Rests on PIM2076") == 1


ENDED = HOUSE.format(n="quay", more="sold 14 Nov 2025 for £172,000") + """    ended 31 Aug 2025
at quay
28 Oct 2025 billed council tax £176.91 by wold for 1 Sep 2025 to 13 Nov 2025
7 Nov 2025 paid council tax £176.91 to wold
9 Nov 2025 decorated kitchen £640.00, before sale
1 Jun 2025 paid insurance £90.00 to "The Insurer"
2 Jun 2025 repaired tap £50.00
"""


def shown_of(wanted: Wanted) -> Audit:
    """What the command shows of that book."""
    made = Accounts(build({"a.book": 'landlord wren "Wren"\n' + ENDED}))
    every = list(items(made))
    return audit(made, choose(made.book, every, wanted), None, left_out(made.book, every, wanted))


@pytest.mark.parametrize("wanted", [Wanted(), Wanted(only_open=True), Wanted(everything=True)])
def test_the_head_counts_what_is_open_as_the_totals_do(wanted: Wanted) -> None:
    """A bill and its payment are two items and one question: the head says both numbers, the list has the questions."""
    shown = shown_of(wanted)
    in_totals = sum(total.items for total in shown.totals if total.kind is Kind.ARGUABLE)
    head = said(render.text(shown).split("In brackets")[0])

    assert shown.undecided == in_totals == 3 and len(shown.open) == 2
    many = "all" if wanted.only_open else 3
    assert f"{many} of them open (2 in the list at the end, as a bill and what pays it are one)" in head


def test_the_head_says_what_is_left_out_and_how_to_see_it() -> None:
    works, whole, opened = shown_of(Wanted()), shown_of(Wanted(everything=True)), shown_of(Wanted(only_open=True))

    assert works.left_out == len(whole.items) - len(works.items) == 1
    for form in (said(render.text(works)), render.page(works).opening):
        assert "Not here: 1 other money line, such as rent, insurance" in form and "`--all` shows it" in form
    assert not any("--all" in render.text(shown) for shown in (whole, opened))
    assert render.as_data(works)["left_out"] == 1


@pytest.mark.parametrize("line", ["rebuilt whole shed £900.00", "repaired tap £50.00"])
def test_the_reason_that_the_book_tells_stands_with_the_item(line: str) -> None:
    """A reader judges an answer by it, and no rule reads it; in a long item and in a short one."""
    (item,) = (made := audited(f'9 Jun 2025 {line}, because "two walls stood"\n')).items

    assert '; because "two walls stood"; ' in said("\n".join(item_lines(item)))
    assert 'because "two walls stood"' in render.page(made).sections[0].blocks[-2].items[0].beside
    assert render.as_data(made)["items"][0]["because"] == ["two walls stood"]


# ── JSON ─────────────────────────────────────────────────────────────────────────────────────────────────────────


def test_as_data() -> None:
    rent = "1 May 2025 received rent £5,000.00 from tquay\n"
    told = json.loads(json.dumps(render.as_data(audited(rent + OPEN, people=RICH))))

    assert set(told) == {
        "statement", "items", "houses", "totals", "together", "rules", "left_out", "cautions", "checked"
    }  # fmt: skip
    assert set(told["items"][1]) == {
        "source", "day", "verb", "things", "words", "party", "because", "houses", "amount", "parts", "path",
        "decided_by", "confidence", "counts_on", "counts", "answers", "other", "cautious", "follows", "came_back",
        "stakes", "add", "would_change", "keep", "proofs", "ruled", "thought", "thought_because",
        "thought_answers",
    }  # fmt: skip
    assert told["items"][1]["decided_by"] == ["not-compared"]
    assert told["together"] == [
        {
            "owner": "wren",
            "tax_year": "2025-26",
            "amount": "400.00",
            "tax": "160.00",
            "each_hundred": [],
            "nation": None,
            "why": None,
            "no_rents_kept": False,
            "too_late": None,
            "too_late_rests_on": None,
        }
    ]
    assert told["totals"][0] == {"verdict": "arguable", "answer": "open", "items": 1, "amount": "400.00"}


def test_a_stake_without_tax_has_rates_as_money() -> None:
    from ledger_tools.render.verdicts import stake_json, stakes_words

    stake = Stake("wren", "Wren", TaxYear(2025), 105_00, None, (20_00, 40_00, 45_00), "wales")

    assert stake_json(stake)["each_hundred"] == ["20.00", "40.00", "45.00"]
    said = "£20, £40 or £45 of income tax in each £100, by how much else was earned that year, which your book does not"
    assert stakes_words([stake]) == (f"Wren, 2025-26: on £105.00, {said} tell",)


def test_what_is_the_same_for_several_owners_is_said_once() -> None:
    """A house of three owners gave a sentence for each of them at every item."""
    from ledger_tools.render.verdicts import stakes_words

    def of(name: str, pence: int = 105_00, tax: int | None = 21_00) -> Stake:
        return Stake(name.lower(), name, TaxYear(2025), pence, tax)

    assert stakes_words([of("Wren"), of("Kite"), of("Finch")]) == (
        "about £21.00 each of income tax of Wren, Kite and Finch, 2025-26 (an estimate, on £105.00 each)",
    )
    for other in (of("Kite", 90_00), of("Kite", tax=42_00)):
        assert len(stakes_words([of("Wren"), other])) == 2


def test_how_sure_a_rule_is_as_a_rule_and_of_the_items_shown() -> None:
    """One job is told in full, the other lacks the word that settles it, so one rule is less sure here than it is."""
    made = audited('1 Jun 2025 hired skip £90.00 from "S"\n2 Jun 2025 mended roof £300.00 by "R"\n')
    page = render.text(made)

    for note in made.rules:
        items = [fired for item in made.items for fired in (*item.reasons, *item.also) if fired.slug == note.rule.slug]
        assert set(note.sure) == {fired.confidence for fired in items}
        same = set(note.sure) == {note.rule.confidence}
        assert (f"  {note.rule.slug} ({note.rule.confidence}, " in page) is same
        assert (f"  {note.rule.slug} ({note.rule.confidence} as a rule, here " in page) is not same
    assert any(set(note.sure) != {note.rule.confidence} for note in made.rules)


# ── bought for a job, and money back off it ──────────────────────────────────────────────────────────────────────

TILES = """
9 Jun 2025 replaced kitchen £6,000.00, like for like, worn out
11 Jun 2025 bought tiles for kitchen £220.00 from "Tile Barn"
18 Jun 2025 received refund £74.00 from "Tile Barn" for tiles
"""


def _shown(lines: str) -> list[AuditItem]:
    """What an audit shows where nothing is asked for."""
    made = accounts(lines)
    return choose(made.book, list(items(made)), Wanted())


def test_what_was_bought_for_a_job_is_judged_with_it_and_the_refund_stands_beside_it() -> None:
    found = _shown(TILES)

    assert [item.words for item in found] == [
        "replaced kitchen", "bought tiles for kitchen", "received refund for tiles",
    ]  # fmt: skip
    assert [[part.kind for part in item.verdict.parts] for item in found] == [[Kind.REPAIR], [Kind.REPAIR], [Kind.NETS]]


def test_bought_for_a_job_nobody_told_it_stays_open() -> None:
    (item,) = audited('11 Jun 2025 bought tiles for kitchen £220.00 from "Tile Barn"\n').items

    assert item.verdict.arguable


def test_money_back_off_a_running_cost_is_no_item_of_works() -> None:
    lines = '5 Sep 2025 paid council tax £90.00 to "C"\n6 Oct 2025 received refund £30.00 from "C" for council tax\n'

    assert _shown(lines) == []


@pytest.mark.parametrize(("thing", "open_"), [("zibbet", 1), ("zabbet", 2)])
def test_an_open_bill_and_what_pays_it_are_one_question(thing: str, open_: int) -> None:
    found = audited(f'9 Jun 2025 billed zibbet £176.91 by "Town"\n7 Jul 2025 paid {thing} £176.91 to "Town"\n')

    assert len(found.items) == 2 and len(found.open) == open_


@pytest.mark.parametrize(
    ("line", "shown"),
    [
        ('paid service charge £600.00 to "Block"', True),
        ('paid ground rent £75.00 to "Block"', False),
        ('paid lease extension £9,000.00 to "Block"', True),
        ('paid planning permission £450.00 to "Town"', True),
        ('received grant £90.00 from "Town"', True),
        ('received compensation £90.00 from "Pell" for lost rent', True),
        ('paid van hire £38.00 to "Vans", treat as no relief because "a trip for pleasure"', True),
        ("paid insurance £38.00", False),
        ('paid insurance £38.00, treat as running cost because "adviser, 2 Mar"', True),
    ],
)
def test_payments_that_works_or_capital_hang_on_stand_beside_the_works(line: str, shown: bool) -> None:
    assert bool(_shown(f"5 Sep 2025 {line}\n")) is shown


def test_a_bill_and_its_payment_are_counted_once() -> None:
    """The same £176.91 stands on two lines; on each of them it is told what the other does with it."""
    found = audited(
        '9 Jun 2025 billed council tax £176.91 by "Town" for 1 Jun 2025 to 30 Jun 2025\n'
        '7 Jul 2025 paid council tax £176.91 to "Town"\n'
    )
    bill, payment = ("\n".join(item_lines(item)) for item in found.items)

    assert sum(total.pence for total in found.totals) == 176_91
    assert sum(total.pence for total in found.houses[0].totals) == 176_91
    assert "not paid yet" not in bill and found.items[1].verdict.item.source in said(bill)
    assert "pays the bill of" in said(payment) and found.items[0].verdict.item.source in said(payment)


def test_a_payment_whose_bill_is_not_shown_counts() -> None:
    made = accounts(
        '9 Jun 2025 billed council tax £176.91 by "Town" for 1 Jun 2025 to 30 Jun 2025\n'
        '7 Jul 2025 paid council tax £176.91 to "Town"\n'
    )
    assert [total.pence for total in audit(made, list(items(made))[1:]).totals] == [176_91]


def test_money_in_that_is_open_is_not_added_to_open_costs() -> None:
    told = audit(accounts('4 Mar 2025 replaced worktop £300.00\n5 Mar 2025 received insurance £500.00 from fen\n'))

    assert [(t.name, t.items, t.pence) for t in told.houses[0].totals] == [
        ("open", 1, 300_00), ("open, money in", 1, 500_00),
    ]  # fmt: skip


def test_the_advice_names_every_owner_and_year_whose_other_income_is_lacking() -> None:
    two = 'landlord wren "Wren"\n    other income £20,000 in 2025-26\nlandlord lark "Lark"\n'
    open_ = "4 Mar 2025 replaced worktop £300.00\n4 Mar 2026 replaced worktop £200.00\n"
    page = said(render.text(audit(accounts(open_, people=two, more="owners wren 50% and lark 50%"))))

    assert (
        "write `other income £… in 2024-25` under `landlord lark` and under `landlord wren`, and "
        "`other income £… in 2025-26` under `landlord lark`." in page
    )
    both = two.replace("£20,000 in 2025-26", "£20,000 in 2025-26\n    other income £20,000 in 2024-25")
    whole = both + "    other income £1 in 2024-25\n    other income £1 in 2025-26\n"
    told = audit(accounts(open_, people=whole, more="owners wren 50% and lark 50%"))
    assert "in place of rates" not in said(render.text(told))


def test_what_is_on_a_return_already_is_not_said_to_count_in_no_year() -> None:
    told = audited("2 Oct 2019 replaced windows £700.00, like for like, already returned 2019-20\n")
    [total] = [total for total in told.totals if total.kind is Kind.IGNORED]

    assert (total.name, total.effect) == ("on a return already", "came off there, and counts nowhere else")


@pytest.mark.parametrize(
    ("verdict", "offered"), [("repair", True), ("improvement", True), ("no relief", False), ("private", True)]
)
def test_a_ruling_that_the_rules_do_not_offer_is_said_to_be_none_of_theirs(verdict: str, offered: bool) -> None:
    told = audited(f'9 Mar 2025 replaced worktop £410.00, treat as {verdict} because "so it is"\n')
    page = said(render.text(told))

    assert ("(an answer that the rules do not offer)" not in page) is offered
