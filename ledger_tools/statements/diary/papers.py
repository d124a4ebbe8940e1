"""Papers that run out: certificates and reports, licences, registrations, alarms, insurance, whatever `expires`.

The day the paper says counts; where it says none, or a later one than a stored rule, the rule's. Certifies nothing.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from datetime import date, timedelta

from ... import law
from ...book.entries import Entry
from ...book.world import Book
from ...days import day_words, months_after
from ...record import record
from ...verdicts.catalogue import Thing
from ..deposit_rules import nation
from .reminder import Reminder, rule

CHECKS = frozenset({"certified", "inspected", "tested"})
OR_PAID = CHECKS | {"paid"}  # a payment shows that there was one, not its day
ALARMS = frozenset({"smoke alarm", "heat alarm", "co alarm", "fire alarm"})
BILLED = timedelta(days=92)  # how far the payment for a check may be from its day
RENEWED = timedelta(days=62)  # a payment so long before the end of a cover may be for the next
Known = Callable[[str, str], Thing]


@record
class Paper:
    """What a paper is called, the caution to print, and the stem of the topics of law that set how long it holds."""

    called: str
    ask: str
    months: str = ""
    verbs: frozenset[str] = CHECKS
    ends: bool = False  # it always holds for a time, which only the paper itself tells


ALARM = Paper(
    "", "Replace it by then, as its maker says, and follow the leaflet. Which alarms a home needs differs by nation "
    "and licence: ask the council or the fire service.",
)  # fmt: skip
INSURANCE = Paper("", "Renew it before, and tell the insurer what has changed: an empty home, works, another tenant.")
OTHER = Paper("", "Ask whoever made it what the next one must hold, and the council what it wants to see.")

PAPERS = {
    "gas safety": Paper(
        "gas record", "Book an engineer on the Gas Safe register; never touch gas yourself. A service of the boiler is "
        "not the record.", "letting.gas_months", OR_PAID,
    ),
    "electrical safety": Paper(
        "wiring report", "Book a qualified electrician. The report itself may set a sooner day, or the next change of "
        "tenant; the council can tell what it asks for.", "letting.wiring_months", OR_PAID,
    ),
    "epc": Paper(
        "energy certificate", "Ask an accredited assessor. In Scotland certificates follow new rules since "
        "31 Oct 2026; ask the council what holds for one issued before.", "letting.epc_months", OR_PAID,
    ),
    "pat": Paper("appliance test", "Ask a competent tester, who may set a sooner day.", "letting.appliance_months",
                 OR_PAID),
    "legionella": Paper(
        "legionella assessment", "No certificate is asked for in most homes, and no fixed time between looks: "
        "the day is your own. Where in doubt ask someone competent.",
    ),
    "hmo licence": Paper(
        "licence", "Licence rules are the council's own: ask it for this address, and early, for a new one takes time.",
        verbs=frozenset({"granted", "paid"}), ends=True,
    ),
    "landlord registration": Paper(
        "landlord registration", "Ask the register, in Scotland the council; the number may have to stand in adverts.",
        "letting.registration_months", frozenset({"granted", "paid"}),
    ),
    "immigration check": Paper(
        "right-to-rent check", "In England only: look again by then, as GOV.UK tells. Keep no copy of anybody's papers "
        "in this book.",
    ),
    "asbestos survey": Paper("asbestos check", "Leave the material alone meanwhile; ask a competent surveyor."),
    "fire risk assessment": Paper("fire risk assessment", "Ask a competent assessor, and the council or fire service."),
}  # fmt: skip
# The report on the wiring by other names: of what was looked at; of the certificate, where it says how long it holds.
WIRING_LOOKED_AT = frozenset({"inspected", "tested"})
WIRING_TOO = frozenset({"electrical installation certificate", "wiring"})


@record
class _Seen:
    """A line about a paper of a house."""

    day: date
    line: Entry
    head: Entry


def papers(book: Book, known: Known, house: str, on: date) -> Iterator[Reminder]:
    """What runs out of what the book tells up to a day, the last paper of each kind only. `known` is the catalogue."""
    where = nation(book, house)
    for (key, place), seen in sorted(_seen(book, known, house, on).items()):
        seen = _no_payments_of(sorted(seen, key=lambda one: (one.day, one.line.facts.expires or date.max)))
        last = seen[-1]
        if key == "insurance":
            yield from _insurance(house, seen)
        elif key in ALARMS:
            yield from _alarm(house, key, place, last)
        else:
            yield from _paper(PAPERS.get(key, OTHER), key, house, where, seen)
        if key == "gas safety":
            yield from _copy(book, "letting.gas_copy_days", "gas record", house, where, last)
        elif key == "electrical safety":
            yield from _copy(book, "letting.wiring_copy_days", "wiring report", house, where, last)
            yield from _remedy(house, where, last)


def told_papers(book: Book, known: Known, house: str, on: date) -> frozenset[str]:
    """The papers of a house, by the names of the catalogue, of which a line up to a day tells."""
    return frozenset(key for key, _ in _seen(book, known, house, on))


def _seen(book: Book, known: Known, house: str, on: date) -> dict[tuple[str, str], list[_Seen]]:
    found: dict[tuple[str, str], list[_Seen]] = defaultdict(list)
    for head in book.entries:
        for line in (head, *head.lines):
            if head.day.first > on or house not in {home.house for home in line.homes or head.homes}:
                continue
            if line.kind == "plan" or line is head and head.lines and not head.facts.expires:
                continue
            key = _key(known, line)
            if key:
                place = ", ".join(sorted(room.text for room in line.rooms)) if key in ALARMS else ""
                found[key, place].append(_Seen(head.day.first, line, head))
    return found


def _no_payments_of(seen: list[_Seen]) -> list[_Seen]:
    """Lines in order of day without what was paid for a check that a line before or after it tells."""
    checks = [one.day for one in seen if one.line.verb in CHECKS]
    return [
        one for one in seen if one.line.verb != "paid" or not any(abs(one.day - day) <= BILLED for day in checks)
    ]


def _key(known: Known, line: Entry) -> str:
    """What a line is about, where it tells a day on which that runs out or is a check of its own; else nothing."""
    thing = known(line.thing, line.verb).name or line.thing.lower()
    expires = line.facts.expires is not None
    looked_at = thing == "wiring" and line.verb in WIRING_LOOKED_AT
    if looked_at or thing in WIRING_TOO and line.verb in CHECKS and (expires or line.facts.found):
        thing = "electrical safety"
    if thing in ("insurance", "rent guarantee insurance"):
        return thing if line.verb in ("paid", "billed", "invoiced", "charged") else ""
    if thing in ALARMS and line.verb in ("installed", "replaced", "added"):
        return thing
    paper = PAPERS.get(thing)
    if paper and (paper.months or paper.ends) and line.verb in paper.verbs and not line.facts.given_up:
        return thing
    return thing if expires else ""


def _paper(paper: Paper, key: str, house: str, where: str, seen: list[_Seen]) -> Iterator[Reminder]:
    last = seen[-1]
    told = last.line.facts.expires
    held = law.in_nation(paper.months, where, last.day) if paper.months else None
    by_law = _by_law(key, seen, held, where) if held else None
    day = min((one for one in (told, by_law) if one), default=None)
    called = paper.called or last.line.thing
    if day is None:
        if paper.ends:
            said = f"{called} of {day_words(last.day)}: your book does not tell when it runs out"
            ask = (
                f"{paper.ask} Add `expires DATE` to that line: the paper has the day, and what it asks of you besides, "
                "of alarms, fire doors, gas and wiring for instance."
            )
            yield Reminder("paper-untold", last.day, house, key, said, ask, last.day.isoformat(), None,
                           (last.line.source,))  # fmt: skip
        return
    said = f"{called} runs out"
    if told and by_law and by_law < told:
        said += f", though the paper says {day_words(told)}"
    if last.line.verb == "paid" and day != told:
        said += f", if it was made on {day_words(last.day)}, when you paid it (write `certified {key}` on its own day)"
    ruled = rule(held) if held and day == by_law else None
    yield Reminder("paper", day, house, key, said, paper.ask, last.day.isoformat(), ruled, (last.line.source,))


def _by_law(key: str, seen: list[_Seen], held: law.Figure, where: str) -> date:
    if key != "gas safety":
        return months_after(seen[-1].day, held.whole)
    early = law.in_nation("letting.gas_early_months", where, seen[-1].day)
    return next_check(((one.day, one.line.facts.expires) for one in seen), held.whole, early.whole if early else 0)


def next_check(checks: Iterable[tuple[date, date | None]], months: int, early: int) -> date:
    """The day a yearly check runs out after several of them in order, each with the day its paper says, if any.

    A check within the last `early` months keeps the day of the year of the one before (reg. 36A of the gas rules).
    """
    deadline: date | None = None
    for day, told in checks:
        counted = months_after(day, months)
        if deadline and months_after(deadline, -early) <= day <= deadline:
            counted = months_after(deadline, months)
        deadline = min(counted, told) if told else counted
    assert deadline is not None
    return deadline


def _alarm(house: str, key: str, place: str, last: _Seen) -> Iterator[Reminder]:
    until = last.line.facts.expires
    if until:
        said = f"{key} in {place} is to be replaced" if place else f"{key} is to be replaced"
        about = f"{key} {place}".strip()
        yield Reminder("alarm", until, house, about, said, ALARM.ask, last.day.isoformat(), None, (last.line.source,))


def _insurance(house: str, seen: list[_Seen]) -> Iterator[Reminder]:
    """The last day covered by any of the payments; nothing where a later one does not tell its days."""
    ends = {s.line.period.last if s.line.period else s.line.facts.expires: s for s in seen}
    until = max((day for day in ends if day), default=None)
    if until is None or any(s.day > until - RENEWED for s in seen if not s.line.period and not s.line.facts.expires):
        return
    yield Reminder("insurance", until, house, "insurance", "insurance ends", INSURANCE.ask, until.isoformat(), None,
                   (ends[until].line.source,))  # fmt: skip


def let_on(book: Book, house: str, day: date) -> bool:
    """Whether a let of the house ran on a day."""
    lets = (let for let in book.tenancies.values() if let.house == house and let.first_day)
    return any(let.first_day and let.first_day <= day <= (let.last_day or day) for let in lets)


def _copy(book: Book, topic: str, called: str, house: str, where: str, last: _Seen) -> Iterator[Reminder]:
    """The tenant's copy; the book does not tell whether it was given."""
    held = law.in_nation(topic, where, last.day)
    if held and let_on(book, house, last.day):
        day = last.day + timedelta(days=held.whole)
        said = f"a tenant living there must have a copy of the {called} of {day_words(last.day)}"
        ask = "A new tenant needs it before moving in. Keep a note of the day you gave it."
        yield Reminder("copy", day, house, called, said, ask, last.day.isoformat(), rule(held), (last.line.source,),
                       untold=True)  # fmt: skip


def _remedy(house: str, where: str, last: _Seen) -> Iterator[Reminder]:
    """A wiring report that found something unsafe: the day of the inspection is the first day."""
    held = law.in_nation("letting.wiring_remedy_days", where, last.day)
    if held and last.line.facts.found == "unsatisfactory":
        day = last.day + timedelta(days=held.whole - 1)
        said = "what the wiring report found unsafe must be put right, or sooner if it says so"
        ask = "Only a qualified electrician; get it confirmed in writing for the tenant and the council."
        yield Reminder("remedy", day, house, "wiring report", said, ask, last.day.isoformat(), rule(held),
                       (last.line.source,))  # fmt: skip
