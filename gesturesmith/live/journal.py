"""What was typed and is not yet in its file, kept aside so that it outlives browser and program.

An entry is a file for each text and each window in which it is written: the path of the text, what the text was
when it and its file last agreed, and the lines as typed. It is JSON, one line of text on a line of its own, so that
somebody without this program finds the words again.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import re
from pathlib import Path

from gesturesmith import paths
from gesturesmith.delivery import new_file, replace_file
from gesturesmith.values import frozen

_WINDOW = re.compile(r"[0-9a-f]{16}")
_LARGEST_BYTES = 16_000_000  # two texts of the largest size, escaped


@frozen(kw_only=True)
class JournalEntry:
    """A text kept aside.

    window   the window in which it was typed
    base     the text of its file when the two last agreed; None if there was no file
    """

    window: str
    base: str | None
    text: str


class Journal:
    """The entries of all texts, in a folder that only its owner reads; None keeps nothing."""

    def __init__(self, folder: Path | None) -> None:
        self.folder = folder

    @property
    def problem(self) -> str:
        """Why nothing can be kept, "" if it can."""
        if self.folder is None:
            return "there is no home folder to keep a journal in"
        try:
            self.folder.mkdir(mode=0o700, parents=True, exist_ok=True)
            if paths.shared(self.folder):
                return f"{self.folder} can be written by others"
        except OSError as error:
            return f"{self.folder}: {error.strerror}"
        return "" if os.access(self.folder, os.W_OK) else f"{self.folder}: permission denied"

    def keep(self, path: Path, entry: JournalEntry) -> None:
        """Keep a text, in the place of what was kept for this window. OSError if the machine cannot."""
        place = self._place(path, entry.window)
        if place is None:
            return
        lines = entry.text.split("\n")
        said = {"file": str(path), "base": entry.base, "text": lines}
        data = json.dumps(said, ensure_ascii=False, indent=0).encode()
        if not place.exists():
            with contextlib.suppress(FileExistsError):
                new_file(place, data, 0o600, synced=True)
                return
        blocked = replace_file(place, data, synced=True)
        if blocked is not None:
            raise OSError(blocked.reason)

    def drop(self, path: Path, window: str) -> None:
        """Forget what was kept: it is in the file."""
        place = self._place(path, window)
        if place is not None:
            with contextlib.suppress(OSError):
                place.unlink(missing_ok=True)

    def left(self, path: Path) -> tuple[JournalEntry, ...]:
        """What was kept for a text, oldest first; what cannot be read is left where it is."""
        if self.folder is None:
            return ()
        found = []
        for place in self.folder.glob(f"{_name(path)}-*.json"):
            with contextlib.suppress(OSError, ValueError, KeyError, TypeError, AttributeError):
                if place.stat().st_size > _LARGEST_BYTES:
                    continue
                said = json.loads(place.read_text("utf-8"))
                base = said["base"]
                entry = JournalEntry(
                    window=place.stem.rpartition("-")[2],
                    base=base if base is None or isinstance(base, str) else str(base),
                    text="\n".join(said["text"]),
                )
                found.append((place.stat().st_mtime_ns, entry))
        return tuple(entry for _, entry in sorted(found, key=lambda pair: pair[0]))

    def _place(self, path: Path, window: str) -> Path | None:
        if not _WINDOW.fullmatch(window):
            raise ValueError(f"no window: {window!r}")
        return None if self.folder is None else self.folder / f"{_name(path)}-{window}.json"


def _name(path: Path) -> str:
    """The same for each name of a file."""
    return hashlib.sha256(os.path.realpath(path).encode("utf-8", "surrogatepass")).hexdigest()[:24]
