"""How long a home has been empty, worked on or on the market, as each rule counts it. Knows no percentages."""

from __future__ import annotations

from datetime import date

from ...book.world import SchemeRule
from .timeline import Home, Stretch, is_empty, length, not_lived
from .years import DAY, Run, after_spans, first_after, whole


def long_empty_since(home: Home, day: date) -> date:
    """From when the time that leads to the premium runs: it belongs to the home, whoever owned it, and short spells of
    being lived in or furnished do not stop it, however many."""
    nation = home.facts.nation
    short = 7 * whole(nation, "short_spell_weeks", day) - (1 if nation == "scotland" else 0)
    return home.began(day, is_empty, lambda block, _: length(block) <= short)


def short_gap(home: Home, day: date) -> int:
    """How many days one spell of not being empty may have that does not break the time of a class."""
    return 7 * whole(home.facts.nation, "short_gap_weeks", day)


def exempt_since(home: Home, day: date) -> date:
    """From when an exemption of empty homes runs: one short spell is overlooked, in Scotland any that is shorter."""
    scotland = home.facts.nation == "scotland"
    short = short_gap(home, day) - (1 if scotland else 0)
    return home.began(day, is_empty, lambda block, passed: length(block) <= short and (scotland or not passed))


def reduced_since(home: Home, day: date, rule: SchemeRule) -> date:
    """From when a council's free or reduced time for empty homes runs, by the words of its scheme."""
    start = home.began(day, is_empty, lambda block, _: not _begins_anew(home, block, rule))
    ours = home.facts.ours.first
    if start >= ours or rule.whose_time == "shared with earlier owner":
        return start
    anew = rule.whose_time == "anew for each owner" or home.answers.take("whose time") == "owner"
    return ours if anew else start


def _begins_anew(home: Home, block: tuple[Stretch, ...], rule: SchemeRule) -> bool:
    """Whether a spell between two voids was long enough for the reduction to begin again."""
    if rule.again is None:
        lived = length(stretch for stretch in block if stretch.lived)
        if not lived:
            return False
        return lived > short_gap(home, block[0].first) or home.answers.take("again") == "anew"
    more, span = rule.again
    runs = [block] if rule.again_furnished else [(stretch,) for stretch in block if stretch.lived]
    for run in runs:
        first, end = run[0].first, run[-1].last + DAY
        needed = after_spans(first, (span,))
        if end > needed or end == needed and not more:
            return True
    return False


def furnished_since(home: Home, day: date, rule: SchemeRule) -> date:
    """From when a reduction for furnished homes nobody lives in runs: since somebody last lived there, for long enough
    where the scheme says how long."""
    if rule.again is None:
        return unlived_since(home, day)
    return home.began(day, not_lived, lambda block, _: not _begins_anew(home, block, rule))


def unlived_since(home: Home, day: date) -> date:
    """From when nobody has lived there."""
    return home.began(day, not_lived, lambda block, _: False)


# ── works ────────────────────────────────────────────────────────────────────────────────────────────────────────


def _works_runs(home: Home, day: date) -> list[Run]:
    """The days of the class of major works, whatever else holds: needed, going on, and the tail after they were done.
    Scotland counts no need."""
    facts = home.facts
    tail = whole(facts.nation, "works_tail_months", day)
    runs = [Run(w.first, first_after(w.last + DAY, tail) - DAY if w.last else None) for w in facts.works]
    if facts.nation != "scotland":
        runs += facts.needs
    runs.sort(key=lambda run: run.first)
    joined: list[Run] = []
    for run in runs:
        before = joined[-1] if joined else None
        if before and (before.last is None or run.first <= before.last + DAY):
            ends = None if before.last is None or run.last is None else max(before.last, run.last)
            joined[-1] = Run(before.first, ends)
        else:
            joined.append(run)
    return joined


def works_since(home: Home, day: date) -> date | None:
    """From when an empty home has been in the class of major works without a break (one short spell of not being
    empty is overlooked); None where it is not in it on the day."""
    state = home.state(day)
    run = next((run for run in _works_runs(home, day) if day in run), None)
    if state is None or not state.empty or run is None:
        return None
    empty = home.began(day, is_empty, lambda block, passed: not passed and length(block) <= short_gap(home, day))
    if _may_have_needed_before(home, run, empty) and home.answers.take("works before") == "empty":
        return empty
    return max(run.first, empty)


def _may_have_needed_before(home: Home, run: Run, empty: date) -> bool:
    """Whether the need of works is told from the very day it became the landlord's, though it was empty before: the
    class belongs to the home, and the seller's days may have used some of it up."""
    return run.first == home.facts.ours.first > empty and home.facts.nation != "scotland"


def in_works_class(home: Home, day: date) -> date | None:
    """The same, none once a year has been used up. Scotland counts that year from the last day it was lived in."""
    since = works_since(home, day)
    if since is None:
        return None
    start = exempt_since(home, day) if home.facts.nation == "scotland" else since
    return since if day < first_after(start, whole(home.facts.nation, "works_months", day)) else None


def works_finished(home: Home, day: date) -> date | None:
    """The last day of works that were done by a day."""
    ends = [run.last for run in home.facts.works if run.last and run.last < day]
    return max(ends, default=None)


# ── the market ───────────────────────────────────────────────────────────────────────────────────────────────────


def offered_since(home: Home, day: date, runs: tuple[Run, ...]) -> date | None:
    """From when it was on the market, first in this void: from the day the run began, though somebody lived there
    then; None where it is not on the market on the day."""
    if not any(day in run for run in runs):
        return None
    void = unlived_since(home, day)
    return min(run.first for run in runs if run.last is None or run.last >= void)


def year_on_market_used(before: date, runs: tuple[Run, ...], months: int) -> bool:
    """Whether a time on the market that ended before a day had lasted for the whole time an exception may have."""
    ended = [run for run in runs if run.last is not None and run.last < before]
    return any(run.last and run.last + DAY >= first_after(run.first, months) for run in ended)


def while_unlived(home: Home, runs: tuple[Run, ...]) -> tuple[Run, ...]:
    """The days of these runs on which nobody lived there: a home that is let is no longer on the market to let."""
    both = ((run, void) for run in runs for void in home.empty_runs())
    cut = (Run(max(r.first, v.first), min((d for d in (r.last, v.last) if d), default=None)) for r, v in both)
    return tuple(sorted((c for c in cut if c.last is None or c.first <= c.last), key=lambda run: run.first))
