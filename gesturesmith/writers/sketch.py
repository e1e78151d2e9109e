"""Sketches: what a gesture asks against what the instrument can do."""

from __future__ import annotations

from gesturesmith.writers.base import Item, Writer, with_checksum


def _finish(item: Item, engraved: bytes) -> bytes:
    opening, _, after = item.drawing.partition(">")
    return with_checksum(f"{opening}>\n<!-- ".encode(), f" -->{after}\n".encode())


WRITER = Writer(
    key="sketch",
    ending="sketch.svg",
    about="a picture of each gesture and passage, refused ones too, against what instrument and breath can do",
    kinds=("sketch",),
    engraved=False,
    finish=_finish,
)
