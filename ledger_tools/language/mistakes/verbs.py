"""Recognises mistakes at the verb: verbs of other trades, a verb that stands behind its thing, none at all."""

from __future__ import annotations

import re

from ...problems import Fix, Problem
from ..spot import VERBS, Spot, is_keyword, quoted, said
from .tables import VERB_TURNS, Turn

_OBJECT = re.compile(
    r"[ \t]+([^,£\"\n#]*?)(?=[ \t]+(?:in|by|from|to|at|for|with|into|across|against)\b|[ \t]*[,£\"#\n]|$)", re.I
)


def typed_as(spot: Spot, turn: Turn) -> str | None:
    """The typed text that this row of the table speaks of, the longest one; None where it speaks of another."""
    fits = [
        found[0]
        for typed in turn.typed
        if (
            found := re.compile(re.escape(typed).replace(r"\ ", r"[ \t]+") + r"(?![\w-])", re.I).match(
                spot.text, spot.start
            )
        )
    ]
    return max(fits, key=len, default=None)


def at_verb(spot: Spot) -> bool:
    return bool(spot.accepts & VERBS) and ("WORKS_VERB" in spot.accepts or "TODO_VERB" in spot.accepts)


def other_verb(spot: Spot) -> Problem | None:
    """rewired, refunded, refurbished: verbs of the trade that the book says with other words."""
    if not at_verb(spot) or spot.unfinished:
        return None
    for turn in VERB_TURNS:
        typed = typed_as(spot, turn)
        if typed is None:
            continue
        end = spot.start + len(typed)
        found = _OBJECT.match(spot.text, end)
        thing = found[1].strip() if found else ""
        help, fix, write = turn.say, None, turn.write
        if turn.typed == ("refunded",):
            fix, write = _refund(spot, end, thing), "received refund"
        elif write:
            last = found.end() if found and thing else end
            bare = write.removesuffix(" {}").removesuffix(" in")
            meant = write.format(thing) if thing else bare
            fix = None if "{" in meant else spot.mend(spot.start, last, meant)
            help = f'Write "{write.format("…").removesuffix(" …")}".'
        return spot.error(
            "unknown-verb",
            f'"{typed}" is not a verb of the book.',
            at=(spot.start, end),
            label="another verb",
            help=help,
            fix=fix,
        )
    return None


def _refund(spot: Spot, end: int, thing: str) -> Fix | None:
    """refunded fan £84.50 from volt: it came to us; refunded deposit £900 to okoro: it went back."""
    rest = spot.text[end : spot.tail]
    to, came = re.search(r"\bto\b", rest, re.I), re.search(r"\bfrom\b", rest, re.I)
    if to and not came:
        return spot.mend(spot.start, end, "repaid")
    if came and not to and thing:
        head, comma, facts = rest.replace(thing, "", 1).partition(",")
        line = f"received refund {' '.join(head.split())} for {thing}{comma}{facts}"
        return spot.mend(spot.start, spot.tail, line)
    return spot.mend(spot.start, end, "received refund") if came else None


def verb_behind(spot: Spot) -> Problem | None:
    """boiler replaced, I replaced: the verb is there, but not first."""
    if not at_verb(spot) or spot.unfinished or "TODO_VERB" in spot.accepts:
        return None
    typed = spot.typed_words(5)
    verbs = set(said(spot.accepts))
    if not typed or any(low in verbs for low in (typed[0].lower(), " ".join(typed[:2]).lower())):
        return None
    for at in range(1, len(typed)):
        if typed[at].lower() not in verbs:
            continue
        before, start = " ".join(typed[:at]), spot.start
        pronoun = before.lower() in (
            "i",
            "we",
            "had",
            "have",
            "i have",
            "we have",
            "and",
            "then",
            "was",
            "he",
            "she",
            "they",
        )
        stop = spot.words_end(at + 1)
        meant = typed[at] if pronoun else f"{typed[at]} {before}"
        if fix := spot.mend(start, stop, meant):
            return spot.error(
                "verb-first",
                f'The verb comes first: "{typed[at]}", before "{before}".',
                fix=fix,
                at=(start, spot.words_end(at)),
                label="the verb comes first",
                help="After the date comes the verb, then what it was done to.",
            )
    return None


def verb_missing(spot: Spot) -> Problem | None:
    """3 Mar 2025 rent £90.00: after the date comes no verb, but the thing or the amount."""
    verb_awaited = spot.last_type in ("DATE", "MONTH") and "WORKS_VERB" in spot.accepts
    if not verb_awaited or spot.unfinished or not (is_keyword(spot) or spot.piece.type in ("AMOUNT", "STRING")):
        return None
    return spot.error(
        "verb-missing",
        f"No verb stands after the date, but {quoted(spot.typed)}: what happened?",
        label="what happened?",
        help="The verb comes straight after the date: paid, received, replaced, repaired, invoiced …",
    )
