"""Lets of which a book keeps no rent in a year with costs: the doubt, the notes beside a loss, and what is not one."""

from __future__ import annotations

from datetime import date

import pytest

from ledger_tools.book.arrears import rent_account
from ledger_tools.book.build import build
from ledger_tools.book.rents import first_lines, receipts
from ledger_tools.days import TaxYear
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.year_end import year_end

HEAD = (
    'landlord ann "Ann Pike"\n    declines property allowance in 2024-25\n'
    'property a "A"\n    bought 12 May 2016 for £84,000\n    as bought lettable\n    price normal\n'
    "tenancy old at a\n    periodic from 1 Jun 2016\n    rent £600 a month\n    moved out 14 Feb 2025\n"
    "tenancy new at a\n    periodic from 12 May 2025\n    rent £690 a month\nat a\n"
)
KITCHEN = "10 Mar 2025 replaced kitchen £3,000.00, like for like, worn out\n"
AFTER = "12 May 2025 received rent £690.00 from new\n"


def doubts(lines: str, head: str = HEAD) -> list[str]:
    return [p.headline for p in build({"a.book": head + lines}).problems if p.code == "rents-missing"]


def test_costs_of_a_year_without_the_rent_of_its_let_are_a_doubt() -> None:
    assert doubts(KITCHEN + AFTER) == ["Of 2024-25 your book has costs of a, but no rent of old."]


def test_several_years_of_a_let_are_told_at_once_with_a_line_for_each() -> None:
    more = "10 Mar 2023 paid insurance £200.00\n10 Mar 2024 paid insurance £200.00\n" + KITCHEN + AFTER
    (found,) = [p for p in build({"a.book": HEAD + more}).problems if p.code == "rents-missing"]

    assert found.headline == "Of 2022-23, 2023-24 and 2024-25 your book has costs of a, but no rent of old."
    assert "`5 Apr 2023 received rent £… from old for 6 Apr 2022 to 5 Apr 2023`" in found.help
    assert "`14 Feb 2025 received rent £… from old for 6 Apr 2024 to 14 Feb 2025`" in found.help
    assert "`arrears £… on 14 Feb 2025`" in found.help


@pytest.mark.parametrize(
    ("lines", "head"),
    [
        (KITCHEN, HEAD),  # the year is not over in the book
        (AFTER + "1 Jul 2025 noted \"x\"\n", HEAD),  # no costs of that year
        (KITCHEN + AFTER + "14 Feb 2025 received rent £6,000.00 from old\n", HEAD),
        (KITCHEN + AFTER + "1 May 2025 received rent £6,000.00 from old for 6 Apr 2024 to 14 Feb 2025\n", HEAD),
        (KITCHEN + AFTER + "1 Mar 2025 wrote off rent £600.00 of old\n".replace(" of old", " from old"), HEAD),
        (KITCHEN + AFTER, HEAD.replace("moved out 14", "arrears £0 on 14 Feb 2025\n    moved out 14")),
        (KITCHEN + AFTER, HEAD.replace("moved out 14 Feb 2025", "moved out 20 Apr 2024")),  # a few days of it
        (KITCHEN + AFTER, HEAD.replace('"Ann Pike"\n', '"Ann Pike"\n    accounting accruals\n')),
        (KITCHEN + AFTER, HEAD.replace("12 May 2016 for", "10 Feb 2025 for")),  # bought with the tenant in it
    ],
)  # fmt: skip
def test_what_is_none(lines: str, head: str) -> None:
    assert doubts(lines, head) == []


def test_what_the_purchase_cost_makes_no_year_of_the_book() -> None:
    head = HEAD.replace("bought 12 May 2016", "bought 20 May 2016")
    paid = "24 May 2016 paid conveyancing £900.00\n"
    later = "24 Nov 2016 paid insurance £200.00\n"

    assert doubts(paid + AFTER, head) == []
    assert doubts(paid + later + AFTER, head) == ["Of 2016-17 your book has costs of a, but no rent of old."]


def notes(lines: str, year: int) -> str:
    (owner,) = year_end(Accounts(build({"a.book": HEAD + lines})), TaxYear(year)).owners
    return " ".join(owner.notes)


def test_the_pages_of_the_year_and_the_loss_it_leaves_say_so() -> None:
    assert "no rent at all of old (6 Apr 2024 to 14 Feb 2025, at a)" in notes(KITCHEN + AFTER, 2024)
    assert "Loss of £3,000.00 brought into 2025-26" in notes(KITCHEN + AFTER, 2025)
    assert "the rent of 2024-25 is not all in your book" in notes(KITCHEN + AFTER, 2025)
    told = "14 Feb 2025 received rent £1,000.00 from old\n"
    assert "Do not rely on it" not in notes(told + KITCHEN + AFTER, 2025)


def owed(lines: str, let: str, on: date) -> tuple[int, date] | None:
    book = build({"a.book": HEAD + lines})
    rent = rent_account(book, book.tenancies[let], receipts(book).get(let, ()), (), on, first_lines(book).get(let))
    return (rent.arrears, rent.since) if rent else None


def test_a_let_that_was_over_before_the_first_line_of_its_house_owes_nothing() -> None:
    assert owed(KITCHEN + AFTER, "old", date(2025, 6, 1)) == (0, date(2025, 3, 10))


def test_a_let_without_any_rent_is_followed_from_the_tax_year_of_the_first_line_in_its_days() -> None:
    line = "10 Jan 2025 repaired gutters £90.00, worn out\n"

    assert owed(line, "old", date(2024, 7, 31)) == (60_000 * 3, date(2024, 4, 6))  # May, June and July
