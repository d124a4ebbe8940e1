"""The whole path of one item: each step in order, each rule asked in it, and what it said. Judges as the engine does.

Judging a book costs nothing more for this: the rules of one run are wrapped, all others are asked as they are.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from ..book.world import Book
from ..record import record
from .answer import Answer, Carved, Change, Outcome, Remark, Said
from .case import Case
from .catalogue import catalogue as whole_catalogue
from .engine import Judging
from .history import History
from .registry import Rule, rules_for
from .verdict import Verdict

STEPS = {
    "follow": "Does it go the way of another line?",
    "A": "Is it a cost of this letting, and of what sort?",
    "G": "Is it money coming in, or a thing that leaves?",
    "D": "Is it part of the house, or a loose item?",
    "split": "Is there a piece that has an answer of its own?",
    "E": "If it is a loose item: does it replace one?",
    "B": "Does it finish the purchase of the house?",
    "C": "Is it a repair of the house, or an improvement?",
    "F": "When does it count?",
    "H": "What came back for it, and what does it do for the gain when the house is sold?",
}


@record
class Asked:
    """A rule that was asked, and what it said; None where it had nothing to say."""

    rule: Rule
    said: Answer | Carved | Remark | Change | None

    @property
    def ends(self) -> bool:
        """Whether the answer was found here, so that no later step was asked."""
        return isinstance(self.said, Answer)


@record
class Look:
    """One look at an item: in one house, its thing taken by one nature ("" where it has none).

    after: whether it asked when the item counts and what it does for the gain, once the answer was found.
    """

    house: str
    nature: str
    after: bool
    asked: tuple[Asked, ...]


def path(book: Book, position: int) -> tuple[Verdict, tuple[Look, ...]]:
    """The verdict of one item, by its position among `items(book)`, and every look taken at it, in order.

    The last look asks when it counts and what it does for the gain; of a ruled item the last two do, without the ruling
    and with it. Looks within a rule, at the
    item as it might have been, are not told apart: what the rule said of them is.
    """
    heard = _Listening(position)
    verdict = Judging(History(book, whole_catalogue()), heard.rules).verdict(position)
    return verdict, heard.looks()


# A rule with nothing to look at is told as well, as one that had nothing to say.
ANY: dict[str, Any] = {"told": frozenset(), "of": frozenset(), "unlet": False}


class _Listening:
    """Hears every rule asked about one item, outside any other rule about it."""

    def __init__(self, position: int) -> None:
        self.position = position
        self._inside = False
        self._heard: list[tuple[str, str, bool, list[Asked]]] = []

    def rules(self, step: str, verb: str) -> tuple[Rule, ...]:
        """The rules of a step, each telling here what it says."""
        return tuple(self._ask(rule) if rule.ask else self._change(rule) for rule in rules_for(step, verb))

    def looks(self) -> tuple[Look, ...]:
        """All looks taken so far."""
        return tuple(Look(house, nature, after, tuple(asked)) for house, nature, after, asked in self._heard)

    def _ask(self, rule: Rule) -> Rule:
        assert rule.ask is not None
        ask = rule.ask

        def heard(case: Case) -> Said:
            if self._inside or case.position != self.position:
                return ask(case) if rule.looks_at(case.told) else None
            self._inside = True
            said = ask(case) if rule.looks_at(case.told) else None
            self._inside = False
            self._note(case, False, Asked(rule, said))
            return said

        return replace(rule, ask=heard, **ANY)

    def _change(self, rule: Rule) -> Rule:
        assert rule.change is not None
        change = rule.change

        def looks(case: Case, outcome: Outcome) -> bool:
            return rule.looks_at(case.told, outcome.kinds, case.let)

        def heard(case: Case, outcome: Outcome) -> Change | None:
            if self._inside or case.position != self.position:
                return change(case, outcome) if looks(case, outcome) else None
            self._inside = True
            said = change(case, outcome) if looks(case, outcome) else None
            self._inside = False
            self._note(case, True, Asked(rule, said))
            return said

        return replace(rule, change=heard, **ANY)

    def _note(self, case: Case, after: bool, asked: Asked) -> None:
        """Add to the look going on; another one begins with another house or nature, once the answer is found, and
        where a ruling makes the same rules of date and gain be asked once more."""
        key = (case.house, case.nature, after)
        again = after and self._heard and any(asked.rule.slug == before.rule.slug for before in self._heard[-1][3])
        if not self._heard or self._heard[-1][:3] != key or again:
            self._heard.append((*key, []))
        self._heard[-1][3].append(asked)
