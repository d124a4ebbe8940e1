"""Text of a block to tokens. A word is a keyword where the parser awaits one, else part of a name.

The lexer looks at the parser's stack before each token, so `paid` can be a verb, a fact or part of a thing. Little
words and the phrases of facts are keywords everywhere. Knows nothing of what statements mean.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date
from functools import cache, lru_cache
from typing import Any

from ..days import EARLIEST, LATEST, MONTHS
from ..money import pence
from .grammar import LITTLE_WORDS, words
from .records import Piece
from .tables import Tables, tables

LONGEST = 24  # characters of a number: more is a slip
GOES_BY_NUMBER = "ROOM_KIND"  # a keyword where a number follows
NOTHING = ""  # the type of a token that no statement holds

_WORD = r"(?:\d+-?)?[^\W\d_](?:\w|'|-(?=\w))*"
_NEXT_WORD = re.compile(rf"[ \t]+({_WORD})")
_NEWLINES = re.compile(r"(?:[ \t]*(?:(?<![^\s])#[^\n]*)?\n)+([ \t]*)")
_COMMENT = re.compile(r"(?<!\S)#[^\n]*")


@cache
def _patterns() -> tuple[re.Pattern[str], dict[str, re.Pattern[str]]]:
    """One pattern for whatever may stand anywhere, and the patterns read only where they are awaited."""
    found = dict(tables().terminals)
    everywhere = ["DATE", "MONTH", "TAXYEAR", "AMOUNT", "PERCENT", "NUMBER", "STRING"]
    groups = [f"(?P<{name}>{found[name]})" for name in everywhere]
    groups.insert(2, f"(?P<word>{_WORD})")
    groups += [
        r"(?P<comma>,)", r"(?P<comment>(?<!\S)#[^\n]*)", r"(?P<newline>\n)",
        r"(?P<stray>£[\w.,]*[\w]|-?£[\w.,]*|\"[^\n]*|[\d][\w./-]*|[^ \t\n])",
    ]  # fmt: skip
    return (
        re.compile(r"[ \t]*(?:" + "|".join(groups) + ")"),
        {name: re.compile(found[name]) for name in ("FOREIGN", "REF")},
    )


@lru_cache(maxsize=1 << 14)  # many things happen on a day
def read_date(text: str) -> date:
    """A day as typed: "9 Jun 2025", "9th June 2025", "2025-06-09", "09/06/2025". ValueError for 30 February."""
    if "/" in text:
        day, month, year = map(int, text.split("/"))
        return date(year, month, day)
    if text[4:5] == "-":
        return date.fromisoformat(text)
    day_text, month_text, year_text = text.replace(",", "").split()
    return date(int(year_text), month_number(month_text), int(day_text.rstrip("stndrhSTNDRH")))


_MONTHS = {name.lower(): number for number, name in enumerate(MONTHS, 1)}


def month_number(name: str) -> int:
    """1 for "Jan", "january", "JAN."; KeyError for what is no month."""
    return _MONTHS[name[:3].lower()]


def _foreign(text: str) -> str:
    """ "eur43.00" as "EUR 43.00", "USD 1200" as "USD 1,200"."""
    whole, dot, small = text[3:].strip().replace(",", "").partition(".")
    return f"{text[:3].upper()} {int(whole):,}{dot}{small}"


def value(kind: str, text: str) -> Any:
    """What a value token means; ValueError where it means nothing (30 Feb, 2025-27, a sum of twenty digits)."""
    if len(text) > LONGEST and kind in ("AMOUNT", "NUMBER", "PERCENT"):
        raise ValueError(text)
    if kind == "AMOUNT":
        return pence(text[1:].lstrip())
    if kind == "DATE":
        day = read_date(text)
        if not EARLIEST <= day.year <= LATEST:
            raise ValueError(text)
        return day
    if kind == "STRING":
        return text[1:-1]
    if kind == "MONTH":
        month, year = text.split()
        if not EARLIEST <= int(year) <= LATEST:
            raise ValueError(text)
        return (int(year), month_number(month))
    if kind == "TAXYEAR" and ((int(text[:4]) + 1) % 100 != int(text[5:]) or not EARLIEST <= int(text[:4]) < LATEST):
        raise ValueError(text)
    return text.rstrip("%") if kind == "PERCENT" else text


def indent(blanks: str) -> int:
    """How far in a line stands; a tab goes to the next fourth column."""
    return len(blanks.expandtabs(4))


class Lexing:
    """One pass over the text of a block, asking the parser's stack what may come. `comments` are put by."""

    __slots__ = ("comments", "floor", "phrases", "stack", "steps", "tables", "text", "words")

    def __init__(self, text: str, made: Tables, stack: list[int]) -> None:
        self.text = text
        self.tables = made
        self.steps = made.steps
        self.stack = stack
        self.comments: list[Piece] = []
        self.words, self.phrases = words().words, words().phrases
        self.floor = 0  # the first indentation; further in goes on with the line above

    def tokens(self) -> Iterator[Piece]:
        """The tokens of the block; each is chosen with a look at the top of the parser's stack."""
        text, stack, steps, size = self.text, self.stack, self.steps, len(self.text)
        pattern, special = _patterns()
        match_at = pattern.match
        after_comma = False
        position = 0
        if text[:1] in (" ", "\t"):  # indented with nothing above it: no statement begins like this
            position = size - len(text.lstrip(" \t"))
            yield Piece("_NL", indent(text[:position]), 0, position)
        while position < size:
            accepts = steps[stack[-1]]
            match = match_at(text, position)
            if match is None:
                return
            kind = match.lastgroup
            start, position = match.span(kind)  # type: ignore[arg-type]
            if "REF" in accepts and kind not in ("STRING", "newline", "comma", "comment"):
                ref = special["REF"].match(text, start)
                if ref is not None:
                    position = ref.end()
                    yield Piece("REF", ref[0], start, position)
                    continue
            if kind == "word":
                if "FOREIGN" in accepts and (foreign := special["FOREIGN"].match(text, start)):
                    position = foreign.end()
                    piece = Piece("FOREIGN", _foreign(foreign[0]), start, position)
                else:
                    piece = self._word(start, position, accepts)
                    position = piece.end_pos
            elif kind == "comma":
                after_comma = True
                yield Piece("_COMMA", ",", start, position)
                continue
            elif kind == "newline":
                gap = _NEWLINES.match(text, start)
                assert gap is not None
                self._put_by(start, gap.end())
                position = gap.end()
                if position >= size or after_comma:
                    continue
                depth = indent(gap[1])
                self.floor = self.floor or depth
                piece = Piece("_DEEP" if depth > self.floor else "_NL", depth, start, position)
            elif kind == "comment":
                self._put_by(start, position)
                continue
            elif kind == "stray":
                piece = Piece(NOTHING, text[start:position], start, position)
            else:
                piece = self._said(kind or "", text[start:position], start, position)
            after_comma = False
            yield piece

    def _said(self, kind: str, text: str, start: int, end: int) -> Piece:
        """A value, or a piece that fits nowhere where it means nothing."""
        try:
            return Piece(kind, value(kind, text), start, end)
        except ValueError:
            return Piece(NOTHING, text, start, end)

    def _put_by(self, start: int, end: int) -> None:
        """Keep the comments of a stretch, for the layout."""
        for found in _COMMENT.finditer(self.text, start, end):
            self.comments.append(Piece("comment", found[0], *found.span()))

    def _word(self, start: int, end: int, accepts: dict[str, int]) -> Piece:
        """A word as what the parser awaits here: a phrase, a keyword, a name, or a run of plain words."""
        text = self.text
        low = text[start:end].lower()
        for phrase in self.phrases.get(low.partition("-")[0] if "-" in low else low, ()):
            match = phrase.match(text, start)
            if match is not None:
                kind = self._awaited(phrase.terminals, accepts, match.end())
                if kind or phrase.reserved:
                    return Piece(kind or phrase.terminals[0], phrase.text, start, match.end())
        kinds = self.words.get(low)
        if kinds is not None:
            kind = kinds[0]
            if len(kinds) > 1:
                kind = self._awaited(kinds, accepts, end) or kind
            if kind in accepts and (kind != GOES_BY_NUMBER or self._numbered(end)) or low in LITTLE_WORDS:
                return Piece(kind, low, start, end)
        if "WORDS" in accepts:
            ahead = accepts["WORDS"]
            if ahead < 0:
                ahead = self.tables.after(self.stack, "WORDS") or 0
            return self._run(start, end, self.steps[ahead])
        if "NAME" in accepts or kinds is None:
            return Piece("NAME", low, start, end)
        return Piece(kinds[0], low, start, end)

    def _numbered(self, end: int) -> bool:
        """Whether a number comes next: `bedroom 2` goes by its number, `bedroom` alone is a plain word."""
        match = _patterns()[0].match(self.text, end)
        return match is not None and match.lastgroup == "NUMBER"

    def _awaited(self, kinds: tuple[str, ...], accepts: dict[str, int], end: int) -> str:
        """Which terminal a word is here, "" for none.

        Tables merge states, so where two seem to fit each is tried; where both do, what comes next decides: `paid` on
        a line of its own is a fact before a date, else the verb of a part.
        """
        if len(kinds) == 1:
            return kinds[0] if kinds[0] in accepts else ""
        fitting = [kind for kind in kinds if kind in accepts]
        if len(fitting) < 2:
            return fitting[0] if fitting else ""
        states = [(kind, self.tables.after(self.stack, kind)) for kind in fitting]
        really = [(kind, state) for kind, state in states if state is not None]
        if len(really) > 1:
            match = _patterns()[0].match(self.text, end)
            coming = match.lastgroup if match else None
            really = [(kind, state) for kind, state in really if coming in self.steps[state]] or really
        return really[0][0] if really else fitting[0]

    def _run(self, start: int, end: int, after: dict[str, int]) -> Piece:
        """A run of plain words, up to one that means something where the run may end."""
        text = self.text
        while (match := _NEXT_WORD.match(text, end)) is not None:
            low = match[1].lower()
            if low in LITTLE_WORDS:
                break
            kinds = self.words.get(low)
            if kinds is not None and any(kind in after for kind in kinds):
                break
            phrases = self.phrases.get(low.partition("-")[0] if "-" in low else low)
            if phrases is not None and any(
                phrase.match(text, match.start(1))
                for phrase in phrases
                if phrase.reserved or any(kind in after for kind in phrase.terminals)
            ):
                break
            end = match.end()
        said = text[start:end].lower()
        if "-" in said or "  " in said or "\t" in said:
            said = " ".join(said.replace("-", " ").split())
        return Piece("WORDS", said, start, end)
