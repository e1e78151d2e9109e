"""Edits made on lines, and shown as they would stand in the file."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from gesturesmith.diagnostics.types import Edit


def apply_edits(lines: Sequence[str], edits: Iterable[Edit], first_line: int = 1) -> tuple[str, ...]:
    """The lines with the edits made; `first_line` is the number of the first of them."""
    return tuple(text for row in edited_rows(lines, edits, first_line) for text in row)


def edited_rows(lines: Sequence[str], edits: Iterable[Edit], first_line: int = 1) -> tuple[tuple[str, ...], ...]:
    """What becomes of each line: itself as it then stands, and the lines that are put in after it."""
    rows = [[line] for line in lines]
    for edit in edits:
        row = rows[edit.line - first_line]
        if edit.old == "":
            row.append(edit.new)
        else:
            row[0] = row[0].replace(edit.old, edit.new, 1)
    return tuple(tuple(row) for row in rows)
