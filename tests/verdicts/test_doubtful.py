"""Things that may be part of the house or loose: each ruling offered is one of the answers told. Invented house."""

from __future__ import annotations

import pytest

from ledger_tools.verdicts.catalogue import catalogue
from ledger_tools.verdicts.closing import WORDS
from ledger_tools.verdicts.offers import RULINGS
from ledger_tools.verdicts.verdict import Kind

from .books import last

DOUBTFUL = sorted({*(thing.name for thing in catalogue().things if thing.doubtful), "shed"})


@pytest.mark.parametrize("thing", DOUBTFUL)
@pytest.mark.parametrize(
    "how", ["replaced {}, like for like", "replaced {}, used by tenant", "installed {}, none before", "replaced {}"]
)
def test_every_ruling_offered_is_one_of_the_answers(thing: str, how: str) -> None:
    """D4 of the rules in words: what the doubt is between is to be told in full."""
    what, comma, rest = how.partition(",")
    found = last(f"10 Jun 2024 {what.format(thing)} £640.00{comma}{rest}")
    offered = {kind for kind, word in RULINGS.items() if f', treat as {word} because "…"' in found.ask}

    for kind in offered:
        assert any(WORDS[kind] in answer for answer in found.answers), (kind, found.answers)


@pytest.mark.parametrize(("fixed", "asks"), [(", loose", "You call it loose (bike store)"), ("", "")])
def test_a_thing_told_to_be_loose_is_not_asked_whether_it_is(fixed: str, asks: str) -> None:
    """D4 of the rules in words: how it is attached is told; what stands outside may be part of the property even so."""
    found = last(f"10 Jun 2024 installed bike store in yard £380.00, none before{fixed}")
    [*doubts] = [fired.says for fired in found.path if fired.slug == "doubtful"]

    assert [said[: len(asks)] for said in doubts] == [asks] * bool(fixed)
    assert not any("or a loose item" in said for said in doubts)


def test_a_shed_has_three_answers() -> None:
    found = last("10 Jun 2024 replaced shed in garden £640.00, like for like, worn out")
    private = last("10 Jun 2024 replaced shed in garden £640.00, like for like, worn out, of which private £40.00")

    assert [answer.partition(":")[0] for answer in found.answers] == ["a repair", "an improvement", "an item replaced"]
    assert [answer.count("£40.00 private") for answer in private.answers] == [1, 1, 1]


def test_foundations_are_not_called_underpinned_where_no_line_says_so() -> None:
    """C19 of the rules in words: of underpinning opinion is divided; a part mended as it was is a repair (C5)."""
    things = ("foundations", "part of foundations", "underpinning")
    mended, part, under = (last(f"6 Jun 2024 repaired {what} £14,000.00") for what in things)

    assert mended.arguable and any("Your book does not say which it was" in fired.says for fired in mended.path)
    assert not part.arguable and part.parts[0].kind is Kind.REPAIR
    assert under.arguable and any("firmer footings" in fired.says for fired in under.path)
