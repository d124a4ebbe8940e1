"""Dates to watch. Houses and people are invented; each day is counted beside it or stands in the source named."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from ledger_tools.book.build import build
from ledger_tools.days import day_words, months_after
from ledger_tools.problems import Level
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.deposit_rules import working_days_after
from ledger_tools.statements.diary import Diary, diary
from ledger_tools.statements.diary.papers import next_check

LATE = date(2026, 11, 25)
LET = (
    'tenancy t at a\n    tenants "T. Enant"\n    periodic from 4 Aug 2025\n'
    "    rent £900 a month, first due 4 Aug 2025\n"
)


def book(lines: str, nation: str = "england", house: str = "") -> Accounts:
    where = f"    nation {nation}\n" if nation else ""
    made = build({"a.book": f'landlord x "X"\nproperty a "1 A Street"\n{where}{house}{lines}'})
    assert [p.headline for p in made.problems if p.level is Level.ERROR] == []
    return Accounts(made)


def watch(lines: str, on: date = LATE, weeks: int = 12, nation: str = "england", house: str = "") -> Diary:
    return diary(book(lines, nation, house), ["a"], True, on, weeks)


def days(found: Diary, kind: str) -> list[str]:
    return [day_words(r.day) for r in (*found.overdue, *found.due, *found.may) if r.kind == kind]


# ── papers ───────────────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(
    ("checked", "following"),
    [
        (date(2023, 7, 5), date(2024, 8, 10)),  # the published example of the gas rules: the old day is kept
        (date(2023, 6, 1), date(2024, 6, 1)),  # more than two months early: counted from the check
        (date(2023, 6, 10), date(2024, 8, 10)),  # two months to the day
        (date(2023, 8, 10), date(2024, 8, 10)),
        (date(2023, 8, 11), date(2024, 8, 11)),  # a day late
    ],
)
def test_a_gas_check_shortly_before_the_day_keeps_it(checked: date, following: date) -> None:
    assert next_check([(date(2022, 8, 10), None), (checked, None)], 12, 2) == following


def test_gas_in_a_book() -> None:
    lines = "10 Aug 2022 certified gas safety £70.00\n5 Jul 2023 certified gas safety £70.00\n"

    assert days(watch(lines, date(2024, 7, 1)), "paper") == ["10 Aug 2024"]
    assert days(watch(lines, date(2023, 6, 1)), "paper") == ["10 Aug 2023"], "the second check has not been yet"


@pytest.mark.parametrize(
    ("line", "day"),
    [
        ("14 Sep 2021 certified electrical safety £180.00, expires 14 Sep 2026", "14 Sep 2026"),
        ("14 Sep 2023 certified electrical safety £180.00, expires 14 Sep 2026", "14 Sep 2026"),  # it says 3 years
        ("14 Sep 2021 certified electrical safety £180.00", "14 Sep 2026"),  # it says nothing: five years
        ("14 Sep 2021 certified electrical safety £180.00, expires 14 Sep 2030", "14 Sep 2026"),  # never later
    ],
)
def test_a_wiring_report(line: str, day: str) -> None:
    found = watch(line + "\n")

    assert days(found, "paper") == [day]
    assert [r.day for r in found.overdue] == [date(2026, 9, 14)]


@pytest.mark.parametrize(
    "said",
    ["inspected electrics", "tested wiring", "paid EICR", "certified electrics {}, expires 9 Mar 2027"],
)
def test_a_wiring_report_by_the_words_people_use(said: str) -> None:
    sum_, comma, facts = said.partition(" {}")
    lines = f"{LET}10 Mar 2022 {sum_} £195.00{facts}\n"

    assert days(watch(lines, weeks=40), "paper") == ["9 Mar 2027" if facts else "10 Mar 2027"]
    assert "wiring report for this home" not in str(watch(lines))


def test_a_certificate_of_work_on_the_wiring_is_no_report_and_nor_is_work() -> None:
    for said in ("certified electrics", "repaired wiring", "paid rewiring"):
        assert "no wiring report for this home" in str(watch(f"{LET}10 Mar 2022 {said} £195.00\n"))


def test_what_was_paid_for_a_check_is_no_second_one() -> None:
    """And where only the payment is told, the page says that the day of the check may be another."""
    check, paid = "22 Apr 2026 inspected gas\n", "20 May 2026 paid gas certificate £78.00\n"

    assert days(watch(LET + check + paid, weeks=60), "paper") == ["22 Apr 2027"]
    assert days(watch(LET + paid, weeks=60), "paper") == ["20 May 2027"]
    assert "if it was made on 20 May 2026, when you paid it" in str(watch(LET + paid, weeks=60))


def test_a_later_paper_stands_in_place_of_the_earlier() -> None:
    lines = "1 Mar 2016 certified epc £60.00\n2 Feb 2026 certified epc £60.00, expires 1 Feb 2036\n"

    assert days(watch(lines, weeks=520), "paper") == ["1 Feb 2036"]
    assert days(watch(lines, date(2026, 1, 2)), "paper") == ["1 Mar 2026"]


def test_an_energy_certificate_by_nation_and_day_of_issue() -> None:
    lines = "2 Nov 2026 certified epc £60.00\n"

    assert days(watch(lines, weeks=520, nation="scotland"), "paper") == ["2 Nov 2031"]
    assert days(watch(lines, weeks=520), "paper") == ["2 Nov 2036"]
    assert days(watch("2 Oct 2026 certified epc £60.00\n", weeks=520, nation="scotland"), "paper") == ["2 Oct 2036"]


def test_what_a_wiring_report_found_unsafe() -> None:
    """28 days of which the day of the inspection is the first: 3 to 30 November."""
    lines = "3 Nov 2026 certified electrical safety £180.00, unsatisfactory\n"
    mended = lines + "20 Nov 2026 certified electrical safety £90.00, satisfactory\n"

    assert days(watch(lines), "remedy") == ["30 Nov 2026"]
    assert days(watch(mended), "remedy") == []
    assert days(watch(lines, nation="scotland"), "remedy") == []


def test_a_paper_with_a_caution_of_its_own() -> None:
    found = watch('1 Nov 2024 inspected right-to-rent check "A.B.", expires 3 Jan 2027\n').due

    assert [(r.what, day_words(r.day)) for r in found] == [("right-to-rent check runs out", "3 Jan 2027")]
    assert found[0].ask.startswith("In England only")


def test_alarms_licences_insurance() -> None:
    lines = (
        "1 Feb 2016 installed 2 smoke alarms in hall £40.00, expires 31 Dec 2026\n"
        '1 Feb 2022 paid licence fee £700.00 to "The Council", expires 31 Jan 2027\n'
        "1 Feb 2026 paid landlord insurance £300.00 for 1 Feb 2026 to 31 Jan 2027\n"
    )
    found = watch(lines)

    assert [(r.kind, day_words(r.day)) for r in found.due] == [
        ("alarm", "31 Dec 2026"), ("insurance", "31 Jan 2027"), ("paper", "31 Jan 2027"),
    ]  # fmt: skip
    renewed = lines + "20 Jan 2027 paid landlord insurance £310.00\n"
    assert days(watch(renewed, date(2027, 1, 25)), "insurance") == [], "a later payment does not tell its days"


def test_what_a_let_home_needs_and_no_line_tells() -> None:
    """Wales asks for a registration too; a paper that is told, even one that ran out, has its own day."""

    def untold(lines: str, nation: str = "wales", on: date = date(2025, 9, 1)) -> list[str]:
        found = watch(LET + lines, on, nation=nation)
        return sorted(r.about for r in (*found.overdue, *found.due) if r.kind == "paper-untold")

    boiler = '1 Aug 2025 replaced boiler £2,000.00 by "Warm"\n'
    assert untold("") == ["electrical safety", "epc", "landlord registration"]
    assert untold(boiler) == ["electrical safety", "epc", "gas safety", "landlord registration"]
    assert untold("", "england") == ["electrical safety", "epc"]
    assert untold("", "scotland") == ["electrical safety", "epc", "landlord registration", "pat"]
    papers = ("certified epc", "certified electrical safety", "paid landlord registration £33.50")
    told = "".join(f"1 Aug 2018 {paper}\n" for paper in papers)
    assert untold(told) == []
    assert untold(told.replace("2018", "2026")) == untold(""), "told only later"
    assert untold("    ended 31 Aug 2025\n") == [], "nobody lives there"
    assert untold("    room garage\n") == []


def test_a_registration_is_the_landlords_own() -> None:
    two = 'property b "2 B Street"\n    nation wales\nat b\n1 Feb 2024 paid landlord registration £33.50\n'

    assert "landlord registration" not in {r.about for r in watch(LET + two, date(2025, 9, 1), nation="wales").overdue}
    assert "landlord registration" in {r.about for r in watch(LET + two, date(2025, 9, 1), nation="scotland").overdue}


def test_a_written_statement_in_wales() -> None:
    """14 days of which the first day of the let, 4 August, is the first."""
    assert days(watch(LET, date(2025, 8, 5), nation="wales"), "statement") == ["17 Aug 2025"]
    assert days(watch(LET, date(2025, 8, 18), nation="wales"), "statement") == [], "told until its day is over"
    assert days(watch(LET, date(2025, 8, 5)), "statement") == []


def test_a_licence_that_does_not_say_when_it_runs_out() -> None:
    fee = '1 Feb 2024 paid licence fee £700.00 to "The Council"'

    found = watch(f"{fee}\n", date(2025, 6, 1)).overdue
    assert [(r.about, day_words(r.day)) for r in found] == [("hmo licence", "1 Feb 2024")]
    assert "expires DATE" in found[0].ask
    assert days(watch(f"{fee}, expires 31 Jan 2029\n", date(2025, 6, 1)), "paper-untold") == []


# ── lets ─────────────────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(
    ("nation", "day"),
    [
        ("england", "1 Mar 2026"),  # 30 days, 31 January the first of them
        ("wales", "1 Mar 2026"),
        ("scotland", "13 Mar 2026"),  # 30 working days: six weeks from Monday 2 February
        ("northern ireland", "27 Feb 2026"),  # 28 days
    ],
)
def test_a_deposit_to_protect(nation: str, day: str) -> None:
    let = LET + "    deposit £1,000, received 31 Jan 2026"

    assert days(watch(let, date(2026, 2, 1), nation=nation), "deposit") == [day]
    assert days(watch(f"{let}, protected 5 Feb 2026", date(2026, 2, 6), nation=nation), "deposit") == []
    assert days(watch(f"{let}, protected 5 Feb 2026", date(2026, 2, 1), nation=nation), "deposit") == [day]


def test_the_papers_of_a_deposit_have_a_day_of_their_own() -> None:
    let = LET + "    deposit £1,000, received 31 Jan 2026, protected 2 Feb 2026"

    assert days(watch(let, date(2026, 2, 3)), "deposit-papers") == ["1 Mar 2026"]
    assert days(watch(f"{let}, information given 2 Feb 2026", date(2026, 2, 3)), "deposit-papers") == []
    assert days(watch(let, date(2026, 2, 3), nation="scotland"), "deposit-papers") == []


def test_the_alarms_on_the_first_day() -> None:
    assert days(watch(LET, date(2025, 7, 20)), "alarm-test") == ["4 Aug 2025"]
    assert days(watch(LET + "4 Aug 2025 tested 2 smoke alarms in hall\n", date(2025, 9, 1)), "alarm-test") == []
    assert days(watch(LET + "3 Aug 2025 tested 2 smoke alarms in hall\n", date(2025, 9, 1)), "alarm-test")
    assert days(watch(LET, date(2025, 7, 20), nation="wales"), "alarm-test") == []
    garage = LET + "    room garage\n"
    assert days(watch(garage, date(2025, 7, 20)), "alarm-test") == []
    assert days(watch(LET + "    room 1\n", date(2025, 7, 20)), "alarm-test") == ["4 Aug 2025"]


def rising(notice: str) -> str:
    return (
        'tenancy t at a\n    tenants "T. Enant"\n    periodic from 1 Jun 2024\n    rent £900 a month\n'
        f"    rent £950 a month from 1 Jun 2026\n{notice}"
    )


def test_the_earliest_higher_rent() -> None:
    """52 weeks from 1 June 2026 end on 31 May 2027; told 10 March, two months end on 10 May; next is 1 June."""
    found = watch(rising(""), date(2027, 3, 10))

    rise = [r for r in found.may if r.kind == "rise"]
    assert [day_words(r.day) for r in rise] == ["1 Apr 2027"]
    assert "a higher rent from 1 Jun 2027" in rise[0].what


def test_a_higher_rent_told_too_early_and_one_in_time() -> None:
    early = rising("    rent £990 a month from 1 May 2027, notice 10 Jan 2027\n")
    fine = rising("    rent £990 a month from 1 Jun 2027, notice 10 Mar 2027\n")
    late = rising("    rent £990 a month from 1 Jun 2027, notice 10 Apr 2027\n")

    assert days(watch(early, date(2027, 4, 20)), "rise-early") == ["1 May 2027"]
    assert days(watch(fine, date(2027, 4, 20)), "rise-early") == []
    assert "not before 1 Jul 2027" in watch(late, date(2027, 4, 20)).due[0].what
    assert days(watch(early, date(2027, 4, 20), nation="wales"), "rise-early") == [], "no rule is held there"


def test_terms_and_notices() -> None:
    term = "tenancy t at a\n    from 1 Sep 2025 to 31 Aug 2026\n    rent £900 a month\n"

    assert days(watch(term, date(2026, 8, 1)), "term") == ["31 Aug 2026"]
    assert days(watch(term + "    periodic from 1 Sep 2026\n", date(2026, 9, 2)), "term") == []
    assert days(watch(term, date(2026, 9, 2)), "term") == [], "it rolls on"
    noticed = term + "    notice 20 May 2026 by tenant\n"
    assert days(watch(noticed, date(2026, 6, 1)), "notice") == ["20 Jul 2026"]  # two months
    assert days(watch(noticed + "    ended 31 Jul 2026\n", date(2026, 6, 1)), "ends") == ["31 Jul 2026"]
    by_landlord = term + "    notice 20 May 2026 by landlord\n"
    assert "notice" in [r.kind for r in watch(by_landlord, date(2026, 6, 1)).may]


DAMP = LET + "9 Oct 2026 reported damp in bedroom by t\n"


def test_damp_in_scotland() -> None:
    """Friday 9 October: ten working days from Monday 12 end on Friday 23; then three and five more."""
    looked = DAMP + '23 Oct 2026 inspected damp in bedroom £60.00 by "Dry Walls"\n'
    told = looked + '26 Oct 2026 told t "a leak above"\n'
    begun = told + "28 Oct 2026 started damp in bedroom\n"
    on = date(2026, 10, 30)

    assert days(watch(DAMP, on, nation="scotland"), "damp") == ["23 Oct 2026"]
    assert days(watch(looked, on, nation="scotland"), "damp") == ["28 Oct 2026", "30 Oct 2026"]
    assert days(watch(told, on, nation="scotland"), "damp") == ["30 Oct 2026"]
    assert days(watch(begun, on, nation="scotland"), "damp") == []
    assert days(watch(DAMP, on), "damp") == [], "no clock of days is held for England"


def test_working_days() -> None:
    assert working_days_after(date(2026, 10, 9), 1) == date(2026, 10, 12)
    assert working_days_after(date(2026, 10, 10), 5) == date(2026, 10, 16)


# ── money, tax ───────────────────────────────────────────────────────────────────────────────────────────────────


def test_rent_that_is_owed() -> None:
    """£900 a month from 4 August; on 20 October three fell due. The oldest that is owed gives the day."""
    part = LET + "5 Aug 2025 received rent £900.00 from t\n6 Oct 2025 received rent £500.00 from t\n"
    on = date(2025, 10, 20)

    def owed(lines: str) -> list[tuple[str, str]]:
        return [(day_words(r.day), r.what) for r in watch(lines, on).overdue if r.kind == "rent"]

    assert owed(part) == [("4 Sep 2025", "t: £1,300.00 of rent is owed, £400.00 of it since 4 Sep 2025")]
    assert owed(part + "7 Oct 2025 received rent £400.00 from t\n") == [("4 Oct 2025", "t: £900.00 of rent is owed")]
    assert owed(part + "7 Oct 2025 received rent £1,300.00 from t\n") == []
    assert owed(LET.replace("rent £900 a month, first due 4 Aug 2025", "moved out 1 Oct 2025")) == []


BILL = (
    '1 Jul 2026 invoiced £1,000.00 by "Ridge", number 7, retention 5% until 1 Jan 2027\n'
    "    replaced gutters £1,000.00\n"
)


def test_what_was_held_back() -> None:
    paid = BILL + '8 Jul 2026 paid £950.00 to "Ridge" against invoice 7\n'
    rest = paid + '2 Jan 2027 paid retention £50.00 to "Ridge" against invoice 7\n'

    assert [r.what for r in watch(paid).due] == ["£50.00 held back from Ridge, bill 7, may go"]
    assert days(watch(rest, date(2027, 1, 1)), "retention") == ["1 Jan 2027"]
    assert days(watch(rest, date(2027, 1, 2)), "retention") == []


def test_a_bill_of_two_houses_and_what_is_held_back_of_it() -> None:
    """£601 in halves, £60 of it held back: £30 of each, and £270.50 of each due before."""
    lines = (
        'property b "2 B Street"\n    nation england\n'
        '1 Mar 2026 invoiced £601.00 by "Ridge", number 9, retention £60.00 until 1 Dec 2026, due 1 Dec 2026\n'
        "    replaced gutters £601.00 across a and b, split equally\n"
    )
    found = diary(book(lines), ["a", "b"], False, LATE, 2).due

    assert sorted((r.kind, r.house, r.what.split()[0], r.what.split()[1]) for r in found) == [
        ("bill", "a", "pay", "£270.50"), ("bill", "b", "pay", "£270.50"),
        ("retention", "a", "£30.00", "held"), ("retention", "b", "£30.00", "held"),
    ]  # fmt: skip


def test_bills_with_a_day() -> None:
    billed = '1 Oct 2026 invoiced £400.00 by "Ridge", number 8, due 30 Oct 2026\n    decorated hall £400.00\n'
    recharged = LET + "1 Oct 2026 recharged lock £60.00 to t, due 20 Oct 2026\n"

    assert days(watch(billed), "bill") == ["30 Oct 2026"]
    assert days(watch(billed + '29 Oct 2026 paid £400.00 to "Ridge" against invoice 8\n'), "bill") == []
    part = recharged + "5 Oct 2026 received recharge £25.00 from t for lock\n"
    assert [r.what for r in watch(part).overdue if r.kind == "recharge"] == ["t: £35.00 billed for lock is to come in"]


@pytest.mark.parametrize(("nation", "day"), [("england", "6 Jun 2025"), ("wales", "22 Jun 2025")])
def test_land_tax_after_a_purchase(nation: str, day: str) -> None:
    """Bought 23 May 2025: 14 days in England, 30 in Wales."""
    house = "    bought 23 May 2025 for £120,000\n"

    assert days(watch("", date(2025, 5, 24), nation=nation, house=house), "land-tax") == [day]
    told = "23 May 2025 paid stamp duty £900.00\n"
    assert days(watch(told, date(2025, 5, 24), nation=nation, house=house), "land-tax") == []
    assert days(watch("", date(2026, 12, 1), nation=nation, house=house), "land-tax") == [], "long past"


def test_the_gain_after_a_sale() -> None:
    """60 days after 14 November 2025; nothing else is said of a house that is gone."""
    house = "    bought 23 May 2015 for £120,000\n    sold 14 Nov 2025 for £150,000\n"
    found = watch("1 Jun 2025 certified gas safety £70.00\n", date(2026, 1, 2), house=house)

    assert [(r.kind, day_words(r.day)) for r in found.due if r.house] == [("gain", "13 Jan 2026")]
    assert found.overdue == ()


RENT = LET + "".join(f"4 {month} 2025 received rent £9,000.00 from t\n" for month in "Aug Sep Oct Nov Dec".split())


def test_returns_payments_and_updates_of_an_owner() -> None:
    """£45,000 in 2025-26 is over the £30,000 that asks for updates in 2027-28, due on the 7th (SI 2026/336)."""
    found = watch(RENT, date(2027, 7, 1), weeks=36)
    mine = [(r.kind, day_words(r.day)) for r in found.due if not r.house]

    assert mine == [
        ("account-second", "31 Jul 2027"), ("update", "7 Aug 2027"), ("update", "7 Nov 2027"), ("update", "7 Feb 2028"),
    ]  # fmt: skip
    assert {r.kind: day_words(r.day) for r in watch(RENT, date(2026, 9, 30), weeks=18).due if not r.house} == {
        "notify": "5 Oct 2026", "paper-return": "31 Oct 2026", "return": "31 Jan 2027", "account-first": "31 Jan 2027",
    }  # fmt: skip


def test_what_is_to_pay() -> None:
    """£10,000 of rent beside £30,000 from elsewhere: £2,000 more tax at 20%, which is half each year on account."""
    came = LET + "4 Aug 2025 received rent £10,000.00 from t\n"
    landlord = 'landlord x "X"\n    other income £30,000 in 2025-26\n    lives in england\n'
    text = landlord + 'property a "1 A Street"\n    nation england\n' + came

    def told(text: str) -> dict[str, str]:
        found = diary(Accounts(build({"a.book": text})), ["a"], True, date(2026, 12, 1), 12).due
        return {r.kind: r.what for r in found if not r.house}

    # tax of 2025-26: 27,430 at 20%; 3,486 of it rides on the other income
    assert told(text)["return"] == (
        "X: the tax return of 2025-26 online, and what is still to pay for it: £2,000.00 to £5,486.00, by how the tax "
        "on your other income is paid, less what you paid on account for it"
    )
    assert "£1,000.00 to £2,743.00" in told(text)["account-first"]
    little = text.replace("£10,000.00", "£1,100.00").replace("£30,000", "£3,000")
    assert told(little)["return"].endswith(": nothing by the estimate")
    assert "account-first" not in told(little), "nothing is asked on account"
    assert told(text.replace("    other income £30,000 in 2025-26\n", ""))["account-first"].endswith("asks for it")


def test_one_house_alone_says_nothing_of_the_owners() -> None:
    assert [r.house for r in diary(book(RENT), ["a"], False, date(2027, 7, 1), 36).due if not r.house] == []


# ── all of it ────────────────────────────────────────────────────────────────────────────────────────────────────

HEAD = LET + "    deposit £1,000, received 31 Jul 2025\n"
DATED = [
    "1 Aug 2025 certified gas safety £70.00\n", "1 Aug 2025 certified electrical safety £70.00\n",
    "2 Aug 2025 certified epc £70.00\n", "9 Mar 2026 certified gas safety £70.00\n", BILL,
]  # fmt: skip
MANY = HEAD + "".join(DATED)


def test_without_a_nation_nothing_else_is_said() -> None:
    found = watch(MANY, nation="")

    assert found.unplaced == ("a",)
    assert (found.overdue, found.due, found.may) == ((), (), ())


def test_overdue_comes_first_and_each_date_says_how_old_its_rule_is() -> None:
    found = watch(MANY, date(2026, 9, 1), weeks=520)

    assert [r.day for r in found.overdue] == sorted(r.day for r in found.overdue)
    assert all(r.day < found.on <= d.day for r in found.overdue for d in found.due)
    ruled = [r.rule for r in (*found.overdue, *found.due) if r.rule]
    assert len(ruled) >= 5 and {str(rule.held) for rule in ruled} == {"2026-11-25"}
    assert all(r.ask.endswith(".") for r in (*found.overdue, *found.due))


@settings(max_examples=25, deadline=None)
@given(st.permutations(DATED), st.integers(0, 900))
def test_order_of_lines_changes_nothing_and_identities_stay(lines: list[str], late: int) -> None:
    """Whatever their order; and blank lines above move every place but no identity."""
    on = date.fromordinal(date(2025, 8, 4).toordinal() + late)
    plain, other = watch(MANY, on, 60), watch("\n\n" + HEAD + "".join(lines), on, 60)
    ours = [*plain.overdue, *plain.due, *plain.may]

    assert [(r.uid, r.day) for r in ours] == [(r.uid, r.day) for r in (*other.overdue, *other.due, *other.may)]
    assert len({r.uid for r in ours}) == len(ours)


@given(st.lists(st.integers(100, 500), min_size=1, max_size=6))
def test_a_gas_check_never_holds_longer_than_the_rule_and_the_early_months(gaps: list[int]) -> None:
    """The next day is never more than 14 months after the last check."""
    day, checks = date(2020, 1, 1), []
    for gap in gaps:
        day = date.fromordinal(day.toordinal() + gap)
        checks.append((day, None))

    assert months_after(day, 12) <= next_check(checks, 12, 2) <= months_after(day, 14)


def test_what_earlier_owners_lacked_is_not_overdue_for_years() -> None:
    """Inherited in 2019 with a tenant of 2014 in it: the certificate is asked for from the day the house came."""
    let = LET.replace("periodic from 4 Aug 2025", "periodic from 4 Aug 2014").replace("4 Aug 2025", "4 Aug 2014")
    found = watch(let, house="    inherited 12 Feb 2019 at £90,000, with tenant in\n")
    told = {r.about: day_words(r.day) for r in found.overdue if r.kind == "paper-untold"}
    assert told["epc"] == "12 Feb 2019"


def test_rent_owed_after_the_book_stops_says_so() -> None:
    """The line of 5 August is 30 days before 4 September, and 112 days before 25 November."""
    lines = LET + "at a\n5 Aug 2025 received rent £900.00 from t\n"
    said = [r.what for on in (date(2025, 9, 5), LATE) for r in watch(lines, on).overdue if r.kind == "rent"]
    assert ["stop on 5 Aug 2025" in each for each in said] == [False, True]
