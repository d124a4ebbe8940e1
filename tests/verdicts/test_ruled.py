"""What a ruling decides, and what of a sum it leaves as it is."""

from __future__ import annotations

import pytest

from ledger_tools.verdicts.answer import in_all, without
from ledger_tools.verdicts.offers import RULINGS
from ledger_tools.verdicts.verdict import Verdict

from .books import LET, fresh, last, short, verdicts
from .test_offers import OPEN

INHERITED = fresh("not lettable", "", got="inherited 10 Jun 2025 at £120,000")
BOUGHT = fresh("not lettable", "reduced")
ROOF = "4 Mar 2026 replaced roof £3,900.00, modern equivalent, worn out"
WORN = f"{ROOF}, of which worn since bought £400.00"


def ruled(line: str, verdict: str, house: str = LET) -> Verdict:
    return last(f'{line}, treat as {verdict} because "adviser, 2 Mar"', house)


def test_of_ones_own_wear_both_answers_are_offered_and_each_can_be_written() -> None:
    """Law Shipping: what one's own letting wore out is a repair, whatever the rest is."""
    asked = last(WORN, INHERITED)

    assert short(asked.parts) == "400.00 repair + 3500.00 open repairs [acquisition]"
    assert asked.ask == (', treat as repair because "…"', ', treat as purchase cost because "…"')
    for verdict, answer in (("repair", asked.other), ("purchase cost", asked.cautious)):
        assert sorted(ruled(WORN, verdict, INHERITED).parts, key=repr) == sorted(answer, key=repr)


@pytest.mark.parametrize(
    ("line", "house", "verdict", "comes"),
    [
        (WORN, BOUGHT, "purchase cost", "3500.00 purchase + 400.00 repair"),
        (WORN, BOUGHT, "repair", "3900.00 repair"),
        ("4 Mar 2025 repaired tap £90.00, of which private £20.00", LET, "improvement",
         "70.00 improvement + 20.00 private"),
        ("4 Mar 2025 replaced roof £90.00, like for like, improvement £20.00", LET, "purchase cost",
         "70.00 purchase + 20.00 improvement"),
    ],
)  # fmt: skip
def test_what_the_line_decides_by_its_amount_stays_beside_a_ruling(
    line: str, house: str, verdict: str, comes: str
) -> None:
    found = ruled(line, verdict, house)

    assert short(found.parts) == comes
    assert ("stays as it is" in found.ruled) == ("+" in comes)


def test_a_ruling_overrules_what_the_rules_found_by_themselves() -> None:
    """Nobody but the rules says that the extra ones are an addition: so they can be overruled."""
    more = "4 Mar 2025 replaced 3 sockets with 5 sockets £500.00, like for like"

    assert short(last(more).parts) == "300.00 repair + 200.00 improvement"
    assert short(ruled(more, "repair").parts) == "500.00 repair"


def test_what_is_not_open_stays_where_a_ruling_settles_the_rest() -> None:
    more = "4 Mar 2026 replaced 3 radiators with 5 radiators £500.00, like for like, worn out"
    asked = last(more, BOUGHT)

    assert asked.arguable and "200.00 improvement" in short(asked.parts)
    assert short(ruled(more, "purchase cost", BOUGHT).parts) == "300.00 purchase + 200.00 improvement"


def test_an_item_replaced_has_relief_up_to_the_price_of_one_like_the_old_whoever_says_that_it_is_one() -> None:
    """ITTOIA 2005 s.311A(9)."""
    better = "4 Mar 2025 replaced sofa £600.00, better, used by tenant, same again £480.00"

    assert short(last(better).parts) == "480.00 replaced + 120.00 none"
    assert short(ruled(better, "item replaced").parts) == "480.00 replaced + 120.00 none"
    assert short(ruled(better, "no relief").parts) == "600.00 none"


def test_a_line_that_follows_takes_the_ruled_sums_in_proportion() -> None:
    lines = f'{WORN}, treat as purchase cost because "adviser"\n5 Mar 2026 repaired plaster £390.00, goes with roof'

    assert short(verdicts(lines, INHERITED)[-1].parts) == "350.00 purchase + 40.00 repair"


MONEY_IN = ("received", "sold", "kept", "recharged", "banked")
# Open for one of two owners alone, by the day their own letting begins: a ruling is about the line, and so about both.
OF_ONE_OWNER = "a second house of one who let and one who did not"


@pytest.mark.parametrize("name", [name for name, case in OPEN.items() if case.other and name != OF_ONE_OWNER])
def test_a_ruling_comes_to_the_answer_that_was_shown(name: str) -> None:
    case = OPEN[name]
    asked = verdicts(case.lines, case.house, case.people)[-1]
    if asked.item.line.verb in MONEY_IN:
        return  # no ruling names what money in is
    answers = (asked.other, asked.cautious)
    for answer in answers:
        kinds = {part.kind for part in without(answer, in_all(answers))}
        verdict = RULINGS.get(next(iter(kinds))) if len(kinds) == 1 else None
        if verdict:
            line = f'{case.lines}, treat as {verdict} because "adviser, 2 Mar"'
            now = verdicts(line, case.house, case.people)[-1]
            assert sorted(now.parts, key=repr) == sorted(answer, key=repr), (verdict, short(now.parts))
