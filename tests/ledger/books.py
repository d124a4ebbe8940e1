"""Two small let houses to hang lines on, and rows written short. The people and the houses are invented."""

from __future__ import annotations

from ledger_tools.book.build import build
from ledger_tools.days import TaxYear
from ledger_tools.money import plain
from ledger_tools.problems import Level
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.year_end import OwnerYear, year_end

# Nothing is told of the purchase or of what the rent is, so that balances and years hold the lines alone.
HOUSE = """
landlord x "X"
supplier pell "Pell & Sons"
agent quay "Quay Lettings"
council wold "Wold Council"
property a "1 A Street"
    as bought lettable
    price normal
tenancy t at a
    tenants "T. Enant"
    periodic from 1 Jun 2015
"""

SECOND = """
property b "2 B Street"
    as bought lettable
    price normal
tenancy u at b
    tenants "U. Sher"
    periodic from 1 Jun 2016
"""


def work(lines: str, head: str = HOUSE) -> Accounts:
    """The book of these lines, free of errors, worked out."""
    book = build({"a.book": head + lines})
    assert [p.headline for p in book.problems if p.level is Level.ERROR] == []
    return Accounts(book)


def told(worked: Accounts) -> list[str]:
    """Every row as "a tap 100.00 owed 2025-06-01 paid 2025-07-01"; "-" where there is no day."""
    return [f"{r.house} {r.thing} {plain(r.pence)} owed {r.owed or '-'} paid {r.paid or '-'}" for r in worked.rows]


def balance(worked: Accounts) -> dict[str, str]:
    """The accounts of the trial balance that hold something, in pounds."""
    return {account: plain(pence) for account, pence in worked.balance.items() if pence}


def pages(lines: str, year: int, basis: str, head: str = HOUSE) -> dict[str, str]:
    """Box → exact pounds of X's pages by a way of accounting; nothing where X has no pages."""
    worked = work(lines, head.replace('landlord x "X"\n', f'landlord x "X"\n    accounting {basis}\n'))
    found: list[OwnerYear] = [o for o in year_end(worked, TaxYear(year)).owners if o.owner == "x"]
    return {b.number: plain(b.figure.pence) for o in found for b in o.boxes}
