"""A performance as sound: a sketch of pitch and time, with the standard library."""

from __future__ import annotations

import array
import struct
import sys
from collections.abc import Iterable

from gesturesmith.backends.sound.render import render
from gesturesmith.backends.sound.timbre import RATE
from gesturesmith.tones import Performance

__all__ = ["RATE", "render", "wave"]

_FULL = 32_767


def wave(performances: Iterable[Performance]) -> bytes:
    """The chunks `fmt` and `data` of a WAVE file: one channel, 16 bits, RATE samples a second."""
    pcm = array.array("h", (round(v * _FULL) for v in render(performances)))
    if sys.byteorder == "big":
        pcm.byteswap()
    data = pcm.tobytes()
    form = struct.pack("<4sIHHIIHH", b"fmt ", 16, 1, 1, RATE, 2 * RATE, 2, 16)
    return form + struct.pack("<4sI", b"data", len(data)) + data
