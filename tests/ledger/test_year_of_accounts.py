"""Accounts to 31 March in place of the tax year, a letting begun just after, and sums cut where shares change.

ITTOIA 2005 ss. 275(3), 275A-275C; PIM1010, PIM1015. People and sums are our own; the arithmetic stands beside each.
"""

from __future__ import annotations

import pytest

from ledger_tools.days import TaxYear
from ledger_tools.money import plain
from ledger_tools.render.text import draw
from ledger_tools.render.year_end import page
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.quarter import quarter
from ledger_tools.statements.year_end import year_end
from tests.ledger.books import HOUSE, work

LET = HOUSE.replace("    periodic from 1 Jun 2015\n", "    periodic from {0}\n    rent {1}\n")
DECLINED = "".join(f"    declines property allowance in {year}-{year - 1999}\n" for year in range(2022, 2027))


def under(head: str, words: str) -> str:
    return head.replace(
        'landlord x "X"\n', f'landlord x "X"\n{DECLINED}' + "".join(f"    {w}\n" for w in words.split("; "))
    )


def box(worked: Accounts, year: int, number: str = "20", owner: str = "x") -> str:
    boxes = [b for o in year_end(worked, TaxYear(year)).owners if o.owner == owner for b in o.boxes]
    return next((plain(b.figure.pence) for b in boxes if b.number == number), "0.00")


FEW = """at a
31 Mar 2023 received rent £1.00 from t
1 Apr 2023 received rent £2.00 from t
5 Apr 2023 received rent £4.00 from t
6 Apr 2023 received rent £8.00 from t
31 Mar 2024 received rent £16.00 from t
1 Apr 2024 received rent £32.00 from t
5 Apr 2024 received rent £64.00 from t
6 Apr 2024 received rent £128.00 from t
31 Mar 2025 received rent £256.00 from t
"""


def test_tc_07_accounts_to_31_march_stand_for_the_tax_year() -> None:
    """PIM1015 (b): the year to 31 March 2024 stands for 2023-24, and 1 to 5 April go to the next year; what 2022-23
    held does not count again."""
    worked = work(FEW, under(HOUSE, "accounts to 31 march from 2023-24"))

    assert [box(worked, year) for year in (2022, 2023, 2024)] == ["7.00", "24.00", "480.00"]
    assert [box(work(FEW, under(HOUSE, "accounting cash")), y) for y in (2022, 2023, 2024)] == [
        "7.00",
        "120.00",
        "384.00",
    ]


def test_tc_07_a_letting_begun_after_31_march_counts_with_the_next_year() -> None:
    """PIM1015 (a): begun on 1 April 2024, 2023-24 is nil and the days to 5 April fall into 2024-25."""
    lines = "at a\n1 Apr 2024 received rent £900.00 from t\n1 May 2024 received rent £900.00 from t\n"
    worked = work(lines, under(LET.format("1 Apr 2024", "£900 a month"), "accounting cash"))
    owners = year_end(worked, TaxYear(2024)).owners

    assert [box(worked, year) for year in (2023, 2024)] == ["0.00", "1800.00"]
    assert "began on 1 Apr 2024" in " ".join(owners[0].notes)
    before = year_end(worked, TaxYear(2023))
    assert before.owners == () and "counts with the next one (ITTOIA 2005 s. 275C" in " ".join(before.later)
    said = draw(page(before))
    assert "Days to keep" not in said and "31 March" not in said  # nobody must tell of a letting of that year
    late = LET.format("31 Mar 2024", "£900 a month")
    assert [box(work(lines, under(late, "accounting cash")), year) for year in (2023, 2024)] == ["900.00", "900.00"]


def test_before_the_law_let_them_accounts_end_with_the_tax_year() -> None:
    worked = work(FEW, under(HOUSE, "accounts to 31 march"))

    assert [box(worked, year) for year in (2022, 2023, 2024)] == ["7.00", "24.00", "480.00"]


def test_back_again_no_day_is_lost() -> None:
    words = "accounts to 31 march from 2023-24; accounts to 5 april from 2024-25"
    lines = FEW + "5 Apr 2025 received rent £512.00 from t\n"

    assert [box(work(lines, under(HOUSE, words)), year) for year in (2023, 2024)] == ["24.00", "992.00"]


def test_by_what_is_owed_the_days_of_april_are_cut_off_too() -> None:
    """£900 for 1 to 30 April 2025: with accounts to 31 March all of it is of 2025-26, else 5 days of 30 are not."""
    head = LET.format("1 Apr 2025", "£900 a month, first due 1 Apr 2025").replace("1 Apr 2025\n", "1 Mar 2025\n", 1)
    lines = '6 Apr 2024 noted "the first line"\n5 Apr 2027 noted "the last"\n'
    march = work(lines, under(head, "accounting accruals; accounts to 31 march from 2024-25"))

    assert [box(march, year) for year in (2024, 2025)] == ["900.00", "10800.00"]
    assert [box(work(lines, under(head, "accounting accruals")), y) for y in (2024, 2025)] == ["1050.00", "10800.00"]


@pytest.mark.parametrize("quarters", ["calendar quarters", "standard quarters"])
def test_the_last_update_holds_what_the_pages_hold(quarters: str) -> None:
    lines = "at a\n" + "".join(
        f"{day} received rent £{pounds}.00 from t\n"
        for pounds, day in (
            (1, "2 Apr 2025"),
            (2, "6 Apr 2025"),
            (4, "31 Mar 2026"),
            (8, "1 Apr 2026"),
            (16, "6 Apr 2026"),
        )
    )
    worked = work(lines, under(HOUSE, f"accounts to 31 march from 2024-25; {quarters}"))
    for year, held in ((2025, "7.00"), (2026, "24.00")):
        sent = {f.name: plain(f.figure.pence) for f in quarter(worked, "x", TaxYear(year), 4).fields}

        assert box(worked, year) == sent["income.periodAmount"] == held


# ── shares that change within the days a sum is for ──────────────────────────────────────────────────────────────

TWO = """
landlord jo "Jo"
    accounting accruals
landlord kim "Kim"
    accounting accruals
property a "1 A Street"
    as bought lettable
    price normal
    owners jo 50% and kim 50%
    owners jo 80% and kim 20% from 6 Oct 2023
tenancy t at a
    tenants "T. Enant"
    periodic from 1 Jun 2015
    rent £31 a month
"""


def test_what_was_paid_ahead_follows_the_shares_of_its_days() -> None:
    """£366 for the 366 days from 1 July 2023: 97 days at half, 183 to 5 April 2024 at 80 and 20 per cent."""
    lines = "1 Jul 2023 paid landlord insurance £366.00 at a for 1 Jul 2023 to 30 Jun 2024\n"
    worked = work(lines, TWO.replace("accruals\n", f"accruals\n{DECLINED}"))

    assert box(worked, 2023, "24", "jo") == plain(97_00 // 2 + 183_00 * 8 // 10) == "194.90"
    assert box(worked, 2023, "24", "kim") == plain(97_00 // 2 + 183_00 * 2 // 10) == "85.10"
    assert [box(worked, 2024, "24", who) for who in ("jo", "kim")] == ["68.80", "17.20"]  # 86 days


def test_so_does_the_rent_of_a_month_in_which_they_change() -> None:
    """£31 for October 2023: 5 days at half, 26 at 80 per cent."""
    lines = '6 Apr 2023 noted "the first line"\n'
    worked = work(lines, TWO)
    (october,) = {r.pence for r in worked.accrued if r.owed and str(r.owed) == "2023-10-06"}

    assert october == 26_00
    jo, kim = (
        sum(p for r, d, p in worked.of_owner(who, TaxYear(2023), "accruals") if d.month == 10) for who in ("jo", "kim")
    )
    assert (jo, kim) == (2_50 + 20_80, 2_50 + 5_20)


def test_by_payment_the_shares_of_the_day_of_payment_hold() -> None:
    lines = "1 Jul 2023 paid landlord insurance £366.00 at a for 1 Jul 2023 to 30 Jun 2024\n"
    worked = work(lines, TWO.replace("accruals\n", f"cash\n{DECLINED}"))

    assert [box(worked, 2023, "24", who) for who in ("jo", "kim")] == ["183.00", "183.00"]


COUPLE = """
landlord jo "Jo"
    married to kim
    accounting {way}
landlord kim "Kim"
    accounting {way}
property a "1 A Street"
    as bought lettable
    price normal
    owners jo 75% and kim 25%
    form 17 signed 1 Sep 2025, sent {sent}
tenancy t at a
    tenants "T. Enant"
    periodic from 1 Jun 2015
"""
INSURED = "1 Aug 2025 paid landlord insurance £61.00 at a for 1 Aug 2025 to 30 Sep 2025\n"
AUGUST, SEPTEMBER = (f"{day} received rent £100.00 from t\n" for day in ("31 Aug 2025", "1 Sep 2025"))


def both(lines: str, way: str, sent: str, number: str) -> list[str]:
    head = COUPLE.format(way=f"{way}\n{DECLINED.rstrip()}", sent=sent)
    return [box(work(lines, head), 2025, number, who) for who in ("jo", "kim")]


def test_a_declaration_holds_from_its_day_and_by_what_is_owed_cuts_what_is_for_its_days() -> None:
    """ITA 2007 ss. 836, 837: half each to 31 August, then 75 and 25 per cent. £61 for 61 days: 31 at half."""
    assert both("at a\n" + AUGUST + SEPTEMBER, "cash", "30 Oct 2025", "20") == ["125.00", "75.00"]
    assert both(INSURED, "accruals", "30 Oct 2025", "24") == ["38.00", "23.00"]  # 15.50 + 22.50 and 15.50 + 7.50


def test_one_sent_too_late_changes_nothing() -> None:
    """The sixtieth day, the day of signing the first, is 30 October."""
    assert both("at a\n" + AUGUST + SEPTEMBER, "cash", "31 Oct 2025", "20") == ["100.00", "100.00"]
    assert both(INSURED, "accruals", "31 Oct 2025", "24") == ["30.50", "30.50"]
