"""The dates to watch as text, as JSON, or as a calendar by the open iCalendar standard (RFC 5545). No arithmetic here.

The calendar needs the library `icalendar`, which is loaded only when one is drawn.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, date, datetime, timedelta
from typing import Any

from ..days import day_words
from ..statements.diary import Diary, Reminder, late, state_the_nation
from .text import paragraph

PRODUCT = "-//landlord-books//dates to watch//EN"

NOTHING = "Nothing that your book tells of falls due."


def text(diary: Diary) -> str:
    """Overdue first, then by day, then what could be done; each date with its caution and the age of its rule."""
    out = [title(diary)]
    for heading, reminders in groups(diary):
        if reminders:
            out += ["", heading]
            for reminder in reminders:
                out += _lines(reminder, diary.on)
    if not any(reminders for _, reminders in groups(diary)):
        out += ["", NOTHING]
    for house in diary.unplaced:
        out += ["", *paragraph(state_the_nation(house), "", "")]
    for note in diary.notes:
        out += ["", *paragraph(note, "", "")]
    return "\n".join([*out, "", *paragraph(diary.footer, "", "")])


def title(diary: Diary) -> str:
    """From when to when the dates are."""
    return f"Dates to watch on {day_words(diary.on)}, up to {day_words(diary.until)}"


def groups(diary: Diary) -> tuple[tuple[str, tuple[Reminder, ...]], ...]:
    """The dates under their headings, in the order they are read."""
    return ("overdue", diary.overdue), ("falls due", diary.due), ("could be done", diary.may)


def what(r: Reminder) -> str:
    """What falls due, and at which house."""
    return f"{r.house}: {r.what}" if r.house else r.what


def _lines(r: Reminder, on: date) -> list[str]:
    inside = " " * 15
    out = paragraph(f"{what(r)} ({late(r, on)})", f"  {day_words(r.day):<13}", inside)
    return [*out, *paragraph(r.ask, inside, inside), *paragraph(_rests_on(r), inside, inside)]


def _rests_on(r: Reminder) -> str:
    """What the day rests on: a rule and how old it is, or the line that tells it."""
    return f"{', '.join(r.sources)}, {by(r)}"


def by(r: Reminder) -> str:
    """The rule behind a day and how old it is, or that the line itself tells the day."""
    return f"by {r.rule}." if r.rule else "which tells the day."


def as_json(diary: Diary) -> dict[str, Any]:
    """The same as data."""
    return {
        "statement": "diary",
        "on": diary.on.isoformat(),
        "until": diary.until.isoformat(),
        "overdue": _all(diary.overdue),
        "due": _all(diary.due),
        "could_be_done": _all(diary.may),
        "nation_unknown": list(diary.unplaced),
        "notes": list(diary.notes),
        "footer": diary.footer,
    }


def _all(reminders: Sequence[Reminder]) -> list[dict[str, Any]]:
    return [
        {
            "uid": r.uid,
            "day": r.day.isoformat(),
            "kind": r.kind,
            "property": r.house or None,
            "about": r.about or None,
            "what": r.what,
            "ask": r.ask,
            "rule": r.rule.says if r.rule else None,
            "held_on": r.rule.held.isoformat() if r.rule else None,
            "rule_caution": r.rule.caution or None if r.rule else None,
            "lines": list(r.sources),
        }
        for r in reminders
    ]


def calendar(diary: Diary) -> str:
    """One all-day event a date; the same thing keeps its identity from run to run, so a new file renews it.

    ImportError where the library is not there.
    """
    import icalendar

    made = icalendar.Calendar()
    made.add("prodid", PRODUCT)
    made.add("version", "2.0")
    stamp = datetime(diary.on.year, diary.on.month, diary.on.day, tzinfo=UTC)
    for r in (*diary.overdue, *diary.due, *diary.may):
        event = icalendar.Event()
        event.add("uid", r.uid)
        event.add("dtstamp", stamp)
        event.add("dtstart", r.day)
        event.add("dtend", r.day + timedelta(days=1))
        event.add("summary", what(r))
        event.add("description", f"{r.ask}\n{_rests_on(r)}\n{diary.footer}")
        event.add("transp", "TRANSPARENT")  # the day stays free for other things
        made.add_component(event)
    written: bytes = made.to_ical()
    return written.decode("utf-8")
