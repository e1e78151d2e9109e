"""The beginning of every document: the templates. LilyPond reads it before its document comes."""

from __future__ import annotations

from functools import cache

from gesturesmith import paths
from gesturesmith.lytext import LyText, code

_COMMON = ("gesturesmith.ily", "sheet.ily", "page.ily")  # the other page settings build on these


@cache
def head() -> LyText:
    """The templates, and the language of note names."""
    others = sorted({path.name for path in paths.templates().glob("*.ily")}.difference(_COMMON))
    includes = "".join(f'\\include "{name}"\n' for name in (*_COMMON, *others))
    return code(f'\\version "2.24.0"\n{includes}\\language "english"\n')


def has_head(document: str) -> bool:
    """Whether a document begins with the head, so that one who has read it need not read it again."""
    return document.startswith(head())


def headless(document: str) -> str:
    """A document without its head; every line keeps its number, and messages their place."""
    version, _, rest = head().partition("\n")
    return f"{version}\n" + "\n" * rest.count("\n") + document.removeprefix(head())
