"""Reads one block: text to tokens, tokens through the LALR tables to one Statement, or the place where it stopped.

The lexer looks at what the parser can take next: a word is a keyword where one is awaited, else part of a name.
Little words and the phrases of facts are keywords everywhere. Knows nothing of what the statements mean.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date
from functools import cache, lru_cache
from typing import Any, NamedTuple

from lark.exceptions import UnexpectedToken
from lark.lexer import Lexer
from lark.parsers.lalr_analysis import Shift

from ..days import MONTHS
from ..money import pence
from .grammar import LITTLE_WORDS, parser, words
from .records import Clause, Piece, Statement

NOTHING = ""  # the type of a token that no statement holds


class NoLexer(Lexer):
    """Stands where Lark wants a lexer: the tokens of a block are fed to its parser by `read`."""

    __future_interface__ = 2

    def __init__(self, conf: Any) -> None:
        pass

    def lex(self, lexer_state: Any, parser_state: Any) -> Iterator[Any]:
        """Never asked."""
        return iter(())


class Stop(NamedTuple):
    """Where a block stopped: the piece that does not fit, what had been read, and what could have come."""

    piece: Piece
    before: tuple[Piece, ...]
    states: tuple[int, ...]  # the parser's stack, the last four
    accepts: frozenset[str]


class Reading(NamedTuple):
    """The result for one block: a statement or a stop, and its tokens with `comment`s among them, in order."""

    statement: Statement | None
    stop: Stop | None
    pieces: tuple[Piece, ...]


# ── tokens ───────────────────────────────────────────────────────────────────────────────────────────────────────

_WORD = r"(?:\d+-?)?[^\W\d_](?:\w|'|-(?=\w))*"
_MONTH = (
    r"jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?"
    r"|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?"
)
_NEXT_WORD = re.compile(rf"[ \t]+({_WORD})")
_NEWLINES = re.compile(r"(?:[ \t]*(?:(?<![^\s])#[^\n]*)?\n)+([ \t]*)")


@cache
def _patterns() -> tuple[re.Pattern[str], dict[str, re.Pattern[str]]]:
    """One pattern for whatever may stand anywhere, and the patterns read only where they are awaited."""
    found = {t.name: t for t in parser().terminals}
    everywhere = ["DATE", "MONTH", "TAXYEAR", "AMOUNT", "PERCENT", "NUMBER", "STRING"]
    groups = [f"(?P<{name}>{found[name].pattern.to_regexp()})" for name in everywhere]
    groups.insert(2, f"(?P<word>{_WORD})")
    groups += [
        r"(?P<comma>,)", r"(?P<comment>(?<!\S)#[^\n]*)", r"(?P<newline>\n)",
        r"(?P<stray>£[\w.,]*[\w]|-?£[\w.,]*|\"[^\n]*|[\d][\w./-]*|\S)",
    ]  # fmt: skip
    return (
        re.compile(r"[ \t]*(?:" + "|".join(groups) + ")"),
        {name: re.compile(found[name].pattern.to_regexp()) for name in ("FOREIGN", "REF")},
    )


def read_date(text: str) -> date:
    """A day as typed: "9 Jun 2025", "9th June 2025", "2025-06-09", "09/06/2025". ValueError for 30 February."""
    if "/" in text:
        day, month, year = map(int, text.split("/"))
        return date(year, month, day)
    if text[4:5] == "-":
        return date.fromisoformat(text)
    day_text, month_text, year_text = text.replace(",", "").split()
    return date(int(year_text), month_number(month_text), int(re.sub(r"\D", "", day_text)))


def month_number(name: str) -> int:
    """1 for "Jan", "january", "JAN."; ValueError for what is no month."""
    return MONTHS.index(name[:3].capitalize()) + 1


def _value(kind: str, text: str) -> Any:
    """What a value token means; ValueError where it means nothing (30 Feb, 2025-27)."""
    if kind == "DATE":
        return read_date(text)
    if kind == "MONTH":
        month, year = text.split()
        return (int(year), month_number(month))
    if kind == "AMOUNT":
        return pence(text[1:].lstrip())
    if kind == "STRING":
        return text[1:-1]
    if kind == "TAXYEAR" and (int(text[:4]) + 1) % 100 != int(text[5:]):
        raise ValueError(text)
    return text.rstrip("%") if kind == "PERCENT" else text


def _indent(blanks: str) -> int:
    return len(blanks.expandtabs(4))


class _Lexing:
    """One pass over the text of a block, asking the parser's state what may come."""

    __slots__ = ("conf", "floor", "pieces", "stack", "states", "text", "vocabulary")

    def __init__(self, text: str, state: Any) -> None:
        self.text = text
        self.conf = state.parse_conf
        self.stack: list[int] = state.state_stack
        self.states: dict[int, dict[str, Any]] = state.parse_conf.states
        self.pieces: list[Piece] = []
        self.floor = 0  # the first indentation; further in goes on with the line above
        self.vocabulary = words()

    def tokens(self) -> Iterator[Piece]:
        """The tokens of the block; each is chosen with a look at the top of the parser's stack."""
        text, stack, states, size = self.text, self.stack, self.states, len(self.text)
        pattern, special = _patterns()
        after_comma = False
        position = 0
        while position < size:
            accepts = states[stack[-1]]
            match = pattern.match(text, position)
            if match is None:
                return
            kind = match.lastgroup or ""
            start, position = match.span(kind)
            if kind == "newline":
                gap = _NEWLINES.match(text, start)
                assert gap is not None
                self._comments(start, gap.end())
                position = gap.end()
                if position >= size or after_comma:
                    continue
                depth = _indent(gap[1])
                self.floor = self.floor or depth
                piece = Piece("_DEEP" if depth > self.floor else "_NL", depth, start, position)
            elif kind == "comment":
                self.pieces.append(Piece("comment", text[start:position], start, position))
                continue
            elif kind == "comma":
                piece = Piece("_COMMA", ",", start, position)
            elif "REF" in accepts and kind != "STRING" and (ref := special["REF"].match(text, start)):
                position = ref.end()
                piece = Piece("REF", ref[0], start, position)
            elif "FOREIGN" in accepts and (foreign := special["FOREIGN"].match(text, start)):
                position = foreign.end()
                piece = Piece("FOREIGN", foreign[0].upper(), start, position)
            elif kind == "word":
                piece = self._word(start, position, accepts)
                position = piece.end_pos
            elif kind == "stray":
                piece = Piece(NOTHING, text[start:position], start, position)
            else:
                try:
                    piece = Piece(kind, _value(kind, match[kind]), start, position)
                except ValueError:
                    piece = Piece(NOTHING, match[kind], start, position)
            after_comma = kind == "comma"
            self.pieces.append(piece)
            yield piece

    def _comments(self, start: int, end: int) -> None:
        """Keep the comments between two lines of a block, for the layout."""
        for found in re.finditer(r"(?<!\S)#[^\n]*", self.text[start:end]):
            self.pieces.append(Piece("comment", found[0], start + found.start(), start + found.end()))

    def _word(self, start: int, end: int, accepts: dict[str, Any]) -> Piece:
        """A word as what the parser awaits here: a phrase, a keyword, a name, or a run of plain words."""
        text = self.text
        low = text[start:end].lower()
        first = low.partition("-")[0]
        for pattern, canonical, kinds, reserved in self.vocabulary.phrases.get(first, ()):
            match = pattern.match(text, start)
            if match is None:
                continue
            if any(kind in accepts for kind in kinds):
                return Piece(self._awaited(kinds, accepts), canonical, start, match.end())
            if reserved:
                return Piece(kinds[0], canonical, start, match.end())
        kinds = self.vocabulary.words.get(low, ())
        if kinds and any(kind in accepts for kind in kinds):
            return Piece(self._awaited(kinds, accepts), low, start, end)
        if low in LITTLE_WORDS:
            return Piece(kinds[0], low, start, end)
        if "WORDS" in accepts:
            ahead = after(self.conf, list(self.stack), "WORDS")
            return self._run(start, end, self.states[ahead] if ahead is not None else {})
        if "NAME" in accepts or not kinds:
            return Piece("NAME", low, start, end)
        return Piece(kinds[0], low, start, end)

    def _awaited(self, kinds: tuple[str, ...], accepts: dict[str, Any]) -> str:
        """Which terminal a word of several is here. Tables merge states, so where two seem to fit, each is tried."""
        fitting = [kind for kind in kinds if kind in accepts]
        if len(fitting) > 1:
            return next((kind for kind in fitting if after(self.conf, list(self.stack), kind) is not None), fitting[0])
        return fitting[0]

    def _run(self, start: int, end: int, after: dict[str, Any]) -> Piece:
        """A run of plain words, up to one that means something where the run may end."""
        text = self.text
        while (match := _NEXT_WORD.match(text, end)) is not None:
            low = match[1].lower()
            if low in LITTLE_WORDS or any(kind in after for kind in self.vocabulary.words.get(low, ())):
                break
            begin = match.start(1)
            if any(
                pattern.match(text, begin) and (reserved or any(kind in after for kind in kinds))
                for pattern, _, kinds, reserved in self.vocabulary.phrases.get(low.partition("-")[0], ())
            ):
                break
            end = match.end()
        return Piece("WORDS", " ".join(text[start:end].lower().replace("-", " ").split()), start, end)


# ── records ──────────────────────────────────────────────────────────────────────────────────────────────────────

# Rules that make a statement; every other rule makes a clause named after it.
STATEMENTS = (
    "at works job money bill part spent plan booking told answer noted trip "
    "landlord party council scheme property loan schedule room_list todo tenancy thing_kind"
).split()


def _clause_maker(kind: str) -> Any:
    def make(children: list[Any]) -> Clause:
        return Clause(kind, tuple(children), children[0].start_pos, children[-1].end_pos)

    return make


def _statement_maker(kind: str) -> Any:
    def make(children: list[Any]) -> Statement:
        head: list[Piece] = []
        clauses: list[Clause] = []
        below: list[Statement] = []
        for child in children:
            if type(child) is Clause:
                clauses.append(child)
            elif type(child) is Piece:
                head.append(child)
            else:
                below.append(child)
        return Statement(kind, tuple(head), tuple(clauses), tuple(below), children[0].start_pos, children[-1].end_pos)

    return make


def _dated(children: list[Any]) -> Statement:
    """The day goes in front of what happened on it."""
    day, event = children
    return event._replace(clauses=(day, *event.clauses), start_pos=day.start_pos)  # type: ignore[no-any-return]


def _same(children: list[Any]) -> Any:
    return children[0]


class Maker:
    """The embedded transformer: a callback for every rule of the grammar, by its name."""

    def __getattr__(self, name: str) -> Any:
        if name.startswith("_") or name.isupper():  # terminals stay the pieces they are
            raise AttributeError(name)
        if name == "dated":
            return _dated
        if name in ("start", "word"):
            return _same
        return _statement_maker(name) if name in STATEMENTS else _clause_maker(name)


# ── reading ──────────────────────────────────────────────────────────────────────────────────────────────────────


def accepted(states: Any) -> frozenset[str]:
    """The terminals that can really come next in this parser state: each is tried on a copy of the stack."""
    conf = states.parse_conf
    found = set()
    for name in conf.states[states.state_stack[-1]]:
        if (name.isupper() or name == "$END") and after(conf, list(states.state_stack), name) is not None:
            found.add(name)
    return frozenset(found)


def after(conf: Any, stack: list[int], name: str) -> int | None:
    """The state the parser is in once it has taken this terminal, after the reductions it asks for; None if it can't.

    `stack` is used up. For "$END" the state is the end state.
    """
    while True:
        step = conf.states[stack[-1]].get(name)
        if step is None:
            return None
        action, arg = step
        if action is Shift:
            return int(arg)
        if arg.expansion:
            del stack[-len(arg.expansion) :]
        _, state = conf.states[stack[-1]][arg.origin.name]
        stack.append(state)
        if name == "$END" and state == conf.end_state:
            return int(state)


@lru_cache(maxsize=50_000)
def read(text: str) -> Reading:
    """Read the plain text of one block. The same text gives the same result at once, wherever it stands."""
    state = parser().parse_interactive().parser_state
    lexing = _Lexing(text, state)
    feed = state.feed_token
    try:
        for piece in lexing.tokens():
            feed(piece)
        end = Piece("$END", "", len(text), len(text))
        statement = feed(end, True)
    except UnexpectedToken as error:
        piece = error.token  # type: ignore[assignment]
        before = tuple(p for p in lexing.pieces if p is not piece and p.type != "comment")
        stop = Stop(piece, before, tuple(state.state_stack[-4:]), accepted(state))
        return Reading(None, stop, tuple(lexing.pieces))
    return Reading(statement, None, tuple(lexing.pieces))
