"""What the words of planning come to in the book: hours, how long, how far ahead, who says that a thing stays."""

from __future__ import annotations

from fractions import Fraction

from ledger_tools.book.build import build
from ledger_tools.book.world import Book, Span
from ledger_tools.problems import Level

HEAD = """
landlord x "X"
supplier pell "Pell & Sons"
property a "1 A Street"
    bought 1 May 2025 for £100,000
    rooms lounge, kitchen
    left by seller piano and cooker, says "contents form"
    left by seller shed
"""


def book(text: str) -> Book:
    made = build({"a.book": HEAD + text})
    assert [p.headline for p in made.problems if p.level is Level.ERROR] == []
    return made


def test_hours_of_own_labour_are_kept_and_are_no_money() -> None:
    lines = "at a\n2 May 2025 decorated lounge £40.00, own labour 6.5 hours\n3 May 2025 decorated kitchen, own labour\n"
    first, second = book(lines).entries

    assert (first.facts.own_labour, first.facts.hours, first.total) == (True, Fraction("6.5"), 40_00)
    assert (second.facts.own_labour, second.facts.hours) == (True, None)


def test_a_job_tells_how_long_it_takes_how_far_ahead_it_is_booked_and_what_it_becomes() -> None:
    made = book(
        'schedule a "ready to let"\n    in lounge\n        1 replace 2 radiators with 3 £280, '
        "takes 2 days, book 3 weeks ahead\n"
        "        4 keep piano\n"
    )
    first, second = made.schedules[0].todos

    assert (first.takes, first.ahead) == (Span(Fraction(2), "day"), Span(Fraction(3), "week"))
    assert first.becomes is not None and first.becomes.count == 3
    assert (second.verb, second.takes, second.ahead, second.becomes) == ("keep", None, None, None)


def test_the_paper_that_says_a_thing_stays_is_kept_for_each_thing() -> None:
    assert book("").properties["a"].left_says == {
        "piano": ("contents form",), "cooker": ("contents form",), "shed": (),
    }  # fmt: skip


def test_any_line_may_say_of_which_schedule_it_is_part() -> None:
    lines = (
        'at a\n2 May 2025 drove 18 miles "merchant and back", part of "ready to let"\n'
        '3 May 2025 quoted boiler £900.00 by pell, part of "ready to let"\n'
        '4 May 2025 paid planning fee £90.00 to "Wold Council", part of "ready to let"\n'
    )
    assert {entry.facts.part_of for entry in book(lines).entries} == {"ready to let"}
