"""Recognises dated lines without a verb: the sum's name, the thing or the amount stands where what happened should.

What is proposed never turns round which way money went: where that is open, both lines are told and none is put.
"""

from __future__ import annotations

import re

from ...problems import Fix, Problem
from ..spot import Spot, is_keyword, listed, quoted
from .tables import ENDINGS, NOUNS, Noun
from .verbs import BY, CLAUSE, behind_date, thing_of, typed_as


def sum_without_verb(spot: Spot) -> Problem | None:
    """refund £30.00 from volt, insurance £90.00, boiler repair £90.00: what it was, but not what happened to it."""
    if not behind_date(spot) or "£" not in spot.rest or (found := _noun(spot)) is None:
        return None
    noun, typed, word = found
    came, went = noun.came.format(word), noun.went.format(word)
    end = spot.start + len(typed)
    fix = _with_verb(spot, end, came, went)
    help = f"The verb comes straight after the date: {listed([line for line in dict.fromkeys((came, went)) if line])}."
    if fix is None:
        came, went = came or f"received {word}", went or f"repaid {word}"
        help = (
            f"Which way did the money go? Write `{came} {spot.sum} from …` if it came to you, "
            f"`{went} {spot.sum} to …` if it went from you."
        )
    return spot.error(
        "verb-missing",
        f"No verb stands after the date, but {quoted(typed)}: what happened?",
        at=(spot.start, end),
        label="what happened?",
        help=help,
        fix=fix,
    )


def _noun(spot: Spot) -> tuple[Noun, str, str] | None:
    """What opens the line in place of a verb: its row, the words as typed, and the word the row speaks of."""
    fits = [(typed, noun) for noun in NOUNS if (typed := typed_as(spot, noun.typed))]
    typed, noun = max(fits, key=lambda fit: len(fit[0]), default=("", NOUNS[0]))
    if typed and re.compile(CLAUSE).match(spot.text, spot.start + len(typed)):
        return noun, typed, typed
    before = re.compile(rf"([^,£\"\n#]*?){CLAUSE}", re.I).match(spot.text, spot.start)
    thing, _, last = before[1].strip().rpartition(" ") if before else ("", "", "")
    ending = next((row for row in ENDINGS if last.lower() in row.typed), None)
    if before is None or ending is None or not thing:
        return None
    return ending, before[1].rstrip(), thing.strip()


def _with_verb(spot: Spot, end: int, came: str, went: str) -> Fix | None:
    """The line with the verb that the words from and to leave open to no doubt."""
    clauses = spot.rest.partition(",")[0]
    has_from, has_to = (re.search(rf"\b{word}\b", clauses, re.I) is not None for word in ("from", "to"))
    if has_from and has_to or re.search(r"-[ \t]?£|£[ \t]?-", clauses):
        return None
    one_way = came == went or not came  # a purchase or a cost: no word behind it makes it money in
    write = came if has_from and came else went if has_to or one_way else ""
    if not write or has_to and came == went or has_from and not came:
        return None
    if write.startswith("paid ") and (by := BY.match(spot.text, end)):
        return spot.mend(spot.start, by.end(), f"{write}{spot.text[end : by.start(1)]}to")
    return spot.mend(spot.start, end, write)


def verb_missing(spot: Spot) -> Problem | None:
    """3 Mar 2025 £90.00 to larkin: after the date comes no verb, but the amount or another word of the book."""
    if not behind_date(spot) or not (is_keyword(spot) or spot.piece.type in ("AMOUNT", "STRING")):
        return None
    help = f"The verb comes straight after the date. {what_to_write(spot)}"
    rest = " ".join(spot.rest.split())
    if spot.piece.type == "AMOUNT":
        help = f"Put the verb in front: `paid {rest}` if the money went from you, `received {rest}` if it came to you."
        if re.search(r"\bto\b", rest) and not re.search(r"\bfrom\b", rest):
            help = f"Put the verb in front: `paid {rest}`, or `repaid {rest}` if it was never yours."
    elif spot.piece.type == "STRING":
        help = f"To keep a word of it, put a verb in front: `noted {spot.typed}`."
    return spot.error(
        "verb-missing",
        f"No verb stands after the date, but {quoted(spot.typed)}: what happened?",
        label="what happened?",
        help=help,
    )


def what_to_write(spot: Spot) -> str:
    """Lines near to what was typed behind a date, where no verb is known in it."""
    typed = " ".join(spot.typed_words(8))
    if spot.sum == "£…":
        told = " ".join(spot.rest.replace('"', "'").split())
        return f'To keep a word of it, write `noted "{told}"`.'
    if spot.typed.lower().endswith("ed"):
        thing = thing_of(spot, spot.words_end(1)) or "…"
        return (
            f"For work, write `repaired {thing} {spot.sum}`, `replaced {thing} {spot.sum}` or "
            f"`installed {thing} {spot.sum}`, whichever it was; for another cost, `paid … {spot.sum}`."
        )
    typed = thing_of(spot, spot.start - 1) or typed
    if typed.lower().startswith("new "):
        thing = typed[4:]
        return (
            f"Write `replaced {thing} {spot.sum}` if it took the place of an old one, `installed {thing} {spot.sum}` "
            f"if there was none, `bought {thing} {spot.sum}` if it was only bought."
        )
    typed = typed if typed.count(" ") < 2 else "…"
    return (
        f"For a cost, write `paid {typed} {spot.sum}`, for money that came `received … {spot.sum}`; "
        "for work, the verb and then the thing: repaired …, replaced …, installed …"
    )
