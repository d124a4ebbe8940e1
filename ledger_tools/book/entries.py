"""The dated lines of a book as typed, frozen objects. Knows no tax and no grammar.

Amounts are whole pence and positive; the verb says which way the money went.
"""

from __future__ import annotations

import re
from dataclasses import field
from datetime import date
from fractions import Fraction

from ..days import Period, TaxYear, day_words
from ..problems import Place
from ..record import record


@record
class Day:
    """A day, or a month where that is all one knows: then `last` is the month's last day."""

    first: date
    last: date

    @property
    def exact(self) -> bool:
        """Whether the day itself is known."""
        return self.first == self.last

    def __str__(self) -> str:
        return day_words(self.first) if self.exact else day_words(self.first).split(" ", 1)[1]


@record
class Name:
    """A word or words of the landlord's: a room, a person, a house."""

    text: str
    place: Place = field(compare=False)

    def __str__(self) -> str:
        return self.text


@record
class Thing:
    """What a line is about: "3 of 8 windows", "part of drive", "whole garage", "boiler"."""

    name: str
    place: Place = field(compare=False)
    count: Fraction | None = None
    of: Fraction | None = None
    extent: str = ""  # "part of", "whole" or nothing


@record
class Becomes:
    """What it was replaced with or converted into: things, or only a number of the same."""

    word: str  # "with" or "into"
    things: tuple[Thing, ...] = ()
    count: Fraction | None = None


@record
class Who:
    """The other party: `role` is by, from or to; `name` the coined word ("" where quoted); `full` what to print."""

    role: str
    name: str
    full: str
    place: Place = field(compare=False)


@record
class Share:
    """A part of a line that belongs to one house; the fractions of a line add up to 1."""

    house: str
    fraction: Fraction

    def __hash__(self) -> int:
        return hash(self.house)  # of a fraction it takes long, and few lines share a house with themselves


@record
class Extra:
    """A named sum inside an amount (`of which`) or on top of it (`plus`), in pence."""

    what: str
    amount: int
    note: str
    place: Place = field(compare=False)


@record
class Retention:
    """Held back from a bill: pence, or a percentage of it, until a day if one is told."""

    amount: int | None
    percent: Fraction | None
    until: date | None

    def of(self, total: int) -> int:
        """The pence held back of a bill of this total; half a penny rounds up."""
        if self.amount is not None:
            return self.amount
        assert self.percent is not None
        exact = total * self.percent / 100
        return int(exact + Fraction(1, 2))


@record
class OldOne:
    """What became of the old item: sold (for pence, to whom), scrapped, kept, or moved to a house."""

    fate: str
    amount: int = 0
    to: str = ""
    place: Place | None = field(default=None, compare=False)  # of the house it was moved to


@record
class Link:
    """`goes with`, `making good after` or `making way for` other things."""

    word: str
    things: tuple[Thing, ...]


@record
class Paper:
    """An invoice, a quote or an order by its number."""

    kind: str
    number: str
    place: Place = field(compare=False)


_FILE = re.compile(r"[/\\]|\.\w{1,5}$")


@record
class Proof:
    """A file beside the book, or words for where a paper one is kept: receipt, photo, before or after."""

    kind: str
    file: str
    place: Place = field(compare=False)

    @property
    def on_paper(self) -> bool:
        """Whether it names no file: no folder, and no ending such as .pdf ("shoebox 1")."""
        return _FILE.search(self.file) is None


@record
class Called:
    """What was said of the home to somebody outside: "fit" or "unfit", and the things that were named as the reason."""

    word: str
    things: tuple[Thing, ...]
    place: Place = field(compare=False)


@record
class Ruling:
    """The landlord's own decision, with the reason they gave."""

    verdict: str
    because: str
    place: Place = field(compare=False)


@record
class Facts:
    """What was recorded about a line. Empty means not recorded, never "no"."""

    compared: str = ""
    new_layout: bool = False
    was_there: str = ""
    causes: tuple[str, ...] = ()
    fixing: str = ""
    same_again: int | None = None
    part_exchange: int | None = None
    old_one: OldOne | None = None
    improvement: Extra | None = None
    own_labour: bool = False
    hours: Fraction | None = None  # of own labour, where noted
    given_up: bool = False
    payer: str = ""  # who bore it, where that is told
    links: tuple[Link, ...] = ()
    part_of: str = ""
    shared: bool = False
    retention: Retention | None = None
    plus: tuple[Extra, ...] = ()
    of_which: tuple[Extra, ...] = ()
    number: str = ""
    due: date | None = None
    expires: date | None = None
    paid: tuple[tuple[date, int | None], ...] = ()
    was: tuple[str, str] | None = None  # currency code and the foreign sum as typed
    split: str = ""
    proofs: tuple[Proof, ...] = ()
    because: tuple[str, ...] = ()
    says: tuple[str, ...] = ()
    ruling: Ruling | None = None
    returned: TaxYear | None = None
    plan_dates: tuple[tuple[str, date], ...] = ()
    fixed_price: bool = False
    provisional: bool = False
    called: Called | None = None
    energy_band: str = ""  # of an energy certificate, a to g
    found: str = ""  # of a report: satisfactory, unsatisfactory


@record
class Entry:
    """One dated line, or one line of a bill or statement (then `lines` is empty and the day is the head line's).

    kind: works, money, bill, plan, booking, told, answer, noted, trip, spent
    verb: as the language's plain form (mended → repaired, fitted → installed, painted → decorated)
    amount: pence, None where none was given; `plus` sums are not in it
    """

    place: Place = field(compare=False)
    day: Day
    kind: str
    verb: str
    things: tuple[Thing, ...] = ()
    becomes: Becomes | None = None
    amount: int | None = None
    rooms: tuple[Name, ...] = ()
    who: Who | None = None
    period: Period | None = None
    purpose: str = ""
    note: str = ""
    change: str = ""  # more or less
    miles: Fraction | None = None
    discount: Fraction | None = None  # per cent off, granted by a council
    council_class: str = ""
    paper: Paper | None = None
    homes: tuple[Share, ...] = ()
    facts: Facts = Facts()
    lines: tuple[Entry, ...] = ()

    @property
    def total(self) -> int:
        """The amount with what was named on top; of a head line without amount, what its lines come to."""
        if self.amount is None and self.lines:
            return sum(line.total for line in self.lines)
        plus = self.facts.plus
        return (self.amount or 0) + (sum(extra.amount for extra in plus) if plus else 0)

    @property
    def thing(self) -> str:
        """The first thing's name, or nothing."""
        return self.things[0].name if self.things else ""

    @property
    def source(self) -> str:
        """ "file:line" of this line."""
        return self.place.short
