"""The tax on a purchase as the book tells it: answers, what settles them, what was paid. Houses invented."""

from __future__ import annotations

import pytest

from ledger_tools.book.build import build
from ledger_tools.problems import Level
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.land_tax import PurchaseTax, purchase_tax

SURE = "for £187,333, additional dwelling"


def asked(deal: str = SURE, more: str = "", lines: str = "", nation: str = "england", day: str = "2 May 2025",
          rest: str = "") -> PurchaseTax | None:  # fmt: skip
    where = f"    nation {nation}\n" if nation else ""
    told = f'landlord x "X"\nproperty a "1 A Street"\n{where}    {more}\n    bought {day} {deal}\n{rest}at a\n{lines}'
    book = build({"a.book": told.replace("    \n", "")})
    assert [p.headline for p in book.problems if p.level is Level.ERROR] == []
    return purchase_tax(Accounts(book), "a")


def found(*args: str, **kwargs: str) -> PurchaseTax:
    made = asked(*args, **kwargs)
    assert made is not None
    return made


EXCHANGED = "exchanged 1 Apr 2025"


def test_one_answer_where_the_book_tells_enough_and_chattels_stay_out() -> None:
    made = found("for £188,333, additional dwelling, of which chattels £1,000", EXCHANGED)

    assert (made.name, made.price, made.chattels) == ("stamp duty land tax", 187_333_00, 1_000_00)
    assert [(a.supposed, a.tax.payable) for a in made.answers] == [((), 10_613_00)]
    assert made.answers[0].tax.exact == 10_613_31


@pytest.mark.parametrize(
    ("fact", "payable"), [("additional dwelling", 15_000_00), ("only dwelling", 2_500_00), ("main home", 2_500_00)]
)
def test_both_answers_and_the_words_that_settle_them(fact: str, payable: int) -> None:
    unsure = found("for £250,000", EXCHANGED)
    sure = found(f"for £250,000, {fact}", EXCHANGED)

    assert [(a.add, a.tax.payable) for a in unsure.answers] == [
        ((", additional dwelling",), 15_000_00), ((", only dwelling",), 2_500_00),
    ]  # fmt: skip
    assert any("`, additional dwelling` or `, only dwelling`" in note for note in unsure.notes)
    assert [a.tax.payable for a in sure.answers] == [payable]
    assert not any("To settle it" in note for note in sure.notes)


def test_the_contract_is_asked_for_where_it_matters_and_only_there() -> None:
    unsure = found("for £250,000, additional dwelling", day="2 Apr 2025")
    early = found("for £250,000, additional dwelling", "exchanged 29 Oct 2024", day="2 Apr 2025")
    before = found("for £250,000, additional dwelling", day="1 Oct 2024")
    long_ago = found("for £250,000, additional dwelling", day="1 Nov 2027")

    assert [a.tax.payable for a in unsure.answers] == [15_000_00, 10_000_00]
    assert [a.supposed[0] for a in unsure.answers] == [
        "contracts were exchanged on or after 31 Oct 2024", "contracts were exchanged before 31 Oct 2024",
    ]  # fmt: skip
    assert any("add `exchanged`" in note for note in unsure.notes)
    assert [a.tax.payable for a in early.answers] == [10_000_00]
    assert len(before.answers) == len(long_ago.answers) == 1


def test_who_had_exchanged_in_wales_may_choose() -> None:
    made = found("for £300,000, main home", "exchanged 1 Oct 2022", nation="wales", day="1 Nov 2022")

    assert [a.tax.payable for a in made.answers] == [4_500_00, 4_950_00]
    assert "you chose the rates before" in made.answers[1].supposed[0]


def test_what_was_paid_is_held_against_the_answer_and_a_gap_told_with_both() -> None:
    same = found(more=EXCHANGED, lines="2 May 2025 paid stamp duty £10,613.00\n")
    gap = found(more=EXCHANGED, lines="2 May 2025 paid stamp duty £10,000.00\n")
    none = found(more=EXCHANGED)

    assert same.fits is not None and same.notes == ()
    assert gap.fits is None
    assert "£613.00 less than the £10,613.00 worked out here (unrounded £10,613.31)" in gap.notes[0]
    assert "chattels in the price" in gap.notes[1]
    assert "tells of no such tax paid" in none.notes[0]


def test_of_two_answers_what_was_paid_names_the_one_it_fits() -> None:
    made = found("for £250,000", EXCHANGED, "2 May 2025 paid stamp duty £2,500.00\n")

    assert made.fits is not None and made.fits.add == (", only dwelling",)


def test_money_back_comes_off_what_was_paid() -> None:
    lines = "2 May 2025 paid stamp duty £11,000.00\n9 Jun 2025 received refund £387.00 from hmrc for stamp duty\n"
    made = found(more=EXCHANGED, lines=lines)

    assert made.paid.pence == 10_613_00
    assert [t.pence for t in made.paid.trail] == [11_000_00, -387_00]


def test_without_a_nation_it_asks_and_the_council_may_tell_it() -> None:
    unsure = found(nation="")
    told = found(more="council kin, band C", nation="", rest='council kin "Kin"\n    nation scotland\n')

    assert unsure.answers == () and "add `nation england`" in unsure.notes[0]
    assert told.name == "land and buildings transaction tax"


def test_before_the_first_rates_what_was_paid_stands() -> None:
    made = found(day="1 May 2010")

    assert made.answers == ()
    assert "No rates of stamp duty land tax are held here for 1 May 2010" in made.notes[0]


def test_homes_bought_on_one_day_are_a_caution() -> None:
    rest = 'property b "2 B Street"\n    nation england\n    bought 2 May 2025 for £90,000, additional dwelling\n'

    assert any("2 B Street was bought on the same day" in note for note in found(rest=rest).notes)


def test_what_came_as_a_gift_has_none() -> None:
    book = build({"a.book": 'landlord x "X"\nproperty a "1 A Street"\n    inherited 2 May 2025 at £150,000\n'})

    assert purchase_tax(Accounts(book), "a") is None
