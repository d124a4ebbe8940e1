"""Published answers on a landlord's income tax (tax.toml, each with its source) against what is worked out here."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from ledger_tools import law
from ledger_tools.days import TaxYear
from ledger_tools.money import pence
from ledger_tools.taxes.income.allowance import Bar, Choice, result
from ledger_tools.taxes.income.bands import income_tax
from ledger_tools.taxes.income.boxes import fill
from ledger_tools.taxes.income.digital import joins
from ledger_tools.taxes.income.estimate import estimate
from ledger_tools.taxes.income.finance_costs import Relief, relief, reliefs, split
from ledger_tools.taxes.income.late import lapses, late_payment, late_return, points
from ledger_tools.taxes.income.losses import after_losses
from ledger_tools.taxes.income.owners import in_time

from ..verdicts.books import LET, short, verdicts

DATA = tomllib.loads(Path(__file__).with_name("tax.toml").read_text(encoding="utf-8"))

Told = dict[str, Any]


def read(value: Any) -> Any:
    """What the file writes as text: sums as pence, tax years and days as such; the rest stays."""
    if isinstance(value, dict):
        return {read(key): read(held) for key, held in value.items()}
    if isinstance(value, list):
        return [read(held) for held in value]
    if isinstance(value, str) and re.fullmatch(r"-?\d+\.\d\d", value):
        return pence(value.lstrip("-")) * (-1 if value.startswith("-") else 1)
    if isinstance(value, str) and re.fullmatch(r"\d{4}-\d\d", value):
        return TaxYear.read(value)
    if isinstance(value, str) and re.fullmatch(r"\d{4}-\d\d-\d\d", value):
        return date.fromisoformat(value)
    return value


def boxes(year: TaxYear, sums: dict[str, int], loss_brought: int = 0, finance_brought: int = 0) -> Told:
    return {number: box.pounds for number, box in fill(year, sums, loss_brought, finance_brought).boxes.items()}


def relief_(found: Relief) -> Told:
    return {"amount": found.amount, "left": found.left, "cap": str(found.cap), "income": found.income}


def estimate_(**given: Any) -> Told:
    found = estimate(**given)
    told = {name: getattr(found, name) for name in ("without", "before", "reduction", "tax", "added")}
    return {**relief_(found.relief), **told}


def estimates(profits: list[int], **given: Any) -> Told:
    return {"tax": [estimate(profits=each, brought=0, **given).tax for each in profits]}


def allowance(choice: str, bars: tuple[str, ...] = (), **given: Any) -> Told:
    found = result(choice=Choice(choice), bars=frozenset(Bar(bar) for bar in bars), **given)
    return {"result": found.pence, "how": str(found.how)}


def losses(**given: Any) -> Told:
    found = after_losses(**given)
    return {"taxable": found.taxable, "used": found.used, "on": found.on}


def splits(cost: int, years: list[TaxYear]) -> Told:
    parts = [split(cost, year) for year in years]
    return {"deducted": [one for one, _ in parts], "restricted": [two for _, two in parts]}


def many(**given: Any) -> Told:
    found = reliefs(**given)
    return {"used": [r.used for r in found], "amounts": [r.amount for r in found], "left": [r.left for r in found]}


def late(year: TaxYear, tax: list[int], sent: list[date], spared_to: date | None = None) -> Told:
    return {"costs": [late_return(year, day, each, spared_to=spared_to) for each in tax for day in sent]}


def paid_late(paid: list[date], **given: Any) -> Told:
    return {"costs": [late_payment(paid=day, **given) for day in paid]}


def tally(failures: list[tuple[date, str]]) -> Told:
    found = points(failures)
    return {"points": [held for held, _ in found], "costs": [cost for _, cost in found]}


def judged(lines: str) -> Told:
    return {"parts": [short(verdict.parts) for verdict in verdicts(lines + "\n", LET)]}


WORKS: dict[str, Callable[..., Told]] = {
    "boxes": boxes,
    "tax": lambda **given: {"tax": income_tax(**given)},
    "estimate": estimate_,
    "estimates": estimates,
    "relief": lambda **given: relief_(relief(**given)),
    "reliefs": many,
    "allowance": allowance,
    "losses": losses,
    "split": splits,
    "joins": lambda **given: {"joins": joins(**given) or "never"},
    "days": lambda year, topics: {"days": [law.due(topic, year).day for topic in topics]},
    "form 17": lambda signed, sent: {"in_time": [in_time(signed, day) for day in sent]},
    "late return": late,
    "late payment": paid_late,
    "points": tally,
    "records": lambda years: {"until": [law.records_until(year).day for year in years]},
    "lapses": lambda **given: {"day": lapses(**given)},
    "verdicts": judged,
}

STEPS = [(case, step) for case in DATA["case"] for step in case["step"]]


@pytest.mark.parametrize(("case", "step"), STEPS, ids=[f"{case['id']} {step['work']}" for case, step in STEPS])
def test_published(case: Told, step: Told) -> None:
    found = WORKS[step["work"]](**(step["given"] if step["work"] == "verdicts" else read(step["given"])))
    wanted = step["gives"] if step["work"] == "verdicts" else read(step["gives"])

    assert {name: found[name] for name in wanted} == wanted


def test_every_case_names_its_source_and_no_id_twice() -> None:
    aside = DATA["out_of_scope"]
    ids = [case["id"] for case in DATA["case"]] + [one for held in aside for one in held["ids"]]
    ids += [one for held in DATA["elsewhere"] for one in held["ids"]]

    assert len(set(ids)) == len(ids) == 68
    assert all(case["source"] and case["weight"] and case["read"] and case["step"] for case in DATA["case"])
    assert all(step["gives"] for _, step in STEPS)
    assert all(held["why"] for held in aside)


@pytest.mark.parametrize(("one", "test"), [(one, held["test"]) for held in DATA["elsewhere"] for one in held["ids"]])
def test_what_is_held_elsewhere_is_there(one: str, test: str) -> None:
    text = (Path(__file__).parents[2] / test).read_text(encoding="utf-8")
    functions = re.split(r"^def ", text, flags=re.MULTILINE)[1:]

    assert any(one.lower().replace("-", "_") in made.partition("(")[0] or one in made for made in functions)
