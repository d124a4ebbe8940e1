"""The LALR tables of the grammar, as Lark works them out, laid down so that a short loop can run them.

Lark reads the grammar and builds the tables; that takes a third of a second, so they are kept (see kept.py). Running
them here instead of in Lark makes reading about twice as quick, and a command that only reads need not import Lark at
all; a test holds that both give the same. Knows nothing of words or records.
"""

from __future__ import annotations

from dataclasses import fields
from functools import cache
from pathlib import Path
from typing import Any

from ..kept import kept
from ..record import record
from .grammar import compile_grammar, source

DROP, KEEP, INLINE = 0, 1, 2  # what becomes of a child: forgotten, kept, its children in its place


@record
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
    made_from = source() + Path(__file__).read_text(encoding="utf-8")  # the grammar, and how it is laid down here
    return Tables(**kept("grammar", made_from, _built))


def _built() -> dict[str, Any]:
    made = from_lark(compile_grammar())
    return {name: getattr(made, name) for name in (field.name for field in fields(Tables))}
