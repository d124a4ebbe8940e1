"""Recognises words that are not of the language: slips of the keys, words of other books, names that stand alone."""

from __future__ import annotations

import re

from ...problems import Problem
from ..grammar import LITTLE_WORDS, words
from ..near import Near, nearest
from ..spot import ENDS, VERBS, Spot, accepts_at, listed, quoted, said
from .nouns import paid_to, what_to_write
from .tables import PLAIN_ENGLISH, TURNS, homes, next_words
from .verbs import at_verb, behind_date, typed_as

_FIGURES = re.compile(r"[ \t:.#]*[\"']?[\w/-]*\d")
_ALONE = re.compile(r"[ \t]*(?:[,#\n]|$)")


def other_word(spot: Spot) -> Problem | None:
    """rent £925 monthly: words that the book writes in another way."""
    if spot.unfinished:
        return None
    comma = "_COMMA" in spot.accepts
    for turn in TURNS:
        typed = typed_as(spot, turn.typed)
        if typed is None:
            continue
        start, end = spot.start, spot.start + len(typed)
        if turn.write == "number" and not _FIGURES.match(spot.text, end):
            continue  # "no licence" is no paper's number
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


def near_here(spot: Spot) -> Problem | None:
    """repalced boiler, modern equivelant: a slip in a word that could come here, or behind a comma here."""
    if spot.unfinished or not re.match(r"[^\W_]", spot.typed) or spot.typed.lower() in LITTLE_WORDS:
        return None
    typed = spot.typed_words()
    found = nearest(typed, said(spot.accepts - set(ENDS)), plain=PLAIN_ENGLISH)
    gap = ""
    if not found and "_COMMA" in spot.accepts:
        facts = said(accepts_at(spot.text[: spot.start].rstrip(" \t") + ","))
        found, gap = nearest(typed, facts, plain=PLAIN_ENGLISH), ", "
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
    if at_verb(spot) and (spot.last_type in ("DATE", "MONTH", "NUMBER") or not spot.begins_line):
        return "unknown-verb", "a verb of the book"
    if spot.begins_line and spot.stop.before[0].type not in ("DATE", "MONTH"):
        return "unknown-field", "a word that a line here can begin with"
    if gap or spot.begins_line or spot.last_type == "_COMMA":
        return "unknown-fact", "a fact of the book"
    return "unknown-word", "a word that fits here"


def glued_word(spot: Spot) -> Problem | None:
    """paid £90.00 tolarkin: a little word run together with the name behind it."""
    for word in said(spot.accepts):
        end = spot.start + len(word)
        if (
            spot.typed.lower() in PLAIN_ENGLISH
            or len(spot.typed) < len(word) + 3
            or not spot.typed.lower().startswith(word)
            or spot.unfinished
        ):
            continue
        if fix := spot.mend(end, end, " "):
            return spot.error(
                "missing-blank",
                f'A blank is missing in "{spot.typed}".',
                label="a blank",
                help=f'Part "{word}" from what follows it.',
                fix=fix,
            )
    return None


def little_behind(spot: Spot) -> Problem | None:
    """converted loft itno 2 bedrooms: a misspelt little word that was read as part of the thing before it."""
    last = spot.last
    if last is None or last.type != "WORDS" or spot.unfinished:
        return None
    words_before = spot.text[last.start_pos : last.end_pos]
    begin = last.start_pos + words_before.rfind(" ") + 1
    typed = spot.text[begin : last.end_pos]
    if begin == last.start_pos or len(typed) < 2:
        return None
    for near in nearest([typed], sorted(LITTLE_WORDS & set(said(spot.accepts))), plain=PLAIN_ENGLISH):
        if fix := spot.mend(begin, last.end_pos, near.word):
            return spot.error(
                "unknown-word",
                f'"{typed}" is not a word that fits here.',
                at=(begin, last.end_pos),
                label=f"{near.word}?",
                help=f'Did you mean "{near.word}"?',
                fix=fix,
            )
    return None


def name_alone(spot: Spot) -> Problem | None:
    """banked £90.00 quayside: a name without the little word that says what its bearer did."""
    follows = spot.text[spot.end : spot.tail].lstrip()
    clause = not follows or follows[0] in ',£"' or follows.split()[0].lower() in LITTLE_WORDS
    if spot.piece.type != "NAME" or "WHO" not in spot.accepts or spot.last_type == "NAME" or not clause:
        return None
    if len(spot.typed) < 2 or spot.typed.lower() in PLAIN_ENGLISH or spot.last_type == "_COMMA" or spot.begins_line:
        return None
    verb = str(next((piece.value for piece in spot.stop.before[:2] if piece.type == "MONEY_VERB"), ""))
    joint = {"paid": "to", "repaid": "to", "received": "from"}.get(verb, "by")
    return spot.error(
        "missing-word",
        f'A word is missing before "{spot.typed}".',
        label="by, from, to, in?",
        help=f"Who did it or sent the bill comes after by, who sold it or paid you after from, who had the money after "
        f'to, a room after in: "{joint} {spot.typed}".',
    )


def near_elsewhere(spot: Spot) -> Problem | None:
    """A slip in a word of the language that belongs on another kind of line."""
    behind = spot.begins_line or spot.last_type == "_COMMA"
    if spot.unfinished or not behind or spot.piece.type != "NAME":
        return None
    says = words().says
    pool = {word: name for name in says if homes(name) and name not in VERBS for word in says[name] if len(word) > 3}
    found = nearest(spot.typed_words(), list(pool), 1, PLAIN_ENGLISH)
    if not found or found[0].distance > 3:
        if spot.last is None:
            verbs = nearest(spot.typed_words(), [word for name in VERBS for word in says[name]], plain=PLAIN_ENGLISH)
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
    entry = next_words(spot.accepts, spot.last_type, spot.lead)
    if (
        spot.piece.type != "NAME"
        or entry is None
        or not (spot.begins_line or at_verb(spot) or spot.last_type == "_COMMA")
    ):
        return None
    code, what = _kind(spot)
    help = entry.say
    if behind_date(spot):
        help = f"After the date comes what happened, as a verb. {what_to_write(spot)}"
    fix = paid_to(spot) if behind_date(spot) else None
    if spot.last_type == "_COMMA" and "REASON" in spot.accepts and _ALONE.match(spot.text, spot.end):
        fix = spot.mend(spot.start, spot.end, f'because "{spot.typed}"')
        help += f' Words of your own stand in double quotation marks: because "{spot.typed}".'
    return spot.error(code, f'"{spot.typed}" is not {what}.', label="not known", help=help, fix=fix)
