"""The audit of a book: its items by house and day with the rule that decided each, what is open with what rides on it,
what each rests on, and the proof the book names. Knows nothing of layout.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from functools import cache

from ..book.entries import Entry, Thing
from ..book.items import money_in
from ..book.world import Book, Property
from ..collector import collector_paused
from ..days import TaxYear
from ..ledger.rows import Row, way
from ..money import share
from ..record import record
from ..verdicts.asked_once import HouseQuestion
from ..verdicts.path import Look, path
from ..verdicts.registry import Rule, all_rules
from ..verdicts.verdict import CAPITAL, Confidence, Fired, Kind, Part, Verdict, deciding
from .accounts import Accounts
from .checked import checked_shortly
from .house_facts import HouseFact, house_facts
from .kinds import PLAIN, TAXED, effect, plain
from .stake import Stake, Stakes


@record
class Named:
    """A proof the book names: receipt, photo, before or after with its file, or "says" with the words told."""

    kind: str
    name: str
    where: str = ""  # "" on the line itself, "bill" on its head line, "house" under the house


@record
class AuditItem:
    """One item with its verdict, as an accountant asks after it.

    reasons: the rule that decided (two where a piece was carved off); also: other rules that changed date or gain.
    would_change and keep are those of the reasons. days: when its taxed parts count, empty while nothing is paid.
    pays: what of it pays a bill with an item of its own: the bill's place, the house and the part. paid_by: the places
    of the lines that pay it so. follows: the places of what settles it: the open costs that money came back for, with
    which it is priced, or the job that work goes with. came_back: the places of open money back that hangs on it alone,
    with which it is priced.
    question: the question of its house on which it hangs, where others do too.
    """

    number: int
    verdict: Verdict
    words: str
    party: str
    reasons: tuple[Fired, ...]
    also: tuple[Fired, ...]
    would_change: tuple[str, ...]
    keep: tuple[str, ...]
    proofs: tuple[Named, ...]
    days: tuple[date, ...]
    stakes: tuple[Stake, ...] = ()
    pays: tuple[tuple[str, str, Part], ...] = ()
    paid_by: tuple[str, ...] = ()
    follows: tuple[str, ...] = ()
    came_back: tuple[str, ...] = ()
    question: HouseQuestion | None = None

    @property
    def pence(self) -> int:
        """What its parts come to: its amount, and of a trip the allowance for its miles."""
        return sum(part.amount for part in self.verdict.parts)

    @property
    def open_pence(self) -> int:
        """What of it is open."""
        return sum(part.amount for part in self.verdict.parts if part.kind is Kind.ARGUABLE)

    @property
    def routine(self) -> bool:
        """Whether it needs few words: nothing of it is open or capital, ruled by hand or on a return already."""
        kinds = {part.kind for part in self.verdict.parts}
        return not (kinds & CAPITAL or Kind.ARGUABLE in kinds or self.verdict.thought)

    @property
    def comes_in(self) -> bool:
        """Whether it is money that came in."""
        return way(self.verdict.item.line) == "in"

    @property
    def overruled(self) -> tuple[Fired, ...]:
        """Where the landlord ruled, or it is on a return already: what decides, or leaves it open, without that."""
        return deciding(self.verdict.without)[0] if self.verdict.without is not None else ()

    @property
    def taxed(self) -> bool:
        """Whether any part of it counts, or may count, in a tax year before the house is sold."""
        return any(part.kind in TAXED for part in self.verdict.parts)

    @property
    def at_stake(self) -> int | None:
        """The income tax that rides on it, of all its owners in pence; None where that is not known of each of them."""
        taxes = [stake.tax for stake in self.stakes]
        known = [tax for tax in taxes if tax is not None]
        return sum(known) if known and len(known) == len(taxes) else None

    @property
    def proven(self) -> bool:
        """Whether the line or its bill names a proof; papers of the house alone prove no single item."""
        return any(proof.where != "house" for proof in self.proofs)


@record
class Total:
    """How much of a house, or of all, has one answer: how many items hold it, and their parts in pence together.

    name and effect are the answer in words: finance costs stand apart from other running costs.
    """

    kind: Kind
    name: str
    effect: str
    items: int
    pence: int


@record
class Asked:
    """A question of a house, the open items shown that hang on it, those that only follow them, each with the house's
    part in pence, and what rides on all of these."""

    question: HouseQuestion
    stakes: tuple[Stake, ...]
    hang: tuple[tuple[AuditItem, int], ...]
    follow: tuple[tuple[AuditItem, int], ...]


@record
class HouseAudit:
    """The items of one house ("" for lines of no house) in order, each with this house's part in pence."""

    house: str
    full: str
    items: tuple[tuple[AuditItem, int], ...]
    totals: tuple[Total, ...]
    facts: tuple[HouseFact, ...] = ()
    asked: tuple[Asked, ...] = ()


@record
class RuleNote:
    """A rule that a shown answer rests on, with how many items do, and how sure it is of them: less than as a rule
    where a fact is missing, more where one settles it."""

    rule: Rule
    items: int
    sure: tuple[Confidence, ...] = ()


@record
class Audit:
    """The audit of a book, or of the items asked for. `together` is what rides on all open ones of it at once.

    left_out: how many money lines the same question would show besides, that pay for no works and are not open.
    """

    items: tuple[AuditItem, ...]
    houses: tuple[HouseAudit, ...]
    totals: tuple[Total, ...]
    together: tuple[Stake, ...]
    rules: tuple[RuleNote, ...]
    cautions: tuple[str, ...]
    checked: str
    left_out: int = 0

    @property
    def undecided(self) -> int:
        """How many items are open; a bill and what pays it are two of them, though one question (see `open`)."""
        return sum(item.verdict.arguable for item in self.items)

    @property
    def open(self) -> tuple[AuditItem, ...]:
        """The items that are open, in order; a bill and what pays it are one question, that of the payments."""
        paying = {item.verdict.item.source for item in self.items if item.verdict.arguable and item.pays}
        return tuple(
            item
            for item in self.items
            if item.verdict.arguable and (item.stakes or not item.paid_by or not paying.issuperset(item.paid_by))
        )

    @property
    def unproven(self) -> int:
        """For how many items the book names no proof."""
        return sum(not item.proven for item in self.items)


@collector_paused()
def audit(
    accounts: Accounts,
    chosen: Sequence[AuditItem] | None = None,
    houses: Iterable[str] | None = None,
    left_out: int = 0,
) -> Audit:
    """The audit of these items (see `items`), or of all; `houses` limits the houses shown to those named."""
    shown = tuple(items(accounts) if chosen is None else chosen)
    stakes = Stakes(accounts)
    shown = tuple(_priced(item, stakes) if item.verdict.arguable else item for item in shown)
    each = [(house, [*_parts(house)]) for house in _houses(accounts, shown, houses)]
    told = tuple(replace(h, totals=_totals(parts), asked=tuple(_asked(h, stakes))) for h, parts in each)
    cautions = dict.fromkeys(caution for item in shown for caution in item.verdict.cautions)
    together = stakes.of([item.number for item in shown if item.verdict.arguable])
    totals = _totals(pair for _, parts in each for pair in parts)
    return Audit(shown, told, totals, together, _rules(shown), tuple(cautions), checked_shortly(), left_out)


def walk(accounts: Accounts, item: AuditItem) -> tuple[Look, ...]:
    """The whole path of one item: every look taken at it, with each rule asked and what it said."""
    return path(accounts.book, item.number)[1]


# ── items ────────────────────────────────────────────────────────────────────────────────────────────────────────


def items(accounts: Accounts) -> Iterator[AuditItem]:
    """Every item of a book, in the order of its days. What rides on open ones is worked out by `audit`."""
    days = _days(accounts)
    pays: dict[int, list[tuple[str, str, Part]]] = defaultdict(list)
    paid_by: dict[str, list[str]] = defaultdict(list)
    for row in accounts.rows:
        if row.pays:
            pays[row.verdict].append((row.pays, row.house, Part(row.pence, row.kind, row.category, row.cgt)))
            paid_by[row.pays] += [row.source] if row.paid else []
    asked = {number: question for question in accounts.questions for number in question.numbers}
    for number, verdict in enumerate(accounts.verdicts):
        line, head = verdict.item.line, verdict.item.head
        who = line.who or head.who
        reasons, also = deciding(verdict)
        rules = [(fired, rule) for fired in reasons if (rule := rule_called(fired.slug))]
        yield AuditItem(
            number, verdict, words(line), who.full if who else "", reasons, also,
            tuple(dict.fromkeys(flip for fired, rule in rules for flip in fired.flips or rule.flips)),
            tuple(dict.fromkeys(keep for fired, rule in rules for keep in fired.keep or rule.keep)),
            tuple(proofs(accounts.book, verdict)),
            tuple(sorted(days.get(number, ()))),
            pays=tuple(pays.get(number, ())),
            paid_by=tuple(dict.fromkeys(paid_by.get(verdict.item.source, ()))),
            follows=tuple(accounts.verdicts[cost].item.source for cost in verdict.follows),
            came_back=tuple(accounts.verdicts[one].item.source for one in accounts.came_back.get(number, ())),
            question=asked.get(number),
        )  # fmt: skip


def words(line: Entry) -> str:
    """A line in a few words: "replaced 2 of 8 windows with doors in kitchen", "drove 18 miles"."""
    if line.miles is not None:
        return f"{line.verb} {line.miles} miles"
    said = [line.verb, " and ".join(_thing(thing) for thing in line.things)]
    if line.becomes and line.becomes.things:
        said.append(f"{line.becomes.word} {' and '.join(_thing(thing) for thing in line.becomes.things)}")
    elif line.becomes and line.becomes.count:
        said.append(f"{line.becomes.word} {line.becomes.count}")
    if line.purpose:
        said.append(f"for {line.purpose}")
    rooms = [room.text for room in line.rooms]
    if rooms and rooms != [line.thing]:
        said.append(f"in {' and '.join(rooms)}")
    return " ".join(word for word in said if word)


def _thing(thing: Thing) -> str:
    number = f"{thing.count} of {thing.of}" if thing.count and thing.of else str(thing.count or "")
    return " ".join(word for word in (thing.extent, number, thing.name) if word)


@cache
def _by_slug() -> Mapping[str, Rule]:
    return {rule.slug: rule for rule in all_rules()}


def rule_called(slug: str) -> Rule | None:
    """The rule of that name, None where there is none."""
    return _by_slug().get(slug)


def proofs(book: Book, v: Verdict) -> Iterator[Named]:
    """What the book names as proof of an item: on its line, on the head line of its bill, under its house."""
    line, head = v.item.line, v.item.head
    told: list[tuple[str, Entry]] = [("", line)] if line is head else [("", line), ("bill", head)]
    for where, entry in told:
        for proof in entry.facts.proofs:
            yield Named(proof.kind, proof.file, where)
        for says in entry.facts.says:
            yield Named("says", says, where)
    for home in line.homes or head.homes:
        if home.house in book.properties:
            yield from _papers(book.properties[home.house])


def _papers(house: Property) -> Iterator[Named]:
    """The proofs named under a house, and who said what it was worth, in what state it was got and at what price."""
    for proof in house.proofs:
        yield Named(proof.kind, proof.file, "house")
    for says in (*house.as_bought_says, *house.price_says, *(house.got.says if house.got else ())):
        yield Named("says", says, "house")


def _days(accounts: Accounts) -> dict[int, set[date]]:
    """The days on which the taxed parts of each verdict count, by its number."""
    found: dict[int, set[date]] = defaultdict(set)
    for row in accounts.rows:
        if row.verdict >= 0 and row.kind in TAXED:
            found[row.verdict].update(_counting(accounts, row))
    return found


def _counting(accounts: Accounts, row: Row) -> Iterator[date]:
    """The day a row counts by payment or by what was owed, whichever its house goes by in that year."""
    if row.counts is not None and accounts.house_basis(row.house, TaxYear.of(row.counts)) == "cash":
        yield row.counts
    owed = accounts.owed_day(row)
    if owed is not None and accounts.house_basis(row.house, TaxYear.of(owed)) == "accruals":
        yield owed


def _priced(item: AuditItem, stakes: Stakes) -> AuditItem:
    return replace(item, stakes=stakes.of([item.number]))


# ── houses and totals ────────────────────────────────────────────────────────────────────────────────────────────


def houses_of(item: AuditItem) -> tuple[str, ...]:
    """The houses an item belongs to; "" where it belongs to none."""
    homes = item.verdict.item.line.homes or item.verdict.item.head.homes
    return tuple(home.house for home in homes) or ("",)


def _houses(accounts: Accounts, shown: Sequence[AuditItem], houses: Iterable[str] | None) -> Iterator[HouseAudit]:
    wanted = None if houses is None else set(houses)
    members: dict[str, list[tuple[AuditItem, int]]] = defaultdict(list)
    for item in shown:
        for house, pence in zip(houses_of(item), _over(item, item.pence), strict=True):
            members[house].append((item, pence))
    for house in (*accounts.book.properties, ""):
        if members[house] and (wanted is None or house in wanted):
            about = accounts.book.properties.get(house)
            facts = house_facts(accounts, about) if about else ()
            yield HouseAudit(house, about.full if about else "Of no house", tuple(members[house]), (), facts)


def _asked(house: HouseAudit, stakes: Stakes) -> Iterator[Asked]:
    for question in dict.fromkeys(item.question for item, _ in house.items if item.question):
        hang = tuple((item, pence) for item, pence in house.items if item.question is question)
        asked = {item.number for item, _ in hang}
        costs = ((item, pence) for item, pence in house.items if item.follows and not item.comes_in)
        follow = tuple((item, pence) for item, pence in costs if asked.issuperset(item.verdict.follows))
        yield Asked(question, stakes.of([item.number for item, _ in (*hang, *follow)]), hang, follow)


def _over(item: AuditItem, pence: int) -> list[int]:
    """A sum of an item over its houses, in order."""
    homes = item.verdict.item.line.homes or item.verdict.item.head.homes
    return share(pence, [home.fraction for home in homes]) if len(homes) > 1 else [pence]


def _parts(house: HouseAudit) -> Iterator[tuple[AuditItem, Part]]:
    """Each part of each item, cut down to the house. What pays a bill that stands here too is not counted again."""
    here = {item.verdict.item.source for item, _ in house.items}
    for item, _ in house.items:
        held = houses_of(item)
        if len(held) == 1:
            yield from ((item, part) for part in item.verdict.parts)
        else:
            for part in item.verdict.parts:
                here_of_it = _over(item, part.amount)[held.index(house.house)]
                yield item, Part(here_of_it, part.kind, part.category, part.cgt)
        for bill, name, part in item.pays:
            if bill in here and name == house.house:
                yield item, replace(part, amount=-part.amount)


def _totals(parts: Iterable[tuple[AuditItem, Part]]) -> tuple[Total, ...]:
    """By answer, in the order of the answers: how many items hold it, and the sum of the parts."""
    sums: dict[tuple[Kind, str, str], int] = defaultdict(int)
    members: dict[tuple[Kind, str, str], set[int]] = defaultdict(set)
    for item, part in parts:
        came_in = part.kind is Kind.ARGUABLE and money_in(item.verdict.item.line)  # never added to costs that are open
        key = (part.kind, plain(part) + (", money in" if came_in else ""), effect(part))
        sums[key] += part.amount
        members[key].add(item.number)
    order = list(Kind)
    keys = sorted(sums, key=lambda key: (order.index(key[0]), key[1] != PLAIN[key[0]]))
    return tuple(Total(*key, len(members[key]), sums[key]) for key in keys)


def _rules(shown: Iterable[AuditItem]) -> tuple[RuleNote, ...]:
    """The rules that shown answers rest on, in the order they are asked."""
    counted: dict[str, int] = defaultdict(int)
    sure: dict[str, set[Confidence]] = defaultdict(set)
    for item in shown:
        fired = (*item.reasons, *item.also, *item.overruled)
        for slug in dict.fromkeys(one.slug for one in fired):
            counted[slug] += 1
            sure[slug].update(one.confidence for one in fired if one.slug == slug)
    return tuple(
        RuleNote(rule, counted[slug], tuple(level for level in Confidence if level in sure[slug]))
        for slug, rule in _by_slug().items()
        if slug in counted
    )
