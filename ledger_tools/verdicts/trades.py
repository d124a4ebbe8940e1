"""The customary order of trades, whom to ask early, and where to hold and look: habits of the trade, held as data.

Knows no book and no tax, and permits nothing: a hold point is a reminder.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterable
from functools import cache
from pathlib import Path
from typing import Any

from ..record import record
from .catalogue import Thing

FILE = Path(__file__).with_name("trades.toml")


@record
class Step:
    """One step of the customary order; `number` is its place, from 1."""

    number: int
    name: str
    says: str
    source: str
    verbs: frozenset[str] = frozenset()
    things: frozenset[str] = frozenset()
    natures: frozenset[str] = frozenset()


@record
class Ahead:
    """Somebody with a queue, and the jobs for which to ask them early."""

    who: str
    says: str
    source: str
    verbs: frozenset[str] = frozenset()
    things: frozenset[str] = frozenset()
    leasehold: bool = False


@record
class Hold:
    """A point at which to stop and look: after one step, and before another ("" for before the letting)."""

    name: str
    after: str
    before: str
    says: str
    source: str


@record
class Safe:
    """A question to ask of a thing that was left, before anybody lives with it."""

    ask: str
    source: str
    things: frozenset[str] = frozenset()
    caution: str = ""


@cache
def _data() -> dict[str, Any]:
    return tomllib.loads(FILE.read_text(encoding="utf-8"))


def _names(said: Any) -> frozenset[str]:
    return frozenset(word.strip() for word in str(said or "").replace("\n", " ").split(",") if word.strip())


@cache
def steps() -> tuple[Step, ...]:
    """The steps in their order."""
    return tuple(
        Step(n, s["name"], s["says"], s["source"], *(_names(s.get(k)) for k in ("verbs", "things", "natures")))
        for n, s in enumerate(_data()["step"], 1)
    )


@cache
def ahead() -> tuple[Ahead, ...]:
    """Those with a queue."""
    return tuple(
        Ahead(a["who"], a["says"], a["source"], _names(a.get("verbs")), _names(a.get("things")), "leasehold" in a)
        for a in _data()["ahead"]
    )


@cache
def holds() -> tuple[Hold, ...]:
    """The hold points."""
    return tuple(Hold(h["name"], h["after"], h.get("before", ""), h["says"], h["source"]) for h in _data()["hold"])


def step_of(verb: str, things: Iterable[Thing]) -> Step | None:
    """The step a job belongs to, by its plain verb, else its things, else their nature; None where nothing tells."""
    found = list(things)
    by_verb = next((s for s in steps() if verb in s.verbs), None)
    by_thing = next((s for s in steps() if any(t.name in s.things for t in found)), None)
    return by_verb or by_thing or next((s for s in steps() if any(t.nature in s.natures for t in found)), None)


def is_surface(verb: str) -> bool:
    """Whether a plain verb leaves its thing standing as it is: decorated, cleaned, cleared."""
    return verb in _names(_data()["surface"])


def cautions_of(verb: str, things: Iterable[Thing]) -> tuple[str, ...]:
    """The names of the cautions a job calls for: those of its things, and of building where it builds."""
    found = dict.fromkeys(thing.caution for thing in things if thing.caution)
    if is_surface(verb):
        found.pop("structure", None)
    elif verb in _names(_data()["building"]):
        found["structure"] = None
    return tuple(found)


def asked_early(verb: str, things: Iterable[Thing]) -> tuple[Ahead, ...]:
    """Whom to ask early for a job."""
    if is_surface(verb):
        return ()
    names = {thing.name for thing in things}
    return tuple(a for a in ahead() if verb in a.verbs or not a.things.isdisjoint(names))


def safe_to_let(thing: Thing) -> tuple[Safe, ...]:
    """What to ask of a thing before it is let with."""
    found = (Safe(s["ask"], s["source"], _names(s.get("things")), s.get("caution", "")) for s in _data()["leftover"])
    return tuple(s for s in found if thing.name in s.things or s.caution and s.caution == thing.caution)
