"""Books of a few lines in one of the made-up houses of the pages, and verdicts written short."""

from __future__ import annotations

from ledger_tools.book.build import build
from ledger_tools.book.world import Book
from ledger_tools.explain.houses import LET, PEOPLE, fresh
from ledger_tools.money import plain
from ledger_tools.problems import Level
from ledger_tools.verdicts.engine import judge
from ledger_tools.verdicts.verdict import Cgt, Kind, Part, Verdict

__all__ = ["LET", "PEOPLE", "book", "fresh", "last", "short", "verdicts"]


def book(lines: str, house: str = LET, people: str = PEOPLE) -> Book:
    """The book of these lines, free of errors."""
    text = people + house + "at mill-3\n" + lines
    made = build({"mill.book": text})
    errors = [p for p in made.problems if p.level is Level.ERROR]
    assert errors == [], [p.headline for p in errors]
    return made


def verdicts(lines: str, house: str = LET, people: str = PEOPLE) -> tuple[Verdict, ...]:
    """The verdicts of these lines."""
    return judge(book(lines, house, people))


def last(lines: str, house: str = LET, people: str = PEOPLE) -> Verdict:
    """The verdict of the last line."""
    return verdicts(lines, house, people)[-1]


SHORT = {
    Kind.RUNNING: "running",
    Kind.REPAIR: "repair",
    Kind.IMPROVEMENT: "improvement",
    Kind.ACQUISITION: "purchase",
    Kind.DOMESTIC: "replaced",
    Kind.NO_RELIEF: "none",
    Kind.ARGUABLE: "open",
    Kind.PRIVATE: "private",
    Kind.PENDING: "pending",
    Kind.NETS: "nets",
    Kind.INCOME: "income",
    Kind.CAPITAL_RECEIPT: "capital sum",
    Kind.IGNORED: "ignored",
}
NATURAL = {Kind.REPAIR: "repairs", Kind.DOMESTIC: "domestic", Kind.IMPROVEMENT: "", Kind.ACQUISITION: ""}
GAINS = {Kind.IMPROVEMENT: Cgt.ENHANCEMENT, Kind.ACQUISITION: Cgt.ACQUISITION}


def short(parts: tuple[Part, ...]) -> str:
    """Parts as "320.00 replaced + 130.00 none"; category and gains side where they are not the usual ones."""
    return " + ".join(_part(part) for part in parts)


def _part(part: Part) -> str:
    said = f"{plain(part.amount)} {SHORT[part.kind]}"
    if part.category != NATURAL.get(part.kind, ""):
        said += f" {part.category or 'no box'}"
    if part.cgt is not GAINS.get(part.kind, Cgt.NONE):
        said += f" [{part.cgt}]"
    return said
