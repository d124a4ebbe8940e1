"""The capital record: what counts when a house is sold, never what came off the rents. The houses are invented."""

from __future__ import annotations

from datetime import date

import pytest

from ledger_tools.book.build import build
from ledger_tools.book.world import Book
from ledger_tools.problems import Level
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.base_cost import ADDED, FINISHED, PURCHASE, SELLING, BaseCost, base_cost
from ledger_tools.verdicts.verdict import Kind

HEAD = """
landlord x "X"
    other income £30,000 in 2025-26
landlord y "Y"
property a "1 A Street"
    bought 10 Jun 2018 for £180,000, of which chattels £2,000
    as bought not lettable
    price normal
    {more}
tenancy t at a
    tenants "T. Enant"
    periodic from 1 Oct 2018
    rent £500 a month
at a
10 Jun 2018 paid stamp duty £6,000.00
1 Jul 2018 replaced boiler £2,400.00, like for like
2 Mar 2020 installed conservatory £9,000.00
3 Mar 2021 repaired gutters £300.00, storm damage
4 Mar 2021 replaced worktop £410.00
"""
DAY = date(2025, 12, 1)


def book(lines: str = "", more: str = "owners x 100%") -> Book:
    made = build({"a.book": HEAD.format(more=more) + lines})
    assert [p.headline for p in made.problems if p.level is Level.ERROR] == []
    return made


def record(lines: str = "", day: date = DAY, price: int | None = None, more: str = "owners x 100%") -> BaseCost:
    return base_cost(book(lines, more), "a", day, price)


def groups(r: BaseCost) -> dict[str, int]:
    return {g.slug: g.pence for g in r.groups if g.pence}


def test_each_sum_has_one_place_and_chattels_and_repairs_have_none() -> None:
    found = record("5 Nov 2025 paid estate agent £1,500.00\n6 Nov 2025 paid legal fees £800.00 for sale\n")

    assert groups(found) == {PURCHASE: 184_000_00, FINISHED: 2_400_00, ADDED: 9_000_00, SELLING: 2_300_00}
    assert found.total == 195_400_00
    assert [(t.words, t.pence) for t in found.open.trail] == [("replaced worktop", 410_00)]


def test_a_cost_is_never_in_the_rents_and_in_the_gain() -> None:
    made = book("5 Nov 2025 paid estate agent £1,500.00\n")
    deducted = {row.source for row in Accounts(made).rows if row.category and row.kind is not Kind.ARGUABLE}
    counted = {t.source for g in base_cost(made, "a", DAY).groups for t in g.trail}

    assert deducted and counted and not deducted & counted


def test_the_record_is_that_of_the_day() -> None:
    lines = "5 May 2024 removed conservatory £400.00\n"

    assert groups(record(lines, date(2019, 1, 1))) == {PURCHASE: 184_000_00, FINISHED: 2_400_00}
    assert groups(record(lines, date(2024, 5, 4)))[ADDED] == 9_000_00
    after = record(lines, date(2024, 5, 5))
    added = next(g for g in after.groups if g.slug == ADDED)
    assert "installed conservatory" not in [t.words for t in added.trail]
    assert after.gone.pence == 9_000_00


def test_money_back_for_an_improvement_comes_off_it() -> None:
    assert groups(record("5 May 2020 received refund £500.00 for conservatory\n"))[ADDED] == 8_500_00


def test_a_sale_tried_out_for_one_owner() -> None:
    """£250,000 less £1,500, £186,400 and £9,000 is £53,100; £3,000 are free. Taxable income £17,430 (£30,000 less
    £12,570) leaves £20,270 of the band: £20,270 at 18% is £3,648.60, £29,830 at 24% is £7,159.20."""
    sale = record("5 Nov 2025 paid estate agent £1,500.00\n", price=250_000_00).sale
    assert sale is not None
    (owner,) = sale.owners

    assert (owner.part.disposal.gain, owner.charge and owner.charge.taxable) == (53_100_00, 50_100_00)
    assert [t.tax for t in owner.taxes] == [10_807_80]
    assert sale.report_by == date(2026, 1, 30)


def test_two_owners_each_have_their_share_and_their_own_exempt_amount() -> None:
    sale = record(price=250_000_00, more="owners x 60% and y 40%").sale
    assert sale is not None

    assert sum(o.part.disposal.proceeds for o in sale.owners) == 250_000_00
    assert sum(o.part.disposal.buying for o in sale.owners) == 186_400_00
    assert [o.charge.exempt_used for o in sale.owners if o.charge] == [3_000_00, 3_000_00]
    assert [len(o.taxes) for o in sale.owners] == [1, 2]  # what else Y earns is not told


def test_days_as_the_owners_home_are_relieved() -> None:
    sale = record(price=250_000_00, more="owners x 100%\n    own home from 10 Jun 2018 to 9 Jun 2019").sale
    assert sale is not None
    (owner,) = sale.owners

    # 365 days and the last nine months (from 2 Mar 2025, 275 days) of 2,732.
    assert owner.part.home == -(-(owner.part.disposal.gain // 100) * 640 // 2732) * 100


def test_a_sale_that_happened_needs_no_price() -> None:
    found = record(more="owners x 100%\n    sold 14 Nov 2025 for £200,000")
    assert found.sale is not None

    assert (found.sale.happened, found.sale.price) == (True, 200_000_00)
    assert record(day=date(2025, 11, 13), more="owners x 100%\n    sold 14 Nov 2025 for £200,000").sale is None


def test_before_the_rates_held_here_no_tax_is_made_up() -> None:
    sale = record(day=date(2019, 6, 1), price=200_000_00).sale
    assert sale is not None

    assert sale.owners[0].taxes == () and sale.report_by is None


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ("owners x 100%\n    owners x 50% and y 50% from 1 Jan 2024", "On 1 Jan 2024 X passed on 50% of it"),
        ("owners x 100%", "as far as it can still be seen"),
    ],
)
def test_notes(more: str, words: str) -> None:
    assert words in " ".join(record(more=more).notes)


def test_an_inherited_house_counts_at_its_value() -> None:
    made = build({"a.book": 'landlord x "X"\nproperty a "1 A Street"\n    inherited 1 Jan 2020 at £90,000\n'})
    found = base_cost(made, "a", DAY)

    assert found.total == 90_000_00
    assert "It was inherited" in found.notes[0]


def test_what_is_open_counts_whichever_answer_is_capital() -> None:
    """A bike store is an improvement or a loose item without relief: the favourable answer counts, so it is told."""
    found = record("5 May 2024 installed bike store £380.00, loose\n")

    assert [(t.words, t.pence) for t in found.open.trail] == [
        ("replaced worktop", 410_00),
        ("installed bike store", 380_00),
    ]


def test_what_a_third_answer_alone_counts_is_told_as_open() -> None:
    """Work before a sale counts for the gain by Day alone, an energy certificate as a cost of the sale: neither of the
    first two answers does, and the audit tells all three."""
    ended = "owners x 100%\n    sold 14 Nov 2025 for £200,000"
    lines = "9 Oct 2025 certified energy performance £60.00\n20 Oct 2025 decorated house £640.00, before sale\n"
    head = HEAD.format(more=ended).replace("1 Oct 2018\n", "1 Oct 2018\n    ended 31 Aug 2025\n")
    made = build({"a.book": head + lines})
    found = base_cost(made, "a", DAY)

    assert [(t.words, t.pence) for t in found.open.trail if t.day.year == 2025] == [
        ("certified energy performance", 60_00),
        ("decorated house", 640_00),
    ]
    assert not found.pence(SELLING)
    assert {r.account for r in Accounts(made).rows if r.kind is Kind.ARGUABLE} == {"open questions"}


def test_an_open_grant_comes_off_what_is_open() -> None:
    found = record('5 May 2024 replaced windows £900.00\n6 Jun 2024 received grant £200.00 from "Town" for windows\n')

    assert [t.pence for t in found.open.trail] == [410_00, 900_00, -200_00]
    assert found.open.pence == 1_110_00
