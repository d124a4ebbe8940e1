"""The money of the works: the history of each price, each sum in one place, what is still to come."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from ledger_tools.render.refurb import about_totals, notes
from ledger_tools.statements.refurb import NOTHING, NOW, OPEN, SALE
from tests.statements.works_books import SCHEDULE, book, control, money, pounds

PRICED = (
    "1 Apr 2025 estimated wiring £1,900.00 by volt\n3 Apr 2025 quoted wiring £2,150.00 by volt, number Q-1\n"
    "5 Apr 2025 agreed quote Q-1 by volt\n9 Apr 2025 varied quote Q-1 £200.00 more by volt\n"
    "10 Apr 2025 varied quote Q-1 £50.00 less by volt\n"
)


@pytest.mark.parametrize(
    "on, told",
    [
        (date(2025, 3, 31), ("2000.00", "-", "-", "-", "0.00", "2000.00", "rough")),
        (date(2025, 4, 1), ("2000.00", "1900.00", "-", "-", "0.00", "1900.00", "estimated")),
        (date(2025, 4, 3), ("2000.00", "1900.00", "2150.00", "-", "0.00", "2150.00", "quoted")),
        (date(2025, 4, 5), ("2000.00", "1900.00", "2150.00", "2150.00", "0.00", "2150.00", "agreed")),
        (date(2025, 4, 9), ("2000.00", "1900.00", "2150.00", "2150.00", "200.00", "2350.00", "agreed")),
        (date(2025, 4, 30), ("2000.00", "1900.00", "2150.00", "2150.00", "150.00", "2300.00", "agreed")),
    ],
)
def test_a_price_grows_up(on: date, told: tuple[str, ...]) -> None:
    found = money(control(PRICED, on), "replace wiring")
    p = found.prices
    sums = (p.rough, p.estimate, p.quote, p.agreed, p.varied, found.forecast)

    assert (*map(pounds, sums), found.basis) == told


def test_a_bill_takes_the_place_of_what_was_agreed_once_the_job_is_done() -> None:
    bill = "2 May 2025 replaced {}wiring £2,280.00 by volt, number 7, against quote Q-1\n"
    done = money(control(PRICED + bill.format("")), "replace wiring")
    part = money(control(PRICED + bill.format("part of ")), "replace wiring")

    assert (done.done, pounds(done.forecast), done.basis, pounds(done.more), done.percent) == (
        True, "2280.00", "billed", "280.00", 14,
    )  # fmt: skip
    assert (part.done, pounds(part.billed.pence), pounds(part.forecast)) == (False, "2280.00", "2300.00")


def test_a_quote_that_is_cancelled_counts_no_more_and_a_job_called_off_costs_nothing() -> None:
    gone = money(control(PRICED + "12 Apr 2025 cancelled quote Q-1 by volt\n"), "replace wiring")
    off = money(control("2 Apr 2025 cancelled tap in kitchen\n"), "install tap")

    assert (pounds(gone.forecast), gone.basis) == ("1900.00", "estimated")
    assert (pounds(off.forecast), off.basis) == ("0.00", "called off")


def test_what_is_agreed_without_a_number_is_the_latest_offer_that_stands() -> None:
    two = "1 Apr 2025 quoted wiring £2,100.00 by volt, number 1\n2 Apr 2025 quoted wiring £2,500.00 by volt, number 2\n"
    gone = "3 Apr 2025 cancelled quote 2 by volt\n4 Apr 2025 agreed wiring by volt\n"

    assert pounds(money(control(two + "4 Apr 2025 agreed wiring by volt\n"), "replace wiring").forecast) == "2500.00"
    assert pounds(money(control(two + gone), "replace wiring").forecast) == "2100.00"


def test_paid_held_back_owed_and_paid_ahead() -> None:
    lines = (
        "1 Apr 2025 quoted plaster in lounge £400.00 by pell, number P-1\n2 Apr 2025 agreed quote P-1 by pell\n"
        "3 Apr 2025 paid £100.00 to pell against quote P-1\n"
    )
    ahead = money(control(lines), "repair plaster")
    bill = (
        "20 Apr 2025 invoiced £400.00 by pell, number 4, against quote P-1, retention 5%\n"
        "    repaired plaster in lounge £400.00, worn out\n"
        "25 Apr 2025 paid £250.00 to pell against invoice 4\n"
    )
    found = money(control(lines + bill), "repair plaster")

    assert (pounds(ahead.ahead), pounds(ahead.billed.pence), pounds(ahead.paid)) == ("100.00", "0.00", "0.00")
    sums = (found.billed.pence, found.paid, found.retained, found.owed, found.ahead)
    assert [pounds(pence) for pence in sums] == ["400.00", "350.00", "20.00", "30.00", "0.00"]


def test_unplanned_work_is_shown_as_such_and_has_no_per_cent() -> None:
    found = control("1 Apr 2025 repaired joist in lounge £260.00 by pell\n")
    joist = money(found, "joist")

    assert (joist.job.planned, joist.more, joist.percent, pounds(joist.forecast)) == (False, None, None, "260.00")
    assert (pounds(found.unplanned), pounds(found.total.unplanned)) == ("260.00", "260.00")
    assert pounds(found.total.more) == "260.00"


def test_contingency_is_drawn_by_its_own_lines_and_asked_for_where_none_is_told() -> None:
    drew = '1 Apr 2025 drew contingency £100.00 in lounge, because "joist"\n'
    told, none = control(drew), control("", schedule=SCHEDULE.replace("    contingency 10%\n", ""))

    assert pounds(told.contingency.told) == "339.00"  # 10% of 2000 + 400 + 50 + 900 + 40
    assert (pounds(told.contingency.left), len(told.contingency.drawn.trail)) == ("239.00", 1)
    assert none.contingency.told is None
    assert none.contingency.choices == ((10, 33900), (15, 50850), (20, 67800))


def test_contingency_is_not_for_what_is_only_nice_to_have() -> None:
    """Practice: money goes to priority 1 first, and what is held for surprises never to priority 5."""
    plan = SCHEDULE + "    in garden\n        5 install outside tap £150\n"
    lines = (
        '1 Apr 2025 drew contingency £80.00 in garden, because "a nicer tap"\n'
        '2 Apr 2025 drew contingency £100.00 in lounge, because "joist"\n'
        '3 Apr 2025 drew contingency £30.00 in hall, because "a lamp"\n'  # nothing is planned there
    )
    found = control(lines, schedule=plan)
    (note,) = [note for note in notes(found) if "priority 5" in note]

    assert pounds(found.contingency.nice.pence) == "80.00"
    assert "£80.00" in note and found.contingency.nice.trail[0].source in note
    assert not any("priority 5" in note for note in notes(control(lines.partition("\n")[2], schedule=plan)))


def test_resale_of_what_was_taken_out_goes_against_its_job() -> None:
    found = control(
        '1 Apr 2025 replaced 3 windows in kitchen £800.00, like for like, old one sold £25.00 to "a builder"\n'
        "2 Apr 2025 replaced wiring £2,000.00 by volt\n"
        '3 Apr 2025 sold scrap copper £30.00 to "Metals", goes with wiring\n'
    )

    assert pounds(money(found, "replace 3 windows").resale.pence) == "25.00"
    assert pounds(money(found, "replace wiring").resale.pence) == "30.00"
    assert pounds(found.net) == "2745.00"


def test_own_labour_is_hours_and_never_money_and_miles_are_beside_the_sums() -> None:
    found = control(
        '1 Apr 2025 decorated lounge £40.00, own labour 6.5 hours\n2 Apr 2025 drove 18 miles "merchant and back"\n'
        '3 Jul 2025 drove 10 miles "to the tenants"\n'
    )

    assert (found.hours * 2, found.miles, pounds(found.net)) == (13, 18, "40.00")
    assert pounds(found.mileage) == "8.10"  # 18 miles at 45p, the published rate of 2025-26


def test_what_the_house_cost_beside_the_works_has_its_own_place_by_its_days() -> None:
    lines = (
        "1 Mar 2025 paid stamp duty £5,000.00\n"
        '1 Apr 2025 billed council tax £366.00 by "Wold Council" for 1 Apr 2025 to 31 Mar 2026\n'
        '1 Apr 2025 repaired plaster in lounge £400.00 by pell\n1 Aug 2025 paid insurance £90.00 to "Tide"\n'
    )
    found = control(lines)
    late = '9 Jul 2025 billed water £61.00 by "Tide" for 1 Jun 2025 to 31 Jul 2025\n'
    assert control(lines + late).waiting.pence == found.waiting.pence + 30_00, "billed later, for June"

    assert pounds(found.buying.pence) == "105000.00"
    assert pounds(found.waiting.pence) == pounds(round(36600 * 91 / 365))  # April, May and June
    assert found.whole == found.buying.pence + found.waiting.pence + found.net


def test_the_tax_return_sees_the_works_by_their_verdicts() -> None:
    found = control(
        "1 Apr 2025 repaired plaster in lounge £400.00 by pell, worn out\n"
        "2 Apr 2025 installed conservatory £700.00\n"
        '3 Apr 2025 bought sofa in lounge £300.00 from "Barn", none before\n'
        "4 Apr 2025 replaced worktop in kitchen £410.00\n"
    )

    assert {f.slug: pounds(f.pence) for f in found.tax if f.trail} == {
        NOW: "400.00", SALE: "700.00", NOTHING: "300.00", OPEN: "410.00",
    }  # fmt: skip


def test_what_scrap_brought_comes_off_the_work_it_came_from_and_other_sales_do_not() -> None:
    """G1 of the rules in words: scrap of a replaced part comes off that repair."""
    found = control(
        "1 Apr 2025 replaced wiring £400.00 by pell, like for like, worn out\n"
        '2 Apr 2025 sold scrap copper £38.00 to "Metals", goes with wiring\n'
        '3 Apr 2025 sold sofa £60.00 to "a neighbour", ours before\n'
    )

    assert {f.slug: pounds(f.pence) for f in found.tax if f.trail} == {NOW: "362.00"}


THINGS = ["wiring", "plaster in lounge", "windows in kitchen", "tap in kitchen", "gutters", "joist in hall", "lounge"]
Told = tuple[int, str, str, str, int]
LINE = st.tuples(
    st.integers(1, 28), st.sampled_from(["Apr", "May", "Jun"]), st.sampled_from(["repaired", "replaced", "installed"]),
    st.sampled_from(THINGS), st.integers(1, 500_000),
)  # fmt: skip


def write(line: Told) -> str:
    day, month, verb, thing, pence = line
    verb = "decorated" if thing == "lounge" else verb
    return f"{day} {month} 2025 {verb} {thing} £{pence // 100}.{pence % 100:02d} by pell\n"


@settings(max_examples=40, deadline=None)
@given(st.lists(LINE, max_size=9), st.lists(st.integers(1, 90_000), max_size=3))
def test_every_sum_has_one_place_and_the_parts_add_up(lines: list[Told], extra: list[int]) -> None:
    bills = "".join(f"2 Jun 2025 paid insurance £{p // 100}.{p % 100:02d} to volt\n" for p in extra)
    found = control("".join(map(write, lines)) + bills)

    assert found.total.billed == sum(line[-1] for line in lines)
    assert found.waiting.pence == sum(extra)
    for groups in (found.rooms, found.trades):
        assert sum(g.billed for g in groups) == found.total.billed
        assert sum(g.forecast for g in groups) == found.total.forecast
        assert sum(g.rough for g in groups) == found.total.rough == 3_390_00
        assert sum(len(g.jobs) for g in groups) == len(found.jobs)
    assert sum(f.pence for f in found.tax) == found.total.billed - found.back.pence
    assert all(j.paid + j.retained + j.owed == j.billed.pence for j in found.jobs)
    sources = [t.source for j in found.jobs for t in j.billed.trail]
    assert len(sources) == len(set(sources)) == len(lines)


@settings(max_examples=20, deadline=None)
@given(st.permutations(PRICED.splitlines(keepends=True)))
def test_the_order_of_lines_changes_no_price(lines: list[str]) -> None:
    found = money(control("".join(lines)), "replace wiring")

    assert (found.prices.committed, found.forecast) == (230_000, 230_000)
    assert book("".join(lines)).entries[0].verb == "estimated"


def test_without_a_job_on_the_schedule_nothing_is_called_done() -> None:
    lines = "2 May 2025 replaced fence £90.00 by pell, like for like\n"
    bare = "    target let from 1 Jul 2025 at £600 a month\n"

    assert "The schedule has no jobs" in about_totals(control(lines, schedule=bare))[0]
    assert "not done yet" in about_totals(control(lines))[0]
