"""Cross-checks of a whole book that need no tax: sums that must add up, names, dates and papers at odds.

Each check is one function that yields Problems; `check` runs them all.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator
from datetime import date
from fractions import Fraction

from ..days import EARLIEST, LATEST, Period, day_before, day_words, months_after
from ..money import pounds
from ..problems import Fix, Level, Mark, Place, Problem, placed
from ..spelling import near
from .advances import other_houses, purposes
from .credits_told import credits_untold
from .deals_told import deals_told
from .entries import Entry
from .lets_told import EARLY, strangers, unprotected
from .occupied import bills_of_others, occupied_twice, rules_twice, schemes_for_houses
from .papers_told import papers, receipts_twice
from .plans import agreed_twice, booked_late, varied_nothing
from .rooms_told import rooms, rooms_twice
from .settling import moved_at_once
from .silent_lets import rents_missing
from .splits import runs_on
from .sums_told import amounts, net_only, sums
from .world import Book, Property, Tenancy

# ── names ────────────────────────────────────────────────────────────────────────────────────────────────────────


def _unknown(code: str, what: str, word: str, place: Place, known: list[str], level: Level = Level.ERROR) -> Problem:
    found = near(word, known)
    help = f"Did you mean {' or '.join(found)}?" if found else f"Begin a block for it: {what} {word} …"
    return placed(code, level, f'Your book has no {what} called "{word}".', place, f"no such {what}", help)


def references(book: Book) -> Iterator[Problem]:
    """Headings name houses, people and councils that the book has."""
    houses, people = list(book.properties), list(book.landlords)
    for let in book.tenancies.values():
        if let.house not in book.properties and let.house not in book.unread:
            yield _unknown("unknown-house", "property", let.house, let.place, houses)
    for loan in book.loans.values():
        if loan.house not in book.properties and loan.house not in book.unread:
            yield _unknown("unknown-house", "property", loan.house, loan.place, houses)
    for schedule in book.schedules:
        if schedule.house not in book.properties and schedule.house not in book.unread:
            yield _unknown("unknown-house", "property", schedule.house, schedule.place, houses)
    councils = {*book.councils, *(s.council for s in book.schemes.values())}
    for house in book.properties.values():
        for ownership in house.owners:
            for name, _ in ownership.shares:
                if name not in book.landlords and name not in book.unread:
                    yield _unknown("unknown-landlord", "landlord", name, ownership.place, people)
        if house.council and councils and house.council not in councils | book.unread:
            yield _unknown("unknown-council", "council", house.council, house.place, sorted(councils), Level.DOUBT)
    for landlord in book.landlords.values():
        if landlord.spouse and landlord.spouse not in {*book.landlords, *book.unread}:
            yield _unknown("unknown-landlord", "landlord", landlord.spouse, landlord.place, people, Level.DOUBT)


def property_allowance(book: Book) -> Iterator[Problem]:
    """Nobody claims the property income allowance of a year and declines it."""
    for landlord in book.landlords.values():
        for year in sorted(landlord.allowance_years & landlord.declined_years):
            yield placed(
                "facts-at-odds", Level.ERROR,
                f"{landlord.full} claims the property allowance in {year} and declines it.", landlord.place,
                "claimed and declined", f"Take out the one that does not hold: claims or declines, in {year}.",
            )  # fmt: skip


def owners(book: Book) -> Iterator[Problem]:
    """Each house has owners whose shares make the whole."""
    for house in book.properties.values():
        for ownership in house.owners:
            total = sum((fraction for _, fraction in ownership.shares), Fraction(0))
            if total != 1:
                yield placed(
                    "shares-not-whole", Level.ERROR,
                    f"The owners' shares of {house.name} come to {round(total * 100, 2)}%, not 100%.",
                    ownership.place, "add up to 100%", "Change the percentages so that they add up to 100%.",
                )  # fmt: skip
        if not house.owners and len(book.landlords) > 1:
            names = list(book.landlords)
            yield placed(
                "no-owner", Level.ERROR, f"Your book has several landlords and does not say who owns {house.name}.",
                house.place, "who owns it?",
                f"Add a line under it: owners {names[0]} 50% and {names[1]} 50%, or owners {names[0]}.",
            )  # fmt: skip


# ── dates ────────────────────────────────────────────────────────────────────────────────────────────────────────

# What happens to a house before it is ours, or says nothing of it being ours.
BEFORE_OURS = frozenset("inspected tested certified hired bought".split())


def before_bought(book: Book) -> Iterator[Problem]:
    """Works on a house begin when it is ours; nothing is spent on it long after it is sold."""
    for entry in book.entries:
        if entry.kind not in ("works", "bill") or entry.verb in BEFORE_OURS or entry.facts.returned:
            continue
        for share in entry.homes:
            house = book.properties[share.house]
            if house.got and entry.day.last < house.got.day:
                yield placed(
                    "before-bought", Level.DOUBT,
                    f"This was done on {entry.day}, before {house.name} was {house.got.how} on "
                    f"{day_words(house.got.day)}.", entry.place, "before it was yours",
                    "Check the date of this line and of the purchase.", (house.got.place, f"{house.got.how} here"),
                )  # fmt: skip
            elif house.sold and entry.day.first > house.sold.day:
                yield placed(
                    "after-sold", Level.DOUBT,
                    f"This was done on {entry.day}, after {house.name} was sold on {day_words(house.sold.day)}.",
                    entry.place, "after it was sold", "Check the date of this line and of the sale.",
                    (house.sold.place, "sold here"),
                )  # fmt: skip


def rent_outside(book: Book) -> Iterator[Problem]:
    """Rent is received for days on which the let it is for runs."""
    for entry in book.entries:
        for line in (entry, *entry.lines):
            let = book.tenancies.get(line.who.name) if line.who else None
            if line.verb != "received" or line.thing != "rent" or let is None or let.first_day is None:
                continue
            yield from _rent_outside(line, let, let.first_day)


def _rent_outside(line: Entry, let: Tenancy, first: date) -> Iterator[Problem]:
    paid_for = line.period or Period(line.day.first - EARLY, line.day.last + EARLY)
    last = let.last_day
    when = f"for {line.period}" if line.period else f"on {line.day}"
    if paid_for.last < first:
        said = f"starts on {day_words(first)}"
    elif last is not None and paid_for.first > last:
        said = f"ended on {day_words(last)}"
    else:
        return
    yield placed(
        "rent-outside-let", Level.DOUBT, f"Rent {when}, but the tenancy {let.name} {said}.", line.place,
        "outside the tenancy", "Check the date, or from whom it came; or correct the tenancy.",
        (let.place, said),
    )  # fmt: skip


def overlaps(book: Book) -> Iterator[Problem]:
    """A house is let to one tenancy at a time, or each of its rooms is."""
    what: dict[tuple[str, str], list[Tenancy]] = defaultdict(list)
    for let in book.tenancies.values():
        if let.first_day is not None:
            what[let.house, let.room].append(let)
    for lets in what.values():
        lets.sort(key=lambda t: t.first_day or date.min)
        for earlier, later in zip(lets, lets[1:], strict=False):
            assert later.first_day is not None
            if runs_on(earlier, later.first_day):
                before = day_words(day_before(later.first_day))
                told = f"It tells that it ended on {day_words(earlier.last_day)}. " if earlier.last_day else ""
                apart = (
                    "or name another room, if one of the two was let another" if later.room
                    else "or for rooms let apart tell the room under each, such as `room 1` or `room front bedroom`"
                )  # fmt: skip
                yield placed(
                    "lets-overlap", Level.ERROR,
                    f"The tenancy {later.name} starts on {day_words(later.first_day)}, while {earlier.name} still "
                    "runs.", later.place, "starts before the other ends",
                    f"{told}Say when {earlier.name} ended: the line `ended {before}` under it, if that is the day; "
                    f"{apart}.",
                    (earlier.place, "the earlier one"),
                )  # fmt: skip


def houses_in_time(book: Book) -> Iterator[Problem]:
    """Contract, completion, sale and lets of a house come in that order."""
    for house in book.properties.values():
        yield from _deal_order(house)
    for let in book.tenancies.values():
        first, last = let.first_day, let.last_day
        if first is None:
            yield placed("let-without-start", Level.ERROR, f"The tenancy {let.name} does not say when it starts.",
                           let.place, "from when?", "Add a line: periodic from 4 Aug 2025, or from … to … for a fixed "
                           "term.")  # fmt: skip
            continue
        if last is not None and last < first:
            yield placed("let-ends-first", Level.ERROR, f"The tenancy {let.name} ends before it starts.", let.place,
                           f"{day_words(first)} to {day_words(last)}", "Correct one of the two dates.")  # fmt: skip
        got = book.properties[let.house].got if let.house in book.properties else None
        if got and first < got.day and "with tenant in" not in got.facts:
            deal = got.place.mark(f"{got.how} here")
            end = Mark(deal.file, deal.line, deal.end, deal.end, deal.text)
            yield Problem(
                "let-before-bought", Level.DOUBT,
                f"The tenancy {let.name} starts on {day_words(first)}, before the house was {got.how}.",
                (let.place.mark("before it was yours"), deal),
                f"If the tenant was in it when it was {got.how}, add `, with tenant in` to that line; else check the "
                "dates.", fix=Fix(end, ", with tenant in"),
            )  # fmt: skip


def _deal_order(house: Property) -> Iterator[Problem]:
    got, sold = house.got, house.sold
    bought = [place for day, place in house.contracts if got is None or day <= got.day]
    late = [place for day, place in house.contracts if got is not None and day > got.day]
    for places, of in ((bought, "purchase"), (late, "sale")):
        for again in places[1:]:
            yield placed(
                "doubled", Level.ERROR, f"There can be only one day of exchange for the {of}, and your book gives two.",
                again, "and here", "Leave one of the two out.", (places[0], "said here"),
            )  # fmt: skip
    for day, place in house.contracts:
        if got and day > got.day and (not sold or day - got.day < sold.day - day):  # nearer to the purchase
            yield placed(
                "exchange-late", Level.ERROR, f"{house.name}: contracts exchanged after it was {got.how}.", got.place,
                f"exchanged {day_words(day)}", "Correct one of the two dates; or if this is the contract of its sale, "
                "tell that too: `sold … for £…`.",
            )  # fmt: skip
        elif sold and day > sold.day:
            yield placed(
                "exchange-late", Level.ERROR, f"{house.name}: contracts exchanged after it was sold.", place,
                "later than the sale", "Correct one of the two dates.", (sold.place, "sold here"),
            )  # fmt: skip
    if got and sold and sold.day < got.day:
        yield placed(
            "sold-before-bought", Level.ERROR, f"{house.name} is sold before it is {got.how}.", sold.place,
            "earlier than this", "Correct one of the two dates.", (got.place, f"{got.how} here"),
        )  # fmt: skip


def turned_round(book: Book) -> Iterator[Problem]:
    """A certificate runs out after it was given."""
    for entry in book.entries:
        expires = entry.facts.expires
        if expires is None or expires >= entry.day.first:
            continue
        said = day_words(expires)
        place = entry.place.within(f"expires {said}")
        years = next(n for n in range(1, LATEST - EARLIEST + 2) if months_after(expires, 12 * n) > entry.day.first)
        later = day_words(months_after(expires, 12 * years))
        yield Problem(
            "expired-at-once", Level.DOUBT, f"This ran out on {said}, before the day it was given, {entry.day}.",
            (place.mark("earlier than the line"),),
            "The paper has both days: correct the one that is wrong. Should only the year be off, write the one that "
            "stands there, such as this.",
            fix=Fix(place.mark(), f"expires {later}") if place != entry.place else None,
        )  # fmt: skip


def twice(book: Book) -> Iterator[Problem]:
    """The same sum for the same thing to the same party on the same day is often one cost entered twice."""
    seen: dict[tuple[object, ...], Entry] = {}
    for entry in book.entries:
        if entry.kind not in ("works", "money", "bill") or not entry.total or entry.lines or entry.facts.number:
            continue
        who = entry.who.full.lower() if entry.who else ""
        key = (
            entry.day, entry.verb, entry.things, entry.total, who, entry.homes, entry.rooms, entry.period, entry.note,
            entry.purpose, entry.paper,
        )  # fmt: skip
        first = seen.setdefault(key, entry)
        if first is not entry:
            yield placed(
                "entered-twice", Level.DOUBT, f"The line of {entry.day} about {pounds(entry.total)}"
                f"{' for ' + entry.thing if entry.thing else ''} stands twice.", entry.place, "again here",
                "Delete one of the two; if both happened, tell them apart with a note in quotes.",
                (first.place, "first here"),
            )  # fmt: skip


def in_the_future(book: Book, today: date) -> Iterator[Problem]:
    """What was done has a day that has come; `today` is the caller's."""
    for entry in book.entries:
        if entry.day.first > today and entry.kind not in ("booking", "plan"):
            yield placed(
                "not-yet", Level.DOUBT, f"This line is dated {entry.day}, and that day has not come.", entry.place,
                "in the future", "Check the year.",
            )  # fmt: skip


Check = Callable[[Book], Iterator[Problem]]

# Those that find errors, and those that only raise doubts.
ERRORS: tuple[Check, ...] = (
    sums, amounts, net_only, references, owners, property_allowance, rooms, overlaps, houses_in_time, papers,
    occupied_twice, rules_twice, deals_told, moved_at_once,
)  # fmt: skip
DOUBTS: tuple[Check, ...] = (
    rooms_twice, before_bought, rent_outside, turned_round, credits_untold, purposes, receipts_twice, twice, strangers,
    unprotected, rents_missing, other_houses, bills_of_others, schemes_for_houses, agreed_twice, booked_late,
    varied_nothing,
)  # fmt: skip


def check(book: Book, only_errors: bool = False) -> list[Problem]:
    """The cross-checks of a book: all, or those alone that can stop its figures."""
    return [problem for one in (ERRORS if only_errors else (*ERRORS, *DOUBTS)) for problem in one(book)]
