"""The tables: free of conflicts, run as Lark runs them, kept where nobody else can write."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from ledger_tools.language import tables as room
from ledger_tools.language.blocks import cut, plain
from ledger_tools.language.grammar import compile_grammar, words
from ledger_tools.language.reading import STATEMENTS, read
from ledger_tools.language.records import Clause, Piece, Statement
from tests.language.walk import reachable

SAMPLES = Path(__file__).parents[2] / "sample_books"


def test_the_grammar_has_no_conflicts() -> None:
    pytest.importorskip("interegular", reason="Lark's strict mode needs it")

    assert compile_grammar(strict=True).rules


def test_no_word_is_two_terminals_where_both_can_come_but_paid_on_a_line_of_its_own() -> None:
    """What comes next then decides: a date makes it a fact, anything else a part."""
    both: set[tuple[str, ...]] = set()
    holders: dict[str, list[str]] = {}
    for name, said in words().says.items():
        for word in said:
            holders.setdefault(word, []).append(name)
    for accepts in reachable():
        for word, names in holders.items():
            here = tuple(sorted(set(names) & accepts))
            if len(here) > 1:
                both.add((word, *here))

    assert both == {("paid", "PAID", "PART_VERB")}


def test_where_one_word_is_awaited_no_run_of_words_is() -> None:
    assert [accepts for accepts in reachable() if {"NAME", "WORDS"} <= accepts] == []


class _Plain:
    """Lark's own way of building records: a callback for each rule, lists spliced by Lark."""

    def __getattr__(self, name: str) -> Any:
        if name.startswith("_") or name.isupper():
            raise AttributeError(name)

        def make(children: list[Any]) -> Any:
            if name in ("start", "word"):
                return children[0]
            if name == "room":
                return Piece("WORDS", " ".join(piece.value for piece in children), 0, 0)
            if name == "dated":
                return children[1]._replace(clauses=(children[0], *children[1].clauses))
            if name in STATEMENTS:
                pick = lambda kind: tuple(c for c in children if type(c) is kind)  # noqa: E731
                return Statement(name, pick(Piece), pick(Clause), pick(Statement), 0, 0)
            return Clause(name, tuple(children), 0, 0)

        return make


def test_the_loop_gives_what_lark_gives() -> None:
    from lark import Lark
    from lark.lexer import Lexer

    from ledger_tools.language.grammar import source

    class Tokens(Lexer):
        __future_interface__ = 2

        def __init__(self, conf: Any) -> None:
            pass

        def lex(self, state: Any, parser: Any) -> Iterator[Piece]:
            return (piece for piece in read(state.text.text).pieces if piece.type != "comment")

    lark = Lark(source(), parser="lalr", lexer=Tokens, maybe_placeholders=False, transformer=_Plain())
    compared = 0
    for file in sorted(SAMPLES.rglob("*.book")):
        for block in cut(plain(file.read_text(encoding="utf-8"))):
            statement = read(block.text).statement
            assert statement is not None
            theirs: Any = lark.parse(block.text)
            assert theirs.meaning == statement.meaning
            compared += 1

    assert compared > 500


def test_tables_are_kept_and_read_back_without_the_library(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME" if sys.platform != "win32" else "LOCALAPPDATA", str(tmp_path))
    made = room.tables.__wrapped__()

    monkeypatch.setattr(room, "compile_grammar", None)  # asked for now it would fail
    assert room.tables.__wrapped__().steps == made.steps
