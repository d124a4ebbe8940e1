"""Recognises how people say who owns a house: owned by paul 50%, jean 50%. Knows no landlord of the book."""

from __future__ import annotations

import re

from ...problems import Problem
from ..spot import Spot

_OWN = re.compile(
    r"(?:(?:joint(?:ly)?|legal|beneficial|sole|only)[ \t]+)?"
    r"(?:owners?|owned|owns|ownership|held|shares?|shared|split|joint)\b[ \t:]*"
    r"(?:(?:is|are|jointly|equally|50/50|50:50)[ \t]+)*(?:(?:by|between)\b[ \t]*)?",
    re.I,
)
_WITH = re.compile(r"\b(?:with|me|myself|us|i|we|my|our)\b", re.I)
_EQUALLY = re.compile(
    r"\b(?:equally|jointly|in equal shares|equal shares|half each|half and half|each)\b|50 ?[/:-] ?50", re.I
)
_SHARE = r"\d+(?:\.\d+)?[ \t]*(?:%|per ?cent\b)?|half"
_NAME = r"(?!(?:and|from|since|by|half)\b)[^\W\d_][\w'-]*(?:[ \t]+(?!(?:and|from|since|half)\b)[^\W\d_][\w'-]*)*"
_JOINT = r"[\s,&/;+]*(?:\band\b[\s,]*)?"
_BEHIND = re.compile(rf"{_JOINT}\"?(?P<name>{_NAME})\"?(?:[ \t]*[:(]?[ \t]*(?P<share>{_SHARE})\)?)?", re.I)
_BEFORE = re.compile(rf"{_JOINT}(?P<share>{_SHARE})[ \t]*(?:to[ \t]+|for[ \t]+)?\"?(?P<name>{_NAME})\"?", re.I)
_BEGINS = re.compile(r"\d+(?:\.\d+)?%[ \t]+[^\W\d_]|[^\W\d_][\w'-]*[ \t]+\(?\d+(?:\.\d+)?%", re.I)


def owners_told(spot: Spot) -> Problem | None:
    """owned by paul 50%, jean 50%; owner paul; 50% paul 50% jean: who owns the house, in other words."""
    if spot.lead != "PROPERTY" or not spot.head:
        return None
    start = spot.head + len(spot.text[spot.head : spot.tail]) - len(spot.text[spot.head : spot.tail].lstrip(" \t"))
    typed = spot.text[start : spot.tail]
    found = _OWN.match(typed)
    if found is None and not _BEGINS.match(typed):
        return None
    rest = typed[found.end() :] if found else typed
    since = re.search(r",?[ \t]+(?:from|since)[ \t]+(.+)$", rest, re.I)
    if form := re.search(r",?[ \t]*(?:with )?form[ -]?17\b(?P<told>.*)$", rest, re.I):
        told = form["told"].strip(" ,")
        return spot.error(
            "belongs-elsewhere", f'"{form[0].strip(" ,")}" belongs on a line of its own, not here.',
            at=(spot.tail - len(form[0].lstrip(" ,\t")), spot.tail), label="a line of its own",
            help=f"Under the property stands `{typed[: -len(form[0])]}`, and below it `form 17 signed …, sent "
            f"{told.removeprefix('sent ') or '…'}`, with the day both signed it.",
        )  # fmt: skip
    if _WITH.search(rest) or found and not rest.strip(" .,"):
        return spot.error(
            "line-unfinished",
            "Your book does not say who owns this house.",
            at=(start, spot.tail),
            label="who?",
            help="Write `owners`, and the short name of each owner as the landlord block gives it: `owners paul` for "
            "one, `owners paul 50% and jean 50%` for two.",
        )
    parts = _parts(_EQUALLY.sub(" ", rest[: since.start()] if since else rest))
    if not parts:
        return None
    line = "owners " + " and ".join(f"{name} {share}".strip() for name, share in parts)
    line += f" from {since[1]}" if since else ""
    if line in (typed.replace(",", " and", 1), typed.replace(spot.typed, f"{spot.typed}%", 1)):
        return None  # one sign is wrong: told elsewhere
    fix = spot.mend(start, spot.tail, line) if line != typed else None
    if fix is None:
        return None
    return spot.error(
        "other-word",
        f'"{typed}" is told in other words here.',
        at=(start, spot.tail),
        label="who owns it",
        help="The short names of the landlord blocks stand behind owners, joined by and, each with its percentage; "
        "without any they own alike.",
        fix=fix,
    )


def _parts(text: str) -> list[tuple[str, str]]:
    """Each owner's short name and share ("" where none is told), in the order typed; nothing where more is said."""
    found: list[tuple[str, str]] = []
    place = 0
    text = text.strip(" \t.,")
    pattern = _BEFORE if text[:1].isdigit() or text.lower().startswith("half") else _BEHIND
    while place < len(text):
        part = pattern.match(text, place)
        if part is None:
            return []
        share = (part["share"] or "").lower()
        share = "50%" if share == "half" else share
        figure = re.match(r"[\d.]+", share)
        found.append((part["name"].split()[0].lower(), f"{figure[0]}%" if figure else ""))
        place = part.end()
    return found
