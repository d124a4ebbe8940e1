"""Recognises words of your own where a fact is awaited, with or without a fact among them. Knows no fact's meaning."""

from __future__ import annotations

import re

from ...problems import Fix, Problem
from ..grammar import LITTLE_WORDS, words
from ..near import nearest
from ..spot import Spot, accepts_at, said
from .clauses import till_clause
from .tables import PLAIN_ENGLISH, UNITS, homes

_WORDS = re.compile(r"[^\W\d_][\w'-]*(?:[ \t]+[^\W\d_][\w'-]*)*")
_MEASURED = re.compile(
    rf"\d+(?:\.\d+)?[ \t]*(?:{UNITS})\b(?:[ \t]+[^\W\d_][\w'-]*)*"
    r"|(?:less )?(?:the |my |our |policy )*excess\b(?: of)?(?: £?[\d,.]+\d)?",
    re.I,
)
_BY_TENANT = re.compile(r"by (?:(?:the|a|my|our|old|last|outgoing) )*(?:tenants?|lodgers?|renters?)\b", re.I)
_LAST = re.compile(r"[ \t]*(?:[,#\n]|$)")
_FACTS = ("CAUSE", "COMPARED", "FIXING", "WAS_THERE")


def own_words(spot: Spot) -> Problem | None:
    """, fire door required: words of your own where a fact is awaited, one of which may be a fact."""
    if spot.last_type != "_COMMA" or "REASON" not in spot.accepts or spot.unfinished:
        return None
    found = _WORDS.match(spot.text, spot.start)
    if found is None or " " not in found[0] or till_clause(found[0]) != found[0]:
        return None
    if not _LAST.match(spot.text, found.end()) or homes(spot.piece.type):
        return None
    typed, facts = found[0], said(spot.accepts)
    near = next(iter(nearest(typed.split(), facts, plain=PLAIN_ENGLISH)), None)
    if near is not None:
        rest = " ".join(typed.lower().split()[near.taken :])
        if not rest or rest in facts or near.distance > 2:
            return None  # a slip in a fact: told elsewhere
    whole = said(spot.accepts & set(_FACTS))
    fact = near.word if near else next((word for word in typed.lower().split() if word in whole), "")
    return _put(spot, spot.start, found.end(), fact)


def measured(spot: Spot) -> Problem | None:
    """hired sander £90.00, 2 days; received insurance £520.00, excess £100.00: what no figure hangs on."""
    if not spot.day or spot.last_type not in ("_COMMA", "WORDS", "AMOUNT") or "_COMMA" not in _soon(spot):
        return None
    found = _MEASURED.match(spot.text, spot.start)
    if found is None:
        return None
    end = spot.start + len(till_clause(found[0]).rstrip())
    typed = spot.text[spot.start : end]
    return spot.error(
        "unknown-fact",
        f'"{typed}" is not a fact of the book.',
        at=(spot.start, end),
        label="your own words",
        help='Words of your own stand in double quotation marks behind "because".',
        fix=as_fact(spot, spot.start, end, f'because "{typed}"'),
    )


def words_behind(spot: Spot) -> Problem | None:
    """paid insurance £248.00 annual premium; received rent £650.00 cash: words of your own behind the sum."""
    last = spot.last
    if last is None or last.type not in ("AMOUNT", "NAME", "STRING") or spot.unfinished or not spot.day:
        return None
    found = _WORDS.match(spot.text, spot.start)
    if found is None or spot.begins_line or "REASON" not in accepts_at(spot.text[: last.end_pos] + ","):
        return None
    if not _LAST.match(spot.text, found.end()) or till_clause(found[0]) != found[0]:
        return None
    each = found[0].lower().split()
    if any(re.fullmatch(r"[a-z'-]+-\d+[a-z]?", word) for word in each):
        return None  # a house among them
    if len(each) == 1 and each[0] not in _PAID_HOW or "and" in each or each[0] in ("towards", "with", "plus", "less"):
        return None  # one word may be a name without its little word, and more may be another clause
    if homes(spot.piece.type) or nearest(found[0].split(), said(spot.accepts), plain=PLAIN_ENGLISH):
        return None
    return _put(spot, spot.start, found.end(), "") or None


_PAID_HOW = frozenset("cash cheque card bacs online paypal".split())


def _soon(spot: Spot) -> frozenset[str]:
    """What may come at the spot, and the comma where one stands just before it."""
    return spot.accepts | {"_COMMA"} if spot.last_type == "_COMMA" else spot.accepts


def as_fact(spot: Spot, start: int, end: int, fact: str) -> Fix | None:
    """A fact in place of what was typed: where that stands behind a comma, else behind the clauses that follow it."""
    if spot.text[:start].rstrip(" \t").endswith(","):
        return spot.mend(start, end, fact)
    begin, last = len(spot.text[:start].rstrip(" \t")), spot.clauses_end(end)
    return spot.mend(begin, last, f"{spot.text[end:last]}, {fact}")


def fact_with_more(spot: Spot) -> Problem | None:
    """, broken beyond repair and , required by law: a fact, and words of your own that run on from it."""
    last = spot.last
    if last is None or last.type not in _FACTS or spot.back(2) != "_COMMA" or spot.unfinished or spot.begins_line:
        return None
    if tenants := _BY_TENANT.match(spot.text, spot.start):
        return spot.error(
            "unknown-fact",
            f'"{spot.text[last.start_pos : tenants.end()]}" is told in one fact of the book.',
            at=(last.start_pos, tenants.end()),
            label="tenant damage",
            help='What tenants broke is "tenant damage"; `by` names who did the work.',
            fix=spot.mend(last.start_pos, tenants.end(), "tenant damage"),
        )
    if spot.typed.lower() == "by" and last.value != "required" or not spot.typed[:1].isalpha():
        return None
    if spot.piece.type not in ("NAME", "WORDS", "WHO") or "REASON" not in accepts_at(f"{spot.text[: last.end_pos]}, "):
        return None
    found = _WORDS.match(spot.text, last.start_pos)
    if found is None or not _LAST.match(spot.text, found.end()):
        return None
    rest = spot.text[spot.start : found.end()].lower().split()
    if rest[0] not in LITTLE_WORDS and nearest(
        rest, said(accepts_at(f"{spot.text[: last.end_pos]}, ")), plain=PLAIN_ENGLISH
    ):
        return None  # a second fact without its comma
    return _put(spot, last.start_pos, found.end(), str(last.value))


def all_own_words(spot: Spot) -> Problem | None:
    """, single glazing to double glazing; , for burst pipe: plain words up to the next comma."""
    begin = spot.text.rfind(",", spot.head, spot.start) + 1
    begin += len(spot.text[begin:]) - len(spot.text[begin:].lstrip(" \t"))
    found = _WORDS.match(spot.text, begin)
    if not spot.day or not begin or found is None or found.end() <= spot.start or " " not in found[0]:
        return None
    first = found[0].split()[0].lower()
    if not _LAST.match(spot.text, found.end()) or first != "for" and (first in LITTLE_WORDS or first in words().words):
        return None
    start = begin + len(first) + 1 if first == "for" else begin
    fix = spot.mend(begin, found.end(), f'because "{spot.text[start : found.end()].lstrip()}"', beyond=True)
    if fix is None:
        return None
    return spot.error(
        "unknown-fact",
        f'"{found[0]}" is not a fact of the book.',
        at=(begin, found.end()),
        label="your own words",
        help='Words of your own stand in double quotation marks behind "because".',
        fix=fix,
    )


def _put(spot: Spot, start: int, end: int, fact: str) -> Problem | None:
    """The words as a reason, behind the fact that was among them."""
    typed = spot.text[start:end]
    comma = "" if spot.text[:start].rstrip(" \t").endswith(",") else ", "
    begin = len(spot.text[:start].rstrip(" \t")) if comma else start
    fix = spot.mend(begin, end, f'{fact}, because "{typed}"' if fact else f'{comma}because "{typed}"')
    if fix is None:
        return None
    more = f' "{fact}" is a fact by itself.' if fact else ""
    return spot.error(
        "unknown-fact",
        f'"{typed}" is not a fact of the book.',
        at=(start, end),
        label="your own words",
        help=f'Words of your own stand in double quotation marks behind "because".{more}',
        fix=fix,
    )
