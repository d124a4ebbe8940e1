"""Whose cost it is and when it counts: what others bore, what comes between lets. Mill Lane is invented."""

from __future__ import annotations

import pytest

from .books import LET, fresh, last, short


@pytest.mark.parametrize("payer", ["the executors", "the seller"])
def test_what_somebody_else_bore_counts_nowhere_here_and_may_count_for_the_estate(payer: str) -> None:
    """F1 of the rules in words: who spends it may claim it."""
    house = fresh("lettable", "normal", "inherited 10 Jun 2025 at £120,000, with tenant in")
    house = house.replace("1 Oct 2025", "1 Feb 2019")
    found = last(f'4 Jul 2025 repaired gutters £90.00 by cobb, worn out, paid by "{payer}"', house)
    (said,) = [fired.says for fired in found.path if fired.slug == "someone-else-paid"]

    assert short(found.parts) == "90.00 none" and not found.arguable
    assert ("their own return" in said) is (payer == "the executors")


ENDED = LET + "    ended 31 May 2025\n"
AGAIN = 'tenancy bell at mill-3\n    tenants "A. Bell"\n    periodic from 1 Sep 2025\n    rent £700 a month\n'


def spell(words: str) -> str:
    """The house whose let has ended, with a line more."""
    return ENDED.replace("    left by", f"    {words}\n    left by")


@pytest.mark.parametrize(
    ("house", "line", "parts"),
    [
        (ENDED, "4 Jul 2025 repaired gutters £90.00", "90.00 open repairs"),
        (ENDED, '4 Jul 2025 repaired gutters £90.00, because "we have moved back in"', "90.00 open repairs"),
        (
            spell("marketed to let from 1 Jan 2020 to 1 Feb 2020"),
            "4 Jul 2025 repaired gutters £90.00",
            "90.00 open repairs",
        ),
        (spell("marketed to let from 1 Jun 2025"), "4 Jul 2025 repaired gutters £90.00", "90.00 repair"),
        (spell("works from 1 Jun 2025 to 1 Aug 2025"), "4 Jul 2025 repaired gutters £90.00", "90.00 repair"),
        (ENDED + AGAIN, "4 Jul 2025 repaired gutters £90.00", "90.00 repair"),
        (ENDED, "2 Jun 2025 paid advertising £30.00\n4 Jul 2025 repaired gutters £90.00", "90.00 repair"),
        (ENDED, "4 Jul 2025 repaired gutters £90.00, tenant damage", "90.00 repair"),
    ],
)
def test_a_void_is_one_where_the_book_tells_that_the_house_is_to_be_let(house: str, line: str, parts: str) -> None:
    """PIM2510: less than three years, and trying to carry on, is no stop; that it was tried is to be told."""
    assert short(last(line, house).parts) == parts
