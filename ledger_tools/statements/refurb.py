"""What works on a house were to cost, have cost and will have cost, job by job; and what else the house cost meanwhile.

Sums are grouped from the rows of the ledger, each at one place: with its job, with the purchase, or with the waiting.
Knows nothing of layout.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from datetime import date
from fractions import Fraction

from ..book.entries import Entry
from ..book.world import Book
from ..days import Period
from ..ledger.rows import Row
from ..money import round_half_up, share
from ..record import record
from ..verdicts.verdict import ALLOWED, Cgt, Kind
from .accounts import Accounts
from .figures import Figure, Trace, figure, together, words
from .jobs import LEFT, NOWHERE, Job, Works, works
from .prices import Prices, prices

NOW, SALE, NOTHING, OPEN, WAITING = "now", "at-sale", "nothing", "open", "waiting"
TAX = {
    NOW: "comes off the rents",
    SALE: "counts when the house is sold",
    NOTHING: "counts nowhere",
    OPEN: "open",
    WAITING: "comes off once the letting begins",
}
OWN, NO_TRADE = "own labour", "no trade told"
NICE = 5  # the priority of what is only nice to have: no money for surprises goes on it (common practice, no source)
ALLOWANCES = (10, 15, 20)  # per cent customary for surprises, to choose from: common practice, no source


@record
class JobMoney:
    """A job in pence. billed: what it cost so far; back: what came back for it; resale: what its old things brought.

    paid: of the bills; ahead: paid towards no bill yet; retained: held back of what is unpaid; owed: unpaid beside
    that. forecast: what it will have cost, from `basis`. hours: of own labour, as far as noted, never a cost.
    """

    job: Job
    trade: str
    done: bool
    prices: Prices
    billed: Figure
    back: Figure
    resale: Figure
    paid: int
    ahead: int
    retained: int
    owed: int
    forecast: int
    basis: str
    hours: Fraction

    @property
    def room(self) -> str:
        """Where."""
        return self.job.room

    @property
    def more(self) -> int | None:
        """The forecast less the rough figure; None where nothing was planned."""
        return None if self.prices.rough is None else self.forecast - self.prices.rough

    @property
    def percent(self) -> int | None:
        """The same in whole per cent of the rough figure."""
        return round_half_up(Fraction(100 * self.more, self.prices.rough)) if self.prices.rough and self.more else None


@record
class Group:
    """Jobs of one room or trade added up, in pence. planned: the forecast of what was planned, unplanned: of the rest.

    more: the forecast less the rough figures; percent: the same in whole per cent, None where nothing was planned.
    """

    name: str
    jobs: tuple[JobMoney, ...]
    rough: int
    agreed: int
    billed: int
    paid: int
    retained: int
    forecast: int
    unplanned: int
    more: int
    percent: int | None


@record
class Contingency:
    """Money for surprises: told is None where the book sets none aside; then `choices` are sums by per cent.

    nice: of what was drawn, what went on rooms in which the schedule plans only what is nice to have.
    """

    told: int | None
    drawn: Figure
    left: int
    choices: tuple[tuple[int, int], ...]
    nice: Figure


@record
class Refurb:
    """The control of one schedule on a day.

    whole: everything the house took so far (`buying`, works less what came back, `waiting`); whole_forecast: the same
    with the works as they will have cost. tax: the works so far by what the return sees of them, and their sum.
    miles: driven in that time; mileage: what the return allows for them, in pence, no part of the sums above.
    """

    house: str
    full: str
    title: str
    on: date
    during: Period | None
    rooms: tuple[Group, ...]
    trades: tuple[Group, ...]
    total: Group
    back: Figure
    resale: Figure
    net: int
    net_forecast: int
    contingency: Contingency
    buying: Figure
    waiting: Figure
    whole: int
    whole_forecast: int
    tax: tuple[Figure, ...]
    hours: Fraction
    miles: Fraction
    mileage: int

    @property
    def jobs(self) -> tuple[JobMoney, ...]:
        """Every job once."""
        return self.total.jobs

    @property
    def open_jobs(self) -> int:
        """How many jobs of the schedule are not done."""
        return sum(j.job.planned and not j.done and not j.prices.called_off for j in self.jobs)

    @property
    def planned_jobs(self) -> int:
        """How many jobs stand on the schedule."""
        return sum(j.job.planned for j in self.jobs)

    @property
    def unplanned(self) -> int:
        """What work nobody planned has cost so far."""
        return sum(j.billed.pence for j in self.jobs if not j.job.planned)

    @property
    def owed(self) -> int:
        """What is billed and not paid, beside what is held back."""
        return sum(j.owed for j in self.jobs)

    @property
    def ahead(self) -> int:
        """What is paid towards no bill yet."""
        return sum(j.ahead for j in self.jobs)

    @property
    def short(self) -> tuple[JobMoney, ...]:
        """Jobs that are done, of which less is billed than was agreed."""
        return tuple(j for j in self.jobs if j.done and j.billed.trail and j.billed.pence < (j.prices.committed or 0))


def refurb(book: Book, house: str, on: date) -> tuple[Refurb, ...]:
    """The schedules of a house, each with its money, as the book tells it up to the end of a day."""
    accounts = Accounts(replace(book, entries=tuple(e for e in book.entries if e.day.first <= on)))
    return tuple(_Sums(accounts, found, on).refurb() for found in works(accounts.history, house))


class _Sums:
    """The rows of one house sorted into the jobs of one schedule."""

    def __init__(self, accounts: Accounts, found: Works, on: date) -> None:
        self.accounts, self.works, self.on = accounts, found, on
        self.book = accounts.book
        self.rows = [r for r in accounts.rows if r.house == found.house]
        self.of_line = found.of_line()
        self.sources = {e.entry.source: n for n, job in enumerate(found.jobs) for e in job.lines if e.counts}
        self.by_job: dict[int, list[Row]] = defaultdict(list)
        self.rest: list[Row] = []
        for row in self.rows:
            n = self._job(row)
            (self.rest if n is None else self.by_job[n]).append(row)

    def _line(self, row: Row) -> Entry | None:
        return self.accounts.verdicts[row.verdict].item.line if row.verdict >= 0 else None

    def _job(self, row: Row) -> int | None:
        """The job a row belongs to. What an old item brought stands on the line of its job; a payment by its paper."""
        line = self._line(row)
        if line is not None:
            return self.of_line.get(id(line))
        if row.account == "paid ahead" or row.thing.startswith("old "):
            return self.sources.get(row.source)
        return None

    # ── a job ────────────────────────────────────────────────────────────────────────────────────────────────

    def money(self, n: int, job: Job) -> JobMoney:
        """One job."""
        rows = self.by_job[n]
        costs = [r for r in rows if r.way == "out" and r.account != "paid ahead"]
        resale = [r for r in rows if r.way == "in" and _is_resale(r)]
        back = [r for r in rows if r.way == "in" and not _is_resale(r)]
        billed = _listed("billed", "Billed", costs)
        asked = prices(job)
        done = job.is_done()
        forecast, basis = _forecast(asked, billed.pence, done)
        paid = sum(r.pence for r in costs if r.paid is not None and r.paid <= self.on)
        retained = sum(self._retained(row) for row in costs if not self._is_paid(row))
        return JobMoney(
            job, self._trade(job), done, asked, billed, _listed("back", "Came back", back),
            _listed("resale", "Resale and scrap", resale), paid,
            sum(r.pence for r in rows if r.account == "paid ahead"), retained,
            billed.pence - paid - retained, forecast, basis,
            sum((e.entry.facts.hours or Fraction(0) for e in job.lines if e.counts), Fraction(0)),
        )  # fmt: skip

    def _is_paid(self, row: Row) -> bool:
        return row.paid is not None and row.paid <= self.on

    def _retained(self, row: Row) -> int:
        """The part of an unpaid row that is held back: the retention of its bill, over what is unpaid of the bill."""
        head = self.accounts.verdicts[row.verdict].item.head
        if head.facts.retention is None:
            return 0
        unpaid = [r for r in self.accounts.rows if r.verdict >= 0 and not self._is_paid(r)
                  and self.accounts.verdicts[r.verdict].item.head is head]  # fmt: skip
        held = min(head.facts.retention.of(head.total), sum(r.pence for r in unpaid))
        parts = share(held, [r.pence for r in unpaid])
        return next(part for r, part in zip(unpaid, parts, strict=True) if r is row)

    def _trade(self, job: Job) -> str:
        """Whose work: as the schedule says, else the trade of the firm, else own labour."""
        if job.todo and job.todo.trade:
            return job.todo.trade
        parties = self.book.parties
        for event in job.lines:
            who = event.entry.who or event.head.who
            if event.counts and who and who.name in parties and parties[who.name].trade:
                return parties[who.name].trade
        own = job.todo is not None and "own labour" in job.todo.facts
        return OWN if own or any(e.entry.facts.own_labour for e in job.lines) else NO_TRADE

    # ── the house ────────────────────────────────────────────────────────────────────────────────────────────

    def refurb(self) -> Refurb:
        """Everything."""
        jobs = [self.money(n, job) for n, job in enumerate(self.works.jobs)]
        jobs = [j for j in jobs if j.job.planned or _has_money(j)]
        total = _group("", jobs)
        back = _sum("back", "Came back", (j.back for j in jobs))
        resale = _sum("resale", "Resale and scrap", (j.resale for j in jobs))
        buying = _listed("buying", "What buying it cost", self._buying())
        waiting = self._waiting()
        beside = buying.pence + waiting.pence
        net, ahead = total.billed - back.pence - resale.pence, total.forecast - back.pence - resale.pence
        trips = [(v.item.line, n) for n, v in enumerate(self.accounts.verdicts) if v.item.line.kind == "trip"]
        mine = [(line, n) for line, n in trips if self._is_mine(line)]
        numbers = {n for _, n in mine}
        return Refurb(
            self.works.house, self.book.properties[self.works.house].full, self.works.schedule.title, self.on,
            self.works.during, _groups(jobs, lambda j: j.room), _groups(jobs, lambda j: j.trade), total, back, resale,
            net, ahead, self._contingency(total), buying, waiting, beside + net, beside + ahead, self._tax(),
            sum((j.hours for j in jobs), Fraction(0)),
            sum((self._miles(line) for line, _ in mine), Fraction(0)),
            sum(r.pence for r in self.rows if r.verdict in numbers),
        )  # fmt: skip

    def _is_mine(self, line: Entry) -> bool:
        """Whether a line that is no job belongs to this schedule: by its word, else by its day."""
        if line.facts.part_of:
            return line.facts.part_of.lower() == self.works.schedule.title.lower()
        return self.works.during is not None and line.day.first in self.works.during

    def _miles(self, line: Entry) -> Fraction:
        here = sum((s.fraction for s in line.homes if s.house == self.works.house), Fraction(0))
        return (line.miles or Fraction(0)) * here

    def _first_works(self) -> bool:
        """Whether these are the works after the purchase, so that what buying it cost belongs beside them."""
        got, during = self.book.properties[self.works.house].got, self.works.during
        return got is not None and during is not None and during.first <= got.day <= during.last

    def _buying(self) -> Iterator[Row]:
        if not self._first_works():
            return
        during = self.works.during
        assert during is not None
        for row in self.rest:
            line = self._line(row)
            price = row.verdict < 0 and row.account == "purchase"
            cost = line is not None and row.cgt is Cgt.ACQUISITION and row.owed is not None and row.owed <= during.last
            if row.owed is not None and row.owed <= self.on and (price or cost and row.way == "out"):
                yield row

    def _waiting(self) -> Figure:
        """What else the house cost in the time of the works; what is for days, for the days in that time."""
        buying = {id(row) for row in self._buying()}
        traces = []
        during = self.works.during
        until = min(self.on, during.last) if during else self.on
        for row in self.rest:
            line = self._line(row)
            if during is None or line is None or id(row) in buying or line.kind == "trip":
                continue
            waits = row.kind in ALLOWED or row.kind in (Kind.PENDING, Kind.ARGUABLE, Kind.NETS, Kind.NO_RELIEF)
            if not waits or row.owed is None or row.way == "in" and row.kind is not Kind.NETS:
                continue
            pence = _in_days(row.pence, line.period, Period(during.first, until), row.owed)
            if pence:
                signed = pence if row.way == "out" else -pence
                traces.append(Trace(row.source, row.owed, words(row), signed, row.verdict))
        return figure("waiting", "What it cost meanwhile", sorted(together(traces), key=lambda t: t.day))

    def _contingency(self, total: Group) -> Contingency:
        schedule = self.works.schedule
        told = schedule.contingency
        if told is None and schedule.contingency_percent is not None:
            told = round_half_up(total.rough * schedule.contingency_percent)
        drew = [e for e in self.book.entries if e.verb == "drew" and self._is_mine(e)
                and self.works.house in {s.house for s in e.homes}]  # fmt: skip
        traces = [Trace(e.source, e.day.first, "; ".join(e.facts.because) or e.note or "no reason told", e.total, -1)
                  for e in drew]  # fmt: skip
        drawn = figure("drawn", "Drawn from the contingency", traces)
        nice = [trace for trace, e in zip(traces, drew, strict=True) if self._only_nice(e)]
        choices = tuple((p, round_half_up(Fraction(total.rough * p, 100))) for p in ALLOWANCES) if told is None else ()
        return Contingency(told, drawn, (told or 0) - drawn.pence, choices, figure("nice", "On what is nice", nice))

    def _only_nice(self, drew: Entry) -> bool:
        """Whether all that is planned for the rooms of a line is only nice to have."""
        rooms = {room.text.lower() for room in drew.rooms}
        here = [job.todo.priority for job in self.works.jobs if job.todo and job.room in rooms]
        return bool(here) and min(here) >= NICE

    def _tax(self) -> tuple[Figure, ...]:
        """The works so far, less what came back for them, by what the return sees of them."""
        found: dict[str, list[Row]] = {slug: [] for slug in TAX}
        for rows in self.by_job.values():
            for row in rows:
                off_a_cost = row.kind is Kind.NETS or not _is_resale(row)  # scrap comes off the work it came from
                if row.owed is not None and row.account != "paid ahead" and off_a_cost:
                    found[_seen(row)].append(row)
        return tuple(_listed(slug, label, found[slug]) for slug, label in TAX.items())


def _is_resale(row: Row) -> bool:
    return row.way == "in" and (row.verb in LEFT or row.verdict < 0)


def _seen(row: Row) -> str:
    """What the return sees of a row. Money back goes where its cost went."""
    if row.kind is Kind.ARGUABLE:
        return OPEN
    if row.kind is Kind.PENDING:
        return WAITING
    if row.kind in ALLOWED or row.kind is Kind.NETS and row.category:
        return NOW
    return SALE if row.cgt is not Cgt.NONE else NOTHING


def _forecast(asked: Prices, billed: int, done: bool) -> tuple[int, str]:
    """What a job will have cost, and from what: the bills once it is done, else the best figure, at least the bills."""
    if done and billed:
        return billed, "billed"
    best, word = asked.best
    if asked.called_off:
        return billed, "called off"
    if done:
        return (best, "agreed, not billed yet") if asked.agreed is not None else (0, "done, no sum told")
    return (billed, "billed so far") if billed >= best and billed else (best, word)


def _in_days(pence: int, period: Period | None, during: Period, owed: date) -> int:
    """The part of a sum for days that falls into a time; a sum for no days counts on its own day."""
    if period is None:
        return pence if owed in during else 0
    inside = period.overlap(during)
    if inside is None:
        return 0
    return share(pence, [inside.days, period.days - inside.days])[0] if inside.days < period.days else pence


def _listed(slug: str, label: str, rows: Iterable[Row]) -> Figure:
    """Rows as one line of the book each, on the day it was owed. In a figure of costs what came in comes off."""
    rows = [r for r in rows if r.owed is not None]
    income = slug in ("back", "resale")
    traces = (
        Trace(r.source, r.owed, words(r), r.pence if (r.way == "out") is not income else -r.pence, r.verdict)
        for r in rows
        if r.owed is not None
    )
    return figure(slug, label, sorted(together(traces), key=lambda t: t.day))


def _sum(slug: str, label: str, figures: Iterable[Figure]) -> Figure:
    return figure(slug, label, sorted((t for f in figures for t in f.trail), key=lambda t: t.day))


def _has_money(j: JobMoney) -> bool:
    told = (j.billed.trail, j.back.trail, j.resale.trail, j.ahead, j.prices.agreed, j.prices.quote, j.prices.estimate)
    return any(told) or bool(j.hours)


def _group(name: str, jobs: Sequence[JobMoney]) -> Group:
    rough = sum(j.prices.rough or 0 for j in jobs)
    forecast = sum(j.forecast for j in jobs)
    more = forecast - rough
    return Group(
        name, tuple(jobs), rough, sum(j.prices.committed or 0 for j in jobs), sum(j.billed.pence for j in jobs),
        sum(j.paid for j in jobs), sum(j.retained for j in jobs), forecast,
        sum(j.forecast for j in jobs if not j.job.planned), more,
        round_half_up(Fraction(100 * more, rough)) if rough else None,
    )  # fmt: skip


def _groups(jobs: Sequence[JobMoney], name: Callable[[JobMoney], str]) -> tuple[Group, ...]:
    """Jobs by room or trade, in the order in which the schedule names them."""
    found: dict[str, list[JobMoney]] = {}
    for j in jobs:
        found.setdefault(name(j), []).append(j)
    order = sorted(found, key=lambda n: n in (NOWHERE, NO_TRADE))
    return tuple(_group(n, found[n]) for n in order)
