"""The council tax of a home as it should be: stretches of days of one state, each with its money. Knows no layout.

Every amount is an exact fraction of the annual charge, rounded once a stretch, half a penny up.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from fractions import Fraction

from ... import law
from ...book.council_bills import TAX
from ...book.world import Scheme, SchemeRule
from ...days import Period, TaxYear
from ...money import round_half_up
from ...record import record
from .answers import Answers
from .changes import change_days
from .charges import LIVED, Due, due
from .facts import Facts
from .liability import US, Liable, liable
from .timeline import Home
from .years import DAY, council_year, days_of

Schemes = Mapping[tuple[str, TaxYear], Scheme]


@record
class Rate:
    """A line of the annual charge in pence; fixed where no discount touches it, beside where it is no council tax."""

    name: str
    annual: int
    beside: bool = False
    fixed: bool = False

    def factor(self, due: Due) -> Fraction:
        """The share of it that is due in a state: premiums touch council tax alone, exemptions everything."""
        assert due.factor is not None
        if due.exempt:
            return due.factor
        if self.fixed and due.state != LIVED:
            return Fraction(1)
        return min(due.factor, Fraction(1)) if self.beside else due.factor


@record
class Segment:
    """Days of one party, state and share of the charge within one council year.

    rates: the lines of the annual charge, none where the book has none for the band and year. reasons: what held, from
    which day on; the share is the same throughout, the reason for it may change.
    """

    days: Period
    year: TaxYear
    liable: Liable
    due: Due
    rates: tuple[Rate, ...] = ()
    reasons: tuple[tuple[date, Due], ...] = ()

    @property
    def ours(self) -> bool:
        """Whether the landlord answers for these days."""
        return self.liable.party == US

    @property
    def known(self) -> bool:
        """Whether the money is known: where another party answers, it is nil."""
        return not self.ours or self.due.exempt or self.due.factor is not None and bool(self.rates)

    @property
    def exact(self) -> Fraction:
        """What the landlord owes, in pence and exact; nil where it is not known."""
        return sum((share for _, share in self.lines), Fraction(0))

    @property
    def lines(self) -> tuple[tuple[str, Fraction], ...]:
        """The same line by line: council tax, then what is charged beside it."""
        if not self.ours or not self.known or self.due.factor is None:
            return ()
        return tuple((r.name, share_of_year(r.annual, self.days, r.factor(self.due))) for r in self.rates)

    @property
    def pence(self) -> int:
        """The same in whole pence, each line rounded once, half a penny up."""
        return sum(round_half_up(share) for _, share in self.lines)

    @property
    def full(self) -> Fraction:
        """What the full charge of these days would be, whoever answers; exact pence."""
        return sum((share_of_year(r.annual, self.days, Fraction(1)) for r in self.rates), Fraction(0))


@record
class Worked:
    """A home's days worked out: its stretches in order, without gaps."""

    segments: tuple[Segment, ...]

    @property
    def pence(self) -> int:
        """All that the landlord owes, as far as it is known."""
        return sum(segment.pence for segment in self.segments)

    @property
    def exact(self) -> Fraction:
        """The same before rounding."""
        return sum((segment.exact for segment in self.segments), Fraction(0))

    @property
    def known(self) -> bool:
        """Whether every stretch of the landlord's has its money."""
        return all(segment.known for segment in self.segments)

    def within(self, days: Period) -> Worked:
        """The same cut to some days."""
        cut = ((s, s.days.overlap(days)) for s in self.segments)
        return Worked(tuple(_cut(s, both) for s, both in cut if both is not None))


def _cut(segment: Segment, days: Period) -> Segment:
    held = [one for one in segment.reasons if one[0] <= days.first][-1:]
    later = [one for one in segment.reasons if days.first < one[0] <= days.last]
    reasons = ((days.first, held[0][1]), *later) if held else tuple(later)
    return replace(segment, days=days, due=reasons[0][1] if reasons else segment.due, reasons=reasons)


def share_of_year(annual: int, days: Period, factor: Fraction) -> Fraction:
    """A share of annual pence for some days of one council year, exact; the year has 365 or 366 days."""
    return Fraction(annual) * factor * days.days / days_of(council_year(days.first)).days


def rates(schemes: Schemes, council: str, band: str, year: TaxYear, nation: str) -> tuple[Rate, ...]:
    """The lines of the annual charge of a band; from another band by the parts of the Act where only that one is told,
    none where the book tells none."""
    scheme = schemes.get((council, year))
    if scheme is None:
        return ()
    if band not in scheme.charges:
        return _from_another_band(scheme, band, nation)
    beside = scheme.parts.get(band, ())
    return (
        Rate(TAX, scheme.charges[band]),
        *(Rate(name, pence, beside=True, fixed=name in scheme.never_reduced) for name, pence in beside),
    )


def _from_another_band(scheme: Scheme, band: str, nation: str) -> tuple[Rate, ...]:
    """Half a penny rounds up. What is charged beside council tax follows the same parts."""
    topic = f"council_{nation}.band_parts"
    if topic not in law.topics():
        return ()
    parts = law.parts(topic, days_of(scheme.year).first).parts
    told = next((known for known in sorted(scheme.charges) if known in parts), None)
    if band not in parts or told is None:
        return ()
    share = Fraction(parts[band]) / Fraction(parts[told])
    beside = scheme.parts.get(told, ())
    return (
        Rate(TAX, round_half_up(scheme.charges[told] * share)),
        *(Rate(n, round_half_up(p * share), beside=True, fixed=n in scheme.never_reduced) for n, p in beside),
    )


def work_out(facts: Facts, schemes: Schemes, span: Period, answers: Answers, each_day: bool = False) -> Worked:
    """Every day of a span, in stretches of equal state, split at each 1 April; days before anything is known are the
    earlier owner's, or left out where the book tells of none. Of the answers, those that were asked for are recorded.
    each_day looks at every single day, for tests."""
    schemes = _for_house(schemes, facts.house)
    horizon = days_of(council_year(span.last)).last
    home = Home(facts, answers, horizon)
    if home.origin is None:
        return Worked(())
    first = span.first if span.first < facts.ours.first else max(span.first, home.origin)
    if first > span.last:
        return Worked(())
    rest = Period(first, span.last)
    days = [first + n * DAY for n in range(rest.days)] if each_day else change_days(home, schemes, rest)
    found: list[tuple[TaxYear, Liable, list[tuple[date, Due]]]] = []
    for day in days:
        year, (who, state) = council_year(day), _state(home, schemes, day)
        if not found or found[-1][:2] != (year, who) or not _same(found[-1][2][-1][1], state):
            found.append((year, who, [(day, state)]))
        elif found[-1][2][-1][1] != state:
            found[-1][2].append((day, state))
    begins = [reasons[0][0] for _, _, reasons in found] + [span.last + DAY]
    council, band, nation = home.facts.council, home.facts.band, home.facts.nation
    return Worked(tuple(
        Segment(Period(first, following - DAY), year, who, reasons[0][1],
                rates(schemes, council, band, year, nation), tuple(reasons))
        for (year, who, reasons), first, following in zip(found, begins, begins[1:], strict=False)
    ))  # fmt: skip


def _for_house(schemes: Schemes, house: str) -> Schemes:
    """The schemes with the rules that are for this house, those for it alone before those for all."""
    if not any(rule.only_at for scheme in schemes.values() for rule in scheme.rules):
        return schemes
    return {key: replace(scheme, rules=_rules_for(scheme, house)) for key, scheme in schemes.items()}


def _rules_for(scheme: Scheme, house: str) -> tuple[SchemeRule, ...]:
    here = (rule for rule in scheme.rules if not rule.only_at or house in rule.only_at)
    return tuple(sorted(here, key=lambda rule: not rule.only_at))


def _state(home: Home, schemes: Schemes, day: date) -> tuple[Liable, Due]:
    """Who answers at the end of a day, and what is due where that is the landlord."""
    council, who = home.facts.council, liable(home, day)
    return who, due(home, lambda on: schemes.get((council, council_year(on))), day) if who.party == US else OTHERS


OTHERS = Due("not yours", Fraction(0), "")


def _same(a: Due, b: Due) -> bool:
    return (a.state, a.factor, a.exempt) == (b.state, b.factor, b.exempt)
