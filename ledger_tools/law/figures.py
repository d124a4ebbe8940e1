"""The figure of law that held on a day, where it stands, how far it was checked. Knows no book, no rule."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from functools import cache
from typing import Any

from ledger_tools.days import Period, TaxYear, day_words
from ledger_tools.law.load import Table, source, table, text_of_all, topics

from ..kept import kept
from ..record import record


class NoFigure(LookupError):
    """Asked about a day before the first one for which anything is held."""


@record
class Citation:
    """Where a figure stands. `read` is the day a person last read it there; None where nobody did."""

    title: str
    paragraph: str
    url: str = ""
    read: date | None = None

    def __str__(self) -> str:
        return f"{self.title}, {self.paragraph}"


@record
class Dated:
    """What every answer of this room carries beside its value.

    `since` is the first day of this value, `known_until` the last day it was checked for, `status` one of
    law, announced, draft, practice. `checked` is False beyond `known_until` and where nobody read the source; `beyond`
    tells the first of these.
    """

    topic: str
    about: str
    unit: str
    since: date
    known_until: date
    status: str
    citation: Citation
    checked: bool
    beyond: bool
    note: str

    @property
    def caution(self) -> str:
        """Why the answer should be looked up again, in plain words; empty where it need not be."""
        if self.status in ("announced", "draft"):
            return "announced, not yet law"
        if self.checked:
            return ""
        said = ["not read at its source"] if self.citation.read is None else []
        return " and ".join([*said, f"not checked beyond {day_words(self.known_until)}"] if self.beyond else said)


@record
class Figure(Dated):
    """One number: pounds, a share of one, miles, days or years, as `unit` says."""

    value: Decimal

    @property
    def pence(self) -> int:
        """Pounds as whole pence; ValueError where the figure is no sum of money or has parts of a penny."""
        pence = self.value * 100
        if not self.unit.startswith("GBP") or pence != pence.to_integral_value():
            raise ValueError(f"{self.topic} is not a sum in whole pence")
        return int(pence)

    @property
    def whole(self) -> int:
        """The number as an int; ValueError where it has a fraction."""
        if self.value != self.value.to_integral_value():
            raise ValueError(f"{self.topic} is not a whole number")
        return int(self.value)


@record
class Band:
    """A slice of taxable income and its rate; `to` in pounds, None for the last slice."""

    name: str
    rate: Decimal
    to: Decimal | None


@record
class Schedule(Dated):
    """Rates by slice, lowest first."""

    bands: tuple[Band, ...]

    def band(self, name: str) -> Band:
        """The slice of that name; KeyError where these years have none."""
        for band in self.bands:
            if band.name == name:
                return band
        raise KeyError(name)


@record
class Parts(Dated):
    """Numbers by name that stand in proportion to each other, such as the bands of council tax."""

    parts: Mapping[str, Decimal]


@record
class DueDay(Dated):
    """A day by which something must be done for a tax year."""

    day: date


@record
class Update(DueDay):
    """A quarterly update: the day it falls due, and the days it covers by kind of quarter, standard or calendar."""

    covers: Mapping[str, Period]


@record
class EarlierContract:
    """A contract made before this day keeps the value that held until then; `choice` where its party may choose."""

    before: date
    choice: bool


def earlier_contract(topic: str, on: date) -> EarlierContract | None:
    """What the value in force on a day says of contracts made before it came in; None where it says nothing.

    NoFigure and KeyError as for figure.
    """
    entry = _in_force(topic, table(topic)["value"], on)
    day: date | None = entry.get("contract_before")
    return EarlierContract(day, entry.get("choice", False)) if day else None


def figure(topic: str, on: date | TaxYear) -> Figure:
    """The number that held on a day or in a tax year.

    NoFigure before the first day held; KeyError for an unknown topic; TypeError where the topic holds no
    numbers; ValueError where a whole tax year was asked about and the number changed within it.
    """
    value = _value(topic, on, "amount")
    return Figure(**_dated(topic, value, on), value=Decimal(value["amount"]))


def schedule(topic: str, on: date | TaxYear) -> Schedule:
    """The rates by slice that held on a day or in a tax year; errors as for figure."""
    value = _value(topic, on, "bands")
    return Schedule(**_dated(topic, value, on), bands=tuple(_band(row) for row in value["bands"]))


def parts(topic: str, on: date | TaxYear) -> Parts:
    """The numbers by name that held on a day or in a tax year; errors as for figure."""
    value = _value(topic, on, "parts")
    return Parts(**_dated(topic, value, on), parts={name: Decimal(text) for name, text in value["parts"].items()})


def due(topic: str, year: TaxYear) -> DueDay:
    """The day on which something falls due for a tax year; errors as for figure."""
    value = _value(topic, year, "month_day")
    return DueDay(**_dated(topic, value, year), day=_falls(value, year))


def update(number: int, year: TaxYear) -> Update:
    """Quarterly update 1, 2, 3 or 4 of a tax year; errors as for figure."""
    topic = f"digital.update_{number}"
    value = _value(topic, year, "month_day")
    covers = {kind: _covers(value[kind], year) for kind in ("standard", "calendar")}
    return Update(**_dated(topic, value, year), day=_falls(value, year), covers=covers)


def records_until(year: TaxYear) -> DueDay:
    """The day up to which the records of a tax year must be kept: so many years after its 31 January."""
    topic = "records.years"
    value = _value(topic, year, "amount")
    end = due("deadlines.return_online", year).day
    last = end.replace(year=end.year + int(value["amount"]))
    return DueDay(**{**_dated(topic, value, year), "unit": "day of the year"}, day=last)


def began(topic: str) -> date:
    """The first day for which anything is held; for a relief, the day it came in."""
    first: date = table(topic)["value"][0]["from"]
    return first


@cache
def checked_up_to() -> date:
    """The last day up to which every figure of a tax year was checked.

    A rate that may move on any day, such as interest, ends sooner and says so by itself where it is used.
    """
    return date.fromisoformat(kept("checked", text_of_all(), _checked))


def _checked() -> str:
    held = [table(topic) for topic in topics()]
    ends: list[date] = [whole["known"]["until"] for whole in held if whole["applies"] != "each day"]
    return min(ends).isoformat()


def checked_until(beginning: str) -> date:
    """The last day up to which every topic whose name begins so was checked; ValueError where there is none."""
    ends: list[date] = [table(topic)["known"]["until"] for topic in topics() if topic.startswith(beginning)]
    return min(ends)


def cite(name: str, paragraph: str, read: date | None) -> Citation:
    """A citation of a listed source; KeyError where it is not listed."""
    entry = source(name)
    return Citation(entry["title"], paragraph, entry.get("url", ""), read)


def _value(topic: str, on: date | TaxYear, key: str) -> Table:
    """The entry in force; a tax year must have one and the same entry on all its days."""
    entries: list[Table] = table(topic)["value"]
    if key not in entries[0]:
        raise TypeError(f"{topic} holds no {key}")
    if isinstance(on, TaxYear):
        first, last = (_in_force(topic, entries, day) for day in (on.period.first, on.period.last))
        if first is not last:
            raise ValueError(f"{topic} changed within {on}: ask about a day")
        return first
    return _in_force(topic, entries, on)


def _in_force(topic: str, entries: list[Table], day: date) -> Table:
    for entry in reversed(entries):
        if entry["from"] <= day:
            return entry
    first = day_words(entries[0]["from"])
    raise NoFigure(f"no figure for {topic} before {first}; you asked about {day_words(day)}")


def _falls(value: Table, year: TaxYear) -> date:
    return _on(value["month_day"], year.period.last.year + value["years_after"])


def _covers(ends: list[str], year: TaxYear) -> Period:
    """From a day of the spring in which the year begins to the first such day after it."""
    first, last = _on(ends[0], year.start), _on(ends[1], year.start)
    return Period(first, last if last > first else _on(ends[1], year.start + 1))


def _on(month_day: str, year: int) -> date:
    month, _, day = month_day.partition("-")
    return date(year, int(month), int(day))


def _band(row: Table) -> Band:
    return Band(row["name"], Decimal(row["rate"]), Decimal(row["to"]) if "to" in row else None)


def _dated(topic: str, value: Table, on: date | TaxYear) -> dict[str, Any]:
    """What a Dated holds, for one entry and the day or year asked about."""
    whole = table(topic)
    until: date = whole["known"]["until"]
    read: date | None = value.get("read")
    last = on.period.last if isinstance(on, TaxYear) else on
    return {
        "topic": topic,
        "about": whole["about"],
        "unit": whole["unit"],
        "since": value["from"],
        "known_until": until,
        "status": value["status"],
        "citation": cite(value["source"], value["at"], read),
        "checked": read is not None and last <= until,
        "beyond": last > until,
        "note": value.get("note", ""),
    }
