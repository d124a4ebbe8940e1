"""Money of a house that falls due: bills, what is held back of them, what tenants were billed, loans; and the tax of
buying and selling the house itself."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from ... import law
from ...book.entries import Entry
from ...book.world import Book, Deal
from ...days import day_words
from ...ledger.open_bills import open_bills
from ...money import per_cent, pounds
from ...taxes.gains.gain import report_by
from ...verdicts.catalogue import catalogue
from ..accounts import Accounts
from ..deposit_rules import nation
from .reminder import Reminder, rule

FORGOTTEN = timedelta(days=366)  # how long after its day a tax of buying or selling is still worth a line
LAND_TAX = "stamp duty"  # as the catalogue names the tax on buying, in whichever nation


def bills(accounts: Accounts, house: str, on: date) -> Iterator[Reminder]:
    """Bills told with a day, and what is held back of a bill until a day, as far as they were not paid by `on`."""
    unpaid = open_bills(accounts.rows, on)
    for entry in accounts.book.entries:
        due, kept = entry.facts.due, entry.facts.retention
        if entry.day.first > on or house not in _houses(entry) or not (due or kept):
            continue
        left = sum(unpaid.get((source, house), 0) for source in {line.source for line in (entry, *entry.lines)})
        if left <= 0:
            continue
        who = entry.who.full if entry.who else ""
        number = entry.facts.number
        paper = f"bill {number}" if number else f"bill of {entry.day}"
        if entry.verb == "recharged" and due:
            yield Reminder("recharge", due, house, who, f"{who}: {pounds(left)} billed for {entry.thing} is to come in",
                           "Ask, then look at the deposit; a scheme's adjudicator may decide.",
                           f"{entry.day.first} {entry.thing}", None, (entry.source,))  # fmt: skip
        elif due:
            yield Reminder("bill", due, house, who, f"pay {pounds(left)} to {who or 'whoever billed it'}, {paper}",
                           "Pay what is right; say in writing what you dispute.", f"{entry.day.first} {number}", None,
                           (entry.source,))  # fmt: skip
        if kept and kept.until:
            held = min(kept.of(entry.total), left)
            yield Reminder("retention", kept.until, house, who, f"{pounds(held)} held back from {who}, {paper}, may go",
                           "Look for faults first, and write down what is still to cure; the contract says when.",
                           f"{entry.day.first} {number}", None, (entry.source,))  # fmt: skip


def _houses(entry: Entry) -> set[str]:
    return {home.house for line in (entry, *entry.lines) for home in line.homes}


def loans(book: Book, house: str, on: date) -> Iterator[Reminder]:
    """The last day of a rate that ends."""
    for loan in book.loans.values():
        ends = [(until, rate) for rate, since, until in loan.rates if until and since <= on]
        later = [since for _, since, _ in loan.rates]
        if loan.house == house and ends and not any(since > max(ends)[0] for since in later):
            until, rate = max(ends)
            said = f"the rate of {per_cent(rate)} on {loan.name} ends"
            yield Reminder("rate", until, house, loan.name, said, "Ask the lender, and a qualified adviser.",
                           until.isoformat(), None, (loan.place.short,))  # fmt: skip


def deals(accounts: Accounts, house: str, on: date) -> Iterator[Reminder]:
    """The tax of buying and of selling the house, each until the book tells it was paid."""
    about = accounts.book.properties[house]
    if about.got and about.got.how == "bought":
        yield from _land_tax(accounts, house, about.got, on)
    if about.sold and about.sold.day <= on:
        yield from _gain(accounts, house, about.sold, on)


def _land_tax(accounts: Accounts, house: str, deal: Deal, on: date) -> Iterator[Reminder]:
    held = law.in_nation("land_tax.return_days", nation(accounts.book, house), deal.day)
    if held is None or _paid(accounts, house, (LAND_TAX,), deal.day - timedelta(days=60), on):
        return
    day = deal.day + timedelta(days=held.whole)
    if on <= day + FORGOTTEN:
        said = f"land tax on buying {house} on {day_words(deal.day)}: return and payment"
        ask = "A solicitor usually sends both; a return may be due where no tax is. Your book tells no payment of it."
        yield Reminder("land-tax", day, house, "", said, ask, deal.day.isoformat(), rule(held), (deal.place.short,))


def _gain(accounts: Accounts, house: str, deal: Deal, on: date) -> Iterator[Reminder]:
    try:
        day, held = report_by(deal.day), law.figure("gains.report_days", deal.day)
    except law.NoFigure:
        return
    if on <= day + FORGOTTEN and not _paid(accounts, house, ("capital gains tax", "cgt"), deal.day, on):
        said = f"the gain on {house}, sold on {day_words(deal.day)}: report it and pay the tax on it"
        ask = (
            "Only where there is tax to pay, if you live in the UK; `base-cost` works the gain out. An adviser decides."
        )
        yield Reminder("gain", day, house, "", said, ask, deal.day.isoformat(), rule(held), (deal.place.short,))


def _paid(accounts: Accounts, house: str, words: tuple[str, ...], since: date, on: date) -> bool:
    """Whether the book tells a payment of a thing of these names for a house in some days."""
    for entry in accounts.book.entries:
        for line in (entry, *entry.lines):
            if line.verb != "paid" or not since <= entry.day.first <= on or house not in _houses(entry):
                continue
            known = catalogue().find(line.thing, "paid")
            if line.thing.lower() in words or (known and known.name in words):
                return True
    return False
