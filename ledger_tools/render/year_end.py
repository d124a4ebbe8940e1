"""What the year-end says: the boxes of each owner, what they mean in tax, what is open and what was left out."""

from __future__ import annotations

from collections.abc import Iterator

from ..days import day_words
from ..money import pounds
from ..statements.in_tax import InTax, ToPay, Worth
from ..statements.year_end import BoxLine, LeftOut, OpenItem, OwnerYear, YearEnd
from ..verdicts.verdict import Kind
from . import asked_once
from .page import Block, Column, Item, Items, Notes, Page, Row, Section, Sum, Table, Words
from .text import BASES, settling

LEFT_OUT = {
    Kind.IMPROVEMENT: "Counts when the house is sold: improvements",
    Kind.ACQUISITION: "Counts when the house is sold: what buying it cost",
    Kind.NO_RELIEF: "No relief, now or when the house is sold",
    Kind.PRIVATE: "Not spent for the letting: private sums, and fines",
    Kind.PENDING: "Waiting: nothing is let yet",
    Kind.CAPITAL_RECEIPT: "Capital sums, no income: things sold, money for damage beyond its repair",
}

OF_SALE = "A house sold, for the gain and not for the income: its price, and what selling it cost"

TICKS = {
    "1": "number of properties let",
    "2": "letting has stopped, and none is expected next year",
    "3": "some of the income is from jointly let property",
    "4": "rent a room claimed, and the rents not above the limit",
    "20.2": "accruals used, not the cash basis",
}


NO_LANDLORD = (
    'Your book has no landlord, so there is nobody whose pages these are: add `landlord NAME "Full Name"` in the first '
    "column."
)
BOXES = (
    Column("box", right=True), Column("what goes in it"), Column("exact", right=True), Column("to type", right=True),
)  # fmt: skip
DUE = (Column("day"), Column("what"))
BLANK = (Column("box", right=True), Column("why it is blank"))
IN_TAX = (Column("what"), Column("estimate", right=True))
LINES = (Column("line"), Column("what"), Column("sum", right=True))


def page(s: YearEnd, so_far: str = "") -> Page:
    """The pages of every owner, the days to keep, then the cautions and how far the figures were checked; so_far: which
    year it is."""
    said = NO_LANDLORD if s.no_landlord else f"Nothing in this book falls in the tax year {s.year}."
    nobody = Section(said, ())
    owners = tuple(_owner(owner, s) for owner in s.owners)
    later = (Section(f"No pages for {s.year}", tuple(map(Words, s.later))),) if s.later else ()
    sections = (*owners, *later, _blank(s), _due(s)) if owners else later or (nobody,)
    return Page("year-end", f"The tax year {s.year}", sections, s.checked, s.cautions, so_far=so_far)


def _blank(s: YearEnd) -> Section:
    """The boxes that are empty above whatever the book holds, a line each."""
    title = "Boxes left blank here: fill them by hand if they are yours"
    rows = tuple(Row((numbers, why), numbers) for numbers, why in s.blank)
    return Section(title, (Table("blank", title, BLANK, rows, unheaded=True),))


def _due(s: YearEnd) -> Section:
    """The days of the year, a line each, and what a late return costs."""
    title = f"Days to keep for {s.year}"
    rows = tuple(
        Row((" and ".join(map(day_words, due.days)) or "day not held here", due.says), due.what) for due in s.due
    )
    return Section(title, (Table("due", title, DUE, rows, unheaded=True), Words(s.late)))


def _owner(o: OwnerYear, s: YearEnd) -> Section:
    title = f"{o.full}: UK property pages for {s.year}, {BASES[o.basis]}"
    rows = (*(Row((number, TICKS[number], "", put), number) for number, put in o.ticks), *map(_box, o.boxes))
    blocks: list[Block] = [Table("boxes", title, BOXES, rows)]
    blocks += [Notes(o.notes)] if o.notes else []
    if o.open:  # before what the year means in tax, for they change it
        blocks.append(Section("Open questions, in no box above until they are settled", tuple(_questions(o))))
    blocks.append(_in_tax(o.in_tax))
    return Section(title, (*blocks, *_left_out(o.left_out)))


def _box(b: BoxLine) -> Row:
    exact, typed = Sum(b.figure.pence, b.figure.trail, b.adds), Sum(b.pounds * 100, adds=b.adds, whole=True)
    return Row((b.number, b.caption, exact, typed), b.number, "total" if b.adds else "line")


def _in_tax(t: InTax) -> Section:
    """The tax with the letting and without it; what to write where the book does not tell enough."""
    title = "What it means in tax (an estimate)"
    if t.tell:
        said = (
            f"Your book does not tell what else was earned in {t.year}. Add `{t.tell}` under the landlord; then you "
            "see the tax with the letting and without it, the reduction for finance costs, payments on account, and "
            "what each open question is worth."
        )
        return Section(title, (Words(said),))
    notes = (*map(_to_pay, t.to_pay), *t.notes)
    rows = tuple(_estimated(t))
    table = (Table("in tax", title, IN_TAX, rows, unheaded=True),) if rows else ()
    return Section(title, (*table, *((Notes(notes),) if notes else ())))


def _estimated(t: InTax) -> Iterator[Row]:
    e = t.estimate
    if e is None:
        return
    yield Row(("other income, as your book tells", Sum(e.other)), "other")
    yield Row(("profit of the letting (box 40)", Sum(e.profits)), "profits")
    yield Row(("tax without the letting", Sum(e.without)), "without")
    yield Row(("tax with the letting", Sum(e.before)), "before")
    with_it = "before"
    if e.relief.costs:
        share = f"{t.rate * 100:.0f}% of {pounds(e.relief.used)}"
        yield Row((f"less the reduction for finance costs, {share}", Sum(-e.reduction)), "reduction")
        with_it, adds = "tax", (("before", 1), ("reduction", 1))
        yield Row(("tax with the letting, after the reduction", Sum(e.tax, adds=adds)), with_it)
    yield Row(("so the letting adds", Sum(e.added, adds=((with_it, 1), ("without", -1)))), "added")
    if e.relief.costs:
        yield Row((f"finance costs left for {t.year.next} (box 45 then)", Sum(e.relief.left)), "left")


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


def _questions(o: OwnerYear) -> Iterator[Block]:
    """What several sums hang on, once, with those sums under it; then the other open sums."""
    for asked in o.asked:
        hang = [item for item in o.open if item.question is asked.question]
        count = f"{len(hang)} sum{'s' * (len(hang) > 1)}, {pounds(asked.pence)}{' together' * (len(hang) > 1)}"
        yield from asked_once.blocks(asked.question, count)
        if asked.worth:
            yield Words(f"If all of them come off the rents: {_worth(asked.worth, False)}.")
        yield Items(tuple(map(_open, hang)))
    rest = tuple(item for item in o.open if not item.question)
    if rest and o.asked:
        yield Words("Each of these by itself:")
    if rest:
        yield Items(tuple(map(_open, rest)))


def _open(item: OpenItem) -> Item:
    """What honest people could see either way: left out of the boxes, with both answers and the words to add."""
    trace = item.trace
    if item.question:
        left = tuple(asked_once.left_to_say(item.question, item.answers, item.ask))
        return Item(trace.source, trace.words, ((Sum(trace.pence), ""),), left, open=True)
    told = [("or" if i else "either", answer) for i, answer in enumerate(item.answers)]
    told += [("", settling(item.ask))] if item.ask else []
    if item.follows and not item.with_costs:
        what = "what it cost, of another year" if item.comes_in else "the job it goes with"
        told.append(("", f"it is settled with {what} ({', '.join(item.follows)})"))
    if item.worth:
        if_so = IF_SO[item.if_so]
        if item.with_costs:  # money back off a cost says nothing alone, income does
            lead = f"{if_so} and" if item.if_so == "income" else "if"
            if_so = f"{lead} what it cost comes off ({', '.join(item.follows)})"
        if item.came_back:
            if_so += f", with what came back for it ({', '.join(item.came_back)})"
        told.append(("", f"{if_so}: {_worth(item.worth, item.comes_in)}"))
    box = f"box {item.box}, if it comes off" if item.box else "money in" if item.comes_in else ""
    return Item(trace.source, trace.words, ((Sum(trace.pence), box),), tuple(told), open=True)


IF_SO = {
    "off the rents": "if it comes off the rents",
    "off a cost": "if it comes off a cost",
    "income": "if it is income",
    "either way": "either way",
}


def _worth(w: Worth, comes_in: bool) -> str:
    """What rides on an open item: tax of this year, and what goes on to the next."""
    less = "more" if (w.tax > 0) == comes_in else "less"
    said = [f"{pounds(abs(w.tax))} {less} tax this year" if w.tax else "this year's tax stays the same"]
    for pence, what in ((w.finance_on, "finance costs"), (w.loss_on, "loss")):
        if pence:
            said.append(f"{pounds(abs(pence))} {'more' if pence > 0 else 'less'} {what} to go on to the next year")
    return ", ".join(said)


def _left_out(left: tuple[LeftOut, ...]) -> Iterator[Section]:
    parts = [(OF_SALE, [item for item in left if item.of_sale])]
    parts += [(words, [i for i in left if i.kind is kind and not i.of_sale]) for kind, words in LEFT_OUT.items()]
    for heading, members in parts:
        if members:
            rows = tuple(Row((i.trace.source, i.trace.words, Sum(i.trace.pence)), under=i.why) for i in members)
            yield Section(heading, (Table("left out", heading, LINES, rows, unheaded=True),))
