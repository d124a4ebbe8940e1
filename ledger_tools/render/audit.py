"""The audit as a page, as text or as JSON: houses with items and totals, what is open, what the reasons rest on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from ..money import plain, pounds
from ..statements.audit import Asked, Audit, AuditItem, HouseAudit, RuleNote, Total
from ..statements.kinds import plain as in_a_word
from ..statements.stake import Stake
from ..verdicts.conflicts import Conflict
from ..verdicts.registry import Rule
from . import asked_once, conflicts
from .columns import columns
from .page import Block, Column, Items, Notes, Page, Row, Section, Sum, Table, Terms, Words
from .places import Place, places
from .text import cell_words, paragraph, title
from .text import foot as text_foot
from .verdicts import BODY, MARGIN, as_json, entry, stake_json, stakes_words
from .verdicts import text as item_texts

TITLE = "Repair or improvement?"
OPEN = "What is open, and the tax that rides on it"
RESTS = "What the reasons rest on"
NONE = "Nothing of that kind is in your book."


def text(a: Audit, against: Sequence[Conflict] = ()) -> str:
    """The same for a terminal. against: what was told elsewhere of the houses; it stands after the items."""
    told = [fact.source for house in a.houses for fact in house.facts if fact.source]
    folder, place = places([*(item.verdict.item.source for item in a.items), *told])
    parts: list[Sequence[str]] = [_opening(a, folder)]
    parts += [_house(house, place) for house in a.houses]
    held = conflicts.text(against, place)
    parts += [[held]] if held else []
    if len(a.houses) > 1:
        parts.append(["Altogether", "", *_totals(a.totals)])
    parts += [_open(a, place), _rules(a.rules)]
    return "\n\n".join(["\n".join(part) for part in parts if part] + [foot(a)])


def foot(a: Audit) -> str:
    """What stands under every page."""
    return text_foot(a.cautions, a.checked)


def listing(a: Audit, asked: str) -> str:
    """Items to choose one from: where each stands, its day, what it was, how much, and the answer."""
    rows = [
        (item.verdict.item.source, str(item.verdict.item.line.day), item.words, pounds(item.pence), _answers(item))
        for item in a.items
    ]
    return "\n".join([_choose(a, asked), "", *columns(rows, right=(1, 3), gap="  ", margin="  ")])


def _choose(a: Audit, asked: str) -> str:
    return f'{len(a.items)} items are about "{asked}"; name one by its place to see how its answer was found.'


def _answers(item: AuditItem) -> str:
    return " and ".join(dict.fromkeys(in_a_word(part) for part in item.verdict.parts))


def _opening(a: Audit, folder: str) -> list[str]:
    said = (
        f"{_counted(a)} In brackets stands the rule that decided, and how sure it is where that is not clear: at the "
        "end you find what each rule rests on, what would change its answer, and what to keep."
    )
    said += _which(a)
    if folder:
        said += f" Places are lines of files in {folder}."
    return [TITLE, "", *paragraph(said, "", "")]


def _which(a: Audit) -> str:
    """What stands on the page besides works, and what does not, with how to see it."""
    said = ""
    if any(item.verdict.item.line.kind != "works" for item in a.items):
        said += " Besides works you find payments and money that came in, with whether it comes off the rents and when"
        far = ", as far as they are for works or damages, are capital, are open or were ruled by hand"
        said += f"{far if a.left_out else ''}."
    if a.left_out:
        lines = "1 other money line" if a.left_out == 1 else f"{a.left_out} other money lines"
        it = "it" if a.left_out == 1 else "them"
        said += f" Not here: {lines}, such as rent, insurance, fees, services or interest; `--all` shows {it}."
    return said


def _counted(a: Audit) -> str:
    """How many items there are, how many are open, and for how many there is no proof."""
    open_ = f", {'all' if a.undecided == len(a.items) else a.undecided} of them open" if a.undecided else ""
    if len(a.items) == 1 and a.open:
        open_ = ", which is open"
    if len(a.open) < a.undecided:
        open_ += f" ({len(a.open)} in the list at the end, as a bill and what pays it are one)"
    said = f"{_number(len(a.items))}{open_}."
    if a.unproven == len(a.items):
        said += f" The book names no proof for {'any of them' if len(a.items) > 1 else 'it'}."
    elif a.unproven:
        said += f" For {_number(a.unproven)} the book names no proof (`--no-proof` shows those)."
    return said


def _number(items: int) -> str:
    return f"{items} item{'' if items == 1 else 's'}"


def _name(h: HouseAudit) -> str:
    return f"{h.full} ({h.house})" if h.house else h.full


def _house(h: HouseAudit, place: Place) -> list[str]:
    name = title(_name(h))
    held = [line for about, said in _facts(h, place) for line in paragraph(said, f"{about:>{MARGIN}}  ", BODY)]
    drawn = item_texts([item for item, _ in h.items], place, [pence for _, pence in h.items])
    under = "─" * max(map(len, name))
    asked: list[str] = []
    for each in h.asked:
        asked += asked_once.text(each.question, _behind(each))
        for words in stakes_words(each.stakes):
            asked += paragraph(f"All of them together: {words}.", "", "")
    return [*name, under, *held, *asked, "", *drawn, "", *title(f"{_name(h)}: totals"), "", *_totals(h.totals)]


def _facts(h: HouseAudit, place: Place) -> Iterator[tuple[str, str]]:
    """What the answers about a house rest on: what of it, and the fact with its place."""
    for fact in h.facts:
        yield fact.about, f"{fact.words} ({place(fact.source)})" if fact.source else fact.words


def _behind(asked: Asked) -> str:
    """How many of the items shown hang on a question, and what they come to; those that go with them as well."""
    hang, follow = ([pence for _, pence in items] for items in (asked.hang, asked.follow))
    said = f"{_number(len(hang))}, {pounds(sum(hang))}{' together' if len(hang) > 1 else ''}"
    goes = "goes" if len(follow) == 1 else "go"
    return said + (f", and {_number(len(follow))} that {goes} with them, {pounds(sum(follow))}" if follow else "")


def _totals(totals: Sequence[Total]) -> list[str]:
    rows = [tuple(map(cell_words, row.cells)) for row in _total_rows(totals)]
    return columns(rows, right=(1, 2), margin="  ")


def _total_rows(totals: Sequence[Total]) -> tuple[Row, ...]:
    return tuple(Row((t.name, _number(t.items), Sum(t.pence), t.effect), t.name) for t in totals)


def _open(a: Audit, place: Place) -> list[str]:
    """Every open item with the tax that rides on it; then all of them together, for each owner and year."""
    if not a.open:
        return []
    rows = [(item.words, pounds(item.open_pence), tax, place(item.verdict.item.source)) for item, tax in _riding(a)]
    out = [OPEN, "", *columns(rows, right=(1, 2), margin="  ")]
    if a.together:
        out += ["", f"  {_together(a)}"]
        for words in stakes_words(a.together):
            out += paragraph(words, "    ", "      ")
    return [*out, "", *paragraph(_how(a.together))]


def _together(a: Audit) -> str:
    return "All of it taken together" if len(a.open) > 1 else "For its owners"


def _riding(a: Audit) -> Iterator[tuple[AuditItem, str]]:
    """Each open item with the tax that rides on it, so that the sums add up: what is in its cost's sum has none."""
    counted = {back for item in a.open for back in item.came_back}
    for item in a.open:
        yield item, "in that of its cost" if item.verdict.item.source in counted else _tax(item)


def _tax(item: AuditItem) -> str:
    """The sum, or why there is none."""
    if item.at_stake == 0 and item.stakes:
        return f"none in {' and '.join(dict.fromkeys(str(stake.year) for stake in item.stakes))}"
    if item.at_stake is not None:
        return f"{'with its cost ' if item.follows and item.comes_in else ''}about {pounds(item.at_stake)}"
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
    unkept = sorted({stake.year for stake in stakes if stake.no_rents})
    if unkept:
        said += f" Of {' and '.join(map(str, unkept))} your book keeps no rents, so there only the rates can be told."
    lacking: dict[str, list[str]] = {}
    for stake in stakes:
        if stake.tax is None and stake.each and not stake.no_rents:
            lacking.setdefault(f"`other income £… in {stake.year}`", []).append(f"`landlord {stake.owner}`")
    if lacking:
        told = [f"{line} under {' and under '.join(owners)}" for line, owners in lacking.items()]
        said += f" To see a sum in place of rates, write {', and '.join(told)}."
    return said


def _rules(rules: Sequence[RuleNote]) -> list[str]:
    """What each rule rests on, once, by its name."""
    if not rules:
        return []
    out = [RESTS, ""]
    for note in sorted(rules, key=lambda note: note.rule.slug):
        out += rule_lines(note.rule, _rule_name(note))
    return [*out, "", "  For one item with every rule that was asked: `landlord-books audit BOOK ITEM`."]


def _rule_name(note: RuleNote) -> str:
    """With how sure it is: as a rule, and of the items shown where that is not the same."""
    sure = str(note.rule.confidence)
    if note.sure and note.sure != (note.rule.confidence,):
        sure += f" as a rule, here {' and '.join(note.sure)}"
    return f"{note.rule.slug} ({sure}, {_number(note.items)})"


def rule_lines(rule: Rule, heading: str) -> list[str]:
    """A rule with what is to be said of it."""
    return [f"  {heading}", *paragraph(rule_words(rule), "      ", "      ")]


def rule_words(rule: Rule) -> str:
    """What a rule is about, its authority, what would change its answer, and what to keep."""
    said = [f"{rule.about} Rests on {rule.rests_on}."]
    said += [f"Changes if: {'; '.join(rule.flips)}."] if rule.flips else []
    said += [f"Keep: {'; '.join(rule.keep)}."] if rule.keep else []
    return " ".join(said)


# ── the page ─────────────────────────────────────────────────────────────────────────────────────────────────────

FACTS = (Column("fact"), Column("what the book tells"), Column("line"))
TOTALS = (Column("answer"), Column("items", right=True), Column("sum", right=True), Column("what becomes of it"))
RIDES = (Column("what"), Column("sum", right=True), Column("rides on it", right=True), Column("line"))
LISTED = (Column("what"), Column("day"), Column("sum", right=True), Column("answer"), Column("line"))


def page(a: Audit, sections: Sequence[Section] = ()) -> Page:
    """The whole of it; `sections` are put after the items: what others have to say of the same items."""
    found: list[Section] = [_house_said(house) for house in a.houses]
    found += sections
    if len(a.houses) > 1:
        found.append(Section("Altogether", (_total_table("Altogether", a.totals),)))
    found += [_open_said(a)] if a.open else []
    if a.rules:
        rules = sorted(a.rules, key=lambda note: note.rule.slug)
        found.append(rules_said(RESTS, [(note.rule, _rule_name(note)) for note in rules]))
    opening = f"{_counted(a)} Each opens to the reason, the rule that decided and what it rests on.{_which(a)}"
    return Page("audit", TITLE, tuple(found), a.checked, a.cautions, opening if a.items else NONE)


def listing_page(a: Audit, asked: str) -> Page:
    """Items to choose one from."""
    rows = tuple(
        Row((item.words, str(item.verdict.item.line.day), Sum(item.pence), _answers(item), item.verdict.item.source))
        for item in a.items
    )
    section = Section(f'About "{asked}"', (Table("listing", asked, LISTED, rows),))
    return Page("audit", TITLE, (section,), a.checked, a.cautions, _choose(a, asked))


def rules_said(title: str, rules: Sequence[tuple[Rule, str]]) -> Section:
    """What rules rest on, each under the name it is given here."""
    return Section(title, (Terms(tuple((rule.slug, name, rule_words(rule)) for rule, name in rules)),))


def _house_said(h: HouseAudit) -> Section:
    rows = tuple(Row((fact.about, fact.words, fact.source)) for fact in h.facts)
    blocks: list[Block] = [Table("house", f"{_name(h)}: what the answers rest on", FACTS, rows)] if rows else []
    for each in h.asked:
        blocks += asked_once.blocks(each.question, _behind(each))
        blocks += [Words(f"All of them together: {words}.") for words in stakes_words(each.stakes)]
    blocks.append(Items(tuple(entry(item, pence) for item, pence in h.items)))
    totals = f"{_name(h)}: totals"
    return Section(_name(h), (*blocks, Section(totals, (_total_table(totals, h.totals),))))


def _total_table(title: str, totals: Sequence[Total]) -> Table:
    return Table("totals", title, TOTALS, _total_rows(totals))


def _open_said(a: Audit) -> Section:
    rows = tuple(Row((item.words, Sum(item.open_pence), tax, item.verdict.item.source)) for item, tax in _riding(a))
    blocks: list[Block] = [Table("open", OPEN, RIDES, rows)]
    if a.together:
        blocks.append(Section(_together(a), (Notes(stakes_words(a.together)),)))
    return Section(OPEN, (*blocks, Words(_how(a.together))))


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
                "facts": [{"about": f.about, "words": f.words, "source": f.source or None} for f in h.facts],
                "items": [{"source": item.verdict.item.source, "amount": plain(pence)} for item, pence in h.items],
                "totals": _totals_json(h.totals),
                "questions": [
                    {**asked_once.as_data(each.question), "stakes": [stake_json(stake) for stake in each.stakes]}
                    for each in h.asked
                ],
            }
            for h in a.houses
        ],
        "totals": _totals_json(a.totals),
        "together": [stake_json(stake) for stake in a.together],
        "rules": [
            {"rule": n.rule.slug, "about": n.rule.about, "authority": n.rule.authority,
             "confidence": str(n.rule.confidence), "confidence_here": [str(sure) for sure in n.sure],
             "items": n.items, "would_change": list(n.rule.flips), "keep": list(n.rule.keep)}
            for n in a.rules
        ],
        "left_out": a.left_out,
        "cautions": list(a.cautions),
        "checked": a.checked,
    }  # fmt: skip


def _totals_json(totals: Sequence[Total]) -> list[dict[str, Any]]:
    return [{"verdict": str(t.kind), "answer": t.name, "items": t.items, "amount": plain(t.pence)} for t in totals]
