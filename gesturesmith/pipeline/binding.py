"""Notes and music bound together: what is printed as one."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from gesturesmith.pipeline.types import CompileResult

if TYPE_CHECKING:
    from gesturesmith.writers import Binding, Item


def bound(result: CompileResult, notes: Item | None) -> CompileResult:
    """The result with each of its pages bound after the notes page: the file's own, or `notes` of several files."""
    from gesturesmith.pipeline.notes import NOTES

    own = next((item for item in result.items if item.output == NOTES), None)
    if own is None and notes is not None and result.items:
        # It belongs to other parts too, and is only bound with them.
        result = replace(result, items=(*result.items, replace(notes, kind="enclosed")))
    first = own or notes
    return replace(result, bindings=tuple(_bindings(result.items, first)) if first is not None else ())


def _bindings(items: tuple[Item, ...], notes: Item) -> Iterator[Binding]:
    from gesturesmith.writers import Binding

    for item in items:
        if item.kind == "page" and item.output != notes.output:
            together = (notes.output, item.output)
            yield Binding(place=item.place, outputs=together, title=item.title or item.name, author=item.author)
