"""Which faults the papers of a purchase name: as the landlord names them, else as their words are quoted.

Decides nothing and knows no rule.
"""

from __future__ import annotations

import re
from functools import lru_cache

from ..book.entries import Thing
from ..book.world import Property
from .catalogue import Catalogue
from .history import History

HARM = frozenset({"damp", "mould", "rot", "woodworm", "asbestos", "lead paint"})  # services by nature, and faults
NONE_OF_IT = frozenset({"no", "without", "free"})
WHERE = frozenset({"in", "of", "to", "throughout"})
LITTLE = frozenset({"the", "a", "all", "any"})
BUILDING = frozenset({"fabric", "fixture", "plant", "outbuilding", "garden"})
PRAISE = frozenset({"sound", "good", "fine", "fair", "fit", "tidy", "satisfactory", "new", "renewed", "replaced"})
WANTED = frozenset({"not", "no", "needs", "need", "wants", "must"})
LONGEST = 3  # words in the name of a thing


def state_faults(history: History, house: Property) -> tuple[str, ...]:
    """The names in the catalogue of what kept a house from being let, or for long; nothing where no paper names any."""
    if house.as_bought not in ("not lettable", "lettable for a while"):
        return ()
    return _named(history, house.as_bought_faults, house.as_bought_says + house.as_bought_because)


def price_faults(history: History, house: Property) -> tuple[str, ...]:
    """The names in the catalogue of what the price was cut for; nothing where no paper names any."""
    if house.price != "reduced":
        return ()
    return _named(history, house.price_faults, house.price_says + house.price_because)


def _named(history: History, told: tuple[Thing, ...], said: tuple[str, ...]) -> tuple[str, ...]:
    if told:
        return tuple(dict.fromkeys(history.key(thing.name) for thing in told))
    return _quoted(said, history.catalogue)


@lru_cache(maxsize=64)
def _quoted(said: tuple[str, ...], catalogue: Catalogue) -> tuple[str, ...]:
    """The things these words speak of, but for those that a clause praises: "roof sound, wiring condemned"."""
    found: dict[str, None] = {}
    for clause in re.split(r"[,;:.]|\bbut\b", " ".join(f"{text};" for text in said)):
        words = re.findall(r"[a-z]+", clause.lower())
        if not PRAISE.isdisjoint(words) and WANTED.isdisjoint(words):
            continue
        found |= dict.fromkeys(_things(words, catalogue))
    return tuple(found)


def _things(words: list[str], catalogue: Catalogue) -> list[str]:
    """The names of the faults among these words, the longest first: parts of a house, and harm such as damp.

    "No boiler" is a fault, "no damp" is none: "no" holds to the next "and", "free of" to the end. A room behind "in" is
    where the fault is, and no fault.
    """
    found, at, denied, before = [], 0, "", ""
    while at < len(words):
        denied = words[at] if words[at] in NONE_OF_IT else "" if (denied, words[at]) == ("no", "and") else denied
        for size in range(LONGEST, 0, -1):
            thing = catalogue.find(" ".join(words[at : at + size])) if at + size <= len(words) else None
            if thing is None or thing.name == "house":
                continue
            where = before in WHERE and thing.name in catalogue.rooms
            if thing.name in HARM and not denied or thing.nature in BUILDING and not where:
                found.append(thing.name)
            if thing.name in HARM or thing.nature in BUILDING:
                at += size - 1
                break
        before = before if words[at] in LITTLE else words[at]
        at += 1
    return found
