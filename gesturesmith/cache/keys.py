"""Keys: a hash of everything that a result depends on."""

from __future__ import annotations

import hashlib
import os
import stat
import sys
import time
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from gesturesmith import paths
from gesturesmith.version import __version__

_LATELY_S = 2.0  # some file systems count in steps of two seconds
# Bytecode and editors' leftovers do not affect results.
_COUNTED = (".py", ".ily", ".ly", ".toml", ".gesture", ".scm")


def digest(*parts: str | bytes) -> str:
    """SHA-256 over the parts, in hexadecimal; the boundaries between parts count."""
    found = hashlib.sha256()
    for part in parts:
        data = part if isinstance(part, bytes) else part.encode("utf-8", "surrogatepass")
        found.update(len(data).to_bytes(8, "big"))
        found.update(data)
    return found.hexdigest()


def result_key(kind: str, *made_from: str) -> str:
    """The key of a result: its kind, this program, and everything it was made from."""
    return digest(kind, fingerprint(), *made_from)


def file_digest(path: Path) -> str | None:
    """SHA-256 of a regular file's bytes, in hexadecimal; None if there is none to read."""
    try:
        if not path.is_file():
            return None
        with path.open("rb") as file:  # users' files may be of any size
            return hashlib.file_digest(file, "sha256").hexdigest()
    except (OSError, ValueError):
        return None


def file_stamp(path: Path) -> str:
    """Size, times and number of a regular file: the same as before if nobody has touched it.

    "" if there is none, or it was touched so lately that another change would not show.
    """
    try:
        there = path.lstat()
    except (OSError, ValueError):
        return ""
    if not stat.S_ISREG(there.st_mode) or time.time() - max(there.st_mtime, there.st_ctime) < _LATELY_S:
        return ""
    return f"{there.st_size} {there.st_mtime_ns} {there.st_ctime_ns} {there.st_ino}"


@cache
def fingerprint() -> str:
    """A hash of this program: version, sources, templates and the Python that runs it. Takes about 10 ms."""
    package = Path(__file__).resolve().parent.parent
    parts: list[str | bytes] = [__version__, sys.version]
    for root in dict.fromkeys((package, paths.templates())):
        for path in _files(str(root)):
            parts.append(path[len(str(root)) :])
            with open(path, "rb") as file:
                parts.append(file.read())
    return digest(*parts)


def _files(folder: str) -> Iterator[str]:
    """The relevant files below a folder, in a fixed order."""
    with os.scandir(folder) as found:
        entries = sorted(found, key=lambda e: e.name)
    for entry in entries:
        if entry.is_dir():
            yield from _files(entry.path)
        elif entry.name.endswith(_COUNTED):
            yield entry.path
