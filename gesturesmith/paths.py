"""Places: the shipped templates, inside an installed package or beside it in the repository; the user's cache; and
temporary folders."""

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
    """Whether a file lies in a folder or below, links followed: a file from a stranger must not read the rest."""
    try:
        return path.resolve().is_relative_to(folder.resolve())
    except (OSError, ValueError, RuntimeError):  # a zero character, or links in a circle
        return True  # opening it says what is wrong


# In the name of a folder other signs mean something else to those who work there: `%` to the reader of Abjad's
# settings, letters beyond ASCII to the LilyPonds that hand a name to Ghostscript.
_PLAIN = re.compile(r"[\w ./:~-]+" if os.name == "posix" else r"[\w ./:~\\-]+", re.ASCII)
_OTHERS = ("/tmp", "/var/tmp", "/usr/tmp")  # the places that Python looks at as well


def temporary() -> str:
    """Where temporary folders are made: the machine's place, or another where a name on its way is not plain."""
    import tempfile  # check does without it

    own = tempfile.gettempdir()
    places = (own, *(place for place in _OTHERS if os.access(place, os.W_OK | os.X_OK)))
    return next((place for place in places if _PLAIN.fullmatch(place)), own)


def shared(folder: Path) -> bool:
    """Whether others than the user can put something into a folder; False where it is not there yet.

    OSError where that cannot be told, or it is no folder.
    """
    try:
        there = folder.stat()
    except FileNotFoundError:
        return False
    if not stat.S_ISDIR(there.st_mode):
        raise NotADirectoryError(errno.ENOTDIR, os.strerror(errno.ENOTDIR), str(folder))
    return os.name == "posix" and bool(there.st_uid != os.geteuid() or there.st_mode & 0o022)


def user_cache() -> Path | None:
    """The user's own folder for what can be made again; None where the machine names no home.

    `GESTURESMITH_CACHE`, else the place the XDG base directory specification gives. It need not be there yet.
    """
    own = os.environ.get("GESTURESMITH_CACHE")
    if own:
        return Path(own).absolute()
    xdg = os.environ.get("XDG_CACHE_HOME", "")
    if os.path.isabs(xdg):
        return Path(xdg, "gesturesmith")
    try:
        return Path.home() / ".cache" / "gesturesmith"
    except RuntimeError:
        return None


def schemas() -> Path:
    """The folder of the JSON Schemas of what is printed for programs."""
    return Path(__file__).resolve().parent / "schemas"
