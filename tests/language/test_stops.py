"""Every place where a line can stop has words, and every word of the tables has its place."""

from __future__ import annotations

import re

import pytest

from ledger_tools.language.grammar import words
from ledger_tools.language.mistakes.tables import (
    PARTICIPLES,
    PLACES,
    SIGNS,
    TURNS,
    VERB_TURNS,
    by_place,
    homes,
    next_words,
    stops,
)
from ledger_tools.language.reading import read
from ledger_tools.language.spot import VERBS, accepts_at, lead, stop_at
from tests.language.walk import DEEP, reachable

# Words of the machinery, of which a landlord has never heard.
NEVER = re.compile(r"terminal|token|pars|syntax|expected|illegal|invalid|grammar|statement|clauses? of", re.I)


def test_every_place_has_words() -> None:
    without = [" ".join(path) for accepts, path in reachable().items() if next_words(accepts, "any") is None]
    assert without == []


def test_looking_deeper_finds_no_other_places() -> None:
    assert set(reachable(DEEP + 1)) == set(reachable())


@pytest.mark.parametrize("entry", stops(), ids=lambda entry: entry.after[-40:] or "start")
def test_an_entry_reaches_its_place_and_is_used_there(entry) -> None:
    stop = stop_at(entry.after)
    assert stop is not None, "the text does not read so far"
    assert stop.accepts in reachable()
    last = stop.before[-1].type if stop.before else ""
    assert by_place()[stop.accepts, last, lead(stop)] is entry, "another entry speaks for the same place"


@pytest.mark.parametrize("entry", stops(), ids=lambda entry: entry.after[-40:] or "start")
def test_an_entry_goes_on_as_it_says(entry) -> None:
    assert entry.like.startswith(entry.after)
    assert read(entry.like).stop is None


@pytest.mark.parametrize("entry", stops(), ids=lambda entry: entry.after[-40:] or "start")
def test_a_sentence_is_plain_and_short(entry) -> None:
    assert re.fullmatch(r"[A-Z].*[.…]", entry.say, re.S)
    assert len(entry.say) <= 190
    assert entry.say.count(",") <= 8, "a list too long to read"
    assert not NEVER.search(entry.say)
    assert not re.search(r"\b[A-Z]{2,}\b|_", entry.say.replace("EUR", "")), "the name of a terminal"


def test_the_words_before_choose_the_entry() -> None:
    """One set of what could come is said differently behind different words."""
    house, loan = stop_at("at"), stop_at("loan")
    assert house is not None and loan is not None and house.accepts == loan.accepts
    said = [next_words(stop.accepts, stop.before[-1].type, lead(stop)) for stop in (house, loan)]
    assert said[0] is not None and "house" in said[0].say
    assert said[1] is not None and "loan" in said[1].say


@pytest.mark.parametrize("after, called", PLACES)
def test_a_place_that_words_belong_to_is_reached(after, called) -> None:
    assert accepts_at(after) in reachable()
    assert re.match(r"(on|under|behind) ", called)


def test_every_fact_and_field_has_a_home() -> None:
    """Whatever may begin a line or follow a comma has a home, so that it can be sent there when it stands elsewhere."""
    values = {"AMOUNT", "DATE", "MONTH", "STRING", "NUMBER", "PERCENT", "WORDS", "NAME", "$END"}
    begun = {
        name
        for accepts, path in reachable().items()
        if path and path[-1] in ("_NL", "_COMMA")
        for name in accepts - values
        if name in words().says
    }
    assert len(begun) > 60
    assert {name for name in begun if not homes(name)} <= {"SENT", "BAND"}  # each in one fixed place


@pytest.mark.parametrize("turn", VERB_TURNS, ids=lambda turn: turn.typed[0])
def test_a_trade_verb_turns_into_a_line_that_reads(turn) -> None:
    assert bool(turn.write) != bool(turn.say)
    known = {verb for name in VERBS for verb in words().says[name]}
    assert not set(turn.typed) & (known - {"spent", "charged"})
    if turn.write.startswith(("told", "drove")):
        assert turn.write.split()[0] in known
    elif turn.write:
        assert read(f"9 Jun 2025 {turn.write.format('hall')} £90.00").stop is None


@pytest.mark.parametrize("turn", TURNS, ids=lambda turn: turn.write)
def test_a_turn_writes_words_of_the_book(turn) -> None:
    known = {word for held in words().says.values() for word in held}
    assert turn.write in known or all(part in known for part in turn.write.split())


def test_signs_and_participles_are_told_once() -> None:
    signs = "".join(row.signs for row in SIGNS)
    assert len(signs) == len(set(signs))
    assert SIGNS[-1].signs == "", "the last row speaks for every other sign"
    assert set(PARTICIPLES) <= {verb for name in VERBS for verb in words().says[name]}
