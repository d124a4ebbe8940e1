"""Near names: what someone may have meant who typed a word nobody knows."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches


def near(word: str, known: Iterable[str], most: int = 3) -> tuple[str, ...]:
    """At most three known words that look like this one, the nearest first."""
    return tuple(get_close_matches(word.lower(), sorted(set(known)), n=most, cutoff=0.72))
