"""Lines that read and lose what decides the tax: the doubt, and the line that is offered."""

# ruff: noqa: E501 (a row of the table stands on one line)

from __future__ import annotations

import pytest

from ledger_tools.book.build import build
from ledger_tools.problems import Problem
from ledger_tools.verdicts.checks import doubts
from ledger_tools.verdicts.engine import judge
from ledger_tools.verdicts.verdict import Kind

HEAD = """
landlord x "X"
property a "1 A Street"
    bought 1 May 2015 for £100,000
tenancy t at a
    tenants "T. Enant"
    periodic from 1 Jun 2015
    rent £500 a month
at a
"""


def told(line: str, code: str) -> Problem | None:
    book = build({"a.book": HEAD + line})
    assert not book.problems
    return next((problem for problem in doubts(book) if problem.code == code), None)


@pytest.mark.parametrize(
    "line, offered",
    [
        ('1 Jun 2025 paid rewire £3,850.00 to "Sparks"', '`1 Jun 2025 replaced wiring £3,850.00 by "Sparks"`'),
        ('1 Jun 2025 paid new boiler in kitchen £900.00 to "Warm", because "old"', '`1 Jun 2025 replaced boiler in kitchen £900.00 by "Warm", because "old"`'),
        ("1 Jun 2025 paid the shed £90.00", "`1 Jun 2025 installed shed £90.00` if there was none before"),
        ('1 Jun 2025 paid sofa £90.00 to "Sofa Shed"', '`1 Jun 2025 bought sofa £90.00 from "Sofa Shed"` if it is the first one'),
    ],
)  # fmt: skip
def test_work_told_as_a_payment_is_offered_with_its_verb(line: str, offered: str) -> None:
    found = told(line, "what-was-done")
    assert found is not None
    assert offered in found.help


@pytest.mark.parametrize(
    "typed, put",
    [("paid gutters cleared £90.00", "cleared gutters £90.00"), ("paid tap fixed £90.00", "repaired tap £90.00"),
     ("paid roof repair £90.00", "repaired roof £90.00"), ("paid damp £90.00", "treated damp £90.00"),
     ("paid kitchen decorating £90.00", "decorated kitchen £90.00"),
     ("paid boiler replacement £90.00", "replaced boiler £90.00")],
)  # fmt: skip
def test_where_the_words_tell_what_was_done_the_line_is_put(typed: str, put: str) -> None:
    found = told(f"1 Jun 2025 {typed}", "what-was-done")
    assert found is not None and found.fix is not None
    assert found.fix.line == f"1 Jun 2025 {put}"


@pytest.mark.parametrize(
    "line",
    ["paid insurance £90.00", "paid gas safety £90.00", "paid window cleaning £90.00", "paid skip £90.00",
     'paid boiler £90.00, treat as repair because "so"', "replaced boiler £90.00"],
)  # fmt: skip
def test_costs_stay_what_was_paid(line: str) -> None:
    assert told(f"1 Jun 2025 {line}", "what-was-done") is None


@pytest.mark.parametrize(
    "line, doubt",
    [("bought sofa £449.00, worn out", True), ("bought shed £449.00, storm damage", True),
     ("bought boiler £449.00, broken", True), ("bought sofa £449.00", False), ("bought paint £9.00, worn out", False),
     ("bought sofa £449.00, required", False), ("replaced sofa £449.00, worn out", False)],
)  # fmt: skip
def test_what_was_bought_for_an_old_one_is_asked_about(line: str, doubt: bool) -> None:
    found = told(f"1 Jun 2025 {line}", "bought-for-old")
    assert (found is not None) is doubt
    assert not doubt or found.fix.line == f"1 Jun 2025 {line.replace('bought', 'replaced')}"


@pytest.mark.parametrize(
    "line, offered",
    [
        ("paid service charge £1,980.00, of which new roof £1,250.00", '`improvement £1,250.00 "new roof"`'),
        ("paid insurance £90.00, of which banana £9.00", "`of which private`"),
        ("replaced boiler £90.00, of which banana £9.00", "`of which private`"),
        ("paid insurance £90.00, of which private £9.00", ""),
        ("paid insurance £90.00, of which vat £9.00", ""),
        ("paid mortgage £90.00, of which interest £9.00", ""),
        ("replaced kitchen £90.00, of which fridge £9.00", ""),
        ("replaced boiler £90.00, of which delivery £9.00", ""),
        ("repaired roof £90.00, of which worn since bought £9.00", ""),
    ],
)
def test_a_part_that_changes_nothing_does_not_vanish(line: str, offered: str) -> None:
    found = told(f"1 Jun 2025 {line}", "part-not-judged")
    assert (found is not None) is bool(offered)
    assert found is None or offered in found.help


def test_something_done_is_no_thing() -> None:
    found = told("1 Jun 2025 treated damp and replastered £1,460.00", "thing-unknown")
    assert found is not None and "one job" in found.help


@pytest.mark.parametrize("article", ["", "the ", "our ", "my ", "a ", "her "])
def test_articles_change_no_answer(article: str) -> None:
    book = build({"a.book": HEAD + f"2 May 2015 paid solicitor £900.00 for {article}purchase\n"
                  f"1 Jun 2025 repaired {article}boiler in {article}kitchen £9.00, worn out"})  # fmt: skip
    assert [v.parts for v in judge(book)] == [
        v.parts
        for v in judge(build({"a.book": HEAD + "2 May 2015 paid solicitor £900.00 for purchase\n"
                              "1 Jun 2025 repaired boiler in kitchen £9.00, worn out"}))
    ]  # fmt: skip
    assert [entry.rooms[0].text for entry in book.entries[1:]] == ["kitchen"]
    assert book.entries[0].purpose == "purchase"
    assert book.entries[1].thing == "boiler"


def test_a_house_is_no_thing() -> None:
    book = build({"a.book": HEAD.replace("property a", "property mill-3").replace("at a", "at mill-3")
                  + "1 Jun 2025 decorated mill-3 £450.00"})  # fmt: skip
    found = [problem for problem in doubts(book) if problem.code == "name-as-thing"]
    assert len(found) == 1 and "at mill-3`" in found[0].help


NAMES = HEAD.replace("property a", 'lender fen "Fen Society"\nloan moor-1 on a from fen\nproperty a', 1)


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("paid moor-1 interest £300.00", "paid interest £300.00 to moor-1"),
        ("paid interest moor-1 £300.00, number 3", "paid interest £300.00 to moor-1, number 3"),
        ("paid fen arrangement fee £300.00 for Mar 2025", "paid arrangement fee £300.00 to fen for Mar 2025"),
    ],
)
def test_a_name_in_the_place_of_what_the_sum_was_for_is_put_behind(typed: str, meant: str) -> None:
    book = build({"a.book": NAMES + f"1 Jun 2025 {typed}"})
    (found,) = [problem for problem in doubts(book) if problem.code == "name-as-thing"]
    (verdict,) = judge(book)

    assert found.fix is not None and found.fix.line == f"1 Jun 2025 {meant}"
    assert verdict.ask[0] == f"1 Jun 2025 {meant}"
    assert not [p for p in doubts(build({"a.book": NAMES + f"1 Jun 2025 {meant}"})) if p.code == "name-as-thing"]


def test_of_two_parties_neither_is_put_in_the_place_of_the_other() -> None:
    book = build({"a.book": NAMES + '1 Jun 2025 paid moor-1 interest £300.00 to "Somebody"'})
    (found,) = [problem for problem in doubts(book) if problem.code == "name-as-thing"]
    assert found.fix is None


def test_a_wall_between_two_rooms_is_a_wall_in_both() -> None:
    found = told("1 Jun 2025 removed wall between kitchen and lounge £900.00", "thing-unknown")
    assert found is not None and found.fix is not None
    assert found.fix.line == "1 Jun 2025 removed wall in kitchen and lounge £900.00"


@pytest.mark.parametrize(("typed", "meant"), [
    ("cleared rubbish left by tenant £150.00", 'cleared rubbish £150.00, because "left by tenant"'),
    ("cleared rubbish left behind £150.00", 'cleared rubbish £150.00, because "left behind"'),
    ("repaired door damaged by tenant £150.00", 'repaired door £150.00, because "damaged by tenant"'),
])  # fmt: skip
def test_who_left_it_is_no_part_of_its_name(typed: str, meant: str) -> None:
    book = build({"a.book": f"{HEAD}1 Jun 2025 {typed}\n"})
    (found,) = [problem for problem in doubts(book) if problem.code == "thing-unknown"]
    assert found.fix is not None and found.fix.line == f"1 Jun 2025 {meant}"
    assert doubts(build({"a.book": f"{HEAD}1 Jun 2025 {meant}\n"})) == []


# ── same again ───────────────────────────────────────────────────────────────────────────────────────────────────

BOILER = '1 Jun 2025 replaced boiler in kitchen £3,150.00 by "Warm"'


@pytest.mark.parametrize("compared", ["better", "does more"])
def test_the_price_of_an_equal_one_changes_nothing_of_a_part_of_the_house(compared: str) -> None:
    found = told(f"{BOILER}, {compared}, worn out, same again £2,400.00", "same-again-idle")
    assert found is not None
    whole = f"{BOILER}, {compared}, worn out"
    priced = f'{BOILER}, like for like, worn out, improvement £750.00 "…"'
    assert f"`{whole}`" in found.help and f"`{priced}`" in found.help
    for line in (whole, priced):
        assert told(line, "same-again-idle") is None

    (verdict,) = judge(build({"a.book": HEAD + priced}))
    assert {part.kind: part.amount for part in verdict.parts} == {Kind.IMPROVEMENT: 75000, Kind.REPAIR: 240000}


def test_where_it_decides_or_may_decide_it_is_left_alone() -> None:
    assert told("1 Jun 2025 replaced sofa £900.00, better, same again £600.00", "same-again-idle") is None
    assert told("1 Jun 2025 replaced shelf £90.00, better, loose, same again £60.00", "same-again-idle") is None
    assert told(f"{BOILER}, like for like, same again £2,400.00", "same-again-idle") is not None
