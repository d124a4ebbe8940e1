"""Which lines of a book belong to which job of a schedule of works.

Each line has one place, the first of these that fits; so no sum is counted twice and none is lost:

1. `part of "…"` says to which schedule it belongs; another schedule of the house cannot have it.
2. Its thing and its room: the job of that room with the same thing (as the catalogue names it). A job in the whole
   house takes the thing from any room; a line that tells no room goes to the job with its thing that is not done yet.
   Once the house is let, a job takes only the line that does it at last, and what is told of its small faults: the next
   boiler is another job.
3. Its paper: a line against a quote, an order or an invoice goes where that paper went.
4. What it serves: `goes with`, `making good after`, `making way for`, or `for` behind money that came back.
5. Else, in the time of the works, it is unplanned: a job of its own by thing and room. So is a payment for what serves
   works, such as labour.

The time of the works runs from the purchase, or the end of the let before, to the day before the let that was aimed at;
prices asked, agreed and booked count from half a year before it.
A line of two things has its money where the first of them belongs. Knows no money but by the lines, and no layout.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date, timedelta
from fractions import Fraction

from ..book.entries import Entry, Thing
from ..book.items import credits, same_party, settles
from ..book.rooms_told import ROOMS_EVERYWHERE
from ..book.world import Book, Schedule, Tenancy, Todo
from ..days import Period, day_before, months_after
from ..record import record
from ..verdicts.history import History

# What of the dated verbs is the doing of a job of the schedule; each of the making verbs answers for the others.
MAKING = frozenset("repaired replaced installed added moved altered extended converted rebuilt treated".split())
DONE = {
    **dict.fromkeys("repair replace install add move alter extend convert rebuild treat".split(), MAKING),
    "remove": frozenset("removed replaced scrapped sold cleared".split()) | {"took home"},
    "clear": frozenset("cleared removed".split()),
    "clean": frozenset({"cleaned"}),
    "decorate": frozenset({"decorated"}),
    "service": frozenset({"serviced"}),
    "inspect": frozenset("inspected tested certified".split()),
    "test": frozenset("tested certified".split()),
    "certify": frozenset({"certified"}),
    "keep": frozenset[str](),
    "sell": frozenset({"sold"}),
    "scrap": frozenset("scrapped removed cleared".split()),
}
# What these are done to may be named as the room itself: decorated lounge.
OF_ROOMS = frozenset("decorated cleaned cleared".split())
PAPERS = {"estimated": "quote", "quoted": "quote", "agreed": "quote", "ordered": "order"}
LEFT = frozenset({"sold", "scrapped", "took home"})
COMES_IN = frozenset({"received", "kept", "banked"})
NOWHERE = "no room told"
EARLY = timedelta(183)  # so long before the works begin prices may have been asked for: ours, no source


@record
class Event:
    """A line about a job. counts: whether its money belongs to this job; a line of two things counts once.

    keys: the things it is about, nothing where it is about the whole room.
    """

    entry: Entry
    head: Entry
    counts: bool
    keys: frozenset[str] = frozenset()

    @property
    def day(self) -> date:
        """Its day; the first of a month where no more is told."""
        return self.entry.day.first

    @property
    def verb(self) -> str:
        """What happened."""
        return self.entry.verb


@dataclass(slots=True)
class Job:
    """A job of the schedule (then `todo` tells it), or work nobody planned; with its lines in their order."""

    room: str
    words: str  # "replace boiler", "floorboards"
    things: tuple[frozenset[str], ...]  # of each of its things, what lines about the same share
    todo: Todo | None = None
    lines: list[Event] = field(default_factory=list)

    @property
    def planned(self) -> bool:
        """Whether it stands on the schedule."""
        return self.todo is not None

    @property
    def keys(self) -> frozenset[str]:
        """What lines about any of its things share."""
        return frozenset().union(*self.things)

    def does(self, line: Entry) -> bool:
        """Whether a line of works does it, rather than being about it."""
        if line.kind != "works":
            return False
        return line.verb in DONE[self.todo.verb] if self.todo else line.verb not in LEFT

    def doing(self) -> Iterator[Event]:
        """The lines that did it, or a part of it."""
        return (e for e in self.lines if self.does(e.entry))

    def is_done(self) -> bool:
        """Whether it is done: a line says that it finished, or that what was to do was done, all of it."""
        if any(e.verb == "finished" for e in self.lines):
            return True
        found = list(self.doing())
        return bool(found) and all(self._is_done(n, keys, found) for n, keys in enumerate(self.things))

    def _is_done(self, n: int, keys: frozenset[str], found: list[Event]) -> bool:
        """Whether that was done to one of its things, as many of it as were to do."""
        wanted = self.todo.things[n].count if self.todo and n < len(self.todo.things) else None
        counts: list[Fraction | None] = []
        for event in found:
            same = [t for t in event.entry.things if not event.keys or not keys.isdisjoint(event.keys)]
            counts += [thing.count for thing in same[:1] if thing.extent != "part of"]
        if wanted is None or None in counts:
            return bool(counts)
        return sum((count for count in counts if count is not None), Fraction(0)) >= wanted


@record
class Works:
    """A schedule with its jobs and, after them, the work nobody planned; `during` is None where no time is known."""

    schedule: Schedule
    during: Period | None
    jobs: tuple[Job, ...]

    @property
    def house(self) -> str:
        """The house it is about."""
        return self.schedule.house

    def of_line(self) -> dict[int, int]:
        """By the id of a line: the number of the job that has its money."""
        return {id(e.entry): n for n, job in enumerate(self.jobs) for e in job.lines if e.counts}


def works(history: History, house: str) -> tuple[Works, ...]:
    """The schedules of a house, in order of their time, with the lines of the book in their jobs."""
    book = history.book
    found = [(schedule, times(book, schedule)) for schedule in book.schedules if schedule.house == house]
    found.sort(key=lambda pair: pair[1].first if pair[1] else date.max)
    gatherers = []
    since = date.min
    for schedule, during in found:
        gatherers.append(_Gatherer(history, schedule, during, since))
        since = during.last if during else since
    for entry in book.entries:
        for line in entry.lines or (entry,):
            if house in {share.house for share in (line.homes or entry.homes)}:
                # The latest schedule whose job it is; where none wants it, the one in whose time it falls.
                any(g.hear(line, entry, sure=True) for g in reversed(gatherers)) or any(
                    g.hear(line, entry, sure=False) for g in reversed(gatherers)
                )
    return tuple(Works(g.schedule, g.during, tuple(g.jobs)) for g in gatherers)


def times(book: Book, schedule: Schedule) -> Period | None:
    """The time of the works of a schedule; None where the house was let all along."""
    house = book.properties[schedule.house]
    bought = house.exchanged or (house.got.day if house.got else None)
    aim = schedule.target[0] if schedule.target else None
    lets = sorted((t for t in book.tenancies.values() if t.house == house.name and t.first_day), key=_first)
    before = [t for t in lets if t.last_day and aim and t.last_day < aim]
    start = max((t.last_day + timedelta(1) for t in before if t.last_day), default=bought or date.min)
    after = [t for t in lets if _first(t) >= start]
    running = [t for t in lets if t not in before and t not in after]
    if running and not after or after and aim and months_after(_first(after[0]), 12) < aim:
        return None  # a let that began more than a year before is not the one aimed at
    end = day_before(_first(after[0])) if after else date.max
    return Period(start, end) if start <= end else None


def _first(let: Tenancy) -> date:
    assert let.first_day is not None
    return let.first_day


class _Gatherer:
    """The jobs of one schedule while the lines of the book are put into them."""

    def __init__(self, history: History, schedule: Schedule, during: Period | None, since: date) -> None:
        self.history, self.schedule, self.during, self.since = history, schedule, during, since
        self.house = history.book.properties[schedule.house]
        self.rooms = {room.text.lower() for room in self.house.rooms} | ROOMS_EVERYWHERE
        self.jobs = [self._job(todo) for todo in schedule.todos]
        self.papers: dict[tuple[str, str], list[tuple[Entry, Job]]] = {}

    def _job(self, todo: Todo) -> Job:
        swapped = [self.keys(thing.name) for thing in todo.becomes.things] if todo.becomes else []
        things = [self.keys(thing.name) for thing in todo.things] or [frozenset({todo.room.lower()})]
        things[0] = things[0].union(*swapped)  # what it becomes is the same job
        return Job(todo.room.lower(), said(todo), tuple(things), todo)

    def keys(self, words: str) -> frozenset[str]:
        """What lines about the same thing share."""
        named = frozenset(thing.name for thing in self.history.catalogue.meanings(words))
        return named or frozenset({words.lower()})

    # ── a line ───────────────────────────────────────────────────────────────────────────────────────────────

    def hear(self, line: Entry, head: Entry, sure: bool) -> bool:
        """Put a line into its job; whether it has one here. sure: only where a job or a paper asks for it."""
        told = line.facts.part_of or head.facts.part_of
        if told and told.lower() != self.schedule.title.lower():
            return False
        if line.kind == "booking":
            return sure and self._booked(line)
        if settles(line) and not credits(line):
            paid = self._by_paper(line, head) if sure else []
            for job in paid:
                job.lines.append(Event(line, head, True))
            return bool(paid)
        if line.kind not in ("works", "plan", "bill", "money") or line.verb in ("drew", "recharged"):
            return False
        back = line.verb in ("received", "kept") and (line.purpose or credits(line))
        if line.kind == "money" and not told and not back and not self._serves(line):
            return False
        jobs = self._jobs_of(line, head, bool(told)) if sure else self._unplanned(line, bool(told))
        whole = self._of_room(line)
        keys = frozenset[str]() if whole else frozenset().union(*(self.keys(thing.name) for thing in line.things))
        for n, job in enumerate(jobs):
            job.lines.append(Event(line, head, n == 0, keys))
        if jobs:
            self._file(line, head, jobs[0])
        return bool(jobs)

    def _serves(self, line: Entry) -> bool:
        """Whether a payment was for what serves works: labour, a skip, building control."""
        known = self.history.known(line.thing, line.verb) if line.things and line.verb not in COMES_IN else None
        return known is not None and known.again == "job"

    def _file(self, line: Entry, head: Entry, job: Job) -> None:
        """Remember where the papers of a line went."""
        kind = PAPERS.get(line.verb, "invoice")
        for entry in (line, head):
            if entry.facts.number:
                self.papers.setdefault((kind, entry.facts.number.lower()), []).append((entry, job))

    def _jobs_of(self, line: Entry, head: Entry, told: bool) -> list[Job]:
        found: list[Job] = []
        for thing in line.things:
            job = self._by_thing(line, thing, told)
            if job and job not in found:
                found.append(job)
        if found and line.purpose and line.kind == "money":
            return found
        words = [line.purpose] if line.purpose and line.kind == "money" else []
        words += [t.name for link in line.facts.links for t in link.things]
        paper = self._by_paper(line, head) if not found else []
        if not found and (not paper or credits(line)):  # a credit names the job of its bill that it is for
            found = [job for word in words if (job := self._served(line, word))][:1]
        return found or paper

    def _by_thing(self, line: Entry, thing: Thing, told: bool) -> Job | None:
        if line.kind == "money" and not told:
            return None  # what money is for stands behind `for`
        own, of_room = thing.name.lower(), self._of_room(line)
        rooms = self._rooms(line)
        keys = self.keys(thing.name)
        best: tuple[tuple[int, ...], Job] | None = None
        for n, job in enumerate(self.jobs):
            same = not job.keys.isdisjoint(keys) or of_room and job.planned and job.does(line)
            place = self._place(job, rooms)
            if not same or not place or not (told or self._in_time(job, line)):
                continue
            exact = job.todo is not None and any(t.name.lower() == own for t in job.todo.things)
            rank = (int(job.does(line) or line.kind == "plan"), place, int(not job.is_done()), int(exact),
                    int(job.planned), -n)  # fmt: skip
            if best is None or rank > best[0]:
                best = rank, job
        return best[1] if best else None

    def _of_room(self, line: Entry) -> bool:
        """Whether it was done to a room as such: decorated lounge, cleaned whole house."""
        own = line.thing.lower()
        return line.verb in OF_ROOMS and (own in self.rooms or self.history.known(own, line.verb).room)

    def _rooms(self, line: Entry) -> set[str]:
        """The rooms a line is about."""
        if line.rooms or not self._of_room(line):
            return {room.text.lower() for room in line.rooms}
        own = line.thing.lower()
        return {"whole house" if self.history.known(own, line.verb).name == "house" else own}

    @staticmethod
    def _place(job: Job, rooms: set[str]) -> int:
        """How well a line of these rooms fits a job: 0 not at all, 3 the very room."""
        if job.room in rooms:
            return 3
        if job.room in ROOMS_EVERYWHERE or not job.room:
            return 2
        return 1 if not rooms or rooms <= ROOMS_EVERYWHERE else 0

    def _in_time(self, job: Job, line: Entry) -> bool:
        """Whether a job can still have a line of this day."""
        if self._in_works(line):
            return True
        if self.during is not None and line.day.first < self.during.first:
            return False
        if line.verb in ("snagged", "cured"):
            return True
        wanted = line.kind in ("plan", "booking") or job.does(line)
        billed = job.is_done() and any(job.doing())
        return line.day.first > self.since and job.planned and wanted and not billed

    def _by_paper(self, line: Entry, head: Entry) -> list[Job]:
        for paper in (line.paper, head.paper):
            if paper is not None:
                told = self.papers.get((paper.kind, paper.number.lower()), [])
                found = [job for entry, job in reversed(told) if same_party(entry, line)]
                if found:
                    return found[:1]
        return []

    def _served(self, line: Entry, words: str) -> Job | None:
        keys = self.keys(words)
        fits = [job for job in self.jobs if not job.keys.isdisjoint(keys)]
        if not fits and words.lower() in self.rooms:  # paint taken back "for lounge": what they were paid for there
            here = [job for job in self.jobs if job.room == words.lower()]
            fits = [job for job in here if any(_with(e.entry, line) for e in job.lines)]
        rooms = {room.text.lower() for room in line.rooms}
        near = [job for job in fits if self._place(job, rooms)]
        near = near if self._in_works(line) else []
        return max(near, key=lambda job: (self._place(job, rooms), job.planned), default=None)

    def _in_works(self, line: Entry) -> bool:
        """Whether a line falls into the time of the works; of a plan, or shortly before it."""
        if self.during is None:
            return False
        early = self.during.first - EARLY if self.during.first > date.min + EARLY else date.min
        planned = line.kind in ("plan", "booking") and max(early, self.since) < line.day.first <= self.during.last
        return planned or line.day.first in self.during

    def _unplanned(self, line: Entry, told: bool) -> list[Job]:
        """A job of its own, or the one such work has already."""
        if not told and not self._in_works(line) or not line.things:
            return []
        if line.kind in ("money", "bill") and not told and not self._serves(line):
            return []
        rooms = " and ".join(sorted(self._rooms(line))) or NOWHERE
        words = line.verb if self._of_room(line) else line.thing
        keys = frozenset({words}) if self._of_room(line) else self.keys(words)
        job = next((j for j in self.jobs if not j.planned and j.room == rooms and not j.keys.isdisjoint(keys)), None)
        if job is None:
            job = Job(rooms, words, (keys,))
            self.jobs.append(job)
        return [job]

    def _booked(self, line: Entry) -> bool:
        """A trade booked: for the jobs of its rooms that it priced, else for those of its trade."""
        if self.during is not None and not self._in_works(line) or line.day.first <= self.since:
            return False
        rooms = {room.text.lower() for room in line.rooms}
        name = line.who.name if line.who else ""
        trade = self.history.book.parties[name].trade if name in self.history.book.parties else ""
        open_ = [job for job in self.jobs if not job.is_done() and self._place(job, rooms)]
        priced = [job for job in open_ if any(_with(e.entry, line) for e in job.lines)]
        theirs = priced or [job for job in open_ if job.todo and trade and job.todo.trade == trade]
        for job in theirs:
            job.lines.append(Event(line, line, False))
        return bool(theirs)


def _with(one: Entry, other: Entry) -> bool:
    """Whether both lines name the same other party."""
    return one.who is not None and other.who is not None and same_party(one, other)


def said(todo: Todo) -> str:
    """A job in a few words: "replace 2 radiators with 3"."""
    words = [todo.verb, " and ".join(_thing(t) for t in todo.things)]
    if todo.becomes:
        count, things = todo.becomes.count, todo.becomes.things
        words += [todo.becomes.word, str(count) if count is not None else " and ".join(_thing(t) for t in things)]
    return " ".join(word for word in words if word)


def _thing(thing: Thing) -> str:
    count = f"{thing.count} of {thing.of} " if thing.of else f"{thing.count} " if thing.count is not None else ""
    return f"{thing.extent + ' ' if thing.extent else ''}{count}{thing.name}"
