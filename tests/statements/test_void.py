"""The statement of an empty home: figures that agree with the book, what is open, what comes, the way to appeal."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pytest

from ledger_tools import law
from ledger_tools.book.build import build
from ledger_tools.book.world import Book
from ledger_tools.days import TaxYear
from ledger_tools.problems import Level
from ledger_tools.render import void as render
from ledger_tools.statements.void import void
from ledger_tools.statements.void_letter import CODES, evidence, letter
from ledger_tools.statements.void_parts import Void, joined

SAMPLES = Path(__file__).parents[2] / "sample_books"
HEAD = """
landlord x "X. Mere"
council mere "Mere Council"
    nation england
scheme mere 2025-26
    charge band B £1,825.00
    empty free for 1 month then 25% off for 5 months, shared with earlier owner, again after 6 weeks lived in
    works 50% off for 12 months, ends 6 months after finishing
    furnished full
    premium 100% after 1 year
property house "Mere House"
    nation england
    council mere, band B
"""
BILLED = "2 Jul 2025 billed council tax £1,370.00 by mere for 1 Jul 2025 to 31 Mar 2026\n"
FRESH = "bought 1 Jul 2025 for £1; empty since 1 Jul 2025; as bought lettable"


def sample(name: str) -> Book:
    made = build({file.name: file.read_text(encoding="utf-8") for file in (SAMPLES / name).glob("*.book")})
    assert [p.headline for p in made.problems if p.level is Level.ERROR] == []
    return made


def book(house: str, lines: str = "", head: str = HEAD) -> Book:
    fields = "".join(f"    {field.strip()}\n" for field in house.split(";"))
    made = build({"mere.book": f"{head}{fields}at house\n{lines}"})
    assert [p.headline for p in made.problems if p.level is Level.ERROR] == []
    return made


def found(house: str, lines: str = "", on: date = date(2025, 7, 10), head: str = HEAD) -> Void:
    return void(book(house, lines, head), "house", on)


def test_what_a_sample_house_owes_is_what_it_paid_and_got_back() -> None:
    """Worked by hand: 7 free days, 66 days at three quarters of 1,687.30 / 365, then the tenants."""
    made = void(sample("saltmarsh"), "saltmarsh-14", date(2025, 10, 31))

    assert [(r.days.days, str(r.share)) for r in made.rows if r.ours] == [(7, "0"), (66, "3/4")]
    assert made.total == 228_83 == made.paid.pence - made.back.pence
    assert made.least == made.total
    assert made.bills[0].should == made.total


def test_later_lines_are_left_aside() -> None:
    before = void(sample("saltmarsh"), "saltmarsh-14", date(2025, 9, 10))

    assert "granted" not in {row.state for row in before.rows}
    assert before.back.trail == ()


def test_every_ready_home_is_worked_out_without_a_question() -> None:
    made = sample("councils")
    for house in made.properties:
        statement = void(made, house, date(2025, 12, 1))
        assert statement.known and statement.least == statement.total and statement.open == ()


@pytest.mark.parametrize("council", [name for name in sample("councils").councils])
def test_every_ready_scheme_has_a_home_worked_out_by_it(council: str) -> None:
    """A home empty through the year under each of the ready schemes: no gap and no question."""
    text = (SAMPLES / "councils" / "schemes.book").read_text(encoding="utf-8")
    nation = sample("councils").councils[council].nation
    band = next(iter(next(s for (c, _), s in sample("councils").schemes.items() if c == council).charges))
    house = (
        f'\nlandlord x "X"\nproperty house "A House"\n    nation {nation}\n    council {council}, band {band}\n'
        "    bought 20 Mar 2025 for £1\n    lived in from 1 Jan 2024 to 9 Mar 2025\n    empty since 10 Mar 2025\n"
    )
    made = void(build({"a.book": text + house}), "house", date(2025, 12, 1), TaxYear(2025))

    assert made.known and sum(row.days.days for row in made.rows) == 365
    assert [o.ask for o in made.open if not o.usual and "premium" not in o.ask and "charge more" not in o.ask] == []


def test_every_row_names_lines_of_the_book() -> None:
    made = void(sample("councils"), "quayside-2", date(2025, 12, 1))

    assert all(row.sources and all(":" in source for source in row.sources) for row in made.rows)


def test_rows_add_up_to_the_total() -> None:
    made = found(FRESH)
    assert sum(row.pence or 0 for row in made.rows) == made.total


# ── what comes, what is claimed, how to go on ────────────────────────────────────────────────────────────────────


def test_what_an_empty_day_costs_now_and_when_it_changes() -> None:
    made = found(FRESH)
    assert [(a.since, a.a_day) for a in made.ahead] == [
        (date(2025, 7, 10), 0), (date(2025, 8, 1), 375), (date(2026, 1, 1), 500)
    ]  # fmt: skip


def test_nothing_comes_while_it_is_let() -> None:
    made = found(f"{FRESH}; lived in from 5 Jul 2025")
    assert made.ahead == ()


def test_a_claim_tells_whether_it_was_made() -> None:
    asked = "5 Jul 2025 asked council tax discount from mere\n"
    assert [c.answer for c in found(FRESH).claims][:1] == [""]
    assert [(c.answer, c.source) for c in found(FRESH, asked).claims][:1] == [("asked", "mere.book:18")]


@pytest.mark.parametrize(
    ("line", "answer"),
    [
        ("granted class C exemption by mere for 1 Jul 2025 to 30 Nov 2025", ""),  # then it is granted, and no claim
        ("asked class C exemption from mere", "asked"),
        ("asked class A exemption from mere", ""),
        ("granted class C exemption by mere for 1 Jan 2024 to 31 Mar 2024", ""),
    ],
)
def test_a_letter_about_another_class_or_other_days_is_no_answer(line: str, answer: str) -> None:
    made = found("bought 1 Jul 2025 for £1; empty since 1 Jun 2025", f"5 Jul 2025 {line}\n",
                 head=HEAD.replace("nation england", "nation wales"))  # fmt: skip

    assert [c.answer for c in made.claims if c.law == "SI 1992/558 Class C"] == [answer] * ("1 Jul" not in line)


def test_the_cost_of_a_day_is_told_again_only_where_it_changes() -> None:
    house = "bought 1 May 2025 for £1; empty since 1 May 2025; works from 1 Jun 2025"
    made = found(house, head=HEAD.replace("nation england", "nation wales"))  # exempt as empty, then for the works

    assert [(a.since, a.a_day) for a in made.ahead] == [(date(2025, 7, 10), 0)]


def test_a_sale_is_told_in_the_letter() -> None:
    made = book("bought 1 Jan 2015 for £1; empty since 1 Jan 2025; sold 20 Sep 2025 for £1",
                "1 May 2025 billed council tax £1,675.00 by mere for 1 May 2025 to 31 Mar 2026\n")  # fmt: skip
    asked = letter(made, void(made, "house", date(2025, 10, 1)))

    assert asked is not None and "I sold it on 20 Sep 2025." in asked.opening
    assert "the completion statement" in asked.evidence


def test_an_exemption_is_asked_for_beside_a_bill_that_cannot_be_followed() -> None:
    made = book(FRESH, "3 Jul 2025 billed council tax £1,234.56 by mere for 1 Jul 2025 to 31 Mar 2026\n")
    asked = letter(made, void(made, "house", date(2025, 7, 10)))

    assert asked is not None
    assert "how the bill was made up" in asked.asks[0] and "the reduction for an empty" in asked.asks[1]


def test_what_the_bill_takes_account_of_is_not_asked_for_again() -> None:
    right = "3 Jul 2025 billed council tax £1,023.75 by mere for 1 Jul 2025 to 31 Mar 2026\n"
    wrong = "3 Jul 2025 billed council tax £1,370.00 by mere for 1 Jul 2025 to 31 Mar 2026\n"

    assert {(c.answer, c.source) for c in found(FRESH, right).claims} == {("in the bill", "mere.book:18")}
    assert {c.answer for c in found(FRESH, wrong).claims} == {""}


def test_days_on_which_exempt_students_lived_there_are_no_empty_days() -> None:
    house = (
        "bought 1 Jan 2015 for £1; furnished from 1 Jan 2015; lived in from 1 Jan 2015; exempt class n from 1 Jul 2025"
    )
    assert found(house).empty == 0
    assert found(f"{FRESH}; exempt class g from 1 Jul 2025").empty == 274


def test_a_letter_past_its_time_says_so() -> None:
    asked = f"{BILLED}5 Jul 2025 asked council tax discount from mere\n"
    assert "has passed" not in " ".join(found(FRESH, asked, date(2025, 11, 5)).route)
    assert "has passed" in " ".join(found(FRESH, asked, date(2025, 11, 6)).route)


def test_the_days_to_appeal_follow_the_letters() -> None:
    route = " ".join(found(FRESH, f"{BILLED}5 Jul 2025 asked council tax discount from mere\n").route)
    assert "has until 5 Sep 2025, you have until 5 Nov 2025" in route
    refused = " ".join(found(FRESH, "9 Jul 2025 refused council tax discount by mere\n").route)
    assert "appeal by 9 Sep 2025" in refused


def test_scotland_has_another_way_to_appeal() -> None:
    made = found(FRESH, head=HEAD.replace("nation england", "nation scotland"))
    assert "First-tier Tribunal for Scotland" in made.route[0] and len(made.route) == 1


# ── what to mind ─────────────────────────────────────────────────────────────────────────────────────────────────


def test_it_warns_where_the_council_is_told_otherwise_than_the_tax_office() -> None:
    works = f"{FRESH}; works from 1 Jul 2025 to 30 Sep 2025".replace("empty since 1 Jul 2025", "empty since 1 May 2025")
    assert any("could be let as bought" in note for note in found(works).notes)
    assert not any(
        "as bought" in note for note in found(works.replace("as bought lettable", "as bought not lettable")).notes
    )
    both = f"{works}; marketed from 1 Aug 2025"
    assert any("on the market to let" in note for note in found(both).notes)


def test_a_missing_scheme_is_asked_for_and_not_made_up() -> None:
    made = void(book(FRESH), "house", date(2026, 7, 10), TaxYear(2026))

    assert not made.known and made.total == 0
    assert any("`scheme mere 2026-27`" in note for note in made.notes)


def test_a_band_that_is_not_told_is_asked_for_and_the_days_still_have_their_shares() -> None:
    head = HEAD.replace("council mere, band B", "council mere")
    bill = "9 Jul 2025 billed council tax £200.00 by mere for 1 Jul 2025 to 31 Aug 2025\n"
    made = found(FRESH, bill, head=head)

    assert [str(row.share) for row in made.rows if row.ours][:2] == ["0", "3/4"] and made.total == 0
    assert not made.known and made.bills[0].should is None
    assert any("`council mere, band …`" in note for note in made.notes)
    assert not any("band …" in note for note in found(FRESH, bill).notes)


def test_a_band_the_scheme_lacks_is_worked_out_and_told() -> None:
    made = found(FRESH, head=HEAD.replace("charge band B £1,825.00", "charge band D £1,800.00"))

    assert made.rows[0].annual == 1400_00
    assert any("another band" in note for note in made.notes)


def test_a_scheme_silent_on_second_homes_is_told_where_it_could_matter() -> None:
    furnished = "bought 1 Jul 2025 for £1; furnished from 1 Jul 2025"
    told = HEAD.replace("    furnished full\n", "    furnished full\n    second homes 0% from 1 Apr 2025\n")

    assert any("nothing of second homes" in note and "up to 100%" in note for note in found(furnished).notes)
    assert not any("second homes" in note for note in found(furnished, head=told).notes)
    assert not any("second homes" in note for note in found(FRESH).notes)


def test_a_bill_of_other_days_is_named() -> None:
    other = "3 Jul 2024 billed council tax £10.00 by mere for 1 Jul 2024 to 31 Mar 2025\n"
    assert any("mere.book:18" in note and "`--year 2024-25`" in note for note in found(FRESH, other).notes)


def test_a_home_out_of_the_list_is_no_home_that_could_be_let() -> None:
    derelict = f"{FRESH}; band deleted from 5 Jul 2025"
    assert any("derelict" in note and "could be let as bought" in note for note in found(derelict).notes)
    honest = derelict.replace("as bought lettable", "as bought not lettable")
    assert not any("could be let as bought" in note for note in found(honest).notes)


def test_works_are_to_be_asked_for_before_they_begin() -> None:
    works = "bought 1 May 2025 for £1; empty since 1 May 2025; works from 1 Jul 2025"
    assert any("before they begin" in note for note in found(works).notes)
    assert not any("before they begin" in note for note in found(FRESH).notes)


def test_without_a_nation_it_says_so() -> None:
    made = found(FRESH, head=HEAD.replace("    nation england\n", ""))
    assert "does not tell the nation" in made.notes[0]


# ── the letter ───────────────────────────────────────────────────────────────────────────────────────────────────

BILL = "3 Jul 2025 billed council tax £1,370.00 by mere for 1 Jul 2025 to 31 Mar 2026\n"


def test_the_letter_asks_for_what_the_bill_left_out() -> None:
    made = book(FRESH, BILL)
    asked = letter(made, void(made, "house", date(2025, 7, 10)))

    assert asked is not None
    assert [ask.split(".")[0] for ask in asked.asks] == [
        "Please take off what is let off for 1 Jul 2025 to 31 Jul 2025 (SI 2003/3011 Class C)",
        "Please take off what is let off for 1 Aug 2025 to 31 Dec 2025 (SI 2003/3011 Class C)",
    ]
    drawn = render.letter(asked)
    assert ".book" not in drawn
    assert drawn.partition("\n\nNot part of the letter:")[0].endswith("X. Mere")
    assert "section 16 of the Local Government Finance Act 1992" in " ".join(drawn.split())


def test_a_claim_before_any_bill_is_asked_for() -> None:
    made = book(FRESH)
    asked = letter(made, void(made, "house", date(2025, 7, 10)))

    assert asked is not None and "the reduction for an empty, unfurnished home" in asked.asks[0]


@pytest.mark.parametrize(
    ("billed", "said"),
    [
        ("60.00", "£0.00 to £116.25, by what your book leaves open. Settle that first"),
        ("130.00", "£0.00 to £116.25, by what your book leaves open: £13.75 too much at the least"),
    ],
)
def test_a_bill_between_two_answers_is_neither_right_nor_wrong(billed: str, said: str) -> None:
    """Whether the free month runs on from the seller is not told."""
    head = HEAD.replace(", shared with earlier owner", "")
    house = "bought 1 Jul 2025 for £1; empty since 1 Jun 2025; as bought lettable"
    line = f"3 Jul 2025 billed council tax £{billed} by mere for 1 Jul 2025 to 31 Jul 2025\n"
    made = void(book(house, line, head), "house", date(2025, 8, 10))

    assert said in render.verdict(made.bills[0])
    assert not made.settled


def test_the_letter_asks_for_nothing_that_rests_on_an_answer_not_given() -> None:
    """Whether the time runs on from the seller is not told: the free month may have been used up."""
    head = HEAD.replace(", shared with earlier owner", "")
    house = "bought 1 Jul 2025 for £1; empty since 1 Jun 2025; as bought lettable"
    made = book(house, "3 Jul 2025 billed council tax £116.25 by mere for 1 Jul 2025 to 31 Jul 2025\n", head)
    statement = void(made, "house", date(2025, 8, 10))
    bill = statement.bills[0]

    assert (bill.least, bill.most) == (0, 116_25)
    assert bill.should == 116_25 and letter(made, statement) is None


def test_a_bill_from_before_completion_is_put_right_from_the_day_of_completion() -> None:
    made = book(FRESH, "3 Jul 2025 billed council tax £50.00 by mere for 1 Jun 2025 to 10 Jun 2025\n")
    statement = void(made, "house", date(2025, 7, 10))
    asked = letter(made, statement)

    assert statement.bills[0].too_much == 50_00
    assert asked is not None and "begin my account on 1 Jul 2025, not on 1 Jun 2025" in asked.asks[0]


@pytest.mark.parametrize(
    ("code", "words", "proof"),
    [
        ("exception-missing", "No premium: on the market to let since 1 Jun 2025.", "the listing with its first date"),
        ("exception-missing", "No premium: it needs or undergoes major works.", "a schedule of the works"),
        ("exception-missing", "No premium: it was exempt since its owner died.", "the death certificate"),
        ("exempt-class", "Empty and unfurnished since 1 Jun 2025, not yet six months.", "meter readings"),
        ("exempt-class", "It was not in the valuation list, so", "the letter of the valuation office"),
        ("exempt-class", "Exempt, class G.", "what shows that the class fits"),
        ("projection", "A. Gale lived there.", "the tenancy agreement"),
        ("projection", "Empty for major works.", "a schedule of the works"),
    ],
)
def test_what_to_send_hangs_on_the_class(code: str, words: str, proof: str) -> None:
    assert proof in evidence(code, words)


def test_papers_that_tell_the_state_of_the_house_go_with_the_letter() -> None:
    made = book(f'{FRESH}; works from 1 Aug 2025, says "quote of Mere Builders"', BILL)
    asked = letter(made, void(made, "house", date(2025, 8, 10)))

    assert asked is not None and "I know this from: “quote of Mere Builders”." in asked.opening
    assert not any("Mere Builders" in paper for paper in asked.evidence)


def test_there_is_no_letter_where_all_is_right() -> None:
    right = "3 Jul 2025 billed council tax £1,023.75 by mere for 1 Jul 2025 to 31 Mar 2026\n"
    made = book(FRESH, right)
    statement = void(made, "house", date(2025, 7, 10))

    assert statement.bills[0].reasons == ()
    assert letter(made, statement) is None


def test_every_code_has_words() -> None:
    assert all(code.label for code in CODES.values())
    for name in ("date-start", "date-end", "wrong-party", "discount-missing", "class-d-refused", "premium-too-early"):
        assert CODES[name].ask and CODES[name].send


# ── penalties, Northern Ireland ──────────────────────────────────────────────────────────────────────────────────


def test_silence_costs_the_first_penalty_and_never_the_second() -> None:
    """B32: LGFA 1992 Sch. 3 para. 1, SI 2008/981."""
    notes = " ".join(found(FRESH).notes)

    assert "can cost £70" in notes and "280" not in notes
    again = law.figure("council_england.penalty_again", date(2025, 7, 10))
    assert again.whole == 280 and "repeated request" in again.about


def test_northern_ireland_has_rates_and_is_told_who_pays_them() -> None:
    """B31: nidirect; up to £150,000 the landlord, above it the tenant unless agreed, in multiple occupation the
    landlord."""
    head = HEAD.replace("nation england", "nation northern ireland")
    notes = " ".join(found(FRESH, head=head).notes)

    assert "not handled here" in notes
    for words in ("up to a capital value of £150,000", "multiple occupation", "above that the tenant, unless the"):
        assert words in notes


def test_a_void_over_the_first_of_april_is_shown_whole_where_the_book_has_no_scheme_at_all() -> None:
    scheme = ("scheme", "    charge", "    empty free", "    works", "    furnished full", "    premium")
    head = "\n".join(line for line in HEAD.splitlines() if not line.startswith(scheme))
    made = found("bought 1 Jul 2024 for £1; empty since 1 Feb 2025; as bought lettable", head=head + "\n")

    assert (made.span.first, made.span.last) == (date(2024, 4, 1), date(2026, 3, 31))


def test_a_bill_of_one_share_of_the_charge_for_all_days_is_said_to_be_one() -> None:
    """Six months at 75% by the scheme, of which the bill makes nine: 274 days at 3.75."""
    made = found(FRESH, "5 Jul 2025 billed council tax £1,027.50 by mere for 1 Jul 2025 to 31 Mar 2026\n")

    assert "It comes to 75% of the charge on all its days." in " ".join(render.text([made]).split())


def test_no_time_to_appeal_runs_from_a_claim_made_before_the_bill() -> None:
    """LGFA 1992 s. 16: a grievance is about a bill, so none can be made before it came."""
    asked = "1 Jul 2025 asked council tax discount from mere\n"
    route = " ".join(found(FRESH, f"{asked}{BILLED}", date(2025, 11, 6)).route)

    assert "before a bill came" in route
    assert "1 Nov 2025" not in route


def test_a_refusal_that_a_grant_overtook_is_no_grievance() -> None:
    refused = f"{BILLED}9 Jul 2025 refused council tax discount by mere\n"
    granted = "1 Aug 2025 granted 25% off council tax by mere for 1 Jul 2025 to 31 Mar 2026\n"

    assert "appeal by 9 Sep 2025" in " ".join(found(FRESH, refused, date(2025, 8, 9)).route)
    assert "appeal by" not in " ".join(found(FRESH, refused + granted, date(2025, 8, 9)).route)


@pytest.mark.parametrize("bill", ["", BILLED])
def test_only_a_letter_about_a_bill_is_a_grievance(bill: str) -> None:
    made = book(FRESH, bill)
    found_letter = letter(made, void(made, "house", date(2025, 7, 10)))

    assert found_letter is not None
    assert ("section 16" in " ".join(found_letter.closing)) == bool(bill)


def test_what_a_letter_asks_for_less_what_was_charged_too_little_is_what_is_too_much() -> None:
    """For sale since 1 December 2024 and empty for two years on 10 January 2026, in Wales: 5.00, 10.00, then 15.00 a
    day. Billed 10.00 throughout: 244 days too high by 5.00, 81 days too low by 5.00, which is 815.00 in all."""
    head = HEAD.replace("england", "wales").replace("100% after 1 year", "100% after 1 year then 200% after 2 years")
    head = re.sub("empty free.*", "empty full", head)
    bill = "4 Apr 2025 billed council tax £3,650.00 by mere for 1 Apr 2025 to 31 Mar 2026\n"
    made = book("bought 3 Jun 2024 for £1; empty since 10 Jan 2024; marketed for sale from 1 Dec 2024", bill, head)
    told = letter(made, void(made, "house", date(2025, 6, 1), TaxYear(2025)))

    assert told is not None
    assert "This comes to £1,220.00." in told.asks[0]
    closing = " ".join(told.closing)
    assert "should be £2,835.00 in place of £3,650.00" in closing
    assert "£405.00 for 10 Jan 2026 to 31 Mar 2026" in closing


@pytest.mark.parametrize(
    ("lines", "balance", "words"),
    [
        # nothing to 31 July, then 5 months at 3.75, the rest at 5.00: 153 x 3.75 + 90 x 5.00 = 1,023.75
        ("1 Aug 2025 paid council tax £1,370.00 to mere\n", 346_25, "What you paid is £346.25 more than is due"),
        ("1 Aug 2025 paid council tax £1,000.00 to mere\n", -23_75, "What you paid is £23.75 less than is due"),
        ("1 Aug 2025 paid council tax £1,370.00 to mere\n"
         "1 Sep 2025 received refund £346.25 from mere for council tax\n", 0, "is what is due: that is settled"),
    ],
)  # fmt: skip
def test_what_was_paid_is_held_against_what_is_due(lines: str, balance: int, words: str) -> None:
    made = book(FRESH, BILLED + lines)
    worked = void(made, "house", date(2025, 9, 10))

    assert worked.balance == balance
    assert words in " ".join(render.text([worked]).split())
    told = letter(made, worked)
    assert (told is None) == (balance == 0)
    assert balance <= 0 or told and "so £346.25 is to come back" in " ".join(told.closing)


def test_no_letter_complains_of_a_bill_that_is_too_low_on_the_whole() -> None:
    """Works and no premium by the bill; both are wrong, and more was left out than was charged too much."""
    head = HEAD.replace("england", "wales").replace("100% after 1 year", "100% after 1 year then 200% after 2 years")
    head = re.sub("empty free.*", "empty full", head)
    bill = "4 Apr 2025 billed council tax £3,650.00 by mere for 1 Apr 2025 to 31 Mar 2026\n"
    made = book("bought 3 Jun 2023 for £1; empty since 10 Jun 2023; marketed for sale from 1 May 2024", bill, head)
    worked = void(made, "house", date(2025, 6, 1), TaxYear(2025))

    # 30 days of April too high by 5.00, 295 days from 10 June too low by 5.00
    assert worked.bills[0].too_much == 30 * 5_00 - 295 * 5_00
    assert letter(made, worked) is None


def test_of_answers_that_come_to_the_same_the_statement_goes_by_the_first() -> None:
    """Empty before it was bought with works needed: since when makes no difference before the twelve months end."""
    made = book(
        "bought 4 Jun 2025 for £1; empty since 10 Feb 2025; needs works from 4 Jun 2025; sold 1 Oct 2025 for £1"
    )
    why = " ".join(words for row in void(made, "house", date(2025, 11, 1)).rows for _, words, _ in row.reasons)

    assert "Major works: 50% off, counted from 4 Jun 2025." in why


OLD = (
    'property house "Mere House"\n    nation england\n    council mere, band B\n    bought 12 Feb 2012 for £1\n'
    "{}at house\n{}"
)
TOLD = "12 Feb 2012 paid stamp duty £90.00\n10 Apr 2023 paid insurance £90.00\n"


def old(fields: str, lines: str = TOLD, on: date = date(2026, 4, 2)) -> Void:
    return void(build({"a.book": 'landlord x "X"\n' + OLD.format(fields, lines)}), "house", on)


def test_years_of_which_nothing_is_told_are_no_long_void() -> None:
    """Bought in 2012, and the book goes on in 2023: nobody knows who lived there in between, so it is asked."""
    let = 'tenancy t at house\n    tenants "T. Enant"\n    from 1 Jun 2023\n    rent £500 a month\n'
    made = old(let, TOLD)
    said = " ".join(made.notes)

    assert made.span.first == date(2023, 4, 1) and made.empty == 61  # April and May 2023
    assert "from 12 Feb 2012 to 9 Apr 2023, and those days count as empty" in said
    lived = old("    lived in from 12 Feb 2012 to 9 Apr 2023\n" + let)
    assert lived.empty == 52 and "tells nothing" not in " ".join(lived.notes)
    filled = "".join(f"1 Jun {year} paid insurance £90.00\n" for year in range(2012, 2023))
    assert "tells nothing" not in " ".join(old(let, filled + TOLD).notes), "the book goes on from year to year"


def test_years_alike_without_a_scheme_are_one_row_and_one_remark() -> None:
    made = old("    empty since 12 Feb 2012\n")
    drawn = render.text([made])

    assert drawn.count("no scheme of mere") == 1 and "for any year from 2011-12 to 2026-27" in drawn
    assert drawn.count("has no scheme of the council for this year") == 1
    assert sum(row.days.days for row in joined(made.rows)) == made.span.days and len(joined(made.rows)) == 2
