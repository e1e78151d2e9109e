"""A line on the terminal that shows what is being done and how long it will take, and then disappears."""

from __future__ import annotations

import sys
import time

from gesturesmith.cli.console import clean, is_terminal

_ERASE = "\r\x1b[K"
_SURE_S = 2.0  # seconds of work before the remaining time can be estimated


class Progress:
    """Written to standard error, and only if that is a terminal: logs get plain lines."""

    def __init__(self) -> None:
        self._shown = is_terminal(sys.stderr)
        self._whole = 0.0
        self._since = 0.0

    def __call__(self, text: str, done: float = 0, whole: float = 0) -> None:
        """`text` says what is being done; `done` of `whole` how far it is, if known."""
        if not self._shown:
            return
        if whole != self._whole:
            self._whole, self._since = whole, time.monotonic()
        count = f", {done:.0f} of {whole:.0f}" if whole > 1 else ""
        sys.stderr.write(f"{_ERASE}{clean(text)}{count}{self._left(done, whole)} ...")
        sys.stderr.flush()

    def done(self) -> None:
        """Remove the line."""
        if self._shown:
            sys.stderr.write(_ERASE)
            sys.stderr.flush()

    def _left(self, done: float, whole: float) -> str:
        spent = time.monotonic() - self._since
        if not 0 < done < whole or spent < _SURE_S:
            return ""
        seconds = spent / done * (whole - done)
        if seconds < 1:
            return ""
        return f", about {seconds:.0f} s more" if seconds < 100 else f", about {seconds / 60:.0f} min more"
