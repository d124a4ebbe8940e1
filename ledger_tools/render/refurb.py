"""What works were to cost and came to, as text or JSON. No arithmetic here."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from decimal import Decimal
from fractions import Fraction
from typing import Any

from ..days import Period, day_words
from ..money import plain, pounds
from ..statements.figures import Figure, total
from ..statements.refurb import Contingency, Group, JobMoney, Refurb
from . import json_form
from .columns import columns, lined_up
from .page import Row, Sum
from .text import cell_words, paragraph, trail

HEADS = ("", "planned", "asked", "agreed", "billed", "comes to", "more", "%")
TRADE_HEADS = ("by trade", "planned", "agreed", "billed", "paid", "held back", "comes to", "more")
TOTAL_HEADS = ("", "so far", "when done")
BY_TRADE, ALL, IN_ALL, SURPRISES = TRADE_HEADS[0], "all of it", "in all", "for surprises"
TAX_SEES, NOTHING_YET = "What the tax return sees of the works so far, less what came back", "nothing yet"
CAME_BACK, RESALE = "less what came back for them", "less resale and scrap"
MARKS = {"*": "not on the schedule", "~": "a guess: estimated or provisional", "+": "bills may still come"}


def text(found: Sequence[Refurb], lines: bool = False) -> str:
    """One schedule after the other; lines: the lines of the book under each sum."""
    return "\n\n".join("\n".join(_refurb(r, lines)) for r in found)


def _refurb(r: Refurb, lines: bool) -> list[str]:
    out = [*paragraph(title(r), "", "  "), "", *_by_room(r, lines), "", *_by_trade(r), ""]
    out += [*_totals(r, lines), "", *_contingency(r.contingency), "", *_tax(r, lines)]
    return out + _notes(r)


def title(r: Refurb) -> str:
    """What stands over a schedule."""
    when = f", {_during(r.during)}" if r.during else ""
    return f'{r.full}: "{r.title}" on {day_words(r.on)}{when}'


def _during(period: Period) -> str:
    since = "" if period.first == date.min else f"from {day_words(period.first)} "
    until = "" if period.last == date.max else f"to {day_words(period.last)}"
    return f"the time of the works {since}{until}".rstrip() if since or until else "no dates told"


# ── the jobs ─────────────────────────────────────────────────────────────────────────────────────────────────────


def _by_room(r: Refurb, lines: bool) -> list[str]:
    rows: list[tuple[str, ...]] = [HEADS]
    under: dict[int, list[str]] = {}
    for group in r.rooms:
        rows.append((group.name, *[""] * 7))
        for j in group.jobs:
            rows.append(_job(j))
            if lines:
                under[len(rows) - 1] = trail(j.billed, j.back, j.resale)
    rows.append((ALL, *_sums(r.total)))
    out = []
    for n, said in enumerate(lined_up(rows, right=range(1, 8), gap="  ")):
        out += [*said, *under.get(n, ())]
    return [*out, "  ".join(f"{sign} {words}." for sign, words in MARKS.items())]


def asked(j: JobMoney) -> int | None:
    """The price asked for a job: the quote, else the estimate."""
    return j.prices.quote if j.prices.quote is not None else j.prices.estimate


def signs(j: JobMoney) -> str:
    """Which of the MARKS are true of a job."""
    p = j.prices
    guess = asked(j) is not None and (p.guess or p.quote is None)
    more = j.job.planned and not j.done and not p.called_off
    return f"{'' if j.job.planned else '*'}{'~' if guess else ''}{'+' if more else ''}"


def _job(j: JobMoney) -> tuple[str, ...]:
    p, marks = j.prices, signs(j)
    guess, more = "~" if "~" in marks else "", "+" if "+" in marks else ""
    name = f"  {j.job.words}{' *' if '*' in marks else ''}"
    billed = _sum(j.billed.pence) if j.billed.trail else ""
    forecast = more + _sum(j.forecast) if j.forecast or j.job.planned else ""
    return name, _sum(p.rough), guess + _sum(asked(j)), _sum(p.committed), billed, forecast, *_more(j)


def _more(j: JobMoney) -> tuple[str, str]:
    if j.more is None:
        return "", "new" if j.forecast else ""
    return _signed(j.more), f"{j.percent:+d}" if j.percent else ""


def _sums(g: Group) -> tuple[str, ...]:
    percent = f"{g.percent:+d}" if g.percent else ""
    return _sum(g.rough), "", _sum(g.agreed), _sum(g.billed), _sum(g.forecast), _signed(g.more), percent


def _sum(pence: int | None) -> str:
    return "" if pence is None else pounds(pence).replace("£", "")


def _signed(pence: int) -> str:
    return f"+{_sum(pence)}" if pence > 0 else _sum(pence) if pence else ""


def _by_trade(r: Refurb) -> list[str]:
    rows: list[tuple[str, ...]] = [TRADE_HEADS]
    for g in (*r.trades, r.total):
        held = _sum(g.retained) if g.retained else ""
        sums = (_sum(g.rough), _sum(g.agreed), _sum(g.billed), _sum(g.paid), held, _sum(g.forecast), _signed(g.more))
        rows.append((f"  {g.name}" if g.name else ALL, *sums))
    return columns(rows, right=range(1, 8), gap="  ")


# ── what it comes to ─────────────────────────────────────────────────────────────────────────────────────────────


def total_rows(r: Refurb) -> Iterator[Row]:
    """What the works and the house come to, so far and when all is done; totals name their rows."""
    works = total("works", "works", [j.billed for j in r.jobs])
    beside = total("unplanned", "of it not planned", [j.billed for j in r.jobs if not j.job.planned])
    yield Row((works.label, Sum(r.total.billed, works.trail), Sum(r.total.forecast)), "works")
    yield Row((beside.label, Sum(r.unplanned, beside.trail), Sum(r.total.unplanned)), "unplanned")
    less = [total(f.slug, label, [f], [-1]) for label, f in ((CAME_BACK, r.back), (RESALE, r.resale)) if f.trail]
    for f in less:
        yield _both(f, f.label)
    adds = (("works", 1), *((f.slug, 1) for f in less))
    yield Row(("the works come to", Sum(r.net, adds=adds), Sum(r.net_forecast, adds=adds)), "net", "total")
    yield from [_both(r.buying, "what buying it cost")] if r.buying.trail else []
    yield _both(r.waiting, "what it cost meanwhile")
    adds = (("net", 1), *(((r.buying.slug, 1),) if r.buying.trail else ()), (r.waiting.slug, 1))
    yield Row((IN_ALL, Sum(r.whole, adds=adds), Sum(r.whole_forecast, adds=adds)), "whole", "total")


def _both(f: Figure, label: str) -> Row:
    """A figure that is the same now and when all is done."""
    return Row((label, Sum(f.pence, f.trail), Sum(f.pence, f.trail)), f.slug)


def _totals(r: Refurb, lines: bool) -> list[str]:
    rows = [TOTAL_HEADS]
    for row in total_rows(r):
        label, *sums = map(cell_words, row.cells)
        rows.append((f"  {label}" if row.key == "unplanned" else label, sums[0], sums[1]))
    out = columns(rows, right=(1, 2))
    if lines:
        for f in (r.back, r.resale, r.buying, r.waiting):
            out += [f"  {f.label}: {pounds(f.pence)}", *trail(f)] if f.trail else []
    said = [paragraph(words, "", "") for words in about_totals(r)]
    return [*out, "", *(line for each in said for line in each)]


def about_totals(r: Refurb) -> list[str]:
    """What the totals take, and what in them is not paid."""
    left = f"{r.open_jobs} {'job' if r.open_jobs == 1 else 'jobs'} of the schedule not done yet"
    if not r.open_jobs:
        none = "The schedule has no jobs, so all of it is new"
        left = "All jobs of the schedule are done" if r.planned_jobs else none
    said = [
        f'{left}. "When done" takes the bills of what is '
        "done; of the rest what was agreed with its changes, else the price asked, else the first figure. What it cost "
        "meanwhile (council tax, insurance, interest and the like) is up to this day, for the days of the works; it "
        "goes on until it is let: see `next`."
    ]
    unpaid = [(r.owed, "billed and not paid yet"), (r.total.retained, "held back"), (r.ahead, "paid ahead of any bill")]
    told = ", ".join(f"{pounds(pence)} {what}" for pence, what in unpaid if pence)
    return said + ([f"In it: {told}."] if told else [])


def contingency(c: Contingency) -> str:
    """What is set aside for surprises and what is left of it, or what it could be."""
    if c.told is None:
        choices = ", ".join(f"{percent}% is {pounds(pence)}" for percent, pence in c.choices)
        return (
            f"Your schedule sets nothing aside for surprises. Of what is planned {choices}; old houses need more. "
            "Write `contingency 15%` under the schedule."
        )
    left = f"{pounds(c.left)} left" if c.left >= 0 else f"overdrawn by {pounds(-c.left)}"
    return f"Contingency {pounds(c.told)}: {pounds(c.drawn.pence)} drawn, {left}"


def _contingency(c: Contingency) -> list[str]:
    return [*paragraph(contingency(c), "", ""), *trail(c.drawn)]


def _tax(r: Refurb, lines: bool) -> list[str]:
    out = [TAX_SEES]
    rows = [(f.label, pounds(f.pence)) for f in r.tax if f.trail]
    if not rows:
        return [*out, f"  {NOTHING_YET}"]
    if not lines:
        return out + columns(rows, right=(1,), margin="  ")
    for f in r.tax:
        out += [f"  {f.label}: {pounds(f.pence)}", *trail(f)] if f.trail else []
    return out


def notes(r: Refurb) -> list[str]:
    """What else to know: what is open, own labour, miles, jobs of which more may be billed."""
    said = []
    if any(f.slug == "open" and f.trail for f in r.tax):
        said.append("What would settle the open part: `audit --open`.")
    if r.hours:
        said.append(f"Own labour noted: {_number(r.hours)} {'hour' if r.hours == 1 else 'hours'}. It is never a cost.")
    if r.miles:
        allowed = f", for which the return allows {pounds(r.mileage)}" if r.mileage else ""
        said.append(f"Driven: {_number(r.miles)} miles{allowed}; that is in no sum above.")
    if (nice := r.contingency.nice).trail:
        where = ", ".join(t.source for t in nice.trail)
        said.append(
            f"{pounds(nice.pence)} of the contingency went where your schedule plans only what is nice to have, "
            f"priority 5 ({where}). It is meant for what nobody could see."
        )
    for j in r.short:
        said.append(
            f"{j.job.words[0].upper()}{j.job.words[1:]}: {pounds(j.prices.committed or 0)} agreed, "
            f"{pounds(j.billed.pence)} billed. Is more to come?"
        )
    return said


def _notes(r: Refurb) -> list[str]:
    lines = [line for note in notes(r) for line in paragraph(note, "* ", "  ")]
    return ["", *lines] if lines else []


# ── JSON ─────────────────────────────────────────────────────────────────────────────────────────────────────────


def as_json(found: Sequence[Refurb]) -> dict[str, Any]:
    """The same as data."""
    return {"statement": "refurb", "schedules": [_schedule(r) for r in found]}


def _schedule(r: Refurb) -> dict[str, Any]:
    c = r.contingency
    return {
        "property": r.house,
        "name": r.full,
        "title": r.title,
        "on": r.on.isoformat(),
        "from": _day(r.during.first if r.during else date.min),
        "to": _day(r.during.last if r.during else date.max),
        "rooms": [{**_group(g), "jobs": [_job_json(j) for j in g.jobs]} for g in r.rooms],
        "trades": [_group(g) for g in r.trades],
        "total": _group(r.total),
        "came_back": json_form.figure(r.back),
        "resale": json_form.figure(r.resale),
        "works": plain(r.net),
        "works_when_done": plain(r.net_forecast),
        "buying": json_form.figure(r.buying),
        "meanwhile": json_form.figure(r.waiting),
        "in_all": plain(r.whole),
        "in_all_when_done": plain(r.whole_forecast),
        "contingency": {
            "told": None if c.told is None else plain(c.told),
            "drawn": json_form.figure(c.drawn),
            "left": plain(c.left),
            "choices": [{"percent": percent, "amount": plain(pence)} for percent, pence in c.choices],
            "on_nice_to_have": json_form.figure(c.nice),
        },
        "tax": [{"seen": f.slug, "label": f.label, **json_form.figure(f)} for f in r.tax],
        "own_labour_hours": _number(r.hours),
        "miles": _number(r.miles),
        "mileage": plain(r.mileage),
    }


def _day(day: date) -> str | None:
    return None if day in (date.min, date.max) else day.isoformat()


def _number(value: Fraction) -> str:
    """Hours or miles: whole, or with two decimals at most."""
    return f"{Decimal(value.numerator) / Decimal(value.denominator):.2f}".rstrip("0").rstrip(".")


def _group(g: Group) -> dict[str, Any]:
    return {
        "name": g.name or None,
        "planned": plain(g.rough),
        "agreed": plain(g.agreed),
        "billed": plain(g.billed),
        "paid": plain(g.paid),
        "retained": plain(g.retained),
        "forecast": plain(g.forecast),
        "unplanned": plain(g.unplanned),
        "more": plain(g.more),
        "percent": g.percent,
    }


def _job_json(j: JobMoney) -> dict[str, Any]:
    p = j.prices

    def sum_(pence: int | None) -> str | None:
        return None if pence is None else plain(pence)

    return {
        "job": j.job.words,
        "room": j.room,
        "planned": j.job.planned,
        "priority": j.job.todo.priority if j.job.todo else None,
        "trade": j.trade,
        "done": j.done,
        "rough": sum_(p.rough),
        "estimate": sum_(p.estimate),
        "quote": sum_(p.quote),
        "agreed": sum_(p.agreed),
        "varied": plain(p.varied),
        "provisional": p.guess,
        "billed": json_form.figure(j.billed),
        "paid": plain(j.paid),
        "paid_ahead": plain(j.ahead),
        "retained": plain(j.retained),
        "owed": plain(j.owed),
        "came_back": json_form.figure(j.back),
        "resale": json_form.figure(j.resale),
        "forecast": plain(j.forecast),
        "forecast_from": j.basis,
        "more": sum_(j.more),
        "percent": j.percent,
        "own_labour_hours": _number(j.hours),
        "lines": [e.entry.source for e in j.job.lines],
    }
