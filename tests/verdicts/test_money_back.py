"""Money that came back: off what was paid to that firm, off all the damage it was for, never off work done later."""

from __future__ import annotations

import pytest

from ledger_tools.verdicts.verdict import Verdict

from .books import short, verdicts

LEAK = """3 Dec 2025 repaired burst pipe in bathroom £420.00 by cobb
9 Dec 2025 decorated kitchen ceiling £380.00 by "B. Rowe", water damage
"""
PAID = "22 Jan 2026 received insurance money £650.00 from fen"
STORM = '18 Nov 2025 repaired fence £620.00 by "Postie", storm damage\n'
WASHER = '9 Dec 2025 replaced washing machine £320.00 from "Volt Barn", like for like, broken\n'
TILES = '27 Mar 2025 replaced tiles in bathroom £720.00 by "B. Rowe", like for like\n'


def last(lines: str) -> Verdict:
    """The verdict of the last money that came in."""
    return [verdict for verdict in verdicts(lines) if verdict.item.line.verb == "received"][-1]


def test_money_beyond_one_repair_is_open_where_other_damage_was_mended_near() -> None:
    verdict = last(f"{LEAK}{PAID} for burst pipe")

    assert short(verdict.parts) == "420.00 nets repairs + 230.00 open"
    assert verdict.ask == (" for burst pipe and kitchen ceiling", ", of which lost value £230.00")
    assert short(last(f"{LEAK}{PAID}{verdict.ask[0]}").parts) == "650.00 nets repairs"
    settled = last(f"{LEAK}{PAID} for burst pipe{verdict.ask[1]}")
    assert short(settled.parts) == "230.00 capital sum + 420.00 nets repairs"


@pytest.mark.parametrize(
    "other",
    [
        LEAK.replace(", water damage", ""),  # nothing says that it was harmed
        LEAK.replace("9 Dec 2025 dec", "9 Feb 2026 dec"),  # done after the money came
        f"{LEAK}2 Jan 2026 received insurance £380.00 from fen for kitchen ceiling\n",  # it had money of its own
    ],
)
def test_other_work_does_not_open_what_goes_beyond_the_repair(other: str) -> None:
    assert short(last(f"{other}{PAID} for burst pipe").parts) == "420.00 nets repairs + 230.00 capital sum"


def test_two_payments_for_two_things_are_taken_together() -> None:
    first = "2 Jan 2026 received insurance £700.00 from fen for burst pipe and kitchen ceiling\n"

    assert short(last(f"{LEAK}{first}{PAID} for kitchen ceiling and burst pipe").parts) == (
        "100.00 nets repairs + 550.00 capital sum"
    )


def test_damage_is_offered_by_its_words_then_by_its_day_and_never_after_the_money() -> None:
    money = "2 Dec 2025 received insurance £520.00 from fen"
    broken = "20 Nov 2025 replaced tap £90.00 by cobb, like for like, broken\n"

    assert last(f"{WASHER}{STORM}{money}").ask == (" for fence",)
    assert last(f"{broken}{STORM}{money}").ask == (" for fence", " for tap")
    assert last(f"{WASHER}{money}").ask == (" for washing machine",)  # nothing else was mended


def test_a_refund_comes_off_what_was_paid_to_that_shop() -> None:
    own = '20 Mar 2025 replaced tiles in kitchen £186.00 from "Tile Barn", better\n'
    refund = "3 Apr 2025 received refund £36.00 from {} for tiles"

    assert short(last(own + TILES + refund.format('"Tile Barn"')).parts) == "36.00 nets [enhancement]"
    assert short(last(own + TILES + refund.format('"B. Rowe"')).parts) == "36.00 nets repairs"
    assert short(last(own + TILES + refund.format("cobb")).parts) == "36.00 nets repairs"  # of the nearest day


def test_scrap_goes_with_what_such_a_metal_is_in() -> None:
    jobs = (
        "10 Oct 2024 replaced wiring £640.00, like for like\n4 Nov 2024 replaced boiler £2,350.00, like for like\n"
        "18 Nov 2024 replaced plaster £380.00, like for like\n20 Nov 2024 replaced gutters £200.00, like for like\n"
    )

    def offers(scrap: str) -> tuple[str, ...]:
        return next(v.ask for v in verdicts(f"{jobs}6 Oct 2024 sold {scrap} £118.00") if v.item.line.verb == "sold")

    assert offers("scrap copper") == (", goes with wiring", ", goes with boiler", ", left by seller")
    assert offers("scrap iron") == (", goes with boiler", ", goes with gutters", ", left by seller")
    assert offers("scrap lead") == (", left by seller",)


def test_a_first_one_that_went_back_is_said_to_add_nothing() -> None:
    """H1 of the rules in words: what is not in the house when it is sold counts for no gain."""
    fan = "4 Mar 2025 installed extractor fan £84.50 from volt, none before\n"
    back = "9 Mar 2025 received refund {} from volt for extractor fan"
    kept, gone, partly = (verdicts(fan + more)[0] for more in ("", back.format("£84.50"), back.format("£20.00")))

    assert "it adds to the house" in kept.path[-1].says and "it adds to the house" in partly.path[-1].says
    assert any("came back on 9 Mar 2025, so nothing of it counts" in fired.says for fired in gone.path)
