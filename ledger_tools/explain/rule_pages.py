"""The page of each rule: what it means, what it rests on, what would change it, and two examples worked out as asked.

The words are data, in rules/*.toml; what comes of an example is what the rules say of it. Knows no single rule.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from functools import cache
from importlib.resources import files

from ..days import day_words
from ..money import pounds
from ..record import record
from ..verdicts.registry import READ, Rule, all_rules
from ..verdicts.verdict import Confidence, Fired, Kind, Verdict
from .houses import HOUSES, PEOPLE

STAGES = {
    "A": "what is a cost of the letting",
    "B": "work that finishes a purchase",
    "C": "work on the building",
    "D": "what is part of the house",
    "E": "items for use in the home",
    "F": "when a cost counts",
    "G": "money that comes in",
    "H": "the gain when the house is sold",
    "I": "what was told elsewhere",
    "": "what you decide yourself",
}
SURE = {
    Confidence.CLEAR: "clear, as the law says so, or decided cases and the tax office agree",
    Confidence.USUAL: "usual, which is what the tax office and advisers normally accept",
    Confidence.ARGUABLE: "arguable, as honest people differ or your book must say more",
}


@record
class Example:
    """Lines of a book and the name of the house they happen in; the last line with a sum is the one to look at."""

    lines: str
    setting: str


@record
class Told:
    """What the data tell of a rule: its meaning, a case in which it speaks, and a near one in which it does not."""

    rule: str
    means: str
    like: Example
    unlike: Example


@cache
def told() -> dict[str, Told]:
    """Every entry of rules/*.toml by its rule. ValueError for a rule told twice or a house nobody knows."""
    folder = files(__package__) / "rules"
    found: dict[str, Told] = {}
    for name in sorted(place.name for place in folder.iterdir() if place.name.endswith(".toml")):
        for entry in tomllib.loads((folder / name).read_text(encoding="utf-8"))["rule"]:
            houses = entry["setting"], entry.get("unlike_setting", entry["setting"])
            if entry["rule"] in found or not set(houses) <= HOUSES.keys():
                raise ValueError(f"{name}, rule {entry['rule']}: told twice, or in a house that houses.py lacks")
            like, unlike = (Example(entry[key].strip(), at) for key, at in zip(("like", "unlike"), houses, strict=True))
            found[entry["rule"]] = Told(entry["rule"], entry["means"].strip(), like, unlike)
    return found


def judged(example: Example) -> Verdict:
    """The verdict of the last line of an example."""
    return _worked(example)[0]


def _worked(example: Example) -> tuple[Verdict, tuple[Fired, ...]]:
    """The verdict of the last line of an example, and what was said on its way and of what was told elsewhere."""
    from ..book.build import build
    from ..verdicts.conflicts import conflicts
    from ..verdicts.engine import judge

    book = build({"example.book": f"{PEOPLE}{HOUSES[example.setting].book}at mill-3\n{example.lines}\n"})
    verdicts = judge(book)
    elsewhere = (fired for conflict in conflicts(book, verdicts) for fired in conflict.path)
    return verdicts[-1], (*verdicts[-1].path, *elsewhere)


def rest_of_page(slug: str) -> str:
    """All of a rule's page but its meaning. KeyError where there is no such rule or no entry for it."""
    rule = next((rule for rule in all_rules() if rule.slug == slug), None)
    if rule is None:
        raise KeyError(slug)
    here = told()[slug]
    other = "" if here.unlike.setting == here.like.setting else f" {HOUSES[here.unlike.setting].words}"
    return "\n\n".join(
        [
            "\n".join(_about(rule)),
            f"{HOUSES[here.like.setting].words}\n{_worked_out(here.like, slug)}",
            f"Not so here.{other}\n{_worked_out(here.unlike, '')}",
        ]
    )


def _about(rule: Rule) -> list[str]:
    """What stands in the registry, in words."""
    return [
        f"It is about: {rule.about}",
        f"It rests on: {rule.rests_on}{_whole(rule)}.",
        f"How sure it is: {SURE[rule.confidence]}.",
        f"It would change if: {'; '.join(rule.flips)}.",
        f"Keep: {'; '.join(rule.keep)}.",
    ]


def _whole(rule: Rule) -> str:
    """That all of it was read, or none, where no single authority says so of itself."""
    return f" ({READ[rule.status]})" if rule.rests_on == rule.authority else ""


def _worked_out(example: Example, slug: str) -> str:
    """An example with what comes of it, and what the rule that is asked about says of it."""
    verdict, said = _worked(example)
    out = [f"    {line}" for line in example.lines.split("\n")]
    out.append(f"What comes of it: {'; and '.join(_answers(verdict))}.")
    if verdict.when != verdict.item.line.day.first:
        out.append(f"It counts on {day_words(verdict.when)}.")
    out += [f"Why: {fired.says}" for fired in said if fired.slug == slug]
    return "\n".join(out)


def _answers(verdict: Verdict) -> Iterator[str]:
    """Each settled part with its answer in words, then what is open with both answers."""
    from ..verdicts.closing import in_words

    settled = [part for part in verdict.parts if part.kind is not Kind.ARGUABLE]
    for part in settled:
        yield f"{pounds(part.amount)}, {in_words((part,))}"
    if verdict.arguable:
        rest = sum(part.amount for part in verdict.parts) - sum(part.amount for part in settled)
        yield f"{pounds(rest)}, open: either {'; or '.join(verdict.answers)}"
