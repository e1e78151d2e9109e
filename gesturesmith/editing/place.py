"""What is being written where the cursor is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Literal

from gesturesmith.kinds import BlockKind, one_of
from gesturesmith.lang import heading
from gesturesmith.lang.keys import IN_BLOCK, LINE, SETTINGS, Key, pattern
from gesturesmith.lang.layout import SourceLine, classify_lines
from gesturesmith.lang.tokens import FORBIDDEN, PLAIN, Token, tokenize
from gesturesmith.lang.words import BLOCKS
from gesturesmith.source import Source
from gesturesmith.values import frozen

_INITIALS = tuple({word[0] for word in BLOCKS})


@frozen(kw_only=True)
class Place:
    """A cursor in a text.

    where    "key" at the beginning of a line; "heading" after the word that begins a block; "value"; "nothing" in
             comments, in quoted texts and beside the text
    block    the kind of block the line belongs to; "" for settings
    margin   whether the line begins at the margin, where blocks begin
    key      the key of the value, or the word that begins the heading
    text     the line up to the cursor
    before   the tokens of the value up to the cursor, including the one that it touches
    opening  the lines of the value before this one
    bare     whether the key has no colon: "key clicks" may be no key at all
    """

    where: Literal["key", "heading", "value", "nothing"]
    line: int
    column: int
    block: BlockKind | Literal[""] = ""
    margin: bool = True
    key: str = ""
    text: str = ""
    before: tuple[Token, ...] = ()
    opening: tuple[str, ...] = ()
    bare: bool = False


def key_of(name: str, block: BlockKind | Literal[""], parts: frozenset[str] = frozenset()) -> Key | None:
    """The key called `name` in a block of this kind, "" for settings; in a passage, a part's line."""
    found = (IN_BLOCK[block] if block else SETTINGS).get(name)
    return LINE if found is None and block == "passage" and name.casefold() in parts else found


def lines_of(source: Source) -> tuple[str, ...]:
    """The lines, with a space for each character that no file may contain."""
    return tuple(FORBIDDEN.sub(" ", line) for line in source.lines)


def window(lines: tuple[str, ...], line: int) -> int:
    """The number of the line from which to read to understand `line`: a heading at the margin, else the first."""
    return next((number for number in range(min(line, len(lines)), 0, -1) if _begins(lines[number - 1])), 1)


def _begins(raw: str) -> bool:
    return raw[:1] in _INITIALS and raw.split(maxsplit=1)[0] in BLOCKS


def headings(lines: tuple[str, ...]) -> Iterator[SourceLine]:
    """The headings at the margin."""
    for number, raw in enumerate(lines, 1):
        if _begins(raw):
            yield from (one for one in classify_lines((raw,), number) if one.kind == "heading")


def parts_of(lines: tuple[str, ...]) -> frozenset[str]:
    """The names of the parts of a file, case-folded."""
    return heading.part_names(headings(lines))


def place(lines: tuple[str, ...], line: int, column: int) -> Place:
    """What is at a cursor; any line and column may be asked for."""
    if not 1 <= line <= len(lines) or column < 1:
        return Place(where="nothing", line=line, column=column)
    start = window(lines, line)
    text = lines[line - 1][: column - 1]
    # A letter where nothing stands yet, so that the line is of the kind it will be.
    typed = bool(text.strip(" \t"))
    at = Place(where="nothing", line=line, column=len(text) + 1, text=text)
    rows = list(classify_lines((*lines[start - 1 : line - 1], text if typed else f"{text}x"), start))
    block: BlockKind | Literal[""] = ""
    value: list[SourceLine] = []  # the entry whose value may continue, and its continuations
    for row in rows:
        if row.kind == "heading":
            value = []
            if row is not rows[-1]:
                block = one_of(BLOCKS, row.key) if row.key in BLOCKS else block
        elif row.kind in ("entry", "stray"):
            value = [row]
            block = "" if row.margin and row.kind == "entry" and not row.start else block
        elif row.kind == "more":
            value.append(row)
    here = rows[-1]
    if here.kind == "comment":
        return at
    at = replace(at, where="key", block=block, margin=not here.start)
    if here.kind == "more" or (here.kind == "entry" and (here.colon or len(text) > here.value)):
        return _in_value(at, value, typed)
    if here.kind == "heading" and here.key in BLOCKS and len(text) > here.value:
        found, comment = tokenize(here.content, here.value, PLAIN)
        quoted = bool(found) and found[-1].kind in ("text", "open")
        at = replace(at, where="heading", key=here.key, before=tuple(found))
        return replace(at, where="nothing") if quoted or comment >= 0 else at
    return at


def _in_value(at: Place, rows: list[SourceLine], typed: bool) -> Place:
    form = pattern(rows[0].key)
    found: list[Token] = []
    comment = -1
    for row in rows:
        some, comment = tokenize(row.content, row.value, form)
        found += some
    if not typed:
        found = found[:-1]
    last = found[-1] if found and found[-1].line == at.line else None
    inside = last is not None and (last.kind in ("open", "hash") or (last.kind == "text" and _touched(at, last)))
    return replace(
        at,
        where="nothing" if inside or comment >= 0 else "value",
        key=rows[0].key,
        before=tuple(found),
        opening=tuple(row.content.raw for row in rows[:-1]),
        bare=not rows[0].colon,
    )


def _touched(at: Place, tok: Token) -> bool:
    """Whether the cursor is directly after a token."""
    return tok.end == at.column - 1
