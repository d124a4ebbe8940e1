"""What a rule says it looks at only saves asking it: asked of every line and day, it has nothing more to say."""

from __future__ import annotations

from dataclasses import fields, replace
from pathlib import Path

from ledger_tools.book.build import build
from ledger_tools.book.entries import Facts
from ledger_tools.verdicts.catalogue import catalogue
from ledger_tools.verdicts.engine import Judging, judge_all
from ledger_tools.verdicts.history import History
from ledger_tools.verdicts.registry import Rule, all_rules, facts_looked_at, rules_for
from tests.language.test_events import texts

SAMPLES = Path(__file__).parents[2] / "sample_books"


def asked_of_all(step: str, verb: str) -> tuple[Rule, ...]:
    """The rules of a step, each asked whatever the line tells and whether the house is let or not."""
    return tuple(replace(rule, told=frozenset(), unlet=False) for rule in rules_for(step, verb))


def books() -> list[dict[str, str]]:
    folders = [{path.name: path.read_text(encoding="utf-8") for path in folder.glob("*.book")}
               for folder in sorted(SAMPLES.iterdir()) if folder.is_dir()]  # fmt: skip
    return [*folders, *({"a.book": text} for text in texts())]


def test_a_rule_that_need_not_be_asked_has_nothing_to_say() -> None:
    judged = 0
    for files in books():
        book = build(files)
        history = History(book, catalogue())
        every = Judging(History(book, catalogue()), asked_of_all)
        for position, verdict in enumerate(judge_all(history)):
            assert every.verdict(position) == verdict
            judged += 1
    assert judged > 1_000


def test_what_a_rule_looks_at_are_facts_of_a_line() -> None:
    assert set(facts_looked_at()) <= {field.name for field in fields(Facts)}
    assert sum(rule.unlet for rule in all_rules()) >= 5
