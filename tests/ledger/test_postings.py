"""One line of each kind, posted: what every account holds, to the penny."""

from __future__ import annotations

from datetime import date

import pytest

from ledger_tools.ledger.postings import Posting, postings
from tests.ledger.books import HOUSE, balance, work


@pytest.mark.parametrize(
    "lines, held",
    [
        ("1 Jun 2025 received rent £500.00 from t\n", {"rent": "-500.00", "money": "500.00"}),
        ("1 Jun 2025 repaid rent £50.00 to t\n", {"rent": "50.00", "money": "-50.00"}),
        ("1 Jun 2025 repaired tap £9.99 by pell, worn out\n", {"repairs": "9.99", "money": "-9.99"}),
        ("1 Jun 2025 installed extension £900.00 by pell\n", {"improvements": "900.00", "money": "-900.00"}),
        ("1 Jun 2025 paid insurance £80.00 to pell\n", {"premises": "80.00", "money": "-80.00"}),
        ("1 Jun 2025 repaired tap £9.99 by pell, worn out, due 1 Jul 2025\n",
         {"repairs": "9.99", "owed to others": "-9.99"}),
        ("1 Jun 2025 repaired tap £9.99 by pell, worn out, due 1 Jul 2025, paid 2 Jul 2025\n",
         {"repairs": "9.99", "money": "-9.99"}),
        ("1 Jun 2025 billed council tax £90.00 by wold\n", {"premises": "90.00", "owed to others": "-90.00"}),
        ("1 Jun 2025 recharged carpet £60.00 to t\n", {"other_income": "-60.00", "owed by others": "60.00"}),
        ("1 Jun 2025 received deposit £500.00 from t\n", {"tenants' deposits": "-500.00", "money": "500.00"}),
        ("1 Jun 2025 repaid deposit £500.00 to t\n", {"tenants' deposits": "500.00", "money": "-500.00"}),
        ("1 Jun 2025 scrapped boiler £25.00\n", {"open questions": "-25.00", "money": "25.00"}),
        ("1 Jun 2025 scrapped boiler £25.00, left by seller\n", {"things sold": "-25.00", "money": "25.00"}),
        ("1 Jun 2025 scrapped boiler, left by seller\n", {}),
        ("1 Jun 2025 wrote off rent £500.00 from t\n", {}),
        ("2 Jun 2019 replaced sofa £90.00 by pell, like for like\n1 Jun 2025 took home sofa £20.00\n",
         {"domestic": "90.00", "money": "-90.00", "other_income": "-20.00", "the owner": "20.00"}),
        ('1 Jun 2025 drove 10 miles "there and back"\n', {"travel": "4.50", "the owner": "-4.50"}),
        ("1 May 2025 quoted roof £900.00 by pell, number 7\n", {}),
    ],
)  # fmt: skip
def test_one_line_of_each_kind_balances_on_its_two_accounts(lines: str, held: dict[str, str]) -> None:
    assert balance(work(lines)) == held


def test_a_bill_paid_later_is_posted_on_both_days() -> None:
    worked = work("1 Jun 2025 repaired tap £9.99 by pell, worn out, due 1 Jul 2025, paid 2 Jul 2025\n")
    source = worked.rows[0].source

    assert list(postings(worked.rows)) == [
        Posting(date(2025, 6, 1), "repairs", 999, source),
        Posting(date(2025, 6, 1), "owed to others", -999, source),
        Posting(date(2025, 7, 2), "owed to others", 999, source),
        Posting(date(2025, 7, 2), "money", -999, source),
    ]


def test_a_house_that_was_bought_takes_money_and_one_inherited_or_given_none() -> None:
    def got(words: str) -> dict[str, str]:
        return balance(work("", HOUSE.replace("    as bought", f"    {words}\n    as bought")))

    assert got("bought 1 May 2015 for £100,000") == {"purchase": "100000.00", "money": "-100000.00"}
    assert got("inherited 1 May 2015 at £100,000") == {"purchase": "100000.00", "the owner": "-100000.00"}
    assert got("given 1 May 2015 at £100,000") == {"purchase": "100000.00", "the owner": "-100000.00"}


def test_the_chattels_in_a_price_and_the_sale_of_a_house() -> None:
    house = (
        "    bought 1 May 2015 for £100,000, of which chattels £900\n    sold 1 May 2026 for £150,000\n    as bought"
    )

    assert balance(work("", HOUSE.replace("    as bought", house))) == {
        "purchase": "100000.00", "sale of house": "-150000.00", "money": "50000.00",
    }  # fmt: skip
    assert [r.pence for r in work("", HOUSE.replace("    as bought", house)).rows] == [9_910_000, 90_000, 15_000_000]
