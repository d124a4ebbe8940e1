"""A question of the house is asked once, and the line it offers settles every work that hangs on it."""

from __future__ import annotations

import pytest

from ledger_tools.render.asked_once import text
from ledger_tools.statements.accounts import Accounts
from ledger_tools.verdicts.asked_once import HouseQuestion
from ledger_tools.verdicts.verdict import Confidence

from .books import LET, book, fresh, last, short, verdicts

WORKS = """4 Jul 2025 replaced wiring £640.00, like for like
4 Jul 2025 replaced consumer unit £165.00, modern equivalent
5 Jul 2025 repaired roof £900.00
6 Jul 2025 replaced 2 of 6 windows £1,120.00, like for like
"""


def asked(lines: str, house: str) -> tuple[HouseQuestion, ...]:
    return Accounts(book(lines, house)).questions


@pytest.mark.parametrize(
    ("state", "price", "line"),
    [
        ("", "reduced", "price reduced owing only to wiring and roof and window"),
        ('not lettable, says "damp and no boiler"', "reduced by £9,000, says \"agent\"",
         'price reduced owing only to damp and boiler and wiring and roof and window'),
        ("", "reduced owing to damp", "price reduced owing only to damp and wiring and roof and window"),
        ('not lettable, says "no boiler"', "normal",
         'as bought not lettable owing only to boiler and wiring and roof and window'),
        ("lettable for a while", "reduced", "as bought lettable for a while owing only to wiring and roof and window"),
        ("lettable for a while owing to boiler", "normal",
         "as bought lettable for a while owing only to boiler and wiring and roof and window"),
        ("lettable", "reduced", "price reduced owing only to wiring and roof and window"),
        ("lettable", "reduced, says \"agent: damp\"",
         "price reduced owing only to damp and wiring and roof and window"),
    ],
)  # fmt: skip
def test_one_line_under_the_house_settles_all_that_hang_on_it(state: str, price: str, line: str) -> None:
    house = fresh(state, price)
    [question] = asked(WORKS, house)
    settled = fresh(state, price, more=line)  # beside what stands there, with its papers

    assert question.lines[0] == line
    assert question.numbers == (0, 1, 2, 3)
    assert book(WORKS, settled).problems == ()
    assert {short(v.parts).split()[1] for v in verdicts(WORKS, house)} == {"open"}
    assert {short(v.parts).split()[1] for v in verdicts(WORKS, settled)} == {"purchase"}


def test_where_the_price_was_cut_for_something_named_it_is_not_offered_to_call_it_normal() -> None:
    [unnamed], [quoted] = (asked(WORKS, fresh("lettable", price)) for price in ("reduced", 'reduced, says "damp"'))

    assert "price normal" in unnamed.lines and "only allow for age" in unnamed.asks
    assert len(quoted.lines) == 1 and "cut for damp" in quoted.asks
    assert asked(WORKS, fresh("lettable", "reduced owing to damp")) == ()  # the landlord has named it


@pytest.mark.parametrize(
    ("state", "price", "line"),
    [
        ("", "reduced", "price reduced owing only to chimney"),
        ('lettable for a while owing to chimney, says "survey: chimney leans"', 'reduced by £9,000, says "survey"',
         "price reduced owing only to chimney"),
        ('not lettable, says "chimney down"', "normal", "as bought not lettable owing only to chimney"),
        ("lettable", "reduced", "price reduced owing only to chimney"),
    ],
)  # fmt: skip
def test_what_is_left_out_of_the_line_is_answered_too_and_asked_no_more(state: str, price: str, line: str) -> None:
    house = fresh(state, price, more=line)

    assert {short(v.parts).split()[1] for v in verdicts(WORKS, house)} == {"repair"}
    assert {v.confidence for v in verdicts(WORKS, house)} == {Confidence.USUAL}
    assert asked(WORKS, house) == ()


def test_a_state_of_untold_cause_is_not_answered_by_what_the_price_was_cut_for() -> None:
    house = fresh("not lettable", "reduced owing only to chimney")
    assert {short(v.parts).split()[1] for v in verdicts(WORKS, house)} == {"purchase"}


def test_the_owner_s_answer_is_never_said_to_be_a_paper_s() -> None:
    """Nor does it stand in the line of a paper that says nothing of it."""
    state = 'lettable for a while owing to roof, says "survey: roof near its end"'
    house = fresh(state, 'reduced, says "survey: in good order"', more="price reduced owing only to roof and wiring")
    wiring, _, roof, _ = verdicts(WORKS, house)

    assert wiring.path[0].says.startswith("You tell that the price was cut for this fault (wiring)")
    assert roof.path[0].says.startswith("The papers of your purchase name this fault (roof)")
    assert not any("paper" in fired.says for fired in wiring.path)
    for told in ("reduced owing to wiring", 'reduced owing to wiring, because "as agreed"'):
        assert "You tell" in last(WORKS.split("\n")[0], fresh("", told)).path[0].says
    by_name = last(WORKS.split("\n")[0], fresh("", 'reduced owing to wiring, says "survey"'))
    assert "name this fault" in by_name.path[0].says


def test_where_nothing_is_told_the_offered_lines_settle_it_too() -> None:
    [question] = asked(WORKS, fresh())
    assert question.lines == ("as bought lettable", "as bought not lettable")
    assert {short(v.parts).split()[1] for v in verdicts(WORKS, fresh("lettable", "normal"))} == {"repair"}
    assert {short(v.parts).split()[1] for v in verdicts(WORKS, fresh("not lettable", "normal"))} == {"purchase"}


def test_one_open_work_alone_is_no_question_of_the_house() -> None:
    lines = "4 Jul 2025 repaired roof £900.00\n4 Jul 2025 paid legal fees £90.00 to cobb"

    assert all(v.arguable for v in verdicts(lines, fresh("", "reduced")))
    assert asked(lines, fresh("", "reduced")) == ()


def test_what_was_worn_in_a_let_is_asked_by_itself() -> None:
    """The wear of each thing is its own, so that no line about the house could settle it."""
    later = WORKS.replace("Jul 2025", "Mar 2026")

    assert all(v.arguable for v in verdicts(later, fresh("", "reduced")))
    assert asked(later, fresh("", "reduced")) == ()


def test_whether_an_empty_house_is_still_to_be_let_is_asked_once() -> None:
    ended = LET + "    ended 31 May 2025\n"
    [question] = asked(WORKS, ended)
    told = ended.replace("    as bought", "    marketed to let from 1 Jun 2025\n    as bought")

    assert (question.rule, question.lines, question.numbers) == ("void", ("marketed to let from …",), (0, 1, 2, 3))
    assert "still meant for letting" in question.asks
    assert {short(v.parts).split()[1] for v in verdicts(WORKS, told)} == {"repair"}


def test_of_a_house_that_came_free_its_value_is_asked_once() -> None:
    [question] = asked(WORKS, fresh("lettable", got="inherited 10 Jun 2025 at £120,000"))

    assert (question.rule, question.lines) == ("price-not-told", ("price normal", "price reduced"))
    assert "its value" in question.asks and "the price" not in question.asks


@pytest.mark.parametrize(
    ("state", "said"),
    [
        ("not lettable owing to chimney", "what kept the house from being let was, by your book, chimney"),
        ("lettable for a while owing to chimney", "what letting would have had to stop for was, by your book, chimney"),
    ],
)
def test_the_question_tells_of_the_state_what_the_book_tells(state: str, said: str) -> None:
    [question] = asked(WORKS, fresh(state, "reduced"))
    assert said in question.asks


def test_what_another_line_names_is_said_to_stay_whatever_is_left_out() -> None:
    [question] = asked(WORKS, fresh("lettable for a while owing to chimney", "reduced"))
    left_out = fresh("lettable for a while owing to chimney", "reduced", more="price reduced owing only to wiring")
    chimney = last("9 Jun 2025 repaired chimney £900.00", left_out)

    assert question.named == ("chimney",) and "chimney" in question.lines[0]
    page = " ".join(" ".join(text(question, "2 items")).split())
    assert "(but for chimney, which another line of the block names)" in page
    assert short(chimney.parts) == "900.00 purchase"
