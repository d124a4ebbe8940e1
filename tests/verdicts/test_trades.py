"""The order of trades as data: names are of the catalogue, every entry has a source, and jobs find their step."""

from __future__ import annotations

import pytest

from ledger_tools.language.grammar import words
from ledger_tools.verdicts.catalogue import catalogue
from ledger_tools.verdicts.cautions import cautions
from ledger_tools.verdicts.trades import ahead, asked_early, cautions_of, holds, step_of, steps

NAMES = {thing.name for thing in catalogue().things}
NATURES = {thing.nature for thing in catalogue().things}
VERBS = set(words().says["TODO_VERB"])


@pytest.mark.parametrize("entry", [*steps(), *ahead()], ids=lambda e: getattr(e, "name", "") or e.who)
def test_an_entry_names_what_there_is_and_its_source(entry) -> None:
    assert entry.things <= NAMES
    assert entry.verbs <= VERBS
    assert getattr(entry, "natures", frozenset()) <= NATURES
    assert entry.source and entry.says.endswith(".")


def test_a_thing_and_a_verb_have_one_step() -> None:
    for kind in ("verbs", "things", "natures"):
        named = [name for step in steps() for name in getattr(step, kind)]
        assert len(named) == len(set(named)), kind


def test_hold_points_stand_between_steps() -> None:
    order = [step.name for step in steps()]
    for hold in holds():
        assert hold.after in order
        assert not hold.before or order.index(hold.before) > order.index(hold.after)


@pytest.mark.parametrize(
    "verb, thing, step",
    [
        ("inspect", "drains", "look first"), ("remove", "boiler", "strip out"),
        ("replace", "roof", "structure and weather"), ("treat", "dry rot", "structure and weather"),
        ("replace", "wiring", "first fix"), ("repair", "plaster", "plaster"), ("replace", "boiler", "second fix"),
        ("decorate", "walls", "tile and decorate"), ("replace", "carpet", "floors"),
        ("install", "fridge", "loose things"), ("certify", "gas safety", "tests and cleaning"),
        ("install", "hedge", None),
    ],
)  # fmt: skip
def test_jobs_find_their_step(verb: str, thing: str, step: str | None) -> None:
    found = step_of(verb, catalogue().meanings(thing))

    assert (found.name if found else None) == step


def test_the_order_is_the_customary_one() -> None:
    """Strip-out, structure, first fix, plaster, second fix, decoration, floors, tests: as the guides agree."""
    jobs = [("remove", "units"), ("replace", "roof"), ("replace", "wiring"), ("repair", "plaster"),
            ("replace", "radiators"), ("decorate", "walls"), ("replace", "carpet"), ("clean", "floors")]  # fmt: skip
    numbers = [found.number for verb, thing in jobs if (found := step_of(verb, catalogue().meanings(thing)))]

    assert len(numbers) == len(jobs)
    assert numbers == sorted(set(numbers))


def test_whom_to_ask_early() -> None:
    assert [a.who for a in asked_early("replace", catalogue().meanings("windows"))] == ["window maker"]
    assert [a.who for a in asked_early("convert", catalogue().meanings("loft"))] == ["building control"]
    assert asked_early("decorate", catalogue().meanings("lounge")) == ()


@pytest.mark.parametrize(
    "verb, thing, names",
    [("replace", "boiler", ("gas",)), ("convert", "bedroom", ("structure",)), ("decorate", "walls", ()),
     ("remove", "wall", ("structure",)), ("replace", "gutters", ("height",)), ("keep", "sofa", ())],
)  # fmt: skip
def test_cautions_by_what_is_done_to_what(verb: str, thing: str, names: tuple[str, ...]) -> None:
    found = cautions_of(verb, catalogue().meanings(thing))

    assert found == names
    assert set(found) <= set(cautions())
