"""The only way from a user's text to LilyPond text.

LilyPond reads Scheme and its own commands anywhere but in a quoted string. So a user's text only ever stands
in quotes, and what is not plain printable text is left out. `LyText` marks text that has been through here or
was written by us: the builders of documents take nothing else.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from typing import NewType

LyText = NewType("LyText", str)

# Control, format (bidirectional marks among them), surrogate and unassigned characters, and the separators
# that end a line: none of them is printed, some of them turn the text around them.
_LEFT_OUT = frozenset(("Cc", "Cf", "Cs", "Cn", "Co", "Zl", "Zp"))
_SPACES = frozenset("\t\n\v\f\r\x85\u2028\u2029")


def printable(text: str) -> str:
    """The printable characters of a text; what ends a line becomes one space."""
    if text.isprintable():  # nearly all are, and it is told fifty times as fast
        return text
    spaced = "".join(" " if c in _SPACES else c for c in text)
    return "".join(c for c in spaced if unicodedata.category(c) not in _LEFT_OUT)


def quoted(text: str) -> LyText:
    """A LilyPond string in quotes that holds exactly the printable text."""
    inner = printable(text).replace("\\", "\\\\").replace('"', '\\"')
    return LyText(f'"{inner}"')


def code(text: str) -> LyText:
    """LilyPond text of our own: never give it anything of a user's."""
    return LyText(text)


def variable(name: str, prefix: str = "gesture") -> LyText:
    """The quoted name of a music variable: digits, hyphens and words of LilyPond's own are safe in it."""
    return quoted(f"{prefix}-{name}")


def comment(text: str) -> LyText:
    """A line that LilyPond passes over. It ends where the line ends, which the text cannot do."""
    return LyText(f"% {printable(text)}")


def joined(parts: Iterable[LyText], between: str = "\n") -> LyText:
    """Parts one after the other."""
    return LyText(between.join(parts))
