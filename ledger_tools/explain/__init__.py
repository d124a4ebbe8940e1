"""Pages that explain: every word of the book's language, every problem code, every verdict and rule in plain words.

Words stand in words/, the terms of our pages in glossary.toml, verdicts in verdicts.toml, rules in rules/, why a
council's bill differs in bills.toml; a problem code has a page in codes/ that is also a test.
"""

from __future__ import annotations

import tomllib
from dataclasses import replace
from functools import cache
from importlib.resources import files

from ..record import record
from . import glossary, things


@record
class Page:
    """What there is to say about one subject."""

    subject: str
    kind: str  # "word", "message", "verdict", "rule", "term", "thing"
    text: str
    example: str = ""
    source: str = ""
    more: str = ""  # of a rule: all that is worked out when it is asked for
    where: str = ""  # the house the example happens in, in words that end in a colon


def _toml(name: str) -> dict[str, list[dict[str, str]]]:
    return tomllib.loads((files(__package__) / name).read_text(encoding="utf-8"))


@cache
def words() -> dict[str, Page]:
    """Every word and phrase of the language."""
    folder = files(__package__) / "words"
    groups = sorted(place.name for place in folder.iterdir() if place.name.endswith(".toml"))
    return {
        entry["word"]: Page(entry["word"], entry["kind"], entry["means"], entry["like"].strip())
        for group in groups
        for entry in _toml(f"words/{group}")["word"]
    }


@cache
def verdicts() -> dict[str, Page]:
    """Every verdict by its name."""
    from .houses import HOUSES

    return {
        entry["verdict"]: Page(
            entry["verdict"], "verdict", entry["means"], entry["like"].strip(), entry["source"],
            where=HOUSES[entry["setting"]].words,
        )
        for entry in _toml("verdicts.toml")["verdict"]
    }  # fmt: skip


@cache
def rules() -> dict[str, Page]:
    """What each rule that can speak means, by its name; `look_up` tells the rest of its page."""
    from ..verdicts.registry import all_rules
    from .rule_pages import STAGES, told

    return {
        rule.slug: Page(rule.slug, f"rule about {STAGES[rule.stage]}", told()[rule.slug].means, source=rule.authority)
        for rule in all_rules()
        if rule.slug in told()
    }


@cache
def bills() -> dict[str, Page]:
    """Every reason why a council's bill differs, by its code."""
    return {
        entry["reason"]: Page(entry["reason"], "reason why a bill differs", entry["means"], source=entry["source"])
        for entry in _toml("bills.toml")["reason"]
    }


def rule_page(slug: str) -> Page | None:
    """The whole page of a rule; None where there is none."""
    from .rule_pages import rest_of_page

    page = rules().get(slug)
    return replace(page, source="", more=rest_of_page(slug)) if page else None


@cache
def codes() -> tuple[str, ...]:
    """The problem codes that have a page."""
    folder = files(__package__) / "codes"
    return tuple(sorted(p.name.removesuffix(".md") for p in folder.iterdir() if p.name.endswith(".md")))


def message(code: str) -> Page | None:
    """The page of a problem code."""
    if code not in codes():
        return None
    text = (files(__package__) / "codes" / f"{code}.md").read_text(encoding="utf-8")
    return Page(code, "message", text.strip())


def look_up(subject: str) -> Page | None:
    """The page of a word, a problem code, a verdict, a rule, or else a thing; None where there is none.

    A name that is more than one of these, as `private` is, gets one page that tells them all.
    """
    name = " ".join(subject.lower().split())
    dashed = name.replace(" ", "-")
    word = words().get(name) or words().get(name.replace("-", " "))
    term = glossary.page(name)
    of_code = (message(dashed), verdicts().get(dashed), rule_page(dashed), bills().get(dashed), term)
    found = [page for page in (word, *of_code) if page]
    found += [page] if found and (page := things.named(name)) else []
    return _joined(found) if found else things.page(name) or _in_two(name)


def _in_two(name: str) -> Page | None:
    """Two words of the language said in one breath: "price normal", "as bought not lettable"."""
    parts = name.split()
    for cut in range(1, len(parts)):
        head, tail = (words().get(" ".join(half)) for half in (parts[:cut], parts[cut:]))
        if head and tail:
            return replace(_joined([head, tail]), subject=name, kind=f"{head.kind}, with {tail.subject}")
    return None


def _joined(pages: list[Page]) -> Page:
    """Several pages of one name as one."""
    first, *others = pages
    if not others:
        return first
    text = "\n\n".join([first.text, *(f"As a {page.kind}: {page.text}" for page in others)])
    source = "; ".join(page.source for page in pages if page.source)
    more = "\n\n".join(page.more for page in pages if page.more)
    return Page(first.subject, "; ".join(page.kind for page in pages), text, first.example, source, more, first.where)


def subjects() -> list[str]:
    """Everything that has a page."""
    terms = (page.subject for page in glossary.terms().values())
    return list(dict.fromkeys([*words(), *codes(), *verdicts(), *rules(), *bills(), *terms]))
