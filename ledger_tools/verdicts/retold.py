"""Doubts about lines that read well and lose what decides the tax: work told as a payment, a successor told as bought.

Knows the catalogue; decides no tax.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..book.entries import Entry, Extra
from ..book.items import money_in
from ..money import pounds
from ..problems import Fix, Level, Mark, Problem
from .catalogue import UNKNOWN, Thing
from .history import History
from .told import BLOCK

BUILT = frozenset({"fabric", "fixture", "outbuilding", "garden", "plant"})
FAILED = frozenset("worn out|broken|storm damage|fire damage|water damage|tenant damage|squatter damage".split("|"))
PAYS = frozenset({"paid", "billed", "charged"})
ENDINGS = {  # of the name of a cost, and the verb that says it
    "repair": "repaired", "repairs": "repaired", "replacement": "replaced", "installation": "installed",
    "fitting": "installed", "removal": "removed",
    **dict.fromkeys(("repaired", "fixed", "mended"), "repaired"), "replaced": "replaced", "cleared": "cleared",
    **dict.fromkeys(("installed", "fitted"), "installed"), "removed": "removed", "cleaned": "cleaned",
    **dict.fromkeys(("painted", "decorated"), "decorated"), "serviced": "serviced",
}  # fmt: skip
SERVED = {"decoration": "decorated", "repair": "repaired"}  # the verb of a service; the others are treated
REASONS = {  # when a verb of works is the right one for what was paid for
    "replaced": "if it took the place of an old one", "repaired": "if the old one was mended",
    "installed": "if there was none before", "bought": "if it is the first one",
}  # fmt: skip
JOINTS = re.compile(r"\bto(?= +[\"\w])")


def retold(history: History) -> Iterator[Problem]:
    """Doubts "what-was-done", "bought-for-old", "part-not-judged" and "same-again-idle", line by line."""
    for entry in history.book.entries:
        for line in (entry, *entry.lines):
            if line.facts.ruling or line.facts.returned:
                continue
            yield from _paid_work(history, line)
            yield from _bought_for_old(history, line)
            yield from _parts(history, line)
            yield from _same_again(history, line)


# ── paid ─────────────────────────────────────────────────────────────────────────────────────────────────────────


def works_behind(history: History, line: Entry) -> dict[str, str]:
    """For a payment that names what was worked on and not what was done: the line as it should be, by its verb."""
    if line.kind != "money" or line.verb not in PAYS or line.paper or line.purpose == "private" or not line.things:
        return {}
    words = line.things[0].name
    thing = history.known(done_behind(history, line) or words, line.verb)
    return {verb: _told(line, verb, _said(thing, words)) for verb in _verbs(thing, words)}


def _paid_work(history: History, line: Entry) -> Iterator[Problem]:
    """paid rewire £3,850.00: that money went is told, and not what was done."""
    works = works_behind(history, line)
    if not works:
        return
    words, verbs, lines = line.things[0].name, tuple(works), list(works.values())
    told = [f"`{text}` {REASONS[verb]}" for verb, text in zip(verbs, lines, strict=True)] if len(verbs) > 1 else []
    help = "What was done decides the tax, so let the line begin with it. "
    help += f"Write {', '.join(told[:-1])}, or {told[-1]}." if told else ""
    fix = None if told else _whole(line, lines[0])
    yield Problem(
        "what-was-done", Level.DOUBT,
        f'This says that money was {line.verb} for "{words}", and not what was done.',
        (line.things[0].place.mark("what was done?"),), help.rstrip(), fix=fix,
    )  # fmt: skip


def done_behind(history: History, line: Entry) -> str:
    """The thing of "paid gutters cleared": a known one with what was done behind it; "" where it is none."""
    head, _, last = line.thing.rpartition(" ")
    if line.kind != "money" or last.lower() not in ENDINGS or history.known(line.thing, line.verb) is not UNKNOWN:
        return ""
    return head if head and history.known(head) is not UNKNOWN else ""


def _verbs(thing: Thing, words: str) -> tuple[str, ...]:
    """What may have been done to what was paid for; nothing where "paid" says it all."""
    ending = ENDINGS.get(words.lower().rpartition(" ")[2])
    if thing.nature in BUILT or thing.nature == "domestic":
        if ending and " " in words:
            return (ending,)
        return ("replaced", "repaired", "installed") if thing.nature != "domestic" else ("replaced", "bought")
    if thing.nature == "service" and (thing.again == "rev" or thing.name == "repair"):
        return (SERVED.get(thing.name, "treated"),)
    return ()


def _said(thing: Thing, words: str) -> str:
    """The thing as a line of works names it: "new roof" is a roof, a "rewire" is wiring, a "roof repair" a roof."""
    head, _, last = words.rpartition(" ")
    if last.lower() in ENDINGS and head:
        return head
    if thing.name in ("decoration", "repair"):
        return head or "throughout"
    bare = re.sub(r"^new +", "", words, flags=re.I)
    own = bare.lower().startswith("re") and not thing.name.startswith("re") and " " not in bare
    return thing.name if own else bare


def _told(line: Entry, verb: str, said: str) -> str:
    """The typed line with another verb and thing; who got the money is who did it."""
    mark = line.place.mark()
    text = mark.text[mark.column - 1 : mark.end - 1]
    words = line.things[0].place
    typed = words.block[words.start : words.end]
    text = re.sub(rf"\b{line.verb}\b( +){re.escape(typed)}", lambda found: f"{verb}{found[1]}{said}", text, count=1)
    head, comma, facts = text.partition(",")
    while comma and head.rstrip()[-1:].isdigit() and facts[:1].isdigit():  # the comma of £3,850.00
        more, comma, facts = facts.partition(",")
        head += f",{more}"
    joint = "from" if verb == "bought" else "by"
    return " ".join(f"{JOINTS.sub(joint, head, count=1)}{comma}{facts}".split())


def _whole(line: Entry, text: str) -> Fix:
    mark = line.place.mark()
    return Fix(Mark(mark.file, mark.line, mark.column, mark.end, mark.text), text)


# ── bought ───────────────────────────────────────────────────────────────────────────────────────────────────────


def _bought_for_old(history: History, line: Entry) -> Iterator[Problem]:
    """bought sofa £449.00, worn out: what failed was an old one, so this one took its place."""
    if line.verb != "bought" or line.facts.links or not line.things or FAILED.isdisjoint(line.facts.causes):
        return
    if line.facts.compared or line.facts.old_one:
        return  # at odds with the verb whatever the thing is: told where the line is read
    thing = history.known(line.thing, line.verb)
    if thing.nature not in BUILT | {"domestic"}:
        return
    mark = line.place.mark()
    at = re.compile(r"\bbought\b", re.I).search(mark.text, mark.column - 1)
    fix = Fix(Mark(mark.file, mark.line, at.start() + 1, at.end() + 1, mark.text), "replaced") if at else None
    yield Problem(
        "bought-for-old", Level.DOUBT,
        f"The {line.thing} was bought, and your book speaks of an old one. Did it take its place?",
        (line.things[0].place.mark("in place of an old one?"),),
        "If so write `replaced`: only what replaces an old one can come off the rents. `bought` is for the first of "
        "its kind, or for goods that another line puts to use.",
        "ITTOIA 2005 s.311A(3)" if thing.nature == "domestic" else "", fix=fix,
    )  # fmt: skip


# ── of which ─────────────────────────────────────────────────────────────────────────────────────────────────────


def _parts(history: History, line: Entry) -> Iterator[Problem]:
    """paid service charge …, of which new roof £1,250.00: a part that changes no answer."""
    if line.kind not in ("works", "money") or money_in(line):
        return
    for part in line.facts.of_which:
        if not _counts(history, line, part):
            yield _not_judged(history, line, part)


def _counts(history: History, line: Entry, part: Extra) -> bool:
    """Whether a part inside a sum changes an answer, or tells only what need not be told apart (vat, delivery)."""
    inside = history.known(part.what, line.verb)
    paid = history.known(part.what, "paid")
    if part.what == "private" or "private" in (inside.kind, paid.kind) or "job" in (inside.again, paid.again):
        return True
    if line.kind == "works":
        return inside is not UNKNOWN or part.what.startswith("worn since")
    whole = history.known(line.thing, line.verb)
    lender = whole.kind == "finance" or whole.name == "loan capital"
    return lender and paid.name in ("mortgage interest", "loan capital")


def _not_judged(history: History, line: Entry, part: Extra) -> Problem:
    sum_ = pounds(part.amount)
    better = f'`improvement {sum_} "{part.what}"`'
    if line.thing and history.known(line.thing, line.verb).name in BLOCK:
        help = (
            f"If it was something new or better for the block, write {better} in its place: that part counts when "
            "the flat is sold. If it only put right what was worn, take it out: it comes off with the rest."
        )
    else:
        help = (
            "What can stand here: `of which private`, `of which interest` or `of which capital` of a payment to a "
            f"lender, a thing with an answer of its own inside a line of works; or {better} for a part that made it "
            "better. A cost of another kind is a line of its own, with its own sum; else leave it out."
        )
    return Problem(
        "part-not-judged", Level.DOUBT, f'"of which {part.what} {sum_}" changes nothing: no answer hangs on it.',
        (part.place.mark("counts with the rest"),), help,
    )  # fmt: skip


# ── same again ───────────────────────────────────────────────────────────────────────────────────────────────────


def _same_again(history: History, line: Entry) -> Iterator[Problem]:
    """replaced boiler £3,150.00, better, same again £2,400.00: a price that counts for furnishings alone."""
    cost, again = line.amount, line.facts.same_again
    thing = history.known(line.thing, line.verb)
    if again is None or cost is None or thing.nature not in BUILT or thing.doubtful or line.facts.fixing == "loose":
        return
    better = line.facts.compared if line.facts.compared in ("better", "does more") and 0 < again < cost else ""
    mark = line.place.mark()
    said = re.compile(rf", *same again *£ ?{re.escape(f'{again // 100:,}')}(?:\.\d\d)?", re.I)
    typed = mark.text[mark.column - 1 : mark.end - 1]
    without = said.sub("", typed)
    help = "Take `same again` out." if without == typed else f"Write `{without}`."
    if better:
        part = f'improvement {pounds(cost - again)} "…"'
        priced = re.sub(rf", *{better}\b", ", like for like", without, count=1, flags=re.I) + f", {part}"
        line_ = f"`{priced}`" if without != typed and ", like for like" in priced else f"`like for like` and `{part}`"
        help = (
            f"If all of it is of a better kind, the whole is an improvement, and `same again` changes nothing: "
            f"{help[:1].lower()}{help[1:]} If only a part is better, and the bill or the quote gives that part a "
            f"price, write {line_}, and in the quotes what is better."
        )
    yield Problem(
        "same-again-idle", Level.DOUBT,
        f"`same again` counts for furnishings, and this is part of the house ({line.thing}).",
        (line.place.mark("changes nothing here"),), help,
    )  # fmt: skip
