"""Makes up blocks that read, by walking the tables of the grammar, and types them as untidily as people do.

A walk chooses among the terminals the parser would take next, so whatever the grammar comes to allow is made up
without a change here, but for a new terminal that is not made of words.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from typing import Any, NamedTuple

from hypothesis import strategies as st

from ledger_tools.language.blocks import plain
from ledger_tools.language.grammar import words
from ledger_tools.language.reading import accepted, read
from ledger_tools.language.tables import tables

Choose = Callable[[Sequence[Any]], Any]

LONG_ENOUGH = 18  # tokens; after so many a walk takes the way to the end
SEPARATORS = ("_COMMA", "_NL", "_DEEP")

# What may be typed for the terminals that are not made of words; the first is the plainest.
TYPED = {
    "DATE": ["9 Jun 2025", "12 May 2025", "2025-06-09", "09/06/2025", "1st August 2024", "31 dec. 2023", "7 SEPT 2025"],
    "MONTH": ["Jun 2014", "May 2009", "september 2025", "Dec. 2024"],
    "TAXYEAR": ["2025-26", "1999-00"],
    "AMOUNT": ["£40", "£2,310.00", "£2310.00", "£ 1234567", "£0.50", "£1,000"],
    "FOREIGN": ["EUR 43.00", "usd 1,200"],
    "PERCENT": ["60%", "5.2%", "100%"],
    "NUMBER": ["3", "12", "4.5"],
    "STRING": [
        '"Bell & Sons"', '"it’s loose"', '"band\u00a0B, £40 # not a note"', '""', '"what‘s  left\u2009"',
        "“curly”", "„low“",
    ],
    "NAME": ["mill-3", "osprey", "Dunmore", "14-elm", "o'hara", "o’hara", "B"],
    "WORDS": [
        "boiler", "front bedroom", "Front  Bedroom", "washing-machine", "walk-in wardrobe", "3-way switch",
        "landlord's cupboard", "U-bend", "damp-proof course", "gas\tengineer", "back\u00a0door",
    ],
    "REF": ["71", "Q-17", "INV/2025/33", '"71"'],
}  # fmt: skip
BLANKS = [" ", " ", " ", "  ", "\t", "\u00a0", " \u2009 "]
COMMENTS = ["# why", "#   it’s “so”, £40 – 9 Jun 2025", "#", "# paid, broken"]


class Token(NamedTuple):
    """A terminal and the text typed for it."""

    kind: str
    text: str


# ── walking ──────────────────────────────────────────────────────────────────────────────────────────────────────


class _Stack:
    """Stands for the parser where only its stack matters."""

    def __init__(self) -> None:
        self.states: list[int] = [tables().start]
        self.rules: list[int] = []

    def take(self, name: str) -> None:
        """Go where the parser goes with this terminal, keeping the rules it completes."""
        made, stack = tables(), self.states
        while True:
            step = made.steps[stack[-1]][name]
            if step >= 0:
                stack.append(step)
                return
            self.rules.append(-step - 1)
            origin, size, *_ = made.rules[-step - 1]
            if size:
                del stack[-size:]
            stack.append(made.gotos[stack[-1]][origin])
            if name == "$END" and stack[-1] == made.end:
                return


def walk(choose: Choose, taken: Counter[Any] | None = None, long: int = LONG_ENOUGH) -> tuple[list[Token], list[Any]]:
    """A made-up block as terminals with plain texts, and the rules it completes.

    After `long` tokens it takes the way to the end. Where `taken` counts the ways gone by earlier walks, every second
    step is one of those gone least.
    """
    stack = _Stack()
    tokens: list[Token] = []
    while True:
        choices = sorted(accepted(stack.states))
        if not tokens:  # half of the grammar comes after a date
            choices += ["DATE"] * len(choices)
        if "$END" in choices and (len(choices) == 1 or len(tokens) >= long or choose(range(long // 2)) == 0):
            stack.take("$END")
            return tokens, stack.rules
        choices = [name for name in choices if name != "$END"]
        if len(tokens) >= long:
            choices = [name for name in choices if name not in SEPARATORS] or choices
        place = tuple(stack.states[-2:])
        if taken is not None and choose([False, True]):
            least = min(taken[place, name] for name in choices)
            choices = [name for name in choices if taken[place, name] == least]
        kind = choose(choices)
        if taken is not None:
            taken[place, kind] += 1
        stack.take(kind)
        tokens.append(Token(kind, _text(kind, choose)))


def _text(kind: str, choose: Choose) -> str:
    if kind in SEPARATORS:
        return ""
    if kind in TYPED:
        return str(choose(TYPED[kind]))
    return str(choose(words().says[kind]))


# ── typing ───────────────────────────────────────────────────────────────────────────────────────────────────────


def neat(tokens: Sequence[Token]) -> str:
    """The tokens typed with single blanks."""
    return _typed(tokens, lambda choices: choices[0])


def messy(tokens: Sequence[Token], choose: Choose) -> str:
    """The tokens typed as people do: capitals, hyphens, tabs, comments, empty lines, lines that run on."""
    return _typed(tokens, choose)


def _typed(tokens: Sequence[Token], choose: Choose) -> str:
    floor = choose([4, 1, 2, 3, 8])
    text = ""
    indented = False  # no line may end in blanks alone before it is known that another word follows
    for number, token in enumerate(tokens):
        if token.kind == "_COMMA":
            text += choose(["", "", " "]) + ","
            if choose([False, False, False, False, False, True]):
                text += _ending(choose) + "\n" + " " * choose([4, 1, 9])
        elif token.kind in ("_NL", "_DEEP"):
            further = 0 if token.kind == "_NL" else choose([4, 1])
            text += _ending(choose) + "\n" + _between(choose) + _indent(floor + further, choose)
            indented = True
            continue
        else:
            blank = "" if number == 0 or indented else choose(BLANKS)
            # The cutter knows the heading of a house by blanks.
            blank = " " if number and tokens[0].kind == "AT" else blank
            text += blank + _styled(token, choose)
        indented = False
    return text + str(choose(["", "", "", f"  {choose(COMMENTS)}"]))


def _ending(choose: Choose) -> str:
    """What a line ends with: nothing, blanks, a comment."""
    return str(choose(["", "", "", "  ", "\t", f" {choose(COMMENTS)}", f"\t{choose(COMMENTS)}  "]))


def _between(choose: Choose) -> str:
    """Lines without words between two of a block."""
    return str(
        choose(["", "", "", "", "\n", " \n", f"{choose(COMMENTS)}\n", f"      {choose(COMMENTS)}\n", "\n\n\n\n"])
    )


def _indent(wide: int, choose: Choose) -> str:
    return "\t" * (wide // 4) if wide % 4 == 0 and choose([False, True]) else " " * wide


def _styled(token: Token, choose: Choose) -> str:
    """A word with capitals, a phrase with hyphens."""
    text = token.text
    if token.kind in TYPED and token.kind not in ("NAME", "WORDS"):
        return text
    if token.kind not in TYPED and " " in text:
        text = text.replace(" ", choose([" ", "-", "  "]))
    return str(choose([text, text, text.capitalize(), text.upper()]))


# ── for hypothesis ───────────────────────────────────────────────────────────────────────────────────────────────


def reads(text: str, tokens: Sequence[Token]) -> bool:
    """Whether the text reads, as the terminals that were walked. A word run may swallow what was meant as two."""
    reading = read(plain(text))
    kinds = [piece.type for piece in reading.pieces if piece.type != "comment"]
    return reading.statement is not None and kinds == [_as_read(token) for token in tokens]


def _as_read(token: Token) -> str:
    return "STRING" if token.kind == "REF" and token.text.startswith('"') else token.kind


def grammar_rules() -> set[int]:
    """Every rule of the grammar, each alternative by itself."""
    return set(range(len(tables().rules)))


@st.composite
def blocks(draw: st.DrawFn) -> str:
    """A block that reads, as people type it."""

    def choose(choices: Sequence[Any]) -> Any:
        return draw(st.sampled_from(list(choices)))

    tokens, _ = walk(choose)
    text = messy(tokens, choose)
    return text if reads(text, tokens) else neat([Token("AT", "at"), Token("NAME", "mill-3")])


@st.composite
def books(draw: st.DrawFn) -> str:
    """A file of such blocks, with comments and empty lines between them and blocks that do not read among them."""
    broken = st.sampled_from(
        ["repalced  boiler\n   in kitchen ", "9 Jun 2025\tpaid", "landlord  tom “Tom”\n\t ??", "  x"]
    )
    between = st.sampled_from(["", "\n", " \n\t\n", "# a note\n", "   # a note\u00a0\n", "\n\n\n\n\n"])
    parts = draw(st.lists(st.tuples(between, st.one_of(blocks(), blocks(), broken)), max_size=4))
    text = "".join(f"{gap}{block}\n" for gap, block in parts) + draw(between)
    return text.replace("\n", draw(st.sampled_from(["\n", "\n", "\r\n"])))
