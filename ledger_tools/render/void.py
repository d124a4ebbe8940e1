"""The council tax of an empty home as text, its time line, and the letter. No arithmetic."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from fractions import Fraction

from ..days import MONTHS, day_words, period_words
from ..money import pounds, round_half_up
from ..statements.void_letter import CODES, Letter, evidence
from ..statements.void_parts import Ahead, BillRow, Claim, Open, Reason, Row, Void, joined
from ..verdicts.conflicts import Conflict
from . import conflicts
from .columns import columns
from .page import Sum
from .text import indent, paragraph, trail

SIGNS = (
    ("0", "nothing is due"), ("%", "a part is due"), ("#", "the whole is due"), ("P", "more than the whole is due"),
    ("?", "not known"), ("-", "somebody else answers"),
)  # fmt: skip
NAMES = ("from", "to", "days", "state", "who answers", "share", "amount")
WHY, ROUTE, AHEAD = "Why", "If the council says no", "An empty day costs"
CLAIMS = "To be asked for: a council gives it only to those who tell it"


def text(statements: Sequence[Void]) -> str:
    """The statements of homes, one after the other."""
    return "\n\n".join("\n".join(_void(v)) for v in statements)


def _void(v: Void) -> list[str]:
    out = [*paragraph(title(v), "", "  "), *paragraph(f"({standing(v)})", "", " ")]
    if v.nation != "northern ireland":
        if v.rows:
            rows = joined(v.rows)
            out += ["", *_table(rows), "", *paragraph(total(v)), "", *_line(rows)]
            out += ["", f"  {WHY}", *_why(rows)]
        out += _open(v) + _bills(v) + _paid(v) + _ahead(v) + _claims(v)
    if v.notes:
        out.append("")
    for note in v.notes:
        out += paragraph(note, "  * ", "    ")
    if v.route:
        out += ["", f"  {ROUTE}"]
        for way in v.route:
            out += paragraph(way, "    ", "    ")
    return out


def title(v: Void) -> str:
    """What stands over the statement of a home."""
    return f"{v.full}: council tax, {v.span}"


def standing(v: Void) -> str:
    """Where the home is, who taxes it, and as of when."""
    nation = v.nation.title() or "nation not told"
    return f"{nation}; {v.council_full or 'council not told'}; as things stand on {day_words(v.on)}"


def _table(rows: Sequence[Row]) -> list[str]:
    return columns([NAMES, *cells(rows)], right=(2, 5, 6), margin="  ")


def cells(rows: Sequence[Row]) -> Iterator[tuple[str, ...]]:
    """What stands under each of the names, for the days of each state."""
    for row in rows:
        pence = "?" if row.pence is None else pounds(row.pence) if row.ours else ""
        share = "" if not row.ours else "?" if row.share is None else share_words(row.share)
        yield (day_words(row.days.first), day_words(row.days.last), str(row.days.days), row.state,
               row.who or row.party, share, pence)  # fmt: skip


def share_words(share: Fraction) -> str:
    """A share of the charge: "75%", "200%", or a fraction where it is no whole percentage."""
    percent = share * 100
    return f"{percent}%" if percent.denominator == 1 else f"{round_half_up(percent * 100) / 100:.2f}%"


def total(v: Void) -> str:
    """What the landlord owes for all days."""
    sums = pounds(v.total) if v.least == v.total else f"between {pounds(v.least)} and {pounds(v.total)}"
    said = f"You owe {sums}"
    if not v.known:
        said += " and what the days without a scheme come to"
    days = f"; on {v.empty} of your days nobody lived there" if v.empty else ""
    more = ". The table shows the dearer way" if v.least != v.total else ""
    return f"{said}{days}{more}."


def _line(rows: Sequence[Row]) -> list[str]:
    """One sign a day, one line a month."""
    signs: dict[date, str] = {}
    for row in rows:
        for number in range(row.days.days):
            signs[row.days.first + timedelta(days=number)] = _sign(row)
    out: list[str] = []
    for month in sorted({(day.year, day.month) for day in signs}):
        days = [date(month[0], month[1], number) for number in range(1, 32) if _is_day(month, number)]
        out.append(f"  {MONTHS[month[1] - 1]} {month[0]}  {''.join(signs.get(day, ' ') for day in days)}")
    used = set(signs.values())
    legend = "; ".join(f"{sign} {words}" for sign, words in SIGNS if sign in used)
    return [*_folded(out), *paragraph(legend, "            ", "            ")]


def _folded(lines: list[str]) -> list[str]:
    """Months alike, such as whole months of a let, are shown as one line that says how many follow."""
    out: list[str] = []
    count = 0
    for line in lines:
        body, before = set(line[12:]), set(out[-1][12:]) if out else set()
        if out and len(body) == 1 and body == before and count < 99:
            count += 1
            continue
        if count:
            out.append(f"            … {count} more like it")
            count = 0
        out.append(line)
    return [*out, f"            … {count} more like it"] if count else out


def _is_day(month: tuple[int, int], number: int) -> bool:
    try:
        date(month[0], month[1], number)
    except ValueError:
        return False
    return True


def _sign(row: Row) -> str:
    if not row.ours:
        return "-"
    if row.share is None or row.pence is None:
        return "?"
    if row.share == 1:
        return "#"
    return "0" if row.share == 0 else "%" if row.share < 1 else "P"


def _why(rows: Sequence[Row]) -> list[str]:
    out: list[str] = []
    for row in rows:
        for day, words, law in row.reasons:
            said = f"from {day_words(day)}: {words}" + (f" ({law})" if law else "")
            out += paragraph(f"{said} [{', '.join(row.sources)}]", "    ", "      ")
        for name, pence in row.parts:
            out += paragraph(part(name, pence), "      ", "      ")
    return out


def part(name: str, pence: int) -> str:
    """A part of a sum that has a name of its own."""
    return f"of which {name} {pounds(pence)}"


def doubts(v: Void) -> tuple[tuple[str, str, list[Open]], ...]:
    """What is open: what the book does not tell, and where the law can be read in two ways, each with its title."""
    return (
        ("open", "Your book does not tell", [o for o in v.open if not o.usual]),
        ("doubts", "The law can be read in two ways", [o for o in v.open if o.usual]),
    )


def ask(o: Open) -> str:
    """What is open; of a doubt about the law with its source."""
    return f"{o.ask} ({o.source})" if o.usual and o.source else o.ask


def to_write(o: Open) -> str:
    """What to write into the book to settle it."""
    return "write " + " or ".join(f"`{words}`" for words in o.write)


def taken(o: Open, words: str) -> str:
    """Which answer the sums above go by."""
    return " (taken here)" if words == o.usual else ""


def _open(v: Void) -> list[str]:
    out: list[str] = []
    for _, title_, asked in doubts(v):
        out += ["", f"  {title_}"] if asked else []
        for o in asked:
            out += [*paragraph(ask(o), "    ", "    "), *_answers(o)]
            out += paragraph(to_write(o), "      ", "      ") if o.write and not o.usual else []
    return out


def _answers(o: Open) -> Iterator[str]:
    for words, low, high in o.answers:
        sums = pounds(low) if low == high else f"{pounds(low)} to {pounds(high)}"
        yield from paragraph(f"{words}: {sums}{taken(o, words)}", "      - ", "        ")


def _bills(v: Void) -> list[str]:
    out: list[str] = []
    for b in v.bills:
        out += ["", *paragraph(bill_title(b, f" ({b.source})"), "  ", "    ")]
        if b.replaced:
            out.append(f"    {replaced(b)}")
            continue
        out += paragraph(verdict(b), "    ", "    ")
        if b.instalments:
            out += paragraph(instalments(b), "    ", "    ")
        for r in b.reasons:
            out += [*paragraph(reason(r), "    - ", "      "), *paragraph(send(r), "      ", "      ")]
    return out


def bill_title(b: BillRow, place: str = "") -> str:
    """A bill with its day, its sum and its days; `place` stands after the day."""
    days = f" for {period_words(b.days)}" if b.days else ""
    return f"Bill of {day_words(b.day)}{place}: {pounds(b.billed)}{days}"


def replaced(b: BillRow) -> str:
    """That a bill no longer counts."""
    return f"A later bill stands in its place ({b.replaced})."


def send(r: Reason) -> str:
    """What shows the council that a reason holds, where money is to come back."""
    return (
        "send, if you have it: " + "; ".join(evidence(r.code, r.words))
        if r.pence > 0 and evidence(r.code, r.words)
        else ""
    )


def instalments(b: BillRow) -> str:
    """How the sum of a bill is usually asked for."""
    first, *others = b.instalments
    if not others:
        return f"Asked for as one sum of {pounds(first)}, by the usual scheme."
    if first == others[0]:
        return f"By the usual scheme it is asked for as {len(b.instalments)} times {pounds(first)}."
    return f"By the usual scheme it is asked for as {pounds(first)}, then {len(others)} times {pounds(others[0])}."


def reason(r: Reason) -> str:
    """Why a bill differs from what it should be."""
    if r.code == "rounding":
        return f"rounding, {pounds(r.pence)}"
    law = f" ({r.law})" if r.law else ""
    sums = f", {pounds(r.pence)}" if r.pence else ""
    label = f" ({CODES[r.code].label})" if r.code in CODES else ""
    return f"{r.code}{label}, {period_words(r.days)}{sums}: {r.words}{law}"


def verdict(b: BillRow) -> str:
    """What a bill should be, and what of it is too much or too little."""
    if b.should is None:
        return "It cannot be checked."
    if b.unsettled:
        return _between(b)
    said = f"It should be {pounds(b.should)}"
    if b.least != b.most:
        said += f" on the answers that explain it, {pounds(b.least)} to {pounds(b.most)} on all of them"
    flat = f" It comes to {share_words(b.flat)} of the charge on all its days." if b.flat is not None else ""
    if not b.too_much:
        return f"{said}: right to the penny.{flat}"
    way = "too much" if b.too_much > 0 else "too little"
    return f"{said}: {pounds(abs(b.too_much))} {way}.{flat}"


def _between(b: BillRow) -> str:
    """Of a bill that no answer explains, where the book leaves something open."""
    said = f"It should be {pounds(b.least)} to {pounds(b.most)}, by what your book leaves open"
    if b.billed > b.most:
        return f"{said}: {pounds(b.billed - b.most)} too much at the least."
    if b.billed < b.least:
        return f"{said}: {pounds(b.least - b.billed)} too little at the least."
    return f"{said}. Settle that first: whether it is right cannot be told before."


def _paid(v: Void) -> list[str]:
    out: list[str] = []
    for told in (v.paid, v.back):
        if told.trail:
            out += ["", f"  {told.label}: {pounds(told.pence)}", *trail(told)]
    return [*out, "", *paragraph(balance(v))] if balance(v) else out


def balance(v: Void) -> str:
    """How what was paid stands to what is due; nothing where that is not known."""
    if v.balance is None:
        return ""
    moved = "What you paid, less what came back," if v.back.trail else "What you paid"
    if v.repaid or not v.balance:
        return f"{moved} is what is due: that is settled."
    if v.balance > 0:
        return f"{moved} is {pounds(v.balance)} more than is due: that is to come back."
    return f"{moved} is {pounds(-v.balance)} less than is due up to {day_words(v.span.last)}."


def _ahead(v: Void) -> list[str]:
    if not v.ahead:
        return []
    now, *later = v.ahead
    out = ["", f"  {AHEAD} {pounds(a_day(now).pence)} now"]
    for step in later:
        out += paragraph(f"from {day_words(step.since)} {pounds(a_day(step).pence)}: {step.why}", "    ", "      ")
    return out


def a_day(step: Ahead) -> Sum:
    """What an empty day costs, to the nearest penny."""
    return Sum(round_half_up(step.a_day))


def _claims(v: Void) -> list[str]:
    out = ["", f"  {CLAIMS}"] if v.claims else []
    for c in v.claims:
        out += paragraph(claim(c), "    - ", "      ")
    return out


def claim(c: Claim) -> str:
    """Something to be asked for, what it is worth, and what the council said of it."""
    worth = f", worth {pounds(c.pence)}" if c.pence else ""
    law = f" ({c.law})" if c.law else ""
    said = f"; {c.answer} already ({c.source})" if c.answer else "; your book does not tell that you asked"
    return f"{c.what}, {period_words(c.days)}{worth}{law}{said}."


STRIKE = "Strike from what is enclosed the papers that you do not have."


# ── the letter ───────────────────────────────────────────────────────────────────────────────────────────────────


def letter(found: Letter, against: Sequence[Conflict] = ()) -> str:
    """The letter, to be read over, signed and sent; below it what it would speak against."""
    out = [found.to, "", day_words(found.day), "", f"Dear {found.to},", "", *paragraph(found.subject, "", ""), ""]
    out += paragraph(" ".join(found.opening), "", "") + [""]
    for number, ask in enumerate(found.asks, 1):
        out += paragraph(ask, f"{number}. ", "   ")
    out += [""] + paragraph(" ".join(found.closing), "", "")
    if found.evidence:
        out += ["", "Enclosed:"] + [f"  - {proof}" for proof in found.evidence]
    out += ["", "Yours faithfully,", "", "", found.sender]
    warnings = [*([STRIKE] if found.evidence else []), *found.warnings]
    if warnings or against:
        out += ["", "Not part of the letter:"]
        for warning in warnings:
            out += paragraph(warning, "  * ", "    ")
    if against:
        out += ["", "  If it goes out, this is what it would say:", *indent(conflicts.text(against).splitlines()[1:])]
    return "\n".join(out)
