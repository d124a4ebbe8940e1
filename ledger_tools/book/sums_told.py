"""Cross-checks of sums: lines that must add up, lines without a sum, money that does not say what it was for.

Knows no tax.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..days import TaxYear, day_words
from ..money import pounds
from ..problems import Fix, Level, Mark, Problem, placed
from .entries import Entry
from .items import money_in
from .world import Book


def lines_come_to(entry: Entry) -> int:
    """What the lines under a head line make of it, in pence: for a banked sum, what came in less what went out."""
    if entry.verb == "banked":
        return sum(line.total if money_in(line) else -line.total for line in entry.lines)
    return sum(line.total for line in entry.lines)


def sums(book: Book) -> Iterator[Problem]:
    """The lines of a bill, a statement, an advance or a payment make its head line to the penny."""
    for entry in book.entries:
        if not entry.lines or entry.amount is None:
            continue
        found = lines_come_to(entry)
        if found == entry.total:
            continue
        gap = abs(entry.total - found)
        way = "short of" if found < entry.total else "more than"
        what = "received less paid" if entry.verb == "banked" else "the lines below"
        yield placed(
            "sum-off", Level.ERROR,
            f"This says {pounds(entry.total)}, but its lines come to {pounds(found)}.", entry.place,
            f"{what}: {pounds(gap)} {way} this",
            f"Correct a line, add one for the missing {pounds(gap)}, or write {pounds(found)} here."
            if found < entry.total else f"Correct a line, or write {pounds(found)} here.",
        )  # fmt: skip


def amounts(book: Book) -> Iterator[Problem]:
    """Money lines say how much and what for."""
    for entry in book.entries:
        if entry.day.first is not entry.day.last:
            yield from _month_of_two_years(entry)
        for line in (entry, *entry.lines):
            yield from _amount(book, line, line is entry)


def _month_of_two_years(entry: Entry) -> Iterator[Problem]:
    """A month alone is enough for a date, but not the month in which one tax year ends and the next begins."""
    year = TaxYear.of(entry.day.first)
    if entry.day.last not in year and entry.total:
        yield placed(
            "month-of-two-years", Level.DOUBT,
            f"One part of {entry.day} is in the tax year {year}, the rest in {year.next}; this line is counted in "
            f"{year}.", entry.place, "which day?",
            f"Write the day it was; it counts in {year.next} from {day_words(year.next.period.first)} on.",
        )  # fmt: skip


# What money to a firm of each kind is, where the line does not say.
_FOR = {"lender": "mortgage", "insurer": "insurance", "agent": "management fee"}


_NO_MONEY_VERBS = frozenset(
    "took home|removed|cleared|cleaned|decorated|moved|scrapped|inspected|tested|treated".split("|")
)


def _amount(book: Book, line: Entry, is_head: bool) -> Iterator[Problem]:
    if line.kind in ("money", "bill") and line.amount is None and not line.lines and not line.paper:
        yield placed("no-amount", Level.ERROR, f'How much was {line.verb}? This line has no amount.', line.place,
                       "no £ here", "Add the sum with its pound sign, such as £85.00.")  # fmt: skip
    elif line.facts.energy_band or line.facts.found or line.facts.own_labour:
        return  # a certificate that came with the house, or one's own work, is worth a line without a sum
    elif line.kind == "works" and line.amount is None and is_head and line.verb not in _NO_MONEY_VERBS:
        yield placed("no-amount", Level.DOUBT, "This line has no amount, so it counts in no figure.", line.place,
                       "no £ here", "Add the sum with its pound sign, or leave it so if it cost nothing.")  # fmt: skip
    if line.kind == "money" and not line.things and not line.lines and not line.paper and not line.purpose:
        if line.verb in ("borrowed", "recharged", "wrote off", "banked"):
            return
        if line.verb == "received" and line.who and line.who.name in book.tenancies and not line.note:
            return  # money from a tenant, with nothing said, is rent
        yield _what_for(book, line)


def _borrowed(book: Book, name: str) -> int:
    """The pence a book says were borrowed from a loan or lender; more than any payment where it does not say."""
    names = {name} | {loan.name for loan in book.loans.values() if loan.lender == name}
    lent = [e.amount or 0 for e in book.entries if e.verb == "borrowed" and e.who and e.who.name in names]
    owed = [pence for loan in names & {*book.loans} for _, pence in book.loans[loan].owed]
    return max([sum(lent), *owed]) or 10**15


def _paid_to_lender(book: Book, name: str, pence: int) -> str:
    """What a payment to a lender is: the debt itself where no interest runs or it is no month's payment; a mortgage
    payment where the loan is told to be of that kind or a lender's; "" where it may be either."""
    loans = [loan for loan in book.loans.values() if name in (loan.name, loan.lender)]
    free = [loan for loan in loans if loan.rates and not any(rate for rate, _, _ in loan.rates)]
    if free and len(free) == len(loans) or pence * 10 >= _borrowed(book, name):
        return "loan"
    mortgage = not loans or any(loan.kind or loan.monthly or loan.lender in book.parties for loan in loans)
    return "mortgage" if mortgage else ""


def _what_for(book: Book, line: Entry) -> Problem:
    """Money to or from somebody, and not what for. What goes to a lender is a mortgage payment: that much is sure."""
    headline = f"This line does not say what was {line.verb}."
    name = line.who.name if line.who else ""
    lent = name in book.loans or name in book.unread and line.verb == "repaid"
    kind = "lender" if lent else book.parties[name].kind if name in book.parties else ""
    sum_ = pounds(line.amount or 0)
    to = f" {line.who.role} {line.who.name or chr(34) + line.who.full + chr(34)}" if line.who else ""
    if kind == "lender" and line.verb in ("paid", "repaid"):
        place = line.place.mark()
        at = place.text.find("£", place.column - 1) + 1
        word = _paid_to_lender(book, name, line.amount or 0)
        fix = Fix(Mark(place.file, place.line, at, at, place.text), f"{word} ") if at and word else None
        help = (
            f"Say what it was. Of a mortgage payment only the interest counts: `{line.verb} mortgage {sum_}{to}, of "
            f"which interest £…`, as the lender's statement says. What only went off the debt is `repaid loan "
            f"{sum_}{to}`."
        )
        return Problem("what-for", Level.ERROR, headline, (line.place.mark("what for?"),), help, fix=fix)
    if kind == "lender":
        help = f"If it was lent to you, write `borrowed {sum_}{to}`; if it came back, `received refund {sum_}{to}`."
    elif line.verb == "received" and not kind:
        help = (
            f"Say what it was right after the verb: `received rent {sum_}{to}`, if it is rent, `received deposit "
            f"{sum_}{to}` or `received refund {sum_}{to}`."
        )
    else:
        thing = _FOR.get(kind, "refund" if line.verb == "received" else "insurance")
        help = (
            f"Say what it was right after the verb, such as `{line.verb} {thing} {sum_}{to}`; for a part payment add "
            "`against invoice` and its number."
        )
    return placed("what-for", Level.ERROR, headline, line.place, "what for?", help)


def net_only(book: Book) -> Iterator[Problem]:
    """An agent's payment is entered gross with the deductions, or the rent looks smaller than it was."""
    for entry in book.entries:
        if entry.verb == "banked" and not entry.lines:
            yield placed(
                "net-only", Level.ERROR, "This banks a net sum without its lines.", entry.place,
                "rent less what?", "Put the agent's statement under it, line by line: `received rent £… from …`, "
                "`paid management fee £…`. The return wants the full rent, and the fee as an expense.",
            )  # fmt: skip
