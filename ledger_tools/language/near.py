"""Finds near names: the words a typing slip may have meant. Knows words and distances, no grammar and no book."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import NamedTuple

from ..spelling import distance, limit
from .grammar import LITTLE_WORDS


class Near(NamedTuple):
    """A word that may have been meant, and how many of the typed words it stands for."""

    word: str
    taken: int
    distance: int


class Slip(NamedTuple):
    """A run of plain words taken apart: what comes before the slip, the slip, the word meant, and what follows."""

    before: str
    typed: str
    meant: str
    rest: str

    @property
    def line(self) -> str:
        """The words as they may have been meant: "boiler in kitchen"; a fact gets its comma: "boiler, broken"."""
        joined = f"{self.before} {self.meant}" if self.meant in LITTLE_WORDS else f"{self.before}, {self.meant}"
        return f"{joined} {self.rest}".strip()


def nearest(
    typed: Iterable[str], candidates: Collection[str], most: int = 3, plain: Collection[str] = ()
) -> list[Near]:
    """The candidates nearest to the typed words, nearest first, at most `most`; those that begin alike go before.

    A candidate of several words is held against as many typed ones, or against fewer that were run together; one of
    its longer words alone is enough to be offered, behind the others. A word that is one of `plain` means itself and
    is no slip of the keys, but for one of several.
    """
    words = [word.lower() for word in typed]
    sure = bool(words) and words[0] in plain
    found: list[Near] = []
    for candidate in candidates:
        best = _held_against(words, candidate)
        if best.taken and not (sure and best.distance and best.taken == 1):
            found.append(best)
    size = [len(" ".join(words[:taken])) for taken in range(len(words) + 1)]
    # Letters are left out more often than typed twice, so of two words as near the longer goes first.
    found.sort(key=lambda near: (near.distance, abs(len(near.word) - size[near.taken]), -len(near.word), near.word))
    if found and found[0].distance < 4:
        found = [near for near in found if near.distance == found[0].distance]
        found = [near for near in found if near.word[0] == words[0][0]] or found
    return found[:most]


def _held_against(words: list[str], candidate: str) -> Near:
    """How near one candidate is; nothing taken where it is too far."""
    size = candidate.count(" ") + 1
    best = Near(candidate, 0, 99)
    for count in {size, max(1, size - 1), 1}:
        if count > len(words):
            continue
        text = " ".join(words[:count])
        slips = distance(text, candidate)
        if slips <= min(limit(text), limit(candidate)) and slips < best.distance:
            best = Near(candidate, count, slips)
    alone = len(words) == 1 or len(words) > 1 and words[1] in LITTLE_WORDS
    if best.taken == 0 and size > 1 and alone and len(words[0]) > 3:
        slips = min((distance(words[0], part) for part in candidate.split() if len(part) > 3), default=99)
        if slips <= 1:
            best = Near(candidate, 1, 4 + slips)
    return best


def split_little(words: str, known: Collection[str], little: Collection[str] = LITTLE_WORDS) -> Slip | None:
    """Take "boiler inn kitchen" apart where it is a known thing and a misspelt little word; None where it is not.

    A longer known thing goes before a shorter one. A slip of one letter is enough, but for words so short that they
    could be several little words.
    """
    parts = words.lower().split()
    for at in range(len(parts) - 2, 0, -1):
        before = " ".join(parts[:at])
        if before not in known or parts[at] in known:
            continue
        near = sorted((distance(parts[at], word), abs(len(parts[at]) - len(word)), word) for word in little)
        if near[0][0] == 1 and not (len(parts[at]) < 3 and len(near) > 1 and near[1][0] == 1):
            return Slip(before, parts[at], near[0][2], " ".join(parts[at + 1 :]))
    return None


def split_fact(words: str, known: Collection[str], facts: Collection[str]) -> Slip | None:
    """Take "boiler broken" apart where it is a known thing and a fact of one word without its comma; None if not."""
    before, _, last = words.lower().rpartition(" ")
    if before in known and last in facts and words.lower() not in known:
        return Slip(before, last, last, "")
    return None
