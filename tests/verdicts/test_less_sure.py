"""Answers that rest on what nobody told: how sure they are, and what they ask. Mill Lane is invented."""

from __future__ import annotations

import pytest

from ledger_tools.explain.houses import HOUSES
from ledger_tools.verdicts.closing import in_words
from ledger_tools.verdicts.conflicts import conflicts
from ledger_tools.verdicts.engine import judge
from ledger_tools.verdicts.verdict import Confidence, Verdict

from .books import LET, book, fresh, last, short

CLEAR, USUAL = Confidence.CLEAR, Confidence.USUAL
WAS_SOUND = "opinions differ"


def says(verdict: Verdict) -> str:
    """All that was said of it."""
    return " ".join(fired.says for fired in verdict.path)


@pytest.mark.parametrize("what", ["8 windows", "boiler"])
@pytest.mark.parametrize(
    ("why", "sure", "asked"),
    [("", USUAL, True), (", worn out", CLEAR, False), (", broken", CLEAR, False), (", required", CLEAR, False)],
)
def test_todays_equivalent_asks_if_the_old_one_was_sound(what: str, why: str, sure: Confidence, asked: bool) -> None:
    """C6 of the rules in words: clear for glazing and boilers, arguable where the old part was sound."""
    found = last(f"4 Mar 2025 replaced {what} £2,400.00, modern equivalent{why}")

    assert (short(found.parts), found.confidence) == ("2400.00 repair", sure)
    assert (WAS_SOUND in says(found)) is asked


@pytest.mark.parametrize(
    ("why", "parts"),
    [
        ("sound, but the rating was F", "900.00 open repairs [enhancement]"),
        ("the old ones were no longer sound", "900.00 repair"),
        ("the frames were unsound", "900.00 repair"),
    ],
)
def test_what_the_reason_calls_sound_was_changed_by_choice(why: str, parts: str) -> None:
    found = last(f'4 Mar 2025 replaced 8 windows £900.00, modern equivalent, because "{why}"')

    assert short(found.parts) == parts
    assert not found.arguable or ', treat as improvement because "…"' in found.ask


def test_fire_doors_for_ordinary_ones_do_more_whoever_asked_for_them() -> None:
    """C9 and C8 of the rules in words; asked before the price, since they are capital either way."""
    cheap = HOUSES["cheap"].book
    plain = "4 Jul 2025 replaced 6 internal doors with fire doors £1,500.00"

    assert short(last(plain, cheap).parts) == short(last(plain + ", required", cheap).parts) == "1500.00 improvement"
    assert last("4 Mar 2025 replaced 6 internal doors with fire doors £1,500.00, modern equivalent").arguable
    assert last("4 Mar 2025 replaced 6 fire doors £1,500.00").arguable  # were the old ones fire doors?


@pytest.mark.parametrize(
    ("lines", "lead"),
    [
        ("4 Mar 2025 installed 4 basins £1,700.00", "The first here"),
        ("4 Mar 2025 replaced 2 basins £800.00, like for like\n4 Mar 2025 installed 4 basins £1,700.00", "More than"),
        ("4 Mar 2025 added 2 wall units £240.00", "More than"),
        ("4 Mar 2025 removed 2 basins £80.00, worn out\n5 Mar 2025 installed 4 basins £1,700.00", "The first here"),
    ],
)
def test_one_more_is_not_called_the_first_here(lines: str, lead: str) -> None:
    found = last(lines)

    assert short(found.parts).endswith(" improvement") and lead in says(found)


def test_what_a_licence_asks_for_is_new_less_surely() -> None:
    """C9 of the rules in words is usual, C3 clear."""
    assert last("4 Mar 2025 installed fire alarm £2,100.00, required").confidence is USUAL
    assert last("4 Mar 2025 installed fire alarm £2,100.00").confidence is CLEAR


def test_clearing_a_house_that_came_free_was_never_part_of_a_price() -> None:
    got = "inherited 10 Jun 2025 at £120,000"
    free, bought = (
        last("4 Jul 2025 cleared house £280.00", fresh("not lettable", "normal", *how)) for how in ([got], [])
    )

    assert short(free.parts) == "280.00 open services" and ', treat as no relief because "…"' in free.ask
    assert short(bought.parts) == "280.00 open services [acquisition]"
    [why] = [fired.says for fired in free.path if fired.slug == "running-service"]
    assert "nothing of it can be seen in the house when it is sold" in why  # as the wiring can, which may count then


@pytest.mark.parametrize(
    ("day", "work", "sure"),
    [
        ("6 Mar 2025", "converted hall £3,500.00, for more rent", USUAL),
        ("6 Aug 2025", "converted hall £3,500.00, for more rent", CLEAR),
        ("2 Mar 2025", "converted hall £3,500.00, for more rent", CLEAR),
        ("6 Mar 2025", "repaired hall £3,500.00, worn out", CLEAR),
    ],
)
def test_clearing_just_before_a_conversion_may_be_its_first_step(day: str, work: str, sure: Confidence) -> None:
    """A6 of the rules in words flips to C15 where it is the first step of a capital job."""
    lines = ["4 Mar 2025 cleared house £340.00", f"{day} {work}"]
    (cleared,) = (v for v in judge(book("\n".join(lines))) if v.item.line.verb == "cleared")

    assert (short(cleared.parts), cleared.confidence) == ("340.00 running services", sure)
    assert ("first step" in says(cleared)) is (sure is USUAL)


@pytest.mark.parametrize(
    ("owners", "parts", "said"),
    [
        ("bram 100%", "900.00 open domestic", "left this letting"),
        ("asha 50% and bram 50%", "900.00 replaced", "costs nothing there"),
    ],
)
def test_what_moves_to_a_house_of_others_leaves_the_letting(owners: str, parts: str, said: str) -> None:
    """E10 speaks of another of my lets; E12 of what stops being used for the letting: what it was worth is untold."""
    dock = f'property dock-9 "9 Dock Road"\n    bought 1 May 2018 for £90,000\n    owners {owners}\n'
    house = (
        'landlord bram "Bram Ode"\n    accounting cash\n'
        + dock
        + LET.replace("    as bought", "    owners asha 100%\n    as bought")
    )
    found = last("4 Mar 2025 replaced sofa £900.00, like for like, used by tenant, old one moved to dock-9", house)

    assert short(found.parts) == parts and said in says(found)


def test_a_certificate_before_a_sale_may_be_a_cost_of_selling() -> None:
    sold = HOUSES["sold"].book
    epc = last("4 Jul 2025 certified energy performance £60.00", sold)
    paint = last("4 Jul 2025 decorated house £900.00, before sale", sold)

    assert epc.answers[-1] == "a cost of selling: it counts when the house is sold"
    assert len(paint.answers) == 3 and "One tribunal" in says(paint)


def test_where_one_tribunal_differs_its_answer_stands_beside_the_others_with_its_words() -> None:
    """Day v HMRC [2015] UKFTT 142 let decorating for a sale count as an improvement; no tribunal said so of furniture,
    of a worktop or of a certificate. Of a whole kitchen some advisers do (W119 of the published cases)."""
    sold = HOUSES["sold"].book
    for line in ("decorated house £900.00", "replaced kitchen £6,190.00, like for like"):
        found = last(f"4 Jul 2025 {line}, before sale", sold)
        ruled = last(f'4 Jul 2025 {line}, before sale, treat as improvement because "as in Day"', sold)
        assert found.answers[2] == in_words(ruled.parts) == "an improvement: it counts when the house is sold"
        assert ', treat as improvement because "…"' in found.ask
        assert len(found.ask) == len(found.answers) == 3
    for line in (
        "replaced carpet £600.00, like for like, used by tenant",
        "certified gas safety £70.00",
        "replaced worktop in kitchen £190.00, like for like",
    ):
        found = last(f"4 Jul 2025 {line}, before sale", sold)
        assert "tribunal" not in says(found) and len(found.answers) == 2
        assert not any("Day v HMRC" in fired.authority for fired in found.path if fired.slug == "after-the-last-let")


def test_what_tells_of_the_sale_is_named_and_an_offer_to_let_leaves_nothing_to_ask() -> None:
    """F6 of the rules in words: what the agents were told, to sell or to let, decides."""
    sold, line = HOUSES["sold"].book, "4 Jul 2025 repaired gutters £90.00"
    for_sale, to_let = (
        last(line, sold.replace("    sold ", f"    marketed {how} from 1 Jul 2025 to 9 Jul 2025\n    sold ", 1))
        for how in ("for sale", "to let")
    )

    assert last(line, sold).arguable and "The last let had ended" in says(last(line, sold))
    assert for_sale.arguable and "marketed for sale from 1 Jul 2025 says" in says(for_sale)
    assert short(to_let.parts) == "90.00 repair" and not to_let.arguable


@pytest.mark.parametrize("thing", ["contribution ", ""])
@pytest.mark.parametrize(
    ("work", "open_"),
    [
        ("installed tanking £1,200.00, none before", True),
        ("repaired tanking £1,200.00, worn out", False),
        ("repaired roof £1,200.00, worn out", False),
        ("replaced mattress £180.00, used by tenant", False),
    ],
)
def test_a_tenants_money_for_an_improvement_is_open_by_whatever_name(thing: str, work: str, open_: bool) -> None:
    """G7 of the rules in words: income for repairs, arguable for improvements; a furnishing is no improvement."""
    what = work.split()[1]
    found = last(f"4 Mar 2025 {work}\n5 Mar 2025 received {thing}£60.00 from okoye for {what}")

    assert found.arguable is open_, says(found)


@pytest.mark.parametrize(
    ("work", "said", "parts"),
    [
        ("installed tanking £1,200.00, none before", "rent", "60.00 income rent"),
        ("installed tanking £1,200.00, none before", "capital contribution", "60.00 capital sum"),
        ("repaired tanking £1,200.00, worn out", "capital contribution", "60.00 income other_income"),
    ],
)
def test_each_answer_of_a_tenants_money_for_an_improvement_has_words(work: str, said: str, parts: str) -> None:
    """What it was agreed as settles it; towards a repair it is rent by whatever name (ITTOIA 2005 s.266(2))."""
    found = last(f"4 Mar 2025 {work}\n5 Mar 2025 received {said} £60.00 from okoye for tanking")
    asked = last(f"4 Mar 2025 {work}\n5 Mar 2025 received £60.00 from okoye for tanking")

    assert short(found.parts) == parts
    assert not any("towards an improvement" in words for words in asked.would_change if asked.arguable)
    assert not asked.arguable or f"received {said}" in asked.ask


def test_a_house_that_the_book_calls_unfit_is_not_asked_to_be_called_so() -> None:
    lines = "24 Jun 2025 claimed works discount from wold, called it unfit owing to roof\n"
    lines += "9 Jul 2025 repaired roof £900.00, storm damage\n"
    asks = {}
    for state in ("not lettable owing to boiler", "lettable"):
        made = book(lines, fresh(state, "normal"))
        (found,) = conflicts(made, judge(made))
        asks[state] = " ".join(found.do)

    assert "if it could not, `as bought not lettable owing to roof`: then" in asks["lettable"]
    assert "write `as bought not lettable`" not in asks["not lettable owing to boiler"]
    assert "name it there too" in asks["not lettable owing to boiler"]


def test_what_leaned_and_was_taken_down_can_be_told_as_broken() -> None:
    found = last('4 Mar 2025 removed chimney £900.00, because "leaning"')

    assert found.arguable and ", broken" in found.ask
    assert short(last("4 Mar 2025 removed chimney £900.00, broken").parts) == "900.00 repair"


@pytest.mark.parametrize(
    ("lines", "why"),
    [
        ("4 Jun 2025 kept deposit £180.00 from okoye for cleaning\n5 Jun 2025 cleaned whole house £130.00",
         "part of the deposit was kept for it"),
        ("5 Jun 2025 repaired door in hall £90.00, tenant damage", "you tell that the tenant did it"),
        ("5 Jun 2025 paid electricity £60.00 for 1 May 2025 to 31 May 2025", "it is for days up to 31 May 2025"),
    ],
)  # fmt: skip
def test_what_comes_off_in_a_house_then_sold_says_what_it_hangs_on(lines: str, why: str) -> None:
    """F5 and F6 of the rules in words: after the last let only what that let left comes off without asking."""
    found = last(lines, HOUSES["sold"].book)

    assert not found.arguable and found.confidence is Confidence.USUAL
    assert f"({why}), so it comes off though the house was then sold." in says(found)


@pytest.mark.parametrize(
    ("line", "sure"),
    [
        ("replaced bath with shower £890.00, plainer", Confidence.USUAL),
        ("replaced slates with tiles £890.00, plainer", Confidence.CLEAR),
        ("replaced bath £890.00, plainer", Confidence.CLEAR),
    ],
)
def test_another_fixture_in_its_place_is_less_clearly_a_repair_than_another_material(line: str, sure: str) -> None:
    """C17 of the rules in words: Conn speaks of materials; a thing of another kind is no repair (BIM35460)."""
    found = last(f"4 Mar 2025 {line}")

    assert short(found.parts) == "890.00 repair" and found.confidence is sure


def test_a_certificate_is_one_whatever_the_house_was_and_clearing_it_may_finish_the_purchase() -> None:
    """A6 of the rules in words flips for clearing and cleaning alone."""
    asked = "the house could not be let as bought until it was done"
    certified, cleared = (last(f"4 Jul 2025 {what} £70.00") for what in ("certified gas safety", "cleared house"))

    assert asked not in certified.would_change and asked in cleared.would_change


def test_a_new_thing_that_the_act_names_is_a_fixture_by_the_act_whatever_the_old_one_was() -> None:
    """D1 of the rules in words: water-filled radiators are named."""
    found = last("4 Mar 2025 replaced storage heater with radiator £340.00, modern equivalent")

    assert "fixture-by-statute" in [fired.slug for fired in found.path]
    assert "fixture-in-fact" not in [fired.slug for fired in found.path]


def test_what_it_costs_to_put_right_what_a_deposit_was_kept_for_is_called_no_repair() -> None:
    """A6 and E2 of the rules in words: a clean is a running cost, a carpet an item replaced."""
    assert "repair" not in says(last("4 Jun 2025 kept deposit £180.00 from okoye for cleaning"))


def test_a_heater_of_another_make_is_of_one_kind_with_the_old() -> None:
    """Section 6 no. 55 of the rules in words: storage and panel heaters stand in one row."""
    heater = last("4 Mar 2025 replaced storage heater with panel heater £395.00, like for like")
    shower = last("4 Mar 2025 replaced bath with shower £395.00, like for like")
    plainer = last("4 Mar 2025 replaced bath with shower £395.00, plainer")

    assert "another kind" in says(shower)
    assert "another kind" not in says(heater) and "another kind" not in says(plainer)


def test_work_dated_after_the_sale_of_a_house_is_no_clear_repair() -> None:
    found = last("4 Nov 2025 decorated house £500.00", HOUSES["sold"].book)

    assert found.arguable and "The house was sold on 1 Sep 2025, before this." in says(found)


def test_wiring_is_not_renewed_for_an_energy_rating() -> None:
    rewired, glazed = (last(f"4 Mar 2025 replaced {what} £900.00, modern equivalent") for what in ("wiring", "windows"))

    assert "changed by choice" in says(rewired) and "energy rating" in says(glazed)
