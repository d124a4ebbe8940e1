"""Who answers for the council tax of a home on a day, and why. Knows no scheme and no money."""

from __future__ import annotations

from datetime import date

from ...record import record
from .facts import Stay
from .timeline import Home
from .years import DAY, figure, first_after, whole

US, TENANT, EARLIER, LATER, OTHER = "you", "tenant", "earlier owner", "later owner", "whoever lived there"


@record
class Liable:
    """The party, the reason in a sentence, and where the rule stands."""

    party: str
    why: str
    law: str = ""
    who: str = ""


# Where the rules stand, in England and Wales and in Scotland.
RESIDENT = {False: "LGFA 1992 s. 6(2)(a)-(e)", True: "LGFA 1992 s. 75"}
OWNER = {False: "LGFA 1992 s. 6(2)(f), (5)", True: "LGFA 1992 s. 75"}
HMO = {False: "SI 1992/551 reg. 2, Class C", True: "LGFA 1992 s. 76, from memory"}


def liable(home: Home, day: date) -> Liable:
    """The first of the Act's list that applies at the end of a day: who lives there, else the owner lowest in the
    chain."""
    facts = home.facts
    scotland = facts.nation == "scotland"
    resident, owner_law, hmo = RESIDENT[scotland], OWNER[scotland], HMO[scotland]
    if facts.ours.first > day:
        bought = facts.how == "bought"
        when = "the buyer answers from the day of completion" if bought else "you answer from the day it was"
        return Liable(EARLIER, f"It was not yours yet: {when}.", owner_law)
    if facts.ours.last is not None and facts.ours.last < day:
        return Liable(LATER, "It was sold: the seller answers up to the day before completion.", owner_law)
    running = [stay for stay in facts.stays if _runs(home, stay, day)]
    held = [*home.stays_on(day), *running]
    if any(stay.room for stay in held) and all(stay.room for stay in held):
        return Liable(US, "It is let by the room, so the owner answers throughout.", hmo)
    if held and _shared_house(home, day):
        return Liable(US, "It is a house in multiple occupation, so the owner answers.", hmo)
    if any(day in run for run in facts.own_home):
        return Liable(US, "You lived there yourself.", resident)
    for stay in home.stays_on(day):
        if stay.company:
            return _company(home, stay, day)
        return Liable(TENANT, f"{stay.who} lived there.", resident, stay.who)
    if any(day in run for run in facts.lived):
        return Liable(OTHER, "Somebody lived there.", resident)
    if home.before_empty(day):
        return Liable(OTHER, "It became empty only later, so somebody lived there.", resident)
    for stay in running:
        owner = _interest(home, stay, day)
        if owner is not None:
            return owner
    for stay in facts.stays:
        if day == stay.left and not stay.room and home.answers.take("last day") == "tenant":
            why = f"{stay.who} left on that day, and the day is counted as theirs."
            return Liable(TENANT, why, owner_law, stay.who)
    return Liable(US, "Nobody lived there and nobody else held it.", owner_law)


def _company(home: Home, stay: Stay, day: date) -> Liable:
    """A company is no resident: it answers as the owner lowest in the chain, or whoever lives there does."""
    nation = home.facts.nation
    least = whole(nation, "interest_term_months", day)
    if not stay.long_term(least):
        return Liable(OTHER, f"{stay.who} held it, and somebody lived there.", RESIDENT[nation == "scotland"])
    why = f"{stay.who} held it under a tenancy granted for {least} months or more, and a company lives nowhere: it "
    law = "LGFA 1992 s. 75" if nation == "scotland" else "LGFA 1992 s. 6(2)(f), (5), (6)"
    return Liable(TENANT, f"{why}answers as the owner, or whoever lives there does.", law, stay.who)


def _shared_house(home: Home, day: date) -> bool:
    """Whether the owner answers for a house in multiple occupation that sharers hold together under one let. That may
    be so in England since such houses are one home each, and is asked."""
    if not any(day in run for run in home.facts.hmo):
        return False
    return figure(home.facts.nation, "hmo_people", day) is not None and home.answers.take("hmo together") == "owner"


def _runs(home: Home, stay: Stay, day: date) -> bool:
    """Whether a let runs in law on a day. Where they left and its end is not told, it is asked about if the answer
    could make a difference."""
    if stay.held is None or day < stay.held.first:
        return False
    if stay.left is not None and day == stay.left == stay.ended:
        return False  # whose day that is, is asked by itself
    if not stay.open_end or stay.left is None or day < stay.left:
        return day in stay.held
    end = _later_end(home, stay)
    return end is not None and day <= end and home.answers.take("ended") == "later"


def _later_end(home: Home, stay: Stay) -> date | None:
    """The last day of a let of which only the leaving is told, had the keys not ended it: that of the term, or of the
    tenant's notice; None where it is taken to have ended with the leaving."""
    assert stay.left is not None
    ends = [stay.term.last] if stay.term else []
    if stay.notice is not None:
        months = figure(home.facts.nation, "tenant_notice_months", stay.notice)
        if months is not None:
            ends.append(first_after(stay.notice, months.whole) - DAY)
    return max((end for end in ends if end >= stay.left), default=None)


def _interest(home: Home, stay: Stay, day: date) -> Liable | None:
    """The tenant who has gone, or not come yet, where their let is one that makes them the owner for this tax."""
    nation, who = home.facts.nation, stay.who
    least = whole(nation, "interest_term_months", day)
    long = stay.long_term(least)
    if stay.term is not None and long and day <= stay.term.last:
        why = f"{who} held it under a tenancy granted for {least} months or more, not yet over."
        return Liable(TENANT, why, OWNER[nation == "scotland"], who)
    if long and _by_contract(home, stay):
        return Liable(
            TENANT, f"The tenancy of {who} goes on by its own words after the fixed term, until it is ended.",
            "Leeds CC v Broadley [2016] EWCA Civ 1213", who,
        )  # fmt: skip
    if _assured(home, stay, day):
        return Liable(
            TENANT, f"The assured tenancy of {who} ran on, and its holder answers until it ends.",
            "Renters' Rights Act 2025 s. 28; SI 2026/421 reg. 2", who,
        )  # fmt: skip
    return None


def _by_contract(home: Home, stay: Stay) -> bool:
    """Wales: a fixed-term contract always ends before a periodic one begins."""
    if home.facts.nation != "england" or stay.rolls == "rolls on by law":
        return False
    return stay.rolls == "rolls on by contract" or home.answers.take("rolls") == "contract"


def _assured(home: Home, stay: Stay, day: date) -> bool:
    if stay.kind == "not assured" or stay.lives is None or day < stay.lives.first:
        return False
    if home.facts.nation == "wales":
        began = figure("england", "assured_interest_months", day)
        return began is not None and home.answers.take("wales assured") == "yes"
    began = figure(home.facts.nation, "assured_interest_months", day)
    if began is None:
        return False
    return stay.left is None or stay.left >= began.since or home.answers.take("left before") == "tenant"
