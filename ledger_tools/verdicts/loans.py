"""What each loan of a book was spent on, as its advances tell: on the letting, on private things, or nobody knows.

Knows no rule and no rate; the rules ask it how the loan behind a payment had been used by its day.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from ..book.entries import Entry
from ..book.world import Book
from .catalogue import Thing


@dataclass(frozen=True, slots=True)
class Use:
    """Pence of a loan spent on the letting, on private things, and on nothing told."""

    letting: int = 0
    private: int = 0
    untold: int = 0

    def __add__(self, other: Use) -> Use:
        return Use(self.letting + other.letting, self.private + other.private, self.untold + other.untold)


class Loans:
    """The advances of a book, by loan and day. Never changes after it is made."""

    def __init__(self, book: Book, known: Callable[[str, str], Thing]) -> None:
        """known gives the catalogue's thing for words after a verb."""
        self._loans = book.loans
        self._known = known
        advances: dict[str, list[tuple[date, Use]]] = defaultdict(list)
        self._untold: dict[str, list[tuple[Entry, int]]] = defaultdict(list)
        for entry in book.entries:
            if entry.verb == "borrowed" and entry.amount:
                use = self.spent(entry)
                advances[self.of(entry)].append((entry.day.first, use))
                if use.untold:
                    self._untold[self.of(entry)].append((entry, use.untold))
        for loan in book.loans.values():
            told = advances[loan.name]
            # A book that starts in mid-life tells what was owed, not what it was for: taken as borrowed to let.
            owed = [(day, Use(letting=pence)) for day, pence in loan.owed[:1]]
            advances[loan.name] = owed + told if owed and not (told and told[0][0] <= owed[0][0]) else told
        self._days = {name: [day for day, _ in found] for name, found in advances.items()}
        self._uses = {name: _so_far([use for _, use in found]) for name, found in advances.items()}

    def of(self, line: Entry) -> str:
        """The name of the loan a line is about: told, or the only one of that lender or house; else the lender's."""
        who = (line.who.name or line.who.full) if line.who else ""
        if who in self._loans:
            return who
        lent = [loan for loan in self._loans.values() if not who or loan.lender == who]
        here = [loan for loan in lent if loan.house in {share.house for share in line.homes}]
        if len(here) == 1:
            return here[0].name
        return lent[0].name if who and len(lent) == 1 else who

    def interest_only(self, line: Entry) -> bool:
        """Whether the loan of a line is told to be interest only."""
        loan = self._loans.get(self.of(line))
        return loan is not None and loan.kind == "interest only"

    def use(self, line: Entry) -> Use:
        """What the loan of a line had been spent on before its day; nothing where no advance of it is told by then."""
        name = self.of(line)
        before = bisect_left(self._days.get(name, []), line.day.first)
        return self._uses[name][before - 1] if before else Use()

    def untold(self, line: Entry) -> list[tuple[Entry, int]]:
        """The advances before the day of a line whose use is not told, each with the pence that are not."""
        return [(e, pence) for e, pence in self._untold[self.of(line)] if e.day.first < line.day.first]

    def spent(self, entry: Entry) -> Use:
        """What one advance was spent on: its own lines first, the rest as its purpose says."""
        found, left = Use(), entry.amount or 0
        for line in entry.lines:
            size = min(line.amount or 0, left) if line.kind == "spent" else 0
            left -= size
            found += Use(private=size) if self._private(line.thing) else Use(letting=size)
        if not entry.purpose:
            return found + Use(untold=left)
        return found + (Use(private=left) if self._private(entry.purpose) else Use(letting=left))

    def _private(self, words: str) -> bool:
        return self._known(words, "paid").kind == "private"


def _so_far(uses: list[Use]) -> list[Use]:
    """The running sums."""
    found, total = [], Use()
    for use in uses:
        total += use
        found.append(total)
    return found
