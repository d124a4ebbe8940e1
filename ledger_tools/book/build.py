"""Builds the Book from the texts of its files: cuts, reads, resolves names across files. Knows no tax, touches no file.

Nothing stops at the first mistake: what could be read is in the book, what could not is in its problems.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from fractions import Fraction
from functools import lru_cache
from typing import Any

from ..collector import collector_paused
from ..language.blocks import Block, cut, plain
from ..language.reading import read_all
from ..language.records import Statement
from ..problems import Fix, Level, Mark, Place, Problem
from ..spelling import near
from . import splits
from .entries import Entry, Name, Share, Who
from .headings import HEADINGS
from .lines import Draft, Spot, entry
from .world import Book

# People everybody has, who need no block of their own.
KNOWN_PEOPLE = frozenset("seller buyer tenant tenants council hmrc neighbour freeholder".split())


@dataclass(slots=True)
class Index:
    """All names of a book by kind, and what was found wrong with them."""

    named: dict[str, dict[Any, Any]] = field(default_factory=lambda: {kind: {} for kind in (*HEADINGS, "schedules")})
    problems: list[Problem] = field(default_factory=list)
    headings: dict[tuple[str, int], Name] = field(default_factory=dict)  # `at` by file and line
    full_names: dict[str, str] = field(default_factory=dict)  # full names in lower case → the coined word
    reported: set[tuple[str, str]] = field(default_factory=set)
    unread: set[str] = field(default_factory=set)  # names and papers of blocks with a mistake: told once, there
    unread_kinds: dict[str, str] = field(default_factory=dict)  # of those names, the heading that gives each

    def tell(self, code: str, level: Level, headline: str, place: Place, label: str = "", help: str = "") -> None:
        """Report a problem at a place."""
        self.problems.append(Problem(code, level, headline, (place.mark(label),), help))

    # ── headings ─────────────────────────────────────────────────────────────────────────────────────────────

    def add(self, kind: str, made: Any) -> None:
        """Put a heading's object under its name; a name given twice is told of, the first stands."""
        if kind == "schedule":
            self.named["schedules"][len(self.named["schedules"])] = made
            return
        key = (made.council, made.year) if kind == "scheme" else made.name
        taken = self.named[kind].get(key)
        if taken is not None:
            what = f"{made.council} {made.year}" if kind == "scheme" else key
            word = made.kind if kind == "party" else _KIND_WORDS[kind]
            self.problems.append(Problem(
                "name-taken", Level.ERROR, f"There are two blocks for the {word} {what}.",
                (made.place.mark("this one again"), taken.place.mark("first told here")),
                "Give one of them another name, or put the lines of both under one heading.",
            ))  # fmt: skip
            return
        self.named[kind][key] = made

    @property
    def houses(self) -> dict[str, Any]:
        """Properties by name."""
        return self.named["property"]

    def house(self, name: Name) -> str | None:
        """The name of a house the book has; None after telling that it has none of that name (once for each name)."""
        if name.text in self.houses:
            return name.text
        key = ("house", name.text)
        if key not in self.reported and name.text not in self.unread:
            self.reported.add(key)
            self.tell(
                "unknown-house", Level.ERROR, f'No property of your book is called "{name.text}".', name.place,
                "not a property", _did_you_mean(name.text, self.houses, "Begin a block for it: property "
                f'{name.text} "its address"'),
            )  # fmt: skip
        return None

    # ── the other party ──────────────────────────────────────────────────────────────────────────────────────

    def known(self, who: Who, verb: str) -> Who:
        """The other party with the full name to print; a coined word nobody has is told of, once.

        A thing may be moved to another house of the book.
        """
        if verb == "moved" and who.role == "to" and who.name in self.houses:
            return who
        if not who.name:
            coined = self.full_names.get(who.full.lower())
            return Who(who.role, coined, who.full, who.place) if coined else who
        for kind in ("party", "council", "tenancy", "loan", "landlord"):
            found = self.named[kind].get(who.name)
            if found is not None:
                return Who(who.role, who.name, getattr(found, "full", who.name), who.place)
        councils = {c for c, _ in self.named["scheme"]} | {h.council for h in self.houses.values()}
        if who.name not in KNOWN_PEOPLE | councils | self.unread and ("who", who.name) not in self.reported:
            self.reported.add(("who", who.name))
            names = {n for kind in ("party", "council", "tenancy", "loan", "landlord") for n in self.named[kind]}
            names |= councils - {""}
            typed = who.place.block[who.place.start : who.place.end]
            quoted = typed if typed != typed.lower() else typed.title()
            self.tell(
                "unknown-name", Level.DOUBT, f'Your book does not say who "{typed}" is.', who.place,
                "nobody of that name", _did_you_mean(who.name, names, f'Add a line: supplier {who.name} "their '
                f'full name"; or put the name in quotes: {who.role} "{quoted}"'),
            )  # fmt: skip
        return who

    # ── which house ──────────────────────────────────────────────────────────────────────────────────────────

    def belongs(self, at: Name | None, d: Draft, day: date, above: Entry | None) -> tuple[Share, ...]:
        """The houses a line belongs to: its own `at` or `across`, else that of the line above it, of the heading,
        of the tenancy or loan it names, or the only house of the book."""
        if d.home is not None:
            house = self.house(d.home)
            return _all_of(house) if house else ()
        if d.shares:
            return self._across(d, day)
        who = d.told.get("who")
        let = self.named["tenancy"].get(who.name) if who is not None else None
        if let is not None and let.house in self.houses:
            return _all_of(let.house)  # a line about a tenant is about the house they live in
        if above is not None and above.homes:
            return above.homes
        if at is not None:
            house = self.house(at)
            return _all_of(house) if house else ()
        loan = self.named["loan"].get(who.name) if who is not None else None
        if loan is not None and loan.house in self.houses:
            return _all_of(loan.house)
        if len(self.houses) == 1:
            return _all_of(next(iter(self.houses)))
        return ()

    def _across(self, d: Draft, day: date) -> tuple[Share, ...]:
        if [name.text for name, _ in d.shares] == ["all"]:
            place = d.shares[0][0].place
            ours = [name for name, house in self.houses.items() if splits.held(house, day)]
            told: list[tuple[Name, Fraction | None]] = [(Name(name, place), None) for name in ours]
        else:
            told = [(name, fraction) for name, fraction in d.shares if self.house(name)]
        assert d.shares_place is not None
        try:
            parts = splits.fractions(told, d.facts.get("split", ""), self.houses, self.named["tenancy"], day)
        except splits.CannotSplit as why:
            self.tell(why.code, Level.ERROR, why.headline, d.shares_place, "how is it shared?", why.help)
            return ()
        return tuple(Share(name.text, part) for (name, _), part in zip(told, parts, strict=True))


@lru_cache
def _all_of(house: str) -> tuple[Share, ...]:
    """The whole of a line for one house: most lines are of few houses, and it is the same each time."""
    return (Share(house, Fraction(1)),)


_KIND_WORDS = {
    "landlord": "landlord", "council": "council", "scheme": "scheme", "property": "property",
    "loan": "loan", "tenancy": "tenancy", "thing_kind": "thing",
}  # fmt: skip


def _did_you_mean(word: str, known: Iterable[str], otherwise: str) -> str:
    """Near names first; what else to do where there is none."""
    found = near(word, known)
    return f"Did you mean {' or '.join(found)}? If not: {otherwise}" if found else f"{otherwise}."


# The name that a heading with a mistake somewhere in it was to give.
_HEADING = re.compile(r"(?P<kind>[a-z]+)[ \t]+(?P<name>[^\s,\"#]+)", re.I)
_NUMBERED = re.compile(r"\bnumber[ \t]+([^\s,\"#]+)", re.I)  # the same of a paper

_NO_HOUSE = "This line does not say which house it belongs to."
_EVERY_HOUSE = re.compile(
    r"\bfor (?:all|every|each)(?: (?:the|my|our|of))*(?: \d+)? (?:houses?|properties|property|flats?)\b", re.I
)
NEEDS_HOUSE = frozenset({"works", "money", "bill", "trip"})


def build(files: Mapping[str, str], only_errors: bool = False) -> Book:
    """The book of these files (name → text). Order of files and blocks makes no difference to what it says.

    only_errors: what only raises doubts is not looked for, as figures do not wait for it.
    """
    with collector_paused():
        return book_of(*read_files(files), only_errors)


def read_files(files: Mapping[str, str]) -> tuple[Index, tuple[Entry, ...]]:
    """What the headings of these files name, and their dated lines in order of day, then file and line."""
    index = Index()
    dated = gather(index, files)
    entries = [typed_entry(index, spot, statement) for spot, statement in dated]
    entries.sort(key=lambda e: (e.day.first, e.place.file, e.place.line))
    return index, tuple(entries)


def gather(index: Index, files: Mapping[str, str]) -> list[tuple[Spot, Statement]]:
    """Read these files: the headings go into the index, what cannot be read among its problems; the dated lines are
    handed back, to be made entries once every name is known."""
    from ..language.checks import doubled

    dated: list[tuple[Spot, Statement]] = []
    cuts = {file: cut(plain(files[file])) for file in sorted(files)}
    for file, blocks in cuts.items():
        original = _copied(file, cuts)
        if original:
            index.problems.append(_copy(file, original, blocks[0]))
            continue
        for block, reading in zip(blocks, read_all(block.text for block in blocks), strict=True):
            spot = Spot(file, block)
            if reading.stop is not None:
                from ..language.mending import mistakes  # the words of mistakes are many: only where there is one

                told = mistakes(block, file)
                index.problems += told
                mended = [p.fix.line for p in told if p.fix is not None and p.fix.mark.line == block.line]
                headed = [h for line in (block.text, *mended) if (h := _HEADING.match(line))]
                index.unread.update(h["name"].lower() for h in headed)
                index.unread_kinds.update((h["name"].lower(), h["kind"].lower()) for h in headed)
                index.unread.update(number.lower() for number in _NUMBERED.findall(block.text))
                continue
            statement = reading.statement
            assert statement is not None
            index.problems += doubled(statement, block, file, reading.shape)
            if statement.kind == "at":
                index.headings[file, block.line] = spot.name(statement.head[0])
            elif statement.kind in HEADINGS:
                index.add(statement.kind, HEADINGS[statement.kind](spot, statement))
            else:
                dated.append((spot, statement))
    for tenancy in index.named["tenancy"].values():
        for tenant in tenancy.tenants:
            index.full_names[tenant.lower()] = tenancy.name
    for kind in ("council", "party"):
        for named in index.named[kind].values():
            index.full_names[named.full.lower()] = named.name
    for house in index.headings.values():
        index.house(house)
    return dated


def _copied(file: str, cuts: Mapping[str, list[Block]]) -> str:
    """An earlier file of the book that this one is a copy of, in most of its blocks; nothing where there is none."""
    own = {block.text for block in cuts[file]} if len(cuts) > 1 else set()
    if len(own) < 5:
        return ""
    for other, blocks in cuts.items():
        if other == file:
            return ""
        if len(own & {block.text for block in blocks}) * 10 >= len(own) * 8:
            return other
    return ""


def _copy(file: str, original: str, first: Block) -> Problem:
    place = Place(file, first.text, first.line, 0, len(first.text))
    return Problem(
        "copy-of-file", Level.ERROR, f'"{file}" looks like a copy of "{original}": most of its lines stand there too.',
        (place.mark("a copy?"),),
        "Move the copy out of the folder of your book, or name one file instead of the folder. The lines of the copy "
        "were left out.",
    )  # fmt: skip


def typed_entry(index: Index, spot: Spot, statement: Statement) -> Entry:
    """A dated line as an entry with its names looked up; the index is told what they do not lead to."""
    at = index.headings.get((spot.file, spot.block.at_line))
    made = entry(spot, statement, lambda d, day, above: index.belongs(at, d, day, above), index.known)
    needs = made.kind in NEEDS_HOUSE or made.facts.called is not None
    if needs and not made.homes and len(index.houses) != 1 and not spot.block.at:
        lines = [line for line in made.lines if line.kind != "spent"]
        if (not lines or not all(line.homes for line in lines)) and not _told_house(statement):
            _which_house(index, made)
    return made


def _told_house(statement: Statement) -> bool:
    return any(c.kind in ("home", "shares") for c in statement.clauses)


def _which_house(index: Index, made: Entry) -> None:
    houses = list(index.houses)
    if not houses and index.unread or _hangs_on_unread(index, made):
        return
    if not houses:
        if ("house", "") not in index.reported:
            index.reported.add(("house", ""))
            index.tell(
                "no-house", Level.ERROR, "Your book has no property yet, so this line belongs to none.", made.place,
                "to which house?", 'Begin a block for it: property mill-3 "3 Mill Lane, Anytown"',
            )  # fmt: skip
        return
    from .names_told import kinds_of, told

    kinds = kinds_of(index.named, index.unread_kinds)
    if named := next((p for thing in made.things if (p := told(made, thing, kinds)) and p.fix), None):
        index.problems.append(replace(named, code="which-house", level=Level.ERROR, headline=_NO_HOUSE))
        return
    if named := _named_purpose(made, kinds) or _as_its_rents(made):
        index.problems.append(named)
        return
    if made.purpose and (every := _EVERY_HOUSE.search(made.place.mark().text)):
        place = made.place.mark("which house?")
        typed = Mark(place.file, place.line, every.start() + 1, every.end() + 1, place.text)
        fix = Fix(typed, "across all, split equally")
        index.problems.append(Problem(
            "which-house", Level.ERROR, _NO_HOUSE, (place,), "What is for all houses stands `across all`, and how they "
            "share it behind a comma: `split equally`, `split by rent` or `split by price`.", fix=fix,
        ))  # fmt: skip
        return
    index.tell(
        "which-house", Level.ERROR, _NO_HOUSE, made.place, "which house?",
        f"Put the line under a heading `at {houses[0]}`, or add `at {houses[0]}` to it; for a cost of several "
        f"houses `across {houses[0]} and {houses[-1]}, split equally`.",
    )  # fmt: skip


def _named_purpose(made: Entry, kinds: Mapping[str, str]) -> Problem | None:
    """which-house of a line that names a house, or the tenant who paid, behind `for`."""
    name = next((name for name in kinds if made.purpose and name.replace("-", " ") == made.purpose), "")
    kind = kinds.get(name, "")
    word = "at" if kind == "house" else "from" if kind == "tenancy" and made.verb == "received" and not made.who else ""
    if not word:
        return None
    place = made.place.mark("which house?")
    at = place.text.lower().find(f"for {name}", place.column - 1) + 1
    fix = Fix(Mark(place.file, place.line, at, at + 3, place.text), word) if at else None
    help = f"Which house it is about stands behind `at`: `at {name}`."
    if word == "from":
        help = f"Who paid stands behind `from`: `from {name}`; then it is about the house they live in."
    return Problem("which-house", Level.ERROR, _NO_HOUSE, (place,), help, fix=fix)


def _as_its_rents(made: Entry) -> Problem | None:
    """which-house of a statement of an agent whose rents tell the houses, and whose fees do not."""
    houses = list(dict.fromkeys(share.house for line in made.lines for share in line.homes))
    if made.verb != "banked" or not houses:
        return None
    place = made.place.mark("which house?")
    facts = re.compile(r",(?!\d)|$").search(place.text, place.column - 1)
    at = len(place.text[: facts.start() if facts else place.end - 1].rstrip()) + 1
    said = f"at {houses[0]}" if len(houses) == 1 else f"across {' and '.join(houses)}, split by rent"
    fix = Fix(Mark(place.file, place.line, at, at, place.text), f" {said}")
    help = f"Its rents are of {' and '.join(houses)}; for what was kept back say it on the head line: `{said}`."
    return Problem("which-house", Level.ERROR, _NO_HOUSE, (place,), help, fix=fix)


def _hangs_on_unread(index: Index, made: Entry) -> bool:
    """Whether the let or loan a line names has a mistake in its block, or in that of its house: told once, there."""
    name = made.who.name if made.who else ""
    held = index.named["tenancy"].get(name) or index.named["loan"].get(name)
    return index.unread_kinds.get(name) in ("tenancy", "loan") or held is not None and held.house in index.unread


def book_of(index: Index, entries: tuple[Entry, ...], only_errors: bool = False) -> Book:
    """The book of these headings and entries, cross-checked."""
    from .checks import check

    named = index.named
    book = Book(
        landlords=named["landlord"], parties=named["party"], councils=named["council"], schemes=named["scheme"],
        properties=named["property"], loans=named["loan"], schedules=tuple(named["schedules"].values()),
        tenancies=named["tenancy"], thing_words=named["thing_kind"], entries=entries,
        unread=frozenset(index.unread), unread_kinds=index.unread_kinds,
    )  # fmt: skip
    problems = sorted([*index.problems, *check(book, only_errors)], key=lambda p: p.order)
    object.__setattr__(book, "problems", tuple(problems))
    return book
