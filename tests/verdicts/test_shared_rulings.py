"""A bill and what pays it are one cost: a ruling on either holds for both, so that nothing is left open beside it."""

from __future__ import annotations

import pytest

from ledger_tools.explain.houses import LET
from ledger_tools.render import audit as render
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.audit import audit

from .books import book, short, verdicts

SOLD = LET.replace("\ntenancy", "\n    sold 14 Nov 2025 for £172,000\ntenancy") + "    ended 31 Aug 2025\n"
BILL = "28 Oct 2025 billed council tax £180.00 by wold for 1 Sep 2025 to 13 Nov 2025"
PAID = "7 Nov 2025 paid council tax £180.00 to wold"
FIRST, SECOND = "7 Nov 2025 paid council tax £100.00 to wold", "8 Nov 2025 paid council tax £80.00 to wold"
RULED = ', treat as no relief because "empty for a sale"'


def told(*lines: str) -> list[str]:
    return [short(v.parts).partition(" ")[2] for v in verdicts("\n".join(lines), SOLD)]


OPEN, NONE = "open premises", "none"


@pytest.mark.parametrize(
    ("lines", "parts"),
    [
        ((BILL, PAID), [OPEN, OPEN]),
        ((BILL + RULED, PAID), [NONE, NONE]),
        ((BILL, PAID + RULED), [NONE, NONE]),
        ((BILL + RULED, FIRST, SECOND), [NONE, NONE, NONE]),
        ((BILL, FIRST + RULED, SECOND + RULED), [NONE, NONE, NONE]),
        ((BILL, FIRST + RULED, SECOND), [OPEN, NONE, OPEN]),  # one instalment says nothing of the whole
        ((BILL, FIRST + RULED), [OPEN, NONE]),  # nor does what pays a part
        ((BILL + RULED, PAID + ', treat as running cost because "x"'), [NONE, "running premises"]),  # each its own
        ((BILL + RULED, PAID.replace("wold", '"Another"')), [NONE, OPEN]),  # it pays another bill
        ((BILL + RULED, PAID.replace("£180.00", "£190.00")), [NONE, OPEN]),  # and something besides
    ],
)
def test_a_ruling_holds_for_the_bill_and_for_all_that_pays_it(lines: tuple[str, ...], parts: list[str]) -> None:
    assert told(*lines) == parts


def test_what_takes_its_ruling_from_another_line_says_from_which() -> None:
    bill, paid = verdicts(f"{BILL}{RULED}\n{PAID}", SOLD)

    assert bill.ruled == "no relief, because empty for a sale"
    assert paid.ruled == f"{bill.ruled} (ruled on at {bill.item.source})"
    assert paid.without is not None and paid.without.arguable


def test_the_payment_of_an_open_bill_sends_to_the_bill_to_be_settled() -> None:
    made = audit(Accounts(book(f"{BILL}\n{PAID}", SOLD)))
    text = " ".join(render.text(made).split())

    assert text.count("to settle add `, treat as running cost") == 1
    assert f"settle the bill it pays ({made.items[0].verdict.item.source.rpartition('/')[2]})" in text
