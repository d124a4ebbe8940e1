"""What an agent sent, told as a bank statement tells it: the lines behind it, where the terms give it to the penny."""

from __future__ import annotations

import pytest

from ledger_tools.book.build import build
from ledger_tools.explain.no_verb import with_verbs

HEAD = """
agent swift "Swift & Lane"
    charges 12% of rent plus vat
property fern-12 "12 Fernlea Avenue"
    inherited 3 Feb 2024 at £214,000
tenancy brook at fern-12
    tenants "Tom Brook"
    periodic from 1 Oct 2024
    rent £1,050 a month, first due 1 Oct 2024
    rent £1,095 a month from 1 Oct 2025
"""
# £1,050.00 less 12% (£126.00) and VAT of 20% on that (£25.20) is £898.80; £1,095.00 less £131.40 and £26.28, £937.32.
OLD = "received rent £1,050.00 from brook\n    paid management fee £126.00, plus vat £25.20"
NEW = "received rent £1,095.00 from brook\n    paid management fee £131.40, plus vat £26.28"


@pytest.mark.parametrize("typed", ["swift £{}", "banked £{} from swift"])
@pytest.mark.parametrize(
    ("day", "sum_", "lines"),
    [("12 Nov 2024", "898.80", OLD), ("12/11/2024", "898.80", OLD), ("14 Oct 2025", "937.32", NEW)],
)
def test_a_month_s_rent_less_the_fee_has_its_lines(typed: str, day: str, sum_: str, lines: str) -> None:
    problem = with_verbs(build({"a.book": f"{HEAD}{day} {typed.format(sum_)}"}))[0]

    assert problem.fix is not None
    assert problem.fix.line == f"{day} banked £{sum_} from swift\n    {lines}"
    assert not build({"a.book": HEAD + problem.fix.line}).problems


@pytest.mark.parametrize(
    ("day", "sum_"), [("14 Oct 2025", "898.80"), ("12 Nov 2024", "748.80"), ("1 Sep 2024", "898.80")]
)
def test_what_the_terms_do_not_give_is_asked(day: str, sum_: str) -> None:
    problem = with_verbs(build({"a.book": f"{HEAD}{day} banked £{sum_} from swift"}))[0]

    assert problem.code == "net-only" and problem.fix is None


def test_two_lets_at_one_rent_are_asked() -> None:
    other = 'tenancy ahmed at fern-12\n    tenants "S. Ahmed"\n    periodic from 1 Nov 2024\n    rent £1,050 a month\n'
    found = with_verbs(build({"a.book": f"{HEAD}{other}12 Nov 2024 banked £898.80 from swift"}))

    assert [problem.fix for problem in found if problem.code == "net-only"] == [None]
