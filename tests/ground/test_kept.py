"""What is kept for the user alone: read back while made from the same, never believed where others could write."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest

from ledger_tools.kept import kept, kept_at

posix = pytest.mark.skipif(sys.platform == "win32", reason="permissions work otherwise there")


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("LOCALAPPDATA" if sys.platform == "win32" else "XDG_CACHE_HOME", str(tmp_path))
    found = kept_at("sums")
    assert found is not None
    return found


def asked(answer: object, made_from: str = "two and two") -> object:
    return kept("sums", made_from, lambda: answer)


def test_it_is_worked_out_once_while_it_is_made_from_the_same(place: Path) -> None:
    assert [asked([4]), asked([5])] == [[4], [4]]
    assert [asked([6], "three and three"), asked([7], "three and three")] == [[6], [6]]


@posix
def test_nobody_else_can_read_or_write_it(place: Path) -> None:
    asked([4])

    assert place.stat().st_mode & 0o077 == 0 and place.parent.stat().st_mode & 0o077 == 0


@posix
@pytest.mark.parametrize("what", ["file", "folder"])
def test_what_others_could_have_written_is_not_believed(place: Path, what: str) -> None:
    asked([4])
    os.chmod(place if what == "file" else place.parent, 0o777)

    assert asked([5]) == [5]


@posix
def test_a_link_is_not_followed(place: Path, tmp_path: Path) -> None:
    asked([4])
    real = place.rename(tmp_path / "elsewhere.json")
    place.symlink_to(real)

    assert asked([5]) == [5]


@pytest.mark.parametrize("content", ["", "{", "[1]", '{"made_from": 3}', "\\xff"])
def test_a_spoilt_file_is_made_anew(place: Path, content: str) -> None:
    asked([4])
    place.write_text(content)

    assert [asked([5]), asked([6])] == [[5], [5]]


def test_where_nothing_can_be_kept_it_is_worked_out(place: Path) -> None:
    place.parent.parent.mkdir(exist_ok=True)
    place.parent.write_text("no folder")

    assert [asked([4]), asked([5])] == [[4], [5]]


@posix
def test_without_a_home_it_is_worked_out(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("XDG_CACHE_HOME", raising=False)
    monkeypatch.delenv("HOME", raising=False)

    assert kept_at("sums") is None and asked([4]) == [4]
