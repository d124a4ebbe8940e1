"""What holds of the verdicts of any book of works: what cannot matter does not, and a line minds its own business.

Books are put together from the cases of every rule and from made-up lines about a few things, so that lines meet which
no case has brought together.
"""

from __future__ import annotations

import random
import re
from collections import Counter
from dataclasses import dataclass, replace

from hypothesis import HealthCheck, given, note, settings
from hypothesis import strategies as st

from ledger_tools.book.build import build
from ledger_tools.explain.houses import HOUSES, PEOPLE
from ledger_tools.explain.rule_pages import told
from ledger_tools.problems import Level
from ledger_tools.verdicts.engine import judge
from ledger_tools.verdicts.ruled import RULED
from ledger_tools.verdicts.verdict import Verdict
from tests.verdicts.test_rules import MORE

MANY = settings(
    deadline=None, max_examples=150, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much]
)
FAR = (
    'property far-1 "1 Far Road"\n    bought 1 May 2020 for £90,000\n    as bought lettable\n    price normal\n'
    "    owners asha 100%\n"
)
SUM = re.compile(r"£([\d,]+)(?:\.(\d\d))?")

# ── books ────────────────────────────────────────────────────────────────────────────────────────────────────────


def events(lines: str) -> list[str]:
    """The dated lines of an example, each with what is indented under it."""
    return [event for event in re.split(r"\n(?=\S)", lines.strip()) if event[0].isdigit()]


POOL = sorted(
    {
        event
        for lines in (*(e.lines for page in told().values() for e in (page.like, page.unlike)),
                      *(case.lines for case in MORE.values()))
        for event in events(lines)
        if "dock-9" not in event and "home-loan" not in event
    }
)  # fmt: skip
THINGS = ["kitchen", "boiler", "roof", "wall tiles", "sofa", "fridge", "carpet", "shed", "satellite dish", "windows"]
FACTS = [
    "like for like", "modern equivalent", "better", "does more", "none before", "used by tenant", "left by seller",
    "worn out", "storm damage", "required", "chosen", "before sale", "same again £40.00", "part exchange £20.00",
    "improvement £30.00", "old one scrapped", "old one kept", "own labour",
]  # fmt: skip
LINKS = ["goes with", "making good after", "making way for"]
VERBS = ["repaired", "replaced", "installed", "bought", "removed", "moved", "rebuilt", "decorated", "hired skip for"]


@st.composite
def made_up(draw: st.DrawFn, things: list[str]) -> str:
    """A line about one of a few things, as its words come; the day is put in later."""
    verb, thing = draw(st.sampled_from(VERBS)), draw(st.sampled_from(things))
    pence = draw(st.integers(10, 900)) * 100
    words = f"{verb} {thing} £{pence // 100}.00" if verb != VERBS[-1] else f"hired skip £{pence // 100}.00"
    facts = draw(st.lists(st.sampled_from(FACTS), max_size=3, unique=True))
    if draw(st.integers(0, 2)) == 0:
        facts.append(f"{draw(st.sampled_from(LINKS))} {draw(st.sampled_from(things))}")
    sums = [f"sold {thing} £{pence // 1000 + 10}.00", f"received refund £15.00 from cobb for {thing}",
            f"received insurance £{pence // 100 + 7}.00 from cobb for {thing}"]  # fmt: skip
    said = draw(st.sampled_from(["", "", "", "", *sums]))
    return f"0 {said or ', '.join([words, *facts])}"


@dataclass(frozen=True)
class Written:
    """A book: the house its lines are about, and the lines in order."""

    house: str
    lines: tuple[str, ...]
    before: str = ""  # other blocks

    @property
    def text(self) -> str:
        return f"{PEOPLE}{HOUSES[self.house].book}{self.before}at mill-3\n" + "\n".join(self.lines) + "\n"

    def with_line(self, i: int, line: str) -> Written:
        return replace(self, lines=(*self.lines[:i], line, *self.lines[i + 1 :]))


def written(draw: st.DrawFn, days: st.SearchStrategy[list[int]]) -> Written:
    house = draw(st.sampled_from(sorted(HOUSES)))
    things = draw(st.lists(st.sampled_from(THINGS), min_size=1, max_size=3, unique=True))
    found = draw(st.lists(made_up(things) | made_up(things) | st.sampled_from(POOL), min_size=2, max_size=7))
    lines = []
    for day, line in zip(draw(days), found, strict=False):
        month = draw(st.sampled_from(["Jul 2025", "Jul 2025", "Mar 2026", "Mar 2019"]))
        lines.append(re.sub(r"^\d+( [A-Z]\w\w \d{4})?", f"{day} {month}", line))
    return Written(house, tuple(lines))


books = st.composite(written)(st.permutations(range(1, 29)))
crowded = st.composite(written)(st.lists(st.sampled_from([4, 4, 5]), min_size=7))  # many lines on one day


def verdicts(book: Written) -> list[Verdict]:
    """The verdicts of a book; an empty list where its lines have errors."""
    made = build({"any.book": book.text})
    return [] if any(p.level is Level.ERROR for p in made.problems) else list(judge(made))


def gist(v: Verdict) -> tuple[object, ...]:
    """What must stay: the parts, the other answer, the day."""
    return frozenset(v.parts), frozenset(v.other), v.when


def words(v: Verdict) -> str:
    """Which line it is, whatever was added to it."""
    place = v.item.line
    return f"{place.day.first} {place.verb} {' and '.join(t.name for t in place.things)} {place.amount}"


def explain(book: Written, v: Verdict) -> str:
    return f"{book.text.partition('at mill-3')[2]}\n{words(v)}: {[(f.slug, f.says) for f in v.path]}"


# ── adding up ────────────────────────────────────────────────────────────────────────────────────────────────────


@MANY
@given(books)
def test_parts_and_other_add_up_to_the_item(book: Written) -> None:
    for v in verdicts(book):
        total = sum(part.amount for part in v.parts)
        assert v.item.line.kind == "trip" or total == v.item.amount
        assert not v.other or sum(part.amount for part in v.other) == total


# ── what cannot matter ───────────────────────────────────────────────────────────────────────────────────────────

# Who did it is idle unless a refund came from that very firm: of the books here, from cobb.
IDLE = [", says \"a letter\"", ", receipt \"r-1.pdf\"", ", photo \"p-1.jpg\"", ", because \"so it was\"",
        ", number Z-7", " in kitchen", " by lowe", "  # a note"]  # fmt: skip


def with_idle(line: str, fact: str) -> str:
    """The line with a fact that tells nothing about the answer."""
    head, *rest = line.split("\n")
    if fact == " in kitchen" or fact == " by lowe":
        if f" {fact.split()[0]} " in head or re.search(r" (from|to|across) ", head) or "drove" in head:
            return line
        at = head.index("£") if "£" in head else len(head)
        if fact == " in kitchen":
            head = f"{head[:at].rstrip()} in kitchen {head[at:]}"
        else:
            found = SUM.search(head)
            head = f"{head[: found.end()]} by lowe{head[found.end() :]}" if found else head
    elif fact.strip(", ").split()[0] not in head:
        head += fact
    return "\n".join([head, *rest])


@MANY
@given(books, st.data())
def test_facts_that_tell_nothing_change_nothing(book: Written, data: st.DataObject) -> None:
    more = book
    for i, line in enumerate(book.lines):
        fact = data.draw(st.sampled_from(IDLE))
        more = more.with_line(i, with_idle(line, re.sub(r"\d", str(i), fact)))
    was, now = verdicts(book), verdicts(more)

    note(more.text)
    if was and now:
        for one, two in zip(was, now, strict=True):
            assert gist(one) == gist(two), f"{explain(book, one)}\n{explain(more, two)}"


@MANY
@given(books, st.integers(0, 10))
def test_a_diary_line_or_another_house_changes_nothing(book: Written, at: int) -> None:
    line = '3 Jul 2025 noted "read the meters"'
    more = replace(book, lines=(*book.lines[:at], line, *book.lines[at:]))
    far = replace(book, before=FAR, lines=(*book.lines, "5 Jun 2026 repaired gutters £77.77 at far-1"))
    was = verdicts(book)

    assert [gist(v) for v in verdicts(more)] == [gist(v) for v in was]
    others = [v for v in verdicts(far) if v.item.amount != 7777]
    for one, two in zip(was, others, strict=bool(was)):
        assert gist(one) == gist(two), f"{explain(book, one)}\n{explain(far, two)}"


@MANY
@given(books | crowded, st.integers(0, 2**32), st.integers(1, 3))
def test_the_order_of_lines_and_files_changes_nothing(book: Written, seed: int, files: int) -> None:
    chance = random.Random(seed)
    texts: dict[str, str] = {f"{n}.book": "at mill-3\n" for n in range(files)}
    lines = list(book.lines)
    chance.shuffle(lines)
    for line in lines:
        texts[f"{chance.randrange(files)}.book"] += line + "\n"
    texts["houses.book"] = PEOPLE + HOUSES[book.house].book
    was = verdicts(book)
    if not was:
        return
    now = judge(build(texts))

    assert Counter((words(v), gist(v)) for v in now) == Counter((words(v), gist(v)) for v in was)


@MANY
@given(books, st.sampled_from([2, 3, 10]))
def test_no_rule_decides_on_size(book: Written, times: int) -> None:
    def larger(found: re.Match[str]) -> str:
        pence = times * int(found[1].replace(",", "") + (found[2] or "00"))
        return f"£{pence // 100}.{pence % 100:02d}"

    lines = tuple(SUM.sub(larger, line) for line in book.lines)
    for one, two in zip(verdicts(book), verdicts(replace(book, lines=lines)), strict=True):
        assert kinds(one) == kinds(two), f"{explain(book, one)}\n{[f.says for f in two.path]}"


def kinds(v: Verdict) -> list[object]:
    """The answers without their sums."""
    return [[(p.kind, p.category, p.cgt) for p in parts] for parts in (v.parts, v.other)]


# ── a ruling is about its own line ───────────────────────────────────────────────────────────────────────────────


def names(v: Verdict, ruled: Verdict) -> bool:
    """Whether a line names what another is about, or is on its bill."""
    line, other = v.item.line, ruled.item.line
    if v.item.head is ruled.item.head:
        return True
    own = {t.name.lower() for t in (*other.things, *(other.becomes.things if other.becomes else ()))}
    told = {line.purpose.lower(), *(t.name.lower() for link in line.facts.links for t in link.things)}
    if line.verb in ("sold", "scrapped", "took home"):
        told |= {t.name.lower() for t in line.things}
    return any(said and (said in name or name in said) for said in told for name in own)


@MANY
@given(books, st.data())
def test_a_ruling_changes_no_line_that_does_not_name_it(book: Written, data: st.DataObject) -> None:
    i = data.draw(st.integers(0, len(book.lines) - 1))
    head, *rest = book.lines[i].split("\n")
    if "treat as" in head:
        return
    ruling = data.draw(st.sampled_from(sorted(RULED)))
    more = book.with_line(i, "\n".join([f'{head}, treat as {ruling} because "adviser"', *rest]))
    was, now = verdicts(book), verdicts(more)
    if not was or not now:
        return
    ruled = [two for two in now if two.ruled and two.item.line.facts.ruling.because == "adviser"]
    others = [(one, two) for one, two in zip(was, now, strict=True) if two not in ruled]
    for one, two in others:
        if not any(reaches(two, r, now) for r in ruled):
            assert gist(one) == gist(two), f"{explain(book, one)}\n{explain(more, two)}"


def reaches(v: Verdict, ruled: Verdict, all_: list[Verdict]) -> bool:
    """Whether a line names the ruled one, or names one that names it, and so on."""
    seen, new = [ruled], [ruled]
    while new:
        new = [other for other in all_ if other not in seen and any(names(other, at) for at in new)]
        seen += new
    return v in seen


def test_the_books_are_not_idle() -> None:
    """Guards the tests above: nearly every made-up book is sound, and all sorts of rules speak in them."""
    heard: Counter[str] = Counter()
    sound: list[bool] = []

    @settings(MANY, max_examples=250, database=None)
    @given(books)
    def look(book: Written) -> None:
        found = verdicts(book)
        sound.append(bool(found))
        heard.update(fired.slug for v in found for fired in v.path)

    look()
    assert sum(sound) > len(sound) * 0.5
    assert len(heard) > 45
