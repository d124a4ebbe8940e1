"""The premium on long-empty and second homes, and what it is not charged on. Knows the scheme, not the money."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from fractions import Fraction

from ...book.world import Scheme, SchemeRule, Span
from ...record import record
from . import clocks
from .timeline import Home
from .years import DAY, Run, after_spans, figure, first_after, whole

LONG_EMPTY = {"england": "LGFA 1992 s. 11B", "wales": "LGFA 1992 s. 12A", "scotland": "SSI 2013/45"}
SECOND_HOME = {"england": "LGFA 1992 s. 11C", "wales": "LGFA 1992 s. 12B", "scotland": "SSI 2023/389"}
LADDER = (10, 5, 2, 1)  # years of being empty at which the law sets a ceiling


@record
class Premium:
    """What is charged on top, as a share of the charge; why, and where it stands. cut: what the scheme says where the
    law allows less. second: whether it is that of second homes."""

    share: Fraction
    why: str
    law: str
    cut: Fraction | None = None
    second: bool = False


@record
class Spared:
    """Why no premium is charged: in words, the authority, the name of the class, its last day as things stand."""

    why: str
    law: str
    name: str
    until: date | None = None


def rule(scheme: Scheme, kind: str) -> SchemeRule | None:
    """The rule of a scheme of one kind, if it has one."""
    return next((r for r in scheme.rules if r.kind == kind), None)


def most_after(nation: str, since: date, day: date) -> tuple[Fraction, str] | None:
    """The most the law lets a council charge on top on a day for a home empty since another, and where it says so;
    nothing where it may charge none yet. None where no ceiling is held (Scotland)."""
    held = False
    for years in LADDER:
        found = figure(nation, f"premium_most_{years}", day)
        held = held or found is not None
        if found is not None and day >= first_after(since, 12 * years):
            return Fraction(found.value), str(found.citation)
    return (Fraction(0), "LGFA 1992 s. 11B") if held or nation == "england" else None


def on_long_empty(home: Home, scheme: Scheme, day: date) -> Premium | None:
    """The premium of a day on a long-empty home, exceptions aside; a furnished one too where it is no second home."""
    state = home.state(day)
    furnished = state is not None and state.furnished
    since = clocks.unlived_since(home, day) if furnished else clocks.long_empty_since(home, day)
    counted = since - DAY if _day_early(home, scheme, since, day) else since
    most = most_after(home.facts.nation, counted, day)
    told = rule(scheme, "premium")
    if told is None:
        asked = most is not None and most[0] > 0 and day >= home.facts.ours.first
        if not asked or most is None or home.answers.take("premium untold") == "none":
            return None
        law = LONG_EMPTY.get(home.facts.nation, "the council's scheme")
        return Premium(most[0], f"empty since {_words(since)}, and the most the law allows is charged", law)
    share = Fraction(0)
    for step in told.steps:
        if step.span is not None and day >= after_spans(counted, (step.span,)):
            share = max(share, step.off)
    if not share:
        return None
    why = f"empty since {_words(since)}, whoever owned it"
    if most is not None and share > most[0]:
        return Premium(most[0], why, most[1], cut=share)
    return Premium(share, why, LONG_EMPTY.get(home.facts.nation, "the council's scheme"))


def _day_early(home: Home, scheme: Scheme, since: date, day: date) -> bool:
    """Asked only on the one day it is about."""
    told = rule(scheme, "premium")
    spans = [s.span for s in told.steps if s.span] if told else []
    eves = {after_spans(since, (span,)) - DAY for span in spans}
    return day in eves and home.answers.take("premium day") == "day before"


def on_second_home(home: Home, scheme: Scheme, day: date) -> Premium | None:
    """The premium of a day on a furnished home nobody lives in, exceptions aside."""
    told = rule(scheme, "second homes")
    ceiling = figure(home.facts.nation, "second_home_most", day)
    either = home.facts.nation == "scotland" and (told or rule(scheme, "premium"))
    if either and home.answers.take("scottish second home") == "no":
        return on_long_empty(home, scheme, day)
    if told is None:
        if ceiling is None or rule(scheme, "furnished") or home.answers.take("second homes untold") == "none":
            return None
        law = SECOND_HOME.get(home.facts.nation, "")
        return Premium(Fraction(ceiling.value), "furnished with nobody living there", law, second=True)
    if told.since is not None and day < told.since:
        return None
    since = clocks.unlived_since(home, day)
    if told.waits is not None and day < after_spans(since, (told.waits,)):
        return None
    share = told.steps[0].off
    for step in told.steps[1:]:
        if step.span is not None and day >= after_spans(since, (step.span,)):
            share = step.off
    law = SECOND_HOME.get(home.facts.nation, "the council's scheme")
    why = f"furnished with nobody living there since {_words(since)}"
    if home.facts.nation in ("england", "wales") and (ceiling is None or _too_late(home, told, scheme, day)):
        return Premium(Fraction(0), why, "LGFA 1992 s. 11C(3)", cut=share, second=True)
    if ceiling is not None and share > Fraction(ceiling.value):
        return Premium(Fraction(ceiling.value), why, law, cut=share, second=True)
    return Premium(share, why, law, second=True)


def _too_late(home: Home, told: SchemeRule, scheme: Scheme, day: date) -> bool:
    """A council's first decision on second homes must come a year before the year it is for."""
    if told.decided is None or told.since is None:
        return False
    notice = figure(home.facts.nation, "second_home_notice_years", day)
    return notice is not None and told.decided > first_after(date(scheme.year.start, 4, 1), -12 * notice.whole)


def _words(day: date) -> str:
    from ...days import day_words

    return day_words(day)


# ── what no premium is charged on ────────────────────────────────────────────────────────────────────────────────


def spared(home: Home, scheme: Scheme, day: date, second: bool) -> Spared | None:
    """Why no premium is charged on a day, by the law of the nation or the council's own scheme; None where it is."""
    return next(_reasons(home, scheme, day, second), None) if home.facts.excepted else None


def _reasons(home: Home, scheme: Scheme, day: date, second: bool) -> Iterator[Spared]:
    facts = home.facts
    if any(day in run for run in facts.no_premium):
        yield Spared("the council agrees that none is due", "the class your book tells", "no premium")
    for name, words in (("sale", "on the market for sale"), ("let", "on the market to let")):
        found = figure(facts.nation, f"exception_{name}_months", day)
        if found is not None:
            yield from _offered(home, day, name, words, found.whole, str(found.citation))
    works = figure(facts.nation, "exception_works_months", day)
    if works is not None:  # a furnished home is never in that class
        since = clocks.in_works_class(home, day)
        if since is not None:
            yield Spared("it needs or undergoes major works", str(works.citation), "works",
                         first_after(since, works.whole) - DAY)  # fmt: skip
    probate = figure(facts.nation, "exception_probate_months", day)
    if probate is not None and facts.probate and _estate(home, day, first_after(facts.probate, probate.whole)):
        yield Spared("it was exempt since its owner died", str(probate.citation), "probate")
    told = rule(scheme, "second homes" if second else "premium")
    for what, span, _ in told.exceptions if told else ():
        yield from _local(home, day, what, span)


def _offered(home: Home, day: date, name: str, words: str, months: int, law: str) -> Iterator[Spared]:
    """A year from the first day on the market, which only a sale, or of a home to let a let for a term, begins anew.
    Whether the rest of it, or a whole one, is left where it came off the market before that is asked."""
    runs = _since_bought(home) if name == "sale" else clocks.while_unlived(home, home.facts.to_let)
    since = clocks.offered_since(home, day, runs)
    if since is None:
        return
    if name == "let":
        anew = _let_anew(home, day)
        runs = tuple(run for run in runs if anew is None or run.first >= anew)
    first = min(run.first for run in runs)
    if day >= first_after(first, months):
        over = day >= first_after(since, months) or clocks.year_on_market_used(since, runs, months)
        if since == first or over or home.answers.take("market again") == "on":
            return
        first = since
    yield Spared(f"{words} since {_words(first)}", law, name, first_after(first, months) - DAY)


def _since_bought(home: Home) -> tuple[Run, ...]:
    """The times it was for sale, those of its seller aside: a sale lets the year begin anew."""
    facts = home.facts
    if facts.how != "bought":
        return facts.for_sale
    held = facts.ours.first
    return tuple(Run(max(run.first, held), run.last) for run in facts.for_sale if run.last is None or run.last >= held)


def _let_anew(home: Home, day: date) -> date | None:
    """The day from which a home to let has its year anew: the end of its last let granted for a term long enough.
    Of a periodic one it is asked."""
    least = whole(home.facts.nation, "interest_term_months", day)
    for stay in sorted(home.facts.stays, key=lambda stay: stay.begins, reverse=True):
        if stay.lives is None or stay.lives.last is None or stay.lives.last >= day:
            continue
        if stay.long_term(least) or stay.term is None and home.answers.take("let again") == "yes":
            return stay.lives.last + DAY
    return None


def _estate(home: Home, day: date, end: date) -> bool:
    """Within the year after probate, and no later than the day a sale is completed."""
    facts = home.facts
    died = facts.died
    if died is None or day >= end:
        return False
    sold = facts.ours.first if facts.how == "bought" and facts.ours.first > died else None
    return sold is None or day <= sold


def _local(home: Home, day: date, what: str, span: Span | None) -> Iterator[Spared]:
    """An exception of the council's own: the words of the trade it may be told in."""
    facts = home.facts
    runs: tuple[Run, ...] = ()
    if "market" in what or "sale" in what or "let" in what:
        both = "market" in what or "sale" in what and "let" in what
        runs = (*(facts.for_sale if both or "sale" in what else ()), *(facts.to_let if both or "let" in what else ()))
        since = clocks.offered_since(home, day, tuple(sorted(runs, key=lambda r: r.first)))
    elif "works" in what or "repair" in what:
        since = clocks.works_since(home, day)
    elif "probate" in what and facts.probate:
        since = facts.probate
    else:
        return
    if since is not None and (span is None or day < after_spans(since, (span,))):
        yield Spared(f"your council excepts {what}", "the council's scheme", what)
