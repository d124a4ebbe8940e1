"""What is said of money that comes in for things and for harm: no more than the law gives, with its limits."""

from __future__ import annotations

import pytest

from ledger_tools.verdicts.verdict import Confidence

from .books import LET, last, short

DAMAGE = "4 Mar 2025 {}, fire damage\n5 Mar 2025 received insurance £400.00 from cobb for {}"


@pytest.mark.parametrize(
    ("price", "sure", "said"),
    [("£6,000.00", Confidence.CLEAR, "small things like this"), ("£6,500.00", Confidence.USUAL, "£6,000.00")],
)
def test_a_thing_is_called_small_up_to_the_limit_only(price: str, sure: Confidence, said: str) -> None:
    verdict = last(f"4 Mar 2025 sold piano {price} to cobb, ours before")

    assert verdict.confidence is sure
    assert said in verdict.path[-1].says


@pytest.mark.parametrize(
    ("work", "thing", "said"),
    [
        ("rebuilt whole garage £9,000.00", "garage", "s.23"),
        ("repaired garage £900.00", "garage", "the repair it paid for"),
        ("replaced sofa £900.00, like for like, used by tenant", "sofa", "the relief for what took the place"),
    ],
)
def test_money_for_harm_says_what_it_comes_off(work: str, thing: str, said: str) -> None:
    verdict = last(DAMAGE.format(work, thing))
    (found,) = [fired for fired in verdict.path if fired.slug == "insurance-for-damage"]

    assert said in found.says
    assert (verdict.confidence is Confidence.USUAL) == (said == "s.23")


@pytest.mark.parametrize(("payer", "own_return"), [("the executors", True), ("my sister", False)])
def test_what_an_executor_bore_may_come_off_the_return_of_the_estate(payer: str, own_return: bool) -> None:
    verdict = last(f'4 Mar 2025 repaired gutters £90.00, paid by "{payer}"')

    assert ("in their own return" in verdict.path[0].says) is own_return
    assert "no owner of the house" in verdict.path[0].says


@pytest.mark.parametrize(
    ("work", "sure"),
    [
        ("repaired door £90.00", Confidence.CLEAR),
        ("replaced carpet £90.00, like for like, used by tenant", Confidence.USUAL),
    ],
)
def test_a_cost_billed_to_a_tenant_is_surest_of_a_repair(work: str, sure: Confidence) -> None:
    thing = work.split()[1]

    assert last(f"3 Mar 2025 {work}\n4 Mar 2025 recharged {thing} £60.00 to okoye").confidence is sure


def test_an_old_one_that_brought_more_than_the_new_leaves_nothing_and_says_so() -> None:
    verdict = last("4 Mar 2025 replaced bed £90.00, like for like, used by tenant, old one sold £120.00 to cobb")
    said = " ".join(fired.says for fired in verdict.path)

    assert "£30.00 over is a capital sum" in said and "all of it comes off" not in said


BURNT = "3 Mar 2025 replaced mattress £210.00, like for like, used by tenant, tenant damage\n"
TOLD_OF_TENANTS = [
    "received £60.00 from okoye for mattress",
    "received £60.00 from tenant for mattress",
    "received recharge £60.00 from okoye for mattress",
    "received damages £60.00 from okoye for mattress",
    "received compensation £60.00 from tenant for mattress",
    "recharged mattress £60.00 to okoye",
]


@pytest.mark.parametrize("line", TOLD_OF_TENANTS)
def test_damage_that_a_tenant_paid_for_is_income_however_it_is_told(line: str) -> None:
    """Works rules G6, G7: ITTOIA 2005 s.266(2)."""
    found = last(f"{BURNT}4 Mar 2025 {line}")

    assert (short(found.parts), found.confidence) == ("60.00 income other_income", Confidence.USUAL)


@pytest.mark.parametrize("line", TOLD_OF_TENANTS)
def test_damage_that_a_tenant_paid_for_after_the_last_let_is_open_however_it_is_told(line: str) -> None:
    found = last(f"4 Mar 2025 {line}", LET + "    ended 31 Dec 2024\n")

    assert [fired.slug for fired in found.path if fired.decided] == ["beyond-the-deposit"]
    assert short(found.parts) == "60.00 open"


def test_what_a_stranger_pays_for_the_same_damage_comes_off_what_it_cost() -> None:
    """BIM40115: a wrongdoer's money fills a hole; a tenant's is rent."""
    assert short(last(f'{BURNT}4 Mar 2025 received damages £60.00 from "A. Neighbour" for mattress').parts) == (
        "60.00 nets domestic"
    )


def test_what_a_tenants_damages_name_as_lasting_loss_is_told_apart() -> None:
    line = "4 Mar 2025 received damages £60.00 from okoye for mattress, of which lost value £20.00"

    assert short(last(BURNT + line).parts) == "40.00 income other_income + 20.00 capital sum"


@pytest.mark.parametrize("line", ["received mattress £60.00 from okoye", "received £60.00 for mattress"])
def test_money_that_names_a_thing_is_offered_what_it_may_be(line: str) -> None:
    asked = last(f"{BURNT}4 Mar 2025 {line}")

    assert asked.arguable and {"received recharge for mattress", "sold mattress"} <= set(asked.ask)
