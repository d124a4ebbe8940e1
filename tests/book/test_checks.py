"""Each cross-check of a book on the very day it looks at, and one day off."""

# ruff: noqa: E501 (a row of the table stands on one line)

from __future__ import annotations

from datetime import date

import pytest

from ledger_tools.book.build import build
from ledger_tools.book.checks import in_the_future
from ledger_tools.book.papers_told import missing_files
from ledger_tools.problems import Level, Problem

HOUSE = """
landlord x "X"
supplier pell "Pell & Sons"
property a "1 A Street"
    bought 1 May 2015 for £100,000
    sold 30 Jun 2026 for £150,000
tenancy t at a
    tenants "T. Enant"
    periodic from 1 Jun 2015
    rent £500 a month
    ended 31 May 2026
"""


def problems(text: str, code: str) -> list[Problem]:
    return [p for p in build({"a.book": text}).problems if p.code == code]


def told(lines: str, code: str, head: str = HOUSE) -> bool:
    """Whether a book with these lines has a problem of this code."""
    return bool(problems(head + lines, code))


def test_the_property_allowance_is_not_claimed_and_declined_in_one_year() -> None:
    both = 'landlord x "X"\n    claims property allowance in 2025-26\n    declines property allowance in {}\n'

    assert problems(both.format("2025-26"), "facts-at-odds")
    assert not problems(both.format("2024-25"), "facts-at-odds")


def test_incomes_of_one_year_are_added_up_and_the_same_one_twice_is_doubted() -> None:
    """A pension and wages on a line each: the last of them was all that counted."""
    two = 'landlord x "X"\n    other income £11,900 in 2025-26\n    other income £{} in 2025-26\n'
    landlord = build({"a.book": two.format("4,200")}).landlords["x"]

    assert list(landlord.other_income.values()) == [1_610_000]
    assert not problems(two.format("4,200"), "said-twice")
    assert problems(two.format("11,900"), "said-twice")


@pytest.mark.parametrize(
    ("line", "kept"),
    [
        ("loss £{} brought into 2025-26", "losses"),
        ("unused finance costs £{} brought into 2025-26", "unused_finance"),
        ("claims rent a room £{} in 2025-26", "rent_a_room"),
    ],
)
def test_sums_of_one_year_told_on_two_lines_are_added_up(line: str, kept: str) -> None:
    """As other income is: of two losses brought into a year the last was all that counted."""
    two = 'landlord x "X"\n' + f"    {line.format('500')}\n    {line.format('{}')}\n"
    landlord = build({"a.book": two.format("200")}).landlords["x"]

    assert list(getattr(landlord, kept).values()) == [70_000]
    assert not problems(two.format("200"), "said-twice")
    assert problems(two.format("500"), "said-twice")


def test_a_claim_without_a_sum_beside_one_with_it_leaves_the_sum() -> None:
    for lines in (("", " £500"), (" £500", "")):
        two = "".join(f"    claims rent a room{sum} in 2025-26\n" for sum in lines)
        assert list(build({"a.book": f'landlord x "X"\n{two}'}).landlords["x"].rent_a_room.values()) == [50_000]


# ── days of the house ────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(
    "day, before, after",
    [
        ("30 Apr 2015", True, False), ("1 May 2015", False, False), ("30 Jun 2026", False, False),
        ("1 Jul 2026", False, True), ("Apr 2015", True, False), ("May 2015", False, False),
        ("Jun 2026", False, False), ("Jul 2026", False, True),
    ],
)  # fmt: skip
def test_works_lie_between_purchase_and_sale(day: str, before: bool, after: bool) -> None:
    line = f"{day} repaired tap £9.00 by pell, worn out\n"

    assert told(line, "before-bought") is before
    assert told(line, "after-sold") is after


@pytest.mark.parametrize("verb", ["inspected", "tested"])
def test_a_house_may_be_looked_at_before_it_is_bought(verb: str) -> None:
    assert not told(f"1 Apr 2015 {verb} roof £90.00 by pell\n", "before-bought")


@pytest.mark.parametrize("day, doubt", [("1 May 2015", False), ("30 Apr 2015", True)])
def test_a_let_begins_when_the_house_is_ours(day: str, doubt: bool) -> None:
    head = HOUSE.replace("1 Jun 2015", day)

    assert told("", "let-before-bought", head) is doubt
    assert not told("", "let-before-bought", head.replace("£100,000", "£100,000, with tenant in"))


@pytest.mark.parametrize("day, wrong", [("1 May 2015", False), ("2 May 2015", True)])
def test_contracts_are_exchanged_by_the_day_of_purchase(day: str, wrong: bool) -> None:
    assert told("", "exchange-late", HOUSE.replace("    bought", f"    exchanged {day}\n    bought")) is wrong


@pytest.mark.parametrize("day, wrong", [("1 Jun 2026", False), ("30 Jun 2026", False), ("1 Jul 2026", True)])
def test_the_contract_of_a_sale_comes_before_it(day: str, wrong: bool) -> None:
    assert told("", "exchange-late", HOUSE.replace("    sold", f"    exchanged {day}\n    sold")) is wrong


def test_one_contract_of_the_purchase_and_one_of_the_sale() -> None:
    both = HOUSE.replace("    bought", "    exchanged 2 Apr 2015\n    exchanged 1 Jun 2026\n    bought")

    assert not told("", "doubled", both) and not told("", "exchange-late", both)
    assert told("", "doubled", both.replace("1 Jun 2026", "3 Apr 2015"))
    assert told("", "doubled", both.replace("2 Apr 2015", "2 Jun 2026"))


@pytest.mark.parametrize("day, wrong", [("1 May 2015", False), ("30 Apr 2015", True)])
def test_a_house_is_sold_after_it_was_bought(day: str, wrong: bool) -> None:
    assert told("", "sold-before-bought", HOUSE.replace("30 Jun 2026", day)) is wrong


# ── lets ─────────────────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(
    "day, doubt",
    [("30 Mar 2015", True), ("31 Mar 2015", False), ("1 Aug 2026", False), ("2 Aug 2026", True)],
)
def test_rent_may_come_62_days_early_or_late(day: str, doubt: bool) -> None:
    """The let runs from 1 June 2015 to 31 May 2026; common practice, no source."""
    assert told(f"{day} received rent £500.00 from t\n", "rent-outside-let") is doubt


@pytest.mark.parametrize(
    "days, doubt",
    [
        ("1 May 2015 to 31 May 2015", True), ("1 May 2015 to 1 Jun 2015", False),
        ("31 May 2026 to 30 Jun 2026", False), ("1 Jun 2026 to 30 Jun 2026", True),
    ],
)  # fmt: skip
def test_rent_for_days_is_for_days_of_the_let(days: str, doubt: bool) -> None:
    assert told(f"1 Jun 2020 received rent £500.00 from t for {days}\n", "rent-outside-let") is doubt


def test_rent_in_an_agent_s_statement_is_held_against_the_let_too() -> None:
    statement = '{} banked £400.00 from "Quay"\n    received rent £500.00 from t\n    paid management fee £100.00\n'

    assert told(statement.format("2 Aug 2026"), "rent-outside-let")
    assert not told(statement.format("1 Aug 2026"), "rent-outside-let")


NEXT = 'tenancy u at a\n    tenants "U"\n    periodic from {}\n    rent £500 a month\n'


@pytest.mark.parametrize("day, wrong", [("1 Jun 2026", False), ("31 May 2026", True), ("30 May 2026", True)])
def test_lets_of_a_house_do_not_share_a_day(day: str, wrong: bool) -> None:
    assert told(NEXT.format(day), "lets-overlap") is wrong
    assert not told(f"{NEXT.format(day)}    room attic\n", "lets-overlap")


def test_lets_of_one_room_do_not_share_a_day_either() -> None:
    other = NEXT.replace("tenancy u", "tenancy v")
    one = f"{NEXT.format('1 Jun 2026')}    room 1\n"

    assert told(f"{one}{other.format('1 Jul 2026')}    room room 1\n", "lets-overlap")
    assert not told(f"{one}{other.format('1 Jul 2026')}    room 2\n", "lets-overlap")


def test_a_let_without_an_end_runs_on() -> None:
    assert told(NEXT.format("1 Jun 2030"), "lets-overlap", HOUSE.replace("    ended 31 May 2026\n", ""))


@pytest.mark.parametrize("day, wrong", [("1 Jun 2015", False), ("31 May 2015", True)])
def test_a_let_ends_on_or_after_its_first_day(day: str, wrong: bool) -> None:
    assert told("", "let-ends-first", HOUSE.replace("31 May 2026", day)) is wrong


# ── other days ───────────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("day, doubt", [("1 Jul 2020", False), ("30 Jun 2020", True), ("2 Jul 2020", False)])
def test_a_certificate_runs_out_on_its_day_or_later(day: str, doubt: bool) -> None:
    assert told(f"1 Jul 2020 certified gas £60.00 by pell, expires {day}\n", "expired-at-once") is doubt


@pytest.mark.parametrize(
    "line, doubt",
    [
        ("25 Nov 2025 repaired tap £9.00 by pell, worn out", False),
        ("26 Nov 2025 repaired tap £9.00 by pell, worn out", True),
        ("Nov 2025 repaired tap £9.00 by pell, worn out", False),
        ("Dec 2025 repaired tap £9.00 by pell, worn out", True),
        ("1 Dec 2025 quoted roof £900.00 by pell", False),
        ("1 Dec 2025 received rent £500.00 from t", True),
    ],
)
def test_what_is_done_has_a_day_that_has_come(line: str, doubt: bool) -> None:
    book = build({"a.book": f"{HOUSE}{line}\n"})

    assert [p.code for p in in_the_future(book, date(2025, 11, 25))] == (["not-yet"] if doubt else [])


# ── papers ───────────────────────────────────────────────────────────────────────────────────────────────────────

TAP = "1 Jun 2020 repaired tap £100.00 by pell, worn out, number 1"
PAY = "1 Jul 2020 paid £{} to pell against invoice 1\n"


@pytest.mark.parametrize(
    "lines, times",
    [
        (f"{TAP}, paid 1 Jul 2020\n", 0),
        (f"{TAP}, paid 1 Jul 2020 £60.00, paid 2 Jul 2020 £40.00\n", 0),
        (f"{TAP}, paid 1 Jul 2020 £60.00, paid 2 Jul 2020 £40.01\n", 1),
        (f"{TAP}, paid 1 Jul 2020, paid 2 Jul 2020\n", 1),
        (f"{TAP}\n{PAY.format('100.00')}", 0),
        (f"{TAP}\n{PAY.format('100.01')}", 1),
        (f"{TAP}\n{PAY.format('60.00')}{PAY.format('40.00')}", 0),
        (f"{TAP}\n{PAY.format('60.00')}{PAY.format('40.01')}", 1),
        (f"{TAP}\n{PAY.format('100.00')}{PAY.format('0.01')}", 1),  # it was full already
        (f"{TAP}\n{PAY.format('100.01')}{PAY.format('50.00')}", 1),  # told once
        (f"{TAP}, paid 1 Jul 2020 £60.00\n{PAY.format('40.00')}", 0),
        (f"{TAP}, paid 1 Jul 2020 £60.00\n{PAY.format('40.01')}", 1),
        (f"{TAP}, paid 1 Jul 2020\n{PAY.format('0.01')}", 1),
        (f"{TAP}, paid 1 Jul 2020 £100.01\n{PAY.format('9.00')}", 1),  # told at the bill
    ],
)
def test_a_bill_is_paid_once_and_no_more(lines: str, times: int) -> None:
    found = problems(HOUSE + lines, "overpaid")

    assert len(found) == times
    assert all(p.level is Level.ERROR for p in found)


def test_what_is_too_much_is_told_to_the_penny() -> None:
    (bill,) = problems(f"{HOUSE}{TAP}, paid 1 Jul 2020 £60.00, paid 2 Jul 2020 £40.01\n", "overpaid")
    (payment,) = problems(f"{HOUSE}{TAP}, paid 1 Jul 2020 £60.00\n{PAY.format('50.00')}", "overpaid")

    assert bill.marks[0].label == "£0.01 too much"
    assert payment.marks[0].label == "£10.00 too much"


def test_a_recharge_is_not_received_twice() -> None:
    lines = "1 Jun 2020 recharged carpet £60.00 to t, number R1\n1 Jul 2020 received £60.00 from t against invoice R1\n"

    assert not told(lines, "overpaid")
    assert told(f"{lines}2 Jul 2020 received £1.00 from t against invoice R1\n", "overpaid")


@pytest.mark.parametrize(
    "second, doubt",
    [
        ("2 Jun 2020 repaired door £9.00 by pell, worn out, number 1", True),
        ('2 Jun 2020 invoiced £9.00 by "Pell & Sons", number 1\n    repaired door £9.00', True),
        ("2 Jun 2020 repaired door £9.00 by pell, worn out, number 2", False),
        ('2 Jun 2020 repaired door £9.00 by "Quill", worn out, number 1', False),
        ("2 Jun 2020 quoted door £9.00 by pell, number 1", False),
    ],
)
def test_one_firm_gives_a_number_once(second: str, doubt: bool) -> None:
    assert told(f"{TAP}\n{second}\n", "same-paper-twice") is doubt


def test_numbers_are_one_whatever_their_letters() -> None:
    large, small = (TAP.replace("number 1", f"number {letter}-1") for letter in "Kk")
    pay = PAY.replace("invoice 1", "invoice k-1").format("9.00")

    assert told(f"{large}\n{small}\n", "same-paper-twice")
    assert not told(f"{large}\n{pay}", "unknown-paper")


@pytest.mark.parametrize(
    "second, doubt",
    [
        ("paid insurance £80.00 to pell", True), ('paid insurance £80.00 to "Pell & Sons"', True),
        ("paid insurance £80.01 to pell", False), ('paid insurance £80.00 to "Quill"', False),
        ("paid water £80.00 to pell", False), ('paid insurance £80.00 to pell "the second"', False),
        ("paid insurance £80.00 to pell, number 4", False), ("paid insurance £80.00 to pell for 2020-21", False),
    ],
)  # fmt: skip
def test_a_line_that_stands_twice_is_told(second: str, doubt: bool) -> None:
    first = "1 Jul 2020 paid insurance £80.00 to pell\n"

    assert told(f"{first}1 Jul 2020 {second}\n", "entered-twice") is doubt
    assert not told(f"{first}2 Jul 2020 {second}\n", "entered-twice")


def test_one_receipt_proves_one_line_and_the_lines_under_it() -> None:
    line = '{} Jul 2020 repaired {} £9.00 by pell, worn out, receipt "r.pdf"\n'
    bill = ('1 Jul 2020 invoiced £18.00 by pell, receipt "r.pdf"\n'
            '    repaired tap £9.00, receipt "r.pdf"\n    repaired door £9.00, receipt "r.pdf"\n')  # fmt: skip

    assert told(line.format(1, "tap") + line.format(2, "door"), "same-receipt-twice")
    assert not told(line.format(1, "tap") + line.format(2, "door").replace("r.pdf", "s.pdf"), "same-receipt-twice")
    assert not told(line.format(1, "tap") + line.format(2, "door").replace("receipt", "photo"), "same-receipt-twice")
    assert not told(bill, "same-receipt-twice")


# ── copies ───────────────────────────────────────────────────────────────────────────────────────────────────────

FIVE = [f"{day} Jul 2020 received rent £500.00 from t\n" for day in range(1, 6)]


@pytest.mark.parametrize(
    "own, copied, copy",
    [(0, 5, True), (1, 4, True), (2, 3, False), (0, 4, False), (0, 3, False)],  # four in five, of five lines or more
)
def test_a_file_that_is_mostly_a_copy_is_left_out(own: int, copied: int, copy: bool) -> None:
    other = [f"{day} Aug 2020 received rent £500.00 from t\n" for day in range(1, own + 1)]
    book = build({"a.book": HOUSE + "".join(FIVE), "b.book": "".join(FIVE[:copied] + other)})

    assert ("copy-of-file" in [p.code for p in book.problems]) is copy
    assert len(book.entries) == (5 if copy else 5 + copied + own)


def test_a_house_told_twice_is_an_error_and_the_first_stands() -> None:
    text = HOUSE + 'property a "Another Street"\n'
    book = build({"a.book": text})

    assert [p.code for p in book.problems if p.level is Level.ERROR] == ["name-taken"]
    assert book.properties["a"].full == "1 A Street"


# ── sums ─────────────────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("total, wrong", [("18.00", False), ("17.99", True), ("18.01", True)])
def test_lines_make_their_head_line_to_the_penny(total: str, wrong: bool) -> None:
    lines = f"1 Jul 2020 invoiced £{total} by pell\n    repaired tap £9.00\n    repaired door £8.00, plus vat £1.00\n"

    assert told(lines, "sum-off") is wrong


@pytest.mark.parametrize("net, wrong", [("440.00", False), ("440.01", True), ("560.00", True)])
def test_a_statement_is_what_came_in_less_what_went_out(net: str, wrong: bool) -> None:
    lines = f'1 Jul 2020 banked £{net} from "Quay"\n    received rent £500.00 from t\n    paid management fee £60.00\n'

    assert told(lines, "sum-off") is wrong


@pytest.mark.parametrize("owned, wrong", [("x 60% and y 40%", False), ("x 60% and y 39%", True), ("x and y", False),
                                          ("x 60% and y 41%", True)])  # fmt: skip
def test_owners_make_the_whole(owned: str, wrong: bool) -> None:
    head = HOUSE.replace('"X"', '"X"\nlandlord y "Y"').replace("    sold", f"    owners {owned}\n    sold")

    assert told("", "shares-not-whole", head) is wrong
    assert not told("", "no-owner", head)
    assert told("", "no-owner", HOUSE.replace('"X"', '"X"\nlandlord y "Y"'))


# ── what for, and a month of two tax years ───────────────────────────────────────────────────────────────────────

LENT = HOUSE + 'lender cas "Castle"\ninsurer safe "Safe Mutual"\nloan cas-1 on a from cas\n'


@pytest.mark.parametrize("verb", ["paid", "repaid"])
@pytest.mark.parametrize("to", ["cas", "cas-1"])
def test_money_to_a_lender_is_the_mortgage(verb: str, to: str) -> None:
    (told,) = problems(f"{LENT}1 Jun 2020 {verb} £450.00 to {to}\n", "what-for")

    assert told.fix is not None and told.fix.line == f"1 Jun 2020 {verb} mortgage £450.00 to {to}"
    assert ", of which interest £…" in told.help


@pytest.mark.parametrize("rate, word", [("0%", "loan"), ("3%", None)])
def test_a_private_loan_is_no_mortgage(rate: str, word: str | None) -> None:
    dad = f'loan dad on a from "Hal Penn"\n    rate {rate} from 1 Jan 2020\nat a\n'
    lent = "1 Jan 2020 borrowed £9,000.00 from dad for purchase\n"
    (told,) = problems(f"{HOUSE}{dad}{lent}1 Jun 2020 paid £50.00 to dad\n", "what-for")

    assert (told.fix.line if told.fix else None) == (f"1 Jun 2020 paid {word} £50.00 to dad" if word else None)
    assert "`repaid loan £50.00 to dad`" in told.help


@pytest.mark.parametrize("sum_, word", [("£799.99", "mortgage"), ("£800.00", "loan"), ("£8,000.00", "loan")])
def test_a_large_part_of_what_was_borrowed_is_the_debt_itself(sum_: str, word: str) -> None:
    borrowed = "1 May 2020 borrowed £8,000.00 from cas-1 for works\n"
    (told,) = problems(f"{LENT}{borrowed}1 Jun 2020 repaid {sum_} to cas\n", "what-for")

    assert told.fix is not None and told.fix.line == f"1 Jun 2020 repaid {word} {sum_} to cas"


@pytest.mark.parametrize(
    "line, help",
    [
        ("received £450.00 from cas", "`borrowed £450.00 from cas`"),
        ("paid £45.00 to safe", "`paid insurance £45.00 to safe`"),
        ("paid £45.00 to pell", "`paid insurance £45.00 to pell`"),
        ('received £45.00 from "Pell"', '`received refund £45.00 from "Pell"`'),
    ],
)
def test_money_to_others_is_told_with_their_name(line: str, help: str) -> None:
    (told,) = problems(f"{LENT}1 Jun 2020 {line}\n", "what-for")

    assert told.fix is None and help in told.help


def test_a_month_in_which_a_tax_year_ends_is_doubted() -> None:
    lines = 'paid insurance £9.00 to "I"\n'
    (told,) = problems(f"{HOUSE}Apr 2020 {lines}", "month-of-two-years")

    assert told.level is Level.DOUBT and "2019-20" in told.headline and "from 6 Apr 2020 on" in told.help
    assert problems(f"{HOUSE}Mar 2020 {lines}May 2020 {lines}5 Apr 2020 {lines}", "month-of-two-years") == []
    assert problems(f'{HOUSE}Apr 2020 noted "keys"\n', "month-of-two-years") == []


def test_a_heading_that_does_not_read_is_known_by_the_name_it_will_have() -> None:
    """Its mistake is told once, there, and not again on every line about the house."""
    text = 'property 9 Elm Road, Anytown\nat elm-9\n1 Jun 2020 paid insurance £9.00 to "I"\n'

    assert [p.code for p in build({"a.book": text}).problems if p.level is Level.ERROR] == ["name-one-word"]


# ── lets ─────────────────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(
    "line, doubt",
    [
        ('1 Sep 2025 received rent £675.00 from "Lena Fry"', True), ('1 Sep 2025 received rent £675.00 from "t. enant"', False),
        ("1 Sep 2025 received rent £675.00 from t", False), ('1 Sep 2025 received rent £675.00 from "Wold Council"', False),
        ("1 Sep 2025 received rent £675.00 from t at b", True), ("1 Sep 2025 received rent £675.00 from pell", False),
        ('1 Sep 2025 received rent £675.00 from "Pell & Sons"', False), ('1 Sep 2025 received refund £675.00 from "Lena Fry"', False),
    ],
)  # fmt: skip
def test_rent_comes_from_a_tenant(line: str, doubt: bool) -> None:
    other = 'property b "2 B Street"\nat a\n'
    assert told(other + line + "\n", "rent-from-whom") is doubt


def test_who_pays_rent_unknown_is_asked_with_the_block_to_write() -> None:
    found = problems(HOUSE + '1 Sep 2025 received rent £675.00 from "Lena Fry"\n', "rent-from-whom")[0]
    for words in ('`tenants "T. Enant" and "Lena Fry"`', "`tenancy fry at a`", "`rent £675.00 a month`", "add `at`"):
        assert words in found.help


@pytest.mark.parametrize(
    "deposit, ended, note",
    [
        ("deposit £600", "", True), ("deposit £600, received 1 Jun 2025", "", True),
        ("deposit £600, protected 4 Jun 2025", "", False), ("holding deposit £100", "", False),
        ("deposit £600", "    ended 31 May 2026\n", False),
    ],
)  # fmt: skip
@pytest.mark.parametrize("nation", ["england", "wales", "scotland", "northern ireland"])
def test_a_deposit_of_a_let_that_runs_is_protected(nation: str, deposit: str, ended: str, note: bool) -> None:
    head = f'landlord x "X"\nproperty a "1 A Street"\n    nation {nation}\n'
    let = f'tenancy t at a\n    tenants "T"\n    from 1 Jun 2025\n    rent £500 a month\n    {deposit}\n{ended}'
    found = problems(head + let, "deposit-not-protected")
    assert [problem.level for problem in found] == [Level.NOTE] * note


def test_an_agent_is_no_deposit_scheme() -> None:
    """The line that is offered would else name the letting agent as the scheme."""
    head = 'agent swift "Swift Lets"\nlandlord x "X"\nproperty a "1 A Street"\n'
    let = 'tenancy t at a\n    tenants "T"\n    from 1 Jun 2025\n    rent £500 a month\n    deposit £600, with {}\n'
    by_agent, by_scheme = (problems(head + let.format(who), "deposit-not-protected")[0].help
                           for who in ("swift", '"Deposit Shield"'))  # fmt: skip
    assert 'with "…", protected 1 Jun 2025' in by_agent and "Swift Lets is your agent" in by_agent
    assert 'with "Deposit Shield", protected' in by_scheme and "agent" not in by_scheme


@pytest.mark.parametrize("how", ["bought 1 May 2015 for £100,000, additional dwelling", "inherited 1 May 2015 at £100,000"])
def test_a_house_with_its_tenant_in_is_told_in_the_line_that_got_it(how: str) -> None:
    text = f'landlord x "X"\nproperty a "1 A Street"\n    {how}\ntenancy t at a\n    from 1 Jun 2014\n    rent £500 a month\n'
    (found,) = problems(text, "let-before-bought")
    assert found.fix is not None and found.fix.line == f"    {how}, with tenant in"
    assert how.split()[0] in found.help and not problems(text.replace(how, f"{how}, with tenant in"), found.code)


def test_money_from_somebody_unknown_may_be_rent() -> None:
    found = problems(HOUSE + '1 Sep 2025 received £680.00 from "Tom Reed"\n', "what-for")[0]
    assert '`received rent £680.00 from "Tom Reed"`' in found.help


# ── rooms ────────────────────────────────────────────────────────────────────────────────────────────────────────

ROOMS = HOUSE.replace("    sold", "    rooms hall, room 1, bedroom 2\n    sold")


@pytest.mark.parametrize("room, unknown", [("room 1", False), ("bedroom 2", False), ("hall", False), ("room 2", True)])
def test_a_room_of_a_line_and_of_a_let_is_a_room_of_the_house(room: str, unknown: bool) -> None:
    line = f"1 Jun 2025 repaired tap in {room} £9.00 by pell, worn out\n"
    let = f"{NEXT.format('1 Jun 2026')}    room {room}\n"

    assert told(line, "unknown-room", ROOMS) is unknown
    assert told(let, "unknown-room", ROOMS) is unknown
    assert not told(let, "unknown-room")  # a house that lists no rooms


def test_a_room_that_goes_by_number_may_be_let_by_its_number_alone() -> None:
    book = build({"a.book": f"{ROOMS}{NEXT.format('1 Jun 2026')}    room 1\n"})

    assert book.tenancies["u"].room == "room 1"


@pytest.mark.parametrize("room", ["bedroom", "bedroom ceiling", "room above the shop"])
def test_a_bedroom_without_a_number_is_plain_words(room: str) -> None:
    (found,) = problems(f"{ROOMS}1 Jun 2025 repaired tap in {room} £9.00 by pell, worn out\n", "unknown-room")

    assert found.marks[0].text[found.marks[0].column - 1 : found.marks[0].end - 1] == room


def test_a_sum_without_its_pound_sign_is_no_number_of_a_room() -> None:
    assert told("1 Jun 2025 repaired tap in hall 90 by pell\n", "amount-needs-pound", ROOMS)


@pytest.mark.parametrize("twice", ["hall, room 1, hall", "room 1, hall, room 1"])
def test_a_room_is_listed_once(twice: str) -> None:
    found = problems(ROOMS.replace("hall, room 1, bedroom 2", twice), "room-twice")

    assert [problem.level for problem in found] == [Level.DOUBT]
    assert not told("", "room-twice", ROOMS)


# ── borrowed money ───────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(
    "more, doubt",
    [
        ("", True), (" for purchase", False), ("\n    spent £900.00 on roof", False),
        ("\n    spent £899.99 on roof", True), (" for works\n    spent £400.00 on private", False),
    ],
)  # fmt: skip
def test_borrowed_money_was_for_something(more: str, doubt: bool) -> None:
    assert told(f'1 Jun 2025 borrowed £900.00 from "Bank"{more}\n', "borrowed-for-what") is doubt


def test_the_line_that_says_what_it_was_for_can_be_pasted() -> None:
    (problem,) = problems(HOUSE + '1 Jun 2025 borrowed £900.00 from "Bank"\n', "borrowed-for-what")

    for purpose in ("purchase", "works"):
        line = f'1 Jun 2025 borrowed £900.00 from "Bank" for {purpose}'
        assert f"`{line}`" in problem.help
        assert not told(line + "\n", "borrowed-for-what")


# ── a loan on another house ──────────────────────────────────────────────────────────────────────────────────────

TWO = HOUSE + 'property b "B"\nloan cas-1 on a from "Castle"\n'


@pytest.mark.parametrize(
    ("lines", "mended"),
    [
        ("at b\n1 Jun 2020 paid interest £9.00 to cas-1, number 4\n", "1 Jun 2020 paid interest £9.00 to cas-1 at a, number 4"),
        ("1 Jun 2020 repaid loan £9.00 to cas-1 at b\n", None),  # it says the house itself: which is wrong is not sure
    ],
)  # fmt: skip
def test_a_payment_for_a_loan_on_another_house_is_a_doubt(lines: str, mended: str | None) -> None:
    (told,) = problems(TWO + lines, "loan-of-another-house")

    assert (told.fix.line if told.fix else None) == mended
    if told.fix:
        assert not problems(TWO + told.fix.line + "\n", "loan-of-another-house")


@pytest.mark.parametrize(
    "lines",
    [
        "at a\n1 Jun 2020 paid interest £9.00 to cas-1\n",
        "at b\n1 May 2020 borrowed £900.00 from cas-1 for works\n1 Jun 2020 paid interest £9.00 to cas-1\n",
        "1 Jun 2020 paid interest £9.00 to cas-1\n",
    ],
)
def test_a_loan_of_its_own_house_or_that_lent_for_the_other_is_none(lines: str) -> None:
    assert not problems(TWO + lines, "loan-of-another-house")


@pytest.mark.parametrize(("note", "asked"), [('', False), (' "gift for Christmas"', True)])
def test_money_from_a_tenant_is_rent_unless_words_of_its_own_may_say_otherwise(note: str, asked: bool) -> None:
    let = "tenancy bell at a\n    periodic from 1 Jan 2020\n"

    assert bool(problems(f"{HOUSE}{let}at a\n1 Jun 2020 received £25.00 from bell{note}\n", "what-for")) is asked


# ── papers kept on paper ─────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(("named", "told_"), [("shoebox 1", False), ("tap.pdf", True), ("June/tap", True)])
def test_words_that_name_no_file_say_where_a_paper_is_kept(named: str, told_: bool) -> None:
    book = build({"a.book": f'{HOUSE}1 Jun 2020 repaired tap £9.00, worn out, receipt "{named}"\n'})

    found = [p.code for p in missing_files(book, lambda file, name: "missing")]
    assert found == (["file-missing"] if told_ else [])


def test_one_box_of_papers_proves_many_lines() -> None:
    line = '1 Jun 2020 repaired {} £9.00, worn out, receipt "{}"\n'

    for named, twice in (("shoebox 1", False), ("tap.pdf", True)):
        lines = line.format("tap", named) + line.format("door", named)
        assert bool(problems(HOUSE + lines, "same-receipt-twice")) is twice


@pytest.mark.parametrize(("line", "write"), [
    ('sold house £171,000.00 to "Paul Avery"', "sold 8 Jun 2026 for £171,000.00"),
    ("sold our flat £171,000.00", "sold 8 Jun 2026 for £171,000.00"),
    ("sold a £171,000.00", "sold 8 Jun 2026 for £171,000.00"),
    ('received sale proceeds £171,000.00 from "Paul Avery"', "sold 8 Jun 2026 for £171,000.00"),
    ('bought cottage £71,000.00 from "Paul Avery"', "bought 8 Jun 2026 for £71,000.00"),
    ("sold greenhouse £40.00", ""), ("sold flat roof £40.00", ""), ("decorated house £400.00", ""),
    ("bought front door £400.00", ""),
])  # fmt: skip
def test_a_house_is_bought_and_sold_under_its_heading(line: str, write: str) -> None:
    """Such a line would count as a part of the house: £171,000 of it as income, if nothing else settles it."""
    bare = 'landlord x "X"\nproperty a "1 A Street"\n    inherited 1 May 2015 at £100,000\n'
    head = bare if write.startswith("sold") else bare.replace("    inherited 1 May 2015 at £100,000\n", "")
    found = problems(f"{head}at a\n8 Jun 2026 {line}\n", "belongs-elsewhere")
    assert [problem.level for problem in found] == ([Level.ERROR] if write else [])
    assert not write or f"`{write}`" in found[0].help


def test_a_sale_that_the_heading_tells_is_not_told_again() -> None:
    (found,) = problems(f'{HOUSE}at a\n30 Jun 2026 sold house £150,000.00\n', "belongs-elsewhere")
    assert "take this line out" in found.help and "sold 30 Jun 2026 for £150,000" in found.marks[1].text
    assert not told('at a\n30 Jun 2026 received sale price £150,000.00 from "P. Avery"\n', "belongs-elsewhere")
    assert not told("thing house is furniture\nat a\n3 Jun 2026 sold house £15.00\n", "belongs-elsewhere")
