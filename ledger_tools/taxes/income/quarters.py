"""The digital quarterly updates: which days each covers, and the body that is sent.

Sums come in as pence by category. Knows no book, no clock and no file. Sources: the Income Tax (Digital Obligations)
Regulations 2026 (SI 2026/336) for days; the tax authority's published schema of the property service, version 6.0, for
the names of fields and their limits (read 25 Nov 2026).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta

from ... import law
from ...days import Period, TaxYear
from ...record import record

ITEMISED_APART = ("finance_residential", "finance_brought", "rent_a_room")  # sent beside a single total of expenses
Body = dict[str, "str | int | Body"]  # whole numbers are pence


@record
class Update:
    """Update 1 to 4 of a year: the days it covers, the first day it may be sent, the day it is due."""

    number: int
    year: TaxYear
    kind: str  # "standard" or "calendar"
    period: Period
    early: date
    due: date
    checked: bool


def update(number: int, year: TaxYear, kind: str, before: str) -> Update:
    """Update `number` of a year cut by `kind` of quarters, after a year cut as `before` ("" for a first year).

    Every update begins with the year and replaces the one before it. Whoever changes from standard to calendar begins
    on 6 April once more, so that no day counts twice, and back again on 1 April, so that none is lost (regs. 12, 13).
    law.NoFigure before the first year that has updates.
    """
    found = law.update(number, year)
    period = found.covers[kind]
    if before:
        first = law.update(number, year).covers[before].first
        period = replace(period, first=first)
    early = law.figure("digital.early_days", max(year.period.first, law.began("digital.early_days"))).whole
    return Update(number, year, kind, period, period.last - timedelta(days=early), found.day, found.checked)


def required_from() -> TaxYear:
    """The first tax year in which anybody must give updates."""
    return TaxYear.of(law.began("digital.income_limit"))


def body(period: Period, sums: Mapping[str, int], year: TaxYear, one_total: bool) -> Body:
    """The body of a cumulative update: pence by category into the fields of the service.

    With `one_total` all expenses but residential finance stand in one field. A year without any sum says so with rents
    of nil: the service refuses an empty body.
    """
    found: Body = {}
    total = 0
    for category in law.categories(year):
        amount = sums.get(category.slug, 0)
        if not amount or category.sent != "quarter" or not law.field_for(category.slug, year):
            continue
        if one_total and joins_total(category.slug, category.field):
            total += amount
        else:
            put(found, category.field, amount)
    if total:
        put(found, str(law.field_for("consolidated", year)), total)
    if not found:
        put(found, str(law.field_for("rent", year)), 0)
    return {"fromDate": period.first.isoformat(), "toDate": period.last.isoformat(), "ukProperty": found}


def annual_body(sums: Mapping[str, int], year: TaxYear, allowance: bool) -> Body:
    """The body of the yearly submission: what no quarterly update takes; empty where there is nothing to send.

    With the property income allowance nothing else may be claimed.
    """
    found: Body = {}
    for category in law.categories(year):
        amount = sums.get(category.slug, 0)
        if amount and category.sent == "year end" and (not allowance or category.slug == "property_allowance"):
            put(found, str(law.field_for(category.slug, year)), amount)
    return {"ukProperty": found} if found else {}


def joins_total(category: str, field: str) -> bool:
    """Whether an expense is part of the single total, where one is sent."""
    return field.startswith("expenses.") and category not in ITEMISED_APART


def put(into: Body, field: str, amount: int) -> None:
    """Add an amount at a field such as "income.rentARoom.rentsReceived", making what is above it."""
    *above, name = field.split(".")
    for step in above:
        inner = into.setdefault(step, {})
        assert isinstance(inner, dict)
        into = inner
    held = into.get(name, 0)
    assert isinstance(held, int)
    into[name] = held + amount
