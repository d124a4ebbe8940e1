"""How much of an item replaced has relief: up to the price of one like the old, with what it cost to get it there.

Knows no rule.
"""

from __future__ import annotations

from ..money import share
from .answer import tidy
from .case import Case
from .verdict import Cgt, Kind, Part


def amount(case: Case) -> tuple[Part, ...]:
    """The relief and the rest: the price capped at an equal one's, plus incidentals (money back is taken off later)."""
    cap = case.facts.same_again
    if cap is None:
        return case.replacement
    own, inside = case.line.amount or 0, incidentals_inside(case)
    on_top = case.line.total - own + case.history.items[case.position].shared
    if inside >= own:
        inside = 0  # no part of a sum is more than the sum: a slip, and nothing to cap by
    price, extras = share(case.amount, [own - inside, on_top + inside])
    return capped(case, min(price, cap) + extras)


def incidentals_inside(case: Case) -> int:
    """Pence of delivery, fitting and the like told inside the price: no equal one would bring them down."""
    named = (extra for extra in case.facts.of_which if case.history.known(extra.what).again == "job")
    return sum(extra.amount for extra in named)


def capped(case: Case, relief: int) -> tuple[Part, ...]:
    """So many pence of relief, none for the rest."""
    return tidy((Part(relief, Kind.DOMESTIC, "domestic"), Part(case.amount - relief, Kind.NO_RELIEF, "", Cgt.NONE)))
