"""Which payments settle which bills, and what is left of each bill for plain payments to settle.

Knows no verdict: what a bill and its payments count for is asked elsewhere.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Container, Iterator, Sequence
from datetime import date

from ..days import day_words
from ..money import share
from ..problems import Level, Problem, placed
from .council_bills import replaced
from .entries import Entry, Ruling, Share
from .items import party, settles
from .world import Book

Key = tuple[str, str, tuple[Share, ...]]  # party, thing, houses
AT_ONCE = frozenset({"paid", "repaid", "received", "kept", "banked", "wrote off"})  # money that moves on the line's day


class Settling:
    """Who was paid what, when, against which paper; and what is left of each bill for plain payments to settle."""

    def __init__(self, entries: Sequence[Entry], gone: Container[int] = ()) -> None:
        self.against: dict[tuple[str, str, str], list[Entry]] = defaultdict(list)
        self.told: list[Entry] = []  # the payments, in order
        for entry in entries:
            if settles(entry):
                assert entry.paper is not None
                self.told.append(entry)
                self.against[entry.paper.kind, entry.paper.number.lower(), party(entry)].append(entry)
        self.numbers = frozenset((kind, number) for kind, number, _ in self.against)
        self.taken: dict[int, int] = defaultdict(int)  # of each payment, what bills have taken up
        self.bills: dict[int, list[tuple[date, int]]] = {}  # the payments of each bill
        self.open: dict[Key, list[tuple[str, int]]] = defaultdict(list)  # place and rest of each bill, oldest first
        for entry in entries:
            if self.on_account(entry) and id(entry) not in gone:
                self._bill(entry)

    def on_account(self, entry: Entry) -> bool:
        """Whether a line is a bill to be paid later: it says so, or some payment names its number."""
        if entry.verb in AT_ONCE:
            return False
        if entry.verb in ("invoiced", "billed", "recharged") or entry.facts.paid or entry.facts.due is not None:
            return True
        return bool(entry.facts.number) and ("invoice", entry.facts.number.lower()) in self.numbers

    def _bill(self, entry: Entry) -> None:
        """Find the payments of a bill: told on it, made against its number, or made ahead against its quote.

        Together never more than the bill; what a payment has left can settle another bill of the same number. What is
        left of the bill stands open for plain payments to the same party for the same thing, in any order.
        """
        found = [(day, amount if amount is not None else entry.total) for day, amount in entry.facts.paid]
        exchanged = sum(line.facts.part_exchange or 0 for line in (entry, *entry.lines))
        if exchanged:
            found.append((entry.day.first, exchanged))  # the old one is a payment on the day of the bill
        wanted = entry.total - sum(amount for _, amount in found)
        keys = [("invoice", entry.facts.number.lower())] if entry.facts.number else []
        if entry.paper is not None:
            keys.append((entry.paper.kind, entry.paper.number.lower()))
        for kind, number in keys:
            for payment in self._payments(kind, number, party(entry)):
                here = min(wanted, payment.total - self.taken[id(payment)])
                if here > 0:
                    self.taken[id(payment)] += here
                    wanted -= here
                    found.append((payment.day.first, here))
        self.bills[id(entry)] = sorted(found)
        lines = [line for line in entry.lines if line.total] or [entry]
        if wanted > 0:
            for line, left in zip(lines, share(wanted, [line.total for line in lines]), strict=True):
                self.open[_key(line, entry)].append((line.source, left))

    def _payments(self, kind: str, number: str, who: str) -> list[Entry]:
        """Payments against a paper that this party may have had: its own, and those that name nobody."""
        if not who:
            return [p for (k, n, _), found in self.against.items() if (k, n) == (kind, number) for p in found]
        return [*self.against.get((kind, number, who), ()), *self.against.get((kind, number, ""), ())]

    def plain(self, entry: Entry, total: int) -> list[tuple[str, int]]:
        """Which open bills a plain payment settles, by their places, and with how much; it is theirs from now on."""
        if entry.verb not in ("paid", "received") or entry.lines:
            return []
        words = [entry.thing]
        if entry.verb == "received" and entry.thing in ("", "recharge"):
            # A recharge is paid as `received recharge`, as `received … for X`, or by its own word; it may have none.
            words = [w for w in (entry.purpose, entry.thing) if w]
            words += [""] if entry.thing or not words else []
        settled: list[tuple[str, int]] = []
        for word in words:
            bills = self.open.get((party(entry), word, entry.homes), [])
            while bills and total > 0:
                source, left = bills.pop(0)
                here = min(left, total)
                settled.append((source, here))
                total -= here
                if here < left:
                    bills.insert(0, (source, left - here))
        return settled


def _key(line: Entry, head: Entry) -> Key:
    word = line.thing or head.thing or head.purpose
    return (party(line) or party(head), word, line.homes or head.homes)


def moved_at_once(book: Book) -> Iterator[Problem]:
    """A line of money moves on its own day, and a line under a bill or a statement with its head: another day told
    there would count for nothing, and may be of another tax year. The head of an agent's statement may tell when it
    reached the owners, for the rent counts on the day on which the agent had it."""
    for head in book.entries:
        for line in (head, *head.lines):
            if line is head and (head.verb == "banked" or head.verb not in AT_ONCE):
                continue
            day = next((day for day, _ in line.facts.paid if day != head.day.first), None)
            if day is None:
                continue
            said = f"paid {day_words(day)}"
            if line is head:
                why, help = f'money that was "{line.verb}" moved on the day of its line', (
                    f"If it moved on {day_words(day)}, begin the line with that day. If it was a bill that was paid "
                    "later, write `billed` or `invoiced` in place of that verb."
                )  # fmt: skip
            else:
                why, help = "what stands under another line moves with that one", (
                    f"If this moved on {day_words(day)}, enter it by itself, on that day. Rent counts on the day on "
                    "which your agent had it: give the statement that day, or the line of rent a line of its own."
                )  # fmt: skip
            yield placed(
                "facts-at-odds", Level.ERROR, f'"{said}" does not go here: {why}, {head.day}.', line.place.within(said),
                "another day", help,
            )  # fmt: skip


# ── rulings ──────────────────────────────────────────────────────────────────────────────────────────────────────


def shared_rulings(book: Book) -> dict[str, Ruling]:
    """By the place of a line without a ruling of its own: the ruling of the bill that it pays, or of what pays it.

    They are one cost. A payment takes the ruling of the bills that all of it pays, and a bill that of what pays all of
    it, where those agree.
    """
    ruled = [entry for entry in book.entries for line in (entry, *entry.lines) if line.facts.ruling is not None]
    if not any(map(_billed_or_paid, ruled)):
        return {}
    lines = {line.source: line for entry in book.entries for line in (entry, *entry.lines)}
    gone = replaced(book)
    settling = Settling(book.entries, gone)
    pays: dict[str, list[tuple[str, int]]] = {}
    for entry in book.entries:
        if not settling.on_account(entry) and (settled := settling.plain(entry, entry.total)):
            pays[entry.source] = settled
    paid_by: dict[str, list[tuple[str, int]]] = defaultdict(list)
    for payment, settled in pays.items():
        for bill, pence in settled:
            paid_by[bill].append((payment, pence))
    return {
        place: ruling
        for place, others in (*pays.items(), *paid_by.items())
        if lines[place].facts.ruling is None and (ruling := _agreed(lines, place, others)) is not None
    }


def _billed_or_paid(entry: Entry) -> bool:
    """Whether a line may be a bill, or the payment of one: most rulings are on neither."""
    told = entry.facts
    return entry.verb in ("invoiced", "billed", "recharged", "paid", "received") or bool(
        told.paid or told.number or told.due is not None
    )


def _agreed(lines: dict[str, Entry], place: str, others: list[tuple[str, int]]) -> Ruling | None:
    """The ruling of all these lines, where they make up the whole of a line and are ruled alike."""
    rulings = [lines[other].facts.ruling for other, _ in others]
    told = {ruling.verdict for ruling in rulings if ruling is not None}
    whole = sum(pence for _, pence in others) == lines[place].total
    return rulings[0] if whole and len(told) == 1 and None not in rulings else None
