"""Sketches: what a gesture asks against what the instrument can do."""

from __future__ import annotations

from gesturesmith.writers.base import Item, Writer, with_checksum


def _finish(item: Item, engraved: bytes) -> bytes:
    return sealed(item.drawing)


def sealed(drawing: str) -> bytes:
    """A picture as a file, with our mark in a comment."""
    opening, _, after = drawing.partition(">")
    return with_checksum(f"{opening}>\n<!-- ".encode(), f" -->{after}\n".encode())


WRITER = Writer(
    key="sketch",
    ending="sketch.svg",
    about="a picture of each gesture and passage, refused ones too, against what instrument and breath can do",
    kinds=("sketch",),
    engraved=False,
    finish=_finish,
)
