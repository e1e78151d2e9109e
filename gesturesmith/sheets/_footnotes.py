"""Where the page breaker reserves room for footnotes.

The stencils number footnotes page by page and print each text once on a page (`\\gsPageMark`). LilyPond must know
how much room that takes, mark by mark, before it chooses pages. Reserved at every mark, the room of a text that
many gestures share would be reserved many times over; reserved at the first mark only, it would be missing on later
pages. So it is reserved at marks some distance apart, and what a page that begins between them may lack is reserved
once on each page.
"""

from __future__ import annotations

from math import ceil

from gesturesmith.model.piece import Settings
from gesturesmith.score.music import Music
from gesturesmith.values import frozen

_WINDOW = 12  # roughly the most excerpts on one page
_GAPS = (1, 3, 6, _WINDOW)  # distances, in excerpts, after which a text may be counted again
_MARGINS_MM = 40  # left and right of a note's text, with its number
_CHARACTER = 0.22  # width of a small character, in staff heights

# The texts marked in each row.
type Marks = tuple[tuple[str, ...], ...]


@frozen(kw_only=True)
class Room:
    """`counted`: (number of the music, text) whose mark reserves the text's room; `common`: reserved on each
    page."""

    counted: frozenset[tuple[int, str]]
    common: tuple[str, ...]


def room(musics: tuple[Music, ...], settings: Settings) -> Room:
    """Where to reserve room, by the cheapest of the gaps; no page ever lacks any."""
    marks = tuple(tuple(f.text for f in music.footnotes) for music in musics)
    pages = ceil(len(marks) / (_WINDOW / 2))

    def cost(kept: Room) -> int:
        counted = sum(_lines(text, settings) for _, text in kept.counted)
        return counted + pages * sum(_lines(text, settings) for text in kept.common)

    return min((_kept(marks, gap, settings) for gap in _GAPS), key=cost)


def _kept(marks: Marks, gap: int, settings: Settings) -> Room:
    counted: set[tuple[int, str]] = set()
    last: dict[str, int] = {}
    for row, texts in enumerate(marks):
        for text in texts:
            if text not in last or row - last[text] >= gap:
                counted.add((row, text))
                last[text] = row
    lacking = [_lacking(marks, counted, start) for start in range(len(marks))]
    worst = max(lacking, key=lambda texts: sum(_lines(t, settings) for t in texts), default=())
    return Room(counted=frozenset(counted), common=worst)


def _lacking(marks: Marks, counted: set[tuple[int, str]], start: int) -> tuple[str, ...]:
    """The texts for which a page that begins at a row has no room: their first mark on it is not counted."""
    first: dict[str, int] = {}
    for row in range(start, min(len(marks), start + _WINDOW)):
        for text in marks[row]:
            first.setdefault(text, row)
    return tuple(text for text, row in first.items() if (row, text) not in counted)


def _lines(text: str, settings: Settings) -> int:
    """Roughly how many lines a footnote takes."""
    width = float(settings.paper_mm[0]) - _MARGINS_MM
    return ceil(len(text) * _CHARACTER * float(settings.staff_mm) / max(width, 1.0))
