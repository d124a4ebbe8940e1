"""Which building work a line of decorating asks about: the last on each thing, in its rooms, not long before."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from ledger_tools.days import day_words
from ledger_tools.explain.houses import LET, fresh
from ledger_tools.verdicts.catalogue import catalogue
from ledger_tools.verdicts.engine import Judging
from ledger_tools.verdicts.history import BUILDS, History
from ledger_tools.verdicts.offers import NEAR
from ledger_tools.verdicts.told import MORE
from ledger_tools.verdicts.verdict import Confidence

from .books import book, last, short

POOR = fresh("not lettable", "normal")
WORN = fresh("lettable for a while", "normal")
ASKED = "What of it made good after other work goes with that work: did it ("


def asked(lines: str, house: str = LET) -> str:
    """The things that the last line is asked about, as they are said; nothing where it is asked about none."""
    says = last(lines, house).path[0].says
    return says.partition(ASKED)[2].partition(")")[0]


def test_it_asks_for_what_was_built_in_its_rooms_the_nearest_first() -> None:
    works = (
        "1 Mar 2024 installed shower in bathroom £500.00, none before\n"
        "2 Mar 2024 installed extractor fan in kitchen £80.00, none before\n"
        "3 Mar 2024 replaced window in kitchen £900.00, better\n"
        "4 Mar 2024 replaced boiler in kitchen £2,000.00, like for like\n"
    )

    assert asked(works + "9 Mar 2024 decorated kitchen £1,300.00") == "window, extractor fan"
    assert asked(works + "9 Mar 2024 decorated house £300.00") == "window, extractor fan, shower"
    assert asked(works + "9 Mar 2024 decorated hall £300.00") == ""
    assert asked(works + "9 Mar 2025 decorated kitchen £300.00") == ""
    fan = "1 Jan 2024 installed extractor fan in kitchen £40.00, none before\n9 Mar 2024 decorated kitchen £90.00"
    assert asked(fan) == "extractor fan"


def test_the_part_told_as_an_improvement_is_said_in_the_owner_s_words_and_named_after_no_other_job() -> None:
    works = (
        "1 Mar 2024 installed shower in bathroom £500.00, none before\n"
        "2 Mar 2024 installed fire alarm £900.00, none before\n"
        '9 Mar 2024 decorated house £300.00, improvement £80.00 "the new bathroom wall"'
    )
    [says] = [fired.says for fired in last(works).path if fired.slug == "ordinary-cycle"]

    assert '("the new bathroom wall")' in says and "fire alarm" not in says and "shower" not in says


def test_of_one_thing_the_last_work_counts() -> None:
    works = (
        "1 Jan 2024 replaced window in kitchen £900.00, better\n"
        "4 Jan 2024 installed extractor fan in kitchen £80.00, none before\n"
        "8 Jan 2024 replaced window in kitchen £900.00, better\n"
    )

    assert asked(works + "9 Mar 2024 decorated kitchen £1,300.00") == "window, extractor fan"


OPEN, REPAIR = "300.00 open repairs [enhancement]", "300.00 repair"


@pytest.mark.parametrize(
    ("work", "house", "hall", "bathroom"),
    [
        ("converted hall £900.00, for more rent", OPEN, OPEN, REPAIR),
        ("altered hall £900.00, chosen", OPEN, OPEN, REPAIR),
        ("replaced wiring £900.00, better", OPEN, OPEN, OPEN),
        ("replaced wiring in hall £900.00, better", REPAIR, OPEN, REPAIR),  # the other rooms were not touched
        ("replaced wiring £900.00, like for like", REPAIR, REPAIR, REPAIR),
        ("replaced kitchen £900.00, better", REPAIR, REPAIR, REPAIR),
        ("replaced 6 windows £900.00, better", OPEN, REPAIR, REPAIR),  # of one room nobody knows whether it had any
        ("replaced 6 windows in lounge £900.00, better", REPAIR, REPAIR, REPAIR),
        ("replaced window £900.00, better", REPAIR, REPAIR, REPAIR),
        ("installed fire alarm £900.00, required", OPEN, OPEN, OPEN),
        ("installed 6 door closers £900.00, required", REPAIR, REPAIR, REPAIR),  # they leave no wall to paint
    ],
)
def test_what_is_painted_after_capital_work_that_went_through_it_is_open(
    work: str, house: str, hall: str, bathroom: str
) -> None:
    """BIM46915 and BIM46935: redecoration after an improvement, or after new plumbing bought with it, is capital."""
    for where, comes in (("house", house), ("hall", hall), ("bathroom", bathroom)):
        found = last(f"1 Mar 2024 {work}\n9 Mar 2024 decorated {where} £300.00")
        assert short(found.parts) == comes, where
    told = last(f"1 Mar 2024 {work}\n9 Mar 2024 decorated house £300.00, improvement £50.00")
    assert short(told.parts) == "250.00 repair + 50.00 improvement"


@pytest.mark.parametrize(
    ("work", "where", "comes"),
    [
        ("replaced boiler in kitchen £900.00, like for like", "kitchen", "300.00 open repairs [acquisition]"),
        ("replaced boiler in kitchen £900.00, like for like", "house", "300.00 repair"),  # W059 of the cases
        ("replaced wiring £900.00, like for like", "house", "300.00 open repairs [acquisition]"),
        ("replaced boiler in kitchen £900.00, like for like", "bathroom", "300.00 repair"),
        ("replaced lock in hall £90.00, like for like", "hall", "300.00 repair"),  # no letting hangs on it
    ],
)
def test_in_a_house_not_fit_to_let_painting_may_go_with_what_finished_the_purchase(
    work: str, where: str, comes: str
) -> None:
    """BIM46935: the plastering and decorating of such plumbing is refused with it, painting the outside is allowed."""
    found = last(f"1 Jun 2025 {work}\n9 Jun 2025 decorated {where} £300.00", POOR)

    assert short(found.parts) == comes
    assert short(last(f"1 Jun 2025 {work}\n9 Jun 2025 decorated outside £300.00", POOR).parts) == "300.00 repair"


PORCH = "1 Mar 2024 extended porch in hall £900.00, chosen\n"
WIRED = f"{PORCH}2 Mar 2024 replaced wiring £900.00, better\n"


@pytest.mark.parametrize(
    ("works", "part", "comes", "asked_of"),
    [
        (WIRED, "", "250.00 repair + 50.00 improvement", ""),  # no words: it is for all of it
        (WIRED, ' "by area"', "250.00 repair + 50.00 improvement", ""),
        (WIRED, ' "the porch, by area"', "50.00 improvement + 250.00 open repairs [enhancement]", "(wiring)"),
        (WIRED, ' "porch, and what the rewire opened up"', "250.00 repair + 50.00 improvement", ""),
        (PORCH, ' "the porch, by area"', "250.00 repair + 50.00 improvement", ""),
    ],
)
def test_a_part_told_for_one_job_tells_nothing_of_another(works: str, part: str, comes: str, asked_of: str) -> None:
    """C13 of the rules in words: what made good after the other capital work is capital too, and is not told yet."""
    found = last(f"{works}9 Mar 2024 decorated house £300.00, improvement £50.00{part}")
    says = found.path[-1].says if asked_of else ""

    assert sorted(short(found.parts).split(" + ")) == sorted(comes.split(" + "))
    assert asked_of in says and ("porch" not in says)


def test_the_words_offered_for_a_told_part_settle_it() -> None:
    line = '9 Mar 2024 decorated house £300.00, improvement £50.00 "the porch"'
    (offer,) = [words for words in last(WIRED + line).ask if words.startswith("improvement")]
    told = last(WIRED + line.partition("improvement")[0] + offer.replace("£…", "£80.00"))

    assert offer == 'improvement £… "the porch, wiring"'
    assert short(told.parts) == "220.00 repair + 80.00 improvement"


def test_work_of_a_house_long_let_is_not_called_work_straight_after_buying() -> None:
    assert "straight after" not in last("9 Mar 2024 decorated house £300.00").path[0].says
    assert "straight after" in last("5 Jul 2025 decorated house £300.00", POOR).path[0].says


LINES = st.lists(
    st.tuples(
        st.integers(0, 150),
        st.sampled_from(["installed", "replaced", "repaired", "decorated"]),
        st.sampled_from(["window", "boiler", "kitchen"]),
        st.sampled_from([" in kitchen", " in hall and kitchen", ""]),
        st.sampled_from(["", ", better", ", like for like"]),
    ),
    max_size=12,
)


@settings(deadline=None)
@given(LINES, st.sampled_from([LET, WORN]))
def test_it_is_what_a_look_at_every_line_finds(told: list[tuple[int, str, str, str, str]], house: str) -> None:
    first = date(2026, 1, 1)
    lines = "".join(
        f"{day_words(first + timedelta(day))} {verb} "
        f"{'kitchen £90' if verb == 'decorated' else f'{thing}{room} £10'}.00{how}\n"
        for day, verb, thing, room, how in told
        if not (how and verb in ("repaired", "decorated"))
    )
    history = History(book(lines, house), catalogue())
    judging = Judging(history)
    for position, item in enumerate(history.items):
        if item.line.verb != "decorated":
            continue
        found = sorted(
            (apart, other, thing)
            for apart, thing, other in history.jobs_near("mill-3", position, NEAR)
            if (line := history.items[other].line).verb != "decorated"
            and line.day.first <= item.line.day.first
            and (house is WORN or line.verb in BUILDS or line.facts.compared in MORE)
            and "kitchen" in {thing, *(room.text for room in line.rooms)}
        )
        said = judging.verdict(position).path[0].says
        names = list(dict.fromkeys(thing for _, _, thing in found))[:3]
        assert (ASKED + ", ".join(names) + ")" in said) if names else (ASKED not in said)


def test_after_work_that_may_be_bought_with_the_house_and_work_that_betters_it_there_are_three_answers() -> None:
    works = "1 Jun 2025 replaced wiring £900.00, like for like\n"
    works += "2 Jun 2025 installed central heating £900.00, none before\n"
    found = last(works + "9 Jun 2025 decorated house £300.00", POOR)

    assert [answer.partition(":")[0] for answer in found.answers] == [
        "a repair", "part of what the house cost", "an improvement",
    ]  # fmt: skip
    assert ', treat as purchase cost because "…"' in found.ask and ', treat as improvement because "…"' in found.ask


@pytest.mark.parametrize("link", ["making good after wiring", "goes with wiring"])
@pytest.mark.parametrize(
    ("how", "comes"),
    [("like for like", "250.00 repair + 50.00 improvement"), ("better", "300.00 improvement")],
)
def test_what_is_told_as_an_improvement_goes_with_no_repair(link: str, how: str, comes: str) -> None:
    """C10 of the rules in words: the split is between jobs, and only the rest follows the job it makes good."""
    wiring = f"1 Mar 2024 replaced wiring £900.00, {how}\n"
    found = last(f'{wiring}9 Mar 2024 decorated house £300.00, improvement £50.00 "the porch", {link}')

    assert short(found.parts) == comes


BILL = """\
4 Mar 2024 invoiced £295.00 by cobb, number 118
    altered    lounge £60.00
    repaired   plaster in lounge £180.00, making good after lounge
    repaired   plaster in front bedroom £55.00, worn out
"""


@pytest.mark.parametrize(
    ("room", "comes", "sure"),
    [
        ("front bedroom", "54.20 repair", Confidence.CLEAR),
        ("lounge", "54.20 improvement", Confidence.USUAL),
        ("hall", "12.69 repair + 41.51 improvement", Confidence.USUAL),  # that room had no plaster: all of it is meant
    ],
)
def test_what_makes_good_follows_the_job_in_its_own_room(room: str, comes: str, sure: Confidence) -> None:
    """C13 of the rules in words flips where the other job did not touch the room."""
    found = last(f"{BILL}5 Mar 2024 decorated {room} £54.20, making good after plaster")

    assert (short(found.parts), found.confidence) == (comes, sure)


def test_a_job_of_one_room_has_its_answers_beside_those_that_went_through_the_house() -> None:
    """C13 of the rules in words: what made good after it goes with it, and whether that is capital may be open."""
    works = "1 Mar 2024 installed central heating £900.00, none before\n2 Mar 2024 treated rot in hall £90.00\n"
    house = fresh("not lettable", got="inherited 10 Jan 2024 at £120,000")
    found = last(works + "9 Mar 2024 decorated house £300.00", house)
    says = next(fired.says for fired in found.path if fired.slug == "ordinary-cycle")

    assert "work that is or may be capital" in says and "(central heating; in single rooms rot)" in says
    assert [answer.partition(":")[0] for answer in found.answers] == [
        "a repair", "part of what the house cost", "an improvement",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("state", "comes"),
    [
        ("not lettable owing to walls", "300.00 open repairs [acquisition]"),
        ("not lettable owing to boiler", "300.00 repair"),
        ("lettable for a while owing to walls", "300.00 repair"),
    ],
)
def test_decorating_is_work_on_the_walls_that_kept_a_house_from_being_let(state: str, comes: str) -> None:
    """B1 of the rules in words flips on B2 facts."""
    assert short(last("9 Jun 2025 decorated house £300.00", fresh(state, "normal")).parts) == comes
    assert short(last("9 Jun 2026 decorated house £300.00", fresh(state, "normal")).parts) == "300.00 repair"


@pytest.mark.parametrize(("paint", "open_"), [("250.00", True), ("900.00", True), ("900.01", False)])
@pytest.mark.parametrize(
    ("work", "house"),
    [
        ("replaced kitchen £900.00, better", LET),
        ("replaced kitchen £900.00, missing when bought", WORN),
        ("treated damp in kitchen £900.00", WORN),
    ],
)
def test_the_paint_of_a_room_is_open_after_capital_work_in_it_that_cost_no_less(
    work: str, house: str, paint: str, open_: bool
) -> None:
    """B2 and C13 of the rules in words; that small work hardly needs a room painted is the tool's own measure."""
    assert last(f"6 Jul 2025 {work}\n8 Jul 2025 decorated kitchen £{paint}", house).arguable is open_
