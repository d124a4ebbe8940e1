"""Every verb of works with every fact about the old one: at odds, with a corrected line that is sound, or fine."""

from __future__ import annotations

import pytest

from ledger_tools.book.build import build
from ledger_tools.language.blocks import Block
from ledger_tools.language.checks import doubled
from ledger_tools.language.grammar import words
from ledger_tools.language.odds import ALIASES, VERB_ODDS, WORN, plain_with
from ledger_tools.language.reading import read
from ledger_tools.problems import Level, Problem
from ledger_tools.verdicts.engine import judge
from ledger_tools.verdicts.verdict import Verdict
from tests.verdicts.books import LET, PEOPLE

D = "9 Jun 2025 "
NO_MORE = ("like for like", "modern equivalent", "plainer")
COMPARED = (*NO_MORE, "better", "does more")
WHOSE = ("left by seller", "ours before", "used by tenant")
OLD = ("old one scrapped", "same again £80.00", "part exchange £5.00")
FACTS = (*COMPARED, "none before", "missing when bought", "taken out earlier", *WHOSE, *WORN, *OLD)
VERBS = sorted({ALIASES.get(verb, verb) for verb in words().says["WORKS_VERB"]})

# What a landlord may well say. Everything else is at odds: the two tables are the whole of it.
ANY = (*WHOSE, *WORN)  # whose it was and what happened to it go with whatever is done to a thing that is there
FINE = {
    "installed": ("none before", "missing when bought", "taken out earlier"),
    "added": ("taken out earlier",),
    "bought": ("none before", "missing when bought", "taken out earlier", *WORN),
    "replaced": (*COMPARED, *OLD, *ANY, "missing when bought", "taken out earlier"),
    "rebuilt": (*COMPARED, *OLD, *ANY, "missing when bought", "taken out earlier"),
    "repaired": (*COMPARED, *ANY, "taken out earlier"),
    "treated": (*ANY, "taken out earlier"),
    "decorated": (*COMPARED, *ANY, "none before", "taken out earlier"),
    "cleaned": (*ANY, "taken out earlier"),
    "serviced": (*ANY, "taken out earlier"),
    "moved": (*ANY, "none before", "taken out earlier"),
    "altered": ("better", "does more", "old one scrapped", *ANY, "taken out earlier"),
    "extended": ("better", "does more", "old one scrapped", *ANY, "taken out earlier"),
    "converted": ("better", "does more", "old one scrapped", *ANY, "none before", "taken out earlier"),
    "removed": ("old one scrapped", *ANY),
    "cleared": ("old one scrapped", *ANY),
    "inspected": (*ANY, "none before", "missing when bought", "taken out earlier"),
    "tested": (*ANY, "none before", "missing when bought", "taken out earlier"),
    "certified": (*ANY, "none before", "missing when bought", "taken out earlier"),
    "hired": (*ANY, "none before", "missing when bought", "taken out earlier"),
    "sold": (*ANY, "taken out earlier"),
    "scrapped": (*ANY, "taken out earlier"),
    "took home": (*ANY, "taken out earlier"),
}
ODD = [(verb, fact) for verb in VERBS for fact in FACTS if fact not in FINE[verb]]


def told(text: str) -> list[Problem]:
    statement = read(text).statement
    assert statement is not None, text
    return doubled(statement, Block(text, 3), "diary.book")


def verdict(line: str) -> Verdict:
    return judge(build({"mill.book": f"{PEOPLE}{LET}at mill-3\n{line}"}))[-1]


def test_every_verb_is_decided_on() -> None:
    assert sorted(FINE) == VERBS


@pytest.mark.parametrize("verb, fact", [(verb, fact) for verb in VERBS for fact in FINE[verb]])
def test_what_may_well_be_said_is_left_alone(verb: str, fact: str) -> None:
    assert told(f"{D}{verb} boiler £90.00, {fact}") == []


@pytest.mark.parametrize("verb, fact", ODD)
def test_what_is_at_odds_is_one_doubt_whose_corrected_line_is_sound(verb: str, fact: str) -> None:
    (found,) = told(f"{D}{verb} boiler £90.00, {fact}")

    assert (found.code, found.level) == ("verb-at-odds", Level.DOUBT)
    assert [mark.text[mark.column - 1 : mark.end - 1] for mark in found.marks][0] == verb
    if verb == "bought" and fact in ("left by seller", "ours before", "used by tenant"):
        assert found.fix is None and '"replaced"' in found.help and '"none before"' in found.help  # either may be meant
        return
    assert found.fix is not None and found.help.endswith(".")
    assert told(found.fix.line) == []
    assert found.fix.line in (f"{D}{verb} boiler £90.00", *(f"{D}{v} boiler £90.00, {fact}" for v in VERBS))


# Where the corrected line says plainly what the line is taken for already, no figure moves when it is pasted.
TAKEN = [
    *(("installed", fact) for fact in FACTS if fact not in FINE["installed"]),
    *((verb, "none before") for verb in ("added", "replaced", "repaired")),
    *((verb, "missing when bought") for verb in ("added", "repaired")),
    *((verb, fact) for verb in ("treated", "moved", "cleaned", "serviced") for fact in COMPARED),
]


@pytest.mark.parametrize("verb, fact", TAKEN)
def test_the_corrected_line_says_what_the_line_is_taken_for(verb: str, fact: str) -> None:
    line = f"{D}{verb} boiler £90.00, {fact}"
    (found,) = told(line)
    assert found.fix is not None
    before, after = verdict(line), verdict(found.fix.line)

    assert (before.parts, before.other, before.when) == (after.parts, after.other, after.when)


@pytest.mark.parametrize("verb", sorted(ALIASES))
def test_other_words_for_a_verb_are_looked_at_too(verb: str) -> None:
    fact = next(fact for fact in FACTS if fact not in FINE[ALIASES[verb]])

    assert [p.code for p in told(f"{D}{verb} boiler £90.00, {fact}")] == ["verb-at-odds"]


def test_a_fact_of_the_head_line_is_told_where_it_decides() -> None:
    head = f"{D}invoiced £200.00 by cobb, number 7, worn out\n"
    (found,) = told(head + "    replaced tap £90.00, like for like\n    installed hob £110.00")

    assert found.code == "verb-at-odds" and found.marks[0].line == 5 and found.marks[1].line == 3
    assert found.fix is not None and found.fix.line == "    replaced hob £110.00"
    assert "head line" in found.help

    alike = f"{D}invoiced £200.00 by cobb, number 7, like for like\n    replaced tap £90.00\n"
    assert told(alike + "    cleaned hob £110.00") == []  # it speaks of the tap, and changes nothing for the hob
    assert [p.code for p in told(alike + "    fitted hob £110.00")] == ["verb-at-odds"]


def test_one_doubt_a_line_however_many_facts_say_the_same() -> None:
    assert len(told(f"{D}installed hob £90.00, worn out, like for like, same again £80.00")) == 1


def test_a_nearer_word_on_the_line_ends_the_doubt() -> None:
    text = f"{D}invoiced £200.00 by cobb, number 7, used by tenant\n    installed hob £200.00"

    assert [p.code for p in told(text)] == ["verb-at-odds"]
    assert all(p.code != "verb-at-odds" for p in told(f"{text}, none before"))


def test_with_none_before_the_two_facts_are_told_and_the_verb_is_not() -> None:
    (found,) = told(f"{D}installed hob £90.00, none before, like for like")

    assert (found.code, found.level) == ("facts-at-odds", Level.ERROR)


@pytest.mark.parametrize("never", ["none before", "missing when bought"])
@pytest.mark.parametrize("fact", [*WORN, "same again £80.00"])
def test_of_two_facts_the_one_that_is_outweighed_is_left_out(never: str, fact: str) -> None:
    (found,) = told(f"{D}installed hob £90.00, {never}, {fact}")

    assert (found.code, found.level) == ("facts-at-odds", Level.DOUBT)
    assert found.fix is not None and found.fix.line == f"{D}installed hob £90.00, {never}"


def test_the_very_same_can_do_no_more() -> None:
    (found,) = told(f"{D}replaced boiler with boiler £90.00, does more")

    assert found.code == "verb-at-odds"
    assert found.fix is not None and found.fix.line == f"{D}replaced boiler £90.00, does more"
    assert told(f"{D}replaced 1 boiler with 2 boilers £90.00, does more") == []
    assert told(f"{D}replaced boiler with heat pump £90.00, does more") == []


def test_a_fact_on_a_line_of_its_own_is_told_without_a_line_to_paste() -> None:
    (found,) = told(f"{D}treated damp £90.00\n    like for like")

    assert found.code == "verb-at-odds" and found.fix is None


def test_the_quick_look_knows_the_whole_table() -> None:
    for row in VERB_ODDS:
        for verb in row.verbs:
            assert all(not plain_with(verb, kind, word) for kind, word in row.facts)
    assert plain_with("replaced", "compared", "better")
