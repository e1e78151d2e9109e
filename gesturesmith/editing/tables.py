"""The words of the language by what they are, for whatever colours a text without reading it as we do."""

from __future__ import annotations

from functools import cache

from gesturesmith import instruments, rules, techniques
from gesturesmith.lang import meanings
from gesturesmith.lang.keys import IN_BLOCK, SETTINGS
from gesturesmith.lang.words import BLOCKS, LINES
from gesturesmith.values import frozen


@frozen(kw_only=True)
class WordTables:
    """The words of the language, each row in no order that matters; a word may be in several.

    keys     of settings and of every block
    words    those that join others: `as`, `for`, `up`; and the units
    marks    what stands after a point, levels apart
    values   the fixed words of values
    lines    signs that join points, the longest first
    """

    blocks: tuple[str, ...]
    keys: tuple[str, ...]
    words: tuple[str, ...]
    techniques: tuple[str, ...]
    instruments: tuple[str, ...]
    rules: tuple[str, ...]
    heights: tuple[str, ...]
    marks: tuple[str, ...]
    levels: tuple[str, ...]
    values: tuple[str, ...]
    lines: tuple[str, ...]


@cache
def tables() -> WordTables:
    """All of them."""
    everything = [key for row in (SETTINGS, *IN_BLOCK.values()) for key in row.items()]
    forms = {word for form in (*meanings.POINTS, *meanings.ENTRIES) for word in form.words}
    heights = {**meanings.HEIGHTS, **meanings.REGISTERS, "r": ""}
    marks = {**meanings.MARKS, **meanings.COVERS, **meanings.GRACE, **meanings.STROKES, **meanings.GROWTH}
    words = forms | {*meanings.DIRECTIONS, *meanings.PLAYERS, *meanings.LENGTHS, "beat", "bar", "rest", "mm", "by"}
    values = {word for _, key in everything for one in key.words for word in one.split() if word.isalnum()}
    other = {*heights, *marks, *meanings.LEVELS}
    return WordTables(
        blocks=BLOCKS,
        keys=tuple(sorted({name for name, _ in everything})),
        words=tuple(sorted(words - other)),
        techniques=techniques.names(),
        instruments=instruments.names(),
        rules=rules.names(),
        heights=tuple(heights),
        marks=tuple(marks),
        levels=tuple(meanings.LEVELS),
        values=tuple(sorted(values - other - words)),
        lines=tuple(sorted((line for line in LINES if line != ","), key=len, reverse=True)),
    )
