"""Recognises mistakes in signs: quotation marks, full stops, semicolons, dashes, brackets, commas."""

from __future__ import annotations

import re

from ...problems import Fix, Problem
from ..spot import Spot, accepts_at, is_keyword
from .tables import ROOM, SIGNS

_COMMAS = re.compile(r"[ \t]*,[ \t]*(?:and[ \t]+)?")
_ROOMS = re.compile(rf"[ \t]*{ROOM}(?:{_COMMAS.pattern}{ROOM})*(?=[ \t]*(?:[,£#\n]|$)|[ \t]+(?:by|from|to|at)\b)", re.I)


def lone_quote(spot: Spot) -> Problem | None:
    """by "Kestrel Heating, receipt "b.pdf": a quotation mark without its partner."""
    line_end = spot.text.find("\n", spot.head)
    line_end = len(spot.text) if line_end < 0 else line_end
    alone = _without_partner(spot.text, spot.head, line_end)
    if alone is None or alone > spot.start:
        return None
    return spot.error(
        "quote-open",
        "A quotation mark has no partner on this line.",
        at=(alone, alone + 1),
        label="where does it end?",
        help="Quoted words begin and end with a double quotation mark on the same line.",
        fix=_closed(spot, alone, line_end),
    )


def _without_partner(text: str, start: int, end: int) -> int | None:
    """The first quotation mark of a line that is followed by another opening one, or by none."""
    opened: int | None = None
    for place in range(start, end):
        sign = text[place]
        if sign == "#" and opened is None and (place == start or text[place - 1].isspace()):
            break
        if sign != '"':
            continue
        opens = (place == start or text[place - 1] in " \t,(") and text[place + 1 : place + 2].isalnum()
        if opened is None:
            opened = place
        elif opens:
            return opened
        else:
            opened = None
    return opened


def _closed(spot: Spot, alone: int, line_end: int) -> Fix | None:
    """The quotation closed at the first place where the block then reads on: a comma, or the end of the line."""
    later = spot.text.find('"', alone + 1, line_end)
    stop = later if later >= 0 else line_end
    places = [match.start() for match in re.finditer(",", spot.text[alone:stop])]
    places = [alone + place for place in places] if later >= 0 or places else []
    places.append(alone + len(spot.text[alone:stop].rstrip(' \t.,"')))
    return next((fix for place in places if (fix := spot.mend(place, place, '"'))), None)


def single_quotes(spot: Spot) -> Problem | None:
    """'note here': quoted with the wrong marks."""
    match = re.compile(r"'([^'\"\n]+)'(?!\w)").match(spot.text, spot.start)
    if match is None:
        return None
    return spot.error(
        "single-quotes",
        f"Quoted words stand in double quotation marks, and {match[0]} is in single ones.",
        at=match.span(),
        label="double ones",
        help="Put double quotation marks round them.",
        fix=spot.mend(match.start(), match.end(), f'"{match[1]}"'),
    )


def _put(spot: Spot, start: int, end: int, text: str) -> Fix | None:
    """The sign replaced, with a blank on either side of a word and none before a comma."""
    whole = spot.text
    if text == "":
        if start and whole[start - 1] in " \t" and whole[end : end + 1] in (" ", "\t"):
            end += 1
        return spot.mend(start, end, "")
    right = "" if whole[end : end + 1] in (" ", "\t", "\n", "") or text == "#" else " "
    if text.startswith(","):
        return spot.mend(len(whole[:start].rstrip(" \t")), end, text + right, beyond=True)
    left = "" if start == 0 or whole[start - 1] in " \t\n" else " "
    return spot.mend(start, end, f"{left}{text}{right}", beyond=True)


def stray_sign(spot: Spot) -> Problem | None:
    """A sign that no line holds: full stop, semicolon, colon, dash, ampersand, bracket, slash and the rest."""
    if spot.piece.type or len(spot.typed) != 1 or spot.typed in "£\"'":
        return None
    if bracket := re.compile(r"\(([^()\"\n]+)\)").match(spot.text, spot.start):
        return spot.error(
            "brackets",
            f"The book has no round brackets, as in {bracket[0]}.",
            at=bracket.span(),
            label="brackets",
            help="A note goes into double quotation marks, a room behind in.",
            fix=spot.mend(bracket.start(), bracket.end(), f'"{bracket[1].strip()}"'),
        )
    if slashes := re.compile(r"//+ ?|--+ ?").match(spot.text, spot.start):
        return spot.error(
            "note-mark",
            "A note to yourself begins with a hash.",
            at=slashes.span(),
            label="#",
            help="Put # and a blank in its place.",
            fix=spot.mend(slashes.start(), slashes.end(), "# "),
        )
    if spot.typed in "-–—−" and "TO" in spot.accepts and (fix := _put(spot, spot.start, spot.end, "to")):
        return spot.error(
            "dash-between-dates",
            "The two ends of a period are joined by to, not by a dash.",
            label="to",
            help='Write "to" between the two dates.',
            fix=fix,
        )
    sign = next((row for row in SIGNS if spot.typed in row.signs), SIGNS[-1])
    for text in sign.puts:
        if text == ", plus" and not re.match(r"[^,\n]*£", spot.text[spot.end :]):
            continue  # what comes on top has its amount
        if fix := _put(spot, spot.start, spot.end, text):
            known = {"": "Take it away.", ",": "Put a comma in its place.", "#": "Put a blank before the hash."}
            words = known.get(text, f'Put "{text}" in its place.')
            return spot.error(sign.code, sign.say.format(spot.typed), help=words, label=sign.label, fix=fix)
    if "AND" not in spot.accepts and sign.code in ("and-sign", "slash"):
        return None  # part of a name, say: the sentence of the place says more
    return spot.error(sign.code, sign.say.format(spot.typed), help=sign.help, label=sign.label)


def stray_comma(spot: Spot) -> Problem | None:
    """Two commas, a comma at the end, a comma where the sentence just goes on."""
    last = spot.last
    if last is not None and last.type == "_COMMA" and (spot.unfinished or spot.piece.type == "_COMMA"):
        end = spot.unfinished
        headline = "A line ends in a comma, but nothing follows it." if end else "Two commas stand in a row."
        start = len(spot.text[: last.start_pos].rstrip(" \t"))
        return spot.error(
            "stray-comma",
            headline,
            at=(last.start_pos, last.end_pos),
            label="nothing follows",
            help="Take the comma away, or write what should follow it.",
            fix=spot.mend(start, last.end_pos, ""),
        )
    if spot.piece.type == "_COMMA" and (fix := spot.mend(spot.start, spot.end, "")):
        return spot.error(
            "stray-comma",
            "No comma is needed here: the line simply goes on.",
            label="no comma",
            help="Take the comma away.",
            fix=fix,
        )
    if last is not None and last.type == "_COMMA" and is_keyword(spot):
        start = len(spot.text[: last.start_pos].rstrip(" \t"))
        if fix := spot.mend(start, last.end_pos, "", beyond=True):
            return spot.error(
                "stray-comma",
                f'No comma stands before "{spot.typed}": the line simply goes on.',
                at=(last.start_pos, last.end_pos),
                label="no comma",
                help="Take the comma away.",
                fix=fix,
            )
    return None


def wrong_joint(spot: Spot) -> Problem | None:
    """owners priya 90%, tom 10%: joined by a comma instead of and or then; rooms joined by and instead of a comma."""
    last = spot.last
    if (
        spot.piece.type == "AND"
        and "_COMMA" in spot.accepts
        and (fix := spot.mend(_left(spot), spot.end, ",", beyond=True))
    ):
        return spot.error(
            "join-with-comma",
            'In this list a comma stands between two names, not "and".',
            help="Put a comma in its place.",
            label="a comma",
            fix=fix,
        )
    if last is None or last.type != "_COMMA" or spot.unfinished:
        return None
    if spot.day and spot.back(2) == "WORDS" and spot.back(3) not in ("IN", "AND"):
        return None  # the things of a dated line: told elsewhere, for what follows may be a room
    for word, what in (("then", "Steps that follow each other"), ("and", "Several of a kind")):
        start = len(spot.text[: last.start_pos].rstrip(" \t"))
        if word.upper() not in {kind.strip("_") for kind in accepts_at(spot.text[:start])}:
            continue  # it would read as one more word of a thing
        gap = "" if spot.text[last.end_pos : last.end_pos + 1] in (" ", "\t") else " "
        rooms = _ROOMS.match(spot.text, last.end_pos) if word == "and" and spot.back(3) in ("IN", "AND") else None
        if rooms:
            fix = spot.mend(start, rooms.end(), _COMMAS.sub(" and ", spot.text[start : rooms.end()]))
        else:
            fix = spot.mend(start, last.end_pos, f" {word}{gap}")
        if fix:
            return spot.error(
                f"join-with-{word}",
                f'{what} are joined by "{word}", not by a comma.',
                at=(last.start_pos, last.end_pos),
                label=word,
                fix=fix,
                help=f'Put "{word}" in place of the comma.',
            )
    return None


def _left(spot: Spot) -> int:
    return len(spot.text[: spot.start].rstrip(" \t"))
