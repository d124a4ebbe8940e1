"""Finds the grammar, has Lark compile it, and sorts its words for the lexer.

The grammar is all .lark files of one folder, read together: inside an installed package, beside it in a checkout.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ..record import record

if TYPE_CHECKING:
    from lark import Lark

# The little words: they mean the same everywhere, so no thing or name may hold one.
LITTLE_WORDS = frozenset("in and for by from to at across against with into".split())


@cache
def folder() -> Path:
    """Where the .lark files are."""
    package = Path(__file__).parents[1]
    for place in (package / "grammar", package.parent / "grammar"):
        if (place / "book.lark").is_file():
            return place
    raise FileNotFoundError("book.lark is neither inside the ledger_tools package nor beside it")


@cache
def source() -> str:
    """The whole grammar as one text."""
    return "\n".join(path.read_text(encoding="utf-8") for path in sorted(folder().glob("*.lark")))


def compile_grammar(strict: bool = False) -> Lark:
    """Have Lark build the LALR parser of one block; `strict` refuses any conflict (for tests)."""
    from lark import Lark
    from lark.lexer import Lexer

    class NoLexer(Lexer):
        """Stands where Lark wants a lexer; ours asks the parser what may come."""

        __future_interface__ = 2

        def __init__(self, conf: Any) -> None:
            pass

        def lex(self, lexer_state: Any, parser_state: Any) -> Iterator[Any]:
            return iter(())

    return Lark(source(), parser="lalr", lexer=NoLexer, strict=strict, maybe_placeholders=False)


class Phrase:
    """A phrase of several words: its plain text, the terminals it may be, whether it is the same word everywhere.

    Its pattern (blanks or hyphens between the words) is made when it is first looked for: most books use few.
    """

    __slots__ = ("_pattern", "reserved", "terminals", "text")

    def __init__(self, text: str, terminals: tuple[str, ...], reserved: bool) -> None:
        self.text, self.terminals, self.reserved = text, terminals, reserved
        self._pattern: re.Pattern[str] | None = None

    def match(self, text: str, position: int) -> re.Match[str] | None:
        """Where it stands at this position of a text."""
        if self._pattern is None:
            self._pattern = re.compile(r"[ \t-]+".join(self.text.split(" ")) + r"(?![\w-])", re.I)
        return self._pattern.match(text, position)


@record
class Vocabulary:
    """The words of the grammar: `words` maps a single word to the terminals it may be, `phrases` the first word of a
    phrase to the phrases, longest first; `says` a terminal to the words it holds."""

    words: dict[str, tuple[str, ...]]
    phrases: dict[str, tuple[Phrase, ...]]
    says: dict[str, tuple[str, ...]]


_ONLY_WORDS = re.compile(r"[a-z0-9 |]+")


@cache
def words() -> Vocabulary:
    """The vocabulary of the grammar in use."""
    from .tables import tables

    return vocabulary(tables().terminals)


def vocabulary(terminals: list[tuple[str, str]]) -> Vocabulary:
    """Sort the terminals (name, pattern) that are made of words into single words and phrases."""
    holds: dict[str, list[str]] = {}
    says: dict[str, tuple[str, ...]] = {}
    for name, pattern in terminals:
        bare = pattern.removeprefix("(?:").removesuffix(")").replace("\\ ", " ")
        if not _ONLY_WORDS.fullmatch(bare):
            continue
        says[name] = tuple(bare.split("|"))
        for text in says[name]:
            holds.setdefault(text, []).append(name)
    # Phrases of facts are the same everywhere, so that a forgotten comma is told of at the fact.
    facts = re.sub(r"//.*", "", (folder() / "facts.lark").read_text(encoding="utf-8"))
    reserved = set(re.findall(r'"([a-z]+ [a-z0-9 ]+)"', facts))
    single = {text: tuple(names) for text, names in holds.items() if " " not in text}
    phrases: dict[str, list[Phrase]] = {}
    for text in sorted((t for t in holds if " " in t), key=len, reverse=True):
        phrases.setdefault(text.split(" ")[0], []).append(Phrase(text, tuple(holds[text]), text in reserved))
    return Vocabulary(single, {first: tuple(found) for first, found in phrases.items()}, says)
