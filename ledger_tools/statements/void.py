"""The council tax of one home while it was empty: day by day as it should be, against the bills that came.

Knows no layout. Figures are frozen, in whole pence, each with the lines of the book it rests on.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from fractions import Fraction

from ..book.council_bills import TAX
from ..book.entries import Entry
from ..book.world import Book
from ..days import Period, TaxYear
from ..money import round_half_up
from ..taxes.council.answers import QUESTIONS, Answers, every_way
from ..taxes.council.bill import Segment, Worked, work_out
from ..taxes.council.charges import LIVED
from ..taxes.council.compare import Bill, Compared, Reason, bills, compare
from ..taxes.council.facts import Facts, gather
from ..taxes.council.instalments import instalments, number
from ..taxes.council.liability import US, liable
from ..taxes.council.timeline import Home
from ..taxes.council.years import DAY, council_year, days_of
from .figures import Figure, Trace, figure
from .void_notes import claims, notes, quiet_since_got, route
from .void_parts import Ahead, BillRow, Open, Row, Void

Given = Mapping[str, str]
Ways = Sequence[tuple[Answers, Worked]]
AHEAD = 400  # days to look ahead for what changes next
TRIED = 8  # ways of answering what is open that a bill is held against


def void(book: Book, house: str, on: date, year: TaxYear | None = None) -> Void:
    """The statement of a home as things stand at the end of `on`: dated lines of later days are left aside. Without a
    year it spans the council years of its last void, as far as the book has schemes for them; days after `on` are
    carried on as the headings tell."""
    lines, lets = (e for e in book.about(house) if e.day.first <= on), book.lets_of(house)
    book = replace(book, entries=tuple(lines), tenancies={let.name: let for let in lets})
    facts = gather(book, house)
    span = days_of(year) if year else _span(book, facts, on)
    ways = list(every_way(lambda a: work_out(facts, book.schemes, span, a)))[::-1]  # of equal sums the first answers
    taken, worst = max(ways, key=lambda way: way[1].pence)
    least = min(worked.pence for _, worked in ways)
    rows = tuple(_rows(book, facts, worst))
    council = book.councils.get(facts.council)
    made = Void(
        house, facts.full, facts.nation, facts.council, council.full if council else facts.council,
        tuple(book.landlords[n].full for n, _ in book.owners_on(house, on) if n in book.landlords), on, span, rows,
        worst.pence, least, worst.known, _nobody(facts, worst, taken.given, span),
        tuple(_open(facts, book, span, ways, taken, worst.pence)), tuple(_bills(book, facts, span)),
        _paid(book, house, span), _back(book, house, span), tuple(_ahead(facts, book, on, taken.given)), (), (), (),
    )  # fmt: skip
    made = replace(made, claims=tuple(claims(book, made, worst)))
    return replace(made, notes=tuple(notes(book, facts, made, worst)), route=tuple(route(book, made)))


# ── which days ───────────────────────────────────────────────────────────────────────────────────────────────────


def _span(book: Book, facts: Facts, on: date) -> Period:
    home = Home(facts, Answers(), days_of(council_year(on)).last)
    voids = [run for run in home.empty_runs() if run.first <= on and (run.last is None or run.last >= facts.ours.first)]
    year = council_year(on)
    state = home.state(on)
    if not voids or state is not None and state.lived and liable(home, on).party == US:
        return days_of(year)
    first = max(voids[-1].first, facts.ours.first)
    last = min(voids[-1].last or on, on)
    held = {y for council, y in book.schemes if council == facts.council}
    quiet = None if held else quiet_since_got(book, facts)
    first = max(first, quiet.last) if quiet and quiet.last < last else first
    years = [y for y in _years(first, last) if y in held or not held]
    years = years or [council_year(last)]
    return Period(days_of(years[0]).first, days_of(council_year(last)).last)


def _years(first: date, last: date) -> list[TaxYear]:
    return [TaxYear(y) for y in range(council_year(first).start, council_year(last).start + 1)]


def _nobody(facts: Facts, worked: Worked, given: Given, span: Period) -> int:
    """The days on which the landlord answers and nobody lives there."""
    stretches = Home(facts, Answers(given), span.last).stretches
    empty = [Period(stretch.first, stretch.last) for stretch in stretches if not stretch.lived]
    both = (days.overlap(s.days) for s in worked.segments if s.ours for days in empty)
    return sum(days.days for days in both if days)


# ── the table ────────────────────────────────────────────────────────────────────────────────────────────────────


def _rows(book: Book, facts: Facts, worked: Worked) -> Iterator[Row]:
    for s in worked.segments:
        reasons = tuple((day, due.why, due.law) for day, due in s.reasons)
        yield Row(
            s.days, s.year, s.liable.party, s.liable.who,
            state=s.due.state if s.ours else "", share=s.due.factor if s.ours else None,
            annual=s.rates[0].annual if s.rates else None, pence=s.pence if s.known else None,
            parts=tuple((name, round_half_up(share)) for name, share in s.lines[1:] if share),
            reasons=_answering(s, reasons) if s.ours else ((s.days.first, s.liable.why, s.liable.law),),
            sources=_sources(book, facts, s),
        )  # fmt: skip


def _answering(segment: Segment, reasons: tuple[tuple[date, str, str], ...]) -> tuple[tuple[date, str, str], ...]:
    """Where somebody lives there and the landlord answers all the same, why that is stands first."""
    if segment.due.state != LIVED:
        return reasons
    who = segment.liable
    both = [(day, f"{who.why} {why}", "; ".join(filter(None, (who.law, law)))) for day, why, law in reasons]
    return tuple(both)


def _sources(book: Book, facts: Facts, segment: Segment) -> tuple[str, ...]:
    """The house, the scheme, the let and the grant a row rests on."""
    scheme = book.schemes.get((facts.council, segment.year))
    found = [scheme.place.short] if segment.ours and scheme else []
    found += [t.place.short for t in book.lets_of(facts.house) if segment.liable.who
              and segment.liable.who == (" and ".join(t.tenants) or t.name)]  # fmt: skip
    found += [g.source for g in facts.granted if segment.due.state == "granted" and segment.days.first in g.days]
    return tuple(found) or (book.properties[facts.house].place.short,)


# ── what is open ─────────────────────────────────────────────────────────────────────────────────────────────────


def _open(facts: Facts, book: Book, span: Period, ways: Ways, taken: Answers, total: int) -> Iterator[Open]:
    """Questions whose answer makes a difference, first those without a usual answer, then doubts about the law; these
    are held against the answers taken, and the pence they come to."""
    for key, question in QUESTIONS.items():
        if question.usual or not any(key in answers.given for answers, _ in ways):
            continue
        told = []
        for slug, words in question.answers:
            sums = [worked.pence for answers, worked in ways if answers.given.get(key) == slug]
            told.append((words, min(sums, default=0), max(sums, default=0)))
        if len({(low, high) for _, low, high in told}) > 1:
            yield Open(question.ask, tuple(told), question.write, "", question.source)
    for key in taken.asked:
        question = QUESTIONS[key]
        if not question.usual:
            continue
        told = []
        for slug, words in question.answers:
            pence = work_out(facts, book.schemes, span, Answers({**taken.given, key: slug})).pence
            told.append((words, pence, pence))
        if any(low != total for _, low, _ in told):
            usual = dict(question.answers)[question.usual]
            yield Open(question.ask, tuple(told), question.write, usual, question.source)


# ── bills ────────────────────────────────────────────────────────────────────────────────────────────────────────


def _bills(book: Book, facts: Facts, span: Period) -> Iterator[BillRow]:
    """Held against the answers that cost most, so that what is asked back is due whatever the answers are."""
    for bill in bills(book, facts.house):
        if bill.days is None:
            words = "Your book does not tell for which days it is: add `for … to …` to the line."
            reason = Reason("unknown-scheme", Period(bill.day, bill.day), 0, words)
            if bill.day in span:
                yield BillRow(
                    bill.source, bill.day, None, bill.who, bill.pence, 0, None, 0, 0, (reason,), False, "", ()
                )
            continue
        if not bill.days.overlap(span):
            continue
        each = sorted(_ways(facts, book, bill.days), key=lambda way: -way[1].pence)
        worst = _explained(facts, book, bill, [given for given, _ in each])
        each_sum = [way[1].pence for way in each]
        open_ = not worst.explained and each_sum[-1] <= bill.pence <= each_sum[0] and each_sum[-1] < each_sum[0]
        known = all(reason.code != "unknown-scheme" for reason in worst.reasons)
        yield BillRow(
            bill.source, bill.day, bill.days, bill.who, bill.pence, worst.then.pence,
            should=worst.now.pence if known else None, least=each_sum[-1], most=each_sum[0],
            reasons=() if bill.replaced or open_ else worst.reasons, explained=worst.explained, replaced=bill.replaced,
            instalments=_instalments(facts, bill.day, bill.days, bill.pence), flat=worst.flat,
        )  # fmt: skip


def _instalments(facts: Facts, day: date, days: Period, pence: int) -> tuple[int, ...]:
    """How a bill to the end of a council year is asked for by the usual scheme of England and Wales."""
    year = days_of(council_year(days.last))
    if facts.nation not in ("england", "wales") or days.last != year.last or pence <= 0:
        return ()
    return instalments(pence, number(day, year.first))


def _ways(facts: Facts, book: Book, days: Period) -> list[tuple[Given, Worked]]:
    """The ways of answering what is open about some days, with what they come to."""
    ways = every_way(lambda a: work_out(facts, book.schemes, days, a))
    return [(answers.given, worked) for answers, worked in ways][::-1]


def _explained(facts: Facts, book: Book, bill: Bill, ways: list[Given]) -> Compared:
    """The bill on the dearest of the answers that explain it, else on the dearest; a few are tried. One share held for
    all days explains too much: it counts only where no answer explains the bill otherwise."""
    tried: list[Compared] = []
    for given in ways[:TRIED]:
        found = compare(facts, book.schemes, bill, Answers(given))
        if found.explained and found.flat is None:
            return found
        tried.append(found)
    return next((found for found in tried if found.explained), tried[0])


def _paid(book: Book, house: str, span: Period) -> Figure:
    """What was paid of council tax on days of the span, or for days of it, line by line."""
    lines = [e for e in _money(book, house, "paid", span) if e.thing == TAX]
    return figure("paid", "Paid", (Trace(e.source, e.day.last, "paid council tax", e.total, -1) for e in lines))


def _back(book: Book, house: str, span: Period) -> Figure:
    lines = [e for e in _money(book, house, "received", span) if TAX in (e.thing, e.purpose)]
    return figure("back", "Came back", (Trace(e.source, e.day.last, "received refund", e.total, -1) for e in lines))


def _money(book: Book, house: str, verb: str, span: Period) -> Iterator[Entry]:
    for entry in book.entries:
        if any(share.house == house for share in entry.homes):
            for line in (entry, *entry.lines):
                inside = line.period.overlap(span) if line.period else line.day.last in span
                if line.verb == verb and inside:
                    yield line


# ── what comes ───────────────────────────────────────────────────────────────────────────────────────────────────


def _ahead(facts: Facts, book: Book, on: date, given: Given) -> Iterator[Ahead]:
    """What an empty day costs on a day and how that changes, the home staying as it is; nothing while it is let."""
    carried = replace(facts.known_on(on), granted=facts.granted)
    worked = work_out(carried, book.schemes, Period(on, on + AHEAD * DAY), Answers(given))
    before: Fraction | None = None
    for segment in worked.segments:
        if not segment.ours or segment.due.state == LIVED or not segment.known or segment.due.factor is None:
            return
        a_day = segment.exact / segment.days.days
        if a_day != before:
            yield Ahead(segment.reasons[0][0], a_day, segment.reasons[0][1].why)
        before = a_day
