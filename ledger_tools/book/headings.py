"""From the syntax of a heading and its fields to a typed object. Knows no tax, and looks no name up."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

from ..days import Period, TaxYear
from ..language.records import Clause, Piece, Statement
from ..problems import Place
from .entries import Extra, Proof
from .lines import Spot, bare, becomes, shares, things, value
from .world import (
    Charge,
    Council,
    Deal,
    Deposit,
    Landlord,
    Loan,
    OwingTo,
    Ownership,
    Party,
    Property,
    Rent,
    Schedule,
    Scheme,
    SchemeRule,
    Span,
    Spell,
    Step,
    Tenancy,
    ThingWord,
    Todo,
)


def _said(clause: Clause, word: str) -> tuple[str, ...]:
    """The quoted words of its `says` or `because` facts."""
    return tuple(
        v.values[1].value
        for v in clause.values
        if isinstance(v, Clause) and v.kind == "reason" and v.values[0].value == word
    )


def _proofs(spot: Spot, clause: Clause) -> tuple[Proof, ...]:
    found = []
    for v in clause.values:
        if isinstance(v, Clause) and v.kind == "receipt":
            found += [Proof(v.values[0].value, p.value, spot.place(p)) for p in v.values[1:]]
    return tuple(found)


def _fields(statement: Statement, kind: str) -> list[Clause]:
    return [c for c in statement.clauses if c.kind == kind]


def _field(statement: Statement, kind: str) -> Clause | None:
    return next(iter(_fields(statement, kind)), None)


def _name(statement: Statement) -> str:
    return str(statement.head[0].value)


def _inside(clause: Clause, kind: str) -> list[Clause]:
    return [v for v in clause.values if isinstance(v, Clause) and v.kind == kind]


def _owing_to(spot: Spot, clause: Clause) -> OwingTo:
    """What a line on the state, or the price, tells that it was owing to."""
    only = _inside(clause, "owing_only")
    named = [named for where in (clause, *only) for named in _inside(where, "things")]
    faults = tuple(thing for each in named for thing in things(spot, each))
    return OwingTo(faults, _said(clause, "says"), _said(clause, "because"), bool(only), spot.place(clause))


def _year(clause: Clause) -> TaxYear | None:
    year = value(clause, "TAXYEAR")
    return TaxYear.read(year) if year else None


def _claimed(statement: Statement, kind: str, words: str = "") -> frozenset[TaxYear]:
    """The tax years in which a landlord claims something."""
    claims = (c for c in _fields(statement, kind) if not words or value(c, "CLAIMS") == words)
    return frozenset(y for c in claims if (y := _year(c)))


def _by_year(statement: Statement, kind: str, only: tuple[str, str] | None = None) -> dict[TaxYear, int]:
    """Sums told of tax years, of one year together whatever lines they stand on; only those that say one thing."""
    sums: dict[TaxYear, int] = {}
    for clause in _fields(statement, kind):
        year, pence = _year(clause), value(clause, "AMOUNT")
        if year and pence is not None and (only is None or value(clause, only[0]) == only[1]):
            sums[year] = sums.get(year, 0) + pence
    return sums


def span(clause: Clause) -> Span:
    """`6 months` as a Span."""
    number, unit = clause.values
    return Span(Fraction(number.value), unit.value.rstrip("s"))


def landlord(spot: Spot, s: Statement) -> Landlord:
    """A landlord block."""
    married = _field(s, "married")
    brought = {what: _by_year(s, "brought_in", ("BROUGHT", what)) for what in ("loss", "unused finance costs")}
    return Landlord(
        _name(s), s.head[1].value, spot.place(s),
        bases=tuple((_year(c), value(c, "BASIS")) for c in _fields(s, "accounting")),
        other_income=_by_year(s, "other_income"),  # a pension and wages: each may have its line
        losses=brought["loss"],
        unused_finance=brought["unused finance costs"],
        spouse=value(married, "NAME") if married else "",
        married_from=value(married, "DATE") if married else None,
        allowance_years=_claimed(s, "allowance", "claims property allowance"),
        declined_years=_claimed(s, "allowance", "declines property allowance"),
        rent_a_room={**dict.fromkeys(_claimed(s, "lodgers")), **_by_year(s, "lodgers")},
        lives=tuple((_year(c), value(c, "NATION")) for c in _fields(s, "lives")),
        quarters=tuple((_year(c), value(c, "QUARTERS").partition(" ")[0]) for c in _fields(s, "quarters")),
        accounts_to=tuple(
            (_year(c), value(c, "ACCOUNTS_TO").removeprefix("accounts to ")) for c in _fields(s, "accounts_to")
        ),
    )  # fmt: skip


def party(spot: Spot, s: Statement) -> Party:
    """A supplier, agent, lender or insurer block."""
    kind, name, full = s.head
    trade = _field(s, "trade")
    charges = tuple(_charge(spot, c) for c in _fields(s, "charges"))
    return Party(kind.value, name.value, full.value, spot.place(s), charges, trade.values[0].value if trade else "")


def _charge(spot: Spot, clause: Clause) -> Charge:
    of, *plus = [p.value for p in clause.values if p.type == "WORDS"]
    return Charge(Fraction(value(clause, "PERCENT")), of, plus[0] if plus else "", spot.place(clause))


def council(spot: Spot, s: Statement) -> Council:
    """A council block."""
    nation = _field(s, "nation")
    return Council(_name(s), s.head[1].value, spot.place(s), nation.values[0].value if nation else "")


# ── schemes ──────────────────────────────────────────────────────────────────────────────────────────────────────


def _off(clause: Clause) -> Fraction:
    """`free` lets all off, `full` nothing, `25% off` a quarter."""
    said = clause.values[0]
    if clause.kind == "discount":
        return Fraction(said.value) / 100
    return Fraction(1 if said.value == "free" else 0)


def _step(values: tuple[Any, ...]) -> Step:
    off = next(v for v in values if isinstance(v, Clause) and v.kind in ("free", "discount"))
    spans = [v for v in values if isinstance(v, Clause) and v.kind == "span"]
    return Step(_off(off), span(spans[0]) if spans else None)


def _premium_step(clause: Clause) -> Step:
    return Step(Fraction(value(clause, "PERCENT")) / 100, span(_inside(clause, "span")[0]))


def scheme_rule(spot: Spot, clause: Clause) -> SchemeRule:
    """A ladder, a premium or the second-homes rule of a scheme."""
    kind = {"premium": "premium", "second_homes": "second homes"}.get(clause.kind) or value(clause, "CLASS")
    if clause.kind == "ladder":
        steps = [_step(clause.values)]
    elif clause.kind == "premium":
        steps = [_premium_step(clause)]
    else:
        steps = [Step(Fraction(value(clause, "PERCENT")) / 100, None)]
    told: dict[str, Any] = {}
    for v in clause.values:
        if not isinstance(v, Clause):
            continue
        if v.kind == "step":
            steps.append(_step(v.values))
        elif v.kind == "premium_step":
            steps.append(_premium_step(v))
        elif v.kind == "whose_time":
            told["whose_time"] = value(v, "WHOSE_TIME")
        elif v.kind == "again":
            told["again"] = (value(v, "MORE_THAN") is not None, span(_inside(v, "span")[0]))
            told["again_furnished"] = value(v, "LIVED_IN").endswith("furnished")
        elif v.kind == "tail":
            told["tail"] = span(_inside(v, "span")[0])
        elif v.kind == "stops":
            told["stops"] = value(v, "DATE")
        elif v.kind == "waits":
            told["waits"] = span(_inside(v, "span")[0])
        elif v.kind == "decided":
            told["decided"] = value(v, "DATE")
        elif v.kind == "only_at":
            told["only_at"] = tuple(p.value for p in v.values)
        elif v.kind == "except_for":
            words = [p.value for p in v.values if isinstance(p, Piece)]
            spans = _inside(v, "span")
            exception = (words[0], span(spans[0]) if spans else None, words[1] if len(words) > 1 else "")
            told["exceptions"] = (*told.get("exceptions", ()), exception)
    return SchemeRule(kind, spot.place(clause), tuple(steps), since=value(clause, "DATE"), **told)


def scheme(spot: Spot, s: Statement) -> Scheme:
    """A scheme block: one council, one year."""
    charges, parts = {}, {}
    for clause in _fields(s, "charge"):
        band = value(clause, "NAME")
        charges[band] = value(clause, "AMOUNT")
        parts[band] = tuple(
            (" and ".join(p.value for p in part.values[:-1]), part.values[-1].value)
            for part in _inside(clause, "charge_part")
        )
    return Scheme(
        _name(s), TaxYear.read(s.head[1].value), spot.place(s), charges, parts,
        rules=tuple(scheme_rule(spot, c) for c in s.clauses if c.kind in ("ladder", "premium", "second_homes")),
        never_reduced=tuple(p.value for c in _fields(s, "never_reduced") for p in c.values),
    )  # fmt: skip


# ── houses ───────────────────────────────────────────────────────────────────────────────────────────────────────


def _deal(spot: Spot, clause: Clause) -> Deal:
    return Deal(
        clause.values[0].value, value(clause, "DATE"), value(clause, "AMOUNT"), spot.place(clause),
        facts=frozenset(v.values[0].value for v in _inside(clause, "deal_fact")),
        of_which=tuple(
            Extra(bare(value(v, "WORDS") or ""), value(v, "AMOUNT"), value(v, "STRING") or "", spot.place(v))
            for v in _inside(clause, "of_which")
        ),
        says=_said(clause, "says"),
    )  # fmt: skip


def _ownership(spot: Spot, clause: Clause) -> Ownership:
    told = shares(spot, clause)
    # Halves, thirds and so on where no percentage is told; where only some are, the rest have none and the check of
    # the whole says so.
    each = Fraction(0) if any(fraction is not None for _, fraction in told) else Fraction(1, len(told))
    return Ownership(
        value(clause, "DATE"),
        tuple((name.text, fraction if fraction is not None else each) for name, fraction in told),
        spot.place(clause),
        bool(_inside(clause, "on_death")),
        _said(clause, "says"),
    )


def _spell(spot: Spot, c: Clause) -> Spell:
    days = [p.value for p in c.values if isinstance(p, Piece) and p.type == "DATE"]
    state = value(c, "SPELL") or "exempt"
    until = days[1] if len(days) > 1 else None
    council_class = str(value(c, "NAME") or value(c, "NUMBER") or "")
    return Spell(state, days[0], until, spot.place(c), council_class, _said(c, "says"), _said(c, "because"))


def house(spot: Spot, s: Statement) -> Property:
    """A property block."""
    told: dict[str, Any] = {}
    seen: dict[str, list[Any]] = {
        "owners": [],
        "form_17": [],
        "spells": [],
        "rooms": [],
        "left": [],
        "valued": [],
        "contracts": [],
        "state": [],
        "price": [],
    }
    proofs: list[Proof] = []
    places: dict[str, Place] = {}
    for c in s.clauses:
        proofs += _proofs(spot, c)
        places.setdefault(c.kind, spot.place(c))
        if c.kind == "nation":
            told["nation"] = c.values[0].value
        elif c.kind == "council_band":
            told["council"], *band = (piece.value for piece in c.values)
            told["band"] = band[0] if band else ""
        elif c.kind == "exchanged":
            seen["contracts"].append((value(c, "DATE"), spot.place(c)))
        elif c.kind in ("bought", "got_free"):
            deal = _deal(spot, c)
            told["sold" if deal.how == "sold" else "got"] = deal
        elif c.kind == "owners":
            seen["owners"].append(_ownership(spot, c))
        elif c.kind == "form_17":
            seen["form_17"].append((c.values[0].value, c.values[1].value))
        elif c.kind == "as_bought":
            told["as_bought"] = value(c, "STATE") or value(c, "POOR")
            told.setdefault("as_bought_place", spot.place(c))
            seen["state"].append(_owing_to(spot, c))
        elif c.kind == "price_was":
            cut = _inside(c, "price_cut")
            told["price"] = "reduced" if cut else "normal"
            told["price_cut"] = (value(cut[0], "AMOUNT") if cut else None) or told.get("price_cut")
            seen["price"].append(_owing_to(spot, c))
        elif c.kind == "empty_since":
            told["empty_since"], told["empty_says"] = value(c, "DATE"), _said(c, "says")
        elif c.kind == "died":
            told["owner_died"] = value(c, "DATE")
        elif c.kind == "probate":
            told["probate"] = value(c, "DATE")
        elif c.kind == "rooms":
            seen["rooms"] += [spot.name(p) for p in c.values]
        elif c.kind in ("spell", "exempt"):
            seen["spells"].append(_spell(spot, c))
        elif c.kind == "leftovers":
            left = things(spot, c.values[0])
            seen["left"] += left
            told["left_says"] = {**told.get("left_says", {}), **{t.name: _said(c, "says") for t in left}}
        elif c.kind == "leasehold":
            told["leasehold"] = (span(c.values[0]), value(c, "DATE"))
            told["put_right"] = bool(_inside(c, "put_right"))
        elif c.kind == "valued":
            seen["valued"].append((value(c, "DATE"), value(c, "AMOUNT")))
    return Property(
        _name(s), s.head[1].value, spot.place(s),
        owners=tuple(seen["owners"]), form_17=tuple(seen["form_17"]), spells=tuple(seen["spells"]),
        rooms=tuple(seen["rooms"]), left_by_seller=tuple(seen["left"]), valued=tuple(seen["valued"]),
        contracts=tuple(seen["contracts"]),
        as_bought_told=tuple(seen["state"]), price_told=tuple(seen["price"]),
        proofs=tuple(proofs), places=places, **told,
    )  # fmt: skip


def loan(spot: Spot, s: Statement) -> Loan:
    """A loan block."""
    lender = _field(s, "party_name")
    monthly, kind = _field(s, "monthly"), _field(s, "loan_kind")
    rates = []
    for c in _fields(s, "rate"):
        days = [p.value for p in c.values if p.type == "DATE"]
        rates.append((Fraction(value(c, "PERCENT")), days[0], days[1] if len(days) > 1 else None))
    return Loan(
        _name(s), s.head[1].value, lender.values[0].value if lender else "", spot.place(s),
        rates=tuple(rates), kind=kind.values[0].value if kind else "",
        monthly=value(monthly, "AMOUNT") if monthly else None,
        owed=tuple((value(c, "DATE"), value(c, "AMOUNT")) for c in _fields(s, "owed")),
    )  # fmt: skip


# ── schedules and tenancies ──────────────────────────────────────────────────────────────────────────────────────


def _todo(spot: Spot, room: str, s: Statement) -> Todo:
    clauses = {c.kind: c for c in s.clauses}
    priority, verb = s.head[0], s.head[1]
    return Todo(
        room, int(Fraction(priority.value)), verb.value,
        things(spot, clauses["things"]) if "things" in clauses else (), spot.place(s),
        amount=clauses["price"].values[0].value if "price" in clauses else None,
        trade=clauses["by_trade"].values[0].value if "by_trade" in clauses else "",
        note=clauses["note"].values[0].value if "note" in clauses else "",
        facts=frozenset(c.values[0].value for c in s.clauses if c.kind in TODO_FACTS),
        needs=tuple(t for c in s.clauses if c.kind == "needs" for t in things(spot, c.values[0])),
        takes=span(clauses["takes"].values[0]) if "takes" in clauses else None,
        ahead=span(clauses["ahead"].values[0]) if "ahead" in clauses else None,
        becomes=becomes(spot, clauses["swap"]) if "swap" in clauses else None,
    )  # fmt: skip


TODO_FACTS = ("compared", "cause", "was_there", "own_labour", "provisional")


def schedule(spot: Spot, s: Statement) -> Schedule:
    """A schedule block."""
    target, spare = _field(s, "target"), _field(s, "contingency")
    percent = value(spare, "PERCENT") if spare else None
    return Schedule(
        _name(s), s.head[1].value, spot.place(s),
        target=(value(target, "DATE"), value(target, "AMOUNT"), value(target, "EVERY")) if target else None,
        contingency_percent=Fraction(percent) / 100 if percent else None,
        contingency=value(spare, "AMOUNT") if spare else None,
        todos=tuple(_todo(spot, room.head[0].value, job) for room in s.below for job in room.below),
    )  # fmt: skip


def _rent(spot: Spot, c: Clause) -> Rent:
    first_due, notice = _inside(c, "first_due"), _inside(c, "notice_given")
    return Rent(
        value(c, "AMOUNT"), value(c, "EVERY"), value(c, "DATE"), spot.place(c),
        first_due=first_due[0].values[0].value if first_due else None,
        notice=notice[0].values[0].value if notice else None,
        includes=tuple(p.value for v in _inside(c, "includes") for p in v.values),
    )  # fmt: skip


def _deposit(spot: Spot, c: Clause) -> Deposit:
    days = {v.values[0].value: v.values[1].value for v in _inside(c, "deposit_date")}
    held, number = _inside(c, "held_with"), _inside(c, "number")
    return Deposit(
        value(c, "AMOUNT"), value(c, "DEPOSIT") == "holding deposit", spot.place(c),
        received=days.get("received"), protected=days.get("protected"),
        informed=days.get("information given"),
        held_with=held[0].values[0].values[0].value if held else "",
        number=str(number[0].values[0].values[0].value) if number else "",
    )  # fmt: skip


def _room_let(c: Clause) -> str:
    """The room that is let: `room front bedroom`, or by its number alone, `room 1`."""
    said = c.values[0]
    return f"room {said.value}" if said.type == "NUMBER" else bare(said.value)


def _why(clause: Clause) -> str:
    """The reason told inside a clause, in the landlord's words; "" where none is."""
    reasons = (inner for inner in clause.values if isinstance(inner, Clause) and inner.kind == "reason")
    return next((str(value(inner, "STRING")) for inner in reasons), "")


def tenancy(spot: Spot, s: Statement) -> Tenancy:
    """A tenancy block."""
    told: dict[str, Any] = {}
    for c in _fields(s, "term"):
        days = [p.value for p in c.values]
        told["starts"] = days[0]
        if len(days) > 1 and days[0] <= days[1]:
            told["term"] = Period(days[0], days[1])
    for c in _fields(s, "came_and_went"):
        told[c.values[0].value.replace(" ", "_")] = value(c, "DATE")
    periodic, room = _field(s, "periodic"), _field(s, "room_let")
    kind, rolls = _field(s, "let_kind"), _field(s, "rolls_on")
    free = [Period(c.values[0].value, c.values[1].value) for c in _fields(s, "rent_free")
            if c.values[0].value <= c.values[1].value]  # fmt: skip
    return Tenancy(
        _name(s), s.head[1].value, spot.place(s),
        tenants=tuple(p.value for c in _fields(s, "tenants") for p in c.values),
        periodic=value(periodic, "DATE") if periodic else None,
        rents=tuple(_rent(spot, c) for c in _fields(s, "rent")),
        deposits=tuple(_deposit(spot, c) for c in _fields(s, "deposit")),
        notices=tuple((value(c, "DATE"), value(c, "NOTICE_BY")) for c in _fields(s, "notice")),
        notice_reasons=tuple((value(c, "DATE"), why) for c in _fields(s, "notice") if (why := _why(c))),
        tenant_pays=tuple(p.value for c in _fields(s, "tenant_pays") for p in c.values),
        rent_free=tuple(free),
        room=_room_let(room) if room else "",
        room_place=spot.place(room) if room else None,
        let_kind=value(kind, "LET_KIND") if kind else "",
        rolls_on=value(rolls, "ROLLS_ON") if rolls else "",
        arrears=tuple((value(c, "DATE"), value(c, "AMOUNT")) for c in _fields(s, "arrears")),
        **told,
    )  # fmt: skip


def thing_word(spot: Spot, s: Statement) -> ThingWord:
    """A `thing … is …` block."""
    return ThingWord(bare(s.head[0].value), s.head[1].value, spot.place(s))


HEADINGS: dict[str, Callable[[Spot, Statement], Any]] = {
    "landlord": landlord, "party": party, "council": council, "scheme": scheme, "property": house, "loan": loan,
    "schedule": schedule, "tenancy": tenancy, "thing_kind": thing_word,
}  # fmt: skip
