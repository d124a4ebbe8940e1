"""Words of one line that cannot both be meant: a verb with a fact, or two facts. Told with the corrected line.

Two tables say what is at odds and why. Knows nothing of what things are, of the house, or of tax.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from ..problems import Fix, Level, Problem
from .page import Page
from .records import Clause, Piece, Statement

Said = tuple[str, str]  # a kind of clause and its word; "*" stands for any word of the kind

WORN = {"worn out": "worn out", "broken": "broken", "storm damage": "damaged", "fire damage": "damaged",
        "water damage": "damaged", "tenant damage": "damaged", "squatter damage": "damaged"}  # fmt: skip
ALIASES = {"mended": "repaired", "fitted": "installed", "painted": "decorated"}


def _facts(kind: str, *words: str) -> tuple[Said, ...]:
    return tuple((kind, word) for word in words or ("*",))


# ── two facts ────────────────────────────────────────────────────────────────────────────────────────────────────


class AtOdds(NamedTuple):
    """Two facts that cannot both hold, and why. leave: which of them the corrected line leaves out, nothing where
    either may be the slip. A doubt where the one word outweighs the other, an error where nothing tells which holds."""

    one: Said
    other: Said
    level: Level
    why: str
    leave: str = ""


NONE, MISSING, CHOSEN = ("was_there", "none before"), ("was_there", "missing when bought"), ("cause", "chosen")
DOUBT, ERROR = Level.DOUBT, Level.ERROR

AT_ODDS: tuple[AtOdds, ...] = (
    AtOdds(NONE, ("compared", "*"), ERROR, "with none before, nothing can be compared"),
    AtOdds(NONE, ("old_one", "*"), ERROR, "with none before, no old one came out"),
    AtOdds(NONE, ("part_exchange", "*"), ERROR, "there was no old one to give in exchange"),
    AtOdds(NONE, ("same_again", "*"), DOUBT, "with none before, there is no old one to be equal to", "same_again"),
    *(AtOdds(NONE, ("cause", word), DOUBT, f"nothing was there to be {been}", "cause") for word, been in WORN.items()),
    AtOdds(MISSING, ("old_one", "*"), ERROR, "what was missing cannot have come out"),
    AtOdds(MISSING, ("part_exchange", "*"), ERROR, "what was missing cannot be exchanged"),
    AtOdds(MISSING, ("compared", "*"), DOUBT, "with what was missing, nothing can be compared", "compared"),
    AtOdds(MISSING, ("same_again", "*"), DOUBT, "what was missing has no equal to price", "same_again"),
    *(AtOdds(MISSING, ("cause", word), DOUBT, f"what was missing was not there to be {been}", "cause")
      for word, been in WORN.items()),
    AtOdds(CHOSEN, ("cause", "required"), ERROR, "chosen means that nothing forced it"),
    *(AtOdds(CHOSEN, cause, DOUBT, "chosen means that nothing forced it") for cause in _facts("cause", *WORN)),
    AtOdds(("fixed_price", "*"), ("provisional", "*"), ERROR, "a provisional sum is one that is not fixed yet"),
    AtOdds(("part_exchange", "*"), ("old_one", "*"), DOUBT, "an old one given in exchange has found its end"),
)  # fmt: skip


# ── a verb and a fact ────────────────────────────────────────────────────────────────────────────────────────────


class VerbOdds(NamedTuple):
    """A fact that does not go with some verbs, and why. instead: the verb that goes with the fact; "" where it is the
    fact that the corrected line leaves out. inherited: also where the fact stands on the head line of a bill, because
    there too it decides what the line is taken for."""

    verbs: tuple[str, ...]
    facts: tuple[Said, ...]
    why: str
    instead: str = ""
    inherited: bool = False


_COMPARED = _facts("compared")
_NO_MORE = _facts("compared", "like for like", "modern equivalent", "plainer")
_PRICED = (*_facts("same_again"), *_facts("part_exchange"))
_OLD = (*_facts("old_one"), *_PRICED)
_WHOSE = _facts("was_there", "left by seller", "ours before", "used by tenant")
_NEVER = (NONE, MISSING)

VERB_ODDS: tuple[VerbOdds, ...] = (
    VerbOdds(("installed",), (*_COMPARED, *_WHOSE, *_facts("cause", *WORN)),
             "what is installed is the first one here, and this speaks of an old one", "replaced", inherited=True),
    VerbOdds(("installed",), _OLD, "what is installed is the first one here, and this speaks of an old one",
             "replaced"),
    VerbOdds(("added",), (*_COMPARED, *_WHOSE, *_OLD, *_facts("cause", *WORN)),
             "what is added comes beside what was there, and this speaks of an old one that went", "replaced"),
    VerbOdds(("added",), (NONE,), "added means more of what was there before", "installed"),
    VerbOdds(("added",), (MISSING,), "added means more of what was there before", "installed", inherited=True),
    VerbOdds(("bought",), (*_COMPARED, *_WHOSE, *_OLD), "this speaks of an old one whose place it took", "replaced"),
    # What was missing can well be "replaced": that is how people say it.
    VerbOdds(("replaced", "rebuilt"), (NONE,), "what was {verb} was there before", "installed", inherited=True),
    VerbOdds(("repaired",), (NONE,), "what was {verb} was there before"),
    VerbOdds(("repaired",), (MISSING,), "what was missing cannot be {verb}", "installed", inherited=True),
    VerbOdds(("repaired",), _OLD, "what was {verb} is still the old one", "replaced"),
    VerbOdds(("treated", "cleaned", "serviced"), _NEVER, "what was {verb} was there before"),
    VerbOdds(("decorated", "moved", "altered", "extended", "converted"), (MISSING,),
             "what was {verb} was there before"),
    VerbOdds(("altered", "extended"), (NONE,), "what was {verb} was there before"),
    VerbOdds(("removed", "cleared"), (*_NEVER, ("was_there", "taken out earlier")), "what was {verb} was still there"),
    VerbOdds(("sold", "scrapped", "took home"), _NEVER, "what was {verb} was there before"),
    VerbOdds(("removed",), (*_COMPARED, *_PRICED), "what is removed goes for good, and this speaks of another one",
             "replaced"),
    VerbOdds(("moved",), _OLD, "what is moved is still the old one", "replaced"),
    VerbOdds(("altered",), _NO_MORE, "what is altered is no longer what it was", "repaired"),
    VerbOdds(("extended", "converted"), _NO_MORE, "what is {verb} is no longer what it was"),
    VerbOdds(("altered", "extended", "converted"), _PRICED, "no other one took its place"),
    VerbOdds(("moved", "treated", "cleaned", "cleared", "serviced", "inspected", "tested", "certified", "hired",
              "sold", "scrapped", "took home"), _COMPARED, "nothing came that could be compared with an old one"),
    VerbOdds(("decorated", "treated", "cleaned", "cleared", "serviced", "inspected", "tested", "certified", "hired",
              "sold", "scrapped", "took home"), _PRICED, "no other one took its place"),
    VerbOdds(("decorated", "treated", "cleaned", "serviced", "inspected", "tested", "certified", "hired", "sold",
              "scrapped", "took home"), _facts("old_one"), "no other one took its place"),
)  # fmt: skip

_BY_VERB: dict[str, list[tuple[Said, VerbOdds]]] = {}
for _row in VERB_ODDS:
    for _verb in _row.verbs:
        _BY_VERB.setdefault(_verb, []).extend((fact, _row) for fact in _row.facts)


_ODD = frozenset((verb, *fact) for verb, rows in _BY_VERB.items() for fact, _ in rows)


def plain_with(verb: str, kind: str, word: str) -> bool:
    """Whether nothing in the table of verbs speaks of this verb with this fact."""
    verb = ALIASES.get(verb, verb)
    return (verb, kind, word) not in _ODD and (verb, kind, "*") not in _ODD


# ── looking ──────────────────────────────────────────────────────────────────────────────────────────────────────


def odds(page: Page, statement: Statement, above: Statement | None = None) -> Iterator[Problem]:
    """All that is at odds on one line; `above` is its head line, whose facts hold for it too."""
    clauses = statement.clauses
    for row in AT_ODDS:
        pair = [next((c for c in clauses if _says(c, what)), None) for what in (row.one, row.other)]
        if pair[0] is not None and pair[1] is not None and pair[0] is not pair[1]:
            left = next((c for c in pair if c is not None and c.kind == row.leave), None)
            yield _contradiction(page, pair[0], pair[1], row.level, row.why, left and page.without(left))
    if statement.head and statement.kind in ("works", "job"):
        yield from _with_verb(page, statement, above)
        yield from _same_thing(page, clauses)
    split = next((c for c in clauses if c.kind == "split"), None)
    shares = next((c for c in clauses if c.kind == "shares"), None)
    if split is not None and shares is not None and any(len(part.values) > 1 for part in shares.values):
        why = "percentages already say how it is shared"
        yield _contradiction(page, shares, split, ERROR, why)


def _says(clause: Clause, what: Said) -> bool:
    kind, word = what
    return clause.kind == kind and (word == "*" or str(getattr(clause.values[0], "value", "")) == word)


def _with_verb(page: Page, statement: Statement, above: Statement | None) -> Iterator[Problem]:
    """The first fact that does not go with the verb: once the line is mended, what else is at odds is told."""
    verb = statement.head[0]
    told = {clause.kind for clause in statement.clauses}
    inherited = [c for c in above.clauses if c.kind not in told] if above is not None else []
    rows = _BY_VERB.get(ALIASES.get(verb.value, verb.value), [])
    never = any(_says(clause, fact) for clause in statement.clauses for fact in _NEVER)
    for clauses, only_inherited in ((statement.clauses, False), (inherited, True)):
        for clause in clauses:
            for fact, row in rows:
                if not _says(clause, fact) or only_inherited and not row.inherited:
                    continue
                if never and row.instead == "replaced":
                    continue  # two facts at odds, which the other table tells
                yield _not_with(page, verb, clause, row, only_inherited)
                return


def _not_with(page: Page, verb: Piece, clause: Clause, row: VerbOdds, inherited: bool) -> Problem:
    fact = _NAMES.get(clause.kind) or page.text(clause)
    why = row.why.format(verb=verb.value)
    if row.instead:
        fix: Fix | None = page.in_place_of(verb, row.instead)
        help = f'Write "{row.instead}" if that is what was done; if not, leave "{fact}" out.'
        if verb.value == "bought" and clause.kind == "was_there":  # or the first one, for tenants to use
            fix = None
            help = (
                f'If an old one went for it, "{fact}" tells whose that was: then write "{row.instead}". If there was '
                f'none, write "none before" in place of "{fact}".'
            )
    else:
        fix, help = page.without(clause), f'Leave "{fact}" out, or write another verb.'
    if inherited:
        help = (
            f'What stands on the head line holds for every line under it. Write "{row.instead}" if it holds here; if '
            'not, say on this line what is true of it, such as "none before".'
        )
    return Problem(
        "verb-at-odds", DOUBT, f'"{verb.value}" and "{fact}" do not go together: {why}.',
        (page.mark(verb, "this"), page.mark(clause, "at odds with it")), help=help, fix=fix,
    )  # fmt: skip


# Facts whose first word is no part of their record.
_NAMES = {"same_again": "same again", "old_one": "old one", "part_exchange": "part exchange"}


def _same_thing(page: Page, clauses: Sequence[Clause]) -> Iterator[Problem]:
    """replaced boiler with boiler, does more: what came is said to be the very same."""
    more = next((c for c in clauses if _says(c, ("compared", "does more"))), None)
    swap = next((c for c in clauses if c.kind == "swap"), None)
    things = next((c for c in clauses if c.kind == "things"), None)
    if more is None or swap is None or things is None:
        return
    if isinstance(swap.values[-1], Clause) and swap.values[-1].meaning == things.meaning:
        yield Problem(
            "verb-at-odds", DOUBT, f'"{page.text(swap)}" and "does more" do not go together: the very same can do no '
            "more than before.", (page.mark(swap, "this"), page.mark(more, "at odds with it")),
            help=f'Leave "{page.text(swap)}" out, or say what it was replaced with.',
            fix=page.without(swap, " "),
        )  # fmt: skip


def _contradiction(
    page: Page, one: Clause | Piece, other: Clause | Piece, level: Level, why: str, fix: Fix | None = None
) -> Problem:
    one, other = sorted((one, other), key=lambda said: said.start_pos)
    return Problem(
        "facts-at-odds", level, f'"{page.text(one)}" and "{page.text(other)}" do not go together: {why}.',
        (page.mark(other, "at odds"), page.mark(one, "with this")), help="Keep the one that is true.", fix=fix,
    )  # fmt: skip
