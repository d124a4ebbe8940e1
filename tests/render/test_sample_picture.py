"""The picture in the README is of the page as it is today, and small."""

from __future__ import annotations

from .sample_picture import MOST, PICTURE, carrying, chunks, digest, told


def test_the_picture_was_taken_from_the_page_as_it_is_today() -> None:
    assert told(PICTURE.read_bytes()) == digest(), "draw it anew: python -m tests.render.sample_picture"


def test_the_picture_is_small_and_whole() -> None:
    data = PICTURE.read_bytes()

    assert len(data) <= MOST
    assert [name for name, _ in chunks(data)][-1] == b"IEND"


def test_a_picture_carries_the_digest_it_was_given() -> None:
    data = PICTURE.read_bytes()

    assert told(carrying(data, "abc")) == "abc" and told(carrying(carrying(data, "abc"), "def")) == "def"
