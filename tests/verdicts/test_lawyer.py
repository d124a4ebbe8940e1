"""What a lawyer's bill follows: the purpose told, as the catalogue knows it. The firm is invented."""

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
