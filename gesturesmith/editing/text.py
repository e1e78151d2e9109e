"""Changes of a text: what replaces what, and the ways out of a finding or a mistake as such changes."""

from __future__ import annotations

from collections.abc import Iterable

from gesturesmith.diagnostics.types import Edit, ReadError
from gesturesmith.lang import parse
from gesturesmith.source import Source, Span
from gesturesmith.values import frozen


@frozen
class TextChange:
    """`text` in place of a span, which may be empty; a line break in it begins a new line."""

    span: Span
    text: str


def changes(lines: tuple[str, ...], edits: Iterable[Edit]) -> tuple[TextChange, ...] | None:
    """Edits of lines as changes of the text, in file order; None if the lines are not those that they were made
    for."""
    found = []
    for edit in edits:
        if not 1 <= edit.line <= len(lines):
            return None
        raw = lines[edit.line - 1]
        if edit.old == "":
            found.append(TextChange(Span(edit.line, len(raw) + 1, len(raw) + 1), f"\n{edit.new}"))
            continue
        at = raw.find(edit.old)
        if at < 0:
            return None
        # Only what differs, so that a cursor elsewhere in the line stays where it is.
        old, new, end = edit.old, edit.new, at + len(edit.old)
        same = _same(old, new)
        back = _same(old[same:][::-1], new[same:][::-1])
        found.append(TextChange(Span(edit.line, at + same + 1, end - back + 1), new[same : len(new) - back]))
    return tuple(sorted(found, key=lambda one: (one.span.line, one.span.column)))


def applied(lines: tuple[str, ...], made: Iterable[TextChange]) -> str:
    """The text with changes made that do not overlap."""
    rows = list(lines)
    for one in sorted(made, key=lambda c: (c.span.line, c.span.column), reverse=True):
        row = rows[one.span.line - 1]
        rows[one.span.line - 1] = row[: one.span.column - 1] + one.text + row[one.span.end_column - 1 :]
    return "\n".join(rows)


def corrections(source: Source, error: ReadError) -> tuple[TextChange, ...]:
    """What the language offers instead of a word it cannot read: each alone makes this mistake disappear and no
    other appear."""
    lines = source.lines
    before = {_known(e) for e in parse(source)[1]}
    found = []
    for near in error.nearest:
        change = TextChange(error.span, near)
        after = parse(Source(source.name, applied(lines, (change,))))[1]
        named = {_known(e) for e in after}
        if _known(error) in before and _known(error) in named:
            continue
        if named - before:
            continue
        found.append(change)
    return tuple(found)


def _known(error: ReadError) -> tuple[str, int, str]:
    return error.code, error.span.line, error.message


def _same(one: str, other: str) -> int:
    """How many characters two texts begin with together."""
    return next((n for n, (a, b) in enumerate(zip(one, other, strict=False)) if a != b), min(len(one), len(other)))
