"""Which faults a book names of a house as got: as the landlord names them, else as the words of papers are quoted.

Decides nothing and knows no rule.
"""

from __future__ import annotations

import re
from functools import lru_cache

from ..book.world import OwingTo, Property
from .catalogue import Catalogue
from .declared import parts_of
from .history import History

HARM = frozenset({"damp", "mould", "rot", "woodworm", "asbestos", "lead paint"})  # services by nature, and faults
NONE_OF_IT = frozenset({"no", "without", "free"})
WHERE = frozenset({"in", "of", "to", "throughout"})
LITTLE = frozenset({"the", "a", "all", "any"})
BUILDING = frozenset({"fabric", "fixture", "plant", "outbuilding", "garden"})
PRAISE = frozenset({"sound", "good", "fine", "fair", "fit", "tidy", "satisfactory", "new", "renewed", "replaced"})
WANTED = frozenset({"not", "no", "needs", "need", "wants", "must"})
POOR = ("not lettable", "lettable for a while")
LONGEST = 3  # words in the name of a thing


def state_faults(history: History, house: Property) -> tuple[str, ...]:
    """The names in the catalogue of what kept a house from being let, or for long; nothing where none is named."""
    return _named(history, house.as_bought_told) if house.as_bought in POOR else ()


def price_faults(history: History, house: Property) -> tuple[str, ...]:
    """The names in the catalogue of what the price was cut for; nothing where none is named."""
    return _named(history, house.price_told) if house.price == "reduced" else ()


def by_papers(history: History, house: Property) -> frozenset[str]:
    """Those of these names that a paper of the purchase names; the others are the landlord's own word alone.

    A paper whose words are quoted names what stands in them; one that is only called by its name says what its line
    says.
    """
    lines = (*house.as_bought_told, *house.price_told)
    found = ((_of_line(history, line), _quoted(line.says, history.catalogue)) for line in lines if line.says)
    return frozenset(
        name for names, quoted in found for name in names if not quoted or name in parts_of(set(quoted))
    )


def only_these(history: History, house: Property) -> bool:
    """Whether the block says of all that speaks of a poor state for which faults alone it does so.

    Where the price was cut for some faults only, that answers for a state too of which faults are named.
    """
    state, price = house.as_bought in POOR, house.price == "reduced"
    price_only = any(line.only for line in house.price_told)
    state_only = any(line.only for line in house.as_bought_told)
    for_state = not state or state_only or price_only and bool(state_faults(history, house))
    return (state or price) and (price_only or not price) and for_state


def _named(history: History, told: tuple[OwingTo, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for line in told for name in _of_line(history, line)))


def _of_line(history: History, line: OwingTo) -> tuple[str, ...]:
    if line.faults:
        return tuple(history.key(thing.name) for thing in line.faults)
    return _quoted(line.says + line.because, history.catalogue)


@lru_cache(maxsize=64)
def spoken_of(text: str, catalogue: Catalogue) -> frozenset[str]:
    """The names in the catalogue of all parts of a house that a text speaks of, by any of their names, praised or not.

    Rooms are among them.
    """
    words = re.findall(r"[a-z]+", text.lower())
    runs = (" ".join(words[at : at + size]) for size in range(1, LONGEST + 1) for at in range(len(words) - size + 1))
    return frozenset(thing.name for run in runs if (thing := catalogue.find(run)) is not None)


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
