"""A line about something not done yet: a day put in front, the verb as a book says it, told in another way."""

from __future__ import annotations

from datetime import date

import pytest

from ledger_tools.language.asked import VERBS, asked, told_otherwise, undated
from ledger_tools.language.grammar import words
from ledger_tools.language.reading import read
from ledger_tools.problems import Fix, Level, Mark, Problem

ON = date(2026, 3, 1)


def test_every_verb_of_works_has_a_plain_form_and_none_is_made_up() -> None:
    says = words().says

    assert set(says["WORKS_VERB"]) | {"paid"} == set(VERBS.values())
    assert set(says["TODO_VERB"]) - set(VERBS) == {"keep"}  # nothing is done to what is kept


@pytest.mark.parametrize("now, past", sorted(VERBS.items()))
def test_both_forms_of_a_verb_read_alike(now: str, past: str) -> None:
    plain, told = asked(f"{now} boiler £90", ON), asked(f"{past} boiler £90", ON)

    assert plain.text == told.text == f"1 Mar 2026 {past} boiler £90"
    assert read(plain.text).statement is not None
    assert asked(f"{now.upper()}  boiler\n £90", ON).text == plain.text


@pytest.mark.parametrize("day", ["9 Jun 2025", "9th June 2025", "2025-06-09", "09/06/2025", "Jun 2014"])
def test_a_day_in_front_stays(day: str) -> None:
    assert asked(f"{day} replace boiler £90", ON).text == f"{day} replaced boiler £90"


def test_words_that_only_begin_like_a_verb_are_left() -> None:
    assert asked("replacement boiler £90", ON).text == "1 Mar 2026 replacement boiler £90"
    assert asked("fit-out £90", ON).text == "1 Mar 2026 fit-out £90"


@pytest.mark.parametrize(
    "typed", ["replace boiler 90 quid", "replaced boiler 90 quid", "4 May 2026 replace boiler 90 quid"]
)
def test_places_are_found_again_in_the_words(typed: str) -> None:
    made = asked(typed, ON)

    def there(word: str, line: int = 4) -> Mark:
        at = made.text.index(word)
        return Mark("x", line, at + 1, at + 1 + len(word), made.text)

    verb, later, whole = there("replaced"), there("90"), Mark("x", 4, 1, len(made.text) + 1, made.text)
    other = Mark("a.book", 7, 3, 5, "text")
    problem = Problem("c", Level.ERROR, f"{made.text} is odd.", (later, verb, whole, other), fix=Fix(later, "£90"))
    placed = made.placed(problem, "x")
    found = [mark.text[mark.column - 1 : mark.end - 1] for mark in placed.marks]

    assert found[:3] == ["90", "replaced" if "replaced" in typed else "replace", typed]
    assert placed.marks[0].line == 1 and placed.marks[3] == other
    assert placed.fix is not None
    assert placed.fix.line == typed.replace("replace ", "replaced ").replace("90", "£90")
    assert "1 Mar 2026" not in placed.headline


def test_a_slip_in_the_plain_form_of_a_verb_is_mended() -> None:
    made = asked("replce boiler £90", ON)
    at = len("1 Mar 2026 ")
    problem = Problem("unknown-verb", Level.ERROR, "No verb.", (Mark("x", 1, at + 1, at + 7, made.text),))

    assert made.placed(problem, "x").fix == Fix(Mark("x", 1, 1, 7, made.words), "replace")


LINE = '1 Mar 2026 replaced hob with oven in kitchen £1,250.00 by "A, B", like for like, same again £1,200.00, worn out'


def test_told_otherwise() -> None:
    assert told_otherwise(LINE) == LINE
    assert told_otherwise(LINE, "repaired", (), ("compared", "same_again", "swap")) == (
        '1 Mar 2026 repaired hob in kitchen £1,250.00 by "A, B", worn out'
    )
    assert told_otherwise(LINE, "", ("better", "loose"), ("like for like", "worn out")) == (
        '1 Mar 2026 replaced hob with oven in kitchen £1,250.00 by "A, B", same again £1,200.00, better, loose'
    )
    assert told_otherwise(LINE, day=date(2027, 1, 5)).startswith("5 Jan 2027 replaced hob with oven")
    assert (
        told_otherwise("Jun 2014 moved hob £9.00  # one day", "", ["required"]) == "Jun 2014 moved hob £9.00, required"
    )
    assert undated(LINE, "DAY") == LINE.replace("1 Mar 2026", "DAY")


def test_what_does_not_read_cannot_be_told_otherwise() -> None:
    with pytest.raises(ValueError):
        told_otherwise("1 Mar 2026 replaced hob 90")
