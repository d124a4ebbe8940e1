"""The data files of this room, read when first asked for and never twice. Knows no topic and no year."""

from __future__ import annotations

import hashlib
import tomllib
from functools import cache
from pathlib import Path
from typing import Any

FOLDER = Path(__file__).parent

Table = dict[str, Any]


@cache
def topics() -> tuple[str, ...]:
    """Every topic held, in order: "mileage.car_first" is the file mileage/car_first.toml."""
    files = sorted(FOLDER.glob("*/*.toml"))
    return tuple(f"{file.parent.name}.{file.stem}" for file in files)


def digest() -> str:
    """The SHA-256 of every data file of this room, by name and in order: the same law, the same digits."""
    whole = hashlib.sha256()
    for file in sorted(FOLDER.rglob("*.toml"), key=lambda file: file.relative_to(FOLDER).as_posix()):
        whole.update(f"{file.relative_to(FOLDER).as_posix()}\n".encode())
        whole.update(hashlib.sha256(file.read_bytes()).digest())
    return whole.hexdigest()


def text_of_all() -> str:
    """The text of every topic, one after the other."""
    return "".join(file.read_text(encoding="utf-8") for file in sorted(FOLDER.glob("*/*.toml")))


@cache
def table(name: str) -> Table:
    """One data file; `name` is a topic, "sources" or "property_pages". KeyError where there is none."""
    if not all(part.isidentifier() for part in name.split(".")):
        raise KeyError(name)
    file = FOLDER.joinpath(*name.split(".")).with_suffix(".toml")
    if not file.is_file():
        raise KeyError(f"no figures are held under {name!r}")
    with file.open("rb") as stream:
        return tomllib.load(stream)


def source(name: str) -> Table:
    """What is known of one source: title, kind, day made, address. KeyError where it is not listed."""
    entry: Table = table("sources")[name]
    return entry
