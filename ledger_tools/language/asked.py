"""A line about something not done yet: as typed on its own, as a line of the book, and told in another way.

Text in, text out, so that everything after reads it as any other line. Knows no house and no tax.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from datetime import date

from ..days import day_words
from ..problems import Fix, Mark, Problem
from ..record import record
from ..spelling import near
from .blocks import plain
from .reading import read
from .records import Clause, Piece
from .tables import tables

# The plain form of each verb, and as a line of the book says it.
VERBS = {
    "repair": "repaired", "mend": "mended", "replace": "replaced", "install": "installed", "fit": "fitted",
    "add": "added", "move": "moved", "alter": "altered", "extend": "extended", "convert": "converted",
    "rebuild": "rebuilt", "remove": "removed", "decorate": "decorated", "paint": "painted", "treat": "treated",
    "clean": "cleaned", "clear": "cleared", "service": "serviced", "inspect": "inspected", "test": "tested",
    "certify": "certified", "hire": "hired", "buy": "bought", "sell": "sold", "scrap": "scrapped",
    "take home": "took home", "pay": "paid",
}  # fmt: skip
PLAIN_FORMS = {past: now for now, past in VERBS.items()}
_VERB = re.compile(rf"({'|'.join(sorted(VERBS, key=len, reverse=True))})(?![\w-])", re.I)


@record
class Asked:
    """A typed line: its `words`, and the `text` that a book would hold, with a day in front and a verb of the book.

    `before` and `after` are how many characters of the words and of the text stand up to the end of the verb: what
    follows is the same in both.
    """

    words: str
    text: str
    before: int
    after: int

    def placed(self, problem: Problem, file: str) -> Problem:
        """A problem of the text at its places in the words; what it says of other files stays where it is."""
        marks = tuple(self._mark(mark) if mark.file == file else mark for mark in problem.marks)
        fix = problem.fix
        if fix is not None and fix.mark.file == file:
            whole = Mark(file, 1, 1, len(self.words) + 1, self.words)
            fix = Fix(whole, self._undated(fix.line), fix.certain)
        front = self.text[: self._front]
        said = [words.replace(front, "") if front else words for words in (problem.headline, problem.help)]
        if problem.code == "unknown-verb" and fix is None and marks and (meant := near(_marked(marks[0]), VERBS)):
            said[1], fix = f'Did you mean "{meant[0]}"?', Fix(marks[0], meant[0])
        return Problem(problem.code, problem.level, said[0], marks, said[1], problem.because, fix)

    def _mark(self, mark: Mark) -> Mark:
        start, end = self._back(mark.column - 1), self._back(mark.end - 1)
        return Mark(mark.file, 1, start + 1, max(start, end) + 1, self.words, mark.label)

    def _back(self, place: int) -> int:
        """Where a place of the text is among the words; what was put in front of them is at their verb."""
        if place >= self.after:
            return place - self.after + self.before
        return min(max(place - self._front, 0), self.before)

    @property
    def _front(self) -> int:
        """How many characters of the text are a day that was not typed."""
        day = _day(self.text)
        return 0 if _day(self.words) else len(day)

    def _undated(self, line: str) -> str:
        return line[self._front :] if line[: self._front] == self.text[: self._front] else line


def _marked(mark: Mark) -> str:
    return mark.text[mark.column - 1 : mark.end - 1]


def asked(words: str, day: date) -> Asked:
    """A line as typed, with or without a day and with its verb in either form, as a line of the book.

    A line without a day is put on `day`. What it says is not looked at beyond its verb: reading it is what tells
    mistakes.
    """
    words = " ".join(plain(words).split())
    told = _day(words)
    front = told or f"{day_words(day)} "
    verb = _VERB.match(words, len(told))
    if verb is None:
        return Asked(words, front + words[len(told) :], len(told), len(front))
    past = VERBS[verb[1].lower()]
    return Asked(words, front + past + words[verb.end() :], verb.end(), len(front) + len(past))


def _day(text: str) -> str:
    """The day in front of a line with the blanks after it; nothing where there is none."""
    found = dict(tables().terminals)
    match = re.match(rf"(?:{found['DATE']}|{found['MONTH']})\s*", text)
    return match[0] if match else ""


# ── told in another way ──────────────────────────────────────────────────────────────────────────────────────────


def told_otherwise(
    text: str, verb: str = "", add: Sequence[str] = (), without: Collection[str] = (), day: date | None = None
) -> str:
    """A line of the book with another verb or day, with facts added at its end.

    without: the clauses it loses, by their kind ("compared") or by their word ("worn out"). Comments go. ValueError
    where the text is no dated line of one block.
    """
    statement = read(text).statement
    if statement is None or not statement.head:
        raise ValueError(text)
    cuts = [(piece, verb) for piece in statement.head[:1] if verb and isinstance(piece, Piece)]
    for clause in statement.clauses:
        if clause.kind == "day" and day is not None:
            cuts.append((clause.values[0], day_words(day)))
        elif clause.kind in without or str(getattr(clause.values[0], "value", "")) in without:
            cuts.append((_whole(text, clause), ""))
    out = text[: statement.end_pos]
    for said, put in sorted(cuts, key=lambda cut: cut[0].start_pos, reverse=True):
        out = out[: said.start_pos] + put + out[said.end_pos :]
    return ", ".join([out.rstrip(" ,"), *add])


def _whole(text: str, clause: Clause) -> Piece:
    """A clause with the words that lead it and the comma in front. (A swap, which no comma leads, from its word.)"""
    comma = text.rfind(",", 0, clause.start_pos)
    start = len(text[: clause.start_pos].rstrip()) if clause.kind == "swap" or comma < 0 else comma
    return Piece("", "", start, clause.end_pos)


def undated(text: str, put: str) -> str:
    """A line of the book with other words in place of its day."""
    return f"{put} {text[len(_day(text)) :]}"
