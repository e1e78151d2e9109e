"""Standard MIDI File 1.0: chunks, events and variable-length numbers."""

from __future__ import annotations

import struct
from collections.abc import Iterable

TICKS = 10_080  # per quarter: quintuplets, septuplets and ninths fall on whole ticks
_META, _END_OF_TRACK = 0xFF, 0x2F

# (tick, order among events of the same tick, bytes)
type Event = tuple[int, int, bytes]


def header(tracks: int) -> bytes:
    """The header of a file of format 1 with so many tracks."""
    return struct.pack(">4sIHHH", b"MThd", 6, 1, tracks, TICKS)


def track(events: Iterable[Event], end: int) -> bytes:
    """A track chunk with its events in order of time, ending at tick `end` or with its last event."""
    body, now = bytearray(), 0
    for tick, _, data in sorted(events, key=lambda event: event[:2]):
        body += _number(tick - now) + data
        now = tick
    body += _number(max(0, end - now)) + meta(_END_OF_TRACK, b"")
    return struct.pack(">4sI", b"MTrk", len(body)) + bytes(body)


def meta(kind: int, data: bytes) -> bytes:
    """A meta event."""
    return bytes((_META, kind)) + _number(len(data)) + data


def control(channel: int, number: int, value: int) -> bytes:
    """A control change; channels count from 0."""
    return bytes((0xB0 | channel, number, value))


def program(channel: int, number: int) -> bytes:
    """A program change; programs count from 1, as General MIDI lists them."""
    return bytes((0xC0 | channel, number - 1))


def note_on(channel: int, key: int, velocity: int) -> bytes:
    """The beginning of a note; velocity 1 to 127."""
    return bytes((0x90 | channel, key, velocity))


def note_off(channel: int, key: int) -> bytes:
    """The end of a note."""
    return bytes((0x80 | channel, key, 64))


def bend(channel: int, value: int) -> bytes:
    """A pitch bend: 0 to 16383, 8192 for none."""
    return bytes((0xE0 | channel, value & 127, value >> 7))


def registered(channel: int, parameter: int, value: int) -> bytes:
    """A registered parameter set to a value in its coarse byte, then deselected: one delta time for all."""
    messages = (
        control(channel, 101, parameter >> 7),
        control(channel, 100, parameter & 127),
        control(channel, 6, value),
        control(channel, 38, 0),
        control(channel, 101, 127),
        control(channel, 100, 127),
    )
    return b"\0".join(messages)


def _number(n: int) -> bytes:
    """A variable-length number, seven bits a byte."""
    out = [n & 127]
    while n := n >> 7:
        out.append(n & 127 | 128)
    return bytes(reversed(out))
