"""What an open verdict says to add really settles the question that was asked."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from ledger_tools.verdicts.checks import doubts
from ledger_tools.verdicts.closing import in_words
from ledger_tools.verdicts.verdict import Cgt, Confidence, Kind, Verdict, deciding

from .books import LET, book, verdicts
from .test_rules import CASES, MORE, C

# What a landlord might put for "…", by what stands before it.
FILLS = {
    ", of which": "£5.00",
    ", same again": "£50.00",
    ", improvement": "£5.00",
    ", making way for": "sink",
    "treat as": "adviser, 2 Mar",
    "old one moved to": "dock-9",
    "old one sold": "£5.00",
    " for": "4 Mar 2025",
    "periodic from": "1 Sep 2025",
    "marketed to let from": "1 Jun 2025",
    "council": "elder",
    "took home": "£5.00",
    " against invoice": "77",
    "installed": "hinge",
    "replaced": "hinge",
    "repaired": "hinge",
}
OPEN = {**CASES, **MORE}
MADE_UP = frozenset({"moved-nowhere"})  # doubts that what fills the gaps here brings, not the offer


def filled(offer: str) -> str:
    """The offer with something in place of each "…"."""
    if offer == " for … to …":
        return " for 1 Oct 2025 to 30 Sep 2026"
    if offer == " for …":
        return " for roof"
    if "…" not in offer:
        return offer.replace("£…", "£5.00")
    found = next(fill for start, fill in FILLS.items() if start in offer)
    return offer.replace("£…" if "£…" in offer else "…", found)


def with_offer(case: C, offer: str) -> tuple[str, str]:
    """The lines and the houses of a case once the landlord has followed an offer."""
    lines, house, words = case.lines, case.house, filled(offer)
    *before, line = re.split(r"\n(?=\d)", lines)
    head = words.split()[0]
    if words[0].isdigit():  # another line, as it should be
        if words.split()[3:5] == ["took", "home"]:  # a line of its own: what the old one was worth
            return "\n".join([*before, line, words]), house
        day_and_verb = " ".join(words.split()[:4])
        if day_and_verb not in lines:  # the line itself, with another verb
            assert line.split()[:3] == words.split()[:3]
            return "\n".join([*before, words]), house
        return re.sub(rf"(?m)^{day_and_verb} [^\n]*", words, lines), house
    if words[0] in ", ":
        line += words
    elif words.startswith(("thing ", "council ")):
        house = f"{words}\n{house}"
    elif words.startswith(("as bought", "price")):
        house = re.sub(rf"    {'as bought' if head == 'as' else 'price'} .*\n", "", house)
        house = re.sub(r"(    (?:bought|inherited) \d.*\n)", rf"\1    {words}\n", house, count=1)
    elif words.startswith("marketed"):
        house = house.replace("    as bought", f"    {words}\n    as bought", 1)
    elif words.startswith("periodic"):
        house += f'tenancy bell at mill-3\n    tenants "A. Bell"\n    {words}\n    rent £700 a month\n'
    elif words.startswith("old one"):
        line = re.sub(r"old one (kept|moved to \S+)", words, line)
    elif words.startswith("part of"):
        line = line.replace(words.removeprefix("part of "), words, 1)
    elif " " not in words:
        line = re.sub(r"^(\d+ \w+ \d+) \w+", rf"\1 {words}", line)
    else:
        day = " ".join(line.split()[:3])
        line = f"{day} {words}" + ("" if "£" in words else " £90.00") + (" from okoye" if "rent" in words else "")
    return "\n".join([*before, line]), house


def asking(verdict: Verdict) -> set[str]:
    """The rules that leave it open."""
    return {f.slug for f in verdict.path if f.decided and f.confidence is Confidence.ARGUABLE}


def offers() -> Iterator[tuple[str, str]]:
    """Every offer of every case, with the name of the case."""
    for name, case in OPEN.items():
        for offer in verdicts(case.lines, case.house, case.people)[-1].ask:
            yield name, offer


@pytest.mark.parametrize(("name", "offer"), list(offers()), ids=lambda word: word.strip(" ,"))
def test_what_is_offered_settles_the_question(name: str, offer: str) -> None:
    case = OPEN[name]
    asked = verdicts(case.lines, case.house, case.people)[-1]
    assert asked.arguable and asking(asked)

    if offer == " against invoice …":
        lines = '3 Mar 2025 invoiced £900.00 by "Hob Shop", number 77\n    replaced hob £900.00, like for like\n'
        assert len(verdicts(lines + with_offer(case, offer)[0])) == 1  # counted once, in the bill
        return
    lines, house = with_offer(case, offer)
    found = verdicts(lines, house, case.people)
    now = found[-2] if found[-1].item.line.verb == "took home" != asked.item.line.verb else found[-1]

    assert not now.arguable or asking(asked) - asking(now), [f"{f.slug}: {f.says}" for f in now.path]


RULINGS = [(name, offer) for name, offer in offers() if "treat as" in offer]


@pytest.mark.parametrize(("name", "offer"), RULINGS, ids=lambda word: word.strip(" ,"))
def test_a_ruling_never_hides_that_the_answer_was_open(name: str, offer: str) -> None:
    case = OPEN[name]
    asked = verdicts(case.lines, case.house, case.people)[-1]
    lines, house = with_offer(case, offer)
    ruled = verdicts(lines, house, case.people)[-1]

    assert ruled.ruled and ruled.without is not None
    assert (ruled.thought, ruled.without.answers) == (asked.parts, asked.answers)
    assert deciding(ruled.without) == deciding(asked)


def test_a_cost_of_selling_is_offered_as_that_and_is_none_of_what_the_house_cost() -> None:
    sold = LET.replace("\ntenancy", "\n    sold 14 Nov 2025 for £172,000\ntenancy") + "    ended 31 Aug 2025\n"
    line = "9 Oct 2025 certified energy performance £60.00, expires 8 Oct 2035"
    asked = verdicts(line, sold)[-1]
    [offer] = [words for words in asked.ask if "selling" in words]
    ruled = verdicts(line + filled(offer), sold)[-1]

    assert in_words(ruled.parts) == asked.answers[2] == "a cost of selling: it counts when the house is sold"
    assert [part.cgt for part in ruled.parts] == [Cgt.DISPOSAL]
    assert "What finished the purchase" not in " ".join(fired.says for fired in ruled.path)


def told_doubts(lines: str, house: str, people: str) -> set[str]:
    """The doubts that proof has about a book."""
    made = book(lines, house, people)
    return {problem.code for problem in (*made.problems, *doubts(made))}


@pytest.mark.parametrize(("name", "offer"), list(offers()), ids=lambda word: word.strip(" ,"))
def test_what_is_offered_contradicts_nothing_that_is_told(name: str, offer: str) -> None:
    case = OPEN[name]
    if offer == " against invoice …":
        return  # it needs the bill
    lines, house = with_offer(case, offer)

    new = told_doubts(lines, house, case.people) - told_doubts(case.lines, case.house, case.people)
    assert new <= MADE_UP, new


@pytest.mark.parametrize("name", [name for name, case in OPEN.items() if case.other])
def test_an_open_verdict_says_how_to_settle_it_unless_another_line_does(name: str) -> None:
    case = OPEN[name]
    verdict = verdicts(case.lines, case.house, case.people)[-1]
    elsewhere = verdict.item.line.verb in ("received", "sold") and any("open with it" in f.says for f in verdict.path)

    assert verdict.ask or elsewhere or len({part.kind for part in verdict.other}) > 1


def test_an_improvement_told_apart_leaves_only_offers_that_keep_it() -> None:
    line = "4 Mar 2025 replaced boiler £3,150.00, improvement £750.00"
    (asked,) = verdicts(line)
    (bare,) = verdicts("4 Mar 2025 replaced boiler £3,150.00")

    assert asked.arguable and ", better" not in asked.ask and ", better" in bare.ask
    for offer in asked.ask:
        (now,) = verdicts(line + offer)
        assert {part.kind: part.amount for part in now.parts} == {Kind.IMPROVEMENT: 75000, Kind.REPAIR: 240000}


def test_of_fire_doors_it_is_asked_what_was_there() -> None:
    line = '4 Mar 2025 replaced 6 fire doors £1,860.00 by "Pell", required'
    (asked,) = verdicts(line)

    assert asked.arguable
    assert asked.ask == (f"{line}, like for like", line.replace("fire doors", "doors with fire doors"))
    assert [verdicts(offer)[0].parts[0].kind for offer in asked.ask] == [Kind.REPAIR, Kind.IMPROVEMENT]


@pytest.mark.parametrize(
    ("name", "offered"),
    [
        ("a shed that may be a loose one", "improvement"),
        ("the drive of a house", "repair"),
        ("asbestos in the garage, which was rebuilt", "no relief"),
        ("kept-in-the-house", "no relief"),
        ("an architect for a house bought unfit", "purchase cost"),
    ],
)
def test_every_answer_that_is_shown_can_be_written(name: str, offered: str) -> None:
    case = OPEN[name]
    asked = verdicts(case.lines, case.house, case.people)[-1]

    assert f', treat as {offered} because "…"' in asked.ask


@pytest.mark.parametrize(
    ("name", "offered", "not_offered"),
    [
        ("asbestos in the garage, which was rebuilt", ", goes with garage", ", goes with fence"),
        ("an architect for a loft that was converted", " for attic", " for cooker"),
        ("the carpet of a former home", "", ", used by tenant"),
    ],
)
def test_only_what_it_may_have_served_is_offered(name: str, offered: str, not_offered: str) -> None:
    case = OPEN[name]
    ask = verdicts(case.lines, case.house, case.people)[-1].ask

    assert not offered or offered == next(words for words in ask if words.startswith(offered[:5]))
    assert not_offered not in ask
