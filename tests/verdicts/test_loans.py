"""What the book says became of a loan: the line that does not tell it is named, with its day and its sum."""

from __future__ import annotations

from datetime import date

import pytest

from ledger_tools.book.build import build
from ledger_tools.verdicts.catalogue import catalogue
from ledger_tools.verdicts.engine import judge
from ledger_tools.verdicts.history import History
from ledger_tools.verdicts.loans import Loans
from ledger_tools.verdicts.verdict import Verdict

HOUSE = """\
landlord x "X"
lender cas "Castle"
property a "1 A Street"
    bought 1 May 2015 for £100,000
loan cas-1 on a from cas
tenancy t at a
    tenants "T. Enant"
    periodic from 1 Jun 2015
    rent £500 a month
"""
INTEREST = "4 Mar 2025 paid loan interest £100.00 to cas\n"


def interest(lines: str) -> Verdict:
    return [v for v in judge(build({"a.book": HOUSE + lines + INTEREST})) if v.item.line.verb == "paid"][-1]


def reason(verdict: Verdict) -> str:
    return next(fired.says for fired in verdict.path if fired.slug == "loan-spent-privately")


def test_the_line_whose_use_is_not_told_is_named() -> None:
    says = reason(interest("3 Apr 2019 borrowed £80,000.00 from cas\n"))

    assert "£80,000.00 of what was borrowed on 3 Apr 2019 (a.book:10)" in says
    assert "lowers the tax bill at the basic rate and does not come off the rents" in says


def test_of_several_only_those_before_and_only_what_is_untold() -> None:
    says = reason(interest(
        "3 Apr 2019 borrowed £80,000.00 from cas for purchase\n"
        "3 Apr 2020 borrowed £20,000.00 from cas\n    spent £5,000.00 on roof\n"
        "3 Apr 2026 borrowed £7,000.00 from cas\n"
    ))  # fmt: skip

    assert "£15,000.00 of what was borrowed on 3 Apr 2020 (a.book:11)" in says
    assert "2019" not in says and "2026" not in says


def test_interest_on_a_dwelling_is_never_said_to_come_off_the_rents() -> None:
    answers = interest("3 Apr 2019 borrowed £80,000.00 from cas\n").answers

    assert answers == ("a finance cost: it lowers the tax bill at the basic rate", "private: nothing comes off")


def counts(lines: str) -> list[tuple[int, str]]:
    return [(part.amount, part.category) for part in interest(lines).parts]


FIRST = "1 May 2015 borrowed £100,000.00 from cas for purchase\n"
HOLIDAY = '1 Apr 2024 borrowed £160,000.00 from cas for private "holiday home"\n'


@pytest.mark.parametrize(
    "back",
    [
        "1 Jan 2024 repaid loan £80,000.00 to cas\n",
        "1 Jan 2024 paid mortgage payment £80,500.00 to cas, of which interest £500.00\n",
        "1 Jan 2024 paid mortgage payment £80,500.00 to cas, of which capital £80,000.00\n",
    ],
)
def test_tc_77_what_was_repaid_does_not_come_back_by_borrowing_it_for_private_ends(back: str) -> None:
    """BIM45700 of 1 July 2026, the sums of a firm's note: £20,000 of £180,000 is left for the letting."""
    verdict = judge(build({"a.book": HOUSE + FIRST + back + HOLIDAY + INTEREST.replace("100", "9,000")}))[-1]

    assert [(p.amount, p.category) for p in verdict.parts] == [(1_000_00, "finance_residential"), (8_000_00, "")]


def test_tc_76_money_drawn_out_by_refinancing_counts_for_nothing() -> None:
    """BIM45700 of 1 July 2026, the sums of a firm's note of 2017: £60,000 of £100,000."""
    lines = FIRST.replace("100,000", "60,000") + HOLIDAY.replace("160,000", "40,000")

    assert counts(lines) == [(60_00, "finance_residential"), (40_00, "")]


def test_a_loan_of_two_uses_is_paid_back_in_proportion() -> None:
    lines = FIRST + HOLIDAY.replace("160,000", "100,000") + "2 Apr 2024 repaid loan £100,000.00 to cas\n"
    again = "3 Apr 2024 borrowed £100,000.00 from cas for purchase\n"

    assert [pence for pence, _ in counts(lines)] == [50_00, 50_00]
    assert [pence for pence, _ in counts(lines + again)] == [75_00, 25_00]


def test_what_is_owed_where_the_book_begins_takes_the_place_of_what_was_paid_back_before() -> None:
    owed = HOUSE.replace("loan cas-1 on a from cas\n", "loan cas-1 on a from cas\n    owed £90,000 on 1 Jan 2025\n")
    before = "3 Apr 2024 repaid loan £50,000.00 to cas\n"
    after = '2 Feb 2025 borrowed £10,000.00 from cas for private "car"\n'
    verdicts = judge(build({"a.book": owed + before + after + INTEREST}))

    assert [part.amount for part in verdicts[-1].parts] == [90_00, 10_00]


def test_what_settles_it_is_the_line_that_borrowed_with_its_purpose() -> None:
    lines = "    interest only\n3 Apr 2019 borrowed £80,000.00 from cas-1\n4 May 2025 paid mortgage £295.00 to cas-1\n"
    house = HOUSE.replace("loan cas-1 on a from cas\n", "") + "loan cas-1 on a from cas\n"

    def judged(text: str) -> Verdict:
        return next(v for v in judge(build({"a.book": house + text})) if v.item.line.verb == "paid")

    asked = judged(lines)
    offers = [offer for offer in asked.ask if offer.startswith("3 Apr 2019 borrowed £80,000.00 from cas-1 for ")]
    assert asked.arguable and len(offers) == 2
    assert any("what became of £80,000.00" in fired.says for fired in asked.path)
    for offer in offers:
        now = judged(lines.replace("3 Apr 2019 borrowed £80,000.00 from cas-1", offer))
        assert not now.arguable and not now.ask


# ── how much of a payment can be interest ────────────────────────────────────────────────────────────────────────

RATED = HOUSE.replace("loan cas-1 on a from cas\n", "loan cas-1 on a from cas\n    rate 5% from 1 May 2015\n")
LENT = "4 Mar 2024 borrowed £73,000.00 from cas for purchase\n"


def payment(lines: str, house: str = RATED) -> Verdict:
    return judge(build({"a.book": house + lines}))[-1]


def could_be(verdict: Verdict) -> list[tuple[int, str]]:
    return [(part.amount, part.kind.value) for part in verdict.parts]


def test_no_more_of_a_payment_is_open_than_interest_can_have_grown() -> None:
    """£73,000 at 5% is £10 a day; with each day's interest bearing interest too, £300.60 in the 30 days of June."""
    first = LENT + "1 Jun 2024 paid mortgage interest £890.00 to cas\n"
    verdict = payment(first + "1 Jul 2024 paid mortgage £430.00 to cas\n")

    assert could_be(verdict) == [(129_40, "ignored"), (300_60, "arguable")]
    assert any("At 5% a year no more than £300.60 can have grown since 1 Jun 2024" in f.says for f in verdict.path)
    assert could_be(payment(first + "1 Jul 2024 paid mortgage £250.00 to cas\n")) == [(250_00, "arguable")]


def test_the_loan_paid_back_in_one_sum_is_no_open_cost() -> None:
    """Interest told apart on the same day takes up what can have grown; what is left of the payment is capital."""
    apart = "1 Jul 2024 paid mortgage interest £1,300.00 to cas\n"
    told = payment(LENT + apart + "1 Jul 2024 repaid mortgage £73,000.00 to cas\n")
    after = payment(LENT + "1 Jul 2024 repaid mortgage £73,000.00 to cas\n" + apart.replace("1,300", "300"))
    turned = judge(build({"a.book": RATED + LENT + "1 Jul 2024 repaid mortgage £73,000.00 to cas\n" + apart}))[1]

    assert could_be(told) == could_be(turned) == [(73_000_00, "ignored")]
    assert any("is told apart, so this pays back what was borrowed" in fired.says for fired in told.path)
    assert could_be(after) == [(300_00, "running-expense")]
    half = payment(LENT + apart.replace("1,300", "300") + "1 Jul 2024 repaid mortgage £73,000.00 to cas\n")
    assert could_be(half)[1][1] == "arguable" and 890_00 < could_be(half)[1][0] < 900_00


@pytest.mark.parametrize("house", [HOUSE, RATED.replace("5% from 1 May 2015", "5% from 1 May 2015 to 31 May 2015")])
def test_without_a_rate_of_the_time_all_of_it_stays_open(house: str) -> None:
    assert could_be(payment(LENT + "1 Apr 2024 paid mortgage £430.00 to cas\n", house)) == [(430_00, "arguable")]


def test_without_what_is_owed_all_of_it_stays_open_and_a_balance_told_is_enough() -> None:
    owed = RATED.replace("    rate", "    owed £73,000 on 1 Jun 2024\n    rate")
    paid = "1 Jul 2024 paid mortgage £430.00 to cas\n"

    assert could_be(payment(paid)) == [(430_00, "arguable")]
    assert could_be(payment(paid, owed)) == [(129_40, "ignored"), (300_60, "arguable")]


def test_the_highest_rate_of_the_time_is_taken() -> None:
    two = RATED.replace("5% from 1 May 2015\n", "5% from 1 May 2015 to 30 Jun 2024\n    rate 10% from 1 Jul 2024\n")
    first = LENT + "1 Jun 2024 paid mortgage interest £890.00 to cas\n"

    assert could_be(payment(first + "1 Jul 2024 paid mortgage £430.00 to cas\n", two)) == [(430_00, "arguable")]
    june = payment(first + "30 Jun 2024 paid mortgage £430.00 to cas\n", two)
    assert could_be(june)[1][0] < 300_00


def test_capital_that_is_sure_makes_the_loan_smaller() -> None:
    back = LENT + "1 Jul 2024 repaid mortgage £60,000.00 to cas\n"
    later = payment(back + "1 Aug 2024 repaid mortgage £5,000.00 to cas\n")

    assert could_be(later)[1][1] == "arguable" and could_be(later)[1][0] < 70_00


def test_interest_told_alone_says_nothing_of_what_is_owed() -> None:
    told = Loans(build({"a.book": RATED + INTEREST}), History(build({"a.book": RATED}), catalogue()).known)

    assert told.stood("cas-1", date(2025, 4, 5)) is None
