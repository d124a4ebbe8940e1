"""How alike two spellings are, and which known words a typing slip may have meant. Knows no word of the book."""

from __future__ import annotations

from collections.abc import Iterable


def distance(one: str, other: str) -> int:
    """How many slips lie between two words: a letter too many, too few, wrong, or two neighbours swapped."""
    before: list[int] = []
    row = list(range(len(other) + 1))
    for i, letter in enumerate(one, 1):
        before, last, row = row, before, [i]
        for j, there in enumerate(other, 1):
            cost = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (letter != there))
            if i > 1 and j > 1 and letter == other[j - 2] and one[i - 2] == there:
                cost = min(cost, last[j - 2] + 1)
            row.append(cost)
    return row[-1]


def limit(word: str) -> int:
    """How many slips a word of this length may hold and still be recognised."""
    return 0 if len(word) < 2 else 1 if len(word) < 7 else 2


def alike(one: str, other: str) -> bool:
    """Whether one spelling may be a slip for the other: word by word, or run together or apart in one place."""
    words, others = one.split(), other.split()
    if len(words) == len(others):
        return all(distance(a, b) <= limit(a) for a, b in zip(words, others, strict=True))
    return "".join(words) == "".join(others)


def near(word: str, known: Iterable[str], most: int = 3) -> tuple[str, ...]:
    """At most three known words that look like this one, the nearest first; those that begin alike go before."""
    low = word.lower()
    found = sorted(
        (distance(low, other.lower()), other[:1].lower() != low[:1], other)
        for other in set(known)
        if alike(low, other.lower()) or distance(low, other.lower()) <= limit(low)
    )
    return tuple(other for _, _, other in found)[:most]
