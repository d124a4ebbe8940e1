"""A council's bill against the bill as it should be: what differs, for which days, by how much, and why. No layout."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from fractions import Fraction

from ...book.council_bills import is_council_tax
from ...book.entries import Entry
from ...book.world import Book
from ...days import Period
from ...money import round_half_up
from ...record import record
from .answers import Answers
from .bill import Schemes, Segment, Worked, share_of_year, work_out
from .charges import LIVED
from .facts import Facts
from .liability import EARLIER, LATER, TENANT
from .readings import Reading, readings
from .years import DAY


@record
class Bill:
    """A bill as it came: its days and pence, the line of the book, the party. Replaced by a later one for some of the
    same days: the source of that one."""

    source: str
    day: date
    days: Period | None
    pence: int
    who: str
    replaced: str = ""


@record
class Reason:
    """Why a bill differs: a code, the days, the pence it is too high (below nil: too low), words, where it stands."""

    code: str
    days: Period
    pence: int
    words: str
    law: str = ""


@record
class Compared:
    """A bill held against its days as they should be. then: what could be known when it was made, carried on; now:
    what is known today. explained: whether a reading of those days comes to the bill. flat: the one share of the charge
    it puts on all days, where only that comes to it."""

    bill: Bill
    then: Worked
    now: Worked
    reasons: tuple[Reason, ...]
    explained: bool
    flat: Fraction | None = None

    @property
    def too_much(self) -> int:
        """The bill less what it should be now, in pence."""
        return self.bill.pence - self.now.pence


def bills(book: Book, house: str) -> tuple[Bill, ...]:
    """The council tax bills of a home, in order of day; a payment that names its days counts where no bill does."""
    found: list[Bill] = []
    for entry in book.entries:
        if entry.verb not in ("billed", "paid") or not any(share.house == house for share in entry.homes):
            continue
        if not is_council_tax(book, entry):
            continue
        if entry.verb == "paid" and (entry.period is None or any(_share_days(b, entry.period) for b in found)):
            continue
        who = entry.who.full if entry.who else ""
        found.append(Bill(entry.source, entry.day.last, _days(entry), entry.total, who))
    return tuple(_replaced(found))


def _days(entry: Entry) -> Period | None:
    told = [line.period for line in (entry, *entry.lines) if line.period]
    return Period(min(p.first for p in told), max(p.last for p in told)) if told else None


def _share_days(bill: Bill, days: Period) -> bool:
    return bill.days is not None and bill.days.overlap(days) is not None


def _replaced(found: Sequence[Bill]) -> Iterable[Bill]:
    for number, bill in enumerate(found):
        later = [b for b in found[number + 1 :] if bill.days and _share_days(b, bill.days)]
        yield Bill(bill.source, bill.day, bill.days, bill.pence, bill.who, later[-1].source) if later else bill


def compare(facts: Facts, schemes: Schemes, bill: Bill, answers: Answers) -> Compared:
    """Hold a bill with known days against the home. What changed only after it was made is a projection that proved
    false, not a mistake; the rest is told by the reading of the days that comes to the bill, to the penny a stretch."""
    assert bill.days is not None
    known = facts.known_on(bill.day)
    then = work_out(known, schemes, bill.days, Answers(answers.given))
    now = work_out(facts, schemes, bill.days, Answers(answers.given))
    if not now.known or not now.segments:
        return Compared(bill, then, now, (Reason("unknown-scheme", bill.days, 0, _unknown(now)),), False)
    spare = len(then.segments) + 1
    if abs(bill.pence - now.pence) <= spare:
        return Compared(bill, then, now, _pennies(bill, bill.pence - now.pence), True)
    if not any(segment.ours for segment in (*then.segments, *now.segments)):
        return Compared(bill, then, now, (_of_others(now.segments[0], bill),), True)
    reading = _explain(known, schemes, bill, answers, spare) or _explain(facts, schemes, bill, answers, spare)
    if reading is None:
        words = "No way of working out these days comes to the bill: ask the council how it was made up."
        return Compared(bill, then, now, (Reason("unexplained", bill.days, bill.pence - now.pence, words),), False)
    return Compared(bill, then, now, _reasons(reading, now, bill, facts.nation), True, reading.flat)


def _explain(facts: Facts, schemes: Schemes, bill: Bill, answers: Answers, spare: int) -> Reading | None:
    assert bill.days is not None
    for reading in readings(facts, schemes, bill.days, answers):
        if abs(bill.pence - reading.exact) <= spare:
            return reading
    return None


def _of_others(segment: Segment, bill: Bill) -> Reason:
    """None of the days of a bill is the landlord's: all of it is too much, whatever the charge."""
    assert bill.days is not None
    code, words, law = _why(segment, segment, Fraction(1), bill)
    return Reason(code, bill.days, bill.pence, words, law)


def _pennies(bill: Bill, pence: int) -> tuple[Reason, ...]:
    assert bill.days is not None
    return (Reason("rounding", bill.days, pence, "Pennies of rounding, nothing to ask for."),) if pence else ()


def _unknown(now: Worked) -> str:
    years = sorted({str(s.year) for s in now.segments if s.ours and not s.known})
    when = " and ".join(years) or "these days"
    return f"Your book has no charge or scheme for {when}, so the bill cannot be checked."


# ── reasons ──────────────────────────────────────────────────────────────────────────────────────────────────────


# Where it stands that a bill is worked out anew when things change; for Scotland it was not read.
CHANGED = {"england": "SI 1992/613 Sch. 1 para. 10", "wales": "SI 1992/613 Sch. 1 para. 10"}


def _reasons(reading: Reading, now: Worked, bill: Bill, nation: str) -> tuple[Reason, ...]:
    """Stretch by stretch the share charged against the share that is due now; then what is odd about the money."""
    found: list[Reason] = []
    for segment, share in reading.charged:
        for right in now.within(segment.days).segments:
            for piece in _by_reason(right, now):
                found += _reason(piece, segment, share, bill, nation)
    told = _joined(found)
    rest = bill.pence - now.pence - sum(reason.pence for reason in told)
    assert bill.days is not None
    if reading.odd:
        words = {
            "days-in-year": "The charge was divided by the days of a year of another length.",
            "year-amount": f"It rests on {reading.words}.",
        }[reading.odd]
        law = "LGFA 1992 s. 78, from memory" if nation == "scotland" else "LGFA 1992 s. 10"
        told.append(Reason(reading.odd, bill.days, rest, words, law))
    elif rest:
        told += _pennies(bill, rest)
    return tuple(told)


def _by_reason(right: Segment, now: Worked) -> Iterable[Segment]:
    """The days of a stretch cut where the reason for its share changes."""
    begins = [day for day, _ in right.reasons] + [right.days.last + DAY]
    for first, following in zip(begins, begins[1:], strict=False):
        yield from now.within(Period(first, following - DAY)).segments


def _reason(right: Segment, then: Segment, share: Fraction, bill: Bill, nation: str) -> Iterable[Reason]:
    due = right.due.factor if right.ours else Fraction(0)
    assert due is not None
    if share == due:
        return
    pence = sum(share_of_year(rate.annual, right.days, _part(rate.beside, rate.fixed, share)) for rate in right.rates)
    more = round_half_up(Fraction(pence) - right.exact)
    code, words, law = _why(right, then, share, bill)
    if code == "projection":
        law = CHANGED.get(nation, "")
    yield Reason(code, right.days, more, words, law)


def _part(beside: bool, fixed: bool, share: Fraction) -> Fraction:
    if fixed and share:
        return Fraction(1)
    return min(share, Fraction(1)) if beside else share


def _why(right: Segment, then: Segment, share: Fraction, bill: Bill) -> tuple[str, str, str]:
    """Code, words and law for a stretch charged otherwise than it should be."""
    if right.ours and right.due.state == "granted":
        return "discount-missing", right.due.why, right.due.law
    changed = (right.liable.party, right.due.factor) != (then.liable.party, then.due.factor)
    if changed and right.days.last > bill.day:
        return "projection", _is(right), ""
    if not right.ours:
        code = {EARLIER: "date-start", LATER: "date-end"}.get(right.liable.party, "wrong-party")
        if right.liable.party == TENANT and bill.days and right.days.last == bill.days.last:
            code = "date-end"
        return code, right.liable.why, right.liable.law
    due = right.due
    assert due.factor is not None
    if share < due.factor:
        short = {"long empty": "premium-step", "second home": "furnished-status", "empty": "discount-already-used"}
        return short.get(due.state, "discount-already-used"), f"Less was charged than is due. {_is(right)}", due.law
    if due.state == LIVED:
        return "residents", due.why, due.law
    if due.exempt and due.state in ("exempt", "no band"):
        return "exempt-class", due.why, due.law
    if share > 1:
        if due.spared is not None:
            return "exception-missing", due.why, due.spared.law
        return ("premium-step" if due.factor > 1 else "premium-too-early"), due.why, due.law
    codes = {"works": "class-d-refused", "furnished": "furnished-status", "for sale or let": "discount-missing"}
    return codes.get(due.state, "discount-missing"), due.why, due.law


def _is(right: Segment) -> str:
    if right.ours and right.due.state == LIVED:
        return f"{right.liable.why} {right.due.why}"
    return right.due.why if right.ours else right.liable.why


def _joined(found: Sequence[Reason]) -> list[Reason]:
    """Neighbouring stretches with one reason as one."""
    out: list[Reason] = []
    for reason in found:
        before = out[-1] if out else None
        if (
            before
            and (before.code, before.words) == (reason.code, reason.words)
            and (before.days.last + DAY == reason.days.first)
        ):
            days = Period(before.days.first, reason.days.last)
            out[-1] = Reason(reason.code, days, before.pence + reason.pence, reason.words, reason.law)
        else:
            out.append(reason)
    return out
