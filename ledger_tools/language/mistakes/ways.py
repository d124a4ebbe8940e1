"""Recognises whole lines told in another way than the book's: sums under a loan, prices under a property, lets.

The table of ways knows how people say it; this turns what they typed into the line of the book. Knows no tax.
"""

from __future__ import annotations

import calendar
import re
from collections import defaultdict
from datetime import date
from decimal import Decimal
from functools import cache
from typing import NamedTuple

from ...days import day_before, day_words
from ...money import pence, pounds
from ...problems import Problem
from ..asked import VERBS
from ..spot import Spot
from .dates import read_loosely
from .sums import meant_sums
from .tables import BROKE, NOUNS, NUMBERS, TURNS, WORN, ways

_MONTHS = r"(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\.?"
_DAY = (
    rf"(?:\d{{1,2}}(?:st|nd|rd|th)?[ -](?:of )?{_MONTHS},?[ -]\d{{4}}|\d{{1,2}}[/.-]\d{{1,2}}[/.-]\d{{2,4}}"
    r"|\d{4}-\d\d-\d\d)"
)
_EVERY = ("a week", "a fortnight", "every 4 weeks", "a month", "a quarter", "a year")
_VALUES = {
    "SUM": r"(?P<sum>£? ?\d[\d,]*(?:\.\d\d?)?)(?![\d,.]*\d|[\d.]*%)",
    "DAY": rf"(?P<day>{_DAY})",
    "TILL": rf"(?P<till>{_DAY})",
    "LOOSE": rf"(?P<loose>{_MONTHS} \d{{4}}|(?:19|20)\d\d)(?![-/]\d)",
    "PERCENT": r"(?P<percent>\d+(?:\.\d+)? ?%)",
    "SPAN": r"(?P<count>\d+|one|two|three|six|nine|twelve)[ -]?(?P<unit>months?|years?)",
    "NAME": r"(?P<name>[^\W\d_][\w'-]*)",
    "WHO": r"(?P<who>\"[^\"]+\"|[\w'&-]+(?: [\w'&-]+){0,4})",
    "TEXT": r"(?P<text>[^\d£]+)",
    "YEAR": r"(?P<year>\d{4}-\d\d)",
    "TODO": "|".join(sorted(VERBS, key=len, reverse=True)),
    "WORN": WORN,
    "BROKE": BROKE,
}
_ASK = {
    "day": "the day",
    "till": "the last day",
    "due": "the first day",
    "sum": "the sum",
    "year": "the tax year",
    "often": "how often",
    "name": "the name",
}
_HEADED = {"LOAN": "loan", "PROPERTY": "property", "TENANCY": "tenancy", "LANDLORD": "landlord"}


class Way(NamedTuple):
    """A line as people tell it, the line of the book in its place, or where it belongs and what is said of it."""

    typed: re.Pattern[str]
    write: str
    home: str
    say: str
    why: str


@cache
def _often() -> dict[str, str]:
    """How often, as people say it, and as the book does."""
    said = {every: every for every in _EVERY}
    return said | {typed: turn.write for turn in TURNS if turn.write in _EVERY for typed in turn.typed}


@cache
def _ways() -> dict[str, list[Way]]:
    often = "|".join(re.escape(word) for word in sorted(_often(), key=len, reverse=True))
    nouns = "|".join(sorted((typed for noun in NOUNS for typed in noun.typed), key=len, reverse=True))
    costs = "|".join(typed for noun in NOUNS if not noun.came for typed in noun.typed)
    values = _VALUES | {"OFTEN": rf"(?P<often>{often})", "NOUN": nouns, "COST": costs}
    found: dict[str, list[Way]] = defaultdict(list)
    for row in ways():
        typed = _pattern(row["typed"], values)
        told = (row.get(key, "") for key in ("write", "home", "say", "why"))
        found[row["under"]].append(Way(re.compile(typed, re.I), *told))
    return found


def _pattern(typed: str, values: dict[str, str]) -> str:
    """The words in capitals as patterns; of a value that stands twice (first where it must not be) the last is kept."""
    for name, value in values.items():
        *others, last = re.split(rf"\b{name}\b", typed)
        if others:
            typed = re.sub(r"\(\?P<\w+>", "(?:", value).join(others) + value + last
    return typed


def told_another_way(spot: Spot) -> Problem | None:
    """borrowed £80,000 under a loan, bought for £140,000 on 3 May 2019 under a property: a line told in other words."""
    under = "dated" if spot.day else _HEADED.get(spot.lead, "") if spot.head else "first column"
    if not under or under == "dated" and spot.head:
        return None
    start = spot.stop.before[0].end_pos if under == "dated" else spot.head
    start += len(spot.text[start : spot.tail]) - len(spot.text[start : spot.tail].lstrip(" \t"))
    typed = spot.text[start : spot.tail]
    plain = " ".join(re.sub(r"(?<=\w)[ \t]*:(?=[ \t]|$)", "", typed).rstrip(" .").split())
    for way in _ways()[under]:
        found = way.typed.fullmatch(plain)
        if found is not None and (told := _told(spot, way, found, start)):
            return told
    return None


def _told(spot: Spot, way: Way, found: re.Match[str], start: int) -> Problem | None:
    """What is said of a line that matches a way; None where the way is how the book says it already."""
    typed = spot.text[start : spot.tail]
    slots = _slots(spot, found) | {"typed": typed}
    line, lacking = _filled(way.write, slots)
    slots["line"] = line
    say, _ = _filled(way.say, slots)
    if way.home:
        return spot.error(
            "belongs-elsewhere",
            f'"{typed}" belongs {way.home}, not here.',
            at=(start, spot.tail),
            label="belongs elsewhere",
            help=say,
        )
    if lacking:
        asks = " and ".join(dict.fromkeys(_ASK.get(slot, "what is missing") for slot in lacking))
        return spot.error(
            "line-unfinished",
            f'Something is missing in "{typed}".',
            at=(start, spot.tail),
            label=f"{asks}?",
            help=say or f"Write `{line}`, with {asks} in place of the dots.",
        )
    fix = spot.mend(start, spot.tail, line) if line != typed else None
    if fix is None:
        return None
    note = line.startswith("# ")
    return spot.error(
        "other-word",
        f'"{typed}" tells the book nothing.' if note else f'"{typed}" is told in other words here.',
        at=(start, spot.tail),
        label="a note?" if note else "in other words",
        help=say if note else _filled(way.why, slots)[0] or "The book says it like this.",
        fix=fix,
    )


def _slots(spot: Spot, found: re.Match[str]) -> dict[str, str]:
    """What was typed, in the words of the book, and the names in the heading."""
    slots = {name: typed.strip() for name, typed in found.groupdict().items() if typed}
    if "more" in slots:
        slots["more"] = found["more"] if found["more"].startswith(",") else f" {slots['more']}"
    for name in ("day", "till"):
        if name in slots:
            slots[name] = read_loosely(slots[name]) or slots[name]
    if "sum" in slots:
        sums = meant_sums(slots["sum"].lstrip("£ "))
        slots["sum"] = sums[0] if len(sums) == 1 else f"£{slots['sum'].lstrip('£ ')}"
    if "often" in slots:
        slots["often"] = _often()[slots["often"].lower()]
    if "percent" in slots:
        slots["percent"] = slots["percent"].replace(" ", "")
        slots["yearly"] = f"{(12 * Decimal(slots['percent'].rstrip('%'))).normalize():f}%"
    if "todo" in slots:
        slots["done"] = VERBS[slots["todo"].lower()]
    for name in ("who", "firm"):
        if name in slots:
            slots["short"] = _short(slots[name].strip('"').split()[0])
            trade = any(slots[name].lower() in noun.typed for noun in NOUNS)  # by "plumber": nobody's name
            slots[name] = f'"{slots[name]}"' if trade else _party(slots[name])
    for name in ("text", "whom"):
        if name in slots:
            each = [who.strip(' "') for who in re.split(r",| and | & ", slots[name]) if who.strip(' "')]
            slots["short"] = _short(each[0].split()[-1])
            slots[name] = " and ".join(f'"{who}"' for who in each)
    for name in ("name", "how", "thing", "verb", "nation", "basis"):
        if name in slots:
            slots[name] = slots[name].lower().replace("gifted", "given")
    if "rest" in slots:
        slots["rest"] = slots["rest"].rstrip(" ,")
    if "loose" in slots:  # a day to put where only a month or a year is told
        month = read_loosely(f"1 {slots['loose']}") if " " in slots["loose"] else f"1 Jan {slots['loose']}"
        slots["first"] = month or slots["loose"]
    if "rent" in slots and "sum" in slots:
        slots["fee"] = _less(slots["rent"], slots["sum"])
    slots.setdefault("kind", "interest only")
    if "count" in slots and "day" in slots:
        slots["till"] = _end(slots["day"], slots["count"], slots["unit"])
    if spot.day:
        slots.setdefault("day", spot.day)
    if spot.lead == "TENANCY" and (due := _first_due(spot, found[0])):
        slots["due"] = due
    month = slots.get("loose", "") if " " in slots.get("loose", "") else ""
    if when := slots.get("day", month):
        slots["when"] = when  # of a dated line a month is enough
    return _headed(spot) | slots


def _first_due(spot: Spot, typed: str) -> str:
    """The first day that rent "due on the 1st" fell due, where the block tells the first day of the let; "" else."""
    each = re.search(r"\b(\d{1,2})(?:st|nd|rd|th)\b", typed)
    begun = re.search(rf"\b(?:from|since|starting|started|starts|begins?)(?: on)? ({_DAY})", spot.text, re.I)
    if each is None or begun is None or not (iso := read_loosely(begun[1], iso=True)):
        return ""
    day, first = int(each[1]), date.fromisoformat(iso)
    if not 1 <= day <= 28:
        return ""
    year, month = divmod(first.year * 12 + first.month - 1 + (first.day > day), 12)
    return day_words(date(year, month + 1, day))


def _headed(spot: Spot) -> dict[str, str]:
    """The names in the heading of the block."""
    names = [piece for piece in spot.stop.before if piece.end_pos <= spot.text.find("\n") and not spot.day]
    slots: dict[str, str] = {}
    if len(names) > 1:
        slots["own"] = slots["house"] = str(names[1].value)
    if spot.lead in ("LOAN", "TENANCY") and len(names) > 3:
        slots["house"] = str(names[3].value)
    if spot.lead == "LOAN" and len(names) > 5:
        slots["lender"] = spot.text[names[5].start_pos : names[5].end_pos]
    return slots


def _filled(write: str, slots: dict[str, str]) -> tuple[str, list[str]]:
    """A line with its slots filled, what is not told as dots, and the names of what is not."""

    def optional(part: re.Match[str]) -> str:
        return part[1] if all(slot in slots for slot in re.findall(r"\{(\w+)\}", part[1])) else ""

    text = re.sub(r"\[([^\]]*)\]", optional, write)
    lacking = [slot for slot in re.findall(r"\{(\w+)\}", text) if slot not in slots]
    dots = {"sum": "£…", "percent": "…%"}
    return re.sub(r"\{(\w+)\}", lambda slot: slots.get(slot[1], dots.get(slot[1], "…")), text), lacking


def _less(whole: str, net: str) -> str:
    """What lies between two sums as typed, "£…" where that is nothing."""
    try:
        gap = pence(whole.lstrip("£ ")) - pence(net.lstrip("£ "))
    except ValueError:
        return "£…"
    return pounds(gap) if gap > 0 else "£…"


def _party(typed: str) -> str:
    """A name as a line can hold it: one small word as it is, more of them in quotation marks."""
    return typed if typed.startswith('"') or re.fullmatch(r"[a-z][\w'-]*", typed) else f'"{typed}"'


def _short(word: str) -> str:
    """A short name out of a word."""
    return re.sub(r"[^\w-]", "", word.lower())


def _end(day: str, count: str, unit: str) -> str:
    """The last day of a term of so many months or years, "" where there is none."""
    first = date.fromisoformat(read_loosely(day, iso=True))
    months = int(NUMBERS.get(count.lower(), count)) * (12 if unit.lower().startswith("year") else 1)
    year, month = divmod(first.year * 12 + first.month - 1 + months, 12)
    if months > 1200:
        return "…"
    last = min(first.day, calendar.monthrange(year, month + 1)[1])
    return day_words(day_before(date(year, month + 1, last)))
