"""Places in a user's text."""

from __future__ import annotations

from unicodedata import combining, normalize

from gesturesmith.values import frozen


def folded(name: str) -> str:
    """A form equal for names that count as the same: whatever their case, with accents composed or decomposed."""
    return name if name.isascii() and name.islower() else normalize("NFC", normalize("NFC", name).casefold())


def as_said(text: str) -> str:
    """A form for comparing typed words: lower case, without accents, signs or a plural s."""
    letters = "".join(c for c in normalize("NFKD", text.casefold()) if not combining(c))
    return " ".join("".join(c if c.isalnum() else " " for c in letters).split()).rstrip("s")


def clean(text: str) -> str:
    """`text` without unprintable characters or any that control a terminal: file names may contain anything."""
    return "".join(c if c.isprintable() or c == "\n" else "\ufffd" for c in text)


@frozen
class Span:
    """Part of a line: line and columns count from 1 in code points; `end_column` is exclusive.

    >>> gesturesmith.check(text).gestures[0].span
    Span(line=4, column=1, end_column=13)
    """

    line: int
    column: int
    end_column: int

    def to(self, other: Span) -> Span:
        """From the start of this span to the end of `other`, or to its own end if `other` is on another line."""
        if other.line != self.line:
            return self
        return Span(self.line, self.column, max(self.end_column, other.end_column))


@frozen
class Source:
    """A text with the name shown in messages; `lines` are without line endings.

    >>> gesturesmith.check(gesturesmith.Source("call.gesture", text)).source.name
    'call.gesture'
    """

    name: str
    text: str

    @property
    def lines(self) -> tuple[str, ...]:
        text = self.text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
        return tuple(text.split("\n"))
