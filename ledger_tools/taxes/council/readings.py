"""How a council may have worked a bill out: the same days seen with less known, or more charged. Knows no layout.

A bill is one sum; which of these readings comes to it tells what the council took into account and what not.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date
from fractions import Fraction

from ...book.world import Scheme, SchemeRule, Step
from ...days import Period, TaxYear
from ...record import record
from .answers import Answers
from .bill import Rate, Schemes, Segment, Worked, rates, work_out
from .facts import Facts
from .premiums import LADDER
from .years import Run, days_of, first_after

# Shares of the charge a council may hold for all days of a bill, the most usual first.
FLAT = tuple(Fraction(percent, 100) for percent in (100, 50, 75, 0, 200, 300, 400))


@record
class Reading:
    """One way of working a bill out: its days with the share charged on each, and what is odd about the money.

    odd: "" or one of days-in-year, year-amount. flat: the one share charged on all days, where that is the reading.
    """

    charged: tuple[tuple[Segment, Fraction], ...]
    exact: Fraction
    odd: str = ""
    words: str = ""
    flat: Fraction | None = None


def readings(facts: Facts, schemes: Schemes, days: Period, answers: Answers) -> Iterator[Reading]:
    """From the most to the least likely; the first is as it should be."""
    views: list[tuple[Facts, Schemes]] = []
    for view in _views(facts, schemes, days.first):
        views += [view] if view not in views else []
    others = facts.ours.first > days.first or facts.ours.last is not None and facts.ours.last < days.last
    unowned = [(_always_ours(some, days.first), rules) for some, rules in views] if others else []
    seen, always = (
        [work_out(some, rules, days, Answers(answers.given)) for some, rules in listed] for listed in (views, unowned)
    )  # always: as if no day had been another owner's
    right = seen[0]
    for money in _moneys(facts, schemes, right):
        for worked, everyone in [*((w, False) for w in seen), *((w, True) for w in (*seen, *always))]:
            yield _reading(_side_by_side(right, worked, everyone), *money)
        if not money[1]:
            yield from _flat(schemes, right, *money)


def _views(facts: Facts, schemes: Schemes, day: date) -> Iterator[tuple[Facts, Schemes]]:
    """Facts and schemes with one thing after the other left out of account; then a home taken to have been empty for
    longer than it was."""
    no_works = replace(facts, works=(), needs=())
    no_market = replace(facts, to_let=(), for_sale=())
    unspared = replace(no_works, to_let=(), for_sale=(), no_premium=(), exempted=False, granted=(), one_counts=(),
                       none_counts=(), unbanded=())  # fmt: skip
    full = {key: _full(scheme) for key, scheme in schemes.items()}
    plain = {key: _full(scheme, premiums=False) for key, scheme in schemes.items()}
    yield facts, schemes
    yield replace(facts, granted=()), schemes
    if facts.empty_since and facts.empty_since < facts.ours.first:
        for whose in ("anew for each owner", "shared with earlier owner"):
            yield facts, {key: _whose(scheme, whose) for key, scheme in schemes.items()}
    yield replace(facts, excepted=False), schemes
    yield no_works, schemes
    yield no_market, schemes
    yield replace(facts, exempted=False, unbanded=()), schemes
    yield replace(facts, one_counts=(), none_counts=()), schemes
    yield replace(unspared, furnished=()), plain
    yield unspared, plain
    yield facts, full
    yield unspared, full
    yield unspared, schemes
    for years in LADDER:
        longer = first_after(day, -12 * years)
        yield replace(unspared, stays=(), lived=(), own_home=(), furnished=(), empty_since=longer), full


def _always_ours(facts: Facts, day: date) -> Facts:
    """As if no day had been another owner's; of days before anything is known, as if it had been empty by then."""
    empty = facts.empty_since
    known = not empty or empty <= day or any(s.begins < empty for s in facts.stays) or facts.lived or facts.own_home
    return replace(facts, ours=Run(date.min), empty_since=empty if known else day)


def _whose(scheme: Scheme, whose: str) -> Scheme:
    """A scheme whose free or reduced times run on from an earlier owner, or begin anew."""
    return replace(scheme, rules=tuple(replace(rule, whose_time=whose) for rule in scheme.rules))


def _full(scheme: Scheme, premiums: bool = True) -> Scheme:
    """A scheme that lets nothing off, with or without its premiums."""
    nothing = tuple(
        SchemeRule(kind, scheme.place, (Step(Fraction(0), None),)) for kind in ("empty", "furnished", "works")
    )
    kept = tuple(r for r in scheme.rules if r.kind in ("premium", "second homes"))
    if not premiums:
        none = Step(Fraction(0), None)
        kept = tuple(SchemeRule(kind, scheme.place, (none,)) for kind in ("premium", "second homes"))
    return replace(scheme, rules=(*nothing, *kept))


Annual = dict[TaxYear, tuple[Rate, ...]]


def _moneys(facts: Facts, schemes: Schemes, right: Worked) -> Iterator[tuple[Annual, str, str]]:
    """The annual charges a bill may rest on: the right ones, those of a year of the wrong length, another band's,
    another year's."""
    years = {segment.year for segment in right.segments}
    told = {year: rates(schemes, facts.council, facts.band, year, facts.nation) for year in years}
    yield told, "", ""
    yield told, "days-in-year", ""
    others = {band for scheme in schemes.values() for band in scheme.charges} - {facts.band}
    for band in sorted(others if facts.band else ()):
        other = {year: rates(schemes, facts.council, band, year, facts.nation) for year in years}
        if all(other.values()):
            yield other, "year-amount", f"band {band.upper()} in place of band {facts.band.upper()}"
    for shift in (-1, 1):
        other = {y: rates(schemes, facts.council, facts.band, TaxYear(y.start + shift), facts.nation) for y in years}
        if all(other.values()):
            yield other, "year-amount", f"the charge of another year, {TaxYear(min(years).start + shift)}"


def _flat(schemes: Schemes, right: Worked, told: Annual, odd: str, words: str) -> Iterator[Reading]:
    """One share held for all the days of the landlord, or of whomever, as where the discount of the first day is
    carried on to the last: those of the law, and each step of the schemes."""
    steps = {(r.kind, step.off) for scheme in schemes.values() for r in scheme.rules for step in r.steps}
    of_schemes = {1 + off if kind in ("premium", "second homes") else 1 - off for kind, off in steps}
    for share in (*FLAT, *sorted(of_schemes - set(FLAT))):
        for everyone in (False, True):
            charged = [(s, share if s.ours or everyone else Fraction(0)) for s in right.segments]
            yield replace(_reading(charged, told, odd, words), flat=share)


def _reading(pairs: Iterable[tuple[Segment, Fraction]], told: Annual, odd: str, words: str) -> Reading:
    charged: list[tuple[Segment, Fraction]] = []
    exact = Fraction(0)
    for segment, share in pairs:
        charged.append((segment, share))
        length = days_of(segment.year).days
        if odd == "days-in-year":
            length = 366 if length == 365 else 365
        for rate in told.get(segment.year, ()):
            part = Fraction(1) if rate.fixed and share else min(share, Fraction(1)) if rate.beside else share
            exact += Fraction(rate.annual) * part * segment.days.days / length
    return Reading(tuple(charged), exact, odd, words)


def _side_by_side(right: Worked, worked: Worked, everyone: bool) -> Iterator[tuple[Segment, Fraction]]:
    """The stretches as they should be, cut where the other working changes, with the share it charges. everyone: the
    days of other parties are charged in full too."""
    for segment in right.segments:
        for other in worked.within(segment.days).segments:
            mine = right.within(other.days).segments
            share = other.due.factor if other.ours else Fraction(1) if everyone else Fraction(0)
            for piece in mine:
                yield piece, share if share is not None else Fraction(0)
