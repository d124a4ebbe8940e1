"""Recognises what was pasted from elsewhere: rows of a spreadsheet, lines of a list with bullets. Knows no meaning."""

from __future__ import annotations

import csv
import re

from ...problems import Problem
from ..grammar import words
from ..spot import VERBS, Spot, said, try_reading
from .dates import read_loosely
from .tables import VERB_TURNS

_BULLET = re.compile(r"(?:[-–—•●▪‣·*>]|\d{1,2}[.)]|\([a-z0-9]\)|o(?=[ \t]+\d))[ \t]+(?=\S)")
_SUM = re.compile(r"-?£? ?-?(\d{1,3}(?:,\d{3})+|\d+)(\.\d\d)?|\(£?(\d+(?:,\d{3})*)(\.\d\d)?\)")
_HEADINGS = frozenset("date amount description payee debit credit balance reference category notes paid total".split())
_GIVES = frozenset(("received", "bought", "kept", "banked"))  # the other party stands after "from"


def spreadsheet_row(spot: Spot) -> Problem | None:
    """09/06/2025⇥Dave Smith⇥Tap repair⇥80.00: a row of cells, with tabs, semicolons or commas between them."""
    line = spot.text[spot.head : spot.tail]
    if spot.head or not (cells := _cells(line)):
        return None
    if sum(cell.lower() in _HEADINGS for cell in cells) > 1:
        what, help, fix = "the headings of a spreadsheet", "Leave it out: a line of the book needs no headings.", None
    else:
        day = read_loosely(cells[0])
        sums = [cell for cell in cells[1:] if _is_sum(cell)]
        told = [cell for cell in cells[1:] if cell and cell not in sums and re.search(r"[^\W\d_]", cell)]
        if not day or len(sums) != 1 or not told:
            return None
        what = "pasted from a spreadsheet"
        meant, help = _line(day, told, sums[0])
        fix = spot.mend(spot.head, spot.tail, meant) if meant else None
        if meant and fix is None:
            help = f"Make a line of it, such as: `{meant}`."
    return spot.error(
        "spreadsheet-row",
        f"This looks like {what}, with cells in place of a sentence."
        if what.startswith("the")
        else "This looks pasted from a spreadsheet: cells stand in place of a sentence.",
        at=(spot.head, spot.tail),
        label="cells",
        help=help,
        fix=fix,
    )


def _cells(line: str) -> list[str]:
    """The cells of a row; none where the line is no row of at least three."""
    if line[:1] in " \t":
        return []
    for sign in "\t;,":
        if line.count(sign) < 2 or '"' in line and sign == ",":
            continue
        cells = [cell.strip() for cell in next(csv.reader([line], delimiter=sign))]
        if read_loosely(cells[0]) or cells[0].lower() in _HEADINGS:
            return cells
    return []


def _is_sum(cell: str) -> bool:
    return _SUM.fullmatch(cell) is not None


def _line(day: str, told: list[str], cell: str) -> tuple[str, str]:
    """The line of the book that a row may mean, where its words hold a verb; else "" and what to do."""
    amount = "£" + re.sub(r"[^\d.,]", "", cell)
    verbs = said(VERBS & {"WORKS_VERB", "MONEY_VERB"})
    known = {*verbs, *(typed for turn in VERB_TURNS for typed in turn.typed)}
    done = next((words_ for words_ in told if words_.split()[0].lower() in known), "")
    others = [words_.replace('"', "'") for words_ in told if words_ != done]
    if not done:
        who, what = others[0], others[1] if len(others) > 1 else ""
        reason = f', because "{what}"' if what else ""
        paid, came = (f'{day} {verb} {amount} {joint} "{who}"{reason}' for verb, joint in _WAYS)
        return "", f"Make a line of it, with a verb: `{paid}` if you paid it, `{came}` if it came to you."
    verb = done.split()[0].lower()
    joint = "from" if verb in _GIVES else "to" if verb in ("paid", "repaid", "sold", "recharged") else "by"
    who = f' {joint} "{others[0]}"' if others else ""
    more = "".join(f' "{words_}"' for words_ in others[1:2])
    return (
        f"{day} {done} {amount}{who}{more}",
        "A line of the book is a sentence: the day, the verb, the thing, the sum.",
    )


_WAYS = (("paid", "to"), ("received", "from"))


def bullet(spot: Spot) -> Problem | None:
    """- 9 Jun 2025 …, • replaced tap …: a sign of a list before the line."""
    if not spot.begins_line or spot.unfinished:
        return None
    found = _BULLET.match(spot.text, spot.start)
    if found is None or spot.accepts == {"NUMBER"}:
        return None
    fix = spot.mend(spot.start, found.end(), "")
    if fix is None and not _begins(spot, found.end()):
        return None
    code = "dash" if found[0].strip() in "-–—" else "stray-sign"
    return spot.error(
        code,
        f'Each line stands by itself in your book, so "{found[0].strip()}" is not needed in front.',
        at=(spot.start, spot.start + len(found[0].strip())),
        label="not needed",
        help="Take it away.",
        fix=fix,
    )


def _begins(spot: Spot, start: int) -> bool:
    """Whether the line, begun there, reads at least a word far."""
    stop = try_reading(spot.text[start : spot.tail])
    first = spot.text[start : spot.tail].split(None, 1)[0].lower()
    return stop is None or stop.piece.start_pos > 0 or first in words().words
