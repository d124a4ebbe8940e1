"""The facts of a house on which answers about it rest, each with the lines that tell it and the papers they name.

How and when it was got, whose it is and whose income, its state and price, who lived there and when it was let. Says
what the book does not tell too, where an answer may hang on it. Knows nothing of layout.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from fractions import Fraction

from ..book.entries import Thing
from ..book.world import Book, Deal, OwingTo, Property, Tenancy
from ..days import day_before, day_words
from ..money import pounds
from ..record import record
from .accounts import Accounts
from .passings import percent

LIVED = ("own home", "lived in")
FOR_LETTING = ("marketed", "marketed to let", "marketed for sale", "needs works", "works")


@record
class HouseFact:
    """One fact: what it is about in a word or two, the fact in words, and the place of its line, "" where none is."""

    about: str
    words: str
    source: str = ""


def house_facts(accounts: Accounts, house: Property) -> tuple[HouseFact, ...]:
    """The facts of a house in the order in which they came about."""
    return tuple(_facts(accounts, house))


def _facts(accounts: Accounts, house: Property) -> Iterator[HouseFact]:
    yield from _got(house)
    yield from _whose(accounts, house)
    cut = f" by {pounds(house.price_cut)}" if house.price_cut else ""
    yield from _told(house, "as bought", house.as_bought, house.as_bought_told)
    yield from _told(house, "price", house.price, house.price_told, cut) if paid_for(house) else _worth(house, cut)
    yield from _lease(house)
    if house.left_by_seller:
        papers = (said for thing in house.left_by_seller for said in house.left_says.get(thing.name, ()))
        yield HouseFact("left there", f"{_named(house.left_by_seller)}{_says(papers)}", _place(house, "leftovers"))
    yield from _spells(house, "lived in", LIVED)
    if house.empty_since:
        words = f"empty since {day_words(house.empty_since)}{_says(house.empty_says)}"
        yield HouseFact("meanwhile", words, _place(house, "empty_since"))
    yield from _spells(house, "meanwhile", FOR_LETTING)
    yield from _lets(accounts, house)
    if house.sold:
        yield HouseFact("sold", _deal(house.sold).removeprefix("sold "), house.sold.place.short)
    for proof in house.proofs:
        yield HouseFact("papers", f"{proof.kind} {proof.file}", proof.place.short)


def _got(house: Property) -> Iterator[HouseFact]:
    if house.got is None:
        yield HouseFact("got", "your book does not say how and when")
    else:
        yield HouseFact("got", _deal(house.got), house.got.place.short)


def _deal(deal: Deal) -> str:
    price = f"{'for' if deal.how in ('bought', 'sold') else 'at'} {pounds(deal.amount)}"
    parts = (f"of which {extra.what} {pounds(extra.amount)}" for extra in deal.of_which)
    return ", ".join((f"{deal.how} {day_words(deal.day)} {price}", *sorted(deal.facts), *parts)) + _says(deal.says)


# ── whose ────────────────────────────────────────────────────────────────────────────────────────────────────────


def _whose(accounts: Accounts, house: Property) -> Iterator[HouseFact]:
    """Who owns it, by the lines that say so, and whose income it is where that is not the same."""
    book = accounts.book
    for told in house.owners:
        since = f" from {day_words(told.since)}" if told.since else ""
        yield HouseFact("owned by", f"{_shares(book, told.shares)}{since}{_says(told.says)}", told.place.short)
    if not house.owners:
        alone = book.owners_on(house.name, house.got.day if house.got else date.min)
        yield HouseFact("owned by", _shares(book, alone) if alone else "your book does not say whom")
    for signed, sent in house.form_17:
        yield HouseFact("form 17", f"signed {day_words(signed)}, sent {day_words(sent)}", _place(house, "form_17"))
    yield from _taxed(accounts, house)


def _taxed(accounts: Accounts, house: Property) -> Iterator[HouseFact]:
    """From which days income tax shares the income in another way than the house is owned (ITA 2007 ss. 836, 837)."""
    first = house.got.day if house.got else date.min
    changes = {day for day in accounts.share_changes(house.name) if day > first}
    changes |= {told.since for told in house.owners if told.since and told.since > first}
    days = [first, *sorted(changes)]
    for day, following in zip(days, [*days[1:], None], strict=True):
        taxed = accounts.shares(house.name, day)
        if dict(taxed) != dict(accounts.book.owners_on(house.name, day)):
            since = f" from {day_words(day)}" if day > first else ""
            until = f" to {day_words(day_before(following))}" if following else ""
            words = f"{_shares(accounts.book, taxed)}{since}{until}, as spouses share alike while no Form 17 holds"
            yield HouseFact("taxed on", f"{words} (ITA 2007 ss. 836, 837)")


def _shares(book: Book, shares: Iterable[tuple[str, Fraction]]) -> str:
    people = book.landlords
    return " and ".join(f"{people[name].full if name in people else name} {percent(part)}" for name, part in shares)


# ── in what state, at what price, on what terms ──────────────────────────────────────────────────────────────────


def _told(house: Property, about: str, word: str, lines: tuple[OwingTo, ...], more: str = "") -> Iterator[HouseFact]:
    """Each line about it; `more` is what the first of them says besides."""
    if not lines and house.got is not None:
        untold = "whether it was cut for the state of the house, your book does not say"
        yield HouseFact(about, untold if about == "price" else "your book does not say")
    for number, line in enumerate(lines):
        owing = f" owing {'only ' * line.only}to {_named(line.faults)}" if line.faults else ""
        why = "".join(f', because "{reason}"' for reason in line.because)
        papers = _says(line.says) or "; the book names no paper"
        words = f"{word}{'' if number else more}{owing}{why}{papers}"
        yield HouseFact(about, words, line.place.short if line.place else "")


def paid_for(house: Property) -> bool:
    """Whether a price was paid for a house, as far as the book tells."""
    return house.got is None or house.got.how == "bought"


def _worth(house: Property, cut: str) -> Iterator[HouseFact]:
    """The same of a house that came free: it has no price, but its value may have been cut for its state."""
    for fact in _told(house, "value", house.price, house.price_told, cut):
        words = fact.words if fact.source else "whether it was cut for the state of the house, your book does not say"
        if not fact.source and house.got is not None and house.got.says:
            words += f"; beside the value stands {' and '.join(_quoted(house.got.says))}"
        yield HouseFact("value", words, fact.source)


def _lease(house: Property) -> Iterator[HouseFact]:
    if house.leasehold:
        span, since = house.leasehold
        terms = ", to be put right" if house.put_right else ""
        words = f"{span.number} {span.unit}{'s' * (span.number != 1)} from {day_words(since)}{terms}"
        yield HouseFact("leasehold", words, _place(house, "leasehold"))


# ── who lived there ──────────────────────────────────────────────────────────────────────────────────────────────


def _spells(house: Property, about: str, states: tuple[str, ...]) -> Iterator[HouseFact]:
    for spell in house.spells:
        if spell.state in states:
            until = f" to {day_words(spell.until)}" if spell.until else ""
            words = f"{spell.state} from {day_words(spell.since)}{until}{_says(spell.says)}"
            yield HouseFact(about, words, spell.place.short)


def _lets(accounts: Accounts, house: Property) -> Iterator[HouseFact]:
    """The day from which letting is counted, where that is not the first of a tenancy; then the lets by their days."""
    lets = sorted(
        ((let.first_day, let) for let in accounts.book.lets_of(house.name) if let.first_day), key=lambda told: told[0]
    )
    first = accounts.history.lets.first_let(house.name)
    earlier = first is not None and not any(day == first for day, _ in lets)
    if first is None and not lets:
        yield HouseFact("let", "your book tells of no let")
    if first is not None and earlier:
        words = f"counted from {day_words(first)}, which is no first day of a tenancy in your book"
        yield HouseFact("first let", words)
    returned = accounts.history.lets.first_return(house.name)
    if returned and (first is None or returned.period.last < first):
        earlier = True
        by = day_words(returned.period.last)
        words = f"had begun by {by}, as the return for {returned} took a cost of this house off"
        yield HouseFact("letting", words, _returned(accounts, house))
    for number, (day, let) in enumerate(lets):
        yield HouseFact("let" if number or earlier else "first let", _let(house, let, day), let.place.short)


def _returned(accounts: Accounts, house: Property) -> str:
    """The place of the first line of a house that came off a return."""
    lines = (v.item.line for v in accounts.verdicts if any(home.house == house.name for home in v.item.line.homes))
    told = [(year.period.last, line.place.short) for line in lines if (year := line.facts.returned)]
    return min(told)[1] if told else ""


def _let(house: Property, let: Tenancy, first: date) -> str:
    until = f" to {day_words(let.last_day)}" if let.last_day else ""
    room = f", {let.room}" if let.room else ""
    got = house.got.day if house.got else None
    came = f"; yours from {day_words(got)}" if got and first < got else ""
    return f"{let.name} from {day_words(first)}{until}{room}{came}"


# ── words ────────────────────────────────────────────────────────────────────────────────────────────────────────


def _named(things: Iterable[Thing]) -> str:
    return " and ".join(dict.fromkeys(thing.name for thing in things))


def _says(papers: Iterable[str]) -> str:
    quoted = _quoted(papers)
    return f", says {' and '.join(quoted)}" if quoted else ""


def _quoted(papers: Iterable[str]) -> list[str]:
    return [f'"{said}"' for said in dict.fromkeys(papers)]


def _place(house: Property, field: str) -> str:
    return house.places[field].short if field in house.places else house.place.short
