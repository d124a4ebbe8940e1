"""What is still to do before a house can be let: room by room, what waits for what, whom to book by when.

Everything done is read from the dated lines of the book, nothing is ticked; the customary order of trades is a habit,
hold points are reminders and permit nothing. Knows no layout.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date, timedelta

from ..book.entries import Entry
from ..book.rooms_told import ROOMS_EVERYWHERE
from ..book.world import Book, Span
from ..days import Period, day_before, months_after
from ..record import record
from ..verdicts.catalogue import Thing
from ..verdicts.history import History
from ..verdicts.trades import Ahead, Step, ahead, asked_early, cautions_of, holds, step_of
from .accounts import Accounts
from .delay import DayCost, day_cost
from .jobs import Event, Job, Works, works
from .leftovers import Left, leftovers
from .prices import prices

OUTSIDE = frozenset({"outside", "garden", "yard"})


@record
class State:
    """How far a job is. name: to do, estimated, quoted, agreed, started, done, kept or called off; day: since when.

    booked are the days a trade is booked for, ordered what is on its way (promised, arrived or not), snags the open
    small faults.
    """

    name: str
    day: date | None
    who: str
    booked: Period | None
    ordered: Entry | None
    promised: date | None
    arrived: date | None
    snags: tuple[Entry, ...]


@record
class Next:
    """A job and what stands before it.

    needs: jobs not done that it needs by its own word, with words for what is on no schedule; usually: such as custom
    puts before it; start_by and book_by: the last days for the target, None where it has none or is done.
    """

    job: Job
    state: State
    step: Step | None
    needs: tuple[str, ...]
    usually: tuple[str, ...]
    start_by: date | None
    book_by: date | None
    early: tuple[Ahead, ...]
    cautions: tuple[str, ...]

    @property
    def done(self) -> bool:
        """Whether nothing of it is left to do."""
        return self.state.name in ("done", "called off", "kept") and not self.state.snags

    @property
    def to_book(self) -> bool:
        """Whether somebody is still to be booked or the goods to be ordered for it."""
        trade = self.job.todo.trade if self.job.todo else ""
        return bool(trade or self.early) and self.state.name in ("to do", "estimated", "quoted", "agreed") \
            and not self.state.booked and not self.state.ordered  # fmt: skip


@record
class Room:
    """The jobs of one room, first things first."""

    name: str
    jobs: tuple[Next, ...]


@record
class Reminder:
    """A hold point: what to look at before going on, where, and what the book tells of it so far."""

    name: str
    says: str
    where: tuple[str, ...]
    told: tuple[str, ...]


@record
class Certificate:
    """A paper to have before letting: the last line that tells of it, and when it runs out."""

    name: str
    entry: Entry | None
    expires: date | None


@record
class Schedule:
    """One schedule on a day. let: the let that ended the works, where it has begun; late: the days past the target;
    untold: jobs not done that tell no time, each counted as one day."""

    house: str
    full: str
    nation: str
    title: str
    on: date
    target: date | None
    let: date | None
    rooms: tuple[Room, ...]
    leasehold: tuple[Ahead, ...]
    reminders: tuple[Reminder, ...]
    certificates: tuple[Certificate, ...]
    cost: DayCost
    late: int
    late_cost: int
    untold: int
    left: tuple[Left, ...]
    cautions: tuple[str, ...]

    @property
    def jobs(self) -> tuple[Next, ...]:
        """Every job, room by room."""
        return tuple(job for room in self.rooms for job in room.jobs)

    @property
    def planned(self) -> tuple[Next, ...]:
        """The jobs of the schedule; what is kept is no job."""
        return tuple(job for job in self.jobs if job.job.planned and job.state.name != "kept")

    @property
    def to_book(self) -> tuple[Next, ...]:
        """Jobs somebody must still be asked for, the earliest day first."""
        found = [job for job in self.planned if job.to_book and not job.done]
        return tuple(sorted(found, key=lambda n: (n.book_by or date.max, n.job.todo.priority if n.job.todo else 9)))


def schedules(book: Book, house: str, on: date) -> tuple[Schedule, ...]:
    """The schedules of a house as the book tells of them up to the end of a day."""
    accounts = Accounts(replace(book, entries=tuple(e for e in book.entries if e.day.first <= on)))
    history = accounts.history
    return tuple(_Planner(accounts, history, found, on).schedule() for found in works(history, house))


class _Planner:
    """One schedule with the order of its jobs."""

    def __init__(self, accounts: Accounts, history: History, found: Works, on: date) -> None:
        self.accounts, self.history, self.works, self.on = accounts, history, found, on
        self.house = accounts.book.properties[found.house]
        self.jobs = [job for job in found.jobs if job.planned or _open_snags(job.lines)]
        self.things = [self._things(job) for job in self.jobs]
        pairs = zip(self.jobs, self.things, strict=True)
        self.steps = [step_of(job.todo.verb, things) if job.todo else None for job, things in pairs]
        self.states = [state(job, on) for job in self.jobs]
        self.needs = [self._needs(job) for job in self.jobs]
        self.before = [self._before(n) for n in range(len(self.jobs))]
        self._latest: dict[int, date] = {}

    def _things(self, job: Job) -> list[Thing]:
        if job.todo is None:
            return []
        names = [thing.name for thing in job.todo.things]
        return [self.history.known(name, verb) for name in names for verb in (job.todo.verb, "")]

    def _done(self, n: int) -> bool:
        return self.states[n].name in ("done", "called off", "kept")

    # ── the order ────────────────────────────────────────────────────────────────────────────────────────────

    def _needs(self, job: Job) -> list[int | str]:
        """The jobs it needs by its own words, in its room first; words for what is on no schedule."""
        found: list[int | str] = []
        for thing in job.todo.needs if job.todo else ():
            named = self.history.catalogue.meanings(thing.name)
            keys = frozenset(known.name for known in named) or {thing.name.lower()}
            fits = [n for n, other in enumerate(self.jobs) if other is not job and not other.keys.isdisjoint(keys)]
            fits.sort(key=lambda n: (self.jobs[n].room != job.room, self.jobs[n].room not in ROOMS_EVERYWHERE))
            found.append(fits[0] if fits else thing.name)
        return found

    def _before(self, n: int) -> list[int]:
        """The jobs that custom puts before one: of an earlier step, in its room or in the whole house."""
        mine = self.steps[n]
        if mine is None:
            return []
        return [
            m for m, step in enumerate(self.steps)
            if step and step.number < mine.number and m not in self.needs[n] and self._near(self.jobs[m], self.jobs[n])
            and not self._leads(n, m)
        ]  # fmt: skip

    @staticmethod
    def _near(one: Job, other: Job) -> bool:
        everywhere = {one.room, other.room} & (ROOMS_EVERYWHERE - OUTSIDE)
        return one.room == other.room or bool(everywhere) and not {one.room, other.room} & OUTSIDE

    def _leads(self, first: int, last: int) -> bool:
        """Whether the words of the schedule put one job before another, by however many steps."""
        seen, todo = set[int](), [last]
        while todo:
            n = todo.pop()
            if n in seen:
                continue
            seen.add(n)
            todo += [m for m in self.needs[n] if isinstance(m, int)]
        return first in seen

    def _must_end(self, n: int) -> date | None:
        """The last day on which a job can end for the target; None without one."""
        target = self.works.schedule.target
        if target is None:
            return None
        if n not in self._latest:
            end = self._latest[n] = target[0] - timedelta(1)  # stands where jobs need each other in a ring
            for m in range(len(self.jobs)):
                if not self._done(m) and (n in self.needs[m] or n in self.before[m]):
                    start = self._must_start(m)
                    end = min(end, start - timedelta(1)) if start else end
            self._latest[n] = end
        return self._latest[n]

    def _must_start(self, n: int) -> date | None:
        end, todo = self._must_end(n), self.jobs[n].todo
        if end is None or todo is None:
            return end
        return back(end, todo.takes) + timedelta(1) if todo.takes else end

    # ── a job ────────────────────────────────────────────────────────────────────────────────────────────────

    def next(self, n: int) -> Next:
        """One job with what stands before it."""
        job, todo = self.jobs[n], self.jobs[n].todo
        done = self._done(n)
        start = None if done or todo is None else self._must_start(n)
        book_by = None
        if start is not None and todo is not None:
            book_by = back(start, todo.ahead) if todo.ahead else start
        needs = [self.jobs[m].words if isinstance(m, int) else f"{m} (on no schedule)"
                 for m in self.needs[n] if not isinstance(m, int) or not self._done(m)]  # fmt: skip
        usually = [self.jobs[m].words for m in self.before[n] if not self._done(m)]
        early = asked_early(todo.verb, self.things[n]) if todo and not done else ()
        cautions = cautions_of(todo.verb, self.things[n]) if todo else ()
        return Next(job, self.states[n], self.steps[n], () if done else tuple(needs), () if done else tuple(usually),
                    start, book_by, early, cautions)  # fmt: skip

    # ── the schedule ─────────────────────────────────────────────────────────────────────────────────────────

    def schedule(self) -> Schedule:
        """Everything."""
        told = self.works.schedule
        found = [self.next(n) for n in range(len(self.jobs))]
        names = list(dict.fromkeys(job.room for job in self.jobs))
        rooms = [Room(name, tuple(sorted((n for n in found if n.job.room == name), key=_order))) for name in names]
        rooms.sort(key=lambda room: (all(n.done for n in room.jobs), min(_order(n) for n in room.jobs)))
        let = self._let()
        until = day_before(let) if let else self.on  # what a day costs is asked as long as days are lost
        cost = day_cost(self.accounts, self.history, told, until)
        target = told.target[0] if told.target else None
        late = max(((let or self.on) - target).days, 0) if target else 0
        left = leftovers(self.history, self.house.name)
        cautions = dict.fromkeys(c for n in found for c in n.cautions)
        cautions.update(dict.fromkeys(one.caution for one in left if one.caution))
        untold = sum(not n.done and n.job.todo is not None and n.job.todo.takes is None for n in found)
        return Schedule(
            self.house.name, self.house.full, self.house.nation, told.title, self.on, target, let, tuple(rooms),
            tuple(a for a in ahead() if a.leasehold and self.house.leasehold), tuple(self._reminders(found)),
            tuple(self._certificates()), cost, late, cost.pence * late, untold, left, tuple(cautions),
        )  # fmt: skip

    def _let(self) -> date | None:
        """The first day of the let after the works, where that has come."""
        during = self.works.during
        if during is None or during.last == date.max:
            return None
        first = during.last + timedelta(1)
        return first if first <= self.on else None

    def _reminders(self, found: list[Next]) -> Iterator[Reminder]:
        """The hold points before a step that is still to come, where the step to look at is on the schedule."""
        for hold in holds():
            if not hold.before:
                continue
            closing = [n for n in found if n.step and n.step.name == hold.before and not n.done]
            hidden = [n for n in found if n.step and n.step.name == hold.after]
            pairs = [(a, b) for a in hidden for b in closing if self._near(a.job, b.job)]
            if pairs:
                jobs = list({id(a): a for a, _ in pairs}.values())
                told = tuple(f"{n.job.words}: {_pictures(n.job)}" for n in jobs)
                yield Reminder(hold.name, hold.says, tuple(dict.fromkeys(b.job.room for _, b in pairs)), told)

    def _certificates(self) -> Iterator[Certificate]:
        """What is usually wanted before a let, and what the book holds of it. Which of them the law wants differs by
        nation; gas only where the book tells of gas."""
        lines = [line for entry in self.accounts.book.entries for line in entry.lines or (entry,)
                 if line.kind == "works" and self.house.name in {s.house for s in line.homes}]  # fmt: skip
        things = [(line, self.history.known(thing.name, line.verb)) for line in lines for thing in line.things]
        planned = [thing for things in self.things for thing in things]
        has_gas = any(thing.caution == "gas" for _, thing in things) or any(t.caution == "gas" for t in planned)
        wanted = [("wiring", {"electrical safety", "electrical installation certificate"}), ("energy", {"epc"})]
        wanted = [("gas", {"gas safety"}), *wanted] if has_gas else wanted
        for name, names in wanted:
            held = [line for line, thing in things if thing.name in names and line.verb == "certified"]
            last = held[-1] if held else None
            yield Certificate(name, last, last.facts.expires if last else None)
        alarms = [line for line, thing in things if "alarm" in thing.name and line.verb in ("tested", "installed")]
        yield Certificate("alarms", alarms[-1] if alarms else None, None)


def _order(n: Next) -> tuple[bool, int, int]:
    return n.done, n.job.todo.priority if n.job.todo else 0, n.step.number if n.step else 99


def _pictures(job: Job) -> str:
    count = sum(proof.kind in ("photo", "before", "after") for e in job.lines for proof in e.entry.facts.proofs)
    return f"{count} {'photograph' if count == 1 else 'photographs'}" if count else "no photograph noted"


def _open_snags(lines: Iterable[Event]) -> tuple[Entry, ...]:
    """The small faults that nobody has cured yet, each by the thing it is of."""
    found: list[Entry] = []
    for event in lines:
        if event.verb == "snagged":
            found.append(event.entry)
        elif event.verb == "cured":
            found = [snag for snag in found if snag.thing.lower() != event.entry.thing.lower()]
    return tuple(found)


def state(job: Job, on: date) -> State:
    """How far a job is at the end of a day, by its own lines."""
    booked = ordered = promised = arrived = None
    name, day, who = "to do", None, ""
    for event in job.lines:
        line = event.entry
        if line.kind == "booking":
            booked, who = line.period, line.who.full if line.who else who
        elif line.verb in ("ordered", "bought") and job.planned:
            dates = dict(line.facts.plan_dates)
            ordered, promised = line, dates.get("promised")
            arrived = dates.get("arrived") or (line.day.first if line.verb == "bought" else None)
            arrived = arrived if arrived and arrived <= on else None
        elif line.verb == "cancelled" and line.paper and line.paper.kind == "order":
            ordered = promised = arrived = None
        elif line.verb in ("estimated", "quoted", "agreed", "started") and _further(name, line.verb):
            name, day, who = line.verb, line.day.first, line.who.full if line.who else who
    asked = prices(job)
    if name in ("quoted", "agreed", "estimated"):
        name = asked.best[1] if asked.best[1] in ("quoted", "agreed", "estimated") else "to do"
    did = list(job.doing())
    if job.is_done():
        ends = [e.day for e in job.lines if e.verb == "finished"] or [e.day for e in did]
        name, day = "done", ends[-1]
    elif did:
        name, day = "started", did[0].day
    elif asked.called_off:
        name = "called off"
    elif job.todo and job.todo.verb == "keep":
        name = "kept"
    return State(name, day, who, booked, ordered, promised, arrived, _open_snags(job.lines))


def _further(name: str, other: str) -> bool:
    order = ("to do", "estimated", "quoted", "agreed", "started")
    return order.index(other) >= order.index(name)


def back(day: date, span: Span) -> date:
    """The day so long before another; a part of a day, week or month counts as a whole one."""
    number = -(-span.number.numerator // span.number.denominator)
    if span.unit in ("day", "week"):
        return day - timedelta(number * (7 if span.unit == "week" else 1))
    return months_after(day, -number * (12 if span.unit == "year" else 1))
