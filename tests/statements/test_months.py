"""The months of a year: they cover it once, and their rents and days add up to those of the profit statement."""

from __future__ import annotations

from datetime import date

import pytest

from ledger_tools.days import TaxYear
from ledger_tools.statements.months import calendar_months, months
from ledger_tools.statements.profit import profit

from .test_profit import house, work


@pytest.mark.parametrize("start", [2023, 2024, 2025])
def test_the_months_cover_the_year_once(start: int) -> None:
    year = TaxYear(start)
    found = calendar_months(year.period)

    assert len(found) == 13 and sum(p.days for p in found) == year.period.days
    assert (found[0].first, found[0].last) == (date(start, 4, 6), date(start, 4, 30))
    assert (found[-1].first, found[-1].last) == (date(start + 1, 4, 1), date(start + 1, 4, 5))
    assert all(after.first.toordinal() == before.last.toordinal() + 1
               for before, after in zip(found, found[1:], strict=False))  # fmt: skip


def test_rents_and_days_of_the_months_are_those_of_the_year() -> None:
    lines = "".join(f"{day} received rent £{sum_} from t-a\n" for day, sum_ in
                    (("6 Apr 2025", "500.00"), ("30 Apr 2025", "0.01"), ("1 May 2025", "7.00"), ("5 Apr 2026", "9.00"),
                     ("6 Apr 2026", "11.00")))  # fmt: skip
    worked = work('landlord x "X"\n' + house("a", "10 Jun 2025") + "at a\n" + lines)
    of = profit(worked, "a", TaxYear(2025))
    found = months(worked, of)

    assert [m.rent.pence for m in found if m.rent.pence] == [500_01, 7_00, 9_00]
    assert sum(m.rent.pence for m in found) == of.income[0].money.pence == 516_01
    assert sum(m.held for m in found) == of.days_held == 365
    assert sum(m.empty for m in found) == of.days_held - of.days_let == 25 + 31 + 9
    assert [m.empty for m in found][:4] == [25, 31, 9, 0]


def test_the_months_of_all_houses_are_those_of_each() -> None:
    text = 'landlord x "X"\n' + house("a", "10 Jun 2025") + house("b", "1 Jun 2015", let="ended 1 Sep 2025")
    worked = work(text)
    every = months(worked, profit(worked, "", TaxYear(2025)))
    each = [months(worked, profit(worked, name, TaxYear(2025))) for name in ("a", "b")]

    assert [m.held for m in every] == [a.held + b.held for a, b in zip(*each, strict=True)]
    assert [m.empty for m in every] == [a.empty + b.empty for a, b in zip(*each, strict=True)]
