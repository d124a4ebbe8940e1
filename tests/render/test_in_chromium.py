"""Pages in a real browser: nothing complains, nothing sticks out of a telephone, they print, their links lead there."""

from __future__ import annotations

import html
import importlib.util
import json
import re
import shutil
import subprocess
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest

from .pages import NASTY, STATEMENTS, packs, page, run

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
  const here = [...document.querySelectorAll("a")].filter(a => a.getAttribute("href").startsWith("#"));
  const lost = here.map(a => a.hash.slice(1)).filter(id => !document.getElementById(id));
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
def packed(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """The pages of the packs of a sample book and of the one with nasty names."""
    found = packs(tmp_path_factory.mktemp("packs"), "saltmarsh", "nasty")
    return {
        f"{name}-{file.stem}": file.read_text(encoding="utf-8")
        for name, folder in found.items()
        for file in (folder / "index.html", *(folder / "pages").glob("*.html"))
    }


def ask(chromium: Chromium, folder: Path, pages: Mapping[str, str], script: str, *flags: str) -> dict[str, Any]:
    """What a script finds out about each page in a frame as wide as a telephone; the pages themselves allow none.

    It posts [NAME, what it found] to the page around it.
    """
    frames = FRAMES
    for name, text in pages.items():
        bare = POLICY.sub("", text)
        assert bare != text
        asking = script.replace("NAME", json.dumps(name))
        (folder / f"{name}.html").write_text(bare.replace("</body>", f"{asking}</body>"), encoding="utf-8")
        frames += f'<iframe src="{name}.html" style="width: 360px; height: 800px; border: 0"></iframe>'
    (folder / "frames.html").write_text(frames, encoding="utf-8")
    dumped = chromium(folder / "frames.html", "--dump-dom", "--virtual-time-budget=120000", *flags).stdout
    found = re.search(r'<pre id="told">(.*?)</pre>', dumped)
    assert found
    told: dict[str, Any] = json.loads(html.unescape(found[1]))
    assert set(told) == set(pages)
    return told


@pytest.fixture(scope="module")
def looked(
    chromium: Chromium, packed: dict[str, str], tmp_path_factory: pytest.TempPathFactory
) -> dict[str, Any]:
    """How wide every page is, shut and opened, and what of it cannot be read."""
    folder = tmp_path_factory.mktemp("pages")
    pages = {name: page(name) for name in STATEMENTS}
    pages |= {f"nasty-{command}": nasty(folder, command) for command in ("profit", "audit", "base-cost")}
    pages |= {f"pack-{name}": text for name, text in packed.items()}
    pages["sticks-out"] = pages["annual"].replace("<h1>", '<h1 style="width: 500px">')
    return ask(chromium, folder, pages, LOOK)


@pytest.mark.parametrize("name", [*STATEMENTS, "nasty-profit", "nasty-audit", "nasty-base-cost"])
def test_a_page_fits_a_telephone_shut_and_opened(name: str, looked: dict[str, Any]) -> None:
    assert looked[name] == {"inner": 360, "shut": 360, "opened": 360, "lost": [], "small": 0, "cut": 0}


def test_the_pages_of_a_pack_fit_a_telephone_too(looked: dict[str, Any]) -> None:
    found = {name: told for name, told in looked.items() if name.startswith("pack-")}

    fits = {"inner": 360, "shut": 360, "opened": 360, "lost": [], "small": 0, "cut": 0}
    assert {name: told for name, told in found.items() if told != fits} == {}
    assert {"pack-saltmarsh-index", "pack-saltmarsh-book", "pack-nasty-index", "pack-nasty-book"} <= set(found)


def test_a_page_that_sticks_out_would_be_seen(looked: dict[str, Any]) -> None:
    assert looked["sticks-out"]["shut"] > 360


PRINTED = {
    "profit": (4, 8), "audit": (14, 24), "pack-index": (1, 4), "pack-year-end-imogen": (2, 6), "pack-book": (3, 8),
}  # fmt: skip


@pytest.mark.parametrize("name", PRINTED)
def test_a_page_says_nothing_to_the_console_and_prints_to_a4(
    name: str, chromium: Chromium, packed: dict[str, str], tmp_path: Path
) -> None:
    text = packed[name.replace("pack", "saltmarsh")] if name.startswith("pack") else page(name)
    (tmp_path / "a.html").write_text(text, encoding="utf-8")
    ran = chromium(tmp_path / "a.html", f"--print-to-pdf={tmp_path / 'a.pdf'}", "--no-pdf-header-footer")

    assert [line for line in ran.stderr.splitlines() if "CONSOLE" in line] == []
    printed = (tmp_path / "a.pdf").read_bytes()
    sheets = re.findall(rb"/Type /Page\b[^s]", printed)
    boxes = re.findall(rb"/MediaBox \[0 0 59[45][.\d]* 84[12][.\d]*\]", printed)
    assert printed.startswith(b"%PDF") and len(sheets) == len(boxes)
    assert PRINTED[name][0] <= len(sheets) <= PRINTED[name][1]  # fonts differ from machine to machine


def test_the_console_would_be_heard(chromium: Chromium, tmp_path: Path) -> None:
    (tmp_path / "a.html").write_text(page("annual").replace("</body>", "<script>x</script></body>"), encoding="utf-8")

    assert "CONSOLE" in chromium(tmp_path / "a.html", "--dump-dom").stderr


# ── for everybody ────────────────────────────────────────────────────────────────────────────────────────────────

CHECK = """<script src="axe.min.js"></script><script>
addEventListener("load", () => {
  document.querySelectorAll("details").forEach(d => d.open = true);
  const told = found => found.violations.map(v => `${v.impact}: ${v.id}: ${v.nodes[0].html.slice(0, 120)}`);
  axe.run(document, {iframes: false, runOnly: RULES}).then(found => parent.postMessage([NAME, told(found)], "*"));
});
</script>"""
CHECKED = (
    "index", "book", "year-end-imogen", "profit-saltmarsh-14", "works", "worth-saltmarsh-14", "rents-saltmarsh-14",
    "council-tax-saltmarsh-14",
)  # fmt: skip
SCHEMES = {"day": 1, "night": 0}  # as the browser numbers them
RULES = {"day": "undefined", "night": '["color-contrast"]'}  # by night only the colours are others


@pytest.mark.parametrize("scheme", SCHEMES)
def test_a_checker_finds_nothing_that_keeps_anybody_out(
    scheme: str, chromium: Chromium, packed: dict[str, str], tmp_path: Path
) -> None:
    found = importlib.util.find_spec("axe_playwright_python")
    if found is None or found.origin is None:
        pytest.skip("axe-core is not installed (the package axe-playwright-python brings it)")
    shutil.copy(Path(found.origin).parent / "axe.min.js", tmp_path)
    pages = {name: packed[f"saltmarsh-{name}"] for name in CHECKED}
    pages["nasty"] = packed["nasty-works"]
    bad = '<img src="data:,"><h1 style="color: #888; background: #777">'
    pages["bad"] = packed["saltmarsh-index"].replace("<h1>", bad)
    flag = f"--blink-settings=preferredColorScheme={SCHEMES[scheme]}"
    told = ask(chromium, tmp_path, pages, CHECK.replace("RULES", RULES[scheme]), flag)

    wrong = " ".join(told.pop("bad"))
    assert "color-contrast" in wrong and ("image-alt" in wrong or scheme == "night")
    assert {name: what for name, what in told.items() if what} == {}
