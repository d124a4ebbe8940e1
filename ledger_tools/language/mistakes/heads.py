"""Recognises headings told in another way: loans and lets whose names stand elsewhere, full names without a short one.

Knows in which order a heading names what; whether the book has such a house or lender is for others.
"""

from __future__ import annotations

import re

from ...problems import Problem
from ..spot import Spot
from .dates import near_months, read_loosely

_LOAN = re.compile(r"(?:mortgage|re-?mortgage|loan|borrowing|buy[- ]to[- ]let (?:loan|mortgage))\b[ \t:]*", re.I)
_LET = re.compile(r"(?:tenancy|tenants?|tenancies|let|letting|lease|ast)\b[ \t:]*(?:to\b[ \t]*)?", re.I)
_FULL = re.compile(r"(landlord|supplier|agent|lender|insurer|council|property|house|flat)\b[ \t:]+", re.I)
_WORD = r"(?:\d+-?)?[^\W\d_](?:\w|'|-(?=\w))*"
_NAMED = rf"\"[^\"\n]+\"|{_WORD}(?:[ \t]+(?!(?:at|on|in|from|with|by|of|for|to|secured)\b){_WORD})*"
_CLAUSE = re.compile(
    rf"(?P<joint>secured on|at|on|in|for|of|from|with|by|to)[ \t]+(?P<name>{_NAMED})|(?P<more>[^\s,]+)", re.I
)
_HOUSE = ("at", "on", "in", "for", "of", "secured on")
_SUM = re.compile(r"£ ?\d[\d,]*(?:\.\d\d)?")
_PERCENT = re.compile(r"(?:\b(?:at|rate)[ \t]+)?\b\d+(?:\.\d+)?%")


def _short(name: str) -> str:
    """A short name out of a full one: its first word, with the number of a house behind it."""
    words = [word for word in re.split(r"[^\w'-]+", name.strip('" ').lower().replace("'", "")) if word]
    letters = next((word for word in words if word[0].isalpha()), "")
    number = words[0] if words and re.fullmatch(r"\d+[a-z]?", words[0]) else ""
    return f"{letters}-{number}" if letters and number else letters


def _made_up(word: str) -> str:
    """A short name for what was given none."""
    return f"{word}-1"


def _one_word(name: str) -> bool:
    return re.fullmatch(_WORD, name) is not None


def loan_told(spot: Spot) -> Problem | None:
    """loan castle-1 from castle at elm-9, mortgage on elm-9: the names of a loan in another order."""
    found = _LOAN.match(spot.text, 0) if spot.head == 0 and not spot.day else None
    if found is None:
        return None
    typed = spot.text[: spot.tail]
    rest = typed[found.end() :]
    lent, rate = _SUM.search(rest), _PERCENT.search(rest)
    own, house, lender = _names(_PERCENT.sub("", _SUM.sub("", rest)))
    if not house and own and lender:
        return _loan_or_house(spot, own, lender)
    if not house or not _one_word(house):
        return None
    short = own or (_made_up(_short(lender)) if lender else _made_up("loan"))
    heading = f"loan {short} on {house}" + (f" from {lender}" if lender else "")
    if heading == typed:
        return None
    help = "The loan has a short name of its own; the house stands behind on, the lender behind from."
    if not own:
        help += f' "{short}" is a name made up for it: any other will do.'
    if lent:
        help += (
            f" What was borrowed is a dated line, in the first column under `at {house}`: "
            f"`… borrowed {lent[0].replace(' ', '')} from {lender or short} for purchase`, if it bought the house."
        )
    if rate:
        percent = rate[0].split()[-1]
        help += f" The rate stands indented under the heading: `rate {percent} from …`."
    return _heading(spot, heading, help)


def _names(rest: str) -> tuple[str, str, str]:
    """The short name, the house and the lender (as a line holds it), in whatever order they stand; "" where not."""
    first = re.compile(rf"\"[^\"]+\"|(?!(?:at|on|in|for|of|from|with|by|to|secured)\b){_WORD}", re.I).match(rest)
    own = first[0] if first and _one_word(first[0]) else ""
    house = lender = ""
    for clause in _CLAUSE.finditer(rest, first.end() if first else 0):
        joint, name = (clause["joint"] or "").lower(), (clause["name"] or "").strip()
        if joint in _HOUSE:
            house = house or name.replace(" ", "-")
        elif joint:
            lender = lender or (name if re.fullmatch(r'"[^"]+"|[a-z][\w\'-]*', name) else f'"{name}"')
    return own, house, lender


def _loan_or_house(spot: Spot, name: str, lender: str) -> Problem:
    return spot.error(
        "line-unfinished",
        "The heading of this loan does not say which house it is on.",
        at=(0, spot.tail),
        label="which house?",
        help=f"Write `loan {_made_up(_short(lender))} on {name} from {lender}` if {name} is the house, "
        f"`loan {name} on … from {lender}` if it is a name of the loan's own.",
    )


def let_told(spot: Spot) -> Problem | None:
    """tenant Peter Dray at elm-9, tenancy on elm-9, let elm-9 to dray: the names of a let in another order."""
    found = _LET.match(spot.text, 0) if spot.head == 0 and not spot.day else None
    if found is None:
        return None
    rest = spot.text[found.end() : spot.tail].strip()
    behind = re.fullmatch(rf"(?P<who>{_NAMED})?,?[ \t]*(?:at|on|in|of|for)[ \t]+(?P<house>{_WORD})", rest, re.I)
    behind = behind or re.fullmatch(rf"(?P<who>\"[^\"]+\"),?[ \t]+(?P<house>{_WORD})", rest)
    behind = behind or re.fullmatch(rf"(?P<house>{_WORD})[ \t]+(?:to|for|by)[ \t]+(?P<who>{_NAMED})", rest, re.I)
    if behind is None:
        return None
    house, who = behind["house"], behind["who"] or ""
    each = [name.strip(' "') for name in re.split(r"\band\b|&|,", who) if name.strip(' "')]
    short = who if _one_word(who) else re.sub(r"[^\w-]", "", each[0].split()[-1].lower()) if each else _made_up("let")
    help = "A let has a short name of its own, such as the tenant's surname; the house stands behind at."
    if who and not _one_word(who):
        tenants = " and ".join(f'"{name}"' for name in each)
        help += f" The full name stands indented under it: `tenants {tenants}`."
    elif not who:
        help += f' "{short}" is a name made up for it: any other will do.'
    return _heading(spot, f"tenancy {short} at {house}", help)


_ROOM = r"(?:in[ \t]+)?(?P<room>(?:[^\W\d_][\w'-]*[ \t]+)*(?:bed|box|bath)?room(?:[ \t]+(?:\d+|[a-z]))?)"
_LET_ROOM = tuple(
    re.compile(rf"tenancy[ \t]+(?P<short>{_WORD}),?[ \t]+{clauses}", re.I)
    for clauses in (
        rf"at[ \t]+(?P<house>{_WORD})[ \t]*,?[ \t]+{_ROOM}",
        rf"(?:at|for)[ \t]+{_ROOM}[ \t]*,?[ \t]+(?:at[ \t]+|in[ \t]+)?(?P<house>{_WORD})",
        rf"{_ROOM}[ \t]*,?[ \t]+(?:at|of)[ \t]+(?P<house>{_WORD})",
    )
)


def room_in_heading(spot: Spot) -> Problem | None:
    """tenancy adams at clay-22, room 1: the room that is let, which has a line of its own under the heading."""
    typed = spot.text[: spot.tail]
    found = next((m for way in _LET_ROOM if (m := way.fullmatch(typed.rstrip(" \t,")))), None)
    if found is None or spot.head or spot.day:
        return None
    room = found["room"]
    said = room if room[:5].lower() == "room " else f"room {room}"
    below = re.match(r"[^\n]*\n([ \t]+)", spot.text)
    heading = f"tenancy {found['short']} at {found['house']}\n{below[1] if below else '    '}{said}"
    fix = spot.mend(0, spot.tail, heading)
    if fix is None:
        return None
    return spot.error(
        "belongs-elsewhere",
        "The room that is let stands on a line of its own under the heading.",
        at=found.span("room"),
        label="belongs below",
        help=f"Begin with the house alone, and put the room on an indented line: `{said}`.",
        fix=fix,
    )


def full_name_told(spot: Spot) -> Problem | None:
    """landlord Paul Marsh, property 2 Birch Way: a full name where a short one and the full one belong."""
    found = _FULL.match(spot.text, 0) if spot.head == 0 and not spot.day else None
    if found is None:
        return None
    kind = {"house": "property", "flat": "property"}.get(found[1].lower(), found[1].lower())
    rest = spot.text[found.end() : spot.tail].strip(" \t,")
    own = re.match(rf"({_WORD})[ \t]*,[ \t]*([^\"]+)$", rest)  # property birch-2, 2 Birch Way
    full = (own[2] if own else rest).strip('" ')
    if rest.startswith('"') and rest[1:2].isalpha() or re.match(r"[a-z][\w'-]*[ \t]+[^\s,]", rest):
        return None  # only the short name is missing, or only the quotation marks: told elsewhere
    if '"' in full or "£" in full or not full or read_loosely(full) or _a_month(full):
        return None
    if own is None and _one_word(rest) and kind == "property":
        return None  # a short name alone: what the address is, only its owner knows
    short = own[1] if own else _short(full)
    if not short:
        return None
    shown = full if re.search(r"[A-Z]", full) else full.capitalize()
    heading = f'{kind} {short if own else short.lower()} "{shown}"'
    help = "A short name of one word, which the other lines use, comes before the full name in quotation marks."
    return _heading(spot, heading, help, code="name-one-word")


def _a_month(text: str) -> bool:
    return any(near_months(word) == [word[:3].capitalize()] and len(word) > 3 for word in text.split()[:1])


def _heading(spot: Spot, heading: str, help: str, code: str = "other-word") -> Problem | None:
    typed = spot.text[: spot.tail]
    fix = spot.mend(0, spot.tail, heading) if heading != typed else None
    if fix is None:
        return None
    what = f'"{typed}" is told in other words here.'
    if code == "name-one-word":
        what = "A short name, one word, comes before the full name."
    return spot.error(code, what, at=(0, spot.tail), label="a heading", help=help, fix=fix)
