"""A small house with a schedule to hang lines on, and its jobs written short. People and places are invented."""

from __future__ import annotations

from datetime import date

from ledger_tools.book.build import build
from ledger_tools.book.world import Book
from ledger_tools.money import plain
from ledger_tools.problems import Level
from ledger_tools.statements.jobs import Works, works
from ledger_tools.statements.refurb import JobMoney, Refurb, refurb
from ledger_tools.statements.schedule import Next, Schedule, schedules
from ledger_tools.verdicts.catalogue import catalogue
from ledger_tools.verdicts.history import History

HEAD = """
landlord x "X"
supplier pell "Pell & Sons"
    trade plasterer
supplier volt "Volt Electrical"
    trade electrician
property a "1 A Street"
    nation england
    bought 1 Mar 2025 for £100,000
    as bought lettable
    price normal
    rooms kitchen, lounge, hall, garden
{more}
schedule a "ready to let"
{schedule}
tenancy t at a
    tenants "T. Enant"
    periodic from 1 Jul 2025
    rent £600 a month
{until}
at a
"""
SCHEDULE = """
    target let from 1 Jul 2025 at £600 a month
    contingency 10%
    in whole house
        1 replace wiring £2,000 by electrician
    in lounge
        2 repair plaster £400 by plasterer
        3 decorate walls £50, own labour, needs plaster
    in kitchen
        3 replace 3 windows £900
        4 install tap £40
"""
END = date(2025, 12, 31)


def book(lines: str, schedule: str = SCHEDULE, more: str = "", until: str = "") -> Book:
    """The book of these lines, free of errors."""
    made = build({"a.book": HEAD.format(schedule=schedule.strip("\n"), more=more, until=until) + lines})
    assert [p.headline for p in made.problems if p.level is Level.ERROR] == []
    return made


def jobs(lines: str, schedule: str = SCHEDULE, more: str = "") -> dict[str, list[str]]:
    """By room and job: the verbs and things of its lines; an unplanned job has a star."""
    found: Works = works(History(book(lines, schedule, more), catalogue()), "a")[0]
    said = {id(job): [f"{e.verb} {e.entry.thing}".strip() for e in job.lines] for job in found.jobs if job.lines}
    return {f"{j.room}: {j.words}{'' if j.planned else ' *'}": said[id(j)] for j in found.jobs if j.lines}


def control(lines: str, on: date = END, schedule: str = SCHEDULE, more: str = "") -> Refurb:
    """Its money."""
    return refurb(book(lines, schedule, more), "a", on)[0]


def money(r: Refurb, words: str) -> JobMoney:
    """One of its jobs."""
    return next(j for j in r.jobs if j.job.words == words)


def pounds(pence: int | None) -> str:
    return "-" if pence is None else plain(pence)


def plan(lines: str, on: date, schedule: str = SCHEDULE, more: str = "") -> Schedule:
    """Its schedule on a day."""
    return schedules(book(lines, schedule, more), "a", on)[0]


def job(s: Schedule, words: str) -> Next:
    """One of its jobs."""
    return next(n for n in s.jobs if n.job.words == words)
