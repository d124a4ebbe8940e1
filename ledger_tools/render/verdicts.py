"""One item with its verdict, for a page, as text or JSON.

As text a routine item takes two or three lines, open and capital ones their room; the day stands in the margin, and
under it what each line of a fuller item tells: why, either, or, keep.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from typing import Any

from ..days import day_words
from ..money import plain, pounds
from ..statements.audit import AuditItem, Named, houses_of, rule_called
from ..statements.kinds import plain as in_a_word
from ..statements.stake import Stake
from ..verdicts.closing import in_words
from ..verdicts.verdict import Cgt, Fired, Kind, Part, Verdict
from . import asked_once
from .page import Item, Sum
from .text import paragraph, settling

MARGIN = 11
BODY = " " * (MARGIN + 2)
WORDS = 46  # what an item is, before its sum
SUM = 13


def text(items: Iterable[AuditItem], place: Callable[[str], str] = str, parts: Sequence[int] = ()) -> list[str]:
    """The lines of some items; fuller ones stand between empty lines. `parts`: the pence of one house, where shared."""
    out: list[str] = []
    for number, item in enumerate(items):
        if out and out[-1] and not item.routine:
            out.append("")
        out += item_lines(item, place, parts[number] if parts else None)
        if not item.routine:
            out.append("")
    return out[:-1] if out and not out[-1] else out


def entry(item: AuditItem, here: int | None = None, whole: bool = False) -> Item:
    """One item for a page: its answers, with reason, authority, what rides on it and what to keep."""
    v = item.verdict
    sums = tuple((Sum(part.amount), _plain(part)) for part in v.parts)
    rules = tuple(fired.slug for fired in (*item.reasons, *item.also) if rule_called(fired.slug))
    return Item(
        v.item.source, item.words, sums, tuple(_told(item, whole)), str(v.item.line.day), v.arguable,
        tuple(dict.fromkeys(rules)), _beside(item, here, whole),
    )  # fmt: skip


def item_lines(
    item: AuditItem, place: Callable[[str], str] = str, here: int | None = None, whole: bool = False
) -> list[str]:
    """The lines of one item: head, reason, and what else there is to say; `whole` says all of it of any item.

    `place` writes "file:line" as is wanted; `here` is the pence of one house, where the item is shared by several.
    """
    out = [*_head(item)]
    if item.routine and not whole:
        reasons = place(" ".join(f"{fired.says} {_brackets(fired)}" for fired in item.reasons))
        return out + paragraph(f"{reasons} {_book(item, place, here, False)}", BODY, BODY)
    for label, said in _told(item, whole, place):
        out += paragraph(said, f"{label:>{MARGIN}}  ", BODY)
    return out + paragraph(_book(item, place, here, whole), f"{'book':>{MARGIN}}  ", BODY)


def _head(item: AuditItem) -> Iterator[str]:
    v = item.verdict
    day = f"{day_words(v.item.line.day.first):>{MARGIN}}" if v.item.line.day.exact else f"{v.item.line.day!s:>{MARGIN}}"
    said = item.words
    while len(said) > WORDS and " " in said[:WORDS]:  # a long name runs on, and its sum stands on its last line
        cut = said.rfind(" ", 0, WORDS)
        yield f"{day}  {said[:cut]}"
        day, said = " " * MARGIN, "  " + said[cut + 1 :]
    lead = f"{day}  {said:<{WORDS}}"
    if len(v.parts) == 1:
        yield f"{lead}{pounds(v.parts[0].amount):>{SUM}}  {_plain(v.parts[0])}"
        return
    yield f"{lead}{pounds(item.pence):>{SUM}}"
    for part in v.parts:
        yield f"{BODY}{'':<{WORDS}}{pounds(part.amount):>{SUM}}  {_plain(part)}"


def _plain(part: Part) -> str:
    """The answer in a word or two; a sum that comes off what counts for the gain says so."""
    return in_a_word(part) + (", for the gain" if part.kind == "nets-cost" and part.cgt is not Cgt.NONE else "")


def _brackets(fired: Fired) -> str:
    return f"[{fired.slug}]" if fired.confidence == "clear" else f"[{fired.slug}, {fired.confidence}]"


def _told(item: AuditItem, whole: bool, place: Callable[[str], str] = str) -> Iterator[tuple[str, str]]:
    """What a fuller item says, line by line, with the word in the margin; of a clear one the rest stands at the end."""
    v = item.verdict
    if item.question and not whole:
        yield "why", f"{asked_once.LABEL} {' '.join(map(_brackets, item.reasons))}"
        yield from asked_once.left_to_say(item.question, v.answers, v.ask)
        return
    if v.ruled:
        yield "your ruling", v.ruled + _of_your_own(v)
    else:
        also = _also(item.also)
        for fired in item.reasons:
            yield "why", place(fired.says)
            yield "", f"{fired.slug}, {fired.confidence}: {fired.authority}{also}"
            also = ""
    if v.without:
        yield "without it", place(_thought(v.without, item.overruled))
    for number, answer in enumerate(v.answers):
        yield "or" if number else "either", answer
    leads, back = (", ".join(map(place, places)) for places in (item.follows, item.came_back))
    also = f"with what it cost ({leads}): " if leads and item.comes_in else ""
    also = also or (f"with what came back for it ({back}): " if back else "")
    if item.stakes and all(stake.tax == 0 for stake in item.stakes):
        year = " and ".join(dict.fromkeys(str(stake.year) for stake in item.stakes))
        why = "; ".join(dict.fromkeys(stake.why for stake in item.stakes))
        yield "rides on it", f"{also}no income tax in {year} as the book stands, whichever it is (an estimate): {why}"
    else:
        if item.stakes:
            yield "rides on it", also + "; ".join(stakes_words(item.stakes))
    if leads:
        yield "to settle", f"settle {'what it cost' if item.comes_in else 'the job it goes with'} ({leads})"
    if v.ask and item.pays and sum(part.amount for _, _, part in item.pays) == item.pence:
        bills = " and ".join(map(place, dict.fromkeys(bill for bill, _, _ in item.pays)))
        yield "to settle", f"settle the bill it pays ({bills}); a ruling there holds here too"
    elif v.ask:
        yield "to settle", settling(v.ask).removeprefix("to settle it ")
    if (whole or v.arguable) and item.would_change:
        yield "changes if", "; ".join(item.would_change)
    if item.keep:
        yield "keep", "; ".join(item.keep)


def _of_your_own(v: Verdict) -> str:
    """That the rules offer no such answer, where they do not: it rests on the landlord, or an adviser, alone. What is
    private only the landlord knows."""
    rules, known = v.without, {Kind.PRIVATE}
    if rules is None:
        return ""
    known |= {part.kind for part in (*rules.parts, *rules.other, *rules.cautious)}
    offered = in_words(v.parts) in rules.answers or any(part.kind in known for part in v.parts)
    return "" if offered else " (an answer that the rules do not offer)"


def _thought(without: Verdict, by: Sequence[Fired]) -> str:
    """What the rules make of it by themselves: open, with its answers, where they leave it open."""
    parts = ", ".join(f"{pounds(part.amount)} {in_a_word(part)}" for part in without.parts)
    answers = f" (either {'; or '.join(without.answers)})" if without.answers else ""
    reasons = " ".join(f"{fired.says} {_brackets(fired)}" for fired in by)
    return f"{parts}{answers}: {reasons}"


def _also(others: Sequence[Fired]) -> str:
    """The rules that changed the day it counts on, or what it does for the gain, by their names."""
    told = ""
    for stage, what in (("F", "for its day"), ("H", "for the gain")):
        slugs = [fired.slug for fired in others if fired.stage == stage]
        told += f"; {what}: {', '.join(slugs)}" if slugs else ""
    slugs = [fired.slug for fired in others if fired.stage not in ("F", "H")]
    return told + (f"; besides: {', '.join(slugs)}" if slugs else "")


def _book(item: AuditItem, place: Callable[[str], str], here: int | None, whole: bool) -> str:
    """Where the book tells of it, and what else it tells."""
    return "; ".join((place(item.verdict.item.source), _beside(item, here, whole, place)))


def _beside(item: AuditItem, here: int | None, whole: bool, place: Callable[[str], str] = str) -> str:
    """Who was paid, why in the book's own words, when it counts, and the proof the book names."""
    proofs = [proof for proof in item.proofs if proof.where != "house"]
    ofs = [proof for proof in item.proofs if whole and proof.where == "house"]  # else they stand under the house's name
    lacks = "no proof named" if item.routine else "the book names no proof"
    named = f"the book has {', '.join(map(_proof, proofs))}" if proofs else lacks
    if ofs:
        named += f"; of the house the book has {', '.join(_proof(replace(proof, where='')) for proof in ofs)}"
    why = " and ".join(f'because "{reason}"' for reason in item.verdict.item.line.facts.because)
    told = (item.party, why, _shared(item, here), _counts(item, place), named)
    return "; ".join(word for word in told if word)


def _counts(item: AuditItem, place: Callable[[str], str]) -> str:
    """When it counts, where that is not the day of its line; a bill and its payment name each other."""
    line = item.verdict.item.line
    bills = dict.fromkeys(bill for bill, _, _ in item.pays)
    if bills and line.verb == "billed":
        return f"the bill of {' and '.join(map(place, bills))} took its place, and counts"
    if bills:
        return f"pays the bill of {' and '.join(map(place, bills))}, and is counted once with it"
    if not item.taxed or item.days == (line.day.first,) or not item.pence:
        return ""
    if not item.days and item.paid_by:
        return f"paid by {' and '.join(map(place, item.paid_by))}, and counts on that day"
    if not item.days:
        return "not paid yet, so it counts in no tax year so far"
    return f"counts on {', '.join(day_words(day) for day in item.days)}"


def _shared(item: AuditItem, here: int | None) -> str:
    """A part in what a bill shares, or the part of one house in the line."""
    told = []
    if item.verdict.item.shared:
        told.append(f"{pounds(item.verdict.item.shared)} of it is its part of what the bill shares")
    if here is not None and len(houses_of(item)) > 1:
        told.append(f"{pounds(here)} of it is this house's")
    return "; ".join(told)


def _proof(named: Named) -> str:
    """A proof by the name of its file, or by the words told; where it stands, if not on the line itself."""
    name = f'the words "{named.name}"' if named.kind == "says" else f"{named.kind} {named.name.rpartition('/')[2]}"
    return f"{name} (of the {named.where})" if named.where else name


# ── what rides on it ─────────────────────────────────────────────────────────────────────────────────────────────


def stakes_words(stakes: Iterable[Stake]) -> tuple[str, ...]:
    """What rides on an open sum, once for all owners for whom it is the same."""
    alike: dict[object, list[Stake]] = {}
    for stake in stakes:
        alike.setdefault(replace(stake, owner="", full="", nation=""), []).append(stake)
    return tuple(_stake_words(of[0], [stake.full for stake in of]) for of in alike.values())


def _stake_words(stake: Stake, owners: Sequence[str]) -> str:
    """About so much, or so much for each £100; and where it is too late."""
    words = _at_stake(stake, owners)
    if stake.too_late is None:
        return words
    last = stake.too_late
    return (
        f"{words}; what a return of {stake.year} left out could be claimed until {day_words(last.day)} "
        f"({last.rests_on}), and your book goes beyond that"
    )


def _at_stake(stake: Stake, owners: Sequence[str]) -> str:
    each = " each" if len(owners) > 1 else ""
    of = f"{', '.join(owners[:-1])} and {owners[-1]}, {stake.year}" if each else f"{owners[0]}, {stake.year}"
    on = f"on {pounds(stake.pence)}{each}"
    if stake.tax:
        return f"about {pounds(stake.tax)}{each} of income tax of {of} (an estimate, {on})"
    if stake.tax == 0:
        return f"as the book stands no income tax of {of} (an estimate, {on}): {stake.why}"
    if not stake.each:
        return f"no rates are held for {stake.year}, so there is no estimate of {of} ({on})"
    rates = [pounds(rate).removesuffix(".00") for rate in stake.each]
    why = "by how much else was earned that year, which your book does not tell"
    if stake.no_rents:
        why = "by what the rents and all else of that year came to, which your book does not keep"
    return f"{of}: {on}, {', '.join(rates[:-1])} or {rates[-1]} of income tax in each £100, {why}"


# ── JSON ─────────────────────────────────────────────────────────────────────────────────────────────────────────


def as_json(items: Iterable[AuditItem]) -> list[dict[str, Any]]:
    """The same as data."""
    return [
        {
            "source": (v := item.verdict).item.source,
            "day": v.item.line.day.first.isoformat(),
            "verb": v.item.line.verb,
            "things": [thing.name for thing in v.item.line.things],
            "words": item.words,
            "party": item.party,
            "because": list(v.item.line.facts.because),
            "houses": [house for house in houses_of(item) if house],
            "amount": plain(v.item.amount),
            "parts": parts(v.parts),
            "path": [
                {"stage": f.stage, "rule": f.slug, "says": f.says, "authority": f.authority,
                 "confidence": str(f.confidence), "decided": f.decided}
                for f in v.path
            ],
            "decided_by": [f.slug for f in item.reasons],
            "confidence": str(v.confidence),
            "counts_on": v.when.isoformat(),
            "counts": [day.isoformat() for day in item.days],
            "answers": list(v.answers),
            "other": parts(v.other),
            "cautious": parts(v.cautious),
            "follows": list(item.follows),
            "came_back": list(item.came_back),
            "stakes": [stake_json(stake) for stake in item.stakes],
            "add": list(v.ask),
            "would_change": list(v.would_change),
            "keep": list(v.keep),
            "proofs": [{"kind": p.kind, "name": p.name, "on": p.where or "line"} for p in item.proofs],
            "ruled": v.ruled,
            "thought": parts(v.thought),
            "thought_because": [
                {"stage": f.stage, "rule": f.slug, "says": f.says, "authority": f.authority,
                 "confidence": str(f.confidence)}
                for f in item.overruled
            ],
            "thought_answers": list(v.without.answers) if v.without else [],
        }
        for item in items
    ]  # fmt: skip


def stake_json(stake: Stake) -> dict[str, Any]:
    """What rides on open sums, for one owner and year; all of it an estimate."""
    return {
        "owner": stake.owner,
        "tax_year": str(stake.year),
        "amount": plain(stake.pence),
        "tax": None if stake.tax is None else plain(stake.tax),
        "each_hundred": [plain(each) for each in stake.each],
        "nation": stake.nation or None,
        "why": stake.why or None,
        "no_rents_kept": stake.no_rents,
        "too_late": stake.too_late.day.isoformat() if stake.too_late else None,
        "too_late_rests_on": stake.too_late.rests_on if stake.too_late else None,
    }


def parts(told: Iterable[Part]) -> list[dict[str, str]]:
    """Parts as data."""
    return [
        {"amount": plain(p.amount), "verdict": str(p.kind), "category": p.category, "gain": str(p.cgt)} for p in told
    ]
