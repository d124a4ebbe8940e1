"""What a line tells of the old one: the causes that speak of it, and a line of the first one that was none.

Knows no rule and no house.
"""

from __future__ import annotations

from dataclasses import replace

from ..book.entries import Entry

# What happened to the thing after the house was bought, so that the fault was not bought with it.
EVENTS = frozenset({"storm damage", "fire damage", "water damage", "tenant damage", "squatter damage"})
WORN = frozenset({"worn out", "broken"}) | EVENTS
FORCED = WORN | {"required"}
MORE = frozenset({"better", "does more", "partly better"})  # than the old one was when new


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
