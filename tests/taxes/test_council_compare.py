"""A bill with one mistake planted in it: the code, the days and the money that come out."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest

from ledger_tools.taxes.council.compare import bills

from .council_books import SCHEME, book, compared, let, reasons

D = date
LONG = "bought 1 Jan 2010 for £1; empty since 1 Mar 2024"
SINCE_JULY = "bought 1 Jul 2025 for £1; empty since 1 Jul 2025"
TENANT = let("gale", "periodic from 1 Jan 2020; moved out 1 Jul 2025; ended 1 Jul 2025")
CASES = {
    # the seller's days, in full, and the free month left out
    "date-start": (
        "bought 11 Jul 2025 for £1; empty since 1 Jan 2025", "", "£155.00", "1 Jul 2025 to 31 Jul 2025",
        [("date-start", D(2025, 7, 1), D(2025, 7, 10), 50_00)],
    ),
    "date-start, nothing known before completion": (
        "bought 11 Jul 2025 for £1; empty since 11 Jul 2025", let("moss", "periodic from 1 Aug 2025"),
        "£50.00", "1 Jul 2025 to 31 Jul 2025", [("date-start", D(2025, 7, 1), D(2025, 7, 10), 50_00)],
    ),
    "residents": (
        "bought 1 Jan 2010 for £1; furnished from 1 Jan 2010; one adult counts from 11 Jul 2025",
        let("gale", "room 1; periodic from 1 Jan 2020"), "£155.00", "1 Jul 2025 to 31 Jul 2025",
        [("residents", D(2025, 7, 11), D(2025, 7, 31), 26_25)],
    ),
    "band deleted": (
        "bought 1 Jan 2010 for £1; empty since 1 Aug 2024; band deleted from 11 Jul 2025", "",
        "£155.00", "1 Jul 2025 to 31 Jul 2025", [("exempt-class", D(2025, 7, 11), D(2025, 7, 31), 105_00)],
    ),
    "date-end": (
        "bought 1 Jan 2010 for £1; empty since 1 Jan 2025", let("moss", "periodic from 22 Jul 2025"),
        "£155.00", "1 Jul 2025 to 31 Jul 2025", [("date-end", D(2025, 7, 22), D(2025, 7, 31), 50_00)],
    ),
    "sold": (
        "bought 1 Jan 2010 for £1; empty since 1 Jan 2025; sold 22 Jul 2025 for £1", "",
        "£155.00", "1 Jul 2025 to 31 Jul 2025", [("date-end", D(2025, 7, 22), D(2025, 7, 31), 50_00)],
    ),
    "wrong-party": (
        "bought 1 Jan 2010 for £1; unfurnished from 1 Jan 2010",
        let("voss", "from 1 Jan 2025 to 31 Jul 2025; moved out 1 Jul 2025; ended 31 Jul 2025"),
        "£225.00", "1 Jul 2025 to 14 Aug 2025",
        # the free month has run from the day the tenant left
        [
            ("wrong-party", D(2025, 7, 1), D(2025, 7, 31), 155_00),
            ("discount-missing", D(2025, 8, 1), D(2025, 8, 14), 17_50),
        ],
    ),
    "discount-missing": (
        SINCE_JULY, "", "£310.00", "1 Jul 2025 to 31 Aug 2025",
        [
            ("discount-missing", D(2025, 7, 1), D(2025, 7, 31), 155_00),
            ("discount-missing", D(2025, 8, 1), D(2025, 8, 31), 38_75),
        ],
    ),
    "class-d-refused": (
        "bought 1 Jan 2010 for £1; empty since 1 Aug 2024; works from 1 Jul 2025 to 31 Jul 2025", "",
        "£155.00", "1 Jul 2025 to 31 Jul 2025", [("class-d-refused", D(2025, 7, 1), D(2025, 7, 31), 77_50)],
    ),
    # the buyer was given the free month that the seller had used up
    "discount-already-used": (
        "bought 10 Jun 2025 for £1; empty since 1 Apr 2025", "", "£3.75", "10 Jun 2025 to 10 Jul 2025",
        [("discount-already-used", D(2025, 6, 10), D(2025, 7, 9), -112_50)],
    ),
    "premium-too-early": (
        "bought 1 Jan 2010 for £1; empty since 1 Aug 2024", "", "£310.00", "1 Jul 2025 to 31 Jul 2025",
        [("premium-too-early", D(2025, 7, 1), D(2025, 7, 31), 155_00)],
    ),
    "exception-missing": (
        f"{LONG}; marketed from 1 Jul 2025", "", "£310.00", "1 Jul 2025 to 31 Jul 2025",
        [("exception-missing", D(2025, 7, 1), D(2025, 7, 31), 155_00)],
    ),
    # the discount for works was given, but not kept from the premium
    "exception-missing, works": (
        "bought 1 Jan 2010 for £1; empty since 1 Nov 2024; works from 1 Feb 2025", "", "£2,045.00",
        "1 Apr 2025 to 31 Mar 2026", [("exception-missing", D(2025, 11, 1), D(2026, 1, 31), 690_00)],
    ),
    "exempt-class": (
        "bought 1 Jan 2010 for £1; empty since 1 Aug 2024; exempt class g from 11 Jul 2025 to 31 Jul 2025", "",
        "£155.00", "1 Jul 2025 to 31 Jul 2025", [("exempt-class", D(2025, 7, 11), D(2025, 7, 31), 105_00)],
    ),
    "granted": (
        "bought 1 Jan 2010 for £1; empty since 1 Aug 2024", "", "£155.00", "1 Jul 2025 to 31 Jul 2025",
        [("discount-missing", D(2025, 7, 1), D(2025, 7, 10), 25_00)],
    ),
    "year-amount": (
        LONG, "", "£372.00", "1 Jul 2025 to 31 Jul 2025", [("year-amount", D(2025, 7, 1), D(2025, 7, 31), 62_00)],
    ),
    "days-in-year": (
        LONG, "", "£1,515.85", "1 Jul 2025 to 29 Nov 2025", [("days-in-year", D(2025, 7, 1), D(2025, 11, 29), -4_15)],
    ),
    "too little": (
        LONG, "", "£155.00", "1 Jul 2025 to 31 Jul 2025", [("premium-step", D(2025, 7, 1), D(2025, 7, 31), -155_00)],
    ),
    "pennies": (SINCE_JULY, "", "£116.26", "1 Aug 2025 to 31 Aug 2025",
                [("rounding", D(2025, 8, 1), D(2025, 8, 31), 1)]),
    "unexplained": (LONG, "", "£333.33", "1 Jul 2025 to 31 Jul 2025",
                    [("unexplained", D(2025, 7, 1), D(2025, 7, 31), 23_33)]),
    "right": (LONG, "", "£310.00", "1 Jul 2025 to 31 Jul 2025", []),
}  # fmt: skip


@pytest.mark.parametrize("name", CASES)
def test_a_planted_mistake_is_found(name: str) -> None:
    house, lets, sum_, days, expected = CASES[name]
    line = f"2 Dec 2025 billed council tax {sum_} by mere for {days}\n"
    if name == "granted":
        line += "3 Dec 2025 granted 50% off council tax by mere for 1 Jul 2025 to 10 Jul 2025\n"

    assert reasons(book(house, line, lets)) == expected


@pytest.mark.parametrize("name", CASES)
def test_reasons_come_to_the_difference(name: str) -> None:
    house, lets, sum_, days, _ = CASES[name]
    found = compared(book(house, f"2 Dec 2025 billed council tax {sum_} by mere for {days}\n", lets))

    assert sum(reason.pence for reason in found.reasons) == found.too_much


@pytest.mark.parametrize(
    ("days", "code"),
    [("1 Mar 2025 to 31 Mar 2025", "date-start"), ("1 Mar 2026 to 30 Apr 2026", "date-end")],
)
def test_a_bill_for_days_of_others_is_too_much_whatever_the_charge(days: str, code: str) -> None:
    """The book has no scheme for those days, and needs none."""
    made = book("bought 1 May 2025 for £1; empty since 1 May 2025; sold 1 Mar 2026 for £1",
                f"2 May 2026 billed council tax £155.00 by mere for {days}\n")  # fmt: skip
    found = compared(made)

    assert [(r.code, r.pence) for r in found.reasons] == [(code, 155_00)]


EXEMPT = {"wales": "SI 1992/558 Class C", "scotland": "SI 1997/728 Sch. 1 para. 4"}


@pytest.mark.parametrize(("nation", "law"), EXEMPT.items())
def test_a_bill_that_left_out_what_the_law_exempts_is_followed(nation: str, law: str) -> None:
    line = "2 Jul 2025 billed council tax £155.00 by mere for 1 Jul 2025 to 31 Jul 2025\n"
    house = "bought 1 Jul 2025 for £1; lived in from 1 Jan 2025 to 30 Jun 2025; empty since 1 Jul 2025"
    found = compared(book(house, line, nation=nation))

    assert [(r.code, r.pence, r.law) for r in found.reasons] == [("exempt-class", 155_00, law)]


def test_what_changed_after_the_bill_is_a_projection_and_no_mistake() -> None:
    """On 2 July nobody could know that it would be let from 15 August."""
    made = book(SINCE_JULY, "2 Jul 2025 billed council tax £889.23 by mere for 1 Jul 2025 to 31 Mar 2026\n",
                let("moss", "periodic from 15 Aug 2025"))  # fmt: skip
    found = compared(made)

    assert found.then.pence == 153 * 375 + 90 * 500  # 25% off to 31 Dec, then the whole
    assert {r.code for r in found.reasons} == {"unexplained"}
    right = book(SINCE_JULY, f"2 Jul 2025 billed council tax £{found.then.pence // 100}.{found.then.pence % 100:02d} "
                 "by mere for 1 Jul 2025 to 31 Mar 2026\n", let("moss", "periodic from 15 Aug 2025"))  # fmt: skip
    assert [code for code, *_ in reasons(right)] == ["projection"]
    assert compared(right).now.pence == 14 * 375


def test_a_bill_without_a_scheme_is_not_guessed_at() -> None:
    made = book(SINCE_JULY, "2 Jul 2025 billed council tax £889.23 by mere for 1 Jul 2025 to 31 Mar 2026\n", scheme="")
    found = compared(made)

    assert [r.code for r in found.reasons] == ["unknown-scheme"]
    assert "2025-26" in found.reasons[0].words


def test_a_later_bill_for_the_same_days_stands_in_place_of_the_first() -> None:
    made = book(SINCE_JULY, "2 Jul 2025 billed council tax £889.23 by mere for 1 Jul 2025 to 31 Mar 2026\n"
                "9 Aug 2025 billed council tax £700.00 by mere for 1 Jul 2025 to 31 Mar 2026\n")  # fmt: skip
    first, second = bills(made, "house")

    assert first.replaced == second.source
    assert not second.replaced


def test_a_payment_that_names_its_days_counts_where_no_bill_does() -> None:
    lines = (
        "2 Jul 2025 paid council tax £155.00 to mere for 1 Jul 2025 to 31 Jul 2025\n"
        "2 Aug 2025 billed council tax £155.00 by mere for 1 Aug 2025 to 31 Aug 2025\n"
        "9 Aug 2025 paid council tax £155.00 to mere for 1 Aug 2025 to 31 Aug 2025\n"
        "9 Sep 2025 paid council tax £20.00 to mere\n"
    )
    assert [bill.day for bill in bills(book(SINCE_JULY, lines), "house")] == [D(2025, 7, 2), D(2025, 8, 2)]


def test_water_on_the_bill_is_never_reduced_and_bears_no_premium() -> None:
    scheme = """
scheme mere 2024-25
    charge band B £1,825.00, water £365.00
    empty 10% off for 12 months
    premium 100% after 1 year
    never reduced water
"""
    old = "bought 1 Jan 2010 for £1; empty since 1 Jan 2020"
    made = book(old, "2 Dec 2024 billed council tax £341.00 by mere for 1 Jul 2024 to 31 Jul 2024\n",
                scheme=scheme, nation="scotland")  # fmt: skip

    assert reasons(made) == []
    assert compared(made).now.pence == 31 * (2 * 500 + 100)


def test_a_scheme_above_the_law_is_cut_and_told() -> None:
    scheme = SCHEME.replace("premium 100% after 1 year then 200% after 5 years", "premium 250% after 1 year")
    made = book(LONG, "2 Dec 2025 billed council tax £310.00 by mere for 1 Jul 2025 to 31 Jul 2025\n", scheme=scheme)
    found = compared(made)

    assert found.now.pence == 310_00
    assert found.now.segments[0].due.cut == 5 / 2


def test_what_is_let_off_whole_leaves_the_water_and_an_exemption_does_not() -> None:
    scheme = """
scheme mere 2024-25
    charge band B £1,825.00, water £365.00
    empty 10% off for 12 months
    never reduced water
"""
    house = "bought 1 Jul 2024 for £1; lived in from 1 Jan 2020 to 30 Jun 2024; furnished from 1 Jul 2024"
    bill = "2 Dec 2024 billed council tax £31.00 by mere for 1 Jul 2024 to 31 Jul 2024\n"
    off = "3 Dec 2024 granted 100% off council tax by mere for 1 Jul 2024 to 31 Jul 2024\n"
    exempt = "3 Dec 2024 granted class B exemption by mere for 1 Jul 2024 to 31 Jul 2024\n"

    assert compared(book(house, bill + off, scheme=scheme, nation="scotland")).now.pence == 31_00
    assert compared(book(house, bill + exempt, scheme=scheme, nation="scotland")).now.pence == 0


def test_the_discount_of_the_first_day_held_for_all_days_is_a_way_of_working_a_bill_out() -> None:
    """Half off for two months from 20 August, and the bill puts it on all of 2 October to 31 March: 181 days at 2.50.
    The 132 days from 20 November should be at 5.00."""
    scheme = SCHEME.replace("free for 1 month then 25% off for 5 months", "free for 1 month then 50% off for 2 months")
    bill = "10 Oct 2025 billed council tax £452.50 by mere for 2 Oct 2025 to 31 Mar 2026\n"
    made = book("bought 2 Oct 2025 for £1; empty since 20 Aug 2025", bill, scheme=scheme)
    found = compared(made)

    assert (found.explained, found.flat) == (True, Fraction(1, 2))
    assert reasons(made) == [("discount-already-used", D(2025, 11, 20), D(2026, 3, 31), -330_00)]


def test_double_for_all_days_is_told_apart_by_why_each_day_has_no_premium() -> None:
    """Inherited after probate, billed double for 321 days at 10.00. No year had passed to 10 June, 27 days; Class I to
    2 February, 237 days; from then on double is right."""
    house = "owner died 11 Jun 2024; probate 3 Feb 2025; inherited 15 May 2025 at £1; empty since 11 Jun 2024"
    scheme = SCHEME.replace("free for 1 month then 25% off for 5 months", "50% off for 6 months")
    bill = "2 Jun 2025 billed council tax £3,210.00 by mere for 15 May 2025 to 31 Mar 2026\n"
    made = book(house, bill, scheme=scheme)
    found = compared(made)

    assert (found.explained, found.flat) == (True, 2)
    assert reasons(made) == [
        ("premium-too-early", D(2025, 5, 15), D(2025, 6, 10), 27 * 5_00),
        ("exception-missing", D(2025, 6, 11), D(2026, 2, 2), 237 * 5_00),
    ]


def test_a_bill_that_is_explained_otherwise_is_not_said_to_be_of_one_share() -> None:
    made = book(LONG, "2 Dec 2025 billed council tax £310.00 by mere for 1 Jul 2025 to 31 Jul 2025\n")

    assert (compared(made).explained, compared(made).flat) == (True, None)
