"""Places: the shipped templates, inside an installed package or beside it in the repository; the user's cache."""

from __future__ import annotations

import os
from functools import cache
from pathlib import Path


@cache
def templates() -> Path:
    """The folder of page settings, stencils and starter files."""
    here = Path(__file__).resolve().parent
    for folder in (here / "templates", here.parent / "templates"):
        if folder.is_dir():
            return folder
    raise FileNotFoundError(f"the templates of gesturesmith are missing beside {here}: install it again")


def lies_within(path: Path, folder: Path) -> bool:
    """Whether a file lies in a folder or below, links followed: a file from a stranger must not read the rest."""
    try:
        return path.resolve().is_relative_to(folder.resolve())
    except (OSError, ValueError, RuntimeError):  # a zero character, or links in a circle
        return True  # opening it says what is wrong


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
