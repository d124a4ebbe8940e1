"""Recognises how people tell what lies inside or on top of a sum: vat, a private share, a retention, two sums in one.

Knows how they say it and works out shares of a sum typed; what is taxed, and at which rate, is for others.
"""

from __future__ import annotations

import re
from fractions import Fraction

from ...money import pence, pounds
from ...problems import Fix, Problem
from ..grammar import LITTLE_WORDS
from ..spot import Spot, said
from .tables import NOUNS

_AMOUNT = r"£ ?\d(?:[\d,]*\d)?(?:\.\d\d)?(?![\d.,]*\d)"
_PART = rf"(?:{_AMOUNT}|\d+(?:\.\d+)?%)"
_INCLUDED = re.compile(
    rf"\(?(?:incl?\b\.?|including|includes|included|inclusive of|with)[ \t]+(?P<of>{_PART} (?:of )?)?(?:the )?vat\b"
    rf"(?:[ \t]+(?:of |@ ?|at )?(?P<sum>{_PART}))?\)?",
    re.I,
)
_INSIDE = re.compile(
    rf"(?:incl?\b\.?|including|includes|included)[ \t]+(?P<what>[a-z]+(?:[ \t]+[a-z]+)?)(?:[ \t]+(?P<sum>{_AMOUNT}))?",
    re.I,
)
_ON_TOP = re.compile(
    rf"(?:\+|plus|and|excl?\b\.?|excluding|ex)[ \t]*(?P<of>{_AMOUNT}[ \t]+)?(?:the )?vat\b"
    rf"(?:[ \t]+(?:of )?(?P<sum>{_AMOUNT}))?",
    re.I,
)
_SECOND = re.compile(rf"(?:\+|&|and|plus)[ \t]*(?P<sum>{_AMOUNT})(?:[ \t]+(?P<what>[a-z]+))?", re.I)
_LETTING = r"(?:business|letting|rental|property|work|let)(?: use| part| share)?"
_PRIVATE = r"(?:private(?:ly)?|personal(?:ly)?|own|home)(?: use| part| share)?"
_PORTION = r"(?P<part>\d+(?:\.\d+)? ?%|half|a half|one half|a third|one third|a quarter|one quarter|quarter|third)"
_SHARE = tuple(
    re.compile(pattern, re.I)
    for pattern in (
        rf"{_PORTION} (?:is |of it )?(?:(?P<ours>{_LETTING})|(?P<own>{_PRIVATE}))(?=[ \t]*(?:[,#\n]|$))",
        rf"(?:(?P<ours>{_LETTING})|(?P<own>{_PRIVATE})) {_PORTION}(?=[ \t]*(?:[,#\n]|$))",
        rf"(?P<own>{_PRIVATE})(?P<part>)(?=[ \t]*(?:[,#\n]|$))",
    )
)
_WORDED = {"half": Fraction(1, 2), "third": Fraction(1, 3), "quarter": Fraction(1, 4)}
_TURNED = re.compile(
    rf"(?P<sum>{_AMOUNT})[ \t]+(?:(?:is|was|for|of)[ \t]+)*(?:(?:the|a|an|my|our)[ \t]+)?"
    r"(?P<what>[a-z][a-z'-]*(?:[ \t]+[a-z][a-z'-]*)*)(?=[ \t]*(?:[,#\n]|$))",
    re.I,
)
_RETENTION = re.compile(rf"(?P<sum>\d+(?:\.\d+)? ?%|{_AMOUNT}) (?:retention|retained|held back)\b", re.I)


_BARE_PART = re.compile(
    r"(?:(?:less|minus|deduct(?:ed)?|after|-)[ \t]+)?(?P<what>[a-z][^£\"#,\n]*?)(?:[ \t]+of)?[ \t]*:?[ \t]*-?[ \t]*"
    rf"(?P<sum>{_AMOUNT})"
    r"(?:[ \t]+(?:from[ \t]+)?(?P<name>[a-z][\w-]*)(?=[ \t]*(?:,|#|$)))?",
    re.I | re.M,
)
_OF_WORK = re.compile(r"(?:improvement|same again|part exchange|old one)\b", re.I)  # facts of works, each with a sum
_TOTAL = re.compile(
    r"(?:total|balance|net|gross|amount|paid to (?:you|us|landlord|owner)|carried|brought|float)\b", re.I
)
_CAME = re.compile(r"(?:gross |full )?(?:rent|rents|arrears)(?: (?:received|collected|in|paid|due))?", re.I)
_FEE = re.compile(
    r"(?:the |your |our |agents?'? |monthly )?(?:fees?|comms?|charges?|mgmt(?: fee)?|mgt(?: fee)?)", re.I
)
_COST = re.compile(
    rf"(?:and[ \t]+)?(?P<what>[a-z][a-z' -]*?)[ \t]+(?P<sum>{_AMOUNT})"
    r"(?P<who>(?:[ \t]+(?:from|by|to)[ \t]+(?:\"[^\"]+\"|[\w-]+))?)",
    re.I,
)


def _begin(spot: Spot) -> int:
    """Where a fact at the spot begins, with the comma before it."""
    last = spot.last
    start = last.start_pos if last is not None and last.type == "_COMMA" else spot.start
    return len(spot.text[:start].rstrip(" \t"))


def _put_behind(spot: Spot, start: int, end: int, fact: str) -> Fix | None:
    """The words taken out, and a fact put behind the clauses that follow them."""
    last = spot.clauses_end(end)
    if not fact.startswith(",") or last <= end:
        return spot.mend(start, end, fact)
    return spot.mend(start, last, f"{spot.text[end:last]}{fact}")


def vat(spot: Spot) -> Problem | None:
    """£108.00 including vat, £90.00 + vat: the sum tells it, unless the part that is vat is named."""
    if spot.unfinished or not spot.accepts & {"_COMMA", "OF_WHICH", "PLUS"}:
        return None
    for pattern, word in ((_INCLUDED, "of which"), (_ON_TOP, "plus")):
        found = pattern.match(spot.text, spot.start)
        if found is None:
            continue
        part = (found["sum"] or found["of"] or "").strip().removesuffix(" of")
        named = f", {word} vat {part}" if part.startswith("£") else ""
        if word == "plus" and re.match(r"plus vat £" if named else "and", found[0], re.I):
            return None  # only its comma is missing; or one more thing called vat
        fix = _put_behind(spot, _begin(spot), found.end(), named) if named or word == "of which" else None
        help = f'Name the part that is vat: "{named}".'
        if not named:
            help = f'Leave it out, since the sum tells it; or name the part that is vat: ", {word} vat £…".'
            if word == "plus":
                help = 'Write the whole sum that was paid; or name what comes on top: ", plus vat £…".'
        return spot.error(
            "other-word",
            f'Your book says "{found[0].strip()}", and a line gives one sum, the whole.',
            at=(spot.start, found.end()),
            label="vat",
            help=help,
            fix=fix,
        )
    return None


def included(spot: Spot) -> Problem | None:
    """£400.00 including delivery £20.00: what is inside the sum begins with of which."""
    found = _INSIDE.match(spot.text, spot.start)
    if found is None or spot.unfinished or not spot.accepts & {"_COMMA", "OF_WHICH"}:
        return None
    named = f", of which {found['what']} {found['sum'] or '£…'}"
    return spot.error(
        "other-word",
        f'Your book says "{found[0]}", and a line gives one sum, the whole.',
        at=(spot.start, found.end()),
        label="of which",
        help=f'Leave it out, since the sum tells it; or name the part: "{named}".',
        fix=_put_behind(spot, _begin(spot), found.end(), named) if found["sum"] else None,
    )


def sums_added(spot: Spot) -> Problem | None:
    """£80.00 + £16.00: two sums where one line has one."""
    last, found = spot.last, _SECOND.match(spot.text, spot.start)
    if last is None or last.type != "AMOUNT" or found is None:
        return None
    one, other = spot.text[last.start_pos : last.end_pos], found["sum"]
    whole = pounds(pence(one[1:].strip()) + pence(other[1:].strip()))
    what = (found["what"] or "").lower()
    named = what not in ("", "to", "by", "from", "for", "in", "at", "with", "on")
    end = found.end() if named else found.end("sum")
    called = what if named else "…"
    start = last.end_pos if named else last.start_pos
    meant = f", plus {what} {other}" if named else whole
    return spot.error(
        "and-sign",
        f'One line has one amount, and "{one} {spot.text[spot.start : found.end("sum")]}" is two.',
        at=(last.start_pos, found.end("sum")),
        label=f"{whole}?",
        help=f'Write the sum, {whole}; or name what comes on top, behind a comma: "plus {called} {other}".',
        fix=_put_behind(spot, start, end, meant),
    )


def private_share(spot: Spot) -> Problem | None:
    """30% business, private half: a share of the sum that is not for the let."""
    if spot.last_type != "_COMMA" and "_COMMA" not in spot.accepts or spot.unfinished:
        return None
    found = next((m for pattern in _SHARE if (m := pattern.match(spot.text, spot.start))), None)
    if found is None:
        return None
    part = _private(spot, found)
    named = f", of which private {part or '£…'}"
    return spot.error(
        "unknown-fact",
        f'"{found[0]}" is not a fact of the book.',
        at=(spot.start, found.end()),
        label="which part?",
        help=f'Give the part of the sum that is not for the let: "{named}".',
        fix=spot.mend(_begin(spot), found.end(), named) if part else None,
    )


def _private(spot: Spot, found: re.Match[str]) -> str:
    """The private part of the line's sum, "" where it cannot be known to the penny."""
    typed = found["part"].lower()
    if not typed or not spot.sum[1:2].isdigit():
        return ""
    figure = typed.rstrip("% ")
    share = Fraction(figure) / 100 if typed.endswith("%") else _WORDED[typed.split()[-1]]
    own = found.groupdict().get("own")
    whole = pence(spot.sum[1:])
    exact = whole * (share if own else 1 - share)
    return pounds(int(exact + Fraction(1, 2))) if 0 < exact < whole else ""


def retention(spot: Spot) -> Problem | None:
    """5% retention: the word comes before its figure."""
    found = _RETENTION.match(spot.text, spot.start)
    if found is None or spot.last_type != "_COMMA" and "_COMMA" not in spot.accepts:
        return None
    meant = f"retention {found['sum'].replace(' ', '')}"
    fix = spot.mend(_begin(spot), found.end(), f", {meant}")
    if fix is None:
        return None
    return spot.error(
        "other-word",
        f'Your book says "{found[0]}"; it is written "{meant}" here.',
        at=(spot.start, found.end()),
        label=meant,
        help=f'Write "{meant}".',
        fix=fix,
    )


def part_turned(spot: Spot) -> Problem | None:
    """, of which £1,250 new roof: what the part is stands before its sum."""
    last = spot.last
    if last is None or last.value not in ("of which", "plus") or spot.piece.type != "AMOUNT":
        return None
    word = str(last.value)
    found = _TURNED.match(spot.text, spot.start)
    fix = spot.mend(spot.start, found.end(), f"{found['what']} {found['sum']}") if found else None
    help = "What the part is comes first, and then how much."
    if fix is None:
        help = f"What the part is comes first: `{word} delivery £20.00`, say."
    return spot.error(
        "other-word",
        f'After "{word}" comes what the part is, and then its sum.',
        at=(spot.start, found.end() if fix and found else spot.end),
        label="which part?",
        help=help,
        fix=fix,
    )


def part_without_verb(spot: Spot) -> Problem | None:
    """commission £57.50, less fee £89.50, rent £575 reid under a sum that was banked: what was kept back was paid, rent
    was received."""
    if not spot.begins_line or "PART_VERB" not in spot.accepts or spot.unfinished:
        return None
    found = _BARE_PART.match(spot.text, spot.start)
    if found is None or found["what"].lower().split()[0] in said(spot.accepts):
        return None
    what, sum_ = found["what"].strip(), found["sum"].replace(" ", "")
    at = (spot.start, found.end("sum"))
    if _OF_WORK.match(what):
        return spot.error(
            "belongs-elsewhere", f'"{found[0].strip()}" is told of one line, not of the whole bill.', at=at,
            label="of which line?", fix=spot.mend(spot.start, spot.start, "    "),
            help="Indent it further if it is of the line above it; else put it on the line it is of.",
        )  # fmt: skip
    if _TOTAL.match(what):
        return spot.error(
            "verb-missing", f'"{what}" is no part of its own: the head line gives the total.', at=at, label="a total?",
            help="Leave it out, if it only says what the parts come to. What an agent keeps back for bills to come, or "
            "takes from an earlier month, is not told apart: bank what came, and write each bill once it was paid.",
        )  # fmt: skip
    if re.fullmatch(r"(?:the |plus |\+ ?)?vat(?: on .*)?", what, re.I):
        return spot.error(
            "verb-missing", 'No verb stands before "VAT", and it goes with the sum it was charged on.', at=at,
            label="with its fee",
            help=f"Leave this line out, and end the line of the fee with `, plus vat {sum_}`.",
        )  # fmt: skip
    if re.search(r"\b(?:repairs?|works?|plumb\w+|fix\w*)\b", what, re.I):
        return spot.error(
            "verb-missing", f'No verb stands before "{what}": what happened?', at=at, label="what was done?",
            help=f"For work begin with what was done, as anywhere in the book: `repaired … {sum_}`, and behind it `by` "
            "and who did it.",
        )  # fmt: skip
    if _FEE.fullmatch(what):
        what = "management fee"
    verb = "received" if _CAME.fullmatch(what) else "paid"
    name = found["name"] or ""
    from_ = f" from {name}" if verb == "received" and name and name.lower() not in LITTLE_WORDS else ""
    thing = "rent" if verb == "received" and what.lower() != "arrears" else what
    end = found.end() if from_ else found.end("sum")
    line = f"{verb} {thing} {sum_}{from_}"
    why = "What came in was received" if verb == "received" else "What was kept back of the money was paid"
    return spot.error(
        "verb-missing", f'No verb stands before "{what}": what happened?', at=at,
        label="what happened?", help=f"{why}: `{line}`.", fix=spot.mend(spot.start, end, line),
    )  # fmt: skip


def cost_as_fact(spot: Spot) -> Problem | None:
    """repaired gate, own labour, hinges £8.40 from jewson; sold …, solicitor £1,200: one more cost where a fact is
    awaited."""
    if spot.last_type != "_COMMA" or not spot.day or spot.unfinished or "REASON" not in spot.accepts:
        return None
    found = _COST.match(spot.text, spot.start)
    own = any(piece.type == "OWN_LABOUR" for piece in spot.stop.before)
    goods = found is not None and any(found["what"].lower() in noun.typed for noun in NOUNS)
    if "£" not in spot.text[spot.head : spot.start] and not own and not goods:
        return None  # its own sum: kitchen £90.00
    if found is None or found["what"].lower() in ("plus", "of which", "improvement", "excess") or LITTLE_WORDS & {
        *found["what"].lower().split()
    } - {"and"}:
        return None
    what, sum_, who = found["what"].strip(), found["sum"], found["who"]
    goods = any(what.lower() in noun.typed and noun.went.startswith("bought") for noun in NOUNS)
    verb = "bought" if goods or who.strip().lower().startswith("from") else "paid"
    line = f"{spot.day} {verb} {what} {sum_}{who if verb == 'bought' else re.sub(' by ', ' to ', who)}"
    return spot.error(
        "belongs-elsewhere",
        f'"{found[0]}" belongs on a line of its own, not here.',
        at=(spot.start, found.end()),
        label="one more sum",
        help=f"One line has one sum, so end this one before it and write another: `{line}`. Only what was paid on top "
        f"of the price in one bill stays: `, plus {what} {sum_}`; what is part of the price: `, of which {what} "
        f"{sum_}`.",
    )
