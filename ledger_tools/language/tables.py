"""The LALR tables of the grammar, as Lark works them out, laid down so that a short loop can run them.

Lark reads the grammar and builds the tables; that takes a third of a second, so they are kept as JSON in a folder of
the user's own (JSON holds no code: a foreign file can at worst be useless). Running them here instead of in Lark
makes reading about twice as quick, and a command that only reads need not import Lark at all; a test holds that both
give the same. Knows nothing of words or records.
"""

from __future__ import annotations

import json
import os
import stat
import sys
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from .. import __version__
from .grammar import compile_grammar, source

DROP, KEEP, INLINE = 0, 1, 2  # what becomes of a child: forgotten, kept, its children in its place


@dataclass(frozen=True, slots=True)
class Tables:
    """steps: for each state, terminal → next state, or -(number of a rule) - 1 to reduce by it; `gotos` the same for
    rules. rules: (name of its origin, length, what becomes of each child, what to call, whether a lone child stands
    for it, its symbols). terminals: (name, pattern)."""

    steps: list[dict[str, int]]
    gotos: list[dict[str, int]]
    rules: list[tuple[str, int, list[int], str, bool, list[str]]]
    terminals: list[tuple[str, str]]
    start: int
    end: int

    def fed(self, stack: list[int], terminal: str) -> list[int] | None:
        """The stack once this terminal is taken, with the reductions it asks for; None if it can't be.

        For "$END" its top is the end state.
        """
        stack = list(stack)
        while True:
            step = self.steps[stack[-1]].get(terminal)
            if step is None:
                return None
            if step >= 0:
                return [*stack, step]
            origin, size, *_ = self.rules[-step - 1]
            if size:
                del stack[-size:]
            state = self.gotos[stack[-1]][origin]
            stack.append(state)
            if terminal == "$END" and state == self.end:
                return stack

    def after(self, stack: list[int], terminal: str) -> int | None:
        """The state once this terminal is taken; None if it can't be."""
        fed = self.fed(stack, terminal)
        return fed[-1] if fed else None

    def accepted(self, stack: list[int]) -> frozenset[str]:
        """The terminals that can really come next: tables merge states, so each is tried."""
        return frozenset(name for name in self.steps[stack[-1]] if self.fed(stack, name))


def from_lark(built: Any) -> Tables:
    """Lay down the tables of a Lark parser."""
    from lark.parsers.lalr_analysis import Shift

    made = built.parser.parser._parse_table
    numbers: dict[int, int] = {}
    rules: list[tuple[str, int, list[int], str, bool, list[str]]] = []
    steps: list[dict[str, int]] = []
    gotos: list[dict[str, int]] = []
    for state in range(len(made.states)):
        step: dict[str, int] = {}
        goto: dict[str, int] = {}
        for name, (action, argument) in made.states[state].items():
            if action is not Shift:
                number = numbers.setdefault(id(argument), len(rules))
                if number == len(rules):
                    rules.append(_rule(argument))
                step[name] = -number - 1
            elif name.isupper() or name in ("_COMMA", "_NL", "_DEEP", "$END"):
                step[name] = argument
            else:
                goto[name] = argument
        steps.append(step)
        gotos.append(goto)
    (start,), (end,) = made.start_states.values(), made.end_states.values()
    terminals = [(t.name, t.pattern.to_regexp()) for t in built.terminals]
    return Tables(steps, gotos, rules, terminals, start, end)


def _rule(rule: Any) -> tuple[str, int, list[int], str, bool, list[str]]:
    shape = []
    for symbol in rule.expansion:
        if symbol.is_term:
            shape.append(DROP if symbol.filter_out and not rule.options.keep_all_tokens else KEEP)
        else:
            shape.append(INLINE if symbol.name.startswith("_") else KEEP)
    name = str(rule.alias or rule.origin.name)
    symbols = [str(symbol.name) for symbol in rule.expansion]
    return str(rule.origin.name), len(shape), shape, name, bool(rule.options.expand1 and not rule.alias), symbols


@cache
def tables() -> Tables:
    """The tables of the grammar in use, from where they were kept, else built and kept."""
    place = kept_at()
    if place is not None:
        try:
            if _ours_alone(place):
                kept = json.loads(place.read_bytes())
                if kept.pop("made_from") == _made_from():
                    return Tables(**kept)
        except (OSError, ValueError, TypeError, KeyError, AttributeError):
            pass  # cut off, or of another make: build them, the answer is the same
    made = from_lark(compile_grammar())
    if place is not None:
        _keep(place, made)
    return made


def kept_at() -> Path | None:
    """The file that keeps the tables for this grammar and this version; None where there is no place for it."""
    if sys.platform == "win32":
        base = os.environ.get("LOCALAPPDATA")
    else:
        home = os.environ.get("HOME")
        base = os.environ.get("XDG_CACHE_HOME") or (str(Path(home) / ".cache") if home else None)
    if not base:
        return None
    return Path(base) / "landlord-books" / f"grammar-{__version__}.json"


def _made_from() -> list[str]:
    """What tables are made from: the grammar, and how they are laid down here."""
    return [source(), Path(__file__).read_text(encoding="utf-8")]


def _ours_alone(path: Path) -> bool:
    """Whether nobody else can write the file or its folder."""
    if sys.platform == "win32":
        return True
    for place in (path, path.parent):
        about = place.lstat()
        if about.st_uid != os.getuid() or stat.S_IMODE(about.st_mode) & 0o022 or stat.S_ISLNK(about.st_mode):
            return False
    return True


def _keep(place: Path, made: Tables) -> None:
    """Write the tables beside, then move them in place; a full disk or a read-only home costs time, nothing else."""
    data = {name: getattr(made, name) for name in Tables.__slots__} | {"made_from": _made_from()}
    try:
        place.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        beside = place.with_name(f"{place.name}.{os.getpid()}")
        handle = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
        with os.fdopen(handle, "w", encoding="utf-8") as out:
            json.dump(data, out, separators=(",", ":"))
        os.replace(beside, place)
    except OSError:
        pass
