"""A change between the two ways of accounting: nothing counts twice or never. Sources stand beside each case."""

from __future__ import annotations

import pytest

from ledger_tools.days import TaxYear
from ledger_tools.statements.year_end import year_end
from tests.ledger.books import HOUSE, work

RENT = HOUSE.replace("    periodic from 1 Jun 2015\n", "    periodic from {0}\n    rent {1}\n")
ENDS = '1 Jan 2027 noted "the last line"\n'


def boxes(lines: str, bases: str, head: str = HOUSE) -> dict[int, dict[str, int]]:
    """Exact pence of every box by year, for years from 2023-24 to 2026-27."""
    words = "".join(f"    accounting {basis}\n" for basis in bases.split("; "))
    words += "    declines property allowance in 2025-26\n"  # small sums stand for any
    worked = work(lines, head.replace('landlord x "X"\n', f'landlord x "X"\n{words}'))
    found = {}
    for year in range(2023, 2027):
        owners = year_end(worked, TaxYear(year)).owners
        found[year] = {b.number: b.figure.pence for o in owners for b in o.boxes}
    return found


INTO_CASH = "accruals; cash from 2025-26"
OUT_OF_CASH = "cash; accruals from 2025-26"


def test_tc_05_rent_taxed_as_owed_comes_off_when_it_is_received() -> None:
    """PIM1096 ("Mrs P"), read: £500 owed at 5 April was taxed; received in the first cash year, it comes off."""
    lines = "6 Apr 2025 received rent £500.00 from t\n" + ENDS + '1 Mar 2025 noted "first"\n'
    head = RENT.format("6 Mar 2025", "£500 a month").replace("    rent", "    ended 5 Apr 2025\n    rent")
    found = boxes(lines, INTO_CASH, head)

    assert found[2024]["20"] == 500_00  # 31 days, all before 6 April
    assert found[2025].get("20", 0) == 0


def test_tc_13_entering_power_repairs_and_receipts() -> None:
    """BIM72066, read: power £3,000 paid of which £200 was accrued: £2,800. Upkeep £2,356 paid, £1,000 prepaid: £3,356.
    Receipts £55,000 and £4,500 received in advance: £59,500. Put as a let: what was prepaid is for days to come."""
    lines = (
        "1 Mar 2025 billed electricity £200.00, due 30 Apr 2025, paid 1 May 2025\n"
        "1 Jun 2025 paid electricity £2,800.00\n"
        "6 Apr 2025 paid cleaning £2,356.00\n"
        "1 Feb 2025 paid cleaning £1,000.00 for 6 Apr 2025 to 5 Apr 2026\n"
        "1 Mar 2025 received ground rent £4,500.00 for 6 Apr 2025 to 5 Apr 2026\n"
        "1 May 2025 received ground rent £55,000.00\n"
    )
    found = boxes(lines, INTO_CASH)

    assert found[2025]["24"] == 2_800_00
    assert found[2025]["28"] == 3_356_00
    assert found[2025]["20"] == 59_500_00


LEAVING = (
    "1 Mar 2025 recharged carpet £400.00 to t, due 30 Apr 2025, paid 1 May 2025\n"
    "1 Mar 2025 repaired door £220.00 by pell, worn out, due 31 Mar 2025, paid 1 May 2025\n"
    "1 Mar 2025 received ground rent £1,000.00 for 6 Apr 2025 to 5 Apr 2026\n"
)


def test_tc_14_leaving_a_sum_that_lowers_the_profit_counts_at_once() -> None:
    """BIM72071, read: £400 owed to us, £220 owed by us, £1,000 received in advance (its £60 of stock a let has not):
    £400 less £1,220 is -£820. The £1,000 counts again as earned, so that over both years it counts once."""
    found = boxes(LEAVING + ENDS, OUT_OF_CASH)

    assert found[2025]["29"] == 820_00
    assert found[2025]["20"] == 1_000_00
    assert "25" not in found[2025]


def test_leaving_a_sum_that_adds_to_the_profit_is_spread_over_six_years() -> None:
    """£600 owed to us at the change: £100 a year (ITTOIA 2005 s. 334A)."""
    lines = "1 Mar 2025 recharged carpet £600.00 to t, due 30 Apr 2025, paid 1 May 2025\n" + ENDS
    found = boxes(lines, OUT_OF_CASH)

    assert [found[year].get("20", 0) for year in (2024, 2025, 2026)] == [0, 100_00, 100_00]


AHEAD = "1 Jan 2025 paid landlord insurance £1,200.00 for 1 Jan 2025 to 31 Dec 2025\n"


def test_leaving_what_was_paid_ahead_is_not_deducted_again_nor_spread() -> None:
    """BIM72072, read: a prepayment deducted under the cash basis comes off once, and is no part of the adjustment."""
    rent = "1 Jun 2025 received ground rent £6,000.00\n"
    found = boxes(AHEAD + rent + ENDS, OUT_OF_CASH)

    assert found[2024]["24"] == 1_200_00
    assert "24" not in found[2025] and "29" not in found[2025]
    assert [found[year].get("20", 0) for year in (2025, 2026)] == [6_000_00, 0]
    assert boxes(AHEAD + rent + ENDS, "accruals")[2025]["24"] == 887_67  # 270 of its 365 days


def test_there_and_back_what_was_paid_ahead_counts_once() -> None:
    found = boxes(AHEAD + ENDS, "cash; accruals from 2025-26; cash from 2026-27")

    assert [found[year].get("24", 0) for year in (2024, 2025, 2026)] == [1_200_00, 0, 0]
    assert not any(found[year].get(box) for year in (2025, 2026) for box in ("20", "29"))


@pytest.mark.parametrize("bases", [INTO_CASH, OUT_OF_CASH, "cash", "accruals"])
def test_finance_costs_and_repairs_count_once_over_the_years(bases: str) -> None:
    lines = (
        '1 Mar 2025 billed loan interest £90.00 by "Fen", due 31 Mar 2025, paid 1 May 2025\n'
        "1 Mar 2025 repaired door £220.00 by pell, worn out, due 31 Mar 2025, paid 1 May 2025\n" + ENDS
    )
    found = boxes(lines, bases)

    assert sum(found[year].get("44", 0) for year in found) == 90_00
    assert sum(found[year].get("25", 0) + found[year].get("29", 0) for year in found) == 220_00


def test_no_change_no_adjustment() -> None:
    assert boxes(LEAVING + ENDS, "cash")[2025]["20"] == 400_00


# ── rent of days before the book ─────────────────────────────────────────────────────────────────────────────────

MONTHS = [f"1 {m} 2024" for m in ("May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")]
MONTHS += [f"1 {m} 2025" for m in ("Jan", "Feb", "Mar", "Apr")]
MONTHS += [day.replace("2025", "2026").replace("2024", "2025") for day in MONTHS]
AHEAD_OF_TIME = RENT.format("1 Jun 2015", "£900 a month, first due 1 Jun 2015")


def monthly(first: str = "£900.00") -> str:
    """£900 on the 1st of each month from May 2024 to April 2026; the first sum may be another."""
    return "".join(f"{day} received rent {'£900.00' if n else first} from t\n" for n, day in enumerate(MONTHS))


@pytest.mark.parametrize("bases, profit", [(OUT_OF_CASH, 10_050_00), (INTO_CASH, 11_550_00)])
def test_rent_that_fell_due_before_the_book_is_no_debt_at_the_change(bases: str, profit: int) -> None:
    """Each month's £900 comes on its 1st. On 5 April £750 of April's had come for the 25 days to come: out of the cash
    basis it comes off, £10,800 - £750 (BIM72071), into it it is added, £10,800 + £750 (BIM72065-72066). The book begins
    in May 2024; 25 days of the April before had been paid then, which is no rent still owed a year later."""
    found = boxes(monthly(), bases, AHEAD_OF_TIME)

    assert [found[year]["38"] for year in (2024, 2025)] == [10_800_00, profit]


@pytest.mark.parametrize("bases, sums", [(OUT_OF_CASH, (11_700_00, 10_050_00)), (INTO_CASH, (10_800_00, 11_550_00))])
def test_arrears_told_for_the_beginning_are_the_debt_of_that_day(bases: str, sums: tuple[int, int]) -> None:
    """As before, but April 2024 came with May's rent, £1,800. By payment it counts in 2024-25; by what is owed only 25
    days of it do. A year later nothing is owed, and the £750 of the days to come are the same."""
    head = AHEAD_OF_TIME.replace("    tenants", "    arrears £900 on 6 Apr 2024\n    tenants")
    found = boxes(monthly("£1,800.00"), bases, head)

    assert tuple(found[year]["38"] for year in (2024, 2025)) == sums
