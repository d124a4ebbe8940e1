"""Keeps what takes time to work out in a folder of the user's own, and gives it back while it is made from the same.

JSON, which holds no code: a foreign file can at worst be useless. Where there is no such folder, or it cannot be read
or written, everything is worked out anew, and the answer is the same. Knows nothing of what it keeps.
"""

from __future__ import annotations

import json
import os
import stat
import sys
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path
from typing import TypeVar

from . import __version__

T = TypeVar("T")


def kept(name: str, made_from: str, make: Callable[[], T]) -> T:
    """The JSON value that `make` gives, from where it was kept under a name while `made_from` is the same text."""
    place, mark = kept_at(name), sha256(made_from.encode()).hexdigest()
    if place is not None:
        try:
            if _ours_alone(place):
                held = json.loads(place.read_bytes())
                if held["made_from"] == mark:
                    value: T = held["value"]
                    return value
        except (OSError, ValueError, TypeError, KeyError):
            pass  # cut off, or of another make
    made = make()
    if place is not None:
        _keep(place, {"made_from": mark, "value": made})
    return made


def kept_at(name: str) -> Path | None:
    """The file that keeps a thing for this version of the program; None where there is no place for it."""
    if sys.platform == "win32":
        base = os.environ.get("LOCALAPPDATA")
    else:
        home = os.environ.get("HOME")
        base = os.environ.get("XDG_CACHE_HOME") or (str(Path(home) / ".cache") if home else None)
    if not base:
        return None
    return Path(base) / "landlord-books" / f"{name}-{__version__}.json"


def _ours_alone(path: Path) -> bool:
    """Whether nobody else can write the file or its folder."""
    if sys.platform == "win32":
        return True
    for place in (path, path.parent):
        about = place.lstat()
        if about.st_uid != os.getuid() or stat.S_IMODE(about.st_mode) & 0o022 or stat.S_ISLNK(about.st_mode):
            return False
    return True


def _keep(place: Path, value: object) -> None:
    """Write it beside, then move it in place; a full disk or a read-only home costs time, nothing else."""
    try:
        place.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        beside = place.with_name(f"{place.name}.{os.getpid()}")
        handle = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
        with os.fdopen(handle, "w", encoding="utf-8") as out:
            json.dump(value, out, separators=(",", ":"))
        os.replace(beside, place)
    except OSError:
        pass
