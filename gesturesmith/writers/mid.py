"""MIDI: pitch, time and loudness as they sound, with pitch bends, for sequencers and samplers."""

from __future__ import annotations

from gesturesmith.writers.base import Item, Writer, with_checksum


def _finish(item: Item, _: bytes) -> bytes:
    from gesturesmith.backends.midi import midi  # only this format pays for it

    (system,) = item.systems
    room = with_checksum(b"", b"")  # as long as the mark that takes its place
    before, after = midi(system, item.title or item.name, room).split(room)
    return with_checksum(before, after)


WRITER = Writer(
    key="mid",
    about="MIDI with pitch bends: pitch, time and loudness as they sound",
    kinds=("snippet", "score"),
    engraved=False,
    finish=_finish,
    scored=True,
)
