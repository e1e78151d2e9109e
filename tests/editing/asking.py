"""Texts with a cursor: `|` stands where it is."""

from __future__ import annotations

from gesturesmith.editing.complete import Completion, CompletionOffer, complete
from gesturesmith.editing.text import TextChange, applied
from gesturesmith.source import Source, Span

HEAD = 'instrument: horn\npitches: written\n\ngesture call "Fog call"\n  contour: C5\n\n'
# Where a line of each kind of block stands.
BEFORE = {
    "": "",
    "gesture": f"{HEAD}gesture here\n  ",
    "passage": f"{HEAD}passage here\n  ",
    "exercises": f"{HEAD}exercises here\n  ",
    "part": f"{HEAD}part here\n  ",
    "box": f"{HEAD}box here\n  ",
}


def cursor(text: str) -> tuple[Source, int, int]:
    """The text without its `|`, and the line and column of it."""
    before, _, after = text.partition("|")
    return Source("a.gesture", before + after), before.count("\n") + 1, len(before.split("\n")[-1]) + 1


def completed(text: str) -> Completion:
    return complete(*cursor(text))


def words(text: str) -> list[str]:
    return [offer.word for offer in completed(text).offers]


def taken(text: str, offer: CompletionOffer) -> str:
    """The text with an offer put in."""
    source, line, column = cursor(text)
    change = TextChange(Span(line, complete(source, line, column).start, column), offer.insert)
    return applied(source.lines, (change,))
