"""What a book tells of the state of a home to people outside: to councils, tax offices, lenders, insurers.

Gathers it, with what came of each claim, and says which question was asked. Decides nothing and judges no sum.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from ..book.entries import Entry
from ..book.items import same_party
from ..book.world import Book, Property
from ..record import record
from .cautions import caution
from .history import History
from .verdict import Verdict

FILE = Path(__file__).with_name("declared.toml")
ANSWERS = frozenset({"granted", "refused"})
LICENCE = "licence"
UNSAFE = "unsatisfactory"


@record
class Question:
    """The question that was asked: what it is called, what it asks, on what authority and how far that was read.

    settles: who meets it can hardly say that the home could be let. whenever: it is about the day of purchase,
    whatever day it is claimed on.
    """

    slug: str
    asks: str
    authority: str
    status: str
    settles: bool
    whenever: bool
    words: tuple[str, ...]
    parties: tuple[str, ...]
    kind: str
    unfit: tuple[str, ...] = ()

    def claims_unfit(self, text: str) -> bool:
        """Whether these words claim in themselves that a home was unfit; they begin and end with a blank."""
        return any(f" {word} " in text for word in self.unfit)

    def named(self, text: str) -> bool:
        """Whether these words name it; they begin and end with a blank."""
        return any(f" {word} " in text for word in self.words)

    def asked_by(self, who: frozenset[str], kind: str) -> bool:
        """Whether a party of one of these names, or of this kind, asks it."""
        return not who.isdisjoint(self.parties) or bool(self.kind and kind == self.kind)


@cache
def questions() -> tuple[Question, ...]:
    """Every question held, in the order of trying."""
    held = tomllib.loads(FILE.read_text(encoding="utf-8"))["question"]
    lists = ("words", "parties", "unfit")
    return tuple(Question(**row | {name: tuple(row.get(name, ())) for name in lists}) for row in held)


@cache
def systems() -> dict[str, tuple[str, ...]]:
    """The wholes people speak of, by their name in the catalogue, with the things that make them up."""
    held = tomllib.loads(FILE.read_text(encoding="utf-8"))["system"]
    return {row["word"]: tuple(row["parts"]) for row in held}


@record
class Told:
    """One thing that was said of a home. word: "unfit", "fit", or "barred" for a paper that forbids letting it.

    things: the names in the catalogue of what it was about; nothing where it was the whole home. rooms the same for
    rooms. answer: the line that tells what came of a claim, None where none does.
    """

    entry: Entry
    house: Property
    word: str
    question: Question
    things: frozenset[str] = frozenset()
    rooms: frozenset[str] = frozenset()
    answer: Entry | None = None
    band: str = ""  # of an energy certificate
    caution: str = ""  # where what failed can hurt somebody

    @property
    def who(self) -> str:
        """To whom it was said, as printed; by whom, where it is a paper."""
        return self.entry.who.full if self.entry.who else "somebody"

    @property
    def day(self) -> str:
        """The day it was said, in words; a month where only that is known."""
        return str(self.entry.day)

    @property
    def words(self) -> str:
        """What was said, as quoted in the book; else the words of the fact; of a paper, what it found."""
        if self.word == "barred":
            return f"energy band {self.band.upper()}" if self.band else self._outcome
        facts = self.entry.facts
        quoted = (self.entry.note, *facts.because, *facts.says)
        said = "; ".join(text for text in quoted if text)
        return said or (f"called it {facts.called.word}" if facts.called else _claimed(self.entry).strip())

    @property
    def _outcome(self) -> str:
        return f"{self.entry.thing} {'refused' if self.entry.verb == 'refused' else self.entry.facts.found}"

    @property
    def won(self) -> bool:
        """Whether the last the book tells of it is that it was granted."""
        return self.answer is not None and self.answer.verb == "granted"

    @property
    def lost(self) -> bool:
        """Whether the last the book tells of it is that it was refused."""
        return self.answer is not None and self.answer.verb == "refused"


@record
class Stake:
    """A sum at stake: its verdict, and so many pence of it. open: the verdict itself is arguable."""

    verdict: Verdict
    pence: int
    open: bool = False


@record
class Matter:
    """One thing that was told, as a rule of stage I sees it.

    repairs: what comes off the rents, or may, and would be part of the purchase had the home been unfit as told.
    purchase: what the book counts as part of the purchase. others: what else was told of the same house near its
    purchase. resting: what rests on a record that says the contrary of a claim that was granted.
    """

    told: Told
    repairs: tuple[Stake, ...]
    purchase: tuple[Stake, ...]
    others: tuple[Told, ...]
    resting: tuple[Stake, ...] = ()

    @property
    def held(self) -> tuple[Stake, ...]:
        """All the sums that what was told is held against, in the order of the book."""
        found = {id(stake.verdict): stake for stake in (*self.resting, *self.repairs)}
        return tuple(sorted(found.values(), key=lambda stake: stake.verdict.item.line.day.first))

    @property
    def pence(self) -> int:
        """What is at stake in all."""
        return sum(stake.pence for stake in self.repairs)

    @property
    def evidence(self) -> str:
        """The paper that shows it could be let as bought; nothing where the book names none."""
        home = self.told.house
        return "; ".join(home.as_bought_says) if home.as_bought == "lettable" else ""


def declares(book: Book) -> bool:
    """Whether a book tells anything that stage I looks at. Quick: nothing is judged for it."""
    return any(
        line.facts.called
        or line.facts.energy_band
        or line.facts.found == UNSAFE
        or _licence_refused(book, line)
        or claims_unfit(book, line)
        for entry in book.entries
        for line in (entry, *entry.lines)
    )


def _licence_refused(book: Book, line: Entry) -> bool:
    return line.verb == "refused" and not line.facts.called and question_of(book, line).slug == LICENCE


def told(history: History) -> tuple[Told, ...]:
    """All that a book tells of the state of its homes, in its order."""
    answers = [entry for entry in history.book.entries if entry.verb in ANSWERS]
    found = [*_said(history, answers), *_papers(history)]
    return tuple(sorted(found, key=lambda t: (t.entry.day.first, t.entry.place.file, t.entry.place.line, t.house.name)))


def _said(history: History, answers: list[Entry]) -> Iterator[Told]:
    """What was called fit or unfit. An answer that repeats the words of a claim is no second statement."""
    entries = [entry for entry in history.book.entries if entry.facts.called or claims_unfit(history.book, entry)]
    claims = [entry for entry in entries if entry.verb not in ANSWERS]
    for entry in entries:
        called, question = entry.facts.called, question_of(history.book, entry)
        if entry.verb in ANSWERS and any(_answers(history.book, entry, claim) for claim in claims):
            continue
        things = called.things if called else ()
        named = {history.key(thing.name) for thing in things}
        rooms = {thing.name for thing in things if thing.name in history.catalogue.rooms}
        known = {key for key in named if history.known(key).name}
        everything = named != known  # a word nobody knows cannot be held against single works: all are meant
        for share in entry.homes:
            yield Told(
                entry,
                history.book.properties[share.house],
                called.word if called else "unfit",
                question,
                frozenset() if everything else parts_of(known),
                frozenset() if everything else frozenset(rooms | {room.text for room in entry.rooms}),
                entry if entry.verb in ANSWERS else answer_to(history.book, entry, answers),
            )


def parts_of(named: set[str]) -> frozenset[str]:
    """The things named, with the parts of those that are wholes."""
    return frozenset(named.union(*(systems().get(key, ()) for key in named)))


def claims_unfit(book: Book, entry: Entry) -> bool:
    """Whether a line claims what is given only for a home that was unfit, such as a discount for major repair."""
    return entry.verb == "claimed" and bool(entry.homes) and question_of(book, entry).claims_unfit(_claimed(entry))


def _claimed(entry: Entry) -> str:
    return f" {' '.join((*(thing.name for thing in entry.things), entry.purpose)).lower()} "


def question_of(book: Book, entry: Entry) -> Question:
    """The question behind a line: by what it claims, else by whom it was told to."""
    text = _claimed(entry)
    if entry.council_class:
        text += "class "
    who = entry.who
    names = frozenset({who.name.lower(), who.full.lower()} - {""}) if who else frozenset()
    kind = _kind(book, who.name) if who else ""
    held = questions()
    said = next((question for question in held if question.named(text)), None)
    return said or next((question for question in held if question.asked_by(names, kind)), held[-1])


def _kind(book: Book, name: str) -> str:
    """council, lender, insurer, supplier or agent; nothing for a name the book has no block for."""
    councils = {council for council, _ in book.schemes} | {home.council for home in book.properties.values()}
    if name and (name in book.councils or name in councils):
        return "council"
    if name in book.loans:
        return "lender"
    return book.parties[name].kind if name in book.parties else ""


def answer_to(book: Book, claim: Entry, answers: list[Entry]) -> Entry | None:
    """What came of a claim: the last line granting or refusing the same words, whoever gave it; else the first
    answer on the same question by the same party. None where nothing is told."""
    later = [entry for entry in answers if _answers(book, entry, claim)]
    same = [entry for entry in later if _words(entry) == _words(claim)]
    return same[-1] if same else next((entry for entry in later if same_party(entry, claim)), None)


def _answers(book: Book, answer: Entry, claim: Entry) -> bool:
    """Whether a line that grants or refuses may be the answer to a claim."""
    homes = {share.house for share in claim.homes}
    return (
        answer.day.last >= claim.day.first
        and not homes.isdisjoint(share.house for share in answer.homes)
        and question_of(book, answer).slug == question_of(book, claim).slug
    )


def _words(entry: Entry) -> tuple[str, ...]:
    return tuple(thing.name for thing in entry.things)


# ── papers that bar a letting ────────────────────────────────────────────────────────────────────────────────────


def _papers(history: History) -> Iterator[Told]:
    """Energy certificates, reports that were not satisfactory, and licences refused."""
    other = questions()[-1]
    for entry in history.book.entries:
        for line in (entry, *entry.lines):
            named = {history.key(thing.name, line.verb) for thing in line.things}
            refused = _licence_refused(history.book, line)
            for share in line.homes:
                home = history.book.properties[share.house]
                if line.facts.energy_band:
                    yield Told(line, home, "barred", other, parts_of(named), band=line.facts.energy_band)
                elif line.facts.found == UNSAFE:
                    hurts = caution(history.known(line.thing, line.verb).caution)
                    yield Told(line, home, "barred", other, parts_of(named), caution=hurts)
                elif refused:
                    yield Told(line, home, "barred", question_of(history.book, line))
