"""Classifies lines: a comment, a heading, a key with its value, or the continuation of a value.

Nothing is read twice, and no line depends on whether an earlier one was understood.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from gesturesmith.kinds import LineRole
from gesturesmith.lang.keys import EVERY_KEY, SETTINGS
from gesturesmith.lang.tokens import NormalisedLine, normalise
from gesturesmith.lang.words import BLOCKS

_KEY = re.compile(r"([^\W\d_][\w\-\u0300-\u036f]*(?:\.[a-z]+)?)[ \t]*:(?!:)")
_SEEN = 200  # characters of white space compared by their width
_FIRST = re.compile(r"[^\W\d_][\w\-\u0300-\u036f]*(?:\.[a-z]+)?")  # with the language of a text
_WORD = re.compile(r"[^\W\d_][\w\-\u0300-\u036f]*")


@dataclass(slots=True)
class SourceLine:
    """A line and its kind.

    kind     blank comment heading entry more; "stray" where it is none of these
    start    index of its first character that is not white space
    key      for an entry: the word before the colon; for a heading: the first word
    value    for an entry: index after the colon; for the others: index where reading begins
    colon    whether a colon follows the key
    margin   whether an entry is a setting
    """

    kind: LineRole
    content: NormalisedLine
    start: int
    key: str = ""
    value: int = 0
    colon: bool = False
    margin: bool = False

    @property
    def indent(self) -> str:
        """The white space at its start, no-break spaces as spaces."""
        return self.content.text[: self.start]


def classify_lines(lines: tuple[str, ...], first: int = 1) -> Iterator[SourceLine]:
    """Every line of a file, in order; `first` is the number of the first line."""
    in_block = False
    open_indent: str | None = None  # of the key whose value may continue
    for number, raw in enumerate(lines, first):
        here = normalise(number, raw)
        text = here.text
        body = text.lstrip(" \t")
        start = len(text) - len(body)
        if not body:
            yield SourceLine("blank", here, start)
            continue
        if body[0] == "#":
            yield SourceLine("comment", here, start)
            continue
        line = _classify(here, start, open_indent, in_block)
        if line.kind == "heading":
            in_block, open_indent = True, None
        elif line.kind in ("entry", "stray"):
            open_indent = line.indent
            in_block = in_block and not (line.margin and line.kind == "entry" and not line.indent)
        yield line


def _classify(here: NormalisedLine, start: int, open_indent: str | None, in_block: bool) -> SourceLine:
    """Classify a line that is neither blank nor a comment."""
    text = here.text
    match = _KEY.match(text, start)
    word = _FIRST.match(text, start)
    first = match[1] if match else word[0] if word else ""
    value = match.end() if match else word.end() if word else start
    colon = match is not None
    deeper = open_indent is not None and _deeper(text[:start], open_indent)
    setting = colon and first in SETTINGS  # `part:` names the part of a file for one instrument
    if first in BLOCKS and not setting and not (deeper and start and not _names_something(text, value)):
        return SourceLine("heading", here, start, first, value, colon)
    if colon and (not deeper or first in EVERY_KEY):
        return SourceLine("entry", here, start, first, value, True, _is_setting(first, start, in_block))
    if deeper:
        return SourceLine("more", here, start, value=start)
    if first in EVERY_KEY:
        return SourceLine("entry", here, start, first, value, False, _is_setting(first, start, in_block))
    if not start:
        return SourceLine("heading", here, start, first, value)
    return SourceLine("stray", here, start, first, value, margin=not in_block)


def _names_something(text: str, value: int) -> bool:
    """Whether a block keyword that begins an indented line is followed by a name and then nothing or a title."""
    rest = text[value:].strip(" \t:")
    word = _WORD.match(rest)
    after = rest[word.end() :].strip(" \t") if word else "?"
    return not after or after[0] in '"“„«'


def _is_setting(key: str, start: int, in_block: bool) -> bool:
    """Whether a key is a setting: at the margin, unless only blocks have it; indented, before any block."""
    if not in_block:
        return True
    return not start and (key in SETTINGS or key not in EVERY_KEY)


def _deeper(indent: str, than: str) -> bool:
    """Whether `indent` is deeper than `than`; by the visible width if tabs and spaces are mixed."""
    if indent.startswith(than):
        return len(indent) > len(than)
    return len(indent[:_SEEN].expandtabs(8)) > len(than[:_SEEN].expandtabs(8))
