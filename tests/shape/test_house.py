"""The shape of the house: imports point one way, modules stay small, only the doors touch files and clocks."""

from __future__ import annotations

import ast
import re
from importlib.resources import files
from pathlib import Path

import pytest

PACKAGE = Path(str(files("ledger_tools")))
MODULES = sorted(PACKAGE.rglob("*.py"))

# What each room may import. The ground knows nothing above it.
GROUND = {"record", "money", "days", "problems", "spelling", "kept", "collector"}
MAY = {
    "record": set(), "money": set(), "days": {"record"}, "problems": {"record"}, "spelling": set(), "kept": set(),
    "collector": set(),
    "language": GROUND,
    "law": GROUND,
    "book": GROUND | {"language"},
    "verdicts": GROUND | {"book", "law"},
    "taxes": GROUND | {"book", "law"},
    "ledger": GROUND | {"book", "verdicts", "taxes"},
    "statements": GROUND | {"book", "law", "verdicts", "taxes", "ledger"},
    "render": GROUND | {"book", "verdicts", "ledger", "statements"},
    "explain": GROUND | {"language", "law", "book", "verdicts"},
    "commands": GROUND | {"language", "law", "book", "verdicts", "taxes", "ledger", "statements", "render", "explain"},
}  # fmt: skip


def room(path: Path) -> str:
    """The room a module lives in: its folder, or its own name on the ground."""
    inside = path.relative_to(PACKAGE)
    return inside.parts[0] if len(inside.parts) > 1 else inside.stem


def imported_rooms(path: Path) -> set[str]:
    """The rooms of this package that a module imports, wherever in it the import stands."""
    own = ["ledger_tools", *path.relative_to(PACKAGE).parts[:-1]]
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names = [alias.name.split(".") for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            base = own[: len(own) - node.level + 1] if node.level else []
            module = base + (node.module.split(".") if node.module else [])
            names = [[*module, alias.name] for alias in node.names]
        else:
            continue
        found |= {name[1] for name in names if name[0] == "ledger_tools" and len(name) > 1}
    return found - {"__version__"}


@pytest.mark.parametrize("path", MODULES, ids=lambda p: str(p.relative_to(PACKAGE)))
def test_imports_point_one_way(path: Path) -> None:
    here = room(path)
    if here in ("__init__", "__main__"):
        return
    wrong = imported_rooms(path) - MAY[here] - {here}

    assert wrong == set()


def test_every_room_has_its_rule() -> None:
    rooms = {room(path) for path in MODULES} - {"__init__", "__main__"}

    assert rooms <= set(MAY)


@pytest.mark.parametrize("path", MODULES, ids=lambda p: str(p.relative_to(PACKAGE)))
def test_modules_stay_small_and_say_what_they_are_for(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    if not text.strip():
        return

    assert len(text.splitlines()) <= 600
    assert ast.get_docstring(ast.parse(text))


def test_only_the_doors_touch_clocks_and_terminals() -> None:
    forbidden = re.compile(r"\bdate\.today\(|\bdatetime\.now\(|\btime\.time\(|\bprint\(|\binput\(|\bclick\b")
    inner = [p for p in MODULES if room(p) not in ("commands", "__init__", "__main__", "editor")]
    wrong = [p for p in inner if forbidden.search(p.read_text(encoding="utf-8"))]

    assert wrong == []


def test_money_is_never_a_float() -> None:
    wrong = [p for p in MODULES if re.search(r"\bfloat\(", p.read_text(encoding="utf-8"))]

    assert wrong == []
