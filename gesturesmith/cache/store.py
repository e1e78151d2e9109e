"""The folder of cached results: found by key, checked when read, limited in size, safe for several runs at once.

Each entry is a file, written under another name and then renamed; its first line is the hash of the rest. An entry
that is damaged, or in another version's format, counts as missing and is replaced. No failure here stops a run: it
continues without the cache, and says why once.
"""

from __future__ import annotations

import contextlib
import errno
import hashlib
import os
import re
import stat
import time
from collections.abc import Iterator
from pathlib import Path
from typing import IO

from gesturesmith import paths
from gesturesmith.values import frozen

MAX_BYTES = 500_000_000
_HEAD = b"gesturesmith-kept 1 "
_HEAD_BYTES = len(_HEAD) + 64 + 1
# By the first six bits of the key. Each folder is limited to its share of the total, so only folders with new
# entries need checking: no run measures the whole cache, and runs need not agree on a size.
_FOLDERS = 64
_KEY = re.compile(r"[0-9a-f]{64}")
_NAME = re.compile(r"[0-9a-f]{64}(\.[0-9a-f]+\.part)?")
_STALE_S = 3600  # for the unfinished files of killed runs
_USED_S = 3600  # the use of an entry is recorded in its date, at most once an hour
# bford.info/cachedir: backup programs skip a folder with this file
_TAG = "Signature: 8a477f597d28d172789f06886806bc55\n# What Gesturesmith can make again.\n"


@frozen(kw_only=True)
class CacheUsage:
    """The content of a store."""

    folder: Path | None
    entries: int
    size: int
    most: int


class Store:
    """Results by key. With `folder` None it stores nothing.

    `problem` says why nothing more can be stored; "" if all is well.
    """

    def __init__(self, folder: Path | None, most: int = MAX_BYTES) -> None:
        self.folder = folder
        self.problem = ""
        self._most = most
        self._touched: set[Path] = set()
        self._made = False
        try:
            shared = folder is not None and paths.shared(folder)
        except OSError as error:
            self.problem, self.folder = f"{folder}: {_reason(error)}", None
        else:
            if shared:
                others = "can be written by others, who could replace your pages with theirs"
                self.problem, self.folder = f"{folder} {others}", None

    def get(self, key: str) -> bytes | None:
        """The entry of a key, or None."""
        path = self._place(key)
        if path is None:
            return None
        try:
            with _opened(path) as file:
                head, data = file.read(_HEAD_BYTES), file.read(self._most)
                used = os.fstat(file.fileno()).st_mtime
        except OSError:
            return None
        if head != _head(hashlib.sha256(data).hexdigest()):
            return None
        if time.time() - used > _USED_S:
            with contextlib.suppress(OSError):
                os.utime(path)
        return data

    def hash_of(self, key: str) -> str | None:
        """SHA-256 of the entry of a key, without reading it all; None if there is none."""
        path = self._place(key)
        if path is None:
            return None
        try:
            with _opened(path) as file:
                head = file.read(_HEAD_BYTES)
        except OSError:
            return None
        said = head[len(_HEAD) : -1].decode("ascii", "replace")
        return said if head == _head(said) else None

    def put(self, key: str, data: bytes) -> None:
        """Store an entry. An existing one is replaced: it was not valid."""
        path = self._place(key)
        if path is None or self.problem:
            return
        part = path.with_name(f"{path.name}.{os.urandom(6).hex()}.part")
        try:
            self._ready(path.parent)
            with open(os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb") as file:
                file.write(_head(hashlib.sha256(data).hexdigest()))
                file.write(data)
            os.replace(part, path)
        except OSError as error:
            self.problem = f"{self.folder}: {_reason(error)}"
            with contextlib.suppress(OSError):
                part.unlink()

    def trim(self) -> None:
        """Limit the folders with new entries to their share of the size, removing the least recently used."""
        share = self._most // _FOLDERS
        for folder in sorted(self._touched):
            entries = sorted(_entries(folder), key=lambda e: (-e.used, e.path))
            size = 0
            for place, entry in enumerate(entries):
                size += entry.size
                # The newest stays, however large: it was only just stored.
                if (size > share and place) or entry.stale:
                    with contextlib.suppress(OSError):
                        entry.path.unlink()
        self._touched.clear()

    def usage(self) -> CacheUsage:
        """The current content."""
        entries = [e for e in self._all() if not e.part]
        return CacheUsage(
            folder=self.folder, entries=len(entries), size=sum(e.size for e in entries), most=self._most
        )

    def clear(self) -> int:
        """Remove everything and return the number of entries. OSError if that is not allowed."""
        gone = 0
        for entry in self._all():
            entry.path.unlink(missing_ok=True)
            gone += not entry.part
        for folder in self._folders():
            with contextlib.suppress(OSError):
                folder.rmdir()
        return gone

    def _place(self, key: str) -> Path | None:
        if self.folder is None or not _KEY.fullmatch(key):
            return None
        return self.folder / f"{int(key[:2], 16) % _FOLDERS:02x}" / key

    def _folders(self) -> Iterator[Path]:
        for number in range(_FOLDERS if self.folder else 0):
            assert self.folder is not None
            yield self.folder / f"{number:02x}"

    def _all(self) -> Iterator[CacheEntry]:
        for folder in self._folders():
            yield from _entries(folder)

    def _ready(self, folder: Path) -> None:
        """The entry's folder, created if missing; only the user can read the cache."""
        if folder in self._touched:
            return
        assert self.folder is not None
        if not self._made:
            self.folder.mkdir(mode=0o700, parents=True, exist_ok=True)
            tag = self.folder / "CACHEDIR.TAG"
            with contextlib.suppress(FileExistsError), tag.open("x", encoding="ascii") as file:
                file.write(_TAG)
            self._made = True
        folder.mkdir(mode=0o700, exist_ok=True)
        self._touched.add(folder)


def open_store() -> Store:
    """The user's own store."""
    own = paths.user_cache()
    return Store(own / "results" if own is not None else None)


def null_store() -> Store:
    """A store that stores nothing."""
    return Store(None)


@frozen(kw_only=True)
class CacheEntry:
    path: Path
    size: int
    used: float
    part: bool
    stale: bool


def _entries(folder: Path) -> Iterator[CacheEntry]:
    now = time.time()
    with contextlib.suppress(OSError), os.scandir(folder) as found:
        for file in found:
            if not _NAME.fullmatch(file.name):
                continue
            with contextlib.suppress(OSError):  # another run has removed it
                there = file.stat(follow_symlinks=False)
                part = file.name.endswith(".part")
                yield CacheEntry(
                    path=Path(file.path),
                    size=there.st_size,
                    used=there.st_mtime,
                    part=part,
                    stale=part and now - there.st_mtime > _STALE_S,
                )


def _head(said: str) -> bytes:
    return _HEAD + said.encode("ascii", "replace") + b"\n"


def _opened(path: Path) -> IO[bytes]:
    """An entry, opened. OSError if it is not a regular file: opening a pipe would block."""
    handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    if not stat.S_ISREG(os.fstat(handle).st_mode):
        os.close(handle)
        raise OSError(errno.EINVAL, os.strerror(errno.EINVAL), str(path))
    return os.fdopen(handle, "rb")


def _reason(error: OSError) -> str:
    return {
        errno.ENOSPC: "the disk is full",
        errno.EDQUOT: "the disk is full",
        errno.EROFS: "read-only disk",
        errno.EACCES: "permission denied",
        errno.EPERM: "permission denied",
        errno.ENOTDIR: "a file is where its folder should be",
        errno.EEXIST: "a file is where its folder should be",
    }.get(error.errno or 0, os.strerror(error.errno or errno.EIO))
