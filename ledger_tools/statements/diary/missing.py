"""What a home that is let needs and the book tells nothing of: papers, a registration, a statement of the contract.

A day comes from the rule as held for the nation. That a book is silent does not say that a paper is missing.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from ... import law
from ...book.world import Book
from ...days import day_words
from ..deposit_rules import nation
from .lets import About
from .papers import PAPERS, Known, told_papers
from .reminder import Reminder, rule

REGISTER = "landlord registration"
GAS = "Only a home with gas needs one. "
ADD = {
    "gas safety": "certified gas safety",
    "electrical safety": "certified electrical safety",
    "epc": "certified epc",
    "pat": "tested pat",
    REGISTER: "paid landlord registration £…",
}
WALES = "Rent Smart Wales: the landlord is registered, and whoever lets or manages the home has a licence too. "


def missing(book: Book, known: Known, house: str, where: str, on: date) -> Iterator[Reminder]:
    """Of the homes of a house let on a day or later: what the rules held ask for and no line up to the day tells."""
    lets = [let for let in book.tenancies.values() if let.house == house and let.first_day]
    homes = [a for a in (About(book, known, let, where, on) for let in lets) if a.a_home and not a.over]
    for a in homes:
        yield from _statement(a)
    if homes:
        yield from _papers(min(homes, key=lambda a: (a.first, a.let.name)))


def _papers(a: About) -> Iterator[Reminder]:
    """Each paper with a rule on how long it holds, counted from the first of the lets that run."""
    told = set(told_papers(a.book, a.known, a.let.house, a.on))
    if any(REGISTER in told_papers(a.book, a.known, house, a.on) for house in _alike(a)):
        told.add(REGISTER)  # it is the landlord's own, and names every home
    for key, paper in PAPERS.items():
        held = law.in_nation(paper.months, a.where, a.on) if paper.months else None
        if held is None or key in told:
            continue
        ours = a.book.let_from(a.let) or a.first  # what earlier owners lacked is not asked for
        day = ours if law.in_nation(paper.months, a.where, ours) else held.since
        said = f"your book tells no {paper.called} for this home, let since {day_words(a.first)}"
        if a.first > a.on:
            said = f"your book tells no {paper.called} for this home, to be let from {day_words(a.first)}"
        before = GAS if key == "gas safety" else WALES if key == REGISTER and a.where == "wales" else ""
        ask = f"{before}{paper.ask} If you have it, note its day: `DATE {ADD[key]}`."
        yield Reminder("paper-untold", day, a.let.house, key, said, ask, day.isoformat(), rule(held), a.source,
                       may=key == "gas safety" and not _burns(a))  # fmt: skip


def _burns(a: About) -> bool:
    """Whether a line of the house tells of gas, or of what mostly burns it."""
    lines = (
        line
        for head in a.book.entries
        for line in (head, *head.lines)
        if line.thing and a.let.house in {home.house for home in line.homes or head.homes}
    )
    return any("gas" in line.thing.lower().split() or a.known(line.thing, line.verb).caution == "gas" for line in lines)


def _alike(a: About) -> Iterator[str]:
    """The houses of the same nation, as far as the book tells it."""
    return (house for house in a.book.properties if nation(a.book, house) == a.where)


def _statement(a: About) -> Iterator[Reminder]:
    """The written statement of a let's contract; the book cannot tell whether it was given."""
    held = law.in_nation("letting.statement_days", a.where, a.first)
    if held:
        day = a.first + timedelta(days=held.whole - 1)
        said = "the tenant must have the written statement of the contract, with all its terms"
        ask = "Take the model of the Welsh Government. Keep a note of the day you gave it, and how."
        yield a.remind("statement", day, said, ask, a.first, held, untold=True)
