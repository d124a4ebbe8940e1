"""Recognises right words in the wrong place: a missing comma, thing or little word, a word too many."""

from __future__ import annotations

import re

from ...problems import Problem
from ..grammar import LITTLE_WORDS, words
from ..near import nearest
from ..spot import Spot, accepts_at, is_keyword, listed, quoted, said
from .tables import NUMBERS, PARTICIPLES, PLAIN_ENGLISH, ROOM, homes, old_one_said, place_called

_THING_VERBS = frozenset(("WORKS_VERB", "PART_VERB", "PLAN_VERB", "WORD_VERB"))
_BLANKS = re.compile(r"[ \t]+")
_SMALL = frozenset(
    ("on", "of", "is", "was", "a", "an", "the", "my", "our", "about", "approx", "circa", "only", "total", "altogether")
)
_PAID_FOR = re.compile(r"(?P<day>\S.*?) +(?:paid|billed) +(?P<thing>[^\W\d_][^£,\"\n]*?) +(?P<rest>£.*)", re.I)
_UNTIL_CLAUSE = re.compile(
    r"(£[\d,.]*\d)[ \t]+([^\d,£\"\n#][^,£\"\n#]*?)"
    r"(?=[ \t]+(?:in|by|from|to|at|for|with|into|across|against)\b|[ \t]*[,#\n]|$)",
    re.I,
)


def thing_missing(spot: Spot) -> Problem | None:
    """replaced in kitchen: the verb is there, the thing is not; or the amount stands before it."""
    last = spot.last
    if last is None or last.type not in _THING_VERBS or "WORDS" not in spot.accepts:
        return None
    little = spot.typed.lower() in LITTLE_WORDS or spot.piece.type in ("_COMMA", "AMOUNT") or spot.unfinished
    if not little:
        return None
    verb = str(last.value)
    help = "The thing comes straight after the verb, such as boiler, and then all else."
    fix = None
    if swap := _UNTIL_CLAUSE.match(spot.text, spot.start):
        fix = spot.mend(spot.start, swap.end(), f"{swap[2]} {swap[1]}")
        help = "The thing comes straight after the verb, and the amount after it."
    headline = f"What was {PARTICIPLES.get(verb, verb)}? The thing comes straight after the verb."
    return spot.error("thing-missing", headline, label="the thing comes first", help=help, fix=fix)


def reserved_words(spot: Spot) -> Problem | None:
    """repaired water damage: the words of a fact where a thing is awaited."""
    if "WORDS" not in spot.accepts or "_COMMA" in spot.accepts or not is_keyword(spot):
        return None
    if (
        spot.last_type not in (*_THING_VERBS, "TODO_VERB", "AND", "IN", "WITH", "INTO")
        or spot.typed.lower() in LITTLE_WORDS
    ):
        return None
    verb = str(spot.last.value) if spot.last and spot.last_type in _THING_VERBS else "done"
    return spot.error(
        "reserved-words",
        f'"{spot.typed}" is a fact of the book, so it cannot be the name of a thing or a room.',
        label="a fact, not a thing",
        help=f"Say what was {PARTICIPLES.get(verb, verb)}, such as ceiling, and put the fact behind a comma: "
        f"ceiling, {spot.piece.value}.",
    )


def missing_comma(spot: Spot) -> Problem | None:
    """by kestrel like for like: a fact without the comma before it."""
    if "_COMMA" not in spot.accepts or spot.unfinished or not is_keyword(spot):
        return None
    start = len(spot.text[: spot.start].rstrip(" \t"))
    fix = spot.mend(start, spot.start, ", ")
    if fix is None:
        return None
    return spot.error(
        "missing-comma",
        f"A comma is missing before {quoted(spot.typed)}.",
        label="a comma before this",
        help="Each fact begins with a comma, or on an indented line of its own.",
        fix=fix,
    )


def little_word_missing(spot: Spot) -> Problem | None:
    """bought 23 May 2025 £146,000: one little word, or one of a few, is all that could come, and it is not there."""
    if spot.piece.type == "PAPER" and (fix := spot.mend(spot.start, spot.start, "against ")):
        return spot.error(
            "missing-word",
            f'The word "against" is missing before "{spot.typed}".',
            fix=fix,
            label="against …",
            help='Put "against" before it.',
        )
    fitting = said(spot.accepts - {"$END", "_NL", "_DEEP"})
    wordy = all(name in words().says or name in ("$END", "_NL", "_DEEP", "_COMMA") for name in spot.accepts)
    if not wordy or len(fitting) > 5 or spot.unfinished:
        return None
    if "_COMMA" in spot.accepts and not fitting:
        start = len(spot.text[: spot.start].rstrip(" \t"))
        if fix := spot.mend(start, spot.start, ", "):
            return spot.error(
                "missing-comma",
                f"A comma is missing before {quoted(spot.typed)}.",
                label="a comma before this",
                help="Put a comma before it.",
                fix=fix,
            )
    if nearest(spot.typed_words(), fitting, plain=PLAIN_ENGLISH) or any(
        spot.typed.lower().startswith(word) for word in fitting
    ):
        return None  # a slip in it, or run together: told elsewhere
    fixes = [(word, fix) for word in fitting if (fix := spot.mend(spot.start, spot.start, f"{word} "))]
    if len(fixes) == 1:
        word, fix = fixes[0]
        return spot.error(
            "missing-word",
            f'The word "{word}" is missing before {quoted(spot.typed)}.',
            label=f"{word} …",
            help=f'Put "{word}" before it.',
            fix=fix,
        )
    if fixes and len(fixes) == len(fitting):
        return spot.error(
            "missing-word",
            f"A word is missing before {quoted(spot.typed)}.",
            label="say which",
            help=f"Say which it is: {listed([word + ' ' + spot.typed for word in fitting])}.",
        )
    if not re.match(r"[^\W\d_]", spot.typed):
        return None
    swaps = [(word, fix) for word in fitting if (fix := spot.mend(spot.start, spot.end, word))]
    if len(swaps) == 1 and spot.typed.lower() in LITTLE_WORDS | {"on", "of", "is", "until", "after"}:
        word, fix = swaps[0]
        return spot.error(
            "wrong-word",
            f'Here the word is "{word}", not "{spot.typed}".',
            label=word,
            help=f'Write "{word}".',
            fix=fix,
        )
    return None


def how_often(spot: Spot) -> Problem | None:
    """rent £925, first due …: a rent without how often it is due."""
    if spot.accepts != {"EVERY"}:
        return None
    amount = spot.text[spot.last.start_pos : spot.last.end_pos] if spot.last else ""
    at = len(spot.text[: spot.start].rstrip(" \t"))
    return spot.error(
        "how-often",
        f"How often is the rent of {amount} due?",
        label="how often?",
        at=(at, at) if spot.unfinished else None,
        fix=spot.mend(at, at, " a month"),
        help="After the amount comes a week, a fortnight, every 4 weeks, a month, a quarter or a year.",
    )


def period_from(spot: Spot) -> Problem | None:
    """billed … from 23 May 2025 to 31 Mar 2026: a period begins with for."""
    last = spot.last
    if last is None or last.type != "WHO" or spot.piece.type not in ("DATE", "MONTH", "TAXYEAR"):
        return None
    fix = spot.mend(last.start_pos, last.end_pos, "for")
    if fix is None:
        return None
    return spot.error(
        "wrong-word",
        f'A period begins with "for", not with "{last.value}".',
        fix=fix,
        at=(last.start_pos, last.end_pos),
        label="for",
        help='Write "for".',
    )


def missing_blank(spot: Spot) -> Problem | None:
    """18miles, £90.00by: a figure and a word run together."""
    glued = re.compile(r"£?[\d,.]*\d(?=[^\W\d_]{2,})").match(spot.typed)
    fix = spot.mend(spot.start + glued.end(), spot.start + glued.end(), " ") if glued else None
    if glued is None or fix is None:
        return None
    return spot.error(
        "missing-blank",
        f'A blank is missing in "{spot.typed}".',
        label="a blank",
        help="Part the figure from the word.",
        fix=fix,
    )


def period_open(spot: Spot) -> Problem | None:
    """for 23 May 2025: a period with one end."""
    last = spot.last
    if spot.accepts != {"TO"} or last is None or last.type != "DATE" or not (spot.piece.type or spot.unfinished):
        return None
    day = spot.text[last.start_pos : last.end_pos]
    return spot.error(
        "period-open",
        f"A period needs its other end: {day} to which day?",
        label="to …",
        at=(last.start_pos, last.end_pos),
        help="Write to and the last day, or name a whole month (for Jun 2025) or year (for 2025-26).",
    )


def extra_word(spot: Spot) -> Problem | None:
    """old one sold for £9: a small word too many."""
    if spot.typed.lower() not in _SMALL | {"for", "in", "at"}:  # the others say who paid whom, or join two things
        return None
    gap = _BLANKS.match(spot.text, spot.end)
    start = spot.start if gap else len(spot.text[: spot.start].rstrip(" \t"))
    fix = spot.mend(start, gap.end() if gap else spot.end, "")
    if fix is None:
        return None
    return spot.error(
        "extra-word", f'The word "{spot.typed}" is not needed here.', label="not needed", help="Take it away.", fix=fix
    )


def number_in_letters(spot: Spot) -> Problem | None:
    """for one month, eighteen miles: a figure is awaited."""
    figure = NUMBERS.get(spot.typed.lower())
    if figure is None or "NUMBER" not in spot.accepts or not (fix := spot.mend(spot.start, spot.end, figure)):
        return None
    return spot.error(
        "number-in-letters",
        f'"{spot.typed}" is written as a figure here.',
        label=figure,
        help=f"Write {figure}.",
        fix=fix,
    )


def room_behind(spot: Spot) -> Problem | None:
    """decorated room 2, repaired radiator bedroom 2: a room by its number, without in."""
    last = spot.last
    if spot.piece.type != "NUMBER" or last is None or last.type != "WORDS" or not spot.day:
        return None
    found = re.search(r"(?:^|\s)((?:bed|box)?room)$", spot.text[last.start_pos : last.end_pos], re.I)
    if found is None:
        return None
    start = last.start_pos + found.start(1)
    room = f"in {spot.text[start : spot.end]}"
    alone = start == last.start_pos
    return spot.error(
        "thing-missing" if alone else "missing-word",
        f'The room stands behind in: "{room}".',
        at=(start, spot.end),
        label="which room, or what?",
        help=f"Say to what it was done, and then where: `walls {room}`, say." if alone else "Put in before it.",
        fix=None if alone else spot.mend(start, spot.end, room),
    )


def count_behind(spot: Spot) -> Problem | None:
    """3 windows of 8, 3 of windows: the count stands before the thing."""
    last = spot.last
    behind = re.compile(r"(\d+) +([^\W\d_][\w '-]*?) +of$", re.I)
    if spot.piece.type == "NUMBER" and last is not None and last.type == "WORDS" and spot.back(2) == "NUMBER":
        start = spot.stop.before[-2].start_pos
        if match := behind.match(spot.text[start : last.end_pos]):
            meant = f"{match[1]} of {spot.typed} {match[2]}"
            return spot.error(
                "count-behind",
                "The whole count stands before the thing it counts.",
                label="before the thing",
                help="Write so many of so many, then the thing.",
                fix=spot.mend(start, spot.end, meant),
            )
    if spot.accepts == {"NUMBER"} and spot.last_type == "OF" and last is not None:
        start = last.start_pos
        gap = _BLANKS.match(spot.text, last.end_pos)
        fix = spot.mend(start, gap.end(), "") if gap else None
        return spot.error(
            "count-behind",
            f'How many are there in all? "of" is followed by a figure, not by "{spot.typed}".',
            label="how many in all?",
            fix=fix,
            help="Write 3 of 8 windows, or 3 windows.",
        )
    return None


def date_out_of_place(spot: Spot) -> Problem | None:
    """replaced boiler £90.00 on 9 Jun 2025: a day inside the line without a word that says what for."""
    on = spot.piece.type == "ON" and re.compile(r"on +\d", re.I).match(spot.text, spot.start)
    if not (spot.piece.type in ("DATE", "MONTH") or on) or spot.last is None or spot.begins_line:
        return None
    return spot.error(
        "date-out-of-place",
        "A day stands within the line without a word that says what it is for.",
        label="which day is this?",
        help="The day it happened begins the line; another follows a word such as due, "
        "paid, expires or until, or for and to as a period.",
    )


def at_home_elsewhere(spot: Spot) -> Problem | None:
    """received rent …, like for like: a fact or field that belongs on another kind of line."""
    if not is_keyword(spot) or spot.typed.lower() in LITTLE_WORDS:
        return None
    kinds = {spot.piece.type, *words().words.get(spot.typed.lower(), ())}
    for phrase in words().phrases.get(spot.typed.lower().split()[0].partition("-")[0], ()):
        if (whole := phrase.match(spot.typed, 0)) and whole.end() == len(spot.typed):
            kinds |= set(phrase.terminals)
    here = place_called(spot.accepts)
    found = [home for kind in sorted(kinds) for home in homes(kind) if home != here]
    if not found or not (spot.begins_line or spot.last_type == "_COMMA"):
        return None
    places = list(dict.fromkeys(found))[:2]
    if purpose := _for_what(spot):
        return purpose
    work = _work_told(spot, places)
    if not work and (own := _run_of_words(spot)):
        return own
    return spot.error(
        "belongs-elsewhere",
        f'"{spot.piece.value}" belongs {" or ".join(places)}, not here.',
        label="belongs elsewhere",
        help=work or "Leave it out here, or put it on the line it speaks of.",
    )


_LINKED = re.compile(
    r"(?:goes with|making good after|making way for)[ \t]+(?P<what>[^\W\d_][^,£#\"\n]*?)[ \t]*(?=[,#\n]|$)", re.I
)


def _for_what(spot: Spot) -> Problem | None:
    """paid architect £300.00, goes with roof: what money was for stands behind "for", before the commas."""
    found = _LINKED.match(spot.text, spot.start)
    if found is None or spot.last is None or spot.last.type != "_COMMA" or not spot.day:
        return None
    at = len(spot.text[: spot.last.start_pos].rstrip(" \t"))
    fix = spot.mend(at, found.end(), f" for {found['what']}")
    if fix is None:
        return None
    return spot.error(
        "belongs-elsewhere",
        f'"{spot.piece.value}" belongs on lines about works (replaced, repaired …), not here.',
        label="belongs elsewhere",
        help='What money was paid for stands behind "for".',
        fix=fix,
    )


def _run_of_words(spot: Spot) -> Problem | None:
    """paid council tax £486.00, empty premium: one word of them is a word of the book, all are words of your own."""
    run = re.compile(r"[^\W\d_][\w'-]*(?:[ \t]+[^\W\d_][\w'-]*)+(?=[ \t]*(?:[,#\n]|$))").match(spot.text, spot.start)
    if run is None or run.end() <= spot.end or spot.last_type != "_COMMA" or "REASON" not in spot.accepts:
        return None
    fix = spot.mend(spot.start, run.end(), f'because "{run[0]}"')
    if fix is None:
        return None
    return spot.error(
        "unknown-fact",
        f'"{run[0]}" is not a fact of the book.',
        at=run.span(),
        label="your own words",
        help='Words of your own stand in double quotation marks behind "because".',
        fix=fix,
    )


def room_as_fact(spot: Spot) -> Problem | None:
    """bought television £210.00, lounge: a room behind a comma, where nothing tells the room yet."""
    last = spot.last
    if last is None or last.type != "_COMMA" or not spot.day or spot.unfinished:
        return None
    start = len(spot.text[: last.start_pos].rstrip(" \t"))
    found = re.compile(rf"{ROOM}(?=[ \t]*(?:[,#\n]|$))", re.I).match(spot.text, spot.start)
    told = any(piece.type == "IN" and piece.start_pos > spot.head for piece in spot.stop.before)
    if found is None or told or "IN" not in accepts_at(spot.text[:start]):
        return None
    return spot.error(
        "missing-word",
        f'The room stands behind in: "in {found[0]}".',
        at=found.span(),
        label="in which room",
        help="Put in before it, without the comma.",
        fix=spot.mend(start, found.end(), f" in {found[0]}"),
    )


def _work_told(spot: Spot, places: list[str]) -> str:
    """paid rewire £900.00 to volt, worn out: a fact about work speaks of work, which "paid" does not tell."""
    told = _PAID_FOR.fullmatch(spot.text[spot.head : spot.tail].strip())
    if told is None or not places[0].startswith("on lines about works"):
        return ""
    rest = old_one_said(re.sub(r"\bto(?= +[\"\w])", "by", told["rest"], count=1))
    lines = [f"`{told['day']} {verb} {told['thing']} {rest}`" for verb in ("replaced", "repaired", "installed")]
    return (
        "Such a fact tells of work on the house, and the line of a work begins with what was done, not with `paid`: "
        f"{lines[0]} where a new one took the place of an old one, {lines[1]} where it was mended, {lines[2]} where "
        "there was none before. Then the fact may stay."
    )
