"""A dated line without a verb taken apart: what opens it, its sum, and the names of the book among its words.

Knows the names of a book and how its lines go on; knows no thing and no tax.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from ..book.names_told import Named, find
from ..book.world import Book
from ..language.reading import read
from ..problems import Mark

_LINE = re.compile(
    r"(?P<what>[^£\"#]*?[^£\",#\s])(?P<before>(?:[ \t]+(?:in|by|from|to|at|for|off|on|with)\b[^£\",#]*?)?)"
    r"[ \t]*,?[ \t]*(?P<sum>£ ?(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d\d?)?)(?P<after>[^\n#]*)",
    re.I,
)
_JOINED = re.compile(
    r"[ \t]*,?[ \t]*(?:(?:for|at|on|off|from|to|by)[ \t]+)?(?P<name>[^\s,£\"]+)(?=[ \t]*(?:,|$)|[ \t])",
    re.I,
)
_LISTED = re.compile(r"[\w-]+(?:[ \t]*(?:,|&|,?[ \t]*\band\b)[ \t]*[\w-]+)+")
_EVERY = re.compile(
    r"[ \t]+(?:(?:for|at|on|in) )?(?:both(?: (?:the |my |our )?(?:houses|properties|flats))?|(?:all|each|every)"
    r"(?: (?:the|my|our|of))* (?:houses?|properties|property|flats?))\b(?=[ \t]*(?:£|,|$))",
    re.I,
)
_BARE = re.compile(
    r"(?<![\w.,/-])(?P<sum>\d{2,5}(?:\.\d\d)?)(?: ?(?:quid|pounds?))?(?=[ \t]*(?:,|$)|[ \t]+[a-z])(?![\w/-])", re.I
)
_WHILE = re.compile(
    r",?[ \t]+(?:while|whilst|when|during)[ \t]+(?:it was |the house was |house |the )?(?:empty|void|vacant|unlet)\b",
    re.I,
)


@dataclass(frozen=True, slots=True)
class Told:
    """A line taken apart: its day, the words that open it, the clauses before its sum, the sum, what follows it, the
    house it names ("across …" for several), and another name of the book among its words."""

    day: str
    what: str
    before: str
    sum: str
    after: str
    house: str = ""
    named: Named | None = None

    def line(self, verb: str, what: str = "", behind: str = "") -> str:
        """The line with a verb in front, and with its house and what else is told behind the sum."""
        said = f"{verb} {what or self.what}{self.before}".rstrip()
        return f"{self.day} {said} {self.sum}{self.house}{behind}{self.after}"


def taken_apart(mark: Mark, book: Book, kinds: Mapping[str, str]) -> Told | None:
    """The line of a mark that begins at its verb; None where it holds no sum, or its day cannot be read."""
    mark = _coined(mark, book)
    day = mark.text[: mark.column - 1].strip()
    text, house = _houses_out(_WHILE.sub("", mark.text), kinds)
    found = _LINE.match(text, mark.column - 1)
    if found is None or read(day).stop is None or not day[:1].isdigit():
        return None
    what, before, after = found["what"].replace(", ", " and "), found["before"], found["after"].rstrip()
    told = Told(day, what, before.rstrip(), found["sum"].replace(" ", ""), after, house)
    mine = {name: kind for name, kind in kinds.items() if kind == "house"}
    if not house and (named := _named(told, mine)):
        told = replace(named, house=f" at {named.named.name}" if named.named else "", named=None)
    others = {name: kind for name, kind in kinds.items() if kind != "house"}
    return _named(told, others) or told


def _named(told: Told, kinds: Mapping[str, str]) -> Told | None:
    """The line with the first name of these kinds taken out of its words; None where it has none."""
    named = find(told.what, kinds, slip=True)
    if named is not None and named.kind != "person":
        return replace(told, what=named.rest, named=named)
    for part in ("before", "after"):
        joined = _JOINED.match(getattr(told, part))
        name = joined["name"].lower() if joined else ""
        if joined and name in kinds and (kinds[name] != "supplier" or part == "before"):
            left = getattr(told, part)[joined.end() :]
            told = replace(told, named=Named(name, kinds[name], told.what))
            return replace(told, before=left) if part == "before" else replace(told, after=left)
    return None


def _houses_out(text: str, kinds: Mapping[str, str]) -> tuple[str, str]:
    """A line without the houses it lists ("ash-1, ash-2 and birch-7", "both houses"), and how the book says them."""
    many = sum(kind == "house" for kind in kinds.values())
    if (every := _EVERY.search(text)) and many > 1 and (many == 2 or not every[0].strip().lower().startswith("both")):
        return text[: every.start()] + text[every.end() :], " across all, split equally"
    for found in _LISTED.finditer(text):
        names = [name for name in re.findall(r"[\w-]+", found[0].lower()) if name != "and"]
        mine = [name for name in names if kinds.get(name) == "house"]
        if len(mine) > 1 and len(mine) == len(names):
            before = re.sub(r"[ \t]*(?:for|at|on|across)?[ \t]*$", "", text[: found.start()])
            return before + text[found.end() :], f" across {' and '.join(mine)}, split equally"
    return text, ""


def _coined(place: Mark, book: Book) -> Mark:
    """A place in its line with the full names of firms, or their first two words, as the short names of their blocks,
    without "from" in front and without what stands in brackets behind the sum."""
    head, rest = place.text[: place.column - 1], place.text[place.column - 1 :]
    rest = re.sub(r"^from[ \t]+(?=\D)", "", rest, flags=re.I)
    rest = re.sub(r"(?<=\d)[ \t]*\([^()\d£]*\)[ \t]*$", "", rest)
    if "£" not in rest:
        rest = _BARE.sub(r"£\g<sum>", rest, count=1)
    for party in book.parties.values():
        first = re.match(r"\S+(?: (?:&|and))? \S+", party.full)
        for full in (party.full, first[0] if first else ""):
            if full and full.lower() in rest.lower() and f'"{full}' not in rest:
                rest = re.sub(re.escape(full), party.name, rest, count=1, flags=re.I)
    return Mark(place.file, place.line, place.column, place.end, head + rest)
