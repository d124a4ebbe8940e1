"""A consideration as a page, as text or JSON: choices side by side, then reasons, proof to gather, lines to paste.

No arithmetic, and no word of what anybody should choose.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from itertools import zip_longest
from textwrap import wrap
from typing import Any

from ..days import day_words
from ..money import plain, pounds
from ..statements.consider import AFTER, Choice, Consideration
from ..statements.consider_tax import OwnerTax
from ..verdicts.verdict import Fired
from .columns import WIDTH
from .page import Block, Cell, Code, Column, Notes, Page, Row, Section, Sum, Table, Words
from .text import cell_words, paragraph, settling
from .verdicts import parts as parts_as_json

MOST_COLUMNS = 4
LEFT = 17  # columns of the names of rows
GAP = 2
UNTOLD = ("", "-", "nothing")


SAME = "the same"
WHY = "Why"
KEEP = "Write down and photograph before the work starts, and keep"
PHOTOGRAPH = 'A photograph taken before stands in the line as: before "kitchen.jpg"'
CHANGES = "What would change it"
LINES = "For your book once it is done, with its day in place of DAY"


def text(c: Consideration, tax: Sequence[OwnerTax] = ()) -> str:
    """The same for a terminal."""
    rows = [(name, [cell_words(cell) for cell in cells]) for name, cells in _rows(c, tax)]
    out = [*paragraph(_title(c), "", ""), *([_let(c)] if c.house else []), ""]
    if len(c.choices) == 1:
        out += _single(c, rows)
    elif len(c.choices) <= MOST_COLUMNS:
        out += _side_by_side(c.choices, rows)
    else:
        out += _one_under_another(c.choices, rows)
    out += ["", WHY, *_each(_reasons(c.choices))]
    out += [line for note in _notes(c, tax) for line in ["", *paragraph(note, "", "")]]
    out += _list(KEEP, c.keep)
    if c.keep:
        out += paragraph(PHOTOGRAPH, "  ", "  ")
    out += _list("Cautions", c.cautions)
    if changes := _changes(c.choices):
        out += ["", CHANGES, *_each(changes)]
    out += ["", LINES]
    for line, label in _lines(c.choices).items():
        out += [*(paragraph(label) if label else []), f"      {line}"]
    out += ["", *paragraph(c.checked, "", "")]
    return "\n".join(out)


def _each(said: Sequence[str]) -> list[str]:
    return [line for words in said for line in paragraph(words, "  ", "    ")]


def _title(c: Consideration) -> str:
    at = f" at {c.house}" if c.house else ""
    return f"Not done yet: {c.what}{at} on {day_words(c.day)} for {pounds(c.amount)}"


def _let(c: Consideration) -> str:
    """Whether the house is let already."""
    if not c.house:
        return ""
    if c.first_let is not None and c.first_let < c.day:
        return f"(let since {day_words(c.first_let)})"
    return f"(not let yet; first let from {day_words(c.first_let)})" if c.first_let else "(not let yet)"


# ── the page ─────────────────────────────────────────────────────────────────────────────────────────────────────


def page(c: Consideration, tax: Sequence[OwnerTax] = ()) -> Page:
    """The whole of it: choices side by side while there are few, else one under another."""
    rows = _rows(c, tax)
    blocks: list[Block] = []
    if len(c.choices) <= MOST_COLUMNS:
        columns = (Column("what", quiet=True), *(Column(_label(choice)) for choice in c.choices))
        same = tuple(map(_others, c.choices))
        also = [Row((SAME, *same))] if any(same) else []
        blocks.append(Table("choices", _title(c), columns, (*also, *(Row((name, *cells)) for name, cells in rows))))
    else:
        for i, choice in enumerate(c.choices):
            told = tuple(Row((name, cells[i])) for name, cells in rows if cells[i] not in UNTOLD)
            table = Table("choice", _label(choice), (Column("what"), Column("answer")), told, unheaded=True)
            blocks.append(Section(_label(choice), (table,), _also(choice)))
    blocks.append(Section(WHY, (Notes(tuple(_reasons(c.choices)), " "),)))
    blocks += map(Words, _notes(c, tax))
    if c.keep:
        blocks.append(Section(KEEP, (Notes(c.keep, "-"), Words(PHOTOGRAPH))))
    if changes := _changes(c.choices):
        blocks.append(Section(CHANGES, (Notes(tuple(changes), " "),)))
    lines: list[Block] = []
    for line, label in _lines(c.choices).items():
        lines += [*((Words(label),) if label else ()), Code((line,))]
    section = Section(_title(c), (*blocks, Section(LINES, tuple(lines))), _let(c))
    return Page("consider", "What if?", (section,), c.checked, c.cautions)


# ── the table ────────────────────────────────────────────────────────────────────────────────────────────────────

Cells = tuple[str, list[Cell]]  # a row: its name, and a cell a choice
Told = tuple[str, list[str]]  # the same as it is read


def _rows(c: Consideration, tax: Sequence[OwnerTax]) -> list[Cells]:
    """Each row with a cell a choice; a row of sums that are nil everywhere is left out."""
    sums: tuple[tuple[str, Callable[[Any], int]], ...] = (
        ("comes off", lambda s: s.off),
        ("off once let", lambda s: s.waits),
        ("counts at sale", lambda s: s.sale),
        ("gets nothing", lambda s: s.nothing),
    )
    rows: list[Cells] = [("what it is", [_is(choice) for choice in c.choices])]
    for name, of in sums:
        told = [[of(answer.sums) for answer in choice.answers] for choice in c.choices]
        if any(any(each) for each in told):
            rows.append((name, [_either(each) for each in told]))
    rows.append(("counts", [_counts(choice) for choice in c.choices]))
    rows += [_tax_row(owner, len(tax)) for owner in tax if any(owner.saved)]
    rows.append(("how sure", [str(choice.verdict.confidence) for choice in c.choices]))
    return rows


def _is(choice: Choice) -> str:
    if len(choice.answers) == 1:
        return choice.answers[0].words
    return "open: either " + ", or ".join(answer.words for answer in choice.answers)


def _either(pence: Iterable[int]) -> Cell:
    """One sum, or "£300.00 or nothing" where the answer is open and the sums differ."""
    told = list(dict.fromkeys(pence))
    if len(told) == 1 and told[0]:
        return Sum(told[0])
    return " or ".join(pounds(p) if p else "nothing" for p in told)


def _counts(choice: Choice) -> str:
    said = []
    if choice.year is not None and choice.counts is not None:
        said.append(f"{day_words(choice.counts)}, in {choice.year}")
    elif choice.counts is not None:
        said.append("the day it is done, after the first let")
    if any(answer.sums.waits for answer in choice.answers):
        said.append("the first day of letting")
    if any(answer.sums.sale for answer in choice.answers):
        said.append("when the house is sold")
    return "; or ".join(said) if len(choice.answers) > 1 else "; the rest ".join(said) or "never"


def _tax_row(owner: OwnerTax, owners: int) -> Cells:
    cells: list[Cell] = [_either(saved.pence) if saved else "-" for saved in owner.saved]
    return (f"tax less by, {owner.owner}" if owners > 1 else "tax less by", cells)


def _label(choice: Choice) -> str:
    when = "" if choice.label != AFTER else f" ({day_words(choice.done)})"
    return choice.label + when


def _others(choice: Choice) -> str:
    """The other choices that come to the same, with how sure they are where that is another."""
    others = [label if sure is choice.verdict.confidence else f"{label} ({sure})" for label, sure in choice.same]
    return ", ".join(others)


def _also(choice: Choice) -> str:
    return f"{SAME}: {others}" if (others := _others(choice)) else ""


def _side_by_side(choices: Sequence[Choice], rows: Sequence[Told]) -> list[str]:
    width = (WIDTH - LEFT) // len(choices) - GAP
    out = _cells("", [_label(choice) for choice in choices], width)
    if any(choice.same for choice in choices):
        out += _cells("", [_also(choice) for choice in choices], width)
    for name, cells in rows:
        out += _cells(name, cells, width)
    return out


def _cells(name: str, cells: Sequence[str], width: int) -> list[str]:
    """One row, each cell wrapped to its column."""
    wrapped = [wrap(cell, width, break_on_hyphens=False) or [""] for cell in cells]
    names = wrap(name, LEFT - 1) or [""]
    lines = []
    for told in zip_longest(names, *wrapped, fillvalue=""):
        line = told[0].ljust(LEFT) + (" " * GAP).join(cell.ljust(width) for cell in told[1:])
        lines.append(line.rstrip())
    return lines


def _one_under_another(choices: Sequence[Choice], rows: Sequence[Told]) -> list[str]:
    out: list[str] = []
    for i, choice in enumerate(choices):
        out += [*([""] if out else []), _label(choice), *(paragraph(_also(choice)) if choice.same else [])]
        out += [line for name, cells in rows for line in _block(name, cells[i])]
    return out


def _single(c: Consideration, rows: Sequence[Told]) -> list[str]:
    """Where nothing makes a difference."""
    only = c.choices[0]
    out = [line for name, cells in rows for line in _block(name, cells[0])]
    if only.same:
        others = ", ".join(dict.fromkeys(label for label, _ in only.same))
        out += ["", *paragraph(f"It comes to the same in each of these ways: {only.label}, {others}.", "", "")]
    return out


def _block(name: str, cell: str) -> list[str]:
    return [] if cell in UNTOLD else paragraph(cell, f"  {name:<{LEFT}}", " " * (LEFT + 2))


# ── below it ─────────────────────────────────────────────────────────────────────────────────────────────────────


def _reasons(choices: Sequence[Choice]) -> list[str]:
    said = [" ".join(_fired(fired) for fired in (c.reason, c.timing) if fired is not None) for c in choices]
    return _said_of(choices, said)


def _said_of(choices: Sequence[Choice], said: Sequence[str]) -> list[str]:
    """What is said of each choice, once where the same is said of several."""
    labels: dict[str, list[str]] = {}
    for choice, words in zip(choices, said, strict=True):
        if words:
            labels.setdefault(words, []).append(_label(choice))
    return [f"{'; '.join(of)}: {words}" for words, of in labels.items()]


def _fired(fired: Fired) -> str:
    return f"{fired.says} ({fired.slug}: {fired.authority})"


def _notes(c: Consideration, tax: Sequence[OwnerTax]) -> list[str]:
    notes = list(c.notes)
    if len(c.choices) > 1:
        notes.append(f"All of it is worked out for {pounds(c.amount)}; where another way costs another sum, ask again.")
    for owner in tax:
        notes += _tax_notes(c, owner)
    return notes


def _tax_notes(c: Consideration, owner: OwnerTax) -> list[str]:
    notes = []
    if any(owner.saved):
        where = f"by the rates of {owner.nation.title()}" if owner.nation else (
            "by the rates outside Scotland, as your book does not say where they live"
        )  # fmt: skip
        said = (
            f"The tax is an estimate for {owner.full}, from the other income your book tells and the letting as far as "
            f"it is told, {where}, the reduction for finance costs included; without savings and dividends."
        )
        if any(saved and any(saved.on) for saved in owner.saved):
            said += " What is more than the profit of that year makes a loss, which goes on to later years."
        if any(answer.sums.sale for choice in c.choices for answer in choice.answers):
            said += " What counts at sale is not lost: it comes off the gain when the house is sold, as far as it is"
            said += " still there."
        notes.append(said)
    if owner.untold:
        years = " and ".join(f"`other income £… in {year}`" for year in owner.untold)
        notes.append(f"Add {years} to the block of {owner.owner}, and the tax on it is estimated too.")
    return notes


def _list(heading: str, members: Sequence[str]) -> list[str]:
    return ["", heading, *(line for said in members for line in paragraph(said, "  - ", "    "))] if members else []


def _changes(choices: Sequence[Choice]) -> list[str]:
    said = [
        "; ".join(([settling(c.verdict.ask)] if c.verdict.ask else []) + list(c.verdict.would_change)) for c in choices
    ]
    return _said_of(choices, said)


def _lines(choices: Sequence[Choice]) -> dict[str, str]:
    """The lines for the book, with the choices each is of where there are several; never wrapped, to be pasted."""
    told = dict.fromkeys(choice.line for choice in choices)
    if len(told) == 1:
        return dict.fromkeys(told, "")
    return {line: " or ".join(_label(c) for c in choices if c.line == line) for line in told}


# ── JSON ─────────────────────────────────────────────────────────────────────────────────────────────────────────


def as_json(c: Consideration, tax: Sequence[OwnerTax] = ()) -> dict[str, Any]:
    """The same as data."""
    return {
        "statement": "consider",
        "property": c.house,
        "what": c.what,
        "amount": plain(c.amount),
        "day": c.day.isoformat(),
        "first_let": c.first_let.isoformat() if c.first_let else None,
        "choices": [_choice(choice, i, tax) for i, choice in enumerate(c.choices)],
        "notes": list(c.notes),
        "keep": list(c.keep),
        "cautions": list(c.cautions),
        "checked": c.checked,
    }


def _choice(choice: Choice, i: int, tax: Sequence[OwnerTax]) -> dict[str, Any]:
    return {
        "label": choice.label,
        "same": [{"label": label, "confidence": str(sure)} for label, sure in choice.same],
        "done": None if choice.supposed else choice.done.isoformat(),
        "answers": [
            {"says": a.words, "parts": parts_as_json(a.parts), "comes_off": plain(a.sums.off),
             "comes_off_once_let": plain(a.sums.waits), "counts_at_sale": plain(a.sums.sale),
             "gets_nothing": plain(a.sums.nothing)}
            for a in choice.answers
        ],
        "counts_on": choice.counts.isoformat() if choice.counts and not choice.supposed else None,
        "tax_year": str(choice.year) if choice.year else None,
        "confidence": str(choice.verdict.confidence),
        "reason": _reason(choice.reason),
        "timing": _reason(choice.timing) if choice.timing else None,
        "add": list(choice.verdict.ask),
        "would_change": list(choice.verdict.would_change),
        "income_tax_less_by": [
            {"owner": owner.owner, "tax_year": str(saved.year), "estimates": [plain(p) for p in saved.pence],
             "carried_on_as_loss": [plain(p) for p in saved.on]}
            for owner in tax
            if (saved := owner.saved[i]) is not None
        ],
        "line": choice.line,
    }  # fmt: skip


def _reason(fired: Fired) -> dict[str, str]:
    return {"rule": fired.slug, "says": fired.says, "authority": fired.authority}
