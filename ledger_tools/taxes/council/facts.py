"""What a book tells of one home that council tax hangs on: whose it was, who lived there, in what state it stood.

Knows no rule and no rate. Nothing is filled in: what the book does not tell is left open here and asked later.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from fractions import Fraction

from ...book.council_bills import TAX
from ...book.entries import Entry
from ...book.world import Book, Property, Spell, Tenancy
from ...days import Period
from ...record import record
from .years import DAY, Run, first_after

# Let apart, these are no room of the home.
OUTSIDE = frozenset({
    "garage", "parking space", "drive", "shed", "store", "yard", "land", "garden", "loft", "cellar", "workshop",
    "outbuilding", "stable", "field", "paddock", "mooring", "pitch", "roof",
})  # fmt: skip

# Of these words the name of a company has one, in English or Welsh (Companies Act 2006 s. 58, s. 59).
COMPANY = frozenset({"ltd", "limited", "plc", "llp", "cyf", "cyfyngedig", "ccc"})


@record
class Stay:
    """Somebody's let: the nights they lived there, and the days the let runs in law.

    lives: None where they never moved in. held: None where it ended before it began. open_end: they left, and the
    book does not tell whether the let ended with that.
    """

    name: str
    who: str
    lives: Run | None
    held: Run | None
    left: date | None
    term: Period | None
    rolls: str
    kind: str
    room: bool
    begins: date
    open_end: bool
    notice: date | None  # of the tenant
    ended: date | None  # the last day as told
    company: bool = False  # it has no tenant but companies, by their names

    def long_term(self, months: int) -> bool:
        """Whether it was granted for a term of at least so many months."""
        return self.term is not None and self.term.last >= first_after(self.term.first, months) - DAY


@record
class Granted:
    """What the council let off by its own decision: a share of the charge, for these days; or it called them exempt."""

    days: Period
    off: Fraction
    source: str
    why: str
    exempt: bool


@record
class Facts:
    """All that is told of one home. ours: the days it was the landlord's, the day of a sale no longer."""

    house: str
    full: str
    nation: str
    council: str
    band: str
    ours: Run
    how: str  # bought, inherited, given; "" where not told
    empty_since: date | None
    stays: tuple[Stay, ...]
    lived: tuple[Run, ...]  # by somebody whose let is not in the book
    own_home: tuple[Run, ...]
    furnished: tuple[tuple[Run, bool], ...]
    works: tuple[Run, ...]
    needs: tuple[Run, ...]
    to_let: tuple[Run, ...]
    for_sale: tuple[Run, ...]
    exempt: tuple[tuple[Run, str, str], ...]  # the letter of the class, why
    no_premium: tuple[Run, ...]
    one_counts: tuple[Run, ...]
    none_counts: tuple[Run, ...]
    hmo: tuple[Run, ...]
    unbanded: tuple[Run, ...]
    died: date | None
    probate: date | None
    granted: tuple[Granted, ...]
    # Whether the law's exceptions from the premium and its exemptions are looked at: to try out how a bill was made.
    excepted: bool = True
    exempted: bool = True

    def known_on(self, day: date) -> Facts:
        """What could be known at the end of a day: later facts gone, what ended later still going on."""
        ours = self.ours if self.ours.last is None or self.ours.last < day else Run(self.ours.first)
        return replace(
            self, ours=ours,
            stays=tuple(_stay_on(s, day) for s in self.stays if s.begins <= day),
            lived=_runs_on(self.lived, day), own_home=_runs_on(self.own_home, day),
            furnished=tuple((_run_on(r, day), f) for r, f in self.furnished if r.first <= day),
            works=_runs_on(self.works, day), needs=_runs_on(self.needs, day), to_let=_runs_on(self.to_let, day),
            for_sale=_runs_on(self.for_sale, day),
            exempt=tuple((_run_on(r, day), c, why) for r, c, why in self.exempt if r.first <= day),
            no_premium=_runs_on(self.no_premium, day), one_counts=_runs_on(self.one_counts, day),
            none_counts=_runs_on(self.none_counts, day), hmo=_runs_on(self.hmo, day),
            unbanded=_runs_on(self.unbanded, day),
            probate=self.probate if self.probate and self.probate <= day else None,
            granted=(),
        )  # fmt: skip


def _run_on(run: Run, day: date) -> Run:
    return Run(run.first) if run.last is not None and run.last >= day else run


def _runs_on(runs: tuple[Run, ...], day: date) -> tuple[Run, ...]:
    return tuple(_run_on(run, day) for run in runs if run.first <= day)


def _stay_on(stay: Stay, day: date) -> Stay:
    lives = stay.lives
    if lives is not None:
        lives = _run_on(lives, day) if lives.first <= day else None
    left = stay.left if stay.left and stay.left <= day else None
    return replace(stay, lives=lives, held=_run_on(stay.held, day) if stay.held else None, left=left,
                   open_end=stay.open_end and left is not None)  # fmt: skip


def gather(book: Book, house: str, on: date = date.max) -> Facts:
    """The facts of one home of a book; of its dated lines, those up to a day."""
    p = book.properties[house]
    council = book.councils.get(p.council)
    return Facts(
        house, p.full, p.nation or (council.nation if council else ""), p.council, p.band, _ours(p),
        p.got.how if p.got else "", p.empty_since,
        stays=tuple(sorted((_stay(t) for t in book.lets_of(house) if t.first_day and t.room not in OUTSIDE),
                           key=lambda s: (s.begins, s.name))),
        lived=_spells(p, "lived in"), own_home=_spells(p, "own home"),
        furnished=tuple((_run(s), s.state == "furnished") for s in p.spells if s.state in ("furnished", "unfurnished")),
        works=_spells(p, "works"), needs=_spells(p, "needs works"),
        to_let=_spells(p, "marketed", "marketed to let"), for_sale=_spells(p, "marketed for sale"),
        exempt=tuple((_run(s), s.council_class, "; ".join(s.because)) for s in p.spells if s.state == "exempt"),
        no_premium=_spells(p, "no premium"), one_counts=_spells(p, "one adult counts"),
        none_counts=_spells(p, "no adult counts"), hmo=_spells(p, "hmo"), unbanded=_spells(p, "band deleted"),
        died=p.owner_died, probate=p.probate,
        granted=tuple(_granted(
            e for e in book.about(house) if e.day.first <= on and e.homes
        )),
    )  # fmt: skip


def _ours(p: Property) -> Run:
    return Run(p.got.day if p.got else date.min, p.sold.day - DAY if p.sold else None)


def _run(spell: Spell) -> Run:
    return Run(spell.since, spell.until)


def _spells(p: Property, *states: str) -> tuple[Run, ...]:
    return tuple(sorted((_run(s) for s in p.spells if s.state in states), key=lambda r: r.first))


def _stay(t: Tenancy) -> Stay:
    """The day they leave is no longer theirs: the state at the end of a day holds for all of it. A let that ends later
    than they leave is theirs to its last day."""
    first = t.first_day
    assert first is not None
    moved_in = t.moved_in or first
    last = t.moved_out - DAY if t.moved_out else t.ended
    lives = Run(moved_in, last) if last is None or last >= moved_in else None
    begins = min(first, moved_in)
    held = Run(begins, t.ended) if t.ended is None or t.ended >= begins else None
    notices = [day for day, by in t.notices if by == "tenant"]
    return Stay(
        t.name, " and ".join(t.tenants) or t.name, lives, held, t.moved_out, t.term,
        t.rolls_on or ("" if t.starts or not t.periodic else "periodic"), t.let_kind, bool(t.room), begins,
        t.moved_out is not None and t.ended is None, max(notices, default=None), t.ended,
        bool(t.tenants) and all(COMPANY & set(name.lower().replace(".", "").split()) for name in t.tenants),
    )  # fmt: skip


def _granted(entries: Iterable[Entry]) -> Iterable[Granted]:
    for e in entries:
        if e.verb != "granted" or not e.period or not (e.thing == TAX or e.council_class):
            continue
        if e.discount is None and not e.council_class:
            continue
        off = e.discount if e.discount is not None else Fraction(1)
        why = "; ".join((*e.facts.because, *e.facts.says))
        yield Granted(e.period, off, e.source, why, e.discount is None)
