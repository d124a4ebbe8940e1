"""Which items of an audit are asked for: by house, room, thing, answer, year, or by the place of a line.

A value that fits nothing in the book is refused with what it may have been meant for. Knows no command line.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from ..book.entries import Entry
from ..book.world import Book
from ..days import TaxYear
from ..record import record
from ..spelling import near
from ..verdicts.catalogue import Catalogue, catalogue, split
from ..verdicts.verdict import CAPITAL, Kind
from .audit import AuditItem, houses_of
from .kinds import PLAIN, TAXED

FOR_WORKS = frozenset(  # the rules of money that pays for works though it is none: of a block, of others, of plans
    {
        "leaseholder-share", "grant", "tenant-pays", "tenant-pays-for-more", "deposit-kept", "beyond-the-deposit",
        "insurance-for-damage", "damages-from-a-wrongdoer", "fee-by-purpose",
    }
)  # fmt: skip
WORKS = frozenset({Kind.REPAIR, Kind.IMPROVEMENT, Kind.DOMESTIC})
LINE = re.compile(r"(?:(?P<file>.+):|:)?(?P<line>\d+)")


class NotInBook(LookupError):
    """Asked for something that fits nothing; the message says so in full sentences, with near names."""


@record
class Wanted:
    """What is asked for. None, "" or False means that it does not matter."""

    houses: frozenset[str] | None = None
    room: str = ""
    thing: str = ""
    kind: Kind | None = None
    year: TaxYear | None = None
    only_open: bool = False
    no_proof: bool = False
    everything: bool = False  # money lines too; else works, and whatever is open

    @property
    def wide(self) -> bool:
        """Whether money lines are looked at like works: who names a thing or an answer means all of it."""
        return self.everything or bool(self.thing) or self.kind is not None


def choose(book: Book, every: Sequence[AuditItem], wanted: Wanted) -> list[AuditItem]:
    """The items asked for, in order. NotInBook for a room or thing that the book does not have."""
    words = things_called(book, every, wanted.thing) if wanted.thing else None
    room = room_called(book, wanted.room) if wanted.room else ""
    return [
        item
        for item in every
        if (wanted.wide or item.verdict.item.line.kind == "works" or item.verdict.arguable or _about_works(item))
        and (wanted.houses is None or wanted.houses & set(houses_of(item)))
        and (words is None or item.number in words)
        and (not room or room in _rooms(item))
        and (wanted.kind is None or any(part.kind is wanted.kind for part in item.verdict.parts))
        and (wanted.year is None or wanted.year in years(item))
        and (not wanted.only_open or item.verdict.arguable)
        and not (wanted.no_proof and item.proven)
    ]


def left_out(book: Book, every: Sequence[AuditItem], wanted: Wanted) -> int:
    """How many money lines are not among those chosen that would be, were money lines looked at like works."""
    if wanted.wide:
        return 0
    return len(choose(book, every, replace(wanted, everything=True))) - len(choose(book, every, wanted))


def years(item: AuditItem) -> set[TaxYear]:
    """The tax years an item counts in; what is capital or moves nothing belongs to the year of its line."""
    found = {TaxYear.of(day) for day in item.days}
    if any(part.kind not in TAXED for part in item.verdict.parts):
        found.add(TaxYear.of(item.verdict.item.line.day.first))
    return found


def kind_called(words: str) -> Kind:
    """The answer of that name, as the book's `treat as` says it, or as data does. NotInBook where there is none."""
    said = " ".join(split(words))
    names = {plain: kind for kind, plain in PLAIN.items()} | {kind.value.replace("-", " "): kind for kind in Kind}
    if said in names:
        return names[said]
    if said.endswith("s") and said[:-1] in names:
        return names[said[:-1]]
    raise NotInBook(_sorry(f'"{words}" is no answer', near(said, names), tuple(PLAIN.values())))


def room_called(book: Book, words: str) -> str:
    """The room of that name in some house of the book, in small letters. NotInBook where there is none."""
    rooms = {room.text.lower() for house in book.properties.values() for room in house.rooms}
    rooms |= {room.text.lower() for head in book.entries for line in (head, *head.lines) for room in line.rooms}
    said = " ".join(words.lower().split())
    if said in rooms:
        return said
    raise NotInBook(_sorry(f'the book has no room called "{words}"', near(said, rooms), sorted(rooms)))


def _about_works(item: AuditItem) -> bool:
    """Whether it pays for works, as labour does, is money that came in for them, is capital, or was ruled by hand."""
    if item.verdict.ruled or any(part.kind in CAPITAL for part in item.verdict.parts):
        return True
    if any(fired.decided and fired.slug in FOR_WORKS for fired in item.verdict.path):
        return True
    back = any(part.kind is Kind.NETS and part.category in ("repairs", "domestic", "") for part in item.verdict.parts)
    paid = any(part.kind in WORKS for part in item.verdict.parts)
    return back or paid or any(fired.decided and fired.stage == "C" for fired in item.verdict.path)


def _rooms(item: AuditItem) -> set[str]:
    return {room.text.lower() for room in item.verdict.item.line.rooms}


# ── things ───────────────────────────────────────────────────────────────────────────────────────────────────────


def things_called(book: Book, every: Sequence[AuditItem], words: str) -> set[int]:
    """The numbers of the items about a thing, by any word the catalogue has for it. NotInBook where there is none."""
    known = _known(book)
    wanted = _key(known, words)
    found = {item.number for item in every if wanted in _keys(known, item.verdict.item.line)}
    if found:
        return found
    there = {name.lower() for item in every for name in _names(item.verdict.item.line)}
    raise NotInBook(_sorry(f'no item of the book is about "{words}"', near(words.lower(), there), ()))


def _known(book: Book) -> Catalogue:
    declared = {word.name: word.nature for word in book.thing_words.values()}
    return catalogue().extend(declared) if declared else catalogue()


def _key(known: Catalogue, words: str, verb: str = "") -> str:
    thing = known.find(words, verb)
    return thing.name if thing else " ".join(split(words))


def _keys(known: Catalogue, line: Entry) -> set[str]:
    """What a line is about, as the catalogue calls it, whatever the verb."""
    return {_key(known, name, verb) for name in _names(line) for verb in ("", line.verb)}


def _names(line: Entry) -> Iterator[str]:
    yield from (thing.name for thing in line.things)
    if line.becomes:
        yield from (thing.name for thing in line.becomes.things)


# ── one item ─────────────────────────────────────────────────────────────────────────────────────────────────────


def find(book: Book, every: Sequence[AuditItem], words: str) -> list[AuditItem]:
    """The items at a place of the book (`house.book:12`, `:12`, `12`), or about a thing (`boiler`).

    The line of a bill stands for all its jobs. NotInBook where nothing fits, or where the file must be named.
    """
    place = LINE.fullmatch(words.strip())
    if place is None:
        numbers = things_called(book, every, words)
        return [item for item in every if item.number in numbers]
    file, number = place["file"] or "", int(place["line"])
    files = sorted({entry.place.file for entry in book.entries})
    meant = [name for name in files if not file or name == file or name.endswith("/" + file)]
    short = [name.rpartition("/")[2] for name in files]
    if not meant:
        raise NotInBook(_sorry(f'no dated line of the book stands in "{file}"', near(file, short), short))
    if len(meant) > 1:
        raise NotInBook(f"The book has {len(files)} files, so name the one you mean: `{short[0]}:{number}`, say.")
    at = f"{meant[0]}:{number}"
    found = [item for item in every if at in (item.verdict.item.source, item.verdict.item.head.source)]
    if found:
        return found
    beside = _beside(every, meant[0], number)
    hint = f" The nearest are {' and '.join(beside)}." if beside else ""
    raise NotInBook(f"Line {number} of {meant[0]} begins no item with a sum.{hint}")


def _beside(every: Sequence[AuditItem], file: str, number: int) -> list[str]:
    """The items before and after a line of a file."""
    lines = {}
    for item in every:
        name, _, line = item.verdict.item.source.rpartition(":")
        if name == file:
            lines[int(line)] = f"line {line} ({item.words})"
    before, after = [n for n in lines if n < number], [n for n in lines if n > number]
    return [lines[n] for n in (*([max(before)] if before else []), *([min(after)] if after else []))]


def _sorry(what: str, found: Sequence[str], there: Sequence[str]) -> str:
    """A refusal with near names, else with what there is."""
    what = what[0].upper() + what[1:]
    if found:
        return f"{what}. Did you mean {' or '.join(found)}?"
    return f"{what}. You can ask for {', '.join(there)}." if there else f"{what}."
