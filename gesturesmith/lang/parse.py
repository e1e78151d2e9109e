"""Text to syntax tree: each line is read on its own, so that a faulty one never hides the next."""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping
from typing import Literal

from gesturesmith import techniques
from gesturesmith.diagnostics.types import ReadError
from gesturesmith.kinds import BlockKind
from gesturesmith.lang import heading, indentation
from gesturesmith.lang.keys import EVERY_KEY, IN_BLOCK, LINE, SETTINGS, Key, Read, pattern
from gesturesmith.lang.layout import SourceLine, classify_lines
from gesturesmith.lang.messages import RULES, listed, shown
from gesturesmith.lang.nodes import Block, File, KeyEntry, Value, Word
from gesturesmith.lang.reader import ErrorList, Reader, UnreadableError, sign_name
from gesturesmith.lang.tokens import FORBIDDEN, MAX_TOKENS, Token, spanning, tokenize
from gesturesmith.lang.words import BLOCKS
from gesturesmith.source import Source, Span, as_said

LARGEST = 2_000_000  # characters; a large orchestral work needs far fewer
MAX_LINES = 400_000  # of such a file
_NOTHING = File((), ())
_CLEFS = ("clef", "cle", "schlussel", "notenschlussel", "chiave")


def parse(source: Source) -> tuple[File, tuple[ReadError, ...]]:
    """The syntax tree of a file and every error in it, in file order. Never raises, whatever the text."""
    problem = _unreadable(source.text)
    if problem:
        return _NOTHING, (problem,)
    raw = source.lines
    controls: dict[int, tuple[int, str]] = {}
    if FORBIDDEN.search(source.text.replace("\r", "\n")):
        controls = _controls(raw)
        raw = tuple(FORBIDDEN.sub(" ", line) for line in raw)
    lines = tuple(classify_lines(raw))
    notes = ErrorList(heading.names(lines))
    builder = _Builder(notes, controls, heading.part_names(lines))
    builder.read(lines)
    errors = sorted(notes.errors, key=lambda e: (e.rule == "too-many-errors", e.span.line, e.span.column))
    return File(tuple(builder.settings), tuple(builder.blocks)), tuple(errors)


def _unreadable(text: str) -> ReadError | None:
    """The single error of a file that is not text, or too long."""
    message = ""
    if len(text) > LARGEST:
        millions = LARGEST // 1_000_000
        message = f"this file is too large: more than {millions} million characters; divide it into several files"
    elif text.count("\n") + text.count("\r") - text.count("\r\n") > MAX_LINES:
        message = f"this file has too many lines: more than {MAX_LINES:,}; divide it into several files"
    elif "\0" in text:
        message = "this is not a text file: it contains null characters; save it as plain text in UTF-8"
    if not message:
        return None
    rule = "unreadable-file"
    return ReadError(code=RULES[rule], rule=rule, span=Span(1, 1, 2), message=message)


def _controls(lines: tuple[str, ...]) -> dict[int, tuple[int, str]]:
    """Line number to column and character of the first character on the line that is not allowed anywhere."""
    found = ((number, FORBIDDEN.search(line)) for number, line in enumerate(lines, 1))
    return {number: (match.start() + 1, match[0]) for number, match in found if match}


class _Builder:
    """Builds settings and blocks from lines."""

    def __init__(self, notes: ErrorList, controls: dict[int, tuple[int, str]], parts: frozenset[str]) -> None:
        self.notes = notes
        self.parts = parts
        self.controls = controls
        self.settings: list[KeyEntry] = []
        self.blocks: list[Block] = []
        self.seen: set[str] = set()  # keys of the current block
        self.settings_seen: set[str] = set()
        self.names: dict[str, int] = {}  # case-folded -> line of the block
        self.entries: list[KeyEntry] = []
        self.head: heading.Heading | None = None
        self.errors_before = 0
        self.last_line = 0
        self.indents = indentation.Indents(notes)

    def read(self, lines: tuple[SourceLine, ...]) -> None:
        """Read all lines of a file."""
        i = 0
        while i < len(lines) and not self.notes.full:
            line = lines[i]
            i += 1
            if line.kind in ("blank", "comment"):
                self._see(line)
                continue
            if line.kind == "heading":
                self._close()
                self._open(line)
                continue
            more: list[SourceLine] = []
            while i < len(lines) and lines[i].kind in ("more", "blank", "comment"):
                if lines[i].kind == "more":
                    more.append(lines[i])
                else:
                    self._see(lines[i])
                i += 1
            if line.margin and self.head and not line.indent:
                self._close()
            self._entry(line, more)
        self._close()

    def _see(self, line: SourceLine) -> None:
        """Report a forbidden character; errors that follow from it on the same line are not reported."""
        number = line.content.number
        if number in self.controls:
            column, sign = self.controls[number]
            what = f"{sign_name(sign)} cannot be used in a gesture file: delete it"
            self.notes.add("control-character", Span(number, column, column + 1), what)
            self.notes.silent.add(number)

    def _open(self, line: SourceLine) -> None:
        self.errors_before = self.notes.count
        self.notes.block = None
        self._see(line)
        self.indents.at_margin(line)
        self.head = heading.read(line, self.notes, self.names)
        self.notes.block = self.head.name.text or None
        self.entries = []
        self.seen = set()
        self.last_line = line.content.number

    def _close(self) -> None:
        head = self.head
        if head is None:
            return
        self.head = self.notes.block = None
        if head.guessed:
            return
        self.blocks.append(
            Block(
                kind=head.kind,
                name=head.name,
                title=head.title,
                entries=tuple(self.entries),
                broken=self.notes.count > self.errors_before,
                last_line=self.last_line,
                indent=self.indents.unit or "  ",
                span=head.span,
            )
        )

    def _entry(self, line: SourceLine, more: list[SourceLine]) -> None:
        """A key with its value, which may continue on the lines `more`."""
        for row in (line, *more):
            self._see(row)
        self.last_line = more[-1].content.number if more else line.content.number
        setting = line.margin or self.head is None
        if setting:
            self.indents.at_margin(line)
        else:
            self.indents.in_block(line)
        self.indents.going_on(more)
        if line.kind == "stray" or not line.key:
            self._stray(line)
            return
        kind: BlockKind | Literal[""] = "" if setting or self.head is None else self.head.kind
        key = self._known(line, kind)
        if key is None:
            return
        entry = self._read_entry(line, more, key.read)
        seen = self.settings_seen if setting else self.seen
        if line.key in seen and not key.repeatable:
            self.notes.add("repeated-key", entry.key.span, f"duplicate key `{line.key}`: keep one of the two")
            return
        seen.add(line.key)
        (self.settings if setting else self.entries).append(entry)

    def _read_entry(self, line: SourceLine, more: list[SourceLine], read: Read) -> KeyEntry:
        key = _key_word(line)
        if not line.colon:
            self.notes.add("missing-colon", key.span, f"missing colon after the key: {line.key}: …")
        tokens = _tokens(line, more)
        if len(tokens) > MAX_TOKENS:
            self.notes.add(
                "too-much", key.span, f"`{line.key}` is too long: more than {MAX_TOKENS:,} words and signs"
            )
            return KeyEntry(key, None, key.span)
        if not line.colon and tokens[0].text == "=":
            del tokens[0]
        first = tokens[0]
        if first.kind == "end":
            self.notes.add("empty-value", key.span, f"`{line.key}:` has no value: write one, or remove the key")
            return KeyEntry(key, None, key.span)
        reader = Reader(tokens, key, self.notes, line.content.raw)
        value: Value | None = None
        try:
            value = read(reader)
        except UnreadableError:
            value = None
        if reader.failed:
            value = None
        last = tokens[-2]
        if last.line != first.line:
            last = next(t for t in reversed(tokens[:-1]) if t.line == first.line)
        return KeyEntry(key, value, spanning(first, last))

    def _known(self, line: SourceLine, kind: BlockKind | Literal[""]) -> Key | None:
        """The key of this line; None, after a report, if it does not belong here."""
        keys = IN_BLOCK[kind] if kind else SETTINGS
        if line.key in keys:
            return keys[line.key]
        if kind == "passage" and _key_word(line).text.casefold() in self.parts:
            return LINE
        span = _key_word(line).span
        where = f"a key of {_a(kind)}" if kind else "a setting"
        homes = [b for b in BLOCKS if line.key in IN_BLOCK[b]]
        if line.key in EVERY_KEY:
            self.notes.add("misplaced-key", span, f"`{line.key}` is not {where}: {_home(line.key, homes, kind)}")
            return None
        if kind == "passage" and self.parts:
            self._no_such_part(line, span)
            return None
        near = self.notes.nearest(line.key, _alike(line.key, keys))
        wanted = f"write {listed(near)}" if near else _no_key(line.key, keys)
        self.notes.add("unknown-key", span, f"{shown(line.key)} is not {where}: {wanted}", near)
        return None

    def _no_such_part(self, line: SourceLine, span: Span) -> None:
        """Report a line of a passage for a part that the file does not have."""
        there = tuple(sorted(self.parts))
        near = self.notes.nearest(line.key, there)
        wanted = f"write {listed(near)}" if near else f"the parts are {listed(there, 'and')}"
        self.notes.add("unknown-part", span, f"no part is called {shown(line.key)}: {wanted}", near)

    def _stray(self, line: SourceLine) -> None:
        """An indented line that is not a key."""
        text = line.content.raw[line.start :].rstrip()
        end = line.start + (len(line.key) or len(text.split()[0]))
        span = Span(line.content.number, line.start + 1, end + 1)
        kind = self.head.kind if self.head else ""
        keys = _alike(line.key, IN_BLOCK[kind] if kind else SETTINGS)
        near = self.notes.nearest(line.key, keys) if line.key else ()
        hint = f"`{near[0]}: …`" if near else "a key, a colon and its value, such as `lasts: 4 beats`"
        self.notes.add("not-a-key", span, f"this line does not start with a key: write {hint}", near)


def _tokens(line: SourceLine, more: list[SourceLine]) -> list[Token]:
    """The tokens of a value on all its lines, closed by one of kind "end"."""
    form = pattern(line.key)
    found = tokenize(line.content, line.value, form)[0]
    for row in more:
        if len(found) > MAX_TOKENS:
            break
        found += tokenize(row.content, row.start, form)[0]
    if found:
        last = found[-1]
        found.append(Token("end", "", last.line, last.end, last.end + 1))
    else:
        found.append(Token("end", "", line.content.number, line.value, line.value + 1))
    return found


def _key_word(line: SourceLine) -> Word:
    number, start = line.content.number, line.start + 1
    return Word(unicodedata.normalize("NFC", line.key), Span(number, start, start + len(line.key)))


def _a(kind: BlockKind) -> str:
    return "exercises" if kind == "exercises" else f"a {kind}"


def _alike(word: str, keys: Mapping[str, Key]) -> tuple[str, ...]:
    """The keys that a word may have meant: those with a language only if it has a point too."""
    return tuple(key for key in keys if ("." in key) == ("." in word)) or tuple(keys)


def _no_key(word: str, keys: Mapping[str, Key]) -> str:
    """What to write instead of an unknown key: techniques and point words are not keys."""
    found = techniques.called(word) if "technique" in keys else ()
    if found:
        return f"write {listed(tuple(f'technique: {name}' for name in found))}"
    if as_said(word) in _CLEFS:
        return "the clef follows from the pitches, so leave this line out"
    return f"choose from {listed(_alike(word, keys), 'and')}"


def _home(key: str, homes: list[BlockKind], kind: BlockKind | Literal[""]) -> str:
    """Say where a misplaced key belongs."""
    if kind and key == "title":
        return f'a title goes in quotes after the name: {kind} name "Title"'
    places = [_a(b) for b in homes]
    if key in SETTINGS:
        places.append("the top of the file")
    return f"it belongs in {' or '.join(places)}"
