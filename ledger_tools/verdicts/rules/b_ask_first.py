"""Stage B, what is asked before the state and the price: things missing, damage since, a lease to be put right."""

from __future__ import annotations

from dataclasses import replace

from ..answer import Answer, Outcome, Remark, Said, tidy
from ..as_bought import (
    FREE,
    NO_PRICE_FLIPS,
    NO_PRICE_KEEP,
    PUTS_RIGHT,
    capital_by_itself,
    days_let,
    fairly_bought,
    fault_bought,
    finishes,
    kept_from_letting,
    let_for,
    may_be_older,
    open_between,
    poor,
    put_in_since,
    trifle,
    was_lived_in,
    why_not_bought,
)
from ..case import Case, either
from ..declared import Told
from ..made_good import building_before, capital_jobs, not_told_of, opened_up_by
from ..near_purchase import WALLS, put_right, says_otherwise, touches, unfit_near
from ..offers import NEAR, rule_as
from ..registry import rule
from ..verdict import Confidence, Kind

CLEAR, USUAL, ARGUABLE = Confidence.CLEAR, Confidence.USUAL, Confidence.ARGUABLE


@rule(
    "B",
    "called-unfit-elsewhere",
    "by inference from BIM46935",
    USUAL,
    "read",
    verbs=PUTS_RIGHT,
    flips=("what you said was about another fault, or a later time",),
    keep=("what you sent, with its day and its words",),
)
def called_unfit_elsewhere(case: Case) -> Said:
    """The landlord told somebody near the purchase that the house was unfit, and this work may be what it lacked."""
    said = unfit_near(case.history)
    if not said or case.as_bought == "not lettable" or case.verb == "decorated" or was_lived_in(case):
        return None
    if put_in_since(case) or trifle(case) or not may_be_older(case):
        return None
    history, line = case.history, case.history.items[case.position].line
    for told in said:
        later = bool(days_let(case)) and (not told.things or put_right(history, line, told))
        named = touches(history, line, told)
        speaks = named or told.won and not days_let(case) and says_otherwise(history, told)
        if told.house.name == case.house and speaks and not later and not capital_by_itself(case):
            return Remark(_against_it(case, told, named), USUAL)
    return None


def _against_it(case: Case, told: Told, named: bool) -> str:
    """What was told elsewhere, and how it bears on this work: what it named, all works, or only the house itself."""
    things = told.entry.facts.called.things if told.entry.facts.called else ()
    owing = f" owing to {' and '.join(dict.fromkeys(thing.name for thing in things))}" if things else ""
    says = f'On {told.day} you told {told.who} that the house was unfit{owing} ("{told.words}")'
    if not named:
        says += (
            f", and that was granted. It did not name this ({case.what}), but it speaks against a house that could be "
            "let as bought"
        )
    elif things:
        says += f", which speaks against a repair ({case.what})"
    else:
        says += f". If that meant this too ({case.what}), it speaks against a repair"
    return f"{says}; `audit` shows it under what was said elsewhere."


@rule(
    "B",
    "missing-at-purchase",
    "BIM46935",
    CLEAR,
    "read",
    verbs="replaced, installed, added, repaired, bought",
    step="B",
    flips=("it was there on the day you got the house, and failed later",),
    keep=("photographs from the day you got the keys",),
)
def missing_at_purchase(case: Case) -> Said:
    """Something a home needs was not there when the house was got."""
    if case.facts.was_there != "missing when bought":
        return None
    if case.got_how in FREE:
        free = (
            f"Not there when the house came to you ({case.what}), so nothing that you had was mended or renewed: "
            "putting it in is part of what the house cost you. That is said of houses that were bought; no price was "
            "paid for this one, and it is taken alike."
        )
        return Answer(
            case.purchase, free, USUAL, flips=("it was there on the day the house came to you, and failed later",)
        )
    sure = CLEAR if case.as_bought == "not lettable" else USUAL  # clear where the house could not be let without it
    said = f"Missing when you bought ({case.what}), so putting it in finished the purchase."
    return Answer(case.purchase, said, sure)


MADE_GOOD = "all of it made good after building work (then add `making good after …`)"


@rule(
    "B",
    "ordinary-cycle",
    "BIM46935; BIM35450; BIM46915",
    CLEAR,
    "read",
    verbs="decorated",
    flips=(MADE_GOOD,),
    keep=(
        "photographs",
        "a note of when it was last decorated",
    ),
)
def ordinary_cycle(case: Case) -> Said:
    """Decorating comes round every few years, whoever owned the house."""
    says = "Decorating comes round every few years, so it is a repair"
    got = case.place.got.day if case.place and case.place.got and case.got_how == "bought" else None
    soon = got is not None and 0 <= (case.day - got).days <= NEAR
    says += " even straight after buying." if soon and not days_let(case) and not case.let_before else "."
    if "outside" in case.line.thing.split():
        return Answer(case.repair, says)
    jobs = building_before(case)
    sure = USUAL if jobs or poor(case) and not days_let(case) else None
    wanting = sorted(WALLS.intersection(kept_from_letting(case))) if not days_let(case) else []
    if wanting and case.as_bought == "not lettable" and case.got_how not in FREE:
        return either(
            case.repair,
            case.purchase,
            f"What kept the house from being let was, among other things, {' and '.join(wanting)}, and decorating is "
            "work on that. What only came round is a repair; what made the house fit to let is part of what it cost.",
            rule_as("repair", "purchase cost"),
        )
    asked = not_told_of(case, jobs)
    opened_up = opened_up_by(case, asked)
    if opened_up:
        return after_capital_work(case, opened_up, capital_jobs(case, asked))
    if jobs and case.facts.improvement is not None:
        what = f' ("{case.facts.improvement.note}")' if case.facts.improvement.note else ""
        says += (
            f" What you tell as an improvement{what} is not in it; whether any of the rest made good after other work, "
            "your book does not say."
        )
    elif jobs:
        names = ", ".join(tuple(dict.fromkeys(thing for _, thing in jobs))[:3])
        says += f" What of it made good after other work goes with that work: did it ({names})?"
    return Answer(case.repair, says, sure)


def after_capital_work(case: Case, wide: dict[str, Outcome], jobs: dict[str, Outcome]) -> Said:
    """Every answer for decorating after capital work that went through it: no part of it is told apart. jobs: all of
    that work, also in single rooms."""
    kinds = {part.kind for answer in (*wide.values(), *jobs.values()) for part in (*answer.parts, *answer.cautious)}
    ways = {"purchase cost": case.purchase} if Kind.ACQUISITION in kinds else {}
    ways |= {"improvement": case.improvement} if Kind.IMPROVEMENT in kinds else {}
    cautious, *third = ways.values()
    sure = not any(answer.cautious for answer in (*wide.values(), *jobs.values()))
    single = [name for name in jobs if name not in wide]
    told, names = case.facts.improvement, ", ".join(wide)
    part = f'improvement £… "{", ".join(filter(None, (told.note, names)))}"' if told else ", improvement £…"
    parts = (part,) if list(ways) == ["improvement"] else ()  # of what may finish the purchase it would say too much
    asked = either(
        case.repair,
        cautious,
        "Decorating that was due comes off whoever owned the house; what of it made good after work that is "
        f"{'' if sure else 'or may be '}capital goes with that work, and your book does not tell how much of this did "
        f"({names}{'; in single rooms ' if single else ''}{', '.join(single)}).",
        (*parts, *rule_as("repair", *ways)),
        *third,
    )
    return replace(asked, flips=(MADE_GOOD, "none of it did"))


@rule(
    "B",
    "damage-since",
    "BIM35450; BIM46935",
    ARGUABLE,
    "read",
    verbs=PUTS_RIGHT,
    flips=("you can show on which day it was damaged",),
    keep=("the insurer's letter or a dated photograph of the damage",),
)
def damage_since(case: Case) -> Said:
    """Fire, storm, water or squatter damage in a house bought in a poor state and not let yet: it may be older."""
    if not case.because("fire damage", "storm damage", "water damage", "squatter damage"):
        return None
    if days_let(case) or not poor(case) or case.verb == "decorated" or was_lived_in(case):
        return None
    return open_between(
        case,
        case.purchase,
        "Did it happen after you bought? Damage that was there when you bought is part of the price; "
        "this house was bought in a poor state and has not been let yet.",
        rule_as("repair", "purchase cost"),
    )


@rule(
    "B",
    "ruined-while-out-of-my-hands",
    "Granite City Steamship v IRC (1927) 13 TC 1, by analogy; BIM40130",
    ARGUABLE,
    "head",
    verbs=PUTS_RIGHT,
    flips=("a tenant did it during a letting (then write `tenant damage`)",),
    keep=(
        "court or police papers with their dates",
        "photographs of it before and after",
    ),
)
def ruined_while_out_of_my_hands(case: Case) -> Said:
    """People who were no tenants ruined it while it was out of the owner's hands."""
    if not case.because("squatter damage") or case.thing.small:  # a lock or a pane is nobody's ruin
        return None
    return open_between(
        case,
        case.improvement,
        "Squatters did it. Damage is an ordinary hazard of letting, which speaks for a repair; a court once held "
        "that putting right what strangers ruined is no upkeep but capital.",
        rule_as("repair", "improvement"),
    )


@rule(
    "B",
    "own-wear-share",
    "Law Shipping v IRC (1923) 12 TC 621",
    CLEAR,
    "head",
    told="of_which",
    verbs=PUTS_RIGHT,
    flips=(
        "it was not let between the purchase and the work",
        "the share was measured in another way",
    ),
    keep=(
        "photographs and a survey from the purchase",
        "a surveyor's view of the share",
    ),
)
def own_wear_share(case: Case) -> Said:
    """A share of purchase-finishing work was worn by the landlord's own letting."""
    worn = sum(x.amount for x in case.facts.of_which if x.what.startswith("worn since"))
    if not worn or not fault_bought(case):
        return None
    if not days_let(case):
        return Remark("You tell what was worn since you bought, but the house had not been let before this work.")
    if capital_by_itself(case):
        return Remark("You tell what was worn since you bought, but the work is capital by itself.")
    worn = min(worn, case.amount)
    own = case.but(amount=worn).repair
    rest = case.but(amount=case.amount - worn)
    says = "What your own letting wore out is a repair; what was worn when you bought is part of the price."
    if case.as_bought == "lettable" and not poor(case):
        cut = "value" if case.got_how in FREE else "price"
        says = (
            "What your own letting wore out is a repair; the rest may be part of what the house cost if its "
            f"{cut} was cut for its state, which your book does not tell."
        )
        offers = ("price normal", "price reduced", *rule_as("repair", "purchase cost"))
        bought = tidy((*own, *rest.purchase))
        return Answer(tidy((*own, *rest.repair)), says, cautious=bought, ask=offers, apart=own)
    if case.got_how in FREE:
        says = (
            "What your own letting wore out is a repair; the rest was worn when the house came to you, and whether "
            "that is capital where no price was paid is only argued."
        )
        offers = rule_as("repair", "purchase cost")
        bought = tidy((*own, *rest.purchase))
        return Answer(
            tidy((*own, *rest.repair)), says, cautious=bought, ask=offers, apart=own,
            authority="Law Shipping v IRC (1923) 12 TC 621; by analogy with BIM46935",
            flips=(*NO_PRICE_FLIPS, "the share worn since was measured in another way"),
            keep=(*NO_PRICE_KEEP, "a surveyor's view of the share"),
        )  # fmt: skip
    if case.facts.says or case.facts.proofs:
        return Answer(tidy((*own, *rest.purchase)), f"{says} Your book names who measured it.", USUAL, apart=own)
    says += ' The measure is your own and can be argued: keep how you came to it, or name who measured it (`says "…"`).'
    return Answer(tidy((*own, *rest.purchase)), says, ARGUABLE, apart=own)


@rule(
    "B",
    "put-right-for-the-lease",
    "Jackson v Laskers (1956) 37 TC 69; BIM35620; BIM46940",
    CLEAR,
    "read",
    verbs=PUTS_RIGHT,
    flips=("it fell due as an ordinary repair while you held the lease",),
    keep=("the lease", "a schedule of its condition when you took it"),
)
def put_right_for_the_lease(case: Case) -> Said:
    """The lease was taken on terms of putting the place right."""
    if case.place is None or not case.place.put_right or not fault_bought(case):
        return None
    if days_let(case):
        return open_between(
            case,
            case.purchase,
            "You took the lease on terms of putting the place right, but it had been let for "
            f"{let_for(case)} before this work: is this what you promised, or a repair that fell due since?",
            (", of which worn since bought £…", *rule_as("repair", "purchase cost")),
        )
    return finishes(case, "You took the lease on terms of putting it right, so this is part of its price.")


@rule(
    "B",
    "fault-not-bought",
    "BIM35450; BIM46935; Odeon v Jones (1971) 48 TC 257",
    USUAL,
    "read",
    verbs=PUTS_RIGHT,
    flips=("the fault was there when you got the house", "the price, or the value, was cut for it"),
    keep=("photographs from the day you got the house", "the tenancy agreements since"),
)
def fault_not_bought(case: Case) -> Said:
    """Put in new since the purchase, a trifle, none of what was wrong then, or long let with no such fault told."""
    if case.verb == "decorated" or fairly_bought(case) or was_lived_in(case) or not may_be_older(case):
        return None
    found = why_not_bought(case)
    return None if found is None or capital_by_itself(case) else found
