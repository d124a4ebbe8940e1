"""What each loan of a book was spent on, as its advances tell: on the letting, on private things, or nobody knows.

What is paid back makes the loan smaller, so that money borrowed again counts by what it is spent on then. Of a payment
whose interest is not told, what goes beyond all interest that can have grown is paid back too. Knows no rule, and no
rate but the book's; the rules ask it how the loan behind a payment stood on its day.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Callable
from dataclasses import replace
from datetime import date

from ..book.entries import Entry
from ..book.world import Book
from ..money import share
from ..record import record
from .catalogue import Thing
from .interest_grown import Grown, grown

PAYS = frozenset({"paid", "repaid", "charged"})


@record
class Use:
    """Pence of a loan spent on the letting, on private things, and on nothing told."""

    letting: int = 0
    private: int = 0
    untold: int = 0

    def __add__(self, other: Use) -> Use:
        return Use(self.letting + other.letting, self.private + other.private, self.untold + other.untold)

    @property
    def total(self) -> int:
        """What of the loan is outstanding, in pence."""
        return self.letting + self.private + self.untold

    def less(self, pence: int) -> Use:
        """What is left when so much is paid back: of each use in proportion, as a single loan bears one interest.

        No source read says which use a payment pays off first; in proportion the shares stay as they were.
        """
        left = max(self.total - max(pence, 0), 0)
        return Use(*share(left, [self.letting, self.private, self.untold])) if left else Use()


class Loans:
    """The advances and repayments of a book, by loan and day. Never changes after it is made."""

    def __init__(self, book: Book, known: Callable[[str, str], Thing]) -> None:
        """known gives the catalogue's thing for words after a verb."""
        self._loans = book.loans
        self._known = known
        self._most: dict[int, Grown] = {}  # by the id of a line
        told: dict[str, list[_Move]] = defaultdict(list)
        self._untold: dict[str, list[tuple[Entry, int]]] = defaultdict(list)
        for entry in book.entries:
            name = self.of(entry)
            if entry.verb == "borrowed" and entry.amount:
                use = self.spent(entry)
                told[name].append(_Move(entry.day.first, came=use))
                if use.untold:
                    self._untold[name].append((entry, use.untold))
            for line in (entry, *entry.lines):
                if line.verb not in PAYS and not line.facts.of_which:
                    continue
                back, interest = self._paid_back(line), self._interest(line)
                mixed = line if self._mixed(line) else None
                if back or interest or mixed:
                    move = _Move(entry.day.first, back=back, interest=interest, mixed=mixed)
                    told[self.of(line) or name].append(move)
        for loan in book.loans.values():
            told[loan.name] += [_Move(day, owed=pence) for day, pence in loan.owed]
        self._days: dict[str, list[date]] = {}
        self._uses: dict[str, list[Use]] = {}
        for name, moves in told.items():
            moves.sort(key=lambda move: (move.day, move.mixed is not None))  # what is told apart that day comes first
            found = self._so_far(name, moves)
            self._days[name], self._uses[name] = [day for day, _ in found], [use for _, use in found]

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

    def most_interest(self, line: Entry) -> Grown | None:
        """The most that can be interest in a payment of which that is not told; None where the book has no rate of the
        loan, or does not tell what was owed."""
        return self._most.get(id(line))

    def use(self, line: Entry) -> Use:
        """What the loan of a line had been spent on before its day; nothing where no advance of it is told by then."""
        name = self.of(line)
        before = bisect_left(self._days.get(name, []), line.day.first)
        return self._uses[name][before - 1] if before else Use()

    def stood(self, name: str, day: date) -> Use | None:
        """How much of a loan was outstanding at the end of a day, by use; None where the book does not tell."""
        before = bisect_right(self._days.get(name, []), day)
        return self._uses[name][before - 1] if before else None

    def untold(self, line: Entry) -> list[tuple[Entry, int]]:
        """The advances before the day of a line whose use is not told, each with the pence that are not."""
        return [(e, pence) for e, pence in self._untold[self.of(line)] if e.day.first < line.day.first]

    def _paid_back(self, line: Entry) -> int:
        """The pence of a loan that a line pays back; nil where it tells none, as of a payment with interest in it."""
        inside = {self._known(x.what, "paid").name: x.amount for x in line.facts.of_which}
        if "loan capital" in inside:
            return inside["loan capital"]
        thing = self._known(line.thing, "paid").name if line.thing else ""
        if line.verb == "repaid" and not line.thing or line.verb in ("paid", "repaid") and thing == "loan capital":
            return line.total - inside.get("mortgage interest", 0)
        if thing == "mortgage payment" and "mortgage interest" in inside:
            return line.total - inside["mortgage interest"]
        return 0

    def _interest(self, line: Entry) -> int:
        """The pence of interest that a line tells, alone or inside a payment."""
        inside = sum(x.amount for x in line.facts.of_which if self._known(x.what, "paid").name == "mortgage interest")
        alone = line.verb in PAYS and self._sum_of(line) == "mortgage interest"
        return inside or (line.total if alone else 0)

    def _mixed(self, line: Entry) -> bool:
        """Whether a line pays interest and capital in one sum, and tells neither."""
        inside = {self._known(x.what, "paid").name for x in line.facts.of_which}
        told = not inside.isdisjoint(("mortgage interest", "loan capital"))
        return line.verb in PAYS and self._sum_of(line) == "mortgage payment" and not told

    def _sum_of(self, line: Entry) -> str:
        return self._known(line.thing, "paid").name if line.thing else ""

    def _so_far(self, name: str, moves: list[_Move]) -> list[tuple[date, Use]]:
        """How the loan stood after each move that changed it, with its day.

        A book that starts in mid-life tells what was owed, not what it was for: taken as borrowed to let. Where more is
        known, less owed than that means that the rest was paid back; more (interest not yet paid) changes nothing.
        """
        found: list[tuple[date, Use]] = []
        now, time = Use(), _Time()
        for move in moves:
            back = move.back
            if move.interest:
                time = time.paid(move.day, move.interest, now.total)
            if move.mixed is not None:
                most = self._grown(name, time, move.day)
                if most is not None:
                    self._most[id(move.mixed)] = most
                    back = max(0, move.mixed.total - most.pence)
                time = _Time(move.day)
            now = (now + move.came).less(back)
            if move.owed >= 0:
                now = now.less(now.total - move.owed) if now.total else Use(letting=move.owed)
            time = time.owes(move.day, now.total)
            if move.came.total or back or move.owed >= 0:
                found.append((move.day, now))
        return found

    def _grown(self, name: str, time: _Time, day: date) -> Grown | None:
        loan = self._loans.get(name)
        if loan is None or loan.kind == "interest only":
            return None
        if time.before is not None and time.since == day:
            return grown(loan.rates, *time.before, day, time.apart)
        return grown(loan.rates, time.since, time.most, day, 0) if time.since else None

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


@record
class _Move:
    """What changed on a day: what was lent, what went back, or the pence told to be owed at its end (-1: not told).

    interest: what was told as paid of it; mixed: a line that pays interest and capital in one sum.
    """

    day: date
    came: Use = Use()
    back: int = 0
    owed: int = -1
    interest: int = 0
    mixed: Entry | None = None


@record
class _Time:
    """A time over which interest grows: since the last that was paid, with the most that was owed in it.

    before: the time that ended on that day, of whose interest `apart` was told by itself.
    """

    since: date | None = None
    most: int = 0
    apart: int = 0
    before: tuple[date, int] | None = None

    def owes(self, day: date, pence: int) -> _Time:
        """The same with so much owed from a day on."""
        return replace(self, since=self.since or (day if pence else None), most=max(self.most, pence))

    def paid(self, day: date, interest: int, owed: int) -> _Time:
        """The time that begins on a day when interest was paid by itself."""
        if self.since is None or day == self.since:
            return replace(self, apart=self.apart + interest)
        return _Time(day, owed, interest, (self.since, self.most))
