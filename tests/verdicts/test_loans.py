"""What the book says became of a loan: the line that does not tell it is named, with its day and its sum."""

from __future__ import annotations

from ledger_tools.book.build import build
from ledger_tools.verdicts.engine import judge
from ledger_tools.verdicts.verdict import Verdict

HOUSE = """\
landlord x "X"
lender cas "Castle"
property a "1 A Street"
    bought 1 May 2015 for £100,000
loan cas-1 on a from cas
tenancy t at a
    tenants "T. Enant"
    periodic from 1 Jun 2015
    rent £500 a month
"""
INTEREST = "4 Mar 2025 paid loan interest £100.00 to cas\n"


def interest(lines: str) -> Verdict:
    return next(v for v in judge(build({"a.book": HOUSE + lines + INTEREST})) if v.item.line.verb == "paid")


def reason(verdict: Verdict) -> str:
    return next(fired.says for fired in verdict.path if fired.slug == "loan-spent-privately")


def test_the_line_whose_use_is_not_told_is_named() -> None:
    says = reason(interest("3 Apr 2019 borrowed £80,000.00 from cas\n"))

    assert "£80,000.00 of what was borrowed on 3 Apr 2019 (a.book:10)" in says
    assert "lowers the tax bill at the basic rate and does not come off the rents" in says


def test_of_several_only_those_before_and_only_what_is_untold() -> None:
    says = reason(interest(
        "3 Apr 2019 borrowed £80,000.00 from cas for purchase\n"
        "3 Apr 2020 borrowed £20,000.00 from cas\n    spent £5,000.00 on roof\n"
        "3 Apr 2026 borrowed £7,000.00 from cas\n"
    ))  # fmt: skip

    assert "£15,000.00 of what was borrowed on 3 Apr 2020 (a.book:11)" in says
    assert "2019" not in says and "2026" not in says


def test_interest_on_a_dwelling_is_never_said_to_come_off_the_rents() -> None:
    answers = interest("3 Apr 2019 borrowed £80,000.00 from cas\n").answers

    assert answers == ("a finance cost: it lowers the tax bill at the basic rate", "private: nothing comes off")
