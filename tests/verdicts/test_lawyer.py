"""What fees of lawyers and advisers follow: the purpose told, as the catalogue knows it, and what came of it."""

from __future__ import annotations

import pytest

from .books import last, short


@pytest.mark.parametrize(
    ("purpose", "comes"),
    [
        ("lease extension", "700.00 purchase"),
        ("share of freehold", "700.00 purchase"),
        ("stamp duty", "700.00 purchase"),
        ("house sale", "700.00 purchase [disposal]"),
        ("arrangement fee", "700.00 running finance_residential"),
        ("tenancy", "700.00 running professional"),
        ("boundary", "700.00 open professional [acquisition]"),
    ],
)
def test_a_lawyer_is_not_asked_about_where_the_book_says_what_for(purpose: str, comes: str) -> None:
    """C20 and C21 of the rules in words: fees of getting a right in the house are capital with it (BIM46415)."""
    found = last(f'2 Jun 2025 paid legal fee £700.00 to "Rook & Daw" for {purpose}')

    assert short(found.parts) == comes
    assert not any(words.startswith(" for ") for words in found.ask)
    assert "What was the lawyer for" not in found.path[0].says
    assert not found.arguable or purpose in found.path[0].says


def test_a_lawyer_is_asked_about_where_the_book_tells_no_purpose() -> None:
    found = last('2 Jun 2025 paid legal fee £700.00 to "Rook & Daw"')

    assert found.arguable and " for tenancy" in found.ask and "What was the lawyer for" in found.path[0].says


@pytest.mark.parametrize("fee", ["planning fee £258.00", "professional fee £300.00 for improvement"])
def test_a_fee_for_plans_tells_how_to_say_that_nothing_came_of_them(fee: str) -> None:
    """C20 of the rules in words: plans that were dropped stay capital, and then nothing of them counts for the gain."""
    open_plan = last(f'1 Feb 2025 paid {fee} to "Wold Council"')
    dropped = last(f'1 Feb 2025 paid {fee} to "Wold Council", given up')

    assert short(open_plan.parts).endswith("improvement") and "add `given up`" in open_plan.path[0].says
    assert short(dropped.parts).endswith("improvement [none]") and "add `given up`" not in dropped.path[0].says
