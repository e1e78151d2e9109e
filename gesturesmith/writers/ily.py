"""For a composer's own score: the music of a gesture as a variable, with the stencils beside it."""

from __future__ import annotations

from gesturesmith.inlining import template
from gesturesmith.writers.base import Item, Output, Writer, text_with_checksum

STENCILS = "gesturesmith.ily"


def _finish(item: Item, _: bytes) -> bytes:
    return text_with_checksum("%", item.ily)


def _stencils(items: tuple[Item, ...]) -> tuple[Output, ...]:
    """The stencils in one file, once in each folder with an `.ily`."""
    folders = sorted({item.place.parent for item in items})
    data = text_with_checksum("%", template(STENCILS)) if folders else b""
    return tuple(Output(place=folder / STENCILS, data=data) for folder in folders)


WRITER = Writer(
    key="ily",
    about="music to include in a score of your own, with gesturesmith.ily beside it",
    kinds=("snippet",),
    engraved=False,
    finish=_finish,
    beside=_stencils,
)
