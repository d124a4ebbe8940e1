"""What several open works of a house hang on, asked once: what its price was cut for, in what state it was got.

Finds the question, whom it concerns and the line of the house's block that answers it. Decides nothing.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence

from ..book.world import Property
from ..record import record
from .declared import parts_of
from .history import History
from .papers import price_faults, state_faults
from .verdict import Confidence, Verdict

FOR_WHAT = frozenset({"price-cut-for-disrepair", "facts-disagree"})
WHAT_KEPT_IT = frozenset({"not-usable-as-bought", "usable-for-a-while-only"})
STATE = ("as bought", "price ")
NOT_TOLD = {"state-not-told": STATE, "price-not-told": STATE, "no-price-paid": STATE, "void": ("marketed",)}


@record
class HouseQuestion:
    """One question about a house, with the open verdicts that hang on it, by their numbers.

    lines: what to write under its heading, each another answer; leave_out: whether the first, beside what stands
    there, names everything in doubt, so that what it does not hold for is to be left out of it. settles: whether what
    is left out is then judged by itself; else the price is asked of next. answers: those of most
    of them, in words; ask: what may be added to any of their lines. named: what another line of the block names as
    wrong, which is part of what the house cost whatever the first of these lines says.
    """

    house: str
    full: str
    rule: str
    asks: str
    lines: tuple[str, ...]
    numbers: tuple[int, ...]
    leave_out: bool
    answers: tuple[str, ...]
    ask: tuple[str, ...]
    settles: bool = True
    named: tuple[str, ...] = ()


def house_questions(history: History, verdicts: Sequence[Verdict]) -> tuple[HouseQuestion, ...]:
    """The questions on which two or more open works of a house hang, in the order of its lines."""
    hang: dict[tuple[str, str], list[int]] = defaultdict(list)
    for number, verdict in enumerate(verdicts):
        homes = verdict.item.line.homes
        if verdict.arguable and len(homes) == 1 and homes[0].house in history.book.properties:
            for slug in _open_for(history, verdict, homes[0].house):
                hang[homes[0].house, slug].append(number)
    return tuple(
        _question(history, history.book.properties[house], slug, numbers, verdicts)
        for (house, slug), numbers in hang.items()
        if len(numbers) > 1
    )


def _open_for(history: History, verdict: Verdict, house: str) -> Iterable[str]:
    """The rule about the house that left it open, where a line of its block settles that."""
    for fired in verdict.path:
        if not fired.decided or fired.confidence is not Confidence.ARGUABLE:
            continue
        first = history.lets.first_let(house)
        fresh = first is None or verdict.item.line.day.first <= first
        told_by = NOT_TOLD.get(fired.slug, ())
        asked = any(words.startswith(told_by) for words in verdict.ask)
        if fired.slug in FOR_WHAT | WHAT_KEPT_IT and fresh or asked:
            yield fired.slug


def _question(
    history: History, house: Property, slug: str, numbers: Sequence[int], verdicts: Sequence[Verdict]
) -> HouseQuestion:
    hang = [verdicts[n] for n in numbers]
    state, price = state_faults(history, house), price_faults(history, house)
    if slug in FOR_WHAT:
        line = f"price reduced owing only to {_named(history, price or state, hang)}"
        uncut = ("price normal",) if slug == "facts-disagree" and not price else ()  # a cut for something named is one
        asks, lines = _cut_for(house, price, state, slug), (line, *uncut)
    elif slug in WHAT_KEPT_IT:
        line = f"as bought {house.as_bought} owing only to {_named(history, state, hang)}"
        asks, lines = _kept(house, state), (line,)
    else:
        asked = (words for verdict in hang for words in verdict.ask if words.startswith(NOT_TOLD[slug]))
        asks, lines = _not_told(slug, house), tuple(dict.fromkeys(asked))
    [(answers, _)] = Counter(verdict.answers for verdict in hang).most_common(1)
    ask = tuple(words for words in hang[0].ask if all(words in verdict.ask for verdict in hang))
    settles = slug in FOR_WHAT or house.price != "reduced"
    named = state if slug in FOR_WHAT else price if slug in WHAT_KEPT_IT else ()
    return HouseQuestion(
        house.name, house.full, slug, asks, lines, tuple(numbers), slug not in NOT_TOLD, answers, ask, settles, named
    )


def _cut_for(house: Property, price: Sequence[str], state: Sequence[str], slug: str) -> str:
    if price:
        return f"By your book the price was cut for {_listed(price)}. Was it cut for these works too?"
    if slug == "facts-disagree":
        return (
            "It could be let as bought, yet the price was cut for its state. Was it cut for these works, or did it "
            "only allow for age?"
        )
    unfit = house.as_bought == "not lettable"
    held = "kept the house from being let" if unfit else "letting would have had to stop for"
    kept = f"; what {held} was, by your book, {_listed(state)}" if state else ""
    return f"The price was cut, and your book does not say for what{kept}. Was it cut for these works too?"


def _kept(house: Property, state: Sequence[str]) -> str:
    if house.as_bought == "not lettable":
        return (
            f"By your book the house could not be let as bought owing to {_listed(state)}. Would these works alone "
            "have kept it from being let too?"
        )
    if not state:
        return (
            "It could be let for a while as bought, and your book does not say what letting would have had to stop "
            "for. Was it these works?"
        )
    return (
        f"By your book letting would have had to stop for {_listed(state)}. Would it have had to stop for these "
        "works too?"
    )


def _not_told(slug: str, house: Property) -> str:
    if slug == "void":
        return "It is empty since its last let, and your book does not say that it is still meant for letting."
    if slug == "price-not-told" and house.got and house.got.how != "bought":
        return "It could be let as it came to you; your book does not say whether its value was cut for its state."
    if slug == "price-not-told":
        return "It could be let as bought, and your book does not say whether the price was cut for its state."
    if slug == "no-price-paid":
        return "It came to you without a price, and your book does not say whether it could be let as it stood."
    return "Your book does not say in what state, or at what price, the house was bought."


def _named(history: History, faults: Sequence[str], hang: Iterable[Verdict]) -> str:
    """What the line is to name: what the papers name, then the works in doubt; parts of a whole that is named go
    without saying."""
    names = list(faults)
    for verdict in hang:
        line = verdict.item.line
        key = history.key(line.thing, line.verb)
        names.append(key if history.key(key) == key else line.thing)
    keys = {name: history.key(name) for name in dict.fromkeys(names)}
    wholes = set(keys.values())
    return " and ".join(
        name for name, key in keys.items() if not any(key in parts_of({whole}) for whole in wholes - {key})
    )


def _listed(names: Sequence[str]) -> str:
    *most, last = names
    return f"{', '.join(most)} and {last}" if most else last
