"""Kinds of page, one file each. A book is the LilyPond text of one output; `document` joins books for one run.

A kind of page is imported only when needed, so that the others cost nothing.
"""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING, Any

from gesturesmith.lytext import LyText, code, joined

if TYPE_CHECKING:
    from gesturesmith.sheets import charts, exercises, ily, notes, page, score, snippet

__all__ = ["charts", "document", "exercises", "ily", "notes", "page", "score", "snippet"]

_HEAD = code(
    '\\version "2.24.0"\n'
    '\\include "gesturesmith.ily"\n'
    '\\include "sheet.ily"\n'
    '\\include "page.ily"\n'
    '\\include "snippet.ily"\n'
    '\\include "notes.ily"\n'
    '\\include "exercises.ily"\n'
    '\\include "chart.ily"\n'
    '\\include "score.ily"\n'
    '\\language "english"\n'
)


def document(books: tuple[LyText, ...]) -> LyText:
    """One LilyPond document with all the books, in order."""
    return joined((_HEAD, *books))


def __getattr__(name: str) -> Any:
    if name not in __all__:
        raise AttributeError(name)
    return importlib.import_module(f"{__name__}.{name}")
