"""Judges a book: one verdict for each money item, with the path of rules that led to it. Holds no rule itself.

For a line of works the steps are: does it follow another line, is it a cost of the letting, money in, fixture or
loose item, pieces to carve off, loose items, the purchase, the building; then date and gains. Money lines need fewer.
"""

from __future__ import annotations

from collections.abc import Callable

from ..book.entries import Thing
from ..book.world import Book
from . import rules as _rules
from .answer import Answer, Carved, Change, Outcome, Said, tidy
from .case import Case, told_by
from .catalogue import UNKNOWN, Catalogue
from .catalogue import catalogue as whole_catalogue
from .cautions import caution
from .closing import copied, returned, take, verdict_of
from .doubtful import both_ways, either_nature
from .history import History
from .offers import treat_as
from .registry import Rule, hear, own_rule, rules_for
from .ruled import besides, ruled
from .told import as_it_was, nature_of
from .verdict import ALLOWED, Confidence, Kind, Part, Verdict

assert _rules

LONGEST_CHAIN = 50  # of lines that follow each other: no book of anybody's has as many, and Python's stack has an end
WORKS: tuple[str, ...] = ("follow", "A", "G", "D", "split", "E", "B", "C")
MONEY: tuple[str, ...] = ("follow", "split", "A", "G")
Ask = Callable[[Case], Said]
MOVES_IN = frozenset({"received", "kept", "sold", "scrapped", "took home", "recharged", "banked"})


def judge(book: Book, catalogue: Catalogue | None = None) -> tuple[Verdict, ...]:
    """One verdict for each item of `items(book)`, in its order; the same book always gives the same verdicts.

    Parts add up to the item's amount to the penny; so do those of `other`. Trips are the exception: they have no
    amount, and their parts add up to the mileage allowance. Where an answer is open the part is arguable, with the
    category of the favourable answer and the gains side of the cautious one; `other` is the favourable answer in
    full, `answers` says both in words, and `ask` holds what to add: facts of the line begin with a comma or a
    blank, everything else is a line of a block or words to write instead (see `offers`). Capital parts always count
    on the day of the line; `when` is the day of what comes off.
    """
    return judge_all(History(book, catalogue or whole_catalogue()))


def judge_all(history: History) -> tuple[Verdict, ...]:
    """The verdicts of a book (see `judge`) by a history of it that has been made already."""
    judging = Judging(history)
    return tuple(judging.verdict(position) for position in range(len(history.items)))


class Judging:
    """One run over one book: answers are found when first asked for, and kept.

    `rules` gives the rules of a step for a verb; whoever wants to hear each rule asked brings its own (see `path`).
    """

    def __init__(self, history: History, rules: Callable[[str, str], tuple[Rule, ...]] = rules_for) -> None:
        self.history = history
        self._rules = rules
        self._steps: dict[tuple[str, str, str, frozenset[str]], tuple[tuple[Rule, Ask], ...]] = {}
        self._later: dict[tuple[str, frozenset[str], frozenset[Kind], bool], tuple[tuple[int, Rule], ...]] = {}
        self._found: dict[int, Outcome | None] = {}
        self._first: dict[int, Case] = {}
        self._turn: dict[int, int] = {}  # when an item was first asked for
        self._back: dict[int, int] = {}  # the earliest turn that asking for it came back to
        self._asking: list[int] = []  # one asks the next
        self._waiting: list[int] = []  # asked for, and not yet known to be free of circles

    # ── verdicts ─────────────────────────────────────────────────────────────────────────────────────────────

    def verdict(self, position: int) -> Verdict:
        """The verdict of one item, by its position."""
        item = self.history.items[position]
        found, ruling = self.outcome(position), self.history.ruling(position)
        assert found is not None
        homes = item.line.homes or item.head.homes
        begins = self.history.lets.begins_for(homes[0].house, item.line.day.first) if homes else None
        cautions = self._cautions(self._first[position])
        without: Verdict | None = None
        if ruling is not None:
            without = verdict_of(item, self._with_date(position, found), cautions, begins)
        outcome = self.settled(position)
        assert outcome is not None
        if item.line.facts.returned is not None:
            without = without or verdict_of(item, outcome, cautions, begins)
            outcome = copied(outcome)
            returned(outcome, str(item.line.facts.returned))
        own = ""
        if ruling is not None:
            other = besides(outcome.apart, ruling.verdict)
            at = "" if ruling is item.line.facts.ruling else f" (ruled on at {ruling.place.short})"
            own = f"{ruling.verdict}, because {ruling.because}{at}{'.' * bool(other)}{other}"
        return verdict_of(item, outcome, cautions, begins, own, without)

    def case(self, position: int) -> Case:
        """The case of an item in its first house, once its answer has been asked for."""
        return self._first[position]

    def _cautions(self, case: Case) -> tuple[str, ...]:
        if case.line.kind != "works":
            return ()
        things = (case.thing, case.became) if case.became else (case.thing,)
        return tuple(dict.fromkeys(caution(t.caution) for t in things if t is not None and t.caution))

    # ── answers ──────────────────────────────────────────────────────────────────────────────────────────────

    def outcome(self, position: int) -> Outcome | None:
        """The answer for one item before date and gains; None while it is being found (a circle of links).

        Items that follow each other in a circle each get the answer they would have if they named none of the others,
        whichever is asked first. The circles are found as Tarjan (1972) finds strongly connected components.
        """
        if position in self._found:
            return self._found[position]
        if position in self._turn:
            self._came_back(self._turn[position])
            return None
        if len(self._asking) == LONGEST_CHAIN:
            return None
        self._turn[position] = self._back[position] = len(self._turn)
        self._asking.append(position)
        self._waiting.append(position)
        found = self._all_houses(position)
        self._asking.pop()
        if self._back[position] < self._turn[position]:
            self._came_back(self._back[position])
            return found
        at = self._waiting.index(position)
        circle, self._waiting = self._waiting[at:], self._waiting[:at]
        if len(circle) == 1:
            self._found[position] = found
        else:
            self._found |= dict.fromkeys(circle)
            self._found |= {member: self._all_houses(member) for member in circle}
        return self._found[position]

    def _came_back(self, turn: int) -> None:
        """Note on the item that asks that it hangs on one that was asked for at this turn."""
        if self._asking:
            self._back[self._asking[-1]] = min(self._back[self._asking[-1]], turn)

    def _all_houses(self, position: int) -> Outcome:
        """The answer for one item in all its houses."""
        cases = self._cases(position)
        self._first[position] = cases[0]
        found = self.judged(cases[0])
        for case in cases[1:]:
            found = _houses_agree(found, self.judged(case))
        return found

    def answered(self, position: int) -> Outcome | None:
        """The answer for one item as others follow it: the landlord's own ruling, else what the rules found."""
        outcome, ruling = self.outcome(position), self.history.ruling(position)
        if outcome is None or ruling is None:
            return outcome
        return ruled(self._first[position], outcome, ruling)

    def settled(self, position: int) -> Outcome | None:
        """The answer for one item with date and gains; None where it is still being found."""
        found = self.answered(position)
        if found is None:
            return None
        outcome = self._with_date(position, found)
        if self.history.ruling(position) is not None:
            outcome = copied(outcome)
            outcome.cautious, outcome.third, outcome.ask, outcome.follows = (), (), (), ()  # what is ruled is not open
        return outcome

    def _with_date(self, position: int, found: Outcome) -> Outcome:
        """An answer found for one item, with what date and gains make of it; the very same where they change nothing.

        Which rules look at an answer hangs on the kinds in it, and so is found again after each change.
        """
        outcome, case, first = found, self._first[position], 0
        while (changed := self._changed(case, outcome, first)) is not None:
            outcome = copied(outcome)
            number, rule, change = changed
            take(rule, change, outcome)
            first = number + 1
        return outcome

    def judged(self, case: Case) -> Outcome:
        """The answer for a case, or a variant of one: a thing of doubtful nature is looked at both ways."""
        if both_ways(case) and not case.since:
            fixed = "fixture" if case.nature == "domestic" else case.nature
            return either_nature(case, *(self._run(case.but(nature=n)) for n in (fixed, "domestic")))
        return self._run(case)

    def _cases(self, position: int) -> list[Case]:
        """The case of an item in each of its houses, or one without a house."""
        item = self.history.items[position]
        line, known = as_it_was(item.line), self.history.known
        thing = self.history.thing_of(line)
        swapped = line.becomes.things if line.becomes else ()
        became = known(swapped[0].name, line.verb) if swapped else None
        amount = self.history.miles.get(position, 0) if line.kind == "trip" else item.amount
        first = Case(
            self.history,
            position,
            line,
            line.homes[0].house if line.homes else "",
            amount,
            thing,
            None if became is UNKNOWN else became,
            nature_of(line, thing, became),
            self.answered,
            self.settled,
            self.judged,
            verb=line.verb,
            facts=line.facts,
            day=line.day.first,
            place=self.history.book.properties.get(line.homes[0].house) if line.homes else None,
            told=told_by(line.facts),
        )
        if line.kind != "works":
            return [first]
        return [first, *(first.but(house=home.house) for home in line.homes[1:])]

    def _asks(self, kind: str, since: str, verb: str, told: frozenset[str]) -> tuple[tuple[Rule, Ask], ...]:
        """The rules that look for an answer, from a step on, with what they ask; the first that has one ends them."""
        found = self._steps.get((kind, since, verb, told))
        if found is None:
            steps = WORKS if kind == "works" else MONEY
            steps = steps[steps.index(since) if since else 0 :]
            rules = [rule for step in steps for rule in self._rules(step, verb) if rule.looks_at(told)]
            found = self._steps[kind, since, verb, told] = tuple((rule, rule.ask) for rule in rules if rule.ask)
        return found

    def _changed(self, case: Case, outcome: Outcome, first: int) -> tuple[int, Rule, Change] | None:
        """Ask the rules that change an answer, from a number on, until one does."""
        for number, rule in self._changes(case.verb, case.told, outcome.kinds, case.let):
            if number < first:
                continue
            assert rule.change is not None
            change = rule.change(case, outcome)
            if change is not None:
                return number, rule, change
        return None

    def _changes(
        self, verb: str, told: frozenset[str], kinds: frozenset[Kind], let: bool
    ) -> tuple[tuple[int, Rule], ...]:
        """The rules that look at such an answer to change it, each with its number among all."""
        found = self._later.get((verb, told, kinds, let))
        if found is None:
            rules = enumerate(rule for step in ("F", "H") for rule in self._rules(step, verb))
            found = tuple((number, rule) for number, rule in rules if rule.looks_at(told, kinds, let))
            self._later[verb, told, kinds, let] = found
        return found

    def _run(self, case: Case) -> Outcome:
        outcome = Outcome((), case.day, position=case.position)
        carved: tuple[Part, ...] = ()
        doubted: tuple[Part, ...] = ()
        ask: tuple[str, ...] = ()
        open_ = False
        for rule, ask_it in self._asks(case.line.kind, case.since, case.verb, case.told):
            said = ask_it(case)
            if said is None:
                continue
            hear(outcome, rule, said)
            if isinstance(said, Carved):
                carved += said.parts
                outcome.apart += said.apart
                doubted += said.cautious or said.parts
                ask, open_ = (*ask, *said.ask), open_ or bool(said.cautious)
                case = case.but(amount=case.amount - sum(part.amount for part in said.parts))
            elif isinstance(said, Answer):
                return _closed(outcome, said, carved, doubted if open_ else carved, ask)
        said = _nothing_decides(case)
        hear(outcome, LAST, said)
        return _closed(outcome, said, carved, doubted if open_ else carved, ask)


APART = own_rule(
    "B",
    "houses-differ",
    "common practice",
    Confidence.ARGUABLE,
    "practice",
    "Houses that share a line have different histories, and so different answers.",
    flips=("each house has a line of its own",),
    keep=("a bill that names the houses",),
)


def _houses_agree(one: Outcome, two: Outcome) -> Outcome:
    """One answer for a line shared by houses; open where their histories give different ones."""
    if one.parts == two.parts and one.cautious == two.cautious:
        return one
    best, worst = (one, two) if _given(one) >= _given(two) else (two, one)
    hear(
        best,
        APART,
        Answer(
            best.parts,
            "The houses that share this line have different histories, and so different "
            "answers; write a line for each.",
            cautious=worst.cautious or worst.parts,
        ),
    )
    best.cautious = worst.cautious or worst.parts
    best.ask = ()
    return best


def _given(outcome: Outcome) -> int:
    return sum(part.amount for part in outcome.parts if part.kind in ALLOWED)


LAST = own_rule(
    "C",
    "nothing-decides",
    "common practice",
    Confidence.ARGUABLE,
    "practice",
    "The book does not say enough about the sum for any rule to speak.",
    flips=("you say what it was for",),
    keep=("the bill",),
)


def _nothing_decides(case: Case) -> Answer:
    """No rule spoke: both answers, and a wish to know more."""
    third: tuple[Part, ...] = ()
    if case.verb in MOVES_IN:
        best, worst = case.all(Kind.CAPITAL_RECEIPT), case.all(Kind.INCOME, "other_income")
    elif case.line.kind == "works":
        best, worst = case.repair, case.improvement
    else:
        best, worst, third = case.running, case.no_relief, case.all(Kind.PRIVATE)
    unknown = case.line.things[0] if case.line.things and not case.known else None
    meant = _with_its_name(case, unknown) if unknown else ""
    ask: tuple[str, ...] = (meant or f"thing {case.line.thing} is service",) if unknown else ()
    if third and case.line.kind == "money" and not case.line.purpose:
        ask = (*(ask or treat_as(best, worst)), " for private")
    says = "Your book does not say enough about this sum to decide what it was."
    return Answer(best, says, cautious=worst, ask=ask, third=third)


def _with_its_name(case: Case, unknown: Thing) -> str:
    """The line with a name of the book put where it belongs, where one stands for what the sum was for."""
    from ..book.names_told import kinds_in, told  # few books have such a line

    found = told(case.line, unknown, kinds_in(case.history.book))
    return found.fix.text if found and found.fix else ""


def _closed(
    outcome: Outcome, said: Answer, carved: tuple[Part, ...], doubted: tuple[Part, ...], ask: tuple[str, ...]
) -> Outcome:
    """The outcome with its answer and the pieces carved off before; open where either is."""
    outcome.parts = tidy((*said.parts, *carved))
    if said.cautious or doubted != carved:
        outcome.cautious = tidy((*(said.cautious or said.parts), *doubted))
        outcome.third = tidy((*said.third, *doubted)) if said.third else ()
    outcome.ask, outcome.follows = (*said.ask, *ask), said.follows
    outcome.apart += said.apart
    return outcome
