"""The texts that are written, and their files. The file on the disk is the truth.

A window says what it holds and upon what it was typed (its base). Where the file is still the base, or something
this window has saved itself, the text goes on from there; else the changes of both are joined; and where both
changed the same lines, the composer is asked, and nothing is written meanwhile.
"""

from __future__ import annotations

import hashlib
import os
import threading
from collections.abc import Collection
from pathlib import Path
from typing import Literal

from gesturesmith.delivery import blocked, new_file, replace_file
from gesturesmith.live.joining import joined
from gesturesmith.live.journal import Journal, JournalEntry
from gesturesmith.source import Source
from gesturesmith.textfile import LARGEST_BYTES, UnreadableFile, read_bytes, shown_name, text_of
from gesturesmith.values import frozen

type Standing = Literal["same", "joined", "clash", "gone", "unreadable"]
_BOM = "\ufeff"


@frozen(kw_only=True)
class TypedText:
    """What a window holds.

    window   the window's own name
    text     with line feeds
    base     the text of the file when the two last agreed; None if there was no file
    saves    fingerprints of what this window asked to save since, without having heard that it was
    """

    window: str
    text: str
    base: str | None
    saves: Collection[str] = ()


@frozen(kw_only=True)
class Agreement:
    """What the file holds in comparison.

    standing   same: the text can be saved. joined: it can be once the window has taken over `text`. clash: both
               changed the same lines. gone: the file is no longer there. unreadable: it is, but not as a text
    text       what the window should hold
    base       the text of the file now; None if there is none
    why        what keeps it from being read
    """

    standing: Standing
    text: str
    base: str | None
    why: str = ""


@frozen(kw_only=True)
class SaveResult:
    """`why`: what kept it from being saved; `agreement`: the same, if the file holds something else."""

    why: str = ""
    agreement: Agreement | None = None


@frozen(kw_only=True)
class _Shape:
    """How a file writes its lines."""

    bom: str = ""
    newline: str = "\n"


def fingerprint(text: str) -> str:
    """What stands for a text in `TypedText.saves`."""
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


def unwritable(text: str) -> str:
    """Why a text cannot be put into a file, "" if it can."""
    try:
        data = text.encode()
    except UnicodeEncodeError:
        return "it holds half a character, which no file can hold"
    if b"\0" in data:
        return "it holds a null character, which no text file holds"
    if len(data) > LARGEST_BYTES:
        return "it is larger than 2 MB, the limit; divide it into several files"
    return ""


class Document:
    """One text, its file, and what is kept aside of it. Threads may share it."""

    def __init__(self, path: Path, journal: Journal) -> None:
        self.path = path
        self.name = shown_name(path.name)
        self.id = hashlib.sha256(os.path.realpath(path).encode("utf-8", "surrogatepass")).hexdigest()[:16]
        self._journal = journal
        self._lock = threading.Lock()
        self._state: tuple[int, int, int, int] | None = None
        self._there: str | UnreadableFile | None = None
        self._shape = _Shape()
        self.look()

    def look(self) -> bool:
        """Whether the file has another text than when it was last looked at."""
        with self._lock:
            before = self._there
            return self._read() != before

    @property
    def there(self) -> str | UnreadableFile | None:
        """The text of the file; None if there is no file."""
        with self._lock:
            return self._read()

    def left(self) -> tuple[JournalEntry, ...]:
        """What was typed and never came into the file."""
        with self._lock:
            there = self._read()
            return tuple(entry for entry in self._journal.left(self.path) if entry.text != there)

    def discard(self, window: str) -> None:
        """Forget what was kept aside for a window."""
        with self._lock:
            self._journal.drop(self.path, window)

    def typed(self, typed: TypedText) -> Agreement:
        """Keep aside what was typed, and compare it with the file. OSError if it cannot be kept."""
        with self._lock:
            there = self._read()
            if typed.text == there or (typed.text == typed.base and there is not None) or not typed.text.strip():
                self._journal.drop(self.path, typed.window)
            else:
                self._journal.keep(self.path, JournalEntry(window=typed.window, base=typed.base, text=typed.text))
            return _agreement(typed, there)

    def compare(self, typed: TypedText) -> Agreement:
        """What the file holds in comparison, without keeping anything."""
        with self._lock:
            return _agreement(typed, self._read())

    def save(self, typed: TypedText, *, over: bool = False) -> SaveResult:
        """Put a text into the file, unless the file holds something that its window has not seen.

        over   whatever the file holds: the composer has decided
        """
        problem = unwritable(typed.text)
        if problem:
            return SaveResult(why=problem)
        with self._lock:
            there = self._read()
            agreement = _agreement(typed, there)
            if agreement.standing != "same" and not over:
                return SaveResult(agreement=agreement)
            if typed.text != there:
                why = self._write(typed.text, new=there is None)
                if why:
                    return SaveResult(why=why)
            self._journal.drop(self.path, typed.window)
            return SaveResult()

    def _write(self, text: str, *, new: bool) -> str:
        """Why it was not written, "" if it was."""
        data = f"{self._shape.bom}{text.replace('\n', self._shape.newline)}".encode()
        place = Path(os.path.realpath(self.path))  # a link stays a link
        try:
            if new:
                new_file(place, data, synced=True)
            else:
                failed = replace_file(place, data, synced=True)
                if failed is not None:
                    return failed.reason
        except OSError as error:
            return blocked(error, self.name).reason
        self._state, self._there = _state(self.path), text
        return ""

    def _read(self) -> str | UnreadableFile | None:
        """The text of the file, read again only if something has happened to it."""
        state = _state(self.path)
        if state is not None and state == self._state:
            return self._there
        self._state = state
        if state is None:
            self._there = None
            return None
        data = read_bytes(str(self.path))
        found = text_of(self.name, data) if isinstance(data, bytes) else data
        if isinstance(found, Source):
            self._shape = _shape(found.text)
            self._there = "\n".join(found.lines)
        else:
            self._there = None if found.rule == "no-such-file" else found
        return self._there


def _agreement(typed: TypedText, there: str | UnreadableFile | None) -> Agreement:
    if isinstance(there, UnreadableFile):
        return Agreement(standing="unreadable", text=typed.text, base=typed.base, why=there.message)
    if there is None:
        standing: Standing = "same" if typed.base is None else "gone"
        return Agreement(standing=standing, text=typed.text, base=typed.base)
    if there in (typed.base, typed.text) or fingerprint(there) in typed.saves:
        return Agreement(standing="same", text=typed.text, base=there)
    both = joined(typed.base or "", typed.text, there)
    if both is None:
        return Agreement(standing="clash", text=typed.text, base=there)
    return Agreement(standing="joined", text=both, base=there)


def _state(path: Path) -> tuple[int, int, int, int] | None:
    """What changes when a file does; None if there is none."""
    try:
        found = path.stat()
    except (OSError, ValueError):
        return None
    return found.st_mtime_ns, found.st_size, found.st_ino, found.st_ctime_ns


def _shape(text: str) -> _Shape:
    """As most of its lines are."""
    windows = text.count("\r\n")
    counts = {"\n": text.count("\n") - windows, "\r\n": windows, "\r": text.count("\r") - windows}
    most = max(counts, key=lambda newline: counts[newline])
    return _Shape(bom=_BOM if text.startswith(_BOM) else "", newline=most if counts[most] else "\n")
