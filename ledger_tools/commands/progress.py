"""One line on the terminal that says what is being done, where that takes longer than a second. It changes nothing
else: where the error stream is no terminal nothing is said, and the line is gone before anything is printed.
"""

from __future__ import annotations

import shutil
import sys
from threading import Lock, Timer

PATIENCE = 1.0  # seconds
ERASE = "\r\x1b[K"


class Progress:
    """The line. Whoever prints something calls `done` first."""

    def __init__(self) -> None:
        self._lock = Lock()
        self._words = ""
        self._shown = False
        self._timer: Timer | None = None

    def say(self, words: str) -> None:
        """What is being done now, shown once a second has gone by since the first of these words."""
        if not sys.stderr.isatty():
            return
        with self._lock:
            self._words = words
            if self._shown:
                self._draw()
            elif self._timer is None:
                self._timer = Timer(PATIENCE, self._first)
                self._timer.daemon = True
                self._timer.start()

    def done(self) -> None:
        """Take the line away."""
        with self._lock:
            if self._timer is not None:
                self._timer.cancel()
                self._timer = None
            if self._shown:
                self._write(ERASE)
                self._shown = False

    def _first(self) -> None:
        with self._lock:
            if self._timer is not None:  # else it was taken away meanwhile
                self._shown = True
                self._draw()

    def _draw(self) -> None:
        wide = shutil.get_terminal_size().columns - 1
        plain = "".join(sign if sign.isprintable() else "·" for sign in self._words)
        self._write(f"{ERASE}{plain[:wide]}")

    def _write(self, words: str) -> None:
        sys.stderr.write(words)
        sys.stderr.flush()


_line = Progress()
say, done = _line.say, _line.done
