"""Applies edits to lines, and shows the result as it would appear in the file."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from gesturesmith.diagnostics.types import Edit


def apply_edits(lines: Sequence[str], edits: Iterable[Edit], first_line: int = 1) -> tuple[str, ...]:
    """The lines with the edits applied; `first_line` is the number of the first line."""
    return tuple(text for row in edited_rows(lines, edits, first_line) for text in row)


def edited_rows(lines: Sequence[str], edits: Iterable[Edit], first_line: int = 1) -> tuple[tuple[str, ...], ...]:
    """For each line, its new text and the lines added after it."""
    rows = [[line] for line in lines]
    for edit in edits:
        row = rows[edit.line - first_line]
        if edit.old == "":
            row.append(edit.new)
        else:
            row[0] = row[0].replace(edit.old, edit.new, 1)
    return tuple(tuple(row) for row in rows)
