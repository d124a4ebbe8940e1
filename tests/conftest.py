"""Options of the tests: `--accept` rewrites the stories with what the commands print now (read the diff!)."""

from __future__ import annotations

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--accept", action="store_true", help="Write what the stories print now into them.")
