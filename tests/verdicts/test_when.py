"""Whose cost it is and when it counts: what others bore, what comes between lets. Mill Lane is invented."""

from __future__ import annotations

import pytest

from .books import fresh, last, short


@pytest.mark.parametrize("payer", ["the executors", "the seller"])
def test_what_somebody_else_bore_counts_nowhere_here_and_may_count_for_the_estate(payer: str) -> None:
    """F1 and H1 of the rules in words: who spends it may claim it, be it against rents or in a gain."""
    found = last(
        f'4 Jul 2025 repaired gutters £90.00 by cobb, worn out, paid by "{payer}"',
        fresh("lettable", got="inherited 10 Jun 2025 at £120,000, with tenant in").replace("1 Oct 2025", "1 Feb 2019"),
    )
    (said,) = [fired.says for fired in found.path if fired.slug == "someone-else-paid"]

    assert short(found.parts) == "90.00 none" and not found.arguable
    assert ("their own return" in said) is (payer == "the executors")
