"""What must hold of the council tax of any home: days fill the year, money adds up, splitting changes nothing."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from ledger_tools.book.build import build
from ledger_tools.book.world import Book
from ledger_tools.days import Period, TaxYear, day_words
from ledger_tools.money import plain
from ledger_tools.problems import Level
from ledger_tools.render import void as render
from ledger_tools.render.void_json import as_json
from ledger_tools.statements.void import void
from ledger_tools.statements.void_letter import letter
from ledger_tools.taxes.council.answers import Answers, every_way
from ledger_tools.taxes.council.bill import Worked, work_out
from ledger_tools.taxes.council.compare import Bill, compare
from ledger_tools.taxes.council.facts import Facts, gather
from ledger_tools.taxes.council.years import days_of

START = date(2023, 4, 1)
DAY = timedelta(days=1)
SPAN = Period(START, date(2026, 3, 31))
EMPTY = ("full", "free for 28 days", "free for 1 month then 25% off for 5 months", "25% off for 84 days", "10% off")
FACTS = ("", ", shared with earlier owner", ", anew for each owner", ", again after more than 6 weeks lived in")
SPELLS = (
    "works", "needs works", "marketed", "marketed for sale", "furnished", "unfurnished", "lived in", "no premium",
    "own home", "one adult counts", "no adult counts", "hmo", "band deleted",
)  # fmt: skip


@st.composite
def texts(draw: st.DrawFn) -> str:
    """A home with lets, spells and schemes of three years; nothing of it at odds with itself."""
    nation = draw(st.sampled_from(("england", "wales", "scotland")))
    out = ['landlord x "X. Mere"', 'council mere "Mere Council"', f"    nation {nation}"]
    for year in range(2023, 2026):
        out += [
            f"scheme mere {TaxYear(year)}",
            f"    charge band B £{draw(st.integers(900, 3999))}.{draw(st.integers(10, 99))}",
        ]
        out.append(f"    empty {draw(st.sampled_from(EMPTY))}{draw(st.sampled_from(FACTS))}")
        out += draw(st.sampled_from(([], ["    works 50% off for 12 months, ends 6 months after finishing"])))
        out += draw(
            st.sampled_from(([], ["    furnished 35% off, only at house"], ["    furnished 5% off, only at hut"]))
        )
        out += draw(st.sampled_from(([], ["    furnished full", "    second homes 100% from 1 Apr 2025"])))
        out += draw(st.sampled_from(([], ["    premium 100% after 1 year then 200% after 5 years"])))
    days = st.integers(0, SPAN.days - 1).map(lambda n: START + n * DAY)
    bought = draw(st.sampled_from((date(2010, 1, 1), date(2023, 9, 14), date(2024, 2, 29))))
    out += ['property house "Mere House"', f"    nation {nation}", "    council mere, band B"]
    out.append(f"    bought {day_words(bought)} for £100,000")
    if draw(st.booleans()):
        out.append(f"    empty since {day_words(bought - draw(st.integers(0, 3000)) * DAY)}")
    for state in draw(st.lists(st.sampled_from(SPELLS), max_size=4)):
        first = draw(days)
        ends = first + draw(st.integers(0, 500)) * DAY
        out.append(f"    {state} from {day_words(first)}" + draw(st.sampled_from(("", f" to {day_words(ends)}"))))
    at = bought
    for number in range(draw(st.integers(0, 3))):
        at += draw(st.integers(1, 300)) * DAY
        first, left = at, at + draw(st.integers(1, 400)) * DAY
        at = left + draw(st.integers(0, 60)) * DAY
        out += [
            f"tenancy let{number} at house",
            f'    tenants "T{number}"',
            f"    from {day_words(first)} to {day_words(left)}",
        ]
        out += ["    rent £500 a month", f"    moved out {day_words(left)}", f"    ended {day_words(at)}"]
        at += DAY
    return "\n".join(out) + "\n"


def made(text: str) -> tuple[Book, Facts]:
    book = build({"mere.book": text})
    assert [p.headline for p in book.problems if p.level is Level.ERROR] == []
    return book, gather(book, "house")


def by_day(worked: Worked) -> dict[date, tuple[str, str, object]]:
    found = {}
    for segment in worked.segments:
        for number in range(segment.days.days):
            found[segment.days.first + number * DAY] = (segment.liable.party, segment.due.state, segment.due.factor)
    return found


@settings(max_examples=30, deadline=None)
@given(texts())
def test_days_fill_the_span_and_belong_to_one_council_year_each(text: str) -> None:
    book, facts = made(text)
    worked = work_out(facts, book.schemes, SPAN, Answers())

    assert worked.segments[-1].days.last == SPAN.last
    if facts.ours.first > SPAN.first:  # the days of the earlier owner stand there too
        assert worked.segments[0].days.first == SPAN.first
    for before, after in zip(worked.segments, worked.segments[1:], strict=False):
        assert before.days.last + DAY == after.days.first
    for segment in worked.segments:
        year = days_of(segment.year)
        assert segment.days.first in year and segment.days.last in year
        assert segment.days.first == segment.reasons[0][0]


@settings(max_examples=30, deadline=None)
@given(texts(), st.integers(1, SPAN.days - 1))
def test_splitting_a_period_changes_nothing(text: str, cut: int) -> None:
    book, facts = made(text)
    middle = START + cut * DAY
    whole = work_out(facts, book.schemes, SPAN, Answers())
    first = work_out(facts, book.schemes, Period(START, middle - DAY), Answers())
    second = work_out(facts, book.schemes, Period(middle, SPAN.last), Answers())

    assert by_day(whole) == {**by_day(first), **by_day(second)}
    assert whole.exact == first.exact + second.exact
    assert (
        whole.exact == whole.within(Period(START, middle - DAY)).exact + whole.within(Period(middle, SPAN.last)).exact
    )
    assert abs(whole.pence - whole.exact) <= len(whole.segments)


@settings(max_examples=40, deadline=None)
@given(texts())
def test_no_day_between_those_that_are_looked_at_is_another_one(text: str) -> None:
    book, facts = made(text)
    for answers, quick in every_way(lambda a: work_out(facts, book.schemes, SPAN, a)):
        slow = work_out(facts, book.schemes, SPAN, Answers(answers.given), each_day=True)
        assert by_day(quick) == by_day(slow)
        assert [s.reasons for s in quick.segments] == [s.reasons for s in slow.segments]


@settings(max_examples=30, deadline=None)
@given(texts())
def test_a_whole_year_of_one_state_is_the_annual_charge_and_no_day_of_others_costs(text: str) -> None:
    book, facts = made(text)
    for year in (2023, 2024, 2025):
        worked = work_out(facts, book.schemes, days_of(TaxYear(year)), Answers())
        for segment in worked.segments:
            assert segment.ours or segment.exact == 0
            if segment.ours:
                assert segment.due.factor is not None and 0 <= segment.due.factor <= 4
            if segment.ours and segment.days == days_of(segment.year):
                assert segment.exact == segment.rates[0].annual * segment.due.factor


@settings(max_examples=30, deadline=None)
@given(texts())
def test_a_leap_day_costs_a_day_of_its_own_year(text: str) -> None:
    """29 February 2024 is one of 366 days, 28 February 2025 one of 365."""
    book, facts = made(text)
    for day, length in ((date(2024, 2, 29), 366), (date(2025, 2, 28), 365)):
        for segment in work_out(facts, book.schemes, Period(day, day), Answers()).segments:
            share = segment.due.factor if segment.ours else 0
            assert share is not None
            assert segment.exact * length == sum(rate.annual for rate in segment.rates) * share


@settings(max_examples=12, deadline=None)
@given(texts())
def test_a_right_bill_is_right_whatever_is_open(text: str) -> None:
    book, facts = made(text)
    span = days_of(TaxYear(2025))
    for answers, worked in every_way(lambda a: work_out(facts, book.schemes, span, a)):
        bill = Bill("mere.book:1", date(2026, 4, 1), span, worked.pence, "Mere Council")
        found = compare(facts, book.schemes, bill, Answers(answers.given))
        assert found.explained and found.too_much == 0 and found.reasons == ()


@settings(max_examples=10, deadline=None)
@given(texts(), st.integers(0, SPAN.days - 1), st.integers(0, 4_000_00))
def test_the_statement_and_the_letter_come_out_of_any_home(text: str, number: int, pence: int) -> None:
    on = START + number * DAY
    line = f"{day_words(START)} billed council tax £{pence // 100}.{pence % 100:02d} by mere for {SPAN}"
    book, _ = made(f"{text}at house\n{line}\n")
    found = void(book, "house", on)
    drawn = render.text([found])

    assert found.least <= found.total
    assert sum(row.pence or 0 for row in found.rows if row.ours) == found.total
    assert as_json([found])["houses"][0]["total"] == plain(found.total)
    assert "Mere House" in drawn and max(len(line) for line in drawn.splitlines()) <= 140
    asked = letter(book, found)
    assert asked is None or "Please" in render.letter(asked)
