"""A home under a council's scheme to hang bills on. Mere House and its people are invented."""

from __future__ import annotations

from datetime import date

from ledger_tools.book.build import build
from ledger_tools.book.world import Book
from ledger_tools.problems import Level
from ledger_tools.taxes.council.answers import Answers, every_way
from ledger_tools.taxes.council.bill import work_out
from ledger_tools.taxes.council.compare import Compared, bills, compare
from ledger_tools.taxes.council.facts import gather

# 1,825.00 a year is five pounds a day in a year of 365 days.
SCHEME = """
scheme mere 2025-26
    charge band B £1,825.00
    charge band C £2,190.00
    empty free for 1 month then 25% off for 5 months, shared with earlier owner, again after 6 weeks lived in
    works 50% off for 12 months, ends 6 months after finishing
    furnished full
    second homes 100% from 1 Apr 2025
    premium 100% after 1 year then 200% after 5 years
"""


def book(house: str, lines: str = "", lets: str = "", scheme: str = SCHEME, nation: str = "england") -> Book:
    """The book of these fields of a house, lets and dated lines, free of errors."""
    text = f'landlord x "X. Mere"\ncouncil mere "Mere Council"\n    nation {nation}\n{scheme}'
    text += f'property house "Mere House"\n    nation {nation}\n    council mere, band B\n{_inside(house)}{lets}'
    made = build({"mere.book": f"{text}\nat house\n{lines}"})
    assert [p.headline for p in made.problems if p.level is Level.ERROR] == []
    return made


def _inside(fields: str) -> str:
    return "".join(f"    {field.strip()}\n" for field in fields.split(";"))


def let(name: str, fields: str) -> str:
    """A tenancy block."""
    return f'tenancy {name} at house\n    tenants "{name.title()}"\n    rent £500 a month\n{_inside(fields)}'


def compared(made: Book) -> Compared:
    """The last bill of the book, on the answers that cost most."""
    facts = gather(made, "house")
    bill = bills(made, "house")[-1]
    assert bill.days is not None
    days = bill.days
    ways = every_way(lambda answers: work_out(facts, made.schemes, days, answers))
    found = [compare(facts, made.schemes, bill, Answers(answers.given)) for answers, _ in ways]
    return max(found, key=lambda c: (c.explained, c.now.pence))


def reasons(made: Book) -> list[tuple[str, date, date, int]]:
    """The reasons of the last bill: code, first and last day, pence."""
    return [(r.code, r.days.first, r.days.last, r.pence) for r in compared(made).reasons]
