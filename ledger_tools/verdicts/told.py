"""What a line tells of the old one: the causes that speak of it, and a line of the first one that was none.

Knows no rule and no house.
"""

from __future__ import annotations

from dataclasses import replace

from ..book.entries import Entry
from ..book.world import Book
from .catalogue import Thing

# What happened to the thing after the house was bought, so that the fault was not bought with it.
EVENTS = frozenset({"storm damage", "fire damage", "water damage", "tenant damage", "squatter damage"})
WORN = frozenset({"worn out", "broken"}) | EVENTS
FORCED = WORN | {"required"}
MORE = frozenset({"better", "does more", "partly better"})  # than the old one was when new
THERE_BEFORE = frozenset({"left by seller", "ours before", "used by tenant", "taken out earlier"})
INSULATION = frozenset({"loft insulation", "wall insulation"})  # what is laid today is thicker than the old was
WALLS = frozenset({"wall", "partition wall"})  # within a house, as the catalogue names them
TENANT = frozenset({"tenant", "tenants", "the tenant", "the tenants"})  # no let by its name, and yet no stranger
UPKEEP = frozenset({"upkeep", "keeping up", "maintenance", "repairs", "repair"})  # what a fee, or kit, was for
# a leaseholder's share of what is spent on the building, or put by for it
BLOCK = frozenset({"service charge", "major works bill", "reserve fund"})


def as_it_was(line: Entry) -> Entry:
    """The line as rules read it: "installed" with a word about the old one is "replaced"."""
    facts = line.facts
    if line.verb != "installed" or facts.was_there in ("none before", "missing when bought"):
        return line
    old = (
        facts.compared or facts.same_again or facts.old_one or facts.part_exchange or not WORN.isdisjoint(facts.causes)
    )
    if not old and facts.was_there not in ("used by tenant", "left by seller", "ours before"):
        return line
    return replace(line, verb="replaced")


def nature_of(line: Entry, thing: Thing, became: Thing | None) -> str:
    """How the thing is fixed, or whose use kit is for, as the line tells it, else its nature in the catalogue."""
    if thing.nature == "kit" or thing.often_own:
        purpose = line.purpose.lower()
        return "domestic" if purpose in TENANT else "kit" if purpose in UPKEEP else thing.nature
    fixing = line.facts.fixing if became is None else ""
    if fixing == "loose" and thing.nature == "fixture" and not thing.statute:
        return "domestic"  # a loose shed or tank is no furniture for that: see `standing_loose`
    if fixing == "built in" and thing.nature == "domestic":
        return "fixture"
    return thing.nature


def standing_loose(line: Entry, thing: Thing) -> bool:
    """Whether the line calls loose what stands in the grounds: whether that is part of the property is open."""
    return line.facts.fixing == "loose" and thing.nature in ("outbuilding", "garden", "plant") and not thing.statute


def tells_elsewhere(book: Book) -> bool:
    """Whether a book has any line that may tell somebody outside of the state of a home. Quick: nothing is judged."""
    return any(
        line.facts.called or line.facts.energy_band or line.facts.found or line.verb in ("refused", "claimed")
        for entry in book.entries
        for line in (entry, *entry.lines)
    )
