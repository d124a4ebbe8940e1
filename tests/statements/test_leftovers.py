"""What the seller left: whose it is, whether to let with it, what became of it. The book answers, nothing else."""

from __future__ import annotations

from datetime import date

import pytest

from ledger_tools.render.schedule import text
from ledger_tools.statements.leftovers import Left
from tests.statements.works_books import SCHEDULE, plan

ON = date(2025, 5, 1)
LEFT = "    left by seller sofa and greenhouse and cooker\n"


def left(lines: str, name: str, schedule: str = SCHEDULE, more: str = LEFT) -> Left:
    return next(one for one in plan(lines, ON, schedule, more).left if one.name == name)


def test_nothing_told_is_undecided_and_may_be_the_sellers() -> None:
    sofa = left("", "sofa")

    assert (sofa.decision, sofa.settled, len(sofa.questions)) == ("", False, 1)
    assert "it may still be the seller's" in " ".join(text([plan("", ON, more=LEFT)]).split())


def test_a_letter_settles_for_the_things_it_names_and_a_paper_for_those_it_is_told_of() -> None:
    letter = '2 Mar 2025 told seller "fetch the old sofa by 16 March"\n'
    paper = '    left by seller sofa, says "contents form"\n    left by seller shed\n'

    assert (left(letter, "sofa").letter, left(letter, "cooker").letter) == (date(2025, 3, 2), None)
    assert left('2 Mar 2025 told council "the sofa is out"\n', "sofa").letter is None
    assert left("", "sofa", more=paper).papers == ("contents form",)
    assert not left("", "shed", more=paper).settled


@pytest.mark.parametrize(
    "todo, decision",
    [("keep sofa", "keep"), ("repair sofa", "mend"), ("sell sofa", "sell"), ("scrap sofa", "skip"), ("keep bed", "")],
)
def test_the_schedule_says_what_is_meant(todo: str, decision: str) -> None:
    assert left("", "sofa", f"{SCHEDULE}    in hall\n        4 {todo}\n").decision == decision


def test_what_was_done_wins_and_tells_what_it_brought() -> None:
    sold = left('9 Mar 2025 sold greenhouse in garden £240.00 to "a neighbour", left by seller\n', "greenhouse")
    meant = SCHEDULE + "    in hall\n        4 keep sofa\n"

    assert (sold.decision, sold.day, sold.brought, sold.to) == ("sell", date(2025, 3, 9), 24_000, "a neighbour")
    assert left("9 Mar 2025 scrapped sofa\n", "sofa", meant).decision == "skip"
    assert left("9 Jun 2025 scrapped sofa\n", "sofa", meant).decision == "keep", "not yet, on this day"


def test_what_stays_is_asked_about_until_somebody_has_looked() -> None:
    assert left("", "sofa").questions and left("", "cooker").questions
    looked = left('9 Mar 2025 inspected sofa in lounge "label sewn in"\n', "sofa")

    assert (looked.questions, looked.looked) == ((), date(2025, 3, 9))
    assert left("9 Mar 2025 scrapped sofa\n", "sofa").questions == (), "what is gone hurts nobody"
