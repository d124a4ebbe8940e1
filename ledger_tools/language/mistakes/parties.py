"""Recognises mistakes in names and quoted words: whose name is missing, what wants quotes and what does not."""

from __future__ import annotations

import re

from ...problems import Problem
from ..grammar import LITTLE_WORDS, words
from ..spot import Spot, is_keyword

_PARTY_BEFORE = frozenset(("WHO", "TOLD", "BOOKED", "FROM", "TO", "WITH"))
_WHOM = {"by": "by whom?", "from": "from whom?", "to": "to whom?", "told": "told whom?", "booked": "whom?"}
_ONE_WORD_BEFORE = frozenset(
    (
        "AT",
        "ON",
        "ACROSS",
        "AND",
        "WHO",
        "PROPERTY",
        "SCHEDULE",
        "TENANCY",
        "LOAN",
        "LANDLORD",
        "COUNCIL",
        "PARTY_KIND",
        "OWNERS",
        "SCHEME",
        "FROM",
        "TO",
        "WITH",
        "TOLD",
        "BOOKED",
    )
)
# told council quarrel the house is empty: what somebody is, their short name, what was said.
_KIND_AND_NAME = re.compile(
    r"(?:council|insurer|lender|bank|agent|tenants?|builder|plumber|electrician)[ \t]+"
    r"(?!(?:the|a|an|that|we|i|it|there|they|house|home|no|not|about|of|to|on|in|is|was)\b)([a-z][\w'-]*)[ \t]+"
    r"(?=[^\s\"])"
)
_NAME = re.compile(r"[A-Za-z0-9&'.][\w&'./-]*")
_BLANKS = re.compile(r"[ \t]+")


def _name_end(spot: Spot, start: int) -> int:
    """Where a name of several words that begins at `start` ends: before a clause, a fact, an amount or a comma."""
    text, end = spot.text, start
    while match := _NAME.match(
        text, end if end == start else (gap.end() if (gap := _BLANKS.match(text, end)) else end)
    ):
        low = match[0].lower()
        if end != start and (low in LITTLE_WORDS or match.start() == end):
            break
        if end != start and any(
            phrase.reserved and phrase.match(text, match.start())
            for phrase in words().phrases.get(low.partition("-")[0], ())
        ):
            break
        end = match.end()
    return start + len(text[start:end].rstrip(". "))


def name_in_two_words(spot: Spot) -> Problem | None:
    """by Kestrel Heating: a name of several words without quotation marks; capitals or an ampersand give it away."""
    last = spot.last
    if last is None or last.type != "NAME" or spot.back(2) not in _PARTY_BEFORE or spot.unfinished:
        return None
    first = spot.text[last.start_pos : last.end_pos]
    if not (spot.typed == "&" or (first[0].isupper() and spot.typed[:1].isupper())):
        return None
    return _quoted_name(spot, last.start_pos)


def name_in_plain_words(spot: Spot) -> Problem | None:
    """from the shop: a name of several words without quotation marks and without capitals."""
    last = spot.last
    if last is None or last.type != "NAME" or spot.back(2) not in _PARTY_BEFORE or spot.piece.type not in ("NAME", ""):
        return None
    if "STRING" in spot.accepts and spot.back(2) == "TOLD":  # what was said comes next, not more of the name
        return None
    return _quoted_name(spot, last.start_pos)


def _quoted_name(spot: Spot, start: int) -> Problem | None:
    end = _name_end(spot, start)
    name = spot.text[start:end]
    fix = spot.mend(start, end, f'"{name}"')
    if end <= spot.start or fix is None:
        return None
    return spot.error(
        "name-needs-quotes",
        f"A name of several words stands in double quotation marks: {name}.",
        at=(spot.start, end),
        label="more than one word",
        fix=fix,
        help="Put the whole name in quotes, or use the short name of a supplier block.",
    )


def name_with_a_blank(spot: Spot) -> Problem | None:
    """at tanner 7: a short name is one word, so its blank becomes a hyphen."""
    last = spot.last
    if last is None or last.type != "NAME" or spot.back(2) not in _ONE_WORD_BEFORE or "PERCENT" in spot.accepts:
        return None
    if not re.fullmatch(r"\d{1,3}[a-z]?", spot.typed, re.I) or spot.text[last.end_pos : spot.start] != " ":
        return None
    name = spot.text[last.start_pos : spot.end]
    return spot.error(
        "name-one-word",
        f'A short name is one word, and "{name}" is two.',
        at=(last.start_pos, spot.end),
        label="one word",
        help="Join its parts with a hyphen.",
        fix=spot.mend(last.end_pos, spot.start, "-"),
    )


def name_missing(spot: Spot) -> Problem | None:
    """by, like for like: the little word is there, the name is not; or quoted words stand for a short name."""
    if "NAME" not in spot.accepts or len(spot.accepts - {"STRING"}) != 1 or spot.last is None:
        return None
    text = str(spot.last.value).lower()
    if spot.piece.type == "STRING":
        short = re.sub(r"[^a-z0-9]+", "-", str(spot.piece.value).lower()).strip("-")
        heading = spot.stop.before == spot.stop.before[:1] and spot.back(1) not in ("AT", "SCHEDULE")
        meant = f"{short.split('-')[0]} {spot.typed}" if heading else short
        fix = spot.mend(spot.start, spot.end, meant) if short and short[0].isalpha() else None
        say = "A short name, one word, comes before the full name." if heading else "A short name here has no quotes."
        return spot.error(
            "name-one-word",
            say,
            label="a short name",
            fix=fix,
            help="A short name is one word, which the other lines use: tanner-7, kestrel.",
        )
    if not (spot.unfinished or spot.piece.type == "_COMMA" or is_keyword(spot)) or text not in _WHOM:
        return None
    ask = _WHOM[text]
    return spot.error(
        "name-missing",
        f'{ask.capitalize()} A name comes after "{text}".',
        label=ask,
        help="Write the short name of a firm or person, or the full name in double quotation marks.",
        at=None if not spot.unfinished else (spot.last.start_pos, spot.last.end_pos),
    )


def needs_quotes(spot: Spot) -> Problem | None:
    """receipt b.pdf, because the old one leaked: words that stand in double quotation marks."""
    if spot.unfinished or spot.piece.type in ("STRING", "_COMMA") or "STRING" not in spot.accepts:
        return None
    proof = spot.last_type == "PROOF" or (spot.last_type == "AND" and spot.accepts == {"STRING"})
    told = spot.last_type == "NAME" and spot.back(2) == "TOLD" and spot.piece.type in ("NAME", "")
    if spot.accepts == {"NAME", "STRING"} and spot.piece.type in ("NAME", "NUMBER", ""):
        return _quoted_name(spot, spot.start)
    if told and spot.last and '"' in spot.rest:
        return _quoted_name(spot, spot.last.start_pos)
    if spot.accepts != {"STRING"} and not told:
        return None
    text, end = spot.text, spot.tail
    if proof:
        stop = re.compile(r'[^,"\n#]+').match(text, spot.start)
        end = spot.start + len(stop[0].rstrip(" \t")) if stop else spot.end
    own = text[spot.start : end].replace('"', "'")
    if told and spot.last and (named := _KIND_AND_NAME.match(text, spot.last.start_pos)):
        meant = f'{named[1]} "{text[named.end() : end].strip()}"'
        return spot.error(
            "needs-quotes", f"Words of your own stand in double quotation marks: {text[named.end() : end].strip()}.",
            at=(named.end(), end), label="in quotes",
            help="Who it was said to goes by one word, what was said follows in quotation marks.",
            fix=spot.mend(spot.last.start_pos, end, meant),
        )  # fmt: skip
    if spot.last_type == "TENANTS":
        parts = re.split(r" and |, ?", own)
        fix = spot.mend(spot.start, end, " and ".join(f'"{part.strip()}"' for part in parts))
    else:
        fix = spot.mend(spot.start, end, f'"{own}"')
    last = spot.last
    if proof and last is not None and last.value in ("before", "after") and "." not in own:
        start = last.start_pos
        return spot.error(
            "unknown-fact", f'"{text[start:end]}" is not a fact of the book.', at=(start, end), label="your own words",
            help='Words of your own stand in double quotation marks behind "because"; behind before and after stands '
            "the name of a photo.",
            fix=spot.mend(start, end, f'because "{text[start:end]}"'),
        )  # fmt: skip
    what = "The name of a file stands" if proof else "Words of your own stand"
    return spot.error(
        "needs-quotes",
        f"{what} in double quotation marks: {own}.",
        at=(spot.start, end),
        label="in quotes",
        help="Put double quotation marks round it.",
        fix=fix,
    )


def unneeded_quotes(spot: Spot) -> Problem | None:
    """replaced "boiler": a thing or a room in quotation marks."""
    if spot.piece.type != "STRING" or "WORDS" not in spot.accepts:
        return None
    fix = spot.mend(spot.start, spot.end, str(spot.piece.value).strip())
    return spot.error(
        "no-quotes",
        f"Things and rooms stand without quotation marks: {spot.typed}.",
        label="no quotes",
        help="Take the quotation marks away.",
        fix=fix,
    )
