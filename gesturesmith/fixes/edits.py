"""Changes of keys as edits of a gesture's own lines."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction

from gesturesmith.diagnostics import Edit
from gesturesmith.lang.nodes import Block, Contour, KeyEntry
from gesturesmith.lang.words import LEVELS
from gesturesmith.model.piece import Settings
from gesturesmith.units import Spelling

type Changes = tuple[tuple[str, str], ...]

_NOTE = re.compile(r"(?<![A-Za-z0-9])(x?)([A-G])(##|bb|[#b]?[v^]?)([0-9])(?![A-Za-z0-9])")
_ALTER = {
    "": 0, "#": 2, "b": -2, "##": 4, "bb": -4, "^": 1, "v": -1, "#^": 3, "#v": 1, "b^": -1, "bv": -3
}  # fmt: skip
# A part of a contour: the height of a point, the level at it, what is written after it, a line, a height of the
# sung line.
_PARTS = re.compile(r"(point|level|after|line|sung) ([0-9]+)\Z")


class EditWriter:
    """Writes changes into the lines of one file."""

    def __init__(self, settings: Settings, lines: Sequence[str]) -> None:
        self._settings = settings
        self.lines = lines

    def edits(self, block: Block, changes: Changes) -> tuple[Edit, ...] | None:
        """Changes of keys as edits of lines, or None where they change nothing or cannot be written.

        Keys are those of `Finding.try_values`, but for `move`; `sung 0` is a height of the sung line.
        """
        parts: dict[str, dict[tuple[str, int], str]] = {}
        rows: list[Edit] = []
        for key, value in changes:
            text = self._as_read(value)
            if match := _PARTS.match(key):
                where = "sing" if match[1] == "sung" else "contour"
                parts.setdefault(where, {})[match[1], int(match[2])] = text
            else:
                rows += self.of_key(block, key, text)
        for key, found in parts.items():
            contour = self._contour_edits(block, key, found)
            if contour is None:
                return None
            rows += contour
        return tuple(rows) or None

    def of_key(self, block: Block, key: str, text: str) -> Iterator[Edit]:
        """A key with a new value, in its own line or in one under the heading."""
        entry = block.get(key)
        if entry is None:
            yield Edit(block.span.line, "", f"{block.indent or '  '}{key}: {text}")
            return
        line = entry.key.span.line
        start, end = entry.key.span.column - 1, entry.span.end_column - 1
        old, new = self.lines[line - 1][start:end], f"{entry.key.text}: {text}"
        if old != new:
            yield Edit(line, old, new)
        for further in self.continued(block, entry):
            yield Edit(further, self.lines[further - 1].strip(), "")

    def _as_read(self, value: str) -> str:
        """A value with written pitches, turned to sounding ones where the file is read so."""
        if self._settings.pitches == "written" or '"' in value:
            return value
        return _NOTE.sub(lambda m: m[1] + self._settings.instrument.heard(_spelling(m)).name, value)

    def continued(self, block: Block, entry: KeyEntry) -> Iterator[int]:
        """The lines after its first on which a value goes on: deeper than its key."""
        depth = entry.key.span.column - 1
        for number in range(entry.key.span.line + 1, block.last_line + 1):
            line = self.lines[number - 1]
            if not line.strip():
                continue
            if len(line) - len(line.lstrip()) <= depth:
                return
            yield number

    def _contour_edits(self, block: Block, key: str, parts: dict[tuple[str, int], str]) -> tuple[Edit, ...] | None:
        entry = block.get(key)
        if entry is None or not isinstance(entry.value, Contour):
            return None
        by_line: dict[int, list[tuple[int, int, str]]] = {}
        for (kind, index), text in parts.items():
            row = entry.value.lines if kind == "line" else entry.value.points
            if index >= len(row):
                return None
            span = row[index].span if kind in ("line", "after") else entry.value.points[index].height.span
            if kind == "level":
                span = next(m.span for m in entry.value.points[index].marks if m.text in LEVELS)
            start, end = (span.end_column if kind == "after" else span.column) - 1, span.end_column - 1
            if kind == "line":
                start, end, text = _spaced(self.lines[span.line - 1], start, end, text.strip())
            by_line.setdefault(span.line, []).append((start, end, text))
        return self.replaced(entry, by_line) or None

    def replaced(self, entry: KeyEntry, by_line: dict[int, list[tuple[int, int, str]]]) -> tuple[Edit, ...]:
        """Parts of lines replaced: by line, from and to which place (counted from 0), and by what."""
        edits = []
        for number, changes in sorted(by_line.items()):
            line = self.lines[number - 1]
            new = line
            for start, end, text in sorted(changes, reverse=True):
                new = new[:start] + text + new[end:]
            if new != line:
                edits.append(_shortest(number, line, new, entry))
        return tuple(edits)


def _spaced(line: str, start: int, end: int, sign: str) -> tuple[int, int, str]:
    """A line between two points with its spaces: none before a comma, one around any other."""
    before, after = line[:start].rstrip(), line[end:].lstrip()
    left = "" if sign == "," or not before else " "
    return len(before) or start, len(line) - len(after), f"{left}{sign}{' ' if after else ''}"


def _shortest(number: int, line: str, new: str, entry: KeyEntry) -> Edit:
    """The change of a line as an edit of its value and key, without what stands around it."""
    start = len(line) - len(line.lstrip())
    end = entry.span.end_column - 1 if number == entry.key.span.line else len(line.rstrip())
    return Edit(number, line[start:end], new[start : len(new) - (len(line) - end)])


def _spelling(match: re.Match[str]) -> Spelling:
    return Spelling(match[2], Fraction(_ALTER[match[3]], 2), int(match[4]))
