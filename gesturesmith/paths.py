"""Paths: the shipped templates, inside an installed package or beside it in the repository; the user's cache and
state; temporary folders."""

from __future__ import annotations

import errno
import os
import re
import stat
from functools import cache
from pathlib import Path


@cache
def templates() -> Path:
    """The folder of page settings, stencils and starter files."""
    here = Path(__file__).resolve().parent
    for folder in (here / "templates", here.parent / "templates"):
        if folder.is_dir():
            return folder
    raise FileNotFoundError(f"Gesturesmith's templates are missing beside {here}: reinstall it")


def lies_within(path: Path, folder: Path) -> bool:
    """Whether a file is in or below a folder, with links resolved: a stranger's file must not give access to
    others."""
    try:
        return path.resolve().is_relative_to(folder.resolve())
    except (OSError, ValueError, RuntimeError):  # a null character, or circular links
        return True  # opening it will give the reason


# In folder names other characters cause problems: `%` in Abjad's settings, and letters beyond ASCII in LilyPonds
# that pass names to Ghostscript.
_PLAIN = re.compile(r"[\w ./:~-]+" if os.name == "posix" else r"[\w ./:~\\-]+", re.ASCII)
_OTHERS = ("/tmp", "/var/tmp", "/usr/tmp")  # the places that Python also tries


def temporary() -> str:
    """The parent of temporary folders: the machine's, or another if its path has problematic characters."""
    import tempfile  # check does not need it

    own = tempfile.gettempdir()
    places = (own, *(place for place in _OTHERS if os.access(place, os.W_OK | os.X_OK)))
    return next((place for place in places if _PLAIN.fullmatch(place)), own)


def shared(folder: Path) -> bool:
    """Whether other users can write into a folder; False if it does not exist yet.

    OSError if that cannot be determined, or it is not a folder.
    """
    try:
        there = folder.stat()
    except FileNotFoundError:
        return False
    if not stat.S_ISDIR(there.st_mode):
        raise NotADirectoryError(errno.ENOTDIR, os.strerror(errno.ENOTDIR), str(folder))
    return os.name == "posix" and bool(there.st_uid != os.geteuid() or there.st_mode & 0o022)


def user_cache() -> Path | None:
    """The user's cache folder; None if there is no home.

    `GESTURESMITH_CACHE`, else as in the XDG base directory specification. It may not exist yet.
    """
    return _own_folder("GESTURESMITH_CACHE", "XDG_CACHE_HOME", ".cache")


def user_state() -> Path | None:
    """The user's folder for what must outlive a program that ends in the middle of something; None if there is no
    home.

    `GESTURESMITH_STATE`, else as in the XDG base directory specification. It may not exist yet.
    """
    return _own_folder("GESTURESMITH_STATE", "XDG_STATE_HOME", ".local/state")


def _own_folder(own: str, xdg: str, below_home: str) -> Path | None:
    named, base = os.environ.get(own), os.environ.get(xdg, "")
    if named:
        return Path(named).absolute()
    if os.path.isabs(base):
        return Path(base, "gesturesmith")
    try:
        return Path.home() / below_home / "gesturesmith"
    except RuntimeError:
        return None


def schemas() -> Path:
    """The folder of the JSON Schemas of output for programs."""
    return Path(__file__).resolve().parent / "schemas"
