"""Verdicts as text or JSON: each item with its answer, the reasons in order, and what would settle an open one."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from ..days import day_words
from ..money import plain, pounds
from ..verdicts.verdict import Part, Verdict
from .text import paragraph, settling


def text(verdicts: Iterable[Verdict]) -> str:
    """One paragraph an item."""
    return "\n\n".join("\n".join(_item(verdict)) for verdict in verdicts)


def _item(v: Verdict) -> list[str]:
    line = v.item.line
    things = " and ".join(thing.name for thing in line.things)
    said = " ".join(word for word in (line.verb, things) if word)
    out = [f"{v.item.source}  {day_words(line.day.first)}  {said}  {pounds(v.item.amount)}"]
    out += [f"    {_part(part)}" for part in v.parts]
    if v.ruled:
        out += paragraph(f"your ruling: {v.ruled}", "    ", "    ")
        out += [f"    without it: {_part(part)}" for part in v.thought]
    for fired in v.path:
        sure = "" if fired.confidence == "clear" else f", {fired.confidence}"
        out += paragraph(f"{fired.says} ({fired.slug}: {fired.authority}{sure})", "    - ", "      ")
    if v.when != line.day.first:
        out.append(f"    counts on {day_words(v.when)}")
    for answer in v.answers:
        out += paragraph(answer, "    either: " if answer == v.answers[0] else "    or: ", "      ")
    if v.ask:
        out += paragraph(settling(v.ask), "    ", "      ")
    if v.would_change:
        out += paragraph("would change if: " + "; ".join(v.would_change), "    ", "      ")
    if v.keep:
        out += paragraph("keep: " + "; ".join(v.keep), "    ", "      ")
    return out


def _part(part: Part) -> str:
    gain = f", for the gain: {part.cgt}" if part.cgt != "none" else ""
    return f"{pounds(part.amount)}  {part.kind}{gain}"


def as_json(verdicts: Iterable[Verdict]) -> list[dict[str, Any]]:
    """The same as data."""
    return [
        {
            "source": v.item.source,
            "day": v.item.line.day.first.isoformat(),
            "verb": v.item.line.verb,
            "things": [thing.name for thing in v.item.line.things],
            "amount": plain(v.item.amount),
            "parts": parts(v.parts),
            "path": [
                {"stage": f.stage, "rule": f.slug, "says": f.says, "authority": f.authority,
                 "confidence": str(f.confidence), "decided": f.decided}
                for f in v.path
            ],
            "confidence": str(v.confidence),
            "counts_on": v.when.isoformat(),
            "answers": list(v.answers),
            "other": parts(v.other),
            "add": list(v.ask),
            "would_change": list(v.would_change),
            "keep": list(v.keep),
            "ruled": v.ruled,
            "thought": parts(v.thought),
        }
        for v in verdicts
    ]  # fmt: skip


def parts(told: Iterable[Part]) -> list[dict[str, str]]:
    """Parts as data."""
    return [
        {"amount": plain(p.amount), "verdict": str(p.kind), "category": p.category, "gain": str(p.cgt)} for p in told
    ]
