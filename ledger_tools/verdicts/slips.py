"""Doubts about things that, by the book, were no longer in the house a line has them in. Knows no tax."""

from __future__ import annotations

from fractions import Fraction

from ..book.world import Book
from ..problems import Level, Mark, Problem
from ..spelling import near
from .history import History
from .inventory import Lot, Slip

VERBS = {"took home": "taken home"}
LEFT = {"replaced": "replaced here", "moved": "moved away here"}


def slips(history: History) -> list[Problem]:
    """Doubts "gone-already", "more-than-there-were", "replaced-after-gone", "replaced-twice", "there-already",
    "moved-nowhere", "worth-missing" and "sold-with-the-house"."""
    tell = {"gone": _gone, "more": _more, "claimed": _claimed, "twice": _twice, "there": _there}
    found = [
        _nowhere(history.book, slip) if slip.what == "no-house" else tell[slip.what](slip)
        for slip in history.inventory.slips
    ]
    return [*found, *_without_worth(history), *_sold_with_the_house(history)]


def _gone(slip: Slip) -> Problem:
    thing, verb = slip.thing, passive(slip.line.verb)
    return Problem(
        "gone-already",
        Level.DOUBT,
        f"The {bare(thing.name)} was {verb}, but by your book it had already left {slip.house}.",
        (thing.place.mark("no longer there"), *earlier(slip.last)),
        f"If it is written down twice, take one line out. If there were two, say so where the first one came: "
        f"`2 {plural(bare(thing.name))}`; or add `, left by seller` or `, ours before` to this line.",
    )


def _more(slip: Slip) -> Problem:
    thing, there = slip.thing, many(slip.there)
    asked = many(thing.count or Fraction(1))
    return Problem(
        "more-than-there-were",
        Level.DOUBT,
        f"{asked} {plural(bare(thing.name))} were {passive(slip.line.verb)}, but by your book there "
        f"{'was' if slip.there == 1 else 'were'} only {there} in {slip.house}.",
        (thing.place.mark(f"{there} there"), *earlier(slip.last)),
        "Put the number right here or where they came; or, if your book never told how the others came, add "
        "`, left by seller` or `, ours before` to this line.",
    )


def _claimed(slip: Slip) -> Problem:
    name = bare(slip.thing.name)
    when = f" on {slip.last.went}" if slip.last and slip.last.went else ""
    return Problem(
        "replaced-after-gone",
        Level.DOUBT,
        f"The {name} is replaced, but by your book the old one had left {slip.house}{when}.",
        (slip.thing.place.mark("what did it replace?"), *earlier(slip.last)),
        "Only what takes the place of an old one has the relief. If this is that one's successor add `, taken out "
        "earlier`; if it is a first one write `bought` in place of `replaced`; if there was another, write the line "
        "that brought it.",
        "ITTOIA 2005 s.311A(3)(d)",
    )


def _twice(slip: Slip) -> Problem:
    name = bare(slip.thing.name)
    since = slip.last.since if slip.last else None
    return Problem(
        "replaced-twice",
        Level.DOUBT,
        f"The only {name} in {slip.house} was itself new on {since}, and is replaced again.",
        (slip.thing.place.mark("two new ones for one old?"), *came(slip.last)),
        "Two new ones for one old: only one of them replaces it. Write this one as "
        f"`bought {slip.thing.name} …`; or say why the new one went too, with `, broken`.",
        "ITTOIA 2005 s.311A(3)(d)",
    )


def _there(slip: Slip) -> Problem:
    name = bare(slip.thing.name)
    where = f"the {slip.last.room}" if slip.last and slip.last.room else slip.house
    return Problem(
        "there-already",
        Level.DOUBT,
        f'"None before", but by your book there is a {name} in {where} already.',
        (slip.thing.place.mark("the first one?"), *came(slip.last)),
        "If it took the place of the one before, write `replaced`: then its cost may come off the rents. If it is one "
        "more beside it, write `added`.",
        "ITTOIA 2005 s.311A(3)(d)",
    )


def _nowhere(book: Book, slip: Slip) -> Problem:
    old = slip.line.facts.old_one
    assert old is not None
    place = old.place or slip.line.place
    found = near(old.to, book.properties)
    meant = f"Did you mean {' or '.join(found)}? If not: w" if found else "W"
    return Problem(
        "moved-nowhere",
        Level.DOUBT,
        f'Your book has no house called "{old.to}", so the old {bare(slip.thing.name)} is nowhere now.',
        (place.mark("no such house"),),
        f"{meant}here it left your lets leave these words out and add a line: "
        f"`{slip.line.day} took home old {bare(slip.thing.name)}`.",
    )


def _without_worth(history: History) -> list[Problem]:
    """Taken home without a value, where it had come in place of another, so that its cost may have had relief."""
    found = []
    for lot in history.inventory.lots:
        gone, bought = lot.gone, lot.bought
        if lot.how != "taken home" or gone is None or gone.position is not None or bought is None:
            continue
        if bought.verb == "replaced" and bought.position is not None:
            found.append(
                Problem(
                    "worth-missing",
                    Level.DOUBT,
                    f"The {bare(lot.name)} was taken home, but your book does not say what it was worth.",
                    (gone.entry.things[0].place.mark("worth how much?"),),
                    "It came in place of an older one, so its cost may have come off the rents; then what it was "
                    "worth on the day is income. Put its value on the line, such as "
                    f"`took home {bare(lot.name)} £40.00`.",
                    "ITTOIA 2005 s.307E-307F",
                )
            )
    return found


def _sold_with_the_house(history: History) -> list[Problem]:
    """Loose items that came in place of others, so that their cost may have had relief, and were there at a sale."""
    left: dict[str, list[Lot]] = {}
    for lot in history.inventory.lots:
        bought = lot.bought
        if lot.how != "sold with the house" or bought is None or bought.position is None:
            continue
        if bought.verb == "replaced" and history.known(lot.name, "sold").nature == "domestic":
            left.setdefault(lot.house, []).append(lot)
    return [_went_with_it(history.book, house, lots) for house, lots in left.items()]


def _went_with_it(book: Book, house: str, lots: list[Lot]) -> Problem:
    sold = book.properties[house].sold
    assert sold is not None
    names = list(dict.fromkeys(bare(lot.name) for lot in lots))
    what = " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))
    return Problem(
        "sold-with-the-house",
        Level.DOUBT,
        f"By your book {house} was sold with what came there in place of older ones: {what}.",
        (sold.place.mark("sold here"),),
        "What became of each? Its cost may have come off the rents; then what it fetched, or was worth when the "
        "letting ended, is income. Write a line for each, such as "
        f"`{sold.day.day} {sold.day:%b %Y} sold {names[0]} £40.00`, `took home {names[0]} £40.00` or `scrapped "
        f"{names[0]}`.",
        "ITTOIA 2005 s.307E-307F",
    )


# ── words ────────────────────────────────────────────────────────────────────────────────────────────────────────


def passive(verb: str) -> str:
    """The verb after "was": "taken home", "sold"."""
    return VERBS.get(verb, verb)


def bare(name: str) -> str:
    """The thing without "old" in front."""
    return name[4:] if name.lower().startswith("old ") else name


def plural(name: str) -> str:
    """A rough plural: the words as they stand where they end in s."""
    return name if name.endswith("s") else f"{name}es" if name.endswith(("x", "ch", "sh")) else f"{name}s"


def many(count: Fraction) -> str:
    """A number for people: "3", "2.5"."""
    return str(count.numerator) if count.denominator == 1 else str(round(count, 2))


def earlier(lot: Lot | None) -> tuple[Mark, ...]:
    """The line that tells that it went."""
    if lot is None or lot.gone is None:
        return ()
    said = LEFT.get(lot.how, f"{passive(lot.how)} here")
    return (lot.gone.entry.things[0].place.mark(said),)


def came(lot: Lot | None) -> tuple[Mark, ...]:
    """The line that brought it."""
    return () if lot is None or lot.line is None else (lot.line.entry.things[0].place.mark("came here"),)
