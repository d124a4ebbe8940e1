"""The rents of houses as text or JSON. No arithmetic here."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Any

from ..book.arrears import OwedRun, RentAccount
from ..book.deposits import DepositAccount
from ..book.rents import Receipt
from ..days import day_words
from ..money import plain, pounds
from ..statements.rents import Asked, HouseRents, LetRents, Wear
from .columns import columns
from .text import indent, paragraph

BEHIND = timedelta(days=31)
PAYS = "Money told for certain days pays their rent, all else the oldest."
WEAR = (
    "What age leaves of a spoilt thing is its price by the years of life that are lost; the lives are customary and "
    "differ by quality and household. Mend before you replace, and show its state at the start and the end: the "
    "scheme's adjudicator or a court decides, not this page."
)
NO_LET = "No let that your book tells of has run in the year before, or has anything open."
NOT_BEGUN = "The let had not begun."


def footer(houses: Sequence[HouseRents]) -> str:
    """What holds for all of them; of wear only where something was asked of a tenant."""
    asked = any(made.asked for house in houses for made in house.lets)
    return " ".join([*filter(None, map(_not_noted, houses)), PAYS, *([WEAR] if asked else [])])


def _not_noted(house: HouseRents) -> str:
    """Where rent is owed for days about which the book has no line at all yet."""
    owed = (day.day for made in house.lets if made.rent for day in made.rent.owed)
    if house.noted is None or max(owed, default=date.min) <= house.noted + BEHIND:
        return ""
    last = day_words(house.noted)
    return f"The last line about {house.house} is of {last}: rent that came since is not in your book."


def text(houses: Sequence[HouseRents]) -> str:
    """House by house, let by let."""
    out: list[str] = []
    for house in houses:
        out += [*paragraph(title(house), "", "  "), ""]
        out += [] if house.lets else [f"  {NO_LET}", ""]
        for made in house.lets:
            out += [*_let(made), ""]
        for receipt in house.unplaced:
            out += [*paragraph(unplaced(receipt)), ""]
    return "\n".join([*out, *paragraph(footer(houses), "", "")])


def title(house: HouseRents) -> str:
    """What stands over the rents of a house."""
    return f"{house.full}: rents on {day_words(house.on)}"


def unplaced(receipt: Receipt) -> str:
    """Rent of which the book does not tell whose it was."""
    said = f"{receipt.line.source}: rent of {pounds(receipt.pence)} fits no let, or several"
    return f"{said}: add `from` and its name."


def let_title(made: LetRents) -> str:
    """The name of a let, with who lives there and where."""
    who = " and ".join(made.let.tenants)
    return made.let.name + (f" ({who})" if who else "") + (f", {made.let.room}" if made.let.room else "")


def _let(made: LetRents) -> list[str]:
    out = [f"  {let_title(made)}", *indent(_rent(made.rent) if made.rent else [NOT_BEGUN], "    ")]
    out += _deposit(made.deposit, made.deposit_notes)
    for asked in made.asked:
        out += _asked(asked)
    return out


def rent_rows(rent: RentAccount) -> list[tuple[str, str, int]]:
    """What makes the rent owed: (slug, label, pence)."""
    began = f"owed on {day_words(rent.since)}, as your book tells"
    rows = [("carried", began, rent.carried)] if rent.told else []
    rows += [("due", f"fell due since {day_words(rent.since)}", rent.total_due), ("came", "came in", rent.total_came)]
    rows += [("lost", "given up as lost", rent.total_lost)] if rent.total_lost else []
    rows += [("owed", "owed", rent.arrears)]
    return rows + ([("ahead", "paid ahead", rent.ahead)] if rent.ahead else [])


def owed_of(run: OwedRun) -> str:
    """The day rent that is owed fell due, or the first and the last of several days."""
    first, last = run.owed[0], run.owed[-1]
    if last is not first:
        return f"{day_words(first.day)} to {day_words(last.day)}: {len(run.owed)} rents of {pounds(first.pence)}"
    return f"before {day_words(first.day)}" if first.carried else day_words(first.day)


def no_rent(rent: RentAccount) -> str:
    """What to write where no rent of a let came in."""
    if not rent.due and not rent.told:
        return (
            f"It was over before the first line of this house in your book, so its rent is not followed. If some is "
            f"still owed, add `arrears £… on {day_words(rent.since)}` under it."
        )
    return f"No rent of it stands in your book: where some came, write `received rent £… from {rent.let}`."


def at_odds(rent: RentAccount) -> list[str]:
    """Arrears that the book tells and its lines do not make."""
    return [
        f"Your book tells arrears of {pounds(told)} on {day_words(day)}, but its lines make it {pounds(follows)}."
        for day, told, follows in rent.odds
    ]


def _rent(rent: RentAccount) -> list[str]:
    out = columns([(label, pounds(pence)) for _, label, pence in rent_rows(rent)], right=(1,))
    if rent.owed:
        table = [("of", "days", "still owed")]
        table += [(owed_of(run), str(run.owed[0].late(rent.on)), pounds(run.pence)) for run in rent.owed_runs]
        out += columns(table, right=(1, 2), margin="  ")
    out += [] if rent.came else paragraph(no_rent(rent), "", "")
    for said in at_odds(rent):
        out += paragraph(said, "", "")
    return out


def deposit_told(account: DepositAccount) -> list[str]:
    """What the book tells of a deposit, in short clauses."""
    told = account.told
    if told is None and not account.received:
        return ["no deposit told"]
    said = [f"deposit: {pounds(account.held)} held"]
    if told and not account.received_on:
        said = [f"deposit of {pounds(told.amount)} agreed"]
    if account.received_on:
        said.append(f"received {day_words(account.received_on)}")
    if told and told.protected:
        said.append(f"protected {day_words(told.protected)}" + (f" with {told.held_with}" if told.held_with else ""))
    if told and told.informed:
        said.append(f"information given {day_words(told.informed)}")
    if told and told.number:
        said.append(f"number {told.number}")
    return said + [f"{line.verb} {pounds(line.total)} on {line.day}" for line in (*account.kept, *account.repaid)]


def _deposit(account: DepositAccount, notes: Sequence[str]) -> list[str]:
    out = paragraph(", ".join(deposit_told(account)), "    ", "      ")
    for note in notes:
        out += paragraph(note, "      * ", "        ")
    return out


def how_asked(asked: Asked) -> str:
    """How a sum was asked of a tenant."""
    return "kept of the deposit" if asked.kept else f"billed, {pounds(asked.paid)} paid"


def _asked(asked: Asked) -> list[str]:
    what = f" for {asked.what}" if asked.what else ""
    said = f"{asked.line.day}: {pounds(asked.pence)}{what}, {how_asked(asked)} ({asked.line.source})"
    out = paragraph(said, "    ", "      ")
    if wear := wear_told(asked):
        out += paragraph(f"Fair wear: {wear}", "      * ", "        ")
    return out


def wear_told(asked: Asked) -> str:
    """What age leaves of the thing a sum was asked for, or why that is not known; "" where it is no such thing."""
    if asked.wear:
        return _wear(asked.wear, asked.pence)
    return f"{asked.why}." if asked.why else ""


def _wear(wear: Wear, pence: int) -> str:
    age = f"{wear.months // 12} years" + (f" and {wear.months % 12} months" if wear.months % 12 else "")
    said = (
        f"{wear.thing} bought for {pounds(wear.price)} ({wear.source}), {age} old of a customary "
        f"{wear.years} years: {pounds(wear.left)} is left of it"
    )
    return said + (", less than was asked." if pence > wear.left else ".")


# ── JSON ─────────────────────────────────────────────────────────────────────────────────────────────────────────


def as_json(houses: Sequence[HouseRents]) -> dict[str, Any]:
    """The same as data."""
    return {
        "statement": "rents",
        "houses": [
            {
                "property": house.house,
                "name": house.full,
                "on": house.on.isoformat(),
                "lets": [_let_json(made) for made in house.lets],
                "unplaced": [{"source": r.line.source, "amount": plain(r.pence)} for r in house.unplaced],
            }
            for house in houses
        ],
        "footer": footer(houses),
    }


def _let_json(made: LetRents) -> dict[str, Any]:
    return {
        "let": made.let.name,
        "tenants": list(made.let.tenants),
        "rent": _rent_json(made.rent) if made.rent else None,
        "deposit": _deposit_json(made),
        "asked": [_asked_json(asked) for asked in made.asked],
    }


def _rent_json(rent: RentAccount) -> dict[str, Any]:
    return {
        "since": rent.since.isoformat(),
        "carried_in": plain(rent.carried) if rent.told else None,
        "due": plain(rent.total_due),
        "came_in": plain(rent.total_came),
        "written_off": plain(rent.total_lost),
        "owed": plain(rent.arrears),
        "ahead": plain(rent.ahead),
        "arrears": [
            {"due": o.day.isoformat(), "days": o.late(rent.on), "amount": plain(o.pence), "carried_in": o.carried}
            for o in rent.owed
        ],
        "lines": [r.line.source for r in (*rent.came, *rent.lost)],
    }


def _deposit_json(made: LetRents) -> dict[str, Any] | None:
    account, told = made.deposit, made.deposit.told
    if told is None and not account.received:
        return None
    return {
        "received": plain(account.received),
        "held": plain(account.held),
        "received_on": account.received_on.isoformat() if account.received_on else None,
        "protected_on": told.protected.isoformat() if told and told.protected else None,
        "information_given_on": told.informed.isoformat() if told and told.informed else None,
        "with": told.held_with or None if told else None,
        "number": told.number or None if told else None,
        "kept": [{"source": line.source, "amount": plain(line.total)} for line in account.kept],
        "repaid": [{"source": line.source, "amount": plain(line.total)} for line in account.repaid],
        "notes": list(made.deposit_notes),
    }


def _asked_json(asked: Asked) -> dict[str, Any]:
    w = asked.wear
    wear = {"bought_at": w.source, "price": plain(w.price), "life_years": w.years, "age_months": w.months,
            "left": plain(w.left)} if w else None  # fmt: skip
    return {
        "source": asked.line.source,
        "day": asked.line.day.first.isoformat(),
        "for": asked.what or None,
        "kept_of_deposit": asked.kept,
        "amount": plain(asked.pence),
        "paid": plain(asked.paid),
        "wear": wear,
        "wear_unknown": asked.why or None,
    }
