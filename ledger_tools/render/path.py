"""The path of one item for a page, as text or JSON: each step in order, each rule asked, and where it stopped."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import groupby
from typing import Any

from ..statements.audit import Audit, AuditItem
from ..verdicts.answer import Answer, Carved, Change, Remark
from ..verdicts.path import STEPS, Asked, Look
from ..verdicts.verdict import Fired
from .audit import rule_lines, rules_said
from .page import Block, Column, Items, Page, Row, Section, Table, Words
from .text import paragraph
from .verdicts import entry, item_lines

SAID = {Answer: "decided", Carved: "carved", Remark: "remarked", Change: "changed"}
SILENT = "does not apply"
LOOKS = {"domestic": "taken as a loose item", "fixture": "taken as part of the house"}


WAY, SPOKE = "The way to this answer, rule by rule", "What the rules that answered rest on"
ASKED = (Column("rule"), Column("what it did"), Column("what it is about"), Column("what it said"))


def page(a: Audit, looks: Sequence[Sequence[Look]]) -> Page:
    """Each item of an audit with every rule that was asked on the way to it."""
    sections = [_way(item, path) for item, path in zip(a.items, looks, strict=True)]
    every = [asked for path in looks for look in path for asked in look.asked]
    spoke = {asked.rule.slug: asked.rule for asked in every if asked.said is not None}
    named = [(rule, f"{rule.slug} ({rule.confidence} as a rule)") for rule in spoke.values()]
    return Page("audit", WAY, (*sections, rules_said(SPOKE, named)), a.checked, a.cautions)


def _way(item: AuditItem, looks: Sequence[Look]) -> Section:
    blocks: list[Block] = [Items((replace(entry(item, whole=True), open=True),))]
    for look in looks:
        title = _heading(look, looks)
        rows: list[Row] = []
        for step, members in groupby(look.asked, key=lambda asked: asked.rule.step):
            rows.append(Row((STEPS[step],), kind="heading"))
            rows += map(_asked, members)
        blocks.append(Section(title or item.words, (Table("asked", WAY, ASKED, tuple(rows)), Words(_stopped(look)))))
    return Section(item.words, (*blocks, *(Words(_above(fired)) for fired in _own(item, looks))))


def _asked(asked: Asked) -> Row:
    says = asked.said.says if asked.said is not None else ""
    return Row((asked.rule.slug, SAID.get(type(asked.said), SILENT), asked.rule.about, says))


def _own(item: AuditItem, looks: Sequence[Look]) -> list[Fired]:
    """What was decided by no rule that was asked: a landlord's own ruling."""
    slugs = {asked.rule.slug for look in looks for asked in look.asked}
    return [fired for fired in item.verdict.path if fired.slug not in slugs]


def _above(fired: Fired) -> str:
    return f"Above all of these stands {fired.slug}: {fired.says}"


def way(item: AuditItem, looks: Sequence[Look]) -> str:
    """One item: its verdict, then every rule that was asked on the way to it."""
    out = [*item_lines(item, whole=True), "", f"{WAY} (`explain` and a name tells its rule)", ""]
    for look in looks:
        if heading := _heading(look, looks):
            out += [heading, ""]
        out += _look(look)
    rules = {asked.rule.slug: asked.rule for look in looks for asked in look.asked}
    for fired in _own(item, looks):
        out += paragraph(_above(fired)) + [""]
    out += [SPOKE, ""]
    spoke = dict.fromkeys(asked.rule.slug for look in looks for asked in look.asked if asked.said is not None)
    for slug in spoke:
        out += rule_lines(rules[slug], f"{slug} ({rules[slug].confidence} as a rule)")
    return "\n".join(out)


def _heading(look: Look, looks: Sequence[Look]) -> str:
    """What sets a look apart from the others of its kind, where there are several."""
    taken = [other for other in looks if other.after == look.after]
    if look.after:
        return "" if len(taken) == 1 else "Without your ruling" if look is taken[0] else "With your ruling"
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
    return [*out, "", *paragraph(_stopped(look)), ""]


def _stopped(look: Look) -> str:
    last = look.asked[-1]
    if look.after:
        return "Every rule of these two steps is asked."
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
