"""LilyPond's own language: the document of a page or snippet, standing alone, to be changed by hand."""

from __future__ import annotations

from gesturesmith.writers._inline import inlined
from gesturesmith.writers.base import MARK, Item, Writer


def _finish(item: Item, _: bytes) -> bytes:
    return f"% {MARK}\n{inlined(item.document)}".encode()


WRITER = Writer(
    key="ly",
    about="LilyPond source of the page and of each snippet, standing alone",
    kinds=("page", "snippet"),
    engraved=False,
    finish=_finish,
)
