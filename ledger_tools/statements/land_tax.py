"""The tax on buying a house of the book, worked out and held against what the book says was paid.

Where the book lacks a fact the tax hangs on, every answer is given with the words that settle it. Knows no layout.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from .. import law
from ..book.world import Deal, Property
from ..days import day_words
from ..money import pounds, round_half_up
from ..record import record
from ..taxes.land.purchase import ABROAD, COMPANY, NAMES, LandTax, land_tax, may_choose, turning_days, which
from ..verdicts.catalogue import catalogue
from .accounts import Accounts
from .figures import Figure, figure, together, trace

DAY = timedelta(days=1)
LONGEST = timedelta(days=3 * 365)  # a contract seldom waits longer for its completion (common practice, no source)

TOGETHER = "Spouses, civil partners and joint buyers are looked at together."  # GOV.UK, guidance on the higher rates


@record
class Answer:
    """One answer: what was supposed where the book does not say, the words of the book that would say it, the tax."""

    supposed: tuple[str, ...]
    add: tuple[str, ...]
    tax: LandTax


@record
class PurchaseTax:
    """The tax on one purchase. answers: one where the book tells enough, several with different sums where it does
    not, none where it cannot be worked out; `notes` say why. paid: what the book tells of it, money back taken off."""

    name: str
    price: int  # of land and buildings, chattels apart
    chattels: int
    answers: tuple[Answer, ...]
    paid: Figure
    notes: tuple[str, ...]
    caution: str = ""  # what the answers rest on

    @property
    def fits(self) -> Answer | None:
        """The answer that comes to what was paid; of several the first."""
        return next((a for a in self.answers if a.tax.payable == self.paid.pence), None)


def chattels_in(got: Deal) -> int:
    """Pence of a price that were for carpets and the like: no land, so never taxed as land (FA 2003 Sch. 4 para. 4)."""
    return sum(extra.amount for extra in got.of_which if "chattel" in extra.what)


def purchase_tax(accounts: Accounts, house: str) -> PurchaseTax | None:
    """The tax on buying a house; None where it was not bought."""
    about = accounts.book.properties[house]
    got = about.got
    if got is None or got.how != "bought":
        return None
    chattels = chattels_in(got)
    price = got.amount - chattels
    paid = paid_land_tax(accounts, house)
    nation = nation_of(accounts, about)
    if not nation:
        note = "In which nation it stands is not told, and each has a tax of its own: add `nation england`, say."
        return PurchaseTax("land tax", price, chattels, (), paid, (note,))
    tax, answers = which(nation, got.day), answers_for(about, got, nation)
    if not answers:
        note = f"No rates of {NAMES[tax]} are held here for {day_words(got.day)}; what your book says was paid stands."
        return PurchaseTax(NAMES[tax], price, chattels, (), paid, (note,))
    notes = (*_differs(answers, paid), *_settle(answers, about), *_cautions(accounts, about, answers))
    return PurchaseTax(NAMES[tax], price, chattels, answers, paid, notes, _rests_on(answers[0].tax.tax, got.day))


def paid_land_tax(accounts: Accounts, house: str) -> Figure:
    """What the book says was paid of it for a house, money back taken off."""
    rows = [r for r in accounts.rows if r.house == house and r.paid and is_land_tax(accounts, r.verdict)]
    traces = (trace(r, r.pence if r.way == "out" else -r.pence, r.paid) for r in rows if r.paid)
    return figure("land_tax", "Tax on the purchase", together(traces))


def is_land_tax(accounts: Accounts, verdict: int) -> bool:
    """Whether a verdict is about the tax on a purchase, or money back of it."""
    if verdict < 0:
        return False
    line = accounts.verdicts[verdict].item.line
    said = line.purpose if line.thing in ("refund", "") and line.purpose else line.thing
    found = catalogue().find(said, line.verb)
    return found is not None and found.name == "stamp duty"


def nation_of(accounts: Accounts, about: Property) -> str:
    """The nation a house stands in, as told of it or of its council; "" where neither says."""
    council = accounts.book.councils.get(about.council)
    return about.nation or (council.nation if council else "")


# ── the answers ──────────────────────────────────────────────────────────────────────────────────────────────────


def answers_for(about: Property, got: Deal, nation: str) -> tuple[Answer, ...]:
    """Every answer for a purchase that differs in what is to pay, the likelier first; none where no rates are held."""
    try:
        return _answers(which(nation, got.day), max(got.amount - chattels_in(got), 0), about, got)
    except law.NoFigure:
        return ()


def _answers(tax: str, price: int, about: Property, got: Deal) -> tuple[Answer, ...]:
    found: list[Answer] = []
    for additional, supposed, add in _kinds(got):
        for contract, when, words in _contracts(tax, about, got, additional):
            choices = (False, True) if may_choose(tax, got.day, contract, additional) else (False,)
            for chooses in choices:
                made = land_tax(tax, price, got.day, contract, additional, chooses)
                chose = ("you chose the rates before, as an earlier contract lets you",) if chooses else ()
                found.append(Answer((*supposed, *when, *chose), (*add, *words), made))
    first: dict[int, Answer] = {}
    for answer in found:
        first.setdefault(answer.tax.payable, answer)
    return tuple(first.values())


Supposed = tuple[str, ...]


def _kinds(got: Deal) -> Iterator[tuple[bool, Supposed, Supposed]]:
    if "additional dwelling" in got.facts:
        yield True, (), ()
    elif got.facts & {"only dwelling", "main home"}:
        yield False, (), ()
    else:
        yield True, ("you owned another home at the end of that day",), (", additional dwelling",)
        yield False, ("you owned no other home, or it took the place of your main home",), (", only dwelling",)


def _contracts(tax: str, about: Property, got: Deal, additional: bool) -> Iterator[tuple[date, Supposed, Supposed]]:
    """The day of the contract; where it is not told, a day for each answer it could give, the latest first."""
    if about.exchanged is not None:
        yield about.exchanged, (), ()
        return
    turns = [day for day in turning_days(tax, got.day, additional) if day > got.day - LONGEST]
    if not turns:
        yield got.day, (), ()
        return
    missives = "missives were concluded" if tax == "lbtt" else "contracts were exchanged"
    yield got.day, (f"{missives} on or after {day_words(turns[0])}",), ("exchanged DAY",)
    for day in turns:
        yield day - DAY, (f"{missives} before {day_words(day)}",), ("exchanged DAY",)


# ── what to say of it ────────────────────────────────────────────────────────────────────────────────────────────


def _differs(answers: tuple[Answer, ...], paid: Figure) -> Iterator[str]:
    if not paid.trail:
        yield "Your book tells of no such tax paid: add a line `paid stamp duty £…` with its day, if any was."
        return
    if any(a.tax.payable == paid.pence for a in answers):
        return
    for a in answers:
        gap = paid.pence - a.tax.payable
        more = "more" if gap > 0 else "less"
        said = f" if {', and '.join(a.supposed)}" if a.supposed else ""
        yield (
            f"Your book says {pounds(paid.pence)} was paid, which is {pounds(abs(gap))} {more} than "
            f"the {pounds(a.tax.payable)} worked out here{said} (unrounded {pounds(round_half_up(a.tax.exact))})."
        )
    yield (
        "Such a gap may come from chattels in the price (`of which chattels £…`), a relief, several homes bought "
        "together, or a sum paid for something else. Your conveyancer's return is the figure to enter."
    )


def _settle(answers: tuple[Answer, ...], about: Property) -> Iterator[str]:
    if len(answers) < 2:
        return
    facts = [word for word in dict.fromkeys(w for a in answers for w in a.add)]
    deal = " or ".join(f"`{word}`" for word in facts if word.startswith(","))
    if deal:
        yield f"To settle it, add {deal} to the line `bought …` of {about.name}. " + TOGETHER
    if "exchanged DAY" in facts:
        yield f"To settle it, add `exchanged` and the day of the contract under property {about.name}."


def _cautions(accounts: Accounts, about: Property, answers: tuple[Answer, ...]) -> Iterator[str]:
    got = about.got
    assert got is not None
    for other in accounts.book.properties.values():
        if other.name != about.name and other.got and other.got.how == "bought" and other.got.day == got.day:
            yield (
                f"{other.full} was bought on the same day. Homes bought together from one seller are taxed together, "
                "which is not worked out here; the answer holds only if they were not."
            )
    caution = answers[0].tax.caution
    if caution:
        yield f"The rates behind it: {caution}."


def _rests_on(tax: str, day: date) -> str:
    return (
        f"The {NAMES[tax]} is an estimate for people who live in the United Kingdom and buy one home that is not a new "
        f"lease at a rent.{_others(tax, day)} What takes the protection of an earlier contract away again, such as a "
        "change of it, is not asked here. Your conveyancer's return is the figure to enter."
    )


def _others(tax: str, day: date) -> str:
    """What others pay, where that is held."""
    if tax != "sdlt":
        return ""
    try:
        more, flat = (law.figure(topic, day).value for topic in (ABROAD, COMPANY))
        floor = law.figure(f"{COMPANY}_floor", day).pence
    except law.NoFigure:
        return ""
    return (
        f" Who lives abroad pays {more * 100:.0f}% more on every slice; a company may pay {flat * 100:.0f}% of a price "
        f"above {pounds(floor)}."
    )
