"""Questions a book leaves open, the answers tried, and which of them were asked on the way. Knows no rule, no money.

A question without a usual answer gives a range: it is worked out with each of its answers. One with a usual answer is
a doubt about the law: the usual one is taken, and the other is told beside it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import TypeVar

from ...record import record

T = TypeVar("T")
MOST = 64  # ways of answering that are tried


@record
class Question:
    """What to ask, its answers, what to write in the book; `usual` is the answer taken where law or custom has one."""

    key: str
    ask: str
    answers: tuple[tuple[str, str], ...]  # slug, in words
    write: tuple[str, ...]
    usual: str = ""
    source: str = ""


QUESTIONS = {
    q.key: q
    for q in (
        Question(
            "furnished", "Was it furnished while nobody lived there?",
            (("unfurnished", "it stood unfurnished"), ("furnished", "it stood furnished")),
            ("unfurnished from …", "furnished from …"),
        ),
        Question(
            "since", "Since when had it been empty when it became yours?",
            (("bought", "since that very day"), ("long", "for more than ten years")),
            ("empty since …",),
        ),
        Question(
            "ended", "The tenant left before the let was over. Did you take the keys back as its end?",
            (("left", "yes, it ended when they left"), ("later", "no, it ran on")),
            ("ended …",),
        ),
        Question(
            "rolls", "After the fixed term: does the agreement say that it goes on, or did the law let it go on?",
            (("contract", "the agreement says so"), ("law", "it says nothing")),
            ("rolls on by contract", "rolls on by law"), "", "Leeds CC v Broadley [2016] EWCA Civ 1213",
        ),
        Question(
            "whose time", "Does the council's free or reduced time run on from an earlier owner?",
            (("home", "it runs on"), ("owner", "each owner has it anew")),
            ("shared with earlier owner", "anew for each owner"),
        ),
        Question(
            "again", "How long must somebody have lived there before the reduction begins anew?",
            (("anew", "that let was long enough"), ("on", "it was too short, and the time runs on")),
            ("again after 6 weeks lived in", "again after more than 6 weeks lived in"),
        ),
        Question(
            "empty untold", "What does the council let off an empty, unfurnished home?",
            (("undecided", "it has decided nothing, so the Act's half is let off"), ("full", "nothing")),
            ("empty full", "empty free for 1 month", "empty 50% off"), "", "LGFA 1992 s. 11(2)(a)",
        ),
        Question(
            "furnished untold", "What does the council let off a furnished home nobody lives in?",
            (("undecided", "it has decided nothing, so the Act's half is let off"), ("full", "nothing")),
            ("furnished full", "furnished 50% off"), "", "LGFA 1992 s. 11(2)(a)",
        ),
        Question(
            "premium untold", "Does the council charge more on homes that have long been empty?",
            (("none", "no"), ("most", "yes, the most the law allows")),
            ("premium 0% after 1 year", "premium 100% after 1 year"),
        ),
        Question(
            "second homes untold", "Does the council charge more on furnished homes nobody lives in?",
            (("none", "no"), ("most", "yes, the most the law allows")),
            ("second homes 0% from …", "second homes 100% from …"),
        ),
        Question(
            "left before",
            "They left before the law made holders of assured tenancies answer. Whose are the days since?",
            (("tenant", "the tenant's, as the words of the new section have it"),
             ("landlord", "yours, as it had ceased to be an assured tenancy")),
            (), "", "Renters' Rights Act 2025 s. 28; SI 2026/421 reg. 2: nobody has tested it",
        ),
        Question(
            "last day", "Whose is the day on which a tenant leaves?",
            (("landlord", "yours, as nobody lives there at its end"),
             ("tenant", "theirs, as some councils count, and yours begin the day after")),
            (), "landlord", "LGFA 1992 s. 2(2): the state at the end of a day holds for all of it",
        ),
        Question(
            "hmo together",
            "It is a house in multiple occupation under one tenancy of all of it. Who answers?",
            (("owner", "you, as the owner of a house in multiple occupation"),
             ("tenants", "the tenants together, as they hold the whole of it")),
            (), "", "SI 1992/551 reg. 2, Class C as amended by SI 2023/1175, which was read in part; ask the council",
        ),
        Question(
            "banded again", "It was taken out of the valuation list and put back. Does its time of being empty go on?",
            (("anew", "no, it came back as a new home"), ("on", "yes, as if nothing had been")),
            (), "", "no source says; ask the council",
        ),
        Question(
            "wales assured", "Does the new English rule for assured tenancies reach an occupation contract in Wales?",
            (("no", "no, as there are practically no assured tenancies left there"), ("yes", "yes")),
            (), "no", "Renters' Rights Act 2025 s. 28: unclear",
        ),
        Question(
            "scottish second home",
            "Was it lived in on 25 days of the last twelve months by somebody whose main home it was not?",
            (("no", "no: it counts as empty"), ("yes", "yes: it is a second home")),
            (), "", "SSI 2013/45 reg. 2; ask the council",
        ),
        Question(
            "premium day", "On which day does a year of being empty end?",
            (("anniversary", "the premium begins on the anniversary of the first empty day, as councils count"),
             ("day before", "it begins the day before, as the Act's words can be read")),
            (), "anniversary", "LGFA 1992 s. 11B(8) in England, s. 12A in Wales; SSI 2013/45 in Scotland",
        ),
        Question(
            "let again", "Was the let between the two voids one granted for six months or more?",
            (("no", "no: a periodic let has no such term, so there is no second year on the market without premium"),
             ("yes", "yes, if such a let counts")),
            (), "no", "SI 2024/1007, Class H; WSI 2015/2068, Class 2, from memory: not tested for periodic lets",
        ),
        Question(
            "market again",
            "It came off the market and back on, before a year was used up. From which day is the year counted?",
            (("on", "from the first day it was ever on the market, so it is over"),
             ("anew", "from the day it came back, as it had not been on the market for a whole year")),
            (), "", "SI 2024/1007, Classes G and H; WSI 2015/2068, Classes 1 and 2: nobody has tested it",
        ),
        Question(
            "heir", "Its owner died. Do you hold it as the executor, or is it yours already?",
            (("executor", "as the executor, until half a year after probate"), ("heir", "it is yours already")),
            ("probate …", "inherited …, with the day it passed to you"), "",
            "SI 1992/558 Class F: nobody may answer but as the executor",
        ),
        Question(
            "works before",
            "It stood empty before it was yours. Since when has it needed the works?",
            (("bought", "since the day it became yours"), ("empty", "since it became empty")),
            ("needs works from …",), "", "SI 2003/3011 Class D: its twelve months are those of the home",
        ),
        Question(
            "company",
            "A company holds it, and for less than six months at a time. Who lives there?",
            (("somebody", "somebody whose main home it is, who answers"),
             ("nobody", "nobody whose main home it is, so you answer")),
            ("lived in from …",), "", "LGFA 1992 s. 6(2)(f), (5), (6)",
        ),
        Question(
            "three months", "Had somebody lived there for three months on end before it became empty?",
            (("yes", "yes, so it is exempt for half a year"), ("no", "no, so it is not")),
            ("lived in from … to …",), "", "SI 1997/728 Sch. 1 para. 4",
        ),
        Question(
            "two discounts", "Both the discount for empty homes and the one for works fit. Which one is given?",
            (("greater", "the greater"), ("works", "the one for works")),
            (), "greater", "no source says; ask the council",
        ),
        Question(
            "grandfathered", "The council cut its reduction on 1 April while yours was running.",
            (("new", "the new year's rules hold from that day"), ("old", "what had begun was let run out")),
            (), "new", "LGFA 1992 s. 11A(5): decided for whole years",
        ),
    )
}  # fmt: skip


@dataclass(slots=True)
class Answers:
    """Answers given, and a record of every question asked. A question without answer takes its usual one, else the
    first."""

    given: Mapping[str, str] = field(default_factory=dict)
    asked: dict[str, str] = field(default_factory=dict)

    def take(self, key: str) -> str:
        """The answer to a question, by its slug."""
        question = QUESTIONS[key]
        answer = self.given.get(key) or question.usual or question.answers[0][0]
        self.asked[key] = answer
        return answer


def every_way(work: Callable[[Answers], T], given: Mapping[str, str] | None = None) -> Iterator[tuple[Answers, T]]:
    """What comes out for every way of answering the questions that have no usual answer, at most MOST ways."""
    waiting = [dict(given or {})]
    tried = 0
    while waiting and tried < MOST:
        answers = Answers(waiting.pop())
        made = work(answers)
        tried += 1
        new = [key for key in answers.asked if key not in answers.given and not QUESTIONS[key].usual]
        if not new:
            yield answers, made
            continue
        waiting += [{**answers.given, new[0]: slug} for slug, _ in QUESTIONS[new[0]].answers]
