"""Statements as plain text for a terminal. No arithmetic here: every sum comes with the statement."""

from __future__ import annotations

from collections.abc import Sequence

from ..days import day_words
from ..money import pounds
from ..statements.figures import Figure
from ..statements.in_tax import InTax, ToPay, Worth
from ..statements.profit import HouseProfit, Line
from ..statements.year_end import LeftOut, OwnerYear, YearEnd
from ..verdicts.verdict import Kind

WIDTH = 100
BASES = {"cash": "by payment (cash basis)", "accruals": "by what was owed (accruals)"}


def columns(rows: Sequence[Sequence[str]], right: Sequence[int], gap: str = "   ") -> list[str]:
    """Rows of cells lined up; the columns named in `right` are set against their right edge."""
    if not rows:
        return []
    widths = [max(len(row[i]) for row in rows) for i in range(len(rows[0]))]
    return [
        gap.join(
            cell.rjust(width) if i in right else cell.ljust(width)
            for i, (cell, width) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in rows
    ]


def indent(lines: Sequence[str], by: str = "  ") -> list[str]:
    """The lines moved in."""
    return [by + line if line else line for line in lines]


def paragraph(text: str, first: str = "  ", rest: str = "  ", width: int = WIDTH) -> list[str]:
    """Words wrapped to the width of a page; a word longer than that has a line of its own."""
    left, lead, out = " ".join(text.split()), first, []
    while len(lead) + len(left) > width:
        cut = left.rfind(" ", 0, width - len(lead) + 1)
        cut = left.find(" ") if cut < 0 else cut
        if cut < 0:
            break
        out.append(lead + left[:cut])
        left, lead = left[cut + 1 :], rest
    return [*out, lead + left] if left else out


def trail(figure: Figure) -> list[str]:
    """The lines of the book a figure is made of."""
    rows = [
        (t.source, day_words(t.day), t.words, pounds(t.pence), f"counts on {day_words(t.counts)}" if t.counts else "")
        for t in figure.trail
    ]
    return indent(columns(rows, right=(3,)), "        ")


# ── profit ───────────────────────────────────────────────────────────────────────────────────────────────────────


def profit(statements: Sequence[HouseProfit], lines: bool = False) -> str:
    """The profit statements of houses, one after the other."""
    return "\n\n".join(_house(statement, lines) for statement in statements)


def _house(s: HouseProfit, lines: bool) -> str:
    let = f"let {s.days_let} of {s.days_held} days held" if s.days_held else "not held in this year"
    out = [f"{s.full}, tax year {s.year}", f"({let})" if s.house else "(the sum of all houses)", ""]
    income = [line for line in (*s.income, s.open_in) if _shown(line, lines)]
    costs = [line for line in (*s.expenses, s.finance, s.works, s.open, s.waiting) if _shown(line, lines)]
    groups: list[tuple[str, list[Line]]] = [("came in", income), ("went out", costs), ("", [s.result])]
    rows: list[tuple[str, str, str]] = [("", "in money", "for tax")]
    for heading, members in groups:
        if heading and members:
            rows.append((heading, "", ""))
        rows += [(f"  {m.label}" if heading else m.label, _money(m), _tax(m)) for m in members]
    drawn = columns(rows, right=(1, 2))
    out += drawn if not lines else _with_trails(drawn, groups)
    if s.finance.money.trail and s.house:
        said = "Finance costs of dwellings do not come off the rents for tax: they earn a tax reduction."
        out += ["", *paragraph(said, "", "")]
    if s.rent_due != s.rent_came and s.house:
        said = f"Rents of {pounds(s.rent_due)} fell due in {s.year}, {pounds(s.rent_came)} came in."
        out += ["", *paragraph(f"{said} `rents` shows what is owed and since when.", "", "")]
    if s.below:
        out += ["", "beside it: money that is no part of the result"]
        out += indent(columns([(f.label, pounds(f.pence)) for f in s.below], right=(1,)))
    return "\n".join(out)


def _shown(line: Line, lines: bool) -> bool:
    """Whether a line of the statement holds something; one of nil only where its lines are asked for."""
    return bool(line.money.pence or line.tax.pence or lines and (line.money.trail or line.tax.trail))


def _money(line: Line) -> str:
    """What only tax knows, such as the rate for a mile, moved no money."""
    only_tax = line.slug != "result" and line.tax.trail and not line.money.trail
    return "-" if only_tax else pounds(line.money.pence)


def _tax(line: Line) -> str:
    if line.slug == "finance_residential" and line.money.trail:
        return "see below"
    if line.slug in ("capital", "open", "open_in", "waiting") and not line.tax.trail:
        return "-"
    return pounds(line.tax.pence)


def _with_trails(drawn: list[str], groups: list[tuple[str, list[Line]]]) -> list[str]:
    """Under every line of the statement the lines of the book that make it."""
    out = [drawn[0]]
    rest = iter(drawn[1:])
    for heading, members in groups:
        if heading and members:
            out.append(next(rest))
        for member in members:
            out.append(next(rest))
            if heading:
                out += trail(member.money if member.money.trail else member.tax)
    return out


# ── year-end ─────────────────────────────────────────────────────────────────────────────────────────────────────

LEFT_OUT = {
    Kind.IMPROVEMENT: "Counts when the house is sold: improvements",
    Kind.ACQUISITION: "Counts when the house is sold: what buying or selling it cost",
    Kind.NO_RELIEF: "No relief, now or when the house is sold",
    Kind.PRIVATE: "Not spent for the letting: private sums, and fines",
    Kind.PENDING: "Waiting: nothing is let yet",
    Kind.CAPITAL_RECEIPT: "Things sold, no income",
}


def year_end(statement: YearEnd, lines: bool = False) -> str:
    """The pages of every owner, then the cautions and how far the figures were checked."""
    out: list[str] = []
    for owner in statement.owners:
        out += _owner(owner, statement, lines) + [""]
    if not statement.owners:
        out += [f"Nothing in this book falls in the tax year {statement.year}.", ""]
    if statement.cautions:
        out.append("Cautions")
        for caution in statement.cautions:
            out += paragraph(caution, "  - ", "    ")
        out.append("")
    out += paragraph(statement.checked, "", "")
    return "\n".join(out)


def _owner(o: OwnerYear, s: YearEnd, lines: bool) -> list[str]:
    out = [f"{o.full}: UK property pages for {s.year}, {BASES[o.basis]}", ""]
    rows = [("box", "what goes in it", "exact", "to type")]
    rows += [(number, TICKS[number], "", put) for number, put in o.ticks]
    rows += [(b.number, b.caption, pounds(b.figure.pence), f"£{b.pounds:,}") for b in o.boxes]
    drawn = indent(columns(rows, right=(0, 2, 3)))
    if lines:
        head = 1 + len(o.ticks)
        out += drawn[:head]
        for line, box in zip(drawn[head:], o.boxes, strict=True):
            out += [line, *trail(box.figure)]
    else:
        out += drawn
    for note in o.notes:
        out += paragraph(note, "  * ", "    ")
    out += _in_tax(o.in_tax) + _open_items(o) + _left_out(o.left_out)
    return out


TICKS = {
    "1": "number of properties let",
    "3": "some of the income is from jointly let property",
    "20.2": "accruals used, not the cash basis",
}


def _in_tax(t: InTax) -> list[str]:
    """The tax with the letting and without it; what to write where the book does not tell enough."""
    out = ["", "  What it means in tax (an estimate)"]
    if t.tell:
        said = (
            f"Your book does not tell what else was earned in {t.year}. Add `{t.tell}` under the landlord; then you "
            "see the tax with the letting and without it, the reduction for finance costs, payments on account, and "
            "what each open question is worth."
        )
        return out + paragraph(said, "    ", "    ")
    e = t.estimate
    if e is not None:
        rows = [
            ("other income, as your book tells", pounds(e.other)),
            ("profit of the letting (box 40)", pounds(e.profits)),
            ("tax without the letting", pounds(e.without)),
            ("tax with the letting", pounds(e.before)),
        ]
        if e.relief.costs:
            share = f"{t.rate * 100:.0f}% of {pounds(e.relief.used)}"
            rows.append((f"less the reduction for finance costs, {share}", pounds(-e.reduction)))
            rows.append(("tax with the letting, after the reduction", pounds(e.tax)))
        rows.append(("so the letting adds", pounds(e.added)))
        if e.relief.costs:
            rows.append((f"finance costs left for {t.year.next} (box 45 then)", pounds(e.relief.left)))
        out += indent(columns(rows, right=(1,)), "    ")
    for note in (*map(_to_pay, t.to_pay), *t.notes):
        out += paragraph(note, "    * ", "      ")
    return out


HOW = {
    "at source": "If the tax on the other income is taken off before you have it (wages, a pension): ",
    "by the return": "If you pay it with your return (a trade): ",
    "": "",
}


def _to_pay(p: ToPay) -> str:
    """One answer about what is to pay and when."""
    last = p.last
    if last.pence < 0:
        said = f"{pounds(-last.pence)} comes back with the return"
    else:
        said = f"{pounds(last.pence)} to pay by {day_words(last.day)}, less what you paid on account for the year"
        said = said if last.pence else "nothing to pay for the year"
    if p.on_account:
        towards = " and ".join(f"{pounds(each.pence)} by {day_words(each.day)}" for each in p.on_account)
        said += f"; towards the next year {towards}"
    else:
        said += "; nothing on account towards the next year"
    said = HOW[p.how] + said + "."
    return said[0].upper() + said[1:]


def _open_items(o: OwnerYear) -> list[str]:
    """What honest people could see either way: left out of the boxes, with both answers and the words to add."""
    if not o.open:
        return []
    out = ["", "  Open questions, in no box above until they are settled"]
    for item in o.open:
        box = f" (box {item.box}, if it comes off)" if item.box else ""
        came = ", money in" if item.comes_in else ""
        out.append(f"    {item.trace.source}  {item.trace.words}: {pounds(item.trace.pence)}{came}{box}")
        for answer in item.answers:
            out += paragraph(answer, "        either: " if answer == item.answers[0] else "        or: ", "          ")
        if item.ask:
            out += paragraph(settling(item.ask), "        ", "          ")
        if item.worth:
            out += paragraph(_worth(item.worth, item.comes_in, item.either_way), "        ", "          ")
    return out


def _worth(w: Worth, comes_in: bool, either_way: bool) -> str:
    """What rides on an open item: tax of this year, and what goes on to the next."""
    if_so = "if it is income" if comes_in else "if it comes off the rents"
    if_so = "either way" if either_way else if_so
    less = "more" if (w.tax > 0) == comes_in else "less"
    said = [f"{pounds(abs(w.tax))} {less} tax this year" if w.tax else "this year's tax stays the same"]
    for pence, what in ((w.finance_on, "finance costs"), (w.loss_on, "loss")):
        if pence:
            said.append(f"{pounds(abs(pence))} {'more' if pence > 0 else 'less'} {what} to go on to the next year")
    return f"{if_so}: {', '.join(said)}"


def settling(ask: Sequence[str]) -> str:
    """What would settle an open question: facts to add to the line, or lines and words to write."""
    facts = [words for words in ask if words[:1] in (",", " ")]
    house = [words for words in ask if words.startswith(("as bought", "price "))]
    others = [words for words in ask if words not in facts and words not in house]
    said = []
    if facts:
        said.append("add " + " or ".join(f"`{words.strip()}`" for words in facts))
    if house:
        asked = house == ["as bought lettable", "as bought not lettable"]
        both = " with `price normal` or `price reduced`" if asked else ""
        said.append("write under the heading of the house " + " or ".join(f"`{words}`" for words in house) + both)
    if others:
        said.append("write " + " or ".join(f"`{words}`" for words in others))
    return "to settle it " + ", or ".join(said)


def _left_out(left: Sequence[LeftOut]) -> list[str]:
    out: list[str] = []
    for kind, heading in LEFT_OUT.items():
        members = [item for item in left if item.kind is kind]
        if members:
            out += ["", f"  {heading}"]
            rows = [(i.trace.source, i.trace.words, pounds(i.trace.pence), i.why) for i in members]
            after = [row[3] for row in rows[1:]] + [""]
            for row, line, following in zip(rows, columns([r[:3] for r in rows], right=(2,)), after, strict=True):
                out.append(f"    {line}")
                if row[3] and row[3] != following:  # a reason that holds for several lines stands under the last
                    out += paragraph(row[3], "        ", "        ")
    return out
