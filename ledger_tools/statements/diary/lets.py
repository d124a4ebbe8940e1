"""Dates of the lets of a house: deposits, alarm tests, terms and notices, damp that was reported, a higher rent.

By nation and by the rule as held; certifies nothing and serves no notice.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date, timedelta

from ... import law
from ...book.deposits import deposit_account
from ...book.entries import Entry
from ...book.rents import next_period
from ...book.world import Book, Tenancy
from ...days import day_words, months_after
from ...money import pounds
from ...record import record
from ...verdicts.catalogue import Thing
from ..deposit_rules import nation, protect_by, working_days_after
from .papers import ALARMS, CHECKS
from .reminder import Reminder, rule

Known = Callable[[str, str], Thing]
FORGOTTEN = timedelta(days=366)  # a first day longer ago is past mending
DAMP = frozenset({"damp", "damp proof course", "mould"})


@record
class About:
    """What the dates are about: one let of a house in a nation, on a day."""

    book: Book
    known: Known
    let: Tenancy
    where: str
    on: date

    @property
    def source(self) -> tuple[str, ...]:
        """Where the let is told."""
        return (self.let.place.short,)

    @property
    def first(self) -> date:
        """The first day of the let, which it has."""
        assert self.let.first_day is not None
        return self.let.first_day

    @property
    def over(self) -> bool:
        """Whether the let had ended by the day."""
        return self.let.last_day is not None and self.let.last_day < self.on

    @property
    def a_home(self) -> bool:
        """Whether it is a home or a room of one that is let, and no garage or mooring."""
        if not self.let.room:
            return True
        room = self.let.room.lower().rstrip("0123456789 ")  # room 1 is a room
        thing = self.known(room, "")
        return thing.room and thing.nature not in ("outbuilding", "garden") or room.endswith("room")

    def remind(self, kind: str, day: date, what: str, ask: str, begun: date | str, held: law.Dated | None = None,
               untold: bool = False, may: bool = False) -> Reminder:  # fmt: skip
        """A reminder about this let."""
        said = begun.isoformat() if isinstance(begun, date) else begun
        return Reminder(kind, day, self.let.house, self.let.name, f"{self.let.name}: {what}", ask, said,
                        rule(held) if held else None, self.source, untold, may)  # fmt: skip


def lets(book: Book, known: Known, house: str, on: date) -> Iterator[Reminder]:
    """The dates of every let of a house, then of damp reported in it."""
    where = nation(book, house)
    for let in book.tenancies.values():
        if let.house == house and let.first_day:
            about = About(book, known, let, where, on)
            yield from _deposit(about)
            if not about.over:
                yield from _alarm_test(about)
                yield from _ends(about)
                yield from _rent_rise(about)
    yield from _damp(book, known, house, where, on)


# ── deposits ─────────────────────────────────────────────────────────────────────────────────────────────────────

SCHEME = "Ask the scheme what it takes; a deposit that is late can cost more than it holds."


def _deposit(a: About) -> Iterator[Reminder]:
    account = deposit_account(a.book, a.let, a.on)
    if account.told is None or account.received_on is None or account.held <= 0 or a.over:
        return
    by = protect_by(account, a.where)
    if by and not (account.told.protected and account.told.protected <= a.on):
        yield a.remind("deposit", by[0], f"protect the deposit of {pounds(account.told.amount)}", SCHEME,
                       account.received_on, by[1])  # fmt: skip
    held = law.in_nation("letting.deposit_papers_days", a.where, account.received_on)
    if held and not (account.told.informed and account.told.informed <= a.on):
        day = account.received_on + timedelta(days=held.whole - 1)
        ask = f"{SCHEME} Once given, add `, information given DATE` to the deposit line under tenancy {a.let.name}."
        said = "give the tenant the information about the deposit that the rules prescribe"
        yield a.remind("deposit-papers", day, said, ask, account.received_on, held)


# ── the first day, the last day ──────────────────────────────────────────────────────────────────────────────────


def _alarm_test(a: About) -> Iterator[Reminder]:
    """The test of the alarms on the first day of a new let; told as done by a `tested` line of that day or later."""
    first = a.let.first_day
    assert first is not None
    held = law.in_nation("letting.alarm_test_days", a.where, first)
    if not held or not a.a_home or a.on > first + FORGOTTEN:
        return
    lines = [(line, day) for line, day in _lines(a.book, a.let.house, a.on) if line.verb in CHECKS]
    tests = [day for line, day in lines if a.known(line.thing, line.verb).name in ALARMS]
    if not any(day >= first for day in tests):
        said = "test the smoke and carbon monoxide alarms on the first day of the let, and note day, room and result"
        if first < a.on:
            said = "your book tells no test of the alarms on the first day of the let: test them now and note it"
        ask = "Which alarms a home needs differs by nation and licence: ask the council or the fire service."
        yield a.remind("alarm-test", first + timedelta(days=held.whole), said, ask, first, held)


def _ends(a: About) -> Iterator[Reminder]:
    let = a.let
    if let.last_day is not None:
        ask = "Read the meters, compare with the inventory, tell council, insurer and scheme. Ask a registered adviser."
        yield a.remind("ends", let.last_day, "the let ends", ask, let.last_day)
        return
    notice = max((n for n in let.notices if n[0] <= a.on), default=None)
    if notice:
        yield from _notice(a, *notice)
    elif let.term and (let.periodic is None or let.periodic > a.on):
        yield _term(a, let.term.last)


def _notice(a: About, given: date, by: str) -> Iterator[Reminder]:
    """A notice whose end the book does not tell: a tenant's runs for the time a rule sets, another for one not held."""
    held = law.in_nation("letting.tenant_notice_months", a.where, given) if by == "tenant" else None
    ask = "Whether a notice holds is for a registered adviser or a court. Add `ended DATE` when the day is sure."
    if held:
        day, said = months_after(given, held.whole), f"the tenant's notice of {day_words(given)} runs out"
    else:
        day, said = a.on, f"notice was given by the {by} on {day_words(given)}, and your book tells no last day"
    yield a.remind("notice", day, said, ask, given, held, may=held is None)


def _term(a: About, last: date) -> Reminder:
    held = law.in_nation("letting.fixed_term_months", a.where, last)
    said, ask = "the fixed term ends", "Say early what comes after it; ask a registered adviser before any notice."
    if held:
        said = "the fixed term told ends, though ordinary lets have none any more and roll on by the period"
    return a.remind("term", last, said, ask, last, held, untold=True)  # past it the let rolls on


# ── a higher rent ────────────────────────────────────────────────────────────────────────────────────────────────

RISE = "Look at the form and the rules of the day on GOV.UK, or ask a registered adviser, before you tell anybody."


def _rent_rise(a: About) -> Iterator[Reminder]:
    """A rise told for the future that starts too early; else the day to give notice for the earliest one."""
    rents = sorted(a.let.rents, key=lambda rent: rent.since or date.min)
    if not rents or not a.a_home:
        return
    later = [rent for rent in rents if rent.since and rent.since > a.on]
    before = [rent.since for rent in rents[1:] if rent.since and rent.since <= a.on]
    last = max([*before, *([a.let.first_day] if a.let.first_day else [])])
    if later and later[0].since:
        given, begins = later[0].notice or a.on, later[0].since
        found = earliest_rise(a.let, last, given, a.where, begins)
        if found and begins < found[0]:
            said = f"the new rent of {pounds(later[0].amount)} begins, by the stored rule not before "
            yield a.remind("rise-early", begins, said + day_words(found[0]), RISE, begins, found[1])
        return
    found = earliest_rise(a.let, last, a.on, a.where, a.on)
    notices = [day for day, _ in a.let.notices if day <= a.on]
    if found and not notices and a.let.last_day is None:
        start, held = found
        notice = law.in_nation("letting.rent_rise_notice_months", a.where, a.on)
        by = max(months_after(start, -notice.whole) if notice else start, a.on)
        said = f"the last day to tell of a higher rent from {day_words(start)}, by your notes the earliest day for one"
        yield a.remind("rise", by, said, RISE, start, held, may=True)


def earliest_rise(
    let: Tenancy, last: date, given: date, where: str, on: date
) -> tuple[date, law.Figure] | None:  # fmt: skip
    """The first day on which a rent could be higher, and its rule; None where no rule is held for the nation and day.

    last: the first day of the present rent, or of the let; given: the day the tenant is told. So many weeks after the
    one, so many months after the other, and then the next first day of a period of rent.
    """
    weeks = law.in_nation("letting.rent_rise_weeks", where, on)
    months = law.in_nation("letting.rent_rise_notice_months", where, on)
    if not weeks or not months:
        return None
    free = max(last + timedelta(weeks=weeks.whole), months_after(given, months.whole))
    start = next_period(let, free)
    return (start, weeks) if start else None


# ── damp ─────────────────────────────────────────────────────────────────────────────────────────────────────────


def _damp(book: Book, known: Known, house: str, where: str, on: date) -> Iterator[Reminder]:
    """Three clocks of one report: the look at it, the summary for the tenant, the beginning of the work."""
    lines = list(_lines(book, house, on))
    damp = [(line, day) for line, day in lines if known(line.thing, line.verb).name in DAMP or "damp" in line.thing]
    told = [day for line, day in lines if line.verb == "told" and line.who and line.who.name in book.tenancies]
    for line, day in damp:
        looks = [seen for other, seen in damp if other.verb in ("inspected", "tested") and seen >= day]
        works = [seen for other, seen in damp if other.verb in WORK and seen >= day]
        if line.verb != "reported":
            continue
        if not looks:
            yield from _clock(house, where, line, day, "inspect", "look into", day)
        else:
            look = min(looks)
            if not any(seen >= look for seen in told):
                yield from _clock(house, where, line, look, "summary", "give the tenant a written summary of", day)
            if not works:
                yield from _clock(house, where, line, look, "start", "begin what safety needs against", day)


WORK = frozenset({"started", "treated", "repaired", "replaced", "finished", "cured"})


def _clock(
    house: str, where: str, line: Entry, start: date, step: str, do: str, begun: date
) -> Iterator[Reminder]:  # fmt: skip
    held = law.in_nation(f"letting.damp_{step}_working_days", where, start)
    if held:
        said = f"{do} the {line.thing} reported on {day_words(begun)}"
        ask = (
            "Ask someone competent to look; bank holidays are not left out here. The council can tell what it expects."
        )
        yield Reminder("damp", working_days_after(start, held.whole), house, f"{line.thing} {step}", said, ask,
                       begun.isoformat(), rule(held), (line.source,))  # fmt: skip


def _lines(book: Book, house: str, on: date) -> Iterator[tuple[Entry, date]]:
    """The lines of a house up to a day."""
    for head in book.entries:
        for line in (head, *head.lines):
            if head.day.first <= on and house in {home.house for home in line.homes or head.homes}:
                yield line, head.day.first
