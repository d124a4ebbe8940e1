"""The audit as a page of text or as JSON: houses with items and totals, what is open, what the reasons rest on."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import chain
from typing import Any

from ..money import plain, pounds
from ..statements.audit import Audit, AuditItem, HouseAudit, RuleNote, Total
from ..statements.kinds import plain as in_a_word
from ..statements.stake import Stake
from ..verdicts.registry import Rule
from .text import columns, indent, paragraph
from .verdicts import as_json, papers, stake_json, stake_words, text

Place = Callable[[str], str]


def page(a: Audit, sections: Sequence[Sequence[str]] = ()) -> str:
    """The whole page. `sections` are put after the items: what others have to say of the same items, as lines."""
    folder, place = places([item.verdict.item.source for item in a.items])
    parts: list[Sequence[str]] = [_opening(a, folder)]
    parts += [_house(house, place) for house in a.houses]
    parts += sections
    if len(a.houses) > 1:
        parts.append(["Altogether", "", *_totals(a.totals)])
    parts += [_open(a, place), _rules(a.rules)]
    return "\n\n".join(["\n".join(part) for part in parts if part] + [foot(a)])


def foot(a: Audit) -> str:
    """What stands under every page: the cautions its items call for, and how far the law was checked."""
    cautions = [*chain.from_iterable(paragraph(c, "  - ", "    ") for c in a.cautions)]
    return "\n".join([*(["Cautions", *cautions, ""] if cautions else []), *paragraph(a.checked, "", "")])


def listing(a: Audit, asked: str) -> str:
    """Items to choose one from: where each stands, its day, what it was, how much, and the answer."""
    rows = [
        (item.verdict.item.source, str(item.verdict.item.line.day), item.words, pounds(item.pence),
         " and ".join(dict.fromkeys(in_a_word(part) for part in item.verdict.parts)))
        for item in a.items
    ]  # fmt: skip
    out = [f'{len(a.items)} items are about "{asked}"; name one by its place to see how its answer was found.', ""]
    return "\n".join([*out, *indent(columns(rows, right=(1, 3), gap="  "))])


def places(sources: Sequence[str]) -> tuple[str, Place]:
    """The folder that all places lie in, and how a place is written without it."""
    folders = [source.rpartition("/")[0].split("/") for source in sources]
    common: list[str] = []
    for names in zip(*folders, strict=False):
        if len(set(names)) > 1:
            break
        common.append(names[0])
    folder = "/".join(common)
    return folder, lambda source: source[len(folder) + 1 :] if folder else source


def _opening(a: Audit, folder: str) -> list[str]:
    open_ = f", {'all' if len(a.open) == len(a.items) else len(a.open)} of them open" if a.open else ""
    if len(a.items) == 1 and a.open:
        open_ = ", which is open"
    said = f"{_number(len(a.items))}{open_}. "
    if a.unproven == len(a.items):
        said += f"The book names no proof for {'any of them' if len(a.items) > 1 else 'it'}. "
    elif a.unproven:
        said += f"For {_number(a.unproven)} the book names no proof (`--no-proof` shows those). "
    said += (
        "In brackets stands the rule that decided, and how sure it is where that is not clear: at the end you find "
        "what each rule rests on, what would change its answer, and what to keep."
    )
    if folder:
        said += f" Places are lines of files in {folder}."
    return ["Repair or improvement?", "", *paragraph(said, "", "")]


def _number(items: int) -> str:
    return f"{items} item{'' if items == 1 else 's'}"


def _house(h: HouseAudit, place: Place) -> list[str]:
    name = f"{h.full} ({h.house})" if h.house else h.full
    held = paragraph(papers(h.papers), "", "")
    drawn = text([item for item, _ in h.items], place, [pence for _, pence in h.items])
    return [name, "─" * len(name), *held, "", *drawn, "", f"{name}: totals", "", *_totals(h.totals)]


def _totals(totals: Sequence[Total]) -> list[str]:
    rows = [(t.name, _number(t.items), pounds(t.pence), t.effect) for t in totals]
    return indent(columns(rows, right=(1, 2)))


def _open(a: Audit, place: Place) -> list[str]:
    """Every open item with the tax that rides on it; then all of them together, for each owner and year."""
    if not a.open:
        return []
    rows = [(item.words, pounds(item.pence), _riding(item), place(item.verdict.item.source)) for item in a.open]
    out = ["What is open, and the tax that rides on it", "", *indent(columns(rows, right=(1, 2)))]
    if a.together:
        out += ["", "  All of it taken together" if len(a.open) > 1 else "  For its owners"]
        for stake in a.together:
            out += paragraph(stake_words(stake), "    ", "      ")
    return [*out, "", *paragraph(_how(a.together))]


def _riding(item: AuditItem) -> str:
    """The sum, or why there is none."""
    if item.at_stake is not None:
        return f"about {pounds(item.at_stake)}"
    if not item.stakes:
        return "" if item.days else "not paid yet"
    return "see its rates" if any(stake.each for stake in item.stakes) else "no rates held"


def _how(stakes: Sequence[Stake]) -> str:
    """How the estimates are made, as far as they need words here."""
    said = (
        "These are estimates: the income tax between the favourable and the cautious answer, by the bands of the year, "
        "on top of the other income the book tells and of the result of the lets without anything open, with the "
        "reduction for finance costs worked out anew each time. Left out are savings and dividends, and what a capital "
        "cost saves when the house is sold. Where a sum is more than the profit of its year, or the finance costs are, "
        "a loss or finance costs go on to the next year, and no tax is saved yet."
    )
    if any(not stake.nation for stake in stakes):
        said += (
            " Where the book does not say where an owner lives, the rates of England, Wales and Northern Ireland are "
            "taken; write `lives in scotland` under a landlord for Scotland's."
        )
    if any(stake.tax is None and stake.each for stake in stakes):
        said += f" To see a sum in place of rates, write `other income £… in {stakes[-1].year}` under the landlord."
    return said


def _rules(rules: Sequence[RuleNote]) -> list[str]:
    """What each rule rests on, once, by its name."""
    if not rules:
        return []
    out = ["What the reasons rest on", ""]
    for note in sorted(rules, key=lambda note: note.rule.slug):
        out += rule_lines(note.rule, f"{note.rule.slug} ({note.rule.confidence}, {_number(note.items)})")
    return [*out, "", "  For one item with every rule that was asked: `landlord-books audit BOOK ITEM`."]


def rule_lines(rule: Rule, heading: str) -> list[str]:
    """A rule with what it is about, its authority, what would change its answer, and what to keep."""
    said = [f"{rule.about} Rests on {rule.authority}."]
    said += [f"Changes if: {'; '.join(rule.flips)}."] if rule.flips else []
    said += [f"Keep: {'; '.join(rule.keep)}."] if rule.keep else []
    return [f"  {heading}", *paragraph(" ".join(said), "      ", "      ")]


# ── JSON ─────────────────────────────────────────────────────────────────────────────────────────────────────────


def as_data(a: Audit) -> dict[str, Any]:
    """The audit as data; the shape is described in DEVELOPERS.md."""
    return {
        "statement": "audit",
        "items": as_json(a.items),
        "houses": [
            {
                "property": h.house or None,
                "name": h.full,
                "items": [{"source": item.verdict.item.source, "amount": plain(pence)} for item, pence in h.items],
                "totals": _totals_json(h.totals),
            }
            for h in a.houses
        ],
        "totals": _totals_json(a.totals),
        "together": [stake_json(stake) for stake in a.together],
        "rules": [
            {"rule": n.rule.slug, "about": n.rule.about, "authority": n.rule.authority,
             "confidence": str(n.rule.confidence), "items": n.items, "would_change": list(n.rule.flips),
             "keep": list(n.rule.keep)}
            for n in a.rules
        ],
        "cautions": list(a.cautions),
        "checked": a.checked,
    }  # fmt: skip


def _totals_json(totals: Sequence[Total]) -> list[dict[str, Any]]:
    return [{"verdict": str(t.kind), "items": t.items, "amount": plain(t.pence)} for t in totals]
