"""Reads one block: its tokens through the LALR tables to one Statement, or to the place where it stopped.

Records are built while the tables run, no tree is kept. Knows nothing of what the statements mean.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from functools import cache, lru_cache
from typing import Any, NamedTuple

from ..collector import collector_paused
from .lexer import NOTHING, Lexing, month_number, read_date
from .records import Clause, Piece, Statement
from .shapes import Slot, filled, filling, with_slots
from .tables import INLINE, KEEP, Tables, tables

__all__ = [
    "NOTHING", "Reading", "Stop", "accepted", "forget", "month_number", "read", "read_all", "read_date",
]  # fmt: skip


class Stop(NamedTuple):
    """Where a block stopped: the piece that does not fit, what had been read, and what could have come."""

    piece: Piece
    before: tuple[Piece, ...]
    states: tuple[int, ...]  # the parser's stack, the last four
    accepts: frozenset[str]


class Reading(NamedTuple):
    """The result for one block: a statement or a stop."""

    statement: Statement | None
    stop: Stop | None
    text: str
    shape: str = ""  # what it shares with every block that differs in days, sums and quoted words alone

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """Its tokens up to the one it stopped at, with `comment`s among them, in order."""
        return _pieces(self.text)


# ── records ──────────────────────────────────────────────────────────────────────────────────────────────────────

# Rules that make a statement; every other rule makes a clause named after it.
STATEMENTS = frozenset(
    "at works job money bill part spent plan booking told answer noted trip "
    "landlord party council scheme property loan schedule room_list todo tenancy thing_kind".split()
)

Build = Callable[[list[Any]], Any]
_new: Any = tuple.__new__  # makes a named tuple in half the time: a book has some ten to a line


def _clause(kind: str) -> Build:
    def make(children: list[Any]) -> Clause:
        made: Clause = _new(Clause, (kind, tuple(children), children[0].start_pos, children[-1].end_pos))
        return made

    return make


def _statement(kind: str) -> Build:
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
        first, last = children[0].start_pos, children[-1].end_pos
        made: Statement = _new(Statement, (kind, tuple(head), tuple(clauses), tuple(below), first, last))
        return made

    return make


def _dated(children: list[Any]) -> Statement:
    """The day goes in front of what happened on it."""
    day, (kind, head, clauses, below, _, end_pos) = children
    made: Statement = _new(Statement, (kind, head, (day, *clauses), below, day.start_pos, end_pos))
    return made


def _room(children: list[Any]) -> Piece:
    """A room that goes by a number is one run of words, as any other room is."""
    words, number = children
    return Piece("WORDS", f"{words.value} {number.value}", words.start_pos, number.end_pos)


def _same(children: list[Any]) -> Any:
    return children[0]


def _itself(children: list[Any]) -> list[Any]:
    return children


def _maker(name: str) -> Build:
    """What a rule makes of its children; rules in the place of which their children stand make none."""
    if name.startswith("_"):
        return _itself
    if name == "dated":
        return _dated
    if name == "room":
        return _room
    if name in ("start", "word"):
        return _same
    return _statement(name) if name in STATEMENTS else _clause(name)


def _shaped(shape: list[int], make: Build, lone: bool) -> Build | None:
    """The maker behind the choice of children: some are forgotten, some stand in their parent's place.

    None where the only child goes on as it is: half of all reductions are of that kind, and cost no call.
    """
    size = len(shape)
    if shape == [INLINE] and make is _itself or shape == [KEEP] and (lone or make is _same):
        return None
    if all(what == KEEP for what in shape):
        return make
    if make is _itself and shape[0] == INLINE and size == 2:  # a list that grows by one: the same list, longer
        if shape[1] == INLINE:

            def extend(children: list[Any]) -> list[Any]:
                grown: list[Any] = children[0]
                grown.extend(children[1])
                return grown

            return extend
        if shape[1] == KEEP:

            def append(children: list[Any]) -> list[Any]:
                grown: list[Any] = children[0]
                grown.append(children[1])
                return grown

            return append
    chosen = tuple((i, what == INLINE) for i, what in enumerate(shape) if what)

    def choose(children: list[Any]) -> Any:
        kept: list[Any] = []
        for i, inline in chosen:
            if inline:
                kept.extend(children[i])
            else:
                kept.append(children[i])
        return kept[0] if lone and len(kept) == 1 else make(kept)

    return choose


@cache
def _builders() -> list[tuple[str, int, Build | None]]:
    """For each rule of the tables: the name of its origin, its length, what builds its record (None: nothing does)."""
    return [(origin, size, _shaped(shape, _maker(name), lone)) for origin, size, shape, name, lone, _ in tables().rules]


# ── reading ──────────────────────────────────────────────────────────────────────────────────────────────────────


def accepted(stack: list[int]) -> frozenset[str]:
    """The terminals that can come next for a parser with this stack of states."""
    return tables().accepted(stack)


def _run(lexing: Lexing, made: Tables, stack: list[int], seen: list[Piece] | None = None) -> Statement | Piece:
    """Run the tables over the tokens: the statement, or the piece that does not fit. `seen` gathers the tokens."""
    steps, gotos, builders = made.steps, made.gotos, _builders()
    values: list[Any] = []
    tokens = lexing.tokens()
    while True:
        piece = next(tokens, None)
        if piece is None:
            piece = Piece("$END", "", len(lexing.text), len(lexing.text))
        elif seen is not None:
            seen.append(piece)
        kind = piece.type
        while True:
            step = steps[stack[-1]].get(kind)
            if step is None:
                return piece
            if step >= 0:
                stack.append(step)
                values.append(piece)
                break
            origin, size, build = builders[-step - 1]
            if size == 1:
                state = stack[-1] = gotos[stack[-2]][origin]
                if build is not None:
                    values[-1] = build([values[-1]])
            else:
                children = values[-size:]
                del values[-size:], stack[-size:]
                state = gotos[stack[-1]][origin]
                stack.append(state)
                values.append(build(children))  # type: ignore[misc]
            if state == made.end and kind == "$END":
                return values[-1]  # type: ignore[no-any-return]


# How the blocks of a shape are put together, step by step: so many of the values so far become a record of this build
# (1 and more); this very value (AS_IT_IS), or a list to be changed (COPIED); a value of the block at hand (SLOT).
Step = tuple[int, Any]
AS_IT_IS, COPIED, SLOT = 0, -1, -2

# Shapes by their text; None where one was seen once, or its tokens hang on what fills it.
_shapes: dict[str, list[Step] | None] = {}
MOST_SHAPES = 20_000  # kept, so that a program that runs for days does not grow


@lru_cache(maxsize=50_000)
def read(text: str) -> Reading:
    """Read the plain text of one block. The same text gives the same result at once, wherever it stands."""
    key, fills = filling(text)
    shape = _shapes.get(key)
    if shape is not None:
        try:
            return Reading(_put_together(shape, fills), None, text, key)
        except ValueError:
            pass  # a value that means nothing: the long way tells where
    made = tables()
    stack = [made.start]
    seen: list[Piece] | None = [] if key in _shapes else None
    found = _run(Lexing(text, made, stack), made, stack, seen)
    if not isinstance(found, Statement):
        return Reading(None, _stop(text, found, made), text)
    if len(_shapes) >= MOST_SHAPES:
        _shapes.clear()
    tokens = with_slots(seen, fills) if seen else None
    _shapes[key] = _steps(tokens) if tokens else None
    return Reading(found, None, text, key)


def forget() -> None:
    """Forget what was read, as a new process knows nothing of it."""
    read.cache_clear()
    _shapes.clear()


def _steps(tokens: list[Piece | Slot]) -> list[Step]:
    """What `_run` does with these tokens, where it is known that they make a statement; whatever has no slot in it is
    built here and now."""
    made, builders = tables(), _builders()
    stack = [made.start]
    steps: list[Step] = []
    for token in (*tokens, Piece("$END", "", 0, 0)):
        while (step := made.steps[stack[-1]][token.type]) < 0:
            origin, size, build = builders[-step - 1]
            del stack[-size:]
            stack.append(made.gotos[stack[-1]][origin])
            if build is not None:
                _add(steps, size, build)
            if stack[-1] == made.end and token.type == "$END":
                return steps
        stack.append(step)
        steps.append((SLOT, token.type) if isinstance(token, Slot) else (AS_IT_IS, token))
    raise AssertionError(tokens)


def _add(steps: list[Step], size: int, build: Build) -> None:
    """Build of the last values; where none of them waits for a block, they are those of the last steps."""
    if any(kind == SLOT or kind > 0 for kind, _ in steps[-size:]):
        steps.append((size, build))
        return
    built = build([value for _, value in steps[-size:]])
    steps[-size:] = [(COPIED if type(built) is list else AS_IT_IS, built)]


def _put_together(shape: list[Step], fills: list[re.Match[str]]) -> Statement:
    values: list[Any] = []
    coming = iter(fills)
    for size, what in shape:
        if size == AS_IT_IS:
            values.append(what)
        elif size == SLOT:
            values.append(filled(what, next(coming)))
        elif size == 1:
            values[-1] = what([values[-1]])
        elif size > 1:
            children = values[-size:]
            del values[-size:]
            values.append(what(children))
        else:
            values.append(what[:])
    return values[-1]  # type: ignore[no-any-return]


def _stop(text: str, piece: Piece, made: Tables) -> Stop:
    """What could have come where a block stopped. The piece it stopped at may have made the parser reduce, and so
    forget, too much: the stack is run up again to just before it."""
    seen = _tokens(text)[0]
    before = tuple(seen if piece.type == "$END" else seen[:-1])
    stack = [made.start]
    for taken in before:
        stack = made.fed(stack, taken.type) or stack
    return Stop(piece, before, tuple(stack[-4:]), made.accepted(stack))


def _tokens(text: str) -> tuple[list[Piece], list[Piece]]:
    """The tokens of a block up to the one it stopped at, and its comments."""
    made = tables()
    stack = [made.start]
    lexing = Lexing(text, made, stack)
    seen: list[Piece] = []
    _run(lexing, made, stack, seen)
    return seen, lexing.comments


@lru_cache(maxsize=500)
def _pieces(text: str) -> tuple[Piece, ...]:
    seen, comments = _tokens(text)
    return tuple(sorted([*seen, *comments], key=lambda piece: (piece.start_pos, piece.end_pos)))


def read_all(texts: Iterable[str]) -> list[Reading]:
    """Read many blocks."""
    with collector_paused():
        return [read(text) for text in texts]
