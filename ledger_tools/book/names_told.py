"""Names that stand where a line tells what it was for: "paid moor-1 interest", "paid bob the plumber".

Knows the names of a book and how its lines go on; knows no thing and no tax.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from ..money import pounds
from ..problems import Fix, Level, Mark, Place, Problem
from .entries import Entry, Thing
from .world import Book

# What people call those who work on a house, and the verbs of what they do.
_WORKS = ("repaired", "replaced", "installed")
_TRADES: dict[str, tuple[str, ...]] = {
    **dict.fromkeys(("decorator", "painter"), ("decorated",)),
    **dict.fromkeys(("cleaner", "window cleaner"), ("cleaned",)),
    **dict.fromkeys(
        "plumber electrician sparky sparks builder handyman roofer joiner carpenter chippy plasterer glazier tiler "
        "locksmith fitter gasman bricklayer brickie lad mate man guy bloke engineer".split(),
        _WORKS,
    ),
}
_HEADINGS = "landlord tenancy loan supplier agent lender insurer".split()
_KINDS = {**dict(zip(_HEADINGS, _HEADINGS, strict=True)), "property": "house"}
_ARTICLES = re.compile(r"^(?:the|my|our|a|an|for|on|at|of|to)\b[ \t]*", re.I)
_TITLE = re.compile(r"(?:mr|mrs|ms|miss|dr)\b\.?", re.I)
_PRICE = re.compile(r"£ ?(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d\d?)?")


@dataclass(frozen=True, slots=True)
class Named:
    """A name among the words of a line: what it is the name of, and the words beside it."""

    name: str
    kind: str  # house, loan, tenancy, landlord, supplier, agent, lender, insurer; person for one nobody has told of
    rest: str  # the other words, without the little ones that joined them; of a person's trade nothing


def kinds_of(named: Mapping[str, Mapping[str, Any]], unread: Mapping[str, str]) -> dict[str, str]:
    """Every coined name of a book and what it names; `named` holds the headings by kind, `unread` the names that blocks
    with a mistake give, each with its heading."""
    kinds = {word: _KINDS[heading] for word, heading in unread.items() if heading in _KINDS}
    kinds |= {word: held.kind for word, held in named["party"].items()}
    for kind in ("landlord", "tenancy", "loan", "property"):
        kinds |= dict.fromkeys(named[kind], _KINDS[kind])
    return kinds


def kinds_in(book: Book) -> dict[str, str]:
    """The same of a whole book."""
    named: dict[str, Mapping[str, Any]] = {
        "party": book.parties, "landlord": book.landlords, "tenancy": book.tenancies, "loan": book.loans,
        "property": book.properties,
    }  # fmt: skip
    return kinds_of(named, book.unread_kinds)


def find(words: str, kinds: Mapping[str, str], slip: bool = False) -> Named | None:
    """The name among the words of a thing as typed, or the person they speak of; None where there is neither.

    `slip` tells that the words are spelt nearly like a thing: then capitals alone make no person of them.
    """
    typed = words.split()
    for at, word in enumerate(typed):
        bare = re.sub(r"'s?$", "", word.lower())
        if bare in kinds:
            others = _ARTICLES.sub("", " ".join(_unjoined(typed[:at]) + typed[at + 1 :]))
            return Named(bare, kinds[bare], "" if others.lower() in _TRADES else others)
    capitals = len(typed) < 4 and all(re.fullmatch(r"[A-Z][a-z'&-]+", word) for word in typed)
    person = bool(_TITLE.match(words)) or capitals and not slip
    if " the " in words and typed[-1].lower() in _TRADES or person:
        return Named(words if words[:1].isupper() else words[:1].upper() + words[1:], "person", "")
    return None


def _unjoined(words: list[str]) -> list[str]:
    """Words before a name without the little word that led to it: "interest on" moor-1."""
    return words[:-1] if words and words[-1].lower() in ("for", "on", "at", "of", "to", "from") else words


def told(line: Entry, thing: Thing, kinds: Mapping[str, str], slip: bool = False) -> Problem | None:
    """Doubt "name-as-thing": a line of money whose thing is a name, or holds one; None where it holds none."""
    typed = thing.place.block[thing.place.start : thing.place.end]
    found = find(typed, kinds, slip)
    if found is None or line.kind == "works" and found.kind != "house":
        return None
    ask = _ASKS.get(found.kind, _of_firm)
    help, text = ask(line, found)
    fix = _whole(line.place, _put(line, typed, found, text)) if text else None
    article = "an" if found.kind in ("agent", "insurer") else "a"
    what = "a person or a firm" if found.kind == "person" else f"{article} {found.kind} of your book"
    headline = f'"{found.name}" is {what}, and here stands what the money was for.'
    if line.kind == "works":
        headline = f'"{found.name}" is {what}, and here stands the thing.'
    return Problem("name-as-thing", Level.DOUBT, headline, (thing.place.mark("a name"),), help, fix=fix)


# ── what each kind of name asks ──────────────────────────────────────────────────────────────────────────────────
# Of a line and the name in it: what is said, and the words that go on behind its sum ("" where none is put).


def _of_house(line: Entry, found: Named) -> tuple[str, str]:
    if not found.rest and line.verb in ("decorated", "painted"):
        return f"Say where it was done; the house stands behind the sum, `at {found.name}`.", f" at {found.name}"
    if not found.rest:
        done = "decorated throughout" if line.kind == "works" else f"{line.verb} insurance"
        return f"Say what it was for, and put the house behind it: `{done} £… at {found.name}`, say.", ""
    if [share.house for share in line.homes] == [found.name]:
        return "What it was for comes first; that it is about this house is told already.", " "
    return "What it was for comes first, and the house stands behind the sum.", f" at {found.name}"


def _of_loan(line: Entry, found: Named) -> tuple[str, str]:
    joint = "from" if line.verb == "received" else "to"
    help = f"What it was for comes first, and whom it went to stands behind the sum, with `{joint}`."
    if line.who is not None and line.who.name != found.name:
        return help, ""
    if not found.rest:
        sum_ = _sum(line)
        return (
            f"Write `{line.verb} mortgage interest {sum_} {joint} {found.name}` if all of it was interest, else "
            f"`{line.verb} mortgage {sum_} {joint} {found.name}, of which interest £…`, as the lender's statement says."
        ), ""
    return help, " " if line.who else f" {joint} {found.name}"


def _of_let(line: Entry, found: Named) -> tuple[str, str]:
    sum_ = _sum(line)
    if line.verb == "received":
        help = f"Write what it was: `received rent {sum_} from {found.name}`, or `received deposit {sum_} from …`."
        return help, f" from {found.name}" if found.rest and not line.who else ""
    return (
        f"Write what it was: `repaid deposit {sum_} to {found.name}` if it was their deposit, `paid compensation "
        f"{sum_} to {found.name}` if you owed it to them."
    ), ""


def _of_landlord(line: Entry, found: Named) -> tuple[str, str]:
    sum_, name = _sum(line), found.name
    if line.verb == "received":
        return "What owners put in is no income of the letting, so leave the line out.", ""
    return (
        f"What owners pay themselves is no cost of the letting: then leave the line out. If {name} owns nothing of "
        f"this house and was paid for work, begin with what was done: `cleaned … {sum_} by {name}`, say."
    ), ""


def _of_agent(line: Entry, found: Named) -> tuple[str, str]:
    sum_, name = _sum(line), found.name
    if line.verb == "received":
        return (
            f"What an agent sends is `banked {sum_} from {name}`, with the statement under it, a line for each part: "
            "`received rent £… from …`, `paid management fee £…`."
        ), ""
    if found.rest:
        return "What it was for comes first, and who had it stands behind the sum, with `to`.", f" to {name}"
    return f"Say what it was for: `paid management fee {sum_} to {name}`, `paid letting fee {sum_} to {name}`.", ""


def _of_firm(line: Entry, found: Named) -> tuple[str, str]:
    sum_, joint = _sum(line), "from" if line.verb == "received" else "to"
    if found.rest and not line.who:
        joined = "who gave it" if joint == "from" else "who had it"
        return f"What it was for comes first, and {joined} stands behind the sum, with `{joint}`.", (
            f" {joint} {found.name}"
        )
    if found.kind in ("lender", "insurer"):
        what = "insurance" if found.kind == "insurer" else "mortgage"
        return f"Say what it was for: `{line.verb} {what} {sum_} {joint} {found.name}`.", ""
    who = found.name if found.kind != "person" else f'"{found.name}"'
    if line.verb == "received":
        return f"Say what came: `received rent {sum_} from {who}`, or `received refund {sum_} from {who} for …`.", ""
    return what_was_done(sum_, who, found.name.rpartition(" ")[2].lower()), ""


def what_was_done(sum_: str, who: str, trade: str = "") -> str:
    """The question what somebody was paid for, with a line for each answer; `who` as a line can hold it."""
    lines = [f"`{verb} … {sum_} by {who}`" for verb in _TRADES.get(trade, _WORKS)]
    each = f"{', '.join(lines[:-1])} or {lines[-1]}" if len(lines) > 1 else lines[0]
    return (
        f"What was done decides the tax, so begin with it: {each}, with what it was done to in place of the dots. If "
        f"it settled a bill of which your book tells: `paid {sum_} to {who} against invoice …`."
    )


_ASKS: dict[str, Callable[[Entry, Named], tuple[str, str]]] = {
    "house": _of_house, "loan": _of_loan, "tenancy": _of_let, "landlord": _of_landlord, "agent": _of_agent,
}  # fmt: skip


def _sum(line: Entry) -> str:
    return pounds(line.amount) if line.amount is not None else "£…"


# ── the line put right ───────────────────────────────────────────────────────────────────────────────────────────


def _put(line: Entry, typed: str, found: Named, behind: str) -> str:
    """The typed line with the other words alone for the thing, and the name behind its sum; "" without a sum."""
    mark = line.place.mark()
    text = mark.text[mark.column - 1 : mark.end - 1]
    at = text.find(typed)
    price = _PRICE.search(text, at + len(typed)) if at >= 0 else None
    if price is None:
        return ""
    rest = found.rest or ("throughout" if line.kind == "works" else "")
    return text[:at] + rest + text[at + len(typed) : price.end()] + behind.rstrip() + text[price.end() :]


def _whole(place: Place, text: str) -> Fix | None:
    mark = place.mark()
    return Fix(Mark(mark.file, mark.line, mark.column, mark.end, mark.text), text) if text else None
