"""MIDI files read by mido: what a synthesiser would play at any time."""

from __future__ import annotations

import io
from bisect import bisect_right
from collections.abc import Iterator

import mido

from gesturesmith import writers
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.source import Source
from gesturesmith.values import frozen
from gesturesmith.writers import Item


def files(text: str) -> Iterator[tuple[Item, bytes]]:
    """Each item of a file that has a MIDI file, and this file."""
    writer = writers.get("mid")
    for item in compile_text(Source("piece.gesture", text), Options()).items:
        if writer.takes(item):
            yield item, writer.finish(item, b"")


@frozen
class Played:
    """Everything a file says, with its time in seconds by its own tempo."""

    messages: tuple[tuple[float, mido.Message], ...]
    seconds: float

    def said(self, kind: str) -> list[tuple[float, mido.Message]]:
        return [(round(at, 6), message) for at, message in self.messages if message.type == kind]

    def pitches(self) -> dict[int, list[tuple[float, float | None]]]:
        """For each channel but that of percussion: when the pitch changes, in cents above C-1; None for silence."""
        keys: dict[int, int] = {}
        bends: dict[int, int] = {}
        ranges: dict[int, int] = {}
        parameters: dict[int, dict[int, int]] = {}
        found: dict[int, list[tuple[float, float | None]]] = {}
        for at, message in self.messages:
            if message.is_meta or message.channel == 9:
                continue
            channel = message.channel
            if message.type == "pitchwheel":
                bends[channel] = message.pitch
            elif message.type == "control_change":
                if message.control in (100, 101):
                    parameters.setdefault(channel, {})[message.control] = message.value
                if message.control == 6 and parameters[channel] == {101: 0, 100: 0}:
                    ranges[channel] = message.value
            elif message.type == "note_on":
                assert channel not in keys, "one line never sounds twice"
                keys[channel] = message.note
            elif message.type == "note_off":
                del keys[channel]
            cents = None
            if channel in keys:
                cents = 100 * keys[channel] + bends.get(channel, 0) / 8192 * 100 * ranges[channel]
            found.setdefault(channel, []).append((at, cents))
        return found


def read(data: bytes) -> Played:
    """A file as mido reads it, strictly."""
    file = mido.MidiFile(file=io.BytesIO(data), clip=False)
    now, messages = 0.0, []
    for message in file:
        now += message.time
        messages.append((now, message))
    return Played(tuple(messages), now)


def sounding(rows: dict[int, list[tuple[float, float | None]]], seconds: float) -> list[float]:
    """The pitches that sound at a time, in order."""
    found = []
    for changes in rows.values():
        i = bisect_right(changes, seconds, key=lambda row: row[0]) - 1
        if i >= 0 and (cents := changes[i][1]) is not None:
            found.append(cents)
    return sorted(found)
