"""Pages about things: what each is by nature, the usual answers, what would change them, how to declare another.

Everything is read from the catalogue, the rules and the property pages; decides nothing and knows no book.
"""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from textwrap import fill
from typing import TYPE_CHECKING, Any

from ..verdicts.catalogue import Thing, catalogue
from ..verdicts.cautions import caution

if TYPE_CHECKING:
    from . import Page

WIDTH = 100
OTHER_WORDS = 8  # shown of a thing: more would be read by nobody
MONEY = {
    "cost": '4 Mar 2026 paid {thing} £90.00 to "Bodkin & Son"',
    "finance": '4 Mar 2026 paid {thing} £90.00 to "Castle Building Society"',
    "purchase": '4 Mar 2026 paid {thing} £90.00 to "Marsh Solicitors"',
    "private": "4 Mar 2026 paid {thing} £90.00",
    "capital": '4 Mar 2026 paid {thing} £90.00 to "Bodkin & Son"',
    "liability": '4 Mar 2026 paid {thing} £90.00 to "Castle Building Society"',
    "income": '4 Mar 2026 received {thing} £90.00 from "A. Tenant"',
}


@cache
def _said() -> dict[str, Any]:
    return tomllib.loads((files(__package__) / "things.toml").read_text(encoding="utf-8"))


def page(words: str) -> Page | None:
    """The page of whatever thing, or things, these words name; None where the catalogue knows none."""
    from . import Page

    found = catalogue().meanings(words)
    if not found:
        return None
    text = "\n\n".join("\n".join(_wrapped(line) for line in _lines(thing, words)) for thing in found)
    return Page(words, "thing", text, _example(found[0], words), "; ".join(dict.fromkeys(t.source for t in found)))


def _wrapped(line: str) -> str:
    return fill(line, WIDTH, subsequent_indent="    " if line.startswith("  - ") else "", break_on_hyphens=False)


def named(words: str) -> Page | None:
    """The same where a thing has this very name: a word of the language that is a thing too has one page for both."""
    return page(words) if any(thing.name == words for thing in catalogue().meanings(words)) else None


def unknown(words: str) -> str:
    """What to say of words nobody knows: near names, and how a book says what a thing of its own is."""
    near = catalogue().near(words)
    meant = f" The nearest thing is {' or '.join(near)}." if near else ""
    return (
        f"{meant} If it is a thing in or on your house that nobody here knows, your book can say what it is: "
        "`explain thing` shows how."
    )


def _lines(thing: Thing, words: str) -> list[str]:
    others = [word for word in catalogue().words_of(thing) if word != words.lower()]
    out = [f"Also called: {', '.join(others[:OTHER_WORDS])}."] if others else []
    out += _sum(thing) if thing.money else _physical(thing, words)
    if not thing.money:
        out.append("These are the usual answers; the facts of your line decide, as `audit` shows. It is no tax advice.")
    if thing.caution:
        out.append(f"Caution. {caution(thing.caution)}")
    return out


def _sum(thing: Thing) -> list[str]:
    out = [_said()["kind"][thing.kind]]
    if thing.verbs:
        out[0] = f"After {' or '.join(thing.verbs)}: {out[0][0].lower()}{out[0][1:]}"
    return [*out, *_remark(thing), *_class(thing.category)]


def _remark(thing: Thing) -> list[str]:
    return [thing.remark] if thing.remark else []


def _physical(thing: Thing, words: str) -> list[str]:
    nature, usual = _said()["nature"][thing.nature], _said()["usual"]
    says = (
        "A fixture, because the Act names it: it is judged as part of the house." if thing.statute else nature["says"]
    )
    if thing.room:
        says = f"A room or place: {says[0].lower()}{says[1:]}"
    if thing.whole:
        says += " It is a whole of its own, so putting up a new one is no repair of the house."
    if thing.doubtful:
        says += " Honest people differ on that: say `built in` or `loose` on the line."
    out = [says]
    if thing.room and thing.nature == "fabric":
        return [*out, *_remark(thing), f"Decorated or put right: {usual[thing.again]}.", *_class(thing.category)]
    if thing.again and thing.again == thing.first:
        out.append(f"Usually: {usual[thing.again]}.")
    else:
        out += [f"Replaced by the same: {usual[thing.again]}."] if thing.again else []
        first = "arguable" if thing.doubtful and thing.first in ("cap", "cnr") else thing.first
        out += [f"The first one here: {usual[first]}."] if first else []
    out += _remark(thing)
    changes = [change for change in nature.get("changes", ()) if not (thing.statute and "`loose`" in change)]
    if changes:
        out += ["What would change that:", *(f"  - {change}" for change in changes)]
    out += _class("domestic" if thing.again == "dom" else thing.category)
    out.append(
        f"If yours is something else, say so in your book, in the first column: thing {words} is {nature['else']}."
    )
    if nature["rules"]:
        out.append(f"Pages to read on: {', '.join(f'`explain {slug}`' for slug in nature['rules'])}.")
    return out


def _class(category: str) -> list[str]:
    """Where what comes off, or comes in, stands on the return."""
    if not category:
        return []
    from .. import law

    year = law.pages_checked_up_to()
    box = law.box_for(category, year)
    return [f"On the return: {box.caption} (box {box.number} for {year})."]


def _example(thing: Thing, words: str) -> str:
    if thing.verbs[:1] == ("charged",):
        return f'4 Mar 2026 billed £90.00 by "Bodkin & Son"\n    charged {words} £90.00'
    if thing.money:
        return MONEY[thing.kind].format(thing=words)
    if thing.room:
        return f"4 Mar 2026 decorated {words} £90.00, own labour"
    return str(_said()["nature"][thing.nature]["example"]).format(thing=words)
