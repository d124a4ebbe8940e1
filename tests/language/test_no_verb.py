"""Dated lines without a verb: what the catalogue and the book's names tell of them, and the line to paste."""

# ruff: noqa: E501 (a row of the table stands on one line)

from __future__ import annotations

import pytest

from ledger_tools.book.build import build
from ledger_tools.commands.opening import TOLD_ON
from ledger_tools.explain.no_verb import CODES, with_verbs
from ledger_tools.problems import Problem
from ledger_tools.verdicts.checks import doubts

HEAD = """
supplier dk "DK Maintenance"
agent hale "Hale & Hart"
property a-1 "1 A Street"
    bought 1 May 2015 for £100,000
    rooms kitchen, hall
property b-2 "2 B Street"
    bought 1 May 2015 for £100,000
loan moor-1 on a-1 from "Wool Bank"
tenancy dray at a-1
    tenants "T. Dray"
    periodic from 1 Jun 2015
    rent £500 a month
at a-1
"""
PUT = (
    # the catalogue knows the sum or the goods
    ("house insurance £184 to \"Fen Mutual\"", "paid house insurance £184 to \"Fen Mutual\""),
    ("skip £240 from \"Tip-It Skips\"", "paid skip £240 to \"Tip-It Skips\""),
    ("window cleaner £18", "paid window cleaner £18"),
    ("paint and brushes £138.60 from dk", "bought paint and brushes £138.60 from dk"),
    ("electric and gas £96.40 to \"Brightwatt\"", "paid electric and gas £96.40 to \"Brightwatt\""),
    ("broker fee £395, b-2", "paid broker fee £395 at b-2"),
    ("b-2 ground rent £150", "paid ground rent £150 at b-2"),
    ("b-2 service charge £840 half year", "paid service charge £840 at b-2, because \"half year\""),
    # what else the line tells decides the verb
    ("new combi boiler £1,850 by dk, old one knackered", "replaced combi boiler £1,850 by dk, worn out"),
    ("new washer £280 from dk, old one packed up", "replaced washer £280 from dk, broken"),
    ("cooker £249 from dk, none before", "bought cooker £249 from dk, none before"),
    ("new kitchen b-2 £5,200 by dk, like for like", "replaced kitchen £5,200 at b-2 by dk, like for like"),
    # the book knows the name
    ("dray rent £650", "received rent £650 from dray"),
    ("rent £650 dray", "received rent £650 from dray"),
    ("first months rent £650 off dray", "received rent £650 from dray"),
    ("dray paid the £250", "received rent £250 from dray"),
    ("eviction costs dray £391", "paid eviction costs £391 at a-1"),
    ("mortgage arrangement fee £995 moor-1", "paid mortgage arrangement fee £995 to moor-1"),
)  # fmt: skip
PUT += (
    ("insurance both houses £511", "paid insurance £511 across all, split equally"),
    ("gas safety check both £150", "paid gas safety check £150 across all, split equally"),
    ("washing machine repair b-2 £65", "repaired washing machine £65 at b-2"),
    ("dray paid 620", "received rent £620 from dray"),
    ("dray 560 rent", "received rent £560 from dray"),
    ("landlord licence a-1, b-2 £1,950", "paid landlord licence £1,950 across a-1 and b-2, split equally"),
    ("dk did boiler service £80", "paid boiler service £80 to dk"),
    ("electric and gas while empty £96.40", "paid electric and gas £96.40"),
    ("void cleaning b-2 £130 by dk", "paid void cleaning £130 at b-2 to dk"),
    ("bog, basin and bath £380 by dk, none before", "installed bog and basin and bath £380 by dk, none before"),
    ("double glazed units x 4 £620 by dk, like for like", "replaced 4 double glazed units £620 by dk, like for like"),
)
ASKED = (
    ("hale paid us £586.15", "`banked £586.15 from hale`"),
    ("dray 560", "`received rent £560 from dray` if it came to you"),
    ("from Hale & Hart £642.00 (rent less commission)", "`banked £642.00 from hale`"),
    ("new carpets upstairs £860 from dk", "`9 Jun 2025 replaced upstairs carpets £860 from dk` if it took the place"),
    ("tenant find fee £425 + vat to hale", "`9 Jun 2025 paid tenant find fee £… to hale`"),
    ("dk did boiler £180", "`9 Jun 2025 repaired boiler £180 by dk` if the old one was mended"),
    ("DK did boiler b-2 £180", "`9 Jun 2025 repaired boiler £180 at b-2 by dk` if the old one was mended"),
    ("room rents b-2 £860", "`received rent £860 from …`, with the tenancy's name"),
    ("lino kitchen £185 by dk", "`9 Jun 2025 replaced lino in kitchen £185 by dk` if it took the place of an old one"),
    ("smoke alarms £42 from dk", "`9 Jun 2025 installed smoke alarms £42 from dk` if there was none before"),
    ("hale £898.80", "`banked £898.80 from hale`"),
    ("dk £60", "`repaired … £60 by dk`"),
    ("moor-1 £249.08", "`paid mortgage interest £249.08 to moor-1`"),
    ("deposit £700 off dray", "`received deposit £700 from dray` if it came to you"),
    ("rent £400 dray, £250 short", "`received rent £400 from dray`"),
)  # fmt: skip
LEFT = ("bank interest £3.20", "legal letter to dray £120", "rent £650", "deposit £980", "frobnicator £20", "took £5,000 out")


def told(line: str) -> Problem:
    return with_verbs(build({"a.book": f"{HEAD}9 Jun 2025 {line}"}))[0]


@pytest.mark.parametrize(("typed", "write"), PUT)
def test_what_is_known_has_a_line_to_paste_that_passes(typed: str, write: str) -> None:
    problem = told(typed)

    assert problem.code in ("unknown-verb", "verb-missing", "verb-first")
    assert problem.fix is not None and problem.fix.line == f"9 Jun 2025 {write}"
    book = build({"a.book": HEAD + problem.fix.line})
    assert not book.problems
    assert not [doubt for doubt in doubts(book) if doubt.code in ("thing-unknown", "name-as-thing", "what-was-done")]


@pytest.mark.parametrize(("typed", "says"), ASKED)
def test_what_is_open_has_a_line_for_each_answer(typed: str, says: str) -> None:
    problem = told(typed)

    assert says in problem.help and problem.fix is None


def test_commands_ask_for_all_that_is_told() -> None:
    assert CODES | {"net-only"} == TOLD_ON


def test_what_failed_was_there_before() -> None:
    assert "installed" not in told("burst pipe £145 by dk").help
    assert "`9 Jun 2025 repaired burst pipe £145 by dk`" in told("burst pipe £145 by dk").help


def test_a_shop_mends_nothing() -> None:
    assert "repaired" not in told("smoke alarms £42 from dk").help
    assert "repaired" in told("smoke alarms £42 by dk").help


@pytest.mark.parametrize("typed", LEFT)
def test_what_may_have_come_or_is_unknown_or_holds_a_second_sum_is_not_put(typed: str) -> None:
    built = build({"a.book": f"{HEAD}9 Jun 2025 {typed}"}).problems[0]

    assert told(typed).help == built.help and told(typed).fix == built.fix


def test_a_name_whose_block_has_a_mistake_is_known_all_the_same() -> None:
    broken = HEAD.replace("rent £500 a month", "rent £500 every blue moon")
    found = with_verbs(build({"a.book": f"{broken}9 Jun 2025 rent £650 dray"}))

    assert "received rent £650 from dray" in [problem.fix.line[11:] for problem in found if problem.fix]
