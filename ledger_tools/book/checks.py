"""Cross-checks of a whole book that need no tax: sums that must add up, names, dates and papers at odds.

Each check is one function that yields Problems; `check` runs them all.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator
from datetime import date
from fractions import Fraction

from ..days import EARLIEST, LATEST, Period, TaxYear, day_before, day_words, months_after
from ..money import pounds
from ..problems import Fix, Level, Mark, Place, Problem
from ..spelling import near
from .advances import other_houses, purposes
from .credits_told import credits_untold
from .entries import Entry
from .items import credits, money_in, party
from .lets_told import EARLY, strangers, unprotected
from .occupied import bills_of_others, occupied_twice, rules_twice, schemes_for_houses
from .plans import agreed_twice, booked_late, varied_nothing
from .rooms_told import rooms, rooms_twice
from .silent_lets import rents_missing
from .splits import runs_on
from .world import Book, Property, Tenancy


def _problem(code: str, level: Level, headline: str, place: Place, label: str = "", help: str = "",
             other: tuple[Place, str] | None = None) -> Problem:  # fmt: skip
    marks = [place.mark(label)]
    if other is not None:
        marks.append(other[0].mark(other[1]))
    return Problem(code, level, headline, tuple(marks), help)


# ── sums ─────────────────────────────────────────────────────────────────────────────────────────────────────────


def lines_come_to(entry: Entry) -> int:
    """What the lines under a head line make of it, in pence: for a banked sum, what came in less what went out."""
    if entry.verb == "banked":
        return sum(line.total if money_in(line) else -line.total for line in entry.lines)
    return sum(line.total for line in entry.lines)


def sums(book: Book) -> Iterator[Problem]:
    """The lines of a bill, a statement, an advance or a payment make its head line to the penny."""
    for entry in book.entries:
        if not entry.lines or entry.amount is None:
            continue
        found = lines_come_to(entry)
        if found == entry.total:
            continue
        gap = abs(entry.total - found)
        way = "short of" if found < entry.total else "more than"
        what = "received less paid" if entry.verb == "banked" else "the lines below"
        yield _problem(
            "sum-off", Level.ERROR,
            f"This says {pounds(entry.total)}, but its lines come to {pounds(found)}.", entry.place,
            f"{what}: {pounds(gap)} {way} this",
            f"Correct a line, add one for the missing {pounds(gap)}, or write {pounds(found)} here."
            if found < entry.total else f"Correct a line, or write {pounds(found)} here.",
        )  # fmt: skip


def amounts(book: Book) -> Iterator[Problem]:
    """Money lines say how much and what for."""
    for entry in book.entries:
        if entry.day.first is not entry.day.last:
            yield from _month_of_two_years(entry)
        for line in (entry, *entry.lines):
            yield from _amount(book, line, line is entry)


def _month_of_two_years(entry: Entry) -> Iterator[Problem]:
    """A month alone is enough for a date, but not the month in which one tax year ends and the next begins."""
    year = TaxYear.of(entry.day.first)
    if entry.day.last not in year and entry.total:
        yield _problem(
            "month-of-two-years", Level.DOUBT,
            f"One part of {entry.day} is in the tax year {year}, the rest in {year.next}; this line is counted in "
            f"{year}.", entry.place, "which day?",
            f"Write the day it was; it counts in {year.next} from {day_words(year.next.period.first)} on.",
        )  # fmt: skip


# What money to a firm of each kind is, where the line does not say.
_FOR = {"lender": "mortgage", "insurer": "insurance", "agent": "management fee"}


_NO_MONEY_VERBS = frozenset(
    "took home|removed|cleared|cleaned|decorated|moved|scrapped|inspected|tested|treated".split("|")
)


def _amount(book: Book, line: Entry, is_head: bool) -> Iterator[Problem]:
    if line.kind in ("money", "bill") and line.amount is None and not line.lines and not line.paper:
        yield _problem("no-amount", Level.ERROR, f'How much was {line.verb}? This line has no amount.', line.place,
                       "no £ here", "Add the sum with its pound sign, such as £85.00.")  # fmt: skip
    elif line.facts.energy_band or line.facts.found:
        return  # a certificate or report that came with the house is worth a line without a sum
    elif line.kind == "works" and line.amount is None and is_head and line.verb not in _NO_MONEY_VERBS:
        yield _problem("no-amount", Level.DOUBT, "This line has no amount, so it counts in no figure.", line.place,
                       "no £ here", "Add the sum with its pound sign, or leave it so if it cost nothing.")  # fmt: skip
    if line.kind == "money" and not line.things and not line.lines and not line.paper and not line.purpose:
        if line.verb in ("borrowed", "recharged", "wrote off", "banked"):
            return
        if line.verb == "received" and line.who and line.who.name in book.tenancies and not line.note:
            return  # money from a tenant, with nothing said, is rent
        yield _what_for(book, line)


def _borrowed(book: Book, name: str) -> int:
    """The pence a book says were borrowed from a loan or lender; more than any payment where it does not say."""
    names = {name} | {loan.name for loan in book.loans.values() if loan.lender == name}
    lent = [e.amount or 0 for e in book.entries if e.verb == "borrowed" and e.who and e.who.name in names]
    owed = [pence for loan in names & {*book.loans} for _, pence in book.loans[loan].owed]
    return max([sum(lent), *owed]) or 10**15


def _paid_to_lender(book: Book, name: str, pence: int) -> str:
    """What a payment to a lender is: the debt itself where no interest runs or it is no month's payment; a mortgage
    payment where the loan is told to be of that kind or a lender's; "" where it may be either."""
    loans = [loan for loan in book.loans.values() if name in (loan.name, loan.lender)]
    free = [loan for loan in loans if loan.rates and not any(rate for rate, _, _ in loan.rates)]
    if free and len(free) == len(loans) or pence * 10 >= _borrowed(book, name):
        return "loan"
    mortgage = not loans or any(loan.kind or loan.monthly or loan.lender in book.parties for loan in loans)
    return "mortgage" if mortgage else ""


def _what_for(book: Book, line: Entry) -> Problem:
    """Money to or from somebody, and not what for. What goes to a lender is a mortgage payment: that much is sure."""
    headline = f"This line does not say what was {line.verb}."
    name = line.who.name if line.who else ""
    lent = name in book.loans or name in book.unread and line.verb == "repaid"
    kind = "lender" if lent else book.parties[name].kind if name in book.parties else ""
    sum_ = pounds(line.amount or 0)
    to = f" {line.who.role} {line.who.name or chr(34) + line.who.full + chr(34)}" if line.who else ""
    if kind == "lender" and line.verb in ("paid", "repaid"):
        place = line.place.mark()
        at = place.text.find("£", place.column - 1) + 1
        word = _paid_to_lender(book, name, line.amount or 0)
        fix = Fix(Mark(place.file, place.line, at, at, place.text), f"{word} ") if at and word else None
        help = (
            f"Say what it was. Of a mortgage payment only the interest counts: `{line.verb} mortgage {sum_}{to}, of "
            f"which interest £…`, as the lender's statement says. What only went off the debt is `repaid loan "
            f"{sum_}{to}`."
        )
        return Problem("what-for", Level.ERROR, headline, (line.place.mark("what for?"),), help, fix=fix)
    if kind == "lender":
        help = f"If it was lent to you, write `borrowed {sum_}{to}`; if it came back, `received refund {sum_}{to}`."
    elif line.verb == "received" and not kind:
        help = (
            f"Say what it was right after the verb: `received rent {sum_}{to}`, if it is rent, `received deposit "
            f"{sum_}{to}` or `received refund {sum_}{to}`."
        )
    else:
        thing = _FOR.get(kind, "refund" if line.verb == "received" else "insurance")
        help = (
            f"Say what it was right after the verb, such as `{line.verb} {thing} {sum_}{to}`; for a part payment add "
            "`against invoice` and its number."
        )
    return _problem("what-for", Level.ERROR, headline, line.place, "what for?", help)


def net_only(book: Book) -> Iterator[Problem]:
    """An agent's payment is entered gross with the deductions, or the rent looks smaller than it was."""
    for entry in book.entries:
        if entry.verb == "banked" and not entry.lines:
            yield _problem(
                "net-only", Level.ERROR, "This banks a net sum without its lines.", entry.place,
                "rent less what?", "Put the agent's statement under it, line by line: `received rent £… from …`, "
                "`paid management fee £…`. The return wants the full rent, and the fee as an expense.",
            )  # fmt: skip


# ── names ────────────────────────────────────────────────────────────────────────────────────────────────────────


def _unknown(code: str, what: str, word: str, place: Place, known: list[str], level: Level = Level.ERROR) -> Problem:
    found = near(word, known)
    help = f"Did you mean {' or '.join(found)}?" if found else f"Begin a block for it: {what} {word} …"
    return _problem(code, level, f'Your book has no {what} called "{word}".', place, f"no such {what}", help)


def references(book: Book) -> Iterator[Problem]:
    """Headings name houses, people and councils that the book has."""
    houses, people = list(book.properties), list(book.landlords)
    for let in book.tenancies.values():
        if let.house not in book.properties and let.house not in book.unread:
            yield _unknown("unknown-house", "property", let.house, let.place, houses)
    for loan in book.loans.values():
        if loan.house not in book.properties and loan.house not in book.unread:
            yield _unknown("unknown-house", "property", loan.house, loan.place, houses)
    for schedule in book.schedules:
        if schedule.house not in book.properties and schedule.house not in book.unread:
            yield _unknown("unknown-house", "property", schedule.house, schedule.place, houses)
    councils = {*book.councils, *(s.council for s in book.schemes.values())}
    for house in book.properties.values():
        for ownership in house.owners:
            for name, _ in ownership.shares:
                if name not in book.landlords and name not in book.unread:
                    yield _unknown("unknown-landlord", "landlord", name, ownership.place, people)
        if house.council and councils and house.council not in councils | book.unread:
            yield _unknown("unknown-council", "council", house.council, house.place, sorted(councils), Level.DOUBT)
    for landlord in book.landlords.values():
        if landlord.spouse and landlord.spouse not in {*book.landlords, *book.unread}:
            yield _unknown("unknown-landlord", "landlord", landlord.spouse, landlord.place, people, Level.DOUBT)


def property_allowance(book: Book) -> Iterator[Problem]:
    """Nobody claims the property income allowance of a year and declines it."""
    for landlord in book.landlords.values():
        for year in sorted(landlord.allowance_years & landlord.declined_years):
            yield _problem(
                "facts-at-odds", Level.ERROR,
                f"{landlord.full} claims the property allowance in {year} and declines it.", landlord.place,
                "claimed and declined", f"Take out the one that does not hold: claims or declines, in {year}.",
            )  # fmt: skip


def owners(book: Book) -> Iterator[Problem]:
    """Each house has owners whose shares make the whole."""
    for house in book.properties.values():
        for ownership in house.owners:
            total = sum((fraction for _, fraction in ownership.shares), Fraction(0))
            if total != 1:
                yield _problem(
                    "shares-not-whole", Level.ERROR,
                    f"The owners' shares of {house.name} come to {round(total * 100, 2)}%, not 100%.",
                    ownership.place, "add up to 100%", "Change the percentages so that they add up to 100%.",
                )  # fmt: skip
        if not house.owners and len(book.landlords) > 1:
            names = list(book.landlords)
            yield _problem(
                "no-owner", Level.ERROR, f"Your book has several landlords and does not say who owns {house.name}.",
                house.place, "who owns it?",
                f"Add a line under it: owners {names[0]} 50% and {names[1]} 50%, or owners {names[0]}.",
            )  # fmt: skip


# ── dates ────────────────────────────────────────────────────────────────────────────────────────────────────────

# What happens to a house before it is ours, or says nothing of it being ours.
BEFORE_OURS = frozenset("inspected tested certified hired bought".split())


def before_bought(book: Book) -> Iterator[Problem]:
    """Works on a house begin when it is ours; nothing is spent on it long after it is sold."""
    for entry in book.entries:
        if entry.kind not in ("works", "bill") or entry.verb in BEFORE_OURS or entry.facts.returned:
            continue
        for share in entry.homes:
            house = book.properties[share.house]
            if house.got and entry.day.last < house.got.day:
                yield _problem(
                    "before-bought", Level.DOUBT,
                    f"This was done on {entry.day}, before {house.name} was {house.got.how} on "
                    f"{day_words(house.got.day)}.", entry.place, "before it was yours",
                    "Check the date of this line and of the purchase.", (house.got.place, f"{house.got.how} here"),
                )  # fmt: skip
            elif house.sold and entry.day.first > house.sold.day:
                yield _problem(
                    "after-sold", Level.DOUBT,
                    f"This was done on {entry.day}, after {house.name} was sold on {day_words(house.sold.day)}.",
                    entry.place, "after it was sold", "Check the date of this line and of the sale.",
                    (house.sold.place, "sold here"),
                )  # fmt: skip


def rent_outside(book: Book) -> Iterator[Problem]:
    """Rent is received for days on which the let it is for runs."""
    for entry in book.entries:
        for line in (entry, *entry.lines):
            let = book.tenancies.get(line.who.name) if line.who else None
            if line.verb != "received" or line.thing != "rent" or let is None or let.first_day is None:
                continue
            yield from _rent_outside(line, let, let.first_day)


def _rent_outside(line: Entry, let: Tenancy, first: date) -> Iterator[Problem]:
    paid_for = line.period or Period(line.day.first - EARLY, line.day.last + EARLY)
    last = let.last_day
    when = f"for {line.period}" if line.period else f"on {line.day}"
    if paid_for.last < first:
        said = f"starts on {day_words(first)}"
    elif last is not None and paid_for.first > last:
        said = f"ended on {day_words(last)}"
    else:
        return
    yield _problem(
        "rent-outside-let", Level.DOUBT, f"Rent {when}, but the tenancy {let.name} {said}.", line.place,
        "outside the tenancy", "Check the date, or from whom it came; or correct the tenancy.",
        (let.place, said),
    )  # fmt: skip


def overlaps(book: Book) -> Iterator[Problem]:
    """A house is let to one tenancy at a time, or each of its rooms is."""
    what: dict[tuple[str, str], list[Tenancy]] = defaultdict(list)
    for let in book.tenancies.values():
        if let.first_day is not None:
            what[let.house, let.room].append(let)
    for lets in what.values():
        lets.sort(key=lambda t: t.first_day or date.min)
        for earlier, later in zip(lets, lets[1:], strict=False):
            assert later.first_day is not None
            if runs_on(earlier, later.first_day):
                before = day_words(day_before(later.first_day))
                told = f"It tells that it ended on {day_words(earlier.last_day)}. " if earlier.last_day else ""
                apart = (
                    "or name another room, if one of the two was let another" if later.room
                    else "or for rooms let apart tell the room under each, such as `room 1` or `room front bedroom`"
                )  # fmt: skip
                yield _problem(
                    "lets-overlap", Level.ERROR,
                    f"The tenancy {later.name} starts on {day_words(later.first_day)}, while {earlier.name} still "
                    "runs.", later.place, "starts before the other ends",
                    f"{told}Say when {earlier.name} ended: the line `ended {before}` under it, if that is the day; "
                    f"{apart}.",
                    (earlier.place, "the earlier one"),
                )  # fmt: skip


def houses_in_time(book: Book) -> Iterator[Problem]:
    """Contract, completion, sale and lets of a house come in that order."""
    for house in book.properties.values():
        yield from _deal_order(house)
    for let in book.tenancies.values():
        first, last = let.first_day, let.last_day
        if first is None:
            yield _problem("let-without-start", Level.ERROR, f"The tenancy {let.name} does not say when it starts.",
                           let.place, "from when?", "Add a line: periodic from 4 Aug 2025, or from … to … for a fixed "
                           "term.")  # fmt: skip
            continue
        if last is not None and last < first:
            yield _problem("let-ends-first", Level.ERROR, f"The tenancy {let.name} ends before it starts.", let.place,
                           f"{day_words(first)} to {day_words(last)}", "Correct one of the two dates.")  # fmt: skip
        got = book.properties[let.house].got if let.house in book.properties else None
        if got and first < got.day and "with tenant in" not in got.facts:
            yield _problem(
                "let-before-bought", Level.DOUBT,
                f"The tenancy {let.name} starts on {day_words(first)}, before the house was {got.how}.", let.place,
                "before it was yours", "If it was bought with the tenant in, add `, with tenant in` to its `bought` "
                "line; else check the dates.", (got.place, f"{got.how} here"),
            )  # fmt: skip


def _deal_order(house: Property) -> Iterator[Problem]:
    got, sold = house.got, house.sold
    bought = [place for day, place in house.contracts if got is None or day <= got.day]
    late = [place for day, place in house.contracts if got is not None and day > got.day]
    for places, of in ((bought, "purchase"), (late, "sale")):
        for again in places[1:]:
            yield _problem(
                "doubled", Level.ERROR, f"There can be only one day of exchange for the {of}, and your book gives two.",
                again, "and here", "Leave one of the two out.", (places[0], "said here"),
            )  # fmt: skip
    for day, place in house.contracts:
        if got and day > got.day and (not sold or day - got.day < sold.day - day):  # nearer to the purchase
            yield _problem(
                "exchange-late", Level.ERROR, f"{house.name}: contracts exchanged after it was {got.how}.", got.place,
                f"exchanged {day_words(day)}", "Correct one of the two dates; or if this is the contract of its sale, "
                "tell that too: `sold … for £…`.",
            )  # fmt: skip
        elif sold and day > sold.day:
            yield _problem(
                "exchange-late", Level.ERROR, f"{house.name}: contracts exchanged after it was sold.", place,
                "later than the sale", "Correct one of the two dates.", (sold.place, "sold here"),
            )  # fmt: skip
    if got and sold and sold.day < got.day:
        yield _problem(
            "sold-before-bought", Level.ERROR, f"{house.name} is sold before it is {got.how}.", sold.place,
            "earlier than this", "Correct one of the two dates.", (got.place, f"{got.how} here"),
        )  # fmt: skip


def turned_round(book: Book) -> Iterator[Problem]:
    """A certificate runs out after it was given."""
    for entry in book.entries:
        expires = entry.facts.expires
        if expires is None or expires >= entry.day.first:
            continue
        said = day_words(expires)
        place = entry.place.within(f"expires {said}")
        years = next(n for n in range(1, LATEST - EARLIEST + 2) if months_after(expires, 12 * n) > entry.day.first)
        later = day_words(months_after(expires, 12 * years))
        yield Problem(
            "expired-at-once", Level.DOUBT, f"This ran out on {said}, before the day it was given, {entry.day}.",
            (place.mark("earlier than the line"),),
            "The paper has both days: correct the one that is wrong. Should only the year be off, write the one that "
            "stands there, such as this.",
            fix=Fix(place.mark(), f"expires {later}") if place != entry.place else None,
        )  # fmt: skip


# ── papers ───────────────────────────────────────────────────────────────────────────────────────────────────────


def papers(book: Book) -> Iterator[Problem]:
    """Payments name invoices that exist and do not pay them twice; an invoice is entered once."""
    told: dict[str, dict[tuple[str, str], Entry]] = {"invoice": {}, "quote": {}, "order": {}}
    kinds = {
        "invoiced": "invoice",
        "billed": "invoice",
        "recharged": "invoice",
        "quoted": "quote",
        "estimated": "quote",
        "ordered": "order",
    }
    for entry in book.entries:
        kind = kinds.get(entry.verb) or ("invoice" if entry.kind == "works" else None)
        if kind and entry.facts.number:
            key = (party(entry), entry.facts.number.lower())
            first = told[kind].setdefault(key, entry)
            if first is not entry and kind == "invoice":
                yield _problem(
                    "same-paper-twice", Level.DOUBT, f"Invoice {entry.facts.number} is in your book twice.",
                    entry.place, "this one again", "Delete one of them, or correct the number.",
                    (first.place, "first told here"),
                )  # fmt: skip
    paid: dict[tuple[str, str], int] = defaultdict(int)
    for (who, number), bill in told["invoice"].items():
        facts = sum(bill.total if amount is None else amount for _, amount in bill.facts.paid)
        paid[who, number] = facts
        if facts > bill.total:
            yield _problem(
                "overpaid", Level.ERROR, f"The line was {pounds(bill.total)}, and {pounds(facts)} is told as paid.",
                bill.place, f"{pounds(facts - bill.total)} too much", "Correct a sum; after several `paid` say each.",
            )  # fmt: skip
    for entry in book.entries:
        paper = entry.paper
        if paper is None:
            continue
        found = _find(told[paper.kind], party(entry), paper.number.lower())
        if found is None and paper.number.lower() in book.unread:
            continue
        if found is None:
            known = {number: told_by.facts.number for (_, number), told_by in told[paper.kind].items()}
            meant = [known[number] for number in near(paper.number, known)]
            help = f"Enter the {paper.kind} with `, number {paper.number}`."
            if meant:
                help = f"Did you mean {' or '.join(meant)}?"
            yield _problem("unknown-paper", Level.ERROR, f"Your book has no {paper.kind} numbered {paper.number}.",
                           paper.place, f"no such {paper.kind}", help)  # fmt: skip
        elif paper.kind == "invoice" and entry.verb in ("paid", "received"):
            key = (party(found), found.facts.number.lower())
            before = paid[key]
            if credits(entry):  # after the bill was paid in full it is money back
                paid[key] = max(before, min(found.total, before + entry.total))
                continue
            paid[key] += entry.total
            if before <= found.total < paid[key]:
                yield _problem(
                    "overpaid", Level.ERROR,
                    f"Invoice {paper.number} was {pounds(found.total)}; with this {pounds(paid[key])} is paid.",
                    entry.place, f"{pounds(paid[key] - found.total)} too much", "Correct the sum or the number.",
                    (found.place, "the invoice"),
                )  # fmt: skip


def _find(told: dict[tuple[str, str], Entry], party: str, number: str) -> Entry | None:
    """A paper by party and number; by number alone where the line names nobody."""
    if party:
        return told.get((party, number)) or told.get(("", number))
    return next((entry for (_, n), entry in told.items() if n == number), None)


def receipts_twice(book: Book) -> Iterator[Problem]:
    """One receipt proves one dated line; twice the same file is often one cost entered twice."""
    seen: dict[str, tuple[Entry, Place]] = {}
    for entry in book.entries:
        for line in (entry, *entry.lines):
            for proof in line.facts.proofs:
                if proof.kind != "receipt" or proof.on_paper:
                    continue
                first = seen.setdefault(proof.file, (entry, proof.place))
                if first[0] is not entry and entry.kind not in ("told", "noted", "answer"):
                    yield _problem(
                        "same-receipt-twice", Level.DOUBT, f'The receipt "{proof.file}" proves two lines.',
                        proof.place, "again here", "If one paper was for several things, put them as lines under one "
                        "`paid` or `invoiced` line; if the cost is in twice, delete one.", (first[1], "first here"),
                    )  # fmt: skip


def twice(book: Book) -> Iterator[Problem]:
    """The same sum for the same thing to the same party on the same day is often one cost entered twice."""
    seen: dict[tuple[object, ...], Entry] = {}
    for entry in book.entries:
        if entry.kind not in ("works", "money", "bill") or not entry.total or entry.lines or entry.facts.number:
            continue
        who = entry.who.full.lower() if entry.who else ""
        key = (
            entry.day, entry.verb, entry.things, entry.total, who, entry.homes, entry.rooms, entry.period, entry.note,
            entry.purpose, entry.paper,
        )  # fmt: skip
        first = seen.setdefault(key, entry)
        if first is not entry:
            yield _problem(
                "entered-twice", Level.DOUBT, f"The line of {entry.day} about {pounds(entry.total)}"
                f"{' for ' + entry.thing if entry.thing else ''} stands twice.", entry.place, "again here",
                "Delete one of the two; if both happened, tell them apart with a note in quotes.",
                (first.place, "first here"),
            )  # fmt: skip


def in_the_future(book: Book, today: date) -> Iterator[Problem]:
    """What was done has a day that has come; `today` is the caller's."""
    for entry in book.entries:
        if entry.day.first > today and entry.kind not in ("booking", "plan"):
            yield _problem(
                "not-yet", Level.DOUBT, f"This line is dated {entry.day}, and that day has not come.", entry.place,
                "in the future", "Check the year.",
            )  # fmt: skip


def missing_files(book: Book, look: Callable[[str, str], str]) -> Iterator[Problem]:
    """Files named as proof are there; `look(book file, name)` answers "there", "missing" or "outside": out of the
    folders that papers may lie in."""
    for proof in book.proofs:
        where = look(proof.place.file, proof.file)
        if where == "missing" and not proof.on_paper:
            yield _problem(
                "file-missing", Level.DOUBT, f'The {proof.kind} "{proof.file}" is not there.', proof.place,
                "no such file", "Put the file beside your book, or correct its name.",
            )  # fmt: skip
        elif where == "outside":
            yield _problem(
                "file-outside", Level.DOUBT,
                f'The {proof.kind} "{proof.file}" lies outside the folder of your book, and is left alone.',
                proof.place, "outside the book",
                "Put a copy of the file beside your book and name that, or allow its folder: `--receipts-from FOLDER`.",
            )  # fmt: skip


CHECKS: tuple[Callable[[Book], Iterator[Problem]], ...] = (
    sums, amounts, net_only, references, owners, property_allowance, rooms, rooms_twice, before_bought, rent_outside,
    overlaps, houses_in_time, turned_round, papers, credits_untold, purposes, receipts_twice, twice, strangers,
    unprotected, rents_missing, other_houses, occupied_twice, bills_of_others, rules_twice, schemes_for_houses,
    agreed_twice, booked_late, varied_nothing,
)  # fmt: skip


def check(book: Book) -> list[Problem]:
    """All cross-checks of a book."""
    return [problem for one in CHECKS for problem in one(book)]
