"""Whether a fault may have come with the house, as far as its line and its history tell. Knows no rule."""

from __future__ import annotations

from .answer import Remark, Said
from .case import Case, either
from .told import EVENTS, MORE
from .verdict import ALLOWED, Part

PUTS_RIGHT = "repaired, replaced, treated, rebuilt, removed, moved, bought, decorated"


def fault_bought(case: Case) -> bool:
    """Whether the fault may have been there when the house was got: nothing since explains it.

    Before the first letting of a house bought in a poor state no tenant can have done it, and that the work was
    chosen explains nothing; of fire, storm, water and squatters `damage_since` asks.
    """
    if case.verb == "decorated" or case.facts.was_there == "none before":
        return False
    wanted = case.because("chosen", "for more rent")
    if wanted and (case.verb == "moved" or case.facts.compared in MORE):
        return False
    if poor(case) and not case.let_before:
        return True
    if not EVENTS.isdisjoint(case.facts.causes) or case.facts.was_there == "used by tenant":
        return False
    if case.because("chosen", "for more rent"):
        return False
    if not case.let_before:
        return True
    return not case.because("broken") and (case.verb != "repaired" or case.because("required"))


def poor(case: Case) -> bool:
    """Whether the house was got in a state, or at a price, that speaks of work to do."""
    if case.place is not None and case.place.put_right:
        return True
    return case.as_bought in ("not lettable", "lettable for a while") or case.price == "reduced"


def was_lived_in(case: Case) -> bool:
    """Whether the owner lived there before this day."""
    return case.history.lets.was_home(case.house, case.day)


def open_between(case: Case, cautious: tuple[Part, ...], says: str, ask: tuple[str, ...] = ()) -> Said:
    """Both answers: what the work is by itself, or this other one. Only a remark where by itself it is capital too."""
    work = case.judged(case.but(skip="B"))
    if not any(part.kind in ALLOWED for part in (*work.parts, *work.cautious)):
        return Remark(f"{says} Here that makes no difference: the work is capital by itself.")
    return either(work.parts, cautious, says, ask)
