"""Examples of the value of a key: those of the language page that are whole values."""

from __future__ import annotations

import re
from contextlib import suppress
from functools import cache

from gesturesmith.diagnostics.types import ReadError
from gesturesmith.editing.place import key_of
from gesturesmith.kinds import BlockKind
from gesturesmith.lang.keys import SETTINGS, Read, pattern
from gesturesmith.lang.nodes import Word
from gesturesmith.lang.reader import ErrorList, Reader, UnreadableError
from gesturesmith.lang.tokens import Token, normalise, tokenize
from gesturesmith.source import Span

_CODE = re.compile(r"`([^`]+)`")
_UNFINISHED = ("incomplete", "missing-unit")
_TOP = Span(1, 1, 2)


def reads(text: str, key: str, read: Read) -> bool:
    """Whether `text` is a whole value of a key, to the reader of its form."""
    return not _errors(text, key, read)


@cache
def begins(text: str, key: str, read: Read) -> bool:
    """Whether a value may begin so: nothing is wrong but what is missing after it."""
    return all(error.span.column > len(text) or error.rule in _UNFINISHED for error in _errors(text, key, read))


def _errors(text: str, key: str, read: Read) -> list[ReadError]:
    tokens, _ = tokenize(normalise(1, text), 0, pattern(key))
    tokens.append(Token("end", "", 1, len(text), len(text) + 1))
    notes = ErrorList()
    with suppress(UnreadableError):
        read(Reader(tokens, Word(key, _TOP), notes, text))
    return notes.errors


@cache
def examples(key: str, block: BlockKind | str) -> tuple[str, ...]:
    """Whole values of a key that the language page shows, except its fixed words; those of the setting of this name
    where it refers to that."""
    found = key_of(key, block)  # type: ignore[arg-type]
    if found is None:
        return ()
    shown = _CODE.findall(found.value)
    whole = tuple(text for text in shown if text not in found.words and reads(text, key, found.read))
    if not whole and block and key in SETTINGS and found.value.startswith("as in the settings"):
        return examples(key, "")
    return tuple(dict.fromkeys(whole))
