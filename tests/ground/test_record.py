"""Records behave as data classes do: equal and hashed by what they hold, shown by it, and made quickly."""

from __future__ import annotations

from dataclasses import field, replace
from fractions import Fraction

import pytest

from ledger_tools.record import Word, record


@record
class Sum:
    pence: int
    place: str = field(default="", compare=False)
    kept: dict[str, int] = field(init=False, repr=False, compare=False, default_factory=dict)

    @property
    def pounds(self) -> Fraction:
        return Fraction(self.pence, 100)


@record
class One:
    word: str


@record
class Other:
    word: str


@record
class Named:
    word: str

    def __eq__(self, other: object) -> bool:
        return True

    def __repr__(self) -> str:
        return "named"


@record
class Empty:
    pass


def test_records_are_equal_by_what_they_hold_but_for_what_is_no_part_of_it() -> None:
    assert Sum(5, "here") == Sum(5, "there")
    assert Sum(5) != Sum(6)
    assert hash(Sum(5, "here")) == hash(Sum(5, "there"))
    assert {Sum(5): "a"}[Sum(5, "else")] == "a"
    assert Sum(5).pounds == Fraction(1, 20)


def test_records_of_other_classes_are_other_records() -> None:
    assert One("a") != Other("a")
    assert One("a") != "a"
    assert Empty() == Empty()
    assert hash(Empty()) == hash(Empty())


def test_a_record_shows_what_it_holds() -> None:
    assert repr(Sum(5, "here")) == "Sum(pence=5, place='here')"


def test_what_a_class_says_itself_stands() -> None:
    assert Named("a") == Named("b")
    assert repr(Named("a")) == "named"


def test_a_record_can_be_made_again_with_something_else() -> None:
    first = Sum(5, "here")
    first.kept["a"] = 1

    assert replace(first, pence=6) == Sum(6)
    assert replace(first, pence=6).place == "here"
    assert replace(first, pence=6).kept == {}


def test_a_record_has_no_room_for_more() -> None:
    with pytest.raises(AttributeError):
        One("a").more = 1  # type: ignore[attr-defined]


def test_a_word_is_found_as_its_text() -> None:
    class Colour(Word):
        RED = "red"

    assert Colour.RED in frozenset({"red"})
    assert hash(Colour.RED) == hash("red")
    assert {Colour.RED: 1}["red"] == 1
