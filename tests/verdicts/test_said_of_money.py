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


def test_an_old_one_that_brought_more_than_the_new_leaves_nothing_and_says_so() -> None:
    verdict = last("4 Mar 2025 replaced bed £90.00, like for like, used by tenant, old one sold £120.00 to cobb")
    said = " ".join(fired.says for fired in verdict.path)

    assert "£30.00 over is a capital sum" in said and "all of it comes off" not in said
