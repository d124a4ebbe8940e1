"""Who must give digital updates and from when (SI 2026/336 regs. 5, 22, 23, 27). The lets are invented."""

from __future__ import annotations

import pytest

from ledger_tools.book.build import build
from ledger_tools.days import TaxYear
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.digital_duty import digital_duty, not_bound, receipts
from tests.ledger.books import HOUSE, work

HALVES = HOUSE.replace('landlord x "X"\n', 'landlord x "X"\nlandlord y "Y"\n').replace(
    "    as bought", "    owners x 50% and y 50%\n    as bought", 1
)


def duty(lines: str, year: int, head: str = HOUSE) -> str:
    return digital_duty(work(lines, head), "x", TaxYear(year))


@pytest.mark.parametrize(
    ("rent", "start"),
    [("50,000.00", "6 Apr 2027"), ("50,000.01", "6 Apr 2026"), ("30,000.01", "6 Apr 2027"), ("30,000.00", "")],
)
def test_receipts_of_two_years_before_bring_the_duty(rent: str, start: str) -> None:
    """Over £50,000 in 2024-25: from 6 Apr 2026; over £30,000 in 2025-26: from 6 Apr 2027; the limit is not over it."""
    said = duty(f"1 Jul 2024 received rent £{rent} from t\n1 Jul 2025 received rent £{rent} from t\n", 2025)

    assert start in said and bool(said) == bool(start)


def test_dx_11_the_own_share_counts() -> None:
    """Half of £96,000 is £48,000: not in for 2026-27, in for 2027-28."""
    lines = "1 Jul 2024 received rent £96,000.00 from t\n1 Jul 2025 received rent £96,000.00 from t\n"

    assert receipts(work(lines, HALVES), "x")[TaxYear(2024)] == 48_000_00
    assert "6 Apr 2027" in duty(lines, 2025, HALVES)


def test_it_is_told_no_sooner_than_two_years_ahead_and_costs_do_not_lower_it() -> None:
    lines = "1 Jul 2025 received rent £40,000.00 from t\n2 Jul 2025 repaired gutters £39,000.00, worn out\n"

    assert "6 Apr 2027" in duty(lines, 2025)
    assert duty(lines, 2024) == ""


def test_a_first_let_has_the_time_until_its_first_return() -> None:
    """First let in 2025-26: its return is due on 31 January 2027, so no duty before 6 Apr 2027 (reg. 5)."""
    head = HOUSE.replace("1 Jun 2015", "1 Jun 2025")

    assert "6 Apr 2027" in duty("1 Jul 2025 received rent £60,000.00 from t\n", 2025, head)


@pytest.mark.parametrize(
    ("year", "rent", "said"),
    [
        (2026, "£50,000.00", "By your book you need not send it"),
        (2026, "£50,000.01", ""),
        (2026, "", "Whether you must send it hangs on"),
        (2025, "£50,000.01", ""),  # a year of testing says so itself
    ],
)
def test_an_update_says_first_whether_it_must_be_sent(year: int, rent: str, said: str) -> None:
    """What decides is the year two before: 2024-25 for 2026-27 (SI 2026/336)."""
    lines = f"1 May 2024 received rent {rent} from t\n" if rent else ""
    text = (
        'landlord x "X"\nproperty a "A"\n    bought 1 Jun 2016 for £90,000\ntenancy t at a\n'
        f"    periodic from 1 Jul 2016\nat a\n{lines}1 May 2026 received rent £900.00 from t\n"
    )
    told = not_bound(Accounts(build({"a.book": text})), "x", TaxYear(year))

    assert told.startswith(said) and bool(told) is bool(said)
