"""Figures wait for errors alone: a book built without its doubts has the same errors."""

from __future__ import annotations

from ledger_tools.book.build import build
from ledger_tools.book.checks import DOUBTS
from ledger_tools.problems import Level
from tests.language.test_events import texts


def test_a_book_built_for_its_figures_has_every_error() -> None:
    cross = 0
    for text in texts():
        whole, few = build({"a.book": text}), build({"a.book": text}, only_errors=True)
        errors = [problem for problem in whole.problems if problem.level is Level.ERROR]

        assert [problem for problem in few.problems if problem.level is Level.ERROR] == errors
        assert len(few.problems) <= len(whole.problems)
        cross += len(whole.problems) - len(few.problems)
    assert cross > 20  # doubts that were not looked for


def test_a_check_that_only_raises_doubts_raises_no_error() -> None:
    wrong = {
        (check.__name__, problem.code)
        for text in texts()
        for book in [build({"a.book": text})]
        for check in DOUBTS
        for problem in check(book)
        if problem.level is Level.ERROR
    }

    assert wrong == set()
