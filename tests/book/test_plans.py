"""Plans at odds: a quote agreed twice, a trade booked for a day too late. Houses and firms are invented."""

from __future__ import annotations

import pytest

from ledger_tools.book.build import build
from ledger_tools.problems import Problem

HEAD = """supplier volt "Volt Electrical"
supplier pell "Pell & Sons"
property a "1 A Street"
property b "2 B Street"
schedule a "ready to let"
    target let from 1 Jul 2025 at £600 a month
    in whole house
        1 replace wiring £2,000
at a
"""
QUOTED = "2 Apr 2025 quoted wiring £1,950.00 by volt, number Q-1\n3 Apr 2025 agreed quote Q-1 by volt\n"


def found(lines: str, code: str, head: str = HEAD) -> list[Problem]:
    return [p for p in build({"a.book": head + lines}).problems if p.code == code]


def test_a_quote_agreed_twice_shows_both_lines() -> None:
    (problem,) = found(QUOTED + "5 Apr 2025 agreed quote Q-1 by volt\n", "agreed-twice")

    assert [mark.line for mark in problem.marks] == [12, 11]
    assert "`varied quote Q-1 £… more by volt`" in problem.help


@pytest.mark.parametrize(
    "lines",
    [
        QUOTED,
        QUOTED + "9 Apr 2025 varied quote Q-1 £90.00 more by volt\n",
        QUOTED + "5 Apr 2025 quoted gutters £90.00 by pell, number Q-1\n6 Apr 2025 agreed quote Q-1 by pell\n",
        QUOTED + "5 Apr 2025 cancelled quote Q-1 by volt\n6 Apr 2025 agreed quote Q-1 by volt\n",
    ],
)
def test_quotes_agreed_once(lines: str) -> None:
    assert found(lines, "agreed-twice") == []


@pytest.mark.parametrize(
    ("days", "mended"),
    [("29 Jun 2025 to 3 Jul 2025", "4 Jul 2025"), ("1 Jul 2025", "2 Jul 2025"), ("14 Jul 2025", "15 Jul 2025")],
)
def test_a_booking_after_the_target_and_a_later_target(days: str, mended: str) -> None:
    (problem,) = found(f"6 Apr 2025 booked volt for {days}\n", "booked-after-target")

    assert [mark.line for mark in problem.marks] == [10, 6]
    assert problem.fix and problem.fix.line == f"    target let from {mended} at £600 a month"
    mended_head = HEAD.replace("1 Jul 2025", mended)
    assert found(f"6 Apr 2025 booked volt for {days}\n", "booked-after-target", mended_head) == []


LATER = """schedule a "the roof"
    target let from 1 Oct 2025 at £650 a month
    in whole house
        1 replace roof £9,000
"""


@pytest.mark.parametrize(
    "lines",
    [
        "6 Apr 2025 booked volt for 30 Jun 2025\n",
        "2 Jul 2025 booked volt for 9 Jul 2025\n",  # the day is missed already, and `next` says so
        "at b\n6 Apr 2025 booked volt for 9 Jul 2025\n",
        LATER + "at a\n6 Apr 2025 booked volt for 9 Jul 2025\n",
        LATER + 'at a\n6 Apr 2025 booked volt for 9 Jul 2025, part of "the roof"\n',
    ],
)
def test_bookings_in_time(lines: str) -> None:
    assert found(lines, "booked-after-target") == []


def test_a_booking_that_names_its_schedule() -> None:
    line = 'at a\n6 Apr 2025 booked volt for 9 Jul 2025, part of "ready to let"\n'

    assert len(found(LATER + line, "booked-after-target")) == 1


def test_a_paper_that_ran_out_before_it_was_given() -> None:
    line = "9 Apr 2025 certified gas safety £70.00 by volt, expires {}\n"
    (problem,) = found(line.format("8 Apr 2025"), "expired-at-once")

    assert problem.marks[0].text[problem.marks[0].column - 1 : problem.marks[0].end - 1] == "expires 8 Apr 2025"
    assert problem.fix and problem.fix.line.endswith("expires 8 Apr 2026")
    leap = found(line.format("29 Feb 2024"), "expired-at-once")[0]
    assert leap.fix and leap.fix.line.endswith("expires 28 Feb 2026")
    assert found(line.format("9 Apr 2025"), "expired-at-once") == []


@pytest.mark.parametrize(
    ("line", "doubt"),
    [
        ("4 Apr 2025 varied wiring £150.00 more by volt\n", False),
        ("4 Apr 2025 varied quote Q-1 £150.00 more by volt\n", False),
        ("4 Apr 2025 varied wiring extra £150.00 by volt\n", True),
        ("4 Apr 2025 varied wiring £150.00 more by volt at b\n", True),  # a price of another house
    ],
)
def test_a_change_to_a_price_that_is_not_there(line: str, doubt: bool) -> None:
    told = found(QUOTED + line, "varied-nothing")

    assert bool(told) is doubt
    assert not doubt or ("at b" in line) is not ("Did you mean wiring?" in told[0].help)
