"""What the parser hands on: small slotted records of what was typed, with places relative to their block.

Knows nothing of landlords or tax: a clause is a kind with values, a statement is clauses with parts below.
"""

from __future__ import annotations

from typing import Any, NamedTuple


class Piece:
    """One token: its terminal, its value (a date, pence, a canonical word …) and where it stands in the block."""

    __slots__ = ("end_pos", "start_pos", "type", "value")
    line = column = end_line = end_column = 1  # asked for by the parser library, never used

    def __init__(self, type: str, value: Any, start_pos: int, end_pos: int) -> None:
        self.type = type
        self.value = value
        self.start_pos = start_pos
        self.end_pos = end_pos

    def __repr__(self) -> str:
        return f"{self.type}({self.value!r})"

    def __eq__(self, other: object) -> bool:
        """Equal where they say the same, wherever they stand."""
        return isinstance(other, Piece) and (self.type, self.value) == (other.type, other.value)

    def __hash__(self) -> int:
        return hash((self.type, self.value))


class Clause(NamedTuple):
    """A clause or fact: its kind (the name of its grammar rule) and its values, pieces or clauses."""

    kind: str
    values: tuple[Any, ...]
    start_pos: int
    end_pos: int

    @property
    def meaning(self) -> tuple[Any, ...]:
        """What it says, without where: two clauses mean the same where these are equal."""
        return (self.kind, tuple(v.meaning if isinstance(v, (Clause, Statement)) else v for v in self.values))


class Statement(NamedTuple):
    """A line that says something: kind, its leading pieces (verb, names), its clauses, the statements below it."""

    kind: str
    head: tuple[Piece, ...]
    clauses: tuple[Clause, ...]
    below: tuple[Statement, ...]
    start_pos: int
    end_pos: int

    @property
    def meaning(self) -> tuple[Any, ...]:
        """What it says, without where."""
        return (self.kind, self.head, tuple(c.meaning for c in self.clauses), tuple(s.meaning for s in self.below))
