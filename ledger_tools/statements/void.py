"""The council tax of one home while it was empty: day by day as it should be, against the bills that came.

Knows no layout. Figures are frozen, in whole pence, each with the lines of the book it rests on.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction

from ..book.entries import Entry
from ..book.world import Book
from ..days import Period, TaxYear, day_words, months_after
from ..money import round_half_up
from ..taxes.council.answers import QUESTIONS, Answers, every_way
from ..taxes.council.bill import Segment, Worked, work_out
from ..taxes.council.compare import Compared, Reason, bills, compare
from ..taxes.council.facts import TAX, Facts, gather
from ..taxes.council.liability import US
from ..taxes.council.timeline import Home
from ..taxes.council.years import DAY, council_year, days_of, figure
from .figures import Figure, Trace
from .figures import figure as figure_of

AHEAD = 400  # days to look ahead for what changes next


@dataclass(frozen=True, slots=True)
class Row:
    """Days of one state: who answers, the share of the charge that is due (1 is the whole), the pence, the reasons from
    their days on with where they stand, the lines of the book it rests on. share and pence: None where not known."""

    days: Period
    year: TaxYear
    party: str
    who: str
    state: str
    share: Fraction | None
    annual: int | None
    pence: int | None
    parts: tuple[tuple[str, int], ...]
    reasons: tuple[tuple[date, str, str], ...]
    sources: tuple[str, ...]

    @property
    def ours(self) -> bool:
        """Whether the landlord answers."""
        return self.party == US


@dataclass(frozen=True, slots=True)
class Open:
    """A question the book leaves open: what it is, its answers in words with what the whole then comes to at least and
    at most, and what to write. usual: the answer that was taken, "" where none was."""

    ask: str
    answers: tuple[tuple[str, int, int], ...]
    write: tuple[str, ...]
    usual: str
    source: str


@dataclass(frozen=True, slots=True)
class BillRow:
    """A bill against what it should be. then: pence on what could be known when it came. reasons: as compared."""

    source: str
    day: date
    days: Period | None
    who: str
    billed: int
    then: int
    should: int | None
    least: int
    reasons: tuple[Reason, ...]
    explained: bool
    replaced: str

    @property
    def too_much(self) -> int:
        """What was billed beyond what should be; below nil where too little was."""
        return self.billed - self.should if self.should is not None else 0


@dataclass(frozen=True, slots=True)
class Ahead:
    """What an empty day costs from a day on, in exact pence, and why."""

    since: date
    a_day: Fraction
    why: str


@dataclass(frozen=True, slots=True)
class Claim:
    """Something let off that a council gives only to those who ask: for which days, what it is worth in pence, whether
    the book tells that it was asked for, granted or refused, with the line."""

    what: str
    days: Period
    pence: int
    law: str
    answer: str
    source: str


@dataclass(frozen=True, slots=True)
class Void:
    """All of it for one home. total: pence as far as known, on the answer that costs most; least: on the one that costs
    least. empty: the days nobody lived there and the landlord answered."""

    house: str
    full: str
    nation: str
    council: str
    council_full: str
    landlords: tuple[str, ...]
    on: date
    span: Period
    rows: tuple[Row, ...]
    total: int
    least: int
    known: bool
    empty: int
    open: tuple[Open, ...]
    bills: tuple[BillRow, ...]
    paid: Figure
    back: Figure
    ahead: tuple[Ahead, ...]
    claims: tuple[Claim, ...]
    notes: tuple[str, ...]
    route: tuple[str, ...]


def void(book: Book, house: str, on: date, year: TaxYear | None = None) -> Void:
    """The statement of a home as things stand at the end of `on`. Without a year it spans the council years of its last
    void, as far as the book has schemes for them; days after `on` are carried on as they stand."""
    facts = gather(book, house)
    span = days_of(year) if year else _span(book, facts, on)
    ways = [(answers.given, worked) for answers, worked in every_way(lambda a: work_out(facts, book.schemes, span, a))]
    given, worst = max(ways, key=lambda way: way[1].pence)
    least = min(worked.pence for _, worked in ways)
    rows = tuple(_rows(book, facts, worst))
    council = book.councils.get(facts.council)
    made = Void(
        house, facts.full, facts.nation, facts.council, council.full if council else facts.council,
        tuple(book.landlords[n].full for n, _ in book.owners_on(house, on) if n in book.landlords), on, span, rows,
        worst.pence, least, worst.known, sum(s.days.days for s in worst.segments if s.ours and s.due.state != "lived in"),
        tuple(_open(facts, book, span, ways, given)), tuple(_bills(book, facts, span, ways)),
        _paid(book, house, span), _back(book, house, span), tuple(_ahead(facts, book, on, given)), (), (), (),
    )  # fmt: skip
    made = replace(made, claims=tuple(_claims(book, made, worst)))
    return replace(made, notes=tuple(_notes(book, facts, made, worst)), route=tuple(_route(book, made)))


# ── which days ───────────────────────────────────────────────────────────────────────────────────────────────────


def _span(book: Book, facts: Facts, on: date) -> Period:
    home = Home(facts, Answers(), days_of(council_year(on)).last)
    voids = [run for run in home.empty_runs() if run.first <= on and (run.last is None or run.last >= facts.ours.first)]
    year = council_year(on)
    if not voids:
        return days_of(year)
    first = max(voids[-1].first, facts.ours.first)
    last = min(voids[-1].last or on, on)
    held = {y for council, y in book.schemes if council == facts.council}
    years = [y for y in _years(first, last) if y in held] or [council_year(last)]
    return Period(days_of(years[0]).first, days_of(years[-1]).last)


def _years(first: date, last: date) -> list[TaxYear]:
    return [TaxYear(y) for y in range(council_year(first).start, council_year(last).start + 1)]


# ── the table ────────────────────────────────────────────────────────────────────────────────────────────────────


def _rows(book: Book, facts: Facts, worked: Worked) -> Iterator[Row]:
    for s in worked.segments:
        reasons = tuple((day, d.why, d.law) for day, d in s.reasons) if s.ours else (
            (s.days.first, s.liable.why, s.liable.law),)  # fmt: skip
        yield Row(
            s.days, s.year, s.liable.party, s.liable.who, s.due.state if s.ours else "", s.due.factor if s.ours else None,
            s.rates[0].annual if s.rates else None, s.pence if s.known else None,
            tuple((name, round_half_up(share)) for name, share in s.lines[1:]), reasons, _sources(book, facts, s),
        )  # fmt: skip


def _sources(book: Book, facts: Facts, segment: Segment) -> tuple[str, ...]:
    """The house, the scheme, the let and the grant a row rests on."""
    found = [book.properties[facts.house].place.short]
    scheme = book.schemes.get((facts.council, segment.year))
    if segment.ours and scheme:
        found.append(scheme.place.short)
    found += [t.place.short for t in book.tenancies.values() if t.house == facts.house and segment.liable.who
              and segment.liable.who == (" and ".join(t.tenants) or t.name)]  # fmt: skip
    found += [g.source for g in facts.granted if segment.due.state == "granted" and segment.days.first in g.days]
    return tuple(found)


# ── what is open ─────────────────────────────────────────────────────────────────────────────────────────────────

Ways = Sequence[tuple[dict[str, str], Worked]]


def _open(facts: Facts, book: Book, span: Period, ways: Ways, given: dict[str, str]) -> Iterator[Open]:
    """Questions whose answer makes a difference, first those without a usual answer, then doubts about the law."""
    for key, question in QUESTIONS.items():
        if question.usual or not any(key in answers for answers, _ in ways):
            continue
        told = []
        for slug, words in question.answers:
            sums = [worked.pence for answers, worked in ways if answers.get(key) == slug]
            told.append((words, min(sums, default=0), max(sums, default=0)))
        if len({(low, high) for _, low, high in told}) > 1:
            yield Open(question.ask, tuple(told), question.write, "", question.source)
    answers = Answers(given)
    total = work_out(facts, book.schemes, span, answers).pence
    for key in answers.asked:
        question = QUESTIONS[key]
        if not question.usual:
            continue
        told = []
        for slug, words in question.answers:
            pence = work_out(facts, book.schemes, span, Answers({**given, key: slug})).pence
            told.append((words, pence, pence))
        if any(low != total for _, low, _ in told):
            yield Open(question.ask, tuple(told), question.write, dict(question.answers)[question.usual], question.source)


# ── bills ────────────────────────────────────────────────────────────────────────────────────────────────────────


def _bills(book: Book, facts: Facts, span: Period, ways: Ways) -> Iterator[BillRow]:
    """Held against the answers that cost most, so that what is asked back is due whatever the answers are."""
    for bill in bills(book, facts.house):
        if bill.days is None:
            words = "Your book does not tell for which days it is: add `for … to …` to the line."
            reason = Reason("unknown-scheme", Period(bill.day, bill.day), 0, words)
            if bill.day in span:
                yield BillRow(bill.source, bill.day, None, bill.who, bill.pence, 0, None, 0, (reason,), False, "")
            continue
        if not bill.days.overlap(span):
            continue
        answers = [given for given, _ in every_way_of(facts, book, bill.days)]
        each = [compare(facts, book.schemes, bill, Answers(given)) for given in answers]
        worst = max(each, key=lambda c: (c.explained, c.now.pence))
        known = all(reason.code != "unknown-scheme" for reason in worst.reasons)
        yield BillRow(
            bill.source, bill.day, bill.days, bill.who, bill.pence, worst.then.pence, worst.now.pence if known else None,
            min(c.now.pence for c in each), worst.reasons if not bill.replaced else (), worst.explained, bill.replaced,
        )  # fmt: skip


def every_way_of(facts: Facts, book: Book, days: Period) -> list[tuple[dict[str, str], Worked]]:
    """The ways of answering what is open about some days, with what they come to."""
    ways = every_way(lambda a: work_out(facts, book.schemes, days, a))
    return [(dict(answers.given), worked) for answers, worked in ways]


def _paid(book: Book, house: str, span: Period) -> Figure:
    """What was paid of council tax on days of the span, or for days of it, line by line."""
    lines = [e for e in _money(book, house, "paid", span) if e.thing == TAX]
    return figure_of("paid", "Paid", (Trace(e.source, e.day.last, "paid council tax", e.total, -1) for e in lines))


def _back(book: Book, house: str, span: Period) -> Figure:
    lines = [e for e in _money(book, house, "received", span) if TAX in (e.thing, e.purpose)]
    return figure_of("back", "Came back", (Trace(e.source, e.day.last, "received refund", e.total, -1) for e in lines))


def _money(book: Book, house: str, verb: str, span: Period) -> Iterator[Entry]:
    for entry in book.entries:
        if any(share.house == house for share in entry.homes):
            for line in (entry, *entry.lines):
                inside = line.period.overlap(span) if line.period else line.day.last in span
                if line.verb == verb and inside:
                    yield line


# ── what comes ───────────────────────────────────────────────────────────────────────────────────────────────────


def _ahead(facts: Facts, book: Book, on: date, given: dict[str, str]) -> Iterator[Ahead]:
    """What an empty day costs on a day and how that changes, the home staying as it is; nothing while it is let."""
    carried = facts.known_on(on)
    schemes = dict(book.schemes)
    worked = work_out(replace(carried, granted=facts.granted), schemes, Period(on, on + AHEAD * DAY), Answers(given))
    for segment in worked.segments:
        if not segment.ours or segment.due.state == "lived in" or not segment.known or segment.due.factor is None:
            return
        for since, due in segment.reasons:
            yield Ahead(since, segment.exact / segment.days.days, due.why)


# ── what can be claimed ──────────────────────────────────────────────────────────────────────────────────────────

CLAIMS = {
    "works": "the discount for major works", "exempt": "the exemption", "bought needing work": "the discount for works",
}  # fmt: skip


def _claims(book: Book, made: Void, worked: Worked) -> Iterator[Claim]:
    for segment in worked.segments:
        if not segment.ours or segment.due.factor is None or not segment.rates:
            continue
        for number, (day, due) in enumerate(segment.reasons):
            last = segment.reasons[number + 1][0] - DAY if number + 1 < len(segment.reasons) else segment.days.last
            days = Period(day, last)
            part = replace(segment, days=days)
            if due.spared is not None:
                yield _claim(book, made, f"no premium: {due.spared.why}", days, 0, due.spared.law)
            if due.factor is not None and due.factor < 1 and due.state != "granted":
                what = CLAIMS.get(due.state, f"the reduction for a home that is {due.state}")
                yield _claim(book, made, what, days, round_half_up(part.full - part.exact), due.law)


def _claim(book: Book, made: Void, what: str, days: Period, pence: int, law: str) -> Claim:
    said = [e for e in _letters(book, made) if ("works" in what) == ("works" in e.thing)]
    return Claim(what, days, pence, law, said[-1].verb if said else "", said[-1].source if said else "")


def _letters(book: Book, made: Void) -> list[Entry]:
    """What was claimed, asked, granted and refused about council tax of the home, with the council."""
    return [
        e for e in book.entries
        if e.verb in ("claimed", "asked", "granted", "refused") and any(h.house == made.house for h in e.homes)
        and (e.thing == TAX or e.council_class or any(w in e.thing for w in ("discount", "exemption", "premium")))
        and (e.who is None or e.who.name in ("", "council", made.council))
    ]  # fmt: skip


# ── notes and the way to appeal ──────────────────────────────────────────────────────────────────────────────────


def _notes(book: Book, facts: Facts, made: Void, worked: Worked) -> Iterator[str]:
    if not facts.nation:
        yield "Your book does not tell the nation, and council tax differs: add `nation england` to the property."
    if facts.nation == "northern ireland":
        yield from _northern_ireland(made.on)
        return
    for year in sorted({s.year for s in worked.segments if s.ours}):
        scheme = book.schemes.get((facts.council, year))
        if scheme is None:
            yield (
                f"Your book has no scheme of {made.council_full or 'the council'} for {year}, so those days have no money "
                f"here. Ask the council, then write `scheme {facts.council or 'NAME'} {year}` and what it says."
            )
        elif facts.band not in scheme.charges:
            band = facts.band.upper() or "?"
            yield f"The scheme of {year} has no charge for band {band}: add `charge band {band} £…`."
    for segment in worked.segments:
        for _, due in segment.reasons:
            if segment.ours and due.cut is not None:
                asked = f"{due.cut * 100}%"
                yield f"Your scheme of {segment.year} tells a premium of {asked}, more than the law allows then: {due.law}."
    if facts.to_let and any(s.due.spared and s.due.spared.name == "let" for s in worked.segments):
        yield "`marketed` is taken as to let; for a sale write `marketed for sale`, which has a year of its own."
    days = figure(facts.nation, "tell_days", made.on)
    first = figure(facts.nation, "penalty_first", made.on)
    if days is not None and first is not None and made.empty:
        yield (
            f"Tell the council within {days.whole} days when a discount or exemption ends, as when it is let or furnished; "
            f"not doing so can cost £{first.whole}."
        )
    if facts.nation == "scotland":
        yield "Scotland: a home furnished and lived in on 25 days of the year is a second home; ask the council which yours is."
    yield from _consistency(book, made)


def _northern_ireland(on: date) -> Iterator[str]:
    limit = figure("northern ireland", "landlord_pays_up_to", on)
    allowance = figure("northern ireland", "landlord_allowance", on)
    yield "Northern Ireland has rates in place of council tax; they are not handled here."
    if limit is not None and allowance is not None:
        yield (
            f"What is known: an empty home pays as an occupied one does, the owner pays, and there is no free time and no "
            f"premium. Of a let home the landlord pays up to a capital value of £{limit.whole:,} or where it is in multiple "
            f"occupation, with {allowance.value:.0%} off if paid in time; above that the tenant. {limit.caution}."
        )


def _consistency(book: Book, made: Void) -> Iterator[str]:
    """What is told to the council must agree with what is told to the tax office."""
    house = book.properties[made.house]
    works = [c for c in made.claims if "works" in c.what]
    if works and house.as_bought == "lettable":
        yield (
            f"Mind what is said where: you tell the council that the home needed major works, and your book tells the tax "
            f"office that it could be let as bought ({house.place.short}). Both may be true at different days; say which."
        )
    if works and any(day in run for run in gather(book, made.house).to_let for day in (c.days.first for c in works)):
        yield "Mind what is said where: on days for which major works are claimed your book has it on the market to let."


def _route(book: Book, made: Void) -> Iterator[str]:
    """How to go on where the council says no, with the days that follow from the letters in the book."""
    nation = made.nation
    months = figure(nation, "grievance_months", made.on)
    after = figure(nation, "tribunal_months", made.on)
    silence = figure(nation, "tribunal_silence_months", made.on)
    if nation == "scotland":
        yield (
            "Ask the council in writing; if it refuses, appeal to the First-tier Tribunal for Scotland (Local Taxation "
            "Chamber) through the council, and ask it for the time limit."
        )
        return
    if months is None or after is None or silence is None:
        return
    yield (
        f"Ask the council in writing (LGFA 1992 s. 16(4)). It has {months.whole} months; after its answer you have "
        f"{after.whole} months to appeal to the Valuation Tribunal, or {silence.whole} months from your letter if none comes. "
        "Keep paying as billed. The tribunal cannot change the council's percentages."
    )
    for letter in _letters(book, made):
        day = letter.day.last
        if letter.verb == "refused":
            yield (
                f"Refused on {day_words(day)} ({letter.source}): if that answered a letter of grievance, appeal by "
                f"{day_words(months_after(day, after.whole))}."
            )
        elif letter.verb in ("claimed", "asked") and not _answered(book, made, letter):
            yield (
                f"Asked on {day_words(day)} ({letter.source}), no answer in your book: the council's time ends on "
                f"{day_words(months_after(day, months.whole))}, yours to appeal on {day_words(months_after(day, silence.whole))}."
            )


def _answered(book: Book, made: Void, letter: Entry) -> bool:
    later = (e for e in _letters(book, made) if e.day.first >= letter.day.first)
    return any(e.verb in ("granted", "refused") and (e.thing == letter.thing or e.verb == "granted") for e in later)


__all__ = ["Ahead", "BillRow", "Claim", "Compared", "Open", "Reason", "Row", "Void", "void"]
