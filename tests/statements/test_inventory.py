"""The inventory of a house with its money, on a day: what is told of each thing, and how it is drawn."""

from __future__ import annotations

from datetime import date

from ledger_tools.book.build import build
from ledger_tools.problems import Level
from ledger_tools.render.inventory import as_json, called, text
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.inventory import Held, HouseInventory, inventory
from ledger_tools.verdicts.catalogue import catalogue
from ledger_tools.verdicts.history import History

TEXT = """
landlord nell "Nell Arkwright"
property quay-6 "6 Quay Street"
    bought 4 May 2021 for £96,000
    as bought lettable
    price normal
    left by seller 2 wardrobes and lamps
property elm-2 "2 Elm Road"
    bought 7 Jun 2021 for £88,000
    as bought lettable
    price normal
tenancy oduya at quay-6
    tenants "M. Oduya"
    periodic from 1 Jul 2021
    rent £640 a month
tenancy reyes at elm-2
    tenants "C. Reyes"
    periodic from 1 Jul 2021
    rent £640 a month
at quay-6
4 Mar 2022 replaced washing machine with washer dryer in kitchen £350.00, same again £220.00, used by tenant
    plus delivery £50.00
    receipt "washer.pdf"
5 Mar 2022 replaced sofa in lounge £610.00, used by tenant
6 Mar 2022 bought desk and chair £100.00, none before
7 Mar 2022 installed summer house in garden £900.00, none before
8 Mar 2022 bought fridge £301.00 across quay-6 60% and elm-2 40%, none before
9 Mar 2022 bought ladder £40.00
8 Jan 2024 sold wardrobe £15.00 to "a neighbour"
9 Jan 2024 moved fridge to elm-2
10 Jan 2024 sold lamp £1.00 to "a neighbour"
"""


def made(house: str, on: date) -> HouseInventory:
    book = build({"quay.book": TEXT})
    assert not [p.headline for p in book.problems if p.level is Level.ERROR]
    accounts = Accounts(book)
    return inventory(book, History(book, catalogue()).inventory, accounts.verdicts, house, on)


def money(held: Held) -> tuple[str, int | None, int, int, int]:
    return held.lot.key, held.cost, held.relief, held.doubtful, held.at_sale


def test_what_each_thing_cost_and_what_came_off_the_rents() -> None:
    here = made("quay-6", date(2023, 1, 1)).here
    assert {money(held) for held in here} == {
        ("washer dryer", 40000, 27000, 0, 0),
        ("sofa", 61000, 0, 61000, 0),
        ("desk", 10000, 0, 0, 0),
        ("chair", 10000, 0, 0, 0),
        ("summer house", 90000, 0, 0, 90000),
        ("fridge", 18060, 0, 0, 0),
        ("ladder", 4000, 4000, 0, 0),
        ("wardrobe", None, 0, 0, 0),
        ("lamp", None, 0, 0, 0),
    }
    assert {held.lot.key: held.beside for held in here if held.beside} == {"desk": ("chair",), "chair": ("desk",)}


def test_a_moved_thing_keeps_the_cost_it_had_in_its_first_house() -> None:
    here = made("elm-2", date(2024, 6, 1)).here
    assert [money(held) for held in here] == [("fridge", 12040, 0, 0, 0), ("fridge", 18060, 0, 0, 0)]
    assert [held.lot.came for held in here] == ["bought", "moved"]


def test_what_left_later_is_one_with_what_it_came_with() -> None:
    def wardrobes(on: date) -> list[str]:
        return [called(held.lot) for held in made("quay-6", on).here if held.lot.key == "wardrobe"]

    assert wardrobes(date(2024, 1, 7)) == ["2 wardrobes"]
    assert wardrobes(date(2024, 1, 8)) == ["wardrobe"]
    assert wardrobes(date(2021, 5, 3)) == []
    assert [called(held.lot) for held in made("quay-6", date(2024, 1, 9)).here if held.lot.key == "lamp"] == ["lamps"]


def test_rooms_in_order_and_what_has_gone_in_order_of_going() -> None:
    drawn = text([made("quay-6", date(2024, 6, 1))], gone=True).splitlines()
    rooms = [line for line in drawn if line and not line.startswith(" ")]
    assert rooms == [
        "6 Quay Street: what was in it on 1 Jun 2024", "garden", "kitchen", "lounge", "no room told", "no longer there",
    ]  # fmt: skip
    after = [name for line in drawn[drawn.index("no longer there") + 2 :] if (name := line.split("  ")[1])]
    assert after == ["washing machine", "sofa", "wardrobe", "fridge", "lamp"]
    assert any("sold to a" in line for line in drawn) and any("£15.00" in line for line in drawn)
    assert "no longer there" not in text([made("quay-6", date(2024, 6, 1))], gone=False)


def test_the_words_for_the_relief() -> None:
    drawn = {line.split("  ")[1]: line for line in text([made("quay-6", date(2023, 1, 1))], gone=False).splitlines()[3:]
             if line.startswith("  ")}  # fmt: skip
    assert drawn["washer dryer"].endswith("£400.00        £270.00  washer.pdf")
    assert drawn["sofa"].endswith("£610.00           open")
    assert drawn["chair"].endswith("£100.00        nothing") and "bought, priced" in drawn["chair"]
    assert drawn["desk"].endswith("with chair     with chair"), "a sum for two things stands once"
    assert drawn["summer house"].endswith("£900.00      when sold")
    assert drawn["2 wardrobes"].split()[-5:] == ["left", "by", "the", "seller", "yes"]


def test_a_house_with_nothing_told() -> None:
    assert "Nothing loose that your book tells of." in text([made("elm-2", date(2021, 6, 8))], gone=True)


def test_json_tells_all() -> None:
    told = as_json([made("quay-6", date(2024, 6, 1))])
    assert (told["statement"], told["houses"][0]["property"], told["houses"][0]["on"]) == (
        "inventory", "quay-6", "2024-06-01",
    )  # fmt: skip
    here = {item["thing"]: item for item in told["houses"][0]["here"]}
    washer = here["washer dryer"]
    assert washer == {
        "thing": "washer dryer", "catalogue": "washer dryer", "nature": "domestic", "count": 1, "room": "kitchen",
        "since": "2022-03-04", "came": "replaced", "from": None, "whose": "ours", "tenant_had_it": True,
        "tenant_told": False, "bought_at": "quay.book:21", "cost": "400.00", "cost_with": [], "off_the_rents": "270.00",
        "open": "0.00", "when_sold": "0.00", "proof": [{"kind": "receipt", "file": "washer.pdf"}], "went": None,
        "how": None, "brought": None, "to": None,
    }  # fmt: skip
    gone = {item["catalogue"]: item for item in told["houses"][0]["gone"]}
    assert (gone["wardrobe"]["how"], gone["wardrobe"]["brought"], gone["wardrobe"]["to"], gone["wardrobe"]["went"]) == (
        "sold", "15.00", "a neighbour", "2024-01-08",
    )  # fmt: skip
    assert (gone["washing machine"]["since"], gone["washing machine"]["tenant_told"]) == (None, True)
