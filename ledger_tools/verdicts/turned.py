"""The parts of an answer turned into something else: private, an improvement, waiting, nothing. Knows no rule."""

from __future__ import annotations

from collections.abc import Callable

from .answer import tidy
from .verdict import ALLOWED, CAPITAL, Cgt, Kind, Part


def turned(parts: tuple[Part, ...], into: Callable[[Part], Part]) -> tuple[Part, ...]:
    """The parts that come off, each turned into something else."""
    return tidy(into(part) if part.kind in ALLOWED else part for part in parts)


def borne_by_another(parts: tuple[Part, ...]) -> tuple[Part, ...]:
    """The parts of a cost that somebody else bore: nothing of it comes off, or counts for the owners' gain."""
    return tidy(nothing(part) if part.kind in ALLOWED | CAPITAL else part for part in parts)


def private(part: Part) -> Part:
    """The same sum, private."""
    return Part(part.amount, Kind.PRIVATE)


def nothing(part: Part) -> Part:
    """The same sum without relief."""
    return Part(part.amount, Kind.NO_RELIEF)


def unless_replaced(part: Part) -> Part:
    """The same sum; no relief where it replaced a domestic item."""
    return nothing(part) if part.kind is Kind.DOMESTIC else part


def enhances(part: Part) -> Part:
    """The same sum as an improvement, where it was a repair."""
    return Part(part.amount, Kind.IMPROVEMENT, cgt=Cgt.ENHANCEMENT) if part.kind is Kind.REPAIR else part


def waiting(part: Part) -> Part:
    """The same sum, waiting for the first letting."""
    return Part(part.amount, Kind.PENDING, part.category)
