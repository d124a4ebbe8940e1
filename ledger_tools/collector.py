"""When Python's collector of what is thrown away has to rest. Knows nothing of books."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def collector_paused() -> Iterator[None]:
    """Records of a book are made and kept, never thrown away: the collector finds nothing in them and only slows a
    large book down, so it rests meanwhile."""
    running = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if running:
            gc.enable()
