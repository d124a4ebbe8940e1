"""The life of one home as stretches of days of one state, at the end of each day. Knows no rate and no scheme."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterable, Iterator
from datetime import date
from functools import cached_property

from ...record import record
from .answers import Answers
from .facts import Facts, Stay
from .years import DAY, Run, first_after, whole

LONG = 12  # years: longer than any ladder


@record
class Stretch:
    """Days of one state: lived in or not; furnished or not (of no matter while lived in)."""

    first: date
    last: date
    lived: bool
    furnished: bool

    @property
    def empty(self) -> bool:
        """Nobody living there and no furniture to speak of."""
        return not self.lived and not self.furnished

    @property
    def days(self) -> int:
        """How many."""
        return (self.last - self.first).days + 1


class Home:
    """The facts of a home with the answers taken where they say nothing, up to a last day of interest."""

    def __init__(self, facts: Facts, answers: Answers, horizon: date) -> None:
        self.facts, self.answers, self.horizon = facts, answers, horizon

    # ── states ───────────────────────────────────────────────────────────────────────────────────────────────

    def stays_on(self, day: date) -> list[Stay]:
        """The lets of which somebody lived there at the end of a day."""
        return [s for s in self.facts.stays if s.lives is not None and day in s.lives and self._resides(s, day)]

    def _resides(self, stay: Stay, day: date) -> bool:
        """A company lives nowhere: who does is asked where its let is too short for the company to answer."""
        if not stay.company or stay.long_term(whole(self.facts.nation, "interest_term_months", day)):
            return True
        return self.answers.take("company") == "somebody"

    def lived(self, day: date) -> bool:
        """Whether anybody lived there at the end of a day."""
        runs = (*self.facts.lived, *self.facts.own_home)
        return any(day in run for run in runs) or bool(self.stays_on(day)) or self.before_empty(day)

    def before_empty(self, day: date) -> bool:
        """Whether it lies between the last let told and the day it became empty: then somebody lived there up to that
        day, unless it stood furnished."""
        empty = self.facts.empty_since
        if empty is None or day >= empty or self._furnished_told(day):
            return False
        told = [run for run in (*self.facts.lived, *self.facts.own_home, *self._lives()) if run.first < empty]
        return all(run.last is not None and run.last < day for run in told)

    def _lives(self) -> list[Run]:
        return [stay.lives for stay in self.facts.stays if stay.lives]

    def _furnished_told(self, day: date) -> bool | None:
        """The latest spell begun by then decides; once it has ended, it is the other way round."""
        found: tuple[Run, bool] | None = None
        for run, furnished in self.facts.furnished:
            if run.first <= day and (found is None or run.first >= found[0].first):
                found = run, furnished
        if found is None:
            return False if self.facts.empty_since and self.facts.empty_since <= day else None
        run, furnished = found
        return furnished if day in run else not furnished

    def furnished(self, day: date) -> bool:
        """Whether it stood furnished; asked where the book does not tell."""
        told = self._furnished_told(day)
        if told is None and day < self.facts.ours.first:
            return False  # since when it was empty is asked instead
        return self.answers.take("furnished") == "furnished" if told is None else told

    # ── stretches ────────────────────────────────────────────────────────────────────────────────────────────

    @cached_property
    def origin(self) -> date | None:
        """The first day of which anything is known or taken as known."""
        f = self.facts
        told = [f.empty_since, f.died, *(run.first for run in (*f.lived, *f.own_home))]
        told += [run.first for run, _ in f.furnished] + [stay.begins for stay in f.stays]
        known = min((day for day in told if day), default=None)
        first = f.ours.first
        if first == date.min:
            return known
        if f.empty_since is None and (known is None or known >= first and not self.lived(first)):
            return first if self.answers.take("since") == "bought" else first_after(first, -12 * LONG)
        return min(day for day in (known, first) if day)

    def _changes(self) -> set[date]:
        f = self.facts
        runs: list[Run] = [*f.lived, *f.own_home, *(run for run, _ in f.furnished)]
        runs += self._lives()
        days = {run.first for run in runs} | {run.last + DAY for run in runs if run.last}
        return days | {d for d in (f.ours.first, f.empty_since) if d and d != date.min}

    @cached_property
    def stretches(self) -> tuple[Stretch, ...]:
        """From the first day known to the horizon, without gaps; neighbours differ."""
        start = self.origin
        if start is None or start > self.horizon:
            return ()
        days = sorted({start} | {d for d in self._changes() if start < d <= self.horizon})
        found: list[Stretch] = []
        for first, following in zip(days, [*days[1:], self.horizon + DAY], strict=True):
            lived = self.lived(first)
            furnished = False if lived else self.furnished(first)
            before = found[-1] if found else None
            if before and (before.lived, before.furnished) == (lived, furnished):
                found[-1] = Stretch(before.first, following - DAY, lived, furnished)
            else:
                found.append(Stretch(first, following - DAY, lived, furnished))
        return tuple(found)

    def at(self, day: date) -> int:
        """The number of the stretch a day lies in; -1 before the first."""
        return bisect_right([stretch.first for stretch in self.stretches], day) - 1

    def state(self, day: date) -> Stretch | None:
        """The stretch a day lies in; None before anything is known."""
        number = self.at(day)
        return self.stretches[number] if number >= 0 else None

    # ── looking back ─────────────────────────────────────────────────────────────────────────────────────────

    def began(
        self, day: date, fits: Callable[[Stretch], bool], overlooked: Callable[[tuple[Stretch, ...], int], bool]
    ) -> date:
        """The first day of the state a day is in, looking back over spells of another that are overlooked.

        overlooked is handed a spell (its stretches, and how many were overlooked before) and says whether it counts
        for nothing. The day must fit. Whether a home put back into the valuation list begins anew is asked.
        """
        first = self._began(day, fits, overlooked)
        back = [run.last + DAY for run in self.facts.unbanded if run.last and first <= run.last < day]
        anew = bool(back) and self.answers.take("banded again") == "anew"
        return max(back) if anew else first

    def _began(
        self, day: date, fits: Callable[[Stretch], bool], overlooked: Callable[[tuple[Stretch, ...], int], bool]
    ) -> date:
        number = self.at(day)
        first = self.stretches[number].first
        passed = 0
        while number > 0:
            number -= 1
            if fits(self.stretches[number]):
                first = self.stretches[number].first
                continue
            last = number
            while number >= 0 and not fits(self.stretches[number]):
                number -= 1
            block = self.stretches[number + 1 : last + 1]
            if number < 0 or not overlooked(block, passed):
                return first
            passed += 1
            first = self.stretches[number].first
        return first

    def empty_runs(self) -> Iterator[Run]:
        """Every run of days nobody lived there, furnished or not."""
        first: date | None = None
        for stretch in self.stretches:
            if stretch.lived and first is not None:
                yield Run(first, stretch.first - DAY)
                first = None
            elif not stretch.lived and first is None:
                first = stretch.first
        if first is not None:
            yield Run(first)


def length(block: Iterable[Stretch]) -> int:
    """The days of a spell."""
    return sum(stretch.days for stretch in block)


def is_empty(stretch: Stretch) -> bool:
    """For looking back over empty, unfurnished days."""
    return stretch.empty


def not_lived(stretch: Stretch) -> bool:
    """For looking back over days nobody lived there."""
    return not stretch.lived
