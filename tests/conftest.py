"""Options of the tests: `--accept` rewrites the stories with what the commands print now (read the diff!); `--search`
makes up other books each time, where a plain run makes up the same ones, so that it never fails by luck of the draw."""

from __future__ import annotations

import pytest
from hypothesis import settings

settings.register_profile("repeatable", derandomize=True)
settings.register_profile("search", print_blob=True)


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--accept", action="store_true", help="Write what the stories print now into them.")
    parser.addoption("--search", action="store_true", help="Let the made-up books be others than last time.")


def pytest_configure(config: pytest.Config) -> None:
    settings.load_profile("search" if config.getoption("--search") else "repeatable")
