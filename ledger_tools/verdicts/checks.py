"""Doubts about the things of a book: words nobody knows, and things that leave a house they never came to.

Knows the catalogue; decides no tax.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import timedelta

from ..book.deals_told import whole_deal
from ..book.entries import Entry, Thing
from ..book.world import Book
from ..problems import Fix, Level, Mark, Problem
from ..spelling import alike
from .catalogue import UNKNOWN, Catalogue
from .catalogue import catalogue as whole_catalogue
from .early import early
from .history import History
from .retold import done_behind, retold
from .ruled_apart import ruled_apart
from .slips import passive, slips

# What stands for little words when fingers slip.
SLIPS = {
    "inn": "in",
    "ni": "in",
    "im": "in",
    "on": "in",
    "bye": "by",
    "buy": "by",
    "form": "from",
    "frm": "from",
    "fro": "from",
    "too": "to",
    "fo": "for",
    "four": "for",
    "wiht": "with",
    "whit": "with",
    "ad": "and",
    "nad": "and",
    "int": "into",
    "between": "in",
}
EMPTY = re.compile(
    r" (?:while|whilst|when|during)(?: it was| the house was| house| the)? (?:empty|void|vacant|unlet)$", re.I
)
US = frozenset({"myself", "ourselves", "me", "us"})
LEFT = re.compile(
    r" (?:(?:left|dumped|abandoned)(?: behind| there)?|broken|smashed|damaged|spoilt|ruined|burnt|cracked)$", re.I
)
NAMED = frozenset({"works", "money", "bill"})
NATURES = "fixture, furniture, fabric, outbuilding, garden, consumable or service"
CAME = frozenset({"received", "kept", "banked"})
GONE = frozenset({"sold", "scrapped", "took home", "removed"})
COMES = frozenset(
    {"domestic", "outbuilding"}
)  # what a seller must leave, or somebody bring; a house has the rest anyway


def things_unknown(book: Book, catalogue: Catalogue | None = None) -> list[Problem]:
    """Doubts "thing-unknown": things that neither the catalogue nor the book knows, each word once."""
    return _unknown_things(History(book, catalogue or whole_catalogue()))


def doubts(book: Book, catalogue: Catalogue | None = None) -> list[Problem]:
    """All doubts about the things of a book; its history is gathered once for all of them."""
    history = History(book, catalogue or whole_catalogue())
    return sorted(
        [*_unknown_things(history), *_never_there(history), *slips(history), *retold(history), *early(history),
         *ruled_apart(history)],
        key=lambda problem: problem.order,
    )


def _unknown_things(history: History) -> list[Problem]:
    found: dict[str, Problem] = {}
    kinds: dict[str, str] = {}
    for line, thing in _named(history.book):
        if history.known(thing.name, line.verb) is not UNKNOWN or done_behind(history, line):
            continue
        from ..book import names_told  # only a book with such a thing pays for it

        kinds = kinds or names_told.kinds_in(history.book)
        near = _near(history, line, thing)
        slip = _slipped(history, line, thing)
        if slip is None and (name := names_told.told(line, thing, kinds, slip=bool(near))):
            if line.homes or name.fix is None:  # of a line without a house the builder told it
                found[thing.place.short] = name  # each line has its own way to be put right
        else:
            found.setdefault(thing.name.lower(), slip or _unknown(line, thing, near))
    return sorted(found.values(), key=lambda problem: problem.order)


def _named(book: Book) -> Iterator[tuple[Entry, Thing]]:
    """Every thing named on a line that can have a verdict, with its line."""
    for entry in book.entries:
        for line in (entry, *entry.lines):
            if line.kind not in NAMED or whole_deal(book, line):  # of a house that is bought or sold an error is told
                continue
            swapped = line.becomes.things if line.becomes else ()
            for thing in (*line.things, *swapped):
                yield line, thing


def _slipped(history: History, line: Entry, thing: Thing) -> Problem | None:
    """ "boiler inn kitchen": a known thing, then a misspelt little word; "kitchen myself": a known thing, by us."""
    words = thing.name.split(" ")
    if (left := LEFT.search(thing.name)) and history.known(thing.name[: left.start()], line.verb) is not UNKNOWN:
        return _left_by(line, thing, left[0])
    if EMPTY.search(thing.name) and history.known(EMPTY.sub("", thing.name), line.verb) is not UNKNOWN:
        return _while_empty(thing)
    if words[-1].lower() in US and line.kind == "works" and history.known(" ".join(words[:-1])) is not UNKNOWN:
        return _by_us(line, thing, words[-1])
    for i in range(1, len(words)):
        meant = SLIPS.get(words[i].lower())
        if words[i].lower() == "on" and line.kind != "works":
            continue  # "interest on the loan" is no slip
        head = " ".join(words[:i])
        if meant is None or history.known(head, line.verb) is UNKNOWN:
            continue
        mark = thing.place.mark()
        at = mark.text.lower().find(f" {words[i].lower()}", mark.column - 1 + len(head) - 1)
        if at < 0:
            continue
        spot = Mark(mark.file, mark.line, at + 2, at + 2 + len(words[i]), mark.text, f'"{meant}"?')
        fix = Fix(spot, meant)
        return Problem(
            "thing-unknown",
            Level.DOUBT,
            f'Did you mean "{head} {meant} …"?',
            (spot,),
            f'As it stands this is a thing called "{thing.name}". Write: {fix.line.strip()}',
            fix=fix,
        )
    return None


def _left_by(line: Entry, thing: Thing, last: str) -> Problem | None:
    """cleared rubbish left by tenant £150.00: who left it, or did the harm, is no party of the line."""
    mark = line.place.mark()
    typed = mark.text[mark.column - 1 : mark.end - 1]
    found = re.search(rf"[ \t]+(?P<said>{last.strip()}(?:[ \t]+by[ \t]+(?:(?:the|my|our) )?[\w'-]+)?)\b", typed, re.I)
    if found is None:
        return None
    said = f'{typed[: found.start()]}{typed[found.end() :]}, because "{found["said"]}"'
    fix = Fix(Mark(mark.file, mark.line, mark.column, mark.end, mark.text), said)
    help = "Tell it in your own words, behind the rest."
    headline = f'"{thing.name}" is not in the catalogue of things.'
    return Problem("thing-unknown", Level.DOUBT, headline, (thing.place.mark("what is this?"),), help, fix=fix)


def _while_empty(thing: Thing) -> Problem:
    """paid gas while empty £96.40: the lets tell when the house was empty."""
    mark = thing.place.mark("your lets tell it")
    typed = mark.text[mark.column - 1 : mark.end - 1]
    fix = Fix(Mark(mark.file, mark.line, mark.column, mark.end, mark.text), EMPTY.sub("", typed))
    help = "Leave it out: your tenancies tell when the house was empty."
    return Problem(
        "thing-unknown", Level.DOUBT, f'"{thing.name}" is not in the catalogue of things.', (mark,), help, fix=fix
    )


def _by_us(line: Entry, thing: Thing, who: str) -> Problem:
    """fitted kitchen myself: who did it is told as own labour."""
    mark, place = thing.place.mark(f"{who}?"), line.place.mark()
    text = place.text[place.column - 1 : place.end - 1]
    at = text.lower().find(f" {who.lower()}")
    meant = text[:at] + text[at + len(who) + 1 :] + ("" if line.facts.own_labour else ", own labour")
    fix = Fix(Mark(place.file, place.line, place.column, place.end, place.text), meant) if at >= 0 else None
    return Problem(
        "thing-unknown", Level.DOUBT, f'"{thing.name}" is not in the catalogue of things.', (mark,),
        "That you did it yourself is told behind a comma, `own labour`, with the hours if you like.", fix=fix,
    )  # fmt: skip


def _near(history: History, line: Entry, thing: Thing) -> tuple[str, ...]:
    """The names in the catalogue that a slip of the keys may have missed, of those that can stand there: nobody
    receives a lift. Of a short word the first letter is hardly ever the wrong one."""
    typed = thing.name.lower()
    found = (name for name in history.catalogue.near(thing.name) if alike(typed, name))
    if line.kind == "money" and line.verb in CAME:
        found = (name for name in found if history.known(name, line.verb).money)
    return tuple(dict.fromkeys(name for name in found if len(typed) > 4 or name[0] == typed[0]))


def _unknown(line: Entry, thing: Thing, near: tuple[str, ...]) -> Problem:
    mark = thing.place.mark("what is this?")
    declare = f"thing {thing.name} is {NATURES}"
    if thing.name.lower().startswith("part "):
        return Problem(
            "thing-unknown", Level.DOUBT, f'"{thing.name}" is not in the catalogue of things.', (mark,),
            f'Leave "part" out: the sum tells that it is only part of the {thing.name[5:]}.',
        )  # fmt: skip
    if re.fullmatch(r"re-?[a-z]+ed|[a-z]+(?:ated|ered|aired|alled)", thing.name, re.I):
        return Problem(
            "thing-unknown", Level.DOUBT, f'"{thing.name}" is no thing but something that was done.', (mark,),
            "A line tells one job, with its verb in front. Where one bill was for several, write the bill, "
            "`invoiced £… by …`, and indented under it a line for each job: `repaired plaster £…`, say.",
        )  # fmt: skip
    if not near and line.kind == "money" and line.verb in CAME:
        return Problem(
            "thing-unknown", Level.DOUBT, f'"{thing.name}" is not in the catalogue of things.', (mark,),
            "Money that came goes by the name the catalogue has for it, such as rent, deposit, insurance, refund, "
            "compensation or grant. What has nothing to do with the letting, a gift or wages, say, is left out of the "
            "book.",
        )  # fmt: skip
    if not near and line.kind == "money":
        return Problem(
            "thing-unknown", Level.DOUBT, f'"{thing.name}" is not in the catalogue of things.', (mark,),
            "A sum goes by the name the catalogue has for it, such as insurance, cleaning, legal fees or parking; "
            f"`explain` and a name tells whether it knows it. If it is a cost of another kind, or a thing, say what "
            f"in the first column: thing {thing.name} is service; or {NATURES.replace(' or service', '')}.",
        )  # fmt: skip
    if not near:
        return Problem(
            "thing-unknown",
            Level.DOUBT,
            f'"{thing.name}" is not in the catalogue of things.',
            (mark,),
            f"Say in your book what it is, in the first column: {declare}.",
        )
    fix = Fix(Mark(mark.file, mark.line, mark.column, mark.end, mark.text), near[0])
    return Problem(
        "thing-unknown",
        Level.DOUBT,
        f'"{thing.name}" is not in the catalogue of things.',
        (mark,),
        f"Did you mean {' or '.join(near)}? If it is something else, say what, in the first column: {declare}.",
        fix=fix,
    )


def never_there(book: Book, catalogue: Catalogue | None = None) -> list[Problem]:
    """Doubts "never-there": a loose thing or an outbuilding that leaves a house it never came to, as far as told."""
    return _never_there(History(book, catalogue or whole_catalogue()))


def _never_there(history: History) -> list[Problem]:
    problems = []
    for (house, key), lines in history.lines.items():
        if (house, key) in history.left:
            continue
        for line in lines:
            thing = next((t for t in line.entry.things if history.key(t.name, line.verb) == key), None)
            if line.verb not in GONE or thing is None or line.entry.facts.was_there:
                continue
            known = history.known(thing.name, line.verb)
            if known.nature not in COMES or history.had(house, key, line.day + timedelta(1)):
                continue
            many = thing.name.lower().endswith("s") and not thing.name.lower().endswith("ss")
            problems.append(
                Problem(
                    "never-there",
                    Level.DOUBT,
                    f"The {thing.name} {'were' if many else 'was'} {passive(line.verb)}, but your book never tells how "
                    f"{'they' if many else 'it'} came to {house}.",
                    (thing.place.mark("never bought, installed or left here"),),
                    "Add to the line `, left by seller` or `, ours before`; or to the house "
                    f"`left by seller {thing.name}`; or write the line that bought it.",
                )
            )
    return sorted(problems, key=lambda problem: problem.order)
