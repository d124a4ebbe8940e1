"""The question of a house on the pages: said once with its line to paste, each work under it with what is its own."""

from __future__ import annotations

from dataclasses import replace

from ledger_tools.days import TaxYear
from ledger_tools.render import audit as audit_page
from ledger_tools.render import json_form
from ledger_tools.render.asked_once import text
from ledger_tools.render.text import draw
from ledger_tools.render.year_end import page
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.audit import audit
from ledger_tools.statements.year_end import year_end
from tests.verdicts.books import book, fresh

HOUSE = fresh('not lettable, says "damp and no boiler"', "reduced")
WORKS = """4 Jul 2025 repaired roof £900.00
5 Jul 2025 repaired chimney £400.00
6 Jul 2025 replaced 2 of 6 windows £1,120.00
"""
LINE = "price reduced owing only to damp and boiler and roof and chimney and window"
ONCE = "Was it cut for these works too?"


def accounts() -> Accounts:
    return Accounts(book(WORKS, HOUSE))


def test_the_audit_asks_once_and_shows_what_is_the_work_s_own() -> None:
    told = audit_page.text(audit(accounts()))

    assert " ".join(told.split()).count(ONCE) == 1 and told.count(LINE) == 1
    assert told.count("Asked once for the house, above.") == 3
    assert told.count("an improvement: it counts when the house is sold") == 1  # the windows are not compared
    assert "3 items, £2,420.00 together" in " ".join(told.split())


def test_the_year_asks_once_and_says_what_all_are_worth_together() -> None:
    statement = year_end(accounts(), TaxYear(2025))
    told = draw(page(statement))

    assert " ".join(told.split()).count(ONCE) == 1 and told.count(LINE) == 1
    [asked] = statement.owners[0].asked
    assert asked.pence == 2_420_00 and all(item.question is asked.question for item in statement.owners[0].open)


def test_the_data_hold_the_question_and_its_line() -> None:
    [house] = audit_page.as_data(audit(accounts()))["houses"]
    [owner] = json_form.year_end(year_end(accounts(), TaxYear(2025)))["owners"]

    assert house["questions"][0]["write"] == [LINE]
    assert [item["question"]["write"] for item in owner["open"]] == [[LINE]] * 3
    assert house["questions"][0]["in_place_of"] is None  # it stands beside what the papers say


def test_that_nothing_else_counts_is_said_only_where_the_line_answers_for_all() -> None:
    [question] = accounts().questions
    whole, half = (" ".join(text(replace(question, settles=yes), "3 items")) for yes in (True, False))

    assert "nothing else counts" in whole and "nothing else counts" not in half
    assert "what the price was cut for" in half.split("Write:")[1]
