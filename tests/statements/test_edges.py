"""Years at the edge, each worked out by hand: the letting ends, a loss year between, a 29 February, the allowance."""

from __future__ import annotations

from datetime import date

from ledger_tools.book.build import build
from ledger_tools.days import TaxYear
from ledger_tools.problems import Level
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.year_end import OwnerYear, year_end

HOUSE = """property a "1 A Street"
    bought 1 May 2019 for £100,000
    as bought lettable
    price normal
    owners {owners}
{sold}tenancy t at a
    tenants "T. Enant"
    periodic from 1 Jun 2019
    rent £{rent} a month, first due 1 Jun 2019
{ended}loan big on a from "Big Bank"
at a
1 May 2019 borrowed £60,000.00 from big for purchase
"""


def book(
    lines: str, people: str, owners: str = "x 100%", sold: str = "", ended: str = "", rent: str = "500"
) -> Accounts:
    text = people + HOUSE.format(owners=owners, sold=sold, ended=ended, rent=rent) + lines
    made = build({"a.book": text})
    assert [p.headline for p in made.problems if p.level is Level.ERROR] == []
    return Accounts(made)


def of(made: Accounts, year: int, owner: str = "x") -> OwnerYear:
    return next(o for o in year_end(made, TaxYear(year)).owners if o.owner == owner)


def pounds(found: OwnerYear) -> dict[str, int]:
    return {b.number: b.pounds for b in found.boxes}


def test_finance_costs_pass_through_a_loss_year_and_are_lost_where_the_letting_ends() -> None:
    """2024-25: £6,000 less £7,000 is a loss of £1,000; £3,000 of interest earns nothing yet. 2025-26: £2,000 less £150
    is £1,850, less the loss £850; of £4,500 of interest £850 earns £170 (ITTOIA 2005 s. 274AA), and £3,650 is left that
    nothing can take up, for the last house was sold (ITA 2007 s. 118)."""
    made = book(
        "1 May 2024 received rent £6,000.00 from t\n2 May 2024 repaired roof £7,000.00, storm damage\n"
        "1 Jun 2024 paid loan interest £3,000.00 to big\n1 May 2025 received rent £2,000.00 from t\n"
        "1 Jun 2025 paid loan interest £1,500.00 to big\n1 Jul 2025 paid landlord insurance £50.00\n"
        "1 Oct 2025 repaid loan £60,000.00 to big\n1 Dec 2025 paid accountant £100.00\n",
        'landlord x "X"\n    other income £30,000 in 2024-25\n    other income £30,000 in 2025-26\n',
        sold="    exchanged 1 Sep 2025\n    sold 1 Oct 2025 for £150,000\n",
        ended="    ended 31 Jul 2025\n",
    )
    before, last = of(made, 2024), of(made, 2025)

    assert {n: pounds(before)[n] for n in ("41", "43", "44")} == {"41": 1_000, "43": 1_000, "44": 3_000}
    assert {n: pounds(last)[n] for n in ("38", "39", "40", "44", "45")} == {
        "38": 1_850, "39": 1_000, "40": 850, "44": 1_500, "45": 3_000,
    }  # fmt: skip
    made_of = last.in_tax.estimate
    assert made_of and (made_of.reduction, made_of.relief.left) == (170_00, 3_650_00)
    assert dict(last.ticks) == {"1": "1", "2": "X"}
    left = "finance costs of £3,650.00 that earned no reduction can be set against nothing"
    assert any(left in note for note in last.notes)


def test_days_of_a_leap_year_are_counted_by_what_is_owed() -> None:
    """£366 for the 366 days of 2024: 96 days to 5 April 2024 (31 + 29 + 31 + 5) and 270 after. £365 for 1 March 2023 to
    28 February 2024: 329 days from 6 April. Rent of £366 a month: 25 of 30 days of April 2023, £305, eleven months,
    £4,026, and 5 of 30 days of April 2024, £61."""
    made = book(
        "1 Mar 2023 paid landlord insurance £365.00 for 1 Mar 2023 to 28 Feb 2024\n"
        "1 Jan 2024 paid landlord insurance £366.00 for 1 Jan 2024 to 31 Dec 2024\n"
        '6 Apr 2024 noted "the year goes on"\n',
        'landlord x "X"\n    accounting accruals\n',
        rent="366",
    )

    assert (pounds(of(made, 2023))["20"], pounds(of(made, 2023))["24"]) == (4_392, 96 + 329)
    assert pounds(of(made, 2024))["24"] == 270


def test_two_owners_count_one_rent_in_two_years_by_their_own_ways_of_accounting() -> None:
    """£600 for April 2026, paid on 10 April: X, by what is owed, has half of 5 days of 30 in 2025-26, £50; Y, by
    payment, has nothing of it until 2026-27."""
    lines = "".join(f"1 {m} received rent £600.00 from t\n" for m in ("May 2025", "Mar 2026"))
    made = book(
        lines + "10 Apr 2026 received rent £600.00 from t\n",
        'landlord x "X"\n    accounting accruals from 2025-26\nlandlord y "Y"\n',
        owners="x 50% and y 50%",
        rent="600",
    )
    x, y = of(made, 2025), of(made, 2025, "y")

    # X: 25 days of April 2025, eleven months and 5 days of April 2026, half of £7,200.
    assert (pounds(x)["20"], pounds(y)["20"]) == (3_600, 600)
    assert pounds(of(made, 2026, "y"))["20"] == 300


def test_receipts_of_the_allowance_exactly_are_free_and_a_penny_more_is_not() -> None:
    """ITTOIA 2005 ss. 783BF, 783BG: not above £1,000 full relief; above it the real costs count unless one chooses."""
    made = book(
        "1 May 2024 received rent £1,000.00 from t\n1 Jun 2024 paid landlord insurance £300.00\n"
        "1 May 2025 received rent £1,000.01 from t\n1 Jun 2025 paid landlord insurance £300.00\n",
        'landlord x "X"\n',
    )

    assert {n: pounds(of(made, 2024)).get(n) for n in ("20.1", "24", "40")} == {"20.1": 1_000, "24": None, "40": 0}
    assert {n: pounds(of(made, 2025)).get(n) for n in ("20.1", "24", "40")} == {"20.1": None, "24": 300, "40": 700}


def test_a_year_without_a_line_says_which_let_ran_in_it() -> None:
    made = book("1 Jun 2025 received rent £500.00 from t\n", 'landlord x "X"\n')
    (said,) = year_end(made, TaxYear(2023), date(2025, 7, 1)).later
    running = year_end(made, TaxYear(2027), date(2027, 5, 1)).later
    assert "t (6 Apr 2023 to 5 Apr 2024, at a) ran in it" in said
    assert ["6 Apr 2027 to 1 May 2027" in words for words in running] == [True]  # no further than the day asked
    assert year_end(made, TaxYear(2027), date(2026, 5, 1)).later == ()
    assert year_end(made, TaxYear(2025), date(2025, 7, 1)).later == ()
    fee = "1 Jun 2025 paid fee £5.00 for accountant\n"
    sold = book(fee, 'landlord x "X"\n', sold="    sold 1 May 2021 for £9,000\n")
    assert year_end(sold, TaxYear(2023), date(2025, 7, 1)).later == ()
