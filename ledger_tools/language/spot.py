"""The spot where a block stopped: its text, marks on it, and edits tried out by reading the block again.

Knows how to look and to try; what a mistake is called and how it is worded is for others.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cached_property

from ..problems import Fix, Level, Mark, Problem
from .blocks import Block, mark
from .grammar import words
from .reading import Stop, read
from .records import Piece

ENDS = ("$END", "_NL", "_DEEP")
VERBS = frozenset(
    ("WORKS_VERB", "MONEY_VERB", "PART_VERB", "PLAN_VERB", "WORD_VERB", "TODO_VERB")
    + ("INVOICED", "BOOKED", "TOLD", "NOTED", "DROVE", "SPENT")
)
_SUM = re.compile(r"£\d(?:[\d,]*\d)?(?:\.\d\d)?(?![\d,.]*\d)")
_BARE = re.compile(r"(?<![\w./,-])\d[\d,]*\.\d\d(?![\w./,-])")
_CLAUSES = re.compile(r'(?:"[^"\n]*"|(?<=\d),(?=\d{3}(?!\d))|[^,\n#"])*')
_TYPED_WORD = re.compile(r"[^\s,;:£\"#()]+")


def try_reading(text: str) -> Stop | None:
    """Where a text that was only made up to try it stops; None where it reads. It is not kept in memory."""
    return read.__wrapped__(text).stop


def stop_at(text: str) -> Stop | None:
    """The stop at the very end of a text, as if a sign without meaning stood there; None where it stops before."""
    gap = "" if text[-1:] in ("", " ") else " "
    stop = try_reading(f"{text}{gap}\x00")
    return stop if stop is not None and stop.piece.value == "\x00" else None


def accepts_at(text: str) -> frozenset[str]:
    """What could come after this text, at its very end; nothing where it does not read so far."""
    stop = stop_at(text)
    return stop.accepts if stop is not None else frozenset()


@dataclass(frozen=True)
class Spot:
    """A stop in its block."""

    stop: Stop
    block: Block
    file: str

    @property
    def text(self) -> str:
        """The whole text of the block."""
        return self.block.text

    @property
    def piece(self) -> Piece:
        """What does not fit."""
        return self.stop.piece

    @property
    def accepts(self) -> frozenset[str]:
        """The kinds of word that could have come."""
        return self.stop.accepts

    @property
    def last(self) -> Piece | None:
        """What stands before it."""
        return self.stop.before[-1] if self.stop.before else None

    @property
    def last_type(self) -> str:
        """The kind of what stands before it, "" at the start of a block."""
        return self.last.type if self.last else ""

    def back(self, count: int) -> str:
        """The kind of the piece so many before the spot, "" where there is none."""
        before = self.stop.before
        return before[-count].type if len(before) >= count else ""

    @property
    def unfinished(self) -> bool:
        """Whether a line ends, or a new one begins, where more should have come."""
        return self.piece.type in ENDS

    @cached_property
    def start(self) -> int:
        """Where the wrong piece begins; for a line that ends too early, its end."""
        if self.unfinished and self.last is not None:
            return self.last.end_pos
        return min(self.piece.start_pos, len(self.text))

    @property
    def end(self) -> int:
        """One past the wrong piece."""
        return self.start if self.unfinished else self.piece.end_pos

    @property
    def typed(self) -> str:
        """The wrong piece as typed; "" where a line ends too early."""
        return self.text[self.start : self.end]

    @cached_property
    def head(self) -> int:
        """Where the line of the spot begins in the block."""
        return self.text.rfind("\n", 0, self.start) + 1

    @cached_property
    def tail(self) -> int:
        """Where the line of the spot ends, without its note after a hash and the blanks before that."""
        end = self.text.find("\n", self.start)
        line = self.text[self.head : len(self.text) if end < 0 else end]
        quoted = False
        for place, sign in enumerate(line):
            if sign == '"':
                quoted = not quoted
            elif sign == "#" and not quoted and (place == 0 or line[place - 1].isspace()):
                line = line[:place]
                break
        return max(self.head + len(line.rstrip()), self.end)

    @property
    def day(self) -> str:
        """The day the statement begins with, as typed; "" for one without."""
        first = self.stop.before[0] if self.stop.before else None
        dated = first is not None and first.type in ("DATE", "MONTH")
        return self.text[first.start_pos : first.end_pos] if first is not None and dated else ""

    @property
    def sum(self) -> str:
        """The first amount of the line, as typed or with its pound sign put; "£…" for a line without."""
        if found := _SUM.search(self.text, self.head, self.tail):
            return found[0]
        bare = _BARE.search(self.text, self.start, self.tail)
        return f"£{bare[0]}" if bare else "£…"

    @property
    def lead(self) -> str:
        """The kind of the word that rules the statement: its heading, or the verb behind its date."""
        return lead(self.stop)

    @property
    def rest(self) -> str:
        """The line from the spot to its end."""
        return self.text[self.start : self.tail]

    @property
    def begins_line(self) -> bool:
        """Whether only blanks stand before it on its line."""
        return not self.text[self.head : self.start].strip()

    def typed_words(self, most: int = 6) -> list[str]:
        """The next words as typed, up to a comma, an amount or a quotation mark."""
        found: list[str] = []
        place = self.start
        while len(found) < most and (match := _TYPED_WORD.match(self.text, place)):
            found.append(match[0])
            gap = re.compile(r"[ \t]+").match(self.text, match.end())
            if gap is None:
                break
            place = gap.end()
        return found

    def words_end(self, count: int) -> int:
        """Where the first `count` of `typed_words` end."""
        place = self.start
        for number in range(count):
            match = _TYPED_WORD.match(self.text, place)
            if match is None:
                break
            gap = re.compile(r"[ \t]*").match(self.text, match.end())
            if number == count - 1 or gap is None:
                return match.end()
            place = gap.end()
        return place

    def clauses_end(self, start: int) -> int:
        """Where the clauses that go on from `start` end: before the next comma, note or end of the line."""
        found = _CLAUSES.match(self.text, start)
        return len(self.text[: found.end() if found else start].rstrip(" \t"))

    def mark(self, start: int, end: int, label: str = "") -> Mark:
        """A mark on these characters of the block."""
        return mark(self.file, self.block, start, end, label)

    def mend(self, start: int, end: int, text: str, *, certain: bool = False, beyond: bool = False) -> Fix | None:
        """The edit as a fix, if the block then reads further than it did; None if it does not help.

        `beyond` asks that what follows the edit fits too, as it must where something is only taken away. An edit that
        reaches beyond its line is none.
        """
        if "\n" in self.text[start:end]:
            return None
        old, delta = self.piece.start_pos, len(text) - (end - start)
        changed = self.text[:start] + text + self.text[end:]
        stop = try_reading(changed)
        if stop is not None:
            now = stop.piece.start_pos
            further = now > old + delta if old >= end else now >= start + len(text)
            if (beyond or not text) and old < end:
                rest = changed[start + len(text) :]
                further = now > start + len(text) + len(rest) - len(rest.lstrip(" \t"))
            if not further:
                return None
        return Fix(self.mark(start, end), text, certain)

    def error(
        self,
        code: str,
        headline: str,
        *,
        at: tuple[int, int] | None = None,
        label: str = "",
        help: str = "",
        fix: Fix | None = None,
        also: tuple[Mark, ...] = (),
    ) -> Problem:
        """A problem marked at the spot, or at `at`."""
        start, end = at or (self.start, self.end)
        return Problem(code, Level.ERROR, headline, (self.mark(start, end, label), *also), help=help, fix=fix)


def lead(stop: Stop) -> str:
    """The kind of the word that rules a statement: its heading, or the verb behind its date; "" before either."""
    kinds = [piece.type for piece in stop.before[:2]]
    if kinds and kinds[0] in ("DATE", "MONTH"):
        kinds = kinds[1:]
    return kinds[0] if kinds else ""


def is_keyword(spot: Spot) -> bool:
    """Whether the wrong piece is a word of the language, and not a coined one."""
    return spot.piece.type in words().says


def said(terminals: frozenset[str]) -> list[str]:
    """The words that these terminals hold, in the order of the alphabet."""
    says = words().says
    return sorted({word for name in terminals for word in says.get(name, ())})


def quoted(text: str) -> str:
    """Words of the book in quotation marks; those that bring their own keep them."""
    return text if text.startswith('"') else f'"{text}"'


def listed(names: list[str], joint: str = "or") -> str:
    """Names in quotation marks as a sentence lists them: "a", "b" or "c"."""
    each = [quoted(name) for name in names]
    return each[0] if len(each) == 1 else f"{', '.join(each[:-1])} {joint} {each[-1]}"
