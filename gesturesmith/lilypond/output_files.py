"""Collects the files LilyPond leaves in its working folder, without trusting it.

Names, links, depth and number of files may be the work of hostile code. Nothing is opened by a path through the
folder: each step goes from an open folder to a name in it, and follows no link.
"""

from __future__ import annotations

import contextlib
import os
import shutil
import stat
from pathlib import Path

from gesturesmith.lilypond.sandbox import FOLDER_BYTES, MAX_ENTRIES

_DEEP = 16  # nested folders; LilyPond makes none
_STEPS = hasattr(os, "O_DIRECTORY") and os.scandir in os.supports_fd and os.open in os.supports_dir_fd
_FOLDER = os.O_RDONLY | getattr(os, "O_DIRECTORY", 0) | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_CLOEXEC", 0)
_FILE = os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)


def floods(folder: Path) -> bool:
    """Whether there is far more than any music needs: in bytes, files or nested folders.

    An unreadable folder counts as too much: LilyPond makes none, and its content is unknown.
    """
    left, entries = FOLDER_BYTES, 0
    below = [(folder, 0)]
    while below:
        place, depth = below.pop()
        if depth > _DEEP:
            return True
        try:
            with os.scandir(place) as found:
                for entry in found:
                    entries += 1
                    with contextlib.suppress(FileNotFoundError):
                        left -= entry.stat(follow_symlinks=False).st_size
                    if entries > MAX_ENTRIES or left < 0:
                        return True
                    if entry.is_dir(follow_symlinks=False):
                        below.append((Path(entry.path), depth + 1))
        except PermissionError:
            return True
        except OSError:
            continue
    return False


def collect(folder: Path, endings: tuple[str, ...]) -> dict[str, bytes]:
    """The regular files of a folder with these endings, by name, in order; none if it is no longer a folder.

    A link, even one in place of the folder, could make us read what LilyPond itself may not.
    """
    if not _STEPS:
        there = folder.iterdir() if folder.is_dir() and not folder.is_symlink() else ()
        plain = (p for p in sorted(there) if p.suffix in endings and stat.S_ISREG(p.lstat().st_mode))
        return {path.name: path.read_bytes() for path in plain}
    files: dict[str, bytes] = {}
    with contextlib.suppress(OSError):
        handle = os.open(folder, _FOLDER)
        try:
            for name in sorted(n for n in os.listdir(handle) if os.path.splitext(n)[1] in endings):
                with contextlib.suppress(OSError), open(os.open(name, _FILE, dir_fd=handle), "rb") as file:
                    if stat.S_ISREG(os.fstat(file.fileno()).st_mode):
                        files[name] = file.read()
        finally:
            os.close(handle)
    return files


def remove(root: Path) -> None:
    """Remove a folder with all its contents, however deep; does nothing if it is already gone.

    Deep folders are moved up first: a path of thousands of names is too long, and so many folders cannot be open at
    once.
    """
    if not _STEPS:
        shutil.rmtree(root, ignore_errors=True)
        return
    with contextlib.suppress(OSError):
        top = _opened(root)
        try:
            waiting = _emptied(top, top)
            while waiting:
                waiting += _taken(top, waiting.pop())
        finally:
            os.close(top)
        os.rmdir(root)


def _taken(top: int, name: str) -> list[str]:
    """Remove a folder in `top`; returns the names in `top` of the folders that were in it."""
    moved: list[str] = []
    with contextlib.suppress(OSError):
        inner = _opened(name, top)
        try:
            moved = _emptied(inner, top)
        finally:
            os.close(inner)
        os.rmdir(name, dir_fd=top)
    return moved


def _opened(place: Path | str, folder: int | None = None) -> int:
    """Open a folder (in an open one), whatever its permissions: it is ours."""
    try:
        handle = os.open(place, _FOLDER, dir_fd=folder)
    except PermissionError:
        os.chmod(place, 0o700, dir_fd=folder)
        handle = os.open(place, _FOLDER, dir_fd=folder)
    with contextlib.suppress(OSError):
        os.fchmod(handle, 0o700)
    return handle


def _emptied(folder: int, top: int) -> list[str]:
    """Remove the files of an open folder and move its folders into `top`; returns their names there."""
    with os.scandir(folder) as found:
        entries = [(entry.name, entry.is_dir(follow_symlinks=False)) for entry in found]
    moved = []
    for name, holds in entries:
        with contextlib.suppress(OSError):
            if holds:
                moved.append(os.urandom(12).hex())
                if folder != top:  # a folder must be writable to be moved elsewhere
                    os.close(_opened(name, folder))
                os.rename(name, moved[-1], src_dir_fd=folder, dst_dir_fd=top)
            else:
                os.unlink(name, dir_fd=folder)
    return moved
