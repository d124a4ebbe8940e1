"""The year on the market without a premium, and what begins it anew. Cases and hand figures are ours."""

from __future__ import annotations

from datetime import date

import pytest

from ledger_tools.days import Period
from ledger_tools.taxes.council.answers import every_way
from ledger_tools.taxes.council.bill import Worked, work_out
from ledger_tools.taxes.council.facts import gather

from .council_books import book, let

D = date
YEAR = Period(D(2025, 4, 1), D(2026, 3, 31))
SCHEME = """
scheme mere 2025-26
    charge band B £1,825.00
    empty full
    premium 100% after 1 year
"""
SHORT = let("aske", "not assured; from 1 May 2025 to 7 May 2025; moved out 7 May 2025; ended 7 May 2025")


def ways(house: str, lets: str, nation: str = "england") -> list[Worked]:
    made = book(f"bought 5 May 2022 for £1; empty since 1 Jan 2024; {house}", lets=lets, scheme=SCHEME, nation=nation)
    facts = gather(made, "house")
    return [worked for _, worked in every_way(lambda a: work_out(facts, made.schemes, YEAR, a))]


@pytest.mark.parametrize(("nation", "law"), [("england", "Class G"), ("wales", "Class 1")])
def test_a_short_let_does_not_begin_the_year_for_sale_anew(nation: str, law: str) -> None:
    """SI 2024/1007 Class G, WSI 2015/2068 Class 1: only a sale does. For sale from 1 June 2024, so without premium to
    31 May 2025. At 5.00 a day: 30 days of April and 25 of May at 5.00, 304 days at 10.00."""
    worked, *others = ways("marketed for sale from 1 Jun 2024", SHORT, nation)

    assert {other.pence for other in others} <= {worked.pence}

    assert worked.pence == (30 + 25) * 5_00 + 304 * 10_00
    assert [s.days.first for s in worked.segments if s.due.state == "long empty"] == [D(2025, 6, 1)]
    spared = [due.spared for s in worked.segments for _, due in s.reasons if due.spared]
    assert {one.until for one in spared} == {D(2025, 5, 31)}
    assert all("since 1 Jun 2024" in one.why and law in one.law for one in spared)


def test_coming_back_on_the_market_before_the_year_is_over_gives_a_range() -> None:
    """Off the market for the let: the year is over on 31 May, or runs from 8 May, and the law does not say."""
    found = ways("marketed for sale from 1 Jun 2024 to 30 Apr 2025; marketed for sale from 8 May 2025", SHORT)

    # 359 days in all; on 7 May it was on no market; from 1 June the premium, or none before the next May
    assert sorted({worked.pence for worked in found}) == [360 * 5_00, (359 + 1 + 304) * 5_00]


def test_a_year_for_sale_that_was_used_up_leaves_no_second_one() -> None:
    found = ways("marketed for sale from 1 Mar 2024 to 30 Apr 2025; marketed for sale from 8 May 2025", SHORT)

    assert {worked.pence for worked in found} == {359 * 10_00}


@pytest.mark.parametrize(("last", "spared"), [("31 Jul 2025", {321}), ("15 Feb 2025", {0, 321})])
def test_only_a_let_for_a_term_begins_the_year_to_let_anew(last: str, spared: set[int]) -> None:
    """SI 2024/1007 Class H. To let from 1 March 2024. A tenant for 15 days of February, under a term of six months or
    of less. The first begins the year anew on 16 February 2025, with 321 days of it in this council year; after the
    other, whether it does is asked."""
    lets = let("aske", f"not assured; from 1 Feb 2025 to {last}; moved out 16 Feb 2025; ended 15 Feb 2025")
    found = ways("marketed to let from 1 Mar 2024", lets)

    assert {sum(s.days.days for s in w.segments if s.due.spared) for w in found} == spared


def test_a_councils_own_charge_for_homes_on_the_market_names_what_stops_the_premium() -> None:
    """For sale from 1 March 2025, so Class G for all of the year but March."""
    scheme = SCHEME.replace("empty full", "empty full\n    for sale or let 10% off for 3 years")
    made = book("bought 5 May 2022 for £1; empty since 1 Jan 2024; marketed for sale from 1 Mar 2025", scheme=scheme)
    facts = gather(made, "house")
    first = next(every_way(lambda a: work_out(facts, made.schemes, YEAR, a)))[1].segments[0].due

    assert (first.state, first.factor * 10 if first.factor else None) == ("for sale or let", 9)
    assert first.spared is not None and "Class G" in first.law


def test_works_told_from_the_day_of_purchase_may_have_been_needed_before_it() -> None:
    """Class D is the home's: empty from 1 October 2024, bought on 1 January 2025. Half off for twelve months, which end
    on 30 September or on 31 December; then the premium at 10.00 a day, as Class M is over too."""
    scheme = SCHEME.replace("empty full", "empty full\n    works 50% off for 12 months")
    made = book("bought 1 Jan 2025 for £1; empty since 1 Oct 2024; needs works from 1 Jan 2025", scheme=scheme)
    facts = gather(made, "house")
    found = {w.pence for _, w in every_way(lambda a: work_out(facts, made.schemes, YEAR, a))}

    assert found == {183 * 2_50 + 182 * 10_00, 275 * 2_50 + 90 * 10_00}
