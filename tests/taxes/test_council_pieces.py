"""The pieces council tax is worked out with: lengths of time, instalments, questions, who answers. Cases are ours."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from ledger_tools.days import Period, TaxYear
from ledger_tools.taxes.council.answers import MOST, QUESTIONS, Answers, every_way
from ledger_tools.taxes.council.bill import Worked, rates, work_out
from ledger_tools.taxes.council.facts import gather
from ledger_tools.taxes.council.instalments import instalments, number
from ledger_tools.taxes.council.premiums import most_after
from ledger_tools.taxes.council.years import council_year, days_of, first_after

from .council_books import SCHEME, book, let

D = date
FIRST, LAST = D(2025, 4, 1), D(2026, 3, 31)


@pytest.mark.parametrize(("year", "days"), [(2015, 366), (2022, 365), (2023, 366), (2024, 365), (2027, 366)])
def test_the_councils_year_has_the_days_of_its_own_february(year: int, days: int) -> None:
    assert days_of(TaxYear(year)).days == days


def test_the_councils_year_begins_five_days_before_the_tax_year() -> None:
    assert council_year(D(2025, 3, 31)) == TaxYear(2024)
    assert council_year(D(2025, 4, 1)) == council_year(D(2025, 4, 6)) == TaxYear(2025)


@pytest.mark.parametrize(
    ("start", "months", "first"),
    [
        (D(2025, 1, 15), 1, D(2025, 2, 15)),
        (D(2025, 1, 31), 1, D(2025, 3, 1)),  # to the last day of February
        (D(2024, 2, 29), 12, D(2025, 3, 1)),
        (D(2024, 8, 31), 6, D(2025, 3, 1)),
        (D(2024, 11, 18), 6, D(2025, 5, 18)),
    ],
)
def test_a_month_ends_the_day_before_the_same_date(start: date, months: int, first: date) -> None:
    assert first_after(start, months) == first


# ── instalments: B26, Taunton Deane and Wandsworth, tables by month of the bill; sums ours ────────────────────────────


@pytest.mark.parametrize(
    ("month", "count"), [(4, 10), (5, 9), (6, 8), (7, 7), (8, 6), (9, 5), (10, 4), (11, 3), (12, 2)]
)
def test_a_bill_has_as_many_instalments_as_its_month_leaves(month: int, count: int) -> None:
    assert number(D(2025, month, 12), D(2025, 4, 1)) == count


def test_a_bill_in_the_last_months_is_one_sum_and_one_for_the_next_year_has_ten() -> None:
    assert number(D(2026, 1, 2), D(2025, 4, 1)) == number(D(2026, 3, 12), D(2025, 4, 1)) == 1
    assert number(D(2026, 3, 12), D(2026, 4, 1)) == 10
    assert number(D(2026, 4, 2), D(2025, 4, 1)) == number(D(2026, 7, 2), D(2025, 4, 1)) == 1  # for a year gone by


@pytest.mark.parametrize(
    ("pence", "count", "first", "each"),
    [(1013_93, 10, 104_93, 101_00), (241_64, 6, 41_64, 40_00), (1504_95, 9, 168_95, 167_00)],
)
def test_instalments_are_the_nearest_pound_and_the_first_is_the_rest(
    pence: int, count: int, first: int, each: int
) -> None:
    """C34."""
    assert instalments(pence, count) == (first, *[each] * (count - 1))


def test_no_instalment_is_under_five_pounds() -> None:
    """C35."""
    assert len(instalments(38_50, 9)) == 7
    assert instalments(3_00, 9) == (3_00,)


# ── questions ────────────────────────────────────────────────────────────────────────────────────────────────────


def test_a_question_is_tried_with_each_answer_and_a_doubt_with_its_usual_one() -> None:
    found = {tuple(a.given.items()): w for a, w in every_way(lambda a: (a.take("furnished"), a.take("premium day")))}

    assert sorted(found.values()) == [("furnished", "anniversary"), ("unfurnished", "anniversary")]


def test_an_answer_may_lead_to_another_question() -> None:
    def work(answers: Answers) -> str:
        return answers.take("again") if answers.take("furnished") == "unfurnished" else ""

    assert sorted(made for _, made in every_way(work)) == ["", "anew", "on"]


def test_there_is_an_end_to_trying() -> None:
    keys = [key for key, question in QUESTIONS.items() if not question.usual]
    assert len(list(every_way(lambda a: [a.take(key) for key in keys]))) <= MOST


def test_every_question_can_be_answered() -> None:
    for key, question in QUESTIONS.items():
        slugs = [slug for slug, _ in question.answers]
        assert question.key == key
        assert len(set(slugs)) == len(slugs) >= 2
        assert question.usual in ("", *slugs)
        assert question.write or question.source, "neither a word to write nor a source to read"


# ── who answers ──────────────────────────────────────────────────────────────────────────────────────────────────


def ways(
    house: str,
    lets: str = "",
    first: date = FIRST,
    last: date = LAST,
    given: dict[str, str] | None = None,
    **more: str,
) -> list[Worked]:
    made = book(house, "", lets, **more)
    facts = gather(made, "house")
    return [w for _, w in every_way(lambda a: work_out(facts, made.schemes, Period(first, last), a), given)]


def ours(worked: Worked) -> int:
    """The landlord's days."""
    return sum(segment.days.days for segment in worked.segments if segment.ours)


def company(fields: str) -> str:
    return let("host", fields).replace('"Host"', '"Host & Co Ltd"')


@pytest.mark.parametrize(
    ("fields", "days"),
    [("not assured; from 1 Jun 2025 to 30 Nov 2025", {61}), ("not assured; from 1 Jun 2025 to 31 Aug 2025", {61, 122})],
)
def test_a_company_lives_nowhere_and_answers_only_as_an_owner(fields: str, days: set[int]) -> None:
    """LGFA 1992 s. 6(2)(f), (5), (6): six months are an interest of its own, three are not, so who lives there is
    asked. 61 days of April and May are the landlord's, and 61 of June and July if nobody does."""
    found = ways(HELD, company(fields), D(2025, 4, 1), D(2025, 7, 31))

    assert {ours(worked) for worked in found} == days
    assert not any("Ltd lived there" in s.liable.why for worked in found for s in worked.segments)


EXECUTOR = {"heir": "executor"}
HELD = "bought 1 Jan 2010 for £1; unfurnished from 1 Jan 2010"


@pytest.mark.parametrize(
    ("fields", "days"),
    [
        # left 1 June, the let in law to 30 June; relet 1 August: 61 or 31 days
        ("from 1 Jan 2025 to 30 Jun 2025; moved out 1 Jun 2025; ended 30 Jun 2025", {31}),
        ("from 1 Jan 2024 to 30 Jun 2024; rolls on by contract; moved out 1 Jun 2025; ended 30 Jun 2025", {31}),
        ("from 1 Jan 2024 to 30 Jun 2024; rolls on by law; moved out 1 Jun 2025; ended 30 Jun 2025", {61}),
        ("from 1 Jan 2024 to 30 Jun 2024; moved out 1 Jun 2025; ended 30 Jun 2025", {31, 61}),
        ("from 1 Mar 2025 to 30 Jun 2025; moved out 1 Jun 2025; ended 30 Jun 2025", {61}),  # four months
        ("periodic from 1 Jan 2024; moved out 1 Jun 2025; ended 30 Jun 2025", {61}),
        ("from 1 Jan 2025 to 30 Jun 2025; moved out 1 Jun 2025", {31, 61}),  # keys taken as its end, or not
        ("periodic from 1 Jan 2024; ended 30 Jun 2025", {31}),
    ],
)
def test_the_tenant_who_has_gone_answers_where_the_let_makes_them_owner(fields: str, days: set[int]) -> None:
    lets = let("gale", fields) + let("lark", "periodic from 1 Aug 2025")

    assert {ours(w) for w in ways(HELD, lets)} == days


def test_a_let_by_the_room_leaves_the_owner_to_answer_and_a_garage_does_not() -> None:
    room = let("gale", "room back bedroom; periodic from 1 Jan 2024")
    garage = let("lowe", "room garage; periodic from 1 Jan 2024")
    whole = let("lark", "periodic from 1 Jan 2024")

    assert {ours(w) for w in ways(HELD, room)} == {365}
    assert {ours(w) for w in ways(HELD, garage + whole)} == {0}


@pytest.mark.parametrize(("kind", "days"), [("assured", 0), ("not assured", 30)])
def test_from_may_2026_an_assured_tenancy_makes_its_holder_the_owner(kind: str, days: int) -> None:
    scheme = SCHEME.replace("2025-26", "2026-27")
    lets = let("gale", f"periodic from 1 Jan 2024; {kind}; moved out 1 Jun 2026; ended 30 Jun 2026") + let(
        "lark", "periodic from 1 Jul 2026"
    )
    found = ways(HELD, lets, D(2026, 4, 1), D(2027, 3, 31), scheme=scheme)

    assert {ours(w) for w in found} == {days}


def test_the_last_day_of_a_let_is_a_doubt_with_a_usual_answer() -> None:
    lets = let("gale", "from 1 Jan 2025 to 30 Jun 2025; moved out 30 Jun 2025; ended 30 Jun 2025") + let(
        "lark", "periodic from 1 Jul 2025"
    )
    made = book(HELD, "", lets)
    facts = gather(made, "house")
    span = Period(D(2025, 4, 1), D(2026, 3, 31))

    assert ours(work_out(facts, made.schemes, span, Answers())) == 1
    assert ours(work_out(facts, made.schemes, span, Answers({"last day": "tenant"}))) == 0


def test_a_room_let_beside_the_whole_house_makes_it_no_house_let_by_the_room() -> None:
    both = let("gale", "room annexe; periodic from 1 Jan 2024") + let("lark", "periodic from 1 Jan 2024")

    assert {ours(w) for w in ways(HELD, both)} == {0}


def test_before_it_became_empty_somebody_lived_there() -> None:
    """The book tells neither who nor since when, only the day from which it was empty."""
    found = ways("bought 1 Jan 2010 for £1; empty since 1 May 2025", "", FIRST, D(2025, 5, 31))

    assert {ours(w) for w in found} == {31}
    assert {w.segments[0].liable.party for w in found} == {"whoever lived there"}


def test_whose_the_day_of_leaving_is_can_be_read_in_two_ways() -> None:
    """Left on 1 June, the let ended on the 30th, with nothing in it that makes the tenant the owner."""
    made = book(HELD, "", let("gale", "periodic from 1 Jan 2024; moved out 1 Jun 2025; ended 30 Jun 2025"))
    facts = gather(made, "house")
    span = Period(D(2025, 6, 1), D(2025, 6, 30))

    assert ours(work_out(facts, made.schemes, span, Answers())) == 30
    assert ours(work_out(facts, made.schemes, span, Answers({"last day": "tenant"}))) == 29


@pytest.mark.parametrize(
    ("day", "nation", "days"),
    # a house in multiple occupation under one tenancy, from 1 December 2023 in England: the owner's, or the sharers'
    [
        (D(2023, 11, 30), "england", {0}), (D(2023, 12, 1), "england", {0, 1}), (D(2025, 6, 1), "england", {0, 1}),
        (D(2025, 6, 1), "wales", {0}), (D(2025, 6, 1), "scotland", {0}),
    ],
)  # fmt: skip
def test_sharers_under_one_tenancy_are_asked_about(day: date, nation: str, days: set[int]) -> None:
    lets = let("gale", "periodic from 1 Jan 2020")

    assert {ours(w) for w in ways(f"{HELD}; hmo from 1 Jan 2020", lets, day, day, nation=nation)} == days
    assert {ours(w) for w in ways(HELD, lets, day, day, nation=nation)} == {0}


def test_an_empty_room_of_a_house_let_by_the_room_is_no_void() -> None:
    lets = let("gale", "room 1; periodic from 1 Jan 2020") + let("lark", "room 2; periodic from 1 Jan 2020; ended 31 "
                                                                 "May 2025")  # fmt: skip

    assert factors(f"{HELD}; hmo from 1 Jan 2020", lets) == ["365 x 100"]


@pytest.mark.parametrize(("who", "factor"), [("one adult counts", 75), ("no adult counts", 50)])
def test_where_the_owner_answers_for_those_who_live_there_not_all_of_them_may_count(who: str, factor: int) -> None:
    """LGFA 1992 s. 11: a quarter off, or half."""
    lets = let("gale", "room 1; periodic from 1 Jan 2020")
    house = f"{HELD}; {who} from 1 Oct 2025 to 31 Dec 2025"

    assert factors(house, lets) == ["183 x 100", f"92 x {factor}", "90 x 100"]
    assert factors(house, let("gale", "periodic from 1 Jan 2020")) == []  # tenants who answer themselves


def test_the_discount_for_one_adult_is_taken_off_the_water_too() -> None:
    """Scottish Borders: the 25% of residents is mirrored on the water, discounts of empty homes are not."""
    scheme = plain("empty 10% off").replace("£1,825.00", "£1,825.00, water £365.00") + "    never reduced water\n"
    lets = let("gale", "room 1; periodic from 1 Jan 2020")
    found = ways(f"{HELD}; one adult counts from 1 Apr 2025", lets, scheme=scheme, nation="scotland")

    assert {w.pence for w in found} == {(1825_00 + 365_00) * 3 // 4}
    assert {w.pence for w in ways(HELD, scheme=scheme, nation="scotland", last=FIRST)} == {450 + 100}


def test_what_was_not_bought_has_no_day_of_completion_and_scotland_has_sections_of_its_own() -> None:
    heir = "inherited 1 May 2025 at £1; empty since 1 May 2025"
    before = {w.segments[0].liable for w in ways(heir)}
    assert {(who.party, "completion" in who.why) for who in before} == {("earlier owner", False)}
    scots = {
        w.segments[0].liable.law for w in ways("bought 1 May 2025 for £1; empty since 1 May 2025", nation="scotland")
    }
    assert scots == {"LGFA 1992 s. 75"}


# ── schemes ──────────────────────────────────────────────────────────────────────────────────────────────────────


def factors(
    house: str,
    lets: str = "",
    first: date = FIRST,
    last: date = LAST,
    given: dict[str, str] | None = None,
    **more: str,
) -> list[str]:
    """The landlord's stretches as "days x percent", where every answer leads to the same."""
    found = {tuple(_short(w)) for w in ways(house, lets, first, last, given, **more)}
    assert len(found) == 1
    return list(found.pop())


def _short(worked: Worked) -> list[str]:
    return [f"{s.days.days} x {int((s.due.factor or 0) * 100)}" for s in worked.segments if s.ours]


def plain(rule: str) -> str:
    """A scheme of one rule beside those that let nothing off."""
    return f"scheme mere 2025-26\n    charge band B £1,825.00\n    {rule}\n    furnished full\n"


NO_PREMIUM = "    premium 0% after 1 year\n"
NO_SECOND = "    second homes 0% from 1 Apr 2025\n"


def test_each_owner_anew_or_running_on() -> None:
    house = "bought 11 Apr 2025 for £1; empty since 1 Apr 2025; sold 11 May 2025 for £1"

    assert factors(house, scheme=plain("empty free for 28 days, shared with earlier owner")) == ["18 x 0", "12 x 100"]
    assert factors(house, scheme=plain("empty free for 28 days, anew for each owner")) == ["28 x 0", "2 x 100"]
    assert len({w.pence for w in ways(house, scheme=plain("empty free for 28 days"))}) == 2  # not told: both


def test_furnished_days_count_where_the_scheme_says_so() -> None:
    """Empty, then furnished and not lived in for 60 days, then empty again."""
    house = HELD.replace(
        "unfurnished from 1 Jan 2010", "empty since 1 Apr 2025; furnished from 1 May 2025 to 29 Jun 2025"
    )
    span = (D(2025, 6, 30), D(2025, 7, 29))

    assert factors(house, "", *span, scheme=plain("empty free for 1 month, again after 42 days lived in")) == [
        "30 x 100"
    ]
    assert factors(
        house, "", *span, scheme=plain("empty free for 1 month, again after 42 days lived in or furnished")
    ) == ["30 x 0"]


def test_a_home_out_of_the_valuation_list_bears_nothing_and_may_come_back_as_a_new_one() -> None:
    house = "bought 1 Jan 2020 for £1; empty since 1 Jan 2020; band deleted from 1 Jun 2025 to 31 Jul 2025"
    scheme = plain("empty full") + "    premium 100% after 1 year then 200% after 5 years\n"
    found = {tuple(_short(w)) for w in ways(house, scheme=scheme)}

    assert found == {("61 x 300", "61 x 0", "243 x 300"), ("61 x 300", "61 x 0", "243 x 100")}


def test_a_rule_for_some_houses_stands_before_the_rule_for_all() -> None:
    house = "bought 1 Jan 2010 for £1; furnished from 1 Jan 2010"
    here = "scheme mere 2025-26\n    charge band B £1,825.00\n    furnished full\n    furnished 35% off, only at {}\n"

    assert factors(house, scheme=here.format("house") + NO_SECOND) == ["365 x 65"]
    assert factors(house, scheme=here.format("hut and house") + NO_SECOND) == ["365 x 65"]
    assert factors(house, scheme=here.format("hut") + NO_SECOND) == ["365 x 100"]


def test_a_reduction_for_furnished_homes_may_need_a_time_of_being_lived_in() -> None:
    house = "bought 1 Jan 2010 for £1; furnished from 1 Jan 2010"
    lets = let("gale", "periodic from 1 Jan 2020; ended 31 Mar 2025") + let(
        "lark", "periodic from 1 Jun 2025; ended 31 Jul 2025"
    )
    scheme = "scheme mere 2025-26\n    charge band B £1,825.00\n    empty full\n    furnished 10% off for 3 months"

    assert factors(house, lets, scheme=f"{scheme}\n{NO_SECOND}") == ["61 x 90", "92 x 90", "151 x 100"]
    needed = f"{scheme}, again after 3 months lived in\n{NO_SECOND}"
    assert factors(house, lets, scheme=needed) == ["61 x 90", "243 x 100"]


def test_a_second_home_premium_may_have_steps() -> None:
    house = "bought 1 Jan 2010 for £1; furnished from 1 Jan 2010"
    lets = let("gale", "periodic from 1 Jan 2020; ended 30 Jun 2024")
    scheme = plain("empty full") + "    second homes 50% from 1 Apr 2025 then 80% after 1 year\n"

    assert factors(house, lets, scheme=scheme) == ["91 x 150", "274 x 180"]


def test_a_second_home_premium_that_waits() -> None:
    house = "bought 1 Jan 2010 for £1; furnished from 1 Jan 2010"
    lets = let("gale", "periodic from 1 Jan 2020; ended 31 May 2024")
    scheme = plain("empty full") + "    second homes 100% from 1 Apr 2025, waits 1 year\n"

    assert factors(house, lets, scheme=scheme) == ["61 x 100", "304 x 200"]


def test_a_works_discount_is_cut_off_by_its_tail() -> None:
    house = f"{HELD}; works from 1 Apr 2025 to 30 Apr 2025"
    lets = let("gale", "periodic from 1 Jan 2020; ended 31 Mar 2025")
    scheme = plain("empty full") + "    works 50% off for 12 months, ends 3 months after finishing\n"

    assert factors(house, lets, last=D(2025, 12, 31), scheme=scheme) == ["122 x 50", "153 x 100"]


def test_one_short_spell_does_not_break_the_year_of_works_and_two_do() -> None:
    """PCD Regulations reg. 2(2)(b): any one period not exceeding six weeks."""
    house = f"{HELD}; needs works from 1 Jan 2025"
    before = let("gale", "periodic from 1 Jan 2020; ended 31 Dec 2024")
    one = let("lark", "periodic from 1 Mar 2025; ended 20 Mar 2025")
    two = let("moss", "periodic from 1 May 2025; ended 20 May 2025")
    scheme = plain("empty full") + "    works 50% off for 12 months\n" + NO_PREMIUM
    span = (D(2025, 12, 30), D(2026, 1, 3))

    assert factors(house, before, *span, scheme=scheme) == ["2 x 50", "3 x 100"]
    assert factors(house, before + one, *span, scheme=scheme) == ["2 x 50", "3 x 100"]
    assert factors(house, before + one + two, *span, scheme=scheme) == ["5 x 50"]  # the year began anew after the first


def test_a_scottish_exemption_begins_anew_only_after_three_months_lived_in() -> None:
    house = f"{HELD}"
    long = let("gale", "periodic from 1 Jan 2020; ended 31 Jan 2025") + let(
        "lark", "periodic from 1 Mar 2025; ended 31 May 2025"
    )
    short = let("gale", "periodic from 1 Jan 2020; ended 31 Jan 2025") + let(
        "lark", "periodic from 1 Mar 2025; ended 15 May 2025"
    )
    scheme = plain("empty full")

    assert factors(house, long, D(2025, 6, 1), D(2025, 6, 30), scheme=scheme, nation="scotland") == ["30 x 0"]
    assert factors(house, short, D(2025, 6, 1), D(2025, 6, 30), scheme=scheme, nation="scotland") == ["30 x 100"]


def test_a_home_bought_for_works_in_scotland_keeps_its_discount_for_half_a_year() -> None:
    house = "bought 1 May 2025 for £1; empty since 1 Jan 2020; needs works from 1 May 2025"
    scheme = plain("empty full") + "    premium 100% after 1 year\n"

    assert factors(house, "", scheme=scheme, nation="scotland") == ["184 x 50", "151 x 200"]


def test_a_premium_may_be_more_than_double_in_scotland_but_not_in_wales() -> None:
    house = "bought 1 Jan 2010 for £1; empty since 1 Jan 2020"
    scheme = plain("empty full") + "    premium 350% after 1 year\n"

    assert factors(house, "", scheme=scheme, nation="scotland") == ["365 x 450"]
    assert factors(house, "", scheme=scheme, nation="wales") == ["365 x 400"]


def test_no_premium_where_the_council_agrees_that_none_is_due() -> None:
    house = "bought 1 Jan 2010 for £1; empty since 1 Jan 2020; no premium from 1 May 2025 to 31 May 2025"
    scheme = plain("empty full") + "    premium 100% after 1 year\n"

    assert factors(house, "", D(2025, 4, 1), D(2025, 6, 30), scheme=scheme) == ["30 x 200", "31 x 100", "30 x 200"]


@pytest.mark.parametrize(("bought", "spared"), [("1 Jan 2010", 0), ("1 Jun 2025", 274)])
def test_a_sale_lets_the_year_on_the_market_for_sale_begin_anew(bought: str, spared: int) -> None:
    """SI 2024/1007 Class G: for sale from 1 July 2024 by the seller, sold on 1 June, for sale again from 1 July."""
    house = f"bought {bought} for £1; empty since 1 Jan 2020; marketed for sale from 1 Jul 2024 to 31 May 2025"
    scheme = plain("empty full") + "    premium 100% after 1 year\n"
    found = ways(f"{house}; marketed for sale from 1 Jul 2025", scheme=scheme)
    last = {sum(s.days.days for s in w.segments if s.days.first >= D(2025, 7, 1) and s.due.spared) for w in found}

    assert last == {spared}


@pytest.mark.parametrize(
    ("nation", "band", "pence"),
    # C41, our cases by LGFA 1992 s. 74 (Scotland) and s. 5 (England) from band D 1,368.00
    [
        ("scotland", "A", 912_00), ("scotland", "E", 1797_40), ("scotland", "H", 3351_60), ("england", "E", 1672_00),
        ("england", "B", 1064_00), ("wales", "I", 3192_00),
    ],
)  # fmt: skip
def test_a_charge_is_worked_out_from_another_band(nation: str, band: str, pence: int) -> None:
    made = book(HELD, "", scheme="scheme mere 2025-26\n    charge band D £1,368.00\n    empty full\n")

    assert [rate.annual for rate in rates(made.schemes, "mere", band.lower(), TaxYear(2025), nation)] == [pence]


def test_no_charge_is_made_up_where_no_band_is_told() -> None:
    made = book(HELD, "", scheme="scheme mere 2025-26\n    empty full\n")

    assert rates(made.schemes, "mere", "b", TaxYear(2025), "england") == ()
    assert rates(made.schemes, "mere", "b", TaxYear(2024), "england") == ()


@pytest.mark.parametrize(("ended", "factor"), [(D(2025, 5, 11), 200), (D(2025, 5, 12), 100)])
def test_in_scotland_a_spell_of_six_weeks_stops_the_time_to_the_premium(ended: date, factor: int) -> None:
    """SI 1997/728: less than six weeks is overlooked, so 41 days are and 42 are not."""
    house = "bought 1 Jan 2010 for £1; empty since 1 Jan 2020"
    lets = let("gale", f"periodic from 1 Apr 2025; ended {ended.day} May 2025")
    scheme = plain("empty full") + "    premium 100% after 1 year\n"

    assert factors(house, lets, D(2025, 6, 1), D(2025, 6, 30), scheme=scheme, nation="scotland") == [f"30 x {factor}"]


@pytest.mark.parametrize(("last", "sums"), [(12, 2), (13, 1)])
def test_a_short_let_is_asked_about_where_the_scheme_is_silent(last: int, sums: int) -> None:
    """Empty, let for 42 or 43 days, empty: whether the free month begins anew."""
    house = HELD.replace("unfurnished from 1 Jan 2010", "empty since 1 Apr 2025")
    lets = let("gale", f"periodic from 1 May 2025; ended {last - 1} Jun 2025")
    found = ways(house, lets, D(2025, 6, 15), D(2025, 6, 30), scheme=plain("empty free for 1 month"))

    assert len({w.pence for w in found}) == sums


def test_who_leaves_on_the_first_day_of_the_new_law_answers_until_the_let_ends() -> None:
    scheme = SCHEME.replace("2025-26", "2026-27")
    lets = let("gale", "periodic from 1 Jan 2024; assured; moved out 1 May 2026; ended 31 May 2026")
    found = ways(HELD, lets, D(2026, 4, 1), D(2026, 5, 31), scheme=scheme)

    assert {ours(w) for w in found} == {0}


def test_in_wales_no_let_goes_on_by_its_own_words() -> None:
    lets = let("gale", "from 1 Jan 2024 to 30 Jun 2024; rolls on by contract; moved out 1 Jun 2025; ended 30 Jun 2025")

    assert {ours(w) for w in ways(HELD, lets, D(2025, 6, 1), D(2025, 6, 30), nation="wales")} == {30}


def test_a_reduction_that_waits_begins_later() -> None:
    house = "bought 1 Apr 2025 for £1; empty since 1 Apr 2025"
    scheme = plain("empty free for 1 month, waits 2 weeks")

    assert factors(house, "", FIRST, D(2025, 6, 30), scheme=scheme) == ["14 x 100", "30 x 0", "47 x 100"]


@pytest.mark.parametrize(
    ("lived", "factor"),
    [
        ("", 0),
        ("; lived in from 1 Jul 2025 to 11 Aug 2025", 0),  # 42 days, once
        ("; lived in from 1 Jul 2025 to 12 Aug 2025", 100),
        ("; lived in from 1 Jul 2025 to 10 Jul 2025; lived in from 1 Aug 2025 to 10 Aug 2025", 100),
    ],
)
def test_an_estate_is_exempt_with_one_short_spell_of_being_lived_in(lived: str, factor: int) -> None:
    """SI 1992/558 art. 2(3), Class F."""
    house = f"inherited 1 May 2025 at £1; owner died 1 May 2025; empty since 1 May 2025{lived}"
    days = factors(house, "", D(2025, 9, 1), D(2025, 9, 30), EXECUTOR, scheme=plain("empty full"))

    assert days == [f"30 x {factor}"]


def test_an_estate_is_exempt_to_half_a_year_after_probate() -> None:
    house = "inherited 1 May 2025 at £1; owner died 1 May 2025; probate 15 Jun 2025; empty since 1 May 2025"

    days = factors(house, "", D(2025, 5, 1), D(2025, 12, 31), EXECUTOR, scheme=plain("empty full"))

    assert days == ["228 x 0", "17 x 100"]


@pytest.mark.parametrize(
    ("got", "days"),
    [
        ("given 1 Aug 2025 at £1", ["153 x 100"]), ("bought 1 Aug 2025 for £1", ["153 x 100"]),
        ("inherited 1 Aug 2025 at £1", ["153 x 100"]),  # after probate, so it has passed to the heir
    ],
)  # fmt: skip
def test_who_holds_it_in_his_own_right_has_no_exemption_of_the_estate(got: str, days: list[str]) -> None:
    """SI 1992/558 Class F: nobody may answer but as the executor. Half a year after probate would be 14 December."""
    house = f"{got}; owner died 1 May 2025; probate 15 Jun 2025; empty since 1 May 2025"

    assert factors(house, "", D(2025, 8, 1), D(2025, 12, 31), scheme=plain("empty full")) == days


@pytest.mark.parametrize("probate", ["", "; probate 15 Jun 2025"])
def test_who_inherited_before_probate_is_asked_as_whom_he_holds_it(probate: str) -> None:
    """31 days of July, exempt for the executor and at 5.00 a day for the heir."""
    house = f"inherited 1 Jun 2025 at £1; owner died 1 May 2025; empty since 1 May 2025{probate}"
    found = ways(house, "", D(2025, 7, 1), D(2025, 7, 31), scheme=plain("empty full"))

    assert {w.pence for w in found} == {0, 31 * 5_00}


# ── ceilings: B20, LGFA 1992 s. 11B through the years; Waltham Forest prints the same table ───────────────────────────


@pytest.mark.parametrize(
    ("year", "one", "two", "five", "ten"),
    [
        (2013, 0, 50, 50, 50), (2018, 0, 50, 50, 50), (2019, 0, 100, 100, 100), (2020, 0, 100, 200, 200),
        (2021, 0, 100, 200, 300), (2023, 0, 100, 200, 300), (2024, 100, 100, 200, 300), (2026, 100, 100, 200, 300),
    ],
)  # fmt: skip
def test_the_most_a_council_in_england_may_charge_on_top(year: int, one: int, two: int, five: int, ten: int) -> None:
    day = D(year, 4, 1)
    found = [most_after("england", first_after(day, -12 * years), day) for years in (1, 2, 5, 10)]

    assert [share * 100 for share, _ in found if share is not None] == [one, two, five, ten]
    assert most_after("england", first_after(day, -12) + timedelta(days=1), day) == (0, "LGFA 1992 s. 11B")


def test_the_most_a_council_in_wales_may_charge_on_top_and_none_known_in_scotland() -> None:
    assert most_after("wales", D(2015, 4, 1), D(2022, 4, 1)) == (1, "Local Government Finance Act 1992, s. 12A")
    assert most_after("wales", D(2015, 4, 1), D(2023, 4, 1)) == (
        3,
        "Local Government Finance Act 1992, s. 12A as amended",
    )
    assert most_after("scotland", D(2015, 4, 1), D(2025, 4, 1)) is None


def test_a_premium_after_one_year_was_not_lawful_before_2024() -> None:
    scheme = "scheme mere 2023-24\n    charge band B £1,830.00\n    empty full\n    premium 100% after 1 year\n"
    found = ways("bought 1 Jan 2010 for £1; empty since 1 Jun 2022", "", D(2023, 7, 1), D(2023, 7, 31), scheme=scheme)

    assert {w.pence for w in found} == {31 * 500}
    assert {s.due.cut for w in found for s in w.segments} == {1}


def test_a_furnished_home_between_two_lets_in_scotland_is_a_second_home_or_an_empty_one() -> None:
    """SSI 2013/45 reg. 2 turns on 25 days of being lived in, which no book tells: both are shown."""
    house = "bought 1 Jan 2010 for £1; furnished from 1 Jan 2010"
    lets = let("gale", "periodic from 1 Jan 2020; ended 31 May 2025") + let("lark", "periodic from 1 Jul 2025")
    scheme = "scheme mere 2025-26\n    charge band B £1,825.00\n    furnished 10% off for 12 months\n"
    scheme += "    second homes 100% from 1 Apr 2024\n    premium 100% after 1 year\n"

    assert {w.pence for w in ways(house, lets, scheme=scheme, nation="scotland")} == {30 * 450, 30 * 1000}


def test_whether_somebody_lived_there_for_three_months_in_scotland_is_asked_where_the_book_does_not_tell() -> None:
    """SI 1997/728 Sch. 1 para. 4: 30 days of April, exempt or at 5.00 a day."""
    house = "bought 1 Apr 2025 for £1; empty since 1 Mar 2025"
    told = f"{house}; lived in from 1 Jan 2024 to 28 Feb 2025"
    days = (D(2025, 4, 1), D(2025, 4, 30))

    found = ways(house, "", *days, scheme=plain("empty full"), nation="scotland")
    assert {w.pence for w in found} == {0, 30 * 5_00}
    assert factors(told, "", *days, scheme=plain("empty full"), nation="scotland") == ["30 x 0"]
