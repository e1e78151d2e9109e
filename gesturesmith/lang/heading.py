"""Headings: the kind of block, its name and its title."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable

from gesturesmith.kinds import BlockKind, one_of
from gesturesmith.lang.keys import EVERY_KEY, SETTINGS
from gesturesmith.lang.layout import SourceLine
from gesturesmith.lang.messages import listed, shown
from gesturesmith.lang.nodes import Text, Word
from gesturesmith.lang.reader import ErrorList, Reader, UnreadableError, name_message
from gesturesmith.lang.tokens import PLAIN, Token, is_name, spanning, tokenize, unquoted
from gesturesmith.lang.words import BLOCKS, RESERVED, trade
from gesturesmith.source import Span
from gesturesmith.values import frozen


@frozen
class Heading:
    """A heading as far as it could be read; `guessed` if its kind had to be guessed."""

    kind: BlockKind
    name: Word
    title: Text | None
    span: Span
    guessed: bool = False


def names(lines: Iterable[SourceLine]) -> frozenset[str]:
    """The names of all blocks, case-folded."""
    found = set()
    for line in lines:
        if line.kind == "heading":
            word = line.content.text[line.value :].strip(" \t:").split(" ")[0]
            found.add(unicodedata.normalize("NFC", word).casefold())
    return frozenset(found)


def part_names(lines: Iterable[SourceLine]) -> frozenset[str]:
    """The names of the parts, case-folded."""
    return names(line for line in lines if line.key == "part")


def read(line: SourceLine, notes: ErrorList, taken: dict[str, int]) -> Heading:
    """The heading on `line`; `taken` holds the names so far, and the new name is added to it."""
    number = line.content.number
    key = Word(line.key, Span(number, line.start + 1, line.start + 1 + len(line.key)))
    kind = one_of(BLOCKS, line.key) if line.key in BLOCKS else _unknown(line, key, notes)
    if kind is None:
        end = len(line.content.text.rstrip(" \t")) + 1
        return Heading("gesture", Word("", key.span), None, Span(number, line.start + 1, end), guessed=True)
    tokens = tokenize(line.content, line.value, PLAIN)[0]
    at = tokens[-1].end if tokens else line.value
    tokens.append(Token("end", "", number, at, at + 1))
    if line.colon:
        notes.add("bad-heading", key.span, f"no colon after `{line.key}`: {kind} name")
    reader = Reader(tokens, key, notes)
    name, title = Word("", key.span), None
    try:
        name = _name(reader, kind)
        _take(name, kind, notes, taken)
        notes.block = name.text
        title = _title(reader)
    except UnreadableError:
        pass
    end = reader.back().end if reader.i else len(line.key) + line.start
    return Heading(kind, name, title, Span(number, line.start + 1, end + 1))


def _unknown(line: SourceLine, key: Word, notes: ErrorList) -> BlockKind | None:
    """The block probably meant by an unindented line that is neither a setting nor a heading, or None."""
    near = notes.nearest(line.key, BLOCKS) if line.key else ()
    if near:
        said = shown(line.key)
        notes.add("unknown-block", key.span, f"{said} does not start a block: write {listed(near)}", near)
        return one_of(BLOCKS, near[0])
    said, colon, _ = line.content.text[line.start :].partition(":")
    settings = trade(said, tuple(SETTINGS)) if colon else ()
    start = line.start + 1
    if settings:
        span = Span(line.content.number, start, start + len(said))
        notes.add("not-a-key", span, f"{shown(said)} is not a setting: write {listed(settings)}", settings)
        return None
    wide = key.span if line.key else Span(line.content.number, start, start + 1)
    what = f"a setting such as `tempo: 72`, or {listed(BLOCKS)} with a name"
    notes.add("not-a-key", wide, f"this line starts neither a setting nor a block: write {what}")
    return None


def _name(reader: Reader, kind: BlockKind) -> Word:
    tok = reader.tok
    if tok.kind == "end":
        reader.fail("missing-name", reader.key.span, f"every {_one(kind)} needs a name: {kind} beacon")
    if tok.kind == "text":
        words = "-".join(w for w in unquoted(tok.text).lower().split() if is_name(w))
        what = f"the name comes first, the title after it: {kind} {words[:30] or 'beacon'} {shown(tok.text)[1:-1]}"
        reader.fail("missing-name", tok.span, what)
    if tok.kind == "note":
        reader.fail("reserved-name", tok.span, f"{tok.text} is a note, so it cannot name {_article(kind)}")
    if tok.kind == "number":
        after = reader.ahead()
        rest = after.text if after.start == tok.end else ""
        reader.fail("bad-name", spanning(tok, after if rest else tok), name_message(tok.text + rest))
    if tok.kind != "word":
        reader.unexpected("a name")
    reader.next()
    if not is_name(tok.text):
        reader.fail("bad-name", tok.span, name_message(tok.text))
    return Word(unicodedata.normalize("NFC", tok.text), tok.span)


def _take(name: Word, kind: BlockKind, notes: ErrorList, taken: dict[str, int]) -> None:
    """Reserve the name, unless the language or another block uses it."""
    folded = name.text.casefold()
    if folded in RESERVED:
        what = f"`{name.text}` is a word of the language: choose another name"
        notes.add("reserved-name", name.span, what)
    elif kind == "part" and folded in EVERY_KEY:
        what = f"`{name.text}` is a key of the language: choose another name for the part"
        notes.add("reserved-name", name.span, what)
    elif folded in taken:
        what = (
            f"the name `{name.text}` is taken on line {taken[folded]} (capitals make no difference): choose another"
        )
        outside, notes.block = notes.block, name.text  # the mistake concerns these two blocks and no other
        notes.add("repeated-name", name.span, what)
        notes.block = outside
    else:
        taken[folded] = name.span.line


def _title(reader: Reader) -> Text | None:
    tok = reader.tok
    title = None
    if tok.kind == "text":
        title = reader.text()
    tok = reader.tok
    if tok.kind == "end":
        return title
    if tok.text == ":":
        reader.error("bad-heading", tok.span, "no colon after a heading: remove it")
        reader.next()
        return title
    if tok.kind in ("open", "hash", "bad"):
        reader.unexpected("a title in quotes or the end of the line")
    if tok.kind in ("word", "number", "note") and title is None:
        name = reader.back().text
        shape = f'{name}-{tok.text}, or a title in quotes: {name} "Title"'
        reader.fail("bad-heading", tok.span, f"a name is one word: {shape}")
    if tok.kind == "line" and title is None:
        reader.fail("bad-name", tok.span, "names are joined with single hyphens: fog-horn")
    return reader.fail("bad-heading", tok.span, f"unexpected {shown(tok.text)}: a heading is a name and a title")


def _one(kind: BlockKind) -> str:
    return "exercises block" if kind == "exercises" else kind


def _article(kind: BlockKind) -> str:
    return "exercises" if kind == "exercises" else f"a {kind}"
