"""Dated lines without a verb, as a book in a hurry has them: what the words that open them tell, and the line to paste.

Knows the catalogue and the names of the book; decides no tax. A mistake that the language could name is left alone.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from datetime import date

from ..book.build import build
from ..book.entries import Entry
from ..book.names_told import kinds_in, what_was_done
from ..book.world import Book
from ..language.blocks import Block
from ..language.mending import mistakes
from ..language.mistakes.tables import BROKE, NOUNS, ROOM, WORN, old_one_said
from ..language.reading import read
from ..money import pence
from ..problems import Fix, Mark, Problem
from ..verdicts.catalogue import UNKNOWN, Catalogue
from ..verdicts.catalogue import catalogue as whole_catalogue
from ..verdicts.history import History
from ..verdicts.retold import REASONS, works_behind
from . import net_sums
from .taken_apart import Told, taken_apart

CODES = frozenset({"unknown-verb", "verb-missing", "verb-first"})
_HEAD = re.compile(r"[^£]*£[\d,.]*\d(?:[ \t]+(?:at|by|from|to)[ \t]+(?:\"[^\"]+\"|[\w-]+))*")
_WORDS_ALONE = re.compile(r"(?!.*\bvat\b)[^\d£%\"+#]+", re.I)
_OLD = re.compile(rf"\b(?:like for like|modern equivalent|worn out|old (?:ones?|[a-z]+)\b.*\b(?:{WORN}|{BROKE}))", re.I)
_FIRST = re.compile(r"\bnone before\b", re.I)
_OFF = re.compile(r"\boff\b(?= )", re.I)
_TIMES = re.compile(r"(?P<thing>.+?) ?x ?(?P<count>\d+)")
_DID = re.compile(r"(?:has |have )?(?:did|done|does|sorted|looked at)\b(?: the| a)? *", re.I)
_FAILED = re.compile(
    r"(?:burst|leaking|leaky|slipped|cracked|blocked|broken|blown|knackered|faulty|dripping|rotten)\b", re.I
)
_VAT = re.compile(r"(?:\+|plus)[ \t]*vat\b(?![ \t]*£)", re.I)
_RENT = re.compile(r"(?:(?:first |last )?(?:months?|month's|weeks?|week's) )?rents?|paid(?: the)?(?: rent)?")


def with_verbs(book: Book, catalogue: Catalogue | None = None) -> list[Problem]:
    """The problems of a book, with the line to paste for those without a verb that the catalogue knows or the book's
    own names explain, and with the lines behind sums that agents sent."""
    if not any(problem.code in (*CODES, "net-only") and problem.fix is None for problem in book.problems):
        return list(book.problems)
    kinds = kinds_in(book)
    declared = {word.name: word.nature for word in book.thing_words.values()}
    known = (catalogue or whole_catalogue()).extend(declared)
    nets = {entry.source: entry for entry in book.entries if entry.verb == "banked" and not entry.lines}
    found = []
    for problem in book.problems:
        if problem.code == "net-only":
            found.append(_with_lines(problem, nets, book))
        elif problem.code in CODES and problem.fix is None and problem.marks:
            found.append(_put(problem, kinds, known, book))
        else:
            found.append(problem)
    return found


def _with_lines(problem: Problem, nets: Mapping[str, Entry], book: Book) -> Problem:
    place = problem.marks[0]
    entry = nets.get(f"{place.file}:{place.line}")
    agent = book.parties.get(entry.who.name) if entry and entry.who else None
    lines = net_sums.behind(book, agent, entry.day.first, entry.amount or 0) if entry and agent else ""
    if not lines:
        return problem
    end = len(place.text.rstrip()) + 1
    return replace(problem, help=_BEHIND, fix=Fix(Mark(place.file, place.line, end, end, place.text), lines))


_BEHIND = (
    "By the agent's terms this is one month's rent less the fee. If the statement says the same, these are its lines; "
    "if not, write what it says. The return wants the full rent, and the fee as an expense."
)


def _put(problem: Problem, kinds: Mapping[str, str], catalogue: Catalogue, book: Book) -> Problem:
    place = problem.marks[0]
    told = taken_apart(place, book, kinds)
    if told is None:
        return problem
    answer = _of_name(told, catalogue, book) or _of_thing(told, catalogue) or _without_house(told)
    help, line = answer or ("", "")
    if not help:
        return problem
    whole = Mark(place.file, place.line, 1, len(place.text) + 1, place.text)
    return replace(problem, help=help, fix=Fix(whole, line) if line else None)


# ── a name of the book ───────────────────────────────────────────────────────────────────────────────────────────


def _of_name(told: Told, catalogue: Catalogue, book: Book) -> tuple[str, str] | None:
    """swift £898.80, rent £650 shaw, gas £40 dk: the name says who paid or had it."""
    named = told.named
    if named is None:
        return None
    name, sum_ = named.name, told.sum
    if named.kind == "tenancy":
        return _of_let(told, name, catalogue, book)
    if named.kind == "agent" and re.fullmatch(r"(?:(?:paid|sent|transferred)(?: us| me| over)?)?", told.what, re.I):
        agent = book.parties.get(name) if not told.after else None
        lines = net_sums.behind(book, agent, *_day_and_pence(told)) if agent else ""
        if lines:
            return _BEHIND, f"{told.day} banked {sum_} from {name}{lines}"
        return (
            f"What an agent sends is `banked {sum_} from {name}`, and indented under it a line for each part of the "
            f"statement: `received rent £… from …`, `paid management fee £…`. What you pay an agent yourself is `paid "
            f"management fee {sum_} to {name}`."
        ), ""
    if named.kind == "loan" and not told.what:
        return (
            f"Write `paid mortgage interest {sum_} to {name}` if all of it was interest, else `paid mortgage {sum_} to "
            f"{name}, of which interest £…`, as the lender's statement says."
        ), ""
    if named.kind == "supplier" and not told.what:
        return what_was_done(sum_, name), ""
    if named.kind == "supplier" and (done := _DID.match(told.what)):
        return _of_thing(replace(told, what=told.what[done.end() :]), catalogue, f" to {name}")
    if named.kind in ("supplier", "landlord"):
        return None
    return _of_thing(told, catalogue, f" to {name}")


def _day_and_pence(told: Told) -> tuple[date, int]:
    day = read(f"{told.day} paid x £1").statement
    assert day is not None
    first = next(clause for clause in day.clauses if clause.kind == "day").values[0].value
    return first if isinstance(first, date) else date(first[0], first[1], 1), pence(told.sum.lstrip("£ "))


def _of_let(told: Told, name: str, catalogue: Catalogue, book: Book) -> tuple[str, str] | None:
    """rent £650 shaw, shaw paid £250, deposit £700 off shaw, eviction costs hart £391."""
    sum_, what = told.sum, re.sub(r"^(?:the|first|last|their|his|her)\b ?", "", told.what.lower())
    came = f"`received rent {sum_} from {name}`"
    if not what and _RENT.fullmatch(told.after.strip().lower()):  # ellis 560 rent
        what, told = "rent", replace(told, after="")
    if _RENT.fullmatch(what):
        line = _whole(told.line("received", "rent", f" from {name}"))
        more = "" if line else f': {came}. Your own words behind it stand in quotation marks, `because "…"`'
        return f"Rent from a tenant was received{more or '.'}" + ("." if more else ""), line
    if what in ("deposit", "bond"):
        back, came = f"`repaid deposit {sum_} to {name}`", f"`received deposit {sum_} from {name}`"
        return f"Which way did the money go? Write {came} if it came to you, {back} if it went back.", ""
    cost = catalogue.find(told.what, "paid")
    if cost is not None and cost.money and cost.kind not in ("income", "liability"):
        house = "" if told.house or name not in book.tenancies else f" at {book.tenancies[name].house}"
        line = _whole(told.line("paid", behind=house))
        return f'The verb comes straight after the date, and "{told.what}" is a cost: it was paid.', line
    if told.what:
        return None
    back = f"`repaid deposit {sum_} to {name}`"
    return f"Which way did the money go? Write {came} if it came to you, {back} if you gave it back.", ""


def _without_house(told: Told) -> tuple[str, str] | None:
    """washing machine repair sea-11 £65: what the language says of it, once the house is out of its way."""
    if not told.house or told.named is not None:
        return None
    line = f"{told.day} {told.what}{told.before} {told.sum}{told.after}"
    mended = _mended(line)
    at = mended.find(told.sum) + len(told.sum)
    if mended == line or read(mended).stop is not None or at < len(told.sum):
        return None
    return "The verb comes straight after the date, and the house stands behind the sum.", (
        mended[:at] + told.house + mended[at:]
    )


# ── a thing or a sum of the catalogue ────────────────────────────────────────────────────────────────────────────


def _of_thing(told: Told, catalogue: Catalogue, behind: str = "") -> tuple[str, str] | None:
    """ironmongery £74.50 from jewsons, smoke alarms £42: what was paid for is known, and so what can have been done."""
    if times := _TIMES.fullmatch(told.what):
        told = replace(told, what=f"{times['count']} {times['thing']}")
    told = _in_room(told, catalogue)
    bare = re.sub(r"^(?:a |an |the |some |my )?(?:new )?", "", told.what, flags=re.I)
    bare = re.sub(r" and and ", " and ", bare)
    each = [catalogue.find(re.sub(r"^\d+ ", "", word), "paid") or UNKNOWN for word in bare.split(" and ")]
    whole = catalogue.find(bare, "paid")
    paid = whole or each[0]
    if not bare or whole is None and UNKNOWN in each:
        return None
    if _came(told, catalogue):
        return _rents_of(told)
    if _VAT.search(told.after):
        kept = f"{told.house}{_VAT.sub('', told.after)}".strip()
        return (
            f"The verb comes straight after the date, and a line gives the whole sum: `{told.day} paid {bare} £… {kept}"
            f"`, with VAT in it; or `£{told.sum[1:]}`, and behind it `, plus vat £…`."
        ), ""
    if paid.nature == "consumable":
        line = _whole(told.line("bought", bare, re.sub(r"^ to ", " from ", behind)))
        return ("Goods that are used up were bought.", line) if line else None
    entry = _entry(f"{told.day} paid {bare} {told.sum}")
    works = works_behind(History(build({}), catalogue), entry) if entry else {}
    if not works:
        line = _whole(_joint(told.line("paid", bare, behind)))
        return (f'The verb comes straight after the date, and "{bare}" is a cost: it was paid.', line) if line else None
    return _works(told, bare, behind, tuple(works))


def _works(told: Told, thing: str, behind: str, verbs: tuple[str, ...]) -> tuple[str, str] | None:
    """What was done to a thing, by what else the line tells; where that is open, a line for each answer."""
    behind = re.sub(r"^ to ", " from " if "bought" in verbs else " by ", behind)
    tail = f"{told.before}{told.after}"
    if _FAILED.match(thing):
        verbs = tuple(verb for verb in ("repaired", "replaced") if verb in verbs)
    if _OLD.search(tail) and "replaced" in verbs:
        verbs = ("replaced",)
    elif _FIRST.search(tail):
        verbs = tuple(verb for verb in verbs if verb in ("installed", "bought"))
    elif re.search(r"\bfrom\b", tail, re.I):
        verbs = tuple(verb for verb in verbs if verb != "repaired")  # a shop mends nothing
    lines = {verb: _whole(told.line(verb, thing, behind)) for verb in verbs}
    if not all(lines.values()) or not lines:
        return None
    help = "The verb comes straight after the date, and it decides the tax."
    if len(lines) == 1:
        return help, next(iter(lines.values()))
    told_ = [f"`{line}` {REASONS[verb]}" for verb, line in lines.items()]
    return f"{help} Write {', '.join(told_[:-1])}, or {told_[-1]}.", ""


def _rents_of(told: Told) -> tuple[str, str] | None:
    """room rents cedar-3 £860: rent of a house whose lets each have a name."""
    if not told.house or told.named or not _RENT.fullmatch(told.what.lower().removeprefix("room ")):
        return None
    return (
        f"Rent was received, and it goes by the tenancy: `received rent {told.sum} from …`, with the tenancy's name; "
        "of several lets a line for each, with what each paid."
    ), ""


def _in_room(told: Told, catalogue: Catalogue) -> Told:
    """lino kitchen £185: a known thing, and the room it is in behind it."""
    if floor := re.fullmatch(r"(?P<new>new )?(?P<thing>.+?) (?P<floor>upstairs|downstairs|outside)", told.what, re.I):
        return replace(told, what=f"{floor['floor']} {floor['thing']}")
    found = re.fullmatch(rf"(?P<thing>.+?) (?P<room>{ROOM})", told.what, re.I)
    if found is None or catalogue.find(told.what) or not catalogue.find(found["thing"]):
        return told
    return replace(told, what=found["thing"], before=f" in {found['room']}{told.before}")


def _came(told: Told, catalogue: Catalogue) -> bool:
    """Whether a sum of that name may as well have come: the language asks which way it went."""
    came, paid = catalogue.find(told.what, "received"), catalogue.find(told.what, "paid")
    if paid is not None and paid.kind == "liability":
        return True
    row = next((noun for noun in NOUNS if told.what.lower() in noun.typed), None)
    if row is not None and (not row.came or row.went.startswith("paid")):
        return bool(row.came)
    firm = told.named is not None and told.named.kind != "tenancy"
    gone = firm or re.search(r"\b(?:to|by)\b", f"{told.before}{told.after}", re.I) is not None
    return came is not None and came.kind == "income" and not gone


def _joint(line: str) -> str:
    """What was paid went to somebody: "by kestrel" is "to kestrel" then."""
    head, comma, facts = line.partition(", ")
    return re.sub(r"\b(?:by|from)\b(?= +[\"\w])", "to", head, count=1, flags=re.I) + comma + facts


def _whole(line: str) -> str:
    """The line if it reads; else as its own mistakes put it right, or with what cannot be read behind its sum as words
    of your own. "" where that holds a figure, which no line may lose."""
    line = _OFF.sub("from", line)
    head = _HEAD.match(line)
    rest = line[head.end() :].strip(" ,") if head else ""
    kept = f'{head[0]}, because "{rest}"' if head and _WORDS_ALONE.fullmatch(rest) else ""
    return next((text for text in (line, _mended(line), kept) if text and read(text).stop is None), "")


def _mended(line: str) -> str:
    told = mistakes(Block(old_one_said(line), 1), "")
    return told[-1].fix.line if told and told[-1].fix is not None else old_one_said(line)


def _entry(line: str) -> Entry | None:
    """The line as the entry of a book that holds nothing else."""
    entries = build({"": f'property a "A"\n{line}'}).entries if line else ()
    return entries[0] if len(entries) == 1 else None
