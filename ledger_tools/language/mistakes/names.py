"""Recognises words that are not of the language: slips of the keys, words of other trades, verbs in the wrong place."""

from __future__ import annotations

import re

from ...problems import Fix, Problem
from ..grammar import LITTLE_WORDS, words
from ..near import Near, nearest
from ..spot import ENDS, VERBS, Spot, accepts_at, listed, quoted, said
from .tables import TURNS, VERB_TURNS, Turn, homes

_OBJECT = re.compile(
    r"[ \t]+([^,£\"\n#]*?)(?=[ \t]+(?:in|by|from|to|at|for|with|into|across|against)\b|[ \t]*[,£\"#\n]|$)", re.I
)


def _at_verb(spot: Spot) -> bool:
    return bool(spot.accepts & VERBS) and ("WORKS_VERB" in spot.accepts or "TODO_VERB" in spot.accepts)


def _typed_as(spot: Spot, turn: Turn) -> str | None:
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


def other_word(spot: Spot) -> Problem | None:
    """rent £925 monthly: words that the book writes in another way."""
    if spot.unfinished:
        return None
    comma = "_COMMA" in spot.accepts
    for turn in TURNS:
        typed = _typed_as(spot, turn)
        if typed is None:
            continue
        start, end = spot.start, spot.start + len(typed)
        fix = spot.mend(start, end, turn.write, beyond=True)
        if fix is None and comma:
            start = len(spot.text[:start].rstrip(" \t"))
            fix = spot.mend(start, end, f", {turn.write}", beyond=True)
        if fix:
            return spot.error(
                "other-word",
                f'Your book says "{typed}"; it is written "{turn.write}" here.',
                fix=fix,
                at=(spot.start, end),
                label=turn.write,
                help=f'Write "{turn.write}".',
            )
    return None


def other_verb(spot: Spot) -> Problem | None:
    """rewired, refunded, refurbished: verbs of the trade that the book says with other words."""
    if not _at_verb(spot) or spot.unfinished:
        return None
    for turn in VERB_TURNS:
        typed = _typed_as(spot, turn)
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
    if not _at_verb(spot) or spot.unfinished or "TODO_VERB" in spot.accepts:
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


def near_here(spot: Spot) -> Problem | None:
    """repalced boiler, modern equivelant: a slip in a word that could come here, or behind a comma here."""
    if spot.unfinished or not re.match(r"[^\W_]", spot.typed) or spot.typed.lower() in LITTLE_WORDS:
        return None
    typed = spot.typed_words()
    found = nearest(typed, said(spot.accepts - set(ENDS)))
    gap = ""
    if not found and "_COMMA" in spot.accepts:
        found, gap = nearest(typed, said(accepts_at(spot.text[: spot.start].rstrip(" \t") + ","))), ", "
    return _near(spot, found, gap) if found else None


def _near(spot: Spot, found: list[Near], gap: str) -> Problem | None:
    best = found[0]
    end = spot.words_end(best.taken)
    start = len(spot.text[: spot.start].rstrip(" \t")) if gap else spot.start
    fix = spot.mend(start, end, gap + best.word, certain=best.distance == 1 and len(found) == 1)
    typed = spot.text[spot.start : end]
    code, what = _kind(spot, gap)
    if best.word in said(VERBS & spot.accepts):
        code, what = "unknown-verb", "a verb of the book"
    if best.distance == 0:
        if not gap:
            return None
        return spot.error(
            "missing-comma",
            f"A comma is missing before {quoted(typed)}.",
            label="a comma before this",
            at=(spot.start, end),
            help="Put a comma before it.",
            fix=fix,
        )
    names = [near.word for near in found]
    comma = " A comma goes before it." if gap else ""
    return spot.error(
        code,
        f'"{typed}" is not {what}.',
        at=(spot.start, end),
        label=f"{best.word}?",
        help=f"Did you mean {listed(names)}?{comma}",
        fix=fix,
    )


def _kind(spot: Spot, gap: str = "") -> tuple[str, str]:
    """The code and the name of what could have come."""
    if spot.last is None:
        return "unknown-heading", "a heading of the book"
    if _at_verb(spot) and (spot.last_type in ("DATE", "MONTH", "NUMBER") or not spot.begins_line):
        return "unknown-verb", "a verb of the book"
    if spot.begins_line and spot.stop.before[0].type not in ("DATE", "MONTH"):
        return "unknown-field", "a word that a line here can begin with"
    if gap or spot.begins_line or spot.last_type == "_COMMA":
        return "unknown-fact", "a fact of the book"
    return "unknown-word", "a word that fits here"


def near_elsewhere(spot: Spot) -> Problem | None:
    """A slip in a word of the language that belongs on another kind of line."""
    behind = spot.begins_line or spot.last_type == "_COMMA"
    if spot.unfinished or not behind or spot.piece.type != "NAME":
        return None
    says = words().says
    pool = {word: name for name in says if homes(name) and name not in VERBS for word in says[name] if len(word) > 3}
    found = nearest(spot.typed_words(), list(pool), most=1)
    if not found or found[0].distance > 3:
        if spot.last is None:
            verbs = nearest(spot.typed_words(), [word for name in VERBS for word in says[name]])
            return _dateless(spot, verbs) if verbs else None
        return None
    best = found[0]
    end = spot.words_end(best.taken)
    code, what = _kind(spot)
    if best.distance == 0:
        return spot.error(
            "belongs-elsewhere",
            f'"{best.word}" belongs {homes(pool[best.word])[0]}, not here.',
            at=(spot.start, end),
            label="belongs elsewhere",
            help="Leave it out here, or put it on the line it speaks of.",
        )
    return spot.error(
        code,
        f'"{spot.text[spot.start : end]}" is not {what}.',
        at=(spot.start, end),
        label=f"{best.word}?",
        help=f'Did you mean "{best.word}"? It belongs {homes(pool[best.word])[0]}.',
    )


def _dateless(spot: Spot, verbs: list[Near]) -> Problem:
    names = [near.word for near in verbs]
    return spot.error(
        "date-missing",
        f'A line begins with "{spot.typed}", which is neither a date nor a heading.',
        label=f"{names[0]}?",
        help=f"Did you mean {listed(names)}? A verb needs its day in front.",
    )


def unknown(spot: Spot) -> Problem | None:
    """A verb, a heading or a field with nothing near it: the sentence of the place says what could have come."""
    from .tables import next_words

    entry = next_words(spot.accepts, spot.last_type, spot.lead)
    if (
        spot.piece.type != "NAME"
        or entry is None
        or not (spot.begins_line or _at_verb(spot) or spot.last_type == "_COMMA")
    ):
        return None
    code, what = _kind(spot)
    return spot.error(code, f'"{spot.typed}" is not {what}.', label="not known", help=entry.say)
