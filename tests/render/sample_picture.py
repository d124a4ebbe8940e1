"""The picture of a page for the README, and how it is made: `python -m tests.render.sample_picture` draws it anew.

A picture cannot be compared with a page, since fonts differ from machine to machine: so it carries, in a text of its
own, the digest of the page it was taken from. Knows as much of the form PNG as it takes to make a picture small.
"""

from __future__ import annotations

import hashlib
import re
import shutil
import struct
import subprocess
import sys
import tempfile
import zlib
from collections.abc import Iterator
from pathlib import Path

from .pages import ON, SALTMARSH, SAMPLES, run

PICTURE = SAMPLES / "pages" / "profit.png"
MOST = 60_000  # bytes
KEY = b"page-sha256"
SIGN = b"\x89PNG\r\n\x1a\n"
OPENED = "<summary><bdi>Rents"


def page() -> str:
    """The page of the picture: what a house brought, the lines of its rents opened."""
    text = run("profit", SALTMARSH, "--year", "2025-26", "--format", "html", *ON)
    assert text.count(f"<details>\n{OPENED}") == 1
    return text.replace(f"<details>\n{OPENED}", f"<details open>\n{OPENED}")


def digest() -> str:
    """The SHA-256 of the page without its drawings, which are another library's."""
    return hashlib.sha256(re.sub(r"(?s)<svg.*?</svg>", "", page()).encode("utf-8")).hexdigest()


def chunks(data: bytes) -> Iterator[tuple[bytes, bytes]]:
    """The chunks of a PNG file (W3C, Portable Network Graphics, section 5), each with its name."""
    assert data.startswith(SIGN)
    at = len(SIGN)
    while at < len(data):
        (size,) = struct.unpack(">I", data[at : at + 4])
        yield data[at + 4 : at + 8], data[at + 8 : at + 8 + size]
        at += size + 12


def told(data: bytes) -> str:
    """The digest that a picture carries; "" where it carries none."""
    texts = (body.partition(b"\0") for name, body in chunks(data) if name == b"tEXt")
    return next((value.decode("ascii") for key, _, value in texts if key == KEY), "")


def small(data: bytes) -> bytes:
    """The picture with no more colours than a palette holds: each part of a colour in sixteen steps."""
    parts = dict(chunks(data))
    wide, high, depth, kind = struct.unpack(">IIBB", parts[b"IHDR"][:10])
    assert depth == 8 and kind in (2, 6)  # red, green, blue, and maybe how clear
    size = 3 if kind == 2 else 4
    raw = zlib.decompress(b"".join(body for name, body in chunks(data) if name == b"IDAT"))
    colours: dict[bytes, int] = {}
    rows, above, stride = bytearray(), bytearray(wide * size), wide * size + 1
    for y in range(high):
        above = _row(raw[y * stride], bytearray(raw[y * stride + 1 : (y + 1) * stride]), above, size)
        rows.append(0)
        for x in range(0, wide * size, size):
            colour = bytes(part // 16 * 17 for part in above[x : x + 3])
            rows.append(colours.setdefault(colour, len(colours)))
    assert len(colours) <= 256
    head = struct.pack(">IIBBBBB", wide, high, 8, 3, 0, 0, 0)
    return _joined([(b"IHDR", head), (b"PLTE", b"".join(colours)), (b"IDAT", zlib.compress(rows, 9)), (b"IEND", b"")])


def _row(way: int, row: bytearray, above: bytearray, size: int) -> bytearray:
    """A row of bytes from what it says of its neighbours (the same, section 9)."""
    for i, byte in enumerate(row):
        left, up, both = (row[i - size], above[i], above[i - size]) if i >= size else (0, above[i], 0)
        near = min((left, up, both), key=lambda one, p=left + up - both: abs(p - one))
        row[i] = (byte + (0, left, up, (left + up) // 2, near)[way]) % 256
    return row


def carrying(data: bytes, words: str) -> bytes:
    """A picture with the digest put before its end."""
    parts = [(name, body) for name, body in chunks(data) if name != b"tEXt"]
    parts.insert(-1, (b"tEXt", KEY + b"\0" + words.encode("ascii")))
    return _joined(parts)


def _joined(parts: list[tuple[bytes, bytes]]) -> bytes:
    return SIGN + b"".join(
        struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body)) for name, body in parts
    )


def draw() -> None:
    """Take the picture anew."""
    browser = shutil.which("chromium") or shutil.which("chromium-browser")
    if browser is None:
        sys.exit("Chromium is not installed (Debian's package chromium).")
    with tempfile.TemporaryDirectory() as folder:
        place, shot = Path(folder) / "a.html", Path(folder) / "a.png"
        place.write_text(page(), encoding="utf-8")
        flags = ("--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", "--window-size=660,760")
        command = [browser, *flags, f"--user-data-dir={folder}/profile", f"--screenshot={shot}", place.as_uri()]
        subprocess.run(command, check=True, capture_output=True, timeout=120)
        PICTURE.write_bytes(carrying(small(shot.read_bytes()), digest()))


if __name__ == "__main__":
    draw()
