"""Places in a user's text."""

from __future__ import annotations

from unicodedata import normalize

from gesturesmith.values import frozen


def folded(name: str) -> str:
    """What is the same for names that count as one: in capitals or small, with accents as one sign or as two."""
    return name if name.isascii() and name.islower() else normalize("NFC", normalize("NFC", name).casefold())


def clean(text: str) -> str:
    """`text` without what could steer a terminal or cannot be printed: file names may hold anything."""
    return "".join(c if c.isprintable() or c == "\n" else "\ufffd" for c in text)


@frozen
class Span:
    """A stretch of one line: line and columns count from 1 in code points; `end_column` is exclusive.

    >>> gesturesmith.check(text).gestures[0].span
    Span(line=4, column=1, end_column=13)
    """

    line: int
    column: int
    end_column: int

    def to(self, other: Span) -> Span:
        """From the start of this span to the end of `other`, or to this span's own end on another line."""
        if other.line != self.line:
            return self
        return Span(self.line, self.column, max(self.end_column, other.end_column))


@frozen
class Source:
    """A text with the name its messages show; `lines` are without their ends.

    >>> gesturesmith.check(gesturesmith.Source("call.gesture", text)).source.name
    'call.gesture'
    """

    name: str
    text: str

    @property
    def lines(self) -> tuple[str, ...]:
        text = self.text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
        return tuple(text.split("\n"))
