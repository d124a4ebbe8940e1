"""Recognises clauses said in another way: several houses, whom a loan's money went to, lists of things, periods, trips.

Knows which words join what; who and what they name is for others.
"""

from __future__ import annotations

import calendar
import re

from ...days import MONTHS
from ...problems import Problem
from ..grammar import LITTLE_WORDS, words
from ..near import nearest
from ..spot import Spot, accepts_at, said, try_reading
from .tables import PLAIN_ENGLISH

_NAME = r"(?:\d+-?)?[^\W\d_](?:\w|'|-(?=\w))*"
_SHARE = rf"{_NAME}(?:[ \t]+\d+(?:\.\d+)?%)?"
_HOUSES = re.compile(
    rf"(?P<joint>at|across)[ \t]+(?P<list>{_SHARE}(?:[ \t]*(?:,[ \t]*and\b|,|&|\band\b)[ \t]*(?:at[ \t]+)?{_SHARE})+)"
    r"(?=[ \t]*(?:[,#£\"\n]|$)|[ \t]+\w)",
    re.I,
)
_PERIOD = re.compile(
    r"(\d{1,2}(?:st|nd|rd|th)? +[a-z]{3,9} +\d{4}|\d{1,2}/\d{1,2}/\d{4}) *(?:to|till|until|-|–) *"
    r"(\d{1,2}(?:st|nd|rd|th)? +[a-z]{3,9} +\d{4}|\d{1,2}/\d{1,2}/\d{4})",
    re.I,
)
_PAPER = re.compile(
    r"(?:invoice|inv|bill|quote|quotation|order)\b\.?[ \t]*(?:no\b\.?|number|num\b\.?|ref\b\.?)?[ \t]*:?[ \t]*"
    r"(?P<ref>(?=[\w/.-]*\d)\w[\w/.-]*\w|\d)",
    re.I,
)
_HOUSE_NAME = re.compile(r"[a-z][a-z']*(?:-[a-z']+)*-\d+[a-z]?")
_WORDS = r"[^\W\d_][\w'-]*(?:[ \t]+[^\W\d_][\w'-]*)*"


def several_houses(spot: Spot) -> Problem | None:
    """at elm-9 and oak-4, across elm-9, oak-4: what several houses share."""
    before = spot.stop.before
    at = next((p for p in reversed(before) if p.type in ("AT", "ACROSS")), None)
    if at is None or not spot.day or spot.unfinished:
        return None
    found = _HOUSES.match(spot.text, at.start_pos)
    if found is None or not at.start_pos < spot.start < found.end():
        return None
    names = re.findall(rf"(?:^|[\s,&])(?!(?:and|at)\b)({_NAME})([ \t]+\d+(?:\.\d+)?%)?", found["list"], re.I)
    if len(names) < 2 or any(_a_keyword(name) for name, _ in names):
        return None
    houses = " and ".join(f"{name}{share}" for name, share in names)
    shared = any(share for _, share in names)
    end = spot.clauses_end(found.end())
    between = spot.text[found.end() : end]
    if shared or re.match(r"[ \t]*(?:,[ \t]*)?split\b", spot.text[end:]):
        fix = spot.mend(at.start_pos, found.end(), f"across {houses}")
    else:
        fix = spot.mend(at.start_pos, end, f"across {houses}{between}, split equally")
    if fix is None:
        return None
    how = "with its percentage behind each" if shared else "and split equally says how they share it"
    if at.type == "ACROSS":
        return spot.error(
            "join-with-and",
            'Several of a kind are joined by "and", not by a comma.',
            at=(spot.start, found.end()),
            label="and",
            help=f'Houses that share a sum are joined by "and", {how}.',
            fix=fix,
        )
    return spot.error(
        "wrong-word",
        'For several houses the word is "across", not "at".',
        at=(at.start_pos, found.end()),
        label="across",
        help=f'Houses that share a sum stand after "across", joined by "and", {how}.',
        fix=fix,
    )


def _a_keyword(name: str) -> bool:
    """Whether a word is one of the language, so that "at mill-3, required by council" names one house."""
    low = name.lower()
    return low in words().words or any(low == phrase.lower() for held in words().says.values() for phrase in held)


def on_whom(spot: Spot) -> Problem | None:
    """paid interest £310.00 on northway: the loan or lender the money went to."""
    if spot.typed.lower() != "on" or "WHO" not in spot.accepts or spot.lead != "MONEY_VERB":
        return None
    found = re.compile(rf"on[ \t]+({_NAME})[ \t]*(?=[,#\n]|$|for\b)", re.I).match(spot.text, spot.start)
    verb = str(next((p.value for p in spot.stop.before if p.type == "MONEY_VERB"), ""))
    if found is None or verb not in ("paid", "repaid", "received"):
        return None
    joint = "from" if verb == "received" else "to"
    loan = re.search(r"\b(?:interest|mortgage|capital|repayment|loan)\b", spot.text[spot.head : spot.start], re.I)
    help = f'Who had the money comes after "to", who gave it after "from": "{joint} {found[1]}".'
    if not loan:
        help = f'Write "{joint} {found[1]}" for who it is, "at {found[1]}" for the house it is about.'
    return spot.error(
        "wrong-word",
        f'Here the word is "{joint}", not "{spot.typed}".'
        if loan
        else f'"{spot.typed}" does not say what is meant here.',
        label=joint if loan else "who, or which house?",
        help=help,
        fix=spot.mend(spot.start, spot.end, joint) if loan else None,
    )


def list_of_things(spot: Spot) -> Problem | None:
    """bought wood, screws and nails: a list of things is joined by and."""
    last = spot.last
    if last is None or last.type != "_COMMA" or spot.back(2) != "WORDS" or not spot.day or spot.unfinished:
        return None
    if "AND" not in accepts_at(spot.text[: last.start_pos].rstrip(" \t")) or spot.piece.type not in ("NAME", "WORDS"):
        return None
    found = re.compile(rf"(?:{_WORDS})(?:[ \t]*,[ \t]*(?:and[ \t]+)?{_WORDS})*", re.I).match(spot.text, spot.start)
    if found is None:
        return None
    run = till_clause(found[0])
    listed = re.search(r"\band\b", run, re.I) or str(spot.stop.before[1].value) in (
        "bought",
        "hired",
        "cleaned",
        "sold",
    )
    if nearest(run.split()[:3], said(spot.accepts), plain=PLAIN_ENGLISH):
        return None
    if not listed:
        return _room_or_thing(spot, run)
    start = len(spot.text[: last.start_pos].rstrip(" \t"))
    things = re.sub(r"[ \t]*,[ \t]*(?:and[ \t]+)?", " and ", run)
    fix = spot.mend(start, spot.start + len(run), f" and {things}")
    if fix is None:
        return None
    return spot.error(
        "join-with-and",
        'A list of things is joined by "and", not by a comma.',
        at=(last.start_pos, last.end_pos),
        label="and",
        help='Put "and" between them, as many times as it takes.',
        fix=fix,
    )


def _room_or_thing(spot: Spot, run: str) -> Problem | None:
    """replaced tap, kitchen £90.00: where it is, or another thing."""
    behind = spot.text[spot.start + len(run) : spot.tail].lstrip()
    if "," in run or not behind.startswith("£"):
        return None
    return spot.error(
        "unknown-fact",
        f'"{run}" is not a fact of the book.',
        at=(spot.start, spot.start + len(run)),
        label="a room, or another thing?",
        help=f'For a room write "in {run}", for one more thing "and {run}", without the comma.',
    )


def till_clause(run: str) -> str:
    """The words up to the first little word."""
    found = re.search(rf"[ \t]+(?:{'|'.join(LITTLE_WORDS - {'and'})})\b", run, re.I)
    return run[: found.start()] if found else run


def paper_number(spot: Spot) -> Problem | None:
    """invoiced £960.00 by "Ridge & Sons", invoice 118: the number of the paper itself."""
    found = _PAPER.match(spot.text, spot.start)
    if found is None or spot.unfinished or spot.last_type in ("PLAN_VERB", "AGAINST"):
        return None
    own = spot.lead in ("INVOICED", "WORKS_VERB", "PLAN_VERB")
    last = spot.last
    comma = last is not None and last.type == "_COMMA"
    if not own or not (comma or "_COMMA" in spot.accepts):
        return None
    start = spot.start if comma else len(spot.text[: spot.start].rstrip(" \t"))
    meant = f"number {found['ref']}"
    fix = spot.mend(start, found.end(), meant if comma else f", {meant}")
    if fix is None:
        return None
    return spot.error(
        "other-word",
        f'Your book says "{found[0]}"; it is written "{meant}" here.',
        at=(spot.start, found.end()),
        label=meant,
        help=f'Write "{meant}".',
        fix=fix,
    )


def period_without_for(spot: Spot) -> Problem | None:
    """by fenbury, 12 May 2025 to 30 Jun 2025: a period without its little word."""
    if spot.piece.type not in ("DATE", "MONTH", "TAXYEAR") or spot.last is None or spot.begins_line:
        return None
    found = _PERIOD.match(spot.text, spot.start)
    if spot.piece.type == "DATE" and found is None:
        return None
    last = spot.last
    start = last.start_pos if last.type == "_COMMA" else spot.start
    start = len(spot.text[:start].rstrip(" \t"))
    end = found.end() if found else spot.end
    period = f"{found[1]} to {found[2]}" if found else spot.typed
    fix = spot.mend(start, end, f" for {period}")
    if fix is None or _stops_at(spot, start, end, f" for {period}"):
        return None
    return spot.error(
        "missing-word",
        f'The word "for" is missing before "{period}".',
        at=(spot.start, end),
        label="for …",
        help='A period begins with "for", without a comma.',
        fix=fix,
    )


def months_joined(spot: Spot) -> Problem | None:
    """for Jun 2025 to Aug 2025: a period of several months, which has days for its ends."""
    last = spot.last
    if spot.piece.type != "MONTH" or last is None or last.value != "to" or spot.back(2) != "MONTH":
        return None
    first = spot.stop.before[-2]
    (year, month), (end_year, end_month) = first.value, spot.piece.value
    days = calendar.monthrange(end_year, end_month)[1]
    meant = f"1 {MONTHS[month - 1]} {year} to {days} {MONTHS[end_month - 1]} {end_year}"
    return spot.error(
        "wrong-word",
        "A period of several months is given by its first and last day.",
        at=(first.start_pos, spot.end),
        label="which days?",
        help=f'Write "{meant}".',
        fix=spot.mend(first.start_pos, spot.end, meant),
    )


def _stops_at(spot: Spot, start: int, end: int, text: str) -> bool:
    """Whether the text with this edit stops within or right behind it."""
    stop = try_reading(spot.text[:start] + text + spot.text[end:])
    return stop is not None and stop.piece.start_pos <= start + len(text)


def purpose_of_trip(spot: Spot) -> Problem | None:
    """drove 22 miles to view the house: what the trip was for, without its quotation marks."""
    if spot.lead != "DROVE" or spot.unfinished or not spot.typed[:1].isalpha():
        return None
    comma = spot.last_type == "_COMMA" and spot.back(2) == "MILES"
    found = re.compile(r"[^,\"\n#]+").match(spot.text, spot.start)
    if found is None or not (comma and spot.typed.lower() in ("to", "for") or spot.last_type == "MILES"):
        return None
    text = found[0].rstrip(" \t")
    shared = re.search(r"[ \t]+across[ \t]", text)
    own = text[: shared.start()] if shared else text
    start = len(spot.text[: spot.last.start_pos].rstrip(" \t")) if comma and spot.last else spot.start
    fix = spot.mend(start, spot.start + len(own), f'{" " if comma else ""}"{own}"')
    if fix is None:
        return None
    return spot.error(
        "needs-quotes",
        f"Words of your own stand in double quotation marks: {own}.",
        at=(spot.start, spot.start + len(own)),
        label="in quotes",
        help="What a trip was for goes into double quotation marks.",
        fix=fix,
    )


def house_alone(spot: Spot) -> Problem | None:
    """paid rewiring £2,900.00 to volt, mill-3; £61.00 mill-3: the short name of a house without its little word."""
    last = spot.last
    if last is None or spot.unfinished or not _HOUSE_NAME.fullmatch(spot.typed):
        return None
    if last.type not in ("_COMMA", "AMOUNT", "NAME", "STRING") or not spot.day:
        return None
    start = len(spot.text[: last.start_pos if last.type == "_COMMA" else spot.start].rstrip(" \t"))
    fix = spot.mend(start, spot.end, f" at {spot.typed}", beyond=True)
    if fix is None:
        return None
    return spot.error(
        "missing-word",
        f'The word "at" is missing before "{spot.typed}".',
        label="at …",
        help="Which house a line is for stands behind at, without a comma.",
        fix=fix,
    )
