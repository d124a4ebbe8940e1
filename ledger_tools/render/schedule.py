"""A schedule of works as screens for a phone, or as JSON. No arithmetic here."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from ..days import MONTHS, day_words
from ..money import plain, pounds
from ..statements.leftovers import Left
from ..statements.schedule import Next, Room, Schedule, State
from ..verdicts.cautions import caution
from .phone import screens, wrap

FOOTER = (
    "A reminder from your own notes: no safety check, no permission, no legal advice. Rules differ by nation, council "
    "and house; ask the council, and use registered trades."
)
PAPERS = {"gas": "gas safety record", "wiring": "report on the wiring", "energy": "energy certificate",
          "alarms": "alarms fitted and tested"}  # fmt: skip
DELAY, NOBODY = "A day's delay costs", "Nobody: all is booked or done."
NO_JOBS = (
    "No job stands in this schedule yet, so nothing can be booked or ticked off. Under it write the rooms, `in "
    "kitchen`, and indented under each a job a line with its priority and a rough figure: `1 replace boiler £2,000 by "
    "gas engineer`."
)
NO_NATION = "What papers a let needs differs by nation: add `nation …` to the property."
ASK_COUNCIL = "Which of them the law wants, ask the council."
BOOK_FIRST, HOLD, LEFT_BY_SELLER = "Book first", "Hold and look", "Left by the seller"


def text(found: Sequence[Schedule]) -> str:
    """The screens of each schedule, a line between them."""
    return "\n\n".join("\n".join(line.rstrip() for line in page) for s in found for page in pages(s))


def title(s: Schedule) -> str:
    """The house and the name of its schedule."""
    return f'{s.full}: "{s.title}"'


def pages(s: Schedule) -> list[list[str]]:
    """The lines of each screen of a schedule, a room with its screens after the other."""
    out = screens(title(s), _top(s))
    for room in s.rooms:
        out += screens(room.name, _room(s, room))
    if s.let is None:
        out += screens(BOOK_FIRST, _book(s))
        out += screens(HOLD, _hold(s))
    out += screens(LEFT_BY_SELLER, [_left(one) for one in s.left]) if s.left else []
    said = [wrap(caution(name), "! ", "  ") for name in s.cautions] + [wrap(FOOTER)]
    return out + screens("Take care", said)


# ── the first screen ─────────────────────────────────────────────────────────────────────────────────────────────


def _top(s: Schedule) -> list[list[str]]:
    said = [wrap(words) for words in standing(s)]
    return said if s.let else [*said, *_cost(s)]


def standing(s: Schedule) -> list[str]:
    """How many jobs are done, and how far the letting is."""
    done = sum(n.done for n in s.planned)
    out = [f"On {day_words(s.on)}: {done} of {len(s.planned)} jobs done." if s.planned else NO_JOBS]
    if s.let:
        late = f", {_days(s.late)} after the day you aimed at" if s.late else ""
        cost = f" At {pounds(s.cost.pence)} a day that came to {pounds(s.late_cost)}." if s.late_cost else ""
        return [*out, f"Let since {day_words(s.let)}{late}.{cost}"]
    if s.target:
        left = (s.target - s.on).days
        away = f"{_days(left)} to go" if left >= 0 else f"{_days(s.late)} ago"
        out.append(f"To let from {day_words(s.target)}: {away}.")
    return out


def _days(count: int) -> str:
    return f"{count} {'day' if count == 1 else 'days'}"


def _cost(s: Schedule) -> list[list[str]]:
    out = []
    if s.cost.parts:
        lines = wrap(f"{DELAY} {pounds(s.cost.pence)}:")
        for part in s.cost.parts:
            lines += wrap(f"{part.label} {pounds(part.pence)} ({part.base})", "  ", "    ")
        out.append(lines)
    return [*out, *map(wrap, about_cost(s))]


def about_cost(s: Schedule) -> list[str]:
    """What the cost of a day leaves out, and what the days so far came to."""
    out = ["Without reductions for an empty home, and without what insurance costs more."] if s.cost.parts else []
    out += [f"So far late: {_days(s.late)}, {pounds(s.late_cost)}."] if s.late else []
    return out + [f"Not in it, as your book does not tell: {one}." for one in s.cost.missing]


# ── a room ───────────────────────────────────────────────────────────────────────────────────────────────────────


def _room(s: Schedule, room: Room) -> list[list[str]]:
    out = [_job(s, n) for n in room.jobs if not n.done]
    return out + ([wrap(did, "", "  ")] if (did := done(room)) else [])


def done(room: Room) -> str:
    """What is done in a room, "" where nothing is."""
    names = [f"{n.job.words} ({_ended(n.state)})" for n in room.jobs if n.done]
    return "done: " + "; ".join(names) if names else ""


def _ended(state: State) -> str:
    return _short(state.day) if state.name == "done" and state.day else state.name


def _job(s: Schedule, n: Next) -> list[str]:
    head, *told = [job_name(n), *job_told(s, n)]
    return _under(head, told)


def _under(head: str, told: Sequence[str]) -> list[str]:
    """A line with what there is to say of it under it."""
    return [*wrap(head, "", "  "), *(line for words in told for line in wrap(words, "  ", "    "))]


def job_name(n: Next) -> str:
    """How soon a job is to come, its words, and what to take care of."""
    marks = "".join(f" !{name}" for name in n.cautions)
    return f"{n.job.todo.priority if n.job.todo else '-'} {n.job.words}{marks}"


def job_told(s: Schedule, n: Next) -> list[str]:
    """How far a job is, its small faults, what it waits for, and when to begin."""
    told = [_state(n)] if n.job.todo else []
    for snag in n.state.snags:
        who = f", {snag.who.full}" if snag.who else ""
        note = f", {snag.note}" if snag.note else ""
        told.append(f"small fault: {snag.thing}{note} ({_short(snag.day.first)}{who})")
    told += [f"waits for {_some(n.needs)}"] if n.needs else []
    told += [f"usually after {_some(n.usually)}"] if n.usually else []
    return told + ([_by("start by", n.start_by, s.on)] if n.start_by and s.let is None else [])


def _by(words: str, day: date, on: date) -> str:
    late = (on - day).days
    return f"{words} {_short(day)}" + (f": {_days(late)} late" if late > 0 else "")


def _some(names: Sequence[str]) -> str:
    """Three names at most, and how many more."""
    more = len(names) - 3
    return ", ".join(names[:3]) + (f" and {more} more" if more > 0 else "")


def _short(day: date) -> str:
    return f"{day.day} {MONTHS[day.month - 1]}"


def _state(n: Next) -> str:
    state, todo = n.state, n.job.todo
    said = [state.name if state.name != "done" else f"done {_short(state.day)}" if state.day else "done"]
    if state.name in ("estimated", "quoted", "agreed") and state.who:
        said[0] += f", {state.who}"
    if todo and todo.trade and state.name in ("to do", "estimated", "quoted", "agreed"):
        said.append(f"by {todo.trade}")
    if state.name == "started" and state.day:
        said[0] += f" {_short(state.day)}"
    if state.booked and state.name != "done":
        who = f" {state.who}" if state.who and state.name not in ("estimated", "quoted", "agreed") else ""
        said.append(f"booked{who} for {_short(state.booked.first)}")
    if state.ordered and state.name != "done":
        said.append(_goods(state))
    return "; ".join(said)


def _goods(state: State) -> str:
    if state.arrived:
        return f"goods here since {_short(state.arrived)}"
    return "goods ordered" + (f", promised {_short(state.promised)}" if state.promised else ", no day promised")


# ── whom to book, where to hold ──────────────────────────────────────────────────────────────────────────────────


def nobody(s: Schedule) -> str:
    """What stands where nobody is to be booked."""
    return NOBODY if s.planned else "Nobody yet: there is no job to book them for."


def _book(s: Schedule) -> list[list[str]]:
    out = [wrap(words, "", "  ") for words in ask_first(s)] + [_under(head, told) for head, told in to_book(s)]
    return [*(out or [wrap(nobody(s))]), *map(wrap, untold(s))]


def ask_first(s: Schedule) -> list[str]:
    """Whom to ask before anything else, and for what."""
    return [f"{a.who}: {a.says}" for a in s.leasehold]


def to_book(s: Schedule) -> list[tuple[str, list[str]]]:
    """Whom to book for what, with what to know of it."""
    out = []
    for n in s.to_book:
        who = (n.job.todo.trade if n.job.todo else "") or n.early[0].who
        told = [_by("book by", n.book_by, s.on)] if n.book_by else []
        told += [a.says if a.who == who else f"{a.who}: {a.says}" for a in n.early]
        where = "" if n.job.words.endswith(f" {n.job.room}") else f" in {n.job.room}"
        out.append((f"{who}: {n.job.words}{where}", told))
    return out


def untold(s: Schedule) -> list[str]:
    """How many jobs tell no time, where a day is aimed at."""
    if not s.untold or not s.target:
        return []
    said = f"{s.untold} {'job tells' if s.untold == 1 else 'jobs tell'} no time and count as one day each"
    return [f"{said}: add `takes … days`, and `book … weeks ahead` where a trade is booked up."]


def _hold(s: Schedule) -> list[list[str]]:
    out = []
    for head, told in to_hold(s):
        out += [wrap(head), [line for words in told for line in wrap(words, "  ", "    ")]]
    if not s.nation:
        return [*out, wrap(NO_NATION)]
    out.append(wrap(before_let(s)))
    out += [wrap(words, "  ", "    ") for words in papers(s)]
    return [*out, wrap(ASK_COUNCIL)]


def to_hold(s: Schedule) -> list[tuple[str, tuple[str, ...]]]:
    """Where to hold and look, with what the book tells of it."""
    return [(f"{r.says} ({', '.join(r.where)})", r.told) for r in s.reminders]


def before_let(s: Schedule) -> str:
    """What stands over the papers."""
    return f"Before you let ({s.nation.title()}), your book holds:"


def papers(s: Schedule) -> list[str]:
    """Each paper that a let may need, and what the book tells of it."""
    out = []
    for c in s.certificates:
        told = "nothing" if c.entry is None else f"{c.entry.verb} {day_words(c.entry.day.first)}"
        told += f", runs out {day_words(c.expires)}" if c.expires else ""
        gone = c.expires is not None and c.expires < s.on
        out.append(f"{PAPERS[c.name]}: {told}{' (run out)' if gone else ''}")
    return out


# ── the seller's things ──────────────────────────────────────────────────────────────────────────────────────────


def _left(one: Left) -> list[str]:
    head, *told = left_told(one)
    out = wrap(head, "", "  ")
    for words in told:
        asked = words in one.questions
        out += wrap(words, "  ? " if asked else "  ", "    ")
    return out


def left_told(one: Left) -> list[str]:
    """A thing the seller left and what becomes of it; then what there is to say and to ask of it."""
    what = one.decision or "undecided"
    if one.day and one.decision in ("sell", "skip", "replace", "mend", "taken home"):
        what = {"sell": "sold", "skip": "gone", "replace": "replaced", "mend": "mended"}.get(what, what)
        what += f" {_short(one.day)}"
        what += f" for {pounds(one.brought)}" if one.brought else ""
        what += f" to {one.to}" if one.to else ""
    out = [f"{one.name}{f' !{one.caution}' if one.caution else ''}: {what}"]
    out += [f"stays by {', '.join(one.papers)}"] if one.papers else []
    out += [f"seller told {_short(one.letter)}; keep the letter and photos"] if one.letter else []
    out += [] if one.settled else [
        "it may still be the seller's: write before you sell or skip it, or add `says \"contents form\"` if it was "
        "to stay"
    ]  # fmt: skip
    out += one.questions
    out += [f"looked at {_short(one.looked)}"] if one.looked else []
    out += ["once let it is yours to keep up"] if one.decision in ("keep", "mend") else []
    return out + ([] if one.decision else [f"decide: `keep {one.name}`, `repair`, `sell` or `scrap` in the schedule"])


# ── JSON ─────────────────────────────────────────────────────────────────────────────────────────────────────────


def as_json(found: Sequence[Schedule]) -> dict[str, Any]:
    """The same as data."""
    return {"statement": "next", "schedules": [_schedule(s) for s in found]}


def _iso(day: date | None) -> str | None:
    return day.isoformat() if day else None


def _schedule(s: Schedule) -> dict[str, Any]:
    return {
        "property": s.house,
        "name": s.full,
        "title": s.title,
        "on": s.on.isoformat(),
        "target": _iso(s.target),
        "let_since": _iso(s.let),
        "rooms": [{"room": room.name, "jobs": [_next(n) for n in room.jobs]} for room in s.rooms],
        "day_cost": {
            "amount": plain(s.cost.pence),
            "parts": [
                {"label": p.label, "amount": plain(p.pence), "base": p.base, "source": p.source} for p in s.cost.parts
            ],
            "not_told": list(s.cost.missing),
        },
        "days_late": s.late,
        "late_cost": plain(s.late_cost),
        "jobs_without_time": s.untold,
        "ask_early": [{"who": a.who, "says": a.says, "source": a.source} for a in s.leasehold],
        "hold": [{"name": r.name, "says": r.says, "rooms": list(r.where), "told": list(r.told)} for r in s.reminders],
        "certificates": [
            {"name": c.name, "line": c.entry.source if c.entry else None, "expires": _iso(c.expires)}
            for c in s.certificates
        ],
        "left_by_seller": [_left_json(one) for one in s.left],
        "cautions": [{"name": name, "says": caution(name)} for name in s.cautions],
        "footer": FOOTER,
    }


def _next(n: Next) -> dict[str, Any]:
    todo, state = n.job.todo, n.state
    return {
        "job": n.job.words,
        "planned": n.job.planned,
        "priority": todo.priority if todo else None,
        "trade": todo.trade or None if todo else None,
        "state": state.name,
        "since": _iso(state.day),
        "who": state.who or None,
        "booked": [state.booked.first.isoformat(), state.booked.last.isoformat()] if state.booked else None,
        "ordered": state.ordered.source if state.ordered else None,
        "promised": _iso(state.promised),
        "arrived": _iso(state.arrived),
        "small_faults": [{"thing": e.thing, "note": e.note, "source": e.source} for e in state.snags],
        "step": n.step.name if n.step else None,
        "waits_for": list(n.needs),
        "usually_after": list(n.usually),
        "start_by": _iso(n.start_by),
        "book_by": _iso(n.book_by) if n.to_book else None,
        "ask_early": [{"who": a.who, "says": a.says, "source": a.source} for a in n.early],
        "cautions": list(n.cautions),
        "lines": [e.entry.source for e in n.job.lines],
    }


def _left_json(one: Left) -> dict[str, Any]:
    return {
        "thing": one.name,
        "stays_by": list(one.papers),
        "seller_told": _iso(one.letter),
        "decision": one.decision or None,
        "day": _iso(one.day),
        "brought": plain(one.brought) if one.brought else None,
        "to": one.to or None,
        "ask": list(one.questions),
        "looked_at": _iso(one.looked),
        "ownership_open": not one.settled,
    }
