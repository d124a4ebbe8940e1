"""Walks all stacks the parser can be in, to list every set of what may come next. Knows tables, no words."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from functools import cache

from ledger_tools.language.tables import tables

# A state reached through two stacks leads to different places after a reduction, so stacks are told apart by their
# last states. With more than four no further set turns up, as a test checks.
DEEP = 4


def ways(deep: int = DEEP) -> Iterator[tuple[tuple[str, ...], list[int]]]:
    """A shortest way to each stack the parser can be in: the terminals, and the stack."""
    made = tables()
    seen: set[tuple[int, ...]] = set()
    to_do: deque[tuple[tuple[str, ...], list[int]]] = deque([((), [made.start])])
    while to_do:
        path, stack = to_do.popleft()
        key = tuple(stack[-deep:])
        if key in seen:
            continue
        seen.add(key)
        yield path, stack
        for name in sorted(made.accepted(stack) - {"$END"}):
            fed = made.fed(stack, name)
            assert fed is not None
            to_do.append(((*path, name), fed))


@cache
def reachable(deep: int = DEEP) -> dict[frozenset[str], tuple[str, ...]]:
    """Every set of terminals that can come next, with the terminals of a shortest way there."""
    found: dict[frozenset[str], tuple[str, ...]] = {}
    for path, stack in ways(deep):
        found.setdefault(tables().accepted(stack), path)
    return found
