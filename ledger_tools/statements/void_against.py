"""What a letter to the council would say against what the book tells the tax office. Sends nothing, changes nothing."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ..book.entries import Day, Entry, Share, Thing, Who
from ..book.world import Book
from ..verdicts.conflicts import Conflict, conflicts
from ..verdicts.engine import judge
from .void_letter import Letter
from .void_parts import Void


def against(book: Book, made: Void, found: Letter) -> tuple[Conflict, ...]:
    """The conflicts that a claim of major works made to the council on this day would raise, were it in the book; none
    where the letter asks for nothing of the kind."""
    if not found.works:
        return ()
    place = book.properties[made.house].place
    claim = Entry(
        place, Day(made.on, made.on), "answer", "claimed", things=(Thing("works discount", place),),
        who=Who("from", made.council, made.council_full, place), homes=(Share(made.house, Fraction(1)),),
    )  # fmt: skip
    entries = sorted([*book.entries, claim], key=lambda e: (e.day.first, e.place.file, e.place.line))
    tried = replace(book, entries=tuple(entries))
    return tuple(c for c in conflicts(tried, judge(tried)) if c.told.entry is claim)
