"""Work not done yet: what each way of doing it would come to, by the same rules that judge what was done.

Every choice is a line of the book told in another way and judged in the book as it stands. Recommends nothing; knows
no layout.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date, timedelta

from ..book.entries import Entry
from ..book.trial import Trial, Tried
from ..days import TaxYear
from ..record import record
from ..verdicts.answer import Outcome
from ..verdicts.catalogue import catalogue
from ..verdicts.closing import in_words
from ..verdicts.engine import Judging
from ..verdicts.history import History
from ..verdicts.told import WORN, as_it_was, nature_of
from ..verdicts.verdict import ALLOWED, Cgt, Confidence, Fired, Kind, Part, Verdict
from .checked import checked_shortly

ASKABLE = frozenset({"works", "money"})
BRINGS_MONEY = frozenset({"received", "kept", "sold", "scrapped", "took home", "recharged", "borrowed", "banked"})
DAY = timedelta(days=1)
AFTER = "after the first let"


class NotAskable(Exception):
    """What was typed is nothing that has a verdict; its text says why and what to type instead."""


@record
class Sums:
    """Where the pence of one answer go; the four add up to what the line comes to."""

    off: int  # comes off the rents, or off the tax of the letting
    waits: int  # comes off once the house is let
    sale: int  # counts when the house is sold
    nothing: int  # counts nowhere


@record
class Answered:
    """One answer for one choice: its parts, the same in plain words, and where the pence go."""

    parts: tuple[Part, ...]
    words: str
    sums: Sums


@record
class Choice:
    """One way of doing it. `answers` holds two or three where the answer is open, the favourable one first.

    done: the day it would be done; counts: the day from which it comes off, None where nothing does. Of a let that is
    only supposed neither is known: `supposed` is set.
    """

    label: str
    line: str  # to paste, DAY in place of the day
    done: date
    supposed: bool
    verdict: Verdict
    answers: tuple[Answered, ...]
    counts: date | None
    reason: Fired
    timing: Fired | None  # why it counts on another day, or not yet
    same: tuple[tuple[str, Confidence], ...] = ()  # other choices with this answer, and how sure theirs is

    @property
    def year(self) -> TaxYear | None:
        """The tax year in which it comes off."""
        return None if self.counts is None or self.supposed else TaxYear.of(self.counts)


@record
class Consideration:
    """What was typed, and every choice that makes a difference; the first is the line as typed, done on its day."""

    house: str
    what: str
    amount: int
    day: date
    first_let: date | None
    choices: tuple[Choice, ...]
    notes: tuple[str, ...]
    keep: tuple[str, ...]
    cautions: tuple[str, ...]
    checked: str


@record
class How:
    """A way of doing it: the line with this verb and these facts, without what speaks of another way."""

    label: str
    verb: str = ""
    add: tuple[str, ...] = ()
    without: tuple[str, ...] = ()


AT_WORK = frozenset({"height"})  # cautions for whoever does the work, not for whoever lives there
OLDER = WORN | {"used by tenant"}
COMPARED = ("compared", "same_again")
NEVER_THERE = ("none before", "missing when bought")
AGAIN = (*COMPARED, *NEVER_THERE)
OLD = (*COMPARED, "old_one", "part_exchange", "was_there", *sorted(WORN))
FIRST = How("the first one here", "installed", ("none before",), OLD)
MENDED = How("the old one mended", "repaired", (), (*AGAIN, "old_one", "part_exchange", "swap"))
LIKE = How("like for like", "replaced", ("like for like",), AGAIN)
MODERN = How("modern equivalent", "replaced", ("modern equivalent",), AGAIN)
BETTER = How("better", "replaced", ("better",), AGAIN)
MORE = How("does more", "replaced", ("does more",), AGAIN)
BETTER_LOOSE = How("better", "replaced", ("better",), ("compared", *NEVER_THERE))  # keeps the price of an equal one
LOOKS = (How("built in", add=("built in",)), How("loose", add=("loose",)))


def consider(trial: Trial, tried: Tried) -> Consideration:
    """What a tried line comes to, and the choices about it that differ in answer, amount or tax year.

    NotAskable where the line is no work or cost with a sum.
    """
    entry = tried.entry
    if entry is None or entry.kind not in ASKABLE or entry.verb in BRINGS_MONEY:
        raise NotAskable("Type a piece of work or a cost, such as: replace boiler in kitchen £2,400, like for like")
    if not entry.total:
        raise NotAskable("Say what it would cost, with its pound sign, such as £2,400.")
    house = entry.homes[0].house if len(entry.homes) == 1 else ""
    judging = Judging(History(tried.book, catalogue()))
    first = _choice("as typed", tried, house, judging)
    every = [first]
    if entry.kind == "works":
        every += _after_the_first_let(trial, tried, house, judging.history, first.verdict)
        every += _choices_of_how(trial, tried, house, judging.history, first.verdict)
    choices = _that_differ(every)
    what = " ".join(w for w in (entry.verb, entry.thing) if w)
    return Consideration(
        house, what, first.verdict.item.amount, entry.day.first, judging.history.lets.first_let(house), choices,
        _notes(tried, house, choices, judging.history),
        _all(c.verdict.keep for c in every), _all(c.verdict.cautions for c in every),
        checked_shortly(),
    )  # fmt: skip


# ── the choices ──────────────────────────────────────────────────────────────────────────────────────────────────


def _after_the_first_let(
    trial: Trial, tried: Tried, house: str, history: History, verdict: Verdict
) -> Iterator[Choice]:
    """The line as typed, the day after the first let of the house begins: told in the book, or else supposed.

    On the first day itself the house was not let before, so that would be no other case. Never of work on which the
    safety of whoever moves in hangs. A fault of today is older than the let, so where the purchase is in question it
    is not told then as one that came since.
    """
    assert tried.entry is not None
    day, first = tried.entry.day.first, history.lets.first_let(house)
    if not house or first is not None and first < day or _keeps_safe(tried.entry, history):
        return
    begins = first or day
    bought_with_it = any(fired.stage == "B" and fired.decided for fired in verdict.path)
    without = tuple(sorted(OLDER)) if bought_with_it else ()
    again = trial.again(tried, house, without=without, day=begins + DAY, let_from=None if first else begins)
    label = AFTER if first else "once it is let"
    yield _choice(label, again, house, supposed=first is None)


def _keeps_safe(line: Entry, history: History) -> bool:
    """Whether the safety of whoever lives there hangs on the thing: gas, wiring, structure and the like."""
    swapped = line.becomes.things if line.becomes else ()
    known = (history.known(thing.name, line.verb) for thing in (*line.things, *swapped))
    return any(thing.caution and thing.caution not in AT_WORK for thing in known)


def _choices_of_how(trial: Trial, tried: Tried, house: str, history: History, verdict: Verdict) -> Iterator[Choice]:
    assert tried.entry is not None
    texts = {tried.text}
    for how in _hows(as_it_was(tried.entry), history, verdict):
        verb = "" if how.verb == "replaced" and tried.entry.verb == "rebuilt" else how.verb
        again = trial.again(tried, house, verb, how.add, how.without)
        if again.entry is not None and again.text not in texts:
            texts.add(again.text)
            yield _choice(_label(how, again.entry), again, house)


def _hows(line: Entry, history: History, verdict: Verdict) -> Iterator[How]:
    """The ways of doing it that go with the verb and with what the thing is."""
    thing = history.known(line.thing, line.verb)
    swapped = line.becomes.things if line.becomes else ()
    nature = nature_of(line, thing, history.known(swapped[0].name, line.verb) if swapped else None)
    again = (LIKE, BETTER_LOOSE) if nature == "domestic" else (LIKE, MODERN, BETTER, MORE)
    asked = any(words.strip(", ") == "none before" for words in verdict.ask)
    if line.verb in ("installed", "added", "bought"):
        yield from (FIRST, *again)
    elif line.verb in ("replaced", "rebuilt"):
        yield from (*again, MENDED)
        if asked or line.facts.was_there in NEVER_THERE:
            yield FIRST
    elif line.verb == "repaired":
        yield from again
    if thing.doubtful and not line.facts.fixing and ", built in" in verdict.ask:
        yield from LOOKS


def _label(how: How, entry: Entry) -> str:
    if how is BETTER_LOOSE and entry.facts.same_again is not None:
        return "better, an equal one priced"
    return how.label


def _that_differ(every: list[Choice]) -> tuple[Choice, ...]:
    """Choices with the same answer in the same tax year together, under the first of them."""
    found: dict[object, Choice] = {}
    for choice in every:
        key = (choice.answers, choice.year, choice.supposed and choice.counts is not None)
        first = found.setdefault(key, choice)
        if first is not choice:
            also = (choice.label, choice.verdict.confidence)
            found[key] = replace(first, same=(*first.same, also))
    return tuple(found.values())


# ── what each comes to ───────────────────────────────────────────────────────────────────────────────────────────


def _choice(label: str, tried: Tried, house: str, judging: Judging | None = None, supposed: bool = False) -> Choice:
    """A way of doing it, judged in the book as it would be."""
    entry = tried.entry
    assert entry is not None
    judging = judging or Judging(History(tried.book, catalogue()))
    position = next(p for p, item in enumerate(judging.history.items) if item.head is entry)
    verdict, outcome = judging.verdict(position), judging.settled(position)
    assert outcome is not None
    answers = _answers(verdict, outcome)
    off = any(answer.sums.off for answer in answers)
    reason, timing = _reasons(verdict)
    return Choice(
        label, tried.to_paste(house), entry.day.first, supposed, verdict, answers, verdict.when if off else None,
        reason, timing,
    )  # fmt: skip


def _answers(verdict: Verdict, outcome: Outcome) -> tuple[Answered, ...]:
    if not verdict.arguable:
        return (_answered(verdict.parts),)
    return tuple(map(_answered, (outcome.parts, outcome.cautious, *((outcome.third,) if outcome.third else ()))))


def _answered(parts: tuple[Part, ...]) -> Answered:
    sums = {"off": 0, "waits": 0, "sale": 0, "nothing": 0}
    for part in parts:
        sums[_place(part)] += part.amount
    return Answered(parts, in_words(parts), Sums(**sums))


def _place(part: Part) -> str:
    """Where the pence of a part go."""
    if part.kind in ALLOWED:
        return "off"
    if part.kind is Kind.PENDING:
        return "waits"
    return "nothing" if part.cgt is Cgt.NONE else "sale"


def _reasons(verdict: Verdict) -> tuple[Fired, Fired | None]:
    """The rule that decided what it is, the last to speak; and the one that then moved the day, where one did."""
    decided = [fired for fired in verdict.path if fired.decided]
    what = [fired for fired in decided if fired.stage not in ("F", "H")]
    when = [fired for fired in decided if fired.stage == "F"]
    reason = (what or decided or list(verdict.path))[-1]
    return reason, next((fired for fired in when if fired is not reason), None)


def _notes(tried: Tried, house: str, choices: tuple[Choice, ...], history: History) -> tuple[str, ...]:
    """What a choice rests on that the line itself cannot tell, and why one is not shown."""
    place, first, line = tried.book.properties.get(house), history.lets.first_let(house), tried.entry
    assert line is not None
    empty = place is not None and line.kind == "works" and (first is None or first >= line.day.first)
    if empty and _keeps_safe(line, history):
        return ("Safety hangs on this work, so no way is shown of doing it after somebody has moved in.",)
    later = any(c.label == AFTER or c.supposed for c in choices)
    if place is None or place.as_bought not in ("not lettable", "lettable for a while") or not later:
        return ()
    return (
        f"Your book says that the house was bought {place.as_bought}. Letting it first does not make an old fault a "
        "new one: what was worn when you bought stays part of what the house cost (Law Shipping v IRC (1923) 12 TC "
        "621), and no page of the tax office holds a time after which that ends.",
    )


def _all(words: Iterable[tuple[str, ...]]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(said for each in words for said in each))
