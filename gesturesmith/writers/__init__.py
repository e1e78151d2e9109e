"""Output formats, found by file name."""

from __future__ import annotations

from collections.abc import Sequence

from gesturesmith import registry
from gesturesmith.writers.base import Binding, Item, Output, Writer

__all__ = ["Binding", "Item", "Output", "Writer", "bound", "get", "names"]


def names() -> tuple[str, ...]:
    """The names of all formats, sorted."""
    return registry.names(__name__)


def get(name: str) -> Writer:
    """The writer of the format called `name`; KeyError if there is none."""
    writer: Writer = registry.module(__name__, name).WRITER
    return writer


def bound(binding: Binding, pdfs: Sequence[bytes]) -> bytes:
    """The PDFs of a binding as one, for printing on both sides; ValueError if one cannot be read."""
    from gesturesmith.writers._binding import bound as made  # costs time, and few runs need it

    return made(binding, pdfs)
