"""What is still to do: states from the lines, what waits, the last days for the target, hold points, cautions."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from ledger_tools.render.phone import ACROSS, DOWN
from ledger_tools.render.schedule import pages, text
from tests.statements.works_books import SCHEDULE, job, plan

ON = date(2025, 5, 1)
TIMED = """
    target let from 1 Jul 2025 at £600 a month
    in whole house
        1 replace wiring £2,000 by electrician, takes 5 days, book 3 weeks ahead
        1 certify electrical installation £180 by electrician
    in lounge
        2 repair plaster £400 by plasterer, takes 10 days
        3 decorate walls £50, own labour, needs plaster, takes 4 days
    in garden
        5 replace fence £90, takes 2 days
"""


@pytest.mark.parametrize(
    "lines, state",
    [
        ("", "to do"),
        ("1 Apr 2025 estimated wiring £1,900.00 by volt\n", "estimated"),
        ("1 Apr 2025 quoted wiring £1,900.00 by volt, number 1\n", "quoted"),
        ("1 Apr 2025 quoted wiring £1,900.00 by volt, number 1\n2 Apr 2025 agreed quote 1 by volt\n", "agreed"),
        ("1 Apr 2025 quoted wiring £1,900.00 by volt, number 1\n2 Apr 2025 cancelled quote 1 by volt\n", "to do"),
        ("1 Apr 2025 started wiring by volt\n", "started"),
        ("1 Apr 2025 replaced part of wiring £90.00 by volt\n", "to do"),
        ("1 Apr 2025 started wiring by volt\n9 Apr 2025 finished wiring by volt\n", "done"),
        ("1 Apr 2025 replaced wiring £1,900.00 by volt\n", "done"),
        ("1 Apr 2025 cancelled wiring\n", "called off"),
        ("1 Jun 2025 replaced wiring £1,900.00 by volt\n", "to do"),
    ],
)
def test_how_far_a_job_is_stands_in_its_lines(lines: str, state: str) -> None:
    found = job(plan(lines, ON), "replace wiring").state.name

    assert found == ("started" if "part of" in lines else state)


def test_a_trade_booked_and_goods_ordered() -> None:
    found = plan(
        "1 Apr 2025 booked volt for 12 May 2025 to 14 May 2025\n"
        '2 Apr 2025 ordered windows in kitchen £900.00 from "Glass", promised 20 May 2025, arrived 22 May 2025\n', ON,
    )  # fmt: skip
    wiring, windows = job(found, "replace wiring").state, job(found, "replace 3 windows").state

    assert wiring.booked is not None and wiring.booked.first == date(2025, 5, 12)
    assert job(found, "repair plaster").state.booked is None, "the electrician is not the plasterer"
    assert (windows.promised, windows.arrived) == (date(2025, 5, 20), None), "what came later is not known yet"
    assert [n.job.words for n in found.to_book] == ["repair plaster"]


def test_a_small_fault_stays_until_it_is_cured() -> None:
    snag = '1 Apr 2025 replaced wiring £1,900.00 by volt\n3 Apr 2025 snagged wiring "hums" by volt\n'
    open_, cured = plan(snag, ON), plan(snag + "9 Apr 2025 cured wiring by volt\n", ON)

    assert [e.note for e in job(open_, "replace wiring").state.snags] == ["hums"]
    assert not job(open_, "replace wiring").done
    assert job(cured, "replace wiring").done


def test_what_waits_for_what_by_its_own_word_and_by_custom() -> None:
    found = plan("", ON)
    walls, plaster = job(found, "decorate walls"), job(found, "repair plaster")

    assert (walls.needs, walls.usually) == (("repair plaster",), ("replace wiring",))
    assert (plaster.needs, plaster.usually) == ((), ("replace wiring",))
    assert job(plan("1 Apr 2025 repaired plaster in lounge £400.00\n", ON), "decorate walls").needs == ()
    assert "skirting (on no schedule)" in job(plan("", ON, SCHEDULE.replace("needs plaster", "needs skirting")),
                                              "decorate walls").needs  # fmt: skip


def test_the_last_days_are_counted_back_from_the_target() -> None:
    """By hand: certificate 30 Jun; walls end 29, so start 26 Jun; plaster ends 25, starts 16; wiring ends 15, starts
    11; three weeks before that is 21 May. The fence hangs on nothing: it ends 30 Jun, starts 29."""
    found = plan("", ON, TIMED)
    days = {n.job.words: (n.start_by, n.book_by) for n in found.jobs}

    assert days["certify electrical installation"] == (date(2025, 6, 30), date(2025, 6, 30))
    assert days["decorate walls"][0] == date(2025, 6, 26)
    assert days["repair plaster"][0] == date(2025, 6, 16)
    assert days["replace wiring"] == (date(2025, 6, 11), date(2025, 5, 21))
    assert days["replace fence"][0] == date(2025, 6, 29)
    assert found.untold == 1
    assert [n.job.words for n in found.to_book][0] == "replace wiring"


def test_a_job_done_holds_nothing_up_any_more() -> None:
    found = plan("1 Apr 2025 decorated lounge £50.00\n", ON, TIMED)

    assert job(found, "repair plaster").start_by == date(2025, 6, 20)
    assert job(found, "decorate walls").start_by is None


def test_jobs_that_need_each_other_in_a_ring_do_not_hang() -> None:
    ring = """
    target let from 1 Jul 2025 at £600 a month
    in lounge
        2 repair plaster £400, needs walls
        3 decorate walls £50, needs plaster
"""
    found = plan("", ON, ring)

    assert job(found, "repair plaster").needs == ("decorate walls",)
    assert job(found, "decorate walls").needs == ("repair plaster",)


def test_words_of_the_schedule_win_over_custom() -> None:
    turned = SCHEDULE.replace("£2,000 by electrician", "£2,000 by electrician, needs plaster")
    found = plan("", ON, turned)

    assert job(found, "replace wiring").needs == ("repair plaster",)
    assert job(found, "repair plaster").usually == ()


def test_the_hold_point_counts_photographs_and_goes_when_it_is_closed() -> None:
    shut = "2 Apr 2025 replaced wiring £1,900.00 by volt{}\n"
    (bare,) = plan(shut.format(""), ON).reminders
    (pictured,) = plan(shut.format(', photo "first-fix.jpg"'), ON).reminders

    assert (bare.where, bare.told) == (("lounge",), ("replace wiring: no photograph noted",))
    assert pictured.told == ("replace wiring: 1 photograph",)
    assert plan(shut.format("") + "3 Apr 2025 repaired plaster in lounge £400.00\n", ON).reminders == ()


def test_papers_before_letting_and_gas_only_where_there_is_gas() -> None:
    found = plan("1 Apr 2025 certified electrical safety £180.00 by volt, expires 31 Mar 2030\n", ON)
    gas = plan("1 Apr 2025 serviced boiler £80.00\n", ON)

    assert [(c.name, c.entry is not None, c.expires) for c in found.certificates] == [
        ("wiring", True, date(2030, 3, 31)), ("energy", False, None), ("alarms", False, None),
    ]  # fmt: skip
    assert [c.name for c in gas.certificates][0] == "gas"


def test_cautions_are_printed_where_the_schedule_touches_what_can_hurt() -> None:
    risky = SCHEDULE + "    in garden\n        2 replace gutters £300\n        2 replace boiler £2,000\n"
    found = plan("", ON, risky)

    assert {"wiring", "height", "gas"} <= set(found.cautions)
    assert "Gas Safe register" in text([found]).replace("\n  ", " ")
    assert "structure" not in found.cautions, "painting a wall leaves it standing"


def test_once_let_the_lateness_stands_still() -> None:
    aim = SCHEDULE.replace("1 Jul 2025", "21 Jun 2025")
    found = plan("", date(2025, 9, 1), aim)

    assert (found.let, found.late, found.late_cost) == (date(2025, 7, 1), 10, 10 * found.cost.pence)
    assert (plan("", date(2025, 6, 25), aim).let, plan("", date(2025, 6, 25), aim).late) == (None, 4)


WORD = st.text("abcdefghij ", min_size=1, max_size=60).map(lambda s: " ".join(s.split()) or "a")


@settings(max_examples=30, deadline=None)
@given(st.lists(st.tuples(st.integers(1, 5), WORD, st.booleans()), min_size=1, max_size=30))
def test_every_screen_fits_a_phone_and_no_job_is_lost(todos: list[tuple[int, str, bool]]) -> None:
    schedule = "    target let from 1 Jul 2025 at £600 a month\n    in kitchen\n"
    schedule += "".join(f"        {n} replace x{i} {words}{' by electrician' if by else ''}\n"
                        for i, (n, words, by) in enumerate(todos) if words)  # fmt: skip
    screens = pages(plan("", ON, schedule))

    assert all(len(line) <= ACROSS for screen in screens for line in screen)
    assert all(len(screen) <= DOWN for screen in screens)
    kitchen = [line for screen in screens if screen[0].startswith("kitchen") for line in screen[1:]]
    assert all(any(f"replace x{i}" in line for line in kitchen) for i in range(len(todos)))
    assert sum(line[:2].strip().isdigit() for line in kitchen) == len(todos)


def test_a_schedule_without_jobs_gives_no_all_clear() -> None:
    target = "    target let from 1 Jul 2025 at £600 a month\n"
    empty, told = (" ".join(text([plan("", ON, words)]).split()) for words in (target, SCHEDULE))

    for all_clear in ("0 of 0 jobs", "all is booked or done"):
        assert all_clear not in empty
    assert "No job stands in this schedule yet" in empty and "there is no job to book them for" in empty
    assert "No job stands" not in told
