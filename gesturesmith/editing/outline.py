"""The blocks of a file, which one a cursor is in, and what can be folded; mistakes make no difference."""

from __future__ import annotations

from collections.abc import Iterator

from gesturesmith.editing.place import headings, lines_of, window
from gesturesmith.kinds import BlockKind, one_of
from gesturesmith.lang.layout import SourceLine
from gesturesmith.lang.tokens import PLAIN, tokenize, unquoted
from gesturesmith.lang.words import BLOCKS
from gesturesmith.source import Source, Span
from gesturesmith.values import frozen


@frozen(kw_only=True)
class Outlined:
    """A block of a file.

    name        as it is written, "" if none is there yet
    title       "" if there is none
    span        the heading
    name_span   the name in it, the first word without one
    last_line   the last line with anything of the block
    """

    kind: BlockKind
    name: str
    title: str
    span: Span
    name_span: Span
    last_line: int


@frozen
class Fold:
    """Lines that can be folded into the first of them; `comment` for a run of comments."""

    first_line: int
    last_line: int
    comment: bool = False


def outline(source: Source) -> tuple[Outlined, ...]:
    """Every block with its heading at the margin, in file order."""
    lines = lines_of(source)
    return tuple(_outlined(lines, row) for row in headings(lines))


def block_at(source: Source, line: int) -> Outlined | None:
    """The block in which a line is, with the blank lines after it; None among settings and outside the file."""
    lines = lines_of(source)
    if not 1 <= line <= len(lines):
        return None
    start = window(lines, line)
    found = next(headings((lines[start - 1],)), None)
    if found is None or any(_at_margin(raw) for raw in lines[start:line]):
        return None
    found.content = found.content._replace(number=start)
    return _outlined(lines, found)


def folds(source: Source) -> tuple[Fold, ...]:
    """Blocks, values that continue on further lines, and runs of comments."""
    lines = lines_of(source)
    found = [Fold(b.span.line, b.last_line) for b in outline(source) if b.last_line > b.span.line]
    found += _runs(lines)
    return tuple(sorted(found, key=lambda one: (one.first_line, -one.last_line)))


def _at_margin(raw: str) -> bool:
    """Whether a line ends a block: it begins at the margin and is no comment."""
    return raw[:1] not in ("", " ", "\t", "#", "\u00a0")


def _outlined(lines: tuple[str, ...], row: SourceLine) -> Outlined:
    number = row.content.number
    last = number
    for at, raw in enumerate(lines[number:], number + 1):
        if _at_margin(raw):
            break
        last = at if raw[:1] != "#" and raw.strip() else last
    tokens = tokenize(row.content, row.value, PLAIN)[0]
    named = tokens[0] if tokens and tokens[0].kind in ("word", "note") else None
    title = next((tok for tok in tokens if tok.kind == "text"), None)
    first = Span(number, row.start + 1, row.start + len(row.key) + 1)
    return Outlined(
        kind=one_of(BLOCKS, row.key),
        name=named.text if named is not None else "",
        title=unquoted(title.text) if title is not None else "",
        span=first.to(tokens[-1].span) if tokens else first,
        name_span=named.span if named is not None else first,
        last_line=last,
    )


def _runs(lines: tuple[str, ...]) -> Iterator[Fold]:
    """Runs of comments, and of lines indented deeper than the indented one before them."""
    start = 0
    while start < len(lines):
        end = start + 1
        raw = lines[start]
        body = raw.lstrip(" \t")
        comment = body[:1] == "#"
        indent = len(raw) - len(body)
        while end < len(lines) and (
            lines[end].lstrip(" \t")[:1] == "#"
            if comment
            else indent and body and lines[end].strip() and _deeper(lines[end], indent)
        ):
            end += 1
        if end > start + 1:
            yield Fold(start + 1, end, comment)
        start = end


def _deeper(raw: str, indent: int) -> bool:
    return len(raw) - len(raw.lstrip(" \t")) > indent
