"""The days on which the state of a home may change, so that the days between need not be looked at one by one.

Too many days cost a little time, one too few would be a mistake: a test holds the outcome against every single day.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from functools import lru_cache

from ...book.world import Scheme, SchemeRule, Span
from ...days import Period, TaxYear
from .facts import Facts
from .premiums import LADDER
from .timeline import Home
from .years import DAY, Run, figure, first_after, length

# Months after which some rule of law may turn; each is the value of a figure or a rung of the premium.
MONTHS = frozenset((months, 0) for months in (2, 3, 6, *(12 * years for years in LADDER)))


def change_days(home: Home, schemes: Mapping[tuple[str, TaxYear], Scheme], span: Period) -> list[date]:
    """Days of a span on which something may begin, in order, the first day of the span among them."""
    starts = set(_told(home.facts)) | {stretch.first for stretch in home.stretches}
    rules = [r for (council, _), s in schemes.items() if council == home.facts.council for r in s.rules]
    starts |= {r.stops + DAY for r in rules if r.stops} | {r.since for r in rules if r.since}
    starts |= {date(year, 4, 1) for year in range(span.first.year, span.last.year + 1)}
    assured = figure("england", "assured_interest_months", span.last)
    if assured is not None:
        starts.add(assured.since)
    lengths = MONTHS | {length(spans) for r in rules for spans in _lengths(r)}
    found = {span.first} | starts
    for start in starts:
        if start.year > 1:
            found |= _turns(start, lengths)
    return sorted(day for day in found if day in span)


@lru_cache(maxsize=1 << 14)  # homes of one landlord have many days in common
def _turns(start: date, lengths: frozenset[tuple[int, int]]) -> frozenset[date]:
    """The first days after some lengths of time from a day, in months and days, and the last days of these."""
    ends = [first_after(start, months, days) for months, days in lengths]
    return frozenset([*ends, *(end - DAY for end in ends)])


def _told(facts: Facts) -> Iterator[date]:
    """Every day the facts name, and the day after it."""
    runs: list[Run] = [facts.ours, *facts.lived, *facts.own_home, *facts.works, *facts.needs, *facts.to_let]
    runs += [
        *facts.for_sale,
        *facts.no_premium,
        *facts.one_counts,
        *facts.none_counts,
        *facts.hmo,
        *facts.unbanded,
        *(run for run, _ in facts.furnished),
        *(run for run, *_ in facts.exempt),
    ]
    runs += [Run(grant.days.first, grant.days.last) for grant in facts.granted]
    for stay in facts.stays:
        runs += [run for run in (stay.lives, stay.held) if run]
        runs += [Run(day, day) for day in (stay.begins, stay.left, stay.notice, stay.ended) if day]
        runs += [Run(stay.term.first, stay.term.last)] if stay.term else []
    runs += [Run(day, day) for day in (facts.empty_since, facts.died, facts.probate) if day]
    for run in runs:
        yield run.first
        if run.first > date.min:
            yield run.first + DAY
        if run.last is not None and run.last < date.max:
            yield run.last + DAY


def _lengths(rule: SchemeRule) -> Iterable[list[Span]]:
    """The lengths of time after which a rule of a scheme turns, from its start."""
    waits = [rule.waits] if rule.waits else []
    steps = [step.span for step in rule.steps if step.span]
    yield waits
    for number in range(len(steps)):
        yield [*waits, *steps[: number + 1]]  # a ladder goes on from step to step
        yield [*waits, steps[number]]  # a premium counts each from the start
    yield from ([span] for span in (rule.tail, *(span for _, span, _ in rule.exceptions)) if span)
