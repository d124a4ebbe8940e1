"""Stage I: what was told elsewhere is held against the verdicts. Each rule with a case that fires and a near miss."""

from __future__ import annotations

import re
import tomllib
from datetime import date
from importlib.resources import files

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from ledger_tools.book.build import build
from ledger_tools.book.world import Book
from ledger_tools.explain.houses import HOUSES
from ledger_tools.money import pounds
from ledger_tools.problems import Level
from ledger_tools.verdicts import conflicts as module
from ledger_tools.verdicts.catalogue import catalogue
from ledger_tools.verdicts.conflicts import Conflict, conflicts, doubts
from ledger_tools.verdicts.declared import answer_to, question_of, questions, systems
from ledger_tools.verdicts.engine import judge
from ledger_tools.verdicts.registry import STATUSES, all_rules
from ledger_tools.verdicts.verdict import Confidence, Kind, Verdict

from .books import LET, PEOPLE, book, fresh, last

PAGES = tomllib.loads((files("ledger_tools.explain") / "rules" / "declared.toml").read_text(encoding="utf-8"))["rule"]
FAIR = fresh("lettable", "normal")
BOILER = "9 Jul 2025 replaced boiler £2,310.00 by cobb, modern equivalent, broken\n"
ROOF = "10 Jul 2025 repaired roof £900.00, worn out\n"
HALL = "11 Jul 2025 decorated hall £80.00\n"
WORKS = BOILER + ROOF + HALL
UNFIT = "24 Jun 2025 claimed works discount from wold, called it unfit"


def found(lines: str, house: str = FAIR, people: str = PEOPLE) -> tuple[Conflict, ...]:
    """The conflicts of these lines."""
    made = book(lines, house, people)
    return conflicts(made, judge(made))


def only(lines: str, house: str = FAIR) -> Conflict:
    """The one conflict of these lines."""
    (conflict,) = found(lines, house)
    return conflict


def held(conflict: Conflict) -> list[tuple[str, int]]:
    """What it is held against: thing and pence."""
    return [(stake.verdict.item.line.thing, stake.pence) for stake in conflict.items]


def slugs(conflicts: tuple[Conflict, ...]) -> set[str]:
    """The rules that spoke."""
    return {fired.slug for conflict in conflicts for fired in conflict.path}


@pytest.mark.parametrize(
    ("state", "becomes"),
    [
        ("lettable", "not lettable owing to walls and roof"),
        ("lettable for a while owing to chimney", "not lettable owing to chimney and walls and roof"),
        ("not lettable owing to chimney", "not lettable owing to chimney and walls and roof"),
    ],
)
def test_what_is_told_to_write_does_to_the_sums_what_is_said(state: str, becomes: str) -> None:
    """Decorating that comes round stays a repair, and cleaning is open, whatever the house was (B1, A6)."""
    more = ("11 Jul 2025 decorated house £80.00", "1 Jul 2025 cleaned house £30.00", "4 Jul 2025 repaired walls £50.00")
    works = ROOF + "".join(f"{line}\n" for line in more)
    claim = f"{UNFIT} owing to walls and roof\n24 Jun 2025 granted works discount by wold\n"
    conflict = only(works + claim, fresh(state, "normal"))
    told = re.search(r"(?:: then|If it could not,) (.*?)[.;]$|If it could not, (.*?);", conflict.do[0])
    before = {stake.verdict.item.source: stake.pence for stake in conflict.items}
    then = [v for v in judge(book(works + claim, fresh(becomes, "normal"))) if v.item.source in before]
    sums: dict[Kind, int] = {}
    for part in (part for verdict in then for part in verdict.parts):
        sums[part.kind] = sums.get(part.kind, 0) + part.amount
    ends = {Kind.ACQUISITION: "counts when it is sold", Kind.ARGUABLE: "is open", Kind.REPAIR: "stays as it is now"}

    assert told and len(sums) > 1
    for kind, pence in sums.items():
        assert re.search(rf"{pounds(pence)} (of these sums )?{ends[kind]}", told[0]), (told[0], sums)


# ── each rule, with its near miss ────────────────────────────────────────────────────────────────────────────────


def test_every_rule_of_the_stage_has_its_pair() -> None:
    assert {page["rule"] for page in PAGES} == {rule.slug for rule in all_rules() if rule.step == "I"}


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page["rule"])
def test_a_rule_speaks_of_its_case_and_not_of_the_near_miss(page: dict[str, str]) -> None:
    house = HOUSES[page["setting"]].book

    assert page["rule"] in slugs(found(page["like"].strip() + "\n", house))
    assert page["rule"] not in slugs(found(page["unlike"].strip() + "\n", house))


@pytest.mark.parametrize(
    ("answer", "state", "things"),
    [
        ("granted", "lettable", ["boiler", "roof", "hall"]),
        ("granted", "lettable for a while owing to roof", ["boiler", "hall"]),  # of the roof no relief was asked
        ("granted", "lettable for a while owing to walls and roof", ["hall"]),
        ("refused", "lettable", ["hall"]),  # decorating is work on the walls that were named
    ],
)
def test_a_claim_granted_stands_beside_a_record_that_says_otherwise(answer: str, state: str, things: list[str]) -> None:
    """I3 of the rules in words: having won such a claim speaks against a home that could be let, whatever it named."""
    claim = f"{UNFIT} owing to walls\n1 Jul 2025 {answer} works discount by wold\n"
    conflict = only(claim + WORKS, fresh(state, "normal"))

    assert [thing for thing, _ in held(conflict)] == things
    assert ("record-says-otherwise" in slugs((conflict,))) is (len(things) > 1)
    assert (conflict.level is Level.DOUBT) and ("won-or-lost" in slugs((conflict,)))


def test_work_that_was_called_unfit_is_no_clear_repair_and_names_what_was_said() -> None:
    boiler, roof, hall = judge(book(WORKS + f"{UNFIT} owing to boiler", FAIR))
    others = judge(book(WORKS, FAIR))

    assert [v.confidence for v in (boiler, roof, hall)] == [Confidence.USUAL, Confidence.CLEAR, Confidence.CLEAR]
    assert "you told Wold Council that the house was unfit" in " ".join(fired.says for fired in boiler.path)
    assert [v.parts for v in (boiler, roof, hall)] == [v.parts for v in others]


# ── what is at stake ─────────────────────────────────────────────────────────────────────────────────────────────


def test_all_that_could_have_been_bought_with_the_house_where_no_thing_is_named() -> None:
    """Decorating comes round whoever owns the house, so it is never at stake."""
    assert held(only(WORKS + UNFIT)) == [("boiler", 2310_00), ("roof", 900_00)]


@pytest.mark.parametrize(
    ("named", "things"),
    [
        ("boiler", ["boiler"]),
        ("boiler and roof", ["boiler", "roof"]),
        ("heating", ["boiler"]),  # a whole and its parts
        ("slates", []),
        ("everything and boiler", ["boiler", "roof"]),  # a word nobody knows cannot be told from the works
    ],
)
def test_only_the_things_that_were_named(named: str, things: list[str]) -> None:
    conflict = found(WORKS + f"{UNFIT} owing to {named}")

    assert [thing for c in conflict for thing, _ in held(c)] == things


def test_a_room_that_was_named() -> None:
    lines = "9 Jul 2025 replaced sink in kitchen £90.00, like for like, worn out\n" + WORKS

    assert held(only(lines + f"{UNFIT} owing to kitchen")) == [("sink", 90_00)]


def test_making_good_goes_with_the_thing_that_was_named() -> None:
    lines = BOILER + "10 Jul 2025 repaired plaster £70.00, making good after boiler\n"

    assert held(only(lines + f"{UNFIT} owing to boiler")) == [("boiler", 2310_00), ("plaster", 70_00)]


def test_the_part_that_is_an_improvement_anyway_is_not_at_stake() -> None:
    lines = "9 Jul 2025 repaired roof £900.00, worn out, improvement £300.00\n"

    assert held(only(lines + UNFIT)) == [("roof", 600_00)]


def test_an_open_verdict_is_at_stake_and_called_open() -> None:
    (stake,) = only(BOILER + UNFIT, fresh()).items

    assert (stake.pence, stake.open) == (2310_00, True)


def test_what_already_counts_as_part_of_the_price_is_not() -> None:
    assert found(WORKS + UNFIT, fresh("not lettable", "normal")) == ()


@pytest.mark.parametrize(
    "fact", [', treat as repair because "my view"', ", already returned 2025-26"], ids=["own ruling", "returned"]
)
def test_a_ruling_or_a_return_is_a_claim_too(fact: str) -> None:
    assert held(only(BOILER.strip() + fact + "\n" + UNFIT)) == [("boiler", 2310_00)]


def test_a_ruling_is_held_against_it_even_where_the_book_says_not_lettable() -> None:
    lines = BOILER.strip() + ', treat as repair because "my view"\n' + UNFIT

    assert held(only(lines, fresh("not lettable", "normal"))) == [("boiler", 2310_00)]


def test_a_house_not_let_yet() -> None:
    assert held(only(BOILER + UNFIT, FAIR.split("tenancy")[0])) == [("boiler", 2310_00)]


def test_another_house_is_none_of_its_business() -> None:
    house = FAIR + 'property dock-9 "9 Dock Road"\n    bought 1 May 2025 for £90,000\n'

    assert found(f"{BOILER}{UNFIT}, at dock-9", house) == ()
    assert held(only(f"{BOILER}{ROOF.strip()}, at dock-9\n{UNFIT}", house)) == [("boiler", 2310_00)]


def test_among_several_houses_it_must_say_which() -> None:
    house = FAIR + 'property dock-9 "9 Dock Road"\n    bought 1 May 2025 for £90,000\n'
    made = build({"mill.book": f"{PEOPLE}{house}{UNFIT}\n24 Jun 2025 claimed rent from wold\n"})

    assert [problem.headline for problem in made.problems if problem.code == "which-house"] == [
        "This line does not say which house it belongs to."
    ]


# ── near the purchase ────────────────────────────────────────────────────────────────────────────────────────────


def test_the_last_day_that_is_near_the_purchase_is_the_first_of_the_let() -> None:
    said = "{} claimed works discount from wold, called it unfit"

    assert found(BOILER + said.format("1 Oct 2025"))
    assert not found(BOILER + said.format("2 Oct 2025"))


def test_a_land_tax_claim_is_about_the_purchase_whenever_it_is_made() -> None:
    assert found(BOILER + "2 Oct 2025 claimed stamp duty from hmrc, called it unfit")


def test_after_the_let_began_only_a_named_defect_until_it_is_put_right() -> None:
    first = "9 Mar 2026 replaced boiler £2,310.00, modern equivalent, worn out\n"
    second = "9 Mar 2027 replaced boiler £2,500.00, modern equivalent, worn out\n"
    lines = first + second + "10 Mar 2026 repaired roof £900.00, worn out\n"

    assert held(only(lines + f"{UNFIT} owing to boiler")) == [("boiler", 2310_00)]
    assert found(lines + UNFIT) == ()


def test_what_broke_while_it_was_let_is_a_new_defect() -> None:
    lines = "9 Mar 2026 replaced boiler £2,310.00, modern equivalent, broken\n"

    assert found(lines + f"{UNFIT} owing to boiler") == ()


# ── what came of it ──────────────────────────────────────────────────────────────────────────────────────────────

CLAIM = "1 Sep 2025 claimed council tax deletion from wold, called it unfit\n"


@pytest.mark.parametrize(
    ("answers", "verb"),
    [
        ("", ""),
        ("2 Sep 2025 granted council tax deletion by wold\n", "granted"),
        ('2 Sep 2025 granted council tax deletion by wold\n9 May 2026 refused council tax deletion by "Court"\n',
         "refused"),
        ("2 Aug 2025 granted council tax deletion by wold\n", ""),  # before it was asked
        ("2 Sep 2025 granted roof grant £90.00 by wold\n", ""),  # another question
    ],
    ids=["none", "granted", "overturned", "earlier", "another"],
)  # fmt: skip
def test_the_last_answer_stands(answers: str, verb: str) -> None:
    answer = only(BOILER + CLAIM + answers).told.answer

    assert (answer.verb if answer else "") == verb


def test_an_answer_that_repeats_the_claim_is_no_second_statement() -> None:
    granted = "2 Sep 2025 granted council tax deletion by wold, called it unfit\n"

    assert len(found(BOILER + CLAIM + granted)) == 1
    assert only(BOILER + granted).told.won


def test_a_lost_claim_proves_nothing_and_a_won_one_nearly_all() -> None:
    lost = only(BOILER + CLAIM + "2 Sep 2025 refused council tax deletion by wold\n")
    won = only(BOILER + CLAIM + "2 Sep 2025 granted council tax deletion by wold\n")
    discount = only(BOILER + UNFIT + "\n26 Jun 2025 granted works discount by wold\n")

    assert [f.decided for f in lost.path if f.slug == "won-or-lost"] == [False]
    assert [f.decided for f in won.path if f.slug == "won-or-lost"] == [True]
    assert [f.decided for f in discount.path if f.slug == "won-or-lost"] == [False]
    assert "does not settle it" in " ".join(f.says for f in discount.path)


# ── how loud ─────────────────────────────────────────────────────────────────────────────────────────────────────

SHOWN = fresh('lettable, says "agent, 2 Jun 2025"', "normal")


def test_evidence_turns_the_doubt_into_a_note_unless_the_claim_was_won() -> None:
    assert only(BOILER + UNFIT).level is Level.DOUBT
    assert only(BOILER + UNFIT, SHOWN).level is Level.NOTE
    assert only(BOILER + CLAIM + "2 Sep 2025 granted council tax deletion by wold\n", SHOWN).level is Level.DOUBT


def test_what_speaks_for_repairs_is_told_beside_it() -> None:
    fit = '2 Jun 2025 told fen "ready to let", called it fit\n'
    says = [f.says for f in only(fit + BOILER + UNFIT, SHOWN).path if f.slug == "said-it-was-fine"]

    assert len(says) == 1
    assert "Fen Building Society on 2 Jun 2025" in says[0] and "agent, 2 Jun 2025" in says[0]


def test_a_tenant_in_at_the_purchase_speaks_for_repairs() -> None:
    house = LET.replace("£120,000", "£120,000, with tenant in")
    lines = "9 Mar 2020 replaced boiler £2,310.00, modern equivalent, worn out\n"
    conflict = only(lines + "9 Jun 2018 told fen, called it unfit owing to boiler", house)

    assert [f.says for f in conflict.path if f.slug == "said-it-was-fine"] == [
        "What speaks for repairs: it was bought with its tenant."
    ]


def test_a_claim_that_is_given_only_for_an_unfit_home_says_so_in_itself() -> None:
    assert slugs(found("24 Jun 2025 claimed works discount from wold\n" + WORKS)) >= {"said-it-was-unfit"}
    assert found("24 Jun 2025 claimed empty discount from wold\n" + WORKS) == ()


def test_said_fit_beside_part_of_the_price_is_a_note() -> None:
    conflict = only(BOILER + "2 Jun 2025 told fen, called it fit", fresh("not lettable", "normal"))

    assert (conflict.told.word, conflict.level, held(conflict)) == ("fit", Level.NOTE, [("boiler", 2310_00)])
    assert found(BOILER + "2 Jun 2025 told fen, called it fit") == ()


def test_said_fit_is_about_works_not_about_the_costs_of_buying() -> None:
    lines = "10 Jun 2025 paid stamp duty £6,000.00\n1 Jun 2025 inspected structural survey £480.00\n"
    lines += "2 Jun 2025 told fen, called it fit"

    assert found(lines, fresh("not lettable", "normal")) == ()
    after = "\n10 Jul 2025 repaired plaster £70.00, making good after boiler"
    assert len(only(f"{lines}\n{BOILER.strip()}{after}", fresh("not lettable", "normal")).items) == 2


# ── papers that bar a letting ────────────────────────────────────────────────────────────────────────────────────


def band(letter: str, day: str = "2 Mar 2021") -> str:
    """A certificate."""
    return f'{day} certified energy performance by "Ames", energy band {letter}\n'


def test_the_lowest_bands_bar_a_letting_in_england_and_wales() -> None:
    assert held(only(WORKS + band("f"))) == [("boiler", 2310_00)]
    assert found(WORKS + band("e")) == ()
    assert found(WORKS + band("g"), FAIR.replace("    bought", "    nation scotland\n    bought")) == ()


def test_no_bar_before_the_law_began() -> None:
    assert LET.count("2018") == 2
    old = LET.replace("2018", "2017")

    lines = "9 Jul 2017 replaced boiler £2,310.00, modern equivalent, worn out\n" + band("g", "1 Jun 2014")

    assert found(lines, old) == ()
    assert found(lines.replace("2017", "2018"), LET)


def test_the_certificate_the_house_was_bought_with() -> None:
    """The last one by the day of purchase; one of a later day tells of the works."""
    assert found(WORKS + band("f") + band("d", "1 Jun 2025")) == ()
    assert found(WORKS + band("f") + band("d", "1 Aug 2025"))
    assert found(WORKS + band("f", "1 Aug 2025"))
    assert found(WORKS + band("f", "1 Dec 2025")) == ()


def test_a_failed_report_touches_what_it_is_about_and_a_licence_everything() -> None:
    wiring = "9 Jul 2025 replaced fuse box £600.00, modern equivalent, worn out\n"
    failed = "12 Jun 2025 inspected eicr £180.00, unsatisfactory\n"

    assert held(only(WORKS + wiring + failed)) == [("fuse box", 600_00)]
    assert len(only(WORKS + wiring + "12 Jun 2025 refused selective licence by wold").items) == 3


# ── never an answer changed, never judged for nothing ────────────────────────────────────────────────────────────

WORD = st.sampled_from(["called it unfit", "called it fit", "called it unfit owing to boiler and roof"])
SAID = st.one_of(
    st.builds("{} claimed {} from {}, {}".format, st.just("24 Jun 2025"),
              st.sampled_from(["works discount", "stamp duty", "council tax deletion"]),
              st.sampled_from(["wold", "hmrc", '"Valuation Office"']), WORD),
    st.builds('{} told {} "as it is", {}'.format, st.sampled_from(["1 Jun 2025", "3 Jan 2026"]),
              st.sampled_from(["fen", "lowe", "hmrc"]), WORD),
    st.builds("{} {} {} by wold".format, st.sampled_from(["2 Sep 2025", "1 Jun 2026"]),
              st.sampled_from(["granted", "refused"]), st.sampled_from(["stamp duty", "licence", "works discount"])),
    st.builds("3 Jun 2025 certified energy performance, energy band {}".format, st.sampled_from("abcdefg")),
    st.builds("4 Jun 2025 inspected electrical safety, {}".format, st.sampled_from(["satisfactory", "unsatisfactory"])),
)  # fmt: skip
JOBS = st.lists(
    st.sampled_from([*WORKS.splitlines(), "9 Mar 2026 treated damp £400.00", "1 Feb 2026 replaced sofa £300.00"]),
    unique=True,
)


@settings(max_examples=60, deadline=None)
@given(st.lists(SAID, max_size=5), JOBS, st.sampled_from(sorted(set(HOUSES) - {"second house"})))
def test_what_is_told_elsewhere_never_changes_a_verdict(said: list[str], jobs: list[str], house: str) -> None:
    plain = judge(book("\n".join(jobs) + "\n", HOUSES[house].book))
    with_words = book("\n".join([*said, *jobs]) + "\n", HOUSES[house].book)
    after = judge(with_words)
    found = conflicts(with_words, after)

    def answers(verdicts: tuple[Verdict, ...]) -> list[object]:
        return [(v.parts, v.other, v.when, v.ask, *(f.slug for f in v.path if f.slug != REMARK)) for v in verdicts]

    assert answers(after) == answers(plain)
    assert all(v.confidence is Confidence.USUAL or v.confidence is old.confidence
               for v, old in zip(after, plain, strict=True))  # fmt: skip
    assert all(0 < item.pence <= item.verdict.item.amount for conflict in found for item in conflict.items)
    assert all(conflict.rule.stage == "I" and conflict.rule.decided and conflict.do for conflict in found)


REMARK = "called-unfit-elsewhere"
LATE = UNFIT.replace("24 Jun 2025", "1 Mar 2026") + "\n"


@pytest.mark.parametrize("said", ["", band("c"), "2 Jan 2026 refused works discount by wold\n", LATE])
def test_a_book_that_tells_nothing_near_its_purchase_is_not_judged(said: str, monkeypatch: pytest.MonkeyPatch) -> None:
    made = book(WORKS + said, FAIR)

    def no(_: Book) -> None:
        raise AssertionError("judged for nothing")

    monkeypatch.setattr(module, "judge", no)
    assert doubts(made) == []


def test_a_doubt_marks_both_places() -> None:
    (problem,) = doubts(book(BOILER + UNFIT, FAIR))

    assert problem.code == "said-unfit"
    assert [mark.text.split()[3] for mark in problem.marks] == ["claimed", "replaced"]
    assert "24 Jun 2025" in problem.headline


# ── the questions ────────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(
    ("line", "slug"),
    [
        ("claimed stamp duty £90.00 from hmrc", "land tax"),
        ("claimed relief from hmrc", "land tax"),
        ("claimed vat from hmrc", "vat"),
        ('claimed council tax deletion from "Valuation Office"', "valuation list"),
        ("claimed class D discount from wold", "council tax"),
        ("claimed class D relief from somebody", "council tax"),
        ('told wold "derelict"', "council tax"),
        ("asked selective licence from wold", "licence"),
        ('told fen "as it is"', "lender"),
        ('told tide "as it is"', "insurer"),
        ('told lowe "as it is"', "other"),
    ],
)
def test_which_question_was_asked(line: str, slug: str) -> None:
    made = book(f"24 Jun 2025 {line}", people=PEOPLE + 'insurer tide "Tide Insurance"\n')

    assert question_of(made, made.entries[-1]).slug == slug


def test_an_answer_is_found_among_others() -> None:
    lines = (
        "24 Jun 2025 claimed works discount from wold\n1 Jul 2025 refused empty discount by wold\n"
        "2 Jul 2025 granted works discount by wold\n"
    )
    claim, *answers = book(lines).entries
    found = answer_to(book(lines), claim, answers)

    assert found is not None and found.day.first == date(2025, 7, 2)


def test_questions_say_what_they_rest_on() -> None:
    assert questions()[-1].slug == "other"
    for question in questions():
        assert question.asks.endswith(".") and question.authority and question.status in STATUSES


def test_wholes_and_parts_are_things_of_the_catalogue() -> None:
    known = {thing.name for thing in catalogue().things}

    assert {*systems(), *(part for parts in systems().values() for part in parts)} - known == set()


def test_of_a_house_that_could_be_let_for_a_while_no_line_is_offered_that_would_lose_what_it_says() -> None:
    """B3 of the rules in words: a fault known at the purchase stays part of the price, whatever else was claimed."""
    lines = (
        "24 Jun 2025 claimed works discount from wold, called it unfit owing to walls\n"
        "1 Jul 2025 granted works discount by wold\n"
        "9 Jul 2025 repaired walls £310.00, worn out\n"
    )
    for_a_while = book(lines, fresh('lettable for a while owing to roof, says "survey: roof near its end"', "normal"))
    lettable = book(lines, fresh("lettable", "normal"))
    [kept], [put] = (conflicts(made, judge(made)) for made in (for_a_while, lettable))

    assert "`as bought" not in kept.do[0] and "If it could not, these sums count when it is sold; rule" in kept.do[0]
    assert "stands under the house; if it could not, `as bought not lettable owing to walls`: then" in put.do[0]


@pytest.mark.parametrize(
    ("called", "work", "says"),
    [
        ("called it unfit owing to boiler", "boiler", '("cold"), which speaks against a repair (boiler)'),
        ("called it unfit", "window", "If that meant this too (window), it speaks against a repair"),
    ],
)
def test_a_remark_goes_no_further_than_what_was_told(called: str, work: str, says: str) -> None:
    """I1 of the rules in words: a claim about the same defects speaks against a repair, one about others does not."""
    told = f'24 Jun 2025 claimed works discount from wold, {called}, because "cold"\n'
    found = last(f"{told}9 Jul 2025 replaced {work} £900.00, like for like", fresh("lettable", "normal"))

    assert any(says in fired.says for fired in found.path)


def test_a_granted_claim_about_another_fault_is_said_to_be_about_that() -> None:
    told = '24 Jun 2025 claimed works discount from wold, called it unfit owing to walls, because "all out"\n'
    told += "1 Jul 2025 granted works discount by wold\n"
    house = fresh("lettable for a while owing to roof", "normal")
    basin = last(f"{told}9 Jul 2025 replaced basin £90.00, like for like", house)
    moved = last(f"{told}9 Jul 2025 moved basin £90.00, chosen", house)

    assert any("It did not name this (basin)" in fired.says for fired in basin.path)
    assert not any(fired.slug == "called-unfit-elsewhere" for fired in moved.path)


def test_a_house_that_names_what_was_claimed_is_not_asked_to_name_it() -> None:
    lines = "24 Jun 2025 claimed works discount from wold, called it unfit owing to walls\n"
    lines += "9 Jul 2025 decorated house £310.00\n"
    said = found(lines, fresh("not lettable owing to walls and roof", "normal"))

    assert said and not any("name it there too" in words for conflict in said for words in conflict.do)
