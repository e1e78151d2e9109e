"""Sound: a sketch to hear how a gesture moves. It says nothing about how it is played, and no check reads it."""

from __future__ import annotations

import struct

from gesturesmith.writers.base import Item, Writer, with_checksum

_SKETCH = "A sketch of pitch and time, not of timbre"


def _finish(item: Item, _: bytes) -> bytes:
    from gesturesmith.backends import sound  # only this format pays for it

    chunks = sound.wave(score.performance for score in item.scores)
    told = _info(b"INAM", (item.title or item.name).encode()) + _info(b"ISFT", _SKETCH.encode())
    empty = with_checksum(b"", b"")
    mark = struct.pack("<4sI", b"ICMT", len(empty) + 1)
    comment = len(mark) + len(empty) + 1
    head = struct.pack("<4sI4s", b"LIST", 4 + len(told) + comment, b"INFO") + told + mark
    body = b"\0" + chunks  # the comment ends with a zero
    size = 4 + len(head) + len(empty) + len(body)
    return with_checksum(struct.pack("<4sI4s", b"RIFF", size, b"WAVE") + head, body)


def _info(key: bytes, text: bytes) -> bytes:
    """A text of a WAVE file, ended by zero and of even length."""
    whole = text + (b"\0" if len(text) % 2 else b"\0\0")
    return struct.pack("<4sI", key, len(whole)) + whole


WRITER = Writer(
    key="wav",
    about="a sketch to hear, of pitch and time, not of timbre",
    kinds=("snippet", "score"),
    engraved=False,
    finish=_finish,
    scored=True,
)
