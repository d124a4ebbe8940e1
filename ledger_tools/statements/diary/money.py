"""Money of a house that falls due: rent that is owed, bills, what is held back of them, what tenants were billed,
loans; and the tax of buying and selling the house itself."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from ... import law
from ...book.arrears import rent_account
from ...book.entries import Entry
from ...book.rents import first_lines, receipts, written_off
from ...book.world import Book, Deal
from ...days import day_words
from ...ledger.open_bills import open_bills
from ...ledger.rows import Row
from ...money import per_cent, pounds, share
from ...taxes.gains.gain import report_by
from ...taxes.land.purchase import days_to_return, which
from ...verdicts.catalogue import catalogue
from ..accounts import Accounts
from ..deposit_rules import nation
from .reminder import Reminder, rule

FORGOTTEN = timedelta(days=366)  # how long after its day a tax of buying or selling is still worth a line
BEHIND = timedelta(days=31)  # a book that stops so long before rent fell due cannot tell that it did not come
LAND_TAX = "stamp duty"  # as the catalogue names the tax on buying, in whichever nation


def bills(accounts: Accounts, house: str, on: date) -> Iterator[Reminder]:
    """Bills told with a day, and what is held back of a bill until a day, as far as they were not paid by `on`."""
    unpaid = open_bills(accounts.rows, on)
    for entry in accounts.book.entries:
        due, kept = entry.facts.due, entry.facts.retention
        if entry.day.first > on or house not in _houses(entry) or not (due or kept):
            continue
        left = sum(unpaid.get((source, house), 0) for source in _sources(entry))
        held = min(_held_back(accounts.rows, entry, house), left) if kept and kept.until else 0
        if due and left > held:
            yield _due(entry, house, due, left - held)
        if kept and kept.until and held:
            who, paper = _paper(entry)
            yield Reminder("retention", kept.until, house, who, f"{pounds(held)} held back from {who}, {paper}, may go",
                           "Look for faults first, and write down what is still to cure; the contract says when.",
                           f"{entry.day.first} {entry.facts.number}", None, (entry.source,))  # fmt: skip


def _due(entry: Entry, house: str, due: date, pence: int) -> Reminder:
    """A bill to pay, or one a tenant is to pay."""
    who, paper = _paper(entry)
    begun, source = f"{entry.day.first} {entry.facts.number or entry.thing}", (entry.source,)
    if entry.verb == "recharged":
        said = f"{who}: {pounds(pence)} billed for {entry.thing} is to come in"
        ask = "Ask, then look at the deposit; a scheme's adjudicator may decide."
        return Reminder("recharge", due, house, who, said, ask, begun, None, source)
    said, ask = f"pay {pounds(pence)} to {who}, {paper}", "Pay what is right; say in writing what you dispute."
    return Reminder("bill", due, house, who, said, ask, begun, None, source)


def _paper(entry: Entry) -> tuple[str, str]:
    """Who sent or got a bill, and the bill in words."""
    number = entry.facts.number
    return entry.who.full if entry.who else "whoever billed it", f"bill {number}" if number else f"bill of {entry.day}"


def _sources(entry: Entry) -> set[str]:
    return {line.source for line in (entry, *entry.lines)}


def _held_back(rows: tuple[Row, ...], entry: Entry, house: str) -> int:
    """The house's part of what is held back of a bill, in pence."""
    kept, sources = entry.facts.retention, _sources(entry)
    parts: dict[str, int] = {}
    for row in rows:
        if row.source in sources and row.owed == entry.day.first:
            parts[row.house] = parts.get(row.house, 0) + row.pence
    if kept is None or house not in parts:
        return 0
    return share(kept.of(entry.total), list(parts.values()))[list(parts).index(house)]


def _houses(entry: Entry) -> set[str]:
    return {home.house for line in (entry, *entry.lines) for home in line.homes}


def rents_owed(book: Book, house: str, on: date) -> Iterator[Reminder]:
    """The rent of each let that fell due up to a day and did not come in, as `rents` shows it."""
    came, lost, noted = receipts(book), written_off(book), first_lines(book)
    told = (e.day.first for e in book.about(house) if house in _houses(e) and e.day.first <= on)
    last = max(told, default=on)
    for let in book.tenancies.values():
        if let.house != house:
            continue
        rent = rent_account(book, let, came.get(let.name, ()), lost.get(let.name, ()), on, noted.get(let.name))
        if rent is None or not rent.arrears:
            continue
        oldest = rent.owed[0]
        said = f"{let.name}: {pounds(rent.arrears)} of rent is owed"
        if len(rent.owed) > 1:
            said += f", {pounds(oldest.pence)} of it since {day_words(oldest.day)}"
        if rent.owed[-1].day > last + BEHIND:
            said += f", by a book whose lines about {house} stop on {day_words(last)}"
        ask = (
            f"`rents --property {house}` shows what fell due and came in. If it came, write it down: `DATE received "
            f"rent £… from {let.name}`. Before you ask for more than the money, ask a registered adviser."
        )
        yield Reminder("rent", oldest.day, house, let.name, said, ask, oldest.day.isoformat(), None,
                       (let.place.short,))  # fmt: skip


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
    where = nation(accounts.book, house)
    held = days_to_return(which(where, deal.day), deal.day) if where else None
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
