"""Labour, a skip, building control: what serves a job follows it, and asks which where nothing says so."""

from __future__ import annotations

import pytest

from ledger_tools.explain.houses import HOUSES
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.audit import items
from ledger_tools.statements.chosen import Wanted, choose
from ledger_tools.verdicts.verdict import Kind

from .books import LET, book, fresh, last, short, verdicts

WIRING = "4 Mar 2025 replaced wiring £640.00, like for like\n"


@pytest.mark.parametrize("words", ["first fix", "second fix", "2nd fix", "labour", "day rate", "first fix electrics"])
def test_labour_follows_the_job_it_names_and_is_open_without(words: str) -> None:
    told = last(WIRING + f"9 Mar 2025 paid {words} £550.00 to cobb for wiring")
    untold = last(WIRING + f"9 Mar 2025 paid {words} £550.00 to cobb")

    assert short(told.parts) == "550.00 repair"
    assert untold.arguable and untold.ask[0] == " for wiring"


def test_labour_of_an_improvement_is_one_and_an_ordinary_service_stays_a_running_cost() -> None:
    added = "4 Mar 2025 installed wiring in garden £640.00, none before\n"
    added += "9 Mar 2025 paid first fix £550.00 to cobb for wiring"

    assert short(last(added).parts) == "550.00 improvement"
    assert short(last(WIRING + "9 Mar 2025 paid window cleaning £55.00 to cobb").parts) == "55.00 running services"


def test_labour_called_a_service_by_the_book_still_belongs_to_its_job() -> None:
    """`thing first fix is service` says no more than the catalogue knows; a word of the book's own is its own."""
    labour = last(WIRING + "9 Mar 2025 paid first fix £550.00 to cobb", people=_people("thing first fix is service"))
    own = last(WIRING + "9 Mar 2025 paid fairy lights £550.00 to cobb", people=_people("thing fairy lights is service"))
    other = last(WIRING + "9 Mar 2025 bought first fix £550.00", people=_people("thing first fix is consumable"))

    assert labour.arguable
    assert short(own.parts) == "550.00 running services"
    assert short(other.parts) == "550.00 running repairs"


def _people(line: str) -> str:
    from .books import PEOPLE

    return f"{line}\n{PEOPLE.lstrip()}"


def test_what_served_a_job_is_offered_the_step_it_names_then_its_firm_then_the_biggest() -> None:
    jobs = (
        '1 Mar 2025 hired van £68.00 from "V"\n4 Mar 2025 replaced kitchen £6,480.00, like for like\n'
        "4 Mar 2025 replaced socket £60.00 by cobb, like for like\n" + WIRING
    )

    assert last(jobs + '5 Mar 2025 hired skip £240.00 from "T"').ask[0] == ", goes with kitchen"
    assert last(jobs + "5 Mar 2025 paid labour £240.00 to cobb").ask[0] == " for socket"
    assert last(jobs + '5 Mar 2025 paid first fix £240.00 to "T"').ask[0] == " for wiring"
    sparks = last(jobs + '5 Mar 2025 paid second fix £240.00 to "Sparke Electrical"')
    assert sparks.ask[:2] == (" for socket", " for wiring")
    assert not any("van" in words for v in verdicts(jobs + '5 Mar 2025 hired skip £240.00 from "T"') for words in v.ask)
    far = "4 Dec 2024 replaced roof £9,000.00, like for like\n" + jobs
    assert last(far + '5 Mar 2025 hired skip £240.00 from "T"').ask[0] == ", goes with kitchen"


def test_every_payment_for_works_stands_in_the_audit_list() -> None:
    lines = WIRING + (
        "9 Mar 2025 paid first fix £550.00 to cobb for wiring\n9 Mar 2025 paid insurance £240.00 to cobb\n"
        "10 Mar 2025 paid building control fee £90.00 to wold for wiring\n"
        "11 Mar 2025 paid electrician £80.00 for wiring"
    )
    told = book(lines)
    every = list(items(Accounts(told)))

    assert [item.words for item in choose(told, every, Wanted())] == [
        "replaced wiring", "paid first fix for wiring", "paid building control fee for wiring",
        "paid electrician for wiring",
    ]  # fmt: skip


def test_labour_for_a_work_that_finished_the_purchase_stands_there_too() -> None:
    lines = "4 Jul 2025 replaced wiring £640.00\n5 Jul 2025 paid labour £90.00 to cobb for wiring"
    told = book(lines, fresh("not lettable", "normal"))

    assert [item.words for item in choose(told, list(items(Accounts(told))), Wanted())] == [
        "replaced wiring", "paid labour for wiring",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("line", "comes", "rule", "says"),
    [
        ("for sofa at dock-9", "55.00 open domestic", "survey-design-overheads", "from mill-3, which has other owners"),
        ("for sofa", "55.00 replaced", "incidentals", ""),
        ("for bed", "55.00 open domestic", "survey-design-overheads", "no priced line about that here."),
        ("for bath", "55.00 open repairs [enhancement]", "survey-design-overheads", "it follows the work it served"),
    ],
)
def test_carriage_of_a_loose_item_is_no_work_on_the_house(line: str, comes: str, rule: str, says: str) -> None:
    """ITTOIA 2005 s.311A(10) for what a swap brings with it; for what is only moved no authority was found."""
    moved = "4 Jul 2025 replaced sofa £480.00, like for like, used by tenant, old one moved to dock-9\n"
    found = last(f"{moved}9 Jul 2025 paid carriage £55.00 {line}", HOUSES["another's house"].book)
    mine = LET + 'property dock-9 "9 Dock Road"\n    bought 1 May 2018 for £90,000\n'
    own = last(f"{moved}9 Jul 2025 paid carriage £55.00 {line}", mine)

    assert (short(found.parts), found.path[0].slug) == (comes, rule) and says in found.path[0].says
    assert ("which is yours too" in own.path[0].says) == ("dock-9" in line)


def test_a_survey_of_a_house_not_fit_to_let_may_be_part_of_what_it_cost_and_says_what_the_line_lacks() -> None:
    """C20 of the rules in words: it follows the works, which there may finish the purchase."""
    line = "20 Jun 2025 paid survey £390.00"
    poor, sound = last(line, fresh("not lettable", "normal")), last(line)

    assert len(poor.answers) == 3 and "part of what the house cost" in poor.answers[2]
    assert len(sound.answers) == 2
    assert "and the line names none" in poor.path[0].says


def test_what_is_hired_for_a_job_rests_on_what_is_said_of_such_costs() -> None:
    """C20 of the rules in words, section 6 no. 126; what is taken out for a swap goes with it by Samuel Jones."""
    lines = "hired skip £58.00", "removed old wiring £58.00"
    hired, out = (last(f"{WIRING}5 Mar 2025 {line}, goes with wiring") for line in lines)

    assert [fired.slug for fired in hired.path if fired.decided] == ["survey-design-overheads"]
    assert [fired.slug for fired in out.path if fired.decided] == ["goes-with"]
    assert short(hired.parts) == short(out.parts) == "58.00 repair"


@pytest.mark.parametrize(
    ("line", "open_"),
    [
        ("repaired gutters £200.00 by asha", True),
        ("repaired gutters £200.00 by asha, own labour", False),
        ("repaired gutters £200.00 by cobb", False),
        ("paid wages £500.00 to asha", True),
        ("converted loft into bedroom £9,000.00 by asha", True),
        ("invoiced £900.00 by asha, number 7\n    repaired gutters £900.00", True),
    ],
)
def test_an_owner_s_own_work_is_no_cost(line: str, open_: bool) -> None:
    """A3 of the rules in words: nothing for income or gains; materials follow the other rules."""
    found = last(f"4 Mar 2025 {line}")

    assert found.arguable is open_
    assert not open_ or all(part.kind is Kind.NO_RELIEF for part in found.cautious)
