"""Kinds of page, one file each. A book is the LilyPond text of one output; `document` joins books for one run.

Whoever makes a kind of page imports its module, and no other: they cost time. Its page settings are found in the
templates.
"""

from __future__ import annotations

from functools import cache

from gesturesmith import paths
from gesturesmith.lytext import LyText, code, joined

_COMMON = ("gesturesmith.ily", "sheet.ily", "page.ily")  # the other page settings build on these


def document(books: tuple[LyText, ...]) -> LyText:
    """One LilyPond document with all the books, in order."""
    return joined((_preamble(), *books))


@cache
def _preamble() -> LyText:
    others = sorted({path.name for path in paths.templates().glob("*.ily")}.difference(_COMMON))
    includes = "".join(f'\\include "{name}"\n' for name in (*_COMMON, *others))
    return code(f'\\version "2.24.0"\n{includes}\\language "english"\n')
