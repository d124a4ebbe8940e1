"""Which other items a line goes with, and a sum shared in the proportions of their answers. Knows no rule."""

from __future__ import annotations

from collections.abc import Iterable

from ..book.entries import Entry
from ..money import share
from .answer import Outcome, tidy
from .case import Case
from .verdict import Kind, Part

# Parts that say where money came from, not what the cost was.
ASIDE = frozenset({Kind.IGNORED, Kind.NETS})
OPEN = " What it cost is open, so this is open with it."


def targets(case: Case, words: str) -> list[int]:
    """The positions of the items that these words mean: on the same bill, else the nearest line of the house; of
    several those in the rooms of this line, where any are."""
    found, items = case.history.meant(case.house, case.position, words), case.history.items
    if len(found) < 2:
        return found
    rooms = _rooms(case.line)
    return [p for p in found if not rooms.isdisjoint(_rooms(items[p].line))] or found


def _rooms(line: Entry) -> set[str]:
    """The rooms a line tells, and what it is about, as that may be a room itself."""
    return {line.thing, *(room.text for room in line.rooms)}


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


def leaders(case: Case) -> list[int]:
    """The positions of the jobs that a line goes with: by its link, on its bill, or by what it was for."""
    words = [thing.name for link in case.facts.links for thing in link.things]
    named = [p for name in words for p in targets(case, name)]
    if words or case.thing.again != "job":
        return list(dict.fromkeys(named))
    return other_jobs(case) or (targets(case, case.line.purpose) if case.line.purpose else [])


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


# ── money back ───────────────────────────────────────────────────────────────────────────────────────────────────


def costs(case: Case) -> list[Outcome]:
    """The settled answers of the lines this money is about: `for roof`, `goes with roof`, `against invoice 118`."""
    words = [case.line.purpose] if case.line.purpose else []
    words += [t.name for link in case.facts.links for t in link.things]
    positions = dict.fromkeys(p for name in words for p in targets(case, name))
    positions = positions or dict.fromkeys(case.history.credited(case.position))
    return [found for p in positions if (found := case.settled_of(p)) is not None]


def back_for(amount: int, found: list[Outcome]) -> tuple[tuple[Part, ...], tuple[Part, ...]]:
    """Money back off these costs, in their classes and on the gains side of what is capital; open where they are."""
    likelier, cautious = like(amount, found)
    off, doubted = off_cost(likelier), off_cost(cautious)
    return off, () if off == doubted else doubted


def open_ones(found: Iterable[Outcome]) -> tuple[int, ...]:
    """The positions of those of these costs that are open: what came back for them is settled with them."""
    return tuple(outcome.position for outcome in found if outcome.cautious)


def open_places(case: Case, found: Iterable[Outcome]) -> str:
    """Where in the book those of these items stand that are open."""
    return ", ".join(dict.fromkeys(case.history.items[p].source for p in open_ones(found)))


def off_cost(parts: Iterable[Part]) -> tuple[Part, ...]:
    """These costs given back: what was private never counted, so that money moves nothing."""
    return tidy(Part(p.amount, Kind.IGNORED if p.kind is Kind.PRIVATE else Kind.NETS, p.category, p.cgt) for p in parts)
