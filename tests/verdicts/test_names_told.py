"""Names that stand where a line tells what it was for: what is asked, and the line that is offered."""

# ruff: noqa: E501 (a row of the table stands on one line)

from __future__ import annotations

import pytest

from ledger_tools.book.build import build
from ledger_tools.problems import Problem
from ledger_tools.verdicts.checks import doubts

HEAD = """
landlord carol "Carol Petty"
supplier dk "DK Maintenance"
agent hale "Hale & Hart"
lender wool "Wool Bank"
property a-1 "1 A Street"
    bought 1 May 2015 for £100,000
property b-2 "2 B Street"
    bought 1 May 2015 for £100,000
loan moor-1 on a-1 from wool
tenancy dray at a-1
    tenants "T. Dray"
    periodic from 1 Jun 2015
    rent £500 a month
"""
PUT = (
    ("paid moor-1 interest £300.00", "paid interest £300.00 to moor-1"),
    ("paid interest on moor-1 £300.00", "paid interest £300.00 to moor-1"),
    ("paid a-1 insurance £200.00 to \"Fen Mutual\"", "paid insurance £200.00 to \"Fen Mutual\""),
    ("paid b-2 insurance £1,200.00, due 9 Jun 2025", "paid insurance £1,200.00 at b-2, due 9 Jun 2025"),
    ("paid hale inventory fee £90.00", "paid inventory fee £90.00 to hale"),
    ("received dray's deposit £500.00", "received deposit £500.00 from dray"),
)  # fmt: skip
ASKED = (
    ("paid bob the plumber £60.00", '`repaired … £60.00 by "Bob the plumber"`'),
    ("paid Mr Jones £60.00", '`installed … £60.00 by "Mr Jones"`'),
    ("paid dk the handyman £60.00", "`repaired … £60.00 by dk`"),
    ("paid bob the decorator £60.00", '`decorated … £60.00 by "Bob the decorator"`'),
    ("paid dk £60.00", "`paid £60.00 to dk against invoice …`"),
    ("paid carol £50.00", "What owners pay themselves is no cost"),
    ("paid hale £60.00", "`paid management fee £60.00 to hale`"),
    ("received hale £60.00", "`banked £60.00 from hale`"),
    ("received dray £500.00", "`received rent £500.00 from dray`"),
    ("paid moor-1 £300.00", "`paid mortgage interest £300.00 to moor-1`"),
    ("paid a-1 £300.00", "`paid insurance £… at a-1`"),
)  # fmt: skip


def told(line: str, at: str = "a-1") -> Problem | None:
    book = build({"a.book": f"{HEAD}at {at}\n9 Jun 2025 {line}"})
    assert not book.problems
    return next((problem for problem in doubts(book) if problem.code in ("name-as-thing", "thing-unknown")), None)


@pytest.mark.parametrize(("typed", "write"), PUT)
def test_the_name_goes_behind_the_sum_and_the_line_then_passes(typed: str, write: str) -> None:
    problem = told(typed)

    assert problem is not None and problem.code == "name-as-thing"
    assert problem.fix is not None and problem.fix.line == f"9 Jun 2025 {write}"
    assert told(write) is None


@pytest.mark.parametrize(("typed", "says"), ASKED)
def test_a_name_alone_is_asked_what_it_was_paid_for(typed: str, says: str) -> None:
    problem = told(typed)

    assert problem is not None and problem.code == "name-as-thing"
    assert says in problem.help and problem.fix is None


def test_a_slip_with_a_capital_is_no_person() -> None:
    problem = told("paid Insurence £480.00")

    assert problem is not None and problem.code == "thing-unknown"
    assert problem.fix is not None and problem.fix.text == "insurance"


@pytest.mark.parametrize("typed", ["received gift £50.00", "received lift £50.00", "received hob £50.00"])
def test_nobody_receives_a_fixture(typed: str) -> None:
    problem = told(typed)

    assert problem is None or problem.fix is None and "Did you mean" not in problem.help


def test_what_is_no_money_of_the_letting_is_left_out() -> None:
    problem = told("received gift £50.00")

    assert problem is not None and "is left out of the book" in problem.help
    assert told("received hb £50.00 from dray") is None


@pytest.mark.parametrize(
    ("typed", "write"),
    [
        ("paid gas while empty £96.40", "paid gas £96.40"),
        ("fitted kitchen myself £20.00", "fitted kitchen £20.00, own labour"),
        ("fitted kitchen myself, own labour 30 hours", "fitted kitchen, own labour 30 hours"),
        ("decorated b-2 £2,100.00 by dk", "decorated throughout £2,100.00 at b-2 by dk"),
    ],
)
def test_words_that_are_told_elsewhere_leave_the_thing(typed: str, write: str) -> None:
    problem = told(typed)

    assert problem is not None and problem.fix is not None and problem.fix.line == f"9 Jun 2025 {write}"
    assert told(write) is None


def test_own_labour_needs_no_sum() -> None:
    found = build({"a.book": f"{HEAD}at a-1\n9 Jun 2025 fitted kitchen, own labour 30 hours"}).problems

    assert not found
    assert build({"a.book": f"{HEAD}at a-1\n9 Jun 2025 fitted kitchen"}).problems[0].code == "no-amount"


def test_a_let_whose_block_has_a_mistake_hides_no_house() -> None:
    broken = HEAD.replace("rent £500 a month", "rent £500 every blue moon")
    found = build({"a.book": f"{broken}9 Jun 2025 received rent £500.00 from dray"}).problems

    assert "which-house" not in [problem.code for problem in found]


def test_whom_housing_benefit_was_for_is_who_it_came_from() -> None:
    problem = build({"a.book": f"{HEAD}9 Jun 2025 received hb £480.00 for dray"}).problems[0]

    assert problem.code == "which-house" and problem.fix is not None
    assert problem.fix.line == "9 Jun 2025 received hb £480.00 from dray"


def test_a_house_behind_for_stands_behind_at() -> None:
    problem = build({"a.book": f"{HEAD}9 Jun 2025 paid insurance £480.00 for b-2, due 1 Jul 2025"}).problems[0]

    assert problem.code == "which-house" and problem.fix is not None
    assert problem.fix.line == "9 Jun 2025 paid insurance £480.00 at b-2, due 1 Jul 2025"


OSEI = 'tenancy osei at b-2\n    tenants "K. Osei"\n    periodic from 1 Jun 2015\n    rent £500 a month\n'


@pytest.mark.parametrize(
    ("rents", "said"),
    [
        ("    received rent £500.00 from dray\n", " at a-1"),
        ("    received rent £250.00 from dray\n    received rent £250.00 from osei\n", " across a-1 and b-2, split by rent"),
    ],
)
def test_a_statement_is_about_the_houses_of_its_rents(rents: str, said: str) -> None:
    head = "9 Jun 2025 banked £450.00 from hale{}, because \"May\"\n" + rents + "    paid management fee £50.00\n"
    problem = build({"a.book": HEAD + OSEI + head.format("")}).problems[0]

    assert problem.code == "which-house" and problem.fix is not None
    assert problem.fix.line == head.format(said).partition("\n")[0]
    assert not build({"a.book": HEAD + OSEI + head.format(said)}).problems


def test_every_line_with_a_name_is_told_with_its_own_way() -> None:
    book = build({"a.book": f"{HEAD}at a-1\n9 Jun 2025 paid dk £60.00\n10 Jun 2025 paid dk £70.00"})
    found = [problem for problem in doubts(book) if problem.code == "name-as-thing"]

    assert [("£60.00" in p.help, "£70.00" in p.help) for p in found] == [(True, False), (False, True)]


@pytest.mark.parametrize(
    ("typed", "write"),
    [
        ("paid b-2 insurance £200.00, due 9 Jun 2025", "paid insurance £200.00 at b-2, due 9 Jun 2025"),
        ("paid moor-1 interest £300.00", "paid interest £300.00 to moor-1"),
        ("replaced kitchen b-2 £5,200.00 by dk", "replaced kitchen £5,200.00 at b-2 by dk"),
    ],
)
def test_a_line_that_names_its_house_is_told_once_where_the_name_goes(typed: str, write: str) -> None:
    book = build({"a.book": f"{HEAD}9 Jun 2025 {typed}"})

    assert [problem.code for problem in book.problems] == ["which-house"]
    fix = book.problems[0].fix
    assert fix is not None and fix.line == f"9 Jun 2025 {write}"
    assert not [problem for problem in doubts(book) if problem.code == "name-as-thing"]
    assert not build({"a.book": HEAD + fix.line}).problems


def test_a_cost_for_all_houses_stands_across_them() -> None:
    book = build({"a.book": f"{HEAD}9 Jun 2025 paid accountant £960.00 for all houses, due 1 Jul 2025"})

    fix = book.problems[0].fix
    assert fix is not None
    assert fix.line == "9 Jun 2025 paid accountant £960.00 across all, split equally, due 1 Jul 2025"
    assert not build({"a.book": HEAD + fix.line}).problems
