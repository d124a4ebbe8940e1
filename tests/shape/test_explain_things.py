"""Every thing has a page: its example reads, and what the page says is what the rules find for the example."""

from __future__ import annotations

import tomllib
from importlib.resources import files

import pytest
from click.testing import CliRunner

from ledger_tools import explain
from ledger_tools.commands import cli
from ledger_tools.explain import things
from ledger_tools.language.blocks import cut, plain
from ledger_tools.language.reading import read
from ledger_tools.verdicts.catalogue import Thing, catalogue
from ledger_tools.verdicts.cautions import caution
from ledger_tools.verdicts.registry import all_rules
from ledger_tools.verdicts.verdict import Kind
from tests.verdicts.books import last

ALL = catalogue().things
SAID = tomllib.loads((files("ledger_tools") / "explain" / "things.toml").read_text(encoding="utf-8"))
NO_RELIEF = "nothing comes off, now or later"
KINDS = {
    "rev": Kind.REPAIR,
    "dom": Kind.DOMESTIC,
    "run": Kind.RUNNING,
    "cap": Kind.IMPROVEMENT,
    "cnr": Kind.NO_RELIEF,
}


def names(found: tuple[Thing, ...]) -> list[str]:
    return [thing.name for thing in found]


def test_every_nature_every_usual_answer_and_every_kind_has_its_words() -> None:
    assert {thing.nature for thing in ALL if thing.nature} == set(SAID["nature"])
    assert {word for thing in ALL for word in (thing.again, thing.first) if word} == set(SAID["usual"])
    assert {thing.kind for thing in ALL if thing.kind} == set(SAID["kind"]) == set(things.MONEY)


def test_every_rule_named_is_a_rule() -> None:
    named = {slug for nature in SAID["nature"].values() for slug in nature["rules"]}
    assert named <= {rule.slug for rule in all_rules()}
    assert len(named) > 10


@pytest.mark.parametrize("thing", ALL, ids=lambda thing: f"{thing.name} {thing.nature}{thing.kind}")
def test_a_thing_has_a_page_whose_example_reads(thing: Thing) -> None:
    page = things.page(thing.name)

    assert page is not None and page.kind == "thing" and page.source
    assert all(read(block.text).stop is None for block in cut(plain(page.example)))
    assert len(max(page.text.split("\n"), key=len)) <= 100
    assert not thing.caution or caution(thing.caution) in page.text.replace("\n", " ")
    assert not thing.remark or thing.remark in page.text.replace("\n", " ")
    assert thing.money or "no tax advice" in page.text


def usual(word: str) -> str:
    """What an example line about a thing comes to in a house let for years: the kind of its first part."""
    thing = catalogue().meanings(word)[0]
    page = things.page(word)
    assert page is not None
    verdict = last(page.example)
    wanted = thing.first if " installed " in page.example or " bought " in page.example else thing.again
    assert verdict.parts[0].kind is KINDS[wanted], (word, page.example)
    text = page.text.replace("\n", " ")
    if thing.again == thing.first:
        assert f"Usually: {SAID['usual'][wanted]}." in text
    elif wanted == thing.again:
        assert f"Replaced by the same: {SAID['usual'][wanted]}." in text
    else:
        assert f"The first one here: {SAID['usual'][wanted]}." in text
    return wanted


@pytest.mark.parametrize(
    "word",
    "cooker hood, fuse board, kitchen, boiler, windows, roof, gutters, skirting, radiators, sofa, washing machine, "
    "carpet, fridge freezer, bed, fence panel, gate, path, summer house, heat pump, solar panels, "
    "gas safety, epc, eicr, cleaning, pest control, bulbs, shower curtain, keys".split(", "),
)
def test_what_the_page_says_is_what_the_rules_find(word: str) -> None:
    usual(word)


def test_the_box_is_that_of_the_class() -> None:
    def box(word: str) -> str:
        page = things.page(word)
        assert page is not None
        return page.text.replace("\n", " ").partition("On the return: ")[2].partition(".")[0]

    assert box("boiler") == "repairs and upkeep (box 25 for 2025-26)"
    assert box("sofa") == "replacing domestic items, residential lets only (box 36 for 2025-26)"
    assert box("loan interest").endswith("(box 44 for 2025-26)")
    assert box("drawings") == ""


def test_any_word_for_it_and_words_in_front() -> None:
    for word, name in {"extractor hood": "cooker hood", "old chimney": "chimney", "Fuse-Box": "consumer unit"}.items():
        assert names(catalogue().meanings(word)) == [name]
        page = explain.look_up(word)
        assert page is not None and page.kind == "thing"
    assert names(catalogue().meanings("kitchen")) == ["kitchen", "kitchen"]
    assert catalogue().meanings("xqzt") == () == catalogue().meanings("old")


def test_a_word_of_the_language_that_is_a_thing_too_tells_both() -> None:
    page = explain.look_up("rent")
    assert page is not None and page.kind.startswith("field of a tenancy") and page.kind.endswith("; thing")
    agent = explain.look_up("agent")
    assert agent is not None and "thing" not in agent.kind  # only another word for the fee


def test_a_fixture_by_statute_is_never_offered_as_loose() -> None:
    boiler, hood = things.page("boiler"), things.page("cooker hood")
    assert boiler and hood
    assert "because the Act names it" in boiler.text and "add `loose`" not in boiler.text
    assert "add `loose`" in hood.text


def test_a_doubtful_thing_and_a_whole_say_so() -> None:
    tub, garage = things.page("hot tub"), things.page("garage")
    assert tub and garage
    assert "Honest people differ on that" in tub.text and "Honest people differ on that" not in garage.text
    assert "a whole of its own" in garage.text


def told(*words: str) -> str:
    return " ".join(CliRunner().invoke(cli, ["explain", *words]).output.split())


def test_an_unknown_thing_gets_near_names_and_how_to_declare_it() -> None:
    said = told("cooker", "hod")
    assert "The nearest thing is cooker hood." in said
    assert "`explain thing` shows how" in said
    assert "The nearest" not in told("xqzt", "wvvk") and "`explain thing`" in told("xqzt", "wvvk")


def test_words_that_are_no_thing_are_not_declared_as_one() -> None:
    assert "is fixture" not in told("xqzt", "wvvk")
    assert "is fixture" in told("thing")


def test_the_command_prints_the_page_with_example_and_source() -> None:
    said = told("cooker", "hood")
    assert said.startswith("cooker hood: thing Also called:")
    assert "For example: 4 Mar 2026 replaced cooker hood £240.00" in said
    assert said.endswith("Source: Inland Revenue Tax Bulletin 59 (2002)")
