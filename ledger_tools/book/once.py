"""What is worked out once for a whole book and asked for many times. Knows nothing of what that is."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import TypeVar

from .world import Book

T = TypeVar("T")


def once(work: Callable[[Book], T]) -> Callable[[Book], T]:
    """Keep what a function finds with the book it found it in. What it gives must not be changed by anybody."""

    @wraps(work)
    def found(book: Book) -> T:
        kept = book.kept
        if work not in kept:
            kept[work] = work(book)
        return kept[work]  # type: ignore[no-any-return]

    return found
