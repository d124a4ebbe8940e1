"""Finds the grammar, builds the parser's tables (or loads them) and tells the lexer the words of the language.

The grammar is all .lark files of one folder, read together: inside an installed package, beside it in a checkout.
"""

from __future__ import annotations

import os
import re
import stat
import sys
from dataclasses import dataclass
from functools import cache
from hashlib import sha256
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from lark import Lark

# The little words: they mean the same everywhere, so no thing or name may hold one.
LITTLE_WORDS = frozenset("in and for by from to at across against with into".split())


@cache
def folder() -> Path:
    """Where the .lark files are."""
    package = Path(str(files("ledger_tools")))
    for place in (package / "grammar", package.parent / "grammar"):
        if (place / "book.lark").is_file():
            return place
    raise FileNotFoundError("book.lark is neither inside the ledger_tools package nor beside it")


@cache
def source() -> str:
    """The whole grammar as one text."""
    return "\n".join(path.read_text(encoding="utf-8") for path in sorted(folder().glob("*.lark")))


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """The words of the grammar by terminal.

    `words` maps a single word to the terminals it may be, `phrases` the first word of a phrase to
    (pattern, canonical text, terminals, reserved), the longest first; `says` a terminal to the words it holds.
    """

    words: dict[str, tuple[str, ...]]
    phrases: dict[str, tuple[tuple[re.Pattern[str], str, tuple[str, ...], bool], ...]]
    says: dict[str, tuple[str, ...]]


_ONLY_WORDS = re.compile(r"[a-z0-9 |]+")


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
    words = {text: tuple(names) for text, names in holds.items() if " " not in text}
    phrases: dict[str, list[tuple[re.Pattern[str], str, tuple[str, ...], bool]]] = {}
    for text in sorted((t for t in holds if " " in t), key=len, reverse=True):
        parts = text.split(" ")
        pattern = re.compile(r"[ \t-]+".join(parts) + r"(?![\w-])", re.I)
        phrases.setdefault(parts[0], []).append((pattern, text, tuple(holds[text]), text in reserved))
    return Vocabulary(words, {first: tuple(found) for first, found in phrases.items()}, says)


def build(strict: bool = False) -> Lark:
    """Build the LALR parser from the grammar; `strict` refuses any conflict (for tests)."""
    from lark import Lark

    from .reading import NoLexer

    return Lark(
        source(), parser="lalr", lexer=NoLexer, strict=strict, maybe_placeholders=False, transformer=_maker()
    )


def _maker() -> Any:
    from .reading import Maker

    return Maker()


def tables_file() -> Path | None:
    """The file that keeps the built tables for this grammar, this tool and this Python; None where there is no place.

    It lies in a folder of the user's own: what is read back is trusted like code.
    """
    if sys.platform == "win32":
        base = os.environ.get("LOCALAPPDATA")
    else:
        base = os.environ.get("XDG_CACHE_HOME") or (str(Path.home() / ".cache") if os.environ.get("HOME") else None)
    if not base:
        return None
    from lark import __version__ as lark_version

    key = sha256(f"{source()}|{lark_version}|{sys.version_info[:3]}|{_code_stamp()}".encode()).hexdigest()[:24]
    return Path(base) / "landlord-books" / f"grammar-{key}.tables"


def _code_stamp() -> str:
    from .. import __version__

    return __version__


def _ours_alone(path: Path) -> bool:
    """Whether nobody else can write the file or its folder."""
    if sys.platform == "win32":
        return True
    for place in (path, path.parent):
        about = place.lstat()
        if about.st_uid != os.getuid() or stat.S_IMODE(about.st_mode) & 0o022 or stat.S_ISLNK(about.st_mode):
            return False
    return True


@cache
def parser() -> Lark:
    """The LALR parser of one block, its tables loaded where they were kept, else built and kept."""
    import pickle

    from lark import Lark

    place = tables_file()
    if place is not None:
        try:
            if _ours_alone(place):
                data = pickle.loads(place.read_bytes())
                loaded: Lark = Lark.__new__(Lark)._load(data, transformer=_maker())
                return loaded
        except Exception:  # a cut-off or foreign file: build afresh, the answer is the same
            pass
    built = build()
    if place is not None:
        _keep(place, built)
    return built


def _keep(place: Path, built: Lark) -> None:
    """Write the tables beside, then move them in place; a full disk or a read-only home costs time, nothing else."""
    try:
        place.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        beside = place.with_name(f"{place.name}.{os.getpid()}")
        handle = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
        with os.fdopen(handle, "wb") as out:
            built.save(out)
        os.replace(beside, place)
    except OSError:
        pass


@cache
def words() -> Vocabulary:
    """The vocabulary of the grammar in use."""
    return vocabulary([(t.name, t.pattern.to_regexp()) for t in parser().terminals])
