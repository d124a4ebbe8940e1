"""The catalogue of things: every word finds its one thing, a misspelt word none, and each entry says its source."""

from __future__ import annotations

from itertools import combinations

import pytest

from ledger_tools.book.build import build
from ledger_tools.verdicts.catalogue import Catalogue, Thing, catalogue, distance, split
from ledger_tools.verdicts.cautions import caution, cautions
from ledger_tools.verdicts.checks import doubts

NATURES = {
    "fabric",
    "fixture",
    "domestic",
    "outbuilding",
    "garden",
    "consumable",
    "service",
    "certificate",
    "plant",
    "right",
    "kit",
}
KINDS = {"cost", "income", "capital", "liability", "private", "finance", "purchase"}
USUAL = {"", "rev", "cap", "dom", "cnr", "run", "arguable", "job"}
CATEGORIES = {
    "",
    "rent",
    "other_income",
    "premium",
    "inducement",
    "premises",
    "repairs",
    "professional",
    "services",
    "travel",
    "other",
    "finance_residential",
    "finance_other",
    "rent_a_room_rents",
    "tax_deducted",
}

# Trade words, and what each is, is when replaced by the same, and is the first time. Where the whole group shares an
# authority it stands beside it; the rest is common practice, no source.
WORKS = [
    # ITTOIA 2005 s.311A(14): fixtures named by the Act
    ("fixture rev cap", "boiler, gas boiler, radiators, central heating"),
    # BIM46911: a let house is the whole; its fitted kitchen, sink, hob and oven are parts of it. BIM46910:
    # sanitary ware
    (
        "fixture rev cap",
        "kitchen, fitted kitchen, worktop, sink, taps, splashback, oven, hob, bath, basin, wc suite, shower "
        "cubicle, bathroom suite, towel rail, cooker hood, extractor fan, fitted wardrobe, integrated "
        "dishwasher",
    ),
    # PIM2025 and BIM46920: roofs, gutters, windows, doors, floors, beams
    (
        "fabric rev cap",
        "slates, ridge, flashing, roof tiles, roof, flat roof, loft insulation, cavity wall insulation, "
        "gutters, downpipes, soffits, fascias, chimney stack, lintel, joist, floor beam, steel beam, "
        "floorboards, screed, laminate, vinyl, internal doors, front door, back door, patio door, windows, "
        "skylight, staircase, banister, partition wall, tanking, loft ladder, extension, wall tiles, wiring, "
        "fire door, drains, soakaway",
    ),
    ("fabric rev -", "plaster, skim, ceiling, repointing, wallpaper, woodchip, lounge, hall, bedroom, landing, house"),
    ("fabric rev arguable", "damp proof course"),
    ("fabric arguable cap", "roof insulation boards, conservatory, porch"),
    ("fabric arguable arguable", "underpinning"),
    ("service rev rev", "damp, dry rot, woodworm, decorating, stone cleaning, asbestos removal, overgrowth"),
    # ITTOIA 2005 s.311A(14): furniture, furnishings, household appliances, kitchenware
    (
        "domestic dom cnr",
        "cooker, fridge, fridge freezer, freezer, washing machine, washer dryer, tumble dryer, dishwasher, "
        "microwave, kettle, toaster, crockery, cutlery, pans, beds, mattress, wardrobe, sofa, sofa bed, "
        "chairs, tables, desk, carpets, underlay, rug, curtains, curtain pole, blinds, bedding, towels, "
        "pictures, mirror, vacuum cleaner, iron, lawnmower, garden furniture, television, router, portable "
        "heater, dehumidifier, lamp, hot tub, furniture, piano",
    ),
    (
        "fixture rev cap",
        "secondary glazing, locks, door handle, letter plate, electric shower, bath screen, cylinder, storage "
        "heater, panel heater, gas fire, wood burning stove, underfloor heating, thermostat, consumer unit, "
        "sockets, light fittings, outside light, door entry, video doorbell, burglar alarm, cctv, fire panel, "
        "emergency lights, tv aerial, satellite dish, air conditioning, positive input fan, shutters, water "
        "main, water softener, stairlift, grab rail, ramp, outside tap",
    ),
    ("fixture rev arguable", "smoke alarm, heat alarm, co alarm"),
    ("plant rev cap", "heat pump, solar panels, inverter, home battery, ev charge point, lift"),
    ("plant arguable cap", "oil tank, lpg tank, septic tank"),
    ("garden rev cap", "fence panels, fence posts, gate, drive, path, lawn, turf"),
    ("garden arguable cap", "garden wall, patio, decking"),  # the whole of it; a part of it is a repair
    ("outbuilding rev cap", "garage, carport, summer house, garden office"),
    ("outbuilding arguable cap", "shed, greenhouse, bin store, bike store"),
    ("outbuilding cap cap", "caravan, chalet"),
    ("consumable run run", "bulbs, fuses, batteries, keys, key safe"),
    ("consumable run cnr", "shower curtain"),
    ("consumable run arguable", "fire blanket, extinguisher"),
    ("consumable rev rev", "paint, sealant"),
    (
        "certificate run run",
        "gas safety record, eicr, epc, hmo licence, selective licence, fire risk assessment, legionella, pat",
    ),
    (
        "service run run",
        "boiler service, power flush, inventory, check in report, end of let clean, rubbish, pest control, "
        "chimney sweep, gutter clearing, septic tank emptying, leaves",
    ),
    ("service job job", "skip, scaffold, tool hire, labour, delivery, tip fee, architect, building control, survey"),
    ("kit arguable arguable", "laptop, ladder, tool, van"),
]

# A sum's name, the verb where it matters, its kind and class. The classes are those of HMRC's help for form SA105; the
# finance costs BIM45815 and BIM45820; costs of buying and selling TCGA 1992 s.38; a tenant's deposit PIM1052.
MONEY = [
    ("income rent", "rent, housing benefit"),
    (
        "income other_income",
        "received insurance, received loss of rent, kept deposit, grant, compensation, recharge, received ground rent",
    ),
    ("income ", "refund, sold copper, sold scrap, scrap"),
    (
        "cost premises",
        "insurance, landlord insurance, buildings insurance, contents insurance, council tax, business rates, "
        "water, water and waste, paid gas, electricity, broadband, standing charge, ground rent, service "
        "charge, charged waste, paid rent",
    ),
    (
        "cost professional",
        "management fee, letting fee, tenant find fee, commission, renewal fee, inventory fee, check out fee, "
        "reference fee, accountant, accountancy, legal fees, eviction fees",
    ),
    ("cost services", "wages, communal heating"),
    ("cost other", "advertising, phone, postage, stationery, subscription, software, training, bank charges, card fee"),
    ("cost travel", "parking, train fare, fuel"),
    ("cost ", "vat"),
    (
        "finance finance_residential",
        "mortgage interest, loan interest, arrangement fee, broker fee, valuation fee, mortgage fee, early "
        "repayment charge",
    ),
    ("liability ", "loan capital, mortgage capital, deposit, holding deposit, retention"),
    ("private ", "penalty, fine, drawings, private"),
    (
        "purchase ",
        "stamp duty, sdlt, ltt, lbtt, land tax, conveyancing, purchase survey, search fees, searches, land "
        "registry fee, auction fee, purchase",
    ),
    ("capital ", "estate agent fee, sale legal fees"),
]

MISSPELT = {
    "boilr": "boiler",
    "extracter fan": "extractor fan",
    "guttters": "gutter",
    "radiater": "radiator",
    "washing mashine": "washing machine",
    "front bedroom carpt": "carpet",
    "stamp dutty": "stamp duty",
    "managment fee": "management fee",
    "consumer uint": "consumer unit",
    "windws": "window",
    "skipp": "skip",
    "old chimny": "chimney",
    "council tex": "council tax",
    "morgage interest": "mortgage interest",
}


def pairs(groups: list[tuple[str, str]]) -> list[tuple[str, str]]:
    return [(word, what) for what, words in groups for word in words.split(", ")]


def found(words: str, verb: str = "") -> Thing:
    thing = catalogue().find(words, verb)
    assert thing is not None, words
    return thing


@pytest.mark.parametrize("word, what", pairs(WORKS))
def test_a_thing_has_its_nature_and_its_usual_answers(word: str, what: str) -> None:
    thing = found(word)
    assert f"{thing.nature} {thing.again} {thing.first or '-'}" == what
    assert not thing.money


@pytest.mark.parametrize("word, what", pairs(MONEY))
def test_a_sum_has_its_kind_and_class(word: str, what: str) -> None:
    verb, _, rest = word.partition(" ")
    verb, words = (verb, rest) if verb in ("received", "kept", "sold", "paid", "charged") else ("", word)
    thing = found(words, verb)
    assert f"{thing.kind} {thing.category}" == what
    assert thing.money


def test_the_verb_decides_where_a_word_means_two_things() -> None:
    assert (found("kitchen", "replaced").nature, found("kitchen", "replaced").room) == ("fixture", False)
    assert found("kitchen", "decorated").room
    assert found("kitchen").room is False
    assert found("toilet", "replaced").name == "toilet"
    assert found("toilet", "cleaned").room
    assert found("stairs", "repaired").name == "staircase"
    assert found("insurance", "paid").kind == "cost"
    assert found("insurance", "received").kind == "income"
    assert found("deposit", "repaid").kind == "liability"
    assert found("gas", "billed").category == "premises"
    assert found("gas", "certified").nature == "certificate"
    assert found("lead", "repaired").name == "flashing"
    assert found("old copper", "scrapped").name == "scrap"


@pytest.mark.parametrize(
    "typed, name",
    [
        ("Gas Boiler", "boiler"),
        ("fuse-box", "consumer unit"),
        ("fusebox", "consumer unit"),
        ("W.C.", "toilet"),
        ("extractor hood", "cooker hood"),
        ("work\u2011top", "worktop"),
        ("work\u00a0top", "worktop"),
        ("door  bell", "doorbell"),
        ("windows", "window"),
        ("gutters", "gutter"),
        ("batteries", "battery"),
        ("boxes of keys", ""),
        ("key boxes", "key safe"),
        ("shelves", "shelf"),
        ("fuses", "fuse"),
        ("vases", "ornament"),
        ("latches", "bolt"),
        ("bank charge", "bank charges"),
        ("legal fee", "legal fees"),
        ("light switches", "light switch"),
        ("floor joists", "floor beam"),
        ("searches", "search fee"),
        ("old chimney", "chimney"),
        ("front bedroom carpet", "carpet"),
        ("tenant's sofa", "sofa"),
        ("tenant\u2019s sofa", "sofa"),
        ("two small upstairs windows", "window"),
        ("kitchen tap", "kitchen tap"),
        ("yard gate", "gate"),
        ("blue carpet", "carpet"),
        ("back bedroom", "back bedroom"),
        ("small front bedroom", "front bedroom"),
        ("leak under sink", "leak"),
        ("roof leak", "leak"),
        ("leaking pipe behind the bath", "pipework"),
        ("under", ""),
        ("desk and chair", ""),
        ("old", ""),
        ("", ""),
    ],
)
def test_words_as_people_type_them(typed: str, name: str) -> None:
    thing = catalogue().find(typed)
    assert (thing.name if thing else "") == name


@pytest.mark.parametrize("typed, meant", MISSPELT.items())
def test_a_misspelt_word_is_not_taken_for_another_but_the_right_one_is_offered(typed: str, meant: str) -> None:
    assert catalogue().find(typed) is None
    assert catalogue().near(typed)[0] == meant


@pytest.mark.parametrize("typed", ["boilers s", "bolier", "frunt door", "wardrobs", "fuse boxs", "batterys", "xqzt"])
def test_only_regular_plurals_and_known_words_in_front_are_passed_over(typed: str) -> None:
    assert catalogue().find(typed) is None


def test_nothing_is_offered_for_what_is_like_nothing() -> None:
    assert catalogue().near("xqzt wvvk") == ()
    assert catalogue().near("") == ()
    assert len(catalogue().near("gas meeter", n=1)) == 1


@pytest.mark.parametrize(
    "a, b, gap",
    [
        ("boiler", "boilr", 1),
        ("unit", "uint", 1),
        ("tap", "tap", 0),
        ("bath", "path", 1),
        ("carpet", "carport", 2),
        ("", "tap", 3),
        ("sofa", "table", 5),
    ],
)
def test_distance_counts_slips(a: str, b: str, gap: int) -> None:
    assert distance(a, b, 9) == distance(b, a, 9) == gap
    assert distance(a, b, 1) == min(gap, 2)


def test_no_word_belongs_to_two_things_unless_the_verbs_differ() -> None:
    owners: dict[str, list[Thing]] = {}
    for thing in catalogue().things:
        for word in catalogue().words_of(thing):
            owners.setdefault(word.replace(" ", ""), []).append(thing)
    for word, things in owners.items():
        assert len({id(thing) for thing in things}) == len(things), f"{word} stands twice under one thing"
        for a, b in combinations(things, 2):
            assert (a.verbs or b.verbs) and not set(a.verbs) & set(b.verbs), f"{word}: {a.name} and {b.name}"


def test_every_word_finds_its_own_thing() -> None:
    for thing in catalogue().things:
        for word in catalogue().words_of(thing):
            assert " ".join(split(word)) == word
            assert catalogue().find(word, thing.verbs[0] if thing.verbs else "") is thing, word


def test_every_entry_is_whole() -> None:
    for thing in catalogue().things:
        assert thing.source.strip(), thing.name
        assert bool(thing.nature) != bool(thing.kind), thing.name
        assert thing.nature in NATURES | {""} and thing.kind in KINDS | {""}, thing.name
        assert thing.category in CATEGORIES and {thing.again, thing.first} <= USUAL, thing.name
        assert not thing.caution or caution(thing.caution), thing.name
        assert thing.category == "finance_residential" if thing.kind == "finance" else True, thing.name


def test_how_many_there_are() -> None:
    things = catalogue().things
    assert len(things) == 531
    assert sum(thing.money for thing in things) == 101
    assert sum(len(catalogue().words_of(thing)) for thing in things) == 3454
    statute = {thing.name for thing in things if thing.statute}
    assert statute == {"boiler", "radiator", "radiator valve", "central heating"}


def test_wholes_of_their_own() -> None:
    """BIM46911 names the garage, the chalet and the drive; BIM46910 the pointers for the rest."""
    for word in ("garage", "chalet", "drive", "shed", "greenhouse", "summer house", "outhouse"):
        assert found(word).whole, word
    for word in ("kitchen", "chimney", "fence panel", "garage door", "roof", "conservatory"):
        assert not found(word).whole, word


def test_rooms() -> None:
    rooms = catalogue().rooms
    wanted = (
        "lounge, hall, kitchen, bathroom, bedroom, front bedroom, back bedroom, dining room, landing, stairs, cellar, "
        "loft, attic, utility, yard, garden, outhouse, outbuilding, house, flat, roof space"
    )
    assert set(wanted.split(", ")) <= rooms
    assert not rooms & {"boiler", "carpet", "rent", "shed"}
    for word in rooms:
        assert found(word, "decorated").room, word


def test_a_book_may_declare_things_of_its_own() -> None:
    said = {"Stone-Trough": "garden", "snug": "furniture", "old folly": "outbuilding", "fence": "fixture"}
    own = catalogue().extend(said)
    trough = own.find("stone troughs")
    assert trough is not None
    assert (trough.name, trough.nature, trough.again, trough.first) == ("stone trough", "garden", "rev", "cap")
    assert trough.source == "declared in the book"
    snug, folly, fence = own.find("snug"), own.find("old folly"), own.find("fence")
    assert snug and folly and fence
    assert (snug.nature, folly.whole, fence.nature) == ("domestic", True, "fixture")
    assert catalogue().find("stone trough") is None
    assert found("fence").nature == "garden"
    assert own.find("boiler") is catalogue().find("boiler")
    with pytest.raises(ValueError, match="fabric, fixture, furniture"):
        catalogue().extend({"stone trough": "stone"})


def test_an_empty_catalogue_finds_nothing() -> None:
    empty = Catalogue((), frozenset())
    assert empty.find("boiler") is None
    assert empty.near("boiler") == ()


def test_cautions() -> None:
    named = {"gas", "wiring", "asbestos", "lead", "height", "alarms", "structure", "legionella"}
    assert set(cautions()) == {thing.caution for thing in catalogue().things} - {""} == named
    for name, entry in cautions().items():
        assert caution(name) == entry["says"]
        assert "\n" not in entry["says"] and entry["source"]
    assert caution("") == ""
    with pytest.raises(KeyError):
        caution("water")
    assert "Gas Safe" in caution(found("boiler").caution)
    assert found("gutters").caution == "height"
    assert found("consumer unit").caution == "wiring"


def test_a_sum_nobody_knows_is_offered_what_a_sum_can_be() -> None:
    money, thing = (
        doubts(build({"a.book": f'property a "1 A Street"\n1 Jun 2025 {line} £9.00\n'}))
        for line in ("paid zorble levy", "installed zorble")
    )

    assert "thing zorble levy is service" in money[0].help and "legal fees" in money[0].help
    assert "thing zorble is fixture" in thing[0].help
