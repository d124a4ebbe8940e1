"""Pages in a real browser: nothing complains, nothing sticks out of a telephone, they print, their links lead there."""

from __future__ import annotations

import html
import json
import re
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from .pages import NASTY, STATEMENTS, page, run

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="Chromium is not installed (Debian's package chromium)")
QUIET = (
    "--headless --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking "
    "--disable-component-update --disable-sync --hide-scrollbars --enable-logging=stderr"
).split()
POLICY = re.compile(r'<meta http-equiv="Content-Security-Policy"[^>]*>')
LOOK = """<script>
addEventListener("load", () => {
  const wide = () => document.documentElement.scrollWidth;
  const shut = wide();
  document.querySelectorAll("details").forEach(d => d.open = true);
  const lost = [...document.querySelectorAll("a")].map(a => a.hash.slice(1)).filter(id => !document.getElementById(id));
  const all = [...document.querySelectorAll("body *")];
  const small = all.filter(e => e.innerText && parseFloat(getComputedStyle(e).fontSize) < 11).length;
  const told = all.filter(e => e.offsetParent && e.matches("th, td, li, dd, p") && !e.closest("thead, .unseen"));
  const cut = told.filter(e => e.getBoundingClientRect().right > innerWidth + 1).length;
  parent.postMessage([NAME, {inner: innerWidth, shut, opened: wide(), lost, small, cut}], "*");
});
</script>"""
FRAMES = """<!DOCTYPE html><pre id="told"></pre><script>
const told = {};
addEventListener("message", e => {
  told[e.data[0]] = e.data[1];
  document.getElementById("told").textContent = JSON.stringify(told);
});
</script>"""

Chromium = Callable[..., subprocess.CompletedProcess[str]]


@pytest.fixture(scope="module")
def chromium(tmp_path_factory: pytest.TempPathFactory) -> Chromium:
    """Runs the browser on a file with a profile of its own."""
    profile = tmp_path_factory.mktemp("profile")

    def start(file: Path, *flags: str) -> subprocess.CompletedProcess[str]:
        command = [str(CHROMIUM), *QUIET, f"--user-data-dir={profile}", *flags, file.as_uri()]
        return subprocess.run(command, capture_output=True, text=True, timeout=120, check=True)

    return start


def nasty(folder: Path, command: str) -> str:
    """A statement of the book with nasty names."""
    (folder / "n.book").write_text(NASTY, encoding="utf-8")
    return run(command, str(folder), "--format", "html")


@pytest.fixture(scope="module")
def looked(chromium: Chromium, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    """What a script finds out about every page in a frame as wide as a telephone; the pages themselves allow none."""
    folder = tmp_path_factory.mktemp("pages")
    pages = {name: page(name) for name in STATEMENTS}
    pages |= {f"nasty-{command}": nasty(folder, command) for command in ("profit", "audit", "base-cost")}
    pages["sticks-out"] = pages["annual"].replace("<h1>", '<h1 style="width: 500px">')
    frames = FRAMES
    for name, text in pages.items():
        bare = POLICY.sub("", text)
        assert bare != text
        look = LOOK.replace("NAME", json.dumps(name))
        (folder / f"{name}.html").write_text(bare.replace("</body>", f"{look}</body>"), encoding="utf-8")
        frames += f'<iframe src="{name}.html" style="width: 360px; height: 800px; border: 0"></iframe>'
    (folder / "frames").with_suffix(".html").write_text(frames, encoding="utf-8")
    dumped = chromium(folder / "frames.html", "--dump-dom", "--virtual-time-budget=10000").stdout
    found = re.search(r'<pre id="told">(.*?)</pre>', dumped)
    assert found
    told: dict[str, Any] = json.loads(html.unescape(found[1]))
    assert set(told) == set(pages)
    return told


@pytest.mark.parametrize("name", [*STATEMENTS, "nasty-profit", "nasty-audit", "nasty-base-cost"])
def test_a_page_fits_a_telephone_shut_and_opened(name: str, looked: dict[str, Any]) -> None:
    assert looked[name] == {"inner": 360, "shut": 360, "opened": 360, "lost": [], "small": 0, "cut": 0}


def test_a_page_that_sticks_out_would_be_seen(looked: dict[str, Any]) -> None:
    assert looked["sticks-out"]["shut"] > 360


@pytest.mark.parametrize("name", ["profit", "audit"])
def test_a_page_says_nothing_to_the_console_and_prints(name: str, chromium: Chromium, tmp_path: Path) -> None:
    (tmp_path / "a.html").write_text(page(name), encoding="utf-8")
    ran = chromium(tmp_path / "a.html", f"--print-to-pdf={tmp_path / 'a.pdf'}", "--no-pdf-header-footer")

    assert [line for line in ran.stderr.splitlines() if "CONSOLE" in line] == []
    printed = (tmp_path / "a.pdf").read_bytes()
    assert printed.startswith(b"%PDF") and re.search(rb"/MediaBox \[0 0 59[45][.\d]* 84[12][.\d]*\]", printed)


def test_the_console_would_be_heard(chromium: Chromium, tmp_path: Path) -> None:
    (tmp_path / "a.html").write_text(page("annual").replace("</body>", "<script>x</script></body>"), encoding="utf-8")

    assert "CONSOLE" in chromium(tmp_path / "a.html", "--dump-dom").stderr
