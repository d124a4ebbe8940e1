"""Which other items a line goes with, and a sum shared in the proportions of their answers. Knows no rule."""

from __future__ import annotations

from collections.abc import Iterable

from ..money import share
from .answer import Outcome, tidy
from .case import Case
from .verdict import Kind, Part

# Parts that say where money came from, not what the cost was.
ASIDE = frozenset({Kind.IGNORED, Kind.NETS})


def targets(case: Case, words: str) -> list[int]:
    """The positions of the items that these words mean: on the same bill, else the nearest line of the house."""
    history = case.history
    key = history.key(words)
    bill = [p for p in history.bill_of(case.position) if p != case.position and _about(case, p, key)]
    if bill:
        return bill
    nearest = history.nearest(case.house, key, case.position)
    return [] if nearest is None else [nearest]


def _about(case: Case, position: int, key: str) -> bool:
    line = case.history.items[position].line
    swapped = line.becomes.things if line.becomes else ()
    return any(case.history.key(thing.name, line.verb) == key for thing in (*line.things, *swapped))


def other_jobs(case: Case) -> list[int]:
    """The positions of the other works on the same bill that are jobs in themselves, not a skip or a scaffold."""
    history = case.history
    return [
        p
        for p in history.bill_of(case.position)
        if p != case.position
        and history.items[p].line.kind == "works"
        and history.known(history.items[p].line.thing, history.items[p].line.verb).again != "job"
    ]


def outcomes(case: Case, positions: Iterable[int]) -> list[Outcome]:
    """The answers found for these items; those that wait for this one are left out."""
    return [found for p in positions if (found := case.outcome_of(p)) is not None]


def in_proportion(amount: int, answers: list[tuple[Part, ...]]) -> tuple[Part, ...]:
    """A sum shared over the kinds of these answers by their sizes; nothing where they hold no cost."""
    parts = [part for parts in answers for part in parts if part.kind not in ASIDE]
    weights = [part.amount for part in parts]
    if not parts:
        return ()
    if not sum(weights):
        weights = [1] * len(parts)
    pieces = share(amount, weights)
    return tidy(Part(n, p.kind, p.category, p.cgt) for n, p in zip(pieces, parts, strict=True))


def like(amount: int, found: list[Outcome]) -> tuple[tuple[Part, ...], tuple[Part, ...]]:
    """Both answers for a sum that goes the way of these: the likelier, and the cautious one where any is open."""
    likelier = in_proportion(amount, [o.parts for o in found])
    if not any(o.cautious for o in found):
        return likelier, ()
    return likelier, in_proportion(amount, [o.cautious or o.parts for o in found])
