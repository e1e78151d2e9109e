"""The only way from a user's text to LilyPond text.

LilyPond reads Scheme and its own commands anywhere except in a quoted string. So a user's text is always quoted,
and everything that is not plain printable text is removed. `LyText` marks text that has been through here or was
written by us: the functions that build documents accept nothing else.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from typing import NewType

LyText = NewType("LyText", str)

# Control, format (including bidirectional marks), surrogate and unassigned characters, and line separators: none of
# them is printed, and some reverse the text around them.
_LEFT_OUT = frozenset(("Cc", "Cf", "Cs", "Cn", "Co", "Zl", "Zp"))
_SPACES = frozenset("\t\n\v\f\r\x85\u2028\u2029")


def printable(text: str) -> str:
    """The printable characters of a text; a line ending becomes one space."""
    if text.isprintable():  # nearly all are, and this test is fifty times as fast
        return text
    spaced = "".join(" " if c in _SPACES else c for c in text)
    return "".join(c for c in spaced if unicodedata.category(c) not in _LEFT_OUT)


def quoted(text: str) -> LyText:
    """A quoted LilyPond string of exactly the printable text."""
    inner = printable(text).replace("\\", "\\\\").replace('"', '\\"')
    return LyText(f'"{inner}"')


def code(text: str) -> LyText:
    """Our own LilyPond text: never pass it anything from a user."""
    return LyText(text)


def variable(name: str, prefix: str = "gesture") -> LyText:
    """The quoted name of a music variable: digits, hyphens and LilyPond's own words are safe in it."""
    return quoted(f"{prefix}-{name}")


def comment(text: str) -> LyText:
    """A comment. It ends at the end of its line, and the text cannot contain one."""
    return LyText(f"% {printable(text)}")


def joined(parts: Iterable[LyText], between: str = "\n") -> LyText:
    """Concatenated parts."""
    return LyText(between.join(parts))
