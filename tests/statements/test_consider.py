"""What is considered comes out as it would in the book, and the book is none the wiser. Weir Close is invented."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from ledger_tools.book.build import build
from ledger_tools.book.trial import Trial
from ledger_tools.days import TaxYear, day_words
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.consider import Choice, Consideration, NotAskable, Sums, consider
from ledger_tools.statements.consider_tax import tax_now
from ledger_tools.verdicts.engine import judge
from ledger_tools.verdicts.verdict import Verdict
from tests.verdicts.books import LET, PEOPLE, fresh

ON = date(2025, 8, 1)  # before the first let of a fresh house
NEVER_LET = '\nproperty mill-3 "3 Mill Lane, Wold"\n    bought 10 Jun 2025 for £120,000\n    left by seller sofa\n'
HISTORY = """at mill-3
12 Jul 2025  replaced boiler in kitchen £1,900.00 by cobb, like for like, broken
20 Jul 2025  bought washing machine £300.00 from cobb
1 Aug 2025  installed shed in garden £700.00, none before
"""
HOUSES = {
    "let": LET,
    "ready": fresh("lettable", "normal"),
    "not ready": fresh("not lettable"),
    "cheap": fresh("", "reduced"),
    "for a while": fresh("lettable for a while"),
    "condemned": fresh("not lettable owing to kitchen and wiring"),
    "unknown": fresh(),
    "inherited": fresh(got="inherited 10 Jun 2025 at £120,000"),
    "never let": NEVER_LET,
}


def considered(line: str, house: str = "let", on: date = ON, history: str = HISTORY) -> Consideration:
    trial = Trial({"mill.book": PEOPLE + HOUSES[house] + history})
    _, tried, problems = trial.line(line, on)
    assert problems == (), [p.headline for p in problems]
    return consider(trial, tried)


def in_the_book(choice: Choice, house: str, history: str = HISTORY) -> Verdict:
    """The verdict of a choice's line, pasted into the book with its day."""
    text = PEOPLE + HOUSES[house]
    if choice.supposed:
        begins = day_words(choice.done - timedelta(days=1))
        text += f"tenancy okoye at mill-3\n    periodic from {begins}\n"
    line = choice.line.replace("DAY", day_words(choice.done), 1)
    found = [v for v in judge(build({"mill.book": f"{text}{history}{line}\n"})) if v.item.line.day.first == choice.done]
    return found[-1]


THINGS = ("boiler", "tap in bathroom", "window", "washing machine", "sofa", "carpet", "shed", "roof", "fire door",
          "carpet with laminate", "2 windows with 3 windows", "oven")  # fmt: skip
VERBS = ("replace", "install", "add", "buy", "repair", "rebuild", "decorate", "remove", "move", "treat", "extend")
FACTS = ("", ", like for like", ", modern equivalent", ", better", ", same again £310.00", ", worn out", ", required",
         ", none before", ", used by tenant", ", left by seller", ", loose", ", plus delivery £20.00")  # fmt: skip


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(VERBS), st.sampled_from(THINGS), st.sampled_from(FACTS), st.sampled_from(sorted(HOUSES)))
def test_every_choice_is_what_the_rules_say_of_its_line_in_the_book(verb, thing, fact, house) -> None:
    trial = Trial({"mill.book": PEOPLE + HOUSES[house] + HISTORY})
    _, tried, problems = trial.line(f"{verb} {thing} £450{fact}", ON)
    if tried.entry is None:  # "decorate … with": the language does not say that of every verb
        assert problems
        return
    for choice in consider(trial, tried).choices:
        mine, real = choice.verdict, in_the_book(choice, house)
        assert (mine.parts, mine.other, mine.when) == (real.parts, real.other, real.when)
        assert (mine.confidence, mine.path, mine.keep, mine.ask) == (real.confidence, real.path, real.keep, real.ask)
        for answer in choice.answers:
            sums = answer.sums
            assert sums.off + sums.waits + sums.sale + sums.nothing == mine.item.amount
        assert len(choice.answers) == (len(mine.answers) if mine.arguable else 1)


def test_the_book_is_unchanged() -> None:
    text = PEOPLE + HOUSES["not ready"] + HISTORY
    trial = Trial({"mill.book": text})
    before, verdicts = trial.book, judge(trial.book)
    for line in ("replace boiler £2,400", "install tap £90 by nobody", "repalce roof 90"):
        _, tried, _ = trial.line(line, ON)
        if tried.entry is not None:
            consider(trial, tried)

    assert trial.book is before and before == build({"mill.book": text}) and judge(trial.book) == verdicts
    assert before.problems == build({"mill.book": text}).problems


def test_what_was_tried_before_makes_no_difference() -> None:
    trial = Trial({"mill.book": PEOPLE + HOUSES["ready"] + HISTORY})
    lines = ["replace boiler £2,400, better", "install shed £90", "replace washing machine £90"]

    def all_of(order: list[str]) -> dict[str, Consideration]:
        return {line: consider(trial, trial.line(line, ON)[1]) for line in order}

    assert all_of(lines) == all_of(lines[::-1])
    told = [trial.line("replace tap £9 by larkin at nowhere-1", ON)[2] for _ in range(2)]
    assert told[0] == told[1] and {p.code for p in told[0]} == {"unknown-name", "unknown-house"}


def test_the_order_of_the_lines_of_the_book_makes_no_difference() -> None:
    lines = HISTORY.splitlines()
    turned = "\n".join([lines[0], *lines[:0:-1]]) + "\n"

    def told(history: str) -> list[object]:
        found = considered("replace washing machine £450, like for like", "ready", history=history)
        return [(c.label, c.same, c.answers, c.counts, c.line, c.reason) for c in found.choices]

    assert told(HISTORY) == told(turned)


# ── which choices there are ──────────────────────────────────────────────────────────────────────────────────────


def labels(found: Consideration) -> dict[str, tuple[str, ...]]:
    return {choice.label: tuple(label for label, _ in choice.same) for choice in found.choices}


def test_choices_with_one_answer_stand_together() -> None:
    assert labels(considered("replace boiler £2,400, modern equivalent")) == {
        "as typed": ("like for like", "the old one mended"),
        "better": ("does more",),
    }


def test_a_house_not_let_yet_is_looked_at_after_its_first_let_too() -> None:
    found = considered("replace kitchen £2,400, modern equivalent", "not ready")
    now, later = found.choices[:2]

    assert (now.label, later.label, later.done) == ("as typed", "after the first let", date(2025, 10, 2))
    assert now.answers[0].sums == Sums(0, 0, 240_000, 0) and now.counts is None and now.year is None
    assert [answer.sums for answer in later.answers] == [Sums(240_000, 0, 0, 0), Sums(0, 0, 240_000, 0)]
    assert later.verdict.arguable
    assert found.notes and "Law Shipping" in found.notes[0]
    assert considered("replace kitchen £2,400, modern equivalent").notes == ()


@pytest.mark.parametrize("told", ["", ", broken", ", worn out", ", tenant damage", ", used by tenant", ", required"])
@pytest.mark.parametrize("house", ["not ready", "cheap", "for a while", "unknown", "inherited", "condemned"])
def test_waiting_for_the_first_let_is_never_shown_as_a_sure_way_to_a_deduction(house: str, told: str) -> None:
    """A fault there is today is older than a let that is still to come, whatever the line says of it."""
    found = considered(f"replace kitchen £2,400, like for like{told}", house, history="")
    later = [c for c in found.choices if "after the first let" in (c.label, *(label for label, _ in c.same))]

    assert later and all(c.verdict.arguable or not c.answers[0].sums.off for c in later)


@pytest.mark.parametrize("thing", ["boiler", "wiring", "smoke alarms", "walls", "wiring with sockets"])
@pytest.mark.parametrize("house", ["not ready", "ready", "never let"])
def test_work_on_which_safety_hangs_is_never_put_off_until_somebody_lives_there(house: str, thing: str) -> None:
    found = considered(f"replace {thing} £2,400, modern equivalent", house)

    told = {label for choice in found.choices for label in (choice.label, *(label for label, _ in choice.same))}
    assert told.isdisjoint({"after the first let", "once it is let"})
    assert found.notes == ("Safety hangs on this work, so no way is shown of doing it after somebody has moved in.",)


def test_the_same_answer_in_another_tax_year_stands_apart() -> None:
    """The first let begins on the last day of 2025-26, so what is done the day after counts in 2026-27."""
    house = HOUSES["ready"].replace("1 Oct 2025", "5 Apr 2026")
    trial = Trial({"mill.book": PEOPLE + house})
    now, later = consider(trial, trial.line("decorate hall £90", ON)[1]).choices

    assert now.answers == later.answers and (now.year, later.year) == (TaxYear(2025), TaxYear(2026))
    assert [c.year for c in considered("decorate hall £90", "ready").choices] == [TaxYear(2025)]


def test_a_let_is_supposed_where_none_is_told() -> None:
    found = considered("replace gutters £560, like for like", "never let")
    later = next(choice for choice in found.choices if choice.supposed)

    assert found.first_let is None and later.label == "once it is let" and later.year is None
    assert later.answers[0].sums == Sums(56_000, 0, 0, 0)
    assert found.choices[0].answers[0].sums == Sums(0, 56_000, 0, 0)


def test_on_the_first_day_of_a_let_the_house_was_not_let_before() -> None:
    assert considered("replace boiler £9", "ready", on=date(2025, 10, 1)).first_let == date(2025, 10, 1)
    assert "after the first let" in labels(considered("replace roof £9", "not ready", on=date(2025, 10, 1)))
    assert "after the first let" not in labels(considered("replace roof £9", "not ready", on=date(2025, 10, 2)))


def test_an_equal_one_is_priced_only_where_its_price_is_told() -> None:
    first, like, _ = considered("replace washing machine £450, same again £300").choices
    without = considered("replace washing machine £450, like for like")

    assert first.answers[0].sums == Sums(30_000, 0, 0, 15_000) and first.same[0][0] == "better, an equal one priced"
    assert like.answers[0].sums == Sums(45_000, 0, 0, 0) and "same again" not in like.line
    assert next(c for c in without.choices if c.label == "better").verdict.arguable


def test_the_first_one_is_a_choice_where_that_is_the_question() -> None:
    assert "the first one here" in labels(considered("replace oven £450, loose", "ready"))
    assert "like for like" in labels(considered("install window £450"))
    assert "the first one here" not in str(labels(considered("replace boiler £450")))


def test_money_lines_have_no_ways_of_doing_them() -> None:
    assert labels(considered("pay insurance £200")) == {"as typed": ()}


def test_a_day_in_front_is_the_day_and_the_line_gives_it_back_as_day() -> None:
    found = considered("3 Mar 2026 replace tap £90.00, like for like # perhaps")

    assert found.day == date(2026, 3, 3)
    assert found.choices[0].line.startswith("DAY replaced tap £90.00, like for like")


def test_in_a_book_of_several_houses_the_line_names_its_house() -> None:
    other = 'property elm-9 "9 Elm Road, Wold"\n'
    trial = Trial({"mill.book": PEOPLE + LET + other})
    by_option = consider(trial, trial.line("replace tap £90", ON, "mill-3")[1])
    by_line = consider(trial, trial.line("replace tap £90, at mill-3", ON, "elm-9")[1])

    assert by_option.house == by_line.house == "mill-3"
    assert by_option.choices[0].line == by_line.choices[0].line == "DAY replaced tap £90, at mill-3"


@pytest.mark.parametrize(
    "line",
    ["replace boiler", "received rent £700 from okoye", "sell piano £30", "quoted boiler £90", 'noted "new boiler £90"',
     "drove 12 miles"],
)  # fmt: skip
def test_what_has_no_cost_is_not_asked_about(line: str) -> None:
    trial = Trial({"mill.book": PEOPLE + LET})
    with pytest.raises(NotAskable):
        consider(trial, trial.line(line, ON)[1])


# ── mistakes of the line ─────────────────────────────────────────────────────────────────────────────────────────


def test_mistakes_are_placed_in_the_line_as_typed() -> None:
    trial = Trial({"mill.book": PEOPLE + LET})
    typed, tried, problems = trial.line("replace boiler in kitchen 2400 by cobb", ON, "mill-3")

    assert tried.entry is None
    assert [(p.code, p.marks[0].line, p.marks[0].column, p.marks[0].text) for p in problems] == [
        ("amount-needs-pound", 1, 27, typed.words)
    ]
    assert problems[0].fix is not None and problems[0].fix.line == "replaced boiler in kitchen £2,400 by cobb"


def test_doubts_of_the_book_are_not_told_of_the_line() -> None:
    trial = Trial({"mill.book": PEOPLE + LET + "at mill-3\n1 May 2025 replaced tap £9.00 by bodkin\n"})

    assert [p.code for p in trial.book.problems] == ["unknown-name"]
    assert trial.line("replace boiler £90", ON)[2] == ()
    assert [p.code for p in trial.line("replace boiler £90 by larkin", ON)[2]] == ["unknown-name"]


# ── tax ──────────────────────────────────────────────────────────────────────────────────────────────────────────


def tax(line: str, people: str, rents: int = 5_000, house: str = LET) -> tuple[object, ...]:
    text = f"{people}{house}at mill-3\n1 May 2025 received rent £{rents}.00 from okoye\n"
    trial = Trial({"mill.book": text})
    found = consider(trial, trial.line(line, ON)[1])
    return tax_now(Accounts(trial.book), found)


def asha(*lines: str) -> str:
    return 'landlord asha "Asha Merrick"\n' + "".join(f"    {line}\n" for line in lines)


BASIC = ("lives in england", "other income £30,000 in 2025-26")


def test_tax_is_estimated_where_other_income_is_told() -> None:
    """£1,000 less profit at the basic rate of 20%: £200. What counts at sale saves nothing now."""
    (owner,) = tax("replace boiler £1,000, like for like", asha(*BASIC))

    assert [saved and saved.pence for saved in owner.saved] == [(20_000,), None]
    assert owner.nation == "england" and owner.untold == ()


def test_below_the_finance_costs_a_choice_lowers_the_reduction_as_well() -> None:
    """£60,000 of wages, rents of £5,000, interest told as left over of £4,500: £1,000 at 40%, less 20% of £500."""
    people = asha(
        "lives in england", "other income £60,000 in 2025-26", "unused finance costs £4,500 brought into 2025-26"
    )
    (owner,) = tax("replace boiler £1,000, like for like", people)

    assert owner.saved[0].pence == (300_00,)


def test_across_a_limit_each_band_takes_its_part() -> None:
    """Other income of £49,000 and rents of £5,000: £3,730 lie above £50,270, where the rate is 40%, the rest at 20%."""
    (owner,) = tax("replace boiler £5,000, like for like", asha("lives in england", "other income £49,000 in 2025-26"))

    assert owner.saved[0].pence == (373_000 * 40 // 100 + 127_000 * 20 // 100,)


def test_more_than_the_profit_makes_a_loss_to_carry_on() -> None:
    (owner,) = tax("replace boiler £7,500, like for like", asha(*BASIC))

    assert owner.saved[0].pence == (500_000 * 20 // 100,) and owner.saved[0].on == (250_000,)


def test_losses_brought_in_leave_nothing_to_save() -> None:
    (owner,) = tax("replace boiler £1,000, like for like", asha(*BASIC, "loss £6,000 brought into 2025-26"))

    assert owner.saved[0].pence == (0,) and owner.saved[0].on == (100_000,)


def test_an_open_answer_has_two_estimates() -> None:
    (owner,) = tax("replace boiler £1,000", asha(*BASIC))

    assert owner.saved[0].pence == (20_000, 0)


def test_a_year_without_other_income_is_asked_for() -> None:
    (owner,) = tax("replace boiler £1,000", asha("other income £30,000 in 2024-25"))

    assert not any(owner.saved) and owner.untold == (TaxYear(2025),)


def test_without_other_income_tax_is_left_out() -> None:
    assert tax("replace boiler £1,000", asha()) == ()


def test_each_owner_saves_on_their_share() -> None:
    people = asha(*BASIC) + 'landlord jean "Jean Merrick"\n    other income £80,000 in 2025-26\n'
    house = LET.replace("    as bought", "    owners asha 25% and jean 75%\n    as bought")
    first, second = tax("replace boiler £1,000, like for like", people, house=house)

    assert first.saved[0].pence == (250_00 * 20 // 100,)
    assert second.saved[0].pence == (750_00 * 40 // 100,) and second.nation == ""


def test_nobody_is_asked_for_the_income_of_a_year_who_owns_nothing_of_the_house() -> None:
    people = asha("other income £30,000 in 2024-25") + 'landlord jean "Jean Merrick"\n    other income £9 in 2024-25\n'
    house = LET.replace("    as bought", "    owners asha 100%\n    as bought")

    assert [owner.owner for owner in tax("replace boiler £1,000", people, house=house)] == ["asha"]


def test_with_the_property_allowance_claimed_no_cost_saves_tax() -> None:
    assert tax("replace boiler £1,000", asha(*BASIC, "claims property allowance in 2025-26")) == ()
