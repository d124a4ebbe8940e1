"""Draws problems as plain text, or as data for other programs. Knows nothing of what they mean or where they arose."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Sequence
from textwrap import wrap
from typing import Any

from ..problems import Fix, Level, Mark, Problem
from .columns import WIDTH

_TAB = 4
_MARGIN = 6  # blanks before a line of the book
_OFTEN = 3  # so many problems that say the same are told together
_LEVELS = {Level.ERROR: "Error", Level.DOUBT: "Doubt", Level.NOTE: "Note"}
_MANY = {Level.ERROR: "errors", Level.DOUBT: "doubts", Level.NOTE: "notes"}


def draw(problems: Sequence[Problem], width: int = WIDTH, counted: bool = True) -> str:
    """The problems one under another with the lines they speak of, and a line that counts them; "" for none.

    Prose is wrapped to `width` columns; a corrected line never is, so that it can be pasted.
    """
    if not problems:
        return ""
    width = max(width, 40)
    drawn = "\n".join("\n".join(_drawn(alike, width)) + "\n" for alike in _alike(problems))
    return f"{drawn}\n{summary(problems)}" if counted else drawn.rstrip("\n")


def summary(problems: Sequence[Problem]) -> str:
    """How many there are: "2 errors, 1 doubt in 1 file"."""
    counts = []
    for level in Level:
        count = sum(problem.level is level for problem in problems)
        if count:
            counts.append(f"{count} {level.value if count == 1 else _MANY[level]}")
    files = len({problem.marks[0].file for problem in problems if problem.marks})
    where = f" in {files} {'file' if files == 1 else 'files'}" if files else ""
    said = ", ".join(counts) or "no problems"
    return f"{said}{where}"


def as_json(problems: Iterable[Problem]) -> list[dict[str, Any]]:
    """The problems as plain data; lines and columns count from 1, `end` is one past the last column."""
    return [
        {
            "code": problem.code,
            "level": problem.level.value,
            "headline": problem.headline,
            "marks": [_mark(mark) for mark in problem.marks],
            "help": problem.help,
            "because": problem.because,
            "fix": _fix(problem.fix),
        }
        for problem in problems
    ]


def _mark(mark: Mark) -> dict[str, Any]:
    return {
        "file": mark.file, "line": mark.line, "column": mark.column, "end": mark.end, "text": mark.text,
        "label": mark.label,
    }  # fmt: skip


def _fix(fix: Fix | None) -> dict[str, Any] | None:
    if fix is None:
        return None
    return {"at": _mark(fix.mark), "text": fix.text, "corrected": fix.line, "certain": fix.certain}


# ── drawing ──────────────────────────────────────────────────────────────────────────────────────────────────────


def _alike(problems: Sequence[Problem]) -> list[list[Problem]]:
    """Problems that say the very same of different places together, where there are many; at the place of the first."""
    groups: dict[object, list[Problem]] = {}
    for problem in problems:
        said = (problem.level, problem.code, problem.headline, problem.help, problem.because)
        groups.setdefault(said, []).append(problem)
    parts = ([group] if len(group) >= _OFTEN else [[one] for one in group] for group in groups.values())
    order = {id(problem): number for number, problem in enumerate(problems)}
    return sorted((part for group in parts for part in group), key=lambda part: order[id(part[0])])


def _drawn(alike: Sequence[Problem], width: int) -> list[str]:
    """One problem; or several alike, with what is said of all of them once, under their places."""
    first = alike[0]
    often = f", {len(alike)} times" if len(alike) > 1 else ""
    head = f"{_LEVELS[first.level]}: {_safe(first.headline)}  ({first.code}{often})"
    lines = wrap(head, width, subsequent_indent="  ", break_on_hyphens=False)
    for problem in alike:
        for place, group in _by_line(problem.marks):
            lines.append(f"  {place}")
            lines += _marked(group, width)
        lines += _to_write(problem) if often else []
    lines += _prose(first.help, width)
    lines += [] if often else _to_write(first)
    if first.because:
        lines += _prose(f"Because: {first.because}", width)
    return lines


def _to_write(problem: Problem) -> list[str]:
    if problem.fix is None:
        return []
    return ["  Write:", *(" " * _MARGIN + _plain(line).rstrip() for line in problem.fix.line.split("\n"))]


def _by_line(marks: Sequence[Mark]) -> list[tuple[str, list[Mark]]]:
    """The marks of each line together, the line of the first mark first, with its place."""
    groups: dict[tuple[str, int], list[Mark]] = {}
    for mark in marks:
        groups.setdefault((mark.file, mark.line), []).append(mark)
    return [(group[0].place, group) for group in groups.values()]


def _marked(marks: Sequence[Mark], width: int) -> list[str]:
    """A line of the book with each of its marks underneath; of a long line the part around the first mark."""
    text = marks[0].text
    spans = [(_columns(text[: m.column - 1]), max(_columns(text[: m.end - 1]), _columns(text[: m.column - 1]) + 1))
             for m in marks]  # fmt: skip
    line, cut = _window(_plain(text).rstrip(), spans[0], width - _MARGIN)
    drawn = [" " * _MARGIN + line]
    for mark, (start, end) in zip(marks, spans, strict=True):
        room = width - _MARGIN
        start = min(max(start - cut, 0), room - 1)  # a mark outside the part that is shown stands at its edge
        end = min(max(end - cut, start + 1), room)
        drawn.append(f"{' ' * _MARGIN}{_under(start, end, _safe(mark.label), room)}".rstrip())
    return drawn


def _under(start: int, end: int, label: str, room: int) -> str:
    """A wave from column to column and its label: behind it, else in front of it, else behind a shorter wave."""
    wide = _columns(label) + 1 if label else 0
    if end + wide > room and wide <= start:
        return f"{' ' * (start - wide)}{label} {'~' * (end - start)}"
    wave = "~" * max(min(end, room - wide) - start, 1)
    return f"{' ' * start}{wave} {label}"


def _window(line: str, span: tuple[int, int], room: int) -> tuple[str, int]:
    """At most `room` columns of a line with the span in sight, and how many columns were cut off on the left."""
    if _columns(line) <= room or span[1] <= room - 1:
        return (line if _columns(line) <= room else _take(line, room - 1) + "…"), 0
    cut = max(0, min(span[0] - room // 3, _columns(line) - room))
    left = len(_take(line, cut + 1))
    shown = _columns(line[:left]) - 1
    rest = line[left:]
    return "…" + (rest if _columns(rest) < room else _take(rest, room - 2) + "…"), shown


def _take(line: str, columns: int) -> str:
    """As much of the beginning of a line as fits into so many columns."""
    width = 0
    for place, sign in enumerate(line):
        width += _columns(sign)
        if width > columns:
            return line[:place]
    return line


def _plain(text: str) -> str:
    """A line of the book as it can be shown: tabs as blanks, signs that steer a terminal as a dot."""
    shown = ""
    for sign in text:
        shown += " " * (_TAB - _columns(shown) % _TAB) if sign == "\t" else _safe(sign)
    return shown


def _safe(text: str) -> str:
    return "".join("·" if unicodedata.category(sign) in ("Cc", "Cf", "Cs", "Zl", "Zp") else sign for sign in text)


def _columns(text: str) -> int:
    """How many columns a text takes in a terminal: wide signs two, signs that sit on the one before none."""
    width = 0
    for sign in text:
        if sign == "\t":
            width += _TAB - width % _TAB
        elif not unicodedata.combining(sign):
            width += 2 if unicodedata.east_asian_width(sign) in "WF" else 1
    return width


def _prose(text: str, width: int) -> list[str]:
    if not text:
        return []
    return wrap(_safe(text), width, initial_indent="  ", subsequent_indent="  ", break_on_hyphens=False)
