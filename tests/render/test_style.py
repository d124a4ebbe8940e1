"""The style of the pages: every pair of colours can be read, by day and by night."""

from __future__ import annotations

import re
from importlib.resources import files

import pytest

STYLE = (files("ledger_tools") / "render" / "templates" / "style.css").read_text(encoding="utf-8")
LIGHT, DARK = (dict(re.findall(r"--([\w-]+): (#[0-9a-f]{6})", part)) for part in STYLE.split("dark)")[:2])


def light(colour: str) -> float:
    """Relative luminance (WCAG 2.2, "relative luminance")."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio (WCAG 2.2)."""
    high, low = sorted((light(one), light(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("scheme", [LIGHT, DARK], ids=["day", "night"])
def test_words_can_be_read(scheme: dict[str, str]) -> None:
    for words in ("ink", "soft", "accent"):
        for ground in ("paper", "faint", "mark"):
            assert contrast(scheme[words], scheme[ground]) >= 4.5, (words, ground)  # WCAG 2.2, 1.4.3


@pytest.mark.parametrize("scheme", [LIGHT, DARK], ids=["day", "night"])
def test_bars_can_be_seen(scheme: dict[str, str]) -> None:
    assert contrast(scheme["bar"], scheme["paper"]) >= 3  # WCAG 2.2, 1.4.11


def test_the_measure_is_right() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.01)  # just short of what is asked
