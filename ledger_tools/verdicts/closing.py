"""From an answer found to a verdict: what later rules make of it, a return it stood on already, and its words.

Asks no rule itself.
"""

from __future__ import annotations

from dataclasses import fields, replace
from datetime import date
from operator import attrgetter

from ..book.items import Item
from ..money import pounds
from .answer import Change, Outcome, opened
from .offers import treat_as
from .registry import Rule, hear, own_rule
from .verdict import ON_A_RETURN, Cgt, Confidence, Kind, Part, Verdict

WORDS = {
    Kind.RUNNING: "a running cost: it comes off the rents",
    Kind.REPAIR: "a repair: it comes off the rents",
    Kind.IMPROVEMENT: "an improvement: it counts when the house is sold",
    Kind.ACQUISITION: "part of what the house cost: it counts when the house is sold",
    Kind.DOMESTIC: "an item replaced: it comes off the rents",
    Kind.NO_RELIEF: "no relief: it counts nowhere",
    Kind.PRIVATE: "private: nothing comes off",
    Kind.PENDING: "it waits for the first letting and comes off then",
    Kind.NETS: "it comes off a cost of the letting",
    Kind.INCOME: "income of the letting",
    Kind.CAPITAL_RECEIPT: "a capital sum, no rent",
    Kind.IGNORED: "neither cost nor income",
}


def take(rule: Rule, change: Change, outcome: Outcome) -> None:
    """Alter an answer as a later rule says."""
    if change.instead:
        outcome.path[:] = [replace(fired, decided=False) for fired in outcome.path]
        outcome.would_change.clear()
        outcome.keep.clear()
    hear(outcome, rule, change)
    if change.instead:
        outcome.path.insert(0, outcome.path.pop())
        outcome.confidence = outcome.path[0].confidence
    if change.parts is not None and change.parts != outcome.parts:
        outcome.parts, outcome.third = change.parts, change.third
    if change.cautious is not None and change.cautious != outcome.cautious:
        outcome.cautious, outcome.third = change.cautious, change.third
    outcome.when = change.when or outcome.when
    outcome.ask = (*outcome.ask, *change.ask)


def copied(outcome: Outcome) -> Outcome:
    """A copy that can be changed without touching the answer other lines follow."""
    made = Outcome(*_values(outcome))
    made.path, made.would_change, made.keep = outcome.path[:], outcome.would_change[:], outcome.keep[:]
    return made


_values = attrgetter(*(field.name for field in fields(Outcome)))


RETURNED = own_rule(
    "H",
    "one-ledger-line-one-home",
    "TCGA 1992 s.39(1), s.41; CG15155 (its title)",
    Confidence.CLEAR,
    "read",
    "A cost that came off a return already counts nowhere else, nor in a gain.",
    flips=("you amend that return",),
    keep=("a copy of that return",),
)


def returned(outcome: Outcome, year: str) -> None:
    """Already on a return: it moves nothing now, and is never part of a gain."""
    total = sum(part.amount for part in outcome.parts)
    returned = (Part(total, Kind.IGNORED, ON_A_RETURN),)
    outcome.parts, outcome.cautious, outcome.third, outcome.ask = returned, (), (), ()
    hear(outcome, RETURNED, Change(f"It came off on the return for {year}, so it counts nowhere else, nor in a gain."))
    outcome.confidence = Confidence.CLEAR


def verdict_of(
    item: Item,
    o: Outcome,
    cautions: tuple[str, ...],
    begins: date | None,
    ruled: str = "",
    without: Verdict | None = None,
) -> Verdict:
    parts = o.parts
    answers: tuple[str, ...] = ()
    other: tuple[Part, ...] = ()
    cautious: tuple[Part, ...] = ()
    ask: tuple[str, ...] = ()
    shown = opened(o.parts, o.cautious, o.third) if o.cautious else o.parts
    open_ = any(part.kind is Kind.ARGUABLE for part in shown)
    if open_:
        parts, other, cautious = shown, o.parts, o.cautious
        answers = tuple(map(in_words, (o.parts, o.cautious, *((o.third,) if o.third else ()))))
        offered = o.ask or (() if o.follows else treat_as(o.parts, o.cautious))
        ask = tuple(dict.fromkeys(offered))
    return Verdict(
        item,
        parts,
        tuple(o.path),
        Confidence.ARGUABLE if open_ else o.confidence,
        o.when,
        tuple(dict.fromkeys(o.would_change)),
        tuple(dict.fromkeys(o.keep)),
        other,
        answers,
        ask,
        cautions,
        ruled,
        without,
        begins,
        cautious,
        o.follows if open_ else (),
    )


def in_words(parts: tuple[Part, ...]) -> str:
    """An answer in words: "a repair: it comes off the rents; an improvement: …"."""
    if len(parts) > 1:
        return "; ".join(f"{pounds(part.amount)} {_words(part)}" for part in parts)
    return "; ".join(_words(part) for part in parts)


def _words(part: Part) -> str:
    if part.kind is Kind.NETS and not part.category:
        capital = part.cgt is not Cgt.NONE
        return "it comes off what counts when the house is sold" if capital else "it comes off a cost without relief"
    if part.kind is Kind.ACQUISITION and part.cgt is Cgt.DISPOSAL:
        return "a cost of selling: it counts when the house is sold"
    if part.kind is Kind.RUNNING and part.category == "finance_residential":
        return "a finance cost: it lowers the tax bill at the basic rate"
    return WORDS[part.kind]
