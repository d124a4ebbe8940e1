"""Recognises dated lines without a verb: the sum's name, the thing or the amount stands where what happened should.

What is proposed never turns round which way money went: where that is open, both lines are told and none is put.
"""

from __future__ import annotations

import re

from ...problems import Fix, Problem
from ..spot import Spot, is_keyword, listed, quoted, try_reading
from .tables import ENDINGS, NOUNS, Noun
from .verbs import BY, CLAUSE, behind_date, thing_of, typed_as


def sum_without_verb(spot: Spot) -> Problem | None:
    """refund £30.00 from volt, insurance £90.00, boiler repair £90.00: what it was, but not what happened to it."""
    if not behind_date(spot) or "£" not in spot.rest or (found := _noun(spot)) is None:
        return None
    noun, typed, word = found
    if typed.lower() in TRADES and not re.search(r"\bto\b", spot.text[spot.start : spot.clauses_end(spot.start)], re.I):
        return _who_came(spot, typed)
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


# Those who come to do a job: that one came says nothing of what was done, which decides the tax.
TRADES = frozenset("handyman plumber electrician roofer builder joiner decorator".split())


def _who_came(spot: Spot, typed: str) -> Problem:
    """plumber £60.00: who came, and not what was done."""
    verbs = ("decorated",) if typed.lower() == "decorator" else ("repaired", "replaced", "installed")
    lines = [f'`{verb} … {spot.sum} by "{typed}"`' for verb in verbs]
    each = f"{', '.join(lines[:-1])} or {lines[-1]}" if len(lines) > 1 else lines[0]
    return spot.error(
        "verb-missing",
        f'No verb stands after the date, but "{typed}": what was done?',
        at=(spot.start, spot.start + len(typed)),
        label="what was done?",
        help=f"What was done decides the tax, so begin with it: {each}, with what it was done to in place of the dots.",
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
    if before is None or ending is None or not thing or re.search(r"\b(?:did|done|was|were|had)\b", thing, re.I):
        return None
    return ending, before[1].rstrip(), thing.strip().removesuffix("'s").removesuffix("'")


def _with_verb(spot: Spot, end: int, came: str, went: str) -> Fix | None:
    """The line with the verb that the words from and to leave open to no doubt."""
    clauses = spot.text[spot.start : spot.clauses_end(spot.start)]
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
        fix=paid_to(spot) if spot.piece.type not in ("AMOUNT", "STRING") else None,
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
        each = [f"`{_with_tail(spot, verb, typed[4:])}` {when}" for verb, when in _CAME_NEW.items()]
        return f"Write {', '.join(each)}."
    joint = re.search(r"£\S*\d[^,]*\b(by|from|to)\b", spot.rest, re.I)
    if joint and joint[1].lower() == "by":
        each = [f"`{_with_tail(spot, verb, typed)}`" for verb in ("repaired", "replaced", "installed")]
        return f"For work, write what was done: {', '.join(each[:2])} or {each[2]}."
    if joint and joint[1].lower() == "to":
        return f"For a cost, write `{_with_tail(spot, 'paid', typed)}`."
    if joint:
        each = [f"`{_with_tail(spot, verb, typed)}` {when}" for verb, when in _CAME_NEW.items()]
        return f"For something bought, write {', '.join(each)}; for money that came, `received … {spot.sum}`."
    paid = _with_tail(spot, "paid", typed)
    return (
        f"For a cost, write `{paid}`, for money that came `received … {spot.sum}`; for work, "
        "the verb and then the thing: repaired …, replaced …, installed …"
    )


def paid_to(spot: Spot) -> Fix | None:
    """probate solicitor £2,300 to "Kemble Law": what went to somebody was paid, whatever it was for."""
    thing = thing_of(spot, spot.start - 1)
    clauses = spot.text[spot.start : spot.clauses_end(spot.start)]
    if not thing or not re.search(r"£\S*\d[^,]*\bto\b", clauses, re.I) or re.search(r"\b(?:from|by)\b", clauses, re.I):
        return None
    line = _with_tail(spot, "paid", thing)
    return None if "…" in line else spot.mend(spot.start, spot.tail, line)


# What one has new, and when each verb is the right one.
_CAME_NEW = {
    "replaced": "if it took the place of an old one", "installed": "if there was none before",
    "bought": "if it was only bought",
}  # fmt: skip


def _with_tail(spot: Spot, verb: str, thing: str) -> str:
    """The line with its verb and all that follows the thing, as far as a line of the book can hold it. A tale of many
    words is no thing, and a second sum behind the first must not be lost: then dots stand for it."""
    at = spot.text.find(thing, spot.start, spot.tail) + len(thing)
    tail = spot.text[at : spot.tail]
    if "£" not in tail:
        tail = tail.replace(spot.sum[1:], spot.sum, 1)  # a sum without its sign
    head = tail.partition(", ")[0]
    short = max(part.count(" ") for part in thing.split(" and ")) < 3
    for kept in (tail, head) if short else ():
        line = f"{verb} {thing}{kept}"
        if verb == "paid":
            line = re.sub(r"\bby\b(?= [\"\w])", "to", line)
        lost = re.search(r"£|\d|\bvat\b", tail[len(kept) :], re.I)
        if "£" in kept and not lost and try_reading(f"{spot.day} {line}") is None:
            return " ".join(line.split())
    sum_ = "£…" if re.search(r"\bvat\b|£\S+.*£", tail, re.I) else spot.sum  # of two sums nobody knows the whole
    who = re.search(r"£\S*\d((?: (?:by|from|to) (?:\"[^\"]+\"|[\w-]+)))", head)
    return f"{verb} … {sum_}{who[1] if who else ''}"
