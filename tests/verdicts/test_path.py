"""The path of one item is the one its verdict took: same answer, each rule asked told once, in the order of steps."""

from __future__ import annotations

import pytest

from ledger_tools.verdicts.answer import Answer
from ledger_tools.verdicts.engine import judge
from ledger_tools.verdicts.path import STEPS, path
from ledger_tools.verdicts.registry import rules_for

from .books import LET, book, fresh

LINES = """\
4 Mar 2025 cleaned house £80.00
5 Mar 2025 replaced worktop in kitchen £410.00
6 Mar 2025 replaced boiler in kitchen £2,310.00, modern equivalent
7 Mar 2025 repaired plaster in kitchen £90.00, making good after worktop
8 Mar 2025 paid insurance £200.00 to "The Insurer"
9 Mar 2025 replaced blind in kitchen £40.00, better
10 Mar 2025 decorated kitchen £500.00, of which improvement £90.00 "a feature wall"
11 Mar 2025 repaired roof £300.00, treat as improvement because "we think so"
12 Mar 2025 replaced roof £3,000.00, like for like, returned 2024-25
13 Mar 2025 received refund £20.00 from "The Counter" for worktop
14 Mar 2025 replaced kitchen £5,000.00, like for like, of which fridge £300.00
"""


@pytest.mark.parametrize("house", [LET, fresh("not lettable", "reduced"), fresh()])
def test_the_path_leads_to_the_verdict_of_the_book(house: str) -> None:
    lines = LINES.replace("returned", "already returned").replace("Mar 2025", "Jul 2025")
    made = book(lines, house)

    for position, verdict in enumerate(judge(made)):
        found, looks = path(made, position)

        assert found == verdict
        said = [asked.said.says for look in looks for asked in look.asked if asked.said is not None]
        for look in looks:  # what a rule asked of the item as it might have been is no part of it
            slugs = [asked.rule.slug for asked in look.asked]
            assert len(set(slugs)) == len(slugs)
        dated = 2 if verdict.ruled else 1  # without the ruling, and with it
        assert [look.after for look in looks] == [False] * (len(looks) - dated) + [True] * dated
        assert len(looks) == (2 if verdict.item.line.thing == "blind" else 1) + dated
        own = {"your-ruling", "one-ledger-line-one-home", "doubtful", "nothing-decides"}  # the engine's own rules
        assert {f.says for f in verdict.path if f.slug not in own} <= set(said)


def test_each_rule_of_a_step_is_told_until_one_decides() -> None:
    made = book("4 Mar 2025 cleaned house £80.00\n")
    _, (first, after) = path(made, 0)

    asked = [(a.rule.step, a.rule.slug) for a in first.asked]
    whole = [(step, rule.slug) for step in ("follow", "A") for rule in rules_for(step, "cleaned")]
    assert asked == whole[: len(asked)]
    assert first.asked[-1].rule.slug == "running-service" and first.asked[-1].ends
    assert not any(isinstance(a.said, Answer) for a in first.asked[:-1])
    assert {a.rule.step for a in after.asked} == {"F", "H"}


def test_a_thing_looked_at_both_ways_has_both_looks() -> None:
    made = book("9 Mar 2025 replaced blind in kitchen £40.00, better\n")
    _, looks = path(made, 0)

    assert [look.nature for look in looks[:-1]] == ["fixture", "domestic"]


def test_a_line_followed_is_not_part_of_the_path() -> None:
    made = book("5 Mar 2025 replaced worktop in kitchen £410.00, like for like\n"
                "7 Mar 2025 repaired plaster in kitchen £90.00, making good after worktop\n")  # fmt: skip
    _, (first, _) = path(made, 1)

    assert first.asked[-1].rule.slug == "making-good-after"
    assert len({a.rule.slug for a in first.asked}) == len(first.asked)


def test_every_step_the_engine_takes_has_a_question() -> None:
    from ledger_tools.verdicts.engine import MONEY, WORKS

    assert {*WORKS, *MONEY, "F", "H"} == set(STEPS)
