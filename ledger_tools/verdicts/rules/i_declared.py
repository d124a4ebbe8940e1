"""Stage I: do your own statements agree? What was told elsewhere is held against the verdicts; none is changed.

When is a statement near the purchase? Up to the first letting: until then nothing but the purchase explains the state
of the house. After it only the very defect that was named counts, and only until it has been put right once. HMRC's
pages on work after a purchase hold no number of months (BIM35450, BIM46935), so none stands here.
"""

from __future__ import annotations

from ...money import pounds
from ...problems import Level
from ..answer import Finding
from ..declared import Matter, Told
from ..registry import comparison
from ..verdict import Confidence

CLEAR, USUAL, ARGUABLE = Confidence.CLEAR, Confidence.USUAL, Confidence.ARGUABLE
RENTS = "For the rents the question is another: could this business use it without the work, and was the price cut?"


@comparison(
    "said-it-was-unfit",
    "by inference from BIM46935; BIM35450",
    USUAL,
    "read",
    flips=("what you said was about other defects", "it was about a later time than the purchase"),
    keep=("what you sent, its date and its words", "a survey, photographs or an agent's note from the purchase"),
)
def said_it_was_unfit(m: Matter) -> Finding | None:
    """The home was called unfit near its purchase, and work on the same defects is taken off the rents."""
    if m.told.word != "unfit" or not m.repairs:
        return None
    return Finding(
        f"You called the home unfit{_owing(m)}, and {_comes_off(m)} of work on {'that' if _owing(m) else 'it'} off the "
        "rents. What you said is your own dated evidence on the very thing that decides: whether it could be let as "
        "you bought it.",
        Level.NOTE if m.evidence else Level.DOUBT,
    )


def _owing(m: Matter) -> str:
    """What was named as what made it unfit."""
    named = m.told.entry.facts.called
    return f" owing to {' and '.join(thing.name for thing in named.things)}" if named and named.things else ""


def _comes_off(m: Matter) -> str:
    return f"{'may take' if any(stake.open for stake in m.repairs) else 'take'} {pounds(m.pence)}"


@comparison(
    "won-or-lost",
    "by inference from BIM46935; Odeon v Jones (1971) 48 TC 257",
    USUAL,
    "read",
    flips=("the decision is overturned",),
    keep=("the decision and its reasons",),
)
def won_or_lost(m: Matter) -> Finding | None:
    """A land tax refund or a deletion won all but rules out that it could be let; a claim lost proves nothing."""
    if m.told.word != "unfit" or not m.held or m.told.answer is None:
        return None
    if m.told.lost:
        return Finding(
            "It was refused. That does not prove that the home could be let: one that is still a dwelling may want a "
            "boiler or safe wiring."
        )
    if not m.told.question.settles:
        return Finding(
            "It was granted. That speaks strongly against a home that could be let as bought, though the question was "
            "another one, so it does not settle it."
        )
    return Finding(
        "It was granted. Whoever has won this can hardly say that the home could be used as bought and was fairly "
        "priced.",
        Level.DOUBT,
    )


@comparison(
    "record-says-otherwise",
    "by inference from BIM46935; Odeon v Jones (1971) 48 TC 257",
    USUAL,
    "read",
    flips=("a paper of the time shows that it could be let", "what you said was about a later time than the purchase"),
    keep=("the decision and its reasons", "a survey, photographs or an agent's note from the purchase"),
)
def record_says_otherwise(m: Matter) -> Finding | None:
    """A claim that the home was unfit was granted, and the book says that it could be let, or for another fault not."""
    named_too = {id(stake.verdict) for stake in m.repairs}
    if all(id(stake.verdict) in named_too for stake in m.resting):
        return None  # of what was named the rules above speak
    home = m.told.house
    faults = f" owing to {' and '.join(thing.name for thing in home.as_bought_faults)}" if home.as_bought_faults else ""
    pence = pounds(sum(stake.pence for stake in m.resting))
    return Finding(
        f"Your book says `as bought {home.as_bought}{faults}`, and you said that it was unfit{_owing(m)}, which was "
        f"granted. On the first rests, or may rest, what {pence} of work before the first let comes to; both can "
        "hardly be so.",
        Level.NOTE if m.evidence else Level.DOUBT,
    )


@comparison(
    "tests-are-not-the-same",
    "FA 2003 s.116(1); Bunyan v Patel [2022] EWHC 1143 (Admin); BIM46935",
    CLEAR,
    "read",
    flips=("the home is in another nation, whose land tax or council tax has words of its own",),
    keep=("a copy of each form, with the words you used",),
)
def tests_are_not_the_same(m: Matter) -> Finding | None:
    """Council tax, land tax, lenders, insurers and the income tax each ask another question of a home."""
    if m.told.word == "barred" or not (m.held or m.purchase):
        return None
    return Finding(f"{m.told.question.asks} {RENTS}", authority=f"{m.told.question.authority}; BIM46935")


@comparison(
    "said-it-was-fine",
    "by inference from BIM46935",
    USUAL,
    "read",
    flips=("a survey says otherwise",),
    keep=("application forms, and the lender's or agent's letters",),
)
def said_it_was_fine(m: Matter) -> Finding | None:
    """The home was called fit near its purchase, or bought with its tenant: that speaks for repairs."""
    if m.told.word == "fit":
        if not m.purchase:
            return None
        pence = sum(stake.pence for stake in m.purchase)
        return Finding(
            f"You called the home fit, yet {pounds(pence)} of work counts as part of what it cost, as if it could "
            "not be let without. What you said speaks for repairs; nothing need change if it was said too lightly.",
            Level.NOTE,
        )
    if not m.repairs:
        return None
    speaks = [f"you told {other.who} on {other.day} that it was fit" for other in m.others if other.word == "fit"]
    if m.told.house.got and "with tenant in" in m.told.house.got.facts:
        speaks.append("it was bought with its tenant")
    if m.evidence:
        speaks.append(f"your book names a paper that says it could be let ({m.evidence})")
    return Finding(f"What speaks for repairs: {'; '.join(speaks)}.") if speaks else None


@comparison(
    "barred-when-bought",
    "no authority read on what such a bar means for income tax; for energy bands SI 2015/962, from memory",
    ARGUABLE,
    "memory",
    flips=("an exemption was registered", "the failure was a small one that kept no tenant out"),
    keep=("the certificate, the report or the council's letter", "the register's entry of an exemption"),
)
def barred_when_bought(m: Matter) -> Finding | None:
    """A paper barred letting the home when it was bought: a low energy band, a failed report, a licence refused."""
    if m.told.word != "barred" or not m.repairs:
        return None
    return Finding(
        f"{_bar(m.told)} A bar on letting points to a home that could not be let as bought, and you {_comes_off(m)} of "
        "work that may belong to it off the rents.",
        Level.NOTE if m.evidence else Level.DOUBT,
    )


def _bar(told: Told) -> str:
    if told.band:
        return (
            f"Its energy band was {told.band.upper()}, in which a home in England or Wales may not be newly let "
            "without a registered exemption."
        )
    if told.entry.verb == "refused":
        return "A licence to let it was refused."
    return f"A report on its {told.entry.thing} was not satisfactory."
