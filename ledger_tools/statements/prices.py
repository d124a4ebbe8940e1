"""What one job was to cost, was agreed at and came to be: the history of its prices as its dated lines tell it.

An estimate binds nobody; a quote is a price once it is agreed; a change goes on top of the quote it names. Knows no
bills and no layout.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ..book.entries import Entry
from ..book.items import same_party
from ..record import record
from .jobs import Job


@dataclass(slots=True)
class Offer:
    """A price of somebody's, in pence: an estimate, a quote, or goods ordered."""

    entry: Entry
    amount: int
    agreed: bool = False
    cancelled: bool = False
    changes: int = 0


@record
class Prices:
    """The prices of a job in pence, None where none is told.

    rough: the first figure of the schedule; estimate and quote: the latest that stand (of quotes agreed, all of them);
    agreed: what was agreed before changes; varied: the changes to it. guess: whether a sum in it is provisional.
    """

    rough: int | None
    estimate: int | None
    quote: int | None
    agreed: int | None
    varied: int
    called_off: bool
    guess: bool

    @property
    def committed(self) -> int | None:
        """What was agreed with its changes."""
        return None if self.agreed is None else self.agreed + self.varied

    @property
    def best(self) -> tuple[int, str]:
        """The best figure there is before any bill, and what it is."""
        told = ((self.committed, "agreed"), (self.quote, "quoted"), (self.estimate, "estimated"), (self.rough, "rough"))
        return next(((pence, word) for pence, word in told if pence is not None), (0, "no figure told"))


def prices(job: Job) -> Prices:
    """The prices of a job as its lines tell them."""
    offers: list[Offer] = []
    called_off = False
    for event in job.lines:
        line = event.entry
        if line.kind != "plan" or not event.counts:
            continue
        if line.verb in ("estimated", "quoted", "ordered") and line.amount is not None:
            offers.append(Offer(line, line.total, agreed=line.verb == "ordered"))
        elif line.verb == "agreed":
            _agree(offers, line)
        elif line.verb == "varied":
            _vary(offers, line)
        elif line.verb == "cancelled":
            meant = [_meant(offers, line)] if line.paper else offers
            for offer in meant:
                if offer:
                    offer.cancelled = True
            called_off = line.paper is None
        called_off = called_off and line.verb == "cancelled"
    return _sums(job, offers, called_off)


def _agree(offers: list[Offer], line: Entry) -> None:
    found = _meant(offers, line)
    if found and (line.amount is None or line.amount == found.amount):
        found.agreed = True
    elif line.amount is not None:
        offers.append(Offer(line, line.total, agreed=True))


def _vary(offers: list[Offer], line: Entry) -> None:
    found = _meant(offers, line)
    if found and line.amount is not None:
        found.changes += -line.total if line.change == "less" else line.total


def _meant(offers: Iterable[Offer], line: Entry) -> Offer | None:
    """The offer a line is about: by the number of its paper, else the latest of that party."""
    open_ = [offer for offer in offers if same_party(offer.entry, line) and not offer.cancelled]
    if line.paper:
        number = line.paper.number.lower()
        open_ = [offer for offer in open_ if offer.entry.facts.number.lower() == number]
    return open_[-1] if open_ else None


def _sums(job: Job, offers: list[Offer], called_off: bool) -> Prices:
    standing = [offer for offer in offers if not offer.cancelled]
    agreed = [offer for offer in standing if offer.agreed]
    quoted = [offer for offer in standing if offer.entry.verb != "estimated"]
    guesses = [offer for offer in standing if offer.entry.verb == "estimated"]
    open_quote = quoted[-1].amount + quoted[-1].changes if quoted else None
    quote = sum(offer.amount for offer in agreed) if agreed else open_quote
    provisional = job.todo is not None and "provisional" in job.todo.facts
    return Prices(
        job.todo.amount if job.todo else None,
        guesses[-1].amount if guesses else None,
        quote,
        sum(offer.amount for offer in agreed) if agreed else None,
        sum(offer.changes for offer in agreed),
        called_off,
        any(offer.entry.facts.provisional for offer in agreed or standing) or provisional and not agreed,
    )
