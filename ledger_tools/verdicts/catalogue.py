"""The things that stand after a verb in a book: what each is by nature, or what a sum of that name is.

The things themselves are data, in things/*.toml. Decides no tax and does not know how a book was typed or read.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Any

from ..kept import kept
from ..record import record

FOLDER = Path(__file__).parent / "things"
DECLARED = {  # what a book may call a thing of its own: nature, the same again, the first one
    "fabric": ("fabric", "rev", "cap"),
    "fixture": ("fixture", "rev", "cap"),
    "furniture": ("domestic", "dom", "cnr"),
    "outbuilding": ("outbuilding", "arguable", "cap"),
    "garden": ("garden", "rev", "cap"),
    "consumable": ("consumable", "run", "run"),
    "service": ("service", "run", "run"),
}


@record
class Thing:
    """One entry: a physical thing or job (it has a `nature`), or the name of a sum of money (it has a `kind`).

    again and first say what is usual where it is replaced by the same and where there was none before: rev, cap,
    dom, cnr, run, arguable, job (follows the job it serves) or "". category is the class of expense or income of
    the property pages, "" where it is on none of its own. verbs, where told, are the only verbs it goes with.
    """

    name: str
    nature: str = ""
    kind: str = ""
    category: str = ""
    statute: bool = False  # a fixture because the Act names it
    doubtful: bool = False  # honest people differ on its nature
    furnishing: bool = False  # no plant though fixed: the Act calls only fixed plant a fixture (ITTOIA 2005 s.311A(14))
    whole: bool = False  # a whole of its own, not a part of the house
    room: bool = False
    often_own: bool = False  # as often the landlord's own kit as left for the tenant
    small: bool = False  # a trifle: worn or broken, the next one is never more than its equal
    essential: bool = False  # no home that could be let was ever without one
    again: str = ""
    first: str = ""
    caution: str = ""
    remark: str = ""
    source: str = ""
    verbs: tuple[str, ...] = ()

    @property
    def money(self) -> bool:
        """Whether it names a sum rather than something one can touch or a job."""
        return bool(self.kind)


UNKNOWN = Thing("")


class Catalogue:
    """Every thing known, found by any of its words. Never changes; `extend` gives another one."""

    __slots__ = ("_before", "_index", "_words", "rooms", "things")

    def __init__(self, words: Iterable[tuple[str, Thing]], before: frozenset[str]) -> None:
        """words are pairs of a name or synonym, in plain lower case, and its thing; before: what may stand in front."""
        self._words = tuple(words)
        self.things = tuple({id(thing): thing for _, thing in self._words}.values())
        self.rooms = frozenset(phrase for phrase, thing in self._words if thing.room)
        self._before = before | {word for room in self.rooms for word in room.split()}
        self._index: dict[str, list[Thing]] = {}
        for phrase, thing in self._words:
            known = self._index.setdefault(phrase.replace(" ", ""), [])
            if not any(thing is other for other in known):
                known.append(thing)

    def find(self, words: str, verb: str = "") -> Thing | None:
        """The thing these words name; where they name two, the one that goes with the verb. None where unknown.

        Capitals, hyphens, blanks and regular plurals do not matter; plain words in front ("old", "front bedroom")
        are passed over, the longest known name first; what stands behind a word of place ("leak under sink") tells only
        where. A misspelt word is never taken for another.
        """
        asked = split(words)
        return self._find(asked, verb) or self._find(placeless(asked), verb)

    def _find(self, tail: list[str], verb: str) -> Thing | None:
        first = None
        while tail:
            for form in forms(tail):
                found = self._index.get(form, [])
                if thing := choose(found, verb):
                    return thing
                first = first or next(iter(found), None)
            if tail[0] not in self._before:
                break
            tail = tail[1:]
        return first

    def meanings(self, words: str) -> tuple[Thing, ...]:
        """Every thing these words can name, whatever the verb; found as `find` does, nothing where unknown."""
        asked = split(words)
        return self._meanings(asked) or self._meanings(placeless(asked))

    def _meanings(self, tail: list[str]) -> tuple[Thing, ...]:
        while tail:
            found = next((self._index[form] for form in forms(tail) if form in self._index), None)
            if found:
                return tuple(found)
            if tail[0] not in self._before:
                break
            tail = tail[1:]
        return ()

    def near(self, words: str, n: int = 3) -> tuple[str, ...]:
        """Up to n names or synonyms spelt nearly like the words, the nearest first, one for each thing."""
        asked = split(words)
        tails = [" ".join(asked)]
        while len(asked) > 1 and asked[0] in self._before:
            asked = asked[1:]
            tails.append(" ".join(asked))
        tails += [tail[:-1] for tail in tails if tail.endswith("s")]
        close: list[tuple[int, str, Thing]] = []
        for phrase, thing in self._words:
            limit = slips(phrase)
            letters = set(phrase)
            likely = [tail for tail in tails if len(letters.symmetric_difference(tail)) <= 2 * limit]
            gap = min((distance(tail, phrase, limit) for tail in likely), default=limit + 1)
            if gap <= limit:
                close.append((gap, phrase, thing))
        best: dict[str, str] = {}
        for _, phrase, thing in sorted(close, key=lambda found: found[0]):
            best.setdefault(thing.name, phrase)
        return tuple(best.values())[:n]

    def extend(self, words: Mapping[str, str]) -> Catalogue:
        """This catalogue and the things a book declares, each with its nature; where they differ the book's word wins.

        What is known to follow the job it serves, as labour does, does so where it is called a service too. ValueError
        where the nature is none a book may give.
        """
        told = [(" ".join(split(phrase)), declared(phrase, nature)) for phrase, nature in words.items()]
        serves = {phrase for phrase, thing in self._words if (thing.nature, thing.again) == ("service", "job")}
        own = [(phrase, thing) for phrase, thing in told if phrase not in serves or thing.nature != "service"]
        keys = {phrase.replace(" ", "") for phrase, _ in own}
        kept = [(phrase, thing) for phrase, thing in self._words if phrase.replace(" ", "") not in keys]
        return Catalogue(own + kept, self._before)

    def words_of(self, thing: Thing) -> tuple[str, ...]:
        """The name and synonyms a thing is found by."""
        return tuple(phrase for phrase, known in self._words if known is thing)


@cache
def catalogue() -> Catalogue:
    """The catalogue of the data files, read once."""
    words: list[tuple[str, Thing]] = []
    before: set[str] = set()
    texts = [file.read_text(encoding="utf-8") for file in sorted(FOLDER.glob("*.toml"))]
    for data in kept("things", "\n".join(texts), lambda: [_read(text) for text in texts]):
        before.update(data.get("before", "").split())
        words += entries(data)
    return Catalogue(words, frozenset(before))


def _read(text: str) -> dict[str, Any]:
    import tomllib  # a third of a kept catalogue's cost

    return tomllib.loads(text)


def entries(data: Mapping[str, Any]) -> Iterator[tuple[str, Thing]]:
    """The words and things of one data file; what an entry does not say is taken from the file's `otherwise`."""
    otherwise = data.get("otherwise", {})
    plain = ({"name": name, "also": also} for name, also in data.get("plain", {}).items())
    for entry in (*plain, *data.get("thing", ()), *data.get("money", ())):
        said = {**otherwise, **entry}
        also = said.pop("also", "")
        if "box" in said:
            said["category"] = said.pop("box")
        if "verbs" in said:
            said["verbs"] = tuple(said["verbs"].split(", "))
        thing = Thing(**said)
        yield thing.name, thing
        for word in also.split(", ") if also else ():
            yield word, thing


def declared(name: str, nature: str) -> Thing:
    """A thing as a book declares it (`thing stone trough is garden`). ValueError where the nature is unknown."""
    if nature not in DECLARED:
        raise ValueError(f"a thing is one of {', '.join(DECLARED)}, not {nature!r}")
    kind, again, first = DECLARED[nature]
    box = "services" if nature == "service" else "repairs"
    return Thing(
        " ".join(split(name)),
        nature=kind,
        category=box,
        whole=kind == "outbuilding",
        again=again,
        first=first,
        source="declared in the book",
    )


def choose(found: list[Thing], verb: str) -> Thing | None:
    """Of the things a word can mean, the one that goes with the verb; else one that goes with any; else none."""
    by_verb = (thing for thing in found if verb in thing.verbs)
    by_any = (thing for thing in found if not thing.verbs)
    return next(by_verb, None) or next(by_any, None)


APART = str.maketrans(
    {
        **dict.fromkeys("-\u2010\u2011\u2012\u2013_/,\u00a0", " "),
        **dict.fromkeys("'\u2019\u2018.`", None),
        "&": " and ",
    }
)


def split(words: str) -> list[str]:
    """The plain lower-case words of a phrase: hyphens part them, apostrophes and full stops drop out."""
    return words.translate(APART).casefold().split()


PLACE = frozenset("under underneath beneath behind above over below beside near around along".split())


def placeless(words: list[str]) -> list[str]:
    """The words before the first word of place; none where there is no such word, or nothing before it."""
    return next((words[:i] for i, word in enumerate(words) if word in PLACE), [])


HISSING = ("s", "x", "z", "ch", "sh")


def forms(words: list[str]) -> Iterator[str]:
    """A phrase run together as it stands, in the singular and in the plural, where those are regular."""
    phrase = "".join(words)
    yield phrase
    if phrase.endswith("ies"):
        yield phrase[:-3] + "y"
    if phrase.endswith("ves"):
        yield phrase[:-3] + "f"
        yield phrase[:-3] + "fe"
    if phrase.endswith("es") and phrase[:-2].endswith(HISSING):
        yield phrase[:-2]  # box-es
        yield phrase[:-1]  # fuse-s
    elif phrase.endswith("s") and not phrase[:-1].endswith(HISSING) and not bare_y(phrase[:-1]):
        yield phrase[:-1]
    if phrase.endswith(HISSING):
        yield phrase + "es"
    elif bare_y(phrase):
        yield phrase[:-1] + "ies"
    else:
        yield phrase + "s"


def bare_y(word: str) -> bool:
    """Whether it ends in a consonant and y, so that its plural ends in -ies."""
    return len(word) > 1 and word[-1] == "y" and word[-2] not in "aeiou"


def slips(word: str) -> int:
    """How many slips of the finger a word of this length may hold and still be recognised."""
    return max(1, (len(word) + 1) // 4)


def distance(a: str, b: str, limit: int) -> int:
    """How many letters to put in, leave out, change or swap with a neighbour; limit + 1 where it is more than limit."""
    if abs(len(a) - len(b)) > limit:
        return limit + 1
    older: list[int] = []
    last = list(range(len(b) + 1))
    for i, x in enumerate(a, 1):
        row = [i]
        for j, y in enumerate(b, 1):
            cost = min(last[j] + 1, row[j - 1] + 1, last[j - 1] + (x != y))
            if i > 1 and j > 1 and x == b[j - 2] and a[i - 2] == y:
                cost = min(cost, older[j - 2] + 1)
            row.append(cost)
        if min(row) > limit:
            return limit + 1
        older, last = last, row
    return last[-1]
