"""What stands under the boxes of an owner's pages: one function a note, each silent where it has nothing to say.

First what must not be sent so, and what may be lacking; then what comes in and goes on, the single boxes, the choices.
"""

from __future__ import annotations

from collections.abc import Callable

from . import accounting, allowance, boxes, carried, missing
from .about import About

NOTES: tuple[Callable[[About], str], ...] = (
    *accounting.NOTES, *missing.NOTES, *carried.NOTES, *boxes.NOTES, *allowance.NOTES,
)  # fmt: skip


def notes(about: About) -> tuple[str, ...]:
    """All notes that have something to say, in order."""
    return (*about.pages.notes, *(said for note in NOTES if (said := note(about))))


__all__ = ["About", "notes"]
