"""Recognises mistakes in amounts, percentages and other figures. Knows how they are written, not what they mean."""

from __future__ import annotations

import re
import unicodedata
from decimal import Decimal

from ...money import pounds
from ...problems import Problem
from ..spot import VERBS, Spot, listed
from .tables import NOUNS, UNITS

_CURRENCY = re.compile(r"(?:EUR|USD|CHF|AUD|NZD|CAD|JPY|SEK|NOK|DKK|PLN|euros?|dollars?)\b|[$€¥]", re.I)
_STERLING = re.compile(r"(?:GBP|pounds?|quid)\b", re.I)
_FIGURES = re.compile(r"\d[\d,]*(?: \d{3}(?!\d))*(?:\.\d+)?")


# The verb that tells the same money going the other way, and the word before the other party then.
_OTHER_WAY = {
    "received": ("repaid", "to"),
    "banked": ("paid", "to"),
    "kept": ("repaid", "to"),
    "paid": ("received", "from"),
    "repaid": ("received", "from"),
}
_COMES = frozenset(typed for noun in NOUNS if noun.came != noun.went and noun.came for typed in noun.typed)


def negative_amount(spot: Spot) -> Problem | None:
    """-£84.50, £-84.50, -84.50, (£84.50)."""
    match = re.compile(r"(?:-[ ]?£?|£[ ]?-|\([ ]?£)[ ]?(\d[\d,]*(?:\.\d+)?)(?:[ ]?\))?").match(spot.text, spot.start)
    if match is None or "AMOUNT" not in spot.accepts:
        return None
    amount = f"£{match[1]}"
    help, cost = (
        "Leave the sign out. If the money went the other way, take the other verb: paid or received, say.",
        False,
    )
    verb = next((piece for piece in spot.stop.before[:2] if piece.type in VERBS), None)
    if verb is not None and spot.day and not spot.head:
        thing = " ".join(spot.text[verb.end_pos : spot.start].split())
        works = verb.type == "WORKS_VERB" and verb.value not in ("sold", "scrapped", "took home")
        cost = (works or verb.value in ("paid", "repaid")) and thing.lower() not in _COMES
        help = _both_ways(spot, str(verb.value), thing, amount, cost)
    return spot.error(
        "negative-amount",
        f'Amounts are always positive: the verb says which way the money of "{match[0]}" went.',
        at=match.span(),
        label="no minus",
        fix=spot.mend(match.start(), match.end(), amount) if cost else None,
        help=help,
    )


def _both_ways(spot: Spot, verb: str, thing: str, amount: str, cost: bool) -> str:
    """The lines that a sum with a minus may mean; beside a cost, the sign says nothing new."""
    other, turned = _OTHER_WAY.get(verb, ("received refund for" if thing else "received refund", "from"))
    behind = re.compile(r"[^,\n]*?\b(by|from|to)[ \t]+(\"[^\"\n]*\"|[^\s,]+)").match(spot.text, spot.end)
    what = f" {thing}" if thing else ""
    same = f"{verb}{what} {amount}" + (f" {behind[1]} {behind[2]}" if behind else "")
    back = f"{other}{what} {amount}" + (f" {turned} {behind[2]}" if behind else "")
    if cost:
        return f'A cost needs no minus beside "{verb}". If the money came back to you, write `{back}`.'
    return f"Which way did it go? Write `{same}` if the sign is too much, `{back}` if the money went the other way."


def meant_sums(figures: str, letters: str = "") -> list[str]:
    """The amounts that an unclear one may mean, as the book writes them: "1.5" is £1.50, "1,23" £1.23 or £123."""
    whole, dot, small = figures.rpartition(".")
    if not dot:
        whole, small = figures, ""
    groups = whole.split(",")
    digits = "".join(groups).replace(".", "").replace(" ", "")
    if letters.lower() == "k" and digits.isdigit():
        return [pounds(int(Decimal(f"{digits}.{small or 0}") * 1000) * 100).removesuffix(".00")]
    if letters or not digits.isdigit() or "." in whole:
        return [f"£{figures}"] if letters.lower() == "p" and not letters[1:] and digits.isdigit() else []
    if dot and "," in small:  # 1.234,56
        return [f"£{int(digits + small.split(',')[0]):,}.{small.split(',')[1]}"] if len(small) == 6 else []
    if not dot and len(groups) > 1 and len(groups[-1]) in (1, 2):  # 1,23
        start = int("".join(groups[:-1]))
        return [f"£{start:,}.{groups[-1]:0<2}", f"£{int(digits):,}"]
    if dot and len(small) == 1:
        return [f"£{int(digits):,}.{small}0"]
    if dot and len(small) == 3:
        return [f"£{int(digits):,},{small}"] if len(groups) == 1 and len(whole) < 4 else []
    if not dot or len(small) == 2:
        return [f"£{int(digits):,}{dot}{small}"]
    return [f"£{int(digits):,}"] if not small else []


def unclear_amount(spot: Spot) -> Problem | None:
    """£1.5, £1,23, £2k, £90.00p, £ with nothing behind it, £1 000.00."""
    match = re.compile(r"£ ?(\d[\d.,]*\d|\d)?([^\W\d_]*)").match(spot.text, spot.start)
    if match is None or spot.piece.type:
        return _parted_amount(spot)
    typed = match[0].strip()
    if not match[1]:
        return spot.error(
            "amount-missing",
            "A pound sign stands here without an amount.",
            label="how much?",
            help="Write the figures behind it, with pence as two digits if there are any.",
        )
    sums = meant_sums(match[1], match[2])
    fix = spot.mend(spot.start, match.end(), sums[0]) if len(sums) == 1 else None
    help = "Pence are always two digits, thousands may be parted by a comma: £1,234.50."
    if sums:
        help = f"Did you mean {listed(sums)}? Pence are always two digits."
    return spot.error(
        "amount-unclear",
        f'The amount "{typed}" is not clear.',
        at=(spot.start, match.end()),
        label="how much?",
        help=help,
        fix=fix,
    )


def _parted_amount(spot: Spot) -> Problem | None:
    match = re.compile(r"\d{3}(?:\.\d\d)?(?![\w.,])").match(spot.text, spot.start)
    before = [piece for piece in spot.stop.before[-2:] if piece.type != "_COMMA"]
    if match is None or not before or before[-1].type != "AMOUNT":
        return None
    last = before[-1]
    if not re.fullmatch(r" ?, ?| ", spot.text[last.end_pos : spot.start]):
        return None
    typed = spot.text[last.start_pos : match.end()]
    meant = f"{spot.text[last.start_pos : last.end_pos]},{match[0]}"
    return spot.error(
        "amount-unclear",
        f'The amount "{typed}" is not clear.',
        at=(last.start_pos, match.end()),
        label="one amount?",
        help="Thousands are parted by a comma, or by nothing.",
        fix=spot.mend(last.start_pos, match.end(), meant),
    )


def foreign_money(spot: Spot) -> Problem | None:
    """$90.00, 90.00 EUR, €90.00; and after was, a foreign sum without its three letters."""
    if spot.unfinished:
        return None
    text, start = spot.text, spot.start
    match = re.compile(rf"({_CURRENCY.pattern})? ?(\d[\d,]*(?:\.\d\d)?)? ?({_CURRENCY.pattern})?", re.I).match(
        text, start
    )
    sign = (match[1] or match[3] or "") if match else ""
    before = re.search(rf"({_CURRENCY.pattern}) *$", text[:start], re.I)
    if "FOREIGN" in spot.accepts and match and match[2]:
        letters = {"€": "EUR", "$": "USD"}.get(sign, sign.upper() if len(sign) == 3 else "")
        fix = spot.mend(start, match.end(), f"{letters} {match[2]}") if letters else None
        return spot.error(
            "foreign-money",
            "A foreign sum needs the three letters of its currency in front.",
            fix=fix,
            at=(start, match.end()),
            label="of which currency?",
            help="Write it like EUR 43.00.",
        )
    odd = unicodedata.category(spot.typed[0]) == "Sc" and spot.typed[0] != "£" if spot.typed else False
    if "AMOUNT" not in spot.accepts or not (odd or (match and match[2] and (sign or before))):
        return None
    begin = before.start(1) if before and not sign and not odd else start
    end = max(match.end() if match and match[2] else spot.end, spot.end)
    return spot.error(
        "foreign-money",
        f'"{text[begin:end].strip()}" is foreign money, and the book counts in pounds.',
        at=(begin, end),
        label="not pounds",
        help="Give the pounds that your bank took, and the foreign sum behind a comma: £36.12, was EUR 43.00.",
    )


def bare_number(spot: Spot) -> Problem | None:
    """2310.00 or 2 310 without its pound sign, 90 without its percent sign, 12 that may be either."""
    match = _FIGURES.match(spot.text, spot.start)
    if match is None or not spot.accepts & {"AMOUNT", "PERCENT"} or spot.piece.type not in ("NUMBER", ""):
        return None
    figures, end = match[0], match.end()
    if re.compile(rf"[ \t]*(?:{UNITS})\b", re.I).match(spot.text, end):
        return None
    percent = re.compile(r" ?(?:%|per ?cent\b)", re.I).match(spot.text, end)
    sterling = re.compile(rf" ?{_STERLING.pattern}", re.I).match(spot.text, end)
    shares = "PERCENT" in spot.accepts and ("AMOUNT" not in spot.accepts or spot.last_type == "NAME")
    if percent or shares:
        end = percent.end() if percent else end
        fix = spot.mend(spot.start, end, f"{figures}%")
        return spot.error(
            "percent-needs-sign",
            f'"{figures}" needs a percent sign.',
            at=(spot.start, end),
            label=f"{figures}%?",
            help="Write the sign straight behind the figure.",
            fix=fix,
        )
    sums = meant_sums(figures.replace(" ", ","))
    amount = sums[0] if sums and "," in sums[0] and " " in figures else f"£{figures.replace(' ', '')}"
    if sums and f"£{figures}" not in sums and " " not in figures:
        amount = sums[0]
    if "PERCENT" in spot.accepts:
        return spot.error(
            "number-needs-unit",
            f'"{figures}" needs a sign: is it a percentage or an amount?',
            label=f"{figures}% or {amount}?",
            help=f"Write {figures}% or {amount}.",
        )
    end = sterling.end() if sterling else end
    if spot.text[end : end + 1] == "£":
        return _glued(spot)
    fix = spot.mend(spot.start, end, amount, beyond="DATE" in spot.accepts)
    if fix is None and (spot.text[end : end + 1].strip(", \n") or "DATE" in spot.accepts):
        return None
    return spot.error(
        "amount-needs-pound",
        f'"{figures}" needs a pound sign, if it is an amount.',
        at=(spot.start, end),
        label=f"{amount}?",
        help="An amount is always written with its £.",
        fix=fix,
    )


def _glued(spot: Spot) -> Problem:
    """5£85.00: a figure before the pound sign."""
    whole = re.compile(r"[\d£.,]*[\d£]").match(spot.text, spot.start)
    end = whole.end() if whole else spot.end
    return spot.error(
        "amount-unclear",
        f'The amount "{spot.text[spot.start : end]}" is not clear.',
        at=(spot.start, end),
        label="how much?",
        help="The pound sign stands before all figures.",
    )
