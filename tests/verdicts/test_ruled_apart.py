"""A ruling on a line that follows another: the job decides, and proof says where to rule."""

from __future__ import annotations

import pytest

from ledger_tools.problems import Problem
from ledger_tools.verdicts.checks import doubts

from .books import LET, book, fresh, last, short

RULED = ', treat as {} because "my view"'
WIRING = "4 Jul 2025 replaced wiring £3,000.00, like for like, worn out"
PLASTER = "5 Jul 2025 repaired plaster £90.00, making good after wiring"
CHEAP = fresh("lettable", "reduced")


def told(lines: str, house: str = CHEAP) -> list[Problem]:
    return [problem for problem in doubts(book(lines, house)) if problem.code == "ruled-apart"]


@pytest.mark.parametrize("link", ["making good after wiring", "goes with wiring"])
def test_what_goes_with_an_open_job_is_settled_there(link: str) -> None:
    asked = last(f"{WIRING}\n5 Jul 2025 repaired plaster £90.00, {link}", CHEAP)

    assert asked.arguable and asked.ask == ()
    assert asked.follows == (0,)


def test_a_ruling_apart_from_the_job_is_doubted_and_told_where_to_rule() -> None:
    (problem,) = told(f"{WIRING}\n{PLASTER}{RULED.format('repair')}")

    assert "replaced wiring" in problem.headline
    assert [mark.label for mark in problem.marks] == ["ruled apart", "what it goes with"]
    assert f"`{WIRING}{RULED.format('repair')}`" in problem.help
    assert f"`5 Jul 2025 repaired plaster £90.00{RULED.format('repair')}`" in problem.help
    assert problem.fix is not None and problem.fix.line == PLASTER


def test_both_ways_out_of_it_leave_no_doubt() -> None:
    there = f"{WIRING}{RULED.format('repair')}\n{PLASTER}"
    alone = f"{WIRING}\n5 Jul 2025 repaired plaster £90.00{RULED.format('repair')}"

    assert told(there) == told(alone) == []
    assert short(last(there, CHEAP).parts) == short(last(alone, CHEAP).parts) == "90.00 repair"


def test_what_is_private_goes_with_no_job() -> None:
    assert told(f"{WIRING}\n{PLASTER}{RULED.format('private')}") == []
    assert len(told(f"{WIRING}\n{PLASTER}{RULED.format('no relief')}")) == 1


def test_a_ruling_that_says_what_the_job_says_is_no_doubt() -> None:
    ruled = f"{WIRING}{RULED.format('purchase cost')}\n{PLASTER}"

    assert told(ruled + RULED.format("purchase cost")) == []
    assert len(told(ruled + RULED.format("repair"))) == 1


def test_a_ruling_on_a_line_that_follows_nothing_is_no_doubt() -> None:
    assert told("5 Jul 2025 hired scaffold £90.00" + RULED.format("repair")) == []
    assert told(f"5 Jul 2025 repaired plaster £90.00, making good after damp{RULED.format('repair')}") == []


BILL = '3 Mar 2025 invoiced £990.00 by "Pell", number 7\n    replaced roof £600.00, like for like, worn out\n'
TWO = BILL.replace("£990.00", "£1,190.00") + "    extended kitchen £200.00\n"


def test_a_scaffold_of_two_jobs_is_told_how_to_name_the_one_it_served() -> None:
    (problem,) = told(f"{TWO}    hired scaffold £390.00{RULED.format('improvement')}", LET)

    assert "`goes with roof`, say, in place of the ruling" in problem.help


def test_a_ruling_on_a_shared_line_changes_nothing_and_says_so() -> None:
    (problem,) = told(f"{BILL}    hired scaffold £390.00, shared{RULED.format('improvement')}", LET)

    assert problem.fix is not None and problem.fix.line == "    hired scaffold £390.00, shared"
    assert told(f"{BILL}    hired scaffold £390.00, shared", LET) == []
