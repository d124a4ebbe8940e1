"""Another day told on money that moved: refused with what to write, as it would count for nothing."""

from __future__ import annotations

import pytest

from ledger_tools.book.build import build

HEAD = 'landlord x "X"\nagent key "Key Lets"\nproperty a "1 A Street"\nat a\n'
STATEMENT = "9 Apr 2025 banked £630.00 from key{}\n    received rent £700.00{}\n    paid management fee £70.00\n"
BILL = '11 Jun 2025 invoiced £200.00 by "Jim"{}\n    repaired tap £200.00, worn out{}\n'


def odd(lines: str) -> list[str]:
    problems = build({"a.book": HEAD + lines}).problems
    return [p.headline for p in problems if p.code == "facts-at-odds"]


@pytest.mark.parametrize(
    "lines",
    [
        STATEMENT.format("", ", paid 2 Apr 2025"),
        BILL.format("", ", paid 3 Jul 2025"),
        "10 Apr 2025 paid landlord insurance £90.00, paid 4 Apr 2025\n",
        '10 Apr 2025 received rent £90.00 from "Tod", paid 4 Apr 2025\n',
    ],
)
def test_another_day_is_refused(lines: str) -> None:
    [said] = odd(lines)
    assert "does not go here" in said


@pytest.mark.parametrize(
    "lines",
    [
        STATEMENT.format(", paid 12 Apr 2025", ""),  # when it reached the owners; the agent had it before
        BILL.format(", paid 3 Jul 2025", ""),
        "10 Apr 2025 paid landlord insurance £90.00, paid 10 Apr 2025\n",
        "10 Apr 2025 repaired tap £90.00, worn out, paid 4 May 2025\n",
        "10 Apr 2025 billed electricity £90.00, paid 4 May 2025\n",
    ],
)
def test_the_day_of_a_bill_or_the_same_day_goes(lines: str) -> None:
    assert odd(lines) == []
