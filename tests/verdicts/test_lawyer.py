"""What fees of lawyers and advisers follow: the purpose told, as the catalogue knows it, and what came of it."""

from __future__ import annotations

import pytest

from ledger_tools.verdicts.verdict import Confidence

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
        ("possession of the house", "700.00 running professional"),
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


BOUGHT = 'property mill-3 "3 Mill Lane"\n    {}\n    as bought lettable\n    price normal\n'
LET = 'tenancy t at mill-3\n    tenants "T. Enant"\n    periodic from 1 Jun 2020\n    rent £500 a month\n'


@pytest.mark.parametrize(("got", "line", "first"), [
    ("bought 1 May 2020 for £90,000", "4 May 2020 paid solicitor £700.00", " for purchase"),
    ("bought 1 May 2020 for £90,000", "4 May 2023 paid solicitor £700.00", " for tenancy"),
    ("bought 1 May 2020 for £90,000", '4 May 2023 paid solicitor £700.00, because "notice to leave"', " for eviction"),
    ("bought 1 May 2020 for £90,000", '4 May 2023 paid legal fee £355.00 "county court"', " for eviction"),
    ("inherited 1 May 2020 at £90,000", "4 May 2020 paid solicitor £700.00", " for probate"),
])  # fmt: skip
def test_the_likely_answer_is_asked_first(got: str, line: str, first: str) -> None:
    """About the day of the purchase a lawyer hardly spoke of a tenant; but it is asked, for the day decides nothing."""
    found = last(line, BOUGHT.format(got) + LET)

    assert found.arguable and found.ask[0] == first
    assert (" for probate" in found.ask) == (first == " for probate")
    assert (len(found.answers) == 3) == (first == " for probate")


@pytest.mark.parametrize(("line", "comes"), [
    ("paid probate £700.00", "700.00 private"),
    ("paid solicitor £700.00 for probate", "700.00 private"),
    ("paid valuation £700.00 for lease extension", "700.00 purchase"),
    ("paid valuation £700.00 for insurance", "700.00 running premises"),
    ("paid valuation £700.00 for mortgage", "700.00 running finance_residential"),
    ("paid valuation £700.00", "700.00 open finance_residential [acquisition]"),
])  # fmt: skip
def test_what_a_fee_was_for_makes_another_thing_of_it(line: str, comes: str) -> None:
    """A valuation for the lease is no cost of a loan (BIM45815 is about the lender's), nor probate one of the let."""
    head = BOUGHT.format("inherited 1 May 2020 at £90,000") + LET
    assert short(last(f'4 May 2023 {line} to "Kerr"', head).parts) == comes


def test_a_valuation_of_a_house_with_a_loan_is_the_lenders() -> None:
    head = BOUGHT.format("bought 1 May 2020 for £90,000") + 'loan l-1 on mill-3 from "Castle"\n' + LET
    assert not last('4 May 2023 paid valuation £700.00 to "Kerr"', head).arguable


@pytest.mark.parametrize(("line", "comes"), [
    ('4 May 2023 paid solicitor £700.00, because "the new tenancy papers"', "700.00 running professional"),
    ('4 May 2023 paid solicitor £700.00, because "tenants\' deposit"', "700.00 running professional"),
    ('4 May 2023 paid solicitor £700.00, because "sale with tenant in"', "700.00 open professional [acquisition]"),
    ('4 May 2023 paid solicitor £700.00, because "papers"', "700.00 open professional [acquisition]"),
    ('4 May 2020 paid solicitor £700.00, because "the tenancy papers"', "700.00 open professional [acquisition]"),
])  # fmt: skip
def test_a_reason_that_speaks_of_a_tenant_is_read_but_not_about_the_day_of_the_purchase(line: str, comes: str) -> None:
    """BIM46405: looking after what is let. A tenant who comes with a house may be part of the deal."""
    found = last(line, BOUGHT.format("bought 1 May 2020 for £90,000") + LET)

    assert short(found.parts) == comes
    assert found.arguable or found.confidence is Confidence.USUAL


@pytest.mark.parametrize("fee", ["agent fee", "commission"])
def test_an_agent_s_fee_for_a_sale_is_a_cost_of_selling(fee: str) -> None:
    """A5 of the rules in words: TCGA 1992 s.38(1)(c), (2)."""
    assert short(last(f'4 May 2023 paid {fee} £900.00 to "Kerr" for sale').parts) == "900.00 purchase [disposal]"
    assert short(last(f'4 May 2023 paid {fee} £900.00 to "Kerr"').parts) == "900.00 running professional"
