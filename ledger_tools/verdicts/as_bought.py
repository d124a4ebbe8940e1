"""Whether a fault may have come with the house, as far as its line, its papers and its history tell. Knows no rule."""

from __future__ import annotations

from datetime import date, timedelta
from functools import cache

from ..book.entries import Thing
from ..days import day_words
from .answer import Answer, Remark, Said
from .case import Case, either
from .declared import parts_of, systems
from .lets import YEARS
from .offers import NEAR, rule_as
from .papers import by_papers, only_these, price_faults, state_faults
from .told import EVENTS
from .verdict import ALLOWED, Confidence, Kind, Part

PUTS_RIGHT = "repaired, replaced, treated, rebuilt, removed, moved, bought, decorated"
FREE = ("inherited", "given")
NO_PRICE_FLIPS = (
    "a paper shows that it was let or lived in shortly before as it stood, which speaks for a repair",
    "its value was cut for its state, which speaks against one",
)
NO_PRICE_KEEP = ("the valuation and its wording", "photographs from the day it came to you")
YEAR = 365.25
SERVED = 60  # days of letting that show that a thing worked when its owners got the house: ours, no source


# ── the house ────────────────────────────────────────────────────────────────────────────────────────────────────


def poor(case: Case) -> bool:
    """Whether the house was got in a state, or at a price, that speaks of work to do."""
    if case.place is not None and case.place.put_right:
        return True
    return case.as_bought in ("not lettable", "lettable for a while") or case.price == "reduced"


def fairly_bought(case: Case) -> bool:
    """Whether it could be let as bought, or was let as it stood, at a price, or value, that was not cut."""
    return not poor(case) and case.price == "normal" and (case.as_bought == "lettable" or days_let(case) > 0)


def was_lived_in(case: Case) -> bool:
    """Whether the owner lived there before this day."""
    return case.history.lets.was_home(case.house, case.day)


def let_when_got(case: Case) -> bool:
    """Whether a tenant lived there on the day its owners got it, as far as the book tells."""
    got = case.place.got if case.place else None
    if got is None:
        return False
    return "with tenant in" in got.facts or case.history.lets.let_on(case.house, got.day - timedelta(1))


def days_let(case: Case) -> int:
    """On how many days before the work the house had been let since its owners got it.

    The work was done on the day of its line, unless the book tells a day on which it was started, or the job was that
    it goes with: a bill comes later.
    """
    return case.history.lets.days_let(case.house, _began(case))


def _began(case: Case) -> date:
    linked = (thing.name for link in case.facts.links for thing in link.things)
    keys = (case.key, *(case.history.key(name) for name in linked))
    return min(case.history.began(case.house, key, case.day, NEAR) for key in keys)


def let_for(case: Case) -> str:
    """How long it had been let before this work, in words: "36 days", "7 months", "9 years".

    Where tenants came with the house: "36 days as yours and from 2001 under earlier owners". What no tenancy told
    covers is said to be so.
    """
    days = days_let(case)
    years = int(days / YEAR)
    said = f"{years} years" if years >= YEARS else f"{int(days * 12 / YEAR)} months"
    said = f"{days} day{'s' * (days != 1)}" if days < 61 else said
    told = case.history.lets.first_told(case.house)
    if told is not None:
        said += f" (what lies before {day_words(told)} by no tenancy that your book tells)"
    first, got = case.history.lets.let_under_others(case.house), case.place.got if case.place else None
    if first is None or got is None or first.year >= got.day.year:
        return said
    return f"{said} as yours and from {first.year} under earlier owners"


def let_for_years(case: Case) -> bool:
    """Whether it had been let so long that letting speaks for a repair, where nothing told speaks against it."""
    return days_let(case) >= YEARS * YEAR


# ── the fault ────────────────────────────────────────────────────────────────────────────────────────────────────


def fault_bought(case: Case) -> bool:
    """Whether the fault may have been there when the house was got: nothing told since explains it.

    Before the first letting no tenant can have done it; and in a house bought in a poor state that the work was chosen
    explains nothing either; of fire, storm, water and squatters `damage_since` asks.
    """
    if not may_be_older(case) or case.verb == "decorated" or was_lived_in(case):
        return False
    return not fairly_bought(case) and why_not_bought(case) is None


def may_be_older(case: Case) -> bool:
    """Whether neither the line's causes nor what it says of the old one tell that the fault came later."""
    wanted = case.because("chosen", "for more rent")
    if case.facts.was_there == "none before" or wanted and case.verb == "moved":
        return False
    let = days_let(case) > 0
    if poor(case) and not let:
        return True
    since = EVENTS & set(case.facts.causes) - (set() if let else {"tenant damage"})
    return not since and not wanted and not (let and case.facts.was_there == "used by tenant")


def why_not_bought(case: Case) -> Remark | None:
    """Why the purchase has nothing to do with it, and how sure that is; None where it may have."""
    since = put_in_since(case)
    if since:
        got = "it came to you" if case.got_how in FREE else "you bought"
        says = f"Your book tells of a newer one since {got} ({since}), so it is no old fault."
        return Remark(says, Confidence.CLEAR)
    if named(case):
        return None
    if case.place is not None and only_these(case.history, case.place):
        faults = ", ".join(dict.fromkeys((*kept_from_letting(case), *price_cut_for(case))))
        says = (
            f"Your book names all that was wrong with the house when you got it ({faults}), and this ({case.what}) is "
            "none of it, so it is judged by what it did."
        )
        return Remark(says, Confidence.USUAL)
    if trifle(case):
        says = f"No letting hangs on such a thing ({case.what}), so the state of the house as bought does not touch it."
        return Remark(says, Confidence.USUAL)
    if case.because("broken") and days_let(case) >= SERVED:
        says = (
            f"You tell that it broke ({case.what}), and it had served tenants for {let_for(case)}. Had it been failing "
            f"when you got the house, {still_part_of_it(case)}."
        )
        return Remark(says, Confidence.USUAL)
    others = other_faults(case)
    if not let_for_years(case) or poor(case) and not others:
        return None
    if others:
        says = f"Let for {let_for(case)} before this, and what your book names is another fault ({', '.join(others)})."
        return Remark(says, Confidence.USUAL)
    cut = "value" if case.got_how in FREE else "price"
    return Remark(
        f"Let for {let_for(case)} before this, and nothing in your book tells of a poor state or a cut {cut}; had "
        f"there been either, {still_part_of_it(case)}.",
        Confidence.USUAL,
    )


def still_part_of_it(case: Case) -> str:
    """What an old fault could make of the work, in words."""
    if case.got_how in FREE:
        return "this could be part of what the house cost, though where no price was paid that is only argued"
    return "this could still be part of what the house cost"


def trifle(case: Case) -> bool:
    """Whether it is a small thing, or one of the garden, that cannot have kept the house from being let.

    A price may have been cut for a garden, and a lease may ask for it.
    """
    outside = case.nature in ("garden", "outbuilding") and case.price != "reduced"
    return (case.thing.small or outside) and not (case.place is not None and case.place.put_right)


def kept_from_letting(case: Case) -> tuple[str, ...]:
    """What the book names as keeping the house from being let, or for long; nothing where it names nothing."""
    return state_faults(case.history, case.place) if case.place is not None else ()


def price_cut_for(case: Case) -> tuple[str, ...]:
    """What the book names as the reason of a cut price; nothing where it names nothing."""
    return price_faults(case.history, case.place) if case.place is not None else ()


def cut_for_another(case: Case) -> bool:
    """Whether it could be let as bought, and the landlord names what the price was cut for: something else than this.

    What only the words of a paper name may not be all that they meant, so then it is a question.
    """
    told = bool(case.place and case.place.price == "reduced" and case.place.price_faults)
    return told and case.as_bought == "lettable" and not named(case)


def named(case: Case) -> tuple[str, ...]:
    """The faults named of the house as got that are what this work puts right."""
    faults = dict.fromkeys((*kept_from_letting(case), *price_cut_for(case)))
    if not faults:
        return ()
    linked = (thing for link in case.facts.links for thing in link.things)
    keys = {case.key, *(case.history.key(thing.name) for thing in linked)}
    return tuple(fault for fault in faults if not keys.isdisjoint(parts_of({fault})))


def who_names(case: Case, what: str) -> str:
    """Who names the faults that this work puts right, and of what they tell, as the start of a sentence.

    Where no paper does it is the landlord's own word, and never said to be a paper's.
    """
    faults = named(case)
    papers = by_papers(case.history, case.place) if case.place is not None else frozenset()
    if by := [fault for fault in faults if fault in papers]:
        return f"The papers of your purchase name {what} ({', '.join(by)})"
    if not set(faults).isdisjoint(price_cut_for(case)):
        told = f"that the price was cut for {what}"
    elif case.as_bought == "not lettable":
        told = f"that the house could not be let as bought owing to {what}"
    else:
        told = f"that letting would have had to stop for {what}"
    return f"You tell {told} ({', '.join(faults)})"


def other_faults(case: Case) -> tuple[str, ...]:
    """What the book names, where it gives a reason for each thing that speaks of a poor state; else nothing."""
    if case.place is None or case.place.put_right:
        return ()
    state, price = kept_from_letting(case), price_cut_for(case)
    if (
        not state
        and case.as_bought in ("not lettable", "lettable for a while")
        or not price
        and case.price == "reduced"
    ):
        return ()
    return tuple(dict.fromkeys((*state, *price)))


def put_in_since(case: Case) -> str:
    """When such a thing was put in new since the house was got, long enough before to be no part of the same job."""
    got = case.place.got.day if case.place and case.place.got else None
    wholes = _with_wholes(case.key)
    rooms = {room.text for room in case.line.rooms}
    inside = {case.history.key(room) for room in rooms}
    for key in sorted(wholes | inside):
        for line in case.history.put_in(case.house, key):
            old = (case.day - line.day).days > NEAR and (got is None or line.day >= got)
            if not old or key not in wholes and line.verb != "rebuilt":
                continue
            there = {room.text for room in line.entry.rooms}
            apart = key in wholes and rooms and there and rooms.isdisjoint(there)
            if not apart and _all_of_it(case, line.entry.things):
                names = ", ".join(dict.fromkeys(thing.name for thing in line.entry.things))
                return f"{names} {line.verb} {line.entry.day}"
    return ""


@cache
def _with_wholes(key: str) -> frozenset[str]:
    """A thing, and the wholes it is a part of."""
    return frozenset({key, *(word for word, parts in systems().items() if key in parts)})


def _all_of_it(case: Case, things: tuple[Thing, ...]) -> bool:
    """Whether what was put in then is no mere part of what this line is about."""
    now = case.line.things[0].count if case.line.things else None
    return not any(
        thing.extent == "part of" or thing.of or (thing.count and (now is None or thing.count < now))
        for thing in things
    )


def worn_or_broken(case: Case) -> tuple[str, ...]:
    """What to offer where tenants may have worn it out: the measure, that it broke where that settles it, a ruling."""
    broke = (", broken",) if days_let(case) >= SERVED and not named(case) else ()
    return (MEASURE, *broke, *rule_as("repair", "purchase cost"))


# ── answers ──────────────────────────────────────────────────────────────────────────────────────────────────────


def capital_by_itself(case: Case) -> bool:
    """Whether the work is an improvement whatever the purchase: nothing of it could come off.

    Not where the price was cut for a worn or missing standard that a better thing now reaches (BIM35475).
    """
    caught_up = case.facts.compared == "better" and (case.damaged or case.because("required"))
    if caught_up and case.price == "reduced" and case.got_how not in FREE:
        return False
    return not comes_off(case)


def comes_off(case: Case) -> bool:
    """Whether any of the work could come off the rents, were it not for the purchase."""
    work = case.judged(case.but(since="C"))
    return any(part.kind in ALLOWED for part in (*work.parts, *work.cautious))


def finishes(case: Case, says: str, sure: Confidence | None = None) -> Said:
    """Part of what the house cost; only a remark where the work is capital by itself."""
    if capital_by_itself(case):
        return Remark(f"{BY_ITSELF} ({case.what}).")
    return Answer(case.purchase, says, sure)


def open_between(case: Case, cautious: tuple[Part, ...], says: str, ask: tuple[str, ...] = ()) -> Said:
    """Both answers: what the work is by itself, or this other one. Only a remark where by itself it is capital too.

    Where what it is by itself is open, an improvement is a third.
    """
    if not comes_off(case):
        return Remark(f"{BY_ITSELF} ({case.what}).")
    work = case.judged(case.but(since="C"))
    if not any(part.kind is Kind.IMPROVEMENT for part in work.cautious) or work.cautious == cautious:
        return either(work.parts, cautious, says, ask)
    says += " Whether it is a repair by itself is open too: if it made the house better, it is an improvement."
    better = (", better",) if any(fired.slug == "not-compared" for fired in work.path) else rule_as("improvement")
    return either(work.parts, cautious, says, (*ask, *better), work.cautious)


MEASURE = ", of which worn since bought £…"
BY_ITSELF = "In what state the house was bought makes no difference here: the work is capital by itself"
