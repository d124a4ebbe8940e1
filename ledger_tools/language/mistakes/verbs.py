"""Recognises mistakes at the verb: verbs of other trades, and a verb that stands behind its thing.

What is proposed never turns round which way money went: where that is open, both lines are told and none is put.
"""

from __future__ import annotations

import re
from functools import cache

from ...problems import Fix, Problem
from ..asked import VERBS as DONE
from ..grammar import LITTLE_WORDS, words
from ..spot import VERBS, Spot, said, try_reading
from .tables import NOUNS, VERB_TURNS, Turn

CLAUSE = r"(?=[ \t]+(?:in|by|from|to|at|for|with|into|across|against)\b|[ \t]*-?[,£\"#\n]|$)"
_OBJECT = re.compile(rf"[ \t]+([^,£\"\n#]*?){CLAUSE}", re.I)
_ARTICLE = re.compile(r"^(?:the|a|an|my|our|some)[ \t]+(?=\S)", re.I)
BY = re.compile(r"[^,\"\n#]*?[ \t](by)(?=[ \t]+[\"\w])", re.I)
_PRONOUNS = frozenset("i we had have and then was he she they also just".split() + ["i have", "we have", "i had"])
_HAD = ("had", "got", "have")
_SUM_BEHIND = re.compile(r"(?P<what>[^,£\"\n#\d]*)(?P<sum>\d(?:[\d,]*\d)?(?:\.\d\d)?(?=[ \t]|[,#\n]|$))")
_CAME = re.compile(r"[ \t]+(?P<sum>£?[ \t]*\d[\d,.]*)[ \t]+(?:from|off)[ \t]+(?P<who>\"[^\"\n]+\"|[\w-]+)", re.I)
# Money verbs: the word before the other party, and the words beside which they would turn round who paid whom.
_GOES = {"paid": ("to", "from|by"), "repaid": ("to", "from|by"), "received": ("from", "to|by")}


@cache
def _any_of(phrases: tuple[str, ...]) -> re.Pattern[str]:
    """Matches any of the phrases, the longest before the others."""
    each = (re.escape(phrase).replace(r"\ ", r"[ \t]+") for phrase in sorted(phrases, key=len, reverse=True))
    return re.compile(rf"(?:{'|'.join(each)})(?![\w-])", re.I)


def typed_as(spot: Spot, phrases: tuple[str, ...]) -> str | None:
    """The longest of these words and phrases that stands at the spot, as typed; None where none does."""
    found = _any_of(phrases).match(spot.text, spot.start)
    return found[0] if found else None


def at_verb(spot: Spot) -> bool:
    """Whether a verb is awaited at the spot."""
    return bool(spot.accepts & VERBS) and ("WORKS_VERB" in spot.accepts or "TODO_VERB" in spot.accepts)


def behind_date(spot: Spot) -> bool:
    """Whether the verb of a dated line is awaited."""
    return spot.last_type in ("DATE", "MONTH") and "WORKS_VERB" in spot.accepts and not spot.unfinished


# ── verbs of the trade ───────────────────────────────────────────────────────────────────────────────────────────


def other_verb(spot: Spot) -> Problem | None:
    """rewired, mowed, refunded, refurbished: verbs of the trade that the book says with other words."""
    if not at_verb(spot) or spot.unfinished:
        return None
    fits = [(typed, turn) for turn in VERB_TURNS if (typed := typed_as(spot, turn.typed))]
    if not fits:
        return _to_do(spot)
    typed, turn = max(fits, key=lambda fit: len(fit[0]))
    if typed.lower() in _HAD and _verb_at(spot, spot.typed_words(), 1):
        return None  # got boiler serviced: the verb stands behind
    end = spot.start + len(typed)
    thing = thing_of(spot, end)
    if typed.lower().startswith("double") and re.match(r"(?:units?|windows?|doors?|panes?)\b", thing, re.I):
        return None  # what kind of window, and not what was done
    help, fix = turn.say, None
    if came := _CAME.match(spot.text, end) if typed.lower() == "got" else None:
        sum_, who = came["sum"].lstrip("£ \t"), came["who"]
        help = (
            "Money that came to you was received, and what it was for stands before the sum: "
            f"`{spot.day} received rent £{sum_} from {who}`, or `{spot.day} received deposit £{sum_} from {who}`."
        )
    elif turn.typed == ("refunded",):
        fix = _refund(spot, end, thing)
    elif "spent" in turn.typed and (on := re.compile(r"[ \t]+£?(\d\S*)[ \t]+on[ \t]+([^,\n#]+)").match(spot.text, end)):
        fix = spot.mend(spot.start, on.end(), f"paid {on[2].strip()} £{on[1]}")
        help = "What the money was for comes straight after paid, and the sum after it."
    elif "transferred" in turn.typed:
        fix = _sent(spot, end)
    elif turn.write:
        fix, help = _turned(spot, turn, typed, thing)
    help = help.replace("{sum}", spot.sum).replace("{day}", spot.day).replace("{thing}", thing or "…")
    return spot.error(
        "unknown-verb",
        f'"{typed}" is not a verb of the book.',
        at=(spot.start, end),
        label="another verb",
        help=help,
        fix=fix,
    )


def thing_of(spot: Spot, end: int) -> str:
    """What a verb that ends there was about, without its article."""
    found = _OBJECT.match(spot.text, end)
    return _ARTICLE.sub("", found[1].strip(), count=1) if found else ""


def _turned(spot: Spot, turn: Turn, typed: str, thing: str) -> tuple[Fix | None, str]:
    """The line with the book's verb, and what is said of it."""
    end = spot.start + len(typed)
    found = _OBJECT.match(spot.text, end)
    last = found.end() if found and found[1].strip() else end
    if "{}" in turn.write:
        meant = turn.write.format(thing) if thing else re.sub(r"(?: in| for)? \{\}", "", turn.write)
    else:
        meant = turn.write + (f' "{" ".join(spot.text[spot.start : last].split())}"' if thing else "")
    help = f'Write "{turn.write.format("…").removesuffix(" …")}".'
    verb = meant.split()[0]
    if verb in _GOES and "£" not in spot.rest:
        if bare := _SUM_BEHIND.match(spot.text, end):  # got rent 650
            meant = f"{turn.write.format(bare['what'].strip()).strip()} £{bare['sum']}"
            fix = spot.mend(spot.start, bare.end(), meant)
            return fix, f"{help[:-1]}, and the sum with its pound sign."
        return None, f"{help} The sum goes with it, such as £90.00."
    goes, against = _GOES.get(verb, ("", ""))
    clauses = spot.text[last : spot.clauses_end(last)]
    if against and re.search(rf"\b(?:{against})\b", clauses, re.I):
        if "{}" in turn.write or not (by := BY.match(spot.text, last)):
            return None, f'{help} Beside it the other party comes after "{goes}"; look which way the money went.'
        return spot.mend(spot.start, by.end(), f"{meant}{spot.text[last : by.start(1)]}to"), help
    fix = spot.mend(spot.start, last, meant)
    if fix is None and turn.write == f"{verb} {{}}" and verb in said(frozenset({"WORKS_VERB"})):  # more is wrong behind
        fix = spot.mend(spot.start, end, verb)
    return fix, help


def _sent(spot: Spot, end: int) -> Fix | None:
    """sent £40.00 to volt: the little word says which way the money went."""
    clauses = spot.text[end : spot.clauses_end(end)]
    to, came = re.search(r"\bto\b", clauses, re.I), re.search(r"\bfrom\b", clauses, re.I)
    if "£" not in clauses or bool(to) == bool(came):
        return None
    return spot.mend(spot.start, end, "paid" if to else "received")


def _refund(spot: Spot, end: int, thing: str) -> Fix | None:
    """refunded fan £84.50 from volt: it came to us; refunded deposit £900 to okoro: it went back."""
    rest = spot.text[end : spot.tail]
    to, came = re.search(r"\bto\b", rest, re.I), re.search(r"\bfrom\b", rest, re.I)
    if to and not came:
        return spot.mend(spot.start, end, "repaid")
    if came and not to and thing:
        head, comma, facts = rest.replace(thing, "", 1).partition(", ")
        line = f"received refund {' '.join(head.split())} for {thing}{comma}{facts}"
        return spot.mend(spot.start, spot.tail, line)
    return spot.mend(spot.start, end, "received refund") if came else None


def _to_do(spot: Spot) -> Problem | None:
    """repair tap £90.00: a word of the schedule, where what was done is told."""
    low = spot.typed.lower()
    if "TODO_VERB" not in words().words.get(low, ()) or "WORKS_VERB" not in spot.accepts or low not in DONE:
        return None
    done = DONE[low]
    return spot.error(
        "unknown-verb",
        f'"{spot.typed}" is for what is to be done; a dated line tells what was done.',
        label=f"{done}?",
        help=f'Write "{done}".',
        fix=spot.mend(spot.start, spot.end, done),
    )


# ── a verb that is not first ─────────────────────────────────────────────────────────────────────────────────────


def verb_behind(spot: Spot) -> Problem | None:
    """boiler replaced, I replaced, Dave repaired tap, smith paid: the verb is there, but not first."""
    if not at_verb(spot) or spot.unfinished or "TODO_VERB" in spot.accepts:
        return None
    typed = spot.typed_words(5)
    verbs = set(said(spot.accepts))
    if not typed or any(low in verbs for low in (typed[0].lower(), " ".join(typed[:2]).lower())):
        return None
    at = _verb_at(spot, typed, 1)
    had = typed[0].lower() in _HAD and at > 1  # had boiler serviced: somebody else did it
    if not at or _sum_named(" ".join(typed[:at])) and typed[at].lower() not in verbs:
        return None  # insurance renewed: paid, and not replaced
    if LITTLE_WORDS & {word.lower() for word in typed[:at]} - {"and"} and typed[at].lower() not in verbs:
        return None  # fee for new fixed rate: no verb at all
    many = 1 if typed[at].lower() in verbs | _turned_verbs() else 2  # ripped out
    before, verb = " ".join(typed[had:at]), " ".join(typed[at : at + many]).lower()
    first = (spot.start, spot.words_end(at))
    after = thing_of(spot, spot.words_end(at + many))
    if after.lower() in ("free", "again", "fine", "today"):  # no thing, and nothing hangs on it
        after, many = "", many + 1
    if before.lower() in _PRONOUNS:
        fix, help = _first(spot, spot.words_end(at + many), verb), ""
    elif verb in said(frozenset({"MONEY_VERB"})):
        fix, help = _money_behind(spot, before, verb, after)
    elif after and not after[0].isdigit():
        fix, help = _done_by(spot, before, spot.words_end(at)), ""
    else:
        fix, help = _first(spot, spot.words_end(at + many), f"{verb} {before}"), ""
    if fix is None and not help:
        return None
    return spot.error(
        "verb-first",
        f'The verb comes first: "{verb}", before "{before}".',
        fix=fix,
        at=first,
        label="the verb comes first",
        help=help or "After the date comes the verb, then what it was done to.",
    )


def _verb_at(spot: Spot, typed: list[str], first: int) -> int:
    """Which of the words is a verb of the book, or one of the trade that the book has another word for; 0 for none."""
    verbs = set(said(spot.accepts)) | _turned_verbs()
    return next((at for at in range(first, len(typed)) if {typed[at].lower(), " ".join(typed[at : at + 2]).lower()}
                 & verbs), 0)  # fmt: skip


@cache
def _turned_verbs() -> frozenset[str]:
    """Verbs of the trade for work, as it was done: those that say one thing wherever they stand on a line."""
    works = said(frozenset({"WORKS_VERB"}))
    return frozenset(
        typed for turn in VERB_TURNS for typed in turn.typed
        if turn.write.partition(" ")[0] in works and re.fullmatch(r"[a-z-]+(?:ed|ung|aid)|[a-z]+ed out", typed)
    )  # fmt: skip


def _sum_named(words: str) -> bool:
    """Whether these words name a sum, such as insurance."""
    return any(words.lower() in noun.typed for noun in NOUNS)


def _done_by(spot: Spot, who: str, end: int) -> Fix | None:
    """Dave repaired tap £90.00: who did it goes behind, with "by"."""
    last = spot.clauses_end(end)
    head = spot.text[end:last].strip()
    if re.search(r"\b(?:by|from|to)\b", head, re.I) or head.split()[0].lower() in ("bought", "sold", "took"):
        return None
    return _first(spot, last, f"{head} by {_named(who)}")


def _first(spot: Spot, end: int, line: str) -> Fix | None:
    """The words up to `end` with their verb first; a verb of the trade becomes the book's in the same step."""
    if fix := spot.mend(spot.start, end, line):
        return fix
    changed = spot.text[: spot.start] + line + spot.text[end:]
    stop = try_reading(changed)
    told = other_verb(Spot(stop, spot.block._replace(text=changed), spot.file)) if stop else None
    if told is None or told.fix is None or spot.head:
        return None
    last = spot.text.find("\n")
    return spot.mend(0, len(spot.text) if last < 0 else last, told.fix.line)


def _money_behind(spot: Spot, before: str, verb: str, after: str) -> tuple[Fix | None, str]:
    """rent received: what it was. smith paid: who did it, and then the money went the other way."""
    noun = next((row for row in NOUNS if before.lower() in row.typed), None)
    ours = noun is not None and (noun.came if verb == "received" else noun.went if verb == "paid" else "")
    if ours and not after:
        end = spot.start + re.compile(rf".*?\b{verb}\b", re.I | re.S).match(spot.rest).end()  # type: ignore[union-attr]
        return spot.mend(spot.start, end, f"{verb} {before}"), ""
    if noun is not None and verb == "paid" and after.lower() == "out":  # insurance paid out £500: to us
        end = spot.start + re.compile(r".*?\bout\b", re.I | re.S).match(spot.rest).end()  # type: ignore[union-attr]
        return spot.mend(spot.start, end, f"received {before}"), ""
    if verb in ("billed", "invoiced") and not after:
        start = spot.start + len(before)
        return _done_by(spot, before, start), ""
    what = f"{after or (before if noun else '')} {spot.sum}".strip()
    who = '"…"' if noun else _named(before)
    return None, (
        f"Which way did the money go? Write `received {what} from {who}` if it came to you, "
        f"`paid {what} to {who}` if you paid it."
    )


def _named(who: str) -> str:
    """A name as a line of the book can hold it."""
    return who if re.fullmatch(r"[^\W\d_][\w'-]*", who) and not who[0].isupper() else f'"{who}"'
