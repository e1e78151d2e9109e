"""Where the shipped templates lie: inside an installed package, else beside it in the repository."""

from __future__ import annotations

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
