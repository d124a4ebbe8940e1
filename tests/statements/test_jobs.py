"""Which line belongs to which job: by its word, its thing and room, its paper, what it serves; else unplanned."""

from __future__ import annotations

from datetime import date

import pytest

from ledger_tools.statements.jobs import works
from ledger_tools.verdicts.catalogue import catalogue
from ledger_tools.verdicts.history import History
from tests.statements.works_books import SCHEDULE, book, jobs


def test_a_line_goes_to_the_job_of_its_thing_and_room() -> None:
    found = jobs(
        "1 Apr 2025 repaired plaster in lounge £400.00 by pell\n2 Apr 2025 repaired plaster in hall £90.00 by pell\n"
        "3 Apr 2025 replaced windows in kitchen £800.00\n4 Apr 2025 replaced wiring in hall £700.00 by volt\n"
    )

    assert found == {
        "lounge: repair plaster": ["repaired plaster"], "hall: plaster *": ["repaired plaster"],
        "kitchen: replace 3 windows": ["replaced windows"], "whole house: replace wiring": ["replaced wiring"],
    }  # fmt: skip


def test_a_line_without_a_room_goes_to_the_job_with_its_thing_that_is_not_done() -> None:
    both = SCHEDULE + "    in hall\n        5 install tap £30\n"
    found = jobs("1 Apr 2025 installed tap £40.00\n2 Apr 2025 installed tap £35.00\n", both)

    assert found == {"kitchen: install tap": ["installed tap"], "hall: install tap": ["installed tap"]}


def test_a_room_decorated_is_the_job_of_decorating_it() -> None:
    assert jobs("1 Apr 2025 decorated lounge £48.00\n2 Apr 2025 decorated hall £20.00\n") == {
        "lounge: decorate walls": ["decorated lounge"], "hall: decorated *": ["decorated hall"],
    }  # fmt: skip


def test_a_paper_leads_to_its_job() -> None:
    found = jobs(
        "1 Apr 2025 quoted wiring £2,100.00 by volt, number Q-1\n2 Apr 2025 agreed quote Q-1 by volt\n"
        "3 Apr 2025 varied quote Q-1 £90.00 more by volt\n"
        "9 Apr 2025 invoiced £2,190.00 by volt, number 7, against quote Q-1\n"
        "    installed consumer unit £2,190.00\n20 Apr 2025 paid £900.00 to volt against invoice 7\n"
    )

    assert found == {
        "whole house: replace wiring": ["quoted wiring", "agreed", "varied", "installed consumer unit", "paid"],
    }  # fmt: skip


def test_the_number_of_another_firm_leads_nowhere() -> None:
    found = jobs(
        "1 Apr 2025 quoted wiring £2,100.00 by volt, number 5\n2 Apr 2025 quoted plaster in lounge £300.00 by pell, "
        "number 5\n3 Apr 2025 agreed quote 5 by volt\n"
    )

    assert found == {
        "whole house: replace wiring": ["quoted wiring", "agreed"], "lounge: repair plaster": ["quoted plaster"],
    }  # fmt: skip


def test_what_serves_a_job_goes_with_it_and_money_back_too() -> None:
    found = jobs(
        "1 Apr 2025 replaced wiring £2,000.00 by volt\n"
        '2 Apr 2025 sold scrap copper £30.00 to "Metals", goes with wiring\n'
        "3 Apr 2025 received refund £20.00 from volt for wiring\n"
    )

    assert found == {"whole house: replace wiring": ["replaced wiring", "sold scrap copper", "received refund"]}


def test_labour_goes_to_the_job_it_is_for_or_stands_by_itself_and_other_payments_do_not() -> None:
    found = jobs(
        "1 Apr 2025 replaced wiring in hall £700.00 by volt\n2 Apr 2025 paid first fix £550.00 to volt for wiring\n"
        "3 Apr 2025 paid labour £90.00 to pell\n4 Apr 2025 paid insurance £240.00 to pell\n"
        "5 Apr 2025 received refund £20.00 from volt\n"
    )

    assert found == {
        "whole house: replace wiring": ["replaced wiring", "paid first fix"],
        "no room told: labour *": ["paid labour"],
    }  # fmt: skip


def test_what_a_thing_becomes_is_the_same_job() -> None:
    doors = "    in hall\n        1 replace 4 internal doors with fire doors £900\n"
    found = jobs('1 Apr 2025 ordered 4 fire doors £800.00 from "Doors"\n', "    contingency 10%\n" + doors)

    assert found == {"hall: replace 4 internal doors with fire doors": ["ordered fire doors"]}


def test_part_of_names_the_schedule_even_after_the_let_has_begun() -> None:
    late = "1 Sep 2025 replaced sink in kitchen £90.00"

    assert jobs(late + "\n") == {}
    assert jobs(late + ', part of "ready to let"\n') == {"kitchen: sink *": ["replaced sink"]}
    assert jobs('1 Apr 2025 replaced sink in kitchen £90.00, part of "later"\n') == {}


def test_after_the_let_only_the_doing_of_what_was_not_done_and_its_faults() -> None:
    found = jobs(
        "1 Apr 2025 replaced wiring £2,000.00 by volt\n1 Aug 2025 installed tap in kitchen £40.00\n"
        '2 Aug 2025 snagged wiring "socket loose" by volt\n3 Aug 2025 replaced wiring £90.00 by volt\n'
        "4 Sep 2025 replaced tap in kitchen £44.00\n5 Sep 2025 inspected windows in kitchen £15.00\n"
    )

    assert found == {
        "whole house: replace wiring": ["replaced wiring", "snagged wiring"], "kitchen: install tap": ["installed tap"],
    }  # fmt: skip


def test_a_bill_that_comes_after_the_let_for_what_was_finished_before_belongs_to_it() -> None:
    found = jobs("1 Jun 2025 finished wiring by volt\n9 Jul 2025 replaced wiring £2,000.00 by volt\n")

    assert found == {"whole house: replace wiring": ["finished wiring", "replaced wiring"]}


def test_a_line_of_two_things_has_its_money_once() -> None:
    made = book("1 Apr 2025 replaced windows and wiring £3,000.00 in kitchen\n")
    (found,) = works(History(made, catalogue()), "a")

    assert [(j.words, [e.counts for e in j.lines]) for j in found.jobs if j.lines] == [
        ("replace wiring", [False]), ("replace 3 windows", [True]),
    ]  # fmt: skip
    assert len(found.of_line()) == 1


@pytest.mark.parametrize(
    "lines, done",
    [
        ("1 Apr 2025 replaced windows in kitchen £900.00\n", True),
        ("1 Apr 2025 replaced 2 windows in kitchen £600.00\n", False),
        ("1 Apr 2025 replaced 2 windows in kitchen £600.00\n2 Apr 2025 replaced window in kitchen £300.00\n", True),
        ("1 Apr 2025 replaced 2 windows in kitchen £600.00\n2 Apr 2025 replaced 1 window in kitchen £300.00\n", True),
        ("1 Apr 2025 replaced part of windows in kitchen £100.00\n", False),
        ("1 Apr 2025 inspected windows in kitchen £20.00\n", False),
        ("1 Apr 2025 finished windows in kitchen\n", True),
        ("1 Apr 2025 ordered windows in kitchen £900.00\n", False),
    ],
)
def test_when_a_job_of_several_is_done(lines: str, done: bool) -> None:
    (found,) = works(History(book(lines), catalogue()), "a")

    assert next(j for j in found.jobs if j.words == "replace 3 windows").is_done() is done


def test_the_time_of_the_works_is_between_the_purchase_and_the_let() -> None:
    (found,) = works(History(book(""), catalogue()), "a")

    assert found.during is not None
    assert (found.during.first, found.during.last) == (date(2025, 3, 1), date(2025, 6, 30))


def test_two_schedules_of_a_house_share_its_lines_by_their_time() -> None:
    second = (
        'schedule a "between lets"\n    target let from 1 Jun 2026 at £650 a month\n    in kitchen\n'
        "        2 replace tap £50\n"
        'tenancy u at a\n    tenants "U. Sher"\n    periodic from 1 Jun 2026\n    rent £650 a month\nat a\n'
        "2 Apr 2025 installed tap in kitchen £40.00\n20 Mar 2026 quoted tap in kitchen £52.00 by pell\n"
        "4 May 2026 replaced tap in kitchen £55.00\n5 May 2026 painted hall £20.00\n"
    )
    made = book(second, until="    ended 30 Apr 2026")
    first, later = works(History(made, catalogue()), "a")

    assert [(j.words, [e.verb for e in j.lines]) for j in first.jobs if j.lines] == [("install tap", ["installed"])]
    assert [(j.words, [e.verb for e in j.lines]) for j in later.jobs if j.lines] == [
        ("replace tap", ["quoted", "replaced"]), ("decorated", ["decorated"]),
    ]  # fmt: skip
    assert later.during is not None and later.during.first == date(2026, 5, 1)


def test_works_in_a_house_let_all_along_have_only_the_lines_their_jobs_ask_for() -> None:
    aim = SCHEDULE.replace("1 Jul 2025", "1 Dec 2027")
    lines = "2 Apr 2027 installed tap in kitchen £40.00\n3 Apr 2027 repaired gutters £30.00\n"

    assert jobs(lines, aim) == {"kitchen: install tap": ["installed tap"]}
