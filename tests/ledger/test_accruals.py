"""What is owed for days counts for those days. Sums and people are our own; the arithmetic stands beside each."""

from __future__ import annotations

from datetime import date

import pytest

from ledger_tools.days import Period, TaxYear
from ledger_tools.ledger.accruals import stretches
from ledger_tools.statements.year_end import year_end
from tests.ledger.books import HOUSE, pages, work

LET = HOUSE.replace("    periodic from 1 Jun 2015\n", "    periodic from {0}\n    rent {1}\n")


# Rent is worked out for the tax years in which a book has lines.
YEARS = '6 Apr 2025 noted "the first line"\n1 Jan 2027 noted "the last"\n'


def rents(since: str, rent: str, year: int, lines: str = "") -> str:
    return pages(YEARS + lines, year, "accruals", LET.format(since, rent)).get("20", "0.00")


def test_rent_counts_for_the_days_it_is_for_whenever_it_comes() -> None:
    """£930 for 1 to 31 March and £930 for 1 to 30 April 2026, of which 5 of 30 days (£155) fall before 6 April."""
    assert rents("1 Mar 2026", "£930 a month", 2025) == "1085.00"
    # 25 of 30 days of April, and eleven whole months, the last of which, March 2027, is whole; 5 of 30 of April 2027.
    assert rents("1 Mar 2026", "£930 a month", 2026) == f"{930 * 25 // 30 + 930 * 11 + 930 * 5 // 30}.00"


def test_rent_in_arrears_counts_before_it_falls_due() -> None:
    """A quarter's £900 for 5 February to 4 May 2026 is due on 5 May; 60 of its 89 days lie before 6 April."""
    assert rents("5 Feb 2026", "£900 a quarter, first due 5 May 2026", 2025) == "606.74"


def test_rent_that_came_does_not_count_beside_the_rent_that_fell_due() -> None:
    lines = "1 Jul 2025 received rent £77.00 from t\n"

    assert rents("6 Apr 2025", "£500 a month", 2025, lines) == "6000.00"
    assert pages(lines, 2025, "cash", LET.format("6 Apr 2025", "£500 a month"))["20"] == "77.00"


def test_where_no_rent_is_told_what_came_counts() -> None:
    assert pages("1 Jul 2025 received rent £77.00 from t\n", 2025, "accruals")["20"] == "77.00"


@pytest.mark.parametrize(("year", "pence"), [(2025, "95.00"), (2026, "270.00")])
def test_a_cost_for_days_of_two_years_is_shared_by_days(year: int, pence: str) -> None:
    """£365 for the 365 days of 2026: 95 of them up to 5 April."""
    line = "1 Jan 2026 paid landlord insurance £365.00 for 1 Jan 2026 to 31 Dec 2026\n"

    assert pages(line, year, "accruals")["24"] == pence
    assert pages(line, 2025, "cash")["24"] == "365.00"


def test_a_leap_day_is_a_day() -> None:
    """£366 for the 366 days from 1 March 2023: 36 up to 5 April 2023, 330 in the year with 29 February 2024."""
    line = "1 Mar 2023 paid landlord insurance £366.00 for 1 Mar 2023 to 29 Feb 2024\n"

    assert [pages(line, year, "accruals")["24"] for year in (2022, 2023)] == ["36.00", "330.00"]


def test_a_bill_for_a_year_to_come_counts_there_though_paid_now() -> None:
    line = "1 Mar 2026 paid landlord insurance £120.00 for 6 Apr 2026 to 5 Apr 2027\n"

    assert "24" not in pages(line, 2025, "accruals")
    assert pages(line, 2026, "accruals")["24"] == "120.00"


def test_of_years_before_the_book_kept_rents_none_is_made_up() -> None:
    """A book that only tells an old improvement of 2014: the accruals of those years were somebody else's work."""
    lines = "1 Jun 2014 installed conservatory £9,000.00\n1 Jul 2025 received rent £500.00 from t\n"
    worked = work(lines, LET.format("1 Jun 2010", "£500 a month"))

    assert min(r.owed for r in worked.accrued if r.category == "rent" and r.owed) == date(2025, 4, 6)


def test_no_penny_is_lost_over_the_years() -> None:
    worked = work(
        "1 Mar 2024 paid landlord insurance £100.01 for 1 Mar 2024 to 28 Feb 2027\n",
        LET.format("3 Feb 2024", "£333.33 a week"),
    )
    insured = [r.pence for r in worked.accrued if r.category == "premises"]

    assert len(insured) == 4 and sum(insured) == 100_01
    assert sum(r.pence for r in worked.rows) == 100_01


def test_a_period_is_cut_before_other_days_too() -> None:
    days = Period(date(2025, 3, 30), date(2025, 4, 10))
    cut = stretches(days, [date(2025, 4, 1), date(2025, 4, 6), date(2025, 3, 30), date(2025, 4, 11)])

    assert [(part.first.day, part.last.day) for part in cut] == [(30, 31), (1, 5), (6, 10)]


def test_years_of_a_period() -> None:
    assert stretches(Period(date(2025, 4, 5), date(2026, 4, 6))) == [
        Period(date(2025, 4, 5), date(2025, 4, 5)),
        TaxYear(2025).period,
        Period(date(2026, 4, 6), date(2026, 4, 6)),
    ]


def test_tc_26_a_let_from_july_and_a_bill_not_paid_yet() -> None:
    """ACCA TX-UK notes, Finance Act 2022 ("Jim"), second hand: nine twelfths of £6,000 less £800 are £3,700 (the notes
    print £5,300, adding the £800). By days and to 5 April it is £82.42 more: 5 of the 91 days of the quarter that
    begins on 1 April 2023, which the notes leave to the next year as if the year ended with March."""
    lines = (
        "1 Nov 2022 repaired gutters £300.00, worn out\n"
        "1 Mar 2023 repaired door £500.00 by pell, worn out, due 31 Mar 2023, paid 1 May 2023\n"
        '1 Jan 2024 noted "the last line"\n'
    )
    head = LET.format("1 Jul 2022", "£1,500 a quarter")
    owners = year_end(work(lines, head.replace('"X"', '"X"\n    accounting accruals')), TaxYear(2022)).owners
    boxes = {b.number: b.figure.pence for o in owners for b in o.boxes}

    assert (boxes["20"], boxes["25"]) == (4_500_00 + 82_42, 800_00)


def test_the_rent_of_the_month_of_buying_is_mine_from_the_day_i_got_the_house() -> None:
    """Bought on 11 June 2026 with the tenant in: 20 of the 30 days of June, £300 of £450, and nine whole months."""
    told = 'property a "1 A Street"\n'
    house = LET.format("1 Jan 2024", "£450 a month").replace(told, f"{told}    bought 11 Jun 2026 for £9,000.00\n")

    assert pages(YEARS, 2026, "accruals", house)["20"] == f"{300 + 9 * 450 + 75}.00"  # and 5 of 30 days of April 2027


def test_the_rent_after_the_sale_of_the_house_is_not_mine() -> None:
    """Sold on 15 August 2026 in mid-let: 25 of the 30 days of April, three whole months, 15 of the 31 of August."""
    told = 'property a "1 A Street"\n'
    house = LET.format("1 Mar 2026", "£930 a month").replace(told, f"{told}    sold 15 Aug 2026 for £9,000.00\n")

    assert pages(YEARS, 2026, "accruals", house)["20"] == f"{930 * 25 // 30 + 3 * 930 + 930 * 15 // 31}.00"
