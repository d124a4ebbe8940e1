"""Work on a house got in every state and at every price, before its first letting and after. Mill Lane is invented."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from ledger_tools.explain.houses import HOUSES, LET, fresh
from ledger_tools.verdicts.closing import in_words
from ledger_tools.verdicts.verdict import ALLOWED, Confidence, Kind, Part, Verdict, deciding

from .books import last, short
from .test_rules import MORE

REPAIR, PURCHASE, BOTH = "3000.00 repair", "3000.00 purchase", "3000.00 open repairs [acquisition]"
IMPROVED = "3000.00 improvement"
NAMED = 'not lettable, says "survey: wiring condemned, roof failing"'
STATES = {
    "unfit": fresh("not lettable", "normal"),
    "unfit, named": fresh(NAMED, "normal"),
    "unfit, named by a fact": fresh("not lettable owing to roof and wiring", "normal"),
    "for a while": fresh("lettable for a while", "normal"),
    "for a while, named": fresh('lettable for a while, says "survey: roof near its end"', "normal"),
    "cheap": fresh("", "reduced"),
    "cheap, named": fresh("", 'reduced by £9,000, says "agent: needs a roof"'),
    "lettable and cheap": fresh("lettable", "reduced"),
    "lettable": fresh("lettable"),
    "nothing told": fresh(),
    "inherited": fresh("not lettable", got="inherited 10 Jun 2025 at £120,000"),
    "lease": fresh("not lettable", "normal", more="leasehold 14 years from 10 Jun 2025, to be put right"),
}
BEFORE, SOON, LATER = "4 Jul 2025", "4 Nov 2025", "4 Nov 2034"  # the house is let from 1 Oct 2025


def comes_to(day: str, work: str, state: str) -> str:
    """The parts of one line of works for £3,000 in one of the houses."""
    return short(last(f"{day} {work}", STATES[state]).parts)


@pytest.mark.parametrize(
    ("state", "before", "soon", "later"),
    [
        ("unfit", PURCHASE, BOTH, BOTH),
        ("unfit, named", PURCHASE, PURCHASE, BOTH),
        ("unfit, named by a fact", PURCHASE, PURCHASE, BOTH),
        ("for a while", BOTH, BOTH, BOTH),
        ("for a while, named", PURCHASE, PURCHASE, BOTH),
        ("cheap", BOTH, BOTH, BOTH),
        ("cheap, named", PURCHASE, PURCHASE, BOTH),
        ("lettable and cheap", BOTH, BOTH, BOTH),
        ("lettable", BOTH, BOTH, REPAIR),
        ("nothing told", BOTH, BOTH, REPAIR),
        ("inherited", BOTH, BOTH, BOTH),
        ("lease", PURCHASE, BOTH, BOTH),
    ],
)
@pytest.mark.parametrize("work", ["replaced roof £3,000.00, like for like", "repaired roof £3,000.00"])
@pytest.mark.parametrize("why", [", worn out", ", required"])
def test_letting_alone_makes_no_old_fault_a_sure_repair(
    state: str, before: str, soon: str, later: str, work: str, why: str
) -> None:
    """BIM35450 and BIM46935 hold no time after which the purchase no longer matters; B2 to B7 of the rules in words."""
    assert [comes_to(day, work + why, state) for day in (BEFORE, SOON, LATER)] == [before, soon, later]


@pytest.mark.parametrize(
    ("cut", "before", "soon", "later"),
    [
        ("owing to windows", REPAIR, REPAIR, REPAIR),
        ("owing to windows and roof", PURCHASE, PURCHASE, BOTH),
        (', says "agent: windows are done"', BOTH, BOTH, REPAIR),  # a paper's words may not name all it meant
    ],
)
def test_a_price_cut_for_a_named_fault_is_never_to_be_called_normal(
    cut: str, before: str, soon: str, later: str
) -> None:
    """B4 and B5 of the rules in words: usable, and the cut was for this or for something else."""
    house = fresh("lettable", f"reduced by £8,000{' ' * (cut[0] == 'o')}{cut}")
    found = [last(f"{day} replaced roof £3,000.00, like for like, worn out", house) for day in (BEFORE, SOON, LATER)]

    assert [short(verdict.parts) for verdict in found] == [before, soon, later]
    assert not any("price normal" in words for verdict in found for words in verdict.ask)
    if before != PURCHASE:
        assert "another fault (window)" in found[0].path[0].says
        assert found[0].confidence is (Confidence.USUAL if before == REPAIR else Confidence.ARGUABLE)


@pytest.mark.parametrize(
    ("price", "also"),
    [("normal", ""), ("reduced", "nor what the price was cut for"), ("reduced owing to damp", "cut for damp")],
)
def test_what_letting_would_have_had_to_stop_for_is_to_be_told(price: str, also: str) -> None:
    """B3 of the rules in words: usual only where it was known at purchase that use must stop without the work."""
    roof = "4 Jul 2025 replaced roof £3,000.00, like for like, worn out"
    untold = last(roof, fresh("lettable for a while", price))
    told = last(roof, fresh("lettable for a while owing to roof", price))

    assert short(untold.parts) == BOTH and untold.ask[0] == "as bought lettable for a while owing to roof"
    assert "does not say what letting would have had to stop for" in untold.path[0].says
    assert also in untold.path[0].says
    assert short(told.parts) == PURCHASE and told.confidence is Confidence.USUAL


def test_what_goes_with_a_named_fault_is_not_itself_called_one() -> None:
    roof = "4 Jul 2025 replaced roof covering £3,000.00, like for like, worn out"
    goes = f"{roof}\n4 Jul 2025 replaced roof insulation £300.00, modern equivalent, required, goes with roof covering"
    found = [last(lines, STATES["for a while, named"]).path for lines in (roof, goes)]
    said = [next(f.says for f in path if f.slug == "fault-named-when-bought") for path in found]

    assert "name this fault (roof)" in said[0] and "name what this goes with (roof)" in said[1]


@pytest.mark.parametrize("state", STATES)
@pytest.mark.parametrize("why", ["storm damage", "tenant damage", "used by tenant"])
def test_what_happened_since_is_a_repair_once_it_was_let(state: str, why: str) -> None:
    assert comes_to(SOON, f"replaced roof £3,000.00, like for like, {why}", state) == REPAIR


@pytest.mark.parametrize("state", STATES)
def test_before_the_first_let_no_tenant_can_have_done_it(state: str) -> None:
    assert comes_to(BEFORE, "replaced roof £3,000.00, like for like, tenant damage", state) != REPAIR


@pytest.mark.parametrize("state", STATES)
def test_what_broke_since_is_a_repair_unless_the_papers_name_it(state: str) -> None:
    """B2 flips where the defect appeared later: what served tenants for a while, and then broke, did."""
    named = "named" in state
    found = last("15 Dec 2025 replaced roof £3,000.00, like for like, broken", STATES[state])

    assert short(found.parts) == (PURCHASE if named else REPAIR)
    assert named or found.confidence is Confidence.USUAL


@pytest.mark.parametrize("state", STATES)
def test_what_broke_when_tenants_had_hardly_come_may_be_an_old_fault(state: str) -> None:
    """Neither B3 nor B7 lets a few days of letting turn what was failing when bought into a fault since."""
    broke = last(f"{SOON} replaced roof £3,000.00, like for like, broken", STATES[state])
    worn = last(f"{SOON} replaced roof £3,000.00, like for like, worn out", STATES[state])

    assert short(broke.parts) == (PURCHASE if "named" in state else BOTH)
    assert ", broken" not in worn.ask
    assert last(f"{SOON} repaired roof £3,000.00, broken", fresh("lettable", "normal")).confidence is Confidence.CLEAR


@pytest.mark.parametrize("tenant", ["", ", with tenant in"])
def test_of_a_house_that_came_free_it_is_asked_whether_its_value_was_cut(tenant: str) -> None:
    """B7 of the rules in words: of what was inherited or given, B4 asks whether its value was reduced."""
    got = f"inherited 10 Jun 2025 at £120,000{tenant}"
    work = f"{SOON} replaced roof £3,000.00, like for like, worn out"
    untold, normal, cut = (last(work, fresh("lettable", price, got)) for price in ("", "normal", "reduced"))

    assert short(untold.parts) == BOTH and untold.ask == ("price normal", "price reduced")
    assert short(normal.parts) == REPAIR
    assert short(cut.parts) == BOTH and "price normal" not in cut.ask


def test_letting_that_began_before_it_came_is_told() -> None:
    house = fresh("not lettable", got="inherited 10 Jun 2025 at £120,000, with tenant in")
    work = "4 Jul 2025 replaced roof £3,000.00, like for like, worn out"
    old = last(work, house.replace("1 Oct 2025", "1 Feb 2019")).path
    new = last(f"{SOON} {work.split(' ', 3)[3]}", STATES["inherited"]).path

    told = "let for 24 days as yours and from 2019 under earlier owners before this work"
    assert told in " ".join(f.says for f in old)
    assert "earlier owners" not in " ".join(f.says for f in new)


@pytest.mark.parametrize("state", STATES)
def test_what_was_put_in_since_is_no_old_fault(state: str) -> None:
    first = "4 Jul 2025 replaced roof £9,000.00, like for like, worn out\n"
    works = "replaced roof £3,000.00, like for like, worn out"

    found = last(f"{first}{LATER} {works}", STATES[state])
    assert short(found.parts) == REPAIR
    since = "it came to you" if state == "inherited" else "you bought"
    assert f"a newer one since {since} (roof replaced 4 Jul 2025)" in " ".join(f.says for f in found.path)
    # A line of a few weeks later is another part of the same job, or another bill for it.
    assert short(last(f"{first}4 Aug 2025 {works}", STATES[state]).parts) != REPAIR
    assert short(last(f"{first.replace('roof', 'part of roof')}{SOON} {works}", STATES[state]).parts) != REPAIR


@pytest.mark.parametrize("state", STATES)
@pytest.mark.parametrize("day", [BEFORE, SOON])
@pytest.mark.parametrize(
    "work",
    [
        "replaced boiler £3,000.00, does more",
        "replaced boiler £3,000.00, better",
        "replaced 6 internal doors with fire doors £3,000.00, required",
        "rebuilt garage £3,000.00, worn out",
    ],
)
def test_an_improvement_stays_one_whatever_the_house_was_like(state: str, day: str, work: str) -> None:
    """C2, C8 and C9 of the rules in words."""
    assert comes_to(day, work, state) == IMPROVED


def test_a_price_cut_for_a_standard_that_a_better_thing_reaches_is_made_up_by_it() -> None:
    """Highland Railway v Balderston (1889) 2 TC 485, as told in BIM35475."""
    work = "replaced boiler £3,000.00, better, worn out"

    assert [comes_to(BEFORE, work, state) for state in ("cheap", "unfit", "inherited")] == [
        PURCHASE,
        IMPROVED,
        IMPROVED,
    ]


@pytest.mark.parametrize("work", ["replaced tap", "replaced fence in garden", "replaced door lock", "repaired gate"])
@pytest.mark.parametrize("state", ["unfit", "unfit, named", "for a while", "nothing told", "lettable"])
def test_no_letting_hangs_on_a_tap_or_a_fence(state: str, work: str) -> None:
    verdict = last(f"{BEFORE} {work} £3,000.00, like for like", STATES[state])

    assert (short(verdict.parts), verdict.confidence) == (REPAIR, Confidence.USUAL)


def test_papers_that_name_one_fault_leave_another_open_and_years_of_letting_settle_it() -> None:
    work = "replaced kitchen £3,000.00, like for like, worn out"

    assert [comes_to(day, work, "unfit, named") for day in (BEFORE, SOON, LATER)] == [BOTH, BOTH, REPAIR]
    assert last(f"{LATER} {work}", STATES["unfit, named"]).confidence is Confidence.USUAL


@pytest.mark.parametrize("praise", ["roof sound", "roof in good order", "kitchen tired; roof fine", "roof new in 2019"])
def test_what_the_papers_praise_is_no_fault_they_name(praise: str) -> None:
    house = fresh(f'not lettable, says "survey: {praise}"', "normal")

    assert "fault-named-when-bought" not in {
        fired.slug for fired in last(f"{BEFORE} repaired roof £3,000.00, worn out", house).path
    }


@pytest.mark.parametrize("words", ["roof not sound", "needs a new roof", "survey: damp and roof", "no good roof"])
def test_what_the_papers_find_fault_with_is_named(words: str) -> None:
    house = fresh(f'not lettable, says "{words}"', "normal")

    assert comes_to_in(house) == PURCHASE


def comes_to_in(house: str) -> str:
    return short(last(f"{SOON} repaired roof £3,000.00, worn out", house).parts)


def test_what_is_named_by_a_fact_outweighs_the_words_quoted() -> None:
    assert comes_to_in(fresh('not lettable owing to wiring, says "wiring, and the roof"', "normal")) == BOTH


def test_a_fault_named_by_its_system_holds_for_the_parts_of_it() -> None:
    wiring = fresh("not lettable owing to wiring", "normal")

    assert short(last(f"{SOON} replaced consumer unit £3,000.00, required", wiring).parts) == PURCHASE
    assert short(last(f"{SOON} replaced kitchen £3,000.00, like for like", wiring).parts) == BOTH


def test_a_house_that_says_nothing_is_taken_for_sound_only_after_years_and_says_so() -> None:
    """Odeon v Jones (1971) 48 TC 257: catching up began about two years after buying."""
    house = LET.replace("    as bought lettable\n    price normal\n", "")
    verdict = last("4 Mar 2025 replaced roof £3,000.00, like for like, worn out", house)

    assert (short(verdict.parts), verdict.confidence) == (REPAIR, Confidence.USUAL)
    assert any("Let for 6 years" in fired.says and "cut price" in fired.says for fired in verdict.path)
    soon = last("4 Mar 2020 replaced roof £3,000.00, like for like, worn out", house)
    assert soon.arguable and "18 months" in soon.path[0].says


def test_a_tenant_who_was_there_when_it_was_bought_says_nothing_of_the_price() -> None:
    house = fresh(got="bought 10 Jun 2025 for £120,000, with tenant in").replace("1 Oct 2025", "1 Feb 2020")
    work = "4 Jul 2025 replaced roof £3,000.00, like for like, worn out"

    assert short(last(work, house).parts) == BOTH
    assert short(last(work, house.replace("tenancy", "    price normal\ntenancy", 1)).parts) == REPAIR


def test_missing_things_are_part_of_what_the_house_cost_however_it_came() -> None:
    """B9 of the rules in words; H2: so they may count at a sale though they have gone by then."""
    work = "replaced kitchen £3,000.00, missing when bought"

    assert comes_to(BEFORE, work, "unfit") == PURCHASE
    assert comes_to(BEFORE, work, "inherited") == PURCHASE


def test_own_wear_is_shared_off_only_where_the_work_finishes_a_purchase() -> None:
    worn = "replaced roof £3,000.00, like for like, of which worn since bought £400.00"

    assert comes_to(SOON, worn, "unfit") == "400.00 repair + 2600.00 purchase"
    assert comes_to(SOON, worn, "inherited") == "400.00 repair + 2600.00 open repairs [acquisition]"
    rebuilt = "10 Jul 2025 rebuilt outhouse £9,000.00\n"
    walls = "4 Mar 2026 repaired walls in outhouse £3,000.00, worn out, of which worn since bought £400.00"
    house = STATES["unfit"].replace("    as bought", "    rooms kitchen, outhouse\n    as bought")
    assert short(last(rebuilt + walls, house).parts) == REPAIR


@pytest.mark.parametrize("state", ["unfit", "unfit, named", "for a while", "cheap"])
def test_making_good_and_decorating_are_no_surer_than_what_they_follow(state: str) -> None:
    wiring = f"{BEFORE} replaced wiring £3,000.00, like for like, worn out\n"
    plaster = last(wiring + "5 Jul 2025 repaired plaster £90.00, making good after wiring", STATES[state])
    decorated = last(wiring + "5 Jul 2025 decorated house £90.00", STATES[state])

    assert plaster.confidence is not Confidence.CLEAR
    assert short(decorated.parts) == "90.00 open repairs [acquisition]"
    assert "wiring" in decorated.path[0].says


def test_what_follows_another_line_is_no_surer_than_it_and_the_page_says_so() -> None:
    moved = "4 Mar 2025 moved boiler £640.00, required\n5 Mar 2025 repaired plaster £90.00, making good after boiler"

    assert last(moved).confidence is Confidence.USUAL
    assert reasons(last(moved)) == [("making-good-after", Confidence.USUAL)]


def reasons(verdict: Verdict) -> list[tuple[str, Confidence]]:
    return [(fired.slug, fired.confidence) for fired in deciding(verdict)[0]]


def test_a_rule_that_left_the_answer_less_sure_is_a_reason_of_its_own() -> None:
    """PIM2510: that the letting goes on between two lets is usual, however clear the repair."""
    void = last("4 Jul 2025 repaired gutters £90.00", HOUSES["void"].book)
    moved = last("4 Mar 2025 replaced sofa £480.00, like for like, used by tenant, old one moved to dock-9",
                 HOUSES["second house"].book)  # fmt: skip

    assert void.confidence is moved.confidence is Confidence.USUAL
    assert reasons(void) == [("same-again", Confidence.CLEAR), ("void", Confidence.USUAL)]
    assert reasons(moved) == [("replacement-relief", Confidence.CLEAR), ("swapped-between-houses", Confidence.USUAL)]


def test_the_share_of_ones_own_wear_is_as_sure_as_its_measure() -> None:
    """Law Shipping: clear in law that it is shared, and open to argument how, unless somebody measured it."""
    line = f"{LATER} replaced roof £5,000.00, like for like, worn out, of which worn since bought £2,000.00"
    bare, measured = (last(line + more, STATES["unfit"]) for more in ("", ', says "surveyor: two fifths"'))

    assert [short(v.parts) for v in (bare, measured)] == ["2000.00 repair + 3000.00 purchase"] * 2
    assert [v.confidence for v in (bare, measured)] == [Confidence.ARGUABLE, Confidence.USUAL]


def test_an_owner_who_let_nothing_yet_is_named_with_the_day_their_part_counts() -> None:
    case = MORE["a second house of one who let and one who did not"]
    line = "4 Jul 2025 repaired gutters £90.00 at dock-9"
    mixed = last(line, case.house, case.people)
    both = last(line, MORE["a second house of two who both let already"].house, case.people)

    assert reasons(mixed) == [("same-again", Confidence.CLEAR), ("later-property", Confidence.USUAL)]
    says = deciding(mixed)[0][1].says
    assert "Remy Merrick had let nothing yet" in says and "that part counts on 1 Sep 2025" in says
    assert reasons(both) == [("same-again", Confidence.CLEAR)]


def test_a_rule_that_changes_no_doubt_is_no_reason() -> None:
    """Let meanwhile: nothing lowers it. And what decides as usual by itself needs no second reason."""
    assert reasons(last("4 Jul 2025 repaired gutters £90.00")) == [("same-again", Confidence.CLEAR)]
    gone = last("4 Jul 2025 removed woodchip in hall £90.00, worn out", HOUSES["void"].book)

    assert reasons(gone) == [("taken-away", Confidence.USUAL)]
    beds = last("4 Jul 2025 replaced bed with 2 beds £400.00, like for like, used by tenant")
    assert reasons(beds) == [("one-for-two", Confidence.USUAL), ("replacement-relief", Confidence.CLEAR)]


def test_what_was_put_in_another_room_says_nothing_of_this_one() -> None:
    rooms = fresh("not lettable", "normal", more="rooms kitchen, lounge")
    first = "4 Jul 2025 replaced radiators in kitchen £900.00, like for like, worn out\n"
    later = LATER + " replaced radiators in {} £3,000.00, like for like, worn out"

    assert short(last(first + later.format("kitchen"), rooms).parts) == REPAIR
    assert short(last(first + later.format("lounge"), rooms).parts) == BOTH


def test_a_whole_put_up_again_is_as_clear_in_a_poor_house_as_in_any() -> None:
    assert last(f"{BEFORE} rebuilt garage £3,000.00", STATES["inherited"]).confidence is Confidence.CLEAR


def test_painting_the_outside_is_clear() -> None:
    """BIM35450 and BIM46935: outside painting that fell due is upkeep, whoever put it off."""
    assert last(f"{BEFORE} decorated outside £900.00", STATES["unfit"]).confidence is not Confidence.ARGUABLE
    assert last(f"{SOON} decorated outside £900.00", STATES["unfit"]).confidence is Confidence.CLEAR


# ── pieces ───────────────────────────────────────────────────────────────────────────────────────────────────────

PIECES = {
    "": {},
    ", of which private £100.00": {Kind.PRIVATE: 100_00},
    ", improvement £500.00": {Kind.IMPROVEMENT: 500_00},
    ", of which private £100.00, improvement £500.00": {Kind.PRIVATE: 100_00, Kind.IMPROVEMENT: 500_00},
}


def held(parts: tuple[Part, ...], kind: Kind) -> int:
    return sum(part.amount for part in parts if part.kind is kind)


@settings(deadline=None, max_examples=120)
@given(
    st.sampled_from(sorted(STATES)),
    st.sampled_from([BEFORE, SOON, LATER]),
    st.sampled_from(["replaced", "repaired"]),
    st.sampled_from(["kitchen", "roof", "windows", "wiring"]),
    st.sampled_from(["", ", like for like", ", modern equivalent", ", slightly better"]),
    st.sampled_from(["", ", worn out", ", required", ", broken"]),
    st.sampled_from(sorted(PIECES)),
    st.integers(600_00, 9_000_00),
)
def test_a_piece_is_carved_once_whatever_the_purchase(
    state: str, day: str, verb: str, thing: str, fact: str, why: str, piece: str, pence: int
) -> None:
    """C10 and C11 of the rules in words: a job is split into its pieces once, and what is left is not split again."""
    verdict = last(f"{day} {verb} {thing} £{pence / 100:.2f}{fact}{why}{piece}", STATES[state])
    answers = [verdict.other, verdict.cautious] if verdict.arguable else [verdict.parts]

    assert sum(part.amount for part in verdict.parts) == pence
    for answer in answers:
        assert sum(part.amount for part in answer) == pence
        for kind, told in PIECES[piece].items():
            assert held(answer, kind) >= told
    if verdict.arguable:  # the favourable answer holds no more of the pieces than was told
        assert held(verdict.other, Kind.PRIVATE) == PIECES[piece].get(Kind.PRIVATE, 0)
        assert held(verdict.other, Kind.IMPROVEMENT) == PIECES[piece].get(Kind.IMPROVEMENT, 0)
        assert comes_off(verdict) == pence - sum(PIECES[piece].values())


def comes_off(verdict: Verdict) -> int:
    return sum(part.amount for part in verdict.other if part.kind in ALLOWED)


def test_what_was_missing_in_a_house_without_a_price_rests_on_more_than_purchases() -> None:
    verdict = last(f"{BEFORE} replaced kitchen £3,000.00, missing when bought", STATES["inherited"])
    reason = deciding(verdict)[0][0]

    assert (short(verdict.parts), reason.slug) == (PURCHASE, "missing-at-purchase")
    assert "no price was paid for this one, and it is taken alike" in reason.says
    assert reason.confidence is Confidence.USUAL


def test_a_third_answer_is_told_where_nothing_is_compared() -> None:
    """C8 of the rules in words: a bath of a higher class than the old one is an improvement."""
    bath, state = f"{BEFORE} replaced bath £480.00", STATES["inherited"]
    bare, same = last(bath, state), last(f"{bath}, like for like", state)

    assert bare.arguable and any("it is an improvement" in fired.says for fired in bare.path)
    assert same.arguable and not any("it is an improvement" in fired.says for fired in same.path)
    both = (in_words(bare.other), in_words(bare.cautious))
    assert (bare.answers, same.answers) == ((*both, "an improvement: it counts when the house is sold"), both)
    assert ", better" in bare.ask and ", better" not in same.ask
    assert short(last(f"{bath}, better", state).parts) == "480.00 improvement"


def test_a_third_answer_holds_the_pieces_that_were_carved() -> None:
    bare = last(f"{BEFORE} replaced bath £480.00, of which private £80.00", STATES["inherited"])

    assert [answer.count("£80.00 private") for answer in bare.answers] == [1, 1, 1]
    assert bare.answers[2].startswith("£400.00 an improvement")


def test_a_ruling_leaves_no_third_answer() -> None:
    ruled = last(f'{BEFORE} replaced bath £480.00, treat as repair because "as it was"', STATES["inherited"])

    assert ruled.answers == ()


def test_a_kitchen_put_in_since_brought_its_worktop() -> None:
    units = "4 Aug 2025 replaced kitchen £4,870.00, like for like, worn out\n"
    worktop = f"{LATER} replaced worktop in kitchen £400.00, like for like"
    house = STATES["unfit"]

    assert short(last(units + worktop, house).parts) == "400.00 repair"
    assert any("replaced 4 Aug 2025" in fired.says for fired in last(units + worktop, house).path)
    assert last(worktop, house).arguable
    assert last(units.replace("kitchen", "part of kitchen") + worktop, house).arguable
    assert last(units + f"{LATER} replaced bath £400.00, like for like", house).arguable


def test_where_tenants_used_an_old_fault_the_reason_tells_how_to_count_their_wear() -> None:
    """Law Shipping refused the old wear and allowed the buyer's own (B10)."""
    named = fresh("not lettable owing to roof", "normal")
    line = "4 Mar 2026 replaced roof £5,000.00, like for like"
    before, after = last(line.replace("4 Mar 2026", BEFORE), named), last(line, named)

    assert "`, of which worn since bought £…`" in reason(after) and "worn since" not in reason(before)
    assert short(last(f"{line}, of which worn since bought £900.00", named).parts) == "900.00 repair + 4100.00 purchase"


def reason(verdict: Verdict) -> str:
    """What the rule said that decided."""
    return deciding(verdict)[0][0].says


@pytest.mark.parametrize(
    ("got", "since", "says"),
    [
        ("bought 3 Jun 2017 for £120,000, with tenant in", "15 Jan 2022", "6 years (what lies before 15 Jan 2022 by"),
        ("bought 3 Jun 2017 for £120,000, with tenant in", "1 Jul 2017", "6 years."),
        ("bought 3 Jun 2017 for £120,000", "1 Jul 2017", "6 years."),
    ],
)
def test_years_of_letting_that_no_tenancy_tells_of_are_said_to_be_so(got: str, since: str, says: str) -> None:
    house = fresh("lettable", got=got).replace("1 Oct 2025", since)
    found = last("21 Sep 2023 replaced immersion heater £210.00, like for like, broken", house)

    assert any(f"it had served tenants for {says}" in fired.says for fired in found.path)


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("4 Jun 2026 replaced roof £900.00, like for like", "let for 8 months before"),
        ("1 May 2026 started roof\n4 Jun 2026 replaced roof £900.00, like for like", "let for 6 months before"),
        ("1 May 2025 started roof\n4 Jun 2026 replaced roof £900.00, like for like", "let for 8 months before"),
        ("1 May 2026 started boiler\n4 Jun 2026 replaced roof £900.00, like for like", "let for 8 months before"),
    ],
)
def test_work_is_judged_from_the_day_it_was_started(line: str, says: str) -> None:
    """B3 and B10 of the rules in words: what counts is the letting before the work, and a bill comes later."""
    found = last(line, fresh("lettable for a while owing to roof", "normal"))

    assert any(says in fired.says for fired in found.path)


@pytest.mark.parametrize(
    ("state", "price", "rule", "says"),
    [
        ("lettable for a while owing to roof", "reduced", "price-cut-for-disrepair", "reduced owing only to roof`"),
        ("lettable for a while owing to roof", "reduced owing to boiler", "price-cut-for-disrepair", "(boiler)"),
        ("lettable for a while owing to roof", "normal", "usable-for-a-while-only", "another fault (roof)"),
        ("lettable for a while", "normal", "usable-for-a-while-only", "Was it this that letting would have had to"),
        ("not lettable owing to roof", "normal", "not-usable-as-bought", "another fault (roof); does it hold"),
        ("not lettable", "normal", "not-usable-as-bought", "As far as it was worn when you bought"),
    ],
)
def test_what_the_book_has_answered_is_not_asked_of_a_house_let_since(
    state: str, price: str, rule: str, says: str
) -> None:
    """B3, B4 and B6 of the rules in words: the open fact is what is asked."""
    found = last("4 Jun 2026 replaced windows £900.00, like for like, worn out", fresh(state, price))
    [asked] = [fired for fired in found.path if fired.slug == rule]

    assert found.arguable and asked.decided and says in asked.says and "before this work" in asked.says


@pytest.mark.parametrize(
    ("got", "price", "words"),
    [
        ("given 3 Jun 2017 at £120,000", "value", "though where no price was paid that is only argued"),
        ("bought 3 Jun 2017 for £120,000", "price", "this could still be part of what the house cost"),
    ],
)
def test_of_a_house_that_was_given_no_price_and_no_purchase_is_spoken_of(got: str, price: str, words: str) -> None:
    """B7 of the rules in words: of such a house it holds by analogy, and its value is what may have been cut."""
    house = fresh("lettable", got=got).replace("1 Oct 2025", "1 Jul 2017")
    found = last("9 May 2024 repaired roof £340.00", house)
    says = " ".join(fired.says for fired in found.path)

    assert f"a cut {price}" in says and words in says


def test_a_share_worn_since_is_told_apart_where_only_the_price_is_not_told() -> None:
    """B10 of the rules in words: what the own letting wore out is a repair on either answer."""
    worn = "9 Jul 2026 replaced windows £900.00, like for like, worn out, of which worn since bought £200.00"
    found = last(worn, fresh("lettable"))

    assert found.arguable and "price normal" in found.ask
    assert short(found.parts) == "200.00 repair + 700.00 open repairs [acquisition]"
    assert short(last(worn, fresh("lettable", "normal")).parts) == "900.00 repair"


def test_what_a_house_without_a_price_lacks_says_what_would_change_the_open_rest() -> None:
    """B7 of the rules in words: by analogy, and the valuation's wording is what to keep."""
    worn = "9 Jul 2026 replaced windows £900.00, like for like, worn out, of which worn since bought £200.00"
    found = last(worn, fresh("not lettable", got="inherited 10 Jun 2025 at £120,000"))

    assert any("by analogy" in fired.authority for fired in found.path if fired.slug == "own-wear-share")
    assert "the valuation and its wording" in found.keep
    assert not any("not let between" in words for words in found.would_change)
