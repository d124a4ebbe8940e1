"""What share of the charge is due on a day on which the landlord answers, and why. Knows the scheme, not the money."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from fractions import Fraction

from ...book.world import Scheme, SchemeRule, Span
from ...days import day_words
from ...record import record
from . import clocks
from .premiums import Premium, Spared, on_long_empty, on_second_home, rule, spared
from .timeline import Home
from .years import DAY, after_spans, figure, first_after

Schemes = Callable[[date], Scheme | None]
FULL = Fraction(1)
LIVED = "lived in"


@record
class Due:
    """The state of a day, the share of the charge that is due (1 is the whole, 2 with a premium of 100%; None where
    the book has no scheme), the reason in a sentence, where it stands.

    exempt: nothing at all is due, not even what is never reduced. spared: the exception that kept a premium off.
    off: the share let off where a discount was applied. cut: the premium of the scheme where the law allows less.
    """

    state: str
    factor: Fraction | None
    why: str
    law: str = ""
    exempt: bool = False
    spared: Spared | None = None
    cut: Fraction | None = None


def due(home: Home, schemes: Schemes, day: date) -> Due:
    """The first that holds: what the council granted, exempt, lived in, premium, then the greatest discount."""
    facts = home.facts
    for grant in facts.granted:
        if day in grant.days:
            why = "The council granted it." if not grant.why else f"The council granted it: {grant.why}."
            return Due("granted", 1 - grant.off, why, "the council's decision", exempt=grant.exempt)
    if any(day in run for run in facts.unbanded):
        return Due("no band", Fraction(0), "It was not in the valuation list, so there is no council tax on it.",
                   "Valuation Office Agency, derelict homes, 2024", exempt=True)  # fmt: skip
    exempt = _exempt(home, day)
    if exempt is not None:
        return exempt
    state = home.state(day)
    scheme = schemes(day)
    if state is None or scheme is None:
        return Due("no scheme", None, "Your book has no scheme of the council for this year.")
    if state.lived:
        return _lived(home, day)
    if _bought_for_works(home, day):
        rate = figure("scotland", "undecided_discount", day)
        assert rate is not None
        return Due("bought needing work", 1 - Fraction(rate.value), "It was bought in need of work, and the discount "
                   "stands for half a year.", "SSI 2013/45 reg. 5(c)")  # fmt: skip
    premium = on_second_home(home, scheme, day) if state.furnished else on_long_empty(home, scheme, day)
    kept_off = spared(home, scheme, day, premium.second) if premium and premium.share else None
    market = _for_sale_or_let(home, scheme, day)
    if market is not None:
        return _with(market, premium, kept_off)
    if premium and premium.share and not kept_off:
        kind = "second home" if premium.second else "long empty"
        why = f"{premium.why[:1].upper()}{premium.why[1:]}: {_percent(premium.share)} on top."
        return Due(kind, 1 + premium.share, why, premium.law, cut=premium.cut)
    found = _furnished(home, scheme, day) if state.furnished else _empty(home, schemes, scheme, day)
    return _with(found, premium, kept_off)


def _lived(home: Home, day: date) -> Due:
    """The full charge, less what is let off where only one adult counts, or none."""
    for runs, name, who in (
        (home.facts.none_counts, "no_adult_discount", "No adult who lives there counts"),
        (home.facts.one_counts, "one_adult_discount", "Only one adult who lives there counts"),
    ):
        rate = figure(home.facts.nation, name, day)
        if rate is not None and any(day in run for run in runs):
            off = Fraction(rate.value)
            law = "LGFA 1992 s. 79" if home.facts.nation == "scotland" else "LGFA 1992 s. 11, Sch. 1"
            return Due(LIVED, 1 - off, f"{who}: {_off(off)}.", law)
    return Due(LIVED, FULL, "The whole is due.")


def _with(found: Due, premium: Premium | None, kept_off: Spared | None) -> Due:
    why = found.why
    if kept_off is not None:
        why = f"{why} No premium: {kept_off.why}."
    cut = premium.cut if premium and not premium.share else None
    return Due(found.state, found.factor, why, kept_off.law if kept_off else found.law, found.exempt, kept_off, cut)


# ── exempt ───────────────────────────────────────────────────────────────────────────────────────────────────────


def _exempt(home: Home, day: date) -> Due | None:
    facts = home.facts
    if not facts.exempted:
        return None
    order = "SI 1997/728 Sch. 1" if facts.nation == "scotland" else "SI 1992/558"
    for run, letter, because in facts.exempt:
        if day in run:
            place = "paragraph" if facts.nation == "scotland" else "class"
            why = f"Exempt, {place} {letter.upper()}{': ' if because else ''}{because}."
            return Due("exempt", Fraction(0), why, order, exempt=True)
    state = home.state(day)
    if state is None or state.lived:
        return None
    if _since_death(home, day):
        return Due("exempt", Fraction(0), "Nobody has lived there since its owner died, and probate was not given yet "
                   "or less than half a year ago.", "SI 1992/558 Class F", exempt=True)  # fmt: skip
    if state.furnished or facts.nation not in ("wales", "scotland"):
        return None
    months = figure(facts.nation, "exempt_empty_months", day)
    since = clocks.exempt_since(home, day)
    if months is not None and day < first_after(since, months.whole) and _lived_long_enough(home, since, day):
        place = "Class C" if facts.nation == "wales" else "para. 4"
        return Due("exempt", Fraction(0), f"Empty and unfurnished since {day_words(since)}, not yet six months.",
                   f"{order} {place}", exempt=True)  # fmt: skip
    if clocks.in_works_class(home, day) is not None:
        place = "Class A" if facts.nation == "wales" else "para. 2"
        return Due("exempt", Fraction(0), "Empty for major works.", f"{order} {place}", exempt=True)
    return None


def _since_death(home: Home, day: date) -> bool:
    """Class F: empty since the death, owned by nobody but the executor, no probate or less than half a year ago."""
    facts = home.facts
    months = figure(facts.nation, "probate_exempt_months", day)
    if facts.died is None or months is None or day < facts.died:
        return False
    if _passed_on(home, day):
        return False
    lived = [s for s in home.stretches if s.lived and s.last >= facts.died and s.first <= day]
    if len(lived) > 1 or any(s.days > clocks.short_gap(home, day) for s in lived):
        return False
    if facts.probate is not None and day >= first_after(facts.probate, months.whole):
        return False
    return not _may_be_heir(home, day) or home.answers.take("heir") == "executor"


def _passed_on(home: Home, day: date) -> bool:
    """Whether it has gone by a day from the one who died to somebody who answers in their own right: bought or given,
    or inherited after probate."""
    facts = home.facts
    if facts.died is None or facts.ours.first <= facts.died or day < facts.ours.first:
        return False
    heir = facts.how == "inherited" and facts.probate is not None and facts.ours.first >= facts.probate
    return heir or facts.how in ("bought", "given")


def _may_be_heir(home: Home, day: date) -> bool:
    """Whether it was inherited on a day on which the executor may still have held it: the book cannot tell which."""
    return home.facts.how == "inherited" and day >= home.facts.ours.first


def _lived_long_enough(home: Home, since: date, day: date) -> bool:
    """Scotland: the exemption needs three months of being lived in before it, which is asked of days before the first
    the book tells of."""
    needed = figure(home.facts.nation, "exempt_lived_months", day)
    number = home.at(since) - 1
    while number >= 0 and not home.stretches[number].lived:
        number -= 1
    if needed is None:
        return True
    if number >= 0:
        last = home.stretches[number]
        if last.last + DAY >= first_after(last.first, needed.whole):
            return True
    return number <= 0 and home.answers.take("three months") == "yes"


def _bought_for_works(home: Home, day: date) -> bool:
    facts = home.facts
    months = figure(facts.nation, "bought_works_months", day)
    if facts.nation != "scotland" or months is None or facts.how != "bought":
        return False
    return day < first_after(facts.ours.first, months.whole) and any(day in r for r in (*facts.works, *facts.needs))


# ── discounts ────────────────────────────────────────────────────────────────────────────────────────────────────


def step_on(told: SchemeRule, start: date, day: date) -> Fraction | None:
    """The share let off on a day by the ladder of a rule that began on `start`; None once it is over."""
    if told.stops is not None and day > told.stops:
        return None
    begin = after_spans(start, (told.waits,)) if told.waits else start
    if day < begin:
        return None
    spans: list[Span] = []
    for step in told.steps:
        if step.span is None:
            return step.off
        spans.append(step.span)
        if day < after_spans(begin, spans):
            return step.off
    return None


def _empty(home: Home, schemes: Schemes, scheme: Scheme, day: date) -> Due:
    """The greater of the discounts for empty homes and for works."""
    off, why = _empty_off(home, scheme, day)
    ran = _ran_into(home, schemes, day)
    if ran > off and home.answers.take("grandfathered") == "old":
        off, why = ran, f"Empty and unfurnished: {_off(ran)}, as it had begun under the rules of the year before."
    works = rule(scheme, "works")
    since = clocks.works_since(home, day) if works else None
    worked = _works_off(home, works, since, day) if works and since else None
    if worked is not None and off > worked and home.answers.take("two discounts") == "works":
        off = Fraction(0)
    if worked is not None and worked >= off:
        assert since is not None
        said = f"Major works: {_off(worked)}, counted from {day_words(since)}."
        return Due("works", 1 - worked, said, "SI 2003/3011 Class D" if home.facts.nation == "england" else "")
    return Due("empty", 1 - off, why, "SI 2003/3011 Class C" if home.facts.nation == "england" else "")


def _works_off(home: Home, told: SchemeRule, since: date, day: date) -> Fraction | None:
    if told.tail is not None:
        done = clocks.works_finished(home, day)
        going = any(day in run for run in (*home.facts.works, *home.facts.needs))
        if not going and done is not None and day >= after_spans(done + DAY, (told.tail,)):
            return None
    return step_on(told, since, day)


def _empty_off(home: Home, scheme: Scheme, day: date) -> tuple[Fraction, str]:
    told = rule(scheme, "empty")
    if told is None:
        return _untold(home, day, "empty untold")
    since = clocks.reduced_since(home, day, told)
    off = step_on(told, since, day) or Fraction(0)
    if not any(step.off for step in told.steps):
        return off, f"Empty and unfurnished: {_off(off)}."
    return off, f"Empty and unfurnished: {_off(off)}{'' if off else ' any more'}, counted from {day_words(since)}."


def _ran_into(home: Home, schemes: Schemes, day: date) -> Fraction:
    """What last year's reduction for empty homes would still let off, had it not been cut on 1 April."""
    new_year = date(day.year if day.month >= 4 else day.year - 1, 4, 1)
    last = schemes(new_year - DAY)
    told = rule(last, "empty") if last else None
    if told is None or told.stops is not None:
        return Fraction(0)
    since = clocks.reduced_since(home, day, told)
    return (step_on(told, since, day) or Fraction(0)) if since < new_year else Fraction(0)


def _furnished(home: Home, scheme: Scheme, day: date) -> Due:
    told = rule(scheme, "furnished")
    law = "SI 2003/3011 Class B" if home.facts.nation == "england" else ""
    if told is None:
        if rule(scheme, "second homes"):
            return Due("furnished", FULL, "Furnished, with nobody living there: nothing is let off.", law)
        off, why = _untold(home, day, "furnished untold")
        return Due("furnished", 1 - off, why, law)
    off = step_on(told, clocks.furnished_since(home, day, told), day) or Fraction(0)
    return Due("furnished", 1 - off, f"Furnished, with nobody living there: {_off(off)}.", law)


def _untold(home: Home, day: date, key: str) -> tuple[Fraction, str]:
    """The scheme does not say: the Act's half where the council has decided nothing, or nothing."""
    rate = figure(home.facts.nation, "undecided_discount", day)
    off = Fraction(rate.value) if rate and home.answers.take(key) == "undecided" else Fraction(0)
    return off, f"Your scheme does not say what is let off: {_off(off)}."


def _for_sale_or_let(home: Home, scheme: Scheme, day: date) -> Due | None:
    """A council's own charge for homes on the market stands in place of all else, while its time runs. The time is
    that of being empty."""
    told = rule(scheme, "for sale or let")
    facts = home.facts
    if told is None or not any(day in run for run in (*facts.for_sale, *facts.to_let)):
        return None
    state = home.state(day)
    assert state is not None
    since = clocks.unlived_since(home, day) if state.furnished else clocks.long_empty_since(home, day)
    off = step_on(told, since, day)
    if off is None:
        return None
    return Due("for sale or let", 1 - off, f"On the market: {_off(off)}.", "the council's scheme")


def _percent(share: Fraction) -> str:
    found = share * 100
    return f"{found}%" if found.denominator == 1 else f"{found.numerator / found.denominator:.2f}%"


def _off(share: Fraction) -> str:
    if not share:
        return "nothing is let off"
    return "nothing is charged" if share == 1 else f"{_percent(share)} off"
