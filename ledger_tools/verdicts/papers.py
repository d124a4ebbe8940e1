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

BUILDING = frozenset({"fabric", "fixture", "plant", "outbuilding", "garden"})
PRAISE = frozenset({"sound", "good", "fine", "fair", "fit", "tidy", "satisfactory", "new", "renewed", "replaced"})
WANTED = frozenset({"not", "no", "needs", "need", "wants", "must"})
LONGEST = 3  # words in the name of a thing


def state_faults(history: History, house: Property) -> tuple[str, ...]:
    """The names in the catalogue of what kept a house from being let, or for long; nothing where no paper names any."""
    if house.as_bought not in ("not lettable", "lettable for a while"):
        return ()
    return _named(history, house.as_bought_faults, house.as_bought_says)


def price_faults(history: History, house: Property) -> tuple[str, ...]:
    """The names in the catalogue of what the price was cut for; nothing where no paper names any."""
    if house.price != "reduced":
        return ()
    return _named(history, house.price_faults, house.price_says)


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
    """The names of the parts of a house among these words, the longest first."""
    found, at = [], 0
    while at < len(words):
        for size in range(LONGEST, 0, -1):
            thing = catalogue.find(" ".join(words[at : at + size])) if at + size <= len(words) else None
            if thing is not None and thing.nature in BUILDING and thing.name != "house":
                found.append(thing.name)
                at += size - 1
                break
        at += 1
    return found
