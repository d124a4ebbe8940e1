"""The path of one item as text or JSON: each step in order, each rule asked, and where it stopped."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from typing import Any

from ..statements.audit import AuditItem
from ..verdicts.answer import Answer, Carved, Change, Remark
from ..verdicts.path import STEPS, Asked, Look
from .audit import rule_lines
from .text import paragraph
from .verdicts import item_lines

SAID = {Answer: "decided", Carved: "carved", Remark: "remarked", Change: "changed"}
SILENT = "does not apply"
LOOKS = {"domestic": "taken as a loose item", "fixture": "taken as part of the house"}


def way(item: AuditItem, looks: Sequence[Look]) -> str:
    """One item: its verdict, then every rule that was asked on the way to it."""
    heading = "The way to this answer, rule by rule (`explain` and a name tells its rule)"
    out = [*item_lines(item, whole=True), "", heading, ""]
    taken = [look for look in looks if not look.after]
    for look in looks:
        if not look.after and (heading := _heading(look, taken)):
            out += [heading, ""]
        out += _look(look)
    rules = {asked.rule.slug: asked.rule for look in looks for asked in look.asked}
    own = [fired for fired in item.verdict.path if fired.slug not in rules]
    for fired in own:
        out += paragraph(f"Above all of these stands {fired.slug}: {fired.says}") + [""]
    out += ["What the rules that spoke rest on", ""]
    spoke = dict.fromkeys(asked.rule.slug for look in looks for asked in look.asked if asked.said is not None)
    for slug in spoke:
        out += rule_lines(rules[slug], f"{slug} ({rules[slug].confidence})")
    return "\n".join(out)


def _heading(look: Look, taken: Sequence[Look]) -> str:
    """What sets a look apart from the others, where there are several."""
    words = []
    if len({other.nature for other in taken}) > 1:
        words.append(LOOKS.get(look.nature, f"taken as {look.nature}"))
    if len({other.house for other in taken}) > 1:
        words.append(f"in {look.house}")
    said = " ".join(words)
    return said[:1].upper() + said[1:]


def _look(look: Look) -> list[str]:
    out: list[str] = []
    for (step, spoke), run in groupby(look.asked, key=lambda asked: (asked.rule.step, asked.said is not None)):
        heading = f"  {STEPS[step]}"
        if heading not in out:
            out += ["", heading] if out else [heading]
        if not spoke:  # rules with nothing to say share a line; what each asks is told by `explain`
            out += paragraph(", ".join(asked.rule.slug for asked in run), f"    {SILENT}  ", " " * 20)
            continue
        for asked in run:
            assert asked.said is not None
            out += paragraph(f"{asked.rule.slug}: {asked.rule.about}", f"    {SAID[type(asked.said)]:<16}", " " * 20)
            out += paragraph(asked.said.says, " " * 20, " " * 20)
    stopped = "Every rule of these two steps is asked." if look.after else _stopped(look.asked[-1])
    return [*out, "", *paragraph(stopped), ""]


def _stopped(last: Asked) -> str:
    if last.ends:
        return f"There it stopped: {last.rule.slug} decided what was left of the sum, so no later rule was asked."
    return "No rule decided, so both answers stand."


def as_data(looks: Sequence[Look]) -> list[dict[str, Any]]:
    """The looks as data."""
    return [
        {
            "property": look.house or None,
            "nature": look.nature or None,
            "after": look.after,
            "asked": [
                {"step": a.rule.step, "rule": a.rule.slug, "about": a.rule.about,
                 "says": a.said.says if a.said is not None else None, "ends": a.ends}
                for a in look.asked
            ],
        }
        for look in looks
    ]  # fmt: skip
