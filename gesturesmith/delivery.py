"""Writing output files: completely or not at all, and never over files that are not ours."""

from __future__ import annotations

import contextlib
import errno
import hashlib
import os
import platform
import re
import stat
import time
from collections.abc import Iterable, Sequence, Set
from functools import cache
from pathlib import Path

from gesturesmith.source import folded
from gesturesmith.values import frozen
from gesturesmith.writers.base import Output, bears_mark, is_ours

# Failures of the machine; the user can do something about any other problem with a folder.
_MACHINE = {errno.ENOSPC, errno.EDQUOT, errno.EFBIG, errno.EIO, errno.EMFILE, errno.ENFILE, errno.ENOMEM}

# Names of unfinished files: the process, the machine, and a unique number.
_PART = re.compile(r"\..*\.([0-9a-f]{8})-([0-9]+)-[0-9a-f]{12}\.part", re.DOTALL)
_WAYS_OUT = "move it away, choose another folder with -o, or overwrite it with --force"
_MAX_BYTES = 512 * 1024 * 1024  # the most a run of LilyPond may make
_STALE_S = 3600  # unfinished files of unknown processes are left this long


@frozen
class Blocked:
    """Nothing was written, or nothing more; `machine` if the machine failed rather than the path."""

    reason: str
    machine: bool = False


def blocked(error: OSError, what: str) -> Blocked:
    """A file system error at the path `what`."""
    reason = {
        errno.ENOSPC: "the disk is full",
        errno.EACCES: "permission denied",
        errno.EPERM: "permission denied",
        errno.EROFS: "read-only disk",
        errno.ENOTDIR: "a file is where its folder should be",
        errno.EEXIST: "a file is where its folder should be",
        errno.EISDIR: "is a folder",
    }.get(error.errno or 0, os.strerror(error.errno or errno.EIO))
    return Blocked(f"{what}: {reason}", machine=error.errno in _MACHINE)


@frozen
class Delivered:
    """Everything is in place: all files, sorted, and those that are new or changed."""

    paths: tuple[Path, ...]
    written: tuple[Path, ...]


def deliver(
    outputs: Sequence[Output], folder: Path, *, inputs: Sequence[Path], force: bool = False
) -> Delivered | Blocked:
    """Write all outputs below `folder`, which is created if missing.

    All are written under temporary names before the first is renamed. Nothing overwrites one of the `inputs` or,
    without `force`, a file that is not exactly what we made: another program's file may have the same name, and
    somebody may have edited one of ours. Only regular files are ever replaced. If delivery fails, folders created
    for it are removed.
    """
    outside = [o.place for o in outputs if o.place.is_absolute() or ".." in o.place.parts]
    if outside:
        return Blocked(f"{outside[0]} lies outside the output folder")
    targets = [(folder / output.place, output.data) for output in sorted(outputs, key=lambda o: o.place)]
    known = {key for given in inputs if (key := _identity(given))}
    objection = _twice([path for path, _ in targets]) or next(
        (said for path, _ in targets if (said := _objection(path, known, force=force))), None
    )
    if objection is not None:
        return Blocked(objection)
    parts: list[tuple[Path, Path]] = []
    made: list[Path] = []
    path = folder
    try:
        for path, data in targets:
            _make_folder(path.parent, made)
            if not _holds(path, data):
                parts.append((_part(path), path))
                _write(parts[-1][0], data, 0o666)
        for part, path in parts:
            os.replace(part, path)
        _tidy(path.parent for _, path in parts)
    except OSError as error:
        return blocked(error, str(path))
    finally:
        for part, _ in parts:
            with contextlib.suppress(OSError):
                part.unlink()
        for empty in reversed(made):
            with contextlib.suppress(OSError):
                empty.rmdir()
    return Delivered(tuple(path for path, _ in targets), tuple(path for _, path in parts))


def _make_folder(folder: Path, made: list[Path]) -> None:
    """Make a folder and its missing parents; new folders are added to `made`."""
    missing = [folder] if not folder.exists() else []
    while missing and missing[-1].parent != missing[-1] and not missing[-1].parent.exists():
        missing.append(missing[-1].parent)
    for one in reversed(missing):
        one.mkdir(exist_ok=True)
        made.append(one)
    if not missing:
        folder.mkdir(exist_ok=True)  # raises if it is not a folder


def new_file(path: Path, data: bytes, mode: int = 0o666, *, synced: bool = False) -> None:
    """Make a new file; FileExistsError if it exists, another OSError if it cannot be made.

    `synced`: the disk has it before it takes its name, as a text that exists nowhere else should be.
    """
    part = _part(path)
    try:
        _write(part, data, mode, synced=synced)
        try:
            os.link(part, path)
        except FileExistsError:
            raise
        except OSError:  # a file system without links: nearly as good
            if os.path.lexists(path):
                raise FileExistsError(errno.EEXIST, os.strerror(errno.EEXIST), str(path)) from None
            os.replace(part, path)
        _tidy([path.parent])
    finally:
        with contextlib.suppress(OSError):
            part.unlink()


def replace_file(path: Path, data: bytes, *, synced: bool = False) -> Blocked | None:
    """Replace a user's file in one step, keeping its permissions; returns the reason if it is not replaced.
    `synced` as for `new_file`.

    A read-only file is left alone, even if its folder would allow replacing it; so is one with several hard links,
    of which a new file would replace only one, and anything but a regular file.
    """
    part = _part(path)
    try:
        there = path.stat()
        if not stat.S_ISREG(there.st_mode):
            return Blocked(f"{path} is not a regular file and is never replaced")
        if not there.st_mode & 0o222 or not os.access(path, os.W_OK):
            return Blocked(f"{path}: permission denied")
        if there.st_nlink > 1:
            return Blocked(f"{path} has {there.st_nlink} hard links, which replacing it would separate")
        _write(part, data, there.st_mode & 0o7777, synced=synced)
        part.chmod(there.st_mode & 0o7777)
        os.replace(part, path)
        _tidy([path.parent])
    except OSError as error:
        return blocked(error, str(path))
    finally:
        with contextlib.suppress(OSError):
            part.unlink()
    return None


def _part(path: Path) -> Path:
    return path.with_name(f".{path.name[:50]}.{_here()}-{os.getpid()}-{os.urandom(6).hex()}.part")


def _tidy(folders: Iterable[Path]) -> None:
    """Remove unfinished files that killed runs left in these folders."""
    for folder in dict.fromkeys(folders):
        with contextlib.suppress(OSError), os.scandir(folder) as found:
            for left in found:
                named = _PART.fullmatch(left.name) if left.name.endswith(".part") else None
                if named is not None and _left_behind(named, left):
                    os.unlink(left.path)


def _left_behind(named: re.Match[str], part: os.DirEntry[str]) -> bool:
    """Whether its writer is gone."""
    # On Windows, signalling a process ends it.
    if os.name == "posix" and named[1] == _here():
        try:
            os.kill(int(named[2]), 0)
        except (ProcessLookupError, OverflowError):
            return True
        except OSError:
            pass
    return time.time() - part.stat(follow_symlinks=False).st_mtime > _STALE_S


@cache
def _here() -> str:
    """The scope in which process numbers are unique: this machine, or this container."""
    space = ""
    with contextlib.suppress(OSError):
        space = os.readlink("/proc/self/ns/pid")
    return hashlib.sha256(f"{platform.node()} {space}".encode()).hexdigest()[:8]


def _write(path: Path, data: bytes, mode: int, *, synced: bool = False) -> None:
    with open(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, mode), "wb") as file:
        file.write(data)
        if synced:
            file.flush()
            os.fsync(file.fileno())


def _holds(path: Path, data: bytes) -> bool:
    return path.is_file() and path.stat().st_size == len(data) and path.read_bytes() == data


def _twice(paths: Sequence[Path]) -> str | None:
    seen: dict[str, Path] = {}
    for path in paths:
        first = seen.setdefault(folded(str(path)), path)
        if first is not path:
            return f"{first}: two outputs would have this name; rename the gesture"
    return None


def _identity(path: Path) -> tuple[int, int] | None:
    """A file's identity, whatever its names; None if there is no file."""
    try:
        there = path.stat()
    except (OSError, ValueError):
        return None
    return there.st_dev, there.st_ino


def objection(path: Path, *, inputs: Sequence[Path], force: bool = False) -> str | None:
    """Why a file may not or cannot be written there, found without writing anything; None if it may."""
    if not path.name or path.name in (".", ".."):
        return f"{path} is a folder"
    above = next((folder for folder in path.parents if os.path.lexists(folder)), None)
    try:
        if above is not None and not above.is_dir():
            return f"{path}: {above} is a file, not a folder"
        if above is not None and not os.access(above, os.W_OK | os.X_OK):
            return f"{path}: permission denied"
    except (OSError, ValueError) as error:
        return f"{path}: {error}"
    return _objection(path, {key for given in inputs if (key := _identity(given))}, force=force)


def _objection(path: Path, inputs: Set[tuple[int, int]], *, force: bool) -> str | None:
    """Why `path` may not be written, or None; `inputs` are known by their identity."""
    try:
        if path.is_dir():
            return f"{path} is a folder"
        if not path.exists():
            # A broken link was put there on purpose, to a disk not mounted now or a file yet to come.
            away = path.is_symlink() and not force
            return f"{path} is a broken link; remove it, or choose another folder with -o" if away else None
        if _identity(path) in inputs:
            return f"{path} is one of the input files; choose another folder with -o"
        if not path.is_file():
            # A device or pipe belongs to everyone on this machine.
            return f"{path} is not a regular file and is never replaced; choose another name or folder"
        if force:
            return None
        # Our files are never this large, and a larger one might not fit into memory.
        data = path.read_bytes() if path.stat().st_size <= _MAX_BYTES else b"?"
    except OSError as error:
        return blocked(error, str(path)).reason
    if not data or is_ours(data):
        return None
    whose = "was edited since Gesturesmith made it" if bears_mark(data) else "was not made by Gesturesmith"
    return f"{path} already exists and {whose}; {_WAYS_OUT}"
