"""Near names: what a slip of the keys may have meant."""

from __future__ import annotations

import pytest

from ledger_tools.language.near import nearest, split_fact, split_little
from ledger_tools.spelling import distance

THINGS = {"boiler", "back door", "walk in wardrobe", "inn sign"}


@pytest.mark.parametrize(
    "one, other, slips",
    [("boiler", "boiler", 0), ("repalced", "replaced", 1), ("boler", "boiler", 1), ("boilers", "boiler", 1),
     ("biolre", "boiler", 2), ("", "in", 2), ("form", "from", 1)],
)  # fmt: skip
def test_distance(one, other, slips) -> None:
    assert distance(one, other) == distance(other, one) == slips


@pytest.mark.parametrize(
    "typed, found",
    [("modern equivelant", ["modern equivalent"]), ("likeforlike", ["like for like"]), ("broke", ["broken"]),
     ("labour", ["own labour"]), ("damage", ["fire damage", "storm damage", "water damage"]), ("zebra", []), ("x", [])],
)  # fmt: skip
def test_nearest(typed, found) -> None:
    facts = ["modern equivalent", "like for like", "broken", "own labour", "storm damage", "fire damage",
             "water damage", "tenant damage", "in"]  # fmt: skip
    near = nearest(typed.split(), facts)
    assert sorted(n.word for n in near) == found
    assert len(near) <= 3


def test_the_nearest_stand_alone_before_those_further_off_and_the_longer_first() -> None:
    """A letter is left out more often than one too many is typed."""
    assert [n.word for n in nearest(["repaird"], ["repaid", "repaired", "replaced"])] == ["repaired", "repaid"]
    assert [n.word for n in nearest(["repalced"], ["replaced", "repaired"])] == ["replaced"]


def test_near_tells_how_many_words_it_stands_for() -> None:
    (near,) = nearest(["strom", "damage", "by", "volt"], ["storm damage"])
    assert (near.word, near.taken) == ("storm damage", 2)


@pytest.mark.parametrize(
    "words, line",
    [("boiler inn kitchen", "boiler in kitchen"), ("back door form volt", "back door from volt"),
     ("Boiler bye larkin", "boiler by larkin")],
)  # fmt: skip
def test_a_misspelt_little_word_is_found(words, line) -> None:
    slip = split_little(words, THINGS)
    assert slip is not None and slip.line == line


@pytest.mark.parametrize("words", ["boiler", "kitchen inn boiler", "boiler flue", "inn sign", "boiler bn sink"])
def test_other_words_are_no_slip(words) -> None:
    assert split_little(words, THINGS) is None


def test_a_fact_without_its_comma_is_found() -> None:
    slip = split_fact("back door broken", THINGS, {"broken", "loose"})
    assert slip is not None and slip.line == "back door, broken"
    assert split_fact("back door hinge", THINGS, {"broken"}) is None
    assert split_fact("pane broken", THINGS, {"broken"}) is None
