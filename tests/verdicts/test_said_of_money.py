"""What is said of money that comes in for things and for harm: no more than the law gives, with its limits."""

from __future__ import annotations

import pytest

from ledger_tools.verdicts.verdict import Confidence

from .books import last

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
