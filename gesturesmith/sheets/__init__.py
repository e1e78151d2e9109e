"""Kinds of page, one file each. A book is the LilyPond text of one output; `document` joins books for one run.

Whoever makes a kind of page imports its module, and no other: they cost time. Its page settings are found in the
templates.
"""

from __future__ import annotations

from gesturesmith.lilypond.head import head
from gesturesmith.lytext import LyText, joined


def document(books: tuple[LyText, ...]) -> LyText:
    """One LilyPond document with all the books, in order."""
    return joined((head(), *books))
