"""A block's name in all its places, and another in its stead."""

from __future__ import annotations

from collections.abc import Iterator

from gesturesmith.editing.place import key_of, lines_of, parts_of
from gesturesmith.editing.text import TextChange
from gesturesmith.kinds import BlockKind, one_of
from gesturesmith.lang import changes, heading
from gesturesmith.lang.keys import EVERY_KEY, pattern
from gesturesmith.lang.layout import SourceLine, classify_lines
from gesturesmith.lang.messages import shown
from gesturesmith.lang.nodes import Word
from gesturesmith.lang.notes import like_a_note
from gesturesmith.lang.play import play
from gesturesmith.lang.reader import ErrorList, Reader, name_message
from gesturesmith.lang.tokens import PLAIN, Token, is_name, tokenize
from gesturesmith.lang.words import BLOCKS, RESERVED
from gesturesmith.source import Source, Span, folded
from gesturesmith.values import frozen

_NOWHERE = Span(1, 1, 1)


@frozen(kw_only=True)
class NamePlace:
    """A place where a name stands; `defines` where the block itself is."""

    name: str
    span: Span
    defines: bool = False


@frozen
class Refusal:
    """Why a name cannot be another."""

    reason: str


def occurrences(source: Source, line: int, column: int) -> tuple[NamePlace, ...]:
    """Every place of the name that the cursor touches, in file order; none if it touches no name of a block."""
    there = tuple(_places(lines_of(source)))
    at = next((p for p in there if p.span.line == line and p.span.column <= column <= p.span.end_column), None)
    found = tuple(p for p in there if at is not None and folded(p.name) == folded(at.name))
    return found if any(p.defines for p in found) else ()


def rename(source: Source, line: int, column: int, name: str) -> tuple[TextChange, ...] | Refusal:
    """The changes that give the block at a cursor another name wherever it stands, or why that cannot be."""
    found = occurrences(source, line, column)
    if not found:
        return Refusal("there is no name of a gesture, passage, box or part here")
    lines = lines_of(source)
    own = folded(found[0].name)
    low = folded(name)
    if not is_name(name):
        return Refusal(name_message(name))
    if low in RESERVED or like_a_note(name):
        return Refusal(f"{shown(name)} is a word of the language: choose another name")
    if low in EVERY_KEY and _kind(lines, own) == "part":
        return Refusal(f"{shown(name)} is a key of the language: choose another name for the part")
    if low != own and any(p.defines and folded(p.name) == low for p in _places(lines)):
        return Refusal(f"the name {shown(name)} is taken: choose another")
    return tuple(TextChange(p.span, name) for p in found)


def _kind(lines: tuple[str, ...], name: str) -> str:
    rows = (row for row in classify_lines(lines) if row.kind == "heading")
    return next((row.key for row in rows if folded(_named(row)) == name), "")


def _named(row: SourceLine) -> str:
    found = tokenize(row.content, row.value, PLAIN)[0]
    return found[0].text if found and found[0].kind in ("word", "note") else ""


def _places(lines: tuple[str, ...]) -> Iterator[NamePlace]:
    """Every place where the name of a block stands, whether there is such a block or not."""
    rows = tuple(classify_lines(lines))
    names = heading.names(rows)
    parts = parts_of(lines)
    block: BlockKind | str = ""
    n = 0
    while n < len(rows):
        row = rows[n]
        n += 1
        if row.kind == "heading":
            block = one_of(BLOCKS, row.key) if row.key in BLOCKS else ""
            name = _named(row)
            if block and name:
                tok = tokenize(row.content, row.value, PLAIN)[0][0]
                yield NamePlace(name=name, span=tok.span, defines=True)
        elif row.kind == "entry":
            block = "" if row.margin and not row.start else block
            values = [row]
            while n < len(rows) and rows[n].kind in ("more", "blank", "comment"):
                values += [rows[n]] if rows[n].kind == "more" else []
                n += 1
            yield from _in_entry(row, values, block, names, parts)


def _in_entry(
    row: SourceLine, values: list[SourceLine], block: BlockKind | str, names: frozenset[str], parts: frozenset[str]
) -> Iterator[NamePlace]:
    if block == "passage" and row.key.casefold() in parts:
        number = row.content.number
        yield NamePlace(name=row.key, span=Span(number, row.start + 1, row.start + 1 + len(row.key)))
    key = key_of(row.key, block, parts)  # type: ignore[arg-type]
    if key is None or not key.names:
        return
    tokens: list[Token] = []
    for one in values:
        tokens += tokenize(one.content, one.value, pattern(row.key))[0]
    if key.read is not play:
        yield from (NamePlace(name=t.text, span=t.span) for t in tokens[:1] if t.kind in ("word", "note"))
        return
    reader = Reader([*tokens, Token("end", "", 0, 0, 0)], Word(row.key, _NOWHERE), ErrorList(names))
    while not reader.at_end():
        tok = reader.tok
        begins = reader.i == 0 or reader.back().text in (",", "/")
        named = tok.kind in ("word", "note") and tok.text.casefold() in names
        if begins and named and not changes.begins(reader):
            yield NamePlace(name=tok.text, span=tok.span)
        reader.next()
