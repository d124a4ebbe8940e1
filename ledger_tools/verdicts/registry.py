"""The rules in their order. A rule is one small function, registered with its authority. Knows no single rule."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Set
from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING

from ..record import record
from .answer import Answer, Carved, Change, Finding, Outcome, Remark, Said
from .verdict import Confidence, Fired, Kind, less_sure

if TYPE_CHECKING:
    from .case import Case
    from .declared import Matter

# The steps of judging, in order. In each the first rule that decides ends it. "follow" asks whether the line goes the
# way of another; "split" carves off pieces; F and H change an answer that has been found; "last" are the engine's own.
# I is no step of judging: it holds answers against what was told elsewhere, and changes none.
STEPS = ("follow", "A", "G", "D", "split", "E", "B", "C", "F", "H", "last", "I")

# How far the authority of a rule was read.
STATUSES = frozenset({"read", "head", "summary", "quotation", "memory", "practice"})
READ = {  # the same in words
    "read": "read",
    "head": "the opening of it read",
    "summary": "a summary of it read",
    "quotation": "read only in quotation",
    "memory": "from memory, check before relying on it",
    "practice": "no source",
}
# Authorities that were not read whole, by how they begin: said of each, whatever the status of the rule.
NOT_WHOLE = {
    "Bunyan v Patel": "head", "CG15201": "memory", "Conn v Robins": "quotation", "Finance Act 2016": "memory",
    "Granite City": "head", "Inland Revenue Tax Bulletin 59": "quotation", "Jackson v Laskers": "quotation",
    "Law Shipping": "head", "Moonlight Textiles": "summary", "Odeon v Jones": "head",
    "PIM2005": "head", "PIM2025": "head", "PIM2076": "head", "PIM2110": "head", "PIM2505": "head", "PIM2510": "head",
    "PIM3210": "head", "Simon's": "head", "Statement of Practice D24": "memory", "Steadfast": "summary",
    "older letting manual": "quotation", "taxationweb": "quotation",
}  # fmt: skip


@record
class Rule:
    """A rule: its stage and slug, what it rests on, how sure it is, what would change it, what to keep.

    verbs: the verbs it looks at; told: facts of a line without which it has nothing to say; of: the kinds of answer it
    may change. Empty means all, or none. unlet: whether it speaks only of days on which the house is not let.
    """

    stage: str
    slug: str
    authority: str
    confidence: Confidence
    status: str
    step: str
    verbs: frozenset[str]
    flips: tuple[str, ...] = ()
    keep: tuple[str, ...] = ()
    ask: Callable[[Case], Said] | None = None
    change: Callable[[Case, Outcome], Change | None] | None = None
    compare: Callable[[Matter], Finding | None] | None = None
    tells: str = ""  # what it is about, where it has no function
    told: frozenset[str] = frozenset()
    of: frozenset[Kind] = frozenset()
    unlet: bool = False

    @property
    def about(self) -> str:
        """When it speaks: the first line of its function's docstring."""
        said = self.tells or (self.ask or self.change or self.compare).__doc__ or ""
        return said.strip().splitlines()[0] if said.strip() else ""

    @property
    def rests_on(self) -> str:
        """Its authorities, each with how far it was read where that was not the whole of it."""
        first, *others = self.authority.split("; ")
        how = "" if self.status in ("read", "practice") else self.status  # practice calls itself so
        return "; ".join((_marked(first, how), *(_marked(other, "") for other in others)))

    def looks_at(self, told: Set[str], kinds: Set[Kind] = frozenset(), let: bool = False) -> bool:
        """Whether it may have something to say of a line that tells these facts, of answers of these kinds, and of a
        day on which the house is let or not."""
        if self.told and self.told.isdisjoint(told) or self.unlet and let:
            return False
        return not self.of or not self.of.isdisjoint(kinds)

    def fired(self, said: Answer | Carved | Remark | Change | Finding) -> Fired:
        """The entry of the path for what it said; an open answer is arguable whatever the rule's confidence."""
        sure, authority, decided = said.confidence or self.confidence, self.authority, True
        if isinstance(said, (Answer, Carved)):
            if said.cautious and said.cautious != said.parts:
                sure = Confidence.ARGUABLE
            if isinstance(said, Answer) and (said.flips or said.keep or said.authority):
                authority = said.authority or authority
                return Fired(self.stage, self.slug, said.says, authority, sure, flips=said.flips, keep=said.keep)
        elif isinstance(said, Change):
            authority = said.authority or authority
            return Fired(self.stage, self.slug, said.says, authority, sure, flips=said.flips)
        elif isinstance(said, Finding):
            authority, decided = said.authority or authority, said.level is not None
        elif isinstance(said, Remark):
            decided = False
        return Fired(self.stage, self.slug, said.says, authority, sure, decided)


def _marked(authority: str, status: str) -> str:
    found = status or next((how for name, how in NOT_WHOLE.items() if authority.startswith(name)), "")
    return f"{authority} ({READ[found]})" if found else authority


_RULES: dict[str, list[Rule]] = {step: [] for step in STEPS}


def own_rule(
    stage: str,
    slug: str,
    authority: str,
    confidence: Confidence,
    status: str,
    tells: str,
    flips: tuple[str, ...] = (),
    keep: tuple[str, ...] = (),
) -> Rule:
    """Register a rule that the engine applies itself; ValueError for a slug used twice."""
    made = Rule(stage, slug, authority, confidence, status, "last", frozenset(), flips, keep, tells=tells)
    _add(made)
    return made


def _add(made: Rule) -> None:
    if made.status not in STATUSES or made.step not in _RULES:
        raise ValueError(f"rule {made.slug}: status {made.status}, step {made.step}")
    if any(rule.slug == made.slug for rules in _RULES.values() for rule in rules):
        raise ValueError(f"two rules are called {made.slug}")
    _RULES[made.step].append(made)
    _for_verb.clear()


def rule(
    stage: str,
    slug: str,
    authority: str,
    confidence: Confidence,
    status: str,
    *,
    verbs: str = "",
    told: str = "",
    step: str = "",
    flips: tuple[str, ...] = (),
    keep: tuple[str, ...] = (),
) -> Callable[[Callable[[Case], Said]], Callable[[Case], Said]]:
    """Register a function as a rule that decides or remarks; the order of its module is its order in the step.

    verbs: the verbs it looks at; told: the facts (fields of `Facts`) without one of which a line says nothing to it;
    both separated by commas, and nothing means all. ValueError for a slug used twice.
    """

    def register(ask: Callable[[Case], Said]) -> Callable[[Case], Said]:
        made = Rule(stage, slug, authority, confidence, status, step or stage, _words(verbs), flips, keep, ask=ask)
        _add(replace(made, told=_words(told)))
        return ask

    return register


def adjustment(
    stage: str,
    slug: str,
    authority: str,
    confidence: Confidence,
    status: str,
    *,
    told: str = "",
    step: str = "",
    of: Iterable[Kind] = (),
    unlet: bool = False,
    flips: tuple[str, ...] = (),
    keep: tuple[str, ...] = (),
) -> Callable[[Callable[[Case, Outcome], Change | None]], Callable[[Case, Outcome], Change | None]]:
    """Register a function as a rule that changes the date, the sum or the gains side of an answer found.

    told: as of a `rule`. of: it is asked only where either answer holds one of these kinds; nothing means always.
    unlet: only of days on which the house is not let.
    """
    facts, kinds = _words(told), frozenset(of)

    def register(change: Callable[[Case, Outcome], Change | None]) -> Callable[[Case, Outcome], Change | None]:
        made = Rule(stage, slug, authority, confidence, status, step or stage, frozenset(), flips, keep, change=change)
        _add(replace(made, told=facts, of=kinds, unlet=unlet))
        return change

    return register


def comparison(
    slug: str,
    authority: str,
    confidence: Confidence,
    status: str,
    *,
    flips: tuple[str, ...] = (),
    keep: tuple[str, ...] = (),
) -> Callable[[Callable[[Matter], Finding | None]], Callable[[Matter], Finding | None]]:
    """Register a function as a rule of stage I: it holds what was told elsewhere against the verdicts."""

    def register(compare: Callable[[Matter], Finding | None]) -> Callable[[Matter], Finding | None]:
        _add(Rule("I", slug, authority, confidence, status, "I", frozenset(), flips, keep, compare=compare))
        return compare

    return register


@cache
def facts_looked_at() -> tuple[str, ...]:
    """The facts that some rule needs told."""
    return tuple(sorted({name for rules in _RULES.values() for rule in rules for name in rule.told}))


def _words(words: str) -> frozenset[str]:
    return frozenset(word.strip() for word in words.split(",") if word.strip())


_for_verb: dict[tuple[str, str], tuple[Rule, ...]] = {}


def rules_for(step: str, verb: str) -> tuple[Rule, ...]:
    """The rules of a step that look at a verb, in order."""
    found = _for_verb.get((step, verb))
    if found is None:
        found = tuple(r for r in _RULES[step] if not r.verbs or verb in r.verbs)
        _for_verb[step, verb] = found
    return found


def all_rules() -> tuple[Rule, ...]:
    """Every rule, in the order of the steps."""
    from . import engine

    assert engine
    return tuple(rule for step in STEPS for rule in _RULES[step])


def hear(outcome: Outcome, rule: Rule, said: Answer | Carved | Remark | Change) -> None:
    """Put what a rule said on the path, with what would change it and what to keep where it decided."""
    fired, before = rule.fired(said), outcome.confidence
    if fired.decided or said.confidence is not None:
        outcome.confidence = less_sure(before, fired.confidence)
    outcome.path.append(fired if outcome.confidence is before else replace(fired, lowered=True))
    if fired.decided:
        outcome.would_change += fired.flips or rule.flips
        outcome.keep += fired.keep or rule.keep
