"""What to ask the council for, what to mind, and how to go on where it says no. Knows no layout, works out no tax."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

from ..book.council_bills import TAX
from ..book.entries import Entry
from ..book.world import Book
from ..days import Period, day_before, day_words, months_after
from ..money import round_half_up
from ..taxes.council.bill import Worked
from ..taxes.council.compare import bills
from ..taxes.council.facts import Facts
from ..taxes.council.years import DAY, council_year, days_of, figure
from .void_parts import BillRow, Claim, Void

CLAIMS = {
    "works": "the discount for major works",
    "exempt": "the exemption",
    "lived in": "the discount where one adult or none counts",
    "bought needing work": "the discount for a home bought in need of work",
    "empty": "the reduction for an empty, unfurnished home",
    "furnished": "the reduction for a furnished home nobody lives in",
    "for sale or let": "the reduction for a home on the market",
}

# ── what can be claimed ──────────────────────────────────────────────────────────────────────────────────────────


def claims(book: Book, made: Void, worked: Worked) -> Iterator[Claim]:
    """Every discount, exemption and exception that holds on days of the landlord's, with what it is worth."""
    for segment in worked.segments:
        if not segment.ours or segment.due.factor is None:
            continue
        for number, (day, due) in enumerate(segment.reasons):
            last = segment.reasons[number + 1][0] - DAY if number + 1 < len(segment.reasons) else segment.days.last
            part = replace(segment, days=Period(day, last))
            if due.spared is not None:
                yield _claim(book, made, f"no premium: {due.spared.why}", part.days, 0, due.spared.law, "")
            if due.state in CLAIMS and due.factor is not None and due.factor < 1:
                worth = round_half_up(part.full - part.exact)
                yield _claim(book, made, CLAIMS[due.state], part.days, worth, due.law, due.why)


def _claim(book: Book, made: Void, what: str, days: Period, pence: int, law: str, why: str) -> Claim:
    bill = next((b for b in made.bills if _has(b, days)), None)
    if bill is not None:
        return Claim(what, days, pence, law, "in the bill", bill.source, why.partition(" No premium:")[0])
    said = [e for e in _letters(book, made) if ("works" in what) == ("works" in e.thing) and _speaks_of(e, days, law)]
    return Claim(what, days, pence, law, said[-1].verb if said else "", said[-1].source if said else "",
                 why.partition(" No premium:")[0])  # fmt: skip


def _speaks_of(letter: Entry, days: Period, law: str) -> bool:
    """Whether a letter may be about what is due for these days: of none but other days, and of no other class."""
    other_days = letter.period is not None and letter.period.overlap(days) is None
    other_class = letter.council_class and "Class " in law and not law.endswith(f"Class {letter.council_class.upper()}")
    return not other_days and not other_class


def _has(bill: BillRow, days: Period) -> bool:
    """Whether a bill that could be followed took account of what is due for these days."""
    if bill.days is None or not bill.explained or bill.replaced or bill.should is None:
        return False
    inside = bill.days.first <= days.first and days.last <= bill.days.last
    return inside and not any(r.pence > 0 and r.code != "rounding" and r.days.overlap(days) for r in bill.reasons)


def _letters(book: Book, made: Void) -> list[Entry]:
    """What was claimed, asked, granted and refused about council tax of the home, with the council."""
    return [
        e for e in book.entries
        if e.verb in ("claimed", "asked", "granted", "refused") and any(h.house == made.house for h in e.homes)
        and (e.thing.startswith(TAX) or e.council_class or _about_tax(e.thing))
        and (e.who is None or e.who.name in ("", "council", made.council))
    ]  # fmt: skip


def _about_tax(thing: str) -> bool:
    return any(word in thing for word in ("discount", "exemption", "premium"))


# ── what to mind ─────────────────────────────────────────────────────────────────────────────────────────────────


def notes(book: Book, facts: Facts, made: Void, worked: Worked) -> Iterator[str]:
    """What the figures do not say by themselves."""
    if not facts.nation:
        yield "Your book does not tell the nation, and council tax differs: add `nation england` to the property."
    if facts.nation == "northern ireland":
        yield from _northern_ireland(made.on)
        return
    yield from _schemes(book, facts, made, worked)
    yield from _nothing_told(book, facts, made)
    bare = any(spell.state == "marketed" for spell in book.properties[made.house].spells)
    if bare and any(s.due.spared and s.due.spared.name == "let" for s in worked.segments):
        yield "`marketed` is taken as to let; for a sale write `marketed for sale`, which has a year of its own."
    days, penalty = figure(facts.nation, "tell_days", made.on), figure(facts.nation, "penalty_first", made.on)
    if days is not None and penalty is not None and (made.empty or made.claims):
        yield (
            f"Tell the council within {days.whole} days when a discount or exemption ends, as when it is let or "
            f"furnished; not doing so can cost £{penalty.whole}."
        )
    if facts.nation == "scotland" and (made.empty or made.claims):
        yield (
            "Tell the council when a discount or exemption ends, as when it is let or furnished. Scotland has times "
            "and penalties of its own, which are not held here: ask the council."
        )
    yield from _second_homes(book, facts, worked)
    going = any(run.last is None or run.last >= made.on for run in (*facts.works, *facts.needs))
    if going and any(_unanswered(c) and "major works" in f"{c.what} {c.why}".lower() for c in made.claims):
        yield (
            "Ask for the discount or exemption for major works before they begin, or as they do: the council wants to "
            "see the home. Repairs to the structure pass; a new kitchen or bathroom, paint and small repairs do not."
        )
    if any(row.state == "no band" for row in made.rows):
        yield (
            "The valuation office takes a home out of its list only where it is derelict, gone or being rebuilt, not "
            "for poor repair. Tell it when the work is done: the home comes back as it then is, perhaps in another "
            "band."
        )
    if any(run.first < facts.ours.first for run in (*facts.works, *facts.needs)):
        yield (
            "The works began before it was yours. The twelve months of the works class belong to the home; whether a "
            "sale begins them anew is doubtful, so ask the council."
        )
    for bill in bills(book, made.house):
        if bill.days is not None and not bill.days.overlap(made.span):
            yield (
                f"The bill of {day_words(bill.day)} ({bill.source}) is for {bill.days}: "
                f"`--year {council_year(bill.days.first)}` shows it."
            )
    yield from _agreeing(book, facts, made)


MANY = 3  # years that are named one by one
YEAR, ABOUT = 366, 92  # days; common practice, no source


def _nothing_told(book: Book, facts: Facts, made: Void) -> Iterator[str]:
    """That the book tells nothing of who lived there for years after the home was got."""
    quiet = quiet_since_got(book, facts)
    if quiet is not None and quiet.overlap(made.span):
        days = f"from {day_words(quiet.first)} to {day_words(quiet.last)}"
        yield (
            f"Your book tells nothing of {made.house} {days}, and those days count as empty, so that a premium comes "
            f"early. If somebody lived there, write that let, or `lived in {days}` under the property."
        )


def quiet_since_got(book: Book, facts: Facts) -> Period | None:
    """The days of which the book tells nothing, from about when a home was got, where these are more than a year."""
    house = book.properties[facts.house]
    told = [entry.day.first for entry in book.entries if facts.house in {home.house for home in entry.homes}]
    told += [let.first_day for let in book.lets_of(facts.house) if let.first_day]
    states = [spell.since for spell in house.spells] + ([house.empty_since] if house.empty_since else [])
    if house.got is None or any(day <= house.got.day for day in states):
        return None
    told += states
    last = house.got.day
    for day in sorted(day for day in told if day > last):
        if (day - last).days > YEAR:
            return Period(last, day_before(day))
        if (day - house.got.day).days > ABOUT:  # what is paid about the purchase begins no book of the house
            return None
        last = day
    return None


def _unanswered(claim: Claim) -> bool:
    return claim.answer not in ("granted", "in the bill")


def _second_homes(book: Book, facts: Facts, worked: Worked) -> Iterator[str]:
    """A scheme that tells nothing of second homes, where a furnished home of that year could be one."""
    for year in sorted({s.year for s in worked.segments if s.ours and s.due.state == "furnished"}):
        scheme = book.schemes.get((facts.council, year))
        most = figure(facts.nation, "second_home_most", days_of(year).last)
        if scheme is not None and most is not None and not any(rule.kind == "second homes" for rule in scheme.rules):
            yield (
                f"Your scheme of {year} tells nothing of second homes, so no premium is reckoned for a furnished home. "
                f"A council may charge up to {most.value:.0%} on top ({most.citation}): look it up, and write `second "
                f"homes 100% from …` or `second homes 0% from …`."
            )


def _schemes(book: Book, facts: Facts, made: Void, worked: Worked) -> Iterator[str]:
    """What the schemes of the book lack, and premiums above what the law allows."""
    council = made.council_full or "the council"
    unknown = sorted({s.year for s in worked.segments if not s.known})
    without = [year for year in unknown if (facts.council, year) not in book.schemes]
    if without:
        years = [str(year) for year in without]
        when = f"{', '.join(years[:-1])} and {years[-1]}" if len(years) > 1 else years[0]
        when = f"any year from {years[0]} to {years[-1]}" if len(years) > MANY else when
        each = ", a block for each year," if len(years) > 1 else ""
        yield (
            f"Your book has no scheme of {council} for {when}, so those days have no money here. Ask the council, then "
            f"write `scheme {facts.council or 'NAME'} {years[-1]}`{each} and what it says."
        )
    for year in unknown:
        scheme = book.schemes.get((facts.council, year))
        if scheme is None:
            continue
        if not facts.band:
            yield (
                f"Your book does not tell the band of {made.house}, so those days have no money here. It stands on the "
                f"bill: write `council {facts.council}, band …` under the property."
            )
        else:
            band = facts.band.upper()
            yield f"The scheme of {year} has no charge for band {band}: add `charge band {band} £…`."
    for year in sorted({s.year for s in worked.segments if s.ours and s.rates}):
        scheme = book.schemes.get((facts.council, year))
        if scheme is not None and facts.band and facts.band not in scheme.charges:
            yield (
                f"The scheme of {year} has no charge for band {facts.band.upper()}: it is worked out from another band "
                "by the parts of the Act (LGFA 1992 s. 5, s. 74). Compare it with the bill."
            )
    told: set[str] = set()
    for segment in worked.segments:
        for _, due in segment.reasons:
            if segment.ours and due.cut is not None:
                told.add(
                    f"Your scheme of {segment.year} tells a premium of {due.cut * 100}%, more than the law allows for "
                    f"such days ({due.law}): look it up again, and if the council does charge it, object."
                )
    yield from sorted(told)


def _northern_ireland(on: date) -> Iterator[str]:
    limit = figure("northern ireland", "landlord_pays_up_to", on)
    allowance = figure("northern ireland", "landlord_allowance", on)
    yield "Northern Ireland has rates in place of council tax; they are not handled here."
    if limit is not None and allowance is not None:
        yield (
            "What is known: an empty home pays as one lived in does, the owner pays, and there is no free time and no "
            f"premium. Of a let home the landlord pays up to a capital value of £{limit.whole:,} or where it is in "
            f"multiple occupation, with {allowance.value:.0%} off if paid in time; above that the tenant, unless the "
            f"landlord agreed to pay ({limit.citation}; {limit.caution or 'checked'})."
        )


def _agreeing(book: Book, facts: Facts, made: Void) -> Iterator[str]:
    """What is told to the council must agree with what is told to the tax office."""
    house = book.properties[made.house]
    if house.as_bought == "lettable" and any(row.state == "no band" for row in made.rows):
        yield (
            "Mind what is said where: the valuation office is told that the home was derelict, and your book tells the "
            f"tax office that it could be let as bought ({house.place.short})."
        )
    works = [c for c in made.claims if "works" in c.what or c.what == CLAIMS["exempt"] and _worked_on(facts, c.days)]
    if works and house.as_bought == "lettable":
        yield (
            "Mind what is said where: the council is told that the home needed major works, and your book tells the "
            f"tax office that it could be let as bought ({house.place.short}). If both are true, of different days, "
            "say so."
        )
    if any(c.days.overlap(Period(r.first, r.last or c.days.last)) for c in works for r in facts.to_let
           if r.first <= c.days.last):  # fmt: skip
        yield "Mind what is said where: on days claimed as major works your book has the home on the market to let."


def _worked_on(facts: Facts, days: Period) -> bool:
    return any(run.first <= days.last and (run.last is None or run.last >= days.first) for run in facts.works)


# ── the way to appeal ────────────────────────────────────────────────────────────────────────────────────────────


def route(book: Book, made: Void) -> Iterator[str]:
    """How to go on where the council says no, with the days that follow from the letters in the book."""
    if made.nation == "scotland":
        yield (
            "Ask the council in writing; if it refuses, appeal to the First-tier Tribunal for Scotland (Local Taxation "
            "Chamber), and ask the council how and by when."
        )
    months = figure(made.nation, "grievance_months", made.on)
    after = figure(made.nation, "tribunal_months", made.on)
    silence = figure(made.nation, "tribunal_silence_months", made.on)
    if months is None or after is None or silence is None:
        return
    tribunal = "Valuation Tribunal" + (" for Wales" if made.nation == "wales" else "")
    yield (
        f"Ask the council in writing (LGFA 1992 s. 16(4)). It has {months.whole} months; after its answer you have "
        f"{after.whole} months to appeal to the {tribunal}, or {silence.whole} months from your letter if none comes. "
        "Keep paying as billed. The tribunal cannot change the council's percentages. The council may also let off any "
        "part by its own choice (s. 13A), mostly for hardship; a refusal can be appealed too."
    )
    billed = [bill.day for bill in made.bills]
    if not billed:
        yield "Your book has no bill for these days: nobody can appeal before one has come."
    for letter in _letters(book, made):
        day, place = letter.day.last, letter.source
        if letter.verb == "refused":
            if _granted_since(book, made, letter):
                continue
            by = months_after(day, after.whole)
            yield (
                f"Refused on {day_words(day)} ({place}): if that answered a letter of grievance, appeal by "
                f"{day_words(by)}.{_passed(by, made.on)}"
            )
        elif letter.verb in ("claimed", "asked") and not _answered(book, made, letter):
            if not any(came <= day for came in billed):
                yield (
                    f"Asked on {day_words(day)} ({place}), before a bill came, with no answer in your book: that was "
                    "no grievance yet, so no time runs from it. Write to the council about the bill."
                )
                continue
            by = months_after(day, silence.whole)
            yield (
                f"Asked on {day_words(day)} ({place}), with no answer in your book: the council has until "
                f"{day_words(months_after(day, months.whole))}, you have until {day_words(by)} to appeal."
                f"{_passed(by, made.on)}"
            )


def _passed(by: date, on: date) -> str:
    return "" if on <= by else " That day has passed: write to the council again, and ask the tribunal."


def _granted_since(book: Book, made: Void, letter: Entry) -> bool:
    """Whether what was refused was granted after all."""
    return any(e.verb == "granted" and e.day.first >= letter.day.first for e in _letters(book, made))


def _answered(book: Book, made: Void, letter: Entry) -> bool:
    later = (e for e in _letters(book, made) if e.day.first >= letter.day.first)
    return any(e.verb in ("granted", "refused") and (e.thing == letter.thing or e.verb == "granted") for e in later)
