"""Holds what was told elsewhere against the verdicts of a book: stage I. It warns, and never changes an answer.

Which work a statement touches is asked of stage B itself: the book is judged once more as if the home had been bought
in a poor state, and the sums that would then be part of the purchase are the ones at stake.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from functools import cached_property

from ..book.entries import Entry
from ..book.world import Book, Property
from ..problems import Level, Problem
from ..record import record
from .catalogue import catalogue
from .declared import Matter, Stake, Told, declares, told
from .engine import judge
from .history import History
from .near_purchase import WALLS, near_purchase, put_right, says_otherwise, touches
from .registry import rules_for
from .verdict import ALLOWED, Cgt, Fired, Kind, Part, Verdict
from .were_it_so import line_of_it, were_it_so

COMES_OFF = ALLOWED | {Kind.PENDING}
POOR = "not lettable"
MOST = 6  # lines marked in one doubt


@record
class Conflict:
    """Two things a book says that do not sit well together: what was told, and the sums it is held against.

    path: the rules that spoke, the one that raised it first. do, keep: what to write or ask, and what to put by.
    """

    level: Level
    told: Told
    items: tuple[Stake, ...]
    path: tuple[Fired, ...]
    do: tuple[str, ...]
    keep: tuple[str, ...]

    @property
    def rule(self) -> Fired:
        """The rule that raised it."""
        return self.path[0]

    @property
    def pence(self) -> int:
        """The sums in all."""
        return sum(item.pence for item in self.items)


def conflicts(book: Book, verdicts: Sequence[Verdict]) -> tuple[Conflict, ...]:
    """The conflicts of a book with its verdicts, in the order of what was told. Never changes a verdict.

    verdicts are those of `judge(book)`, in its order. A book that tells nothing of the kind costs a look at its lines.
    """
    return _conflicts(book, lambda: verdicts)


def doubts(book: Book) -> list[Problem]:
    """The conflicts of a book as problems, both places marked; it is judged only where something was told that may
    be held against it."""
    return [problem(found) for found in _conflicts(book, lambda: judge(book))]


def _conflicts(book: Book, verdicts: Callable[[], Sequence[Verdict]]) -> tuple[Conflict, ...]:
    if not declares(book):
        return ()
    history = History(book, catalogue())
    said = tuple(t for t in told(history) if near_purchase(history, t))
    if not said:
        return ()
    asked = _Asked(history, verdicts(), said)
    return tuple(found for t in said if (found := _compare(asked, asked.matter(t))))


# ── what is at stake ─────────────────────────────────────────────────────────────────────────────────────────────


class _Asked:
    """The verdicts of a book beside those it would have, had each home been bought as it was told."""

    def __init__(self, history: History, verdicts: Sequence[Verdict], said: tuple[Told, ...]) -> None:
        self.history, self.verdicts, self.said = history, verdicts, said

    def matter(self, t: Told) -> Matter:
        """What a rule sees of one thing that was told."""
        others = tuple(o for o in self.said if o is not t and o.house.name == t.house.name)
        repairs = () if t.word == "fit" else tuple(self._repairs(t))
        return Matter(t, repairs, tuple(self._purchase(t)), others, tuple(self._resting(t)))

    def _repairs(self, t: Told) -> Iterable[Stake]:
        first = self.history.lets.first_let(t.house.name)
        for now, then in zip(self.verdicts, self._poor, strict=True):
            line = now.item.line
            if line.kind != "works" or not _of(line, t) or not touches(self.history, line, t):
                continue
            let = first is not None and first < line.day.first
            if let and (not t.things or put_right(self.history, line, t)):
                continue
            walls = line.verb == "decorated" and not let and not WALLS.isdisjoint(t.things)
            yield from _stake(now, _claimed(now) if walls else _finishes(then))

    def _resting(self, t: Told) -> Iterable[Stake]:
        """What rests on the record that it could be let, where a claim that it could not was granted."""
        first = self.history.lets.first_let(t.house.name)
        if not t.won or t.word != "unfit" or not says_otherwise(self.history, t):
            return
        for now, then in zip(self.verdicts, self._poor, strict=True):
            line = now.item.line
            if line.kind == "works" and _of(line, t) and (first is None or line.day.first <= first):
                yield from _stake(now, _finishes(then))

    def _purchase(self, t: Told) -> Iterable[Stake]:
        for now in self.verdicts:
            pence = sum(part.amount for part in now.parts if part.kind is Kind.ACQUISITION)
            if any(fired.stage == "A" and fired.decided for fired in now.path):
                continue  # a survey is a cost of buying, whatever the state of the house
            if now.item.line.kind == "works" and pence > 0 and _of(now.item.line, t):
                yield Stake(now, pence)

    def then(self, m: Matter) -> str:
        """What would become of the sums held against a claim, were the book to say the same."""
        numbers = {id(verdict): number for number, verdict in enumerate(self.verdicts)}
        return were_it_so(self.history, m.told, [(numbers[id(stake.verdict)], stake) for stake in m.held])

    @cached_property
    def _poor(self) -> tuple[Verdict, ...]:
        """The verdicts, had every home something was told of been bought in a poor state."""
        book = self.history.book
        homes = {t.house.name: _as_told(t.house) for t in self.said}
        return judge(replace(book, properties={**book.properties, **homes}))


def _as_told(house: Property) -> Property:
    """A home as if it had been got in a poor state, and as if more may have been wrong with it than its block names."""
    state, price = (
        tuple(replace(line, only=False) for line in told) for told in (house.as_bought_told, house.price_told)
    )
    return replace(house, as_bought=POOR, as_bought_told=state, price_told=price)


def _stake(now: Verdict, finishes: int) -> Iterable[Stake]:
    """What of a sum comes off, or may, and would be part of the purchase; nothing where that is nothing."""
    pence = min(_claimed(now), finishes)
    if pence > 0:
        yield Stake(now, pence, any(part.kind is Kind.ARGUABLE for part in now.parts))


def _of(line: Entry, t: Told) -> bool:
    return any(share.house == t.house.name for share in line.homes)


def _claimed(v: Verdict) -> int:
    """Pence that come off the rents, may come off, or came off a return already."""
    if v.item.line.facts.returned is not None:
        return _comes_off(v.thought)
    return _comes_off(v.parts)


def _comes_off(parts: Iterable[Part]) -> int:
    return sum(p.amount for p in parts if p.kind in COMES_OFF or p.kind is Kind.ARGUABLE and p.category)


def _finishes(v: Verdict) -> int:
    """Pence that the rules would count as part of the purchase, whatever the landlord's own ruling; open ones too."""
    return sum(
        part.amount
        for part in v.thought or v.parts
        if part.kind is Kind.ACQUISITION or part.kind is Kind.ARGUABLE and part.cgt is Cgt.ACQUISITION
    )


# ── the outcome ──────────────────────────────────────────────────────────────────────────────────────────────────


def _compare(asked: _Asked, m: Matter) -> Conflict | None:
    """Ask the rules of stage I; nothing where none of them raises anything."""
    levels: list[Level] = []
    raised: list[Fired] = []
    beside: list[Fired] = []
    keep: list[str] = []
    for rule in rules_for("I", m.told.entry.verb):
        assert rule.compare is not None
        finding = rule.compare(m)
        if finding is None:
            continue
        (beside if finding.level is None else raised).append(rule.fired(finding))
        levels += [finding.level] if finding.level else []
        keep += rule.keep
    if not raised:
        return None
    level = Level.DOUBT if Level.DOUBT in levels else Level.NOTE
    items = m.purchase if m.told.word == "fit" else m.held
    return Conflict(level, m.told, items, (*raised, *beside), _to_do(asked, m), tuple(dict.fromkeys(keep)))


def _to_do(asked: _Asked, m: Matter) -> tuple[str, ...]:
    """What the landlord can write or ask, in words of the book where there are any."""
    name, line = m.told.house.name, line_of_it(m.told)
    shown = f'If a paper shows that {name} could be let as bought, write `as bought lettable, says "…"`'
    shown += " in place of what stands under the house" if m.told.house.as_bought else " under the house"
    if m.told.word == "fit":
        return (f"{shown}.",)
    do = []
    called = {thing.name for thing in m.told.entry.facts.called.things} if m.told.entry.facts.called else set()
    if m.told.house.as_bought == "not lettable" and called <= {f.name for f in m.told.house.as_bought_faults} != set():
        do.append("Your book says the same of the house; what is taken off beside it is judged by what was done.")
    elif m.told.house.as_bought == "not lettable":
        do.append(
            f"Your book says that {m.told.house.name} could not be let as bought; if what you told was part of that, "
            f"name it there too, as in `as bought not lettable owing to boiler and wiring`: then {asked.then(m)}."
        )
    elif not m.evidence and line:
        do.append(f"{shown}; if it could not, `{line}`: then {asked.then(m)}.")
    elif not m.evidence:
        do.append(
            f"If a paper shows that {name} could be let as bought, keep it: it is what answers this. If it could not, "
            f'{asked.then(m)}; rule so on the lines it is so for, with `, treat as purchase cost because "…"`: that '
            "answer is then your own."
        )
    if m.told.word == "unfit" and not m.told.things:
        do.append("If you spoke of some defects only, name them: `called it unfit owing to …`.")
    if m.told.caution:
        do.append(m.told.caution)
    do.append("Ask an adviser before the return goes in: the tax office may hold one against the other.")
    return tuple(do)


def problem(c: Conflict) -> Problem:
    """The conflict as a doubt or a note for `proof`, both places marked."""
    if c.told.word == "barred":
        return _problem("barred-when-bought", c)
    return _problem("said-unfit", c) if c.told.word == "unfit" else _problem("said-fit", c)


def _problem(code: str, c: Conflict) -> Problem:
    label = {"unfit": "called unfit here", "fit": "called fit here"}.get(c.told.word, "a bar on letting it")
    place = c.told.entry.facts.called.place if c.told.entry.facts.called else c.told.entry.place
    marks = [place.mark(label)]
    what = "part of what it cost" if c.told.word == "fit" else "taken off the rents"
    for item in c.items[:MOST]:
        said = "may come off the rents" if item.open else what
        marks.append(item.verdict.item.line.place.mark(said))
    over = len(c.items) - MOST
    lines = "1 more line is" if over == 1 else f"{over} more lines are"
    more = f" {lines} touched; `audit` shows them all." if over > 0 else ""
    return Problem(
        code,
        c.level,
        headline(c),
        tuple(marks),
        f"{c.do[0]}{more}",
        " ".join(f"{fired.says} ({fired.slug}: {fired.authority})" for fired in c.path if fired.decided),
    )


def headline(c: Conflict) -> str:
    """The conflict in one sentence that stands alone."""
    t = c.told
    if t.word == "barred":
        return f"{t.house.name}: a bar on letting it ({t.words}, {t.day}) stands beside work taken off the rents."
    held = "taking work on it off the rents" if t.word == "unfit" else "counting work on it as part of its price"
    return f'{t.house.name}: what you told {t.who} on {t.day} ("{t.words}") speaks against {held}.'
